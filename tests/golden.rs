//! Each folder of `vectors/golden`: its `recipe.json` becomes its `plan.json`, byte for byte.

use lamella_tests::{compare, golden, read};

#[test]
fn plans_are_as_they_were() {
    for folder in golden() {
        let plan = lamella::plan_json(&read(&folder.join("recipe.json")))
            .unwrap_or_else(|failure| panic!("{}:\n{failure}", folder.display()));
        compare(&folder.join("plan.json"), &plan);
    }
}

/// What a maker changes in a recipe's file without changing the recipe changes nothing in the plan.
#[test]
fn spaces_do_not_matter() {
    for folder in golden() {
        let text = String::from_utf8(read(&folder.join("recipe.json"))).unwrap();
        let wide = text.replace('\n', "\r\n\t");
        assert_eq!(lamella::plan_json(wide.as_bytes()), lamella::plan_json(text.as_bytes()));
    }
}
