//! Which weighings do not belong to the curve: single ones that lie off it, and a run of them that is another bar's.

use super::fit::{Fit, NoFit, Point, line, rates};
use super::student;

/// Robust standard deviations beyond which a weighing lies off the curve.
///
/// # Source
/// A deviation over 1.4826 times the median of all deviations, held against 3.5: B. Iglewicz, D. Hoaglin, How to Detect
/// and Handle Outliers (1993), from memory.
const OFF: f64 = 3.5;
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
/// 2. Single weighings: a curve is laid through the middle of all (for each rate the median of the slopes of all pairs,
///    so that a quarter of the weighings may be anything), and what lies more than 3.5 robust deviations off is left
///    out, at most a quarter of all.
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

/// Whether each point lies off the curve that runs through the middle of them.
fn astray(points: &[Point]) -> Vec<bool> {
    let none = vec![false; points.len()];
    let (Some(first), Some(last)) = (points.first(), points.last()) else { return none };
    let span = last.age - first.age;
    if points.len() < LEAST || span <= 0.0 {
        return none;
    }
    let mut best: Option<(f64, Vec<f64>)> = None;
    for rate in rates(span) {
        let sizes = deviations(points, |point| libm::exp(-rate * (point.age - first.age)));
        let spread: f64 = trimmed(&sizes);
        if spread.is_finite() && best.as_ref().is_none_or(|(least, _)| spread < *least) {
            best = Some((spread, sizes));
        }
    }
    let Some((_, sizes)) = best else { return none };
    let granted = TAKEN_FOR_GRANTED * first.mass;
    let scatter = (TO_SIGMA * median(sizes.clone())).max(granted);
    let most = points.len() / 4;
    let mut order: Vec<(usize, f64)> = sizes.iter().copied().enumerate().collect();
    order.sort_by(|a, b| b.1.total_cmp(&a.1));
    let mut marks = none;
    for (index, size) in order.into_iter().take(most) {
        if let Some(mark) = marks.get_mut(index) {
            *mark = size > OFF * scatter;
        }
    }
    marks
}

/// How far each point lies from the line of median slope and median level, times its own uncertainty where the points
/// differ in it.
fn deviations(points: &[Point], x: impl Fn(&Point) -> f64) -> Vec<f64> {
    let mut slopes = Vec::new();
    for (index, a) in points.iter().enumerate() {
        for b in points.iter().skip(index.saturating_add(1)) {
            let run = x(b) - x(a);
            if run.abs() > 1e-12 {
                slopes.push((b.mass - a.mass) / run);
            }
        }
    }
    let slope = median(slopes);
    let level = median(points.iter().map(|point| point.mass - slope * x(point)).collect());
    let finest = points.iter().map(|point| point.uncertainty).fold(f64::INFINITY, f64::min);
    points
        .iter()
        .map(|point| (point.mass - level - slope * x(point)).abs() * finest / point.uncertainty)
        .collect()
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
        let x = |point: &Point| libm::exp(-rate * (point.age - first.age));
        for at in SIDE..=points.len().saturating_sub(SIDE) {
            let (step, squares, spread) = stepped(points, x, at);
            if squares.is_finite() && best.is_none_or(|(least, ..)| squares < least) {
                best = Some((squares, step, at, spread));
            }
        }
    }
    let (squares, step, at, spread) = best?;
    // Level, slope, rate and step are sought.
    let freedom = u32::try_from(points.len().saturating_sub(4)).ok()?;
    let granted = TAKEN_FOR_GRANTED * first.mass;
    let scatter = (squares / f64::from(freedom)).sqrt().max(granted);
    let days = points.len().saturating_sub(SIDE.saturating_mul(2)).saturating_add(1);
    let chance = (1.0 - student::within(step.abs() / (scatter * spread), freedom)) * days_of(days);
    (chance < CHANCE && step.abs() > SHIFT * first.mass).then_some((at, step))
}

fn days_of(count: usize) -> f64 {
    f64::from(u32::try_from(count).unwrap_or(u32::MAX))
}

/// A straight line with a step at a point: the step, the sum of squares, and the step's standard error for a scatter of 1.
/// The step is what is left of it when the line has taken its part (Frisch, Waugh and Lovell).
fn stepped(points: &[Point], x: impl Fn(&Point) -> f64, at: usize) -> (f64, f64, f64) {
    let plain = |mass: f64, point: &Point| Point { mass, uncertainty: 1.0, ..*point };
    let masses: Vec<Point> = points.iter().map(|point| plain(point.mass, point)).collect();
    let steps: Vec<Point> = points
        .iter()
        .enumerate()
        .map(|(index, point)| plain(if index < at { 0.0 } else { 1.0 }, point))
        .collect();
    let (level, slope, _) = line(&masses, &x);
    let (step_level, step_slope, own) = line(&steps, &x);
    let left = |point: &Point, level: f64, slope: f64| point.mass - level - slope * x(point);
    let product: f64 = masses
        .iter()
        .zip(&steps)
        .map(|(mass, step)| left(mass, level, slope) * left(step, step_level, step_slope))
        .sum();
    let step = product / own;
    let squares: f64 = masses
        .iter()
        .zip(&steps)
        .map(|(mass, one)| left(mass, level, slope) - step * left(one, step_level, step_slope))
        .map(|value| value * value)
        .sum();
    (step, squares, 1.0 / own.sqrt())
}
