//! The `weighings/1` document.

use std::collections::BTreeSet;

use crate::limits;
use crate::problem::Problem;
use crate::quantity::{Date, Duration, Mass, Share};
use crate::recipe::fields::{Kind, Table, Units, Wanted, may, must};
use crate::recipe::json::{self, Json, list, text};
use crate::recipe::read::document;
use crate::recipe::read_date::whole_units;
use crate::recipe::read_value::{Node, Reader, echo};
use crate::recipe::write::Entries;

use super::SETTLED_BELOW;

/// Weighings of bars of one batch.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Weighings {
    /// The batch.
    pub batch: String,
    /// Free text.
    pub note: String,
    /// The day it was cut; age is counted from it.
    pub cut: Option<Date>,
    /// Loss of a week below which a bar counts as dry, as a share of the bar.
    pub settled_below: Share,
    /// The bars that are weighed again and again. Never empty.
    pub bars: Vec<Bar>,
}

/// A bar that is weighed again and again.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bar {
    /// What the maker calls it.
    pub name: String,
    /// Its weighings, as they were written down. Never empty.
    pub weighings: Vec<Weighing>,
}

/// One weighing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Weighing {
    /// Age of the bar.
    pub age: Duration,
    /// The day, when the document names it in place of the age.
    pub date: Option<Date>,
    /// What it weighed.
    pub mass: Mass,
    /// Standard uncertainty of this weighing, which weights it; all weighings of a bar state one, or none does.
    pub uncertainty: Option<Mass>,
}

const AGE: Wanted = Wanted { limit: limits::CURE_AGE, units: Units::Of(Duration::UNITS), example: "14 d" };
const MASS: Wanted = Wanted { limit: limits::RECIPE_MASS, units: Units::Of(Mass::UNITS), example: "104.9 g" };
const SMALL: Wanted = Wanted { example: "0.3 g", ..MASS };
const LOSS: Wanted = Wanted { limit: limits::CURE_SETTLED, units: Units::Of(Share::UNITS), example: "0.5 %" };

static WEIGHING: Table = Table::new(
    "weighing",
    "a weighing",
    &[
        may("age", Kind::Quantity(&[AGE]), "Age of the bar since the cut."),
        may("date", Kind::Date, "Day of the weighing, in place of the age."),
        must("mass", Kind::Quantity(&[MASS]), "What the bar weighed; above nought."),
        may(
            "uncertainty",
            Kind::Quantity(&[SMALL]),
            "Standard uncertainty of the weighing; then all of the bar have one.",
        ),
    ],
    &[&["age"], &["date"]],
);

static BAR: Table = Table::new(
    "weighed-bar",
    "a bar",
    &[
        must("bar", Kind::Name, "Its name."),
        must("weighings", Kind::List(&Kind::Object(&WEIGHING), 1), "Its weighings."),
    ],
    &[],
);

/// The format that is read.
pub(crate) const FORMAT: &str = "weighings/1";

pub(crate) static WEIGHINGS: Table = Table::new(
    "weighings",
    "a list of weighings",
    &[
        must("lamella", Kind::Tag(FORMAT), "The format: weighings/1."),
        must("batch", Kind::Name, "The batch."),
        may("note", Kind::Note, "Free text."),
        may("cut", Kind::Date, "The day on which the batch was cut; needed when a weighing has a date."),
        may(
            "settled_below",
            Kind::Quantity(&[LOSS]),
            "Loss of a week below which a bar counts as dry; 0.5 % of the bar by default.",
        ),
        must("bars", Kind::List(&Kind::Object(&BAR), 1), "The bars that are weighed."),
    ],
    &[],
);

/// Reads what a fresh bar weighs, for an [`Estimate`](super::Estimate), as strictly as the masses of a document; its
/// problems stand at `/fresh`.
///
/// ```
/// assert_eq!(lamella::cure::fresh("112.1 g"), Ok("112.1 g".parse().unwrap()));
/// assert_eq!(lamella::cure::fresh("0 g").unwrap_err()[0].code, "quantity.range");
/// ```
///
/// # Errors
/// When the text is no mass, or one that is not above zero.
pub fn fresh(text: &str) -> Result<Mass, Vec<Problem>> {
    let mut reader = Reader::default();
    let at = Node { json: &json::text(text), pointer: "/fresh".to_owned() };
    reader.positive(&at, &MASS).ok_or_else(|| reader.finish())
}

