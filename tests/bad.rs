//! Bad documents: for each, every problem with its place, its words and its advice, in the order of the text.
//!
//! `vectors/bad/NAME.json` is the document, `NAME.problems.json` what is wrong with it. `BLESS=1` rewrites the latter:
//! read each change before it is kept.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test stops at what it did not expect; its counts are small"
)]

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use lamella::problem::{CODES, Problem};
use lamella::{limits, recipe};
use serde_json::{Value, json};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("vectors/bad")
}

/// Every bad document with its name, in order.
fn documents() -> Vec<(String, Vec<u8>)> {
    let mut all: Vec<_> = fs::read_dir(folder())
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter_map(|path| {
            let name = path.file_name()?.to_str()?.strip_suffix(".json")?.to_owned();
            (!name.ends_with(".problems")).then(|| (name, fs::read(&path).unwrap()))
        })
        .collect();
    all.sort();
    all
}

fn problems(name: &str, bytes: &[u8]) -> Vec<Problem> {
    match recipe::read_bytes(bytes) {
        Ok(_) => panic!("{name} is read without a problem"),
        Err(problems) => problems,
    }
}

/// Whether the schema refuses a document; nothing when it is no JSON, or has a key twice, which a schema never sees.
fn schema_refuses(schema: &jsonschema::Validator, bytes: &[u8], problems: &[Problem]) -> Option<bool> {
    let beyond = problems.iter().all(|problem| problem.code == "document.duplicate");
    let document: Value = serde_json::from_slice(bytes).ok().filter(|_| !beyond)?;
    Some(!schema.is_valid(&document))
}

#[test]
fn every_problem_is_told() {
    let schema: Value = serde_json::from_str(&recipe::schema::recipe()).unwrap();
    let schema = jsonschema::validator_for(&schema).unwrap();
    let documents = documents();
    assert!(documents.len() >= 90, "{} documents", documents.len());
    let mut wrong = Vec::new();
    for (name, bytes) in &documents {
        let found = problems(name, bytes);
        assert!(!found.is_empty(), "{name}");
        let found = json!({
            "schema refuses": schema_refuses(&schema, bytes, &found),
            "problems": found,
        });
        let path = folder().join(format!("{name}.problems.json"));
        if std::env::var_os("BLESS").is_some() {
            fs::write(&path, format!("{}\n", serde_json::to_string_pretty(&found).unwrap())).unwrap();
        }
        let wanted: Value =
            serde_json::from_str(&fs::read_to_string(&path).unwrap_or_default()).unwrap_or_default();
        if wanted != found {
            wrong.push(format!("{name}: wanted {wanted:#}\nfound {found:#}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}

#[test]
fn every_code_of_the_reader_is_reached() {
    let size = recipe::read(&" ".repeat(limits::DOCUMENT_BYTES + 1)).unwrap_err();
    let mut reached: BTreeSet<&str> = size.iter().map(|problem| problem.code).collect();
    for (name, bytes) in documents() {
        reached.extend(problems(&name, &bytes).iter().map(|problem| problem.code));
    }
    // Codes of the plan, and of other documents, which have tests of their own.
    let elsewhere = [
        "call.",
        "library.",
        "plan.",
        "date.",
        "assessment.",
        "label.",
        "weighings.",
        "prices.",
        "record.",
        "trial.",
        "heat.",
        "blend.",
        "event.",
    ];
    let of_the_plan = |code: &&str| {
        elsewhere.iter().any(|area| code.starts_with(area))
            || matches!(*code, "scale.coarse" | "scale.missing" | "water.additives")
    };
    let wanted: BTreeSet<&str> =
        CODES.iter().map(|(code, _)| *code).filter(|code| !of_the_plan(code)).collect();
    assert_eq!(reached, wanted);
}

#[test]
fn messages_are_sentences_of_the_house() {
    for (name, bytes) in documents() {
        for problem in problems(&name, &bytes) {
            for words in [&problem.message, &problem.advice] {
                assert!(!words.is_empty(), "{name}: {problem:?}");
                assert!(!words.ends_with(['.', ' ', '!']), "{name}: {words}");
                assert!(words.chars().count() < 400, "{name}: {words}");
                assert!(!words.chars().any(char::is_control), "{name}: {words:?}");
            }
        }
    }
}

#[test]
fn every_problem_has_a_place() {
    for (name, bytes) in documents() {
        let Ok(text) = std::str::from_utf8(&bytes) else { continue };
        let problems = problems(&name, &bytes);
        let json = !problems.iter().any(|problem| problem.code == "document.json");
        for problem in &problems {
            assert_eq!(recipe::locate(text, &problem.pointer).is_some(), json, "{name}: {}", problem.pointer);
        }
        let printed = recipe::render(&problems, text, "bad.json");
        assert_eq!(printed.matches("bad.json:").count(), problems.len(), "{name}:\n{printed}");
        assert!(!printed.contains("bad.json:?"), "{name}:\n{printed}");
    }
}

/// The printed form of the document with the most slips.
#[test]
fn problems_print_like_those_of_a_compiler() {
    let text = fs::read_to_string(folder().join("many_slips.json")).unwrap();
    let printed = recipe::render(&recipe::read(&text).unwrap_err(), &text, "many_slips.json");
    let path = folder().join("many_slips.txt");
    if std::env::var_os("BLESS").is_some() {
        fs::write(&path, &printed).unwrap();
    }
    assert_eq!(printed, fs::read_to_string(&path).unwrap_or_default());
}
