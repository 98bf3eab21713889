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

/// Fitted by hand to three things that makers see: nine tenths of the reaction in about 16 hours at 30 °C in a block that
/// does not gel, in two hours or a little less at 70 °C in one that does, and an insulated block poured at 40 °C that is
/// past 70 °C some hours later. Together they ask for about 50 kJ/mol.
///
/// # Source
/// The times: common practice, from memory (24 to 48 hours, and 2 to 8, are said as well); that most of the alkali is gone
/// after a day: one recorded soap of unsure provenance. The form: three stages of industrial saponification
/// (Techniques de l'Ingenieur J 5 810, contents page read). None is a measurement of your batter; see [`fit`](super::fit).
impl Default for Kinetics {
    fn default() -> Self {
        Self { rate: 1.25e-4, seed: 0.1, activation: 50_000.0, order: 1.0, self_order: 1.0 }
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

    /// Whether the logistic law, or that of the first order, is all there is.
    fn is_plain(&self) -> bool {
        self.order <= 1.0 && (self.self_order <= 0.0 || (self.self_order - 1.0).abs() <= 0.0)
    }

    /// What the plain laws leave out.
    #[inline]
    fn shape(&self, conversion: f64) -> f64 {
        if self.is_plain() {
            return 1.0;
        }
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
        let plain = self.rate_at(temperature);
        if self.is_plain() && self.self_order > 0.0 {
            return self.logistic([conversion, temperature, plain], rise, seconds);
        }
        let spread = if self.self_order > 0.0 { self.seed + conversion } else { 1.0 };
        let middle = half_way(left, plain * self.shape(conversion) * spread * seconds);
        let rate = plain * self.sooner(temperature, rise * middle) * self.shape(conversion + middle);
        let after = if self.self_order > 0.0 {
            let whole = 1.0 + self.seed;
            let [over, under] = growth(rate * whole * seconds);
            1.0 - whole * left * under / (left * under + spread * over)
        } else {
            let [over, under] = growth(rate * seconds);
            1.0 - left * under / over
        };
        after.max(conversion).min(1.0)
    }

    /// The logistic law alone: [conversion, temperature, rate there].
    #[inline]
    fn logistic(&self, [conversion, temperature, plain]: [f64; 3], rise: f64, seconds: f64) -> f64 {
        let (left, spread, whole) = (1.0 - conversion, self.seed + conversion, 1.0 + self.seed);
        let middle = half_way(left, plain * spread * seconds);
        let rate = plain * self.sooner(temperature, rise * middle);
        let [over, under] = growth(rate * whole * seconds);
        let after = 1.0 - whole * left * under / (left * under + spread * over);
        after.max(conversion).min(1.0)
    }

    /// By what factor the rate rises as a place at `temperature` warms: 1/T - 1/(T + w) = w/T² (1 - w/T + ..).
    #[inline]
    fn sooner(&self, temperature: f64, warmer: f64) -> f64 {
        let inverse = 1.0 / (temperature + KELVIN).max(1.0);
        let part = warmer * inverse;
        let [over, under] =
            cubics((self.activation / GAS * inverse * part * (1.0 - part + part * part)).min(3.0));
        over / under
    }

    /// Advances a row of cells, excess temperatures over `air` with them; `grown` takes by how much each conversion grew.
    pub(super) fn advance_row(
        &self,
        [conversion, excess, grown]: [&mut [f64]; 3],
        air: f64,
        rise: f64,
        seconds: f64,
    ) {
        // Done: what is left would not warm a cell by a millionth of a degree.
        if conversion.iter().all(|conversion| *conversion > 1.0 - 1e-9) {
            grown.fill(0.0);
            return;
        }
        if !(self.is_plain() && self.self_order > 0.0) {
            for ((conversion, excess), grown) in conversion.iter_mut().zip(excess).zip(grown) {
                let after = self.advance(*conversion, *excess + air, rise, seconds);
                *grown = after - *conversion;
                *conversion = after;
                *excess += rise * *grown;
            }
            return;
        }
        // In passes, so that a processor takes several cells at once.
        for (rate, excess) in grown.iter_mut().zip(excess.iter()) {
            *rate = self.rate_at(*excess + air);
        }
        for ((conversion, excess), grown) in conversion.iter_mut().zip(excess).zip(grown) {
            let after = self.logistic([*conversion, *excess + air, *grown], rise, seconds);
            *grown = after - *conversion;
            *conversion = after;
            *excess += rise * *grown;
        }
    }
}

/// A bounded guess of what reacts in half a step, from what would react in a whole one at the rate of its start. Second
/// order is all that is asked of it.
#[inline]
fn half_way(left: f64, whole: f64) -> f64 {
    let half = whole * 0.5;
    left * half / (1.0 + half)
}

/// e to the power of something not above 3 as a quotient of two cubics: right to 1e-7 within a half, and rising throughout.
#[inline]
fn cubics(x: f64) -> [f64; 2] {
    let even = 120.0 + 12.0 * x * x;
    let odd = x * (60.0 + x * x);
    [even + odd, even - odd]
}

/// e to the power of something not below nought, as a quotient: the eighth power of that of its eighth part. Right to 1e-6
/// up to 4; beyond that it only has to be large, since hardly anything is left to react.
#[inline]
fn growth(x: f64) -> [f64; 2] {
    cubics(x.min(32.0) / 8.0).map(|part| {
        let part = part / 120.0;
        let square = part * part;
        square * square * (square * square)
    })
}
