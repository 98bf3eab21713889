//! A record as the canonical text of its document.

use std::fmt::Display;

use super::fields::{DECISION, FORMAT, OUTCOME};
use super::{Actual, Check, Deviation, Equipment, Lot, Record};
use crate::batch::Hold;
use crate::recipe::json::{self, Json, Value, list, text};
use crate::recipe::write::Entries;

/// The record as a document: fields in the order of the format, what is not known left out.
#[must_use]
pub fn write(record: &Record) -> String {
    let mut top = Entries::default();
    top.put("lamella", text(FORMAT));
    top.put("batch", text(&*record.batch));
    top.put("product", text(&*record.product));
    name(&mut top, "formula", &record.formula);
    name(&mut top, "note", &record.note);
    known(&mut top, "started", record.started);
    known(&mut top, "finished", record.finished);
    top.list("operators", record.operators.iter().map(|operator| text(&**operator)));
    top.list("equipment", record.equipment.iter().map(equipment));
    top.list(
        "scale_checks",
        record.scale_checks.iter().map(|check| {
            let mut entries = Entries::default();
            entries.put("scale", text(&*check.scale));
            entries.quantity("weight", check.weight);
            entries.quantity("shown", check.shown);
            known(&mut entries, "at", check.at);
            entries.object()
        }),
    );
    top.put("lots", list(record.lots.iter().map(lot).collect()));
    top.put("weighings", list(record.weighings.iter().map(actual).collect()));
    top.list(
        "temperatures",
        record.temperatures.iter().map(|reading| {
            let mut entries = Entries::default();
            entries.put("what", text(&*reading.what));
            entries.quantity("value", reading.value);
            known(&mut entries, "at", reading.at);
            entries.object()
        }),
    );
    top.list(
        "layers",
        record.layers.iter().map(|layer| {
            let mut entries = Entries::default();
            entries.put("layer", text(&*layer.layer));
            known(&mut entries, "at", layer.at);
            known(&mut entries, "mass", layer.mass);
            entries.object()
        }),
    );
    top.list(
        "events",
        record.events.iter().map(|event| {
            let mut entries = Entries::default();
            entries.put("what", text(&*event.what));
            known(&mut entries, "at", event.at);
            entries.object()
        }),
    );
    top.list("deviations", record.deviations.iter().map(deviation));
    top.list("checks", record.checks.iter().map(check));
    top.list("holds", record.holds.iter().map(hold));
    outcome(record, &mut top);
    json::print(&top.object())
}

fn outcome(record: &Record, top: &mut Entries) {
    if let Some(output) = record.output {
        let mut entries = Entries::default();
        entries.put("bars", count(output.bars));
        entries.unless(output.rejected == 0, "rejected", || count(output.rejected));
        known(&mut entries, "mass", output.mass);
        top.put("output", entries.object());
    }
    known(top, "cure_from", record.cure_from);
    name(top, "code", &record.code);
    name(top, "label", &record.label);
    if let Some(samples) = &record.samples {
        let mut entries = Entries::default();
        entries.put("count", count(samples.count));
        name(&mut entries, "place", &samples.place);
        top.put("samples", entries.object());
    }
    if let Some(release) = &record.release {
        let mut entries = Entries::default();
        entries.put("decision", text(DECISION.name(release.decision)));
        entries.put("by", text(&*release.by));
        entries.quantity("on", release.on);
        top.put("release", entries.object());
    }
}

/// A name that is left out when it is empty.
pub(super) fn name(entries: &mut Entries, field: &str, value: &str) {
    entries.unless(value.is_empty(), field, || text(value));
}

/// A figure that is left out when it is not known.
pub(super) fn known(entries: &mut Entries, field: &str, value: Option<impl Display>) {
    if let Some(value) = value {
        entries.put(field, text(value.to_string()));
    }
}

pub(super) fn count(number: u32) -> Json {
    Value::Whole(number.into()).json()
}

fn equipment(equipment: &Equipment) -> Json {
    let mut entries = Entries::default();
    entries.put("equipment", text(&*equipment.name));
    known(&mut entries, "cleaned", equipment.cleaned);
    name(&mut entries, "by", &equipment.by);
    entries.object()
}

fn lot(lot: &Lot) -> Json {
    let mut entries = Entries::default();
    entries.put("lot", text(&*lot.lot));
    entries.put("material", text(&*lot.material));
    name(&mut entries, "supplier", &lot.supplier);
    name(&mut entries, "supplier_lot", &lot.supplier_lot);
    known(&mut entries, "received", lot.received);
    known(&mut entries, "opened", lot.opened);
    known(&mut entries, "expires", lot.expires);
    name(&mut entries, "batch", &lot.batch);
    entries.object()
}

fn actual(actual: &Actual) -> Json {
    let mut entries = Entries::default();
    entries.put("lot", text(&*actual.lot));
    entries.quantity("mass", actual.mass);
    known(&mut entries, "at", actual.at);
    name(&mut entries, "by", &actual.by);
    name(&mut entries, "scale", &actual.scale);
    name(&mut entries, "into", &actual.into);
    entries.object()
}

fn deviation(deviation: &Deviation) -> Json {
    let mut entries = Entries::default();
    entries.put("what", text(&*deviation.what));
    name(&mut entries, "action", &deviation.action);
    name(&mut entries, "by", &deviation.by);
    entries.object()
}

fn check(check: &Check) -> Json {
    let mut entries = Entries::default();
    entries.put("check", text(&*check.check));
    entries.put("result", text(&*check.result));
    entries.put("outcome", text(OUTCOME.name(check.outcome)));
    name(&mut entries, "layer", &check.layer);
    known(&mut entries, "free_alkali", check.free_alkali);
    known(&mut entries, "at", check.at);
    name(&mut entries, "by", &check.by);
    entries.object()
}

fn hold(hold: &Hold) -> Json {
    let mut entries = Entries::default();
    entries.put("layer", text(&*hold.layer));
    known(&mut entries, "superfat", hold.superfat);
    known(&mut entries, "worst", hold.worst);
    known(&mut entries, "free_alkali", hold.free_alkali);
    entries.object()
}
