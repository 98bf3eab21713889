//! Drying in floating point: the curve fitted to weighings, what it says of another day, and which weighings do not
//! belong to it.
//!
//! A bar loses water at a rate in proportion to what it still has to lose, so that its mass falls along
//! `m(t) = equilibrium + (initial - equilibrium) exp(-rate t)`. That is a model: a bar dries faster while its skin is
//! wet, and the air of the room is never the same for weeks. Every figure here is approximate.
#![expect(clippy::float_arithmetic, reason = "drying is fitted to weighings: approximate by nature")]

mod curve;
mod fit;
mod student;
mod watch;

pub(crate) use curve::{Chart, Dot, draw};
pub use fit::{Fit, NoFit, Point, Prediction};
pub(crate) use watch::watch;

use crate::quantity::{Duration, Exact, Mass};

/// Decimals that an approximate mass keeps.
const DECIMALS: u32 = 6;

/// An approximate mass as a figure; nothing when it is no number that a mass can be.
#[must_use]
pub(crate) fn grams(value: f64) -> Option<Mass> {
    Mass::try_new(Exact::from_approximate(value, DECIMALS)).ok()
}

/// An approximate number of days as a figure.
#[must_use]
pub(crate) fn days(value: f64) -> Option<Duration> {
    Duration::try_from_unit(Exact::from_approximate(value, DECIMALS), "d").ok()
}

/// A span of time in days.
#[must_use]
pub(crate) fn in_days(span: Duration) -> f64 {
    span.exact().approximate() / 86_400.0
}

/// The 95 % interval about a figure with a standard error; nothing without freedom.
pub(crate) fn around(value: f64, error: f64, freedom: u32) -> Option<(f64, f64)> {
    let half = student::quantile(0.95, freedom) * error;
    half.is_finite().then_some((value - half, value + half))
}

/// The rate of a curve that falls to 1/e of what is left in so many days.
pub(crate) fn rate(time: f64) -> f64 {
    1.0 / time
}

/// The curve of first order without a fit: mass at an age in days.
pub(crate) fn first_order(initial: f64, equilibrium: f64, rate: f64, age: f64) -> f64 {
    equilibrium + (initial - equilibrium) * libm::exp(-rate * age)
}

/// Days after which such a curve loses less than `share` of the mass in a week; nought when it always does.
pub(crate) fn settled(initial: f64, equilibrium: f64, rate: f64, share: f64) -> f64 {
    let (lossy, weekly) = (initial - equilibrium, 1.0 - libm::exp(-7.0 * rate));
    if lossy <= 0.0 || weekly <= share || share <= 0.0 {
        return 0.0;
    }
    // (loss of the week from t on) / m(t) = share, solved for exp(-rate t).
    let left = share * equilibrium / (lossy * (weekly - share));
    (-libm::log(left) / rate).max(0.0)
}
