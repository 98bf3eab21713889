//! Coarse: which weighings a scale is too coarse for, when a plan cannot be reckoned from what is weighed.

use crate::problem::Problem;
use crate::quantity::{Exact, Mass, fixed};
use crate::recipe::{FatStage, Recipe};

use super::balance::Ideal;
use super::mixture::Mixture;
use super::weigh::Weighed;

/// Steps that something should be weighed in at least; what is advised gives so many.
/// Source: common practice, no source; it is where `weigh.few-steps` stops.
const ENOUGH: i64 = 20;

/// Something that came out as too few steps of its scale.
struct Line {
    pointer: String,
    what: String,
    ideal: Exact,
    weighed: Mass,
    scale: usize,
    larger: &'static str,
}

const LARGER_BATCH: &str = "make the batch larger";
const LARGER_LAYER: &str = "make the layer larger, or take fewer parts of the batch";

/// What is weighed as nothing that a plan needs something of; where there is no such thing, what is weighed in the fewest
/// steps. Empty when every weighing has enough.
pub(crate) fn too_coarse(
    recipe: &Recipe,
    mixtures: &[Mixture<'_>],
    ideal: &Ideal,
    weighed: &Weighed,
) -> Vec<Problem> {
    let lines = lines(recipe, mixtures, ideal, weighed);
    let problem = |line: &Line| problem(recipe, line, least(mixtures, ideal));
    let nothing = || lines.iter().filter(|line| line.weighed <= Mass::ZERO);
    if nothing().next().is_some() {
        return nothing().map(problem).collect();
    }
    let steps = |line: &Line| line.weighed.exact().steps(step(recipe, line.scale)).unwrap_or(i64::MAX);
    let fewest = lines.iter().min_by_key(|line| steps(line)).filter(|line| steps(line) < ENOUGH);
    fewest.map(problem).into_iter().collect()
}

/// As weighed, nothing is left in a vessel beside what sticks to it, though by its ideal amounts there is.
pub(crate) fn nothing_left(
    recipe: &Recipe,
    mixtures: &[Mixture<'_>],
    ideal: &Ideal,
    at: (&str, String),
    (there, scale): (Exact, usize),
) -> Problem {
    let (pointer, what) = (at.0.to_owned(), at.1);
    let line = Line { pointer, what, ideal: there, weighed: Mass::ZERO, scale, larger: LARGER_BATCH };
    problem(recipe, &line, least(mixtures, ideal))
}

/// The least that a batch weighs of what no plan is without, so that one scale that is fine enough for it is for all.
fn least(mixtures: &[Mixture<'_>], ideal: &Ideal) -> Exact {
    let alkali = &ideal.lye.alkali;
    let jugs = mixtures
        .iter()
        .zip(&ideal.jugs)
        .flat_map(|(mixture, jug)| [jug.portion, jug.lye, jug.outline.mass - mixture.residue.exact()]);
    let all = jugs.chain([alkali.sodium, alkali.potassium]).filter(|mass| mass.is_positive());
    all.reduce(Exact::min).unwrap_or(Exact::ONE)
}

fn step(recipe: &Recipe, scale: usize) -> Exact {
    recipe.workshop.scales.get(scale).map_or(Exact::ONE, |scale| scale.step.exact())
}

/// What no plan is without: the fats, each alkali, the lye, and what each jug gets of pot and lye.
fn lines(recipe: &Recipe, mixtures: &[Mixture<'_>], ideal: &Ideal, weighed: &Weighed) -> Vec<Line> {
    let mut lines = Vec::with_capacity(mixtures.len().saturating_mul(2).saturating_add(4));
    let pot = recipe.fats.iter().zip(&ideal.fats).filter(|(line, _)| line.stage == FatStage::Pot);
    lines.push(Line {
        pointer: "/fats".to_owned(),
        what: "the fat of the pot".to_owned(),
        ideal: pot.map(|(_, mass)| *mass).sum(),
        weighed: weighed.fats.iter().map(|item| item.weighed).sum(),
        scale: weighed.fats.first().map_or(0, |item| item.scale),
        larger: LARGER_BATCH,
    });
    for (_, item) in &weighed.alkalis {
        lines.push(Line {
            pointer: item.pointer.clone(),
            what: item.name.to_string(),
            ideal: item.ideal.exact(),
            weighed: item.weighed,
            scale: item.scale,
            larger: LARGER_BATCH,
        });
    }
    for (mixture, jug) in mixtures.iter().zip(&weighed.jugs) {
        for (what, weighing) in [("fat", jug.portion), ("lye", jug.lye)] {
            lines.push(Line {
                pointer: mixture.pointer.clone(),
                what: format!("the {what} of {:?}", mixture.name),
                ideal: weighing.ideal.exact(),
                weighed: weighing.weighed,
                scale: weighing.scale,
                larger: LARGER_LAYER,
            });
        }
    }
    lines.retain(|line| line.ideal.is_positive());
    lines
}

fn problem(recipe: &Recipe, line: &Line, least: Exact) -> Problem {
    let Line { pointer, what, ideal, weighed, scale, larger } = line;
    let grams = shown(*ideal);
    let (name, step) = recipe
        .workshop
        .scales
        .get(*scale)
        .map_or(("", Mass::ZERO), |scale| (scale.name.as_str(), scale.step));
    Problem {
        code: "scale.coarse",
        pointer: pointer.clone(),
        message: format!(
            "{what}, {grams} g, comes out as {weighed} in steps of {step} on {name:?}: too little to plan with"
        ),
        advice: format!("weigh on a scale with steps of {} g or finer, or {larger}", finer(least)),
    }
}

/// Grams with the first two digits that are not noughts.
fn shown(grams: Exact) -> String {
    let mut decimals = 2;
    let mut enough = Exact::literal(1, 1);
    while decimals < 12 && !(grams - enough).is_positive() {
        enough = enough * Exact::literal(1, 1);
        decimals = u32::saturating_add(decimals, 1);
    }
    fixed(grams.decimal().unwrap_or_default(), decimals)
}

/// The coarsest step of 1, 0.1, 0.01 .. g that gives enough steps.
fn finer(grams: Exact) -> String {
    let most = grams / Exact::from(ENOUGH);
    let mut step = Exact::ONE;
    for _ in 0..9 {
        if !(step - most).is_positive() {
            break;
        }
        step = step * Exact::literal(1, 1);
    }
    step.decimal().unwrap_or_default().normalize().to_string()
}
