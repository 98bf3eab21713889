//! The reader's hands: takes values out of a document and notes what is wrong with them.

use std::collections::{BTreeMap, BTreeSet};

use super::fields::{Kind, Table, Words};
use super::json::{Json, Value};
use super::nearest::nearest;
use crate::limits::{self, Limit};
use crate::problem::Problem;
use crate::quantity::Decimal;

/// Longest text that a message repeats, in characters.
const ECHO: usize = 48;
/// A value of the document and the pointer to it.
#[derive(Clone, Debug)]
pub(crate) struct Node<'d> {
    pub(crate) json: &'d Json,
    pub(crate) pointer: String,
}

/// The fields of an object, unknown ones and repeats already reported.
#[derive(Clone, Debug)]
pub(crate) struct Fields<'d> {
    pub(crate) node: Node<'d>,
    entries: BTreeMap<&'d str, &'d Json>,
    /// Fields that an unknown one is close to: they are not reported as missing on top.
    meant: BTreeSet<&'static str>,
}

/// Collects what is wrong.
#[derive(Debug, Default)]
pub(crate) struct Reader {
    problems: Vec<(usize, Problem)>,
}

impl<'d> Node<'d> {
    pub(crate) fn child(&self, key: &str, json: &'d Json) -> Self {
        Self { json, pointer: format!("{}/{}", self.pointer, key.replace('~', "~0").replace('/', "~1")) }
    }

    /// Whether it is an object with this key.
    pub(crate) fn has(&self, name: &str) -> bool {
        matches!(&self.json.value, Value::Object(entries) if entries.iter().any(|(key, _)| key == name))
    }

    /// What a message calls it: its field, or the field it is an item of.
    pub(crate) fn label(&self) -> String {
        let mut steps = self.pointer.rsplit('/');
        let last = steps.next().unwrap_or("");
        match (last.parse::<usize>(), steps.next()) {
            _ if self.pointer.is_empty() => "the document".to_owned(),
            (Ok(index), Some(list)) => format!("item {} of {list:?}", index.saturating_add(1)),
            _ => format!("{:?}", last.replace("~1", "/").replace("~0", "~")),
        }
    }
}

impl<'d> Fields<'d> {
    pub(crate) fn get(&self, name: &str) -> Option<Node<'d>> {
        self.entries.get(name).map(|json| self.node.child(name, json))
    }

    pub(crate) fn has(&self, name: &str) -> bool {
        self.entries.contains_key(name)
    }

    /// Whether the field is there, or another that is a slip of it.
    pub(crate) fn tried(&self, name: &str) -> bool {
        self.has(name) || self.meant.contains(name)
    }
}

/// A text in quotes for a message, shortened when it is long.
pub(crate) fn echo(text: &str) -> String {
    match text.char_indices().nth(ECHO) {
        Some((end, _)) => format!("{:?}...", text.get(..end).unwrap_or("")),
        None => format!("{text:?}"),
    }
}

/// Words listed with commas and `or`.
pub(crate) fn listed(words: &[&str]) -> String {
    match words {
        [] => String::new(),
        [only] => format!("{only:?}"),
        [start @ .., last] => {
            let start: Vec<_> = start.iter().map(|word| format!("{word:?}")).collect();
            format!("{} or {last:?}", start.join(", "))
        }
    }
}

/// `write "x"` for a near miss, else `use one of` what there is.
pub(crate) fn meant(word: &str, known: &[&str]) -> String {
    nearest(word, known.iter().copied())
        .map_or_else(|| format!("use {}", listed(known)), |near| format!("write {near:?}"))
}

impl Reader {
    pub(crate) fn report(
        &mut self,
        at: &Node<'_>,
        code: &'static str,
        message: impl Into<String>,
        advice: impl Into<String>,
    ) {
        let problem =
            Problem { code, pointer: at.pointer.clone(), message: message.into(), advice: advice.into() };
        self.problems.push((at.json.order, problem));
    }

    /// Takes over what another reader found in a document that stands at a place of this one.
    pub(crate) fn adopt(&mut self, other: Self, pointer: &str) {
        self.problems.extend(other.problems.into_iter().map(|(order, problem)| {
            (order, Problem { pointer: format!("{pointer}{}", problem.pointer), ..problem })
        }));
    }

    /// How many problems there are so far.
    pub(crate) fn count(&self) -> usize {
        self.problems.len()
    }

    /// All problems in the order of the text.
    pub(crate) fn finish(mut self) -> Vec<Problem> {
        self.problems.sort_by_key(|(order, _)| *order);
        self.problems.into_iter().map(|(_, problem)| problem).collect()
    }

