//! Ingredient lists against lists worked by hand: `vectors/market/lists.json` shows the working of each.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test stops at what it did not expect; its counts are small"
)]

use lamella::market::{ListOptions, Market, Style, ingredients};
use lamella::{Plan, recipe};
use serde_json::Value;

fn document(base: &Value, change: &Value) -> String {
    let mut recipe = base.clone();
    if let (Some(recipe), Some(change)) = (recipe.as_object_mut(), change.as_object()) {
        recipe.extend(change.iter().map(|(field, value)| (field.clone(), value.clone())));
    }
    recipe.to_string()
}

fn options(case: &Value) -> ListOptions {
    let market = match case["market"].as_str().unwrap() {
        "eu" => Market::EuropeanUnion,
        "gb" => Market::GreatBritain,
        "us" => Market::UnitedStates,
        other => panic!("{other}"),
    };
    let style = if case["style"] == "as formed" { Style::AsFormed } else { Style::AsCharged };
    let nano = case["nano"].as_array().into_iter().flatten();
    ListOptions {
        nano: nano.map(|id| id.as_str().unwrap().to_owned()).collect(),
        leave_on: case["leave_on"] == true,
        placed_on: case["placed_on"].as_str().map(|day| day.parse().unwrap()),
        ..ListOptions::new(market, style)
    }
}

#[test]
fn lists_are_those_worked_by_hand() {
    let vectors: Value = serde_json::from_str(include_str!("vectors/market/lists.json")).unwrap();
    let cases = vectors["cases"].as_array().unwrap();
    assert!(cases.len() >= 20);
    let mut wrong = Vec::new();
    for case in cases {
        let text = document(&vectors["base"], &case["recipe"]);
        let recipe = recipe::read(&text).unwrap_or_else(|problems| {
            panic!("{}:\n{}", case["name"], recipe::render(&problems, &text, "case.json"))
        });
        let plan = Plan::of(&recipe).unwrap();
        let layer = case["layer"].as_u64().map(|layer| usize::try_from(layer).unwrap());
        let list = ingredients(&plan, &recipe, layer, &options(case)).unwrap();
        let found: Vec<&str> = list.entries.iter().map(|entry| entry.name.as_str()).collect();
        let wanted: Vec<&str> =
            case["expected"].as_array().unwrap().iter().map(|name| name.as_str().unwrap()).collect();
        if found != wanted {
            wrong.push(format!("{}\nwanted {wanted:?}\nfound  {found:?}", case["name"]));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}

#[test]
fn a_material_without_a_name_is_a_problem_at_sale_and_not_at_plan() {
    let vectors: Value = serde_json::from_str(include_str!("vectors/market/lists.json")).unwrap();
    let change = serde_json::json!({"layers": [{"layer": "All", "share": "1 part",
        "doses": [{"additive": "sea-mud", "dose": "4 %", "composition": {"minerals": "90 %"}}],
        "colours": [{"colour": "barn-red", "swatch": "#aa2211", "dose": "1 %"}]}]});
    let recipe = recipe::read(&document(&vectors["base"], &change)).unwrap();
    let plan = Plan::of(&recipe).unwrap();
    let options = ListOptions::new(Market::EuropeanUnion, Style::AsCharged);
    let problems = ingredients(&plan, &recipe, None, &options).unwrap_err();
    let told: Vec<_> = problems.iter().map(|problem| (problem.code, problem.pointer.as_str())).collect();
    assert_eq!(told, [("label.inci", "/layers/0/doses/0"), ("label.inci", "/layers/0/colours/0")]);
    let nowhere = ingredients(&plan, &recipe, Some(7), &options).unwrap_err();
    assert_eq!(nowhere[0].code, "label.layer");
}

/// A fat without a label name in the library gets one, and its soaps get theirs, from its certificate.
#[test]
fn a_certificate_may_name_a_fat_and_its_soaps() {
    let vectors: Value = serde_json::from_str(include_str!("vectors/market/lists.json")).unwrap();
    let listed = |certificate: Value, style| {
        let change = serde_json::json!({"fats": [{"fat": "olive-oil", "mass": "700 g"},
            {"fat": "goose-fat", "mass": "300 g", "certificate": certificate}]});
        let recipe = recipe::read(&document(&vectors["base"], &change)).unwrap();
        let plan = Plan::of(&recipe).unwrap();
        let list = ingredients(&plan, &recipe, None, &ListOptions::new(Market::EuropeanUnion, style));
        list.map(|list| list.entries.iter().map(|entry| entry.name.clone()).collect::<Vec<_>>())
    };
    let unnamed = listed(serde_json::json!({"iodine_value": "70"}), Style::AsCharged).unwrap_err();
    let [problem] = unnamed.as_slice() else { panic!("{unnamed:?}") };
    assert_eq!((problem.code, problem.pointer.as_str()), ("label.inci", "/fats/1"));
    assert!(problem.advice.contains("certificate"), "{problem:?}");

    let named = serde_json::json!({"inci": "Goose Fat"});
    let list = listed(named.clone(), Style::AsCharged).unwrap();
    assert_eq!(list, ["Olea Europaea Fruit Oil", "Goose Fat", "Aqua", "Sodium Hydroxide"]);
    let soapless = listed(named, Style::AsFormed).unwrap();
    assert_eq!(soapless.iter().filter(|name| name.as_str() == "Goose Fat").count(), 1, "{soapless:?}");
    let both = serde_json::json!({"inci": "Goose Fat", "sodium_soap_inci": "Name Of Its Soap"});
    let list = listed(both, Style::AsFormed).unwrap();
    let holds = |name: &str| list.iter().any(|listed| listed == name);
    assert!(holds("Name Of Its Soap") && holds("Goose Fat"), "{list:?}");
}

/// A name alone says nothing of the figures: the saponification value is no surer than before.
#[test]
fn a_name_makes_no_figure_surer() {
    let vectors: Value = serde_json::from_str(include_str!("vectors/market/lists.json")).unwrap();
    let low = |fat: Value| {
        let recipe = recipe::read(&document(&vectors["base"], &serde_json::json!({"fats": [fat]}))).unwrap();
        let plan = Plan::of(&recipe).unwrap();
        lamella::certainty::Certainty::of(&recipe, &plan).unwrap().batch.guaranteed.low
    };
    let plain = serde_json::json!({"fat": "goose-fat", "mass": "300 g"});
    let mut named = plain.clone();
    named["certificate"] = serde_json::json!({"inci": "Goose Fat"});
    assert_eq!(low(plain), low(named));
}
