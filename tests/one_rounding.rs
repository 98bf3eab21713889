//! A figure is rounded once, by one function, and what is beyond a limit is never shown as equal to it.

use lamella::quantity::{Decimal, shown, told_apart};
use lamella::{EXAMPLE, Plan, blend, recipe, screen, sheet};
use lamella_tests::draw::{self, Draw};
use proptest::prelude::*;

/// The number that a text begins with, and the rest.
fn number(text: &str) -> Option<(Decimal, &str)> {
    let end = text.find(|letter: char| !(letter.is_ascii_digit() || matches!(letter, '.' | '-')))?;
    let (number, rest) = text.split_at_checked(end)?;
    Some((number.parse().ok()?, rest))
}

/// A figure and its bound, where both are of one kind; what follows the bound of a range is no unit of the figure.
fn comparable(figure: &str, limit: &str) -> Option<(Decimal, Decimal)> {
    let ((figure, of), (limit, unit)) = (number(figure)?, number(limit)?);
    (of == unit).then_some((figure, limit))
}

#[test]
fn no_caution_shows_a_figure_that_equals_its_limit() {
    let mut compared = 0;
    let mut draw = Draw::new(11);
    for _ in 0..300 {
        let recipe = draw::planned(&mut draw);
        let plan = Plan::of(&recipe).unwrap();
        for caution in &plan.cautions {
            if let Some((figure, limit)) = comparable(&caution.figure, &caution.limit) {
                compared += 1;
                assert_ne!(figure, limit, "{caution:?}");
            }
        }
    }
    assert!(compared > 300, "{compared}");
}

/// 0.52 % was shown as "0.5 %, held against 0.5 %", and sugar of 3.0004 % as 3.0 % against 3.0 %.
#[test]
fn what_is_just_beyond_a_limit_is_told_from_it() {
    let text = EXAMPLE
        .replace(r#"{"additive": "honey", "dose": "1.5 %"}"#, r#"{"additive": "honey", "dose": "3 %"}"#);
    let mut found = false;
    for hundredths in 0..400_u32 {
        let dose = format!("{}.{:02} %", 1 + hundredths / 100, hundredths % 100);
        let text =
            text.replace("\"pumpkin-puree\", \"dose\": \"9 %\"", &format!("\"honey\", \"dose\": \"{dose}\""));
        let Ok(recipe) = recipe::read(&text) else { continue };
        let plan = Plan::of(&recipe).unwrap();
        for caution in plan.cautions.iter().filter(|caution| caution.code == "jug.sugar") {
            let (figure, limit) = comparable(&caution.figure, &caution.limit).unwrap();
            assert!(figure > limit, "{caution:?}");
            found = true;
        }
    }
    assert!(found);
}

/// What the page shows of a quantity it takes from `shown`; the sheet has the same digits.
#[test]
fn sheet_and_page_show_one_figure_with_the_same_digits() {
    let mut draw = Draw::new(5);
    for recipe in (0..120).map(|_| draw::planned(&mut draw)).chain([recipe::read(EXAMPLE).unwrap()]) {
        let plan = Plan::of(&recipe).unwrap();
        let sheet = sheet::text(&plan);
        let fat = sheet.split("The fat\n").nth(1).unwrap().to_owned();
        let line =
            |name: &str| fat.lines().find(|line| line.trim_start().starts_with(name)).map(str::to_owned);
        let indices = &plan.batch.indices;
        let same = |name: &str, value: String, unit: &str| {
            let page = shown(&value, unit, Some(1)).unwrap();
            let line = line(name).unwrap();
            assert!(line.split_whitespace().any(|word| word == page), "{name}: {page} on the page, {line:?}");
        };
        same("saponification value, used", indices.saponification_value.to_string(), "mg KOH/g");
        if let Some(value) = indices.computed_iodine_value {
            same("iodine value, from the fatty acids", value.to_string(), "g I2/100 g");
        }
        for class in indices.classes.iter().filter(|class| !class.share.is_zero()) {
            same(class.class.name(), class.share.to_string(), "%");
        }
        // Where a figure comes from, said beside the figure: the same two decimals as on the sheet.
        for (index, jug) in plan.jugs.iter().enumerate() {
            let explained = screen::explain(&recipe, &plan, &format!("superfat/{index}")).unwrap();
            let page = shown(&jug.superfat.to_string(), "%", Some(2)).unwrap();
            let words = format!("{explained:?}");
            assert!(words.contains(&format!("{page} %")), "{page}: {words}");
            assert!(sheet.contains(&format!("{page} %")), "{page}: {}", jug.name);
        }
    }
}

/// Solver and plan agree on a blend of fats; where additives bring fat of their own, each says what it counts.
#[test]
fn solver_and_plan_agree_on_the_fats_and_say_what_they_count() {
    let text = std::fs::read_to_string(lamella_tests::vectors("blend").join("kitchen.json")).unwrap();
    let request = blend::read(&text).unwrap();
    let answer = blend::solve(&request).unwrap();
    let printed = blend::render(&answer);
    assert!(printed.contains("of these fats alone"), "{printed}");
    let plan = Plan::of(&recipe::read(EXAMPLE).unwrap()).unwrap();
    assert!(sheet::text(&plan).contains("All fat of the batch counts here, that of additives too."));
    let fats: Vec<String> = (answer.fats.iter().filter(|fat| !fat.share.is_zero()))
        .map(|fat| format!(r#"{{"fat": "{}", "share": "{}"}}"#, fat.fat, fat.share))
        .collect();
    let recipe = format!(
        r#"{{"lamella": "recipe/1", "name": "Blend", "fats": [{}], "alkali": {{"naoh": {{}}}}, "superfat": "5 %",
        "water": {{"lye_concentration": "33 %"}}, "size": {{"fat": "10 kg"}},
        "workshop": {{"scales": [{{"scale": "fine", "step": "0.001 g", "capacity": "30 kg"}}]}},
        "layers": [{{"layer": "All", "share": "1 part"}}]}}"#,
        fats.join(", ")
    );
    let plan = Plan::of(&recipe::read(&recipe).unwrap()).unwrap();
    for class in &plan.batch.indices.classes {
        let share = shown(&class.share.to_string(), "%", Some(1)).unwrap();
        let solved = printed.lines().find(|line| line.starts_with(&format!("| {} |", class.class.name())));
        let Some(solved) = solved else { continue };
        let is = solved.split('|').nth(3).unwrap().trim();
        assert_eq!(shown(is, "%", Some(1)).unwrap(), share, "{}", class.class.name());
    }
}

proptest! {
    #[test]
    fn two_figures_that_differ_are_told_apart(found in -10_000_000_i64..10_000_000, off in 1_i64..1000, scale in 0_u32..8) {
        let limit = Decimal::new(found, scale);
        let found = Decimal::new(found.saturating_add(off), scale);
        let (a, b) = told_apart(found, limit, 1);
        prop_assert!(a != b);
        prop_assert!(a.parse::<Decimal>().unwrap() > b.parse::<Decimal>().unwrap());
    }
}
