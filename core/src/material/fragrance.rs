//! Scents.

use std::borrow::Cow;

use serde::Serialize;

use super::basis::Basis;
use crate::quantity::Share;

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
    /// Where the numbers come from.
    pub bases: Cow<'static, [Basis]>,
    /// What a maker should know.
    pub note: Cow<'static, str>,
}
