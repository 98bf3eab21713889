//! The order in which the lye is made, and how much water the alkali meets in it.
//!
//! What is watery, acid, sweet or salt stands ready in the vessel before the alkali, so that none of it is poured into hot
//! strong lye; what scorches is frozen with it. Only silk, lactate and dry powders come after.

use serde::Serialize;

use super::order::Work;
use super::plan::LyePlan;
use super::weigh::{WeighItem, Weighed};
use crate::chemistry::{AlkaliSplit, carbonate_and_water};
use crate::material::{Additive, Alkali, Form, InLye};
use crate::quantity::{Exact, Mass, Share};
use crate::recipe::{Ingredient, Recipe};

/// Purity up to which an alkali is taken to be a ready-made solution, which is poured and not dissolved. Source: judgement;
/// stock lye is sold up to 50 %, solid alkali from 82 % (food-grade KOH without its carbonate).
pub(crate) const READY_MADE: Share = Share::literal(60, 2);

/// What is done at a step of making the lye.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum LyeWork {
    /// Boil beer and wine flat, let them cool, and weigh them in.
    Boil,
    /// Weigh in water and what is water in all but name.
    Water,
    /// Stir in what dissolves in it, acids first.
    Dissolve,
    /// Stir in what would scorch, and freeze all of it to slush.
    Freeze,
    /// Pour in ready-made lye, the weakest first.
    Pour,
    /// Stir in solid alkali, a little at a time.
    Alkali,
    /// Stir in what dissolves in hot lye.
    Hot,
    /// Let it come to its temperature.
    Cool,
    /// Stir in what goes into clear, cool lye, and powders.
    Last,
}

/// A step of making the lye.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LyeStep {
    /// What is done.
    pub work: LyeWork,
    /// The step of the whole work that it is part of: `freeze` the day before, or `make-lye`.
    pub step: Work,
    /// What is weighed in it, by the JSON Pointers of the items.
    pub items: Vec<String>,
}

/// The lye when all its alkali has gone in, before anything that comes later: the most alkali to the least water.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Dissolving {
    /// Pure sodium hydroxide.
    pub sodium_hydroxide: Mass,
    /// Pure potassium hydroxide.
    pub potassium_hydroxide: Mass,
    /// Water that it meets: plain, of what went in before, and of the alkali itself.
    pub water: Mass,
    /// Pure alkali / (pure alkali + water).
    pub concentration: Share,
    /// Water / pure alkali, as a number.
    pub water_to_alkali: Share,
}

impl LyePlan {
    /// All that is weighed into the lye.
    pub fn items(&self) -> impl Iterator<Item = &WeighItem> {
        self.alkalis.iter().chain([&self.water]).chain(&self.liquids).chain(&self.doses)
    }

    /// What a step weighs.
    pub fn items_of<'p>(&'p self, step: &'p LyeStep) -> impl Iterator<Item = &'p WeighItem> {
        step.items.iter().filter_map(|pointer| self.items().find(|item| item.pointer == *pointer))
    }
}

/// When an ingredient goes into the lye.
pub(crate) fn place(ingredient: &Ingredient) -> LyeWork {
    let Ingredient::Additive(additive) = ingredient else { return LyeWork::Last };
    match additive.in_lye {
        InLye::Water | InLye::Salt if additive.form == Form::Liquid => LyeWork::Water,
        InLye::Water | InLye::Salt => LyeWork::Dissolve,
        InLye::Boiled => LyeWork::Boil,
        InLye::Hot => LyeWork::Hot,
        InLye::Cooled => LyeWork::Last,
        InLye::Fats if is_dry(additive) => LyeWork::Last,
        InLye::Frozen | InLye::Fats => LyeWork::Freeze,
    }
}

/// Whether finished lye does not boil up on it: a powder that does not dissolve, or oil.
fn is_dry(additive: &Additive) -> bool {
    let parts = &additive.composition;
    let reacts =
        [parts.water, parts.sugars, parts.acid, parts.alcohol].into_iter().any(|part| !part.is_zero());
    additive.form == Form::Insoluble || !reacts
}

