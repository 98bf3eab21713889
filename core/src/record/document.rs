//! Reading a `record/1` document.

use std::collections::{BTreeMap, BTreeSet};

use super::fields::{self, DECISION, FREE_ALKALI, MASS, OUTCOME, SUPERFAT, TEMPERATURE};
use super::{
    Actual, Check, Deviation, Equipment, Event, Lot, Output, PouredLayer, Record, Release, Samples,
    ScaleCheck, TemperatureReading,
};
use crate::batch::Hold;
use crate::limits;
use crate::problem::Problem;
use crate::quantity::{Date, Mass, Moment, Share};
use crate::recipe::fields::Wanted;
use crate::recipe::read::document;
use crate::recipe::read_value::{Fields, Node, Reader, echo, meant};

/// Reads a `record/1` document.
///
/// ```
/// let text = r#"{"lamella": "record/1", "batch": "2025-014", "product": "Tidal strata",
///     "lots": [{"lot": "O7", "material": "olive-oil", "expires": "2026-01-31"}],
///     "weighings": [{"lot": "O7", "mass": "412.3 g", "by": "AM"}]}"#;
/// let record = lamella::record::read(text).unwrap();
/// assert_eq!(record.expiry().unwrap().date.to_string(), "2026-01-31");
///
/// let problems = lamella::record::read(&text.replace("\"lot\": \"O7\", \"mass\"", "\"lot\": \"O8\", \"mass\"")).unwrap_err();
/// assert_eq!((problems[0].code, &*problems[0].pointer), ("record.lot", "/weighings/0/lot"));
/// ```
///
/// # Errors
/// Everything that is wrong with the document, in the order of its text.
pub fn read(text: &str) -> Result<Record, Vec<Problem>> {
    document(text, fields::FORMAT, |reader, at| {
        let top = &reader.top(at, &fields::RECORD)?;
        let batch = name(reader, top, "batch");
        let product = name(reader, top, "product");
        let formula = name_or_none(reader, top, "formula");
        let note =
            reader.maybe(top, "note", String::new(), |reader, at| reader.name(at, 0).map(str::to_owned));
        let started = moment(reader, top, "started");
        let finished = moment(reader, top, "finished");
        in_order(reader, top, ("started", started.flatten()), ("finished", finished.flatten()));
        let operators = reader.items(top, "operators", 0, |reader, at| reader.name(at, 1).map(str::to_owned));
        let equipment = reader.items(top, "equipment", 0, equipment);
        let scale_checks = reader.items(top, "scale_checks", 0, scale_check);
        let (lots, known) = lots(reader, top);
        let weighings = reader.items(top, "weighings", 0, |reader, at| actual(reader, at, &known));
        let temperatures = reader.items(top, "temperatures", 0, temperature);
        let layers = reader.items(top, "layers", 0, layer);
        let events = reader.items(top, "events", 0, event);
        let deviations = reader.items(top, "deviations", 0, deviation);
        let checks = reader.items(top, "checks", 0, check);
        let holds = reader.items(top, "holds", 0, hold);
        let output = reader.maybe(top, "output", None, |reader, at| output(reader, at).map(Some));
        let cure_from = date(reader, top, "cure_from");
        let code = name_or_none(reader, top, "code");
        let label = name_or_none(reader, top, "label");
        let samples = reader.maybe(top, "samples", None, |reader, at| samples(reader, at).map(Some));
        let release = reader.maybe(top, "release", None, |reader, at| release(reader, at).map(Some));
        Some(Record {
            batch: batch?,
            product: product?,
            formula: formula?,
            note: note?,
            started: started?,
            finished: finished?,
            operators: operators?,
            equipment: equipment?,
            scale_checks: scale_checks?,
            lots: lots?,
            weighings: weighings?,
            temperatures: temperatures?,
            layers: layers?,
            events: events?,
            deviations: deviations?,
            checks: checks?,
            holds: holds?,
            output: output?,
            cure_from: cure_from?,
            code: code?,
            label: label?,
            samples: samples?,
            release: release?,
        })
    })
}

/// A name that must be there.
pub(super) fn name(reader: &mut Reader, fields: &Fields<'_>, field: &str) -> Option<String> {
    reader.needed(fields, field, |reader, at| reader.name(at, 1).map(str::to_owned))
}

/// A name that may be left out; empty then.
pub(super) fn name_or_none(reader: &mut Reader, fields: &Fields<'_>, field: &str) -> Option<String> {
    reader.maybe(fields, field, String::new(), |reader, at| reader.name(at, 1).map(str::to_owned))
}

fn moment(reader: &mut Reader, fields: &Fields<'_>, field: &str) -> Option<Option<Moment>> {
    reader.maybe(fields, field, None, |reader, at| reader.moment(at).map(Some))
}

