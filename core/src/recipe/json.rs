//! JSON text as an ordered tree that keeps repeated keys, and such a tree as canonical text.

use std::cell::Cell;
use std::fmt;

use serde::de::{DeserializeSeed, Deserializer, Error, MapAccess, SeqAccess, Visitor};

/// Longest object or list, indentation included, that stands on one line.
const LINE: usize = 100;
/// Under this key a JSON number arrives when a crate beside this one asks for numbers of any precision.
const NUMBER: &str = "$serde_json::private::Number";

/// A value, and the how-manieth of its text it is, so that problems can be told in the order of the text.
#[derive(Clone, Debug)]
pub(crate) struct Json {
    pub(crate) order: usize,
    pub(crate) value: Value,
}

/// What a value is.
#[derive(Clone, Debug)]
pub(crate) enum Value {
    Null,
    Bool(bool),
    /// A whole number.
    Whole(i128),
    /// Any other number, as it prints.
    Number(String),
    Text(String),
    List(Vec<Json>),
    /// In the order of the text; a key may stand twice.
    Object(Vec<(String, Json)>),
}

/// Why a text is not JSON, and where: both counted from one, the column in characters.
#[derive(Clone, Debug)]
pub(crate) struct Broken {
    pub(crate) what: String,
    pub(crate) line: usize,
    pub(crate) column: usize,
}

/// Reads a text, at most 127 levels deep.
pub(crate) fn parse(text: &str) -> Result<Json, Broken> {
    let counter = Cell::new(0);
    let mut source = serde_json::Deserializer::from_str(text);
    let tree = Seed(&counter).deserialize(&mut source);
    tree.and_then(|tree| source.end().map(|()| tree)).map_err(|error| {
        let mut what = error.to_string();
        if let Some(end) = what.rfind(" at line ") {
            what.truncate(end);
        }
        let line = text.split('\n').nth(error.line().saturating_sub(1)).unwrap_or("");
        let before = line.char_indices().take_while(|(start, _)| *start < error.column()).count();
        Broken { what, line: error.line().max(1), column: before.max(1) }
    })
}

struct Seed<'c>(&'c Cell<usize>);

impl<'de> DeserializeSeed<'de> for Seed<'_> {
    type Value = Json;

    fn deserialize<D: Deserializer<'de>>(self, source: D) -> Result<Json, D::Error> {
        let order = self.0.get();
        self.0.set(order.saturating_add(1));
        Ok(Json { order, value: source.deserialize_any(Walk(self.0))? })
    }
}

struct Walk<'c>(&'c Cell<usize>);

impl<'de> Visitor<'de> for Walk<'_> {
    type Value = Value;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a JSON value")
    }

    fn visit_unit<E: Error>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }

    fn visit_bool<E: Error>(self, value: bool) -> Result<Value, E> {
        Ok(Value::Bool(value))
    }

    fn visit_i64<E: Error>(self, value: i64) -> Result<Value, E> {
        Ok(Value::Whole(value.into()))
    }

    fn visit_u64<E: Error>(self, value: u64) -> Result<Value, E> {
        Ok(Value::Whole(value.into()))
    }

    fn visit_f64<E: Error>(self, value: f64) -> Result<Value, E> {
        Ok(Value::Number(value.to_string()))
    }

    fn visit_str<E: Error>(self, value: &str) -> Result<Value, E> {
        Ok(Value::Text(value.to_owned()))
    }

    fn visit_string<E: Error>(self, value: String) -> Result<Value, E> {
        Ok(Value::Text(value))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Value, A::Error> {
        let mut list = Vec::new();
        while let Some(item) = items.next_element_seed(Seed(self.0))? {
            list.push(item);
        }
        Ok(Value::List(list))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Value, A::Error> {
        let mut object: Vec<(String, Json)> = Vec::new();
        while let Some(key) = entries.next_key::<String>()? {
            let value = entries.next_value_seed(Seed(self.0))?;
            if let (NUMBER, Value::Text(digits)) = (key.as_str(), &value.value) {
                return Ok(digits.parse().map_or_else(|_| Value::Number(digits.clone()), Value::Whole));
            }
            object.push((key, value));
        }
        Ok(Value::Object(object))
    }
}

impl Value {
    /// What it is, in words.
    pub(crate) const fn kind(&self) -> &'static str {
        match self {
            Self::Null => "null",
            Self::Bool(_) => "true or false",
            Self::Whole(_) | Self::Number(_) => "a number",
            Self::Text(_) => "a text",
            Self::List(_) => "a list",
            Self::Object(_) => "an object",
        }
    }

    /// The same for printing.
    pub(crate) const fn json(self) -> Json {
        Json { order: 0, value: self }
    }
}

