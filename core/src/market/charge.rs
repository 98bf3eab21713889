//! What went into the bars, material by material.

use std::collections::BTreeMap;

use crate::batch::{Plan, WeighItem};
use crate::chemistry::{AlkaliSplit, Tally};
use crate::material::{Additive, Alkali, Colourant, Fat, Fragrance};
use crate::quantity::{Exact, Mass};
use crate::recipe::{AlkaliGrade, FatStage, Ingredient, Recipe};

/// A material of a recipe.
#[derive(Clone, Copy, Debug)]
pub(super) enum Source<'r> {
    Fat(&'r Fat, FatStage),
    Alkali(Alkali, AlkaliGrade),
    Water,
    /// An additive, and the same as an ingredient.
    Additive(&'r Additive, &'r Ingredient),
    Colour(&'r Colourant),
    Scent(&'r Fragrance),
}

impl<'r> Source<'r> {
    fn of(ingredient: &'r Ingredient) -> Self {
        match ingredient {
            Ingredient::Additive(additive) => Self::Additive(additive, ingredient),
            Ingredient::Fat(fat) => Self::Fat(fat, FatStage::Pot),
            Ingredient::Colourant(colour) => Self::Colour(colour),
            Ingredient::Fragrance(scent) => Self::Scent(scent),
            Ingredient::Alkali(alkali, grade) => Self::Alkali(*alkali, *grade),
        }
    }

    pub(super) fn id(self) -> &'r str {
        match self {
            Self::Fat(fat, _) => &fat.id,
            Self::Alkali(alkali, _) => alkali.id(),
            Self::Water => "water",
            Self::Additive(additive, _) => &additive.id,
            Self::Colour(colour) => &colour.id,
            Self::Scent(scent) => &scent.id,
        }
    }

    pub(super) fn name(self) -> &'r str {
        match self {
            Self::Fat(fat, _) => &fat.name,
            Self::Alkali(alkali, _) => alkali.name(),
            Self::Water => "water",
            Self::Additive(additive, _) => &additive.name,
            Self::Colour(colour) => &colour.name,
            Self::Scent(scent) => &scent.name,
        }
    }
}

/// How much of one line of the recipe is in the bars, or in one layer of them.
#[derive(Clone, Debug)]
pub(super) struct Charge<'r> {
    pub(super) source: Source<'r>,
    /// JSON Pointer to the line.
    pub(super) pointer: String,
    pub(super) mass: Exact,
    /// Half a step of the scale that it was weighed on, as far as it is in the bars.
    pub(super) half_step: Exact,
}

/// Everything that was weighed into what was poured: residue left behind, in proportion. `layer` is one layer, or nothing
/// for the whole bar. Nothing when the plan is not one of this recipe.
pub(super) fn charges<'r>(plan: &Plan, recipe: &'r Recipe, layer: Option<usize>) -> Option<Vec<Charge<'r>>> {
    plan.is_of(recipe).then_some(())?;
    let mut sum = Sum { plan, sources: sources(recipe), charges: Vec::new(), known: BTreeMap::new() };
    let indices = layer.map_or(0..plan.layers.len(), |layer| layer..layer.saturating_add(1));
    for index in indices {
        let line = plan.layers.get(index)?;
        let jug = plan.jugs.get(line.jug)?;
        let part = (line.portion, jug.net);
        let pot = jug.portion.weighed.exact() / plan.pot.total.exact();
        for item in plan.pot.fats.iter().chain(&plan.pot.doses) {
            sum.add(item, pot, part)?;
        }
        let lye = jug.lye.weighed.exact() / plan.lye.total.exact();
        let lye_items = plan.lye.alkalis.iter().chain([&plan.lye.water]).chain(&plan.lye.liquids);
        for item in lye_items.chain(&plan.lye.doses) {
            sum.add(item, lye, part)?;
        }
        for item in jug.held.iter().chain(&jug.doses).chain(&jug.late_doses) {
            sum.add(item, Exact::ONE, part)?;
        }
    }
    sum.charges.retain(|charge| !charge.mass.is_zero());
    Some(sum.charges)
}

struct Sum<'p, 'r> {
    plan: &'p Plan,
    sources: BTreeMap<String, Source<'r>>,
    charges: Vec<Charge<'r>>,
    known: BTreeMap<String, usize>,
}

impl Sum<'_, '_> {
    /// Adds a weighed thing of which `share` went into a jug, and of that the layer's part.
    fn add(&mut self, item: &WeighItem, share: Exact, (portion, net): (Mass, Mass)) -> Option<()> {
        let source = *self.sources.get(&item.pointer)?;
        let part = |mass: Exact| mass * share * portion.exact() / net.exact();
        let step = self.plan.scales.get(item.scale)?.step;
        let mass = part(item.weighed.exact());
        let half_step = part(step.exact() / Exact::from(2));
        match self.known.get(&item.pointer).and_then(|index| self.charges.get_mut(*index)) {
            Some(charge) => {
                charge.mass = charge.mass + mass;
                charge.half_step = charge.half_step + half_step;
            }
            None => {
                self.known.insert(item.pointer.clone(), self.charges.len());
                self.charges.push(Charge { source, pointer: item.pointer.clone(), mass, half_step });
            }
        }
        Some(())
    }
}

/// What stands on each line of the recipe.
fn sources(recipe: &Recipe) -> BTreeMap<String, Source<'_>> {
    let mut all = BTreeMap::new();
    for (index, line) in recipe.fats.iter().enumerate() {
        all.insert(format!("/fats/{index}"), Source::Fat(&line.fat, line.stage));
    }
    let split = AlkaliSplit::of(&recipe.alkali);
    for alkali in Alkali::ALL {
        if let Some(grade) = split.grade(alkali) {
            all.insert(format!("/alkali/{}", alkali.id()), Source::Alkali(alkali, grade));
        }
    }
    all.insert("/water".to_owned(), Source::Water);
    all.extend(recipe.all_doses().map(|dose| (dose.pointer.clone(), Source::of(&dose.ingredient))));
    all
}

/// The tally of the bars, or of one layer of them.
pub(super) fn tally(plan: &Plan, layer: Option<usize>) -> Option<Tally> {
    let of = |index: usize| {
        let line = plan.layers.get(index)?;
        let jug = plan.jugs.get(line.jug)?;
        Some(jug.tally.part(line.portion.exact(), jug.net.exact()))
    };
    match layer {
        Some(layer) => of(layer),
        None => (0..plan.layers.len()).try_fold(Tally::EMPTY, |sum, index| Some(sum.plus(&of(index)?))),
    }
}
