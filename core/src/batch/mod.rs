//! From a recipe to what is weighed and poured.
//!
//! In: a [`Recipe`]. Out: a [`Plan`], or the problems that keep it from being one. Depends on
//! all the modules above it in the list of the crate.
//!
//! # The stages
//!
//! | stage | file | takes | gives |
//! | --- | --- | --- | --- |
//! | size | `size.rs` | recipe | how much fat the batch and each jug gets |
//! | balance | `units.rs`, `balance.rs`, `lye.rs` | fat of each jug | doses, alkali, water: the ideal amounts |
//! | weigh | `weigh.rs` | ideal amounts, scales | whole scale steps, and the chemistry again |
//! | pour | `pour.rs` | what is in the jugs | portions and readings |
//! | layer | `layer.rs` | portions, moulds | heights |
//! | order | `lye_order.rs`, `order.rs` | all of it | the order of work |
//! | caution | `caution.rs` | all of it | what is worth the maker's attention |
//!
//! A reader who follows one gram of fat reads them in this order.

pub(crate) mod balance;
mod caution;
mod coarse;
mod figures;
mod hold;
mod layer;
mod list;
pub(crate) mod lye;
pub(crate) mod lye_order;
pub(crate) mod mixture;
mod order;
pub(crate) mod plan;
pub(crate) mod pour;
pub(crate) mod size;
pub(crate) mod units;
pub(crate) mod weigh;

pub use caution::{CODES as CAUTION_CODES, Caution};
pub use figures::{Bars, BatchFigures, LyeFigures, MouldLine};
pub use hold::{ADVICE as HOLD_ADVICE, FREE_ALKALI, Hold, held};
pub use layer::Height;
pub use list::{Vessel, WeighKind, WeighLine, WeighPlace};
pub use lye_order::{Dissolving, LyeStep, LyeWork};
pub use order::{Step, Work};
pub use plan::{JugPlan, LayerPlan, LyePlan, Plan, PotPlan, ScaleLine};
pub use pour::{Reading, pours};
pub use weigh::{WeighItem, Weighing};

pub(crate) use mixture::{Mixture, mixtures};

use std::collections::BTreeSet;

use crate::problem::Problem;
use crate::quantity::Exact;
use crate::recipe::Recipe;

impl Plan {
    /// Plans a batch.
    ///
    /// # Errors
    /// Every problem that keeps the recipe from being planned: a size that no amount of fat reaches, additives that bring
    /// more water than the recipe has, a scale that is missing or too coarse, residue that leaves nothing to pour.
    ///
    /// ```
    /// let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
    /// let plan = lamella::Plan::of(&recipe).unwrap();
    /// assert_eq!(plan.layers.len(), recipe.layers.len());
    /// ```
    pub fn of(recipe: &Recipe) -> Result<Self, Vec<Problem>> {
        identity(recipe)?;
        let mixtures = mixture::mixtures(recipe);
        let (_, ideal, weighed) = weighed(recipe, &mixtures)?;
        let too_coarse = coarse::too_coarse(recipe, &mixtures, &ideal, &weighed);
        let poured = pour::pour(recipe, &mixtures, &ideal, &weighed)?;
        plan::assemble(recipe, &mixtures, &ideal, weighed, poured).ok_or_else(|| match too_coarse {
            problems if problems.is_empty() => vec![number(recipe)],
            problems => problems,
        })
    }
}

impl Plan {
    /// Whether it is a plan of this recipe. The functions that take both refuse a recipe of which it is none.
    ///
    /// ```
    /// let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
    /// let plan = lamella::Plan::of(&recipe).unwrap();
    /// let mut other = recipe.clone();
    /// other.name.push_str(" once more");
    /// assert!(plan.is_of(&recipe) && !plan.is_of(&other));
    /// assert_eq!(lamella::certainty::Certainty::of(&other, &plan), None);
    /// ```
    #[must_use]
    pub fn is_of(&self, recipe: &Recipe) -> bool {
        *self.recipe == *recipe
    }

    /// The problem of a plan that is none of this recipe.
    #[cfg(feature = "heat")]
    pub(crate) fn of_other(&self) -> Problem {
        Problem {
            code: "plan.other-recipe",
            pointer: String::new(),
            message: format!("the plan of {:?} is not one of this recipe", self.name),
            advice: "plan this recipe, and hand over that plan".to_owned(),
        }
    }
}

/// Readers know a dose by its pointer. What the reader of documents writes there is unique; a recipe that was made in a
/// program may have it empty, or twice, and one dose would be taken for another.
fn identity(recipe: &Recipe) -> Result<(), Vec<Problem>> {
    let mut seen = BTreeSet::new();
    let mut problems = Vec::new();
    for dose in recipe.all_doses() {
        if dose.pointer.is_empty() || !seen.insert(dose.pointer.as_str()) {
            problems.push(Problem {
                code: "plan.dose-identity",
                pointer: dose.pointer.clone(),
                message: format!(
                    "the dose of {} has the place {:?}, which tells it apart from no other",
                    dose.ingredient.name(),
                    dose.pointer
                ),
                advice: "give every dose its own place: Recipe::with_places does it".to_owned(),
            });
        }
    }
    if problems.is_empty() { Ok(()) } else { Err(problems) }
}

/// The stages up to the weighing: what a gram of everything is, the ideal amounts, and those in scale steps.
pub(crate) fn weighed(
    recipe: &Recipe,
    mixtures: &[Mixture<'_>],
) -> Result<(units::Units, balance::Ideal, weigh::Weighed), Vec<Problem>> {
    let units = units::Units::of(recipe, mixtures);
    let ideal = size::solve(recipe, mixtures, &units).map_err(|problem| vec![problem])?;
    let weighed = weigh::weigh(recipe, mixtures, &units, &ideal)?;
    Ok((units, ideal, weighed))
}

/// The problem of a figure that no longer fits a quantity.
fn number(recipe: &Recipe) -> Problem {
    Problem {
        code: "plan.number",
        pointer: String::new(),
        message: format!("a figure of {:?} is beyond what can be computed", recipe.name),
        advice: "look for a size, a dose or a saponification value that is far too large or too small"
            .to_owned(),
    }
}

/// A published mass, or the problem that it is none.
fn mass(value: Exact, recipe: &Recipe) -> Result<crate::quantity::Mass, Problem> {
    crate::quantity::Mass::try_new(value).map_err(|_| number(recipe))
}
