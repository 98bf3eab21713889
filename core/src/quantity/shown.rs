//! Quantities as a screen shows and takes them: in the unit that a maker reads, and as a maker types them.

use super::comma::{self, Reading};
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

/// The number of a document's quantity in `unit`, without the unit: with so many decimals, at most twelve, or with all that
/// it has and at most twelve.
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
/// When the text is no quantity, or one of another kind than the unit, or more than twelve decimals are asked for.
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
        Some(decimals) if decimals > MOST => Err(QuantityError::Range {
            found: decimals.to_string(),
            what: "number of decimals",
            allowed: format!("0 to {MOST}"),
        }),
        Some(decimals) => value.decimal().map(|value| fixed(value, decimals)).ok_or(overflow),
        None => value.published().map(|value| value.normalize().to_string()).ok_or(overflow),
    }
}

/// Decimals at which a scale of this step tells its steps apart in `unit`: none for a step of 1 g in grams, two for it in
/// ounces.
///
/// ```
/// use lamella::quantity::step_decimals;
/// assert_eq!(step_decimals("0.1 g".parse()?, "g"), Ok(1));
/// assert_eq!(step_decimals("1 g".parse()?, "oz"), Ok(2));
/// assert_eq!(step_decimals("0.1 oz".parse()?, "oz"), Ok(1));
/// assert!(step_decimals("0 g".parse()?, "g").is_err() && step_decimals("1 g".parse()?, "mm").is_err());
/// # Ok::<(), lamella::quantity::QuantityError>(())
/// ```
///
/// # Errors
/// When the step is not above zero, or the unit is none of mass.
pub fn step_decimals(step: Mass, unit: &str) -> Result<u32, QuantityError> {
    if step <= Mass::ZERO {
        let (found, allowed) = (step.to_string(), "the steps that a scale can have".to_owned());
        return Err(QuantityError::Range { found, what: "step of a scale", allowed });
    }
    let step = parse::unit(unit, Mass::UNITS, Mass::LIMIT.what)?.from_base(step.exact());
    let step = step.decimal().ok_or(QuantityError::Overflow { what: "step of a scale" })?.normalize();
    if step.scale() <= 3 {
        return Ok(step.scale());
    }
    // A step of another unit: the first decimal that does not exceed it.
    let finer = |decimals: &u32| !(Exact::literal(1, *decimals) - Exact::from(step)).is_positive();
    Ok((0..=MOST).find(finer).unwrap_or(MOST))
}

fn kind_of(unit: &str) -> Option<(&'static [Unit], &'static Limit)> {
    KINDS.iter().find(|(units, _)| units.iter().any(|known| known.is_named(unit))).copied()
}

/// What a maker typed into a field, as a document carries it: a decimal comma counts as a point, signs between thousands
/// are left out, and `unit` stands where none was typed. `unit` may be `parts`, or empty for a bare number.
///
/// A comma before exactly three digits may be either (`1,500`), and is refused with both readings, unless something else
/// settles it: a nought or more than three digits before it (`0,500`, `1500,500`), a point (`1,500.0`), a second comma
/// (`12,345,678`), or a space or an apostrophe between thousands (`1 500,125`).
///
/// ```
/// use lamella::quantity::typed;
/// assert_eq!(typed("12,5", "%")?, "12.5 %");
/// assert_eq!(typed(" 8oz ", "g")?, "8 oz");
/// assert_eq!(typed("1 lb 4 oz", "g")?, "1 lb 4 oz");
/// assert_eq!(typed("3", "parts")?, "3 parts");
/// assert_eq!(typed("1 500", "g")?, "1500 g");
/// let asks = typed("1,500", "g").unwrap_err().to_string();
/// assert!(asks.contains("\"1500 g\" or \"1.500 g\""), "{asks}");
/// assert!(typed("1.234,5", "g").is_err() && typed("some", "g").is_err() && typed("2 cups", "g").is_err());
/// # Ok::<(), lamella::quantity::QuantityError>(())
/// ```
///
/// # Errors
/// When there is no number, or a unit that is not known, or a number that can be read in two ways.
pub fn typed(text: &str, unit: &str) -> Result<String, QuantityError> {
    let spaces = ['\u{a0}', '\u{2009}', '\u{202f}'];
    let text: String =
        text.chars().map(|letter| if spaces.contains(&letter) { ' ' } else { letter }).collect();
    let text = pointed(text.trim(), unit)?;
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

/// The text as a document has it, where its signs cannot mean anything else.
fn pointed(text: &str, unit: &str) -> Result<String, QuantityError> {
    let whole = || {
        if text.ends_with(|last: char| last.is_ascii_digit()) {
            format!("{text} {unit}")
        } else {
            text.to_owned()
        }
    };
    let found = text.to_owned();
    match comma::read(text) {
        Reading::One(text) => Ok(text),
        Reading::No if !text.contains(',') => Err(QuantityError::Form {
            found,
            what: "number",
            example: format!("1234.5 {unit}").trim_end().to_owned(),
        }),
        Reading::Either { .. } | Reading::No => {
            Err(QuantityError::Comma { found, advice: comma::advice(whole().trim_end()) })
        }
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
    fn a_comma_that_may_set_off_thousands_is_asked_about_with_both_readings() {
        for (text, unit, thousands, decimal) in [
            ("1,500", "g", "1500 g", "1.500 g"),
            ("1,500 g", "g", "1500 g", "1.500 g"),
            ("1,500", "parts", "1500 parts", "1.500 parts"),
            ("12,000", "", "12000", "12.000"),
            ("1,000 lb 4,5 oz", "g", "1000 lb 4.5 oz", "1.000 lb 4.5 oz"),
        ] {
            let error = typed(text, unit).unwrap_err();
            assert_eq!(error.code(), "quantity.comma");
            assert!(error.to_string().contains(&format!("write {thousands:?} or {decimal:?}")), "{error}");
            // Both are taken as they are advised; only so many parts are not.
            let kept = |text: &str| typed(text, unit).is_ok_and(|kept| kept == text);
            assert!(kept(decimal) && (kept(thousands) || matches!(unit, "" | "parts")), "{text}");
        }
        for (text, document) in [
            ("1,50", "1.50 g"),
            ("0,500", "0.500 g"),
            ("1500,500", "1500.500 g"),
            ("1,500.0", "1500.0 g"),
            ("12,345,678 mg", "12345678 mg"),
            ("1 500", "1500 g"),
            ("1\u{202f}500,25", "1500.25 g"),
            ("1\u{2019}500", "1500 g"),
        ] {
            assert_eq!(typed(text, "g").as_deref(), Ok(document), "{text}");
        }
        for text in ["1,50,000", "1234,567,890", "1.234,5", "1 50", "1500 000"] {
            assert!(typed(text, "g").unwrap_err().to_string().contains("\"1234.5"), "{text}");
        }
    }

    #[test]
    fn nonsense_is_refused() {
        for text in ["", "-", ".", ",5", "5,", "1,2,3", "1 2", "g", "5 %%", "1e3", "∞"] {
            assert!(typed(text, "g").is_err(), "{text:?}");
        }
    }
}
