//! Scents.

use std::borrow::Cow;

use serde::Serialize;

use super::basis::Basis;
use crate::quantity::{Share, Temperature};

/// What a scent is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum FragranceKind {
    /// Distilled or pressed from plants.
    EssentialOil,
    /// A compounded fragrance.
    Compound,
}

/// How a scent changes the pace of the batter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Pace {
    /// Leaves it as it is.
    Steady,
    /// Thickens it sooner.
    Faster,
    /// May seize it within a minute.
    Seizing,
    /// Not known.
    Unknown,
}

/// A scent, reckoned as inert and volatile.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Fragrance {
    /// Stable id, `lavender`.
    pub id: Cow<'static, str>,
    /// Name in English.
    pub name: Cow<'static, str>,
    /// What it is.
    pub kind: FragranceKind,
    /// Label name (INCI), where known.
    pub inci: Option<Cow<'static, str>>,
    /// What it does to the batter.
    pub pace: Pace,
    /// Largest usual dose as a share of fat; the supplier's certificate decides.
    pub usual_max: Share,
    /// What the supplier's certificate states; the library has none.
    pub certificate: Option<Box<ScentCertificate>>,
    /// Where the numbers come from.
    pub bases: Cow<'static, [Basis]>,
    /// What a maker should know.
    pub note: Cow<'static, str>,
}

/// What a supplier certifies of a scent: how much a finished bar may hold, and what is in it.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct ScentCertificate {
    /// The supplier's name or number for it; may be empty.
    pub reference: String,
    /// Number of the amendment of the fragrance industry's standards that it was drawn up to.
    pub amendment: Option<u32>,
    /// Largest share of the finished bar, by mass, in the category of bar soap.
    ///
    /// # Source
    /// IFRA standards since amendment 49: category 9, body and hand exposure, primarily rinse-off (read in a copy of the
    /// list); that bar soap belongs to it is from memory.
    pub limit: Option<Share>,
    /// Allergens by id with their share of the scent, in the order of the document.
    pub allergens: Vec<(String, Share)>,
    /// Vanillin, which browns soap.
    pub vanillin: Option<Share>,
    /// Flash point.
    pub flash_point: Option<Temperature>,
}