/// An object for printing.
pub(crate) fn object(entries: Vec<(String, Json)>) -> Json {
    Value::Object(entries).json()
}

/// A text for printing.
pub(crate) fn text(text: impl Into<String>) -> Json {
    Value::Text(text.into()).json()
}

/// A list for printing.
pub(crate) const fn list(items: Vec<Json>) -> Json {
    Value::List(items).json()
}

/// Canonical text: two spaces a level; an object or list that fits stands on one line, unless it has several items and
/// one of them is a list or an object itself.
pub(crate) fn print(json: &Json) -> String {
    let mut out = String::new();
    put(json, 0, 0, &mut out);
    out.push('\n');
    out
}

fn quote(text: &str) -> String {
    serde_json::Value::from(text).to_string()
}

/// Prints at `level`; `taken` characters stand before it on its line.
fn put(json: &Json, level: usize, taken: usize, out: &mut String) {
    match &json.value {
        Value::Null => out.push_str("null"),
        Value::Bool(value) => out.push_str(if *value { "true" } else { "false" }),
        Value::Whole(value) => out.push_str(&value.to_string()),
        Value::Number(value) => out.push_str(value),
        Value::Text(value) => out.push_str(&quote(value)),
        Value::List(items) => {
            let items: Vec<_> = items.iter().map(|item| (String::new(), item)).collect();
            put_block(&items, ('[', ']'), level, taken, out);
        }
        Value::Object(entries) => {
            let entries: Vec<_> =
                entries.iter().map(|(key, value)| (format!("{}: ", quote(key)), value)).collect();
            put_block(&entries, ('{', '}'), level, taken, out);
        }
    }
}

fn put_block(items: &[(String, &Json)], ends: (char, char), level: usize, taken: usize, out: &mut String) {
    let nested = items.iter().any(|(_, item)| matches!(item.value, Value::List(_) | Value::Object(_)));
    if items.is_empty() || (level > 0 && (!nested || items.len() == 1)) {
        let mut line = String::from(ends.0);
        for (index, (key, item)) in items.iter().enumerate() {
            line.push_str(if index > 0 { ", " } else { "" });
            line.push_str(key);
            put(item, level, taken.saturating_add(line.chars().count()), &mut line);
        }
        line.push(ends.1);
        if taken.saturating_add(line.chars().count()) <= LINE && !line.contains('\n') {
            out.push_str(&line);
            return;
        }
    }
    out.push(ends.0);
    let inner = level.saturating_add(1);
    let indent = "  ".repeat(inner);
    for (index, (key, item)) in items.iter().enumerate() {
        out.push_str(if index > 0 { ",\n" } else { "\n" });
        out.push_str(&indent);
        out.push_str(key);
        put(item, inner, indent.len().saturating_add(key.chars().count()), out);
    }
    if !items.is_empty() {
        out.push('\n');
        out.push_str(&"  ".repeat(level));
    }
    out.push(ends.1);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_keep_their_order_and_their_repeats() {
        let Value::Object(entries) = parse(r#"{"b": 1, "a": [2.5, null], "b": -3}"#).unwrap().value else {
            panic!()
        };
        let keys: Vec<_> = entries.iter().map(|(key, value)| (key.as_str(), value.order)).collect();
        assert_eq!(keys, [("b", 1), ("a", 2), ("b", 5)]);
    }

    #[test]
    fn columns_are_counted_in_characters() {
        let broken = parse("{\n \"é石\": x}").unwrap_err();
        assert_eq!((broken.line, broken.column), (2, 8));
    }

    #[test]
    fn numbers_of_any_precision_are_numbers_still() {
        let text = format!("{{\"{NUMBER}\": \"12\"}}");
        assert!(matches!(parse(&text).unwrap().value, Value::Whole(12)));
    }

    #[test]
    fn short_blocks_stand_on_one_line() {
        let text = r#"{"a":{"b":{"c":"d"}},"e":[],"f":[1,[2]]}"#;
        let wanted =
            "{\n  \"a\": {\"b\": {\"c\": \"d\"}},\n  \"e\": [],\n  \"f\": [\n    1,\n    [2]\n  ]\n}\n";
        assert_eq!(print(&parse(text).unwrap()), wanted);
    }
}
