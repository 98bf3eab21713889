//! The units that a sheet is written in.

use crate::quantity::{Length, Mass, QuantityError, Temperature, Unit, unit_named};

/// The units that a maker reads: those of the scales, of the ruler and of the thermometer.
///
/// ```
/// use lamella::sheet::Units;
/// let units = Units::of("oz", "in", "°F")?;
/// assert_eq!(units.mass().symbol, "oz");
/// assert_eq!(Units::default(), Units::of("g", "mm", "°C")?);
/// assert!(Units::of("cups", "mm", "°C").is_err());
/// # Ok::<(), lamella::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Units {
    pub(super) mass: &'static Unit,
    pub(super) length: &'static Unit,
    pub(super) temperature: &'static Unit,
}

impl Units {
    /// Grams, millimetres and degrees Celsius.
    #[expect(clippy::indexing_slicing, reason = "the first unit of a kind is its base unit")]
    pub const METRIC: Self =
        Self { mass: &Mass::UNITS[0], length: &Length::UNITS[0], temperature: &Temperature::UNITS[0] };

    /// The units of these names: any that a quantity of the kind can be written in.
    ///
    /// # Errors
    /// When no such unit of mass, of length or of temperature is known.
    pub fn of(mass: &str, length: &str, temperature: &str) -> Result<Self, QuantityError> {
        Ok(Self {
            mass: unit_named(mass, Mass::UNITS, Mass::LIMIT.what)?,
            length: unit_named(length, Length::UNITS, Length::LIMIT.what)?,
            temperature: unit_named(temperature, Temperature::UNITS, Temperature::LIMIT.what)?,
        })
    }

    /// The unit of what is weighed.
    #[must_use]
    pub const fn mass(self) -> &'static Unit {
        self.mass
    }

    /// The unit of heights.
    #[must_use]
    pub const fn length(self) -> &'static Unit {
        self.length
    }

    /// The unit of temperatures.
    #[must_use]
    pub const fn temperature(self) -> &'static Unit {
        self.temperature
    }

    /// Whether masses are in grams, in which a plan has all its digits.
    pub(super) fn in_grams(self) -> bool {
        self.mass == Self::METRIC.mass
    }
}

impl Default for Units {
    fn default() -> Self {
        Self::METRIC
    }
}
