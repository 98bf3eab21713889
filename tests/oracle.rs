//! An exact oracle of the ideal chain: the same definitions as the library's, in rational numbers that never round.
//!
//! In: a recipe. Out: every ideal amount as a fraction, and the whole scale steps that follow from it. It shares no code
//! with the library's computation: a mixture is the sum of what its grams bring, a straight line is known from two of its
//! points, and only where a size bends the line does it repeat, to forty decimals.

#![expect(
    clippy::arithmetic_side_effects,
    clippy::expect_used,
    clippy::indexing_slicing,
    reason = "rationals neither overflow nor round, and an oracle stops at what it does not expect"
)]

mod chain;
pub mod compare;
mod matter;
mod size;
mod steps;

pub use chain::{Batch, Ideal, IdealJug};
pub use dashu_ratio::RBig;
pub use matter::Matter;
pub use size::{shares, solve};
pub use steps::{Portions, apportion, fats, half_even, lyes, portions, weighed};

use dashu_int::IBig;
use lamella::quantity::{Decimal, Exact};

/// A decimal of the library as a fraction.
#[must_use]
pub fn exact(value: impl Into<Exact>) -> RBig {
    let value = value.into().decimal().expect("a figure that is a number");
    ratio(value.mantissa(), 10_i128.pow(value.scale()))
}

/// A fraction of whole numbers.
#[must_use]
pub fn ratio(numerator: i128, denominator: i128) -> RBig {
    RBig::from_parts_signed(IBig::from(numerator), IBig::from(denominator))
}

/// The figure as the library publishes it: twelve decimals, half to even.
#[must_use]
pub fn published(value: &RBig) -> Decimal {
    let picograms = half_even(&(value * ratio(1_000_000_000_000, 1)));
    Decimal::from_i128_with_scale(picograms, 12).normalize()
}

/// The value cut off after so many decimals.
#[must_use]
pub fn cut(value: &RBig, decimals: usize) -> RBig {
    let tens = IBig::from(10_u8).pow(decimals);
    let whole = (value * RBig::from(tens.clone())).floor();
    let (_, below) = tens.into_parts();
    RBig::from_parts(whole, below)
}
