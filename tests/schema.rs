//! The schema of documents: checked in, and of one mind with the reader.
#![expect(clippy::unwrap_used, reason = "a test stops at what it did not expect; its counts are small")]

use std::fs;
use std::path::Path;

use lamella::follow::{self, Batch};
use lamella::{blend, heat, recipe};
use serde_json::{Value, json};

fn validator() -> jsonschema::Validator {
    let schema: Value = serde_json::from_str(&recipe::schema::recipe()).unwrap();
    jsonschema::meta::validate(&schema).unwrap();
    jsonschema::validator_for(&schema).unwrap()
}

/// The documents of a folder of `vectors`, with their names.
fn documents(folder: &str) -> Vec<(String, Vec<u8>)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("vectors").join(folder);
    let mut all = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|extension| extension == "json") {
            all.push((path.file_name().unwrap().to_string_lossy().into_owned(), fs::read(path).unwrap()));
        }
    }
    all.sort();
    all
}

/// The schema of a format as it is checked in; `BLESS=1` writes it anew.
fn checked_in(format: &str, current: &str) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("../core/schema/{format}-1.json"));
    if std::env::var_os("BLESS").is_some() {
        fs::write(&path, current).unwrap();
    }
    assert_eq!(fs::read_to_string(&path).unwrap_or_default(), current, "{format}");
}

#[test]
fn the_checked_in_schema_is_the_current_one() {
    checked_in("recipe", &recipe::schema::recipe());
}

/// A setting that says all that can be said.
const SETTING: &str = r#"{
  "lamella": "heat/1", "mould": 1,
  "walls": [{"sheet": "wood", "thickness": "18 mm"}], "base": [],
  "surroundings": [
    {"from": "0 h", "air": "21 °C", "cover": [{"sheet": "cardboard", "thickness": "5 mm"}],
     "around": [{"sheet": "blanket", "thickness": "0.8 in"}]},
    {"from": "180 min", "air": "5 °C"}],
  "pours": [{"at": "0 min", "temperature": "97 °F"}, {"at": "20 min"}],
  "until": "1.5 d",
  "own": {"rate": "120 %", "rate_within": "15 %", "insulation": "90 %", "insulation_within": "10 %",
    "heat": "100 %", "heat_within": "3 %"}
}"#;

/// A document as its reader takes it, or the codes of what is wrong with it.
fn taken(format: &str, text: &str) -> Result<(), Vec<&'static str>> {
    let problems = match format {
        "blend" => blend::read(text).err(),
        "batch" => follow::read(text).err(),
        _ => heat::read_setting(text).err(),
    };
    problems.map_or(Ok(()), |problems| Err(problems.iter().map(|problem| problem.code).collect()))
}

