//! The section divided into cells, and the balance of heat between them.
#![expect(clippy::float_arithmetic, reason = "finite volumes of an approximate model")]

use super::HeatError;
use super::scenario::{Depth, Phase, Scenario};

/// How finely the section is divided.
///
/// The section is the same left and right of its middle, so that only one half is computed: `columns` are those of the
/// whole width. Rows are given to the layers by thickness, at least two each.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Grid {
    /// Cells across the whole width, an even number; nought for the fast path, which is
    /// [one column](super::run_column).
    pub columns: usize,
    /// Cells from bottom to top, about.
    pub rows: usize,
}

impl Default for Grid {
    fn default() -> Self {
        Self { columns: 40, rows: 28 }
    }
}

impl Grid {
    /// Most cells either way.
    pub const MOST: usize = 2_000;

    fn check(self) -> Result<(), HeatError> {
        let within = self.columns <= Self::MOST && self.rows >= 1 && self.rows <= Self::MOST;
        if within && self.columns.is_multiple_of(2) { Ok(()) } else { Err(HeatError::Grid) }
    }
}

/// Cells of the half section. Row by row from the bottom, in each from the middle to the wall.
#[derive(Clone, Debug)]
pub(super) struct Mesh {
    /// Cells in a row.
    pub(super) columns: usize,
    /// Width of a cell, m.
    pub(super) dx: f64,
    /// For each column: area of its inner and outer face, and its volume, for each metre of height; by length of the
    /// block, or by radian of a round one.
    pub(super) faces: Vec<[f64; 3]>,
    /// For each row: its layer, and its height, m.
    pub(super) rows: Vec<(usize, f64)>,
    /// Distance to the wall over 2k is the resistance of the outermost half cell; with one column that stands for the
    /// whole half width, a mean needs a third of it.
    pub(super) wall: f64,
    /// What a volume of the half section is multiplied by for one of the whole block.
    pub(super) whole: f64,
}

impl Mesh {
    pub(super) fn new(scenario: &Scenario, grid: Grid) -> Result<Self, HeatError> {
        grid.check()?;
        let columns = (grid.columns / 2).max(1);
        let half = scenario.section.width / 2.0;
        let dx = half / count(columns);
        let round = scenario.section.depth == Depth::Round;
        let mut inner = 0.0;
        let faces = (1..=columns)
            .map(|face| {
                let outer = dx * count(face);
                let face = if round {
                    [inner, outer, (outer + inner) * (outer - inner) / 2.0]
                } else {
                    [1.0, 1.0, dx]
                };
                inner = outer;
                face
            })
            .collect();
        let height = scenario.height();
        let mut rows = Vec::new();
        for (index, layer) in scenario.layers.iter().enumerate() {
            let share = (count(grid.rows) * layer.thickness / height).round();
            let least = if grid.rows == 1 { 1.0 } else { 2.0 };
            let cells = whole(share.max(least));
            rows.extend(std::iter::repeat_n((index, layer.thickness / count(cells)), cells));
        }
        // A slab loses through w/(6k) on average where the wall sees w/2 of it; a cylinder through r/(4k).
        let wall = match (columns, round) {
            (1, false) => half / 3.0,
            (1, true) => half / 4.0,
            _ => dx / 2.0,
        };
        let length = scenario.section.ends.map_or(1.0, |ends| ends.length);
        let whole = if round { 2.0 * std::f64::consts::PI } else { 2.0 * length };
        Ok(Self { columns, dx, faces, rows, wall, whole })
    }

    /// Volume of the cells of a row, column by column, for each metre of height.
    pub(super) fn volumes(&self) -> impl Iterator<Item = f64> {
        self.faces.iter().map(|[_, _, volume]| *volume)
    }
}

/// A count as a float.
pub(super) fn count(things: usize) -> f64 {
    u32::try_from(things).map_or(f64::from(u32::MAX), f64::from)
}

/// A float that is a count below [`Grid::MOST`] and its like.
fn whole(value: f64) -> usize {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a checked and rounded number of cells"
    )]
    let whole = value.clamp(0.0, 1e6) as usize;
    whole
}

/// One cell of a line that is solved implicitly: the tridiagonal matrix with its factors already taken.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Link {
    /// Heat capacity: what multiplies the right-hand side.
    pub(super) load: f64,
    /// Coupling to the cell before.
    pub(super) before: f64,
    /// One over the pivot.
    pub(super) inverse: f64,
    /// Coupling to the cell after, over the pivot.
    pub(super) after: f64,
    /// What the cell gives away, W/K: to the air, through its end of the line and through the ends of the block.
    pub(super) loss: f64,
}

/// Rows that are solved at once, so that one does not wait for itself.
pub(super) const LANES: usize = 4;

