//! Documents made to do harm: whatever comes in, out comes a recipe or a list of problems, and never a panic.
#![expect(
    clippy::unwrap_used,
    clippy::arithmetic_side_effects,
    reason = "a test stops at what it did not expect; its counts are small"
)]

use std::fs;
use std::path::Path;

use lamella::cure::{Estimate, SETTLED_BELOW, fresh as fresh_of};
use lamella::market::label::{self, LabelFacts};
use lamella::market::net::variation;
use lamella::market::{ListOptions, Market, Style, envelope};
use lamella::problem::CODES;
use lamella::quantity::Mass;
use lamella::{Plan, limits, recipe};
use serde_json::{Value, json};

/// The same numbers every time (Knuth's MMIX constants, from memory; any odd pair would do).
struct Dice(u64);

impl Dice {
    fn roll(&mut self, below: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap() % below
    }
}

fn valid() -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("vectors/valid");
    let mut paths: Vec<_> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.retain(|path| path.is_file());
    paths.sort();
    paths.into_iter().map(|path| fs::read_to_string(path).unwrap()).collect()
}

/// Reads, and holds what comes out to its promises. Whether it was a recipe.
fn check(bytes: &[u8]) -> bool {
    match recipe::read_bytes(bytes) {
        Ok(found) => {
            let written = recipe::write(&found);
            assert_eq!(recipe::read(&written).as_ref(), Ok(&found), "{written}");
            true
        }
        Err(problems) => {
            assert!(!problems.is_empty(), "{}", String::from_utf8_lossy(bytes));
            let text = std::str::from_utf8(bytes).unwrap_or("");
            for problem in problems.iter().take(3) {
                assert!(CODES.iter().any(|(code, _)| *code == problem.code), "{problem}");
                assert!(
                    problem.message.chars().count() < 600 && problem.advice.chars().count() < 600,
                    "{problem}"
                );
                if !problem.code.starts_with("document.") {
                    assert!(recipe::locate(text, &problem.pointer).is_some(), "{problem}");
                }
            }
            assert!(!recipe::render(&problems, text, "x.json").is_empty());
            false
        }
    }
}

#[test]
fn truncated_documents() {
    for text in valid() {
        for end in 0..text.trim_end().len() {
            assert!(!check(&text.as_bytes()[..end]), "{end}");
        }
    }
}

#[test]
fn flipped_bytes() {
    let mut dice = Dice(1);
    let mut read = 0_u32;
    for text in valid() {
        for _ in 0..600 {
            let mut bytes = text.clone().into_bytes();
            for _ in 0..=dice.roll(3) {
                let at = dice.roll(bytes.len());
                bytes[at] = match dice.roll(3) {
                    0 => u8::try_from(dice.roll(256)).unwrap(),
                    1 => b"{}[]\",:0123456789.-%\\ "[dice.roll(22)],
                    _ => bytes[dice.roll(text.len())],
                };
            }
            read += u32::from(check(&bytes));
        }
    }
    assert!(read > 100, "{read}: too few are left to show that the rest of a document is still read");
}

/// Every value below a value, as JSON Pointers.
fn pointers(value: &Value, at: &str, all: &mut Vec<String>) {
    all.push(at.to_owned());
    match value {
        Value::Array(items) => {
            for (index, item) in items.iter().enumerate() {
                pointers(item, &format!("{at}/{index}"), all);
            }
        }
        Value::Object(entries) => {
            for (key, item) in entries {
                pointers(item, &format!("{at}/{}", key.replace('~', "~0").replace('/', "~1")), all);
            }
        }
        _ => {}
    }
}

