//! The arithmetic of a laboratory: what the figures of a certificate, or of a maker's own burette, were computed with.
//!
//! In: volumes of a burette, the strength of what is in it in mol/L, the mass of the sample. Out: the figure, poisoned
//! when the sample weighs nothing. Strength means equivalents where they differ from moles: N/10 is 0.1.
//!
//! These methods keep the rounded molar masses of their texts (56.1 for KOH, 12.69 for a tenth of the iodine), so that a
//! certificate is reproduced to its last digit; the stoichiometry of a batch uses the exact ones.

use crate::material::Alkali;
use crate::material::atoms::molar;
use crate::quantity::{Exact, Mass, Volume};

/// Potassium hydroxide as the methods round it, g/mol.
const KOH: Exact = Exact::literal(561, 1);

/// Milligrams of KOH per gram of sample that a used volume stands for.
fn as_koh(used: Exact, strength: Exact, sample: Mass) -> Exact {
    KOH * strength * used / sample.exact()
}

/// Saponification value by back titration, mg KOH/g: 56.1 c (V0 - V1) / m, where the blank without fat takes V0 of the
/// acid and the saponified sample V1.
///
/// ```
/// use lamella::{chemistry::titration, quantity::Exact};
/// // W. H. Simmons and H. A. Appleton, The Handbook of Soap Manufacture, 1908, chapter X
/// let [blank, used] = ["25.6 mL", "18.95 mL"].map(|text| text.parse().unwrap());
/// let value = titration::saponification_value(blank, used, Exact::ONE, "1.8976 g".parse().unwrap());
/// assert_eq!(value.rounded(1).unwrap().to_string(), "196.6");
/// ```
///
/// # Source
/// ISO 3657 (from memory).
#[must_use]
pub fn saponification_value(blank: Volume, used: Volume, strength: Exact, sample: Mass) -> Exact {
    as_koh((blank - used).exact(), strength, sample)
}

/// Acid value, mg KOH/g: 56.1 c V / m.
///
/// # Source
/// ISO 660:2009: mg KOH that neutralise the free fatty acids of 1 g of fat; the factor from memory.
#[must_use]
pub fn acid_value(used: Volume, strength: Exact, sample: Mass) -> Exact {
    as_koh(used.exact(), strength, sample)
}

/// Free fatty acids in per cent, reckoned as an acid of a molar mass in g/mol (by convention oleic, 282): V c M / (10 m).
///
/// # Source
/// ISO 660:2009: acidity as a mass share, by convention as oleic acid; the factor from memory.
#[must_use]
pub fn free_fatty_acids(used: Volume, strength: Exact, molar_mass: Exact, sample: Mass) -> Exact {
    per_cent(used, strength, molar_mass, sample)
}

/// Free caustic alkali in per cent, as the hydroxide that the acid neutralised: V c M / (10 m).
///
/// # Source
/// ISO 456, ethanol method (from memory).
#[must_use]
pub fn free_caustic_alkali(used: Volume, strength: Exact, alkali: Alkali, sample: Mass) -> Exact {
    per_cent(used, strength, alkali.molar_mass(), sample)
}

/// Grams of a substance of this molar mass in 100 g of sample: mL x mol/L x g/mol / 1000 / g x 100.
fn per_cent(used: Volume, strength: Exact, molar_mass: Exact, sample: Mass) -> Exact {
    used.exact() * strength * molar_mass / (Exact::from(10) * sample.exact())
}

/// Iodine value by titration with thiosulphate, g I2/100 g: 12.69 c (V0 - V1) / m.
///
/// # Source
/// ISO 3961 (from memory).
#[must_use]
pub fn iodine_value(blank: Volume, used: Volume, strength: Exact, sample: Mass) -> Exact {
    Exact::literal(1_269, 2) * strength * (blank - used).exact() / sample.exact()
}

/// Ester value, mg KOH/g: what the esters alone take up, saponification value less acid value.
///
/// # Source
/// W. H. Simmons and H. A. Appleton, The Handbook of Soap Manufacture, 1908, chapter X.
#[must_use]
pub fn ester_value(saponification_value: Exact, acid_value: Exact) -> Exact {
    saponification_value - acid_value
}

/// Glycerol that one gram of fat of this ester value sets free, g: three moles of KOH for one of glycerol.
///
/// # Source
/// Derived from the molar masses of [`molar`].
#[must_use]
pub fn glycerol(ester_value: Exact) -> Exact {
    ester_value * molar::GLYCEROL / (Exact::from(3) * molar::KOH * Exact::THOUSAND)
}

/// Saponification equivalent: grams of fat that one equivalent of alkali saponifies, 56 100 / saponification value. It is
/// its own inverse.
///
/// # Source
/// W. H. Simmons and H. A. Appleton, The Handbook of Soap Manufacture, 1908, chapter X.
#[must_use]
pub fn equivalent(saponification_value: Exact) -> Exact {
    KOH * Exact::THOUSAND / saponification_value
}
