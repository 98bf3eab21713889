//! The JSON Schema of a document (draft 2020-12), printed from the tables that the reader takes it by.
//!
//! A schema cannot say all that the reader checks: ranges of numbers that stand in texts, sums, names that must exist.
//! What it says holds: a document that the reader takes satisfies it.

use std::collections::BTreeMap;

use super::fields::{Field, Kind, Table, Units, Wanted};
use super::json::{self, Json, Value, object, text};
use super::read_quantity::QUANTITY_TEXT;
use super::tables;
use crate::limits;
use crate::quantity::{Decimal, Unit};

/// The schema as text; the same as `core/schema/recipe-1.json`.
#[must_use]
pub fn recipe() -> String {
    of(&tables::RECIPE, "A recipe for layered bar soap")
}

/// The schema of the documents that a table describes.
pub(crate) fn of(table: &'static Table, title: &str) -> String {
    let mut schema = Schema::default();
    let top = schema.object(table, None);
    let defs: Vec<_> = schema.defs.into_iter().map(|(id, def)| (id.to_owned(), def)).collect();
    let mut entries = vec![
        entry("$schema", text("https://json-schema.org/draft/2020-12/schema")),
        entry("title", text(title)),
    ];
    entries.push(entry("$ref", top));
    entries.push(entry("$defs", object(defs)));
    json::print(&object(entries))
}

fn entry(name: &str, value: Json) -> (String, Json) {
    (name.to_owned(), value)
}

fn texts<'t>(items: impl IntoIterator<Item = &'t str>) -> Json {
    json::list(items.into_iter().map(text).collect())
}

fn whole(number: usize) -> Json {
    Value::Whole(i128::try_from(number).unwrap_or(i128::MAX)).json()
}

#[derive(Debug, Default)]
struct Schema {
    defs: BTreeMap<&'static str, Json>,
}

/// The entries of a schema object.
type Entries = Vec<(String, Json)>;

impl Schema {
    fn reference(&mut self, table: &'static Table, tag: Option<(&'static str, &'static str)>) -> Entries {
        vec![entry("$ref", self.object(table, tag))]
    }

    /// Defines a table and returns where; `tag` is the field whose word chose it.
    fn object(&mut self, table: &'static Table, tag: Option<(&'static str, &'static str)>) -> Json {
        if !self.defs.contains_key(table.id) {
            self.defs.insert(table.id, Value::Null.json());
            let mut properties = Vec::new();
            for field in table.fields {
                let kind = match tag {
                    Some((name, word)) if name == field.name => vec![entry("const", text(word))],
                    _ => self.kind(&field.kind),
                };
                properties.push((field.name.to_owned(), described(field, kind)));
            }
            let required = table.fields.iter().filter(|field| field.must).map(|field| field.name);
            let mut entries = vec![
                entry("description", text(table.what)),
                entry("type", text("object")),
                entry("properties", object(properties)),
                entry("required", texts(required)),
                entry("additionalProperties", Value::Bool(false).json()),
            ];
            if !table.choice.is_empty() {
                entries.push(entry("oneOf", choice(table)));
            }
            if table.id == tables::ALKALI.id {
                entries.push(entry("minProperties", whole(1)));
            }
            self.defs.insert(table.id, object(entries));
        }
        text(format!("#/$defs/{}", table.id))
    }

    fn kind(&mut self, kind: &'static Kind) -> Entries {
        match kind {
            Kind::Tag(format) => vec![entry("const", text(*format))],
            Kind::Name => written(1),
            Kind::Note => written(0),
            Kind::Word(words) => vec![entry("enum", texts(words.iter().copied()))],
            Kind::Swatch => {
                vec![entry("type", text("string")), entry("pattern", text("^#[0-9a-fA-F]{6}$"))]
            }
            Kind::Count(limit) => vec![
                entry("type", text("integer")),
                entry("minimum", Value::Number(limit.min.to_string()).json()),
                entry("maximum", Value::Number(limit.max.to_string()).json()),
            ],
            Kind::Quantity(wanted) => quantity(wanted),
            Kind::List(item, least) => {
                let items = object(self.kind(item));
                vec![
                    entry("type", text("array")),
                    entry("minItems", whole(*least)),
                    entry("maxItems", whole(limits::ITEMS)),
                    entry("items", items),
                ]
            }
            Kind::Object(table) => self.reference(table, None),
            Kind::Tagged(key, tables) => {
                let each = |(word, table): &(&'static str, &'static Table)| {
                    object(self.reference(table, Some((key, word))))
                };
                vec![entry("oneOf", json::list(tables.iter().map(each).collect()))]
            }
            Kind::Either(kinds) => {
                let each = kinds.iter().map(|kind| object(self.kind(kind))).collect();
                vec![entry("anyOf", json::list(each))]
            }
            Kind::Date => day("^\\s*[0-9]{4}-[0-9]{2}-[0-9]{2}\\s*$", "2025-03-04"),
            Kind::Moment => {
                let pattern = "^\\s*[0-9]{4}-[0-9]{2}-[0-9]{2}([ T][0-9]{2}:[0-9]{2})?\\s*$";
                day(pattern, "2025-03-04 10:20")
            }
            Kind::Profile => {
                let acid = entry("pattern", text("^C[1-9][0-9]?:[0-6](-OH)?(-gamma)?$"));
                vec![
                    entry("type", text("object")),
                    entry("propertyNames", object(vec![acid])),
                    entry("additionalProperties", object(quantity(&[tables::SHARE]))),
                    entry("minProperties", whole(1)),
                ]
            }
        }
    }
}

