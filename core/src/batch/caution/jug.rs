//! Cautions about one jug: superfat, sugar, water, alcohol, what is dosed into it, and how finely it is weighed.

use crate::material::fragrance::Pace;
use crate::material::{Additive, BasisKind, Class};
use crate::quantity::{Exact, Mass, Share, percent_beside};
use crate::recipe::{Dose, Ingredient, Purpose, Recipe};

use super::super::mixture::Mixture;
use super::super::plan::{JugPlan, Plan};
use super::super::weigh::WeighItem;
use super::batch::ALCOHOL;
use super::{Caution, compared, percent};

const PRACTICE: &str = "common practice, no source";

/// Usual superfat of bath and hand bars. Source: common practice, 3-8 %.
const USUAL: (Share, Share) = (Share::literal(3, 2), Share::literal(8, 2));
/// Usual upper end where most of the fat is of the coconut kind, which dries the skin. Source: common practice, 15-25 %.
const USUAL_LAURIC: Share = Share::literal(25, 2);
/// Share of lauric and myristic acid from which a bar counts as of that kind: about 70 % coconut. Source: common practice.
const LAURIC: Share = Share::literal(45, 2);
/// A superfat this far from what was asked for is worth a word. Source: common practice, 1 g on 100 g of alkali.
const MOVED: Share = Share::literal(1, 2);
/// Source: common practice, over 3 % of the fat expect overheating.
const SUGAR: Share = Share::literal(3, 2);
/// Source: common practice, water : fat of layers within 3-5 points, else they part or cup as they dry.
const UNEVEN: Share = Share::literal(5, 2);
/// Source: common practice, 8 % (5-10) of the fat for puree.
const FRESH: Share = Share::literal(10, 2);
/// Source: common practice, a tablespoon to 500 g of batter, which is 3 %.
const LATE_WATER: Share = Share::literal(3, 2);
/// Fewer steps than this make the scale's error more than 2.5 % of what is weighed. Source: arithmetic.
const FEW_STEPS: i64 = 20;

pub(super) fn cautions(
    recipe: &Recipe,
    mixture: &Mixture<'_>,
    jug: &JugPlan,
    plan: &Plan,
    out: &mut Vec<Caution>,
) {
    let note = Note { mixture, plan, jug, per_fat: Exact::ONE / jug.tally.fat() };
    superfat(&note, plan, out);
    load(&note, plan, out);
    if waits(jug) {
        out.push(
            note.caution(
                "jug.waits",
                "stands mixed while other layers are poured and set, and thickens".to_owned(),
                (format!("{} pours", jug.layers.len()), "1 pour, or pours one after another".to_owned()),
                "keep it at emulsion, cool and stirred, or mix it anew for each line with lye kept aside"
                    .to_owned(),
            ),
        );
    }
    let items = jug.doses.iter().chain(&jug.late_doses);
    for dose in mixture.doses {
        if let Some(item) = items.clone().find(|item| item.pointer == dose.pointer) {
            dosed(recipe, &note, dose, item, out);
        }
    }
}

/// What a caution about a jug has in common with the others.
struct Note<'n> {
    mixture: &'n Mixture<'n>,
    jug: &'n JugPlan,
    plan: &'n Plan,
    /// One over its fat.
    per_fat: Exact,
}

/// The jug by name, with the names of its layers where those differ.
fn place(jug: &JugPlan, plan: &Plan) -> String {
    let layers: Vec<&str> = jug
        .layers
        .iter()
        .filter_map(|layer| plan.layers.get(*layer))
        .map(|layer| layer.name.as_str())
        .collect();
    if layers.iter().all(|layer| *layer == jug.name) {
        jug.name.clone()
    } else {
        format!("{} ({})", jug.name, layers.join(", "))
    }
}

impl Note<'_> {
    fn caution(
        &self,
        code: &'static str,
        message: String,
        (figure, limit): (String, String),
        advice: String,
    ) -> Caution {
        Caution {
            code,
            pointer: self.mixture.pointer.clone(),
            place: place(self.jug, self.plan),
            message,
            figure,
            limit,
            basis: BasisKind::CommonPractice,
            source: PRACTICE,
            advice,
        }
    }
}

