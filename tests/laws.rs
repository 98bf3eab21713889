//! The laws of a plan, on generated recipes and on documents; every figure of a plan against the exact oracle; and proof
//! that each law can fail.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    clippy::expect_used,
    clippy::arithmetic_side_effects,
    reason = "a test stops at what it did not expect"
)]

use std::path::PathBuf;

use lamella::Plan;
use lamella::laws::{self, Broken, change, check, strategy};
use lamella::quantity::{Exact, Mass, Share};
use lamella::recipe::{self, LayerShare, Recipe, Scale};
use lamella_tests::oracle::{self, RBig, compare, exact, published, ratio};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;

fn read(text: &str) -> Recipe {
    recipe::read(text).unwrap_or_else(|problems| panic!("{}", recipe::render(&problems, text, "recipe")))
}

fn plan(recipe: &Recipe) -> Plan {
    Plan::of(recipe).unwrap_or_else(|problems| panic!("{problems:#?}\n{}", recipe::write(recipe)))
}

/// Every figure that a plan states, against the oracle.
fn held_to_the_oracle(recipe: &Recipe) -> Result<(), String> {
    let plan = plan(recipe);
    let ideal = oracle::solve(recipe).ok_or("the oracle finds no size")?;
    let mut apart = compare::differing(&compare::ideals(recipe, &plan, &ideal));
    apart.extend(compare::differing(&compare::weighings(recipe, &plan, &ideal)));
    if apart.is_empty() { Ok(()) } else { Err(format!("{apart:#?}")) }
}

fn kept(recipe: &Recipe) -> Result<(), Broken> {
    laws::ALL.iter().try_for_each(|(_, law)| law(recipe))
}

/// 256 cases, or as many as the environment asks for in `PROPTEST_CASES`. What was found is kept as a document in
/// `vectors/laws`, not as a seed.
fn config() -> ProptestConfig {
    ProptestConfig { failure_persistence: None, ..ProptestConfig::default() }
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn every_figure_is_the_exact_one_correctly_rounded(text in strategy::documents()) {
        let apart = held_to_the_oracle(&read(&text));
        prop_assert!(apart.is_ok(), "{}", apart.unwrap_err());
    }

    #[test]
    fn every_law_holds(text in strategy::documents()) {
        prop_assert_eq!(kept(&read(&text)), Ok(()));
    }

    #[test]
    fn scaling_is_exact_where_nothing_is_rounded(text in strategy::documents(), factor in 2_u32..=7) {
        let recipe = read(&text);
        let Some(more) = change::times(&recipe, factor) else { return Ok(()) };
        let (once, many) = (oracle::solve(&recipe).unwrap(), oracle::solve(&more).unwrap());
        prop_assert_eq!(once.exact, many.exact);
        let factor = ratio(i128::from(factor), 1);
        for (a, b) in amounts(&once).into_iter().zip(amounts(&many)) {
            if once.exact {
                prop_assert_eq!(a * &factor, b);
            } else {
                prop_assert_eq!(published(&(a * &factor)), published(&b));
            }
        }
    }

    #[test]
    fn halves_are_exact_where_nothing_is_rounded(text in strategy::documents(), layer in any::<prop::sample::Index>()) {
        let recipe = read(&text);
        let layer = layer.index(recipe.layers.len());
        let Some(halved) = change::halved(&recipe, layer) else { return Ok(()) };
        let (whole, halves) = (oracle::solve(&recipe).unwrap(), oracle::solve(&halved).unwrap());
        let jug_of = |recipe: &Recipe, layer: usize| {
            let jugs = oracle::Batch::of(recipe).jugs;
            jugs.iter().position(|layers| layers.contains(&layer)).unwrap()
        };
        let jug = &whole.jugs[jug_of(&recipe, layer)];
        let lower = &halves.jugs[jug_of(&halved, layer)];
        let upper = &halves.jugs[jug_of(&halved, layer + 1)];
        let same_jug = jug_of(&halved, layer) == jug_of(&halved, layer + 1);
        let both = if same_jug { lower.lye.clone() } else { &lower.lye + &upper.lye };
        if whole.exact && halves.exact {
            prop_assert_eq!(&jug.lye, &both);
            prop_assert_eq!(&whole.lye, &halves.lye);
            prop_assert_eq!(jug.contents.superfat(), lower.contents.superfat());
        } else {
            prop_assert_eq!(published(&jug.lye), published(&both));
        }
    }
}

