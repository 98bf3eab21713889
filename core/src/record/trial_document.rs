//! The `trial/1` document.

use super::document::{name, name_or_none};
use super::trial::{Foam, Trial, Washes};
use super::write;
use crate::limits;
use crate::problem::Problem;
use crate::quantity::{Decimal, Duration, Length, Mass, Share, Temperature};
use crate::recipe::fields::{Kind, Table, Units, Wanted, may, must};
use crate::recipe::json::{self, text};
use crate::recipe::read::document;
use crate::recipe::read_date::whole_units;
use crate::recipe::read_value::{Node, Reader};
use crate::recipe::write::Entries;

const AGE: Wanted = Wanted { limit: limits::CURE_AGE, units: Units::Of(Duration::UNITS), example: "42 d" };
const AFTER: Wanted =
    Wanted { limit: limits::TRIAL_AFTER, units: Units::Of(Duration::UNITS), example: "5 min" };
const HEIGHT: Wanted =
    Wanted { limit: limits::RECIPE_LENGTH, units: Units::Of(Length::UNITS), example: "82 mm" };
const MASS: Wanted = Wanted { limit: limits::RECIPE_MASS, units: Units::Of(Mass::UNITS), example: "98.2 g" };
const WATER: Wanted =
    Wanted { limit: limits::TRIAL_WATER, units: Units::Of(Temperature::UNITS), example: "38 °C" };
const PH: Wanted = Wanted { limit: limits::TRIAL_PH, units: Units::Bare, example: "9.8" };
const SOLUTION: Wanted =
    Wanted { limit: limits::RECIPE_SHARE, units: Units::Of(Share::UNITS), example: "1 %" };

static FOAM: Table = Table::new(
    "trial-foam",
    "the foam",
    &[
        must("height", Kind::Quantity(&[HEIGHT]), "How high it stands at once; above nought."),
        may("later", Kind::Quantity(&[HEIGHT]), "How high it still stands later."),
        may("after", Kind::Quantity(&[AFTER]), "How much later that is."),
    ],
    &[],
);
static WASHES: Table = Table::new(
    "trial-washes",
    "a test of washes",
    &[
        must("count", Kind::Count(limits::RECIPE_COUNT), "How many."),
        must("before", Kind::Quantity(&[MASS]), "The bar before; above nought."),
        must("after", Kind::Quantity(&[MASS]), "The bar after, dried; less than before."),
    ],
    &[],
);
static PH_TABLE: Table = Table::new(
    "trial-ph",
    "the pH",
    &[
        must("value", Kind::Quantity(&[PH]), "What it was."),
        must("solution", Kind::Quantity(&[SOLUTION]), "How strong the solution was, by mass."),
    ],
    &[],
);
/// The format that is read.
pub(crate) const FORMAT: &str = "trial/1";

pub(crate) static TRIAL: Table = Table::new(
    "trial",
    "the trial",
    &[
        must("lamella", Kind::Tag(FORMAT), "The format: trial/1."),
        must("batch", Kind::Name, "Number of the batch."),
        may("note", Kind::Note, "Free text."),
        may("on", Kind::Date, "When it was tried."),
        may("age", Kind::Quantity(&[AGE]), "Age of the bar."),
        may("by", Kind::Name, "Who tried it."),
        may("water", Kind::Name, "The water in words: from the tap, hard, rain."),
        may("temperature", Kind::Quantity(&[WATER]), "Temperature of the water."),
        may("lather", Kind::Name, "The lather in words."),
        may("feel", Kind::Name, "How the skin feels, at once and later."),
        may("look", Kind::Name, "How the bar looks and smells."),
        may("foam", Kind::Object(&FOAM), "Height of the foam in a shaken glass."),
        may("washes", Kind::Object(&WASHES), "What a number of washes takes off the bar."),
        may("ph", Kind::Object(&PH_TABLE), "pH of a solution."),
    ],
    &[],
);

