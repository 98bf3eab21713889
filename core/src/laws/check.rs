//! The halves of the laws that look at plans. Each can be given any plan, also one that was tampered with.

use crate::batch::{Plan, WeighItem, Weighing};
use crate::chemistry::{Makeup, Stage};
use crate::problem::Problem;
use crate::quantity::{Exact, Mass};
use crate::recipe::Recipe;

pub use super::lye::lye_order;
use super::pair::{ideals, items, lye, residue, step, superfats, weighed, weighings};
use super::{Broken, ensure, superfat_span};

/// The last decimal of a published figure.
const LAST: Exact = Exact::literal(1, 12);

/// Remainders that are no further apart, in steps, are tied: the ideals that they are taken from are rounded figures.
const TIED: Exact = Exact::literal(1, 8);

fn equal(law: &'static str, what: &str, is: Mass, should: Mass) -> Result<(), Broken> {
    ensure(law, is == should, || format!("{what} is {is} and should be {should}"))
}

/// So many last decimals apart, or less.
fn near(law: &'static str, what: &str, is: Exact, should: Exact, last: i64) -> Result<(), Broken> {
    let apart = is - should;
    let most = LAST * Exact::from(last);
    ensure(law, !(apart.max(-apart) - most).is_positive(), || {
        format!("{what} is {} and should be {}", shown(is), shown(should))
    })
}

fn shown(value: Exact) -> String {
    value.published().map_or_else(|| "no number".to_owned(), |value| value.to_string())
}

fn count(things: usize) -> i64 {
    i64::try_from(things).unwrap_or(i64::MAX)
}

/// Mass in is mass out. Each vessel holds what was weighed into it; what was weighed altogether is poured, or left in the
/// pot, the lye's vessel or a jug; and every makeup, of jugs, batch and layers at every stage, closes on its total, which
/// before curing is all that is there.
///
/// # Errors
/// Where a figure is not as the law says; so for every check.
pub fn mass(recipe: &Recipe, plan: &Plan) -> Result<(), Broken> {
    let law = "mass";
    let poured: Mass = plan.layers.iter().map(|layer| layer.portion).sum();
    let mut left = plan.pot.left + plan.lye.left;
    equal(law, "the pot", plan.pot.total, weighed(plan.pot.fats.iter().chain(&plan.pot.doses)))?;
    equal(law, "the lye", plan.lye.total, weighed(lye(plan)))?;
    let mut mixed = Mass::ZERO;
    for jug in &plan.jugs {
        let name = &jug.name;
        let own = weighed(jug.held.iter().chain(&jug.doses).chain(&jug.late_doses));
        equal(law, &format!("{name}, net"), jug.net, jug.portion.weighed + jug.lye.weighed + own)?;
        let portions = jug.layers.iter().filter_map(|layer| plan.layers.get(*layer));
        let out: Mass = portions.map(|layer| layer.portion).sum();
        equal(law, &format!("{name}, poured and left"), out + jug.left, jug.net)?;
        closes(law, name, &jug.at_pour, Some(jug.net))?;
        closes(law, name, &jug.reacted, Some(jug.net))?;
        closes(law, name, &jug.cured, None)?;
        left += jug.left;
        mixed += jug.net;
    }
    equal(law, "all that is weighed", weighed(items(plan)), poured + left)?;
    equal(law, "all that is mixed", plan.batch.mixed, mixed)?;
    equal(law, "all that is poured", plan.batch.poured, poured)?;
    closes(law, "the batch", &plan.batch.at_pour, Some(poured))?;
    closes(law, "the batch", &plan.batch.reacted, Some(poured))?;
    closes(law, "the batch", &plan.batch.cured, None)?;
    for (index, layer) in plan.layers.iter().enumerate() {
        for stage in [Stage::Pour, Stage::Reacted, Stage::Cured] {
            match plan.makeup(index, stage, recipe.cured_water) {
                Some(makeup) => {
                    let total = (stage != Stage::Cured).then_some(layer.portion);
                    closes(law, &layer.name, &makeup, total)?;
                }
                None => {
                    ensure(law, layer.portion.is_zero(), || format!("{} is made of nothing", layer.name))?
                }
            }
        }
    }
    Ok(())
}

fn closes(law: &'static str, what: &str, makeup: &Makeup, total: Option<Mass>) -> Result<(), Broken> {
    let parts: Mass = makeup.parts.iter().map(|(_, mass)| *mass).sum();
    equal(law, &format!("{what}, its parts together"), parts, makeup.total)?;
    ensure(law, makeup.parts.iter().all(|(_, mass)| *mass >= Mass::ZERO), || {
        format!("{what} has a part below nought")
    })?;
    total.map_or(Ok(()), |total| equal(law, &format!("{what}, all of it"), makeup.total, total))
}

