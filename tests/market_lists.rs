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
