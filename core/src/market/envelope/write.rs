//! Writing: an assessment as the canonical text of its document.

use crate::quantity::Share;
use crate::recipe::json::{self, Json, text};
use crate::recipe::write::Entries;

use super::tables::{BASIS, FORMAT, PROCESS, STYLE};
use super::{Assessment, Basis, Conditions, Covered, Range};
use crate::market::Style;

/// The assessment as a document: reading the text gives the same assessment back, and writing that the same text.
#[must_use]
pub fn write(assessment: &Assessment) -> String {
    let mut top = Entries::default();
    top.put("lamella", text(FORMAT));
    top.put("name", text(&assessment.name));
    top.put("reference", text(&assessment.reference));
    top.put("assessor", text(&assessment.assessor));
    top.quantity("date", assessment.date);
    top.unless(assessment.note.is_empty(), "note", || text(&assessment.note));
    top.unless(assessment.basis == Basis::default(), "shares", || text(BASIS.name(assessment.basis)));
    top.unless(assessment.style == Style::default(), "names", || text(STYLE.name(assessment.style)));
    top.put("ingredients", json::list(assessment.ingredients.iter().map(covered).collect()));
    top.unless(assessment.conditions == Conditions::default(), "conditions", || {
        conditions(&assessment.conditions)
    });
    json::print(&top.object())
}

fn covered(covered: &Covered) -> Json {
    let mut entries = Entries::default();
    match &covered.group {
        Some(group) => {
            entries.put("any", json::list(covered.names.iter().map(text).collect()));
            entries.put("group", text(group));
        }
        None => entries.put("inci", text(covered.name())),
    }
    entries.unless(covered.range.min == Share::ZERO, "min", || text(covered.range.min.to_string()));
    entries.quantity("max", covered.range.max);
    entries.object()
}

fn range(range: Range) -> Json {
    let mut entries = Entries::default();
    entries.quantity("min", range.min);
    entries.quantity("max", range.max);
    entries.object()
}

fn conditions(conditions: &Conditions) -> Json {
    let mut entries = Entries::default();
    if let Some(process) = conditions.process {
        entries.put("process", text(PROCESS.name(process)));
    }
    if let Some(superfat) = conditions.superfat {
        entries.put("superfat", range(superfat));
    }
    if let Some(most) = conditions.free_alkali {
        entries.quantity("free_alkali", most);
    }
    if let Some(water) = conditions.water {
        entries.put("water", range(water));
    }
    if let Some(most) = conditions.scents {
        entries.quantity("scents", most);
    }
    entries.list("other", conditions.other.iter().map(text));
    entries.object()
}
