//! The plan before any event, by its stages: what the rest of a batch is reckoned relative to.

use std::collections::BTreeMap;

use crate::batch::balance::Ideal;
use crate::batch::mixture::mixtures;
use crate::batch::size::layer_shares;
use crate::batch::units::{Unit, Units, pot_tally};
use crate::batch::weigh::{Weighed, in_line_order};
use crate::batch::{WeighItem, weighed};
use crate::chemistry::{AlkaliSplit, Outline, Tally};
use crate::problem::Problem;
use crate::quantity::{Exact, Mass};
use crate::recipe::Recipe;

/// The plan before any event, by its stages.
#[derive(Clone, Debug)]
pub(crate) struct Base {
    pub(super) ideal: Ideal,
    pub(super) weighed: Weighed,
    pub(super) split: AlkaliSplit,
    /// Names of the jugs.
    pub(super) names: Vec<String>,
    /// Grams of KOH that each jug needs, as weighed.
    pub(super) needs: Vec<Exact>,
    /// What a gram of lye brings, in grams of KOH.
    pub(super) strength: Exact,
    /// Each layer by name: its jug, and its share.
    pub(super) layers: BTreeMap<String, (usize, Exact)>,
    fat_parts: Vec<Exact>,
}

impl Base {
    pub(crate) fn of(recipe: &Recipe) -> Result<Self, Vec<Problem>> {
        let mixtures = mixtures(recipe);
        let (units, ideal, weighed) = weighed(recipe, &mixtures)?;
        let masses = Pot::of(recipe, &units, &weighed.fats, &weighed.pot_doses);
        let needs = (units.doses.iter().zip(&weighed.jugs))
            .map(|(doses, jug)| {
                let own: Exact = doses.iter().zip(&jug.doses).map(|(unit, item)| need(unit, item)).sum();
                masses.need * jug.portion.weighed.exact() + own
            })
            .collect();
        let strength = strength(&units, &weighed);
        let shares = layer_shares(recipe);
        let mut layers = BTreeMap::new();
        for (index, mixture) in mixtures.iter().enumerate() {
            for layer in &mixture.layers {
                if let Some((line, share)) = recipe.layers.get(*layer).zip(shares.get(*layer)) {
                    layers.insert(line.name.clone(), (index, *share));
                }
            }
        }
        let names = mixtures.iter().map(|mixture| mixture.name.to_owned()).collect();
        let fat_parts = units.fat_parts;
        Ok(Self { ideal, weighed, split: units.split, names, needs, strength, layers, fat_parts })
    }

    /// What a jug should have held, at full precision.
    pub(super) fn planned(&self, jug: &str) -> Option<Outline> {
        let index = self.names.iter().position(|name| name == jug)?;
        self.ideal.jugs.get(index).map(|jug| jug.outline)
    }

    /// Each fat line's share of the fat, as a part of what they sum to.
    pub(super) fn fat_parts(&self) -> &[Exact] {
        &self.fat_parts
    }

    /// Water to a gram of pure alkali in the lye as planned.
    pub(super) fn water_to_alkali(&self) -> Exact {
        let lye = &self.ideal.lye.tally;
        lye.water / lye.alkali().total()
    }
}

/// Alkali that a weighed dose needs.
pub(super) fn need(unit: &Unit, item: &WeighItem) -> Exact {
    item.weighed.exact() * unit.need
}

/// What a gram of lye brings to the jugs, in grams of KOH: its alkali less what its own doses were balanced with.
pub(super) fn strength(units: &Units, weighed: &Weighed) -> Exact {
    let liquids = units.liquids.iter().zip(&weighed.liquids);
    let doses = units.lye.iter().zip(&weighed.lye_doses);
    let own: Exact = liquids.chain(doses).map(|(unit, item)| need(unit, item)).sum();
    (weighed.lye_tally.alkali().as_koh() - own) / weighed.lye.exact()
}

/// The pot: what is in it, and per gram of it.
pub(super) struct Pot {
    fat: Exact,
    pub(super) mass: Mass,
    /// Grams of KOH that a gram needs.
    pub(super) need: Exact,
    pub(super) tally: Tally,
}

impl Pot {
    pub(super) fn of(recipe: &Recipe, units: &Units, fats: &[WeighItem], doses: &[WeighItem]) -> Self {
        let masses = in_line_order(recipe, fats);
        let dose_masses: Vec<Exact> = doses.iter().map(|item| item.weighed.exact()).collect();
        let tally = pot_tally(recipe, units, &masses, &dose_masses);
        let mass: Mass = fats.iter().chain(doses).map(|item| item.weighed).sum();
        let kept = Exact::ONE - units.discount;
        let lines = recipe.fats.iter().zip(&units.fats).zip(&masses);
        let of_fats: Exact = lines.map(|((_, unit), mass)| unit.fat_demand() * *mass * kept).sum();
        let of_doses: Exact = units.pot.iter().zip(doses).map(|(unit, item)| need(unit, item)).sum();
        let need = if mass.is_zero() { Exact::ZERO } else { (of_fats + of_doses) / mass.exact() };
        Self { fat: masses.into_iter().sum(), mass, need, tally }
    }

    /// Fat of the recipe's fat lines in so much of it.
    pub(super) fn fat_in(&self, portion: Mass) -> Exact {
        portion.exact() * self.fat / self.mass.exact()
    }
}
