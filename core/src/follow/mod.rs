//! A batch under way: the plan, what really happened, and the rest of the plan that follows from it.
//!
//! In: a [`Recipe`] and [`Event`]s from the bench. Out: after each event the plan of what is left, how sure its superfats
//! are, and what the event changed; the log as a `batch/1` document. Reads `batch` and `certainty`.
//!
//! # How the rest follows
//!
//! What was reported stands. What depends on it moves in proportion, and what does not stays as planned:
//!
//! * as long as the alkali is not weighed, it follows what the jugs need; water follows the alkali, so that the lye keeps
//!   its strength;
//! * the pot is divided over the jugs that have nothing yet, in the proportions of the recipe;
//! * each jug gets the lye that its own fat needs. Lye that no jug needs stays over; when there is too little, every jug
//!   goes short in the same proportion;
//! * doses of a layer's fat follow that fat; a jug's layers share what is left in it.
//!
//! Taking the first portion settles the pot, the first lye the lye, the first pour the jug: what was not reported until
//! then went in as planned, and a later line about it is refused.
//!
//! ```
//! use lamella::follow::{Batch, Event};
//! let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
//! let mut batch = Batch::new(recipe).unwrap();
//! let changes = batch
//!     .record(Event::Weighed {
//!         item: "pot".to_owned(),
//!         vessel: Some("Rust".to_owned()),
//!         mass: "190 g".parse().unwrap(),
//!     })
//!     .unwrap();
//! assert!(changes.iter().any(|change| change.place == "Foam" && change.what == "its lye"));
//! batch.undo();
//! assert_eq!(batch.plan(), &lamella::Plan::of(batch.recipe()).unwrap());
//! ```

mod apply;
mod base;
mod beside;
mod change;
mod correct;
mod event;
mod found;
mod hold;
mod lye;
mod mend;
mod outcome;
mod read;
mod refuse;
mod remedy;
mod replan;
mod tables;
mod write;

pub use change::{Change, changes_json};
pub use event::{Entry, Event, Mixed};
pub use outcome::{Addition, Correction, Outcome, Safe, Tolerances};
#[cfg(feature = "schema")]
pub use read::schema;
pub use read::{planned, read, read_bytes, read_event};

use std::collections::BTreeMap;

use crate::batch::Plan;
use crate::certainty::Certainty;
use crate::limits;
use crate::problem::Problem;
use crate::quantity::Share;
use crate::recipe::Recipe;

use self::base::Base;
use self::replan::Ledger;

/// A batch under way.
#[derive(Clone, Debug)]
pub struct Batch {
    recipe: Recipe,
    base: Base,
    /// Superfats of the jugs before any event, by name.
    planned: Vec<(String, Share)>,
    log: Vec<Entry>,
    ledger: Ledger,
    plan: Plan,
}

impl Batch {
    /// A batch of which nothing has been done yet: its plan is that of the recipe.
    ///
    /// # Errors
    /// What keeps the recipe from being planned, as [`Plan::of`].
    pub fn new(recipe: Recipe) -> Result<Self, Vec<Problem>> {
        let base = Base::of(&recipe)?;
        let plan = Plan::of(&recipe)?;
        let planned = plan.jugs.iter().map(|jug| (jug.name.clone(), jug.superfat)).collect();
        let ledger = Ledger {
            truth: recipe.clone(),
            fixed: BTreeMap::new(),
            poured: BTreeMap::new(),
            tests: BTreeMap::new(),
            is: BTreeMap::new(),
        };
        Ok(Self { recipe, base, planned, log: Vec::new(), ledger, plan })
    }

    /// Records what happened, and reckons the rest anew. What it changed comes back.
    ///
    /// # Errors
    /// When it cannot have happened after what was recorded before: a thing that the plan does not have, more of it than
    /// there is, a vessel that is settled already. The batch stays as it was. The pointer is into the `batch/1` document
    /// as if the event were its last.
    pub fn record(&mut self, entry: impl Into<Entry>) -> Result<Vec<Change>, Problem> {
        let entry = entry.into();
        let number = self.log.len();
        let placed =
            |problem: Problem| Problem { pointer: format!("/events/{number}{}", problem.pointer), ..problem };
        if number >= limits::ITEMS {
            let message = format!("the log has {number} lines, and no more are kept");
            let advice = "begin a new batch".to_owned();
            return Err(placed(Problem { code: "list.length", pointer: String::new(), message, advice }));
        }
        let mut ledger = self.ledger.clone();
        apply::apply(&mut ledger, &self.plan, &entry.event, number).map_err(placed)?;
        let plan = if ledger == self.ledger {
            self.plan.clone()
        } else {
            let mut plan = replan::replan(&self.base, &ledger, &self.plan).map_err(placed)?;
            plan.holds = hold::holds(&ledger, &self.planned, &plan).map_err(placed)?;
            plan
        };
        let changes = change::changes(&self.plan, &plan);
        (self.ledger, self.plan) = (ledger, plan);
        self.log.push(entry);
        Ok(changes)
    }

    /// Takes the last line of the log back; nothing when there is none.
    pub fn undo(&mut self) -> Option<Entry> {
        let mut log = std::mem::take(&mut self.log);
        let last = log.pop();
        // A log that was recorded once can be recorded again.
        if let Ok(fresh) = Self::new(self.recipe.clone()) {
            *self = fresh;
            for entry in log {
                if self.record(entry).is_err() {
                    break;
                }
            }
        }
        last
    }

    /// The recipe that the batch began with.
    #[must_use]
    pub const fn recipe(&self) -> &Recipe {
        &self.recipe
    }

    /// The recipe as it turned out: with what was added, without the layers that were skipped, with the alkali as it
    /// was found. Masses are in the plan.
    #[must_use]
    pub const fn truth(&self) -> &Recipe {
        &self.ledger.truth
    }

    /// The plan of what is left: what was reported as it was, the rest as it follows. Its indices of layers are those of
    /// [`truth`](Self::truth).
    #[must_use]
    pub const fn plan(&self) -> &Plan {
        &self.plan
    }

    /// What was recorded.
    #[must_use]
    pub fn log(&self) -> &[Entry] {
        &self.log
    }

    /// Whether a layer is poured.
    #[must_use]
    pub fn is_poured(&self, layer: &str) -> bool {
        self.ledger.poured.contains_key(layer)
    }

    /// Whether an item of the pot or of the lye was reported, or is settled.
    pub(crate) fn is_reported(&self, pointer: &str) -> bool {
        self.ledger.fixed.contains_key(&(None, pointer.to_owned()))
    }

    /// Whether a jug has its lye.
    #[must_use]
    pub fn has_lye(&self, jug: &str) -> bool {
        self.ledger.fixed.contains_key(&(Some(jug.to_owned()), replan::LYE.to_owned()))
    }

    /// How sure the superfats are, of what was poured and of what is left. Nothing when a figure passes what its
    /// quantity can hold.
    #[must_use]
    pub fn certainty(&self) -> Option<Certainty> {
        Certainty::of(self.truth(), &self.plan)
    }

    /// The log as its `batch/1` document: the same log gives the same bytes, and reading them gives the same batch.
    #[must_use]
    pub fn to_json(&self) -> String {
        write::write(self)
    }
}