/// Every ideal amount of the oracle.
fn amounts(ideal: &oracle::Ideal) -> Vec<RBig> {
    let mut all: Vec<RBig> =
        ideal.fats.iter().chain(&ideal.pot_doses).chain(&ideal.liquids).cloned().collect();
    all.extend(ideal.alkalis.iter().map(|(_, mass)| mass.clone()));
    all.extend(ideal.lye_doses.iter().chain([&ideal.water, &ideal.lye]).cloned());
    for jug in &ideal.jugs {
        all.extend(jug.held.iter().chain(&jug.doses).chain([&jug.portion, &jug.lye]).cloned());
    }
    all
}

/// Every document of the vectors that must plan.
fn documents() -> Vec<(String, Recipe)> {
    let mut paths = lamella_tests::files(&lamella_tests::vectors("laws"));
    paths.extend(lamella_tests::files(&lamella_tests::vectors("valid")));
    paths.retain(|path| path.extension().is_some_and(|extension| extension == "json"));
    paths.extend(lamella_tests::golden().into_iter().map(|folder| folder.join("recipe.json")));
    let named = |path: &PathBuf| (path.display().to_string(), read(&std::fs::read_to_string(path).unwrap()));
    paths.iter().map(named).collect()
}

#[test]
fn documents_keep_every_law_and_the_oracle() {
    let documents = documents();
    assert!(documents.len() > 10);
    for (name, recipe) in documents {
        assert_eq!(kept(&recipe), Ok(()), "{name}");
        assert_eq!(held_to_the_oracle(&recipe), Ok(()), "{name}");
    }
}

/// What a generated document may say: each of these must turn up.
const WORDS: [&str; 44] = [
    "lye_concentration",
    "water_to_alkali",
    "share_of_fat",
    "\"additive_water\":\"counts\"",
    "fat_excess",
    "pure_mass",
    "weighed_mass",
    "\"naoh\":{}",
    "\"after cook\"",
    "\"hot\"",
    "\"sale\"",
    "certificate",
    "\"liquid\":",
    "\"treatment\":\"balance\"",
    "\"of\":\"layer fat\"",
    "\"of\":\"layer\"",
    "\"of\":\"batch fat\"",
    "\"of\":\"batch\"",
    "composition",
    "swatch",
    "\"kind\":\"compound\"",
    "colours",
    "scents",
    "\"tare\"",
    "\"residue\"",
    "\"batter\"",
    "\"bars\"",
    "\"moulds\":\"filled\"",
    "\"size\":{\"fat\"",
    "parts\"",
    " mm\"",
    " mL\"",
    " oz\"",
    "\"loaf\"",
    "\"tapered loaf\"",
    "\"slab\"",
    "\"upright cylinder\"",
    "\"lying cylinder\"",
    "\"box\"",
    "\"frustum\"",
    "\"cone\"",
    "\"bowl\"",
    "\"ounces\"",
    "lye_residue",
];

