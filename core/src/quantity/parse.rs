//! Text to quantity: one grammar, and a message that says what to write instead.
//!
//! `number [space] unit`, where a number is digits with at most one decimal *point*. A mass may be mixed:
//! `1 lb 4 oz`.

use rust_decimal::Decimal;
use thiserror::Error;

use super::comma;
use super::exact::Exact;
use super::kind::Unit;
use crate::limits::{DECIMALS, Limit};

/// Why a text or a number is not the quantity that was wanted.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[non_exhaustive]
pub enum QuantityError {
    /// The text is not a number followed by a unit.
    #[error("{found:?} is not a {what}; write for example {example:?}")]
    Form {
        /// What was read.
        found: String,
        /// What was wanted.
        what: &'static str,
        /// How it is written.
        example: String,
    },
    /// A comma stands where a decimal point is wanted; it may set off thousands as well.
    #[error("{found:?} has a comma; {advice}")]
    Comma {
        /// What was read.
        found: String,
        /// What to write: every reading that it can have.
        advice: String,
    },
    /// The unit is missing.
    #[error("{found:?} has no unit; write for example {example:?}")]
    NoUnit {
        /// What was read.
        found: String,
        /// The same with a unit.
        example: String,
    },
    /// The unit is not one of this kind.
    #[error("{unit:?} is no unit of {what}; use one of {known}")]
    UnknownUnit {
        /// The unit that was read.
        unit: String,
        /// What was wanted.
        what: &'static str,
        /// Units that are known, listed.
        known: String,
    },
    /// More digits than a quantity keeps.
    #[error("{found:?} has more than {DECIMALS} decimals; round it")]
    Digits {
        /// What was read.
        found: String,
    },
    /// The number is outside what is allowed.
    #[error("{what} {found} is outside {allowed}")]
    Range {
        /// The number, with its unit.
        found: String,
        /// What is bounded.
        what: &'static str,
        /// The range in words.
        allowed: String,
    },
    /// A computation left the numbers that are computed with, or divided by nought.
    #[error("a {what} came out beyond any number; check for a nought or a very large figure")]
    Overflow {
        /// What was computed.
        what: &'static str,
    },
}

impl QuantityError {
    /// The stable code of this kind of mistake.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Form { .. } => "quantity.form",
            Self::Comma { .. } => "quantity.comma",
            Self::NoUnit { .. } => "quantity.unit.missing",
            Self::UnknownUnit { .. } => "quantity.unit.unknown",
            Self::Digits { .. } => "quantity.digits",
            Self::Range { .. } => "quantity.range",
            Self::Overflow { .. } => "quantity.overflow",
        }
    }
}

/// A mass as its text was typed, with what it converts to: the plan shows the first, computes with the second.
pub type MassText = (String, super::Mass);

/// A number that a quantity with this limit can hold, rounded once.
pub(crate) fn within(value: Exact, limit: &Limit) -> Result<Decimal, QuantityError> {
    if let Some(value) = value.published_within(limit) {
        return Ok(value);
    }
    let value = value.published().ok_or(QuantityError::Overflow { what: limit.what })?;
    Err(out_of(value, limit))
}

pub(crate) fn out_of(value: Decimal, limit: &Limit) -> QuantityError {
    let unit = if limit.unit.is_empty() { String::new() } else { format!(" {}", limit.unit) };
    QuantityError::Range { found: format!("{value}{unit}"), what: limit.what, allowed: limit.phrase() }
}

pub(crate) fn unit<'u>(text: &str, units: &'u [Unit], what: &'static str) -> Result<&'u Unit, QuantityError> {
    units.iter().find(|known| known.is_named(text)).ok_or_else(|| QuantityError::UnknownUnit {
        unit: text.to_owned(),
        what,
        known: units
            .iter()
            .map(|unit| unit.symbol)
            .filter(|symbol| *symbol != "fraction")
            .collect::<Vec<_>>()
            .join(", "),
    })
}

