//! Which layers of a batch under way are on hold.

use super::replan::Ledger;
use crate::batch::{FREE_ALKALI, Hold, JugPlan, Plan};
use crate::certainty::{Certainty, Figures};
use crate::problem::Problem;
use crate::quantity::{Exact, Share};

/// A layer that came out this far below its plan, and can be lye-heavy, was not weighed as it should have been.
///
/// # Source
/// Common practice, no source: one point, as for what needs no correction.
const SLIP: Exact = Exact::literal(1, 2);

/// Whether soap of this superfat is kept apart: there is more alkali than fat takes up; or it came out lower than it was
/// planned, and may be lye-heavy by the ranges of what went in. What is planned so close is told in a caution.
pub(super) fn is_held(planned: Share, figures: &Figures) -> bool {
    let slipped = (planned.exact() - SLIP - figures.superfat.exact()).is_positive();
    figures.superfat < Share::ZERO || (slipped && figures.guaranteed.low < Share::ZERO)
}

/// The superfat that a jug was planned to have: asked for, or as weighed where whole scale steps made it lower. `planned`
/// are the superfats as weighed before any event, by name.
pub(super) fn planned_for(jug: &JugPlan, planned: &[(String, Share)]) -> Share {
    let weighed = planned.iter().find(|(name, _)| *name == jug.name).map(|(_, superfat)| *superfat);
    weighed.map_or(jug.superfat_ideal, |weighed| weighed.min(jug.superfat_ideal))
}

/// The holds of a batch.
pub(super) fn holds(ledger: &Ledger, planned: &[(String, Share)], plan: &Plan) -> Result<Vec<Hold>, Problem> {
    let fell = plan.jugs.iter().any(|jug| {
        jug.superfat < Share::ZERO
            || (planned_for(jug, planned).exact() - SLIP - jug.superfat.exact()).is_positive()
    });
    // Most batches have nothing to be unsure about.
    if !fell && ledger.tests.is_empty() {
        return Ok(Vec::new());
    }
    let certainty = Certainty::of(&ledger.truth, plan).ok_or_else(super::refuse::impossible)?;
    let mut holds = Vec::new();
    for layer in &plan.layers {
        let Some((jug, figures)) = plan.jugs.get(layer.jug).zip(certainty.jugs.get(layer.jug)) else {
            continue;
        };
        let free_alkali = ledger.tests.get(&layer.name).copied();
        let held = match free_alkali {
            Some(found) => found > FREE_ALKALI,
            None => is_held(planned_for(jug, planned), &figures.figures),
        };
        if held {
            holds.push(Hold {
                layer: layer.name.clone(),
                superfat: Some(jug.superfat),
                // What is planned so has nothing to be worse than.
                worst: (jug.superfat < planned_for(jug, planned)).then_some(figures.figures.guaranteed.low),
                free_alkali,
            });
        }
    }
    Ok(holds)
}
