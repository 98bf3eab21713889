//! What a run gives: moments, frames, and the balance of heat.
#![expect(clippy::float_arithmetic, reason = "reads an approximate model")]

use super::grid::{Mesh, count};
use super::scenario::{Phase, Scenario};

/// Heat of the whole block (of a metre of it where its length is not reckoned with), J, temperatures counted from 0 °C.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Energy {
    /// What the layers brought as they were poured.
    pub poured: f64,
    /// What the reaction gave: heat of reaction times what reacted.
    pub released: f64,
    /// What went to the air.
    pub lost: f64,
    /// What is held at the end.
    pub held: f64,
}

impl Energy {
    pub(super) fn times(self, factor: f64) -> Self {
        Self {
            poured: self.poured * factor,
            released: self.released * factor,
            lost: self.lost * factor,
            held: self.held * factor,
        }
    }

    /// What is neither held nor lost of what was poured and released, as a share of the largest of these.
    #[must_use]
    pub fn imbalance(&self) -> f64 {
        let largest =
            [self.poured, self.released, self.lost, self.held].iter().fold(0.0_f64, |a, b| a.max(b.abs()));
        let off = self.poured + self.released - self.lost - self.held;
        if largest > 0.0 { off.abs() / largest } else { 0.0 }
    }
}

/// Where a temperature stands: across from the middle and up from the bottom, m.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Spot {
    /// From the middle towards the wall.
    pub across: f64,
    /// Above the bottom.
    pub up: f64,
}

/// The block at the end of a step.
#[derive(Clone, Debug, PartialEq)]
pub struct Moment {
    /// Seconds from the start.
    pub time: f64,
    /// Temperature of the air, °C.
    pub air: f64,
    /// Highest temperature, °C, and where.
    pub hottest: (f64, Spot),
    /// By how much the temperature passes that at which its layer gels, K, where it does so most; negative where none does.
    pub over_gel: f64,
    /// Temperature in the middle of what is poured, °C.
    pub centre: f64,
    /// Temperature of the outermost cell on top, °C.
    pub edge: f64,
    /// Mean temperature, °C.
    pub mean: f64,
    /// Mean conversion.
    pub conversion: f64,
    /// Least conversion of any cell.
    pub least: f64,
    /// Mean conversion of the layers that are poured.
    pub layers: Vec<f64>,
    /// Mean temperature of the layers that are poured, °C.
    pub warmth: Vec<f64>,
}

impl Moment {
    pub(super) fn of(
        mesh: &Mesh,
        time: f64,
        air: f64,
        gels_at: &[f64],
        excess: &[f64],
        conversion: &[f64],
        peak: &mut [f64],
    ) -> Self {
        let columns = mesh.columns;
        let mut hottest = (f64::NEG_INFINITY, 0_usize, 0.0);
        let (mut heat, mut all, mut reacted, mut least) = (0.0, 0.0, 0.0, f64::INFINITY);
        let mut of_layer = vec![(0.0, 0.0, 0.0); gels_at.len()];
        let mut over_gel = f64::NEG_INFINITY;
        let middle = excess.chunks_exact(columns).len().div_ceil(2).saturating_sub(1);
        let (mut centre, mut edge, mut from) = (air, air, 0.0);
        let cells = excess.chunks_exact(columns).zip(conversion.chunks_exact(columns));
        for (index, ((row, (excess, conversion)), peak)) in
            mesh.rows.iter().zip(cells).zip(peak.chunks_exact_mut(columns)).enumerate()
        {
            let (mut row_heat, mut row_all, mut row_reacted) = (0.0, 0.0, 0.0);
            let mut warmest = f64::NEG_INFINITY;
            let cells = excess.iter().zip(conversion).zip(peak).zip(&mesh.faces);
            for (column, (((excess, conversion), peak), [_, _, volume])) in cells.enumerate() {
                *peak = peak.max(excess + air);
                warmest = warmest.max(*excess);
                if *excess > hottest.0 {
                    hottest = (*excess, column, from + row.1 / 2.0);
                }
                least = least.min(*conversion);
                row_heat += excess * volume;
                row_all += volume;
                row_reacted += conversion * volume;
            }
            over_gel = over_gel.max(warmest + air - gels_at.get(row.0).copied().unwrap_or(f64::INFINITY));
            heat += row_heat * row.1;
            all += row_all * row.1;
            reacted += row_reacted * row.1;
            if let Some(layer) = of_layer.get_mut(row.0) {
                layer.0 += row_reacted * row.1;
                layer.1 += row_all * row.1;
                layer.2 += row_heat * row.1;
            }
            if index == middle {
                centre = excess.first().map_or(air, |excess| excess + air);
            }
            edge = excess.last().map_or(air, |excess| excess + air);
            from += row.1;
        }
        Self {
            time,
            air,
            hottest: (hottest.0 + air, Spot { across: (count(hottest.1) + 0.5) * mesh.dx, up: hottest.2 }),
            over_gel,
            centre,
            edge,
            mean: air + heat / all,
            conversion: reacted / all,
            least,
            layers: of_layer.iter().map(|(reacted, all, _)| reacted / all).collect(),
            warmth: of_layer.iter().map(|(_, all, heat)| air + heat / all).collect(),
        }
    }
}

/// The section at a time that was asked for.
#[derive(Clone, Debug, PartialEq)]
pub struct Frame {
    /// Seconds from the start.
    pub time: f64,
    /// The surroundings that led up to it.
    pub phase: Phase,
    /// Temperatures of the cells that are poured, °C: row by row from the bottom, in each from the middle to the wall.
    pub temperature: Vec<f64>,
    /// Their conversions.
    pub conversion: Vec<f64>,
}