/// The parts of every split sum to the whole. Weighed: fats to the whole steps nearest to their ideal sum; portions to the
/// pot, and lye portions to the lye, but for the residue and what makes no step. Ideal: the same, within the rounding of
/// each figure.
///
/// # Errors
/// As [`mass`].
pub fn parts(recipe: &Recipe, plan: &Plan) -> Result<(), Broken> {
    let law = "parts";
    let fats = &plan.pot.fats;
    if let Some(first) = fats.first() {
        let step = step(plan, first.scale);
        let ideal: Mass = fats.iter().map(|item| item.ideal).sum();
        let slack = LAST * Exact::count(fats.len());
        let apart = weighed(fats).exact() - ideal.exact();
        let most = step.exact() * Exact::literal(5, 1) + slack;
        ensure(law, !(apart.max(-apart) - most).is_positive(), || {
            format!("the fats weigh {} for {ideal} on a scale of {step}", weighed(fats))
        })?;
    }
    let of =
        |portion: fn(&crate::batch::JugPlan) -> &Weighing| plan.jugs.iter().map(portion).collect::<Vec<_>>();
    let pot_ideal: Mass = fats.iter().chain(&plan.pot.doses).map(|item| item.ideal).sum();
    let pot = Split {
        what: "the pot",
        total: plan.pot.total,
        left: plan.pot.left,
        residue: recipe.workshop.pot_residue,
        ideal: pot_ideal,
        lines: count(fats.len().saturating_add(plan.pot.doses.len())),
    };
    pot.check(plan, &of(|jug| &jug.portion))?;
    let lye_ideal: Mass = lye(plan).map(|item| item.ideal).sum();
    let vessel = Split {
        what: "the lye",
        total: plan.lye.total,
        left: plan.lye.left,
        residue: recipe.workshop.lye_residue,
        ideal: lye_ideal,
        lines: count(lye(plan).count()),
    };
    vessel.check(plan, &of(|jug| &jug.lye))
}

/// A vessel that is divided over the jugs.
struct Split {
    what: &'static str,
    total: Mass,
    left: Mass,
    residue: Mass,
    ideal: Mass,
    /// How many figures the ideal is a sum of.
    lines: i64,
}

impl Split {
    fn check(&self, plan: &Plan, portions: &[&Weighing]) -> Result<(), Broken> {
        let law = "parts";
        let what = self.what;
        let out: Mass = portions.iter().map(|portion| portion.weighed).sum();
        equal(law, &format!("{what}, its portions and what is left"), out + self.left, self.total)?;
        let step = portions.iter().map(|portion| step(plan, portion.scale)).max().unwrap_or(Mass::ZERO);
        let over = self.left - self.residue;
        ensure(law, over >= Mass::ZERO && over < step, || {
            format!("{} is left of {what} for a residue of {} on a scale of {step}", self.left, self.residue)
        })?;
        let ideal: Mass = portions.iter().map(|portion| portion.ideal).sum();
        let figures = self.lines.saturating_add(count(portions.len()));
        let whole = (self.ideal - self.residue).exact();
        near(law, &format!("{what}, its ideal portions together"), ideal.exact(), whole, figures)
    }
}

/// Weighed amounts are whole steps of a scale that carries them. What is weighed for itself lies within half a step of its
/// ideal, a fat of the pot within one and a half.
///
/// # Errors
/// As [`mass`].
pub fn steps(plan: &Plan) -> Result<(), Broken> {
    let law = "steps";
    let fats = plan.pot.fats.len();
    for (index, item) in items(plan).enumerate() {
        let WeighItem { name, ideal, weighed, .. } = item;
        whole_steps(law, plan, name, *weighed, item.scale)?;
        let step = step(plan, item.scale).exact();
        let most = step * if index < fats { Exact::literal(15, 1) } else { Exact::literal(5, 1) };
        let apart = weighed.exact() - ideal.exact();
        ensure(law, !(apart.max(-apart) - most - LAST).is_positive(), || {
            format!("{name} weighs {weighed} for {ideal}")
        })?;
        let capacity = plan.scales.get(item.scale).map_or(Mass::ZERO, |scale| scale.capacity);
        ensure(law, *ideal <= capacity, || {
            format!("{name} of {ideal} is on a scale that carries {capacity}")
        })?;
    }
    for weighing in weighings(plan) {
        whole_steps(law, plan, "a portion", weighing.weighed, weighing.scale)?;
    }
    for layer in &plan.layers {
        let scale = plan.jugs.get(layer.jug).map_or(usize::MAX, |jug| jug.portion.scale);
        whole_steps(law, plan, &layer.name, layer.portion, scale)?;
    }
    Ok(())
}