fn superfat(note: &Note<'_>, plan: &Plan, out: &mut Vec<Caution>) {
    let (jug, aimed) = (note.jug, plan.batch.superfat_aimed);
    let lauric = plan.batch.indices.classes.iter().find(|line| line.class == Class::LauricMyristic);
    let upper = if lauric.is_some_and(|line| line.share > LAURIC) { USUAL_LAURIC } else { USUAL.1 };
    let found = jug.superfat;
    let usual = || format!("{} to {}", percent(USUAL.0), percent(upper));
    if found < Share::ZERO {
        out.push(Caution {
            basis: BasisKind::Derived,
            source: "stoichiometry of what is weighed",
            ..note.caution(
                "superfat.lye-heavy",
                "gets more alkali than its fat can take up: the soap would burn skin".to_owned(),
                // The least shortage is one too, and must not read as none.
                (percent_beside(found, Share::ZERO, 3), percent(Share::ZERO)),
                "do not make it so: raise the superfat, weigh on a finer scale, or make this layer larger"
                    .to_owned(),
            )
        });
    } else if found < USUAL.0 {
        let advice = "for skin, raise the superfat to 3-8 %; scale steps and the spread of saponification values may already use up what is left";
        out.push(note.caution(
            "superfat.low",
            "has little superfat".to_owned(),
            (compared(found, USUAL.0, "").0, usual()),
            advice.to_owned(),
        ));
    } else if found > upper {
        let advice = "lower the superfat, or balance additives that carry fat: the bar gets soft and turns rancid sooner";
        out.push(note.caution(
            "superfat.high",
            "has much superfat".to_owned(),
            (compared(found, upper, "").0, usual()),
            advice.to_owned(),
        ));
    }
    let moved = jug.superfat_ideal - aimed;
    let (because, instead) = if jug.held.is_empty() {
        (
            "of what its additives bring",
            "set \"treatment\" of the additive to \"balance\" so that the lye follows",
        )
    } else {
        ("fat held back until after the cook meets no lye", "hold less fat back")
    };
    if moved > MOVED || Share::ZERO - moved > MOVED {
        out.push(Caution {
            basis: BasisKind::Derived,
            source: "stoichiometry of the ideal amounts",
            ..note.caution(
                "superfat.moved",
                format!("does not have the superfat asked for, because {because}"),
                compared(jug.superfat_ideal, aimed, ""),
                format!("accept it, or {instead}"),
            )
        });
    }
}

fn load(note: &Note<'_>, plan: &Plan, out: &mut Vec<Caution>) {
    let jug = note.jug;
    if jug.sugars_of_fat > SUGAR {
        out.push(note.caution(
            "jug.sugar",
            "holds much sugar, which heats the block: it may crack, rise or part".to_owned(),
            compared(jug.sugars_of_fat, SUGAR, "of its fat"),
            "dose it lower, pour it thin or at the outside, keep the block cool and uncovered".to_owned(),
        ));
    }
    let water = |jug: &JugPlan| jug.water_of_fat;
    let lowest = plan.jugs.iter().map(water).min().unwrap_or(Share::ZERO);
    let uneven = jug.water_of_fat - lowest;
    if uneven > UNEVEN {
        out.push(note.caution(
            "jug.water-uneven",
            "has more water to its fat than the driest layer: the bar may cup or part as it dries".to_owned(),
            compared(jug.water_of_fat, lowest + UNEVEN, "of its fat"),
            "dose wet additives lower, or give the other layers a little water".to_owned(),
        ));
    }
    let alcohol = Share::try_new(jug.tally.alcohol * note.per_fat).unwrap_or(Share::ZERO);
    if alcohol > ALCOHOL {
        out.push(note.caution(
            "jug.alcohol",
            "holds alcohol, which thickens the batter at once and boils off in the block".to_owned(),
            compared(alcohol, ALCOHOL, "of its fat"),
            "boil it off first, or leave it out".to_owned(),
        ));
    }
}

/// Whether other layers lie between those of a jug.
fn waits(jug: &JugPlan) -> bool {
    jug.layers.windows(2).any(|pair| matches!(pair, [a, b] if a.saturating_add(1) != *b))
}

fn dosed(recipe: &Recipe, note: &Note<'_>, dose: &Dose, item: &WeighItem, out: &mut Vec<Caution>) {
    let of_fat = Share::try_new(item.weighed.exact() * note.per_fat).unwrap_or(Share::ZERO);
    let at = |caution: Caution| Caution { pointer: dose.pointer.clone(), ..caution };
    let over = |code, what: &str, limit: Share, advice: &str| {
        let message = format!("{}: {what}", item.name);
        at(note.caution(code, message, compared(of_fat, limit, "of the fat"), advice.to_owned()))
    };
    match &dose.ingredient {
        Ingredient::Additive(additive) => additives(recipe, note, dose, item, additive, of_fat, out),
        Ingredient::Colourant(colourant) => {
            if !colourant.alkali_stable {
                out.push(at(note.caution(
                    "colour.unstable",
                    format!("{}: alkali changes this colour", item.name),
                    ("not stable".to_owned(), "stable at the pH of soap".to_owned()),
                    "try it on a small block first; expect brown, or a fading colour".to_owned(),
                )));
            }
            if of_fat > colourant.usual_max {
                out.push(over(
                    "colour.high",
                    "more than usual",
                    colourant.usual_max,
                    "dose it lower, and test that the lather stays white",
                ));
            }
        }
        Ingredient::Fragrance(scent) => {
            if of_fat > scent.usual_max {
                out.push(over(
                    "scent.high",
                    "more than usual",
                    scent.usual_max,
                    "the supplier's certificate decides the largest dose; ask for it",
                ));
            }
            if matches!(scent.pace, Pace::Faster | Pace::Seizing) {
                out.push(at(note.caution(
                    "scent.pace",
                    format!("{}: thickens the batter", item.name),
                    (
                        if scent.pace == Pace::Seizing { "may seize" } else { "faster" }.to_owned(),
                        "steady".to_owned(),
                    ),
                    "have the mould ready, add it last and by hand, work cool".to_owned(),
                )));
            }
        }
        Ingredient::Fat(_) | Ingredient::Alkali(..) => {}
    }
}

