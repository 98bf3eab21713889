//! Bad assessments: for each, every problem with its place, its words and its advice, in the order of the text.
//!
//! `vectors/bad_assessment/NAME.json` is the document, `NAME.problems.json` what is wrong with it. `BLESS=1` rewrites the
//! latter: read each change before it is kept.
#![expect(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use lamella::market::envelope;
use lamella::problem::CODES;
use serde_json::{Value, json};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("vectors/bad_assessment")
}

fn documents() -> Vec<(String, Vec<u8>)> {
    let names = fs::read_dir(folder()).unwrap().map(|entry| entry.unwrap().path());
    let mut all: Vec<_> = names
        .filter_map(|path| {
            let name = path.file_name()?.to_str()?.strip_suffix(".json")?.to_owned();
            (!name.ends_with(".problems")).then(|| (name, fs::read(&path).unwrap()))
        })
        .collect();
    all.sort();
    all
}

#[test]
fn every_problem_is_told() {
    let schema: Value = serde_json::from_str(&envelope::schema()).unwrap();
    let schema = jsonschema::validator_for(&schema).unwrap();
    let documents = documents();
    assert!(documents.len() >= 24, "{} documents", documents.len());
    let mut reached = BTreeSet::new();
    let mut wrong = Vec::new();
    for (name, bytes) in &documents {
        let Err(problems) = envelope::read_bytes(bytes) else { panic!("{name} is read without a problem") };
        for problem in &problems {
            reached.insert(problem.code);
            for words in [&problem.message, &problem.advice] {
                assert!(!words.is_empty() && !words.ends_with(['.', ' ', '!']), "{name}: {problem:?}");
            }
        }
        let document: Option<Value> = serde_json::from_slice(bytes).ok();
        let refused = document.map(|document| !schema.is_valid(&document));
        let found = json!({"schema refuses": refused, "problems": problems});
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
    let own: BTreeSet<&str> =
        CODES.iter().map(|(code, _)| *code).filter(|code| code.starts_with("assessment.")).collect();
    assert!(reached.is_superset(&own), "{reached:?}");
}
