//! Fats, butters, tallows, waxes and free fatty acids.

use std::borrow::Cow;

use serde::Serialize;

use super::basis::Basis;
use super::fatty_acid::FattyAcid;
use crate::quantity::{Density, Exact, IodineValue, SaponificationValue, Share, Temperature};

/// How a fat holds its fatty acids, which decides what else the alkali sets free.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum FatKind {
    /// Three acids on glycerol: alkali makes soap and glycerol.
    Triglyceride,
    /// The acid itself: alkali makes soap and water.
    FreeFattyAcid,
    /// An acid on a fatty alcohol or sterol: alkali makes soap and sets the alcohol free.
    WaxEster,
}

/// A figure that has a published range and a value to reckon with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Ranged<T> {
    /// Lower end of the range, where one is known.
    pub min: Option<T>,
    /// The value to reckon with.
    pub typical: T,
    /// Upper end of the range, where one is known.
    pub max: Option<T>,
}

impl<T: Copy> Ranged<T> {
    /// A single value without a range.
    #[must_use]
    pub const fn exactly(typical: T) -> Self {
        Self { min: None, typical, max: None }
    }
}

/// A fatty acid's mass share of all fatty acids of a fat.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct AcidShare {
    /// Which acid.
    pub acid: FattyAcid,
    /// Its mass share of the fatty acids.
    pub share: Ranged<Share>,
}

/// Density of a fat, and at which temperature.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct FatDensity {
    /// Grams per millilitre (a relative density to water at 20 °C, times 0.9982, or as stated).
    pub typical: Density,
    /// The temperature it holds at.
    pub at: Temperature,
}

/// Names on a label (INCI) of a fat and of its soaps.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Inci {
    /// The fat as charged.
    pub fat: Option<Cow<'static, str>>,
    /// Its sodium soap.
    pub sodium_soap: Option<Cow<'static, str>>,
    /// Its potassium soap.
    pub potassium_soap: Option<Cow<'static, str>>,
}

/// A fat: any oil, butter, tallow, wax or free fatty acid that alkali can saponify.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Fat {
    /// Stable id, `olive-oil`.
    pub id: Cow<'static, str>,
    /// Name in English.
    pub name: Cow<'static, str>,
    /// Plant or animal it is from.
    pub source: Cow<'static, str>,
    /// How it holds its acids.
    pub kind: FatKind,
    /// Saponification value, mg KOH/g (ISO 3657).
    pub saponification_value: Ranged<SaponificationValue>,
    /// Iodine value, g I2/100 g (ISO 3961); nothing where none is known.
    pub iodine_value: Option<Ranged<IodineValue>>,
    /// Largest share of unsaponifiable matter, where a limit is published.
    pub unsaponifiable_max: Option<Share>,
    /// Share of unsaponifiable matter that a certificate states; the library has none.
    pub unsaponifiable_stated: Option<Share>,
    /// Density, where one is known.
    pub density: Option<FatDensity>,
    /// Fatty acids by mass share; empty for waxes whose acids are not usefully listed.
    pub profile: Cow<'static, [AcidShare]>,
    /// Label names.
    pub inci: Inci,
    /// Where the numbers come from.
    pub bases: Cow<'static, [Basis]>,
    /// What a maker or a checker should know about the row.
    pub note: Cow<'static, str>,
}

impl Fat {
    /// Unsaponifiable matter to reckon with: what a certificate states, or half of the published maximum, or none.
    ///
    /// # Source
    /// Half of the maximum stands in for means that are not published: derived. It moves the soap of a bar by a fraction
    /// of a per cent; the saponification value already speaks of the whole fat, so the alkali does not move.
    #[must_use]
    pub fn unsaponifiable(&self) -> Exact {
        let half = |max: Share| max.exact() * Exact::literal(5, 1);
        self.unsaponifiable_stated
            .map(Share::exact)
            .or_else(|| self.unsaponifiable_max.map(half))
            .unwrap_or(Exact::ZERO)
    }
}
