//! From the bar to its sale: what stands on the label, what a scent's certificate allows, what an assessment covers, what an
//! assessor asks for, and how heavy a bar may be said to be.
//!
//! In: a [`Plan`](crate::Plan) and the [`Recipe`](crate::recipe::Recipe) that it was made of. Out: figures with the rule
//! that each rests on. All arithmetic is exact. Nothing here is legal advice: each rule names its article, and says so
//! where that was not read.

mod allowed;
mod charge;
mod colours;
mod composition;
pub mod dossier;
pub mod envelope;
mod facts;
mod formed;
mod ingredients;
pub mod label;
mod names;
pub mod net;
mod rules;
mod scent;

/// An assessment that covers [`EXAMPLE`](crate::EXAMPLE): to look at and to try things on.
pub const EXAMPLE_ASSESSMENT: &str = include_str!("../../data/example-assessment.json");

pub use composition::{Composition, Line, Role, Style};
pub use ingredients::{Entry, IngredientList, ListOptions, Rank, ingredients, soap_of_non_volatile};
pub use rules::{
    ALLERGENS, ALLERGENS_2023, ALLERGENS_2023_AVAILABLE_FROM, ALLERGENS_2023_PLACED_FROM, COLOURS, GLOSSARY,
    IMPURITIES, LEAVE_ON, Market, NANO, ORDER, PARFUM_RULE, RINSE_OFF, Rule, STYLES, UNDER_ONE, US_ORDER,
    US_SOAP, allergen_lists,
};
pub use scent::{AllergenLine, Limit, ScentLine, ScentReport, scents};