/// Values of every type, and texts that look like a quantity, an id or a word and are none.
fn strange() -> Vec<Value> {
    let long = "9".repeat(5000);
    vec![
        json!(null),
        json!(true),
        json!(0),
        json!(-1),
        json!(u64::MAX),
        json!(i64::MIN),
        json!(1.5e308),
        json!([]),
        json!({}),
        json!([[[]]]),
        json!({"": ""}),
        json!(""),
        json!(" "),
        json!("\u{0}"),
        json!("\u{202e}\u{fffd}"),
        json!("e\u{301}\u{1f9fc}"),
        json!(long),
        json!("0 %"),
        json!("-0 g"),
        json!("100 %"),
        json!("1e9 kg"),
        json!("NaN"),
        json!("inf %"),
        json!("79228162514264337593543950335 g"),
        json!("0.0000000000000000000000000001 kg"),
        json!("1 lb 2 lb 3 lb 4 lb"),
        json!("1 g 1 g"),
        json!("1 furlong per fortnight"),
        json!("% %"),
        json!("- 5 g"),
        json!("+5 g"),
        json!("5\u{a0}g"),
        json!("٥ g"),
        json!("1_000 g"),
        json!("0x10 g"),
        json!("layer fat"),
        json!("olive-oil"),
        json!("#ffffff"),
        json!("recipe/1"),
        json!([{"fat": "olive-oil", "share": "100 %"}]),
        json!({"shape": "tray"}),
        json!({"shape": 3}),
        json!("250 mm"),
        json!("1 g"),
        json!("2 parts"),
    ]
}

#[test]
fn every_value_replaced() {
    let strange = strange();
    let mut read = 0_u32;
    for text in valid() {
        let document: Value = serde_json::from_str(&text).unwrap();
        let mut all = Vec::new();
        pointers(&document, "", &mut all);
        for (index, pointer) in all.iter().enumerate() {
            // An eighth for each place: over all places every value has its turn many times.
            for value in strange.iter().skip(index % 8).step_by(8) {
                let mut changed = document.clone();
                *changed.pointer_mut(pointer).unwrap() = value.clone();
                read += u32::from(check(changed.to_string().as_bytes()));
            }
        }
    }
    assert!(read > 100, "{read}");
}

#[test]
fn ten_thousand_layers() {
    let mut document: Value = serde_json::from_str(&valid()[5]).unwrap();
    let layer = |index: usize| json!({"layer": format!("L{index}"), "share": "1 part"});
    document["layers"] = (0..10_000).map(layer).collect();
    let problems = recipe::read(&document.to_string()).unwrap_err();
    assert_eq!(problems.iter().map(|problem| problem.code).collect::<Vec<_>>(), ["list.length"]);
    let broken = |index: usize| json!({"layer": "same", "share": index, "jug": "none"});
    document["layers"] = (0..10_000).map(broken).collect();
    assert!(!check(document.to_string().as_bytes()));
}

#[test]
fn twenty_thousand_fields_that_are_not() {
    let mut text = String::from("{\"lamella\": \"recipe/1\"");
    for index in 0..20_000 {
        text.push_str(&format!(",\"f{index}\":0"));
    }
    text.push('}');
    let problems = recipe::read(&text).unwrap_err();
    assert_eq!(problems.iter().filter(|problem| problem.code == "field.unknown").count(), 20_000);
    assert!(recipe::render(&problems, &text, "x.json").contains("more problems"));
    assert!(!check(format!("{{{}}}", vec!["\"a\":0"; 20_000].join(",")).as_bytes()));
}

#[test]
fn depth() {
    for depth in [1, 126, 127, 128, 129, 200, 100_000, limits::DOCUMENT_BYTES / 2] {
        assert!(!check(format!("{}{}", "[".repeat(depth), "]".repeat(depth)).as_bytes()), "{depth}");
        assert!(!check("[".repeat(depth).as_bytes()), "{depth}");
        assert!(!check("{\"a\":".repeat(depth.min(200_000)).as_bytes()), "{depth}");
        let inside =
            format!("{{\"lamella\": \"recipe/1\", \"fats\": {}{}}}", "[".repeat(depth), "]".repeat(depth));
        assert!(!check(inside.as_bytes()), "{depth}");
    }
}