fn additives(
    recipe: &Recipe,
    note: &Note<'_>,
    dose: &Dose,
    item: &WeighItem,
    additive: &Additive,
    of_fat: Share,
    out: &mut Vec<Caution>,
) {
    let at = |caution: Caution| Caution { pointer: dose.pointer.clone(), ..caution };
    if additive.fresh && of_fat > FRESH {
        out.push(at(note.caution(
            "additive.fresh",
            format!("{}: fresh and wet, dosed high; it may leave soft spots, and spoil", item.name),
            compared(of_fat, FRESH, "of the fat"),
            "puree it fine, dose about 8 % of the fat, let its water count, keep undried pieces out of the bar".to_owned(),
        )));
    }
    let water = || {
        let water = item.weighed.exact().portion(additive.composition.water.exact(), note.jug.net.exact());
        Share::try_new(water).unwrap_or(Share::ZERO)
    };
    if let Some(water) = dose.is_late().then(water).filter(|water| *water > LATE_WATER) {
        out.push(at(note.caution(
            "additive.late-water",
            format!("{}: brings water late, which softens the layer", item.name),
            compared(water, LATE_WATER, "of the layer"),
            "dose it on the layer's fat instead, so that it goes in before the lye".to_owned(),
        )));
    }
    if let (Purpose::Sale, Some(allergen)) = (recipe.purpose, &additive.allergen) {
        out.push(Caution {
            basis: BasisKind::CommonPractice,
            ..at(note.caution(
                "additive.allergen",
                format!("{}: {allergen}, which buyers may react to", item.name),
                (allergen.to_string(), "named on the label".to_owned()),
                "name it clearly on the label, and tell the assessor".to_owned(),
            ))
        });
    }
}

/// Whatever is weighed in few steps of its scale, each once.
pub(super) fn few_steps(mixtures: &[Mixture<'_>], plan: &Plan, out: &mut Vec<Caution>) {
    let step = |scale: usize| plan.scales.get(scale).map_or(Mass::ZERO, |scale| scale.step);
    let mut small = |place: &str, pointer: &str, what: &str, weighed: Mass, ideal: Mass, scale: usize| {
        let step = step(scale);
        if !(weighed.exact() - step.exact().times(FEW_STEPS)).is_negative() || ideal.is_zero() {
            return;
        }
        let steps = weighed.exact().steps(step.exact()).unwrap_or(i64::MAX);
        if steps < FEW_STEPS {
            let error = Share::try_new(step.exact() / (ideal.exact() + ideal.exact())).unwrap_or(Share::ZERO);
            out.push(Caution {
                code: "weigh.few-steps",
                pointer: pointer.to_owned(),
                place: place.to_owned(),
                message: format!(
                    "{what} is weighed in few steps: the scale alone may be {} out",
                    percent(error)
                ),
                figure: format!("{steps} steps of {step}"),
                limit: format!("{FEW_STEPS} steps"),
                basis: BasisKind::Derived,
                source: "half a step over what is weighed",
                advice: "weigh it on a finer scale, or weigh a larger amount and divide it".to_owned(),
            });
        }
    };
    let shared = plan
        .pot
        .fats
        .iter()
        .chain(&plan.pot.doses)
        .chain(&plan.lye.alkalis)
        .chain(&plan.lye.liquids)
        .chain(&plan.lye.doses);
    for item in shared {
        small("batch", &item.pointer, &item.name, item.weighed, item.ideal, item.scale);
    }
    for (mixture, jug) in mixtures.iter().zip(&plan.jugs) {
        small(
            &jug.name,
            &mixture.pointer,
            "its fat",
            jug.portion.weighed,
            jug.portion.ideal,
            jug.portion.scale,
        );
        small(&jug.name, &mixture.pointer, "its lye", jug.lye.weighed, jug.lye.ideal, jug.lye.scale);
        for item in jug.held.iter().chain(&jug.doses).chain(&jug.late_doses) {
            small(&jug.name, &item.pointer, &item.name, item.weighed, item.ideal, item.scale);
        }
    }
    for (index, layer) in plan.layers.iter().enumerate() {
        let scale = plan.jugs.get(layer.jug).map_or(0, |jug| jug.portion.scale);
        small(&layer.name, &format!("/layers/{index}"), "its portion", layer.portion, layer.portion, scale);
    }
}
