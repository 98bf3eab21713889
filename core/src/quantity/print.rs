//! Numbers as text.

use std::fmt;

use rust_decimal::{Decimal, RoundingStrategy};

use super::exact::Exact;
use super::kind::Unit;

/// The base unit with its symbol; a share as per cent. A share that per cent cannot hold in 28 digits does not exist:
/// it has at most twelve decimals.
pub(crate) fn with_unit(f: &mut fmt::Formatter<'_>, value: Decimal, units: &[Unit]) -> fmt::Result {
    let base = units.first().map_or("", |unit| unit.symbol);
    if base == "fraction" {
        let percent = (Exact::from(value) * Exact::HUNDRED).decimal().unwrap_or(value);
        return write!(f, "{} %", percent.normalize());
    }
    write!(f, "{} {base}", value.normalize())
}

/// A number with exactly `decimals` places, rounded half to even: the form of a table.
///
/// ```
/// use lamella::quantity::{fixed, Decimal};
/// assert_eq!(fixed(Decimal::new(125, 2), 1), "1.2");
/// assert_eq!(fixed(Decimal::new(3, 0), 2), "3.00");
/// ```
#[must_use]
pub fn fixed(value: Decimal, decimals: u32) -> String {
    let rounded = value.round_dp_with_strategy(decimals, RoundingStrategy::MidpointNearestEven);
    let places = usize::try_from(decimals).unwrap_or(0);
    // "-0.0" reads like a mistake.
    let rounded = if rounded.is_zero() { Decimal::ZERO } else { rounded };
    format!("{rounded:.places$}")
}

/// As [`fixed`], with a thin space between groups of three digits before the point.
///
/// ```
/// use lamella::quantity::{grouped, Decimal};
/// assert_eq!(grouped(Decimal::new(12345675, 1), 1), "1\u{2009}234\u{2009}567.5");
/// ```
#[must_use]
pub fn grouped(value: Decimal, decimals: u32) -> String {
    let plain = fixed(value, decimals);
    let (sign, digits) = plain.strip_prefix('-').map_or(("", plain.as_str()), |rest| ("-", rest));
    let (whole, rest) = digits.split_once('.').map_or((digits, None), |(whole, rest)| (whole, Some(rest)));
    let mut text = String::from(sign);
    for (index, digit) in whole.chars().enumerate() {
        let left = whole.len().saturating_sub(index);
        if index > 0 && left.is_multiple_of(3) {
            text.push('\u{2009}');
        }
        text.push(digit);
    }
    if let Some(rest) = rest {
        text.push('.');
        text.push_str(rest);
    }
    text
}
