//! Fitting what is known least to a maker's own thermometer.
#![expect(clippy::float_arithmetic, reason = "least squares on an approximate model")]

use super::HeatError;
use super::course::{Course, Spot};
use super::grid::Grid;
use super::knowledge::Truth;
use super::scenario::Scenario;
use super::solve::{Steps, run};

/// Most readings of a log.
pub const READINGS: usize = 2_000;
/// Most rounds of a fit.
const ROUNDS: usize = 40;
/// By how much a parameter is moved to see what it does: one per cent, well above what steps of time leave to chance.
const NUDGE: f64 = 0.01;

/// What a thermometer showed.
#[derive(Clone, Debug, PartialEq)]
pub struct Log {
    /// Where its tip was.
    pub spot: Spot,
    /// Seconds after the first pour, rising, and °C.
    pub readings: Vec<(f64, f64)>,
}

/// Which figures are fitted; the others stay as they are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Free {
    /// Rate of the reaction.
    pub rate: bool,
    /// Resistance of all walls.
    pub resistance: bool,
    /// Heat of reaction.
    pub heat: bool,
}

/// A factor of the scenario's figure, with its standard error as a share of itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Estimate {
    /// The factor.
    pub factor: f64,
    /// One standard error of it: 0.1 is ten per cent. Nought when it was not free.
    pub error: f64,
}

/// A fit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fit {
    /// Factor of the rate.
    pub rate: Estimate,
    /// Factor of the resistances.
    pub resistance: Estimate,
    /// Factor of the heat of reaction.
    pub heat: Estimate,
    /// Root of the mean square of what is left over, K, over readings less free figures.
    pub left: f64,
    /// How many rounds it took.
    pub rounds: usize,
}

impl Fit {
    /// The truth that was found.
    #[must_use]
    pub const fn truth(&self) -> Truth {
        Truth {
            rate: self.rate.factor,
            resistance: self.resistance.factor,
            heat: self.heat.factor,
            ..Truth::USUAL
        }
    }
}

/// Fits the free figures to a log by least squares (Levenberg and Marquardt), in their logarithms, so that they stay above
/// nought. Standard errors are those of the linearised model, with the scatter of the readings about it.
///
/// They say how well the log fixes a figure if the model is right. Readings a minute apart share their errors; give one
/// every ten minutes or so.
///
/// # Errors
/// [`HeatError::Log`] when readings are missing, do not rise in time, or cannot tell the free figures apart; others as
/// [`run`].
pub fn fit(scenario: &Scenario, log: &Log, free: Free, grid: Grid) -> Result<Fit, HeatError> {
    let count = [free.rate, free.resistance, free.heat].into_iter().filter(|free| *free).count();
    check(log, count)?;
    let mut scenario = scenario.clone();
    let last = log.readings.last().map_or(0.0, |reading| reading.0);
    scenario.until = scenario.until.max(last + 60.0);
    scenario.check()?;
    let trial = Trial { scenario: &scenario, log, free, grid };
    let mut at = vec![0.0; count];
    let mut off = trial.off(&at)?;
    let mut damping = 1e-2;
    let mut rounds = 0_usize;
    let mut slopes = trial.slopes(&at, &off)?;
    while rounds < ROUNDS {
        rounds = rounds.saturating_add(1);
        let Some(step) = step(&slopes, &off, damping) else {
            return Err(HeatError::Log("the readings do not tell the free figures apart"));
        };
        // No more than a factor of e in a round, and of e^3 in all.
        let next: Vec<f64> =
            at.iter().zip(&step).map(|(at, step)| (at + step.clamp(-1.0, 1.0)).clamp(-3.0, 3.0)).collect();
        let tried = trial.off(&next)?;
        let (before, after) = (square(&off), square(&tried));
        if after < before {
            let moved = at.iter().zip(&next).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
            (at, off) = (next, tried);
            damping = (damping / 8.0).max(1e-9);
            slopes = trial.slopes(&at, &off)?;
            if moved < 1e-5 || before - after < 1e-10 * before {
                break;
            }
        } else {
            damping *= 6.0;
            if damping > 1e8 {
                break;
            }
        }
    }
    let degrees = super::grid::count(log.readings.len().saturating_sub(count));
    let variance = square(&off) / degrees;
    let mut figures = Vec::with_capacity(count);
    for (index, at) in at.iter().enumerate() {
        let error = inverse_at(&slopes, index).map(|inverse| (variance * inverse).sqrt());
        let Some(error) = error.filter(|error| error.is_finite()) else {
            return Err(HeatError::Log("the readings do not tell the free figures apart"));
        };
        figures.push(Estimate { factor: libm::exp(*at), error });
    }
    // One after another, in the order in which they are free.
    let mut figures = figures.into_iter();
    let mut estimate = |free: bool| if free { figures.next().unwrap_or(FIXED) } else { FIXED };
    let [rate, resistance, heat] = [free.rate, free.resistance, free.heat].map(&mut estimate);
    Ok(Fit { rate, resistance, heat, left: variance.sqrt(), rounds })
}

const FIXED: Estimate = Estimate { factor: 1.0, error: 0.0 };

