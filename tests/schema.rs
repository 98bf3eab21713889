//! The schema of documents: checked in, and of one mind with the reader.
#![expect(clippy::unwrap_used, reason = "a test stops at what it did not expect; its counts are small")]

use std::fs;
use std::path::Path;

use lamella::recipe;
use serde_json::Value;

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

/// `BLESS=1` writes it anew.
#[test]
fn the_checked_in_schema_is_the_current_one() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../core/schema/recipe-1.json");
    let current = recipe::schema::recipe();
    if std::env::var_os("BLESS").is_some() {
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(&path, &current).unwrap();
    }
    assert_eq!(fs::read_to_string(&path).unwrap_or_default(), current);
}

/// `BLESS=1` writes them anew.
#[test]
fn the_schemas_of_batch_blend_and_heat_are_the_current_ones() {
    let all = [
        ("batch-1", lamella::follow::schema()),
        ("blend-1", lamella::blend::schema()),
        ("heat-1", lamella::heat::schema()),
    ];
    for (name, current) in all {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("../core/schema/{name}.json"));
        lamella_tests::compare(&path, &current);
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