    pub(crate) fn wrong_type(&mut self, at: &Node<'_>, wanted: &str, advice: impl Into<String>) {
        let advice = if matches!(at.json.value, Value::Null) && !at.pointer.is_empty() {
            "leave the field out when there is nothing to say".to_owned()
        } else {
            advice.into()
        };
        let message = format!("{} must be {wanted}, found {}", at.label(), at.json.value.kind());
        self.report(at, "field.type", message, advice);
    }

    /// The fields of an object. Reports unknown, repeated and missing ones.
    pub(crate) fn object<'d>(&mut self, at: &Node<'d>, table: &Table) -> Option<Fields<'d>> {
        let fields = self.entries(at, table)?;
        for field in table.fields.iter().filter(|field| field.must && !fields.tried(field.name)) {
            let advice = format!("add {:?}: {}", field.name, first_small(field.doc));
            let message = format!("{} has no {:?}", table.what, field.name);
            if let Kind::Tag(format) = field.kind {
                let message = "the document does not say which format it is in";
                let advice = format!("write \"lamella\": {format:?} at its beginning");
                self.report(at, "document.format", message, advice);
            } else {
                self.report(at, "field.missing", message, advice);
            }
        }
        self.choice(&fields, table);
        Some(fields)
    }

    fn entries<'d>(&mut self, at: &Node<'d>, table: &Table) -> Option<Fields<'d>> {
        let names: Vec<&'static str> = table.fields.iter().map(|field| field.name).collect();
        let Value::Object(list) = &at.json.value else {
            let advice = format!("write {{ }} with fields of {}: {}", table.what, listed(&names));
            self.wrong_type(at, "an object", advice);
            return None;
        };
        let mut entries = BTreeMap::new();
        let mut meant = BTreeSet::new();
        for (key, json) in list {
            let child = at.child(key, json);
            if entries.contains_key(key.as_str()) {
                let message = format!("{} stands twice in {}", echo(key), table.what);
                self.report(&child, "document.duplicate", message, "keep one of the two");
                continue;
            }
            entries.insert(key.as_str(), json);
            if !names.contains(&key.as_str()) {
                let near = nearest(key, names.iter().copied());
                let message = format!("{} has no field {}", table.what, echo(key));
                let advice = match near {
                    Some(near) => format!("write {near:?}"),
                    None => format!("use {}", listed(&names)),
                };
                self.report(&child, "field.unknown", message, advice);
                meant.extend(near);
            }
        }
        Some(Fields { node: at.clone(), entries, meant })
    }

    fn choice(&mut self, fields: &Fields<'_>, table: &Table) {
        if table.choice.iter().flat_map(|group| group.iter()).any(|name| fields.meant.contains(name)) {
            return;
        }
        let begun = |group: &&&[&str]| group.iter().any(|name| fields.has(name));
        let groups: Vec<_> = table.choice.iter().filter(begun).collect();
        let spell =
            |group: &[&str]| group.iter().map(|name| format!("{name:?}")).collect::<Vec<_>>().join(" with ");
        let all: Vec<_> = table.choice.iter().map(|group| spell(group)).collect();
        match groups.as_slice() {
            _ if all.is_empty() => {}
            [group] => {
                for name in group.iter().filter(|name| !fields.has(name)) {
                    let message = format!("{} has no {name:?}", table.what);
                    self.report(&fields.node, "field.missing", message, format!("write {}", spell(group)));
                }
            }
            [] => {
                let message = format!("{} has none of {}", table.what, all.join(", "));
                self.report(&fields.node, "field.choice", message, "add exactly one of them");
            }
            several => {
                let found: Vec<_> = several.iter().map(|group| spell(group)).collect();
                let message = format!("{} has {}, and only one can hold", table.what, found.join(" and "));
                self.report(
                    &fields.node,
                    "field.choice",
                    message,
                    format!("keep exactly one of {}", all.join(", ")),
                );
            }
        }
    }

    /// The items of a list.
    pub(crate) fn list<'d>(&mut self, at: &Node<'d>, least: usize) -> Option<Vec<Node<'d>>> {
        let Value::List(items) = &at.json.value else {
            self.wrong_type(at, "a list", "write [ ] around its items");
            return None;
        };
        if items.len() < least || items.len() > limits::ITEMS {
            let message = format!(
                "{} has {} items, and {least} to {} are allowed",
                at.label(),
                items.len(),
                limits::ITEMS
            );
            let advice = if items.len() < least { "add one" } else { "divide the recipe" };
            self.report(at, "list.length", message, advice);
        }
        Some(items.iter().enumerate().map(|(index, item)| at.child(&index.to_string(), item)).collect())
    }

    /// Any text.
    pub(crate) fn text<'d>(&mut self, at: &Node<'d>, advice: &str) -> Option<&'d str> {
        if let Value::Text(text) = &at.json.value {
            return Some(text);
        }
        self.wrong_type(at, "a text in quotes", advice);
        None
    }

    /// A name, or with `least` 0 a note.
    pub(crate) fn name<'d>(&mut self, at: &Node<'d>, least: usize) -> Option<&'d str> {
        let text = self.text(at, "write the name in quotes")?;
        let length = text.chars().count();
        let wrong = if length < least {
            "is empty".to_owned()
        } else if length > limits::TEXT {
            format!("has {length} characters")
        } else if let Some(character) = text.chars().find(|character| character.is_control()) {
            format!("has the control character U+{:04X}", u32::from(character))
        } else {
            return Some(text);
        };
        let message = format!("{} {wrong}", at.label());
        let advice = format!("write {least} to {} characters, without line breaks or tabs", limits::TEXT);
        self.report(at, "field.text", message, advice);
        None
    }

    /// One of some words.
    pub(crate) fn word<T: Copy + PartialEq>(&mut self, at: &Node<'_>, words: &Words<T>) -> Option<T> {
        let text = self.text(at, &format!("write {}", listed(words.names)))?;
        let value = words.value(text);
        if value.is_none() {
            let message = format!("{} cannot be {}", at.label(), echo(text));
            let advice = match nearest(text, words.names.iter().copied()) {
                Some(near) if words.names.len() > 1 => {
                    format!("write {near:?}; possible are {}", listed(words.names))
                }
                _ => format!("write {}", listed(words.names)),
            };
            self.report(at, "field.word", message, advice);
        }
        value
    }

    /// A count: a JSON integer.
    pub(crate) fn number(&mut self, at: &Node<'_>, limit: &Limit) -> Option<u32> {
        let dozen = Decimal::from(12_u32);
        let example = if limit.holds(dozen) { dozen } else { limit.max };
        let Value::Whole(number) = at.json.value else {
            self.wrong_type(at, "a whole number without quotes", format!("write for example {example}"));
            return None;
        };
        let value = u32::try_from(number).ok().filter(|value| limit.holds(Decimal::from(*value)));
        if value.is_none() {
            let message = format!("{} is {number}, outside {}", at.label(), limit.phrase());
            self.report(at, "quantity.range", message, format!("write for example {example}"));
        }
        value
    }

    /// A field that may be left out.
    pub(crate) fn maybe<'d, T>(
        &mut self,
        fields: &Fields<'d>,
        name: &str,
        default: T,
        read: impl FnOnce(&mut Self, &Node<'d>) -> Option<T>,
    ) -> Option<T> {
        fields.get(name).map_or(Some(default), |node| read(self, &node))
    }

    /// A field whose absence was reported already.
    pub(crate) fn needed<'d, T>(
        &mut self,
        fields: &Fields<'d>,
        name: &str,
        read: impl FnOnce(&mut Self, &Node<'d>) -> Option<T>,
    ) -> Option<T> {
        fields.get(name).and_then(|node| read(self, &node))
    }

    /// The items of a list that may be left out: all of them are read, also after one that cannot be.
    pub(crate) fn items<'d, T>(
        &mut self,
        fields: &Fields<'d>,
        name: &str,
        least: usize,
        mut read: impl FnMut(&mut Self, &Node<'d>) -> Option<T>,
    ) -> Option<Vec<T>> {
        self.maybe(fields, name, Vec::new(), |reader, node| {
            let items = reader.list(node, least)?;
            let read: Vec<Option<T>> = items.iter().map(|item| read(reader, item)).collect();
            read.into_iter().collect()
        })
    }

    /// Reports a name that an earlier thing of its kind has.
    pub(crate) fn unique(&mut self, at: &Node<'_>, seen: &mut BTreeSet<String>, name: &str, what: &str) {
        if !seen.insert(name.to_owned()) {
            let message = format!("there are two {what} with the name {}", echo(name));
            self.report(
                at,
                "name.duplicate",
                message,
                "give one of them another name, or make one of the two",
            );
        }
    }
}

/// A sentence as a clause: first letter small, no full stop.
fn first_small(sentence: &str) -> String {
    let mut letters = sentence.trim_end_matches('.').chars();
    let first = letters.next().map(char::to_lowercase);
    first.into_iter().flatten().chain(letters).collect()
}
