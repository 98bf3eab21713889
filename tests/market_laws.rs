//! What holds of every batch that is to be sold.
#![expect(clippy::unwrap_used, clippy::panic, reason = "a test stops at what it did not expect")]

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use lamella::chemistry::{Part, Stage};
use lamella::market::dossier::{Dossier, DossierOptions};
use lamella::market::envelope::{self, Standing};
use lamella::market::{self, Composition, Limit, ListOptions, Market, Role, Style, ingredients, scents};
use lamella::quantity::{Mass, Share};
use lamella::recipe::{self, Recipe};
use lamella::{EXAMPLE, Plan};
use serde_json::{Value, json};

fn batches() -> Vec<(String, Recipe, Plan)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("vectors/valid");
    let mut all = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|extension| extension == "json") {
            let recipe = recipe::read(&fs::read_to_string(&path).unwrap()).unwrap();
            let Ok(plan) = Plan::of(&recipe) else { continue };
            all.push((path.display().to_string(), recipe, plan));
        }
    }
    assert!(all.len() >= 8);
    all
}

fn planned(text: &str) -> (Recipe, Plan) {
    let recipe = recipe::read(text)
        .unwrap_or_else(|problems| panic!("{}", recipe::render(&problems, text, "recipe.json")));
    let plan = Plan::of(&recipe).unwrap();
    (recipe, plan)
}

fn total(composition: &Composition) -> Mass {
    composition.lines.iter().map(|line| line.mass).sum()
}

#[test]
fn compositions_are_those_of_the_plan() {
    for (name, recipe, plan) in batches() {
        let of = |layer, style, stage| {
            Composition::of(&plan, &recipe, layer, style, stage, recipe.cured_water).unwrap()
        };
        let charged = of(None, Style::AsCharged, Stage::Pour);
        assert_eq!(charged.total, plan.batch.poured, "{name}");
        for (style, stage, makeup) in [
            (Style::AsCharged, Stage::Pour, &plan.batch.at_pour),
            (Style::AsCharged, Stage::Reacted, &plan.batch.reacted),
            (Style::AsFormed, Stage::Reacted, &plan.batch.reacted),
            (Style::AsCharged, Stage::Cured, &plan.batch.cured),
            (Style::AsFormed, Stage::Cured, &plan.batch.cured),
        ] {
            let composition = of(None, style, stage);
            assert_eq!(total(&composition), composition.total, "{name} {style:?} {stage:?}");
            assert_eq!(composition.total, makeup.total, "{name} {style:?} {stage:?}");
            for layer in 0..plan.layers.len() {
                let composition = of(Some(layer), style, stage);
                assert_eq!(total(&composition), composition.total, "{name} {style:?} {stage:?} {layer}");
            }
        }
        // Soap, glycerol and water by line are those of the makeup; an additive keeps the soap of its own fat.
        let formed = of(None, Style::AsFormed, Stage::Cured);
        let mass =
            |role| formed.lines.iter().filter(|line| line.role == role).map(|line| line.mass).sum::<Mass>();
        assert!(mass(Role::Soap) <= plan.batch.cured.mass(Part::Soap) + Mass::literal(1, 6), "{name}");
        let glycerol = plan.batch.cured.mass(Part::Glycerol);
        assert!(mass(Role::Glycerin) + Mass::literal(1, 6) >= glycerol, "{name}");
        let water = plan.batch.cured.mass(Part::Water);
        let off = mass(Role::Water).max(water) - mass(Role::Water).min(water);
        assert!(off < Mass::literal(1, 6), "{name}: {off}");
    }
}

#[test]
fn a_list_is_a_permutation_of_the_materials() {
    for (name, recipe, plan) in batches() {
        for style in [Style::AsCharged, Style::AsFormed] {
            let stage = if style == Style::AsCharged { Stage::Pour } else { Stage::Cured };
            let composition =
                Composition::of(&plan, &recipe, None, style, stage, recipe.cured_water).unwrap();
            let Ok(list) = ingredients(&plan, &recipe, None, &ListOptions::new(Market::GreatBritain, style))
            else {
                assert!(composition.lines.iter().any(|line| line.inci.is_none()), "{name}");
                continue;
            };
            let materials = |ids: &mut dyn Iterator<Item = &Vec<String>>| {
                ids.flatten().cloned().collect::<BTreeSet<String>>()
            };
            let wanted = composition.lines.iter().filter(|line| line.role != Role::Impurity);
            let wanted = materials(&mut wanted.map(|line| &line.materials));
            let plain = list.entries.iter().filter(|entry| !entry.allergen);
            assert_eq!(materials(&mut plain.map(|entry| &entry.materials)), wanted, "{name}");
            let names: BTreeSet<&str> = list.entries.iter().map(|entry| entry.name.as_str()).collect();
            assert_eq!(names.len(), list.entries.len(), "{name}: {}", list.text());
            let mut ranks = list.entries.iter().map(|entry| entry.rank);
            let mut before = ranks.next().unwrap();
            assert!(
                ranks.all(|rank| std::mem::replace(&mut before, rank) <= rank),
                "{name}: {}",
                list.text()
            );
        }
    }
}

