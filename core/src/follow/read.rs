//! Reading a `batch/1` document: its recipe, and its events one after another.

use super::Batch;
use super::change::Change;
use super::event::{Entry, Event};
use super::tables::{self, ALKALI, FORMAT, FREE_ALKALI, MASS, MIXED, PURITY, TEMPERATURE};
use crate::batch::Plan;
use crate::problem::Problem;
use crate::recipe::Recipe;
use crate::recipe::read::{document, object, utf8};
use crate::recipe::read_value::{Fields, Node, Reader};
use crate::recipe::tables::FORMAT as RECIPE;

/// Reads a `batch/1` document, and records its events again.
///
/// # Errors
/// Everything that is wrong with the document, in the order of its text; never an empty list. Of events that cannot have
/// happened each is reported, and the next ones are recorded as if it were not there.
pub fn read(text: &str) -> Result<Batch, Vec<Problem>> {
    let (recipe, entries) = document(text, FORMAT, Reader::batch)?;
    let below = |problem: Problem| Problem { pointer: format!("/recipe{}", problem.pointer), ..problem };
    let mut batch =
        Batch::new(recipe).map_err(|problems| problems.into_iter().map(below).collect::<Vec<_>>())?;
    let mut problems = Vec::new();
    for (index, entry) in entries.into_iter().enumerate() {
        if let Err(problem) = batch.record(entry) {
            // Behind an event that was refused the log is shorter than the list.
            let counted = format!("/events/{}", batch.log().len());
            let rest = problem.pointer.strip_prefix(&counted).unwrap_or("");
            problems.push(Problem { pointer: format!("/events/{index}{rest}"), ..problem });
        }
    }
    if problems.is_empty() { Ok(batch) } else { Err(problems) }
}

/// The plan of a document with the recipe that it is of: of a `recipe/1` document its plan; of a `batch/1` document the
/// recipe and the plan as they turned out, with the layers that are on hold.
///
/// ```
/// let (recipe, plan) = lamella::follow::planned(lamella::EXAMPLE).unwrap();
/// let log = lamella::follow::Batch::new(recipe).unwrap().to_json();
/// assert_eq!(lamella::follow::planned(&log).unwrap().1, plan);
/// ```
///
/// # Errors
/// Everything that is wrong with the document, and what keeps it from being planned.
pub fn planned(text: &str) -> Result<(Recipe, Plan), Vec<Problem>> {
    let of_other_format = |problems: &[Problem]| {
        problems.iter().any(|problem| problem.code == "document.format" && problem.pointer == "/lamella")
    };
    match crate::recipe::read(text) {
        Ok(recipe) => {
            let plan = Plan::of(&recipe)?;
            Ok((recipe, plan))
        }
        Err(problems) if of_other_format(&problems) => match read(text) {
            Ok(batch) => Ok((batch.ledger.truth, batch.plan)),
            // Neither the one nor the other: a recipe is what was most likely meant.
            Err(others) => Err(if of_other_format(&others) { problems } else { others }),
        },
        Err(problems) => Err(problems),
    }
}

/// Reads a `batch/1` document of bytes that should be UTF-8.
///
/// # Errors
/// As [`read`]; also when the bytes are not UTF-8.
pub fn read_bytes(bytes: &[u8]) -> Result<Batch, Vec<Problem>> {
    read(utf8(bytes)?)
}

/// Reads one event, as it stands in the list of a `batch/1` document.
///
/// ```
/// let entry = lamella::follow::read_event(br#"{ "weighed": "naoh", "mass": "141.2 g" }"#).unwrap();
/// assert_eq!(entry.event.to_string(), "weighed 141.2 g of naoh");
/// ```
///
/// # Errors
/// As [`read`]; pointers are into the event.
pub fn read_event(bytes: &[u8]) -> Result<Entry, Vec<Problem>> {
    object(utf8(bytes)?, Reader::entry)
}

impl Batch {
    /// Records one event that is given as text: [`read_event`] and [`record`](Self::record) in one.
    ///
    /// # Errors
    /// Those of the two; pointers are into the event.
    pub fn record_text(&mut self, bytes: &[u8]) -> Result<Vec<Change>, Vec<Problem>> {
        let entry = read_event(bytes)?;
        let counted = format!("/events/{}", self.log().len());
        self.record(entry).map_err(|problem| {
            let pointer = problem.pointer.strip_prefix(&counted).unwrap_or(&problem.pointer).to_owned();
            vec![Problem { pointer, ..problem }]
        })
    }
}

