//! The fields of an `assessment/1` document.

use crate::limits;
use crate::quantity::Share;
use crate::recipe::Process;
use crate::recipe::fields::{Kind, Table, Units, Wanted, Words, may, must};

use super::Basis;
use crate::market::Style;

/// The format that is read and written.
pub(crate) const FORMAT: &str = "assessment/1";

pub(crate) const BASIS: Words<Basis> =
    Words { names: &["at filling", "cured"], values: &[Basis::AtFilling, Basis::Cured] };
pub(crate) const STYLE: Words<Style> =
    Words { names: &["as charged", "as formed"], values: &[Style::AsCharged, Style::AsFormed] };
pub(crate) const PROCESS: Words<Process> =
    Words { names: &["cold", "hot"], values: &[Process::Cold, Process::Hot] };

pub(crate) const SHARE: Wanted =
    Wanted { limit: limits::RECIPE_SHARE, units: Units::Of(Share::UNITS), example: "3 %" };

pub(crate) static RANGE: Table = Table::new(
    "range",
    "a range",
    &[
        may("min", Kind::Quantity(&[SHARE]), "Least; 0 % by default."),
        may("max", Kind::Quantity(&[SHARE]), "Most; 100 % by default."),
    ],
    &[],
);

pub(crate) static INGREDIENT: Table = Table::new(
    "assessed-ingredient",
    "an ingredient",
    &[
        may("inci", Kind::Name, "Its label name (INCI); capitals and words in brackets do not matter."),
        may(
            "any",
            Kind::List(&Kind::Name, 2),
            "Label names of permitted alternatives, which share one range: their sum must lie in it.",
        ),
        may("group", Kind::Name, "What the alternatives are called, with any."),
        may("min", Kind::Quantity(&[SHARE]), "Least share of the finished product; 0 % by default."),
        must("max", Kind::Quantity(&[SHARE]), "Largest share of the finished product."),
    ],
    &[&["inci"], &["any", "group"]],
);

pub(crate) static CONDITIONS: Table = Table::new(
    "conditions",
    "a set of conditions",
    &[
        may("process", Kind::Word(PROCESS.names), "How it is made."),
        may("superfat", Kind::Object(&RANGE), "Superfat of every jug, as weighed."),
        may("free_alkali", Kind::Quantity(&[SHARE]), "Most free alkali in the cured bar."),
        may("water", Kind::Object(&RANGE), "Water of the cured bar."),
        may("scents", Kind::Quantity(&[SHARE]), "Most of all scents together."),
        may("other", Kind::List(&Kind::Name, 1), "In words: what the maker must see to."),
    ],
    &[],
);

pub(crate) static ASSESSMENT: Table = Table::new(
    "assessment",
    "an assessment",
    &[
        must("lamella", Kind::Tag(FORMAT), "The format: assessment/1."),
        must("name", Kind::Name, "The product or range of products that it covers."),
        must("reference", Kind::Name, "The report's number."),
        must("assessor", Kind::Name, "Who signed it."),
        must("date", Kind::Date, "The day of the report, as 2026-03-31."),
        may("note", Kind::Note, "Free text."),
        may("shares", Kind::Word(BASIS.names), "What the shares are shares of; at filling by default."),
        may("names", Kind::Word(STYLE.names), "In which names; as charged by default."),
        must("ingredients", Kind::List(&Kind::Object(&INGREDIENT), 1), "What it covers."),
        may("conditions", Kind::Object(&CONDITIONS), "Under which conditions."),
    ],
    &[],
);