/// Reads `text` as a sum of numbers with units of one kind; several terms only where the kind has pounds or feet.
pub(crate) fn quantity(text: &str, units: &[Unit], limit: &Limit) -> Result<Decimal, QuantityError> {
    let mixed = units.iter().any(|unit| matches!(unit.symbol, "lb" | "ft"));
    let mut rest = text.trim();
    let mut total = Exact::ZERO;
    let mut terms = 0_u8;
    while terms == 0 || !rest.is_empty() {
        let (number, after) = number(rest, text, units, limit)?;
        // What is typed is not rounded; what a conversion adds beyond the twelfth decimal (1/16 oz, °F) is.
        if number.normalize().scale() > DECIMALS {
            return Err(QuantityError::Digits { found: text.to_owned() });
        }
        let after = after.trim_start();
        // A second term starts at the next digit after some unit text.
        let end = if mixed && terms < 2 { next_number(after) } else { after.len() };
        let (name, next) = after.split_at_checked(end).unwrap_or((after, ""));
        let name = name.trim();
        let unitless = units.first().is_some_and(|unit| unit.is_named(""));
        if name.is_empty() && !unitless {
            let example = format!("{} {}", rest.trim(), example_unit(units));
            return Err(QuantityError::NoUnit { found: text.to_owned(), example });
        }
        total = total + unit(name, units, limit.what)?.to_base(Exact::from(number));
        rest = next.trim_start();
        terms = terms.saturating_add(1);
    }
    within(total, limit)
}

/// Where the next number starts in `text`, after at least one character that is not of a number.
fn next_number(text: &str) -> usize {
    let mut seen_space = false;
    for (index, character) in text.char_indices() {
        if seen_space && character.is_ascii_digit() {
            return index;
        }
        seen_space |= character.is_whitespace();
    }
    text.len()
}

fn example_unit(units: &[Unit]) -> &'static str {
    match units.first() {
        Some(unit) if unit.symbol == "fraction" => "%",
        Some(unit) => unit.symbol,
        None => "",
    }
}

/// Splits a number off the front of `rest`. `whole` is the text the maker wrote, for the message.
fn number<'t>(
    rest: &'t str,
    whole: &str,
    units: &[Unit],
    limit: &Limit,
) -> Result<(Decimal, &'t str), QuantityError> {
    let form = || QuantityError::Form {
        found: whole.to_owned(),
        what: limit.what,
        example: format!("2.5 {}", example_unit(units)).trim_end().to_owned(),
    };
    let end = rest
        .char_indices()
        .find(|(index, c)| !(c.is_ascii_digit() || *c == '.' || *c == ',' || (*index == 0 && *c == '-')))
        .map_or(rest.len(), |(index, _)| index);
    let (digits, after) = rest.split_at_checked(end).ok_or_else(form)?;
    if digits.contains(',') {
        return Err(QuantityError::Comma { found: whole.to_owned(), advice: comma::advice(whole) });
    }
    let plain = digits.strip_prefix('-').unwrap_or(digits);
    let (before, behind) = plain.split_once('.').unwrap_or((plain, "0"));
    if before.is_empty() || behind.is_empty() || behind.contains('.') {
        return Err(form());
    }
    // A million million of anything is beyond every range.
    if before.trim_start_matches('0').len() > 12 {
        return Err(QuantityError::Range {
            found: digits.to_owned(),
            what: limit.what,
            allowed: limit.phrase(),
        });
    }
    let value =
        Decimal::from_str_exact(digits).map_err(|_| QuantityError::Digits { found: whole.to_owned() })?;
    Ok((value, after))
}

/// A bare number, as shares of parts or ratios carry it.
pub(crate) fn bare(text: &str, limit: &Limit) -> Result<Decimal, QuantityError> {
    let (value, rest) = number(text.trim(), text, &[], limit)?;
    if rest.trim().is_empty() {
        if value.normalize().scale() > DECIMALS {
            return Err(QuantityError::Digits { found: text.to_owned() });
        }
        within(Exact::from(value), limit)
    } else {
        Err(QuantityError::Form { found: text.to_owned(), what: limit.what, example: "2.5".to_owned() })
    }
}
