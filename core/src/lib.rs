#![doc = "Lamella plans bar soap that is poured in layers."]
#![forbid(unsafe_code)]

pub mod batch;
pub mod chemistry;
pub mod limits;
pub mod material;
pub mod problem;
pub mod quantity;
pub mod recipe;
pub mod sheet;

pub use batch::Plan;

/// A recipe to look at and to try things on: seven layers, three of them from one jug.
pub const EXAMPLE: &str = include_str!("../data/example-recipe.json");
