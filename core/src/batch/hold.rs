//! Layers that must be kept apart, because they may hold free alkali.
//!
//! A hold is a state of a layer. It comes with the plan through every reader, and ends in one of two ways: a recorded
//! correction that brings the superfat back, or a recorded test of that layer.

use serde::Serialize;

use super::plan::Plan;
use crate::quantity::{Share, percent_beside};

/// The most free caustic alkali, as sodium hydroxide, that a bar may have to be released.
///
/// # Source
/// 0.05 %: IS 2888:2004 for toilet soap, from memory. Local law and the assessor of the bar may ask for less.
pub const FREE_ALKALI: Share = Share::literal(5, 4);

/// A layer that is on hold.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Hold {
    /// The layer.
    pub layer: String,
    /// Its superfat as weighed, where it is known.
    pub superfat: Option<Share>,
    /// The least that its superfat can be (see [`crate::certainty`]), where that was worked out.
    pub worst: Option<Share>,
    /// Free caustic alkali that the last test of it found, as sodium hydroxide, where it was too much.
    pub free_alkali: Option<Share>,
}

impl Hold {
    /// Why it is on hold, in words: `superfat -2.66 %, worst case -8.38 %`.
    #[must_use]
    pub fn why(&self) -> String {
        let shortage = |share: Share| percent_beside(share, Share::ZERO, 2);
        let found = |found: Share| {
            let found = percent_beside(found, FREE_ALKALI, 3);
            format!("tested: {found} free alkali, at most {FREE_ALKALI} allowed")
        };
        let why = [
            self.superfat.map(|superfat| format!("superfat {}", shortage(superfat))),
            self.worst.map(|worst| format!("worst case {}", shortage(worst))),
            self.free_alkali.map(found),
        ];
        why.into_iter().flatten().collect::<Vec<_>>().join(", ")
    }
}

/// Layers by name with why they are on hold, in one line.
#[must_use]
pub fn held(holds: &[Hold]) -> String {
    holds.iter().map(|hold| format!("{} ({})", hold.layer, hold.why())).collect::<Vec<_>>().join("; ")
}

/// What to do about a layer that is on hold.
///
/// # Source
/// ISO 456, determination of free caustic alkali in soaps (from memory).
pub const ADVICE: &str = "keep these bars apart and marked; do not use, sell or give them away. Correct the layer before it \
is poured, or have its free caustic alkali tested (ISO 456) and record the test";

/// The layers that get more alkali than their fat takes up.
pub(crate) fn lye_heavy(plan: &Plan) -> Vec<Hold> {
    let jugs = plan.layers.iter().filter_map(|layer| Some((layer, plan.jugs.get(layer.jug)?)));
    let heavy = jugs.filter(|(_, jug)| jug.superfat < Share::ZERO);
    heavy
        .map(|(layer, jug)| Hold {
            layer: layer.name.clone(),
            superfat: Some(jug.superfat),
            worst: None,
            free_alkali: None,
        })
        .collect()
}
