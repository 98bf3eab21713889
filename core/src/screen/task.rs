//! The work, one thing at a time: what a maker at the bench sees, large, with gloves on.

use serde::Serialize;

use crate::batch::{JugPlan, LayerPlan, LyeWork, Plan, Reading, Step, WeighItem, Weighing, Work};
use crate::quantity::Mass;
use crate::sheet::{Sheet, Units};

/// One thing to do.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Task {
    /// Its name, which stays the same when masses change: `weigh /fats/0`, `pour Rust`.
    pub key: String,
    /// What kind of work it is.
    pub work: Work,
    /// What to do, in a few words.
    pub title: String,
    /// What to mind, in a sentence; may be empty.
    pub words: String,
    /// What is weighed.
    pub weigh: Option<Weigh>,
    /// What is reported when it is done; nothing for work that moves nothing.
    pub due: Option<Due>,
    /// Index of the jug.
    pub jug: Option<usize>,
    /// Index of the layer.
    pub layer: Option<usize>,
}

/// Something on the scale.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Weigh {
    /// How much.
    pub mass: Mass,
    /// Of what.
    pub item: String,
    /// Into what, or out of what for a pour.
    pub vessel: String,
    /// Index of the scale in the workshop.
    pub scale: usize,
    /// What the scale shows with the vessel on it before and after, where it is the vessel that stands on the scale. With
    /// a tare that is not known the vessel counts as nought.
    pub reading: Option<Reading>,
}

/// What a maker reports of it, in the words of the log of a batch.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[expect(clippy::exhaustive_enums, reason = "a thing goes in, or a layer is poured")]
pub enum Due {
    /// So much of an item of the plan went in.
    Weighed {
        /// The item: its place in the recipe, `pot` or `lye`.
        item: String,
        /// The jug; nothing for the pot and the lye.
        vessel: Option<String>,
    },
    /// A layer was poured, and the scale shows what is left with its jug.
    Reads {
        /// The jug.
        jug: String,
    },
}

/// All tasks of a plan in the order of work. What is weighed in them adds up to what the plan weighs in.
///
/// ```
/// let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
/// let plan = lamella::Plan::of(&recipe).unwrap();
/// let tasks = lamella::screen::tasks(&plan);
/// let pour = tasks.iter().find(|task| task.key == "pour Silt").unwrap();
/// assert_eq!(pour.weigh.as_ref().unwrap().reading, Some(plan.layers[0].reading));
/// ```
#[must_use]
pub fn tasks(plan: &Plan) -> Vec<Task> {
    tasks_in(plan, Units::METRIC)
}

/// As [`tasks`], with the words in the units that a maker reads; what is weighed is a quantity and has none.
#[must_use]
pub fn tasks_in(plan: &Plan, units: Units) -> Vec<Task> {
    let mut bench = Bench { plan, sheet: Sheet::in_units(plan, units), tasks: Vec::new(), shows: Vec::new() };
    bench.shows = plan.jugs.iter().map(|jug| jug.tare.unwrap_or(Mass::ZERO)).collect();
    for step in &plan.steps {
        bench.step(step);
    }
    bench.tasks
}

struct Bench<'p> {
    plan: &'p Plan,
    sheet: Sheet<'p>,
    tasks: Vec<Task>,
    /// What the scale shows with each jug.
    shows: Vec<Mass>,
}

