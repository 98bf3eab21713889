//! Rust text of the values that a row holds.

use std::fmt;

/// One field of a row: a plain expression, or a list that gets a static of its own.
pub(crate) struct Field {
    pub(crate) name: &'static str,
    pub(crate) value: String,
    /// Type of an item, how many, and the items.
    pub(crate) list: Option<(&'static str, usize, String)>,
}

pub(crate) fn field(name: &'static str, value: impl Into<String>) -> Field {
    Field { name, value: value.into(), list: None }
}

pub(crate) fn list(name: &'static str, item: &'static str, items: &[String]) -> Field {
    Field { name, value: String::new(), list: Some((item, items.len(), items.join(", "))) }
}

/// A text, borrowed from the binary.
pub(crate) fn text(value: &str) -> String {
    format!("Cow::Borrowed({value:?})")
}

pub(crate) fn option(value: Option<String>) -> String {
    value.map_or_else(|| "None".to_owned(), |value| format!("Some({value})"))
}

/// A number as it was typed: `mantissa * 10^-scale`.
#[derive(Clone, Copy)]
pub(crate) struct Decimal {
    mantissa: i64,
    scale: u32,
}

impl Decimal {
    pub(crate) const ZERO: Self = Self { mantissa: 0, scale: 0 };
    pub(crate) const HUNDRED: Self = Self { mantissa: 100, scale: 0 };

    /// Reads digits with at most one point and no sign; at most ten decimals, so that a per cent still fits into the
    /// twelve of a share.
    pub(crate) fn parse(text: &str) -> Result<Self, String> {
        let wrong = || format!("{text:?} is not a number such as \"256.5\"");
        let (whole, decimals) = text.split_once('.').unwrap_or((text, ""));
        let plain = |digits: &str| digits.bytes().all(|byte| byte.is_ascii_digit());
        if whole.is_empty() || !plain(whole) || !plain(decimals) || text.ends_with('.') {
            return Err(wrong());
        }
        let scale = u32::try_from(decimals.len()).map_err(|_| wrong())?;
        if scale > 10 {
            return Err(format!("{text:?} has more than ten decimals"));
        }
        let mantissa = format!("{whole}{decimals}").parse().map_err(|_| wrong())?;
        Ok(Self { mantissa, scale })
    }

    fn at_scale(self, scale: u32) -> Option<i64> {
        self.mantissa.checked_mul(10_i64.checked_pow(scale.checked_sub(self.scale)?)?)
    }

    /// The sum, exactly.
    pub(crate) fn plus(self, other: &Self) -> Result<Self, String> {
        let scale = self.scale.max(other.scale);
        let mantissa = self.at_scale(scale).zip(other.at_scale(scale)).and_then(|(a, b)| a.checked_add(b));
        mantissa
            .map(|mantissa| Self { mantissa, scale })
            .ok_or_else(|| format!("{self} + {other} is too large"))
    }

    pub(crate) fn exceeds(&self, other: &Self) -> bool {
        let scale = self.scale.max(other.scale);
        self.at_scale(scale) > other.at_scale(scale)
    }
}

impl fmt::Display for Decimal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let decimals = usize::try_from(self.scale).unwrap_or(0);
        let digits = format!("{:0>1$}", self.mantissa, decimals.saturating_add(1));
        let (whole, part) = digits.split_at(digits.len().saturating_sub(decimals));
        f.write_str(whole)?;
        if part.is_empty() { Ok(()) } else { write!(f, ".{part}") }
    }
}

/// A quantity of type `kind`, in its base unit.
pub(crate) fn quantity(kind: &str, number: &str) -> Result<String, String> {
    let Decimal { mantissa, scale } = Decimal::parse(number)?;
    Ok(format!("{kind}::literal({mantissa}, {scale})"))
}

/// A share, written in per cent and kept as a fraction.
pub(crate) fn percent(number: &str) -> Result<String, String> {
    let Decimal { mantissa, scale } = Decimal::parse(number)?;
    Ok(format!("Share::literal({mantissa}, {})", scale.saturating_add(2)))
}

/// `olive-oil` as `OliveOil`, checked against the words that are allowed.
pub(crate) fn variant(kind: &str, word: &str, allowed: &[&str]) -> Result<String, String> {
    if !allowed.contains(&word) {
        return Err(format!("{word:?} is not one of {}", allowed.join(", ")));
    }
    let mut name = String::new();
    for part in word.split('-') {
        let mut letters = part.chars();
        name.extend(letters.next().map(|first| first.to_ascii_uppercase()));
        name.push_str(letters.as_str());
    }
    Ok(format!("{kind}::{name}"))
}
