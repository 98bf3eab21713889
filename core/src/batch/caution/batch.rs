//! Cautions about the batch as a whole: lye, fats, moulds, temperatures.

use crate::material::{BasisKind, Class};
use crate::quantity::{Exact, Mass, Share, Volume, fixed, told_apart};
use crate::recipe::{Purpose, Recipe};

use super::super::layer::over_brim;
use super::super::plan::Plan;
use super::{Caution, compared, percent};

/// Lye from which sodium hydroxide falls out at 20 °C.
/// Source: solubility of NaOH 52.2 % at 20 °C, encyclopedia entry "sodium hydroxide"; 50 % freezes near 14 °C (Dow data
/// sheet).
const SODIUM_SATURATED: Share = Share::literal(522, 3);
/// Source: solubility of KOH 112 g in 100 g water at 20 °C, which is 52.8 %, encyclopedia entry.
const POTASSIUM_SATURATED: Share = Share::literal(528, 3);
/// Strong lye. Source: common practice, 40 % and above is for those who know it.
const STRONG: Share = Share::literal(40, 2);
/// Weak lye. Source: common practice, below 25 % it is slow and gels early.
const WEAK: Share = Share::literal(25, 2);
/// Source: common practice, more than 15-20 % of highly unsaturated oils turns rancid early.
const POLY_UNSATURATED: Share = Share::literal(15, 2);
/// Superfat from which that matters more. Source: common practice, 8-10 %.
const HIGH_SUPERFAT: Share = Share::literal(8, 2);
/// Source: common practice, lye and fats within 10 °C of each other.
const APART: Exact = Exact::literal(10, 0);
/// Source: common practice, mixing at 20-50 °C.
const COOL: Exact = Exact::literal(20, 0);
const HOT: Exact = Exact::literal(50, 0);
/// Source: common practice, 300-500 g of fat.
const SMALL: Mass = Mass::literal(300, 0);

/// Ethanol that foams and quickens, as a share of the fat. Source: common practice, boil it off.
pub(super) const ALCOHOL: Share = Share::literal(5, 3);

pub(super) fn cautions(recipe: &Recipe, plan: &Plan, out: &mut Vec<Caution>) {
    lye(plan, out);
    fats(plan, out);
    moulds(recipe, plan, out);
    temperatures(recipe, out);
    if plan.batch.fat < SMALL {
        let (fat, limit) = told_apart(plan.batch.fat.value(), SMALL.value(), 0);
        out.push(Caution {
            code: "batch.small",
            pointer: "/size".to_owned(),
            place: plan.name.clone(),
            message: "the batch is small: scale steps and what stays in jugs decide its superfat".to_owned(),
            figure: format!("{fat} g of fat"),
            limit: format!("{limit} g"),
            basis: BasisKind::CommonPractice,
            source: "common practice, no source",
            advice: "weigh on a finer scale, or make more".to_owned(),
        });
    }
    if plan.purpose == Purpose::Sale {
        out.push(Caution {
            code: "sale.assessment",
            pointer: "/for".to_owned(),
            place: plan.name.clone(),
            message: "this batch is to be sold: a plan is no safety assessment".to_owned(),
            figure: "for sale".to_owned(),
            limit: "a report by a qualified assessor".to_owned(),
            basis: BasisKind::Regulation,
            source: "Regulation (EC) No 1223/2009, article 10; in Great Britain as amended by S.I. 2019/696, schedule 34",
            advice: "have the formula assessed by a qualified person, and make it as assessed".to_owned(),
        });
    }
}

