//! What a screen makes of every golden recipe: its tasks, its edges, its outlines.
#![expect(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

use lamella::Plan;
use lamella::batch::Work;
use lamella::follow::{Batch, Event};
use lamella::quantity::{Length, Mass};
use lamella::recipe::{self, Recipe};
use lamella::screen::{Due, Task, drag, picture, tasks};
use lamella_tests::{golden, read};

fn recipes() -> Vec<(String, Recipe, Plan)> {
    let one = |folder: std::path::PathBuf| {
        let recipe = recipe::read_bytes(&read(&folder.join("recipe.json"))).unwrap();
        let plan = Plan::of(&recipe).unwrap();
        (folder.display().to_string(), recipe, plan)
    };
    golden().into_iter().map(one).collect()
}

/// The event of a task that is done as it says.
fn as_planned(task: &Task) -> Option<Event> {
    let weigh = task.weigh.as_ref()?;
    Some(match task.due.clone()? {
        Due::Weighed { item, vessel } => Event::Weighed { item, vessel, mass: weigh.mass },
        Due::Reads { jug } => Event::Reads { jug, mass: weigh.reading?.after },
    })
}

#[test]
fn work_done_as_planned_moves_nothing() {
    for (name, recipe, plan) in recipes() {
        let mut batch = Batch::new(recipe).unwrap();
        for task in tasks(&plan) {
            let Some(event) = as_planned(&task) else { continue };
            let changes =
                batch.record(event).unwrap_or_else(|problem| panic!("{name}: {}: {problem}", task.key));
            assert_eq!(changes, [], "{name}: {}", task.key);
        }
        assert_eq!(tasks(batch.plan()), tasks(&plan), "{name}");
    }
}

#[test]
fn tasks_weigh_what_the_plan_weighs_and_pour_what_it_pours() {
    for (name, _, plan) in recipes() {
        let tasks = tasks(&plan);
        let sum = |wanted: fn(Work) -> bool| -> Mass {
            tasks
                .iter()
                .filter(|task| wanted(task.work))
                .filter_map(|task| task.weigh.as_ref())
                .map(|weigh| weigh.mass)
                .sum()
        };
        let weighed = sum(|work| !matches!(work, Work::Divide | Work::AddLye | Work::Pour));
        assert_eq!(weighed, plan.batch.weighed_in, "{name}");
        let poured: Mass = plan.layers.iter().map(|layer| layer.portion).sum();
        assert_eq!(sum(|work| work == Work::Pour), poured, "{name}");
        let mut keys: Vec<&str> = tasks.iter().map(|task| task.key.as_str()).collect();
        keys.sort_unstable();
        keys.dedup();
        assert_eq!(keys.len(), tasks.len(), "{name}: two tasks have one name");
    }
}

#[test]
fn an_edge_wherever_it_is_dragged_leaves_a_recipe_that_plans() {
    for (name, recipe, plan) in recipes() {
        for below in 0..plan.layers.len().saturating_sub(1) {
            for height in ["0 mm", "7 mm", "21.3 mm", "500 mm"] {
                let height: Length = height.parse().unwrap();
                let Some(moved) = drag(&recipe, &plan, 0, below, height) else { continue };
                let mut document: serde_json::Value = serde_json::from_str(&recipe::write(&recipe)).unwrap();
                document["layers"][below]["share"] = moved.below.into();
                document["layers"][below.saturating_add(1)]["share"] = moved.above.into();
                let changed = recipe::read(&document.to_string());
                assert!(changed.is_ok(), "{name}: {below}: {changed:?}");
            }
        }
    }
}

#[test]
fn every_mould_is_drawn() {
    for (name, recipe, plan) in recipes() {
        for mould in 0..recipe.moulds.len().max(1) {
            let picture = picture(&recipe, &plan, mould).unwrap();
            assert_eq!(picture.layers.len(), plan.layers.len(), "{name}");
            let mut from = Length::ZERO;
            for layer in picture.layers.iter().filter(|layer| !layer.outline.path.is_empty()) {
                assert_eq!(layer.outline.from, from, "{name}");
                assert!(layer.outline.to > from && layer.outline.to <= picture.depth, "{name}");
                from = layer.outline.to;
            }
        }
    }
}
