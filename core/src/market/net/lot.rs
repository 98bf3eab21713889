//! The reference test of a lot by a sample.

use serde::Serialize;

use crate::quantity::{Decimal, Exact, Mass};

use super::error::{Rounding, tolerable_error};
use super::factor::factor;

/// What a sample says of its lot.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lot {
    /// How many were weighed.
    pub size: usize,
    /// Their mean, at the twelfth decimal.
    pub mean: Mass,
    /// Variance of the sample, g², by n - 1, at 18 decimals.
    pub variance: Decimal,
    /// The tolerable negative error of the nominal quantity.
    pub error: Mass,
    /// How many are lighter than the nominal quantity by more than one such error.
    pub below_one: usize,
    /// How many by more than two: there must be none.
    pub below_two: usize,
    /// Whether the mean is at or above the nominal quantity, as the first packers' rule wants of the whole lot.
    pub mean_holds: bool,
    /// The mean that a sample of this size and scatter must have: nominal - k s.
    pub mean_limit: Mass,
    /// Whether the sample's mean passes the reference test.
    pub mean_accepted: bool,
}

/// Why a sample says nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum LotError {
    /// Fewer than two or more than a hundred were weighed.
    #[error("a sample has 2 to 100 weights")]
    Size,
    /// The nominal quantity is below 5 g.
    #[error("the rules begin at 5 g")]
    Nominal,
    /// A figure is beyond what can be computed.
    #[error("a weight is beyond what can be computed")]
    Number,
}

/// Tests a lot by the weights of a sample.
///
/// A lot of less than a hundred is weighed whole, and its mean allowed no shortfall: then `mean_holds` decides.
///
/// # Errors
/// [`LotError`] when the sample is too small or too large, or the nominal quantity below 5 g.
///
/// # Source
/// Directive 76/211/EEC, annex II; S.I. 2006/659, schedule 2, paragraph 4, read. A package counts as below only when it is
/// strictly less.
pub fn lot(nominal: Mass, weights: &[Mass], rounding: Rounding) -> Result<Lot, LotError> {
    let k = factor(weights.len()).ok_or(LotError::Size)?;
    let error = tolerable_error(nominal, rounding).ok_or(LotError::Nominal)?;
    let count = Exact::count(weights.len());
    let total: Mass = weights.iter().copied().sum();
    let mean = total.exact() / count;
    // n x sum of squares - square of sum is exact; one division at the end.
    let squares: Exact = weights.iter().map(|weight| weight.exact() * weight.exact()).sum();
    let variance = (count * squares - total.exact() * total.exact()) / (count * (count - Exact::ONE));
    let limit = nominal.exact() - k * root(variance);
    let two = error + error;
    let below = |limit: Mass| weights.iter().filter(|weight| **weight < limit).count();
    Ok(Lot {
        size: weights.len(),
        mean: Mass::try_new(mean).map_err(|_| LotError::Number)?,
        variance: variance.rounded(18).ok_or(LotError::Number)?,
        error,
        below_one: below(nominal - error),
        below_two: below(nominal - two),
        mean_holds: !(total.exact() - nominal.exact() * count).is_negative(),
        mean_limit: Mass::try_new(limit).map_err(|_| LotError::Number)?,
        mean_accepted: !(mean - limit).is_negative(),
    })
}

/// Square root by Newton's rule, to about twenty digits; poisoned where the value is.
fn root(value: Exact) -> Exact {
    if !value.is_positive() {
        return value;
    }
    let two = Exact::from(2);
    let mut guess = if (value - Exact::ONE).is_positive() { value } else { Exact::ONE };
    // Quadratic once it is near; from 1e18 it takes about thirty halvings to come near.
    for _ in 0..96 {
        let next = (guess + value / guess) / two;
        if (next - guess).rounded(22).is_some_and(|change| change.is_zero()) {
            return next;
        }
        guess = next;
    }
    guess
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn roots_square_to_what_they_are_of() {
        for (value, wanted) in [(4, "2"), (2, "1.414213562373095049"), (1_000_000, "1000"), (0, "0")] {
            assert_eq!(root(Exact::from(value)).rounded(18).unwrap().to_string(), wanted);
        }
        let small = Exact::literal(1, 10);
        assert_eq!(root(small).rounded(10).unwrap().to_string(), "0.00001");
    }
}
