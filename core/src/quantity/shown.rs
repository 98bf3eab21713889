//! Quantities as a screen shows and takes them: in the unit that a maker reads, and as a maker types them.

use super::exact::Exact;
use super::kind::{
    Density, Duration, IodineValue, Length, Mass, SaponificationValue, Share, Temperature, Unit, Volume,
};
use super::parse::{self, QuantityError};
use super::print::fixed;
use crate::limits::Limit;

/// The kinds that are shown, by their units.
const KINDS: [(&[Unit], &Limit); 9] = [
    (Mass::UNITS, &Mass::LIMIT),
    (Share::UNITS, &Share::LIMIT),
    (Length::UNITS, &Length::LIMIT),
    (Volume::UNITS, &Volume::LIMIT),
    (Temperature::UNITS, &Temperature::LIMIT),
    (Density::UNITS, &Density::LIMIT),
    (Duration::UNITS, &Duration::LIMIT),
    (SaponificationValue::UNITS, &SaponificationValue::LIMIT),
    (IodineValue::UNITS, &IodineValue::LIMIT),
];

/// Most decimals that are shown.
const MOST: u32 = 12;

/// The number of a document's quantity in `unit`, without the unit: with so many decimals, or with all that it has and at
/// most twelve.
///
/// ```
/// use lamella::quantity::shown;
/// assert_eq!(shown("784.39 g", "oz", Some(2))?, "27.67");
/// assert_eq!(shown("38 °C", "°F", None)?, "100.4");
/// assert_eq!(shown("5 %", "%", Some(1))?, "5.0");
/// assert!(shown("5 %", "g", None).is_err());
/// # Ok::<(), lamella::quantity::QuantityError>(())
/// ```
///
/// # Errors
/// When the text is no quantity, or one of another kind than the unit.
pub fn shown(text: &str, unit: &str, decimals: Option<u32>) -> Result<String, QuantityError> {
    let unknown = || QuantityError::UnknownUnit {
        unit: unit.to_owned(),
        what: "quantity",
        known: "g, oz, lb, mm, in, mL, °C, °F, %".to_owned(),
    };
    let (units, limit) = kind_of(unit).ok_or_else(unknown)?;
    let base = parse::quantity(text, units, limit)?;
    let wanted = parse::unit(unit, units, limit.what)?;
    let value = wanted.from_base(Exact::from(base));
    let overflow = QuantityError::Overflow { what: limit.what };
    match decimals {
        Some(decimals) => value.decimal().map(|value| fixed(value, decimals.min(MOST))).ok_or(overflow),
        None => value.published().map(|value| value.normalize().to_string()).ok_or(overflow),
    }
}

/// Decimals at which a scale of this step tells its steps apart in `unit`: none for a step of 1 g in grams, two for it in
/// ounces.
///
/// ```
/// use lamella::quantity::step_decimals;
/// assert_eq!(step_decimals("0.1 g".parse()?, "g"), 1);
/// assert_eq!(step_decimals("1 g".parse()?, "oz"), 2);
/// assert_eq!(step_decimals("0.1 oz".parse()?, "oz"), 1);
/// # Ok::<(), lamella::quantity::QuantityError>(())
/// ```
#[must_use]
pub fn step_decimals(step: Mass, unit: &str) -> u32 {
    let Some(step) = step.in_unit(unit) else { return 0 };
    let step = step.normalize();
    if step.scale() <= 3 {
        return step.scale();
    }
    // A step of another unit: the first decimal that does not exceed it.
    let finer = |decimals: &u32| !(Exact::literal(1, *decimals) - Exact::from(step)).is_positive();
    (0..=MOST).find(finer).unwrap_or(MOST)
}

fn kind_of(unit: &str) -> Option<(&'static [Unit], &'static Limit)> {
    KINDS.iter().find(|(units, _)| units.iter().any(|known| known.is_named(unit))).copied()
}

/// What a maker typed into a field, as a document carries it: a decimal comma counts as a point, and `unit` stands where
/// none was typed. `unit` may be `parts`, or empty for a bare number.
///
/// ```
/// use lamella::quantity::typed;
/// assert_eq!(typed("12,5", "%")?, "12.5 %");
/// assert_eq!(typed(" 8oz ", "g")?, "8 oz");
/// assert_eq!(typed("1 lb 4 oz", "g")?, "1 lb 4 oz");
/// assert_eq!(typed("3", "parts")?, "3 parts");
/// assert!(typed("1.234,5", "g").is_err() && typed("some", "g").is_err() && typed("2 cups", "g").is_err());
/// # Ok::<(), lamella::quantity::QuantityError>(())
/// ```
///
/// # Errors
/// When there is no number, or a unit that is not known, or both a point and a comma.
pub fn typed(text: &str, unit: &str) -> Result<String, QuantityError> {
    let spaces = ['\u{a0}', '\u{2009}', '\u{202f}'];
    let text: String =
        text.chars().map(|letter| if spaces.contains(&letter) { ' ' } else { letter }).collect();
    let text = pointed(text.trim())?;
    let end = text.find(|letter: char| !(letter.is_ascii_digit() || matches!(letter, '.' | '-')));
    let (number, rest) = text.split_at_checked(end.unwrap_or(text.len())).unwrap_or((&text, ""));
    let rest = rest.trim();
    let name = if rest.is_empty() { unit } else { rest };
    let canonical = if name.is_empty() { number.to_owned() } else { format!("{number} {name}") };
    if matches!(name, "" | "parts" | "part") {
        let limit = &crate::limits::RECIPE_PARTS;
        return parse::bare(number, limit).map(|_| canonical);
    }
    // The last of several units says the kind: `1 lb 4 oz`.
    let last = name.rsplit(|letter: char| letter.is_ascii_digit()).next().unwrap_or(name).trim();
    let (units, limit) = kind_of(last).or_else(|| kind_of(unit)).unwrap_or((Mass::UNITS, &Mass::LIMIT));
    parse::quantity(&canonical, units, limit).map(|_| canonical)
}

/// The text with a decimal comma as a point, where it cannot mean anything else.
fn pointed(text: &str) -> Result<String, QuantityError> {
    match (text.contains('.'), text.matches(',').count()) {
        (_, 0) => Ok(text.to_owned()),
        (false, 1) => Ok(text.replace(',', ".")),
        _ => Err(QuantityError::Comma { found: text.to_owned(), example: "1234.5".to_owned() }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_unit_is_of_one_kind() {
        let names = |units: &[Unit]| -> Vec<&str> {
            let names = units.iter().flat_map(|unit| unit.also.iter().copied().chain([unit.symbol]));
            names.filter(|name| !name.is_empty()).collect()
        };
        for (index, (units, _)) in KINDS.iter().enumerate() {
            for (other, (others, _)) in KINDS.iter().enumerate() {
                if index < other {
                    assert!(names(units).iter().all(|name| !names(others).contains(name)), "{index} {other}");
                }
            }
        }
    }

    #[test]
    fn what_is_typed_is_shown_again() {
        for (text, unit) in
            [("0,1", "g"), ("7", "mm"), ("-4,5", "°C"), ("33", "%"), ("2 in", "mm"), ("90 F", "°C")]
        {
            let document = typed(text, unit).unwrap();
            assert!(shown(&document, unit, Some(3)).is_ok(), "{document}");
        }
    }

    #[test]
    fn nonsense_is_refused() {
        for text in ["", "-", ".", ",5", "5,", "1,2,3", "1 2", "g", "5 %%", "1e3", "∞"] {
            assert!(typed(text, "g").is_err(), "{text:?}");
        }
    }
}
