//! Ideal amounts: from the fat of each jug to its doses and its lye, at full precision.

use crate::chemistry::{
    AlkaliMasses, AlkaliSplit, Outline, Tally, carbonate_and_water, demand_of, lye_density,
};
use crate::material::Alkali;
use crate::problem::Problem;
use crate::quantity::Exact;
use crate::recipe::{
    AdditiveWater, Amount, Dose, DoseBasis, FatAmount, FatLine, FatStage, Recipe, Treatment, Water,
};

use super::mixture::Mixture;

/// Tallies of one gram of everything that a recipe uses, and its shares, worked out once.
#[derive(Debug)]
pub(crate) struct Units {
    /// Each fat line's share of all the fat, as a part of [`fat_whole`](Self::fat_whole).
    pub(crate) fat_parts: Vec<Exact>,
    /// What the parts sum to.
    pub(crate) fat_whole: Exact,
    pub(crate) fats: Vec<Tally>,
    /// All the parts of the fats that go into the pot, in outline.
    pot_fat: Outline,
    /// All the parts of the fats that are held back, in outline.
    held_fat: Outline,
    pub(crate) pot: Vec<Unit>,
    /// What the doses of the pot are together.
    pot_mixed: Mixed,
    pub(crate) doses: Vec<Vec<Unit>>,
    /// What the doses of each jug are together.
    mixed: Vec<Mixed>,
    pub(crate) liquids: Vec<Unit>,
    pub(crate) lye: Vec<Unit>,
    pub(crate) split: AlkaliSplit,
    /// Share of the demand that is left unmet.
    pub(crate) discount: Exact,
    /// Temperature of the lye, °C.
    pub(crate) lye_temperature: Exact,
    /// Water that the rule of the recipe asks for with a gram of demand, less what the alkali for it brings.
    water_per_demand: Exact,
}

/// One gram of a dose.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Unit {
    pub(crate) tally: Tally,
    outline: Outline,
    /// Alkali that a gram needs on top, in grams of KOH: none when it is absorbed.
    pub(crate) need: Exact,
}

impl Unit {
    fn of(dose: &Dose, temperature: Exact, discount: Exact) -> Self {
        let demand = demand_of(&dose.ingredient);
        let tally = Tally::of_demanding(&dose.ingredient, &demand, temperature);
        let need = match dose.treatment {
            Treatment::Absorb => Exact::ZERO,
            Treatment::Balance => demand.fat * (Exact::ONE - discount) + demand.acid,
        };
        Self { tally, outline: tally.outline(), need }
    }
}

/// The doses of a jug that are not reckoned on what is in it, together: for a gram of the layer's fat, for a gram of the
/// batch's, and those in grams.
#[derive(Clone, Copy, Debug)]
struct Mixed {
    of_layer_fat: Portion,
    of_batch_fat: Portion,
    plain: Portion,
}

/// Something in outline, and the alkali it needs on top.
#[derive(Clone, Copy, Debug)]
struct Portion {
    outline: Outline,
    need: Exact,
}

impl Portion {
    const NONE: Self = Self { outline: Outline::EMPTY, need: Exact::ZERO };

    fn add(&mut self, unit: &Unit, mass: Exact) {
        self.outline = self.outline.and(mass, &unit.outline);
        self.need = self.need + unit.need * mass;
    }
}

impl Mixed {
    fn of(doses: &[Dose], units: &[Unit]) -> Self {
        let mut mixed =
            Self { of_layer_fat: Portion::NONE, of_batch_fat: Portion::NONE, plain: Portion::NONE };
        for (dose, unit) in doses.iter().zip(units) {
            match dose.amount {
                Amount::Mass(mass) => mixed.plain.add(unit, mass.exact()),
                Amount::Share(share, DoseBasis::LayerFat) => mixed.of_layer_fat.add(unit, share.exact()),
                Amount::Share(share, DoseBasis::BatchFat) => mixed.of_batch_fat.add(unit, share.exact()),
                Amount::Share(_, DoseBasis::Layer | DoseBasis::Batch) => {}
            }
        }
        mixed
    }

    fn add_to(&self, outline: Outline, need: Exact, layer_fat: Exact, batch_fat: Exact) -> (Outline, Exact) {
        let parts =
            [(&self.of_layer_fat, layer_fat), (&self.of_batch_fat, batch_fat), (&self.plain, Exact::ONE)];
        parts
            .into_iter()
            .filter(|(part, _)| !part.outline.mass.is_zero())
            .fold((outline, need), |(outline, need), (part, fat)| {
                (outline.and(fat, &part.outline), need + part.need * fat)
            })
    }
}

