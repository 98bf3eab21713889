//! Weigh: ideal amounts become whole scale steps.
//!
//! What is a split of one whole (the fats of the pot, the pot over the jugs, the lye over the jugs) is rounded together,
//! by largest remainder, so that nothing is lost. What is weighed for itself (alkali, water, an additive) is rounded to the
//! nearest step of the finest scale that carries it.
//!
//! A jug is filled and poured on the finest scale that carries it full, so that it never changes scales; its own mass
//! counts where it is known. Its lye is weighed in a cup where a finer scale carries the lye; a cup, like any vessel whose
//! mass is not known, is not counted. Jugs on finer scales are given theirs first; see `quantity::divide`.

use std::borrow::Cow;

use serde::Serialize;

use crate::chemistry::Tally;
use crate::material::{Alkali, Fat};
use crate::problem::Problem;
use crate::quantity::{Exact, Mass, StepShare, apportion, divide};
use crate::recipe::{Dose, FatStage, Recipe, Scale};

use super::balance::Ideal;
use super::coarse::nothing_left;
use super::lye::lye_tally;
use super::mixture::Mixture;
use super::units::{Units, pot_tally};
use super::{mass, number};

/// One thing to weigh.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct WeighItem {
    /// Id of the material.
    pub id: Cow<'static, str>,
    /// Its name.
    pub name: Cow<'static, str>,
    /// At full precision.
    pub ideal: Mass,
    /// In whole steps of the scale.
    pub weighed: Mass,
    /// Index of the scale in the workshop.
    pub scale: usize,
    /// JSON Pointer to the line of the recipe that asks for it.
    pub pointer: String,
}

/// A part of a whole that is weighed out of a vessel.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Weighing {
    /// At full precision.
    pub ideal: Mass,
    /// In whole steps of the scale.
    pub weighed: Mass,
    /// Index of the scale in the workshop.
    pub scale: usize,
}

/// Everything that is weighed before the first pour.
#[derive(Clone, Debug)]
pub(crate) struct Weighed {
    /// Fats of the pot.
    pub(crate) fats: Vec<WeighItem>,
    /// Doses of the pot.
    pub(crate) pot_doses: Vec<WeighItem>,
    /// Fats and doses of the pot together.
    pub(crate) pot: Mass,
    pub(crate) alkalis: Vec<(Alkali, WeighItem)>,
    pub(crate) water: WeighItem,
    pub(crate) liquids: Vec<WeighItem>,
    pub(crate) lye_doses: Vec<WeighItem>,
    /// All of the lye.
    pub(crate) lye: Mass,
    pub(crate) lye_tally: Tally,
    pub(crate) jugs: Vec<WeighedJug>,
}

impl Weighed {
    /// Everything that is weighed: pot, lye, and what goes into the jugs beside them.
    pub(crate) fn weighed_in(&self) -> Mass {
        let beside = self.jugs.iter().flat_map(|jug| jug.held.iter().chain(&jug.doses));
        self.pot + self.lye + total(beside)
    }
}

/// What is weighed into a jug.
#[derive(Clone, Debug)]
pub(crate) struct WeighedJug {
    pub(crate) portion: Weighing,
    /// Fats held back until after the cook.
    pub(crate) held: Vec<WeighItem>,
    /// Its doses, in the order of the mixture.
    pub(crate) doses: Vec<WeighItem>,
    pub(crate) lye: Weighing,
    /// All that is in it.
    pub(crate) net: Mass,
    pub(crate) tally: Tally,
}

/// Rounds the ideal amounts to the scales of the workshop.
///
/// # Errors
/// `scale.missing` for each thing that no scale carries; `plan.number` when a figure is beyond a mass.
pub(crate) fn weigh(
    recipe: &Recipe,
    mixtures: &[Mixture<'_>],
    units: &Units,
    ideal: &Ideal,
) -> Result<Weighed, Vec<Problem>> {
    let mut bench = Bench { recipe, problems: Vec::new() };
    let weighed = bench.weigh(mixtures, units, ideal);
    match weighed {
        Ok(weighed) if bench.problems.is_empty() => Ok(weighed),
        Ok(_) => Err(bench.problems),
        Err(problem) => {
            bench.problems.push(problem);
            Err(bench.problems)
        }
    }
}

/// The scales, and what they could not carry.
struct Bench<'r> {
    recipe: &'r Recipe,
    problems: Vec<Problem>,
}

