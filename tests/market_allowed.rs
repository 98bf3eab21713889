//! What the annexes do not allow in a bar, on each side of every limit, and what a list leaves to be seen to.
#![expect(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

use lamella::market::dossier::{Dossier, DossierLine, DossierOptions};
use lamella::market::envelope::verdict;
use lamella::market::label::{LabelFacts, label};
use lamella::market::{IngredientList, ListOptions, Market, Style, ingredients};
use lamella::{Plan, Problem, recipe};
use serde_json::{Value, json};

const EUROPE: [Market; 2] = [Market::EuropeanUnion, Market::GreatBritain];

fn made(fats: Value, doses: Value, colours: Value) -> (lamella::recipe::Recipe, Plan) {
    let document = json!({"lamella": "recipe/1", "name": "Allowed", "for": "sale", "fats": fats, "alkali": {"naoh": {}},
        "superfat": "5 %", "water": {"lye_concentration": "33 %"},
        "layers": [{"layer": "All", "share": "1 part", "doses": doses, "colours": colours}]});
    let recipe = recipe::read(&document.to_string()).unwrap();
    let plan = Plan::of(&recipe).unwrap();
    (recipe, plan)
}

fn olive() -> Value {
    json!([{"fat": "olive-oil", "mass": "1 kg"}])
}

fn listed(
    (recipe, plan): &(lamella::recipe::Recipe, Plan),
    options: &ListOptions,
) -> Result<IngredientList, Vec<Problem>> {
    ingredients(plan, recipe, None, options)
}

fn coloured(colour: Value, options: &ListOptions) -> Result<IngredientList, Vec<Problem>> {
    listed(&made(olive(), json!([]), json!([colour])), options)
}

fn charged(market: Market) -> ListOptions {
    ListOptions::new(market, Style::AsCharged)
}

fn codes(problems: &[Problem]) -> Vec<(&str, &str)> {
    problems.iter().map(|problem| (problem.code, problem.pointer.as_str())).collect()
}

/// A colour of one's own with a number that annex IV does not list, or lists for what is rinsed off.
#[test]
fn a_colour_outside_annex_iv_makes_no_label_in_europe() {
    let own = |number: &str| json!({"colour": "mine", "swatch": "#aa2211", "colour_index": number, "dose": "0.1 %"});
    for market in EUROPE {
        for number in ["75330", "75815", "77019", "77820"] {
            let problems = coloured(own(number), &charged(market)).unwrap_err();
            assert_eq!(codes(&problems), [("label.colour", "/layers/0/colours/0")], "{number}");
        }
        for number in ["77891", "77510", "45100"] {
            assert!(coloured(own(number), &charged(market)).is_ok(), "{number}");
        }
        let stays = ListOptions { leave_on: true, ..charged(market) };
        assert!(coloured(own("77891"), &stays).is_ok());
        let problems = coloured(own("45100"), &stays).unwrap_err();
        assert_eq!(codes(&problems), [("label.colour", "/layers/0/colours/0")]);
        assert!(problems.first().unwrap().message.contains("rinsed off"), "{problems:?}");
    }
    // The list of the United States is another one, and is not held here.
    assert!(coloured(own("75330"), &charged(Market::UnitedStates)).is_ok());
}

/// CI 45350 may be 6 % of the product: the batch weighs 1000 g of fat and what comes with it.
#[test]
fn a_colour_above_its_share_makes_no_label() {
    let own =
        |dose: String| json!({"colour": "mine", "swatch": "#ddcc22", "colour_index": "45350", "dose": dose});
    let at = |dose: i32| coloured(own(format!("{dose}.0 g")), &charged(Market::EuropeanUnion));
    let share =
        |list: &IngredientList| list.entries.iter().find(|entry| entry.name == "CI 45350").unwrap().share;
    let limit = lamella::quantity::Share::literal(6, 2);
    let first = (50..150).find(|dose| at(*dose).is_err()).unwrap();
    let below = at(first - 1).unwrap();
    assert!(share(&below) <= limit, "{}", share(&below));
    let next = share(&below) + share(&below) - share(&at(first - 2).unwrap());
    assert!(next > limit, "{next}");
}

/// Plants, clays and carbon are ordinary ingredients; as colours they are none of annex IV.
#[test]
fn what_annex_iv_does_not_list_is_told_where_it_is_there_for_its_colour() {
    for market in EUROPE {
        for colour in ["madder-root", "paprika", "spirulina", "activated-charcoal", "french-green-clay"] {
            let list = coloured(json!({"colour": colour, "dose": "1 %"}), &charged(market)).unwrap();
            assert_eq!(codes(&list.cautions), [("label.purpose", "/layers/0/colours/0")], "{colour}");
        }
        for colour in ["ultramarine-blue", "kaolin", "bentonite", "mica-gold", "indigo", "rose-clay"] {
            let list = coloured(json!({"colour": colour, "dose": "0.5 %"}), &charged(market)).unwrap();
            assert_eq!(codes(&list.cautions), [], "{colour}");
        }
        // The same plant as an additive is not said to be there for its colour.
        let list = listed(
            &made(olive(), json!([{"additive": "paprika", "dose": "1 %"}]), json!([])),
            &charged(market),
        );
        assert_eq!(codes(&list.unwrap().cautions), []);
    }
    let list =
        coloured(json!({"colour": "madder-root", "dose": "1 %"}), &charged(Market::UnitedStates)).unwrap();
    assert_eq!(codes(&list.cautions), []);
}