fn date(reader: &mut Reader, fields: &Fields<'_>, field: &str) -> Option<Option<Date>> {
    reader.maybe(fields, field, None, |reader, at| reader.date(at).map(Some))
}

fn mass(reader: &mut Reader, fields: &Fields<'_>, field: &str) -> Option<Mass> {
    reader.needed(fields, field, |reader, at| reader.quantity(at, &MASS))
}

/// Reports what ends before it begins.
fn in_order<T: Ord + std::fmt::Display>(
    reader: &mut Reader,
    fields: &Fields<'_>,
    (first, from): (&str, Option<T>),
    (last, to): (&str, Option<T>),
) {
    if let (Some(from), Some(to), Some(at)) = (from, to, fields.get(last))
        && to < from
    {
        let message = format!("{last:?}, {to}, is before {first:?}, {from}");
        reader.report(&at, "date.order", message, "check both");
    }
}

fn equipment(reader: &mut Reader, at: &Node<'_>) -> Option<Equipment> {
    let fields = reader.object(at, &fields::EQUIPMENT)?;
    let name = name(reader, &fields, "equipment");
    let cleaned = moment(reader, &fields, "cleaned");
    let by = name_or_none(reader, &fields, "by");
    Some(Equipment { name: name?, cleaned: cleaned?, by: by? })
}

fn scale_check(reader: &mut Reader, at: &Node<'_>) -> Option<ScaleCheck> {
    let fields = reader.object(at, &fields::SCALE_CHECK)?;
    let scale = name(reader, &fields, "scale");
    let weight = mass(reader, &fields, "weight");
    let shown = mass(reader, &fields, "shown");
    let at = moment(reader, &fields, "at");
    Some(ScaleCheck { scale: scale?, weight: weight?, shown: shown?, at: at? })
}

/// The lots, and the names that weighings may use: of lots that could be read or not.
fn lots(reader: &mut Reader, top: &Fields<'_>) -> (Option<Vec<Lot>>, Known) {
    let mut known = Known { names: BTreeMap::new(), whole: top.has("lots") };
    let mut seen = BTreeSet::new();
    let lots = reader.items(top, "lots", 0, |reader, at| {
        let fields = reader.object(at, &fields::LOT)?;
        let lot = reader.needed(&fields, "lot", |reader, at| {
            let name = reader.name(at, 1)?;
            reader.unique(at, &mut seen, name, "lots");
            Some(name.to_owned())
        });
        let material = name(reader, &fields, "material");
        match &lot {
            Some(lot) => {
                known.names.insert(lot.clone(), ());
            }
            None => known.whole = false,
        }
        let supplier = name_or_none(reader, &fields, "supplier");
        let supplier_lot = name_or_none(reader, &fields, "supplier_lot");
        let received = date(reader, &fields, "received");
        let opened = date(reader, &fields, "opened");
        let expires = date(reader, &fields, "expires");
        in_order(reader, &fields, ("received", received.flatten()), ("opened", opened.flatten()));
        in_order(reader, &fields, ("received", received.flatten()), ("expires", expires.flatten()));
        let batch = name_or_none(reader, &fields, "batch");
        Some(Lot {
            lot: lot?,
            material: material?,
            supplier: supplier?,
            supplier_lot: supplier_lot?,
            received: received?,
            opened: opened?,
            expires: expires?,
            batch: batch?,
        })
    });
    (lots, known)
}

/// Names of lots; not the whole of them when one could not be read.
struct Known {
    names: BTreeMap<String, ()>,
    whole: bool,
}

fn actual(reader: &mut Reader, at: &Node<'_>, known: &Known) -> Option<Actual> {
    let fields = reader.object(at, &fields::ACTUAL)?;
    let lot = reader.needed(&fields, "lot", |reader, at| {
        let lot = reader.name(at, 1)?;
        if known.whole && !known.names.contains_key(lot) {
            let names: Vec<&str> = known.names.keys().map(String::as_str).collect();
            let message = format!("there is no lot {}", echo(lot));
            let advice = if names.is_empty() {
                "add it to \"lots\"".to_owned()
            } else {
                format!("add it to \"lots\", or {}", meant(lot, &names))
            };
            reader.report(at, "record.lot", message, advice);
            return None;
        }
        Some(lot.to_owned())
    });
    let mass = mass(reader, &fields, "mass");
    let when = moment(reader, &fields, "at");
    let by = name_or_none(reader, &fields, "by");
    let scale = name_or_none(reader, &fields, "scale");
    let into = name_or_none(reader, &fields, "into");
    Some(Actual { lot: lot?, mass: mass?, at: when?, by: by?, scale: scale?, into: into? })
}

