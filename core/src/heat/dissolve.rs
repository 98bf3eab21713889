//! Making lye: how warm it gets, and how long it takes to cool.
#![expect(clippy::float_arithmetic, reason = "heat balances of approximate properties")]

use super::HeatError;
use super::lye::{
    self, ICE_CAPACITY, ICE_MELTING, MOLAR, POTASSIUM_MONOHYDRATE, SODIUM_MONOHYDRATE, heat_of_dissolving,
};
use crate::material::Alkali;

/// Heat capacity of solid sodium and potassium hydroxide, J/(g K).
/// Source: 59.5 J/(mol K) from the CRC Handbook by the Python package chemicals; 64.9 J/(mol K) from memory.
const SOLID_CAPACITY: [f64; 2] = [1.488, 1.157];

/// The temperature at which the heats of dissolving hold, °C.
const REFERENCE: f64 = 25.0;

/// What goes into the jug of lye. Masses in grams, temperatures in °C.
///
/// ```
/// use lamella::heat::Dissolving;
/// let warm = Dissolving { sodium: 100.0, water: 200.0, ..Dissolving::AT_25 };
/// let cold = Dissolving { water: 0.0, ice: 200.0, ice_at: 0.0, ..warm };
/// assert!((warm.outcome().unwrap().temperature - 113.5).abs() < 0.3);
/// assert!((cold.outcome().unwrap().temperature - 32.0).abs() < 0.5);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dissolving {
    /// Pure sodium hydroxide.
    pub sodium: f64,
    /// Pure potassium hydroxide.
    pub potassium: f64,
    /// Water that the alkali itself holds, bound as monohydrate: flakes of potassium hydroxide have a tenth of it.
    pub bound_water: f64,
    /// Water that the alkali comes dissolved in: a ready-made lye gives only its heat of dilution.
    pub stock_water: f64,
    /// Temperature of the alkali, and of the ready-made lye.
    pub alkali_at: f64,
    /// Liquid water.
    pub water: f64,
    /// Temperature of the water.
    pub water_at: f64,
    /// Water that is frozen: ice, or the water of frozen milk or juice.
    pub ice: f64,
    /// Temperature of the ice; at most 0.
    pub ice_at: f64,
    /// What is in the liquid besides water and alkali: solids of milk, sugar, salt. It takes up heat and gives none.
    pub solids: f64,
}

/// What becomes of it when no heat is lost.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dissolved {
    /// Temperature when all is dissolved, °C. A real jug stays below: it loses heat and steam while it is stirred.
    pub temperature: f64,
    /// Heat that dissolving gives off at 25 °C, J.
    pub heat: f64,
    /// Ice that is left; above nought only when there is too little heat to melt all of it.
    pub ice_left: f64,
    /// Temperature at which it would boil, °C.
    pub boils_at: f64,
    /// Mass share of alkali in alkali and water.
    pub share: f64,
    /// Heat capacity of all of it where it ends, J/K.
    pub capacity: f64,
}

impl Dissolving {
    /// Nothing yet, with everything at 25 °C and ice at 0 °C.
    pub const AT_25: Self = Self {
        sodium: 0.0,
        potassium: 0.0,
        bound_water: 0.0,
        stock_water: 0.0,
        alkali_at: REFERENCE,
        water: 0.0,
        water_at: REFERENCE,
        ice: 0.0,
        ice_at: 0.0,
        solids: 0.0,
    };

    /// The heat balance: what dissolving gives off at 25 °C warms the lye from where its parts stand on average, after
    /// the ice has melted.
    ///
    /// # Errors
    /// [`HeatError::Parameter`] when a figure is not finite, below nought or out of its range, or there is no water.
    pub fn outcome(&self) -> Result<Dissolved, HeatError> {
        let masses = [
            ("sodium", self.sodium),
            ("potassium", self.potassium),
            ("bound_water", self.bound_water),
            ("stock_water", self.stock_water),
            ("water", self.water),
            ("ice", self.ice),
            ("solids", self.solids),
        ];
        for (name, mass) in masses {
            HeatError::check(name, mass, 0.0, 1e7)?;
        }
        HeatError::check("alkali_at", self.alkali_at, -30.0, 100.0)?;
        HeatError::check("water_at", self.water_at, 0.0, 100.0)?;
        HeatError::check("ice_at", self.ice_at, -40.0, 0.0)?;
        let water = self.water + self.ice + self.bound_water + self.stock_water;
        HeatError::check("water", water, 1e-6, 1e7)?;

        let alkali = self.sodium + self.potassium;
        let share = alkali / (alkali + water);
        let heat = self.heat(water);
        let stored = self.sodium * SOLID_CAPACITY[0] * (self.alkali_at - REFERENCE)
            + (self.potassium * SOLID_CAPACITY[1] + self.solids * super::batter::SOLIDS)
                * (self.alkali_at - REFERENCE)
            + (self.water + self.bound_water) * lye::water_capacity(REFERENCE) * (self.water_at - REFERENCE)
            + self.stock_water * lye::water_capacity(REFERENCE) * (self.alkali_at - REFERENCE);
        // The water of ice counts from 0 °C, where it has melted.
        let frozen = self.ice * (ICE_CAPACITY * self.ice_at - lye::water_capacity(12.5) * REFERENCE);
        let melting = self.ice * ICE_MELTING;
        let sum = heat + stored + frozen;
        let zero = self.content(alkali, water, share, 0.0);
        let (temperature, ice_left) = if sum - melting >= zero || self.ice <= 0.0 {
            (self.temperature_of(alkali, water, share, sum - melting), 0.0)
        } else {
            // Brine would go on melting it below 0 °C; 0 °C is where a thermometer stands while ice floats about.
            (0.0, ((zero + melting - sum) / ICE_MELTING).clamp(0.0, self.ice))
        };
        let capacity =
            (alkali + water) * self.specific(share, temperature) + self.solids * super::batter::SOLIDS;
        Ok(Dissolved { temperature, heat, ice_left, boils_at: lye::boiling_point(share), share, capacity })
    }

