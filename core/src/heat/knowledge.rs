//! What is believed of a block, and how far off it may be.
#![expect(clippy::float_arithmetic, reason = "factors of approximate figures")]

use super::HeatError;
use super::scenario::Scenario;

/// How far each figure may be off: one standard uncertainty. Factors: 0.2 means times or divided by 1.2.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    /// Factor of the rate of the reaction.
    pub rate: f64,
    /// Activation energy, J/mol.
    pub activation: f64,
    /// Factor of the heat of reaction.
    pub heat: f64,
    /// Factor of the heat capacity.
    pub capacity: f64,
    /// Factor of the conductivity of the soap.
    pub conductivity: f64,
    /// Factor of all resistances between soap and air.
    pub resistance: f64,
    /// The temperature at which soap gels, K.
    pub gel: f64,
}

/// # Source
/// Judgement on the spread of the figures from memory that they belong to: times of nine tenths of the reaction within a
/// factor of two either way (taken as 1.3 standard uncertainties), 40 to 60 kJ/mol as the whole range (a rectangle, so
/// over the root of three), 60 +- 8 kJ/mol, heat capacity 5 %, conductivity 0.20 to 0.35 W/(m K), films 15 to 20 %, gel
/// temperatures of 5 K.
impl Default for Spread {
    fn default() -> Self {
        Self {
            rate: 0.5,
            activation: 5_800.0,
            heat: 0.13,
            capacity: 0.05,
            conductivity: 0.2,
            resistance: 0.2,
            gel: 4.0,
        }
    }
}

/// One possible truth: what a scenario's figures are multiplied by, or moved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Truth {
    /// Factor of the rate.
    pub rate: f64,
    /// Added to the activation energy, J/mol.
    pub activation: f64,
    /// Factor of the heat of reaction.
    pub heat: f64,
    /// Factor of the heat capacity.
    pub capacity: f64,
    /// Factor of the conductivity.
    pub conductivity: f64,
    /// Factor of the resistances.
    pub resistance: f64,
    /// Added to the gel temperature, K.
    pub gel: f64,
}

impl Truth {
    /// The figures as they are.
    pub const USUAL: Self = Self {
        rate: 1.0,
        activation: 0.0,
        heat: 1.0,
        capacity: 1.0,
        conductivity: 1.0,
        resistance: 1.0,
        gel: 0.0,
    };

    /// A scenario in this truth.
    #[must_use]
    pub fn of(&self, scenario: &Scenario) -> Scenario {
        let mut scenario = scenario.clone();
        for layer in &mut scenario.layers {
            layer.kinetics.rate *= self.rate;
            layer.kinetics.activation = (layer.kinetics.activation + self.activation).max(0.0);
            layer.material.heat *= self.heat;
            layer.material.capacity *= self.capacity;
            layer.material.conductivity *= self.conductivity;
            layer.material.gels_at += self.gel;
        }
        for phase in &mut scenario.phases {
            for resistance in [&mut phase.base, &mut phase.side, &mut phase.top, &mut phase.end] {
                *resistance *= self.resistance;
            }
        }
        scenario
    }
}

/// Seven signs in eight runs, so that each pair of columns has every combination twice; mirrored they make sixteen.
///
/// Source: the saturated two-level fractional factorial 2^(7-4) with its fold-over; G. E. P. Box, J. S. Hunter, W. G.
/// Hunter, Statistics for Experimenters, from memory.
const DESIGN: [[bool; 7]; 8] = {
    let mut design = [[false; 7]; 8];
    let mut run = 0;
    while run < 8 {
        let [a, b, c] = [run & 1 == 1, run & 2 == 2, run & 4 == 4];
        // Products of signs: equal signs make a plus.
        let row = [a, b, c, a == b, a == c, b == c, (a == b) == c];
        #[expect(clippy::indexing_slicing, reason = "a constant, checked as it is compiled")]
        {
            design[run] = row;
        }
        run += 1;
    }
    design
};

impl Spread {
    /// Whether the spreads can be computed with.
    ///
    /// # Errors
    /// [`HeatError::Parameter`] for the first figure out of its range.
    pub fn check(&self) -> Result<(), HeatError> {
        let factors = [
            ("rate", self.rate),
            ("heat", self.heat),
            ("capacity", self.capacity),
            ("conductivity", self.conductivity),
            ("resistance", self.resistance),
        ];
        for (name, factor) in factors {
            HeatError::check(name, factor, 0.0, 10.0)?;
        }
        HeatError::check("activation", self.activation, 0.0, 100_000.0)?;
        HeatError::check("gel", self.gel, 0.0, 100.0)
    }

    /// The truths that a forecast tries: the likely one first, then sixteen in which every figure stands one standard
    /// uncertainty above or below. Since seven move together, what lies between the least and the greatest result covers
    /// about nineteen cases of twenty, if the spreads are right.
    #[must_use]
    pub fn truths(&self) -> Vec<Truth> {
        let mut truths = vec![Truth::USUAL];
        for mirrored in [false, true] {
            for row in DESIGN {
                let [rate, activation, heat, capacity, conductivity, resistance, gel] =
                    row.map(|plus| plus != mirrored);
                let factor = |plus: bool, by: f64| if plus { 1.0 + by } else { 1.0 / (1.0 + by) };
                let shift = |plus: bool, by: f64| if plus { by } else { -by };
                truths.push(Truth {
                    rate: factor(rate, self.rate),
                    activation: shift(activation, self.activation),
                    heat: factor(heat, self.heat),
                    capacity: factor(capacity, self.capacity),
                    conductivity: factor(conductivity, self.conductivity),
                    resistance: factor(resistance, self.resistance),
                    gel: shift(gel, self.gel),
                });
            }
        }
        truths
    }
}