fn lye(plan: &Plan, out: &mut Vec<Caution>) {
    let figures = &plan.lye.figures;
    // To the tenth of a per cent that is shown: scale steps move the rest.
    let strength = Share::try_new(Exact::from(figures.concentration.exact().rounded(3)))
        .unwrap_or(figures.concentration);
    let (saturated, source) = if figures.potassium_hydroxide > figures.sodium_hydroxide {
        (POTASSIUM_SATURATED, "solubility of KOH at 20 °C: 112 g in 100 g of water, encyclopedia entry")
    } else {
        (SODIUM_SATURATED, "solubility of NaOH at 20 °C: 52.2 % by mass, encyclopedia entry")
    };
    let caution = |code, message: &str, limit: Share, basis, source, advice: &str| Caution {
        code,
        pointer: "/water".to_owned(),
        place: "lye".to_owned(),
        message: message.to_owned(),
        figure: percent(strength),
        limit: percent(limit),
        basis,
        source,
        advice: advice.to_owned(),
    };
    let practice = "common practice, no source";
    if strength > saturated {
        out.push(caution(
            "lye.saturated",
            "the lye is stronger than alkali dissolves at room temperature: solid alkali would settle",
            saturated,
            BasisKind::Handbook,
            source,
            "add water until the lye is well below this strength; never pour lye that is not clear",
        ));
    } else if strength > STRONG {
        out.push(caution(
            "lye.strong",
            "the lye is strong: the batter thickens quickly and heats more",
            STRONG,
            BasisKind::CommonPractice,
            practice,
            "use 30-38 % unless you know the recipe well",
        ));
    } else if strength < WEAK {
        out.push(caution(
            "lye.weak",
            "the lye is weak: the batter is slow, gels early and shrinks more as it dries",
            WEAK,
            BasisKind::CommonPractice,
            practice,
            "use 28-33 % for a first try",
        ));
    }
    let alcohol = Share::try_new(plan.lye.tally.alcohol / plan.batch.fat.exact()).unwrap_or(Share::ZERO);
    if alcohol > ALCOHOL {
        let (figure, limit) = compared(alcohol, ALCOHOL, "of the fat");
        out.push(Caution {
            code: "lye.alcohol",
            pointer: "/lye".to_owned(),
            place: "lye".to_owned(),
            message: "there is alcohol in the lye: it foams over when alkali is added".to_owned(),
            figure,
            limit,
            basis: BasisKind::CommonPractice,
            source: practice,
            advice: "boil beer or wine until alcohol and gas are gone, cool it, and top up with water"
                .to_owned(),
        });
    }
}

fn fats(plan: &Plan, out: &mut Vec<Caution>) {
    let classes = &plan.batch.indices.classes;
    let poly = classes
        .iter()
        .find(|line| line.class == Class::PolyUnsaturated)
        .map_or(Share::ZERO, |line| line.share);
    if poly > POLY_UNSATURATED && plan.batch.superfat > HIGH_SUPERFAT {
        let (poly, most) = compared(poly, POLY_UNSATURATED, "poly-unsaturated");
        let (superfat, high) = compared(plan.batch.superfat, HIGH_SUPERFAT, "superfat");
        out.push(Caution {
            code: "fat.poly-unsaturated",
            pointer: "/fats".to_owned(),
            place: plan.name.clone(),
            message: "much poly-unsaturated fat at a high superfat turns rancid early".to_owned(),
            figure: format!("{poly} at {superfat}, the fat of additives counted"),
            limit: format!("{most} at {high}"),
            basis: BasisKind::CommonPractice,
            source: "common practice, no source",
            advice: "lower the superfat, or exchange seed oils rich in linoleic acid for high-oleic ones"
                .to_owned(),
        });
    }
}