    /// Heat of dissolving at 25 °C, J: of each alkali at the water to all the alkali there is, less what the monohydrate
    /// in it gave off long ago.
    fn heat(&self, water: f64) -> f64 {
        let [sodium, potassium] = [self.sodium / MOLAR[0], self.potassium / MOLAR[1]];
        let moles = sodium + potassium;
        if moles <= 0.0 {
            return 0.0;
        }
        let dissolved_in = |water: f64| {
            let each = water / MOLAR[2] / moles;
            sodium * heat_of_dissolving(Alkali::SodiumHydroxide, each)
                + potassium * heat_of_dissolving(Alkali::PotassiumHydroxide, each)
        };
        let full =
            dissolved_in(water) - if self.stock_water > 0.0 { dissolved_in(self.stock_water) } else { 0.0 };
        let bound = (self.bound_water / MOLAR[2]).min(moles);
        let gone = bound * (sodium * SODIUM_MONOHYDRATE + potassium * POTASSIUM_MONOHYDRATE) / moles;
        (full - gone) * 1000.0
    }

    fn specific(&self, share: f64, temperature: f64) -> f64 {
        let part = self.sodium / (self.sodium + self.potassium).max(1e-300);
        lye::capacity(share * part, share * (1.0 - part), temperature.max(0.0))
    }

    /// Heat content against 25 °C, J: by the enthalpy of sodium lye, and by the mean heat capacity of the rest.
    fn content(&self, alkali: f64, water: f64, share: f64, temperature: f64) -> f64 {
        let middle = (temperature + REFERENCE) / 2.0;
        let mean = self.specific(share, middle);
        ((alkali + water) * mean + self.solids * super::batter::SOLIDS) * (temperature - REFERENCE)
    }

    /// The temperature of a heat content, by halving an interval: it rises with temperature.
    fn temperature_of(&self, alkali: f64, water: f64, share: f64, content: f64) -> f64 {
        let (mut low, mut high) = (-40.0_f64, 400.0_f64);
        for _ in 0..60 {
            let middle = (low + high) / 2.0;
            if self.content(alkali, water, share, middle) < content {
                low = middle;
            } else {
                high = middle;
            }
        }
        (low + high) / 2.0
    }
}

/// Temperature after so many seconds of Newton's cooling, °C; `constant` is heat capacity over the conductance of the
/// vessel, in seconds.
#[must_use]
pub fn cooled(start: f64, air: f64, constant: f64, seconds: f64) -> f64 {
    air + (start - air) * libm::exp(-seconds / constant)
}

/// Seconds until something that stands at `start` has come to `target` by Newton's cooling; nothing when it never does.
///
/// ```
/// let seconds = lamella::heat::cooling_time(50.0, 20.0, 30.0, 4727.0).unwrap();
/// assert!((seconds / 60.0 - 86.6).abs() < 0.1);
/// assert_eq!(lamella::heat::cooling_time(50.0, 20.0, 18.0, 4727.0), None);
/// ```
#[must_use]
pub fn cooling_time(start: f64, air: f64, target: f64, constant: f64) -> Option<f64> {
    let ratio = (start - air) / (target - air);
    let seconds = constant * libm::log(ratio);
    (ratio >= 1.0 && seconds.is_finite()).then_some(seconds)
}

/// Seconds in which a jug's excess over the air falls to 1/e: its heat capacity (J/K) over film times surface of a
/// cylinder as high as wide that holds so many litres. `film` in W/(m² K): 10 to 12 in still air, 150 or more in a
/// water bath (from memory).
#[must_use]
pub fn jug_constant(capacity: f64, litres: f64, film: f64) -> f64 {
    // Volume pi d³/4, surface with both ends 3 pi d²/2.
    let diameter = libm::cbrt(litres * 1e-3 * 4.0 / std::f64::consts::PI);
    capacity / (film * 1.5 * std::f64::consts::PI * diameter * diameter)
}
