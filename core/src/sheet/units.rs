//! The units that a sheet is written in.

use crate::problem::Problem;
use crate::quantity::{Length, Mass, QuantityError, Temperature, Unit, unit_named};
use crate::recipe::fields::{Kind, Table, must};
use crate::recipe::read::object;
use crate::recipe::read_value::{Fields, Reader};

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

static UNITS: Table = Table::new(
    "units",
    "the units",
    &[
        must("mass", Kind::Name, "Unit of masses, such as g or oz."),
        must("length", Kind::Name, "Unit of lengths, such as mm or in."),
        must("temperature", Kind::Name, "Unit of temperatures, such as °C or °F."),
    ],
    &[],
);

/// The unit that a field names.
fn unit(
    reader: &mut Reader,
    fields: &Fields<'_>,
    name: &str,
    units: &'static [Unit],
    what: &'static str,
) -> Option<&'static Unit> {
    reader.needed(fields, name, |reader, at| {
        let known = unit_named(reader.name(at, 1)?, units, what);
        let told = |error| {
            let Problem { code, message, advice, .. } = Problem::from(&error);
            reader.report(at, code, message, advice);
        };
        known.map_err(told).ok()
    })
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

    /// Reads units from a JSON object with the fields `mass`, `length` and `temperature`.
    ///
    /// ```
    /// use lamella::sheet::Units;
    /// let units = Units::read(r#"{"mass": "oz", "length": "in", "temperature": "°F"}"#).unwrap();
    /// assert_eq!(units.mass().symbol, "oz");
    /// let problems = Units::read(r#"{"mass": "cups", "length": 3, "degrees": "°F"}"#).unwrap_err();
    /// let told: Vec<_> = problems.iter().map(|problem| (problem.pointer.as_str(), problem.code)).collect();
    /// assert_eq!(
    ///     told,
    ///     [
    ///         ("", "field.missing"),
    ///         ("/mass", "quantity.unit.unknown"),
    ///         ("/length", "field.type"),
    ///         ("/degrees", "field.unknown")
    ///     ]
    /// );
    /// ```
    ///
    /// # Errors
    /// Everything that is wrong with the object, in the order of its text.
    pub fn read(text: &str) -> Result<Self, Vec<Problem>> {
        object(text, |reader, at| {
            let fields = reader.object(at, &UNITS)?;
            let mass = unit(reader, &fields, "mass", Mass::UNITS, Mass::LIMIT.what);
            let length = unit(reader, &fields, "length", Length::UNITS, Length::LIMIT.what);
            let temperature =
                unit(reader, &fields, "temperature", Temperature::UNITS, Temperature::LIMIT.what);
            Some(Self { mass: mass?, length: length?, temperature: temperature? })
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
