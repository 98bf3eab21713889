//! What is in a place that may have to be put right, and what its additions are worked out from.

use super::Batch;
use super::outcome::Tolerances;
use super::refuse::impossible;
use super::remedy::{Case, Line, Spare};
use super::replan::POT;
use crate::batch::JugPlan;
use crate::chemistry::{AlkaliSplit, Outline, Tally};
use crate::material::Fat;
use crate::problem::Problem;
use crate::quantity::{Exact, Mass, Share};
use crate::recipe::{FatStage, Ingredient};

/// Where something can be added.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Place {
    /// The pot and the vessel of the lye, as long as the lye is not divided.
    Batch,
    /// A jug, by its index in the plan.
    Jug(usize),
}

/// What is in a place.
pub(super) struct Found {
    pub(super) tally: Tally,
    planned: Outline,
    /// Of each fat: which, how much is there, its share as planned.
    fats: Vec<(Fat, Exact, Exact)>,
    /// Whether the lye still follows what is in the pot.
    waits: bool,
}

impl Found {
    pub(super) fn aimed(&self) -> Exact {
        self.planned.superfat()
    }

    pub(super) fn fats(&self) -> impl Iterator<Item = &Fat> {
        self.fats.iter().map(|(fat, ..)| fat)
    }
}

impl Batch {
    /// Whether a jug has its part of the pot, or of the lye.
    pub(super) fn is_divided(&self, what: &str) -> bool {
        self.ledger.fixed.keys().any(|(jug, item)| jug.is_some() && item == what)
    }

    pub(super) fn found(&self, place: Place) -> Result<Found, Problem> {
        let jugs = match place {
            Place::Batch => self.plan.jugs.as_slice(),
            Place::Jug(index) => {
                self.plan.jugs.get(index).map(std::slice::from_ref).ok_or_else(impossible)?
            }
        };
        let planned = jugs.iter().map(|jug| self.base.planned(&jug.name)).collect::<Option<Vec<_>>>();
        Ok(Found {
            tally: jugs.iter().fold(Tally::EMPTY, |sum, jug| sum.plus(&jug.tally)),
            planned: planned.ok_or_else(impossible)?.iter().fold(Outline::EMPTY, |sum, jug| sum.plus(jug)),
            fats: self.fats_in(jugs),
            waits: match place {
                Place::Batch => true,
                Place::Jug(_) => !jugs.iter().any(|jug| self.has_lye(&jug.name)),
            },
        })
    }

