//! What a maker wants: fats, alkali, water, layers, jugs, moulds, and the workshop it is made in.
//!
//! In: a `recipe/1` document. Out: a [`Recipe`] in which every id is resolved to its material and every quantity is
//! typed, or all the problems at once. Depends on `quantity` and `material`.

use serde::Serialize;

mod dose;
pub(crate) mod fields;
pub(crate) mod json;
mod layer;
mod locate;
mod most;
pub mod mould;
mod nearest;
mod places;
pub(crate) mod read;
pub(crate) mod read_composition;
pub(crate) mod read_date;
mod read_dose;
mod read_fats;
mod read_layers;
mod read_lye;
mod read_mould;
pub(crate) mod read_own;
pub(crate) mod read_quantity;
mod read_scent;
pub(crate) mod read_value;
mod read_workshop;
#[cfg(feature = "schema")]
pub mod schema;
pub(crate) mod tables;
pub(crate) mod tables_dose;
mod workshop;
pub(crate) mod write;
mod write_dose;

pub use dose::{Amount, Dose, DoseBasis, Ingredient, Treatment};
pub use layer::{Jug, Layer, LayerShare, Size};
pub use locate::{Place, locate, render};
pub use most::Limits;
pub use mould::{Mould, Shape};
pub use read::{read, read_bytes};
pub use workshop::{Scale, Workshop};
pub use write::write;

use crate::material::{Fat, FattyAcid, Inci};
use crate::quantity::{Decimal, Density, IodineValue, Mass, SaponificationValue, Share, Temperature};

/// Who a batch is for. Only goods to be sold need an assessment; the chemistry is the same.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Purpose {
    /// For the maker's own household.
    #[default]
    Household,
    /// To be sold or given away.
    Sale,
}

/// Whether the batter is poured raw or cooked first.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Process {
    /// Poured at trace; saponifies in the mould.
    #[default]
    Cold,
    /// Cooked until saponified, then filled.
    Hot,
}

/// When a fat goes in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum FatStage {
    /// With the others, into the pot.
    #[default]
    Pot,
    /// Held back until after the cook, so that it stays unreacted.
    AfterCook,
}

/// How much of a fat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum FatAmount {
    /// A share of all the fat.
    Share(Share),
    /// A mass, which also says how large the batch is.
    Mass(Mass),
}

/// What a supplier's certificate says in place of the library, for one recipe.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Certificate {
    /// Saponification value.
    pub saponification_value: Option<SaponificationValue>,
    /// Iodine value.
    pub iodine_value: Option<IodineValue>,
    /// Unsaponifiable matter.
    pub unsaponifiable: Option<Share>,
    /// Density at 20 °C.
    pub density: Option<Density>,
    /// Fatty acids by mass share, in the order of the acids.
    pub profile: Option<Vec<(FattyAcid, Share)>>,
    /// Names on a label of the fat and of its soaps, where the library has none or others.
    pub inci: Inci,
}

/// A fat of the recipe.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FatLine {
    /// The fat, with the certificate's figures in place of the library's.
    pub fat: Fat,
    /// How much.
    pub amount: FatAmount,
    /// When it goes in.
    pub stage: FatStage,
    /// What the certificate overrides.
    pub certificate: Certificate,
}

/// How an alkali comes from its supplier.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct AlkaliGrade {
    /// Pure alkali as a mass share of what is weighed.
    pub purity: Share,
    /// Carbonate as a mass share; it does not saponify. The rest is water, and counts as water.
    pub carbonate: Share,
    /// How far the purity may be from what is stated, either way; nothing when nobody says. Only `certainty` asks.
    pub purity_within: Option<Share>,
}

impl AlkaliGrade {
    /// A grade of which nobody says how far its purity may be off.
    #[must_use]
    pub const fn new(purity: Share, carbonate: Share) -> Self {
        Self { purity, carbonate, purity_within: None }
    }
}

/// What a stated share of potassium hydroxide is a share of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum ShareReading {
    /// Of the alkali demand, in moles: this share of the soap is potassium soap.
    #[default]
    Moles,
    /// Of the mass of both alkalis as pure substance.
    PureMass,
    /// Of the mass of both alkalis as weighed, impurities included.
    WeighedMass,
}

