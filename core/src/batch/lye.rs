//! The one lye of a batch.

use crate::chemistry::{AlkaliMasses, Tally, lye_density};
use crate::material::Alkali;
use crate::problem::Problem;
use crate::quantity::Exact;
use crate::recipe::{AdditiveWater, Recipe, Water};

use super::balance::{JugBalance, plain_amount};
use super::units::Units;

/// The lye, g.
#[derive(Clone, Debug)]
pub(crate) struct IdealLye {
    /// As weighed, impurities included.
    pub(crate) alkali: AlkaliMasses,
    /// Plain water.
    pub(crate) water: Exact,
    pub(crate) liquids: Vec<Exact>,
    pub(crate) doses: Vec<Exact>,
    /// All of it.
    pub(crate) total: Exact,
    pub(crate) tally: Tally,
}

/// The one lye of a batch.
///
/// With d the demand in grams of KOH, the water that the lye is to hold is w d + c, where w comes from the water rule and
/// c from what other ingredients bring. A liquid that is balanced adds to the demand in proportion to that water, so
/// d = needs + k (w d + c), which is solved in one division.
pub(super) fn lye(
    recipe: &Recipe,
    units: &Units,
    fat: Exact,
    jugs: &[JugBalance],
) -> Result<IdealLye, Problem> {
    let doses: Vec<Exact> = recipe.lye.doses.iter().map(|dose| plain_amount(dose, fat, fat)).collect();
    let dose_water: Exact = units.lye.iter().zip(&doses).map(|(unit, mass)| unit.tally.water * *mass).sum();
    let counted: Exact = match recipe.additive_water {
        AdditiveWater::Extra => Exact::ZERO,
        AdditiveWater::Counts => jugs.iter().map(|jug| jug.outline.water).sum(),
    };
    let constant = match recipe.water {
        Water::ShareOfFat(share) => fat * share.exact(),
        Water::LyeConcentration(_) | Water::WaterToAlkali(_) => Exact::ZERO,
    };
    let (per_demand, constant) = (units.water_per_demand, constant - dose_water - counted);

    // Grams of each liquid, and alkali it needs, for a gram of the water to be filled.
    let liquid_mass: Vec<Exact> = recipe
        .lye
        .liquids
        .iter()
        .zip(&units.liquids)
        .map(|(line, unit)| line.share.exact() / unit.tally.water)
        .collect();
    let liquid_need: Exact =
        (units.liquids.iter().zip(&liquid_mass)).map(|(unit, mass)| unit.need * *mass).sum();
    let dose_need: Exact = (units.lye.iter().zip(&doses)).map(|(unit, mass)| unit.need * *mass).sum();
    let needs: Exact = jugs.iter().map(|jug| jug.need).sum::<Exact>() + dose_need;
    let demand = (needs + liquid_need * constant) / (Exact::ONE - liquid_need * per_demand);
    let fill = per_demand * demand + constant;
    if fill.is_negative() {
        return Err(too_wet(fill));
    }
    let liquids: Vec<Exact> = liquid_mass.iter().map(|mass| *mass * fill).collect();
    let plain = Exact::ONE - recipe.lye.liquids.iter().map(|line| line.share.exact()).sum::<Exact>();
    let (alkali, water) = (units.split.weighed(demand), fill * plain);
    let tally = lye_tally(units, &alkali, water, &liquids, &doses);
    let total = alkali.total() + water + liquids.iter().chain(&doses).copied().sum();
    let lye = IdealLye { alkali, water, liquids, doses, total, tally };
    Ok(with_residue(lye, recipe.workshop.lye_residue.exact()))
}

/// So much more lye of the same strength that what sticks to its vessel is not missed.
fn with_residue(lye: IdealLye, residue: Exact) -> IdealLye {
    if residue.is_zero() {
        return lye;
    }
    let (all, whole) = (lye.total + residue, lye.total);
    let more = |mass: &Exact| mass.portion(all, whole);
    IdealLye {
        alkali: AlkaliMasses { sodium: more(&lye.alkali.sodium), potassium: more(&lye.alkali.potassium) },
        water: more(&lye.water),
        liquids: lye.liquids.iter().map(more).collect(),
        doses: lye.doses.iter().map(more).collect(),
        total: all,
        tally: lye.tally.part(all, whole),
    }
}

/// Everything in the lye together.
pub(crate) fn lye_tally(
    units: &Units,
    alkali: &AlkaliMasses,
    water: Exact,
    liquids: &[Exact],
    doses: &[Exact],
) -> Tally {
    let mut tally = Tally { water, ..Tally::EMPTY };
    for kind in Alkali::ALL {
        if let Some(grade) = units.split.grade(kind) {
            tally = tally.plus(&Tally::of_alkali(kind, grade, alkali.of(kind)));
        }
    }
    // The table of lye speaks of alkali in water; what else is dissolved in it adds its own volume.
    let plain = tally.mass();
    tally.volume = plain
        / lye_density(
            tally.sodium_hydroxide / plain,
            tally.potassium_hydroxide / plain,
            units.lye_temperature,
        );
    for (unit, mass) in units.liquids.iter().zip(liquids).chain(units.lye.iter().zip(doses)) {
        tally = tally.and(*mass, &unit.tally);
    }
    tally
}

fn too_wet(fill: Exact) -> Problem {
    let over = (-fill).rounded(1).unwrap_or_default();
    Problem {
        code: "water.additives",
        pointer: "/water".to_owned(),
        message: format!("alkali and additives bring {over} g more water than the recipe has"),
        advice: "dose the wet additives lower, allow more water, or set \"additive_water\" to \"extra\""
            .to_owned(),
    }
}
