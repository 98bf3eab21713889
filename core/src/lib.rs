#![doc = "Lamella plans bar soap that is poured in layers."]
#![forbid(unsafe_code)]

pub mod batch;
pub mod chemistry;
pub mod laws;
pub mod limits;
pub mod material;
pub mod problem;
pub mod quantity;
pub mod recipe;
pub mod sheet;

pub use batch::Plan;
