//! Atomic weights and the molar masses made of them: one table for the whole crate.

use crate::quantity::Exact;

/// Conventional atomic weights in g/mol.
///
/// # Source
/// CIAAW, Standard atomic weights 2021, abridged and conventional values (H 1.008, C 12.011, N 14.007, O 15.999,
/// Cl 35.45; Na 22.989 769 28 and K 39.0983 are the standard values). Iodine 126.904 47.
pub mod weight {
    use crate::quantity::Exact;

    /// Hydrogen.
    pub const H: Exact = Exact::literal(1_008, 3);
    /// Carbon.
    pub const C: Exact = Exact::literal(12_011, 3);
    /// Nitrogen.
    pub const N: Exact = Exact::literal(14_007, 3);
    /// Oxygen.
    pub const O: Exact = Exact::literal(15_999, 3);
    /// Sodium.
    pub const NA: Exact = Exact::literal(2_298_976_928, 8);
    /// Chlorine.
    pub const CL: Exact = Exact::literal(3_545, 2);
    /// Potassium.
    pub const K: Exact = Exact::literal(390_983, 4);
    /// Iodine.
    pub const I: Exact = Exact::literal(12_690_447, 5);
}

/// Molar masses in g/mol of what a batch is computed with; each is the exact sum of its atoms, and a test says so.
pub mod molar {
    use crate::quantity::Exact;

    /// Sodium hydroxide, NaOH.
    pub const NAOH: Exact = Exact::literal(3_999_676_928, 8);
    /// Potassium hydroxide, KOH.
    pub const KOH: Exact = Exact::literal(561_053, 4);
    /// Water, H2O.
    pub const WATER: Exact = Exact::literal(18_015, 3);
    /// Glycerol, C3H8O3.
    pub const GLYCEROL: Exact = Exact::literal(92_094, 3);
    /// What three fatty acids gain when they become a triglyceride, a third of it: (M glycerol - 3 M water) / 3 is
    /// 12.683 g/mol exactly.
    pub const GLYCERYL: Exact = Exact::literal(12_683, 3);
    /// Grams of potassium hydroxide with the moles of a gram of sodium hydroxide.
    pub const KOH_PER_NAOH: Exact = KOH.over(NAOH);
    /// Grams of sodium hydroxide with the moles of a gram of potassium hydroxide.
    pub const NAOH_PER_KOH: Exact = NAOH.over(KOH);
    /// Grams of water with the moles of a gram of potassium hydroxide.
    pub const WATER_PER_KOH: Exact = WATER.over(KOH);
    /// Grams of glycerol that are set free with the soap of a gram of potassium hydroxide: a mole with three of soap.
    pub const GLYCEROL_PER_KOH: Exact = GLYCEROL.over(KOH.times(3));
    /// Two iodine atoms, which add to one double bond.
    pub const IODINE: Exact = Exact::literal(25_380_894, 5);
}

/// How many atoms of each kind a molecule has.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Formula {
    /// Carbon atoms.
    pub c: u16,
    /// Hydrogen atoms.
    pub h: u16,
    /// Nitrogen atoms.
    pub n: u16,
    /// Oxygen atoms.
    pub o: u16,
    /// Sodium atoms.
    pub na: u16,
    /// Potassium atoms.
    pub k: u16,
    /// Chlorine atoms.
    pub cl: u16,
}

impl Formula {
    /// Molar mass in g/mol: the exact sum of the atomic weights.
    ///
    /// ```
    /// use lamella::material::atoms::{molar, Formula};
    /// let naoh = Formula { na: 1, o: 1, h: 1, ..Formula::default() };
    /// assert_eq!(naoh.molar_mass(), molar::NAOH);
    /// ```
    #[must_use]
    pub fn molar_mass(&self) -> Exact {
        let atoms = [
            (self.c, weight::C),
            (self.h, weight::H),
            (self.n, weight::N),
            (self.o, weight::O),
            (self.na, weight::NA),
            (self.k, weight::K),
            (self.cl, weight::CL),
        ];
        atoms.into_iter().map(|(count, weight)| weight.times(i64::from(count))).sum()
    }
}
