//! Small batches on coarse scales: each is planned, or refused with the place that a scale is too coarse for and advice that
//! makes a plan of it.
#![expect(clippy::unwrap_used, clippy::panic, reason = "a test stops at what it did not expect")]

use lamella::Plan;
use lamella::laws::strategy;
use lamella::problem::Problem;
use lamella::quantity::Mass;
use lamella::recipe::{self, FatAmount, Recipe, Scale, Size};
use proptest::prelude::*;

fn only_scale(step: Mass) -> Vec<Scale> {
    vec![Scale { name: "only".to_owned(), step, capacity: "900 kg".parse().unwrap() }]
}

/// The step that a problem advises.
fn advised(problem: &Problem) -> Mass {
    let (_, after) = problem.advice.split_once("steps of ").unwrap_or_else(|| panic!("{problem:?}"));
    after.split(" or finer").next().unwrap().parse().unwrap()
}

/// What is said of a small batch holds: nothing is beyond computing, each refusal has a place, and what it advises plans.
fn holds(recipe: &Recipe) -> Result<&'static str, String> {
    let problems = match Plan::of(recipe) {
        Ok(_) => return Ok("planned"),
        Err(problems) => problems,
    };
    let text = recipe::write(recipe);
    for problem in &problems {
        if problem.code == "plan.number" || problem.pointer.is_empty() {
            return Err(format!("{problem:?}\n{text}"));
        }
    }
    let coarse: Vec<&Problem> = problems.iter().filter(|problem| problem.code == "scale.coarse").collect();
    if coarse.len() < problems.len() {
        return Ok("another");
    }
    let mut finer = recipe.clone();
    finer.workshop.scales = only_scale(coarse.iter().map(|problem| advised(problem)).min().unwrap());
    match Plan::of(&finer) {
        Ok(_) => Ok("coarse"),
        Err(again) => Err(format!("{problems:#?}\nthen {again:#?}\n{text}")),
    }
}

fn nine_layers(scales: &str) -> Recipe {
    let eight: String =
        (1..9).map(|index| format!(r#", {{"layer": "L{index}", "share": "18 parts"}}"#)).collect();
    let text = format!(
        r#"{{"lamella": "recipe/1", "name": "Nine", "superfat": "5 %",
        "fats": [{{"fat": "olive-oil", "share": "70 %"}}, {{"fat": "coconut-oil", "share": "30 %"}}],
        "alkali": {{"naoh": {{"purity": "99 %"}}}}, "water": {{"lye_concentration": "33 %"}}, "size": {{"fat": "291 g"}},
        "workshop": {{"scales": [{scales}], "pot_residue": "3 g"}},
        "layers": [{{"layer": "Silk", "share": "1 part", "doses": [{{"additive": "silk-amino-acids", "dose": "6.45 g"}}]}}{eight}]}}"#
    );
    recipe::read(&text).unwrap_or_else(|problems| panic!("{}", recipe::render(&problems, &text, "nine.json")))
}

/// Two grams of fat in steps of 5 g are none. This was "a figure beyond what can be computed", with no place.
#[test]
fn a_layer_that_a_scale_is_too_coarse_for_is_named_with_its_figure() {
    let recipe = nine_layers(r#"{"scale": "jugs", "step": "10 g", "capacity": "30 kg"}"#);
    let problems = Plan::of(&recipe).unwrap_err();
    for problem in &problems {
        assert_eq!((problem.code, problem.pointer.as_str()), ("scale.coarse", "/layers/0"));
    }
    for words in ["Silk", "1.99 g", "steps of 10 g"] {
        assert!(problems[0].message.contains(words), "{problems:#?}");
    }
    assert_eq!(holds(&recipe), Ok("coarse"));
    assert_eq!(
        holds(&nine_layers(r#"{"scale": "jugs", "step": "0.01 g", "capacity": "30 kg"}"#)),
        Ok("planned")
    );
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn small_batches_on_coarse_scales_are_planned_or_told_where_and_what_helps(
        text in strategy::documents(),
        step in prop_oneof![Just("1 g"), Just("5 g"), Just("20 g"), Just("100 g"), Just("1 oz"), Just("700 g")],
        fat in 1_i64..=400,
    ) {
        let mut recipe = recipe::read(&text).unwrap();
        recipe.workshop.scales = only_scale(step.parse().unwrap());
        let by_mass = matches!(recipe.fats[0].amount, FatAmount::Mass(_));
        if recipe.size.is_some() && !by_mass {
            recipe.size = Some(Size::Fat(Mass::try_new(fat).unwrap()));
        }
        let held = holds(&recipe);
        prop_assert!(held.is_ok(), "{}", held.unwrap_err());
    }
}
