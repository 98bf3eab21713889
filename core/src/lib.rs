#![doc = "Lamella plans bar soap that is poured in layers."]
#![forbid(unsafe_code)]

pub mod batch;
pub mod chemistry;
pub mod document;
pub mod limits;
pub mod material;
pub mod problem;
pub mod quantity;
pub mod recipe;
pub mod sheet;

pub use batch::Plan;
pub use document::{Failure, plan_json};

/// The version of this library, `major.minor.patch`.
pub const VERSION: &str = env!("CARGO_PKG_VERSION");

/// A recipe document to try things with: seven bands, three of them thin lines out of one jug.
pub const EXAMPLE: &str = include_str!("../../tests/vectors/golden/tidal-strata/recipe.json");