#[test]
fn schemas_of_blends_batches_and_settings_are_current_and_of_one_mind_with_the_reader() {
    let texts = |folder: &str| -> Vec<String> {
        documents(folder).into_iter().map(|(_, bytes)| String::from_utf8(bytes).unwrap()).collect()
    };
    let mut batches = texts("batch");
    for text in texts("valid") {
        batches.extend(Batch::new(recipe::read(&text).unwrap()).map(|batch| batch.to_json()));
    }
    assert!(batches.len() > 8);
    let settings = vec![SETTING.to_owned(), r#"{"lamella": "heat/1"}"#.to_owned()];
    for (format, current, good) in [
        ("blend", blend::schema(), texts("blend")),
        ("batch", follow::schema(), batches),
        ("heat", heat::schema(), settings),
    ] {
        checked_in(format, &current);
        let schema: Value = serde_json::from_str(&current).unwrap();
        jsonschema::meta::validate(&schema).unwrap();
        let validator = jsonschema::validator_for(&schema).unwrap();
        for text in good {
            let document: Value = serde_json::from_str(&text).unwrap();
            let errors: Vec<_> = validator.iter_errors(&document).map(|error| error.to_string()).collect();
            assert!(errors.is_empty(), "{text}: {errors:#?}");
            assert_eq!(taken(format, &text), Ok(()), "{text}");
            // What a schema can see, both refuse: another format, a field that is not known, one of another type.
            for (field, value) in
                [("lamella", json!("recipe/9")), ("colour", json!(1)), ("lamella", json!(7))]
            {
                let mut bad = document.clone();
                bad[field] = value;
                assert!(!validator.is_valid(&bad), "{bad}");
                assert!(taken(format, &bad.to_string()).is_err(), "{bad}");
            }
        }
    }
}

#[test]
fn what_the_reader_takes_satisfies_the_schema() {
    let validator = validator();
    let mut all = documents("valid");
    all.extend(documents("valid/canonical"));
    assert!(all.len() >= 18);
    for (name, bytes) in all {
        let document: Value = serde_json::from_slice(&bytes).unwrap();
        let errors: Vec<_> = validator
            .iter_errors(&document)
            .map(|error| format!("{}: {error}", error.instance_path()))
            .collect();
        assert!(errors.is_empty(), "{name}: {errors:#?}");
        assert!(recipe::read_bytes(&bytes).is_ok(), "{name}");
    }
}

/// A schema cannot add up, compare or look up. All else in the bad documents it must see.
#[test]
fn the_schema_refuses_what_a_schema_can() {
    let validator = validator();
    let seen_by_a_schema = [
        "document.format",
        "field.unknown",
        "field.missing",
        "field.type",
        "field.word",
        "field.text",
        "field.choice",
        "list.length",
        "quantity.form",
        "quantity.comma",
        "quantity.unit.missing",
        "quantity.unit.unknown",
    ];
    // A float that is whole is an integer to a schema; a name is refused only where the library has one.
    let but = ["field_type_bars_float.json", "material_name_of_known.json"];
    let mut refused = 0;
    for (name, bytes) in documents("bad") {
        let Ok(document) = serde_json::from_slice::<Value>(&bytes) else { continue };
        let Err(problems) = recipe::read_bytes(&bytes) else { continue };
        let visible = problems.iter().any(|problem| seen_by_a_schema.contains(&problem.code));
        if visible && !but.contains(&name.as_str()) {
            assert!(!validator.is_valid(&document), "{name}");
            refused += 1;
        }
    }
    assert!(refused >= 70, "{refused}");
}

#[test]
fn units_and_numbers_are_those_of_the_reader() {
    let validator = validator();
    let document = |field: &str, value: &str| {
        let mut document: Value = serde_json::from_str(include_str!("vectors/valid/plain.json")).unwrap();
        if field == "layer" {
            document["layers"][0]["share"] = value.into();
            document["moulds"] =
                serde_json::json!([{"shape": "upright cylinder", "diameter": "8 cm", "height": "10 cm"}]);
        } else {
            document["size"]["fat"] = value.into();
        }
        document
    };
    let masses = [
        "1g",
        "1 g",
        " 1.50 kg ",
        "12 oz",
        "2 lb 3 oz",
        "1 st 2 lb 3 oz",
        "2 lb3 oz",
        "2lb 3oz",
        "1 US cwt",
        "5 gr",
        "1",
        ".5 g",
        "5. g",
        "1e3 g",
        "1,5 g",
        "1 ml",
        "1 kg 2",
        "kg",
        "",
        "1 G",
        "1 lbs",
        "1 g;",
        "1 lb 1 oz 1 dr 1 gr",
        "1\tg",
    ];
    for text in masses {
        let document = document("size", text);
        let read = recipe::read(&document.to_string());
        assert_eq!(validator.is_valid(&document), read.is_ok(), "{text:?}: {read:?}");
    }
    let shares = [
        "1 part",
        "2parts",
        "20 %",
        "12 mm",
        "1 in",
        "0.5\"",
        "1 ft 2 in",
        "250 g",
        "1 UK fl oz",
        "150 mL",
        "100 cm³",
        "1 m3",
        "parts",
        "1 partss",
        "2",
        "1 °C",
    ];
    for text in shares {
        let document = document("layer", text);
        let read = recipe::read(&document.to_string());
        assert_eq!(validator.is_valid(&document), read.is_ok(), "{text:?}: {read:?}");
    }
}
