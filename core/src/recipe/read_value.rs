//! The reader's hands: takes values out of a document and notes what is wrong with them.

use std::collections::{BTreeMap, BTreeSet};
use std::str::FromStr;

use super::fields::{Table, Units, Wanted, Words};
use super::json::{Json, Value};
use super::nearest::nearest;
use crate::limits::{self, Limit};
use crate::problem::Problem;
use crate::quantity::{
    Decimal, Density, IodineValue, Length, Mass, QuantityError, SaponificationValue, Share, Temperature, Volume, bare,
};

/// Longest text that a message repeats, in characters.
const ECHO: usize = 48;
/// Longest text that is read as a quantity, in characters: longer ones are no number that a quantity keeps.
const QUANTITY_TEXT: usize = 80;

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
}

/// Collects what is wrong.
#[derive(Debug, Default)]
pub(crate) struct Reader {
    problems: Vec<(usize, Problem)>,
}

/// A quantity type with the name of its units.
pub(crate) trait Quantity: FromStr<Err = QuantityError> + Copy {
    fn number(self, unit: &str) -> Option<Decimal>;
}

macro_rules! quantities {
    ($($name:ident),*) => {$(
        impl Quantity for $name {
            fn number(self, unit: &str) -> Option<Decimal> {
                self.in_unit(unit)
            }
        }
    )*};
}

quantities!(Mass, Volume, Length, Temperature, Share, SaponificationValue, IodineValue, Density);

impl<'d> Node<'d> {
    fn child(&self, key: &str, json: &'d Json) -> Self {
        Self { json, pointer: format!("{}/{}", self.pointer, key.replace('~', "~0").replace('/', "~1")) }
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

    /// How many problems there are so far.
    pub(crate) fn count(&self) -> usize {
        self.problems.len()
    }

    /// All problems in the order of the text.
    pub(crate) fn finish(mut self) -> Vec<Problem> {
        self.problems.sort_by_key(|(order, _)| *order);
        self.problems.into_iter().map(|(_, problem)| problem).collect()
    }

    fn wrong_type(&mut self, at: &Node<'_>, wanted: &str, advice: impl Into<String>) {
        let advice = if matches!(at.json.value, Value::Null) {
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
        for field in table.fields.iter().filter(|field| field.must && !fields.has(field.name)) {
            let advice = format!("add {:?}: {}", field.name, first_small(field.doc));
            let message = format!("{} has no {:?}", table.what, field.name);
            if field.name == "lamella" {
                let message = "the document does not say which format it is in";
                self.report(at, "document.format", message, "write \"lamella\": \"recipe/1\" at its beginning");
            } else {
                self.report(at, "field.missing", message, advice);
            }
        }
        self.choice(&fields, table);
        Some(fields)
    }

    fn entries<'d>(&mut self, at: &Node<'d>, table: &Table) -> Option<Fields<'d>> {
        let Value::Object(list) = &at.json.value else {
            let names: Vec<_> = table.fields.iter().map(|field| field.name).collect();
            self.wrong_type(at, "an object", format!("write {{ }} with fields of {}: {}", table.what, listed(&names)));
            return None;
        };
        let mut entries = BTreeMap::new();
        for (key, json) in list {
            let child = at.child(key, json);
            if entries.contains_key(key.as_str()) {
                let message = format!("{} stands twice in {}", echo(key), table.what);
                self.report(&child, "document.duplicate", message, "keep one of the two");
                continue;
            }
            entries.insert(key.as_str(), json);
            if table.fields.iter().all(|field| field.name != key) {
                let names: Vec<_> = table.fields.iter().map(|field| field.name).collect();
                let message = format!("{} has no field {}", table.what, echo(key));
                self.report(&child, "field.unknown", message, meant(key, &names));
            }
        }
        Some(Fields { node: at.clone(), entries })
    }

