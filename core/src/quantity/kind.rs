//! The quantity types: one newtype a kind, one base unit each.

use std::fmt;
use std::str::FromStr;

use rust_decimal::Decimal;
use serde::{Serialize, Serializer};

use super::exact::{self, Exact, decimal_literal};
use super::parse::{self, QuantityError};
use super::print;
use crate::limits::{self, Limit};

/// A unit of a kind: `base = (value + offset) * numerator / denominator`, exact.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Unit {
    /// As it is written first, and printed.
    pub symbol: &'static str,
    /// Other spellings that are read.
    pub also: &'static [&'static str],
    pub(crate) numerator: Decimal,
    pub(crate) denominator: Decimal,
    pub(crate) offset: Decimal,
}

const fn unit(
    symbol: &'static str,
    also: &'static [&'static str],
    numerator: (i64, u32),
    denominator: (i64, u32),
) -> Unit {
    Unit {
        symbol,
        also,
        numerator: decimal_literal(numerator.0, numerator.1),
        denominator: decimal_literal(denominator.0, denominator.1),
        offset: Decimal::ZERO,
    }
}

impl Unit {
    /// A value in this unit, in the base unit of its kind.
    #[must_use]
    pub fn to_base(&self, value: Exact) -> Exact {
        (value + Exact::from(self.offset)).portion(Exact::from(self.numerator), Exact::from(self.denominator))
    }

    /// A value in the base unit, in this unit.
    #[must_use]
    pub fn from_base(&self, base: Exact) -> Exact {
        base.portion(Exact::from(self.denominator), Exact::from(self.numerator)) - Exact::from(self.offset)
    }

    /// Whether `text` names this unit.
    #[must_use]
    pub fn is_named(&self, text: &str) -> bool {
        self.symbol == text || self.also.contains(&text)
    }
}

const ONE: (i64, u32) = (1, 0);

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident, $limit:ident, [$($(#[$unit_doc:meta])* $unit:expr),* $(,)?]) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(Decimal);

        impl $name {
            /// Nought.
            pub const ZERO: Self = Self(Decimal::ZERO);
            /// What the type can hold.
            pub const LIMIT: Limit = limits::$limit;
            /// The units that are read; the first is the base unit.
            pub const UNITS: &'static [Unit] = &[$($unit),*];

            /// `mantissa * 10^-scale` of the base unit, at compile time: for tables.
            #[must_use]
            pub const fn literal(mantissa: i64, scale: u32) -> Self {
                assert!(scale <= limits::DECIMALS, "a quantity has at most twelve decimals");
                Self(decimal_literal(mantissa, scale))
            }

            /// From a number of base units, rounded half to even at the twelfth decimal.
            ///
            /// # Errors
            /// When the number is outside [`LIMIT`](Self::LIMIT), or poisoned.
            pub fn try_new(value: impl Into<Exact>) -> Result<Self, QuantityError> {
                parse::within(value.into(), &Self::LIMIT).map(Self)
            }

            /// From a number of the unit named `unit`.
            ///
            /// # Errors
            /// When no such unit exists, or as [`try_new`](Self::try_new).
            pub fn try_from_unit(value: impl Into<Exact>, unit: &str) -> Result<Self, QuantityError> {
                let unit = parse::unit(unit, Self::UNITS, Self::LIMIT.what)?;
                Self::try_new(unit.to_base(value.into()))
            }

            /// The number of base units.
            #[must_use]
            pub const fn value(self) -> Decimal {
                self.0
            }

            /// The number of base units, to compute with.
            #[must_use]
            pub const fn exact(self) -> Exact {
                Exact::of_decimal(self.0)
            }

            /// The number of trillionths of the base unit, the last digit that is kept: exact. Nothing when 64 bits do
            /// not hold it, which is from 9 223 372 units on.
            #[must_use]
            pub fn trillionths(self) -> Option<i64> {
                exact::trillionths(self.0)
            }

            /// The number of the unit named `unit`, to 26 decimals; nothing when no such unit exists.
            #[must_use]
            pub fn in_unit(self, unit: &str) -> Option<Decimal> {
                Self::UNITS.iter().find(|known| known.is_named(unit))?.from_base(self.exact()).decimal()
            }

            /// Whether it is exactly nought.
            #[must_use]
            pub fn is_zero(self) -> bool {
                self.0.is_zero()
            }
        }

        /// The base unit with its symbol, no trailing noughts: the form that documents carry.
        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(&print::with_unit(self.0, Self::UNITS))
            }
        }

        impl FromStr for $name {
            type Err = QuantityError;
            fn from_str(text: &str) -> Result<Self, QuantityError> {
                parse::quantity(text, Self::UNITS, &Self::LIMIT).map(Self)
            }
        }

        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.serialize_str(&print::with_unit(self.0, Self::UNITS))
            }
        }
    };
}

