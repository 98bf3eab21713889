//! Size: how much fat the batch takes, and how it goes to the jugs.

use crate::problem::Problem;
use crate::quantity::{Exact, Length, Volume};
use crate::recipe::{FatAmount, LayerShare, Recipe, Size};

use super::balance::{Ideal, Units, balance};
use super::mixture::Mixture;

/// What the size of a batch is a size of.
#[derive(Clone, Copy)]
enum Target {
    /// All the fat, g.
    Fat(Exact),
    /// All that is poured, g.
    Mass(Exact),
    /// All that is poured, mL.
    Volume(Exact),
    /// Each jug as its layers say.
    Layers,
}

/// What a layer's share is a share of.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Measure {
    Fat,
    Mass,
    Volume,
}

/// The ideal amounts of the batch that a recipe asks for.
///
/// With layers in parts of the fat, what is poured rises in a straight line with the fat, so that two trials give the
/// fat that a target wants, exactly. Layers of a stated mass, height or volume each take the fat that fills them;
/// that is found by repetition, until the last of 20 digits stands still.
///
/// # Errors
/// `plan.size` when no amount of fat reaches the size, or what the balance finds.
pub(crate) fn solve(recipe: &Recipe, mixtures: &[Mixture<'_>], units: &Units) -> Result<Ideal, Problem> {
    let target = target(recipe);
    let (measure, wanted) = wanted(recipe, mixtures);
    if measure == Measure::Fat {
        let fat = match target {
            Target::Fat(fat) => fat,
            Target::Mass(_) | Target::Volume(_) | Target::Layers => {
                straight_line(recipe, mixtures, units, &wanted, target)?
            }
        };
        return checked(recipe, balance(recipe, mixtures, units, fat, &wanted)?, mixtures);
    }
    by_repetition(recipe, mixtures, units, measure, &wanted, target)
}

fn target(recipe: &Recipe) -> Target {
    match recipe.size {
        Some(Size::Fat(mass)) => Target::Fat(mass.exact()),
        Some(Size::Batter(mass)) => Target::Mass(mass.exact()),
        Some(Size::Bars { count, each }) => Target::Mass(each.exact() * Exact::from(i64::from(count))),
        Some(Size::Moulds) => {
            Target::Volume(recipe.moulds.iter().map(|mould| mould.capacity().exact()).sum())
        }
        None => {
            let masses = recipe.fats.iter().map(|line| match line.amount {
                FatAmount::Mass(mass) => Some(mass.exact()),
                FatAmount::Share(_) => None,
            });
            masses.sum::<Option<Exact>>().map_or(Target::Layers, Target::Fat)
        }
    }
}

/// What each jug's layers ask for, in what measure.
fn wanted(recipe: &Recipe, mixtures: &[Mixture<'_>]) -> (Measure, Vec<Exact>) {
    let shares = layer_shares(recipe);
    let measure = match recipe.layers.first().map(|layer| layer.share) {
        Some(LayerShare::Mass(_)) => Measure::Mass,
        Some(LayerShare::Height(_) | LayerShare::Volume(_)) => Measure::Volume,
        Some(LayerShare::Parts(_)) | None => Measure::Fat,
    };
    let of =
        |mixture: &Mixture<'_>| mixture.layers.iter().filter_map(|layer| shares.get(*layer)).copied().sum();
    (measure, mixtures.iter().map(of).collect())
}

/// Each layer's share as a number: parts, grams or millilitres; a height as the volume it takes in the moulds.
pub(crate) fn layer_shares(recipe: &Recipe) -> Vec<Exact> {
    let mut below = Length::ZERO;
    let mut filled = Volume::ZERO;
    let share = |share: LayerShare| match share {
        LayerShare::Parts(parts) => Exact::from(parts),
        LayerShare::Mass(mass) => mass.exact(),
        LayerShare::Volume(volume) => volume.exact(),
        LayerShare::Height(height) => {
            below += height;
            let before = filled;
            filled = recipe.moulds.iter().map(|mould| mould.volume_to(below)).sum();
            (filled - before).exact()
        }
    };
    recipe.layers.iter().map(|layer| layer.share).map(share).collect()
}

/// What is poured from a jug, in a measure.
fn poured(ideal: &Ideal, mixtures: &[Mixture<'_>], measure: Measure) -> Vec<Exact> {
    let of = |(jug, mixture): (&super::balance::IdealJug, &Mixture<'_>)| {
        let mass = jug.outline.mass;
        let left = mass - mixture.residue.exact();
        match measure {
            Measure::Fat => jug.fat,
            Measure::Mass => left,
            Measure::Volume => jug.outline.volume * left / mass,
        }
    };
    ideal.jugs.iter().zip(mixtures).map(of).collect()
}

fn straight_line(
    recipe: &Recipe,
    mixtures: &[Mixture<'_>],
    units: &Units,
    weights: &[Exact],
    target: Target,
) -> Result<Exact, Problem> {
    let (measure, aim) = match target {
        Target::Volume(volume) => (Measure::Volume, volume),
        Target::Mass(aim) | Target::Fat(aim) => (Measure::Mass, aim),
        Target::Layers => return Err(no_size(recipe)),
    };
    let total = |fat: Exact| -> Result<Exact, Problem> {
        Ok(poured(&balance(recipe, mixtures, units, fat, weights)?, mixtures, measure).into_iter().sum())
    };
    // Any two amounts of fat do; these are close enough to the answer that water does not run out on the way.
    let (low, high) = (aim / Exact::from(2), aim);
    let (at_low, at_high) = (total(low)?, total(high)?);
    let slope = at_high - at_low;
    Ok(low + (aim - at_low) * (high - low) / slope)
}

const REPETITIONS: u32 = 100;

fn by_repetition(
    recipe: &Recipe,
    mixtures: &[Mixture<'_>],
    units: &Units,
    measure: Measure,
    wanted: &[Exact],
    target: Target,
) -> Result<Ideal, Problem> {
    let close_enough = Exact::literal(1, 18);
    let whole: Exact = wanted.iter().copied().sum();
    // Two thirds of a batter is fat, more or less; the first guess only has to be of the right size.
    let mut fats: Vec<Exact> =
        wanted.iter().map(|part| *part * Exact::literal(2, 0) / Exact::from(3)).collect();
    for _ in 0..REPETITIONS {
        let ideal = balance(recipe, mixtures, units, fats.iter().copied().sum(), &fats)?;
        let got = poured(&ideal, mixtures, measure);
        let got_whole: Exact = got.iter().copied().sum();
        let scale = match target {
            Target::Fat(fat) => fat / ideal.fat,
            Target::Mass(mass) => mass / poured(&ideal, mixtures, Measure::Mass).into_iter().sum(),
            Target::Volume(volume) => volume / poured(&ideal, mixtures, Measure::Volume).into_iter().sum(),
            Target::Layers => whole / got_whole,
        };
        let mut still = (scale - Exact::ONE).max(Exact::ONE - scale);
        for ((fat, part), got) in fats.iter_mut().zip(wanted).zip(&got) {
            // The part of the whole that it should be, over the part that it is.
            let shape = *part * got_whole / (whole * *got);
            still = still.max((shape - Exact::ONE).max(Exact::ONE - shape));
            *fat = *fat * shape * scale;
        }
        if still.decimal().is_none() {
            break;
        }
        if !(still - close_enough).is_positive() {
            return checked(recipe, ideal, mixtures);
        }
    }
    Err(no_size(recipe))
}

/// A batch in which every jug has something to pour.
fn checked(recipe: &Recipe, ideal: Ideal, mixtures: &[Mixture<'_>]) -> Result<Ideal, Problem> {
    if !ideal.fat.is_positive() || ideal.lye.total.decimal().is_none() {
        return Err(no_size(recipe));
    }
    for (jug, mixture) in ideal.jugs.iter().zip(mixtures) {
        if !(jug.outline.mass - mixture.residue.exact()).is_positive() {
            return Err(nothing_to_pour(mixture));
        }
    }
    Ok(ideal)
}

pub(crate) fn nothing_to_pour(mixture: &Mixture<'_>) -> Problem {
    Problem {
        code: "plan.residue",
        pointer: mixture.pointer.clone(),
        message: format!(
            "{:?} holds no more than the {} that stays on its walls",
            mixture.name, mixture.residue
        ),
        advice: "make the batch larger, use fewer jugs, or state a smaller \"residue\"".to_owned(),
    }
}

fn no_size(recipe: &Recipe) -> Problem {
    let pointer = if recipe.size.is_some() { "/size" } else { "/layers" };
    Problem {
        code: "plan.size",
        pointer: pointer.to_owned(),
        message: "no amount of fat makes a batch of this size".to_owned(),
        advice: "doses in grams or residue may already be more than the batch: make it larger, or dose in per cent"
            .to_owned(),
    }
}
