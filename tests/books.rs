//! The documents after the pour (`weighings/1`, `prices/1`, `record/1`, `trial/1`): what is wrong with bad ones, that
//! good ones survive being written, and that the schemas agree.
//!
//! `vectors/bad_books/FORMAT_NAME.json` is a document, `.problems.json` beside it what is wrong with it. `BLESS=1`
//! rewrites the latter, the canonical form of the examples and the schemas: read each change before it is kept.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test stops at what it did not expect; its counts are small"
)]

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use lamella::problem::{CODES, Problem};
use lamella::{cost, cure, recipe, record};
use serde_json::{Value, json};

/// Reads a document of a format and writes it.
fn rewritten(format: &str, text: &str) -> Result<String, Vec<Problem>> {
    match format {
        "weighings" => cure::read(text).map(|read| cure::write(&read)),
        "prices" => cost::read(text).map(|read| cost::write(&read)),
        "record" => record::read(text).map(|read| record::write(&read)),
        "trial" => record::read_trial(text).map(|read| record::write_trial(&read)),
        other => panic!("no format {other}"),
    }
}

const FORMATS: [&str; 4] = ["weighings", "prices", "record", "trial"];

fn schema(format: &str) -> String {
    match format {
        "weighings" => cure::schema(),
        "prices" => cost::schema(),
        "record" => record::schema(),
        _ => record::trial_schema(),
    }
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("vectors/bad_books")
}

fn bless() -> bool {
    std::env::var_os("BLESS").is_some()
}

/// Every bad document with its name and its format.
fn bad() -> Vec<(String, &'static str, String)> {
    let names = fs::read_dir(folder()).unwrap().map(|entry| entry.unwrap().file_name());
    let mut all: Vec<_> = names
        .filter_map(|name| {
            let name = name.to_str()?.strip_suffix(".json")?.to_owned();
            let format = FORMATS.into_iter().find(|format| name.starts_with(format))?;
            let text = fs::read_to_string(folder().join(format!("{name}.json"))).unwrap();
            (!name.ends_with(".problems")).then_some((name, format, text))
        })
        .collect();
    all.sort();
    all
}

/// Good documents: the examples, and one of each format that uses all of it.
fn good() -> Vec<(&'static str, String)> {
    let example = |name: &str| {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../core/data").join(name);
        fs::read_to_string(path).unwrap()
    };
    vec![
        ("weighings", example("example-weighings.json")),
        ("prices", example("example-prices.json")),
        ("record", example("example-record.json")),
        ("trial", example("example-trial.json")),
        ("trial", example("example-usual-trial.json")),
        ("weighings", r#"{"lamella": "weighings/1", "batch": "8", "settled_below": "0.3 %", "bars": [
            {"bar": "A", "weighings": [
                {"age": "0 h", "mass": "4 oz", "uncertainty": "1 g"},
                {"age": "36 h", "mass": "111 g", "uncertainty": "0.5 g"},
                {"age": "90 min", "mass": "111.5 g", "uncertainty": "0.5 g"}]}]}"#.to_owned()),
        ("prices", r#"{"lamella": "prices/1", "note": "yen", "currency": "JPY", "decimals": 0,
            "materials": [{"material": "olive-oil", "price": "4200", "pack": "1 US gal", "density": "0.913 g/mL",
                "wastage": "1 %"}],
            "labour": {"rate": "1500", "time": "200 min"}, "margin": {"of_cost": "80 %"}, "price_step": "10"}"#
            .to_owned()),
        ("record", r#"{"lamella": "record/1", "batch": "9", "product": "Confetti", "note": "rework",
            "lots": [{"lot": "R1", "material": "soap", "batch": "8"}],
            "weighings": [{"lot": "R1", "mass": "200 g", "at": "2025-05-01T09:00"}],
            "release": {"decision": "held", "by": "AM", "on": "2025-05-02"}}"#.to_owned()),
    ]
}

