//! The two alkalis.

use std::borrow::Cow;

use serde::Serialize;

use super::atoms::molar;
use super::basis::Basis;
use super::fat::Ranged;
use crate::quantity::{Exact, Share};

/// An alkali that saponifies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
#[expect(clippy::exhaustive_enums, reason = "bar and liquid soap are made with these two")]
pub enum Alkali {
    /// NaOH, for hard soap.
    SodiumHydroxide,
    /// KOH, for soft soap.
    PotassiumHydroxide,
}

impl Alkali {
    /// Both, in the order in which they are shown.
    pub const ALL: [Self; 2] = [Self::SodiumHydroxide, Self::PotassiumHydroxide];

    /// Molar mass, g/mol.
    #[must_use]
    pub const fn molar_mass(self) -> Exact {
        match self {
            Self::SodiumHydroxide => molar::NAOH,
            Self::PotassiumHydroxide => molar::KOH,
        }
    }

    /// Id in the data table and in documents.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::SodiumHydroxide => "naoh",
            Self::PotassiumHydroxide => "koh",
        }
    }

    /// Name in English.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::SodiumHydroxide => "sodium hydroxide",
            Self::PotassiumHydroxide => "potassium hydroxide",
        }
    }
}

/// An alkali as it is sold.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct AlkaliData {
    /// Which alkali.
    pub alkali: Alkali,
    /// Share of it that is the hydroxide; the typical one is taken when a recipe says nothing.
    pub purity: Ranged<Share>,
    /// Largest share of carbonate that a food-grade alkali may hold. Carbonate does not saponify fat.
    pub carbonate_max: Share,
    /// Where the numbers come from.
    pub bases: Cow<'static, [Basis]>,
    /// What a maker should know.
    pub note: Cow<'static, str>,
}