macro_rules! additive {
    ($($name:ident),*) => {$(
        impl std::ops::Add for $name {
            type Output = Self;
            /// Exact.
            fn add(self, other: Self) -> Self { Self(exact::sum(self.0, other.0)) }
        }
        impl std::ops::Sub for $name {
            type Output = Self;
            /// Exact.
            fn sub(self, other: Self) -> Self { Self(exact::difference(self.0, other.0)) }
        }
        impl std::ops::AddAssign for $name {
            fn add_assign(&mut self, other: Self) { *self = *self + other; }
        }
        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(iter: I) -> Self { iter.fold(Self::ZERO, |total, item| total + item) }
        }
    )*};
}

additive!(Mass, Volume, Length, Share, Energy, Duration);

quantity! {
    /// Mass in grams.
    ///
    /// ```
    /// use lamella::quantity::Mass;
    /// let mass: Mass = "2.5 oz".parse()?;
    /// assert_eq!(mass.to_string(), "70.8738078125 g");
    /// assert_eq!("1 lb 4 oz".parse::<Mass>()?.to_string(), "566.9904625 g");
    /// # Ok::<(), lamella::quantity::QuantityError>(())
    /// ```
    ///
    /// # Source
    /// Pound 453.592 37 g exactly, ounce 1/16, dram 1/256, grain 1/7000, stone 14 lb: International Yard and Pound
    /// Agreement 1959; NIST SP 811 (2008) appendix B.
    Mass, MASS, [
        unit("g", &[], ONE, ONE),
        unit("kg", &[], (1000, 0), ONE),
        unit("mg", &[], ONE, (1000, 0)),
        unit("oz", &[], (45_359_237, 5), (16, 0)),
        unit("lb", &["lbs"], (45_359_237, 5), ONE),
        unit("dr", &[], (45_359_237, 5), (256, 0)),
        unit("gr", &[], (45_359_237, 5), (7000, 0)),
        unit("st", &[], (635_029_318, 5), ONE),
        unit("US cwt", &[], (45_359_237, 3), ONE),
    ]
}

quantity! {
    /// Volume in millilitres.
    ///
    /// A fluid ounce, a pint or a spoon differs from country to country: the unit must say which.
    ///
    /// # Source
    /// Inch 25.4 mm exactly, so US gallon 231 in3 = 3785.411784 mL; UK gallon 4546.09 mL (Weights and Measures Act 1985,
    /// schedule 1); metric spoons 5 and 15 mL: common practice. NIST SP 811 (2008) appendix B.
    Volume, VOLUME, [
        unit("mL", &["ml", "cm3", "cm³"], ONE, ONE),
        unit("L", &["l", "litre", "liter"], (1000, 0), ONE),
        unit("cL", &["cl"], (10, 0), ONE),
        unit("US fl oz", &[], (295_735_295_625, 10), ONE),
        unit("UK fl oz", &[], (284_130_625, 7), ONE),
        unit("US gal", &[], (3_785_411_784, 6), ONE),
        unit("UK gal", &[], (454_609, 2), ONE),
        unit("US qt", &[], (946_352_946, 6), ONE),
        unit("US pt", &[], (473_176_473, 6), ONE),
        unit("UK pt", &[], (56_826_125, 5), ONE),
        unit("US cup", &[], (2_365_882_365, 7), ONE),
        unit("US tbsp", &[], (1_478_676_478_125, 11), ONE),
        unit("US tsp", &[], (492_892_159_375, 11), ONE),
        unit("metric tbsp", &[], (15, 0), ONE),
        unit("metric tsp", &[], (5, 0), ONE),
        unit("in3", &["in³"], (16_387_064, 6), ONE),
        unit("ft3", &["ft³"], (28_316_846_592, 6), ONE),
    ]
}

