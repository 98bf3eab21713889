//! Types of what goes in, from JSON Schemas.

use std::collections::BTreeMap;

use anyhow::{Context, Result};
use serde_json::{Map, Value};

use crate::{comment, key};

/// Definitions that were written already: several documents share some.
#[derive(Default)]
pub(crate) struct Known {
    written: BTreeMap<String, String>,
}

impl Known {
    pub(crate) fn names(&self) -> Vec<String> {
        self.written.keys().cloned().collect()
    }
}

/// The types of a schema. The document itself has the name of its own; what it is made of has that before it.
pub(crate) fn types(text: &str, known: &mut Known) -> Result<String> {
    let schema: Value = serde_json::from_str(text)?;
    let root =
        schema["$ref"].as_str().and_then(|path| path.rsplit('/').next()).context("no document")?.to_owned();
    let defs = schema["$defs"].as_object().context("no definitions")?;
    let names = Names { root: &root };
    let mut out = String::new();
    for (id, def) in defs {
        let name = names.of(id);
        let body = names.definition(&name, def)?;
        if known.written.insert(name, body.clone()).is_none() {
            out.push_str(&body);
        }
    }
    Ok(out)
}

struct Names<'r> {
    root: &'r str,
}

impl Names<'_> {
    fn of(&self, id: &str) -> String {
        let camel: String = id.split(['-', '_']).map(capital).collect();
        // The name is taken by the language.
        if id == "record" && id == self.root {
            return "BatchRecord".to_owned();
        }
        // A recipe stands in the log of a batch too, with all that it is made of.
        if id == self.root || id == "recipe" { camel } else { format!("{}{camel}", capital(self.root)) }
    }

    fn definition(&self, name: &str, def: &Value) -> Result<String> {
        let doc = def["description"].as_str().unwrap_or_default();
        let properties = def["properties"].as_object().context("no properties")?;
        let required: Vec<&str> =
            def["required"].as_array().into_iter().flatten().filter_map(Value::as_str).collect();
        let mut out = format!("\n{}export interface {name} {{\n", comment(&sentence(doc), ""));
        for (field, schema) in properties {
            let doc = schema["description"].as_str().unwrap_or_default();
            let must = if required.contains(&field.as_str()) { "" } else { "?" };
            let kind = self.kind(schema.as_object().context("no object")?);
            out.push_str(&format!("{}  {}{must}: {kind};\n", comment(doc, "  "), key(field)));
        }
        out.push_str("}\n");
        Ok(out)
    }

    fn kind(&self, schema: &Map<String, Value>) -> String {
        let text = |value: &Value| serde_json::to_string(value).unwrap_or_default();
        if let Some(path) = schema.get("$ref").and_then(Value::as_str) {
            return self.of(path.rsplit('/').next().unwrap_or(path));
        }
        if let Some(value) = schema.get("const") {
            return text(value);
        }
        let each = |list: &Value, of: &dyn Fn(&Value) -> String| {
            let kinds: Vec<String> = list.as_array().into_iter().flatten().map(of).collect();
            kinds.join(" | ")
        };
        if let Some(words) = schema.get("enum") {
            return each(words, &text);
        }
        if let Some(kinds) = schema.get("anyOf").or(schema.get("oneOf")) {
            let mut kinds: Vec<String> = kinds
                .as_array()
                .into_iter()
                .flatten()
                .filter_map(Value::as_object)
                .map(|kind| self.kind(kind))
                .collect();
            kinds.dedup();
            return kinds.join(" | ");
        }
        match schema.get("type").and_then(Value::as_str) {
            Some("string") => "string".to_owned(),
            Some("integer" | "number") => "number".to_owned(),
            Some("boolean") => "boolean".to_owned(),
            Some("array") => {
                let item = schema.get("items").and_then(Value::as_object).map(|item| self.kind(item));
                format!("({})[]", item.unwrap_or_else(|| "unknown".to_owned())).replace("(string)", "string")
            }
            Some("object") => "Record<string, string>".to_owned(),
            _ => "unknown".to_owned(),
        }
    }
}

/// `a fat` as the beginning of a sentence.
fn sentence(doc: &str) -> String {
    format!("{}.", capital(doc).trim_end_matches('.'))
}

fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