impl<'r> Bench<'r> {
    fn weigh(&mut self, mixtures: &[Mixture<'_>], units: &Units, ideal: &Ideal) -> Result<Weighed, Problem> {
        let recipe = self.recipe;
        let fats = self.fats(ideal)?;
        let mut pot_doses = Vec::with_capacity(recipe.pot.len());
        for (dose, amount) in recipe.pot.iter().zip(&ideal.pot_doses) {
            pot_doses.push(self.dose(dose, *amount)?);
        }
        let pot = total(fats.iter().chain(&pot_doses));

        let lye_part = self.lye(units, ideal)?;
        self.something_left(mixtures, ideal, (pot, &fats), &lye_part)?;
        let portions = self.portions(mixtures, ideal, pot)?;
        let lyes = self.lyes(ideal, lye_part.total, &portions)?;

        let fat_masses: Vec<Exact> = in_line_order(recipe, &fats);
        let dose_masses: Vec<Exact> = pot_doses.iter().map(|item| item.weighed.exact()).collect();
        let pot_unit = pot_tally(recipe, units, &fat_masses, &dose_masses);
        let lye_unit = lye_part.tally;

        let mut jugs = Vec::with_capacity(mixtures.len());
        for ((((mixture, doses), jug), portion), lye) in
            mixtures.iter().zip(&units.doses).zip(&ideal.jugs).zip(portions).zip(lyes)
        {
            let mut tally = pot_unit.part(portion.weighed.exact(), pot.exact());
            tally = tally.and(lye.weighed.exact() / lye_part.total.exact(), &lye_unit);
            let mut net = portion.weighed + lye.weighed;
            let mut held = Vec::new();
            for (index, ((line, unit), amount)) in
                recipe.fats.iter().zip(&units.fats).zip(&jug.held).enumerate()
            {
                if line.stage == FatStage::AfterCook {
                    let item = self.item(fat_name(&line.fat), *amount, format!("/fats/{index}"))?;
                    net += item.weighed;
                    tally = tally.and(item.weighed.exact(), unit);
                    held.push(item);
                }
            }
            let mut items = Vec::with_capacity(mixture.doses.len());
            for ((dose, unit), amount) in mixture.doses.iter().zip(doses).zip(&jug.doses) {
                let item = self.dose(dose, *amount)?;
                net += item.weighed;
                tally = tally.and(item.weighed.exact(), &unit.tally);
                items.push(item);
            }
            jugs.push(WeighedJug { portion, held, doses: items, lye, net, tally });
        }
        Ok(Weighed {
            fats,
            pot_doses,
            pot,
            alkalis: lye_part.alkalis,
            water: lye_part.water,
            liquids: lye_part.liquids,
            lye_doses: lye_part.doses,
            lye: lye_part.total,
            lye_tally: lye_part.tally,
            jugs,
        })
    }

    /// The fats of the pot, split together on the scale that carries the largest.
    fn fats(&mut self, ideal: &Ideal) -> Result<Vec<WeighItem>, Problem> {
        let lines: Vec<_> = self.recipe.fats.iter().zip(&ideal.fats).enumerate().collect();
        let in_pot = || lines.iter().filter(|(_, (line, _))| line.stage == FatStage::Pot);
        let amounts: Vec<Exact> = in_pot().map(|(_, (_, amount))| **amount).collect();
        let largest = amounts.iter().copied().fold(Exact::ZERO, Exact::max);
        let (scale, step) = self.scale_for(mass(largest, self.recipe)?, "a fat", "/fats")?;
        let whole: Exact = amounts.iter().copied().sum();
        let parts = whole
            .steps(step)
            .and_then(|steps| apportion(steps, &amounts))
            .ok_or_else(|| number(self.recipe))?;
        in_pot()
            .zip(parts)
            .map(|((index, (line, amount)), steps)| {
                Ok(WeighItem {
                    id: line.fat.id.clone(),
                    name: line.fat.name.clone(),
                    ideal: mass(**amount, self.recipe)?,
                    weighed: mass(step.times(steps), self.recipe)?,
                    scale,
                    pointer: format!("/fats/{index}"),
                })
            })
            .collect()
    }

    fn lye(&mut self, units: &Units, ideal: &Ideal) -> Result<LyePart, Problem> {
        let recipe = self.recipe;
        let mut alkalis = Vec::with_capacity(2);
        for alkali in Alkali::ALL {
            if units.split.grade(alkali).is_some() {
                let name = (alkali.id().into(), alkali.name().into());
                let pointer = format!("/alkali/{}", alkali.id());
                alkalis.push((alkali, self.item(name, ideal.lye.alkali.of(alkali), pointer)?));
            }
        }
        let water = self.item(("water".into(), "Water".into()), ideal.lye.water, "/water".to_owned())?;
        let mut liquids = Vec::with_capacity(recipe.lye.liquids.len());
        for (line, amount) in recipe.lye.liquids.iter().zip(&ideal.lye.liquids) {
            liquids.push(self.dose(&line.dose, *amount)?);
        }
        let mut doses = Vec::with_capacity(recipe.lye.doses.len());
        for (dose, amount) in recipe.lye.doses.iter().zip(&ideal.lye.doses) {
            doses.push(self.dose(dose, *amount)?);
        }
        let weighed = |items: &[WeighItem]| items.iter().map(|item| item.weighed.exact()).collect::<Vec<_>>();
        let of = |alkali| {
            let item = alkalis.iter().find(|(known, _)| *known == alkali);
            item.map_or(Exact::ZERO, |(_, item)| item.weighed.exact())
        };
        let masses = crate::chemistry::AlkaliMasses {
            sodium: of(Alkali::SodiumHydroxide),
            potassium: of(Alkali::PotassiumHydroxide),
        };
        let tally = lye_tally(units, &masses, water.weighed.exact(), &weighed(&liquids), &weighed(&doses));
        let total = total(alkalis.iter().map(|(_, item)| item).chain([&water]).chain(&liquids).chain(&doses));
        Ok(LyePart { alkalis, water, liquids, doses, total, tally })
    }

    /// What sticks to pot and vessel may be more than what their scales show of a small batch.
    fn something_left(
        &self,
        mixtures: &[Mixture<'_>],
        ideal: &Ideal,
        (pot, fats): (Mass, &[WeighItem]),
        lye: &LyePart,
    ) -> Result<(), Problem> {
        let workshop = &self.recipe.workshop;
        let fat_scale = fats.first().map_or(0, |item| item.scale);
        let lye_scale = lye.alkalis.first().map_or(0, |(_, item)| item.scale);
        let portions: Exact = ideal.jugs.iter().map(|jug| jug.portion).sum();
        let lyes: Exact = ideal.jugs.iter().map(|jug| jug.lye).sum();
        for (there, residue, pointer, what, usable, scale) in [
            (pot, workshop.pot_residue, "/fats", "what the pot gives", portions, fat_scale),
            (lye.total, workshop.lye_residue, "/alkali", "the lye that is given out", lyes, lye_scale),
        ] {
            if there < residue {
                let at = (pointer, what.to_owned());
                return Err(nothing_left(self.recipe, mixtures, ideal, at, (usable, scale)));
            }
        }
        Ok(())
    }

    /// What each jug gets from the pot. A jug stays on one scale from its portion to its last pour: the finest that carries
    /// it full, itself included where its tare is known.
    fn portions(
        &mut self,
        mixtures: &[Mixture<'_>],
        ideal: &Ideal,
        pot: Mass,
    ) -> Result<Vec<Weighing>, Problem> {
        let gross = ideal.jugs.iter().zip(mixtures).map(|(jug, mixture)| {
            let tare = mixture.jug.and_then(|jug| jug.tare).map_or(Exact::ZERO, Mass::exact);
            mass(jug.outline.mass + tare, self.recipe)
        });
        let gross: Vec<Mass> = gross.collect::<Result<_, _>>()?;
        let fullest = gross.iter().copied().fold(Mass::ZERO, Mass::max);
        let (coarsest, _) = self.scale_for(fullest, "a full jug", "/jugs")?;
        let finest =
            |gross: &Mass| self.recipe.workshop.scale_for(*gross).map_or(coarsest, |(index, _)| index);
        let scales = gross.iter().map(finest).collect();
        self.split(pot - self.recipe.workshop.pot_residue, ideal.jugs.iter().map(|jug| jug.portion), scales)
    }

    /// What each jug gets of the lye: poured into it on the scale that it stands on, or weighed in a cup where a finer scale
    /// carries that much.
    fn lyes(&self, ideal: &Ideal, lye: Mass, portions: &[Weighing]) -> Result<Vec<Weighing>, Problem> {
        let mut scales = Vec::with_capacity(portions.len());
        for (jug, portion) in ideal.jugs.iter().zip(portions) {
            let own = self.recipe.workshop.scale_for(mass(jug.lye, self.recipe)?);
            scales.push(own.map_or(portion.scale, |(index, _)| index.min(portion.scale)));
        }
        self.split(lye - self.recipe.workshop.lye_residue, ideal.jugs.iter().map(|jug| jug.lye), scales)
    }

    /// A whole, each part of it on its scale.
    fn split(
        &self,
        whole: Mass,
        ideals: impl Iterator<Item = Exact> + Clone,
        scales: Vec<usize>,
    ) -> Result<Vec<Weighing>, Problem> {
        let step = |scale: &usize| self.recipe.workshop.scales.get(*scale).map(|scale| scale.step.exact());
        let share = |(weight, scale)| Some(StepShare { step: step(scale)?, weight });
        let shares: Option<Vec<StepShare>> = ideals.clone().zip(&scales).map(share).collect();
        let parts = shares.and_then(|shares| divide(whole, whole.exact(), &shares));
        let parts = parts.ok_or_else(|| number(self.recipe))?;
        let weighing = |((ideal, weighed), scale): ((Exact, Mass), usize)| {
            Ok(Weighing { ideal: mass(ideal, self.recipe)?, weighed, scale })
        };
        ideals.zip(parts).zip(scales).map(weighing).collect()
    }

    fn dose(&mut self, dose: &Dose, amount: Exact) -> Result<WeighItem, Problem> {
        self.item(dose.ingredient.id_and_name(), amount, dose.pointer.clone())
    }

    fn item(&mut self, (id, name): Name, amount: Exact, pointer: String) -> Result<WeighItem, Problem> {
        let ideal = mass(amount, self.recipe)?;
        let (scale, step) = self.scale_for(ideal, &name, &pointer)?;
        let steps = amount.steps(step).ok_or_else(|| number(self.recipe))?;
        Ok(WeighItem { id, name, ideal, weighed: mass(step.times(steps), self.recipe)?, scale, pointer })
    }

    /// Index and step of the finest scale that carries `amount`. When none does, the coarsest serves to go on with, and
    /// the problem is noted.
    fn scale_for(&mut self, amount: Mass, what: &str, pointer: &str) -> Result<(usize, Exact), Problem> {
        let workshop = &self.recipe.workshop;
        let found = workshop.scale_for(amount);
        let last = || workshop.scales.iter().enumerate().next_back();
        let (index, scale): (usize, &Scale) = found.or_else(last).ok_or_else(|| number(self.recipe))?;
        if found.is_none() {
            self.problems.push(Problem {
                code: "scale.missing",
                pointer: pointer.to_owned(),
                message: format!(
                    "no scale carries {what} of {} g",
                    crate::quantity::fixed(amount.value(), 1)
                ),
                advice: format!(
                    "the largest, {:?}, carries {}; make the batch smaller or add a scale",
                    scale.name, scale.capacity
                ),
            });
        }
        Ok((index, scale.step.exact()))
    }
}

/// Id and name of a material; those of the library are not copied.
type Name = (Cow<'static, str>, Cow<'static, str>);

fn fat_name(fat: &Fat) -> Name {
    (fat.id.clone(), fat.name.clone())
}

struct LyePart {
    alkalis: Vec<(Alkali, WeighItem)>,
    water: WeighItem,
    liquids: Vec<WeighItem>,
    doses: Vec<WeighItem>,
    total: Mass,
    tally: Tally,
}

fn total<'i>(items: impl Iterator<Item = &'i WeighItem>) -> Mass {
    items.map(|item| item.weighed).sum()
}

/// The weighed fats of the pot in the order of the recipe's lines, nought for those held back.
pub(crate) fn in_line_order(recipe: &Recipe, fats: &[WeighItem]) -> Vec<Exact> {
    let mut next = fats.iter();
    let mass_of = |stage: FatStage| match stage {
        FatStage::Pot => next.next().map_or(Exact::ZERO, |item| item.weighed.exact()),
        FatStage::AfterCook => Exact::ZERO,
    };
    recipe.fats.iter().map(|line| line.stage).map(mass_of).collect()
}
