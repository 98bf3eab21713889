//! Fragrance allergens: the list is whole, its numbers are numbers, and what a certificate says is summed as the law sums it.

use std::collections::BTreeSet;

use lamella::Plan;
use lamella::market::{ListOptions, Market, Style, ingredients, scents};
use lamella::material::{AllergenList, library};
use lamella::quantity::Share;
use lamella::recipe::{self, Recipe};

/// Entries of annex III of Regulation (EC) No 1223/2009 that name an allergen, by the official export of 9 September 2026:
/// 24 of the first 26 (two are prohibited now), and 56 by Regulation (EU) 2023/1545.
fn entries(list: AllergenList) -> BTreeSet<u32> {
    let first = [45, 67].into_iter().chain(69..=78).chain(80..=82).chain(84..=92);
    let old = [109, 114, 122, 124, 131, 133, 154, 157, 175, 196, 324];
    match list {
        AllergenList::Original => first.collect(),
        _ => old.into_iter().chain(327..=371).collect(),
    }
}

#[test]
fn the_list_of_allergens_is_whole() {
    for (list, count) in [(AllergenList::Original, 24), (AllergenList::AddedIn2023, 56)] {
        let rows = library::allergens().iter().filter(|row| row.list == list && !row.prohibited);
        let found: BTreeSet<u32> = rows.clone().map(|row| row.entry.parse().unwrap()).collect();
        assert_eq!(rows.count(), count);
        // Entries 70 and 76 and others are one name each, so that no entry is there twice.
        let wanted = entries(list);
        assert_eq!(found, wanted);
        assert_eq!(found.len(), count);
    }
    let prohibited: Vec<&str> =
        library::allergens().iter().filter(|row| row.prohibited).map(|row| &*row.entry).collect();
    assert_eq!(prohibited, ["1666", "1380"], "annex II");
}

#[test]
fn no_name_means_two_allergens() {
    for row in library::allergens() {
        let names =
            [&row.id, &row.name].into_iter().chain(&*row.members).chain(&*row.formerly).chain(&*row.cas);
        for name in names {
            // Two oils of one genus share a number in the export; names never do.
            let found = library::allergen(name).unwrap();
            assert!(found.id == row.id || row.cas.contains(name), "{name} is {} and {}", found.id, row.id);
        }
    }
}

fn scented(allergens: &str) -> Result<(Recipe, Plan), Vec<lamella::Problem>> {
    let recipe = recipe::read(&format!(
        r#"{{"lamella": "recipe/1", "name": "Scented", "for": "sale", "fats": [{{"fat": "olive-oil", "mass": "1 kg"}}],
        "alkali": {{"naoh": {{}}}}, "superfat": "5 %", "water": {{"lye_concentration": "33 %"}},
        "layers": [{{"layer": "All", "share": "1 part", "scents": [{{"scent": "rosemary", "dose": "3 %",
        "certificate": {{"allergens": [{allergens}]}}}}]}}]}}"#
    ))?;
    let plan = Plan::of(&recipe)?;
    Ok((recipe, plan))
}

/// Neither isomer is above 0.01 % of the bar by itself; together they are, and the label says Citral.
#[test]
fn isomers_are_summed_under_the_name_of_their_group() {
    let named = |allergens: &str| {
        let (recipe, plan) = scented(allergens).unwrap();
        let options = ListOptions::new(Market::GreatBritain, Style::AsCharged);
        ingredients(&plan, &recipe, None, &options).unwrap().text().contains("Citral")
    };
    let geranial = r#"{"allergen": "Geranial", "share": "0.3 %"}"#;
    let neral = r#"{"allergen": "106-26-3", "share": "0.3 %"}"#;
    assert!(!named(geranial));
    assert!(!named(neral));
    assert!(named(&format!("{geranial}, {neral}")));
    let (recipe, plan) = scented(&format!("{geranial}, {neral}")).unwrap();
    let [line] = &*scents(&plan, &recipe, None, false).unwrap().allergens else { panic!("one allergen") };
    assert_eq!(line.name, "Citral");
    let (_, one) = scented(geranial).unwrap();
    let half = scents(&one, &scented(geranial).unwrap().0, None, false).unwrap().allergens.remove(0).share;
    assert!(line.share - half - half < Share::literal(1, 11));
}

/// What sounds alike may be another substance: the help says by which number to tell, and sends nobody to it.
#[test]
fn a_name_that_is_on_no_list_is_not_turned_into_another() {
    let problems = scented(r#"{"allergen": "Amyl Cinnamate", "share": "1 %"}"#).unwrap_err();
    assert_eq!(problems.first().unwrap().code, "material.unknown");
    let advice = &problems.first().unwrap().advice;
    assert!(!advice.starts_with("write"), "{advice}");
    assert!(advice.contains("only if that is 122-40-7"), "{advice}");
    let twice = r#"{"allergen": "Linalool", "share": "1 %"}, {"allergen": "LINALOOL", "share": "2 %"}"#;
    assert_eq!(scented(twice).unwrap_err().first().unwrap().code, "name.duplicate");
}

/// A label never prints a prohibited substance, and says why there is none.
#[test]
fn a_prohibited_substance_makes_no_label() {
    let (recipe, plan) =
        scented(r#"{"allergen": "Butylphenyl Methylpropional", "share": "0.001 %"}"#).unwrap();
    for market in [Market::GreatBritain, Market::EuropeanUnion] {
        let options = ListOptions::new(market, Style::AsCharged);
        let problems = ingredients(&plan, &recipe, None, &options).unwrap_err();
        assert_eq!(problems.first().unwrap().code, "label.prohibited");
        assert!(problems.first().unwrap().message.contains("Butylphenyl Methylpropional"));
    }
}