#[test]
fn size() {
    let text = &valid()[5];
    let padded = |length: usize| format!("{text}{}", " ".repeat(length - text.len()));
    assert!(check(padded(limits::DOCUMENT_BYTES).as_bytes()));
    assert!(!check(padded(limits::DOCUMENT_BYTES + 1).as_bytes()));
    let long = "x".repeat(limits::DOCUMENT_BYTES - 2000);
    for name in ["name", "note", "for", "superfat", "unknown"] {
        let mut document: Value = serde_json::from_str(text).unwrap();
        document[name] = json!(long);
        assert!(!check(document.to_string().as_bytes()), "{name}");
    }
    let mut document: Value = serde_json::from_str(text).unwrap();
    document[&long] = json!(1);
    assert!(!check(document.to_string().as_bytes()));
}

#[test]
fn bytes_that_are_no_text() {
    for bytes in [
        &b"\xff\xfe{\0}\0"[..],
        b"\xef\xbb\xbf{}",
        b"\0",
        b"",
        b"\xed\xa0\x80",
        b"{\"a\": \"\xc3\"}",
        b"\"\\ud83e\\u0000\"",
    ] {
        assert!(!check(bytes), "{bytes:?}");
    }
}

#[test]
fn places_of_odd_texts() {
    for text in ["", "{", "[1,", "\"", "{\"a\" 1}", "\u{feff}{}", "[]x"] {
        assert_eq!(recipe::locate(text, ""), None, "{text}");
        assert_eq!(recipe::locate(text, "/a/0/~1/~0/~"), None, "{text}");
    }
    let text = "{\r\n\t\"é\\u0061/~\": [ 1 ,\t{\"\": -2.5e3}]\r\n}\r\n";
    let place = recipe::locate(text, "/éa~1~0/1/").unwrap();
    assert_eq!((place.line, place.column, place.width), (2, 26, 6));
    assert_eq!(place.line_text, "\t\"é\\u0061/~\": [ 1 ,\t{\"\": -2.5e3}]");
    for pointer in ["a", "/", "/éa~1~0/2", "/éa~1~0/-1", "/éa~1~0/1/x", "/éa~1~0/0/0", "/éa~1~0/ 1"] {
        assert_eq!(recipe::locate(text, pointer), None, "{pointer}");
    }
    assert_eq!(
        recipe::locate(text, "").map(|place| (place.line, place.column, place.width)),
        Some((1, 1, 1))
    );
}

/// A label says nothing that its facts do not: each of them, put in place of each field, is taken as it stands or told at
/// its place.
#[test]
fn facts_of_a_label_replaced() {
    let facts = json!({
        "market": "great-britain", "style": "as-formed", "responsible": "A. Maker, 1 Road", "origin": "Wales",
        "nominal": "95 g", "batch": "7", "durability": "12 M", "precautions": ["Keep dry."], "function": "Soap",
    });
    label::read(&facts.to_string()).unwrap();
    let mut all = Vec::new();
    pointers(&facts, "", &mut all);
    let (mut read, mut refused) = (0_u32, 0_u32);
    for (pointer, value) in
        all.iter().flat_map(|pointer| strange().into_iter().map(move |value| (pointer, value)))
    {
        let mut changed = facts.clone();
        *changed.pointer_mut(pointer).unwrap() = value.clone();
        let text = changed.to_string();
        match label::read(&text) {
            Ok((found, list)) => {
                read += 1;
                assert!(found.nominal.is_none_or(|nominal| nominal > Mass::ZERO), "{text}");
                // Nothing but the object as a whole, a list or a text can be replaced by what it was not.
                let words = |name: &str| match name {
                    "responsible" => found.responsible.clone(),
                    "origin" => found.origin.clone(),
                    "batch" => found.batch.clone(),
                    "durability" => found.durability.clone(),
                    _ => found.function.clone(),
                };
                for name in ["responsible", "origin", "batch", "durability", "function"] {
                    assert_eq!(words(name), changed[name].as_str().unwrap_or_default(), "{text}");
                }
                assert_eq!(
                    json!(found.precautions),
                    *changed.get("precautions").unwrap_or(&json!([])),
                    "{text}"
                );
                let market = changed.get("market").cloned().unwrap_or(json!("european-union"));
                assert_eq!(json!(list.market), market, "{text}");
            }
            Err(problems) => {
                refused += 1;
                for problem in problems {
                    assert!(CODES.iter().any(|(code, _)| *code == problem.code), "{problem}");
                    assert!(problem.pointer.starts_with(pointer.as_str()), "{problem} of {text}");
                    assert!(recipe::locate(&text, &problem.pointer).is_some(), "{problem}");
                    assert!(!problem.message.is_empty() && !problem.advice.is_empty(), "{problem}");
                }
            }
        }
    }
    assert!(read > 50 && refused > 300, "{read} {refused}");
}