fn temperature(reader: &mut Reader, at: &Node<'_>) -> Option<TemperatureReading> {
    let fields = reader.object(at, &fields::READING)?;
    let what = name(reader, &fields, "what");
    let value = reader.needed(&fields, "value", |reader, at| reader.quantity(at, &TEMPERATURE));
    let at = moment(reader, &fields, "at");
    Some(TemperatureReading { what: what?, value: value?, at: at? })
}

fn layer(reader: &mut Reader, at: &Node<'_>) -> Option<PouredLayer> {
    let fields = reader.object(at, &fields::LAYER)?;
    let layer = name(reader, &fields, "layer");
    let at = moment(reader, &fields, "at");
    let mass = reader.maybe(&fields, "mass", None, |reader, at| reader.quantity(at, &MASS).map(Some));
    Some(PouredLayer { layer: layer?, at: at?, mass: mass? })
}

fn event(reader: &mut Reader, at: &Node<'_>) -> Option<Event> {
    let fields = reader.object(at, &fields::EVENT)?;
    let what = name(reader, &fields, "what");
    let at = moment(reader, &fields, "at");
    Some(Event { at: at?, what: what? })
}

fn deviation(reader: &mut Reader, at: &Node<'_>) -> Option<Deviation> {
    let fields = reader.object(at, &fields::DEVIATION)?;
    let what = name(reader, &fields, "what");
    let action = name_or_none(reader, &fields, "action");
    let by = name_or_none(reader, &fields, "by");
    Some(Deviation { what: what?, action: action?, by: by? })
}

fn check(reader: &mut Reader, at: &Node<'_>) -> Option<Check> {
    let fields = reader.object(at, &fields::CHECK)?;
    let check = name(reader, &fields, "check");
    let result = name(reader, &fields, "result");
    let outcome = reader.needed(&fields, "outcome", |reader, at| reader.word(at, &OUTCOME));
    let layer = name_or_none(reader, &fields, "layer");
    let free_alkali = share(reader, &fields, "free_alkali", &FREE_ALKALI);
    let at = moment(reader, &fields, "at");
    let by = name_or_none(reader, &fields, "by");
    Some(Check {
        check: check?,
        result: result?,
        outcome: outcome?,
        layer: layer?,
        free_alkali: free_alkali?,
        at: at?,
        by: by?,
    })
}

fn share(reader: &mut Reader, fields: &Fields<'_>, field: &str, wanted: &Wanted) -> Option<Option<Share>> {
    reader.maybe(fields, field, None, |reader, at| reader.quantity(at, wanted).map(Some))
}

fn hold(reader: &mut Reader, at: &Node<'_>) -> Option<Hold> {
    let fields = reader.object(at, &fields::HOLD)?;
    let layer = name(reader, &fields, "layer");
    let superfat = share(reader, &fields, "superfat", &SUPERFAT);
    let worst = share(reader, &fields, "worst", &SUPERFAT);
    let free_alkali = share(reader, &fields, "free_alkali", &FREE_ALKALI);
    Some(Hold { layer: layer?, superfat: superfat?, worst: worst?, free_alkali: free_alkali? })
}

fn output(reader: &mut Reader, at: &Node<'_>) -> Option<Output> {
    let fields = reader.object(at, &fields::OUTPUT)?;
    let bars = reader.needed(&fields, "bars", |reader, at| reader.number(at, &limits::RECORD_COUNT));
    let rejected =
        reader.maybe(&fields, "rejected", 0, |reader, at| reader.number(at, &limits::RECORD_COUNT));
    let mass = reader.maybe(&fields, "mass", None, |reader, at| reader.quantity(at, &MASS).map(Some));
    Some(Output { bars: bars?, rejected: rejected?, mass: mass? })
}

fn samples(reader: &mut Reader, at: &Node<'_>) -> Option<Samples> {
    let fields = reader.object(at, &fields::SAMPLES)?;
    let count = reader.needed(&fields, "count", |reader, at| reader.number(at, &limits::RECORD_COUNT));
    let place = name_or_none(reader, &fields, "place");
    Some(Samples { count: count?, place: place? })
}

fn release(reader: &mut Reader, at: &Node<'_>) -> Option<Release> {
    let fields = reader.object(at, &fields::RELEASE)?;
    let decision = reader.needed(&fields, "decision", |reader, at| reader.word(at, &DECISION));
    let by = name(reader, &fields, "by");
    let on = reader.needed(&fields, "on", Reader::date);
    Some(Release { decision: decision?, by: by?, on: on? })
}

/// The JSON Schema of a `record/1` document, as text.
#[cfg(feature = "schema")]
#[must_use]
pub fn schema() -> String {
    crate::recipe::schema::of(&fields::RECORD, "The record of a batch")
}
