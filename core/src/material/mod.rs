//! What goes into a bar: fats, alkalis, liquids, additives, acids, colourants, scents, each with where its numbers come
//! from.
//!
//! In: the rows of `core/data`, turned into static tables when the crate is built. Out: [`Fat`], [`Additive`] and the
//! others, looked up by id. Depends on `quantity` alone.

pub mod acid;
pub mod additive;
pub mod alkali;
pub mod atoms;
#[cfg(test)]
mod audit;
pub mod basis;
mod catalogue;
pub mod colourant;
pub mod fat;
pub mod fatty_acid;
pub mod fragrance;
mod in_lye;
pub mod label;
pub mod library;
pub mod profile;

pub use acid::Acid;
pub use additive::{Additive, Composition, Form};
pub use alkali::{Alkali, AlkaliData};
pub use basis::{Basis, BasisKind};
pub use catalogue::{Listed, ListedKind, catalogue};
pub use colourant::{Colourant, ColourantKind};
pub use fat::{AcidShare, Fat, FatDensity, FatKind, Inci, Ranged};
pub use fatty_acid::{Class, FattyAcid};
pub use fragrance::{Fragrance, FragranceKind, Pace, ScentCertificate};
pub use in_lye::InLye;
pub use label::{Allergen, AllergenList, Label, LabelPart, Substance};