/// The order of the lye's work, and what the alkali meets in it; nothing when a figure passes what its quantity can hold.
pub(crate) fn order(recipe: &Recipe, weighed: &Weighed) -> Option<(Vec<LyeStep>, Dissolving)> {
    let liquids = recipe.lye.liquids.iter().map(|line| &line.dose).zip(&weighed.liquids);
    let doses = recipe.lye.doses.iter().zip(&weighed.lye_doses);
    let acid = |ingredient: &Ingredient| match ingredient {
        Ingredient::Additive(additive) => !additive.composition.acid.is_zero(),
        _ => false,
    };
    let mut brought: Vec<_> = liquids
        .chain(doses)
        .map(|(dose, item)| (place(&dose.ingredient), !acid(&dose.ingredient), &dose.ingredient, item))
        .collect();
    brought.sort_by_key(|(work, mild, ..)| (*work, *work == LyeWork::Dissolve && *mild));

    let split = AlkaliSplit::of(&recipe.alkali);
    let mut alkalis: Vec<_> = (weighed.alkalis.iter())
        .filter_map(|(alkali, item)| Some((*alkali, split.grade(*alkali)?, item)))
        .collect();
    alkalis.sort_by_key(|(_, grade, _)| grade.purity);

    let mut placed = vec![(LyeWork::Water, &weighed.water)];
    placed.extend(brought.iter().map(|(work, _, _, item)| (*work, *item)));
    placed.extend(alkalis.iter().map(|(_, grade, item)| {
        (if grade.purity <= READY_MADE { LyeWork::Pour } else { LyeWork::Alkali }, *item)
    }));
    let ahead = brought.iter().any(|(work, ..)| matches!(work, LyeWork::Boil | LyeWork::Freeze));
    let all = [
        LyeWork::Boil,
        LyeWork::Water,
        LyeWork::Dissolve,
        LyeWork::Freeze,
        LyeWork::Pour,
        LyeWork::Alkali,
        LyeWork::Hot,
        LyeWork::Cool,
        LyeWork::Last,
    ];
    let step = |work: LyeWork| {
        let there = |item: &WeighItem| !(item.ideal.is_zero() && item.weighed.is_zero());
        let mine = placed.iter().filter(|(of, item)| *of == work && there(item));
        let items: Vec<String> = mine.map(|(_, item)| item.pointer.clone()).collect();
        let empty = match work {
            LyeWork::Cool => true,
            LyeWork::Freeze => ahead,
            _ => false,
        };
        let before = ahead && work <= LyeWork::Freeze;
        let step = if before { Work::Freeze } else { Work::MakeLye };
        (empty || !items.is_empty()).then_some(LyeStep { work, step, items })
    };
    let steps = all.into_iter().filter_map(step).collect();

    let mut water = weighed.water.weighed.exact();
    for (work, _, ingredient, item) in &brought {
        if let (true, Ingredient::Additive(additive)) = (*work < LyeWork::Pour, ingredient) {
            water = water + item.weighed.exact() * additive.composition.water.exact();
        }
    }
    let [mut sodium, mut potassium] = [Exact::ZERO; 2];
    for (alkali, grade, item) in &alkalis {
        water = water + carbonate_and_water(item.weighed.exact(), *grade).1;
        let pure = item.weighed.exact() * grade.purity.exact();
        match alkali {
            Alkali::SodiumHydroxide => sodium = sodium + pure,
            Alkali::PotassiumHydroxide => potassium = potassium + pure,
        }
    }
    let alkali = sodium + potassium;
    let dissolving = Dissolving {
        sodium_hydroxide: Mass::try_new(sodium).ok()?,
        potassium_hydroxide: Mass::try_new(potassium).ok()?,
        water: Mass::try_new(water).ok()?,
        concentration: Share::try_new(alkali / (alkali + water)).ok()?,
        water_to_alkali: Share::try_new(water / alkali).ok()?,
    };
    Some((steps, dissolving))
}
