//! Figures that sum up a lye or a batch.

use serde::Serialize;

use crate::chemistry::{Indices, Makeup, Outline, Part, Tally, indices_and_acids, soap_of_acids};
use crate::material::{Fat, FattyAcid};
use crate::quantity::{Density, Exact, Length, Mass, Share, Volume};
use crate::recipe::{FatStage, Ingredient, Mould, Recipe, Size};

use super::balance::Ideal;
use super::weigh::{Weighed, in_line_order};

/// What the weighed lye is.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LyeFigures {
    /// Pure sodium hydroxide in it.
    pub sodium_hydroxide: Mass,
    /// Pure potassium hydroxide in it.
    pub potassium_hydroxide: Mass,
    /// All its water: plain, of liquids, of the alkali itself.
    pub water: Mass,
    /// Pure alkali / (pure alkali + water).
    pub concentration: Share,
    /// Water / pure alkali, as a number.
    pub water_to_alkali: Share,
    /// Water / all the fat.
    pub water_of_fat: Share,
    /// Its volume at the temperature of the recipe.
    pub volume: Volume,
    /// Its density at that temperature.
    pub density: Density,
}

impl LyeFigures {
    pub(crate) fn of(tally: &Tally, fat: Exact) -> Option<Self> {
        let alkali = tally.alkali();
        Some(Self {
            sodium_hydroxide: Mass::try_new(alkali.sodium).ok()?,
            potassium_hydroxide: Mass::try_new(alkali.potassium).ok()?,
            water: Mass::try_new(tally.water).ok()?,
            concentration: Share::try_new(alkali.total() / (alkali.total() + tally.water)).ok()?,
            water_to_alkali: Share::try_new(tally.water / alkali.total()).ok()?,
            water_of_fat: Share::try_new(tally.water / fat).ok()?,
            volume: Volume::try_new(tally.volume).ok()?,
            density: Density::try_new(tally.mass() / tally.volume).ok()?,
        })
    }
}

/// A mould, or several of one kind.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct MouldLine {
    /// What the maker calls it.
    pub name: String,
    /// How many.
    pub count: u32,
    /// How high each may be filled.
    pub fill: Length,
    /// What all of them take up to that.
    pub capacity: Volume,
}

impl From<&Mould> for MouldLine {
    fn from(mould: &Mould) -> Self {
        Self {
            name: mould.name().to_owned(),
            count: mould.count(),
            fill: mould.fill(),
            capacity: mould.capacity(),
        }
    }
}

/// The bars that a recipe asks for, as they come out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Bars {
    /// How many.
    pub count: u32,
    /// One of them, fresh: its part of what is poured.
    pub fresh: Mass,
    /// The same, cured.
    pub cured: Mass,
}

/// What the batch is, all of it that is poured.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct BatchFigures {
    /// Fat of the recipe's fat lines, at full precision.
    pub fat_ideal: Mass,
    /// The same as weighed.
    pub fat: Mass,
    /// Everything that is weighed in: `poured` and `left` together, exactly.
    pub weighed_in: Mass,
    /// Everything that stays behind in the pot, in the vessel of the lye and in the jugs.
    pub left: Mass,
    /// Everything that is mixed.
    pub mixed: Mass,
    /// Everything that is poured.
    pub poured: Mass,
    /// Its volume.
    pub volume: Volume,
    /// Density of the batter.
    pub density: Density,
    /// The bars, where the recipe says how many.
    pub bars: Option<Bars>,
    /// Superfat that the recipe asks for, as the share of the demand left unmet.
    pub superfat_aimed: Share,
    /// Superfat of all that is mixed, at full precision.
    pub superfat_ideal: Share,
    /// Superfat of all that is mixed, from what is weighed.
    pub superfat: Share,
    /// Alkali that all its fat demands, in grams of potassium hydroxide, from what is weighed.
    pub demand_koh: Mass,
    /// Alkali that its acids take up, in grams of potassium hydroxide.
    pub acid_koh: Mass,
    /// Indices of all its fat, that of the additives included where its profile is known.
    pub indices: Indices,
    /// Soap by fatty acid in all that is poured.
    pub soap_acids: Vec<(FattyAcid, Mass)>,
    /// What is poured, as poured.
    pub at_pour: Makeup,
    /// After the reaction.
    pub reacted: Makeup,
    /// Cured.
    pub cured: Makeup,
}

/// Everything that the figures of a batch are taken from.
pub(crate) struct Sum<'p> {
    pub(crate) ideal: &'p Ideal,
    pub(crate) weighed: &'p Weighed,
    /// What is mixed.
    pub(crate) mixed: Tally,
    /// What is poured.
    pub(crate) poured: Tally,
    /// The mass of that, from the readings.
    pub(crate) portions: Mass,
}

