//! Ideal amounts: from the fat of each jug to its doses and its lye, at full precision.

use crate::chemistry::{
    AlkaliMasses, AlkaliSplit, Demand, Outline, Tally, carbonate_and_water, demand_of, lye_density,
};
use crate::material::Alkali;
use crate::problem::Problem;
use crate::quantity::Exact;
use crate::recipe::{AdditiveWater, Amount, Dose, DoseBasis, FatAmount, FatStage, Recipe, Treatment, Water};

use super::mixture::Mixture;

/// Tallies of one gram of everything that a recipe uses, and its shares, worked out once.
#[derive(Debug)]
pub(crate) struct Units {
    /// Each fat line's share of all the fat, as a part of [`fat_whole`](Self::fat_whole).
    pub(crate) fat_parts: Vec<Exact>,
    /// What the parts sum to.
    pub(crate) fat_whole: Exact,
    pub(crate) fats: Vec<Tally>,
    /// The same in outline.
    fat_outlines: Vec<Outline>,
    pub(crate) pot: Vec<Unit>,
    pub(crate) doses: Vec<Vec<Unit>>,
    pub(crate) liquids: Vec<Unit>,
    pub(crate) lye: Vec<Unit>,
    pub(crate) split: AlkaliSplit,
    /// Share of the demand that is left unmet.
    pub(crate) discount: Exact,
    /// Temperature of the lye, °C.
    pub(crate) lye_temperature: Exact,
}

/// One gram of a dose.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Unit {
    pub(crate) tally: Tally,
    outline: Outline,
    demand: Demand,
}

impl Unit {
    fn of(dose: &Dose, temperature: Exact) -> Self {
        let tally = Tally::of_ingredient(&dose.ingredient, temperature);
        Self { tally, outline: tally.outline(), demand: demand_of(&dose.ingredient) }
    }

    /// Alkali that a gram needs on top, in grams of KOH: none when it is absorbed.
    pub(crate) fn need(&self, treatment: Treatment, discount: Exact) -> Exact {
        match treatment {
            Treatment::Absorb => Exact::ZERO,
            Treatment::Balance => self.demand.fat * (Exact::ONE - discount) + self.demand.acid,
        }
    }
}

