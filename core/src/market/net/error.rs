//! How much lighter than its label a package may be.

use serde::Serialize;

use crate::quantity::{Exact, Mass};

/// One row of the table: up to which nominal quantity, and either a per cent of it or grams.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[non_exhaustive]
pub enum Table {
    /// So many tenths of a per cent of the nominal quantity.
    PerThousand(i64),
    /// So many tenths of a gram.
    Tenths(i64),
}

/// Tolerable negative errors by nominal quantity in grams.
///
/// # Source
/// Directive 76/211/EEC, annex I, 2.4, and GOV.UK's guide to packaged goods (S.I. 2006/659), read.
const ERRORS: [(i64, Table); 9] = [
    (50, Table::PerThousand(90)),
    (100, Table::Tenths(45)),
    (200, Table::PerThousand(45)),
    (300, Table::Tenths(90)),
    (500, Table::PerThousand(30)),
    (1_000, Table::Tenths(150)),
    (10_000, Table::PerThousand(15)),
    (15_000, Table::Tenths(1_500)),
    (i64::MAX, Table::PerThousand(10)),
];

/// To what an error that is reckoned from a per cent is rounded up.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Rounding {
    /// To the next tenth of a gram: GOV.UK and German law, read.
    #[default]
    Tenths,
    /// To the next tenth of a gram up to 1000 g, to the next gram above: OIML R 87, from memory.
    TenthsThenGrams,
}

/// The tolerable negative error of a nominal quantity; nothing below 5 g, where the rules do not reach.
///
/// ```
/// use lamella::market::net::{tolerable_error, Rounding};
/// let of = |nominal: &str| tolerable_error(nominal.parse().unwrap(), Rounding::Tenths).unwrap().to_string();
/// assert_eq!((of("45 g"), of("100 g"), of("113 g")), ("4.1 g".into(), "4.5 g".into(), "5.1 g".into()));
/// ```
#[must_use]
pub fn tolerable_error(nominal: Mass, rounding: Rounding) -> Option<Mass> {
    if nominal < super::LEAST {
        return None;
    }
    let within = |most: i64| !(nominal.exact() - Exact::from(most)).is_positive();
    let (_, row) = ERRORS.iter().find(|(most, _)| within(*most))?;
    match *row {
        Table::Tenths(tenths) => Some(Mass::literal(tenths, 1)),
        Table::PerThousand(parts) => {
            let exact = nominal.exact() * Exact::from(parts) / Exact::THOUSAND;
            let whole = rounding == Rounding::TenthsThenGrams && !within(1_000);
            super::up(exact, if whole { Mass::literal(1, 0) } else { Mass::literal(1, 1) })
        }
    }
}

/// Maximum allowable variations of the United States: up to which label in grams, and tenths of a gram.
///
/// # Source
/// NIST Handbook 133, table 2-5, from memory; one value, 7.2 g at 113 g, was read.
const VARIATIONS: [(i64, i64); 16] = [
    (54, 36),
    (81, 54),
    (117, 72),
    (154, 90),
    (208, 108),
    (263, 127),
    (317, 145),
    (381, 163),
    (426, 181),
    (489, 199),
    (571, 217),
    (635, 235),
    (698, 254),
    (771, 272),
    (852, 290),
    (970, 317),
];

/// The maximum allowable variation of a label in the United States; `None` where the label is not above zero, and above
/// 970 g, where the table is not remembered. Up to 36 g it is a tenth of the label.
#[must_use]
pub fn variation(label: Mass) -> Option<Mass> {
    if label <= Mass::ZERO {
        return None;
    }
    if label <= Mass::literal(36, 0) {
        return Mass::try_new(label.exact() / Exact::from(10)).ok();
    }
    let within = |most: i64| !(label.exact() - Exact::from(most)).is_positive();
    let (_, tenths) = VARIATIONS.iter().find(|(most, _)| within(*most))?;
    Some(Mass::literal(*tenths, 1))
}
