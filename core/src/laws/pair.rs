//! Two plans side by side, line by line.

use crate::batch::{Plan, WeighItem, Weighing};
use crate::quantity::{Mass, Share};
use crate::recipe::Recipe;

/// Every ideal amount of a plan, with what it is an amount of. Two plans of the same shape list them in the same order.
pub(super) fn ideals(plan: &Plan) -> Vec<(String, Mass)> {
    let mut all: Vec<(String, Mass)> = items(plan).map(|item| (item.name.to_string(), item.ideal)).collect();
    for jug in &plan.jugs {
        all.push((format!("portion of {}", jug.name), jug.portion.ideal));
        all.push((format!("lye of {}", jug.name), jug.lye.ideal));
    }
    all
}

/// Every ideal superfat: of the batch, then of the jugs.
pub(super) fn superfats(plan: &Plan) -> Vec<Share> {
    let jugs = plan.jugs.iter().map(|jug| jug.superfat_ideal);
    std::iter::once(plan.batch.superfat_ideal).chain(jugs).collect()
}

/// Everything that is weighed for itself or as a fat of the pot.
pub(super) fn items(plan: &Plan) -> impl Iterator<Item = &WeighItem> {
    let jugs = plan.jugs.iter().flat_map(|jug| jug.held.iter().chain(&jug.doses).chain(&jug.late_doses));
    plan.pot.fats.iter().chain(&plan.pot.doses).chain(lye(plan)).chain(jugs)
}

/// Everything that goes into the lye.
pub(super) fn lye(plan: &Plan) -> impl Iterator<Item = &WeighItem> {
    let lye = &plan.lye;
    lye.alkalis.iter().chain([&lye.water]).chain(&lye.liquids).chain(&lye.doses)
}

/// What is weighed out of the pot and of the lye.
pub(super) fn weighings(plan: &Plan) -> impl Iterator<Item = &Weighing> {
    plan.jugs.iter().flat_map(|jug| [&jug.portion, &jug.lye])
}

/// All of it weighed.
pub(super) fn weighed<'i>(items: impl IntoIterator<Item = &'i WeighItem>) -> Mass {
    items.into_iter().map(|item| item.weighed).sum()
}

/// Step of a scale of the plan.
pub(super) fn step(plan: &Plan, scale: usize) -> Mass {
    plan.scales.get(scale).map_or(Mass::ZERO, |scale| scale.step)
}

/// What should stay in each jug at least.
pub(super) fn residue(recipe: &Recipe, layers: &[usize]) -> Mass {
    let layer = layers.first().and_then(|layer| recipe.layers.get(*layer));
    let jug = layer.and_then(|layer| layer.jug).and_then(|jug| recipe.jugs.get(jug));
    jug.and_then(|jug| jug.residue).unwrap_or(recipe.workshop.jug_residue)
}