/// Which alkali, and how it is shared.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum AlkaliChoice {
    /// Sodium hydroxide alone.
    Sodium(AlkaliGrade),
    /// Potassium hydroxide alone.
    Potassium(AlkaliGrade),
    /// Both.
    Dual {
        /// Grade of the sodium hydroxide.
        sodium: AlkaliGrade,
        /// Grade of the potassium hydroxide.
        potassium: AlkaliGrade,
        /// Share of potassium hydroxide.
        share: Share,
        /// What it is a share of.
        reading: ShareReading,
    },
}

/// How much fat is to stay unreacted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Superfat {
    /// Share of the alkali demand left unmet: what this library calls superfat.
    OfDemand(Share),
    /// Fat beyond what the alkali meets, as a share of the fat it meets: alkali = demand / (1 + excess).
    FatExcess(Share),
}

/// How much water, three ways. It is all the water that the alkali is dissolved in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Water {
    /// Pure alkali / (pure alkali + water), by mass.
    LyeConcentration(Share),
    /// Grams of water to a gram of pure alkali.
    WaterToAlkali(Decimal),
    /// Water as a share of the fat.
    ShareOfFat(Share),
}

/// Whether water that additives bring is part of the recipe's water.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum AdditiveWater {
    /// It comes on top.
    #[default]
    Extra,
    /// The lye is made with that much less.
    Counts,
}

/// A liquid that stands in for part of the lye's water.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LiquidLine {
    /// The liquid as a dose: its material, its treatment, and where it stands in the document. Its amount is unused;
    /// `share` decides.
    pub dose: Dose,
    /// Share of the lye's water that is to be water of this liquid.
    pub share: Share,
}

/// What the lye is made with besides alkali and water.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct LyeExtras {
    /// Liquids in place of water.
    pub liquids: Vec<LiquidLine>,
    /// What is dissolved in it: salt, sugar, lactate, citric acid, silk.
    pub doses: Vec<Dose>,
}

/// Temperatures at mixing, for densities and cautions.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Temperatures {
    /// Of the fats.
    pub fats: Temperature,
    /// Of the lye.
    pub lye: Temperature,
}

/// 38 and 35 °C: lye and fats within 10 °C of each other, in 30-45 °C. Source: common practice.
impl Default for Temperatures {
    fn default() -> Self {
        Self { fats: Temperature::literal(38, 0), lye: Temperature::literal(35, 0) }
    }
}

/// A recipe: everything a plan needs, with every material resolved.
///
/// Invariant: it was made by the reader, or by the strategies of `laws`, which uphold the same conditions: shares of
/// fats sum to one or all fats have a mass, layers have shares of one kind, jugs that are named exist.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Recipe {
    /// What the maker calls it.
    pub name: String,
    /// Free text.
    pub note: String,
    /// Who it is for.
    pub purpose: Purpose,
    /// Raw or cooked.
    pub process: Process,
    /// The fats.
    pub fats: Vec<FatLine>,
    /// The alkali.
    pub alkali: AlkaliChoice,
    /// How much fat stays unreacted.
    pub superfat: Superfat,
    /// How much water.
    pub water: Water,
    /// Whether additives' water counts in it.
    pub additive_water: AdditiveWater,
    /// What else is in the lye.
    pub lye: LyeExtras,
    /// What is stirred into the fats before they are divided.
    pub pot: Vec<Dose>,
    /// How large the batch is; nothing when fats or layers say it.
    pub size: Option<Size>,
    /// Moulds that are filled.
    pub moulds: Vec<Mould>,
    /// Jugs that more than one layer is poured from, or whose tare is known.
    pub jugs: Vec<Jug>,
    /// Layers, in pour order: the first lies at the bottom.
    pub layers: Vec<Layer>,
    /// Scales, and what stays behind.
    pub workshop: Workshop,
    /// Temperatures at mixing.
    pub temperatures: Temperatures,
    /// Water in the cured bar, by mass.
    pub cured_water: Share,
}

/// Water left in a cured bar unless the recipe says otherwise: 12 %.
///
/// # Source
/// Common practice, no source: 8-15 % at four to eight weeks.
pub const CURED_WATER: Share = Share::literal(12, 2);
