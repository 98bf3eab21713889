//! How fast fat and alkali react.
#![expect(clippy::float_arithmetic, reason = "a rate law fitted to practice")]

use super::HeatError;

/// Gas constant, J/(mol K). Source: SI 2019, exact to the digits given.
pub const GAS: f64 = 8.314_462_618;
/// Nought degrees Celsius in kelvin.
pub(super) const KELVIN: f64 = 273.15;
/// The temperature at which [`Kinetics::rate`] holds, K.
const REFERENCE: f64 = 313.15;

/// A rate law of the share `a` of the alkali that has reacted:
///
/// da/dt = rate exp(-activation/R (1/T - 1/313.15 K)) (1 - a)^order (seed + a)^self_order
///
/// With both orders 1 the law is that of a reaction which its own product speeds up: soap spreads the lye in the fat.
/// That is how saponification without a solvent goes: slow at first, quickest in the middle, slow at the end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kinetics {
    /// Rate at 40 °C, 1/s.
    pub rate: f64,
    /// What stands in for soap before there is any.
    pub seed: f64,
    /// Activation energy, J/mol.
    pub activation: f64,
    /// Order in what is left.
    pub order: f64,
    /// Order in what there is of soap; 0 for a plain reaction.
    pub self_order: f64,
}

/// Fitted by hand to common practice: nine tenths of the reaction in 24 to 48 hours at 25 to 35 °C, in 2 to 8 hours in a
/// block that gels at 60 to 80 °C, which together ask for about 50 kJ/mol.
///
/// # Source
/// The times: common practice, from memory. The form: three stages of industrial saponification (Techniques de
/// l'Ingenieur J 5 810, contents page read). Neither is a measurement of your batter; see [`calibrate`](super::Log).
impl Default for Kinetics {
    fn default() -> Self {
        Self { rate: 8.7e-5, seed: 0.02, activation: 50_000.0, order: 1.0, self_order: 1.0 }
    }
}

impl Kinetics {
    /// Whether the law can be computed with.
    ///
    /// # Errors
    /// [`HeatError::Parameter`] for the first figure out of its range.
    pub fn check(&self) -> Result<(), HeatError> {
        HeatError::check("rate", self.rate, 0.0, 10.0)?;
        HeatError::check("seed", self.seed, 1e-6, 1.0)?;
        HeatError::check("activation", self.activation, 0.0, 200_000.0)?;
        HeatError::check("order", self.order, 1.0, 4.0)?;
        HeatError::check("self_order", self.self_order, 0.0, 3.0)
    }

    /// The rate at a temperature in °C, 1/s.
    #[must_use]
    pub fn rate_at(&self, temperature: f64) -> f64 {
        let inverse = 1.0 / (temperature + KELVIN).max(1.0) - 1.0 / REFERENCE;
        self.rate * libm::exp(-self.activation / GAS * inverse)
    }

    /// What the plain logistic law leaves out: nought for orders of one.
    fn shape(&self, conversion: f64) -> f64 {
        let mut shape = 1.0;
        if (self.order - 1.0).abs() > 0.0 {
            shape *= libm::pow(1.0 - conversion, self.order - 1.0);
        }
        if self.self_order > 0.0 && (self.self_order - 1.0).abs() > 0.0 {
            shape *= libm::pow(self.seed + conversion, self.self_order - 1.0);
        }
        shape
    }

    /// The conversion after `seconds` of adiabatic reaction from `conversion` at `temperature` (°C), where a whole
    /// conversion warms by `rise` kelvin.
    ///
    /// The law at a fixed temperature is solved in closed form, so the result lies between `conversion` and one however
    /// long the step; the temperature is that of the middle of the step, which makes it right to second order.
    #[must_use]
    pub fn advance(&self, conversion: f64, temperature: f64, rise: f64, seconds: f64) -> f64 {
        let left = 1.0 - conversion;
        if left <= 0.0 {
            return conversion;
        }
        let spread = if self.self_order > 0.0 { self.seed + conversion } else { 1.0 };
        let now = self.rate_at(temperature) * self.shape(conversion);
        // A bounded guess of the middle: second order is all that is asked of it.
        let x = now * spread * seconds * 0.5;
        let middle = conversion + left * x / (1.0 + x);
        let warm = temperature + rise * (middle - conversion);
        let rate = self.rate_at(warm) * self.shape(middle);
        let after = if self.self_order > 0.0 {
            let whole = 1.0 + self.seed;
            let grown = libm::exp((rate * whole * seconds).min(700.0));
            1.0 - whole * left / (left + spread * grown)
        } else {
            1.0 - left * libm::exp(-rate * seconds)
        };
        after.clamp(conversion, 1.0)
    }
}