/// The factors of one column in four rows: those of [`Link`], over the pivot.
#[derive(Clone, Copy, Debug)]
pub(super) struct Four {
    pub(super) load: [f64; LANES],
    pub(super) before: [f64; LANES],
    pub(super) after: [f64; LANES],
    pub(super) loss: [f64; LANES],
}

impl Four {
    fn of(links: [&Link; LANES]) -> Self {
        Self {
            load: links.map(|link| link.load * link.inverse),
            before: links.map(|link| link.before * link.inverse),
            after: links.map(|link| link.after),
            loss: links.map(|link| link.loss),
        }
    }
}

/// A line of cells before it is factored: capacity (J/K), conductance to the next, and loss (W/K).
type Raw = Vec<(f64, f64, f64)>;

/// The factors for one length of step.
fn factor(raw: &Raw, step: f64) -> Vec<Link> {
    let (mut before, mut after) = (0.0, 0.0);
    let link = |&(capacity, next, loss): &(f64, f64, f64)| {
        let pivot = capacity + step * (before + next + loss) - step * before * after;
        let link = Link {
            load: capacity,
            before: step * before,
            inverse: 1.0 / pivot,
            after: step * next / pivot,
            loss,
        };
        before = next;
        after = link.after;
        link
    };
    raw.iter().map(link).collect()
}

/// The balances of all lines in one state of the surroundings, with so many rows poured.
#[derive(Clone, Debug)]
pub(super) struct Balance {
    /// By layer: the line from the middle to the wall, for each metre of height.
    across: Vec<Raw>,
    /// From bottom to top, for each square metre of a column.
    up: Raw,
}

impl Balance {
    pub(super) fn new(scenario: &Scenario, mesh: &Mesh, phase: &Phase, poured: usize) -> Self {
        let across = scenario.layers.iter().map(|layer| {
            let material = &layer.material;
            let capacity = material.density * material.capacity;
            // Two ends, each in series with what a mean along the length sees of the block.
            let ends = scenario.section.ends.map_or(0.0, |ends| {
                2.0 / ends.length * over(phase.end + ends.length / (6.0 * material.conductivity))
            });
            let last = mesh.faces.len().saturating_sub(1);
            let line = mesh.faces.iter().enumerate().map(|(index, [_, outer, volume])| {
                let (next, wall) = if index == last {
                    (0.0, over(phase.side + mesh.wall / material.conductivity))
                } else {
                    (outer * material.conductivity / mesh.dx, 0.0)
                };
                (capacity * volume, next, outer * wall + volume * ends)
            });
            line.collect()
        });
        let half = |row: &(usize, f64)| {
            let conductivity = scenario.layers.get(row.0).map_or(1.0, |layer| layer.material.conductivity);
            row.1 / (2.0 * conductivity)
        };
        let last = poured.saturating_sub(1);
        let rows: Vec<&(usize, f64)> = mesh.rows.iter().take(poured).collect();
        let up = rows.iter().enumerate().map(|(index, row)| {
            let capacity = scenario
                .layers
                .get(row.0)
                .map_or(0.0, |layer| layer.material.density * layer.material.capacity);
            let next = match rows.get(index.saturating_add(1)) {
                Some(above) => 1.0 / (half(row) + half(above)),
                None => 0.0,
            };
            let below = if index == 0 { over(phase.base + half(row)) } else { 0.0 };
            let above = if index == last { over(phase.top + half(row)) } else { 0.0 };
            (capacity * row.1, next, below + above)
        });
        Self { across: across.collect(), up: up.collect() }
    }

    /// Factors across, for rows taken by fours; what is missing in the last four repeats its last row.
    pub(super) fn factor_across(&self, mesh: &Mesh, poured: usize, step: f64, out: &mut Vec<Four>) {
        let layers: Vec<Vec<Link>> = self.across.iter().map(|raw| factor(raw, step)).collect();
        out.clear();
        let rows = mesh.rows.get(..poured).unwrap_or(&[]);
        for rows in rows.chunks(LANES) {
            let mut lines: [&[Link]; LANES] = [&[]; LANES];
            let mut row = rows.iter();
            let mut last: &[Link] = &[];
            for line in &mut lines {
                last = row.next().and_then(|(layer, _)| layers.get(*layer)).map_or(last, Vec::as_slice);
                *line = last;
            }
            let [a, b, c, d] = lines;
            out.extend(a.iter().zip(b).zip(c).zip(d).map(|(((a, b), c), d)| Four::of([a, b, c, d])));
        }
    }

    /// Factors upwards.
    pub(super) fn factor_up(&self, step: f64) -> Vec<Link> {
        factor(&self.up, step)
    }
}

/// Conductance of a resistance; infinity passes nothing.
fn over(resistance: f64) -> f64 {
    if resistance.is_finite() { 1.0 / resistance.max(1e-12) } else { 0.0 }
}
