//! The fast path: one column from the bottom to the top.
//!
//! A single column keeps the layers, their reaction and their pour times, and takes what the sides lose from its mean:
//! a wall in series with w/(6k), which is what lies between the mean of a slab and its faces. It takes a fortieth of the
//! time of the section and is right within a kelvin or two for blocks that are wider than high; what it cannot tell is how
//! temperature falls towards the sides.

use super::grid::Grid;
use super::scenario::Scenario;
use super::solve::{Steps, run};
use super::{Course, HeatError};

/// Rows of the fast path.
pub const ROWS: usize = 56;

impl Grid {
    /// One column of so many rows.
    #[must_use]
    pub const fn column(rows: usize) -> Self {
        Self { columns: 0, rows }
    }
}

/// Runs a scenario in one column of [`ROWS`] rows.
///
/// # Errors
/// As [`run`].
pub fn run_column(scenario: &Scenario, frames: &[f64]) -> Result<Course, HeatError> {
    run(scenario, Grid::column(ROWS), &Steps::default(), frames)
}