fn moulds(recipe: &Recipe, plan: &Plan, out: &mut Vec<Caution>) {
    if recipe.moulds.is_empty() {
        return;
    }
    let capacity: Volume = recipe.moulds.iter().map(crate::recipe::Mould::capacity).sum();
    let volumes: Vec<Volume> = plan.layers.iter().map(|layer| layer.volume).collect();
    let over = over_brim(recipe, &volumes);
    // A drop that no one sees over the line is no caution.
    let slack = Volume::literal(1, 0);
    if (over - rounding(plan)).is_positive() {
        let [over, least] = [over, rounding(plan)].map(|volume| volume.decimal().unwrap_or_default());
        let (over, least) = told_apart(over, least, 2);
        out.push(Caution {
            code: "mould.over",
            pointer: "/moulds".to_owned(),
            place: plan.name.clone(),
            message: "the layers are more than the moulds hold up to their brims: what is over runs off"
                .to_owned(),
            figure: format!("{over} mL over the brim"),
            limit: format!("{least} mL of rounding to scale steps"),
            basis: BasisKind::Derived,
            source: "volumes of the components, added",
            advice: "make less, or have a small mould ready for what is over".to_owned(),
        });
    } else if plan.batch.volume > capacity + slack {
        out.push(Caution {
            code: "mould.over",
            pointer: "/moulds".to_owned(),
            place: plan.name.clone(),
            message: "the layers stand higher than the moulds may be filled".to_owned(),
            figure: format!("{} mL", fixed(plan.batch.volume.value(), 0)),
            limit: format!("{} mL", fixed(capacity.value(), 0)),
            basis: BasisKind::Derived,
            source: "volumes of the components, added",
            advice: "make less, fill one mould more, or have a small mould ready for the rest".to_owned(),
        });
    }
}

/// How much the layers of a batch that was to fill its moulds may be more than the moulds hold, mL: what all its weighings
/// may be out together. A weighing is out by half a step; of the lightest thing weighed, which is more than half as dense as
/// batter, that takes less room than a whole step of batter.
fn rounding(plan: &Plan) -> Exact {
    let step = |place| {
        let line = plan.weigh_line(place)?;
        plan.scales.get(line.scale).map(|scale| scale.step.exact())
    };
    let steps: Exact = plan.weigh_places().into_iter().filter_map(step).sum();
    let poured: Mass = plan.layers.iter().map(|layer| layer.portion).sum();
    steps.portion(plan.batch.volume.exact(), poured.exact())
}

fn temperatures(recipe: &Recipe, out: &mut Vec<Caution>) {
    let (fats, lye) = (recipe.temperatures.fats.exact(), recipe.temperatures.lye.exact());
    let apart = (fats - lye).max(lye - fats);
    let practice = "common practice, no source";
    if (apart - APART).is_positive() {
        let (figure, limit) = degrees(apart, APART);
        out.push(Caution {
            code: "temperature.apart",
            pointer: "/temperatures".to_owned(),
            place: "mixing".to_owned(),
            message: "fats and lye are far apart in temperature: the batter may thicken unevenly".to_owned(),
            figure,
            limit,
            basis: BasisKind::CommonPractice,
            source: practice,
            advice: "let the warmer one cool until they are within 10 °C".to_owned(),
        });
    }
    for (name, temperature) in [("fats", fats), ("lye", lye)] {
        if (temperature - HOT).is_positive() || (COOL - temperature).is_positive() {
            out.push(Caution {
                code: "temperature.range",
                pointer: format!("/temperatures/{name}"),
                place: name.to_owned(),
                message: format!("{name} are mixed outside the usual temperatures")
                    .replace("lye are", "lye is"),
                figure: degrees(temperature, if (temperature - HOT).is_positive() { HOT } else { COOL }).0,
                limit: "20 to 50 °C".to_owned(),
                basis: BasisKind::CommonPractice,
                source: practice,
                advice: "mix at 30-45 °C; too cold gives a false trace, too hot may seize or overheat"
                    .to_owned(),
            });
        }
    }
}

/// A temperature and its limit that are told apart.
fn degrees(found: Exact, limit: Exact) -> (String, String) {
    let value = |degrees: Exact| degrees.decimal().unwrap_or_default().normalize();
    let (found, limit) = told_apart(value(found), value(limit), 0);
    (format!("{found} °C"), format!("{limit} °C"))
}