#[test]
fn dossiers_sum_to_exactly_a_hundred() {
    let water = (Share::literal(8, 2), Share::literal(15, 2));
    for (name, recipe, plan) in batches() {
        for options in [
            DossierOptions::default(),
            DossierOptions { decimals: 0, cured_water: None },
            DossierOptions { decimals: 8, cured_water: Some(water) },
        ] {
            let dossier = Dossier::of(&plan, &recipe, options).unwrap();
            for lines in [&dossier.at_filling, &dossier.cured] {
                let sum: Share = lines.iter().map(|line| line.share.typical).sum();
                assert_eq!(sum, Share::literal(1, 0), "{name} {options:?}");
                for line in lines {
                    let span = line.share;
                    assert!(span.min <= span.typical && span.typical <= span.max, "{name}: {line:?}");
                    assert!(span.min >= Share::ZERO && span.max <= Share::literal(1, 0), "{name}: {line:?}");
                }
            }
        }
    }
}

/// A batch with one scent in a dose, all else being equal.
fn scented(dose: &str) -> (Recipe, Plan) {
    let certificate = json!({
        "limit": "2.5 %",
        "allergens": [
            {"allergen": "Linalool", "share": "30 %"},
            {"allergen": "Limonene", "share": "4 %"},
            {"allergen": "Geraniol", "share": "1.1 %"},
            {"allergen": "Citral", "share": "0.6 %"},
            {"allergen": "Coumarin", "share": "0.4 %"},
        ]
    });
    let document = json!({
        "lamella": "recipe/1", "name": "Scented", "for": "sale",
        "fats": [{"fat": "olive-oil", "share": "70 %"}, {"fat": "coconut-oil", "share": "30 %"}],
        "alkali": {"naoh": {}}, "superfat": "5 %", "water": {"lye_concentration": "33 %"},
        "size": {"fat": "1 kg"},
        "layers": [
            {"layer": "Plain", "share": "1 part", "doses": [{"additive": "kaolin", "dose": "3 %"}]},
            {"layer": "Scented", "share": "2 parts",
             "scents": [{"scent": "rosemary", "dose": dose, "certificate": certificate}]},
        ],
        // Fine steps and no residue: both would move the shares a little.
        "workshop": {
            "scales": [{"scale": "fine", "step": "0.0001 g", "capacity": "10 kg"}],
            "jug_residue": "0 g", "pot_residue": "0 g", "lye_residue": "0 g",
        }
    });
    planned(&document.to_string())
}

#[test]
fn declared_allergens_are_monotone_in_the_dose() {
    let mut before: BTreeSet<String> = BTreeSet::new();
    let mut grew = 0;
    for tenths in 1..60 {
        let (recipe, plan) = scented(&format!("{}.{} %", tenths / 10, tenths % 10));
        let report = scents(&plan, &recipe, None, false).unwrap();
        let above: BTreeSet<String> =
            report.allergens.iter().filter(|line| line.above).map(|line| line.name.clone()).collect();
        assert!(above.is_superset(&before), "{tenths}: {before:?} {above:?}");
        grew += i32::from(above.len() > before.len());
        before = above;
    }
    assert!(grew >= 3, "the doses pass several thresholds");
    assert!(before.len() == 5, "{before:?}");
}

#[test]
fn the_largest_dose_keeps_to_the_certificate_and_more_does_not() {
    let (recipe, plan) = scented("8 %");
    let line = scents(&plan, &recipe, None, false).unwrap().scents.remove(0);
    assert_eq!(line.verdict, Limit::Passed);
    assert!(line.cured > line.at_pour);
    assert!(plan.cautions.iter().any(|caution| caution.code == "scent.limit"));
    // The dose is of the layer's fat: 8 % times the factor, to the thousandth of a per cent below.
    let factor = line.factor.unwrap().value();
    let dose = (factor * lamella::quantity::Decimal::from(8)).trunc_with_scale(3);
    let (recipe, plan) = scented(&format!("{dose} %"));
    let kept = scents(&plan, &recipe, None, false).unwrap().scents.remove(0);
    assert_eq!(kept.verdict, Limit::Kept, "{dose} % gives {}", kept.cured);
    assert!(kept.cured > "2.49 %".parse().unwrap(), "{dose} % gives {}", kept.cured);
    assert!(plan.cautions.iter().all(|caution| caution.code != "scent.limit"));
}

