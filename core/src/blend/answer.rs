//! What comes out: the blend with its figures, or why there is none.

use serde::{Serialize, Serializer};

use super::request::{Aim, End};
use crate::quantity::{Decimal, Mass, Share};

/// A fat of the blend.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct FatShare {
    /// Id of the fat.
    pub fat: String,
    /// Its name.
    pub name: String,
    /// Its share; nought when it is not used.
    pub share: Share,
    /// How much that is, when the request says how much fat is to be blended.
    pub mass: Option<Mass>,
    /// For a fat that is not used, the amount by which a kilogram of it would have to be cheaper before any of it came
    /// into a cheapest blend of any shares.
    #[serde(serialize_with = "maybe_number")]
    pub too_dear_by: Option<Decimal>,
}

/// A demand and what the blend makes of it. Shares are fractions, the rest in the unit of the figure.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct DemandValue {
    /// The figure, in words.
    pub figure: String,
    /// Its unit; empty for a share.
    pub unit: String,
    /// What the blend has.
    #[serde(serialize_with = "number")]
    pub value: Decimal,
    /// It is no less than this.
    #[serde(serialize_with = "maybe_number")]
    pub at_least: Option<Decimal>,
    /// It is no more than this.
    #[serde(serialize_with = "maybe_number")]
    pub at_most: Option<Decimal>,
    /// It should be near this.
    #[serde(serialize_with = "maybe_number")]
    pub target: Option<Decimal>,
    /// How far the nearer bound is; a billionth or less when it holds the blend back.
    #[serde(serialize_with = "maybe_number")]
    pub slack: Option<Decimal>,
    /// The bound that the blend stands at.
    pub binding: Option<End>,
    /// What one more point of it costs.
    pub shadow_price: Option<ShadowPrice>,
}

/// What one more point of a bound costs: the derivative of the first aim that is not a count, for a blend of any shares
/// (of the fats that are used, where their number is limited or is an aim). A bound that cannot be made stricter at all
/// has none.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ShadowPrice {
    /// The bound that holds such a blend back.
    pub end: End,
    /// By how much the aim's value grows with a stricter bound (falls, for a stock to be used up), in the aim's unit for
    /// a point: a per cent of a share, one of every other figure. For a demand for a single point: with a higher one.
    #[serde(serialize_with = "number")]
    pub per_point: Decimal,
}

/// What an aim has come to.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct AimValue {
    /// The aim, in words.
    pub aim: String,
    /// What the blend has of it.
    #[serde(serialize_with = "number")]
    pub value: Decimal,
    /// Its unit; empty for a count or a share.
    pub unit: String,
    /// What no blend of these fats can be better than, by a proof in decimals that does not rest on the solver; nothing
    /// for an aim that is not a sum over the shares, and for all but the first of those.
    #[serde(serialize_with = "maybe_number")]
    pub bound: Option<Decimal>,
}

/// A blend that meets every demand.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Answer {
    /// What the maker calls it.
    pub name: String,
    /// Every candidate with its share, in the order of the request; the shares sum to 100 % exactly.
    pub fats: Vec<FatShare>,
    /// Every demand.
    pub demands: Vec<DemandValue>,
    /// Every aim, most important first.
    pub aims: Vec<AimValue>,
    /// Cost of a kilogram, when every fat has a price.
    #[serde(serialize_with = "maybe_number")]
    pub cost_per_kilogram: Option<Decimal>,
    /// Cost of the whole, when the request says how much fat is to be blended.
    #[serde(serialize_with = "maybe_number")]
    pub cost: Option<Decimal>,
    /// The currency of the costs.
    pub currency: Option<String>,
    /// Whether the search ended by itself: the solver claims that no blend is better. Otherwise it was stopped after so
    /// many parts, and the blend is the best of those.
    pub best: bool,
    /// The most by which a demand is missed, as a part of the largest figure that a fat brings to it. Nought, but when
    /// demands leave no more room than a single point: then at most 0.000000001.
    #[serde(serialize_with = "number")]
    pub miss: Decimal,
}

/// One thing that takes part in a conflict.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Conflicting {
    /// A bound of the demand at this place.
    Demand(usize, End),
    /// The least share of the fat at this place.
    Min(usize),
    /// The largest share of the fat at this place, or its stock.
    Max(usize),
    /// At most so many fats.
    FatsAtMost,
    /// Whole steps.
    Steps,
}

/// A demand that the nearest blend misses.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Miss {
    /// Place of the demand.
    pub demand: usize,
    /// Which bound.
    pub end: End,
    /// What the blend has.
    #[serde(serialize_with = "number")]
    pub value: Decimal,
    /// By how much it misses the bound.
    #[serde(serialize_with = "number")]
    pub by: Decimal,
}

/// Why there is no blend.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Conflict {
    /// What cannot be met together: leave any one of it out, and the rest can.
    pub members: Vec<Conflicting>,
    /// The same in words with figures, one line each.
    pub words: Vec<String>,
    /// Whether the conflict was proved in decimals, without trust in the solver. Conflicts of whole steps or of a number
    /// of fats are not; two runs of the solver by different ways agree on them.
    pub proved: bool,
    /// The blend that misses the demands by the least sum of points, when the limits of the fats allow one at all; of any
    /// shares, of any number of fats.
    pub nearest: Option<Nearest>,
}

/// The blend that comes nearest to demands that cannot be met.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Nearest {
    /// The shares, in the order of the request.
    pub shares: Vec<Share>,
    /// Sum of the misses in points; those of shares in the fatty acids reckoned in grams of acid to 100 g of fat.
    #[serde(serialize_with = "number")]
    pub points: Decimal,
    /// What is missed.
    pub misses: Vec<Miss>,
}

/// Why there is no answer.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum NoBlend {
    /// Demands that cannot be met together.
    #[error("no blend meets all demands: {}", .0.words.join("; "))]
    Conflict(Box<Conflict>),
    /// The search was stopped.
    #[error("no blend was found within the effort that is allowed; take coarser steps or fewer fats")]
    Effort,
    /// The solver's answer did not hold.
    #[error(
        "the solver gave no answer that holds when it is checked in decimals; loosen or tighten a demand a little"
    )]
    Solver,
    /// A figure out of range.
    #[error("a figure of the blend is beyond what can be computed")]
    Number,
}

impl NoBlend {
    /// Its stable code.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Conflict(_) => "blend.conflict",
            Self::Effort => "blend.effort",
            Self::Solver => "blend.solver",
            Self::Number => "blend.number",
        }
    }
}

impl Aim {
    /// The aim in words; `fat` is the name of the fat of [`Aim::MostOf`].
    pub(super) fn words(self, fat: &str) -> String {
        match self {
            Self::Cheapest => "cheapest".to_owned(),
            Self::NearestUsual => "nearest usual".to_owned(),
            Self::NearestTargets => "nearest targets".to_owned(),
            Self::LeastWorstMiss => "least worst miss".to_owned(),
            Self::FewestFats => "fewest fats".to_owned(),
            Self::MostOf(_) => format!("most of {fat}"),
        }
    }
}

fn number<S: Serializer>(value: &Decimal, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_str(&value.normalize())
}

#[expect(clippy::ref_option, reason = "the signature that serde calls")]
fn maybe_number<S: Serializer>(value: &Option<Decimal>, serializer: S) -> Result<S::Ok, S::Error> {
    match value {
        Some(value) => number(value, serializer),
        None => serializer.serialize_none(),
    }
}