fn whole_steps(law: &'static str, plan: &Plan, what: &str, mass: Mass, scale: usize) -> Result<(), Broken> {
    let step = step(plan, scale);
    let count = mass.exact().steps(step.exact());
    let whole = count.is_some_and(|count| Mass::try_new(Exact::from(count) * step.exact()) == Ok(mass));
    ensure(law, whole && mass >= Mass::ZERO, || format!("{what} of {mass} is no whole number of {step}"))
}

/// A jug's readings begin with its gross mass, each pour takes its portion off, and the next begins where the last ended.
/// No less than its residue stays in it.
///
/// # Errors
/// As [`mass`].
pub fn readings(recipe: &Recipe, plan: &Plan) -> Result<(), Broken> {
    let law = "readings";
    for jug in &plan.jugs {
        let mut shown = jug.gross;
        for layer in jug.layers.iter().filter_map(|layer| plan.layers.get(*layer)) {
            equal(law, &format!("{}, before it", layer.name), layer.reading.before, shown)?;
            equal(law, &format!("{}, after it", layer.name), layer.reading.after + layer.portion, shown)?;
            shown = layer.reading.after;
        }
        let residue = residue(recipe, &jug.layers);
        ensure(law, jug.left >= residue, || {
            format!("{} stays in {} for a residue of {residue}", jug.left, jug.name)
        })?;
        let (step, full) = (step(plan, jug.portion.scale), jug.tare.unwrap_or(Mass::ZERO) + jug.net);
        let apart = jug.gross.exact() - full.exact();
        let most = step.exact() * Exact::literal(5, 1);
        ensure(law, !(apart.max(-apart) - most).is_positive(), || {
            format!("{} shows {} for {full}", jug.name, jug.gross)
        })?;
    }
    Ok(())
}

/// The order of the fats decides nothing but ties: ideals and superfats are the same, and so is what is weighed, but that
/// a step may go to another of two fats whose remainders are the same.
///
/// # Errors
/// As [`mass`].
pub fn fats_order(one: &Plan, other: &Plan) -> Result<(), Broken> {
    let law = "fats-order";
    // What largest remainder compares: the quotas, in steps, of a whole that was rounded to whole steps itself.
    let ideal: Exact = one.pot.fats.iter().map(|item| item.ideal.exact()).sum();
    let whole = weighed(&one.pot.fats).exact();
    let mut moved: Vec<Exact> = Vec::new();
    for item in &one.pot.fats {
        let twin = other.pot.fats.iter().find(|twin| twin.id == item.id);
        let Some(twin) = twin else { return ensure(law, false, || format!("{} is missing", item.name)) };
        equal(law, &item.name, twin.ideal, item.ideal)?;
        if twin.weighed != item.weighed {
            let quota = whole * item.ideal.exact() / ideal / step(one, item.scale).exact();
            moved.push(quota - quota.whole_steps(Exact::ONE).map_or(Exact::ZERO, Exact::from));
        }
    }
    let tied = moved.iter().zip(moved.iter().skip(1)).all(|(a, b)| {
        let apart = *a - *b;
        !(apart.max(-apart) - TIED).is_positive()
    });
    ensure(law, tied, || "fats whose remainders differ are weighed differently".to_owned())?;
    equal(law, "the pot", other.pot.total, one.pot.total)?;
    let pairs = |plan: &Plan| ideals(plan).into_iter().skip(plan.pot.fats.len()).collect::<Vec<_>>();
    let (mut a, mut b) = (pairs(one), pairs(other));
    a.sort();
    b.sort();
    for ((what, a), (_, b)) in a.iter().zip(&b) {
        equal(law, what, *b, *a)?;
    }
    ensure(law, superfats(one) == superfats(other), || "the superfats differ".to_owned())?;
    if moved.is_empty() {
        for (a, b) in one.jugs.iter().zip(&other.jugs) {
            ensure(law, a.superfat == b.superfat, || {
                format!("the superfat of {} is {} and {}", a.name, a.superfat, b.superfat)
            })?;
        }
    }
    Ok(())
}

/// Two plans, or two refusals, are the same to the last byte.
///
/// # Errors
/// As [`mass`].
pub fn same(
    law: &'static str,
    one: Result<&Plan, &Vec<Problem>>,
    other: Result<&Plan, &Vec<Problem>>,
) -> Result<(), Broken> {
    let bytes = |plan: &Plan| plan.to_json().map_err(|error| error.to_string());
    let same = match (one, other) {
        (Ok(one), Ok(other)) => one == other && bytes(one) == bytes(other),
        (Err(one), Err(other)) => one == other,
        (Ok(_), Err(_)) | (Err(_), Ok(_)) => false,
    };
    ensure(law, same, || "the two plans differ".to_owned())
}

