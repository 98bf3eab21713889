//! How much of what goes into a layer, the pot or the lye.

use std::borrow::Cow;

use serde::Serialize;

use super::AlkaliGrade;
use crate::material::{Additive, Alkali, Colourant, Fat, Fragrance};
use crate::quantity::{Mass, Share};

/// What a dose is a dose of.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Ingredient {
    /// A food-like additive, a clay, a salt, a liquid.
    Additive(Additive),
    /// A fat beside those of the pot.
    Fat(Fat),
    /// A colour.
    Colourant(Colourant),
    /// A scent.
    Fragrance(Fragrance),
    /// Alkali of a grade that went into a jug beside the lye, dissolved; no recipe plans one.
    Alkali(Alkali, AlkaliGrade),
}

impl Ingredient {
    /// Stable id.
    #[must_use]
    pub fn id(&self) -> &str {
        match self {
            Self::Additive(additive) => &additive.id,
            Self::Fat(fat) => &fat.id,
            Self::Colourant(colourant) => &colourant.id,
            Self::Fragrance(fragrance) => &fragrance.id,
            Self::Alkali(alkali, _) => alkali.id(),
        }
    }

    /// Id and name, to keep: those of the library are not copied.
    pub(crate) fn id_and_name(&self) -> (Cow<'static, str>, Cow<'static, str>) {
        let (id, name) = match self {
            Self::Additive(additive) => (&additive.id, &additive.name),
            Self::Fat(fat) => (&fat.id, &fat.name),
            Self::Colourant(colourant) => (&colourant.id, &colourant.name),
            Self::Fragrance(fragrance) => (&fragrance.id, &fragrance.name),
            Self::Alkali(alkali, _) => return (alkali.id().into(), alkali.name().into()),
        };
        (id.clone(), name.clone())
    }

    /// Name in English.
    #[must_use]
    pub fn name(&self) -> &str {
        match self {
            Self::Additive(additive) => &additive.name,
            Self::Fat(fat) => &fat.name,
            Self::Colourant(colourant) => &colourant.name,
            Self::Fragrance(fragrance) => &fragrance.name,
            Self::Alkali(alkali, _) => alkali.name(),
        }
    }
}

/// What a dose in per cent is a share of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum DoseBasis {
    /// Of the fat lines of the recipe that the layer's jug gets, fat held back until after the cook included.
    LayerFat,
    /// Of what is in the jug (fat, lye and the doses on a fat or in grams) when this dose is added.
    Layer,
    /// Of all the fat of the batch.
    BatchFat,
    /// Of what is in all jugs together, reckoned as for [`Layer`](Self::Layer).
    Batch,
}

/// How much.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Amount {
    /// A share of a basis.
    Share(Share, DoseBasis),
    /// A plain mass.
    Mass(Mass),
}

/// What the lye does about the fat and acid that an additive brings.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Treatment {
    /// Nothing: the superfat moves, and the plan says to where.
    #[default]
    Absorb,
    /// The lye follows, so that the superfat stays as asked for.
    Balance,
}

/// One dose.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Dose {
    /// Of what.
    pub ingredient: Ingredient,
    /// How much.
    pub amount: Amount,
    /// What the lye does about it.
    pub treatment: Treatment,
    /// Whether the document describes the ingredient itself instead of naming one of the library unchanged.
    pub own: bool,
    /// JSON Pointer to the dose in its document.
    pub pointer: String,
}

impl Dose {
    /// Whether it is reckoned on what is already in the jug, so that it comes after the lye.
    #[must_use]
    pub const fn is_late(&self) -> bool {
        matches!(self.amount, Amount::Share(_, DoseBasis::Layer | DoseBasis::Batch))
    }
}