#[test]
fn strategies_say_everything_and_the_laws_have_something_to_say() {
    let mut runner = TestRunner::deterministic();
    let texts: Vec<String> =
        (0..400).map(|_| strategy::documents().new_tree(&mut runner).unwrap().current()).collect();
    for word in WORDS {
        assert!(texts.iter().any(|text| text.contains(word)), "{word} is never said");
    }
    let recipes: Vec<Recipe> = texts.iter().map(|text| read(text)).collect();
    let most = |what: &str, holds: &dyn Fn(&Recipe) -> bool| {
        let count = recipes.iter().filter(|recipe| holds(recipe)).count();
        assert!(count > 300, "{what}: {count} of 400");
    };
    let plans = |recipe: Option<Recipe>| recipe.is_some_and(|recipe| Plan::of(&recipe).is_ok());
    most("halves", &|recipe| plans(change::halved(recipe, 0)));
    most("scaling", &|recipe| plans(change::times(recipe, 3)));
    let more = Exact::literal(26, 2);
    most("superfat", &|recipe| plans(change::superfat(recipe, more)));
    most("units", &|recipe| change::in_unit(&change::whole_ounces(recipe), "oz").contains(" oz\""));
    most("bound", &|recipe| laws::superfat_span(recipe, &plan(recipe), 0).is_some());
    assert!(recipes.iter().any(|recipe| recipe.fats.len() >= 8));
    assert!(recipes.iter().any(|recipe| recipe.layers.len() == 8));
    assert!(recipes.iter().any(|recipe| recipe.layers.len() > recipe.jugs.len() && recipe.jugs.len() == 3));
    assert!(recipes.iter().any(|recipe| recipe.size.is_none()));
    let kinds = |kind: fn(&LayerShare) -> bool| recipes.iter().any(|recipe| kind(&recipe.layers[0].share));
    assert!(kinds(|share| matches!(share, LayerShare::Mass(_))));
    assert!(kinds(|share| matches!(share, LayerShare::Height(_))));
}

fn golden() -> Recipe {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/vectors/golden/tidal-strata/recipe.json");
    read(&std::fs::read_to_string(path).unwrap())
}

fn grams(text: &str) -> Mass {
    text.parse().unwrap()
}

/// Asserts that a law breaks, and by its own name.
fn breaks(law: &str, result: Result<(), Broken>) {
    let broken = result.expect_err(law);
    assert_eq!(broken.law, law);
    assert!(!broken.message.is_empty());
    assert!(laws::ALL.iter().any(|(name, _)| *name == law));
}

/// A plan of the golden recipe that was tampered with breaks the law.
fn tampered(law: &str, check: impl Fn(&Recipe, &Plan) -> Result<(), Broken>, tamper: impl Fn(&mut Plan)) {
    let recipe = golden();
    let mut plan = plan(&recipe);
    assert_eq!(check(&recipe, &plan), Ok(()));
    tamper(&mut plan);
    breaks(law, check(&recipe, &plan));
}

const TENTH: Mass = Mass::literal(1, 1);
const PICOGRAM: Mass = Mass::literal(1, 12);

#[test]
fn the_law_of_mass_can_fail() {
    tampered("mass", check::mass, |plan| plan.pot.left += PICOGRAM);
    tampered("mass", check::mass, |plan| plan.lye.water.weighed += TENTH);
    tampered("mass", check::mass, |plan| plan.layers[2].portion += TENTH);
    tampered("mass", check::mass, |plan| plan.jugs[1].net += PICOGRAM);
    tampered("mass", check::mass, |plan| plan.jugs[1].cured.parts[0].1 += PICOGRAM);
    tampered("mass", check::mass, |plan| plan.batch.reacted.total += PICOGRAM);
    tampered("mass", check::mass, |plan| plan.batch.mixed += PICOGRAM);
    // Fat that turns to nothing: the parts of a layer no longer close on what is poured.
    tampered("mass", check::mass, |plan| {
        plan.jugs[0].tally.ester = plan.jugs[0].tally.ester - Exact::from(5);
    });
}

#[test]
fn the_law_of_parts_can_fail() {
    tampered("parts", check::parts, |plan| plan.pot.fats[0].weighed += TENTH);
    tampered("parts", check::parts, |plan| plan.jugs[0].portion.weighed += TENTH);
    tampered("parts", check::parts, |plan| plan.jugs[0].lye.weighed += TENTH);
    tampered("parts", check::parts, |plan| plan.jugs[0].lye.ideal += Mass::literal(1, 9));
    // All of it right by the sum, but less left than sticks to the vessel.
    tampered("parts", check::parts, |plan| {
        plan.jugs[0].lye.weighed += TENTH;
        plan.lye.left = plan.lye.left - TENTH;
    });
}

