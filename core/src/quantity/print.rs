//! Numbers as text.

use rust_decimal::{Decimal, RoundingStrategy};

use super::exact::{Exact, push_digits, rounded_digits};
use super::kind::{Mass, Share, Unit};

/// The base unit with its symbol; a share as per cent. A share that per cent cannot hold in 28 digits does not exist:
/// it has at most twelve decimals.
pub(crate) fn with_unit(value: Decimal, units: &[Unit]) -> String {
    let base = units.first().map_or("", |unit| unit.symbol);
    let (symbol, shift) = if base == "fraction" { ("%", 2) } else { (base, 0) };
    let mut text = String::with_capacity(32);
    push_digits(&mut text, value, shift);
    text.push(' ');
    text.push_str(symbol);
    text
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
    if let Some(text) = rounded_digits(value, decimals) {
        return text;
    }
    let rounded = value.round_dp_with_strategy(decimals, RoundingStrategy::MidpointNearestEven);
    let places = usize::try_from(decimals).unwrap_or(0);
    // "-0.0" reads like a mistake.
    let rounded = if rounded.is_zero() { Decimal::ZERO } else { rounded };
    format!("{rounded:.places$}")
}

/// A figure and the limit that it is compared with, rounded to as many decimals as tell them apart, `decimals` at least:
/// what is beyond a limit is never shown as equal to it.
///
/// ```
/// use lamella::quantity::{told_apart, Decimal};
/// let of = |found: &str, limit: &str| {
///     told_apart(found.parse::<Decimal>().unwrap(), limit.parse::<Decimal>().unwrap(), 1)
/// };
/// assert_eq!(of("1.3", "1"), ("1.3".to_owned(), "1.0".to_owned()));
/// assert_eq!(of("1.02", "1"), ("1.02".to_owned(), "1.00".to_owned()));
/// assert_eq!(of("1", "1"), ("1.0".to_owned(), "1.0".to_owned()));
/// ```
#[must_use]
pub fn told_apart(found: Decimal, limit: Decimal, decimals: u32) -> (String, String) {
    let at = |decimals| (fixed(found, decimals), fixed(limit, decimals));
    // A published figure has twelve decimals, and as a per cent two fewer.
    let apart = (decimals..=12).map(at).find(|(found, limit)| found != limit);
    apart.unwrap_or_else(|| at(decimals))
}

/// A share as per cent, told apart from a limit, with its sign.
pub(crate) fn percent_beside(found: Share, limit: Share, decimals: u32) -> String {
    let [found, limit] = [found, limit].map(|share| share.in_unit("%").unwrap_or_default());
    format!("{} %", told_apart(found, limit, decimals).0)
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

/// A mass as whole pounds and ounces, to a `resolution` in ounces: how a scale in pounds shows it.
///
/// The whole is rounded first, half to even, and then split, so that no `16 oz` comes out. Nothing for a mass below nought
/// or a resolution that is not above it.
///
/// ```
/// use lamella::quantity::{pounds_and_ounces, Decimal, Exact};
/// let hundredth = Exact::literal(1, 2);
/// assert_eq!(pounds_and_ounces("1 kg".parse()?, hundredth), Some((2, Decimal::new(327, 2))));
/// assert_eq!(pounds_and_ounces("453.59 g".parse()?, hundredth), Some((1, Decimal::ZERO))); // 15.9999 oz
/// # Ok::<(), lamella::quantity::QuantityError>(())
/// ```
#[must_use]
pub fn pounds_and_ounces(mass: Mass, resolution: Exact) -> Option<(i64, Decimal)> {
    if mass < Mass::ZERO {
        return None;
    }
    let pound = Exact::from(16);
    let steps = Exact::from(mass.in_unit("oz")).steps(resolution)?;
    let ounces = resolution.times(steps);
    let pounds = ounces.whole_steps(pound)?;
    let rest = (ounces - Exact::from(pounds) * pound).decimal()?;
    Some((pounds, rest.normalize()))
}