impl BatchFigures {
    pub(crate) fn of(recipe: &Recipe, sum: &Sum<'_>) -> Option<Self> {
        let fats = fats(recipe, sum.weighed);
        let pot: Exact = in_line_order(recipe, &sum.weighed.fats).into_iter().sum();
        let held: Mass = sum.weighed.jugs.iter().flat_map(|jug| &jug.held).map(|item| item.weighed).sum();
        let ideal = sum.ideal.jugs.iter().fold(Outline::EMPTY, |sum, jug| sum.plus(&jug.outline));
        let [at_pour, reacted, cured] = Makeup::stages(&sum.poured, recipe.cured_water)?;
        let (indices, acids) = indices_and_acids(fats.iter().copied())?;
        let weighed_in = sum.weighed.weighed_in();
        let alkali = sum.poured.alkali();
        let potassium_moles = alkali.potassium / alkali.as_koh();
        Some(Self {
            fat_ideal: Mass::try_new(sum.ideal.fat).ok()?,
            fat: Mass::try_new(pot + held.exact()).ok()?,
            weighed_in,
            left: weighed_in - sum.portions,
            mixed: Mass::try_new(sum.mixed.mass()).ok()?,
            poured: reacted.total,
            volume: Volume::try_new(sum.poured.volume).ok()?,
            density: Density::try_new(sum.poured.mass() / sum.poured.volume).ok()?,
            bars: bars(recipe, sum.portions, cured.total),
            superfat_aimed: Share::try_new(recipe.superfat.discount()).ok()?,
            superfat_ideal: Share::try_new(ideal.superfat()).ok()?,
            superfat: Share::try_new(sum.mixed.superfat()).ok()?,
            demand_koh: Mass::try_new(sum.mixed.fat_demand()).ok()?,
            acid_koh: Mass::try_new(sum.mixed.acid_demand).ok()?,
            indices,
            soap_acids: soap_of_acids(acids, potassium_moles, reacted.mass(Part::Soap))?,
            at_pour,
            cured,
            reacted,
        })
    }
}

fn bars(recipe: &Recipe, poured: Mass, cured: Mass) -> Option<Bars> {
    let Some(Size::Bars { count, .. }) = recipe.size else { return None };
    let one = |whole: Mass| Mass::try_new(whole.exact() / Exact::from(i64::from(count))).ok();
    Some(Bars { count, fresh: one(poured)?, cured: one(cured)? })
}

/// All the fat of a batch as weighed: the fat lines, and what the doses bring.
fn fats<'r>(recipe: &'r Recipe, weighed: &Weighed) -> Vec<(&'r Fat, Exact)> {
    let mut fats: Vec<(&Fat, Exact)> = Vec::with_capacity(recipe.fats.len().saturating_add(8));
    for (line, mass) in recipe.fats.iter().zip(in_line_order(recipe, &weighed.fats)) {
        if line.stage == FatStage::Pot {
            fats.push((&line.fat, mass));
        }
    }
    for jug in &weighed.jugs {
        let held = recipe.fats.iter().filter(|line| line.stage == FatStage::AfterCook);
        fats.extend(held.zip(&jug.held).map(|(line, item)| (&line.fat, item.weighed.exact())));
    }
    let mut dose = |ingredient: &'r Ingredient, mass: Mass| match ingredient {
        Ingredient::Fat(fat) => fats.push((fat, mass.exact())),
        Ingredient::Additive(additive) if !additive.composition.fat.is_zero() => {
            if let Some(like) = crate::chemistry::reachable(additive) {
                fats.push((like, mass.exact() * additive.composition.fat.exact()));
            }
        }
        Ingredient::Additive(_)
        | Ingredient::Colourant(_)
        | Ingredient::Fragrance(_)
        | Ingredient::Alkali(..) => {}
    };
    for (dose_line, item) in recipe.pot.iter().zip(&weighed.pot_doses) {
        dose(&dose_line.ingredient, item.weighed);
    }
    for (line, item) in recipe.lye.liquids.iter().zip(&weighed.liquids) {
        dose(&line.dose.ingredient, item.weighed);
    }
    for (dose_line, item) in recipe.lye.doses.iter().zip(&weighed.lye_doses) {
        dose(&dose_line.ingredient, item.weighed);
    }
    let mixtures = super::mixture::mixtures(recipe);
    for (mixture, jug) in mixtures.iter().zip(&weighed.jugs) {
        for (dose_line, item) in mixture.doses.iter().zip(&jug.doses) {
            dose(&dose_line.ingredient, item.weighed);
        }
    }
    fats
}
