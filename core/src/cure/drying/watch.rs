//! Which weighings do not belong to the curve: single ones that lie off it, and a run of them that is another bar's.

use super::fit::{Fit, NoFit, Point, line, rates};
use super::student;

/// Robust standard deviations beyond which a weighing is looked at more closely.
///
/// # Source
/// A deviation over 1.4826 times the median of all deviations, held against 3.5: B. Iglewicz, D. Hoaglin, How to Detect
/// and Handle Outliers (1993), from memory.
const SUSPECT: f64 = 3.5;
/// How improbable a weighing must be on the curve of the others to be left out, over all that could have been.
const OFF_CHANCE: f64 = 0.01;
/// Weighings among which two that hide each other are sought.
const MOST_SUSPECTS: usize = 8;
/// A median deviation to a standard deviation, for a normal distribution.
const TO_SIGMA: f64 = 1.4826;
/// Scatter that is taken for granted, as a share of the first mass: below it nothing is called off. From memory: the
/// step of a kitchen scale, air that moves, a bar not laid in the middle.
const TAKEN_FOR_GRANTED: f64 = 0.0005;
/// Weighings that it takes to tell a curve from what lies off it.
const LEAST: usize = 5;
/// A shift of all weighings from some day on, as a share of the first mass, that makes another bar of them.
const SHIFT: f64 = 0.003;
/// How improbable such a shift must be on one curve, over all days on which it could have been.
const CHANCE: f64 = 0.001;
/// Weighings on each side of such a day, and in all.
const SIDE: usize = 3;
const LEAST_FOR_SHIFT: usize = 8;

/// What was seen.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Watched {
    /// For each point, whether it lies off the curve of the others.
    pub(crate) off: Vec<bool>,
    /// The index of the first point of another bar, in the order of age, and by how much more that bar weighs, g.
    pub(crate) shift: Option<(usize, f64)>,
    /// The fit to the rest.
    pub(crate) fit: Result<Fit, NoFit>,
}

/// Looks at points in the order of age, and fits what belongs together.
///
/// 1. A shift: at each day with three weighings on both sides, one step is added to the curve; the day at which the
///    squares fall most is held against Student's distribution, a thousandth shared over all the days. Where one is
///    found, the shorter side is left out.
/// 2. Single weighings: where some lie far off a curve through the middle of all (for each rate the median of the slopes
///    of all pairs, so that a quarter of the weighings may be anything), each is held against the curve of the others by
///    Student's distribution, a hundredth shared over all. One that is beyond that is left out, and the rest is looked at
///    again. Two that hide each other are held together against the rest by Fisher's distribution. At most a quarter of
///    all is left out.
pub(crate) fn watch(points: &[Point]) -> Watched {
    let found = shift(points);
    let whole = 0..points.len();
    let range = match found {
        Some((at, _)) if at.saturating_mul(2) > points.len() => 0..at,
        Some((at, _)) => at..points.len(),
        None => whole,
    };
    let mut off = vec![true; points.len()];
    let kept: Vec<Point> = points.get(range.clone()).unwrap_or(&[]).to_vec();
    let marks = astray(&kept);
    for (slot, mark) in off.iter_mut().skip(range.start).zip(&marks) {
        *slot = *mark;
    }
    let used: Vec<Point> =
        kept.iter().zip(&marks).filter(|(_, off)| !**off).map(|(point, _)| *point).collect();
    Watched { off, shift: found, fit: Fit::of(&used) }
}

/// Whether each point lies off the curve of the others.
fn astray(points: &[Point]) -> Vec<bool> {
    let mut marks = vec![false; points.len()];
    let most = points.len() / 4;
    loop {
        let left: Vec<usize> =
            marks.iter().enumerate().filter(|(_, mark)| !**mark).map(|(index, _)| index).collect();
        let kept: Vec<Point> = left.iter().filter_map(|index| points.get(*index)).copied().collect();
        let room = most.saturating_sub(points.len().saturating_sub(left.len()));
        let suspects = suspects(&kept);
        if suspects.is_empty() || room == 0 {
            return marks;
        }
        let found = single(&kept)
            .map(|one| vec![one])
            .or_else(|| if room > 1 { pair(&kept, &suspects) } else { None })
            .unwrap_or_default();
        if found.is_empty() {
            return marks;
        }
        for index in found.iter().filter_map(|one| left.get(*one)) {
            if let Some(mark) = marks.get_mut(*index) {
                *mark = true;
            }
        }
    }
}