/// A run that has come to its end.
#[derive(Clone, Debug)]
pub struct Course {
    scenario: Scenario,
    mesh: Mesh,
    /// The balance of heat.
    pub energy: Energy,
    /// The block after every step.
    pub moments: Vec<Moment>,
    /// The section at the times asked for, at the start and at the end.
    pub frames: Vec<Frame>,
    /// The highest temperature that each cell has had, °C, in the order of a frame.
    pub peak: Vec<f64>,
    /// How many steps it took.
    pub steps: usize,
}

impl Course {
    pub(super) const fn new(
        scenario: Scenario,
        mesh: Mesh,
        energy: Energy,
        moments: Vec<Moment>,
        frames: Vec<Frame>,
        peak: Vec<f64>,
        steps: usize,
    ) -> Self {
        Self { scenario, mesh, energy, moments, frames, peak, steps }
    }

    /// The scenario that was run.
    #[must_use]
    pub const fn scenario(&self) -> &Scenario {
        &self.scenario
    }

    /// Cells in a row of the half section.
    #[must_use]
    pub const fn columns(&self) -> usize {
        self.mesh.columns
    }

    /// Layer and height (m) of every row, from the bottom.
    #[must_use]
    pub fn rows(&self) -> &[(usize, f64)] {
        &self.mesh.rows
    }

    /// Volumes of the cells in the order of a frame, as shares of the whole.
    #[must_use]
    pub fn shares(&self) -> Vec<f64> {
        let mut shares = Vec::with_capacity(self.peak.len());
        for (_, height) in &self.mesh.rows {
            shares.extend(self.mesh.volumes().map(|volume| volume * height));
        }
        let all: f64 = shares.iter().sum();
        for share in &mut shares {
            *share /= all;
        }
        shares
    }

    /// The temperature at a spot of a frame, °C: linear between the middles of cells and their faces; at faces of the
    /// block what its wall's resistance makes of it. A spot outside is taken to the nearest inside.
    #[must_use]
    pub fn temperature_at(&self, frame: &Frame, spot: Spot) -> f64 {
        let mut column: Vec<(f64, f64)> = Vec::with_capacity(self.mesh.rows.len());
        let rows = self.mesh.rows.iter().zip(frame.temperature.chunks_exact(self.mesh.columns));
        for (row, cells) in rows {
            let conductivity = self.conductivity(row.0);
            column.push((row.1 / conductivity, self.across(frame, cells, conductivity, spot.across)));
        }
        let heights: Vec<f64> = self.mesh.rows.iter().map(|row| row.1).collect();
        let air = frame.phase.air;
        let ends = [face(&column, air, frame.phase.base, false), face(&column, air, frame.phase.top, true)];
        along(&heights, &column, ends, spot.up)
    }

    fn conductivity(&self, layer: usize) -> f64 {
        self.scenario.layers.get(layer).map_or(1.0, |layer| layer.material.conductivity)
    }

    fn across(&self, frame: &Frame, cells: &[f64], conductivity: f64, at: f64) -> f64 {
        if let [only] = cells {
            return *only;
        }
        let line: Vec<(f64, f64)> = cells.iter().map(|cell| (self.mesh.dx / conductivity, *cell)).collect();
        let widths = vec![self.mesh.dx; cells.len()];
        let ends =
            [face(&line, 0.0, f64::INFINITY, false), face(&line, frame.phase.air, frame.phase.side, true)];
        along(&widths, &line, ends, at)
    }

    /// The mean temperature of a frame, of one layer or of all, °C.
    #[must_use]
    pub fn mean(&self, frame: &Frame, layer: Option<usize>) -> f64 {
        let (mut sum, mut all) = (0.0, 0.0);
        for (row, cells) in self.mesh.rows.iter().zip(frame.temperature.chunks_exact(self.mesh.columns)) {
            if layer.is_some_and(|layer| layer != row.0) {
                continue;
            }
            for (cell, volume) in cells.iter().zip(self.mesh.volumes()) {
                sum += cell * volume * row.1;
                all += volume * row.1;
            }
        }
        sum / all
    }
}

/// Temperature at an outer face of a line of cells (resistance across a cell, temperature), behind so much resistance.
fn face(line: &[(f64, f64)], air: f64, resistance: f64, last: bool) -> f64 {
    let pick = |index: usize| if last { line.iter().rev().nth(index) } else { line.get(index) };
    let Some((across, outer)) = pick(0) else { return air };
    if resistance.is_finite() {
        return air + (outer - air) * resistance / (resistance + across / 2.0);
    }
    // Nothing passes: a parabola level at the face.
    pick(1).map_or(*outer, |(_, next)| outer + (outer - next) / 8.0)
}

/// Linear through the faces and middles of a line of cells.
fn along(widths: &[f64], line: &[(f64, f64)], ends: [f64; 2], at: f64) -> f64 {
    let (mut place, mut value) = (0.0, ends[0]);
    for (index, (width, (across, cell))) in widths.iter().zip(line).enumerate() {
        let next = match line.get(index.saturating_add(1)) {
            // What passes from middle to face passes from face to middle.
            Some((further, other)) => (cell * further + other * across) / (further + across),
            None => ends[1],
        };
        for (to, end) in [(place + width / 2.0, *cell), (place + width, next)] {
            if at <= to {
                let part = ((at - to) / (width / 2.0) + 1.0).clamp(0.0, 1.0);
                return value + (end - value) * part;
            }
            value = end;
        }
        place += width;
    }
    value
}
