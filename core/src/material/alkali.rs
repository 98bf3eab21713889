//! The two alkalis.

use serde::Serialize;

use super::atoms::molar;
use crate::quantity::Exact;

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
