//! Alkali: from a demand to what is weighed, and the several ways to state the same share.

use crate::material::Alkali;
use crate::material::atoms::molar;
use crate::quantity::{Exact, Share};
use crate::recipe::{AlkaliChoice, AlkaliGrade, ShareReading, Superfat};

/// How a demand is divided between the two alkalis.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct AlkaliSplit {
    /// Sodium hydroxide, where it is used.
    pub sodium: Option<AlkaliGrade>,
    /// Potassium hydroxide, where it is used.
    pub potassium: Option<AlkaliGrade>,
    /// Share of the demand, in moles, that potassium hydroxide meets.
    pub potassium_moles: Exact,
}

/// Masses of the two alkalis.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct AlkaliMasses {
    /// Sodium hydroxide, g.
    pub sodium: Exact,
    /// Potassium hydroxide, g.
    pub potassium: Exact,
}

impl AlkaliSplit {
    /// The split that a recipe asks for.
    #[must_use]
    pub fn of(choice: &AlkaliChoice) -> Self {
        match *choice {
            AlkaliChoice::Sodium(grade) => {
                Self { sodium: Some(grade), potassium: None, potassium_moles: Exact::ZERO }
            }
            AlkaliChoice::Potassium(grade) => {
                Self { sodium: None, potassium: Some(grade), potassium_moles: Exact::ONE }
            }
            AlkaliChoice::Dual { sodium, potassium, share, reading } => Self {
                sodium: Some(sodium),
                potassium: Some(potassium),
                potassium_moles: mole_share(share, reading, sodium.purity, potassium.purity),
            },
        }
    }

    /// The grade of one alkali, where it is used.
    #[must_use]
    pub const fn grade(&self, alkali: Alkali) -> Option<AlkaliGrade> {
        match alkali {
            Alkali::SodiumHydroxide => self.sodium,
            Alkali::PotassiumHydroxide => self.potassium,
        }
    }

    /// Pure alkali that meets a demand stated in grams of KOH.
    #[must_use]
    pub fn pure(&self, koh: Exact) -> AlkaliMasses {
        AlkaliMasses {
            sodium: koh * (Exact::ONE - self.potassium_moles) * molar::NAOH_PER_KOH,
            potassium: koh * self.potassium_moles,
        }
    }

    /// What is weighed to meet a demand stated in grams of KOH: the pure alkali over its purity.
    #[must_use]
    pub fn weighed(&self, koh: Exact) -> AlkaliMasses {
        let purity = |grade: Option<AlkaliGrade>| grade.map_or(Exact::ONE, |grade| grade.purity.exact());
        AlkaliMasses {
            sodium: (koh * (Exact::ONE - self.potassium_moles))
                .portion(molar::NAOH, molar::KOH * purity(self.sodium)),
            potassium: koh.portion(self.potassium_moles, purity(self.potassium)),
        }
    }
}

impl AlkaliMasses {
    /// Both together, g.
    #[must_use]
    pub fn total(&self) -> Exact {
        self.sodium + self.potassium
    }

    /// The mass of one of them, g.
    #[must_use]
    pub const fn of(&self, alkali: Alkali) -> Exact {
        match alkali {
            Alkali::SodiumHydroxide => self.sodium,
            Alkali::PotassiumHydroxide => self.potassium,
        }
    }

    /// The same number of moles as grams of KOH, both being pure.
    #[must_use]
    pub fn as_koh(&self) -> Exact {
        self.sodium * molar::KOH_PER_NAOH + self.potassium
    }
}

/// Carbonate and water that come with a weighed mass of alkali: (carbonate, water) in grams. What is neither alkali nor
/// carbonate is water, which for a ready-made solution is most of it.
#[must_use]
pub fn carbonate_and_water(weighed: Exact, grade: AlkaliGrade) -> (Exact, Exact) {
    let (purity, carbonate) = (grade.purity.exact(), grade.carbonate.exact());
    (weighed * carbonate, weighed * (Exact::ONE - purity - carbonate))
}

/// The share of potassium hydroxide in moles, from any of the three ways to state it.
///
/// With p the share of potassium hydroxide in the pure mass, the mole share is (p / M_KOH) / (p / M_KOH + (1 - p) /
/// M_NaOH). A share of the weighed mass becomes one of pure mass by the purities first.
///
/// ```
/// use lamella::{chemistry::mole_share, quantity::Share, recipe::ShareReading};
/// let whole = Share::literal(1, 0);
/// let half = mole_share(Share::literal(5, 1), ShareReading::PureMass, whole, whole);
/// assert_eq!(half.rounded(6).unwrap().to_string(), "0.416191"); // KOH is the heavier molecule
/// ```
#[must_use]
pub fn mole_share(
    share: Share,
    reading: ShareReading,
    sodium_purity: Share,
    potassium_purity: Share,
) -> Exact {
    let potassium = share.exact();
    let sodium = Exact::ONE - potassium;
    let (potassium, sodium) = match reading {
        ShareReading::Moles => return potassium,
        ShareReading::PureMass => (potassium, sodium),
        ShareReading::WeighedMass => (potassium * potassium_purity.exact(), sodium * sodium_purity.exact()),
    };
    let (potassium, sodium) = (potassium * molar::NAOH, sodium * molar::KOH);
    potassium / (potassium + sodium)
}

/// Superfat as the share of the demand left unmet, from the fat-excess reading: x / (1 + x).
///
/// ```
/// use lamella::chemistry::discount_from_excess;
/// use lamella::quantity::{Exact, Share};
/// let discount = discount_from_excess(Share::literal(5, 2));
/// assert_eq!(discount.rounded(6).unwrap().to_string(), "0.047619");
/// ```
#[must_use]
pub fn discount_from_excess(excess: Share) -> Exact {
    excess.exact() / (Exact::ONE + excess.exact())
}

/// The fat-excess reading of a superfat: s / (1 - s).
#[must_use]
pub fn excess_from_discount(discount: Share) -> Exact {
    discount.exact() / (Exact::ONE - discount.exact())
}

impl Superfat {
    /// The share of the demand left unmet.
    #[must_use]
    pub fn discount(&self) -> Exact {
        match *self {
            Self::OfDemand(share) => share.exact(),
            Self::FatExcess(excess) => discount_from_excess(excess),
        }
    }
}