impl Units {
    pub(crate) fn of(recipe: &Recipe, mixtures: &[Mixture<'_>]) -> Self {
        let warm = recipe.temperatures.fats.exact();
        let discount = recipe.superfat.discount();
        let unit = |dose: &Dose| Unit::of(dose, warm, discount);
        let units = |doses: &[Dose]| doses.iter().map(unit).collect::<Vec<_>>();
        let doses: Vec<Vec<Unit>> = mixtures.iter().map(|mixture| units(mixture.doses)).collect();
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
        let all_of = |stage: FatStage| {
            let lines = recipe.fats.iter().zip(&fats).zip(&fat_parts);
            lines
                .filter(|((line, _), _)| line.stage == stage)
                .fold(Outline::EMPTY, |sum, ((_, unit), part)| sum.and(*part, &unit.outline()))
        };
        let pot = units(&recipe.pot);
        let split = AlkaliSplit::of(&recipe.alkali);
        Self {
            pot_fat: all_of(FatStage::Pot),
            held_fat: all_of(FatStage::AfterCook),
            pot_mixed: Mixed::of(&recipe.pot, &pot),
            pot,
            fat_whole: fat_parts.iter().copied().sum(),
            fat_parts,
            fats,
            mixed: mixtures
                .iter()
                .zip(&doses)
                .map(|(mixture, units)| Mixed::of(mixture.doses, units))
                .collect(),
            doses,
            liquids: recipe.lye.liquids.iter().map(|line| unit(&line.dose)).collect(),
            lye: units(&recipe.lye.doses),
            water_per_demand: water_per_demand(recipe.water, &split),
            split,
            discount,
            lye_temperature: recipe.temperatures.lye.exact(),
        }
    }
}

fn water_per_demand(water: Water, split: &AlkaliSplit) -> Exact {
    let pure = split.pure(Exact::ONE).total();
    let weighed = split.weighed(Exact::ONE);
    let brought = |alkali: Alkali| {
        let grade = split.grade(alkali);
        grade.map_or(Exact::ZERO, |grade| carbonate_and_water(weighed.of(alkali), grade).1)
    };
    let asked = match water {
        Water::LyeConcentration(share) => pure.portion(Exact::ONE - share.exact(), share.exact()),
        Water::WaterToAlkali(ratio) => pure * Exact::from(ratio),
        Water::ShareOfFat(_) => Exact::ZERO,
    };
    asked - brought(Alkali::SodiumHydroxide) - brought(Alkali::PotassiumHydroxide)
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
    /// What it gets from the pot.
    pub(crate) portion: Exact,
    /// Each fat line held back, nought for the others.
    pub(crate) held: Vec<Exact>,
    /// Its doses, in the order of the mixture.
    pub(crate) doses: Vec<Exact>,
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

/// A batch of so much fat, balanced: what its jugs and its lye are, before anyone asks how much each dose is.
#[derive(Debug)]
pub(crate) struct Balance {
    /// All the fat lines together, g.
    pub(crate) fat: Exact,
    /// What the pot gives, g.
    usable: Exact,
    /// What the vessel of the lye gives, g.
    usable_lye: Exact,
    pub(crate) jugs: Vec<JugBalance>,
    pub(crate) lye: IdealLye,
}

/// A jug of it.
#[derive(Debug)]
pub(crate) struct JugBalance {
    /// Fat of the recipe's fat lines in it, fat held back included; what doses on the layer's fat are reckoned on.
    pub(crate) fat: Exact,
    /// Its share of what is in the pot.
    share: Exact,
    /// Alkali that it needs, in grams of KOH.
    need: Exact,
    /// Mass without the doses that are reckoned on it.
    so_far: Exact,
    /// Everything in it.
    pub(crate) outline: Outline,
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
) -> Result<Balance, Problem> {
    let pot_fat = units.pot_fat.part(fat, units.fat_whole);
    // Doses that are absorbed get no alkali, whatever fat they bring; those that are balanced get it for their acid too.
    let fat_need = pot_fat.fat_demand * (Exact::ONE - units.discount);
    let (pot, pot_need) = units.pot_mixed.add_to(pot_fat, fat_need, fat, fat);
    // What sticks to the pot is missing from every jug alike.
    let usable = pot.mass - recipe.workshop.pot_residue.exact();
    let whole: Exact = weights.iter().copied().sum();
    let of_pot = usable / pot.mass;

    let mut jugs: Vec<JugBalance> = Vec::with_capacity(mixtures.len());
    for (mixed, weight) in units.mixed.iter().zip(weights) {
        let share = of_pot.portion(*weight, whole);
        let jug_fat = fat * share;
        let mut outline = pot.times(share);
        if !units.held_fat.mass.is_zero() {
            outline = outline.and(jug_fat / units.fat_whole, &units.held_fat);
        }
        let (outline, need) = mixed.add_to(outline, pot_need * share, jug_fat, fat);
        jugs.push(JugBalance { fat: jug_fat, share, need, so_far: Exact::ZERO, outline });
    }

    let lye = lye(recipe, units, fat, &jugs)?;
    let need: Exact = jugs.iter().map(|jug| jug.need).sum();
    let usable_lye = lye.total - recipe.workshop.lye_residue.exact();
    let of_lye = usable_lye / lye.total;
    let lye_outline = lye.tally.outline();
    for jug in &mut jugs {
        jug.outline = jug.outline.and(of_lye.portion(jug.need, need), &lye_outline);
        jug.so_far = jug.outline.mass;
    }
    let batch: Exact = jugs.iter().map(|jug| jug.so_far).sum();
    for ((mixture, doses), jug) in mixtures.iter().zip(&units.doses).zip(&mut jugs) {
        for (dose, unit) in mixture.doses.iter().zip(doses) {
            if let Some(amount) = late_amount(dose, jug.so_far, batch) {
                jug.outline = jug.outline.and(amount, &unit.outline);
            }
        }
    }
    Ok(Balance { fat, usable, usable_lye, jugs, lye })
}

impl Balance {
    /// With the amount of every line.
    pub(crate) fn amounts(self, recipe: &Recipe, mixtures: &[Mixture<'_>], units: &Units) -> Ideal {
        let Self { fat, usable, usable_lye, jugs, lye } = self;
        let fats: Vec<Exact> =
            units.fat_parts.iter().map(|part| fat.portion(*part, units.fat_whole)).collect();
        let batch: Exact = jugs.iter().map(|jug| jug.so_far).sum();
        let (whole, need): (Exact, Exact) = jugs
            .iter()
            .fold((Exact::ZERO, Exact::ZERO), |(share, need), jug| (share + jug.share, need + jug.need));
        let jugs = jugs.into_iter().zip(mixtures).map(|(jug, mixture)| {
            let held = |(line, mass): (&FatLine, &Exact)| match line.stage {
                FatStage::Pot => Exact::ZERO,
                FatStage::AfterCook => *mass * jug.share,
            };
            let dose = |dose: &Dose| {
                late_amount(dose, jug.so_far, batch).unwrap_or_else(|| plain_amount(dose, jug.fat, fat))
            };
            IdealJug {
                portion: usable.portion(jug.share, whole),
                held: recipe.fats.iter().zip(&fats).map(held).collect(),
                doses: mixture.doses.iter().map(dose).collect(),
                lye: usable_lye.portion(jug.need, need),
                outline: jug.outline,
            }
        });
        Ideal {
            fat,
            pot_doses: recipe.pot.iter().map(|dose| plain_amount(dose, fat, fat)).collect(),
            jugs: jugs.collect(),
            fats,
            lye,
        }
    }
}

/// The amount of a dose on what is in the jug, or in all jugs: such doses come last and are reckoned on what is there
/// without them. Nothing for the others.
fn late_amount(dose: &Dose, jug: Exact, batch: Exact) -> Option<Exact> {
    match dose.amount {
        Amount::Share(share, DoseBasis::Layer) => Some(share.exact() * jug),
        Amount::Share(share, DoseBasis::Batch) => Some(share.exact() * batch),
        Amount::Share(_, DoseBasis::LayerFat | DoseBasis::BatchFat) | Amount::Mass(_) => None,
    }
}

/// The amount of a dose that is not reckoned on what is in the jug.
fn plain_amount(dose: &Dose, layer_fat: Exact, batch_fat: Exact) -> Exact {
    match dose.amount {
        Amount::Mass(mass) => mass.exact(),
        Amount::Share(share, DoseBasis::LayerFat) => layer_fat * share.exact(),
        Amount::Share(share, _) => batch_fat * share.exact(),
    }
}

/// Everything in the pot together.
pub(crate) fn pot_tally(recipe: &Recipe, units: &Units, fats: &[Exact], doses: &[Exact]) -> Tally {
    let in_pot =
        recipe.fats.iter().zip(&units.fats).zip(fats).filter(|((line, _), _)| line.stage == FatStage::Pot);
    let fats = in_pot.fold(Tally::EMPTY, |tally, ((_, unit), mass)| tally.and(*mass, unit));
    units.pot.iter().zip(doses).fold(fats, |tally, (unit, mass)| tally.and(*mass, &unit.tally))
}

/// The one lye of a batch.
///
/// With d the demand in grams of KOH, the water that the lye is to hold is w d + c, where w comes from the water rule and
/// c from what other ingredients bring. A liquid that is balanced adds to the demand in proportion to that water, so
/// d = needs + k (w d + c), which is solved in one division.
fn lye(recipe: &Recipe, units: &Units, fat: Exact, jugs: &[JugBalance]) -> Result<IdealLye, Problem> {
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