/// Reads a `trial/1` document.
///
/// ```
/// let trial = lamella::record::read_trial(r#"{
///     "lamella": "trial/1", "batch": "2025-014", "age": "6 weeks", "lather": "creamy, small bubbles",
///     "washes": { "count": 20, "before": "98.2 g", "after": "91.2 g" }
/// }"#).unwrap();
/// assert_eq!(trial.washes.unwrap().loss().unwrap().to_string(), "0.35 g");
/// ```
///
/// # Errors
/// Everything that is wrong with the document, in the order of its text.
pub fn read_trial(text: &str) -> Result<Trial, Vec<Problem>> {
    document(text, FORMAT, |reader, at| {
        let top = &reader.top(at, &TRIAL)?;
        let batch = name(reader, top, "batch");
        let note =
            reader.maybe(top, "note", String::new(), |reader, at| reader.name(at, 0).map(str::to_owned));
        let on = reader.maybe(top, "on", None, |reader, at| reader.date(at).map(Some));
        let age = reader.maybe(top, "age", None, |reader, at| reader.quantity(at, &AGE).map(Some));
        let by = name_or_none(reader, top, "by");
        let water = name_or_none(reader, top, "water");
        let temperature =
            reader.maybe(top, "temperature", None, |reader, at| reader.quantity(at, &WATER).map(Some));
        let lather = name_or_none(reader, top, "lather");
        let feel = name_or_none(reader, top, "feel");
        let look = name_or_none(reader, top, "look");
        let foam = reader.maybe(top, "foam", None, |reader, at| foam(reader, at).map(Some));
        let washes = reader.maybe(top, "washes", None, |reader, at| washes(reader, at).map(Some));
        let ph = reader.maybe(top, "ph", None, |reader, at| ph(reader, at).map(Some));
        let ph = ph?;
        Some(Trial {
            batch: batch?,
            note: note?,
            on: on?,
            age: age?,
            by: by?,
            water: water?,
            temperature: temperature?,
            lather: lather?,
            feel: feel?,
            look: look?,
            foam: foam?,
            washes: washes?,
            ph: ph.map(|(value, _)| value),
            solution: ph.map(|(_, solution)| solution),
        })
    })
}

fn foam(reader: &mut Reader, at: &Node<'_>) -> Option<Foam> {
    let fields = reader.object(at, &FOAM)?;
    let height = reader.needed(&fields, "height", |reader, at| reader.positive(at, &HEIGHT));
    let later = reader.maybe(&fields, "later", None, |reader, at| reader.quantity(at, &HEIGHT).map(Some));
    let after = reader.maybe(&fields, "after", None, |reader, at| reader.quantity(at, &AFTER).map(Some));
    if fields.tried("later") != fields.tried("after") {
        let message = "\"later\" and \"after\" stand together: how high, and how much later";
        reader.report(at, "trial.foam", message, "add the other, or leave both out");
    }
    Some(Foam { height: height?, later: later?, after: after? })
}

fn washes(reader: &mut Reader, at: &Node<'_>) -> Option<Washes> {
    let fields = reader.object(at, &WASHES)?;
    let count = reader.needed(&fields, "count", |reader, at| reader.number(at, &limits::RECIPE_COUNT));
    let before = reader.needed(&fields, "before", |reader, at| reader.positive::<Mass>(at, &MASS));
    let after = reader.needed(&fields, "after", |reader, at| reader.quantity::<Mass>(at, &MASS));
    if let (Some(before), Some(after), Some(at)) = (before, after, fields.get("after"))
        && after >= before
    {
        let message = format!("the bar weighs {after} after the washes, and {before} before them");
        reader.report(&at, "trial.washes", message, "let it dry as it was before; check both");
    }
    Some(Washes { count: count?, before: before?, after: after? })
}

fn ph(reader: &mut Reader, at: &Node<'_>) -> Option<(Decimal, Share)> {
    let fields = reader.object(at, &PH_TABLE)?;
    let value = reader.needed(&fields, "value", |reader, at| {
        let text = reader.quantity_text(at, &PH)?;
        reader.bare(at, text, text, &PH)
    });
    let solution = reader.needed(&fields, "solution", |reader, at| reader.positive(at, &SOLUTION));
    Some((value?, solution?))
}

/// The trial as the canonical text of its document.
#[must_use]
pub fn write_trial(trial: &Trial) -> String {
    let mut top = Entries::default();
    top.put("lamella", text(FORMAT));
    top.put("batch", text(&*trial.batch));
    write::name(&mut top, "note", &trial.note);
    write::known(&mut top, "on", trial.on);
    write::known(&mut top, "age", trial.age.map(whole_units));
    write::name(&mut top, "by", &trial.by);
    write::name(&mut top, "water", &trial.water);
    write::known(&mut top, "temperature", trial.temperature);
    write::name(&mut top, "lather", &trial.lather);
    write::name(&mut top, "feel", &trial.feel);
    write::name(&mut top, "look", &trial.look);
    if let Some(foam) = trial.foam {
        let mut entries = Entries::default();
        entries.quantity("height", foam.height);
        write::known(&mut entries, "later", foam.later);
        write::known(&mut entries, "after", foam.after.map(whole_units));
        top.put("foam", entries.object());
    }
    if let Some(washes) = trial.washes {
        let mut entries = Entries::default();
        entries.put("count", write::count(washes.count));
        entries.quantity("before", washes.before);
        entries.quantity("after", washes.after);
        top.put("washes", entries.object());
    }
    if let Some((value, solution)) = trial.ph.zip(trial.solution) {
        let mut entries = Entries::default();
        entries.quantity("value", value.normalize());
        entries.quantity("solution", solution);
        top.put("ph", entries.object());
    }
    json::print(&top.object())
}

/// The JSON Schema of a `trial/1` document, as text.
#[cfg(feature = "schema")]
#[must_use]
pub fn trial_schema() -> String {
    crate::recipe::schema::of(&TRIAL, "A trial of a cured bar")
}