fn check(log: &Log, free: usize) -> Result<(), HeatError> {
    HeatError::check("across", log.spot.across, 0.0, 10.0)?;
    HeatError::check("up", log.spot.up, 0.0, 10.0)?;
    if free == 0 {
        return Err(HeatError::Log("nothing is free"));
    }
    if log.readings.len() < free.saturating_add(2) || log.readings.len() > READINGS {
        return Err(HeatError::Log("it has too few readings, or more than 2000"));
    }
    let mut last = 0.0;
    for (time, temperature) in &log.readings {
        HeatError::check("temperature", *temperature, -40.0, 200.0)?;
        HeatError::check("time", *time, 0.0, super::LONGEST - 60.0)?;
        if *time <= last {
            return Err(HeatError::Log("its times must be above 0 and rise"));
        }
        last = *time;
    }
    Ok(())
}

struct Trial<'t> {
    scenario: &'t Scenario,
    log: &'t Log,
    free: Free,
    grid: Grid,
}

impl Trial<'_> {
    fn truth(&self, at: &[f64]) -> Truth {
        let mut at = at.iter().copied();
        let mut factor = |free: bool| if free { libm::exp(at.next().unwrap_or(0.0)) } else { 1.0 };
        Truth {
            rate: factor(self.free.rate),
            resistance: factor(self.free.resistance),
            heat: factor(self.free.heat),
            ..Truth::USUAL
        }
    }

    /// Forecast less reading, for each.
    fn off(&self, at: &[f64]) -> Result<Vec<f64>, HeatError> {
        let times: Vec<f64> = self.log.readings.iter().map(|reading| reading.0).collect();
        let scenario = self.truth(at).of(self.scenario);
        let course = run(&scenario, self.grid, &Steps::default(), &times)?;
        Ok(self.log.readings.iter().map(|(time, shown)| self.at(&course, *time) - shown).collect())
    }

    fn at(&self, course: &Course, time: f64) -> f64 {
        // Frames stand in the order of time, and one is kept for every reading.
        let index = course.frames.partition_point(|frame| frame.time < time);
        course.frames.get(index).map_or(f64::NAN, |frame| course.temperature_at(frame, self.log.spot))
    }

    /// What each free figure does to each reading.
    fn slopes(&self, at: &[f64], off: &[f64]) -> Result<Vec<Vec<f64>>, HeatError> {
        let mut slopes = Vec::with_capacity(at.len());
        for index in 0..at.len() {
            let mut nudged = at.to_vec();
            if let Some(figure) = nudged.get_mut(index) {
                *figure += NUDGE;
            }
            let moved = self.off(&nudged)?;
            slopes.push(moved.iter().zip(off).map(|(moved, off)| (moved - off) / NUDGE).collect());
        }
        Ok(slopes)
    }
}

fn square(values: &[f64]) -> f64 {
    values.iter().map(|value| value * value).sum()
}

fn product(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// The rows of the normal equations, damped, each with its right-hand side at the end.
fn normal(slopes: &[Vec<f64>], damping: f64, side: impl Fn(usize) -> f64) -> Vec<Vec<f64>> {
    let row = |(index, slope): (usize, &Vec<f64>)| {
        let mut row: Vec<f64> = slopes
            .iter()
            .enumerate()
            .map(|(other, with)| {
                let product = product(slope, with);
                if other == index { product * (1.0 + damping) } else { product }
            })
            .collect();
        row.push(side(index));
        row
    };
    slopes.iter().enumerate().map(row).collect()
}

fn step(slopes: &[Vec<f64>], off: &[f64], damping: f64) -> Option<Vec<f64>> {
    solve(&normal(slopes, damping, |index| slopes.get(index).map_or(0.0, |slope| -product(slope, off))))
}

/// An element of the diagonal of the inverse of the normal matrix.
fn inverse_at(slopes: &[Vec<f64>], index: usize) -> Option<f64> {
    solve(&normal(slopes, 0.0, |row| if row == index { 1.0 } else { 0.0 }))?.get(index).copied()
}

/// Solves a few linear equations by elimination: the largest head is taken out of the others, and what is left is a system
/// with one unknown fewer.
fn solve(rows: &[Vec<f64>]) -> Option<Vec<f64>> {
    let head = |row: &Vec<f64>| row.first().copied().unwrap_or(0.0);
    let Some((best, pivot)) =
        rows.iter().enumerate().max_by(|(_, a), (_, b)| head(a).abs().total_cmp(&head(b).abs()))
    else {
        return Some(Vec::new());
    };
    let largest = head(pivot);
    // Also refuses what is not a number.
    if !(largest.abs() > 1e-12 && largest.is_finite()) {
        return None;
    }
    let rest: Vec<Vec<f64>> = rows
        .iter()
        .enumerate()
        .filter(|(index, _)| *index != best)
        .map(|(_, row)| {
            let factor = head(row) / largest;
            row.iter().zip(pivot).skip(1).map(|(value, pivot)| value - factor * pivot).collect()
        })
        .collect();
    let tail = solve(&rest)?;
    let (side, coefficients) = pivot.split_last()?;
    let known = coefficients.iter().skip(1).zip(&tail).map(|(coefficient, value)| coefficient * value);
    let mut solution = vec![(side - known.sum::<f64>()) / largest];
    solution.extend(tail);
    Some(solution)
}
