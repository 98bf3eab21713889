//! Laws that every plan keeps, as plain functions, and strategies of recipes to try them on.
//!
//! In: a [`Recipe`](crate::recipe::Recipe). Out: nothing, or the law that is [`Broken`] with its figures. Depends on all the modules above it in
//! the list of the crate.
//!
//! A maker who keeps recipes under version control calls the laws in a test of their own; a program that embeds the
//! library and changes it does the same. Each law plans the recipe, where it needs to also a changed recipe, and hands the
//! plans to its half in [`check`](mod@check), which can be given any plan, also one that was tampered with.
//!
//! ```
//! let text = r#"{"lamella": "recipe/1", "name": "Plain", "superfat": "5 %",
//!   "fats": [{"fat": "olive-oil", "mass": "500 g"}, {"fat": "coconut-oil", "mass": "200 g"}],
//!   "alkali": {"naoh": {"purity": "98 %"}}, "water": {"lye_concentration": "33 %"},
//!   "layers": [{"layer": "Lower", "share": "2 parts"}, {"layer": "Upper", "share": "1 part"}]}"#;
//! let recipe = lamella::recipe::read(text).unwrap();
//! for (name, law) in lamella::laws::ALL {
//!     assert_eq!(law(&recipe), Ok(()), "{name}");
//! }
//! ```
//!
//! # The laws
//!
//! | law | what it says |
//! | --- | --- |
//! | `mass` | everything weighed is poured or left in the pot, the lye's vessel and the jugs, to the last digit; every makeup closes on its total |
//! | `parts` | the parts of every split sum to the whole: fats, portions, lye, pours |
//! | `steps` | what is weighed is whole scale steps, the nearest to its ideal |
//! | `readings` | the readings of a jug go down by its portions, and what stays is at least its residue |
//! | `fats-order` | the order of the fats decides nothing but ties |
//! | `units` | grams, kilograms or ounces give the same plan |
//! | `superfat` | more superfat takes less alkali |
//! | `halves` | a layer split into two halves is the layer |
//! | `bound` | no jug's superfat leaves its ideal by more than the scale steps explain |
//! | `document` | a written recipe is read back as itself, and written again as the same text |
//! | `again` | planning twice gives the same bytes |
//! | `lye` | each item of the lye is named once in its order, the watery and acid ones before the alkali, and too little water is said |
//! | `scaling` | three times everything is three times every ideal amount |

mod bound;
pub mod change;
pub mod check;
mod law;
mod lye;
mod pair;
#[cfg(feature = "proptest")]
pub mod strategy;

pub use bound::{Span, superfat_span};
pub use law::{
    ALL, Law, again, bound, document, fats_order, halves, lye_order, mass, parts, readings, scaling, steps,
    superfat, units,
};

use thiserror::Error;

/// A law that does not hold, and by what figures.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("the law {law:?} does not hold: {message}")]
pub struct Broken {
    /// Name of the law, as in [`ALL`].
    pub law: &'static str,
    /// What is not as it should be.
    pub message: String,
}

/// Breaks a law unless a condition holds.
fn ensure(law: &'static str, holds: bool, message: impl FnOnce() -> String) -> Result<(), Broken> {
    if holds { Ok(()) } else { Err(Broken { law, message: message() }) }
}
