//! Quantities of a document: a text with a unit, within the range of its field.

use std::str::FromStr;

use super::fields::{Units, Wanted};
use super::read_value::{Node, Reader, echo, listed};
use crate::limits;
use crate::quantity::{
    Decimal, Density, Duration, IodineValue, Length, Mass, QuantityError, SaponificationValue, Share,
    Temperature, Volume, bare, comma_advice,
};

/// Longest text that is read as a quantity, in characters: longer ones are no number that a quantity keeps.
pub(crate) const QUANTITY_TEXT: usize = 80;

/// A quantity type with the name of its units.
pub(crate) trait Quantity: FromStr<Err = QuantityError> + Copy {
    fn number(self, unit: &str) -> Option<Decimal>;
}

macro_rules! quantities {
    ($($name:ident),*) => {$(
        impl Quantity for $name {
            fn number(self, unit: &str) -> Option<Decimal> {
                self.in_unit(unit)
            }
        }
    )*};
}

quantities!(Mass, Volume, Length, Temperature, Share, SaponificationValue, IodineValue, Density, Duration);

impl Reader {
    /// The text of a quantity, short enough to be one.
    pub(crate) fn quantity_text<'d>(&mut self, at: &Node<'d>, wanted: &Wanted) -> Option<&'d str> {
        let example = wanted.example;
        let text = self
            .text(at, &format!("write it in quotes, with its unit if it has one: for example {example:?}"))?;
        if text.chars().count() > QUANTITY_TEXT {
            let message = format!("{} is no {}", echo(text), wanted.limit.what);
            self.report(at, "quantity.form", message, format!("write for example {example:?}"));
            return None;
        }
        Some(text)
    }

    /// A quantity with a unit, within the range of its field.
    pub(crate) fn quantity<Q: Quantity>(&mut self, at: &Node<'_>, wanted: &Wanted) -> Option<Q> {
        let text = self.quantity_text(at, wanted)?;
        self.parsed(at, text, wanted)
    }

    /// The same of a text that was taken already.
    pub(crate) fn parsed<Q: Quantity>(&mut self, at: &Node<'_>, text: &str, wanted: &Wanted) -> Option<Q> {
        let value = text.parse::<Q>().map_err(|error| self.not_a_quantity(at, text, &error, wanted)).ok()?;
        let number = value.number(wanted.limit.unit);
        number.and_then(|number| self.within(at, text, number, wanted)).map(|_| value)
    }

    /// A bare number.
    pub(crate) fn bare(
        &mut self,
        at: &Node<'_>,
        text: &str,
        shown: &str,
        wanted: &Wanted,
    ) -> Option<Decimal> {
        let value =
            bare(text, &limits::MASS).map_err(|error| self.not_a_quantity(at, shown, &error, wanted)).ok()?;
        self.within(at, shown, value, wanted)
    }

    fn within(&mut self, at: &Node<'_>, text: &str, number: Decimal, wanted: &Wanted) -> Option<Decimal> {
        if wanted.limit.holds(number) {
            return Some(number);
        }
        let message = format!("{} {} is outside {}", wanted.limit.what, echo(text), wanted.limit.phrase());
        self.report(at, "quantity.range", message, format!("write for example {:?}", wanted.example));
        None
    }

    pub(crate) fn not_a_quantity(
        &mut self,
        at: &Node<'_>,
        text: &str,
        error: &QuantityError,
        wanted: &Wanted,
    ) {
        let (what, found) = (wanted.limit.what, echo(text));
        let example = format!("write for example {:?}", wanted.example);
        let (message, advice) = match error {
            QuantityError::Form { .. } => (format!("{found} is no {what}"), example),
            QuantityError::Comma { .. } => (format!("{found} has a comma"), comma_advice(text)),
            QuantityError::NoUnit { .. } => (format!("{found} has no unit"), example),
            QuantityError::UnknownUnit { unit, .. } => {
                let message = format!("{} is no unit of {what}", echo(unit));
                (message, use_units(unit, &[*wanted]))
            }
            QuantityError::Digits { .. } => {
                (format!("{found} has more than {} decimals", limits::DECIMALS), "round it".to_owned())
            }
            QuantityError::Range { .. } => {
                (format!("{what} {found} is outside {}", wanted.limit.phrase()), example)
            }
            QuantityError::Overflow { .. } => {
                (format!("{what} {found} is beyond any number that can be computed with"), example)
            }
        };
        self.report(at, error.code(), message, advice);
    }

    /// A quantity that must be above nought.
    pub(crate) fn positive<Q: Quantity>(&mut self, at: &Node<'_>, wanted: &Wanted) -> Option<Q> {
        let value: Q = self.quantity(at, wanted)?;
        if value.number(wanted.limit.unit).is_some_and(|number| number.is_zero()) {
            let message = format!("{} must be above nought", at.label());
            self.report(at, "quantity.range", message, format!("write for example {:?}", wanted.example));
            return None;
        }
        Some(value)
    }

    /// Which of several kinds of quantity a text's unit is of; reports a unit that is of none.
    pub(crate) fn first_that_fits(&mut self, at: &Node<'_>, text: &str, wanted: &[Wanted]) -> Option<usize> {
        let strange = |index: usize| {
            let unit = match wanted.get(index).map(|wanted| wanted.limit.unit) {
                Some("%") => unit_of::<Share>(text),
                Some("g") => unit_of::<Mass>(text),
                Some("mm") => unit_of::<Length>(text),
                Some("mL") => unit_of::<Volume>(text),
                _ => parts_unit(text),
            };
            unit.err()
        };
        if let Some(found) = (0..wanted.len()).find(|index| strange(*index).is_none()) {
            return Some(found);
        }
        let what = wanted.first().map_or("", |wanted| wanted.limit.what);
        let unit = strange(0).unwrap_or_default();
        let message = format!("{} is no unit of {what}", echo(&unit));
        let advice = use_units(&unit, wanted);
        self.report(at, "quantity.unit.unknown", message, advice);
        None
    }
}