impl Reader {
    fn batch(&mut self, at: &Node<'_>) -> Option<(Recipe, Vec<Entry>)> {
        let top = self.top(at, &tables::BATCH)?;
        // The recipe keeps its own pointers, and its problems get theirs in this document.
        let recipe = self.needed(&top, "recipe", |reader, at| {
            let mut inner = Self::default();
            let own = Node { json: at.json, pointer: String::new() };
            let recipe = inner.of_format(&own, RECIPE, Self::recipe);
            reader.adopt(inner, &at.pointer);
            recipe
        });
        let entries = self.items(&top, "events", 0, Self::entry);
        Some((recipe?, entries?))
    }

    fn entry(&mut self, at: &Node<'_>) -> Option<Entry> {
        let before = self.count();
        let fields = self.object(at, &tables::EVENT)?;
        let when =
            self.maybe(&fields, "at", None, |reader, at| reader.name(at, 1).map(str::to_owned).map(Some));
        let event = self.event(at, &fields);
        (self.count() == before).then_some(())?;
        Some(Entry { at: when?, event: event? })
    }

    fn event(&mut self, at: &Node<'_>, fields: &Fields<'_>) -> Option<Event> {
        let kinds = tables::EVENT.choice.iter().filter_map(|group| group.first()).copied();
        let kind = kinds.into_iter().find(|kind| fields.has(kind))?;
        let (must, may): (&[&str], &[&str]) = match kind {
            "weighed" | "added" => (&["mass"], &["in"]),
            "poured" | "reads" | "left" => (&["mass"], &[]),
            "skipped" => (&[], &["in"]),
            "found" => (&[], &["purity", "is"]),
            "temperature" => (&["of"], &[]),
            "tested" => (&["free_alkali"], &[]),
            _ => (&[], &[]),
        };
        for name in ["mass", "in", "purity", "is", "of", "free_alkali"] {
            if must.contains(&name) && !fields.has(name) {
                let message = format!("an event with {kind:?} has no {name:?}");
                self.report(at, "field.missing", message, format!("add {name:?}"));
            } else if let (false, Some(field)) =
                (must.contains(&name) || may.contains(&name), fields.get(name))
            {
                let message = format!("an event with {kind:?} has no {name:?}");
                self.report(&field, "field.unknown", message, format!("leave {name:?} out"));
            }
        }
        let name = |reader: &mut Self, field: &str| {
            reader.needed(fields, field, |reader, at| reader.name(at, 1).map(str::to_owned))
        };
        let what = if matches!(kind, "found" | "temperature" | "note") {
            Some(String::new())
        } else {
            name(self, kind)
        };
        let vessel =
            self.maybe(fields, "in", None, |reader, at| reader.name(at, 1).map(str::to_owned).map(Some));
        let mass = self.needed(fields, "mass", |reader, at| reader.quantity(at, &MASS));
        let (item, vessel) = (what?, vessel?);
        Some(match kind {
            "weighed" => Event::Weighed { item, vessel, mass: mass? },
            "added" => Event::Added { item, vessel, mass: mass? },
            "poured" => Event::Poured { layer: item, mass: mass? },
            "reads" => Event::Reads { jug: item, mass: mass? },
            "left" => Event::Left { vessel: item, mass: mass? },
            "skipped" => Event::Skipped { item, vessel },
            "tested" => Event::Tested {
                layer: item,
                free_alkali: self
                    .needed(fields, "free_alkali", |reader, at| reader.quantity(at, &FREE_ALKALI))?,
            },
            "found" => self.found(at, fields)?,
            "temperature" => Event::Measured {
                temperature: self.needed(fields, kind, |reader, at| reader.quantity(at, &TEMPERATURE))?,
                of: self.needed(fields, "of", |reader, at| reader.word(at, &MIXED))?,
            },
            _ => Event::Note {
                text: self.needed(fields, kind, |reader, at| reader.name(at, 0).map(str::to_owned))?,
            },
        })
    }

    fn found(&mut self, at: &Node<'_>, fields: &Fields<'_>) -> Option<Event> {
        let alkali = self.needed(fields, "found", |reader, at| reader.word(at, &ALKALI));
        let purity = self.maybe(fields, "purity", None, |reader, at| reader.quantity(at, &PURITY).map(Some));
        let is = self.maybe(fields, "is", None, |reader, at| reader.word(at, &ALKALI).map(Some));
        if !fields.has("purity") && !fields.has("is") {
            let message = "an event with \"found\" has none of \"purity\", \"is\"";
            self.report(at, "field.missing", message, "say what it turned out to be");
        }
        Some(Event::Found { alkali: alkali?, purity: purity?, is: is? })
    }
}

/// The JSON Schema of a `batch/1` document; the same as `core/schema/batch-1.json`.
#[cfg(feature = "schema")]
#[must_use]
pub fn schema() -> String {
    crate::recipe::schema::of(&tables::BATCH, "The log of a batch under way")
}
