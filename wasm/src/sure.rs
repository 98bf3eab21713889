//! How sure the superfats are, and a batch under way.

use lamella::batch::Plan;
use lamella::certainty::{Advice, Certainty};
use lamella::follow::{self, Batch, Change, Correction, Tolerances};
use lamella::screen::{self, Task};
use serde::Serialize;
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

use crate::boundary::{self, Answer, given, maybe, plain};
use crate::{planned, problems, read};

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
/** A batch under way. */
export interface Followed {
  /** The plan of what is left: what was reported as it was, the rest as it follows. */
  plan: Plan;
  /** Its work, one thing at a time. */
  tasks: Task[];
  /** What the last event changed. */
  changes: Change[];
  /** What to do about every jug that is not poured yet. */
  corrections: Correction[];
  /** How sure the superfats are now. */
  certainty: Certainty | null;
}
"#;

/// How sure the superfat of every layer is: what it cannot leave whatever the inputs are within their ranges, how far it is
/// usually off, and what that comes from.
///
/// # Errors
/// As `plan`.
#[wasm_bindgen(unchecked_return_type = "Certainty | undefined")]
pub fn certainty(
    #[wasm_bindgen(unchecked_param_type = "Recipe | Batch | string")] recipe: &JsValue,
) -> Answer {
    let (recipe, plan) = planned(recipe)?;
    maybe(Certainty::of(&recipe, &plan).as_ref())
}

/// The superfat to aim for, and the scale to weigh on, so that no layer can be lye-heavy.
///
/// # Errors
/// As `plan`.
#[wasm_bindgen(unchecked_return_type = "Advice")]
pub fn advice(#[wasm_bindgen(unchecked_param_type = "Recipe | string")] recipe: &JsValue) -> Answer {
    plain(&Advice::of(&read(recipe)?))
}

#[derive(Serialize)]
struct Followed<'b> {
    plan: &'b Plan,
    tasks: Vec<Task>,
    changes: Vec<Change>,
    corrections: Vec<Correction>,
    certainty: Option<Certainty>,
}

/// Follows a batch by its log: what really went in and was poured, and the rest of the plan as it follows from that. The
/// words of its tasks are in the units that are given, else in g, mm and °C.
///
/// # Errors
/// LamellaError, for a batch/1 document with problems, for an event that cannot have happened, and for a unit that is none.
#[wasm_bindgen(unchecked_return_type = "Followed")]
pub fn follow(
    #[wasm_bindgen(unchecked_param_type = "Batch | string")] batch: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "Units")] units: &JsValue,
) -> Answer {
    let units = boundary::units(units)?;
    let mut batch = follow::read(&given(batch)?).map_err(problems)?;
    let changes = last_changes(&mut batch).map_err(|problem| problems(vec![problem]))?;
    let corrections = batch.correct_all(&Tolerances::default()).map_err(|problem| problems(vec![problem]))?;
    plain(&Followed {
        plan: batch.plan(),
        tasks: screen::tasks_in(batch.plan(), units),
        changes,
        corrections,
        certainty: batch.certainty(),
    })
}

/// What the last line of the log changed.
fn last_changes(batch: &mut Batch) -> Result<Vec<Change>, lamella::Problem> {
    match batch.undo() {
        Some(last) => batch.record(last),
        None => Ok(Vec::new()),
    }
}
