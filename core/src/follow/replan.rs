//! The rest of a batch, reckoned anew from what is known to have gone in.
//!
//! Everything is reckoned *relative to the plan*: an amount that nothing touched is that of the plan to its last digit,
//! and one that depends on something that came out otherwise moves in proportion. So a batch without events is its plan.
//! A division into scale steps that still holds after an event is kept: rounding anew would move steps about for nothing.

use std::collections::BTreeMap;

use super::base::{Base, Pot, need};
use super::refuse::{impossible, mass, nothing_left, too_much};
use crate::batch::balance::Ideal;
use crate::batch::mixture::{Mixture, mixtures};
use crate::batch::units::Units;
use crate::batch::weigh::{Weighed, WeighedJug};
use crate::batch::{JugPlan, Plan, WeighItem, Weighing, plan};
use crate::material::Alkali;
use crate::problem::Problem;
use crate::quantity::{Exact, Mass, Share, StepShare, divide};
use crate::recipe::{Amount, Dose, DoseBasis, FatStage, Recipe};

/// Which jug (nothing for the pot and the lye), and the pointer of the item, `pot` or `lye`.
pub(crate) type Key = (Option<String>, String);

/// What goes into a jug from the pot.
pub(crate) const POT: &str = "pot";
/// What goes into it of the lye.
pub(crate) const LYE: &str = "lye";

/// What is known of a batch.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Ledger {
    /// The recipe as it turned out.
    pub(crate) truth: Recipe,
    /// What went in.
    pub(crate) fixed: BTreeMap<Key, Mass>,
    /// What was poured, by layer.
    pub(crate) poured: BTreeMap<String, Mass>,
    /// Free caustic alkali that the last test of a layer found.
    pub(crate) tests: BTreeMap<String, Share>,
    /// What an alkali turned out to be.
    pub(crate) is: BTreeMap<Alkali, Alkali>,
}

/// `now / before`; exactly one when they are equal or there was nothing before.
pub(super) fn ratio(now: Exact, before: Exact) -> Exact {
    if now == before || !before.is_positive() { Exact::ONE } else { now / before }
}

/// The division that was, when it divides as much.
pub(super) fn kept(before: Option<Vec<Mass>>, now: Vec<Mass>) -> Vec<Mass> {
    let sum = |parts: &[Mass]| parts.iter().copied().sum::<Mass>();
    before.filter(|before| sum(before) == sum(&now)).unwrap_or(now)
}

/// Plans the rest.
pub(crate) fn replan(base: &Base, ledger: &Ledger, before: &Plan) -> Result<Plan, Problem> {
    Rest { base, ledger, recipe: &ledger.truth, before }.plan()
}

pub(super) struct Rest<'b> {
    pub(super) base: &'b Base,
    pub(super) ledger: &'b Ledger,
    pub(super) recipe: &'b Recipe,
    /// The plan as it was before the last event.
    pub(super) before: &'b Plan,
}

/// A jug on the way: what it gets from the pot, and beside.
pub(super) struct Filled {
    /// Its index in the plan before any event.
    pub(super) base: usize,
    pub(super) portion: Mass,
    held: Vec<WeighItem>,
    pub(super) doses: Vec<WeighItem>,
    pub(super) need: Exact,
}

