//! A recipe that is made or changed in a program: what readers cannot tell apart is refused, and so is a plan of another
//! recipe.

use lamella::after::{Observation, causes};
use lamella::certainty::{Certainty, Model};
use lamella::chemistry::Stage;
use lamella::heat::{Scenario, Setting};
use lamella::market::dossier::{Dossier, DossierOptions};
use lamella::market::{Composition, ListOptions, Market, Style, ingredients, scents};
use lamella::{EXAMPLE, Plan, recipe, screen, sheet};

/// Two doses without a place were one on the label: sesame was missing from it.
#[test]
fn doses_that_cannot_be_told_apart_are_not_planned() {
    let recipe = recipe::read(EXAMPLE).unwrap();
    assert!(Plan::of(&recipe).is_ok());
    let mut empty = recipe.clone();
    for layer in &mut empty.layers {
        for dose in &mut layer.doses {
            dose.pointer.clear();
        }
    }
    let count = empty.layers.iter().map(|layer| layer.doses.len()).sum::<usize>();
    let problems = Plan::of(&empty).unwrap_err();
    assert_eq!(problems.len(), count, "all of them at once");
    assert!(
        problems.iter().all(|problem| problem.code == "plan.dose-identity" && !problem.advice.is_empty())
    );
    // A layer that is copied has the places of the other one.
    let mut copied = recipe.clone();
    let doses = copied.layers[2].doses.clone();
    assert!(!doses.is_empty());
    copied.layers[0].doses.extend(doses.clone());
    assert_eq!(Plan::of(&copied).unwrap_err().len(), doses.len());
    // Written and read again, each has its own.
    let again = recipe::read(&recipe::write(&empty)).unwrap();
    let plan = Plan::of(&again).unwrap();
    let list =
        ingredients(&plan, &again, None, &ListOptions::new(Market::GreatBritain, Style::AsCharged)).unwrap();
    assert!(list.text().contains("Sesamum Indicum"), "{}", list.text());
}

/// Every reader that takes a recipe beside the plan has no answer for a recipe that is not the plan's.
#[test]
fn no_reader_answers_for_another_recipe() {
    let recipe = recipe::read(EXAMPLE).unwrap();
    let plan = Plan::of(&recipe).unwrap();
    let mut other = recipe.clone();
    other.name.push_str(" once more");
    let setting = Setting::default();
    let options = ListOptions::new(Market::GreatBritain, Style::AsCharged);
    let answers = |recipe: &lamella::recipe::Recipe| {
        let composed =
            Composition::of(&plan, recipe, None, Style::AsCharged, Stage::Pour, recipe.cured_water);
        [
            ("certainty", Certainty::of(recipe, &plan).is_some()),
            ("model", Model::of(recipe, &plan).is_some()),
            ("picture", screen::picture(recipe, &plan, 0).is_some()),
            ("drag", screen::drag(recipe, &plan, 0, 0, "20 mm".parse().unwrap()).is_some()),
            ("explain", screen::explain(recipe, &plan, "superfat/0").is_some()),
            ("svg", sheet::svg(&plan, recipe, 0).is_some()),
            ("causes", !causes(&plan, recipe, Observation::DullThroughout, Some(2)).is_empty()),
            ("scents", scents(&plan, recipe, None, false).is_some()),
            ("composition", composed.is_some()),
            ("ingredients", ingredients(&plan, recipe, None, &options).is_ok()),
            ("dossier", Dossier::of(&plan, recipe, DossierOptions::default()).is_ok()),
            ("heat", Scenario::of(recipe, &plan, &setting).is_ok()),
        ]
    };
    for (name, answered) in answers(&recipe) {
        assert!(answered, "{name} answers for its own recipe");
    }
    for (name, answered) in answers(&other) {
        assert!(!answered, "{name} answers for another recipe");
    }
}