    fn choice(&mut self, fields: &Fields<'_>, table: &Table) {
        let begun = |group: &&&[&str]| group.iter().any(|name| fields.has(name));
        let groups: Vec<_> = table.choice.iter().filter(begun).collect();
        let spell = |group: &[&str]| group.iter().map(|name| format!("{name:?}")).collect::<Vec<_>>().join(" with ");
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
                self.report(&fields.node, "field.choice", message, format!("keep exactly one of {}", all.join(", ")));
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
            let message =
                format!("{} has {} items, and {least} to {} are allowed", at.label(), items.len(), limits::ITEMS);
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
                Some(near) if words.names.len() > 1 => format!("write {near:?}; known are {}", listed(words.names)),
                _ => format!("write {}", listed(words.names)),
            };
            self.report(at, "field.word", message, advice);
        }
        value
    }

    /// A count: a JSON integer.
    pub(crate) fn number(&mut self, at: &Node<'_>, limit: &Limit) -> Option<u32> {
        let Value::Whole(number) = at.json.value else {
            self.wrong_type(at, "a whole number without quotes", "write for example 12");
            return None;
        };
        let value = u32::try_from(number).ok().filter(|value| limit.holds(Decimal::from(*value)));
        if value.is_none() {
            let message = format!("{} is {number}, outside {}", at.label(), limit.phrase());
            self.report(at, "quantity.range", message, "write for example 12");
        }
        value
    }

    /// The text of a quantity, short enough to be one.
    pub(crate) fn quantity_text<'d>(&mut self, at: &Node<'d>, wanted: &Wanted) -> Option<&'d str> {
        let example = wanted.example;
        let text = self.text(at, &format!("write it in quotes, with its unit if it has one: for example {example:?}"))?;
        if text.chars().count() > QUANTITY_TEXT {
            let message = format!("{} is no {}", echo(text), wanted.limit.what);
            self.report(at, "quantity.form", message, format!("write for example {example:?}"));
            return None;
        }
        Some(text)
    }

    /// A quantity with a unit, within the range of its field.
    pub(crate) fn quantity<Q: Quantity>(&mut self, at: &Node<'_>, wanted: &Wanted) -> Option<Q> {
        let text = self.quantity_text(at, wanted)?;
        self.parsed(at, text, wanted)
    }

    /// The same of a text that was taken already.
    pub(crate) fn parsed<Q: Quantity>(&mut self, at: &Node<'_>, text: &str, wanted: &Wanted) -> Option<Q> {
        let value = text.parse::<Q>().map_err(|error| self.not_a_quantity(at, text, &error, wanted)).ok()?;
        let number = value.number(wanted.limit.unit);
        number.and_then(|number| self.within(at, text, number, wanted)).map(|_| value)
    }

    /// A bare number.
    pub(crate) fn bare(&mut self, at: &Node<'_>, text: &str, shown: &str, wanted: &Wanted) -> Option<Decimal> {
        let value = bare(text, &limits::MASS).map_err(|error| self.not_a_quantity(at, shown, &error, wanted)).ok()?;
        self.within(at, shown, value, wanted)
    }

    fn within(&mut self, at: &Node<'_>, text: &str, number: Decimal, wanted: &Wanted) -> Option<Decimal> {
        if wanted.limit.holds(number) {
            return Some(number);
        }
        let message = format!("{} {} is outside {}", wanted.limit.what, echo(text), wanted.limit.phrase());
        self.report(at, "quantity.range", message, format!("write for example {:?}", wanted.example));
        None
    }

    pub(crate) fn not_a_quantity(&mut self, at: &Node<'_>, text: &str, error: &QuantityError, wanted: &Wanted) {
        let (what, found) = (wanted.limit.what, echo(text));
        let example = format!("write for example {:?}", wanted.example);
        let (message, advice) = match error {
            QuantityError::Form { .. } => (format!("{found} is no {what}"), example),
            QuantityError::Comma { .. } => {
                (format!("{found} has a comma"), format!("write the decimal point: {:?}", text.replacen(',', ".", 1)))
            }
            QuantityError::NoUnit { .. } => (format!("{found} has no unit"), example),
            QuantityError::UnknownUnit { unit, .. } => {
                let message = format!("{} is no unit of {what}", echo(unit));
                (message, format!("use one of {}; {example}", known_units(&wanted.units)))
            }
            QuantityError::Digits { unit, .. } => {
                let unit = if unit.is_empty() { String::new() } else { format!(" in {unit}") };
                (format!("{found} has more than {} decimals{unit}", limits::DECIMALS), "round it".to_owned())
            }
            QuantityError::Range { .. } => {
                (format!("{what} {found} is outside {}", wanted.limit.phrase()), example)
            }
            QuantityError::Overflow { .. } => {
                (format!("{what} {found} is beyond any number that can be computed with"), example)
            }
        };
        self.report(at, error.code(), message, advice);
    }

    /// Reports a name that an earlier thing of its kind has.
    pub(crate) fn unique(&mut self, at: &Node<'_>, seen: &mut BTreeSet<String>, name: &str, what: &str) {
        if !seen.insert(name.to_owned()) {
            let message = format!("there are two {what} with the name {}", echo(name));
            self.report(at, "name.duplicate", message, "give one of them another name, or make one of the two");
        }
    }
}

/// The units in a list.
pub(crate) fn known_units(units: &Units) -> String {
    match units {
        Units::Of(units) => {
            let symbols: Vec<_> =
                units.iter().map(|unit| unit.symbol).filter(|symbol| *symbol != "fraction").collect();
            symbols.join(", ")
        }
        Units::Parts => "parts, %".to_owned(),
        Units::Bare => "none".to_owned(),
    }
}

/// A sentence as a clause: first letter small, no full stop.
fn first_small(sentence: &str) -> String {
    let mut letters = sentence.trim_end_matches('.').chars();
    let first = letters.next().map(char::to_lowercase);
    first.into_iter().flatten().chain(letters).collect()
}
