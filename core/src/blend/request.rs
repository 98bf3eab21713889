//! What a maker asks of a blend.

use serde::Serialize;

use crate::material::{Class, Fat, FatKind, FattyAcid, profile};
use crate::quantity::{Decimal, Exact, IodineValue, Mass, Price, Share};
use crate::recipe::Certificate;

/// A fat that may be part of the blend.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Candidate {
    /// The fat, with the certificate's figures in place of the library's.
    pub fat: Fat,
    /// What the certificate overrides.
    pub certificate: Certificate,
    /// The iodine value to reckon with; nothing where none is known.
    pub iodine_value: Option<IodineValue>,
    /// What it costs.
    pub price: Option<Price>,
    /// How much of it there is.
    pub stock: Option<Mass>,
    /// Least share of the blend.
    pub min: Share,
    /// Largest share of the blend.
    pub max: Share,
    /// Its share in the usual blend.
    pub usual: Share,
    /// Groups it is in: "palm", "local".
    pub groups: Vec<String>,
}

impl Candidate {
    /// A fat without a price, a stock or limits of its own.
    ///
    /// Its iodine value is what the certificate states; else what its profile computes to (AOCS Cd 1c-85), as in a plan;
    /// else the library's.
    #[must_use]
    pub fn new(fat: Fat, certificate: Certificate) -> Self {
        let computed = (!fat.profile.is_empty() && fat.kind != FatKind::WaxEster)
            .then(|| profile::iodine_value(fat.kind, &fat.profile))
            .flatten()
            .and_then(|value| IodineValue::try_new(value).ok());
        let known = fat.iodine_value.map(|value| value.typical);
        Self {
            iodine_value: certificate.iodine_value.or(computed).or(known),
            fat,
            certificate,
            price: None,
            stock: None,
            min: Share::ZERO,
            max: Share::literal(1, 0),
            usual: Share::ZERO,
            groups: Vec::new(),
        }
    }

    /// Cost of a kilogram.
    pub(super) fn cost(&self) -> Option<Exact> {
        let money = self.price?.of(Mass::literal(1_000, 0)).ok()?;
        Some(Exact::from(money.amount()))
    }

    /// The largest share that `max` and the stock allow, and whether the stock is what limits it.
    pub(super) fn most(&self, size: Option<Mass>) -> (Share, bool) {
        let in_stock = self.stock.zip(size).and_then(|(stock, size)| {
            // Rounded down, so that no more is asked for than there is.
            let steps = (stock.exact() / size.exact()).whole_steps(Exact::literal(1, 12))?;
            Share::try_new(Exact::from(steps) * Exact::literal(1, 12)).ok()
        });
        match in_stock {
            Some(share) if share < self.max => (share, true),
            _ => (self.max, false),
        }
    }
}

/// A figure of a blend that something is demanded of. Every one is linear in the shares, or the ratio of two that are.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Measure {
    /// Mass share of a class in the fatty acids of the blend.
    ///
    /// Fats hold different masses of fatty acids in a gram, so this is not the mean of the fats' own shares: it is the
    /// grams of the class over the grams of all acids, each summed over the fats. A plan reckons it the same way.
    Class(Class),
    /// Mass share of one acid in the fatty acids of the blend, reckoned as a class is.
    Acid(FattyAcid),
    /// Iodine value, g I2/100 g: the mean by mass.
    IodineValue,
    /// Saponification value, mg KOH/g: the mean by mass.
    SaponificationValue,
    /// Mass share of the fats of a group.
    Group(String),
    /// Cost of a kilogram of the blend.
    Cost,
}

impl Measure {
    /// One point of it, in the unit its bounds are stated in: a per cent of a share, one of every other figure.
    #[must_use]
    pub const fn point(&self) -> Exact {
        match self {
            Self::Class(_) | Self::Acid(_) | Self::Group(_) => Exact::literal(1, 2),
            Self::IodineValue | Self::SaponificationValue | Self::Cost => Exact::ONE,
        }
    }

    /// Whether it is a share.
    #[must_use]
    pub const fn is_share(&self) -> bool {
        matches!(self, Self::Class(_) | Self::Acid(_) | Self::Group(_))
    }

    /// What it is, in words.
    #[must_use]
    pub fn name(&self) -> String {
        match self {
            Self::Class(class) => class.name().to_owned(),
            Self::Acid(acid) => format!("fatty acid {acid}"),
            Self::IodineValue => "iodine value".to_owned(),
            Self::SaponificationValue => "saponification value".to_owned(),
            Self::Group(group) => format!("fats of the group {group:?}"),
            Self::Cost => "cost of a kilogram".to_owned(),
        }
    }
}

/// What is demanded of a figure. Shares are fractions (0.2 is 20 %), the rest in the units of [`Measure`].
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Demand {
    /// Of which figure.
    pub measure: Measure,
    /// It is no less than this.
    pub at_least: Option<Decimal>,
    /// It is no more than this. Equal to `at_least` when it must be exactly so.
    pub at_most: Option<Decimal>,
    /// It should be near this: what [`Aim::NearestTargets`] and [`Aim::LeastWorstMiss`] strive for; no blend is refused
    /// for it.
    pub target: Option<Decimal>,
}

/// Which bound of a demand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
#[expect(clippy::exhaustive_enums, reason = "an interval has two ends")]
pub enum End {
    /// No less than.
    AtLeast,
    /// No more than.
    AtMost,
}

/// What the best blend is best in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Aim {
    /// The least cost of a kilogram.
    Cheapest,
    /// The least sum of the differences of all shares from the usual ones, without their signs.
    NearestUsual,
    /// The least sum of the misses of all targets, in points.
    ///
    /// A miss of a share in the fatty acids is reckoned in grams of acid to 100 g of fat, which keeps it linear: it is
    /// 0.94 to 1 times the miss of the share itself.
    NearestTargets,
    /// The least of the largest miss of any target, reckoned as in [`Aim::NearestTargets`].
    LeastWorstMiss,
    /// The fewest fats.
    FewestFats,
    /// The largest share of the candidate at this place: a stock is used up.
    MostOf(usize),
}

/// What a maker asks: choose shares of these fats so that every demand is met, best in the first aim; among those, best
/// in the second; and so on.
///
/// Invariant of what the reader makes: limits of each fat fit together, every fat has the figures that demands and aims
/// need, groups exist.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Request {
    /// What the maker calls it.
    pub name: String,
    /// Free text.
    pub note: String,
    /// How much fat is to be blended; stocks need it.
    pub size: Option<Mass>,
    /// Shares are whole multiples of this, which makes up 100 %; nothing for any share.
    pub step: Option<Share>,
    /// At most so many fats.
    pub fats_at_most: Option<u32>,
    /// The fats to choose from.
    pub fats: Vec<Candidate>,
    /// What the blend must be.
    pub demands: Vec<Demand>,
    /// What it is best in, most important first.
    pub aims: Vec<Aim>,
}