impl Rest<'_> {
    pub(super) fn fixed(&self, jug: Option<&str>, item: &str) -> Option<Mass> {
        self.ledger.fixed.get(&(jug.map(str::to_owned), item.to_owned())).copied()
    }

    pub(super) fn step(&self, scale: usize) -> Exact {
        self.recipe.workshop.scales.get(scale).map_or(Exact::ONE, |scale| scale.step.exact())
    }

    /// What jugs, by their index in the plan before any event, are weighed in for a division.
    pub(super) fn shares(
        &self,
        jugs: impl Iterator<Item = (usize, Exact)>,
        scale: impl Fn(&WeighedJug) -> usize,
    ) -> Vec<StepShare> {
        let share = |(jug, weight)| {
            let planned = self.base.weighed.jugs.get(jug)?;
            Some(StepShare { step: self.step(scale(planned)), weight })
        };
        jugs.filter_map(share).collect()
    }

    /// An item as it went in, or as planned, or in proportion.
    pub(super) fn item(
        &self,
        jug: Option<&str>,
        planned: &WeighItem,
        factor: Exact,
    ) -> Result<WeighItem, Problem> {
        let mut item = planned.clone();
        if factor != Exact::ONE {
            item.ideal = mass(planned.ideal.exact() * factor)?;
            item.weighed = self.in_steps(item.ideal.exact(), item.scale)?;
        }
        if let Some(found) = self.fixed(jug, &item.pointer) {
            item.weighed = found;
        }
        Ok(item)
    }

    pub(super) fn in_steps(&self, ideal: Exact, scale: usize) -> Result<Mass, Problem> {
        self.to_steps(ideal, self.step(scale))
    }

    pub(super) fn to_steps(&self, ideal: Exact, step: Exact) -> Result<Mass, Problem> {
        mass(Exact::from(ideal.steps(step).ok_or_else(impossible)?) * step)
    }

    /// A dose that the recipe did not have.
    fn added(&self, jug: Option<&str>, dose: &Dose) -> WeighItem {
        let mass = match dose.amount {
            Amount::Mass(mass) => mass,
            Amount::Share(..) => Mass::ZERO,
        };
        let scale = self.recipe.workshop.scale_for(mass).map_or(0, |(index, _)| index);
        let (id, name) = dose.ingredient.id_and_name();
        WeighItem {
            id,
            name,
            ideal: mass,
            weighed: self.fixed(jug, &dose.pointer).unwrap_or(mass),
            scale,
            pointer: dose.pointer.clone(),
        }
    }

    /// Doses with a factor for each basis; those that the recipe did not have come after the planned ones.
    pub(super) fn doses(
        &self,
        jug: Option<&str>,
        doses: &[Dose],
        planned: &[WeighItem],
        factor: impl Fn(Amount) -> Exact,
    ) -> Result<Vec<WeighItem>, Problem> {
        let found = doses.iter().enumerate().map(|(index, dose)| match planned.get(index) {
            Some(item) => self.item(jug, item, factor(dose.amount)),
            None => Ok(self.added(jug, dose)),
        });
        found.collect()
    }

    fn plan(&self) -> Result<Plan, Problem> {
        let (base, recipe) = (self.base, self.recipe);
        let mixtures = mixtures(recipe);
        let units = Units::of(recipe, &mixtures);

        let fats = base.weighed.fats.iter().map(|item| self.item(None, item, Exact::ONE));
        let fats: Vec<WeighItem> = fats.collect::<Result<_, _>>()?;
        let weighed_fat = |items: &[WeighItem]| items.iter().map(|item| item.weighed.exact()).sum::<Exact>();
        let of_batch_fat = ratio(weighed_fat(&fats), weighed_fat(&base.weighed.fats));
        let on_batch = |amount: Amount| match amount {
            Amount::Share(..) => of_batch_fat,
            Amount::Mass(_) => Exact::ONE,
        };
        let pot_doses = self.doses(None, &recipe.pot, &base.weighed.pot_doses, on_batch)?;
        let pot = Pot::of(recipe, &units, &fats, &pot_doses);

        let mut jugs = self.portions(&mixtures, &pot)?;
        for ((jug, mixture), doses) in jugs.iter_mut().zip(&mixtures).zip(&units.doses) {
            self.enrich(jug, mixture, &pot, of_batch_fat)?;
            let own: Exact = doses.iter().zip(&jug.doses).map(|(unit, item)| need(unit, item)).sum();
            jug.need = pot.need * jug.portion.exact() + own;
        }

        let mut weighed = Weighed { fats, pot_doses, pot: pot.mass, ..base.weighed.clone() };
        self.make_lye(&mut weighed, &units, &jugs, of_batch_fat)?;
        let lyes = self.lyes(&mixtures, &weighed, &units, &jugs)?;
        self.finish(&mixtures, &mut jugs, &lyes)?;

        weighed.jugs.clear();
        for (((jug, mixture), doses), lye) in jugs.iter().zip(&mixtures).zip(&units.doses).zip(lyes) {
            let planned = base.weighed.jugs.get(jug.base).ok_or_else(impossible)?;
            let mut tally = pot.tally.part(jug.portion.exact(), pot.mass.exact());
            tally = tally.plus(&weighed.lye_tally.part(lye.exact(), weighed.lye.exact()));
            let held =
                recipe.fats.iter().zip(&units.fats).filter(|(line, _)| line.stage == FatStage::AfterCook);
            for ((_, unit), item) in held.zip(&jug.held) {
                tally = tally.plus(&unit.times(item.weighed.exact()));
            }
            for (unit, item) in doses.iter().zip(&jug.doses) {
                tally = tally.plus(&unit.tally.times(item.weighed.exact()));
            }
            let beside: Mass = jug.held.iter().chain(&jug.doses).map(|item| item.weighed).sum();
            debug_assert_eq!(mixture.doses.len(), jug.doses.len());
            weighed.jugs.push(WeighedJug {
                portion: Weighing { weighed: jug.portion, ..planned.portion },
                held: jug.held.clone(),
                doses: jug.doses.clone(),
                lye: Weighing { weighed: lye, ..planned.lye },
                net: jug.portion + lye + beside,
                tally,
            });
        }
        let poured = self.pour(&mixtures, &weighed)?;
        let of_jugs = jugs.iter().filter_map(|jug| base.ideal.jugs.get(jug.base)).cloned().collect();
        let ideal = Ideal { jugs: of_jugs, ..base.ideal.clone() };
        plan::assemble(recipe, &mixtures, &ideal, weighed, poured).ok_or_else(impossible)
    }

    /// What each jug gets from the pot: what was weighed, and of the rest its part.
    fn portions(&self, mixtures: &[Mixture<'_>], pot: &Pot) -> Result<Vec<Filled>, Problem> {
        let base = self.base;
        let mut jugs = Vec::with_capacity(mixtures.len());
        let mut open = Vec::new();
        let mut given = Mass::ZERO;
        for (index, mixture) in mixtures.iter().enumerate() {
            let at = base.names.iter().position(|name| name == mixture.name).ok_or_else(impossible)?;
            let fixed = self.fixed(Some(mixture.name), POT);
            match fixed {
                Some(portion) => given += portion,
                None => open.push((index, self.weight(at, mixture))),
            }
            let portion = fixed.unwrap_or(Mass::ZERO);
            jugs.push(Filled { base: at, portion, held: Vec::new(), doses: Vec::new(), need: Exact::ZERO });
        }
        if given > pot.mass {
            return Err(too_much("the pot", pot.mass, given));
        }
        if !open.is_empty() {
            let left = pot.mass - self.recipe.workshop.pot_residue - given;
            let scale = |jug: &WeighedJug| jug.portion.scale;
            let of_open = open.iter().filter_map(|(index, weight)| Some((jugs.get(*index)?.base, *weight)));
            let shares = self.shares(of_open, scale);
            let parts = divide(left, left.exact(), &shares).ok_or_else(|| nothing_left("the pot", left))?;
            // A jug that lost a layer takes less.
            let before = open.iter().map(|(index, _)| {
                let mixture = mixtures.get(*index)?;
                let jug = self.jug_before(mixture.name)?;
                (jug.layers.len() == mixture.layers.len()).then_some(jug.portion.weighed)
            });
            let before: Option<Vec<Mass>> = before.collect();
            // What no scale of a jug could tell is not divided anew.
            let steps = base.weighed.jugs.iter().map(|jug| self.step(scale(jug)));
            let coarsest = steps.fold(Exact::ZERO, Exact::max);
            let holds = |before: &Vec<Mass>| {
                let over = left - before.iter().copied().sum();
                over >= Mass::ZERO && (coarsest - over.exact()).is_positive()
            };
            let parts = before.filter(holds).unwrap_or(parts);
            for ((index, _), portion) in open.iter().zip(parts) {
                if portion.is_zero() {
                    return Err(nothing_left("the pot", left));
                }
                if let Some(jug) = jugs.get_mut(*index) {
                    jug.portion = portion;
                }
            }
        }
        Ok(jugs)
    }

    /// A jug before the last event.
    pub(super) fn jug_before(&self, name: &str) -> Option<&JugPlan> {
        self.before.jugs.iter().find(|jug| jug.name == name)
    }

    /// A jug's part of what is divided: less by the layers that are skipped.
    fn weight(&self, at: usize, mixture: &Mixture<'_>) -> Exact {
        let ideal = self.base.ideal.jugs.get(at).map_or(Exact::ZERO, |jug| jug.portion);
        let share = |name: &str| self.base.layers.get(name).map_or(Exact::ZERO, |(_, share)| *share);
        let kept = mixture.layers.iter().filter_map(|layer| self.recipe.layers.get(*layer));
        let kept: Exact = kept.map(|layer| share(&layer.name)).sum();
        let of_jug = self.base.layers.values().filter(|(jug, _)| *jug == at);
        ideal * ratio(kept, of_jug.map(|(_, share)| *share).sum())
    }

    /// Fat held back, and the doses that come before the lye.
    fn enrich(
        &self,
        jug: &mut Filled,
        mixture: &Mixture<'_>,
        pot: &Pot,
        of_batch_fat: Exact,
    ) -> Result<(), Problem> {
        let base = self.base;
        let planned = base.weighed.jugs.get(jug.base).ok_or_else(impossible)?;
        let before: Exact = base.weighed.fats.iter().map(|item| item.weighed.exact()).sum();
        let before = planned.portion.weighed.exact() * before / base.weighed.pot.exact();
        let of_pot_fat = ratio(pot.fat_in(jug.portion), before);
        let name = Some(mixture.name);
        let held = planned.held.iter().map(|item| self.item(name, item, of_pot_fat));
        jug.held = held.collect::<Result<_, _>>()?;
        let sum = |items: &[WeighItem]| items.iter().map(|item| item.weighed.exact()).sum::<Exact>();
        let of_layer_fat = ratio(pot.fat_in(jug.portion) + sum(&jug.held), before + sum(&planned.held));
        let factor = |amount: Amount| match amount {
            Amount::Share(_, DoseBasis::LayerFat) => of_layer_fat,
            Amount::Share(_, DoseBasis::BatchFat) => of_batch_fat,
            Amount::Share(..) | Amount::Mass(_) => Exact::ONE,
        };
        jug.doses = self.doses(name, mixture.doses, &planned.doses, factor)?;
        Ok(())
    }

    /// Doses that are reckoned on what is in the jugs.
    fn finish(&self, mixtures: &[Mixture<'_>], jugs: &mut [Filled], lyes: &[Mass]) -> Result<(), Problem> {
        let base = self.base;
        let early = |doses: &[Dose], items: &[WeighItem]| -> Exact {
            let early = doses.iter().zip(items).filter(|(dose, _)| !dose.is_late());
            early.map(|(_, item)| item.weighed.exact()).sum()
        };
        let (mut now, mut before) = (Vec::new(), Vec::new());
        for ((jug, mixture), lye) in jugs.iter().zip(mixtures).zip(lyes) {
            let planned = base.weighed.jugs.get(jug.base).ok_or_else(impossible)?;
            let held = |items: &[WeighItem]| items.iter().map(|item| item.weighed.exact()).sum::<Exact>();
            now.push((jug.portion + *lye).exact() + held(&jug.held) + early(mixture.doses, &jug.doses));
            before.push(
                (planned.portion.weighed + planned.lye.weighed).exact()
                    + held(&planned.held)
                    + early(mixture.doses, &planned.doses),
            );
        }
        let sum = |masses: &[Exact]| masses.iter().copied().sum::<Exact>();
        let of_batch = ratio(sum(&now), sum(&before));
        for (((jug, mixture), now), before) in jugs.iter_mut().zip(mixtures).zip(&now).zip(&before) {
            let planned = base.weighed.jugs.get(jug.base).ok_or_else(impossible)?;
            for ((dose, item), planned) in mixture.doses.iter().zip(&mut jug.doses).zip(&planned.doses) {
                let factor = match dose.amount {
                    Amount::Share(_, DoseBasis::Layer) => ratio(*now, *before),
                    Amount::Share(_, DoseBasis::Batch) => of_batch,
                    Amount::Share(..) | Amount::Mass(_) => continue,
                };
                *item = self.item(Some(mixture.name), planned, factor)?;
            }
        }
        Ok(())
    }
}
