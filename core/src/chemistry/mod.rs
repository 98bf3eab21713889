//! What alkali does to a mixture: demand, neutralisation, lye, reaction products, indices of the fat.
//!
//! In: materials with masses. Out: a [`Tally`], and from it the [`Makeup`] of a bar at pour, reacted and cured. Depends
//! on `quantity`, `material` and the choices of `recipe`.
//!
//! # How it is reckoned
//!
//! Everything that the reaction needs to know about a mixture *adds up*: grams of KOH that its fats demand, grams of
//! water, sugar, colour. So each ingredient becomes a [`Tally`] per gram, a jug's tally is a sum of multiples of such
//! tallies, and only at the end are proportions taken. That keeps one division at the end of each chain, and makes a jug
//! that is half of another exactly half.
//!
//! Alkali demand is kept in grams of potassium hydroxide, the unit in which saponification values are published; sodium
//! hydroxide follows by the ratio of molar masses.

mod demand;
mod density;
mod indices;
mod lye;
mod products;
mod tally;
pub mod titration;

pub use demand::{Demand, demand_of, reachable};
pub use density::{fat_density, lye_density, water_density};
pub(crate) use indices::indices_and_acids;
pub use indices::{Indices, acids_by_mass, acids_in, indices};
pub use lye::{
    AlkaliMasses, AlkaliSplit, carbonate_and_water, discount_from_excess, excess_from_discount, mole_share,
};
pub(crate) use products::soap_of_acids;
pub use products::{Makeup, Part, Stage, soap_by_acid};
pub use tally::{Outline, Tally};