impl<'p> Bench<'p> {
    fn step(&mut self, step: &Step) {
        let plan = self.plan;
        let jug = step.jug.and_then(|index| Some((index, plan.jugs.get(index)?)));
        let layer = step.layer.and_then(|index| Some((index, plan.layers.get(index)?)));
        match step.work {
            Work::Freeze | Work::MakeLye => self.lye(step),
            Work::FillPot => {
                self.weigh_all(step, &plan.pot.fats, "the pot", None);
                self.say(step, "melt", "Melt the fats together", self.sheet.step_words(step));
                self.weigh_all(step, &plan.pot.doses, "the pot", None);
            }
            Work::WeighDoses => {
                for (index, jug) in plan.jugs.iter().enumerate() {
                    let cup = format!("a cup for {}", jug.name);
                    self.weigh_all(step, jug.doses.iter().chain(&jug.late_doses), &cup, Some((index, jug)));
                }
            }
            Work::Divide => {
                for (index, jug) in plan.jugs.iter().enumerate() {
                    self.fill_jug(step, index, jug, jug.portion, "pot", "fat from the pot");
                }
            }
            Work::AddLye => {
                if let Some((index, jug)) = jug {
                    self.fill_jug(step, index, jug, jug.lye, "lye", "lye");
                }
            }
            Work::Enrich => {
                if let Some((index, jug)) = jug {
                    self.adds(index, &jug.doses);
                    self.say(
                        step,
                        &format!("stir {}", jug.name),
                        &format!("Stir into {}", jug.name),
                        self.sheet.step_words(step),
                    );
                }
            }
            Work::Finish => {
                if let Some((index, jug)) = jug {
                    self.adds(index, &jug.late_doses);
                    self.say(
                        step,
                        &format!("last {}", jug.name),
                        &format!("Last into {}", jug.name),
                        self.sheet.step_words(step),
                    );
                }
            }
            Work::AddHeld => {
                if let Some((index, jug)) = jug {
                    self.weigh_all(step, &jug.held, &jug.name, Some((index, jug)));
                    self.adds(index, &jug.held);
                }
            }
            Work::Pour => {
                if let Some((jug, layer)) = jug.zip(layer) {
                    self.pour(step, jug, layer);
                }
            }
            Work::Wait => {
                if let Some((_, layer)) = layer {
                    let title = format!("Let {} set", layer.name);
                    self.say(step, &format!("wait {}", layer.name), &title, self.sheet.step_words(step));
                }
            }
            Work::Cook => {
                if let Some((_, jug)) = jug {
                    self.say(
                        step,
                        &format!("cook {}", jug.name),
                        &format!("Cook {}", jug.name),
                        self.sheet.step_words(step),
                    );
                }
            }
            Work::Prepare => self.say(step, "prepare", "Lay everything out", self.sheet.step_words(step)),
            Work::Protect => {
                self.say(step, "protect", "Goggles, gloves, window", self.sheet.step_words(step))
            }
            Work::Rest => self.say(step, "rest", "Cover, and leave alone", self.sheet.step_words(step)),
            Work::Cut => self.say(step, "cut", "Cut, and put to cure", self.sheet.step_words(step)),
        }
    }

    fn say(&mut self, step: &Step, key: &str, title: &str, words: String) {
        self.tasks.push(Task {
            key: key.to_owned(),
            work: step.work,
            title: title.to_owned(),
            words,
            weigh: None,
            due: None,
            jug: step.jug,
            layer: step.layer,
        });
    }

    /// The order of the lye's work; a step that weighs nothing and says nothing more is none at the bench.
    fn lye(&mut self, step: &Step) {
        let plan = self.plan;
        let cold = plan.lye.order.iter().any(|part| part.work == LyeWork::Freeze);
        for part in plan.lye.order.iter().filter(|part| part.step == step.work) {
            let words = self.sheet.lye_words(part);
            let (vessel, key, title) = match part.work {
                LyeWork::Boil => ("the lye vessel", "boil", "Boil it flat"),
                LyeWork::Water => ("the lye vessel", "water", "Water first"),
                LyeWork::Dissolve => ("the lye vessel", "stir water", "Stir until dissolved"),
                LyeWork::Freeze => ("the lye vessel", "freeze", "Freeze, and go on the next day"),
                LyeWork::Pour => ("the lye vessel", "dilute", "Stir until it is even"),
                LyeWork::Alkali => ("a dry cup", "dissolve", "Alkali into water, slowly"),
                LyeWork::Hot => ("a cup", "hot", "Into the lye at once"),
                LyeWork::Cool if cold => ("", "cool", "Keep the lye cold"),
                LyeWork::Cool => ("", "cool", "Let the lye cool"),
                LyeWork::Last => ("a cup", "last lye", "Stir into the lye"),
            };
            if !words.first.is_empty() {
                let ready = match part.work {
                    LyeWork::Boil => title,
                    LyeWork::Pour => "Ready-made lye into water, slowly",
                    _ => "Vessel into ice water",
                };
                self.say(step, &format!("before {key}"), ready, words.first);
            }
            self.weigh_all(step, plan.lye.items_of(part), vessel, None);
            if !words.then.is_empty() {
                self.say(step, key, title, words.then);
            }
        }
    }