/// All that is wrong is told at once, each at its place.
#[test]
fn facts_of_a_label_are_told_all_at_once() {
    let text = r#"{"market": "gb", "stile": "as-formed", "responsible": 7, "nominal": "-5 g", "precautions": "Keep dry."}"#;
    let problems = label::read(text).unwrap_err();
    let told: Vec<_> = problems.iter().map(|problem| (problem.pointer.as_str(), problem.code)).collect();
    let wanted = [
        ("/market", "field.word"),
        ("/stile", "field.unknown"),
        ("/responsible", "field.type"),
        ("/nominal", "quantity.range"),
        ("/precautions", "field.type"),
    ];
    assert_eq!(told, wanted);
    assert_eq!(problems[1].advice, "write \"style\"");
}

/// Facts that a program filled in itself are held to the same: no label is made of a mass that is none.
#[test]
fn no_label_says_less_than_something() {
    let recipe = recipe::read(lamella::EXAMPLE).unwrap();
    let plan = Plan::of(&recipe).unwrap();
    let verdict = envelope::verdict(&plan, &recipe, None).unwrap();
    for market in [Market::EuropeanUnion, Market::GreatBritain, Market::UnitedStates] {
        let list = ListOptions::new(market, Style::AsCharged);
        let made = |nominal: Mass| {
            let facts = LabelFacts { nominal: Some(nominal), ..LabelFacts::default() };
            label::label(&plan, &recipe, &facts, &list, &verdict)
        };
        for (nominal, code) in [
            (Mass::literal(-5, 0), Some("quantity.range")),
            (Mass::literal(-1, 12), Some("quantity.range")),
            (Mass::ZERO, Some("quantity.range")),
            (Mass::literal(1, 12), None),
            (Mass::literal(1_000_000, 0), None),
            (Mass::literal(1_000_001, 0), Some("quantity.range")),
        ] {
            let told = made(nominal).err().map(|problems| (problems[0].pointer.clone(), problems[0].code));
            assert_eq!(told, code.map(|code| ("/nominal".to_owned(), code)), "{nominal}");
        }
        let facts = LabelFacts { batch: "7\n8".to_owned(), ..LabelFacts::default() };
        let problems = label::label(&plan, &recipe, &facts, &list, &verdict).unwrap_err();
        assert_eq!((problems[0].pointer.as_str(), problems[0].code), ("/batch", "field.text"));
    }
    for fresh in [Mass::literal(-120, 0), Mass::ZERO] {
        assert_eq!(Estimate::of(&plan, fresh, SETTLED_BELOW, None), None);
        assert_eq!(variation(fresh), None);
    }
    assert!(Estimate::of(&plan, Mass::literal(120, 0), SETTLED_BELOW, None).is_some());
    for (fresh, code) in
        [("-5 g", "quantity.range"), ("0 g", "quantity.range"), ("5", "quantity.unit.missing")]
    {
        let problems = fresh_of(fresh).unwrap_err();
        assert_eq!((problems[0].pointer.as_str(), problems[0].code), ("/fresh", code));
    }
}