/// Points that lie far off a curve through the middle of all, the farthest first.
fn suspects(points: &[Point]) -> Vec<usize> {
    let (Some(first), Some(last)) = (points.first(), points.last()) else { return Vec::new() };
    let span = last.age - first.age;
    if points.len() < LEAST || span <= 0.0 {
        return Vec::new();
    }
    let mut best: Option<(f64, Vec<f64>)> = None;
    for rate in rates(span) {
        let bent: Vec<f64> = points.iter().map(|point| libm::exp(-rate * (point.age - first.age))).collect();
        let sizes = deviations(points, &bent);
        let spread: f64 = trimmed(&sizes);
        if spread.is_finite() && best.as_ref().is_none_or(|(least, _)| spread < *least) {
            best = Some((spread, sizes));
        }
    }
    let Some((_, sizes)) = best else { return Vec::new() };
    let scatter = (TO_SIGMA * median(sizes.clone())).max(granted(points));
    let mut order: Vec<(usize, f64)> = sizes.into_iter().enumerate().collect();
    order.sort_by(|a, b| b.1.total_cmp(&a.1));
    order.retain(|(_, size)| *size > SUSPECT * scatter);
    order.into_iter().take(MOST_SUSPECTS).map(|(index, _)| index).collect()
}

/// Scatter of a weighing that is taken for granted.
fn granted(points: &[Point]) -> f64 {
    TAKEN_FOR_GRANTED * points.first().map_or(0.0, |point| point.mass)
}

fn without(points: &[Point], left_out: &[usize]) -> Vec<Point> {
    let kept = points.iter().enumerate().filter(|(index, _)| !left_out.contains(index));
    kept.map(|(_, point)| *point).collect()
}

/// The point that is least probable on the curve of the others, when that is beyond chance.
fn single(points: &[Point]) -> Option<usize> {
    let mut best: Option<(f64, usize)> = None;
    for (index, point) in points.iter().enumerate() {
        let Ok(fit) = Fit::of(&without(points, &[index])) else { continue };
        if fit.freedom == 0 {
            continue;
        }
        let (mass, error) = fit.mean(point.age);
        let scatter = fit.residual.max(granted(points)) * point.uncertainty.max(1.0);
        let off = (point.mass - mass).abs() / libm::hypot(scatter, error);
        let chance = 1.0 - student::within(off, fit.freedom);
        if best.is_none_or(|(least, _)| chance < least) {
            best = Some((chance, index));
        }
    }
    let (chance, index) = best?;
    (chance * size(points.len()) < OFF_CHANCE).then_some(index)
}

/// Two points that are together improbable on the curve of the others, though neither is while the other is there.
fn pair(points: &[Point], suspects: &[usize]) -> Option<Vec<usize>> {
    let all = Fit::of(points).ok()?;
    let mut best: Option<(Fit, Vec<usize>)> = None;
    for (rank, a) in suspects.iter().enumerate() {
        for b in suspects.iter().skip(rank.saturating_add(1)) {
            let two = vec![*a, *b];
            let Ok(fit) = Fit::of(&without(points, &two)) else { continue };
            if fit.freedom > 0 && best.as_ref().is_none_or(|(least, _)| fit.squares < least.squares) {
                best = Some((fit, two));
            }
        }
    }
    let (fit, two) = best?;
    let freedom = f64::from(fit.freedom);
    let own = (fit.squares / freedom).max(granted(points) * granted(points));
    let ratio = (all.squares - fit.squares) / 2.0 / own;
    // Fisher's distribution with two degrees of freedom above has this tail.
    let chance = libm::pow(1.0 + 2.0 * ratio / freedom, -freedom / 2.0);
    let count = size(points.len());
    (chance * count * (count - 1.0) / 2.0 < OFF_CHANCE).then_some(two)
}

fn size(count: usize) -> f64 {
    f64::from(u32::try_from(count).unwrap_or(u32::MAX))
}

