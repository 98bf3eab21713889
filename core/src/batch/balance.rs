//! Ideal amounts: from the fat of each jug to its doses and its lye, at full precision.

use crate::chemistry::{AlkaliMasses, Outline};
use crate::problem::Problem;
use crate::quantity::Exact;
use crate::recipe::{Amount, Dose, DoseBasis, FatLine, FatStage, Recipe};

use super::lye::{IdealLye, lye};
use super::mixture::Mixture;
use super::units::Units;

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
    pub(super) need: Exact,
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
    /// The batch on the straight line from another through this, `at` times as far beyond this.
    pub(crate) fn beyond(&self, before: &Self, at: Exact) -> Self {
        let on = |before: Exact, now: Exact| now + (now - before) * at;
        let all = |before: &[Exact], now: &[Exact]| {
            before.iter().zip(now).map(|(before, now)| on(*before, *now)).collect::<Vec<_>>()
        };
        let jug = |(now, before): (&JugBalance, &JugBalance)| JugBalance {
            fat: on(before.fat, now.fat),
            share: on(before.share, now.share),
            need: on(before.need, now.need),
            so_far: on(before.so_far, now.so_far),
            outline: now.outline.beyond(&before.outline, at),
        };
        let (lye, was) = (&self.lye, &before.lye);
        Self {
            fat: on(before.fat, self.fat),
            usable: on(before.usable, self.usable),
            usable_lye: on(before.usable_lye, self.usable_lye),
            jugs: self.jugs.iter().zip(&before.jugs).map(jug).collect(),
            lye: IdealLye {
                alkali: AlkaliMasses {
                    sodium: on(was.alkali.sodium, lye.alkali.sodium),
                    potassium: on(was.alkali.potassium, lye.alkali.potassium),
                },
                water: on(was.water, lye.water),
                liquids: all(&was.liquids, &lye.liquids),
                doses: all(&was.doses, &lye.doses),
                total: on(was.total, lye.total),
                tally: lye.tally.beyond(&was.tally, at),
            },
        }
    }

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
pub(super) fn plain_amount(dose: &Dose, layer_fat: Exact, batch_fat: Exact) -> Exact {
    match dose.amount {
        Amount::Mass(mass) => mass.exact(),
        Amount::Share(share, DoseBasis::LayerFat) => layer_fat * share.exact(),
        Amount::Share(share, _) => batch_fat * share.exact(),
    }
}
