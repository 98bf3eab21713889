//! Fatty acids, and the classes that their mass shares are summed into.

use serde::Serialize;

use super::atoms::weight;
use crate::quantity::Exact;

/// A fatty acid as a profile names it: `C18:1` has 18 carbons and one double bond; `-OH` marks the hydroxy acid.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FattyAcid {
    /// Carbon atoms.
    pub carbons: u8,
    /// Carbon-carbon double bonds.
    pub double_bonds: u8,
    /// Hydroxyl groups beside the acid group: one in ricinoleic acid.
    pub hydroxyls: u8,
    /// The gamma isomer of C18:3, which has the same mass as the usual one.
    pub gamma: bool,
}

/// The classes in which a bar's fat is described, as mass shares of its fatty acids.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Class {
    /// Saturated, up to ten carbons (C4 to C10).
    ShortSaturated,
    /// Saturated C12 to C14.
    LauricMyristic,
    /// Saturated C15 and longer.
    PalmiticStearic,
    /// One double bond.
    MonoUnsaturated,
    /// Two double bonds or more.
    PolyUnsaturated,
    /// With a hydroxyl group.
    Hydroxy,
}

impl Class {
    /// Every class, in the order in which they are shown.
    pub const ALL: [Self; 6] = [
        Self::ShortSaturated,
        Self::LauricMyristic,
        Self::PalmiticStearic,
        Self::MonoUnsaturated,
        Self::PolyUnsaturated,
        Self::Hydroxy,
    ];

    /// The class in words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::ShortSaturated => "short saturated (to C10)",
            Self::LauricMyristic => "lauric-myristic (C12-C14)",
            Self::PalmiticStearic => "palmitic-stearic (C15 and longer, saturated)",
            Self::MonoUnsaturated => "mono-unsaturated",
            Self::PolyUnsaturated => "poly-unsaturated",
            Self::Hydroxy => "hydroxy",
        }
    }
}

impl FattyAcid {
    /// A plain acid of so many carbons and double bonds.
    #[must_use]
    pub const fn new(carbons: u8, double_bonds: u8) -> Self {
        Self { carbons, double_bonds, hydroxyls: 0, gamma: false }
    }

    /// Molar mass of the free acid in g/mol: C(n) H(2n - 2 double bonds) O(2 + hydroxyls).
    ///
    /// ```
    /// use lamella::material::FattyAcid;
    /// assert_eq!(FattyAcid::new(18, 0).molar_mass().decimal().unwrap().to_string(), "284.484"); // stearic
    /// ```
    #[must_use]
    pub const fn molar_mass(self) -> Exact {
        let carbons = self.carbons as i64;
        let hydrogens = carbons.saturating_sub(self.double_bonds as i64).saturating_mul(2);
        let oxygens = (self.hydroxyls as i64).saturating_add(2);
        weight::C.times(carbons).plus(weight::H.times(hydrogens)).plus(weight::O.times(oxygens))
    }

    /// The class it counts in.
    #[must_use]
    pub const fn class(self) -> Class {
        match (self.hydroxyls, self.double_bonds, self.carbons) {
            (1.., _, _) => Class::Hydroxy,
            (_, 2.., _) => Class::PolyUnsaturated,
            (_, 1, _) => Class::MonoUnsaturated,
            (_, _, ..=11) => Class::ShortSaturated,
            (_, _, 12..=14) => Class::LauricMyristic,
            _ => Class::PalmiticStearic,
        }
    }
}

/// `C18:1`, `C18:1-OH`, `C18:3-gamma`.
impl std::fmt::Display for FattyAcid {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "C{}:{}", self.carbons, self.double_bonds)?;
        if self.hydroxyls > 0 {
            f.write_str("-OH")?;
        }
        if self.gamma {
            f.write_str("-gamma")?;
        }
        Ok(())
    }
}

impl std::str::FromStr for FattyAcid {
    type Err = ();

    /// Reads the form that `Display` writes; anything else is an error without detail.
    fn from_str(text: &str) -> Result<Self, ()> {
        let rest = text.strip_prefix('C').ok_or(())?;
        let (rest, gamma) = rest.strip_suffix("-gamma").map_or((rest, false), |rest| (rest, true));
        let (rest, hydroxyls) = rest.strip_suffix("-OH").map_or((rest, 0), |rest| (rest, 1));
        let (carbons, double_bonds) = rest.split_once(':').ok_or(())?;
        let carbons: u8 = carbons.parse().map_err(|_| ())?;
        let double_bonds: u8 = double_bonds.parse().map_err(|_| ())?;
        let plausible = (4..=34).contains(&carbons) && double_bonds <= 6 && double_bonds < carbons / 2;
        plausible.then_some(Self { carbons, double_bonds, hydroxyls, gamma }).ok_or(())
    }
}

impl Serialize for FattyAcid {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}