impl Units {
    pub(crate) fn of(recipe: &Recipe, mixtures: &[Mixture<'_>]) -> Self {
        let warm = recipe.temperatures.fats.exact();
        let units = |doses: &[Dose]| doses.iter().map(|dose| Unit::of(dose, warm)).collect::<Vec<_>>();
        let fat_parts: Vec<Exact> = recipe
            .fats
            .iter()
            .map(|line| match line.amount {
                FatAmount::Share(share) => share.exact(),
                FatAmount::Mass(mass) => mass.exact(),
            })
            .collect();
        let fats = recipe.fats.iter().map(|line| match line.stage {
            FatStage::Pot => Tally::of_fat(&line.fat, warm),
            FatStage::AfterCook => Tally::of_held_fat(&line.fat, warm),
        });
        let fats: Vec<Tally> = fats.collect();
        Self {
            fat_whole: fat_parts.iter().copied().sum(),
            fat_parts,
            fat_outlines: fats.iter().map(Tally::outline).collect(),
            fats,
            pot: units(&recipe.pot),
            doses: mixtures.iter().map(|mixture| units(mixture.doses)).collect(),
            liquids: recipe.lye.liquids.iter().map(|line| Unit::of(&line.dose, warm)).collect(),
            lye: units(&recipe.lye.doses),
            split: AlkaliSplit::of(&recipe.alkali),
            discount: recipe.superfat.discount(),
            lye_temperature: recipe.temperatures.lye.exact(),
        }
    }
}

/// Ideal amounts of a batch, g.
#[derive(Clone, Debug)]
pub(crate) struct Ideal {
    /// All the fat lines together.
    pub(crate) fat: Exact,
    /// Each fat line.
    pub(crate) fats: Vec<Exact>,
    /// Doses in the pot.
    pub(crate) pot_doses: Vec<Exact>,
    pub(crate) jugs: Vec<IdealJug>,
    pub(crate) lye: IdealLye,
}

/// Ideal amounts of a jug, g.
#[derive(Clone, Debug)]
pub(crate) struct IdealJug {
    /// Fat of the recipe's fat lines in it, fat held back included; what doses on the layer's fat are reckoned on.
    pub(crate) fat: Exact,
    /// What it gets from the pot.
    pub(crate) portion: Exact,
    /// Each fat line held back, nought for the others.
    pub(crate) held: Vec<Exact>,
    /// Its doses, in the order of the mixture.
    pub(crate) doses: Vec<Exact>,
    /// Alkali that it needs, in grams of KOH.
    pub(crate) need: Exact,
    /// Lye that it gets.
    pub(crate) lye: Exact,
    /// Everything in it.
    pub(crate) outline: Outline,
}

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

/// Balances a batch of `fat` grams of fat that goes to the jugs in proportion to `weights`.
///
/// # Errors
/// When the additives bring more water than the recipe has.
pub(crate) fn balance(
    recipe: &Recipe,
    mixtures: &[Mixture<'_>],
    units: &Units,
    fat: Exact,
    weights: &[Exact],
) -> Result<Ideal, Problem> {
    let fats: Vec<Exact> = units.fat_parts.iter().map(|part| fat * *part / units.fat_whole).collect();
    let pot_doses: Vec<Exact> = recipe.pot.iter().map(|dose| plain_amount(dose, fat, fat)).collect();
    let pot = pot_outline(recipe, units, &fats, &pot_doses);
    let pot_mass = pot.mass;
    // What sticks to the pot is missing from every jug alike.
    let usable = pot_mass - recipe.workshop.pot_residue.exact();
    let whole: Exact = weights.iter().copied().sum();

    let mut jugs: Vec<IdealJug> = Vec::with_capacity(mixtures.len());
    for ((mixture, doses), weight) in mixtures.iter().zip(&units.doses).zip(weights) {
        let (part, of) = (*weight * usable, whole * pot_mass);
        let share = |amount: Exact| amount * part / of;
        let held: Vec<Exact> = recipe
            .fats
            .iter()
            .zip(&fats)
            .map(|(line, mass)| if line.stage == FatStage::AfterCook { share(*mass) } else { Exact::ZERO })
            .collect();
        let jug_fat = share(fat);
        let mut outline = pot.part(part, of);
        let mut need = outline.fat_demand * (Exact::ONE - units.discount);
        // Doses of the pot that are absorbed get no alkali; those that are balanced get it for their acid too.
        for ((dose, unit), amount) in recipe.pot.iter().zip(&units.pot).zip(&pot_doses) {
            let own = share(*amount);
            need = need - own * unit.demand.fat * (Exact::ONE - units.discount)
                + own * unit.need(dose.treatment, units.discount);
        }
        for ((unit, mass), line) in units.fat_outlines.iter().zip(&held).zip(&recipe.fats) {
            if line.stage == FatStage::AfterCook {
                outline = outline.plus(&unit.times(*mass));
            }
        }
        let mut amounts = Vec::with_capacity(mixture.doses.len());
        for (dose, unit) in mixture.doses.iter().zip(doses) {
            let amount = if dose.is_late() { Exact::ZERO } else { plain_amount(dose, jug_fat, fat) };
            need = need + amount * unit.need(dose.treatment, units.discount);
            outline = outline.plus(&unit.outline.times(amount));
            amounts.push(amount);
        }
        let portion = *weight * usable / whole;
        jugs.push(IdealJug { fat: jug_fat, portion, held, doses: amounts, need, lye: Exact::ZERO, outline });
    }

    let lye = lye(recipe, units, fat, &jugs)?;
    let need: Exact = jugs.iter().map(|jug| jug.need).sum();
    let usable_lye = lye.total - recipe.workshop.lye_residue.exact();
    let lye_outline = lye.tally.outline();
    for jug in &mut jugs {
        jug.lye = usable_lye * jug.need / need;
        jug.outline = jug.outline.plus(&lye_outline.part(jug.lye, lye.total));
    }
    add_late_doses(mixtures, units, &mut jugs);
    Ok(Ideal { fat, fats, pot_doses, jugs, lye })
}

/// The amount of a dose that is not reckoned on what is in the jug.
fn plain_amount(dose: &Dose, layer_fat: Exact, batch_fat: Exact) -> Exact {
    match dose.amount {
        Amount::Mass(mass) => mass.exact(),
        Amount::Share(share, DoseBasis::LayerFat) => layer_fat * share.exact(),
        Amount::Share(share, _) => batch_fat * share.exact(),
    }
}

/// Everything in the pot together, in outline.
fn pot_outline(recipe: &Recipe, units: &Units, fats: &[Exact], doses: &[Exact]) -> Outline {
    let in_pot = recipe.fats.iter().zip(&units.fat_outlines).zip(fats);
    let in_pot = in_pot.filter(|((line, _), _)| line.stage == FatStage::Pot);
    let fats = in_pot.fold(Outline::EMPTY, |sum, ((_, unit), mass)| sum.plus(&unit.times(*mass)));
    units.pot.iter().zip(doses).fold(fats, |sum, (unit, mass)| sum.plus(&unit.outline.times(*mass)))
}

/// Everything in the pot together.
pub(crate) fn pot_tally(recipe: &Recipe, units: &Units, fats: &[Exact], doses: &[Exact]) -> Tally {
    let in_pot =
        recipe.fats.iter().zip(&units.fats).zip(fats).filter(|((line, _), _)| line.stage == FatStage::Pot);
    let fats = in_pot.fold(Tally::EMPTY, |tally, ((_, unit), mass)| tally.plus(&unit.times(*mass)));
    units.pot.iter().zip(doses).fold(fats, |tally, (unit, mass)| tally.plus(&unit.tally.times(*mass)))
}

/// Doses on what is in the jug, or in all jugs, come last and are reckoned on what is there without them.
fn add_late_doses(mixtures: &[Mixture<'_>], units: &Units, jugs: &mut [IdealJug]) {
    let batch: Exact = jugs.iter().map(|jug| jug.outline.mass).sum();
    for ((mixture, doses), jug) in mixtures.iter().zip(&units.doses).zip(jugs) {
        let so_far = jug.outline.mass;
        for ((dose, unit), amount) in mixture.doses.iter().zip(doses).zip(&mut jug.doses) {
            if let Amount::Share(share, basis @ (DoseBasis::Layer | DoseBasis::Batch)) = dose.amount {
                *amount = share.exact() * if basis == DoseBasis::Layer { so_far } else { batch };
                jug.outline = jug.outline.plus(&unit.outline.times(*amount));
            }
        }
    }
}

/// The one lye of a batch.
///
/// With d the demand in grams of KOH, the water that the lye is to hold is w d + c, where w comes from the water rule and
/// c from what other ingredients bring. A liquid that is balanced adds to the demand in proportion to that water, so
/// d = needs + k (w d + c), which is solved in one division.
fn lye(recipe: &Recipe, units: &Units, fat: Exact, jugs: &[IdealJug]) -> Result<IdealLye, Problem> {
    let per_koh_pure = units.split.pure(Exact::ONE).total();
    let per_koh_weighed = units.split.weighed(Exact::ONE);
    let water_of = |alkali: Alkali| {
        units
            .split
            .grade(alkali)
            .map_or(Exact::ZERO, |grade| carbonate_and_water(per_koh_weighed.of(alkali), grade).1)
    };
    let alkali_water = water_of(Alkali::SodiumHydroxide) + water_of(Alkali::PotassiumHydroxide);

    let doses: Vec<Exact> = recipe.lye.doses.iter().map(|dose| plain_amount(dose, fat, fat)).collect();
    let dose_water: Exact = units.lye.iter().zip(&doses).map(|(unit, mass)| unit.tally.water * *mass).sum();
    let counted: Exact = match recipe.additive_water {
        AdditiveWater::Extra => Exact::ZERO,
        AdditiveWater::Counts => jugs.iter().map(|jug| jug.outline.water).sum(),
    };
    let (per_demand, constant) = match recipe.water {
        Water::LyeConcentration(share) => {
            (per_koh_pure * (Exact::ONE - share.exact()) / share.exact(), Exact::ZERO)
        }
        Water::WaterToAlkali(ratio) => (per_koh_pure * Exact::from(ratio), Exact::ZERO),
        Water::ShareOfFat(share) => (Exact::ZERO, fat * share.exact()),
    };
    let per_demand = per_demand - alkali_water;
    let constant = constant - dose_water - counted;

    // Grams of each liquid, and alkali it needs, for a gram of the water to be filled.
    let liquid_mass: Vec<Exact> = recipe
        .lye
        .liquids
        .iter()
        .zip(&units.liquids)
        .map(|(line, unit)| line.share.exact() / unit.tally.water)
        .collect();
    let liquid_need: Exact = (recipe.lye.liquids.iter().zip(&units.liquids).zip(&liquid_mass))
        .map(|((line, unit), mass)| unit.need(line.dose.treatment, units.discount) * *mass)
        .sum();
    let dose_need: Exact = (recipe.lye.doses.iter().zip(&units.lye).zip(&doses))
        .map(|((dose, unit), mass)| unit.need(dose.treatment, units.discount) * *mass)
        .sum();
    let needs: Exact = jugs.iter().map(|jug| jug.need).sum::<Exact>() + dose_need;
    let demand = (needs + liquid_need * constant) / (Exact::ONE - liquid_need * per_demand);
    let fill = per_demand * demand + constant;
    if fill.is_negative() {
        return Err(too_wet(fill));
    }
    let liquids: Vec<Exact> = liquid_mass.iter().map(|mass| *mass * fill).collect();
    let plain = Exact::ONE - recipe.lye.liquids.iter().map(|line| line.share.exact()).sum::<Exact>();
    let lye = IdealLye {
        alkali: units.split.weighed(demand),
        water: fill * plain,
        liquids,
        doses,
        total: Exact::ZERO,
        tally: Tally::EMPTY,
    };
    Ok(with_residue(lye.totalled(units), recipe.workshop.lye_residue.exact(), units))
}

impl IdealLye {
    /// With its total and its tally.
    fn totalled(mut self, units: &Units) -> Self {
        self.tally = lye_tally(units, &self.alkali, self.water, &self.liquids, &self.doses);
        self.total = self.alkali.total()
            + self.water
            + self.liquids.iter().copied().sum::<Exact>()
            + self.doses.iter().copied().sum::<Exact>();
        self
    }
}

/// So much more lye of the same strength that what sticks to its vessel is not missed.
fn with_residue(lye: IdealLye, residue: Exact, units: &Units) -> IdealLye {
    if residue.is_zero() {
        return lye;
    }
    let whole = lye.total;
    let more = |mass: Exact| mass * (whole + residue) / whole;
    IdealLye {
        alkali: AlkaliMasses { sodium: more(lye.alkali.sodium), potassium: more(lye.alkali.potassium) },
        water: more(lye.water),
        liquids: lye.liquids.iter().map(|mass| more(*mass)).collect(),
        doses: lye.doses.iter().map(|mass| more(*mass)).collect(),
        ..lye
    }
    .totalled(units)
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
        tally = tally.plus(&unit.tally.times(*mass));
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
