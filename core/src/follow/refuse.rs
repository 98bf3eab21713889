//! What an event can do to the rest of a batch that no plan can be made of.

use crate::problem::Problem;
use crate::quantity::{Exact, Mass};

/// A published mass, or the problem that it is none.
pub(super) fn mass(value: Exact) -> Result<Mass, Problem> {
    Mass::try_new(value).map_err(|_| impossible())
}

fn problem(code: &'static str, message: String, advice: &str) -> Problem {
    Problem { code, pointer: String::new(), message, advice: advice.to_owned() }
}

/// The problem of a batch that no plan can be made of.
pub(super) fn impossible() -> Problem {
    problem(
        "event.impossible",
        "with this no plan can be made of the rest of the batch".to_owned(),
        "look at the mass: there must be some fat and some alkali in the batch",
    )
}

pub(super) fn too_much(vessel: &str, there: Mass, taken: Mass) -> Problem {
    problem(
        "event.more-than-there-is",
        format!("{taken} would have been taken from {vessel}, and only {there} is there"),
        "look at this mass and at what was weighed before it",
    )
}

pub(super) fn nothing_left(vessel: &str, left: Mass) -> Problem {
    let left = left.max(Mass::ZERO);
    problem(
        "event.nothing-left",
        format!("{vessel} holds {left} for the rest, which is not enough for each"),
        "look at this mass; or say that a layer is skipped",
    )
}