#[test]
fn the_example_is_inside_its_assessment() {
    let (recipe, plan) = planned(EXAMPLE);
    let assessment = envelope::read(market::EXAMPLE_ASSESSMENT).unwrap();
    let verdict = envelope::verdict(&plan, &recipe, Some(&assessment)).unwrap();
    assert_eq!(verdict.standing, Standing::Covered, "{:#?}", verdict.reasons);
    assert_eq!(verdict.lines.len(), assessment.ingredients.len());
    assert!(
        verdict.lines.iter().all(|line| line.room_above >= Share::ZERO && line.room_below >= Share::ZERO)
    );
    let unassessed = envelope::verdict(&plan, &recipe, None).unwrap();
    assert_eq!(unassessed.standing, Standing::Unassessed);
    assert!(unassessed.says.contains("must not be sold"));
}

/// The example with its doses of an additive multiplied.
fn example(additive: &str, dose: &str) -> (Recipe, Plan) {
    let mut document: Value = serde_json::from_str(EXAMPLE).unwrap();
    for layer in document.get_mut("layers").and_then(Value::as_array_mut).unwrap() {
        for list in ["doses", "scents", "colours"] {
            for item in layer.get_mut(list).and_then(Value::as_array_mut).into_iter().flatten() {
                if ["additive", "scent", "colour"].iter().any(|kind| item[kind] == additive) {
                    item["dose"] = dose.into();
                }
            }
        }
    }
    planned(&document.to_string())
}

/// Less of one additive concentrates the others: the law holds of an assessment that leaves them that room, as this does.
#[test]
fn covered_stays_covered_when_an_additive_is_reduced() {
    let assessment = envelope::read(market::EXAMPLE_ASSESSMENT).unwrap();
    for (additive, most) in
        [("pumpkin-puree", 9), ("honey", 1), ("kaolin", 2), ("tahini", 12), ("lavender", 2)]
    {
        for dose in 0..=most {
            let (recipe, plan) = example(additive, &format!("{dose} %"));
            let verdict = envelope::verdict(&plan, &recipe, Some(&assessment)).unwrap();
            assert!(verdict.is_covered(), "{additive} {dose} %: {:#?}", verdict.reasons);
        }
    }
}

#[test]
fn what_is_outside_is_told_with_what_brings_it_back() {
    let assessment = envelope::read(market::EXAMPLE_ASSESSMENT).unwrap();
    let (recipe, plan) = example("kaolin", "25 %");
    let verdict = envelope::verdict(&plan, &recipe, Some(&assessment)).unwrap();
    assert_eq!(verdict.standing, Standing::NotCovered);
    let reason = verdict.reasons.iter().find(|reason| reason.what == "clays").unwrap();
    assert_eq!(reason.limit, "0 % to 3 %");
    assert!(reason.distance > Share::ZERO);
    assert_eq!(reason.pointers, ["/layers/4/doses/0"]);
    assert_eq!(reason.assessed, "/ingredients/11");
    assert!(reason.change.starts_with("take out "), "{}", reason.change);
    // The change brings it back: so much less clay, all else as it is.
    let composition =
        Composition::of(&plan, &recipe, None, Style::AsCharged, Stage::Pour, recipe.cured_water).unwrap();
    let clay = composition.line("Kaolin").unwrap().mass;
    let out: Mass =
        reason.change.split(" of ").next().unwrap().trim_start_matches("take out ").parse().unwrap();
    let share = Share::try_new((clay - out).exact() / (composition.total - out).exact()).unwrap();
    assert!(share <= "3 %".parse().unwrap() && share > "2.99 %".parse().unwrap(), "{share}");

    let mut document: Value = serde_json::from_str(EXAMPLE).unwrap();
    document["process"] = "hot".into();
    document["superfat"] = "14 %".into();
    document["colours"] = json!([{"colour": "manganese-violet", "dose": "0.2 %"}]);
    let (recipe, plan) = planned(&document.to_string());
    let verdict = envelope::verdict(&plan, &recipe, Some(&assessment)).unwrap();
    let what: Vec<&str> = verdict.reasons.iter().map(|reason| reason.what.as_str()).collect();
    assert!(what.contains(&"CI 77742") && what.contains(&"process"), "{what:?}");
    assert!(what.iter().any(|what| what.starts_with("superfat of ")), "{what:?}");
}

#[test]
fn a_batch_for_the_household_says_that_it_must_not_be_sold() {
    let mut document: Value = serde_json::from_str(EXAMPLE).unwrap();
    document["for"] = "household".into();
    let (recipe, plan) = planned(&document.to_string());
    let assessment = envelope::read(market::EXAMPLE_ASSESSMENT).unwrap();
    for assessment in [None, Some(&assessment)] {
        let verdict = envelope::verdict(&plan, &recipe, assessment).unwrap();
        assert_eq!(verdict.standing, Standing::Household);
        assert!(verdict.says.contains("must not be sold"), "{}", verdict.says);
        assert!(!verdict.is_covered());
    }
}

#[test]
fn an_assessment_survives_being_written() {
    let assessment = envelope::read(market::EXAMPLE_ASSESSMENT).unwrap();
    let written = envelope::write(&assessment);
    assert_eq!(envelope::read(&written).as_ref(), Ok(&assessment));
    assert_eq!(envelope::write(&envelope::read(&written).unwrap()), written);
}