#[test]
fn the_law_of_the_lye_can_fail() {
    tampered("lye", check::lye_order, |plan| plan.lye.order[0].items.clear());
    tampered("lye", check::lye_order, |plan| {
        let again = plan.lye.order[1].items[0].clone();
        plan.lye.order[0].items.push(again);
    });
    // The water after the alkali, or the lye cooled before there is any.
    tampered("lye", check::lye_order, |plan| plan.lye.order.swap(0, 1));
    tampered("lye", check::lye_order, |plan| plan.lye.order.swap(1, 2));
    tampered("lye", check::lye_order, |plan| plan.lye.dissolving.water_to_alkali = "100 %".parse().unwrap());
    // Vinegar into finished lye; and too little water without a word.
    let mut document: serde_json::Value = serde_json::from_str(lamella::EXAMPLE).unwrap();
    document["lye"] = serde_json::json!({"liquids": [{"liquid": "vinegar-cider", "share": "50 %"}]});
    document["water"] = serde_json::json!({"water_to_alkali": "1.2"});
    let recipe = read(&document.to_string());
    let right = plan(&recipe);
    assert_eq!(check::lye_order(&recipe, &right), Ok(()));
    let mut late = right.clone();
    let vinegar = late.lye.order[0].items.remove(1);
    late.lye.order.last_mut().unwrap().items.push(vinegar);
    breaks("lye", check::lye_order(&recipe, &late));
    let mut silent = right;
    silent.cautions.retain(|caution| caution.code != "lye.little-water");
    breaks("lye", check::lye_order(&recipe, &silent));
}

#[test]
fn the_law_of_steps_can_fail() {
    let steps = |_: &Recipe, plan: &Plan| check::steps(plan);
    tampered("steps", steps, |plan| plan.lye.alkalis[0].weighed += PICOGRAM);
    tampered("steps", steps, |plan| plan.lye.alkalis[0].weighed += TENTH);
    tampered("steps", steps, |plan| plan.jugs[0].portion.weighed += grams("0.05 g"));
    tampered("steps", steps, |plan| plan.layers[0].portion += grams("0.05 g"));
    tampered("steps", steps, |plan| plan.pot.fats[0].scale = 0);
}

#[test]
fn the_law_of_readings_can_fail() {
    tampered("readings", check::readings, |plan| plan.layers[3].reading.before += TENTH);
    tampered("readings", check::readings, |plan| plan.layers[3].reading.after += TENTH);
    tampered("readings", check::readings, |plan| plan.jugs[1].gross += TENTH);
    tampered("readings", check::readings, |plan| plan.jugs[1].left = grams("3.9 g"));
}

#[test]
fn the_laws_of_two_plans_can_fail() {
    let recipe = golden();
    let one = plan(&recipe);
    let with = |tamper: &dyn Fn(&mut Plan)| {
        let mut other = one.clone();
        tamper(&mut other);
        other
    };
    let step_moved = with(&|plan| {
        plan.pot.fats[0].weighed += TENTH;
        plan.pot.fats[1].weighed = plan.pot.fats[1].weighed - TENTH;
    });
    breaks("fats-order", check::fats_order(&one, &step_moved));
    breaks("fats-order", check::fats_order(&one, &with(&|plan| plan.jugs[0].lye.ideal += PICOGRAM)));
    let half = Share::literal(5, 1);
    breaks("fats-order", check::fats_order(&one, &with(&|plan| plan.jugs[0].superfat_ideal = half)));
    breaks("fats-order", check::fats_order(&one, &with(&|plan| plan.jugs[0].superfat = half)));

    let other = with(&|plan| plan.lye.water.ideal += PICOGRAM);
    breaks("units", check::same("units", Ok(&one), Ok(&other)));
    breaks("again", check::same("again", Ok(&one), Ok(&other)));
    breaks("again", check::same("again", Ok(&one), Err(&Vec::new())));

    breaks("superfat", check::superfat(&one, &one));
    let less = with(&|plan| {
        plan.lye.alkalis[0].ideal = plan.lye.alkalis[0].ideal - TENTH;
        plan.lye.alkalis[0].weighed += TENTH;
    });
    breaks("superfat", check::superfat(&one, &less));

    let three = plan(&change::times(&recipe, 3).unwrap());
    assert_eq!(check::scaling(&one, &three, 3), Ok(()));
    breaks("scaling", check::scaling(&one, &one, 3));
    breaks("scaling", check::scaling(&one, &three, 4));
    breaks("scaling", check::scaling(&with(&|plan| plan.lye.water.ideal += PICOGRAM), &three, 3));
    breaks("scaling", check::scaling(&with(&|plan| plan.jugs[0].superfat_ideal = half), &three, 3));
}