/// A field's schema with what the field means and the range of its number.
fn described(field: &Field, kind: Entries) -> Json {
    let mut doc = field.doc.to_owned();
    if let Kind::Quantity(wanted) = field.kind {
        let ranges: Vec<_> = wanted.iter().map(|wanted| wanted.limit.phrase()).collect();
        doc.push_str(&format!(" From {}.", ranges.join(", or ")));
    }
    let mut entries = vec![entry("description", text(doc))];
    entries.extend(kind);
    object(entries)
}

/// A text of at least so many characters, none of them a control character.
fn written(least: usize) -> Entries {
    vec![
        entry("type", text("string")),
        entry("minLength", whole(least)),
        entry("maxLength", whole(limits::TEXT)),
        entry("pattern", text("^[^\\u0000-\\u001f\\u007f-\\u009f]*$")),
    ]
}

/// A day, and perhaps a time.
fn day(pattern: &str, example: &str) -> Entries {
    vec![entry("type", text("string")), entry("pattern", text(pattern)), entry("examples", texts([example]))]
}

/// Exactly one of the groups, whole, and nothing of the others.
fn choice(table: &Table) -> Json {
    let each = |group: &&[&'static str]| {
        let others = table.choice.iter().flat_map(|other| other.iter()).filter(|name| !group.contains(name));
        let barred = others.map(|name| entry(name, Value::Bool(false).json())).collect();
        object(vec![entry("required", texts(group.iter().copied())), entry("properties", object(barred))])
    };
    json::list(table.choice.iter().map(each).collect())
}

fn quantity(wanted: &[Wanted]) -> Entries {
    let patterns: Vec<_> = wanted.iter().map(pattern).collect();
    vec![
        entry("type", text("string")),
        entry("pattern", text(format!("^\\s*(?:{})\\s*$", patterns.join("|")))),
        entry("maxLength", whole(QUANTITY_TEXT)),
        entry("examples", texts(wanted.iter().map(|wanted| wanted.example))),
    ]
}

/// The numbers and units of one kind of quantity, without what may stand around them.
fn pattern(wanted: &Wanted) -> String {
    let sign = if wanted.limit.min < Decimal::ZERO { "-?" } else { "" };
    let number = format!("{sign}[0-9]+(?:\\.[0-9]+)?");
    match wanted.units {
        Units::Bare => number,
        Units::Parts => format!("{number}\\s*(?:parts|part|%)"),
        Units::Of(units) => {
            let spellings =
                |unit: &'static Unit| std::iter::once(unit.symbol).chain(unit.also.iter().copied());
            let all: Vec<_> = units.iter().flat_map(spellings).collect();
            let named: Vec<_> =
                all.iter().filter(|name| !name.is_empty()).map(|name| escaped(name)).collect();
            let optional = if all.contains(&"") { "?" } else { "" };
            let term = format!("{number}\\s*(?:{}){optional}", named.join("|"));
            if all.iter().any(|name| matches!(*name, "lb" | "ft")) {
                format!("{term}(?:\\s+{term}){{0,2}}")
            } else {
                term
            }
        }
    }
}

fn escaped(name: &str) -> String {
    let mut out = String::new();
    for character in name.chars() {
        if matches!(
            character,
            '.' | '(' | ')' | '+' | '*' | '?' | '^' | '$' | '|' | '[' | ']' | '{' | '}' | '\\'
        ) {
            out.push('\\');
        }
        out.push(character);
    }
    out
}