/// The unit that a text has when it is not one of `Q`.
fn unit_of<Q: Quantity>(text: &str) -> Result<(), String> {
    match text.parse::<Q>() {
        Err(QuantityError::UnknownUnit { unit, .. }) => Err(unit),
        _ => Ok(()),
    }
}

/// The number before `parts`, `part` or `%`.
pub(crate) fn parts_number(text: &str) -> Option<&str> {
    let text = text.trim();
    ["parts", "part", "%"].into_iter().find_map(|unit| text.strip_suffix(unit))
}

/// As [`unit_of`] for parts; what is no number, or has no unit, counts as parts that are badly written.
fn parts_unit(text: &str) -> Result<(), String> {
    let text = text.trim();
    let of_number = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '-');
    let unit = text.trim_start_matches(of_number).trim();
    if parts_number(text).is_some() || unit.is_empty() || !text.starts_with(of_number) {
        return Ok(());
    }
    Err(unit.to_owned())
}

/// The units that `unit` may have meant, else all there are.
fn use_units(unit: &str, wanted: &[Wanted]) -> String {
    let symbols: Vec<&str> = wanted.iter().flat_map(|wanted| symbols(&wanted.units)).collect();
    let ends = format!(" {unit}");
    let near: Vec<&str> = symbols
        .iter()
        .copied()
        .filter(|symbol| !unit.is_empty() && (symbol.eq_ignore_ascii_case(unit) || symbol.ends_with(&ends)))
        .collect();
    match near.as_slice() {
        [] => {
            let example = wanted.first().map_or("", |wanted| wanted.example);
            format!("use one of {}; write for example {example:?}", symbols.join(", "))
        }
        [one] => format!("write {one:?}"),
        several => format!("say which: {}", listed(several)),
    }
}

/// The symbols of the units.
fn symbols(units: &Units) -> Vec<&'static str> {
    match units {
        Units::Of(units) => {
            units.iter().map(|unit| unit.symbol).filter(|symbol| *symbol != "fraction").collect()
        }
        Units::Parts => vec!["parts", "%"],
        Units::Bare => Vec::new(),
    }
}
