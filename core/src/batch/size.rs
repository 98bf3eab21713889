//! Size: how much fat the batch takes, and how it goes to the jugs.

use crate::problem::Problem;
use crate::quantity::{Exact, Length, Volume};
use crate::recipe::{FatAmount, LayerShare, Recipe, Size};

use super::balance::{Balance, Ideal, JugBalance, balance};
use super::mixture::Mixture;
use super::units::Units;

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
/// With layers in parts of the fat, what is poured rises in a straight line with the fat, or nearly so: grams that do not
/// grow with the batch, beside residue, bend it a little. Layers of a stated mass, height or volume each take the fat that
/// fills them; that is found by repetition, until the last of 22 digits stands still.
///
/// # Errors
/// `plan.size` when no amount of fat reaches the size, or what the balance finds.
pub(crate) fn solve(recipe: &Recipe, mixtures: &[Mixture<'_>], units: &Units) -> Result<Ideal, Problem> {
    let target = target(recipe);
    let (measure, wanted) = wanted(recipe, mixtures);
    let balance = match (measure, target) {
        (Measure::Fat, Target::Fat(fat)) => balance(recipe, mixtures, units, fat, &wanted)?,
        (Measure::Fat, _) => by_lines(recipe, mixtures, units, &wanted, target)?,
        (Measure::Mass | Measure::Volume, _) => {
            by_repetition(recipe, mixtures, units, measure, &wanted, target)?
        }
    };
    checked(recipe, &balance, mixtures)?;
    Ok(balance.amounts(recipe, mixtures, units))
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

/// What is poured from a jug of this mass and room that keeps `residue` on its walls, in mass or volume.
fn poured_of(measure: Measure, mass: Exact, volume: Exact, residue: Exact) -> Exact {
    match measure {
        Measure::Fat | Measure::Mass => mass - residue,
        Measure::Volume => volume.portion(mass - residue, mass),
    }
}

/// What is poured from each jug, in a measure.
fn poured(balance: &Balance, mixtures: &[Mixture<'_>], measure: Measure) -> Vec<Exact> {
    let of = |(jug, mixture): (&JugBalance, &Mixture<'_>)| match measure {
        Measure::Fat => jug.fat,
        Measure::Mass | Measure::Volume => {
            poured_of(measure, jug.outline.mass, jug.outline.volume, mixture.residue.exact())
        }
    };
    balance.jugs.iter().zip(mixtures).map(of).collect()
}

/// The batch in which what is poured is what the size says. What is in a jug rises in a straight line with the fat, or
/// nearly so where the pot or the lye leave residue; the amount is found on the lines through the last two trials. Where
/// they are straight the first such step is exact; elsewhere each step about doubles the digits that are right.
fn by_lines(
    recipe: &Recipe,
    mixtures: &[Mixture<'_>],
    units: &Units,
    weights: &[Exact],
    target: Target,
) -> Result<Balance, Problem> {
    let (measure, aim) = match target {
        Target::Volume(volume) => (Measure::Volume, volume),
        Target::Mass(aim) | Target::Fat(aim) => (Measure::Mass, aim),
        Target::Layers => return Err(no_size(recipe)),
    };
    let trial = |fat: Exact| -> Result<(Balance, Exact), Problem> {
        let balance = balance(recipe, mixtures, units, fat, weights)?;
        let over = poured(&balance, mixtures, measure).into_iter().sum::<Exact>() - aim;
        Ok((balance, over))
    };
    // Any two amounts of fat do. Three fifths of a batter is fat, more or less, and what those fill tells the second.
    let (mut before, mut over_before) = trial(aim * Exact::literal(6, 1))?;
    let guess = before.fat.portion(aim, over_before + aim);
    let near = (aim - guess).is_positive() && guess.is_positive() && !over_before.is_zero();
    let (mut now, mut over_now) = trial(if near { guess } else { aim })?;
    for _ in 0..REPETITIONS {
        let lines = Lines::through(&before, &now, mixtures, measure);
        let at = lines.reach(aim, [over_before, over_now]);
        let step = (now.fat - before.fat) * at;
        // On so short a way nobody tells the line from what it touches.
        if step.is_within(now.fat * SHORT) {
            return Ok(now.beyond(&before, at));
        }
        let (next, over) = trial(now.fat + step)?;
        if over.decimal().is_none() {
            break;
        }
        if over.is_within(aim * MET) {
            return Ok(next);
        }
        (before, over_before, now, over_now) = (now, over_now, next, over);
    }
    Err(no_size(recipe))
}

/// What is in each jug, on the straight lines through two trials. A place on them is told by how far it lies from the
/// second trial, in distances between the two.
struct Lines {
    measure: Measure,
    jugs: Vec<Line>,
}

/// Mass and room of a jug, what each changes by from trial to trial, and what stays on the walls.
struct Line {
    mass: Exact,
    more_mass: Exact,
    volume: Exact,
    more_volume: Exact,
    residue: Exact,
}

impl Lines {
    fn through(one: &Balance, other: &Balance, mixtures: &[Mixture<'_>], measure: Measure) -> Self {
        let line = |((one, other), mixture): ((&JugBalance, &JugBalance), &Mixture<'_>)| Line {
            mass: other.outline.mass,
            more_mass: other.outline.mass - one.outline.mass,
            volume: other.outline.volume,
            more_volume: other.outline.volume - one.outline.volume,
            residue: mixture.residue.exact(),
        };
        Self { measure, jugs: one.jugs.iter().zip(&other.jugs).zip(mixtures).map(line).collect() }
    }

    fn poured(&self, at: Exact) -> Exact {
        let of = |line: &Line| {
            let (mass, volume) = (line.mass + line.more_mass * at, line.volume + line.more_volume * at);
            poured_of(self.measure, mass, volume, line.residue)
        };
        self.jugs.iter().map(of).sum()
    }

    /// Where `aim` is poured, by the secant from the two trials, which are `over` it by so much; poisoned when there is no
    /// such place.
    fn reach(&self, aim: Exact, over: [Exact; 2]) -> Exact {
        let [mut over_before, mut over_now] = over;
        let (mut before, mut now) = (-Exact::ONE, Exact::ZERO);
        for _ in 0..REPETITIONS {
            let step = over_now.portion(now - before, over_now - over_before);
            (before, over_before, now) = (now, over_now, now - step);
            // A poisoned step is never short, and the next is poisoned too.
            if step.is_within(SHORT) {
                break;
            }
            over_now = self.poured(now) - aim;
            if over_now.is_zero() {
                break;
            }
        }
        now
    }
}

/// A size is met when no more than this part of it is missed.
const MET: Exact = Exact::literal(1, 23);
/// A step is short when it moves the fat by no more than this part of it. What lies there leaves the line by that times the
/// step before, times how much the line bends, which is no digit that is kept.
const SHORT: Exact = Exact::literal(1, 14);

const REPETITIONS: u32 = 100;

/// A difference without its sign.
fn size_of(value: Exact) -> Exact {
    value.max(-value)
}

fn by_repetition(
    recipe: &Recipe,
    mixtures: &[Mixture<'_>],
    units: &Units,
    measure: Measure,
    wanted: &[Exact],
    target: Target,
) -> Result<Balance, Problem> {
    let close_enough = Exact::literal(1, 22);
    let whole: Exact = wanted.iter().copied().sum();
    // Two thirds of a batter is fat, more or less; the first guess only has to be of the right size.
    let mut fats: Vec<Exact> =
        wanted.iter().map(|part| *part * Exact::literal(2, 0) / Exact::from(3)).collect();
    for _ in 0..REPETITIONS {
        // A size that says the fat is that fat to the last digit; how it goes to the jugs is what is sought.
        let all = if let Target::Fat(fat) = target { fat } else { fats.iter().copied().sum() };
        let trial = balance(recipe, mixtures, units, all, &fats)?;
        let got = poured(&trial, mixtures, measure);
        let got_whole: Exact = got.iter().copied().sum();
        let scale = match target {
            Target::Fat(_) => Exact::ONE,
            Target::Mass(mass) => mass / poured(&trial, mixtures, Measure::Mass).into_iter().sum(),
            Target::Volume(volume) => volume / poured(&trial, mixtures, Measure::Volume).into_iter().sum(),
            Target::Layers => whole / got_whole,
        };
        let mut still = size_of(scale - Exact::ONE);
        for ((fat, part), got) in fats.iter_mut().zip(wanted).zip(&got) {
            // The part of the whole that it should be, over the part that it is.
            let shape = part.portion(got_whole, whole) / *got;
            still = still.max(size_of(shape - Exact::ONE));
            *fat = *fat * shape * scale;
        }
        if still.decimal().is_none() {
            break;
        }
        if !(still - close_enough).is_positive() {
            return Ok(trial);
        }
    }
    Err(no_size(recipe))
}

/// Whether every jug of a batch has something to pour.
fn checked(recipe: &Recipe, balance: &Balance, mixtures: &[Mixture<'_>]) -> Result<(), Problem> {
    if !balance.fat.is_positive() || balance.lye.total.decimal().is_none() {
        return Err(no_size(recipe));
    }
    for (jug, mixture) in balance.jugs.iter().zip(mixtures) {
        if !(jug.outline.mass - mixture.residue.exact()).is_positive() {
            return Err(nothing_to_pour(mixture));
        }
    }
    Ok(())
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
