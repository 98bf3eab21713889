//! `lamella-types core [--check] types.d.ts`: writes the TypeScript types of the documents of the library. What goes in is
//! taken from the JSON Schemas in `core/schema`, what comes out from the Rust types in `core/src` as serde writes them;
//! the words of their documentation come along.

mod rust;
mod schema;

use std::path::Path;

use anyhow::{Context, Result, bail};

/// What the functions of the module hand out; everything that these are made of comes along.
const ROOTS: &[&str] = &[
    "batch::Plan",
    "problem::Problem",
    "screen::Picture",
    "screen::Dragged",
    "screen::Task",
    "screen::Explanation",
    "sheet::Page",
    "certainty::Certainty",
    "certainty::Advice",
    "follow::Change",
    "follow::Correction",
    "record::Finding",
    "market::Label",
    "market::Verdict",
    "market::Dossier",
    "after::Cause",
    "after::Observation",
    "heat::HeatForecast",
    "material::Listed",
    "material::Fat",
    "material::Additive",
    "material::Colourant",
    "material::Fragrance",
    "material::AlkaliData",
    "material::Allergen",
];

const HEAD: &str = "\
// The documents of Lamella. Written by wasm/build from core/schema and the types in core/src: mend it there.
//
// Quantities are texts with their unit: \"1.2 kg\", \"33 %\", \"38 °C\".

/** All that is known of a material. */
export type Material = Fat | Additive | Colourant | Fragrance;
";

fn main() -> Result<()> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let check = arguments.iter().any(|argument| argument == "--check");
    let paths: Vec<&Path> = arguments
        .iter()
        .filter(|argument| *argument != "--check")
        .map(|argument| Path::new(argument.as_str()))
        .collect();
    let [core, out] = paths[..] else {
        bail!("usage: lamella-types core [--check] types.d.ts");
    };
    let mut text = HEAD.to_owned();
    let mut schemas: Vec<_> = std::fs::read_dir(core.join("schema"))?.collect::<Result<Vec<_>, _>>()?;
    schemas.sort_by_key(std::fs::DirEntry::path);
    let mut known = schema::Known::default();
    for file in schemas {
        let path = file.path();
        let json = std::fs::read_to_string(&path)?;
        text.push_str(&schema::types(&json, &mut known).with_context(|| path.display().to_string())?);
    }
    text.push_str(&rust::types(&core.join("src"), ROOTS, known.names())?);
    if check {
        if std::fs::read_to_string(out)? != text {
            bail!("{} is not what the library's types make: run wasm/build", out.display());
        }
    } else {
        std::fs::write(out, text)?;
    }
    Ok(())
}

/// A documentation comment of TypeScript.
fn comment(doc: &str, indent: &str) -> String {
    let doc = doc.trim().replace("*/", "* /");
    if doc.is_empty() {
        return String::new();
    }
    let lines: Vec<&str> = doc.lines().collect();
    if let [line] = lines[..] {
        return format!("{indent}/** {line} */\n");
    }
    let body: String =
        lines.iter().map(|line| format!("{indent} * {line}").trim_end().to_owned() + "\n").collect();
    format!("{indent}/**\n{body}{indent} */\n")
}

/// A key of an object, in quotes where it is no name.
fn key(name: &str) -> String {
    let plain = name.chars().all(|letter| letter.is_ascii_alphanumeric() || letter == '_');
    if plain { name.to_owned() } else { format!("{name:?}") }
}
