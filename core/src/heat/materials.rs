//! What blocks and walls are made of, as far as heat is concerned.
#![expect(clippy::float_arithmetic, reason = "mixing rules of approximate properties")]

use serde::Serialize;

use super::batter;
use crate::chemistry::Tally;

/// What a wall, a lid or a wrapping is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Sheet {
    /// Softwood or plywood.
    Wood,
    /// Silicone rubber.
    Silicone,
    /// Polypropylene or polyethylene.
    Plastic,
    /// Corrugated board.
    Cardboard,
    /// Foam of polystyrene or polyurethane.
    Foam,
    /// Towel, wool, felt: still air in fibre.
    Blanket,
    /// Steel; its resistance is next to nothing.
    Steel,
}

impl Sheet {
    /// Every one.
    pub const ALL: [Self; 7] =
        [Self::Wood, Self::Silicone, Self::Plastic, Self::Cardboard, Self::Foam, Self::Blanket, Self::Steel];

    /// Thermal conductivity, W/(m K).
    ///
    /// # Source
    /// Building and handbook values from memory: softwood 0.12-0.14 across the grain, silicone 0.2, polypropylene 0.2,
    /// corrugated board 0.06, foam 0.035, textiles 0.04-0.06, stainless steel 16.
    #[must_use]
    pub const fn conductivity(self) -> f64 {
        match self {
            Self::Wood => 0.13,
            Self::Silicone | Self::Plastic => 0.2,
            Self::Cardboard => 0.06,
            Self::Foam => 0.035,
            Self::Blanket => 0.05,
            Self::Steel => 16.0,
        }
    }

    /// Resistance of a sheet so many metres thick, m² K/W.
    #[must_use]
    pub fn resistance(self, thickness: f64) -> f64 {
        thickness / self.conductivity()
    }
}

/// What a layer of the block is made of. Figures hold over the whole run: a batter and the soap that comes of it take up
/// nearly the same heat, since water keeps what it has and fat and soap are alike.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Material {
    /// Density, kg/m³.
    pub density: f64,
    /// Heat capacity, J/(kg K).
    pub capacity: f64,
    /// Thermal conductivity, W/(m K).
    pub conductivity: f64,
    /// Heat that the whole reaction gives off, J/m³.
    pub heat: f64,
    /// Temperature at which it passes into neat soap, °C.
    pub gels_at: f64,
}

/// Heat of saponification per mole of ester, J, from lye of about 33 %.
///
/// # Source
/// Methyl acetate with hydroxide 56.69 kJ/mol from the NBS tables of 1982, methyl paraben 50.99 +- 0.61 (J. Chem.
/// Thermodyn. 103 (2016) 176); strong lye gives its heat of dilution, about 6 kJ/mol, on top. With crystals of soap not
/// counted, 60 +- 8 is a judgement until it has been measured.
pub const SAPONIFYING: f64 = 60_000.0;

/// Conductivity of a mixture, W/(m K): the geometric mean by volume of fat and soap (0.20) and water (0.60).
///
/// # Source
/// From memory: oils 0.165-0.17, soap 0.20-0.35, water 0.60 at 25 °C. The mixing rule is a common one.
#[must_use]
pub fn conductivity(water_by_volume: f64) -> f64 {
    0.20 * libm::pow(3.0, water_by_volume.clamp(0.0, 1.0))
}

/// Temperature at which raw soap passes into neat soap ("gels"), °C, from its alkali to alkali and water and its sugars,
/// alcohol and glycerol to its fat, all as mass shares. More water lowers it; so do sugar and alcohol, here by half a
/// degree a per cent of the fat and ten at most.
///
/// # Source
/// Common practice, from memory: lye of 25 % gels at 60-65 °C, 28 % 65-68, 33 % 70-75, 40 % 80-85, 50 % above 90. That
/// solvents lower it is common practice; how much is a guess that the interval allows for.
#[must_use]
pub fn gel_temperature(lye_share: f64, solvents_of_fat: f64) -> f64 {
    const TABLE: [(f64, f64); 6] =
        [(0.15, 52.0), (0.25, 62.5), (0.28, 66.5), (0.33, 72.5), (0.40, 82.5), (0.50, 93.0)];
    super::between(&TABLE, lye_share) - (50.0 * solvents_of_fat).clamp(0.0, 10.0)
}

impl Material {
    /// Of a mixture, with so many joules per mole of ester.
    ///
    /// The ester that can react is that which alkali is left for, when acids have had theirs.
    #[must_use]
    pub fn of(tally: &Tally, heat_per_mole: f64) -> Self {
        let of = |exact: crate::quantity::Exact| exact.approximate();
        let [mass, volume] = [of(tally.mass()), of(tally.volume).max(1e-9)];
        let fat = of(tally.fat()).max(1e-9);
        let alkali = of(tally.sodium_hydroxide) + of(tally.potassium_hydroxide);
        let left = of(tally.alkali().as_koh()) - of(tally.acid_demand) - of(tally.fatty_acid_demand);
        let ester = (of(tally.ester_demand) + of(tally.wax_demand)).min(left).max(0.0) / super::lye::MOLAR[1];
        let solvents = (of(tally.sugars) + of(tally.alcohol) + of(tally.polyols)) / fat;
        Self {
            density: 1000.0 * mass / volume,
            // Between pouring and the peak.
            capacity: 1000.0 * batter::capacity(tally, 55.0) / mass.max(1e-9),
            conductivity: conductivity(of(tally.water) / volume),
            heat: ester * heat_per_mole / (volume * 1e-6),
            gels_at: gel_temperature(alkali / (alkali + of(tally.water)).max(1e-9), solvents),
        }
    }
}