#[test]
fn every_problem_is_told() {
    let bad = bad();
    assert!(bad.len() >= 60, "{} documents", bad.len());
    let mut wrong = Vec::new();
    let mut codes = BTreeSet::new();
    for (name, format, text) in &bad {
        let Err(problems) = rewritten(format, text) else { panic!("{name} is read without a problem") };
        assert!(!problems.is_empty(), "{name}");
        let json = !problems.iter().any(|problem| problem.code == "document.json");
        for problem in &problems {
            codes.insert(problem.code);
            assert!(CODES.iter().any(|(code, _)| *code == problem.code), "{name}: {problem}");
            assert_eq!(recipe::locate(text, &problem.pointer).is_some(), json, "{name}: {}", problem.pointer);
            for words in [&problem.message, &problem.advice] {
                assert!(!words.is_empty() && !words.ends_with(['.', ' ', '!']), "{name}: {words}");
            }
        }
        let found = json!(problems);
        let path = folder().join(format!("{name}.problems.json"));
        if bless() {
            fs::write(&path, format!("{}\n", serde_json::to_string_pretty(&found).unwrap())).unwrap();
        }
        let wanted: Value =
            serde_json::from_str(&fs::read_to_string(&path).unwrap_or_default()).unwrap_or_default();
        if wanted != found {
            wrong.push(format!("{name}: wanted {wanted:#}\nfound {found:#}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
    let own = |code: &&str| {
        ["date.", "weighings.", "record.", "trial."].iter().any(|start| code.starts_with(start))
            || matches!(*code, "prices.currency" | "prices.pack")
    };
    for code in CODES.iter().map(|(code, _)| *code).filter(own) {
        assert!(codes.contains(code), "no document raises {code}");
    }
}

#[test]
fn good_documents_survive_being_written() {
    for (format, text) in good() {
        let written = rewritten(format, &text).unwrap_or_else(|problems| {
            panic!("{}", recipe::render(&problems, &text, format));
        });
        assert_eq!(rewritten(format, &written), Ok(written.clone()));
        let same = match format {
            "weighings" => cure::read(&text) == cure::read(&written),
            "prices" => cost::read(&text) == cost::read(&written),
            "record" => record::read(&text) == record::read(&written),
            _ => record::read_trial(&text) == record::read_trial(&written),
        };
        assert!(same, "{written}");
    }
}

#[test]
fn the_examples_are_canonical() {
    for name in ["weighings", "prices", "record", "trial", "usual-trial"] {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("../core/data/example-{name}.json"));
        let text = fs::read_to_string(&path).unwrap();
        let written = rewritten(name.rsplit('-').next().unwrap(), &text).unwrap();
        if bless() {
            fs::write(&path, &written).unwrap();
        }
        assert_eq!(fs::read_to_string(&path).unwrap(), written);
    }
}

#[test]
fn schemas_are_current_and_of_one_mind_with_the_reader() {
    let mut seen_by_schema = 0_u32;
    for format in FORMATS {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("../core/schema/{format}-1.json"));
        let current = schema(format);
        if bless() {
            fs::write(&path, &current).unwrap();
        }
        assert_eq!(fs::read_to_string(&path).unwrap_or_default(), current, "{format}");
        let value: Value = serde_json::from_str(&current).unwrap();
        jsonschema::meta::validate(&value).unwrap();
        let validator = jsonschema::validator_for(&value).unwrap();
        for (of, text) in good() {
            if of == format {
                let document: Value = serde_json::from_str(&text).unwrap();
                let errors: Vec<String> =
                    validator.iter_errors(&document).map(|error| error.to_string()).collect();
                assert!(errors.is_empty(), "{text}: {errors:?}");
            }
        }
        for (_, of, text) in bad() {
            if let (true, Ok(document)) = (of == format, serde_json::from_str::<Value>(&text)) {
                seen_by_schema += u32::from(!validator.is_valid(&document));
            }
        }
    }
    assert!(seen_by_schema > 40, "the schemas refuse {seen_by_schema} of the bad documents");
}

/// Whatever comes in, out comes a document or a list of problems, and never a panic.
#[test]
fn broken_documents_do_no_harm() {
    // Knuth's MMIX constants, from memory; any odd pair would do.
    let mut dice = 7_u64;
    let mut roll = |below: usize| {
        dice = dice.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(dice >> 33).unwrap() % below
    };
    for (format, text) in good() {
        for step in 0..60 {
            let cut = text.len() * step / 60;
            assert!(rewritten(format, text.get(..cut).unwrap_or("")).is_err());
        }
        for _ in 0..200 {
            let mut bytes = text.clone().into_bytes();
            for _ in 0..=roll(3) {
                let at = roll(bytes.len());
                bytes[at] = b"{}[]\",:0123456789.-%\\ gdmh"[roll(26)];
            }
            if let Ok(text) = String::from_utf8(bytes) {
                match rewritten(format, &text) {
                    Ok(written) => assert_eq!(rewritten(format, &written), Ok(written.clone())),
                    Err(problems) => assert!(!problems.is_empty()),
                }
            }
        }
    }
}