    fn weigh_all<'i>(
        &mut self,
        step: &Step,
        items: impl IntoIterator<Item = &'i WeighItem>,
        vessel: &str,
        jug: Option<(usize, &JugPlan)>,
    ) {
        for item in items {
            let of_jug = jug.map(|(_, jug)| jug.name.clone());
            let key = match &of_jug {
                Some(name) => format!("weigh {} for {name}", item.pointer),
                None => format!("weigh {}", item.pointer),
            };
            // Water has no line of its own in the recipe.
            let name = if item.id == "water" { "water".to_owned() } else { item.pointer.clone() };
            self.tasks.push(Task {
                key,
                work: step.work,
                title: item.name.to_string(),
                words: String::new(),
                weigh: Some(Weigh {
                    mass: item.weighed,
                    item: item.name.to_string(),
                    vessel: vessel.to_owned(),
                    scale: item.scale,
                    reading: None,
                }),
                due: Some(Due::Weighed { item: name, vessel: of_jug }),
                jug: jug.map(|(index, _)| index),
                layer: None,
            });
        }
    }

    /// What is stirred in raises what the scale shows.
    fn adds(&mut self, jug: usize, items: &[WeighItem]) {
        if let Some(shows) = self.shows.get_mut(jug) {
            *shows += items.iter().map(|item| item.weighed).sum();
        }
    }

    fn fill_jug(
        &mut self,
        step: &Step,
        index: usize,
        jug: &JugPlan,
        weighing: Weighing,
        item: &str,
        words: &str,
    ) {
        let before = self.shows.get(index).copied().unwrap_or(Mass::ZERO);
        let after = before + weighing.weighed;
        if let Some(shows) = self.shows.get_mut(index) {
            *shows = after;
        }
        // What is weighed on another scale comes in a cup.
        let reading = (weighing.scale == jug.portion.scale).then_some(Reading { before, after });
        self.tasks.push(Task {
            key: format!("{item} {}", jug.name),
            work: step.work,
            title: format!("{} into {}", capital(words), jug.name),
            words: if item == "lye" { self.sheet.step_words(step) } else { String::new() },
            weigh: Some(Weigh {
                mass: weighing.weighed,
                item: words.to_owned(),
                vessel: jug.name.clone(),
                scale: weighing.scale,
                reading,
            }),
            due: Some(Due::Weighed { item: item.to_owned(), vessel: Some(jug.name.clone()) }),
            jug: Some(index),
            layer: None,
        });
    }

    fn pour(
        &mut self,
        step: &Step,
        (jug_index, jug): (usize, &JugPlan),
        (index, layer): (usize, &LayerPlan),
    ) {
        self.tasks.push(Task {
            key: format!("pour {}", layer.name),
            work: step.work,
            title: format!("Pour {}", layer.name),
            words: String::new(),
            weigh: Some(Weigh {
                mass: layer.portion,
                item: layer.name.clone(),
                vessel: jug.name.clone(),
                scale: jug.portion.scale,
                reading: Some(layer.reading),
            }),
            due: Some(Due::Reads { jug: jug.name.clone() }),
            jug: Some(jug_index),
            layer: Some(index),
        });
    }
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn example() -> Plan {
        Plan::of(&crate::recipe::read(crate::EXAMPLE).unwrap()).unwrap()
    }

    #[test]
    fn everything_is_weighed_once() {
        let plan = example();
        let moved = |work: &Work| matches!(work, Work::Divide | Work::AddLye | Work::Pour);
        let weighed: Mass = tasks(&plan)
            .iter()
            .filter(|task| !moved(&task.work))
            .filter_map(|task| task.weigh.as_ref())
            .map(|weigh| weigh.mass)
            .sum();
        assert_eq!(weighed, plan.batch.weighed_in);
    }

    #[test]
    fn keys_are_unique() {
        let mut keys: Vec<String> = tasks(&example()).into_iter().map(|task| task.key).collect();
        let count = keys.len();
        keys.sort();
        keys.dedup();
        assert_eq!(keys.len(), count);
    }

    #[test]
    fn a_jug_shows_before_its_pour_what_was_put_into_it() {
        // On one scale, so that no lye is weighed in a cup.
        let mut recipe = crate::recipe::read(crate::EXAMPLE).unwrap();
        recipe.workshop.scales.remove(0);
        let plan = Plan::of(&recipe).unwrap();
        let tasks = tasks(&plan);
        for (index, jug) in plan.jugs.iter().enumerate() {
            let lye = tasks.iter().find(|task| task.jug == Some(index) && task.work == Work::AddLye).unwrap();
            let shown = lye.weigh.as_ref().unwrap().reading.unwrap().after;
            let late: Mass = jug.late_doses.iter().map(|item| item.weighed).sum();
            assert_eq!(shown + late, jug.tare.unwrap_or(Mass::ZERO) + jug.net);
        }
    }

    #[test]
    fn lye_in_a_cup_has_no_reading_of_the_jug() {
        let plan = example();
        let tasks = tasks(&plan);
        let mut cups = 0;
        for (index, jug) in plan.jugs.iter().enumerate() {
            let lye = tasks.iter().find(|task| task.jug == Some(index) && task.work == Work::AddLye).unwrap();
            let weigh = lye.weigh.as_ref().unwrap();
            assert_eq!(
                (weigh.scale, weigh.reading.is_none()),
                (jug.lye.scale, jug.lye.scale != jug.portion.scale)
            );
            cups += usize::from(weigh.reading.is_none());
        }
        assert!(cups > 0);
    }
}
