//! The lye of a batch under way: how much of it is made, and how it goes to the jugs.

use super::base::strength;
use super::refuse::{impossible, mass, nothing_left, too_much};
use super::replan::{Filled, LYE, Rest, kept, ratio};
use crate::batch::WeighItem;
use crate::batch::lye::lye_tally;
use crate::batch::mixture::Mixture;
use crate::batch::pour::{PouredJug, Reading};
use crate::batch::size::layer_shares;
use crate::batch::units::Units;
use crate::batch::weigh::Weighed;
use crate::chemistry::AlkaliMasses;
use crate::material::Alkali;
use crate::problem::Problem;
use crate::quantity::{Exact, Mass, divide, split_into_steps};
use crate::recipe::{Amount, Water};

impl Rest<'_> {
    /// Alkali follows what the jugs need, as long as it is not weighed; water follows the alkali, so that the lye keeps
    /// its strength, or the fat where the recipe says so.
    pub(super) fn make_lye(
        &self,
        weighed: &mut Weighed,
        units: &Units,
        jugs: &[Filled],
        of_batch_fat: Exact,
    ) -> Result<(), Problem> {
        let base = self.base;
        let needed: Exact = jugs.iter().map(|jug| jug.need).sum();
        let planned: Exact = base.needs.iter().copied().sum();
        let more = ratio(needed, planned);
        let same = base.split == units.split;
        let pure = |split: &crate::chemistry::AlkaliSplit, alkali: Alkali, mass: Exact| {
            split.grade(alkali).map_or(Exact::ZERO, |grade| mass * grade.purity.exact())
        };
        let as_koh = |split, sodium: Exact, potassium: Exact| {
            let (sodium, potassium) = (
                pure(split, Alkali::SodiumHydroxide, sodium),
                pure(split, Alkali::PotassiumHydroxide, potassium),
            );
            AlkaliMasses { sodium, potassium }.as_koh()
        };
        let ideal = &base.ideal.lye.alkali;
        let wanted = units.split.weighed(as_koh(&base.split, ideal.sodium, ideal.potassium) * more);
        let mut alkalis = Vec::with_capacity(2);
        for (alkali, planned) in &base.weighed.alkalis {
            let is = self.ledger.is.get(alkali).copied().unwrap_or(*alkali);
            let mut item = planned.clone();
            if !same || more != Exact::ONE {
                item.ideal = mass(wanted.of(is))?;
                item.weighed = self.in_steps(item.ideal.exact(), item.scale)?;
            }
            if is != *alkali {
                (item.id, item.name) = (is.id().into(), is.name().into());
            }
            if let Some(found) = self.fixed(None, &item.pointer) {
                item.weighed = found;
            }
            alkalis.push((is, item));
        }
        let sum = |alkalis: &[(Alkali, WeighItem)], split: &crate::chemistry::AlkaliSplit| -> Exact {
            alkalis.iter().map(|(alkali, item)| pure(split, *alkali, item.weighed.exact())).sum()
        };
        let of_alkali = ratio(sum(&alkalis, &units.split), sum(&base.weighed.alkalis, &base.split));
        let of_water = match self.recipe.water {
            Water::LyeConcentration(_) | Water::WaterToAlkali(_) => of_alkali,
            Water::ShareOfFat(_) => of_batch_fat,
        };
        weighed.water = self.item(None, &base.weighed.water, of_water)?;
        let liquids = base.weighed.liquids.iter().map(|item| self.item(None, item, of_water));
        weighed.liquids = liquids.collect::<Result<_, _>>()?;
        weighed.lye_doses =
            self.doses(None, &self.recipe.lye.doses, &base.weighed.lye_doses, |amount| match amount {
                Amount::Share(..) => of_batch_fat,
                Amount::Mass(_) => Exact::ONE,
            })?;
        let of = |wanted: Alkali| -> Exact {
            let found = alkalis.iter().filter(|(alkali, _)| *alkali == wanted);
            found.map(|(_, item)| item.weighed.exact()).sum()
        };
        let masses =
            AlkaliMasses { sodium: of(Alkali::SodiumHydroxide), potassium: of(Alkali::PotassiumHydroxide) };
        let masses_of =
            |items: &[WeighItem]| items.iter().map(|item| item.weighed.exact()).collect::<Vec<_>>();
        weighed.lye_tally = lye_tally(
            units,
            &masses,
            weighed.water.weighed.exact(),
            &masses_of(&weighed.liquids),
            &masses_of(&weighed.lye_doses),
        );
        let items = alkalis.iter().map(|(_, item)| item).chain([&weighed.water]);
        let items = items.chain(&weighed.liquids).chain(&weighed.lye_doses);
        weighed.lye = items.map(|item| item.weighed).sum();
        weighed.alkalis = alkalis;
        Ok(())
    }

    /// What each jug gets of the lye: what was weighed; of the rest what it needs, or in proportion when that is not
    /// there. Lye that no jug needs stays over.
    pub(super) fn lyes(
        &self,
        mixtures: &[Mixture<'_>],
        weighed: &Weighed,
        units: &Units,
        jugs: &[Filled],
    ) -> Result<Vec<Mass>, Problem> {
        let base = self.base;
        let weaker = ratio(base.strength, strength(units, weighed));
        let mut lyes = vec![Mass::ZERO; jugs.len()];
        let mut open = Vec::new();
        let (mut given, mut wanted) = (Mass::ZERO, Exact::ZERO);
        for (index, (jug, mixture)) in jugs.iter().zip(mixtures).enumerate() {
            if let (Some(lye), Some(slot)) = (self.fixed(Some(mixture.name), LYE), lyes.get_mut(index)) {
                given += lye;
                *slot = lye;
                continue;
            }
            let (planned, before) =
                base.weighed.jugs.get(jug.base).zip(base.needs.get(jug.base)).ok_or_else(impossible)?;
            let factor = ratio(jug.need, *before) * weaker;
            wanted = wanted + planned.lye.weighed.exact() * factor;
            open.push((index, planned.lye.ideal.exact() * factor));
        }
        if given > weighed.lye {
            return Err(too_much("the lye", weighed.lye, given));
        }
        if !open.is_empty() {
            let left = weighed.lye - self.recipe.workshop.lye_residue - given;
            let of_open = open.iter().filter_map(|(index, weight)| Some((jugs.get(*index)?.base, *weight)));
            let shares = self.shares(of_open, |jug| jug.lye.scale);
            // There must be a step at least to give out.
            let some = shares.iter().any(|share| !(share.step - left.exact()).is_positive());
            let parts = divide(left, wanted, &shares).filter(|_| some);
            let parts = parts.ok_or_else(|| nothing_left("the lye", left))?;
            let before = open.iter().map(|(index, _)| {
                let (jug, mixture) = jugs.get(*index).zip(mixtures.get(*index))?;
                self.lye_before(jug, mixture, weighed)
            });
            // A step for each jug is what rounding may amount to.
            let rounding = mass(shares.iter().map(|share| share.step).sum())?;
            let parts = kept_within(before.collect(), parts, left, rounding);
            for ((index, _), part) in open.iter().zip(parts) {
                if let Some(slot) = lyes.get_mut(*index) {
                    *slot = part;
                }
            }
        }
        Ok(lyes)
    }

    /// A jug's lye before the last event, when neither its lye nor what it is for has changed.
    fn lye_before(&self, jug: &Filled, mixture: &Mixture<'_>, weighed: &Weighed) -> Option<Mass> {
        let before = self.jug_before(mixture.name)?;
        let pot = &self.before.pot;
        let same = before.portion.weighed == jug.portion
            && self.before.lye.tally == weighed.lye_tally
            && pot.fats == weighed.fats
            && pot.doses == weighed.pot_doses
            && before.doses.iter().all(|item| jug.doses.contains(item))
            && before.doses.len().saturating_add(before.late_doses.len()) == jug.doses.len();
        same.then_some(before.lye.weighed)
    }

    /// What is poured from each jug: what was, and of the rest each layer's part.
    pub(super) fn pour(
        &self,
        mixtures: &[Mixture<'_>],
        weighed: &Weighed,
    ) -> Result<Vec<PouredJug>, Problem> {
        let shares = layer_shares(self.recipe);
        mixtures
            .iter()
            .zip(&weighed.jugs)
            .map(|(mixture, jug)| self.pour_one(mixture, jug.net, self.step(jug.portion.scale), &shares))
            .collect()
    }

    fn portion_before(&self, layer: &str) -> Option<Mass> {
        self.before.layers.iter().find(|before| before.name == layer).map(|layer| layer.portion)
    }

    fn pour_one(
        &self,
        mixture: &Mixture<'_>,
        net: Mass,
        step: Exact,
        shares: &[Exact],
    ) -> Result<PouredJug, Problem> {
        let tare = mixture.jug.and_then(|jug| jug.tare).unwrap_or(Mass::ZERO);
        let gross = self.to_steps((tare + net).exact(), step)?;
        let shown_too_much = (gross - tare - net).max(Mass::ZERO);
        let name = |layer: &usize| self.recipe.layers.get(*layer).map_or("", |layer| layer.name.as_str());
        let found: Vec<Option<Mass>> =
            mixture.layers.iter().map(|layer| self.ledger.poured.get(name(layer)).copied()).collect();
        let gone: Mass = found.iter().flatten().copied().sum();
        if gone > net {
            return Err(too_much(mixture.name, net, gone));
        }
        let open: Vec<Exact> = (mixture.layers.iter().zip(&found))
            .filter(|(_, found)| found.is_none())
            .filter_map(|(layer, _)| shares.get(*layer).copied())
            .collect();
        let mut rest = Vec::new();
        if !open.is_empty() {
            let left = gross - tare - mixture.residue - shown_too_much - gone;
            let parts = split_into_steps(left, mass(step)?, &open).map(|split| split.parts);
            let open = mixture.layers.iter().zip(&found).filter(|(_, found)| found.is_none());
            let before: Option<Vec<Mass>> = open.map(|(layer, _)| self.portion_before(name(layer))).collect();
            let parts = parts.map(|parts| kept(before, parts));
            rest = parts
                .filter(|_| !(step - left.exact()).is_positive())
                .ok_or_else(|| nothing_left(mixture.name, left))?;
        }
        let mut rest = rest.into_iter();
        let portions: Vec<Mass> =
            found.into_iter().map(|found| found.or_else(|| rest.next()).unwrap_or(Mass::ZERO)).collect();
        let mut shown = gross;
        let readings = portions.iter().map(|portion| {
            let before = shown;
            shown = before - *portion;
            Reading { before, after: shown }
        });
        let readings = readings.collect();
        let left = net - portions.iter().copied().sum();
        Ok(PouredJug { gross, portions, readings, left })
    }
}

/// The division that was, when it is there and differs by no more than rounding.
fn kept_within(before: Option<Vec<Mass>>, now: Vec<Mass>, there: Mass, rounding: Mass) -> Vec<Mass> {
    let sum = |parts: &[Mass]| parts.iter().copied().sum::<Mass>();
    let holds = |before: &Vec<Mass>| {
        let moved = sum(before) - sum(&now);
        sum(before) <= there && moved.max(Mass::ZERO - moved) <= rounding
    };
    before.filter(holds).unwrap_or(now)
}