/// The plan with more superfat takes less of every alkali, ideally; weighed it takes no more.
///
/// # Errors
/// As [`mass`].
pub fn superfat(less: &Plan, more: &Plan) -> Result<(), Broken> {
    let law = "superfat";
    for (less, more) in less.lye.alkalis.iter().zip(&more.lye.alkalis) {
        ensure(law, more.ideal < less.ideal && more.weighed <= less.weighed, || {
            format!("{} rises from {} to {}", less.name, less.ideal, more.ideal)
        })?;
    }
    Ok(())
}

/// A layer and its two halves: everything else is the same; the halves' lye sums to the layer's, ideally within the
/// rounding of three figures, weighed within the steps of three splits (a part of a split lies within two steps of its
/// share: one for the cut to whole steps, of which it has its share, and one for largest remainder).
///
/// # Errors
/// As [`mass`].
pub fn halves(whole: &Plan, halved: &Plan, layer: usize) -> Result<(), Broken> {
    let law = "halves";
    let jug_of = |plan: &Plan, layer: usize| plan.layers.get(layer).map(|layer| layer.jug);
    let jugs = [jug_of(halved, layer), jug_of(halved, layer.saturating_add(1))];
    let (Some(jug), [Some(lower), Some(upper)]) = (jug_of(whole, layer), jugs) else {
        return ensure(law, false, || "there is no such layer".to_owned());
    };
    let (Some(jug), Some(lower), Some(upper)) =
        (whole.jugs.get(jug), halved.jugs.get(lower), halved.jugs.get(upper))
    else {
        return ensure(law, false, || "there is no such jug".to_owned());
    };
    let name = &jug.name;
    for (a, b) in lye(whole).zip(lye(halved)) {
        equal(law, &a.name, b.ideal, a.ideal)?;
    }
    for half in [lower, upper] {
        let (is, should) = (half.superfat_ideal, jug.superfat_ideal);
        ensure(law, is == should, || format!("half of {name} has a superfat of {is}, the whole {should}"))?;
    }
    if lower.name == upper.name {
        return equal(law, &format!("the lye of {name}"), lower.lye.ideal, jug.lye.ideal);
    }
    let sums =
        [("portion", [jug.portion, lower.portion, upper.portion]), ("lye", [jug.lye, lower.lye, upper.lye])];
    for (what, [jug, lower, upper]) in sums {
        let both = (lower.ideal + upper.ideal).exact();
        near(law, &format!("the {what} of the halves of {name}"), both, jug.ideal.exact(), 2)?;
        let apart = (lower.weighed + upper.weighed).exact() - jug.weighed.exact();
        let steps = step(whole, jug.scale) + step(halved, lower.scale) + step(halved, upper.scale);
        ensure(law, (apart.max(-apart) - steps.exact() * Exact::from(2)).is_negative(), || {
            format!("the {what} of the halves of {name} is off by {} g as weighed", shown(apart))
        })?;
    }
    Ok(())
}

/// No jug's superfat lies outside the span that scale steps explain: see [`superfat_span`].
///
/// # Errors
/// As [`mass`].
pub fn bound(recipe: &Recipe, plan: &Plan) -> Result<(), Broken> {
    for (index, jug) in plan.jugs.iter().enumerate() {
        let Some(span) = superfat_span(recipe, plan, index) else { continue };
        for superfat in [jug.superfat.exact(), jug.superfat_ideal.exact()] {
            let inside = !(superfat - span.low).is_negative() && !(span.high - superfat).is_negative();
            ensure("bound", inside, || {
                let (low, high) = (shown(span.low), shown(span.high));
                format!("the superfat of {} is {}, outside {low} to {high}", jug.name, shown(superfat))
            })?;
        }
    }
    Ok(())
}

/// A recipe that was written and read again is the same recipe.
///
/// # Errors
/// As [`mass`].
pub fn document(recipe: &Recipe, back: &Recipe) -> Result<(), Broken> {
    ensure("document", recipe == back, || format!("{:?} is read back as another recipe", recipe.name))
}

/// `factor` times everything: every ideal amount is so many times what it was, within the rounding of both figures, and
/// every ideal superfat is what it was.
///
/// # Errors
/// As [`mass`].
pub fn scaling(once: &Plan, more: &Plan, factor: u32) -> Result<(), Broken> {
    let law = "scaling";
    let times = i64::from(factor);
    let (a, b) = (ideals(once), ideals(more));
    ensure(law, a.len() == b.len(), || "another number of lines".to_owned())?;
    // Half a last decimal for the one, and that so many times for the other.
    let last = times.saturating_add(2).div_euclid(2);
    for ((what, a), (_, b)) in a.iter().zip(&b) {
        near(law, what, b.exact(), a.exact() * Exact::from(times), last)?;
    }
    ensure(law, superfats(once) == superfats(more), || "the superfats differ".to_owned())
}