/// Reads a `weighings/1` document.
///
/// ```
/// let text = r#"{"lamella": "weighings/1", "batch": "7", "bars": [
///     {"bar": "A", "weighings": [{"date": "2025-03-04", "mass": "112.1"}]}]}"#;
/// let problems = lamella::cure::read(text).unwrap_err();
/// let codes: Vec<_> = problems.iter().map(|problem| (problem.code, &*problem.pointer)).collect();
/// assert_eq!(codes, [
///     ("weighings.cut", "/bars/0/weighings/0/date"),
///     ("quantity.unit.missing", "/bars/0/weighings/0/mass"),
/// ]);
/// ```
///
/// # Errors
/// Everything that is wrong with the document, in the order of its text.
pub fn read(text: &str) -> Result<Weighings, Vec<Problem>> {
    document(text, FORMAT, |reader, at| {
        let top = &reader.top(at, &WEIGHINGS)?;
        let batch = reader.needed(top, "batch", |reader, at| reader.name(at, 1).map(str::to_owned));
        let note =
            reader.maybe(top, "note", String::new(), |reader, at| reader.name(at, 0).map(str::to_owned));
        let cut = reader.maybe(top, "cut", None, |reader, at| reader.date(at).map(Some));
        let settled_below =
            reader.maybe(top, "settled_below", SETTLED_BELOW, |reader, at| reader.positive(at, &LOSS));
        let from = match (top.tried("cut"), cut.flatten()) {
            (false, _) => From::Unknown,
            (true, None) => From::Unclear,
            (true, Some(day)) => From::Day(day),
        };
        let mut seen = BTreeSet::new();
        let bars = reader.items(top, "bars", 1, |reader, at| bar(reader, at, from, &mut seen));
        Some(Weighings { batch: batch?, note: note?, cut: cut?, settled_below: settled_below?, bars: bars? })
    })
}

/// What is known of the day of the cut.
#[derive(Clone, Copy)]
enum From {
    Day(Date),
    /// The document does not say.
    Unknown,
    /// It says something that is no day, which is reported already.
    Unclear,
}

fn bar(reader: &mut Reader, at: &Node<'_>, cut: From, seen: &mut BTreeSet<String>) -> Option<Bar> {
    let fields = reader.object(at, &BAR)?;
    let name = reader.needed(&fields, "bar", |reader, at| {
        let name = reader.name(at, 1)?;
        reader.unique(at, seen, name, "bars");
        Some(name.to_owned())
    });
    let weighings = reader.items(&fields, "weighings", 1, |reader, at| weighing(reader, at, cut));
    let weighings = weighings?;
    let stated = weighings.iter().filter(|weighing| weighing.uncertainty.is_some()).count();
    if stated != 0 && stated != weighings.len() {
        let message = format!("{stated} of {} weighings state an uncertainty", weighings.len());
        let at = fields.get("weighings")?;
        reader.report(&at, "weighings.uncertainty", message, "state it for all of them, or for none");
    }
    Some(Bar { name: name?, weighings })
}

fn weighing(reader: &mut Reader, at: &Node<'_>, cut: From) -> Option<Weighing> {
    let fields = reader.object(at, &WEIGHING)?;
    let age = reader.maybe(&fields, "age", None, |reader, at| reader.quantity(at, &AGE).map(Some));
    let date = reader.maybe(&fields, "date", None, |reader, at| {
        let date = reader.date(at)?;
        since(reader, at, cut, date).map(|age| Some((date, age)))
    });
    let mass = reader.needed(&fields, "mass", |reader, at| reader.positive(at, &MASS));
    let uncertainty =
        reader.maybe(&fields, "uncertainty", None, |reader, at| reader.positive(at, &SMALL).map(Some));
    let (age, date) = (age?, date?);
    Some(Weighing {
        age: age.or(date.map(|(_, age)| age))?,
        date: date.map(|(date, _)| date),
        mass: mass?,
        uncertainty: uncertainty?,
    })
}

/// The age at a day.
fn since(reader: &mut Reader, at: &Node<'_>, cut: From, date: Date) -> Option<Duration> {
    match cut {
        From::Day(cut) => {
            let age = cut.until(date);
            if age.is_none() {
                let message = format!("the weighing of {date} is from before the cut on {cut}");
                reader.report(at, "date.order", message, "check both dates");
            }
            age
        }
        From::Unknown => {
            let message = format!("a weighing by date, {}, and no day of the cut", echo(&date.to_string()));
            reader.report(at, "weighings.cut", message, "add \"cut\", or write the \"age\" of the bar");
            None
        }
        From::Unclear => None,
    }
}

/// The weighings as the canonical text of their document.
#[must_use]
pub fn write(weighings: &Weighings) -> String {
    let mut top = Entries::default();
    top.put("lamella", text(FORMAT));
    top.put("batch", text(&*weighings.batch));
    top.unless(weighings.note.is_empty(), "note", || text(&*weighings.note));
    if let Some(cut) = weighings.cut {
        top.quantity("cut", cut);
    }
    top.unless(weighings.settled_below == SETTLED_BELOW, "settled_below", || {
        text(weighings.settled_below.to_string())
    });
    top.put("bars", list(weighings.bars.iter().map(of_bar).collect()));
    json::print(&top.object())
}

fn of_bar(bar: &Bar) -> Json {
    let mut entries = Entries::default();
    entries.put("bar", text(&*bar.name));
    entries.put("weighings", list(bar.weighings.iter().map(of_weighing).collect()));
    entries.object()
}

fn of_weighing(weighing: &Weighing) -> Json {
    let mut entries = Entries::default();
    match weighing.date {
        Some(date) => entries.quantity("date", date),
        None => entries.put("age", text(whole_units(weighing.age))),
    }
    entries.quantity("mass", weighing.mass);
    if let Some(uncertainty) = weighing.uncertainty {
        entries.quantity("uncertainty", uncertainty);
    }
    entries.object()
}

/// The JSON Schema of a `weighings/1` document, as text.
#[cfg(feature = "schema")]
#[must_use]
pub fn schema() -> String {
    crate::recipe::schema::of(&WEIGHINGS, "Weighings of curing bars")
}
