//! Label, dossier and schema of the example, as they are checked in. `BLESS=1` writes them anew.
#![expect(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

use std::fs;
use std::path::Path;

use lamella::market::dossier::{self, Dossier, DossierOptions};
use lamella::market::label::{self, LabelFacts};
use lamella::market::{EXAMPLE_ASSESSMENT, ListOptions, Market, Style, envelope};
use lamella::{EXAMPLE, Plan, recipe};
use serde_json::Value;

fn held(file: &str, current: &str) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(file);
    if std::env::var_os("BLESS").is_some() {
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(&path, current).unwrap();
    }
    assert_eq!(fs::read_to_string(&path).unwrap_or_default(), current, "{file}");
}

#[test]
fn the_example_is_as_it_was() {
    let recipe = recipe::read(EXAMPLE).unwrap();
    let plan = Plan::of(&recipe).unwrap();
    let assessment = envelope::read(EXAMPLE_ASSESSMENT).unwrap();
    let verdict = envelope::verdict(&plan, &recipe, Some(&assessment)).unwrap();
    let folder = "vectors/golden/tidal-strata/market";
    let facts = LabelFacts {
        responsible: "A. Maker, 1 Shore Road, Anytown".to_owned(),
        nominal: Some("100 g".parse().unwrap()),
        batch: "26-031".to_owned(),
        function: "Soap".to_owned(),
        ..LabelFacts::default()
    };
    let copy = |market, style| {
        label::label(&plan, &recipe, &facts, &ListOptions::new(market, style), &verdict).unwrap()
    };
    for (name, market, style) in [
        ("eu", Market::EuropeanUnion, Style::AsCharged),
        ("gb-formed", Market::GreatBritain, Style::AsFormed),
        ("us", Market::UnitedStates, Style::AsCharged),
    ] {
        let copy = copy(market, style);
        held(&format!("{folder}/label-{name}.txt"), &label::text(&copy));
        held(&format!("{folder}/label-{name}.md"), &label::markdown(&copy));
    }
    let dossier = Dossier::of(&plan, &recipe, DossierOptions::default()).unwrap();
    held(&format!("{folder}/dossier.txt"), &dossier::text(&dossier));
    held(&format!("{folder}/dossier.md"), &dossier::markdown(&dossier));
    held(&format!("{folder}/dossier.csv"), &dossier::csv(&dossier));
    let json = dossier::json(&dossier).unwrap();
    held(&format!("{folder}/dossier.json"), &json);
    let document: Value = serde_json::from_str(&json).unwrap();
    assert_eq!(document["lamella"], "dossier/1");
    let rows = dossier::csv(&dossier).lines().count();
    assert_eq!(rows, 1 + dossier.at_filling.len() + dossier.cured.len());
}

#[test]
fn the_schema_of_assessments_is_the_current_one_and_takes_the_example() {
    let schema = envelope::schema();
    held("../core/schema/assessment-1.json", &schema);
    let schema: Value = serde_json::from_str(&schema).unwrap();
    jsonschema::meta::validate(&schema).unwrap();
    let validator = jsonschema::validator_for(&schema).unwrap();
    assert!(validator.is_valid(&serde_json::from_str(EXAMPLE_ASSESSMENT).unwrap()));
}

#[test]
fn a_cell_that_looks_like_a_formula_or_has_commas_stays_a_text() {
    let text = EXAMPLE.replace(
        r#"{ "additive": "kaolin", "dose": "2.5 %" }"#,
        r#"{ "additive": "mud", "name": "=HYPERLINK(\"x\"), mud", "dose": "2.5 %", "composition": {"minerals": "100 %"} }"#,
    );
    let recipe = recipe::read(&text).unwrap();
    let plan = Plan::of(&recipe).unwrap();
    let dossier = Dossier::of(&plan, &recipe, DossierOptions::default()).unwrap();
    assert!(dossier::csv(&dossier).contains(r#","'=HYPERLINK(""x""), mud","#));
}