    /// The fats of the recipe in these jugs, and those that came in beside.
    fn fats_in(&self, jugs: &[JugPlan]) -> Vec<(Fat, Exact, Exact)> {
        let truth = self.truth();
        let whole: Exact = self.base.fat_parts().iter().copied().sum();
        let mut fats: Vec<(Fat, Exact, Exact)> = (self.recipe.fats.iter().zip(self.base.fat_parts()))
            .map(|(line, part)| (line.fat.clone(), Exact::ZERO, *part / whole))
            .collect();
        let from_pot: Exact = jugs.iter().map(|jug| jug.portion.weighed.exact()).sum();
        let pot = self.plan.pot.total.exact();
        let mut add = |fat: &Fat, mass: Exact| match fats.iter_mut().find(|(known, ..)| known.id == fat.id) {
            Some((_, there, _)) => *there = *there + mass,
            None => fats.push((fat.clone(), mass, Exact::ZERO)),
        };
        let in_pot = truth.fats.iter().filter(|line| line.stage == FatStage::Pot);
        for (line, item) in in_pot.zip(&self.plan.pot.fats) {
            add(&line.fat, item.weighed.exact() * from_pot / pot);
        }
        let held: Vec<&Fat> = (truth.fats.iter().filter(|line| line.stage == FatStage::AfterCook))
            .map(|line| &line.fat)
            .collect();
        for jug in jugs {
            for (fat, item) in held.iter().zip(&jug.held) {
                add(fat, item.weighed.exact());
            }
        }
        // Only fat that was added counts beside the lines: a dose of fat that was planned is part of the plan.
        let added = |pointer: &str| pointer.starts_with("/events/");
        for (dose, item) in truth.pot.iter().zip(&self.plan.pot.doses) {
            if let (Ingredient::Fat(fat), true) = (&dose.ingredient, added(&dose.pointer)) {
                add(fat, item.weighed.exact() * from_pot / pot);
            }
        }
        let doses = truth.layers.iter().flat_map(|layer| &layer.doses);
        let doses: Vec<_> = doses.chain(truth.jugs.iter().flat_map(|jug| &jug.doses)).collect();
        for item in jugs.iter().flat_map(|jug| jug.doses.iter().chain(&jug.late_doses)) {
            let dose = doses.iter().find(|dose| dose.pointer == item.pointer && added(&dose.pointer));
            if let Some(Ingredient::Fat(fat)) = dose.map(|dose| &dose.ingredient) {
                add(fat, item.weighed.exact());
            }
        }
        fats
    }
    /// What additions to a place are worked out from. `added` is what was added already; `fats` is how far the share of a
    /// fat may be off.
    pub(super) fn case(
        &self,
        place: Place,
        found: &Found,
        tolerances: &Tolerances,
        fats: Option<Share>,
        room: Exact,
    ) -> Option<Case> {
        let (tally, planned) = (&found.tally, &found.planned);
        let aimed = Share::try_new(found.aimed()).ok()?;
        let water_to_alkali = planned.water / (planned.alkali_koh * self.base.split.pure(Exact::ONE).total());
        // An alkali that was the other one is not what more lye should be made of; into its vessel goes more of the same.
        let same = place == Place::Batch || self.ledger.is.is_empty();
        let choice = if same { self.truth().alkali } else { self.recipe.alkali };
        let made = self.plan.lye.alkalis.iter().any(|item| self.is_reported(&item.pointer));
        let kept = Exact::ONE - tolerances.water.exact();
        let lines = found.fats.iter().map(|(fat, there, share)| Line {
            there: *there,
            share: *share,
            demand: fat.saponification_value.typical.exact() / Exact::THOUSAND,
        });
        let lye = &self.plan.lye;
        let into_jugs: Mass = self.plan.jugs.iter().map(|jug| jug.lye.weighed).sum();
        // What is added to a jug is weighed into it; to the batch, as the fullest jug is.
        let scale = match place {
            Place::Batch => self.plan.jugs.iter().map(|jug| jug.portion.scale).max()?,
            Place::Jug(index) => self.plan.jugs.get(index)?.portion.scale,
        };
        Some(Case {
            lines: lines.collect(),
            demand: tally.fat_demand(),
            net: tally.alkali().as_koh() - tally.acid_demand,
            alkali: tally.alkali().total(),
            water: tally.water,
            superfat: (
                // A tolerance never reaches into lye-heavy soap.
                (aimed.exact() - tolerances.superfat.exact()).max(Exact::ZERO),
                (aimed.exact() + tolerances.superfat.exact()).max(Exact::ZERO),
            ),
            share_within: fats.map(Share::exact),
            least_water: water_to_alkali * kept,
            step: self.plan.scales.get(scale)?.step.exact(),
            split: AlkaliSplit::of(&choice),
            fresh_water: self.base.water_to_alkali(),
            fat_fits: place != Place::Batch || !self.is_divided(POT),
            // Lye that is not made yet follows the fat by itself.
            alkali_fits: place != Place::Batch || made,
            arrives: match place {
                Place::Batch => into_jugs.exact() / lye.total.exact(),
                Place::Jug(_) => Exact::ONE,
            },
            spare: found.waits.then(|| self.spare(made)),
            room,
        })
    }

    /// Lye that is not given out yet.
    fn spare(&self, made: bool) -> Spare {
        let lye = &self.plan.lye;
        let koh = lye.tally.alkali().as_koh();
        let over = (lye.left - self.truth().workshop.lye_residue).max(Mass::ZERO);
        Spare {
            aimed: self.plan.batch.superfat_aimed.exact(),
            most: made.then(|| over.exact() * koh / lye.total.exact()),
            alkali: lye.tally.alkali().total() / koh,
            water: lye.tally.water / koh,
        }
    }

    /// Grams that can be added: what the moulds still take up to their brims beside all that is planned, and never more
    /// than there is already, for then it is a new batch.
    pub(super) fn room(&self, tally: &Tally) -> Exact {
        let there = tally.mass();
        if self.recipe.moulds.is_empty() {
            return there;
        }
        let brim: Exact = (self.recipe.moulds.iter())
            .map(|mould| mould.shape().volume().exact() * Exact::from(i64::from(mould.count())))
            .sum();
        let planned: Exact = self.plan.layers.iter().map(|layer| layer.volume.exact()).sum();
        ((brim - planned).max(Exact::ZERO) * there / tally.volume).min(there)
    }
}
