//! Which layers of a recorded batch are still on hold.

use super::{Check, Decision, Outcome, Record};
use crate::batch::{FREE_ALKALI, Hold, Plan};

impl Record {
    /// The layers that are on hold: by the record, by the plan of the batch where there is one, or because a check found
    /// too much free alkali. A hold ends with a check of that layer that passed and found no more than [`FREE_ALKALI`];
    /// of several the last counts.
    #[must_use]
    pub fn standing(&self, plan: Option<&Plan>) -> Vec<Hold> {
        let mut holds = plan.map_or_else(Vec::new, |plan| plan.holds.clone());
        for hold in &self.holds {
            if holds.iter().all(|known| known.layer != hold.layer) {
                holds.push(hold.clone());
            }
        }
        holds.retain(|hold| !self.last_test(&hold.layer).is_some_and(passed));
        for hold in &mut holds {
            hold.free_alkali =
                self.last_test(&hold.layer).map_or(hold.free_alkali, |check| check.free_alkali);
        }
        let jug = |layer: &str| {
            let plan = plan?;
            let layer = plan.layers.iter().find(|known| known.name == layer)?;
            plan.jugs.get(layer.jug)
        };
        for check in self.checks.iter().filter(|check| !check.layer.is_empty() && check.free_alkali.is_some())
        {
            let known = holds.iter().any(|hold| hold.layer == check.layer);
            let last = self.last_test(&check.layer).filter(|last| !passed(last));
            if let (false, Some(last)) = (known, last) {
                holds.push(Hold {
                    layer: check.layer.clone(),
                    superfat: jug(&check.layer).map(|jug| jug.superfat),
                    worst: None,
                    free_alkali: last.free_alkali,
                });
            }
        }
        holds
    }

    /// What is decided about the batch. Bars are not released while a layer is on hold, whatever was written.
    #[must_use]
    pub fn decision(&self, plan: Option<&Plan>) -> Option<Decision> {
        let decision = self.release.as_ref()?.decision;
        let held = decision == Decision::Released && !self.standing(plan).is_empty();
        Some(if held { Decision::Held } else { decision })
    }

    fn last_test(&self, layer: &str) -> Option<&Check> {
        let tests = self.checks.iter().filter(|check| check.layer == layer && check.free_alkali.is_some());
        // Where times are not written, the order of the list is that of the tests.
        tests.max_by_key(|check| check.at)
    }
}

fn passed(check: &Check) -> bool {
    check.outcome == Outcome::Pass && check.free_alkali.is_some_and(|found| found <= FREE_ALKALI)
}