/// 0.5 ppm of protein, and no more, in what is made from peanut.
#[test]
fn peanut_above_half_a_millionth_of_protein_makes_no_label_in_europe() {
    let dosed = |protein: &str, market| {
        let dose = json!({"additive": "peanut-extract", "inci": "Arachis Hypogaea Fruit Extract", "dose": "1 %",
            "composition": {"protein": protein, "minerals": "50 %"}});
        listed(&made(olive(), json!([dose]), json!([])), &charged(market))
    };
    for market in EUROPE {
        assert!(dosed("0.00005 %", market).is_ok());
        let problems = dosed("0.000051 %", market).unwrap_err();
        assert_eq!(codes(&problems), [("label.peanut", "/layers/0/doses/0")]);
        // The butter of the library has no label name either: both are said at once.
        let butter = json!([{"additive": "peanut-butter", "dose": "1 %"}]);
        let problems = listed(&made(olive(), butter, json!([])), &charged(market)).unwrap_err();
        let told = codes(&problems);
        assert_eq!(told, [("label.inci", "/layers/0/doses/0"), ("label.peanut", "/layers/0/doses/0")]);
    }
    assert!(dosed("0.000051 %", Market::UnitedStates).is_ok());
}

#[test]
fn peanut_oil_asks_for_its_certificate_in_europe() {
    let fats = json!([{"fat": "olive-oil", "mass": "900 g"}, {"fat": "peanut-oil", "mass": "100 g"}]);
    let bars = made(fats, json!([]), json!([]));
    for market in EUROPE {
        let list = listed(&bars, &charged(market)).unwrap();
        assert_eq!(codes(&list.cautions), [("label.statement", "/fats/1")]);
    }
    assert_eq!(codes(&listed(&bars, &charged(Market::UnitedStates)).unwrap().cautions), []);
    let plain = listed(&made(olive(), json!([]), json!([])), &charged(Market::EuropeanUnion)).unwrap();
    assert_eq!(codes(&plain.cautions), []);
}

/// No inventory names the sodium soap of hemp seed oil: no name is made up for it, and the label says so.
#[test]
fn a_soap_that_no_inventory_names_stands_under_its_fat_and_is_told() {
    let fats = json!([{"fat": "olive-oil", "mass": "700 g"}, {"fat": "hemp-seed-oil", "mass": "300 g"}]);
    let bars = made(fats.clone(), json!([]), json!([]));
    for market in [Market::EuropeanUnion, Market::GreatBritain, Market::UnitedStates] {
        let list = listed(&bars, &ListOptions::new(market, Style::AsFormed)).unwrap();
        let names: Vec<&str> = list.entries.iter().map(|entry| entry.name.as_str()).collect();
        let (first, second) = (names.first().copied(), names.get(1).copied());
        assert_eq!((first, second), (Some("Sodium Olivate"), Some("Cannabis Sativa Seed Oil")), "{names:?}");
        assert_eq!(names.iter().filter(|name| name.contains("Cannabis")).count(), 1);
        assert_eq!(codes(&list.cautions), [("label.soap", "/fats/1")]);
        assert_eq!(codes(&listed(&bars, &charged(market)).unwrap().cautions), [], "as charged");
    }
    let (recipe, plan) = &bars;
    let options = ListOptions::new(Market::EuropeanUnion, Style::AsFormed);
    let judged = verdict(plan, recipe, None).unwrap();
    let copy = label(plan, recipe, &LabelFacts::default(), &options, &judged).unwrap();
    let told: Vec<_> = copy.notes.iter().filter(|note| note.contains("Hemp seed oil")).collect();
    assert_eq!(told.len(), 1, "{:?}", copy.notes);
    assert!(told.iter().all(|note| note.contains("ask the assessor")), "{told:?}");
    // The assessor is not told that it is all oil: what it is, no number of the oil, what it is there for.
    let papers = Dossier::of(plan, recipe, DossierOptions::default()).unwrap();
    let hemp = |lines: &[DossierLine]| {
        let line =
            lines.iter().find(|line| line.inci.as_deref() == Some("Cannabis Sativa Seed Oil")).unwrap();
        (line.name.clone(), line.function.clone())
    };
    let both =
        [hemp(&papers.at_filling), hemp(&papers.cured)].map(|(name, function)| format!("{name}: {function}"));
    assert_eq!(
        both,
        ["Hemp seed oil: emollient", "soap of Hemp seed oil, and what is left of it: cleansing"]
    );
    // With a name of its own, nothing is left to ask.
    let mut named = fats;
    named[1]["certificate"] = json!({"sodium_soap_inci": "Name From The Assessor"});
    let list = listed(&made(named, json!([]), json!([])), &options).unwrap();
    assert_eq!(codes(&list.cautions), []);
    assert!(list.text().contains("Name From The Assessor"), "{}", list.text());
}

/// 40 g of coffee stands as its water and what the water took up: Aqua has the water, and the extract is the least of all.
#[test]
fn a_brew_is_water_and_its_extract() {
    let dose = json!([{"additive": "coffee", "dose": "4 %"}]);
    let list = listed(&made(olive(), dose, json!([])), &charged(Market::EuropeanUnion)).unwrap();
    let names: Vec<&str> = list.entries.iter().map(|entry| entry.name.as_str()).collect();
    let wanted = ["Olea Europaea Fruit Oil", "Aqua", "Sodium Hydroxide", "Coffea Arabica Seed Extract"];
    assert_eq!(names, wanted);
    let water = list.entries.iter().find(|entry| entry.name == "Aqua").unwrap();
    assert_eq!(water.materials, ["water", "coffee"]);
}