#[test]
fn the_law_of_halves_can_fail() {
    let recipe = golden();
    let whole = plan(&recipe);
    let halved = plan(&change::halved(&recipe, 0).unwrap());
    assert_eq!(check::halves(&whole, &halved, 0), Ok(()));
    let with = |tamper: &dyn Fn(&mut Plan)| {
        let mut other = halved.clone();
        tamper(&mut other);
        check::halves(&whole, &other, 0)
    };
    breaks("halves", with(&|plan| plan.jugs[0].lye.ideal += Mass::literal(3, 12)));
    breaks("halves", with(&|plan| plan.jugs[1].lye.weighed += grams("0.6 g")));
    breaks("halves", with(&|plan| plan.jugs[1].superfat_ideal += Share::literal(1, 12)));
    breaks("halves", with(&|plan| plan.lye.alkalis[0].ideal += PICOGRAM));
    breaks("halves", check::halves(&whole, &whole, 0));
    breaks("halves", check::halves(&whole, &halved, 99));
    // A layer whose jug it shares: both halves come from that jug, and its lye is as it was.
    let shared = plan(&change::halved(&recipe, 1).unwrap());
    assert_eq!(check::halves(&whole, &shared, 1), Ok(()));
    let mut other = shared;
    other.jugs[1].lye.ideal += PICOGRAM;
    breaks("halves", check::halves(&whole, &other, 1));
}

#[test]
fn the_law_of_the_bound_can_fail() {
    let recipe = golden();
    for (index, jug) in plan(&recipe).jugs.iter().enumerate() {
        let span = laws::superfat_span(&recipe, &plan(&recipe), index).unwrap();
        let width = (span.high - span.low).rounded(4).unwrap();
        // On a 0.1 g scale a jug's superfat is known to about a per cent, and the bound is not much wider than that.
        assert!(width > Exact::literal(1, 3).decimal().unwrap(), "{}: {width}", jug.name);
        assert!(width < Exact::literal(4, 2).decimal().unwrap(), "{}: {width}", jug.name);
        tampered("bound", check::bound, |plan| {
            plan.jugs[index].superfat = Share::try_new(span.high + Exact::literal(1, 9)).unwrap();
        });
        tampered("bound", check::bound, |plan| {
            plan.jugs[index].superfat = Share::try_new(span.low - Exact::literal(1, 9)).unwrap();
        });
    }
}

#[test]
fn the_law_of_documents_can_fail() {
    let recipe = golden();
    assert_eq!(check::document(&recipe, &recipe), Ok(()));
    breaks("document", check::document(&recipe, &change::fats_reversed(&recipe)));
}

#[test]
fn every_law_says_that_a_recipe_cannot_be_planned() {
    let mut recipe = golden();
    recipe.workshop.scales = vec![Scale { name: "toy".to_owned(), step: TENTH, capacity: grams("1 g") }];
    for (name, law) in laws::ALL {
        // These two look at the document, and at the plan only where there is one.
        if !["document", "units"].contains(name) {
            breaks(name, law(&recipe));
        }
    }
}

#[test]
fn the_laws_are_listed_where_they_are_described() {
    let text = include_str!("../core/src/laws/mod.rs");
    for (name, _) in laws::ALL {
        assert!(text.contains(&format!("//! | `{name}` | ")), "{name}");
    }
}

#[test]
fn the_oracle_rounds_half_to_even() {
    let cases = [
        ("0.0000000000005", "0"),
        ("0.0000000000015", "0.000000000002"),
        ("-0.0000000000025", "-0.000000000002"),
    ];
    for (value, rounded) in cases {
        let value: lamella::quantity::Decimal = value.parse().unwrap();
        assert_eq!(published(&exact(value)).to_string(), rounded);
    }
    assert_eq!(oracle::apportion(2570, &[ratio(1, 3), ratio(1, 3), ratio(1, 3)]), [857, 857, 856]);
}
