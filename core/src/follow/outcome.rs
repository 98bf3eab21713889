//! What is said about a place that came out otherwise than planned.

use serde::Serialize;

use crate::quantity::{Mass, Share};

/// How near to the plan is near enough.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tolerances {
    /// Superfat, in points either way of what was planned for the place.
    pub superfat: Share,
    /// Each fat's share of the fats of the recipe, in points either way; nothing when shares do not matter.
    pub fats: Option<Share>,
    /// Water to alkali: by how much of the planned figure it may fall short. Too much water dries.
    pub water: Share,
}

/// One point of superfat, two points of each fat, a tenth of the water.
///
/// # Source
/// Common practice, no source.
impl Default for Tolerances {
    fn default() -> Self {
        Self {
            superfat: Share::literal(1, 2),
            fats: Some(Share::literal(2, 2)),
            water: Share::literal(10, 2),
        }
    }
}

/// What is said about a place.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Correction {
    /// The jug by name; `batch` for all of it.
    pub place: String,
    /// Superfat as planned.
    pub aimed: Share,
    /// Superfat as it is.
    pub superfat: Share,
    /// The lowest and the highest that it can be (see [`crate::certainty`]).
    pub guaranteed: (Share, Share),
    /// What to do.
    pub remedy: Outcome,
    /// What is safe with the soap as it is, or once the additions are in; empty when there is nothing to look out for.
    pub safe: Vec<Safe>,
    /// What else to know, a sentence each.
    pub notes: Vec<String>,
}

/// What can be done.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Outcome {
    /// It is within the tolerances.
    Nothing,
    /// Adding this brings it back. What is said of it is read off the plan of a batch in which each addition was recorded
    /// as [`Event::Added`](super::Event::Added), in this order.
    Additions {
        /// What to add, each in whole scale steps.
        additions: Vec<Addition>,
        /// Superfat of the place with all of them in.
        superfat: Share,
        /// Whether the shares of the fats come back too; where they cannot, superfat and water alone do.
        shares: bool,
    },
    /// Nothing that can be added brings it back, and why not.
    Cannot {
        /// The reasons, a sentence each.
        reasons: Vec<String>,
    },
}

/// Something to add.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Addition {
    /// Id of the fat, `naoh` or `koh` or `water`; the place in the recipe where an id stands twice. Alkali is dissolved in
    /// the water first.
    pub item: String,
    /// Its name.
    pub name: String,
    /// The jug that it goes into; `None` for the pot of fats, or for water and alkali the vessel of the lye.
    pub vessel: Option<String>,
    /// How much.
    pub mass: Mass,
}

/// What is safe.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[expect(clippy::exhaustive_enums, reason = "there is nothing else to do with soap that may burn")]
pub enum Safe {
    /// Keep it apart, marked, while it cures.
    Hold,
    /// Have its free alkali determined before anyone uses it.
    Test,
    /// Throw it away.
    Discard,
}

impl Safe {
    /// What to do, in words.
    ///
    /// # Source
    /// ISO 456, determination of free caustic alkali in soaps (from memory).
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Hold => {
                "hold: keep it apart and marked while it cures; do not use it, give it away or sell it before it is tested"
            }
            Self::Test => {
                "test: have its free caustic alkali determined (ISO 456); only when none is found may it be used"
            }
            Self::Discard => {
                "discard: it holds alkali that no fat takes up; do not use it, give it away or sell it; throw it away where children and animals cannot reach it"
            }
        }
    }
}
