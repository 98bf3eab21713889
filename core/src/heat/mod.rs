#![doc = include_str!("heat.md")]

pub mod batter;
mod calibrate;
mod course;
mod dissolve;
pub mod film;
mod forecast;
mod grid;
mod kinetics;
mod knowledge;
mod lines;
pub mod lye;
mod materials;
mod oned;
mod picture;
mod read_setting;
mod readings;
mod scenario;
mod setting;
mod solve;
mod warming;

pub use calibrate::{Estimate, Fit, Free, Log, READINGS, fit};
pub use course::{Course, Energy, Frame, Moment, Spot};
pub use dissolve::{Dissolved, Dissolving, cooled, cooling_time, jug_constant};
pub use forecast::{CAUTION_CODES, HeatForecast, LyeForecast, forecast};
pub use grid::Grid;
pub use kinetics::{GAS, Kinetics};
pub use knowledge::{Spread, Truth};
pub use materials::{Material, SAPONIFYING, Sheet, conductivity, gel_temperature};
pub use oned::{ROWS, run_column};
pub use picture::{Degrees, colour, draw};
pub use read_setting::read_setting;
#[cfg(feature = "schema")]
pub use read_setting::schema;
pub use readings::{
    CARRIES, CUT_CONVERSION, CUT_TEMPERATURE, Forecast, Interval, LayerForecast, When, forecast_scenario,
};
pub use scenario::{AT_TRACE, Charge, Depth, Ends, LONGEST, MOST, Phase, Scenario, Section};
pub use setting::{BETWEEN, Layup, Pour, Setting, Surroundings, mixed};
pub use solve::{Steps, run};
pub use warming::colour_of;

use thiserror::Error;

/// Why a computation of heat cannot be made.
#[derive(Clone, Debug, PartialEq, Error)]
#[non_exhaustive]
pub enum HeatError {
    /// A figure is not a number, or outside of what can be computed with.
    #[error("{name} is {value}, and {min} to {max} can be computed with")]
    Parameter {
        /// Which one, by the name of its field.
        name: &'static str,
        /// What it is.
        value: f64,
        /// The least that is allowed.
        min: f64,
        /// The most that is allowed.
        max: f64,
    },
    /// No layer, or more than [`MOST`].
    #[error("a block has 1 to {MOST} layers")]
    Layers,
    /// No surroundings, or more than [`MOST`] of them.
    #[error("a block has 1 to {MOST} surroundings one after another")]
    Phases,
    /// Times that do not follow one another, do not begin at nought, or lie past the end.
    #[error("times must begin at 0, rise, and lie before the end")]
    Order,
    /// A grid that cannot be used.
    #[error("a grid has an even number of columns and at least one row, at most {} of each", Grid::MOST)]
    Grid,
    /// The run took too many steps.
    #[error("the run takes more steps than allowed")]
    Steps,
    /// A thermometer log that cannot be fitted.
    #[error("the log cannot be fitted: {0}")]
    Log(&'static str),
}

impl HeatError {
    /// Stable code.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Parameter { .. } => "heat.parameter",
            Self::Layers => "heat.layers",
            Self::Phases => "heat.phases",
            Self::Order => "heat.order",
            Self::Grid => "heat.grid",
            Self::Steps => "heat.steps",
            Self::Log(_) => "heat.log",
        }
    }

    /// Whether a figure lies within a range; one that is not a number does not.
    fn check(name: &'static str, value: f64, min: f64, max: f64) -> Result<(), Self> {
        if value >= min && value <= max { Ok(()) } else { Err(Self::Parameter { name, value, min, max }) }
    }
}

/// Linear between points in rising order of x, held at the ends.
#[expect(clippy::float_arithmetic, reason = "tables of approximate properties")]
fn between(points: &[(f64, f64)], x: f64) -> f64 {
    let mut last: Option<(f64, f64)> = None;
    for &(next_x, next_y) in points {
        if x <= next_x {
            return match last {
                Some((last_x, last_y)) => last_y + (next_y - last_y) * (x - last_x) / (next_x - last_x),
                None => next_y,
            };
        }
        last = Some((next_x, next_y));
    }
    last.map_or(0.0, |(_, y)| y)
}
