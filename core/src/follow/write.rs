//! A batch as the canonical text of its document.

use super::Batch;
use super::event::{Entry, Event};
use super::tables::{ALKALI, FORMAT, MIXED};
use crate::recipe::json::{self, Json, text};
use crate::recipe::write::{Entries, document};

pub(crate) fn write(batch: &Batch) -> String {
    let mut top = Entries::default();
    top.put("lamella", text(FORMAT));
    top.put("recipe", document(batch.recipe()));
    top.list("events", batch.log().iter().map(entry));
    json::print(&top.object())
}

fn entry(entry: &Entry) -> Json {
    let mut entries = Entries::default();
    let vessel = |entries: &mut Entries, vessel: &Option<String>| {
        if let Some(vessel) = vessel {
            entries.put("in", text(vessel));
        }
    };
    match &entry.event {
        Event::Weighed { item, vessel: jug, mass } => {
            entries.put("weighed", text(item));
            vessel(&mut entries, jug);
            entries.quantity("mass", mass);
        }
        Event::Added { item, vessel: jug, mass } => {
            entries.put("added", text(item));
            vessel(&mut entries, jug);
            entries.quantity("mass", mass);
        }
        Event::Poured { layer, mass } => {
            entries.put("poured", text(layer));
            entries.quantity("mass", mass);
        }
        Event::Reads { jug, mass } => {
            entries.put("reads", text(jug));
            entries.quantity("mass", mass);
        }
        Event::Skipped { item, vessel: jug } => {
            entries.put("skipped", text(item));
            vessel(&mut entries, jug);
        }
        Event::Left { vessel, mass } => {
            entries.put("left", text(vessel));
            entries.quantity("mass", mass);
        }
        Event::Found { alkali, purity, is } => {
            entries.put("found", text(ALKALI.name(*alkali)));
            if let Some(purity) = purity {
                entries.quantity("purity", purity);
            }
            if let Some(is) = is {
                entries.put("is", text(ALKALI.name(*is)));
            }
        }
        Event::Measured { of, temperature } => {
            entries.quantity("temperature", temperature);
            entries.put("of", text(MIXED.name(*of)));
        }
        Event::Tested { layer, free_alkali } => {
            entries.put("tested", text(layer));
            entries.quantity("free_alkali", free_alkali);
        }
        Event::Note { text: note } => entries.put("note", text(note)),
    }
    if let Some(at) = &entry.at {
        entries.put("at", text(at));
    }
    entries.object()
}