/// How far each point lies from the line of median slope and median level over `x`, times its own uncertainty where the
/// points differ in it.
fn deviations(points: &[Point], x: &[f64]) -> Vec<f64> {
    let placed = || points.iter().zip(x).enumerate();
    let mut slopes = Vec::with_capacity(points.len().saturating_mul(points.len()) / 2);
    for (index, (a, from)) in placed() {
        for (_, (b, to)) in placed().skip(index.saturating_add(1)) {
            let run = to - from;
            if run.abs() > 1e-12 {
                slopes.push((b.mass - a.mass) / run);
            }
        }
    }
    let slope = median(slopes);
    let level = median(placed().map(|(_, (point, x))| point.mass - slope * x).collect());
    let finest = points.iter().map(|point| point.uncertainty).fold(f64::INFINITY, f64::min);
    let off = |(_, (point, x)): (usize, (&Point, &f64))| {
        (point.mass - level - slope * x).abs() * finest / point.uncertainty
    };
    placed().map(off).collect()
}

/// Sum of the smaller three quarters.
fn trimmed(sizes: &[f64]) -> f64 {
    let mut sorted = sizes.to_vec();
    sorted.sort_by(f64::total_cmp);
    sorted.iter().take(sizes.len().saturating_sub(sizes.len() / 4)).sum()
}

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    let middle = values.len() / 2;
    let upper = values.get(middle).copied().unwrap_or(f64::NAN);
    if values.len().is_multiple_of(2) {
        let lower = middle.checked_sub(1).and_then(|index| values.get(index)).copied().unwrap_or(f64::NAN);
        (lower + upper) / 2.0
    } else {
        upper
    }
}

/// The day from which on all weighings are shifted, when that is beyond chance.
fn shift(points: &[Point]) -> Option<(usize, f64)> {
    let (first, last) = (points.first()?, points.last()?);
    let span = last.age - first.age;
    if points.len() < LEAST_FOR_SHIFT || span <= 0.0 {
        return None;
    }
    let mut best: Option<(f64, f64, usize, f64)> = None;
    for rate in rates(span) {
        // The age as the rate sees it: what is still to be lost.
        let bent: Vec<Point> = points
            .iter()
            .map(|point| Point {
                age: libm::exp(-rate * (point.age - first.age)),
                uncertainty: 1.0,
                ..*point
            })
            .collect();
        for at in SIDE..=points.len().saturating_sub(SIDE) {
            let (step, squares, spread) = stepped(&bent, at);
            if squares.is_finite() && best.is_none_or(|(least, ..)| squares < least) {
                best = Some((squares, step, at, spread));
            }
        }
    }
    let (squares, step, at, spread) = best?;
    // Level, slope, rate and step are sought.
    let freedom = u32::try_from(points.len().saturating_sub(4)).ok()?;
    let scatter = (squares / f64::from(freedom)).sqrt().max(granted(points));
    let days = points.len().saturating_sub(SIDE.saturating_mul(2)).saturating_add(1);
    let chance = (1.0 - student::within(step.abs() / (scatter * spread), freedom)) * size(days);
    (chance < CHANCE && step.abs() > SHIFT * first.mass).then_some((at, step))
}

/// A straight line over the ages with a step at a point: the step, the sum of squares, and the step's standard error for a
/// scatter of 1. The step is what is left of it when the line has taken its part (Frisch, Waugh and Lovell).
fn stepped(points: &[Point], at: usize) -> (f64, f64, f64) {
    let steps: Vec<Point> = points
        .iter()
        .enumerate()
        .map(|(index, point)| Point { mass: if index < at { 0.0 } else { 1.0 }, ..*point })
        .collect();
    let (level, slope, _) = line(points, |point| point.age);
    let (step_level, step_slope, own) = line(&steps, |point| point.age);
    let pairs = || {
        points.iter().zip(&steps).map(|(mass, step)| {
            let left = mass.mass - level - slope * mass.age;
            (left, step.mass - step_level - step_slope * step.age)
        })
    };
    let step = pairs().map(|(mass, step)| mass * step).sum::<f64>() / own;
    let squares = pairs().map(|(mass, one)| (mass - step * one) * (mass - step * one)).sum();
    (step, squares, 1.0 / own.sqrt())
}
