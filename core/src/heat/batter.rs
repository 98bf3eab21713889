//! Batter: how warm it is when fat and lye have met, and what it takes to warm it.
#![expect(clippy::float_arithmetic, reason = "heat balances of approximate properties")]

use super::lye;
use crate::chemistry::Tally;
use crate::material::Fat;
use crate::quantity::Exact;

/// Heat capacity of what is dry and dissolves or floats: sugar, protein, fibre; J/(g K).
/// Source: from memory, Y. Choi and M. R. Okos 1986: carbohydrate 1.55, protein 2.01, fibre 1.85.
pub const SOLIDS: f64 = 1.6;
/// Heat capacity of minerals and colours, J/(g K). Source: as before, ash 1.09.
const MINERALS: f64 = 1.1;
/// Heat capacity of glycerol, ethanol and scents, J/(g K). Source: from memory, 2.4, 2.5 and about 1.9.
const LIQUIDS: f64 = 2.4;
/// Heat that a mole of free acid gives off as alkali neutralises it, kJ.
/// Source: NBS tables 1982, H⁺ + OH⁻ -> H2O: 55.836; a fatty acid is weak and liquid, so it is about this.
pub const NEUTRALISING: f64 = 55.8;

/// Heat capacity of a liquid fat, J/(g K), at a temperature in °C.
///
/// # Source
/// From memory: vegetable oils 1.97 to 2.05 at 25 °C, 2.1 to 2.2 at 60 °C; linear in temperature by O. Fasina and
/// Z. Colley, Int. J. Food Prop. 11 (2008) 738 (the statement read, the figures not). The melting of what is solid, 80
/// to 130 J a gram of solid, is not in it.
#[must_use]
pub fn fat_capacity(temperature: f64) -> f64 {
    2.01 + 0.004 * (temperature - 25.0)
}

/// Heat capacity of all that a tally holds, J/K, at a temperature in °C. Adds up by mass.
#[must_use]
pub fn capacity(tally: &Tally, temperature: f64) -> f64 {
    let of = |exact: Exact| exact.approximate();
    let [sodium, potassium] = [of(tally.sodium_hydroxide), of(tally.potassium_hydroxide)];
    let solution = sodium + potassium + of(tally.water);
    let wet = if solution > 0.0 {
        solution * lye::capacity(sodium / solution, potassium / solution, temperature)
    } else {
        0.0
    };
    wet + of(tally.fat()) * fat_capacity(temperature)
        + (of(tally.sugars) + of(tally.protein) + of(tally.fibre) + of(tally.other) + of(tally.acid)) * SOLIDS
        + (of(tally.minerals) + of(tally.carbonate) + of(tally.colour)) * MINERALS
        + (of(tally.polyols) + of(tally.alcohol) + of(tally.scent)) * LIQUIDS
}

/// What a jug is mixed from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mixing<'t> {
    /// All that is in the jug.
    pub tally: &'t Tally,
    /// Grams of lye among it.
    pub lye: f64,
    /// Heat capacity of that lye, J/K.
    pub lye_capacity: f64,
    /// Temperature of the lye, °C.
    pub lye_at: f64,
    /// Temperature of everything else, °C.
    pub rest_at: f64,
}

impl Mixing<'_> {
    /// Temperature when it is mixed and before it reacts, °C; the acids that alkali neutralises at once warm it.
    #[must_use]
    pub fn temperature(&self) -> f64 {
        let all = capacity(self.tally, (self.lye_at + self.rest_at) / 2.0);
        if all <= 0.0 {
            return self.rest_at;
        }
        let part = (self.lye_capacity / all).clamp(0.0, 1.0);
        let mixed = self.rest_at + part * (self.lye_at - self.rest_at);
        let [acids, alkali] = [
            self.tally.fatty_acid_demand.approximate() + self.tally.acid_demand.approximate(),
            self.tally.alkali().as_koh().approximate(),
        ];
        mixed + acids.min(alkali).max(0.0) / super::lye::MOLAR[1] * NEUTRALISING * 1000.0 / all
    }
}

/// About where a blend of fats begins to go solid as it cools, °C: 12 + 0.62 for each per cent of palmitic, stearic and
/// longer saturated acids + 0.05 for each of lauric and myristic, from the fats' profiles and masses. Nothing when no
/// profile is known.
///
/// A batter that stands below it thickens because fat sets, which looks like trace and is not.
///
/// # Source
/// A line laid through titres from memory (olive 17-26, coconut 20-24, lard 32-43, tallow and palm 40-47, cocoa butter
/// 45-50 °C); right within about 5 °C for such fats.
#[must_use]
pub fn setting_point<'f>(fats: impl Iterator<Item = (&'f Fat, Exact)>) -> Option<f64> {
    let (mut all, mut long, mut middle) = (0.0, 0.0, 0.0);
    for (acid, mass) in crate::chemistry::acids_by_mass(fats) {
        let mass = mass.approximate();
        all += mass;
        if acid.double_bonds == 0 && acid.carbons >= 16 {
            long += mass;
        } else if acid.double_bonds == 0 && acid.carbons >= 12 {
            middle += mass;
        }
    }
    (all > 0.0).then(|| 12.0 + 62.0 * long / all + 5.0 * middle / all)
}