quantity! {
    /// Length in millimetres.
    ///
    /// # Source
    /// Inch 25.4 mm exactly: International Yard and Pound Agreement 1959; NIST SP 811 (2008) appendix B.
    Length, LENGTH, [
        unit("mm", &[], ONE, ONE),
        unit("cm", &[], (10, 0), ONE),
        unit("m", &[], (1000, 0), ONE),
        unit("in", &["\""], (254, 1), ONE),
        unit("ft", &[], (3048, 1), ONE),
    ]
}

quantity! {
    /// A temperature on the Celsius scale. It is a point, not a difference: two of them do not add.
    ///
    /// # Source
    /// Fahrenheit: (F - 32) x 5/9; kelvin: K - 273.15. NIST SP 811 (2008) appendix B.
    Temperature, TEMPERATURE, [
        unit("°C", &["C", "degC", "℃"], ONE, ONE),
        Unit { offset: decimal_literal(-32, 0), ..unit("°F", &["F", "degF", "℉"], (5, 0), (9, 0)) },
        Unit { offset: decimal_literal(-27_315, 2), ..unit("K", &[], ONE, ONE) },
    ]
}

quantity! {
    /// A share of a whole, kept as a fraction: `"5 %"` is 0.05.
    ///
    /// ```
    /// use lamella::quantity::Share;
    /// let share: Share = "33 %".parse()?;
    /// assert_eq!(share.in_unit("fraction").unwrap().to_string(), "0.33");
    /// assert_eq!(share.to_string(), "33 %");
    /// # Ok::<(), lamella::quantity::QuantityError>(())
    /// ```
    Share, SHARE, [
        unit("fraction", &[], ONE, ONE),
        unit("%", &["percent", "per cent"], ONE, (100, 0)),
        unit("‰", &[], ONE, (1000, 0)),
        unit("ppm", &[], ONE, (1_000_000, 0)),
    ]
}

quantity! {
    /// Saponification value: milligrams of potassium hydroxide that saponify one gram of fat (ISO 3657).
    SaponificationValue, SAPONIFICATION_VALUE, [unit("mg KOH/g", &["", "mg/g"], ONE, ONE)]
}

quantity! {
    /// Iodine value: grams of iodine that 100 g of fat absorb (ISO 3961).
    IodineValue, IODINE_VALUE, [unit("g I2/100 g", &["", "g/100 g"], ONE, ONE)]
}

quantity! {
    /// Density in grams per millilitre.
    ///
    /// # Source
    /// Pound, gallon, fluid ounce and foot as in [`Mass`] and [`Volume`]; NIST SP 811 (2008) appendix B.
    Density, DENSITY, [
        unit("g/mL", &["g/ml", "g/cm3", "g/cm³", "kg/L", "kg/l"], ONE, ONE),
        unit("kg/m3", &["kg/m³", "g/L"], ONE, (1000, 0)),
        unit("lb/US gal", &[], (45_359_237, 5), (3_785_411_784, 6)),
        unit("lb/ft3", &["lb/ft³"], (45_359_237, 5), (28_316_846_592, 6)),
        unit("oz/US fl oz", &[], (28_349_523_125, 9), (295_735_295_625, 10)),
    ]
}

