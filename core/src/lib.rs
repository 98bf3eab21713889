//! Lamella plans bar soap that is poured in layers: one exact model of a recipe, from which follow the weigh lists, the
//! lye of each layer, what the jug reads before and after every pour, how high each layer stands, what the cured bar is
//! made of, and what deserves a second look.
//!
//! # From a recipe to a plan
//!
//! ```
//! let recipe = lamella::recipe::read(
//!     r#"{
//!         "lamella": "recipe/1",
//!         "name": "Two halves",
//!         "fats": [
//!             { "fat": "olive-oil", "share": "70 %" },
//!             { "fat": "coconut-oil", "share": "30 %" }
//!         ],
//!         "alkali": { "naoh": { "purity": "99 %" } },
//!         "superfat": "5 %",
//!         "water": { "lye_concentration": "33 %" },
//!         "size": { "fat": "500 g" },
//!         "layers": [
//!             { "layer": "Plain", "share": "1 part" },
//!             {
//!                 "layer": "Sesame", "share": "1 part",
//!                 "doses": [{ "additive": "tahini", "dose": "12 %" }]
//!             }
//!         ]
//!     }"#,
//! )
//! .unwrap();
//! let plan = lamella::Plan::of(&recipe).unwrap();
//!
//! let [plain, sesame] = &plan.jugs[..] else { panic!("two layers, two jugs") };
//! assert_eq!(plain.superfat_ideal.to_string(), "5 %");
//! // Tahini is half sesame oil: without lye of its own that fat stays in the bar.
//! assert!(sesame.superfat > "10 %".parse().unwrap());
//! ```
//!
//! # The modules, in the order in which data flows
//!
//! | module | holds |
//! | --- | --- |
//! | [`quantity`] | exact typed units |
//! | [`material`] | fats, additives and the rest, with where their numbers come from |
//! | [`recipe`] | what a maker wants, and its JSON form |
//! | [`chemistry`] | demand, neutralisation, products, indices |
//! | [`batch`] | the plan: size, balance, weigh, pour |
//! | [`cure`] | drying: a curve fitted to weighings, or an estimate |
//! | [`cost`] | what a batch, a layer and a bar cost |
//! | [`record`] | lots, weighings, release, trials: the batch record |
//! | [`after`] | what is seen after the cut, and what may have caused it |
//! | `heat` (feature `heat`) | lye, batter and block: how warm, where and when |
//! | `blend` | fats and shares chosen by a solver (feature `blend`) |
//! | [`certainty`] | how sure the superfat of each layer is, and what to aim for |
//! | [`follow`] | a batch under way: what really happened, and the rest of the plan that follows |
//! | [`sheet`] | a plan as text, Markdown and SVG |
//! | [`screen`] | a plan as a screen works with it: outlines, tasks, where a figure comes from |
//! | [`market`] | from bar to sale: ingredient list, scent limits, assessment, dossier, net weight |
//! | [`laws`] | what every plan keeps, for tests of one's own |
//!
//! Each depends only on those above it. [`json`] writes documents, [`problem`] says what is wrong with a document, [`limits`] what a number may be.
//!
//! # What this library does not decide
//!
//! Lye burns. The figures here are arithmetic on published averages; they do not replace a test of the bar, the law, or
//! the report of a qualified assessor where a bar is sold or given away.

#![forbid(unsafe_code)]

pub mod after;
pub mod batch;
#[cfg(feature = "blend")]
pub mod blend;
pub mod certainty;
pub mod chemistry;
pub mod cost;
pub mod cure;
pub mod document;
pub mod follow;
#[cfg(feature = "heat")]
pub mod heat;
pub mod json;
pub mod laws;
pub mod limits;
pub mod market;
pub mod material;
pub mod problem;
pub mod quantity;
pub mod recipe;
pub mod record;
pub mod screen;
pub mod sheet;

pub use batch::Plan;
pub use document::{Failure, plan_json};
pub use problem::Problem;

/// The version of this library, `major.minor.patch`.
pub const VERSION: &str = env!("CARGO_PKG_VERSION");

/// A recipe to look at and to try things on: seven layers, three of them from one jug.
pub const EXAMPLE: &str = include_str!("../data/example-recipe.json");
