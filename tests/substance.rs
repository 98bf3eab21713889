//! Pure substances as fats of the library, and what alkali makes of them.
#![expect(clippy::unwrap_used, reason = "a test stops where a figure is not as it should be")]

use std::borrow::Cow;

use lamella::chemistry::{AlkaliMasses, AlkaliSplit, Makeup, Stage, Tally};
use lamella::material::fat::{AcidShare, Ranged};
use lamella::material::{Fat, FatKind, FattyAcid, library, profile};
use lamella::quantity::{Exact, SaponificationValue, Share};
use lamella::recipe::{AlkaliGrade, ShareReading};

/// Density does not matter here; the temperature of the fats, °C.
pub const WARM: Exact = Exact::literal(40, 0);

/// One mole of each acid, as masses: a profile need not sum to one, so that mixed triglycerides stay exact.
#[must_use]
pub fn moles(acids: &[FattyAcid]) -> Vec<AcidShare> {
    let part = |acid: FattyAcid| Share::try_new(acid.molar_mass()).unwrap();
    acids.iter().map(|acid| AcidShare { acid: *acid, share: Ranged::exactly(part(*acid)) }).collect()
}

/// Saponification value of a pure glyceride or free acid, to 28 digits.
#[must_use]
pub fn saponification_value(kind: FatKind, acids: &[FattyAcid]) -> Exact {
    profile::saponification_value(kind, &moles(acids), Share::ZERO).unwrap()
}

/// A fat without unsaponifiable matter that has this saponification value.
#[must_use]
pub fn fat(kind: FatKind, value: Exact, acids: &[FattyAcid]) -> Fat {
    Fat {
        kind,
        saponification_value: Ranged::exactly(SaponificationValue::try_new(value).unwrap()),
        unsaponifiable_max: None,
        unsaponifiable_stated: None,
        profile: Cow::Owned(moles(acids)),
        ..library::fat("olive-oil").unwrap().clone()
    }
}

/// A pure glyceride or free acid.
#[must_use]
pub fn pure(kind: FatKind, acids: &[FattyAcid]) -> Fat {
    fat(kind, saponification_value(kind, acids), acids)
}

/// Grams of a fat as a tally.
#[must_use]
pub fn grams(fat: &Fat, mass: Exact) -> Tally {
    Tally::of_fat(fat, WARM).times(mass)
}

/// Alkali of this purity, without carbonate.
#[must_use]
pub fn grade(purity: Exact) -> AlkaliGrade {
    AlkaliGrade::new(Share::try_new(purity).unwrap(), Share::ZERO)
}

/// Pure alkalis with a share of potassium hydroxide in moles.
#[must_use]
pub fn split(potassium_moles: Exact) -> AlkaliSplit {
    dual(potassium_moles, ShareReading::Moles, Exact::ONE, Exact::ONE)
}

/// Both alkalis, with a share of potassium hydroxide in one of its readings and their purities.
#[must_use]
pub fn dual(share: Exact, reading: ShareReading, sodium: Exact, potassium: Exact) -> AlkaliSplit {
    AlkaliSplit::of(&lamella::recipe::AlkaliChoice::Dual {
        sodium: grade(sodium),
        potassium: grade(potassium),
        share: Share::try_new(share).unwrap(),
        reading,
    })
}

/// A tally with pure alkali added.
#[must_use]
pub fn with(tally: &Tally, alkali: AlkaliMasses) -> Tally {
    let alkali =
        Tally { sodium_hydroxide: alkali.sodium, potassium_hydroxide: alkali.potassium, ..Tally::EMPTY };
    tally.plus(&alkali)
}

/// What a mixture is made of when it has reacted. Its parts sum to what went in, exactly.
#[must_use]
pub fn reacted(tally: &Tally) -> Makeup {
    let makeup = Makeup::of(tally, Stage::Reacted, Share::ZERO).unwrap();
    let parts = makeup.parts.iter().map(|(_, mass)| *mass).sum();
    assert_eq!(makeup.total, parts);
    assert_eq!(Some(makeup.total.value()), tally.mass().rounded(12));
    makeup
}