impl Mass {
    /// So many billionths of a gram. Counts of 64 bits are within [`LIMIT`](Self::LIMIT) but for the largest, which no
    /// mass that was counted has.
    pub(crate) fn of_nanograms(count: i64) -> Self {
        Self(exact::billionths(count))
    }

    /// The volume of this mass at a density.
    ///
    /// ```
    /// use lamella::quantity::{Density, Mass};
    /// let oil: Mass = "460 g".parse()?;
    /// let density: Density = "0.92 g/mL".parse()?;
    /// assert_eq!(oil.volume_at(density)?.to_string(), "500 mL");
    /// # Ok::<(), lamella::quantity::QuantityError>(())
    /// ```
    ///
    /// # Errors
    /// When the density is nought, or the volume outside [`Volume::LIMIT`].
    pub fn volume_at(self, density: Density) -> Result<Volume, QuantityError> {
        Volume::try_new(self.exact() / density.exact())
    }
}

impl Volume {
    /// The mass of this volume at a density.
    ///
    /// # Errors
    /// When the mass is outside [`Mass::LIMIT`].
    pub fn mass_at(self, density: Density) -> Result<Mass, QuantityError> {
        Mass::try_new(self.exact() * density.exact())
    }
}

quantity! {
    /// Energy in joules.
    ///
    /// # Source
    /// Thermochemical calorie 4.184 J; Btu (IT) 1055.055 852 62 J; Btu (th) from the pound, the thermochemical calorie and
    /// 5/9 K: NIST SP 811 (2008) appendix B.
    Energy, ENERGY, [
        unit("J", &[], ONE, ONE),
        unit("kJ", &[], (1000, 0), ONE),
        unit("cal", &[], (4184, 3), ONE),
        unit("kcal", &[], (4184, 0), ONE),
        unit("Btu", &["BtuIT"], (105_505_585_262, 8), ONE),
        unit("Btuth", &[], (948_915_238_040, 8), (9, 0)),
        unit("Wh", &[], (3600, 0), ONE),
    ]
}

quantity! {
    /// Specific heat in joules per gram and kelvin, which is kJ/(kg K).
    ///
    /// # Source
    /// Units as in [`Energy`]; Btu (IT)/(lb °F) is 4.1868 J/(g K) exactly. NIST SP 811 (2008) appendix B.
    SpecificHeat, SPECIFIC_HEAT, [
        unit("J/(g K)", &["kJ/(kg K)"], ONE, ONE),
        unit("cal/(g K)", &["cal/(g °C)"], (4184, 3), ONE),
        unit("Btu/(lb °F)", &[], (41_868, 4), ONE),
    ]
}

quantity! {
    /// Thermal conductivity in watts per metre and kelvin.
    ///
    /// # Source
    /// Btu (IT)/(h ft °F): 1055.055 852 62 J / 3600 s / 0.3048 m x 9/5. NIST SP 811 (2008) appendix B.
    Conductivity, CONDUCTIVITY, [
        unit("W/(m K)", &[], ONE, ONE),
        unit("Btu/(h ft °F)", &[], (949_550_267_358, 8), (54_864, 1)),
    ]
}

quantity! {
    /// A span of time in seconds: the age of a bar, time worked, the wait before a pour.
    ///
    /// ```
    /// use lamella::quantity::Duration;
    /// let cure: Duration = "6 weeks".parse()?;
    /// assert_eq!(cure.in_unit("d").unwrap().normalize().to_string(), "42");
    /// # Ok::<(), lamella::quantity::QuantityError>(())
    /// ```
    ///
    /// # Source
    /// Minute, hour and day: SI Brochure, 9th ed. 2019, table 8; the week has seven days.
    Duration, DURATION, [
        unit("s", &["seconds", "second"], ONE, ONE),
        unit("min", &["minutes", "minute"], (60, 0), ONE),
        unit("h", &["hours", "hour"], (3600, 0), ONE),
        unit("d", &["days", "day"], (86_400, 0), ONE),
        unit("weeks", &["week"], (604_800, 0), ONE),
    ]
}
