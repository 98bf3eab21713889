//! Lines of cells solved implicitly: columns all at once, rows by fours.
#![expect(clippy::float_arithmetic, reason = "an approximate model, solved numerically")]

use super::grid::{Four, LANES, Link};

/// 1 - 1/sqrt(2): the stage of the implicit step that makes it damp.
pub(super) const STAGE: f64 = 1.0 - std::f64::consts::FRAC_1_SQRT_2;

/// How far the second stage carries on what the first did.
pub(super) const CARRY: f64 = (1.0 - STAGE) / STAGE;

/// Rows of a field.
pub(super) fn rows(values: &[f64], columns: usize) -> std::slice::ChunksExact<'_, f64> {
    values.chunks_exact(columns)
}

/// A sum of values with weights.
pub(super) fn weigh(weights: &[f64], values: &[f64]) -> f64 {
    weights.iter().zip(values).map(|(weight, value)| weight * value).sum()
}

/// The right-hand side of the second stage: what the first stage did, carried on.
pub(super) fn second_stage(start: &mut [f64], first: &[f64]) {
    for (start, first) in start.iter_mut().zip(first) {
        *start += CARRY * (first - *start);
    }
}

/// Solves all columns at once, row by row.
pub(super) fn solve_up(values: &mut [f64], columns: usize, links: &[Link]) {
    let mut below: Option<&mut [f64]> = None;
    for (row, link) in values.chunks_exact_mut(columns).zip(links) {
        let load = link.load * link.inverse;
        if let Some(below) = below {
            let before = link.before * link.inverse;
            for (value, below) in row.iter_mut().zip(below.iter()) {
                *value = *value * load + before * below;
            }
        } else {
            for value in row.iter_mut() {
                *value *= load;
            }
        }
        below = Some(row);
    }
    let mut above: Option<&mut [f64]> = None;
    for (row, link) in values.chunks_exact_mut(columns).zip(links).rev() {
        if let Some(above) = above {
            for (value, above) in row.iter_mut().zip(above.iter()) {
                *value += link.after * above;
            }
        }
        above = Some(row);
    }
}

/// a x + b y, in four rows.
#[inline(always)]
pub(super) fn blend(x: [f64; LANES], a: [f64; LANES], y: [f64; LANES], b: [f64; LANES]) -> [f64; LANES] {
    let ([x0, x1, x2, x3], [a0, a1, a2, a3]) = (x, a);
    let ([y0, y1, y2, y3], [b0, b1, b2, b3]) = (y, b);
    [x0 * a0 + y0 * b0, x1 * a1 + y1 * b1, x2 * a2 + y2 * b2, x3 * a3 + y3 * b3]
}

/// Up to four rows side by side; those that are missing repeat the last.
pub(super) fn gather(rows: &[f64], columns: usize, lanes: &mut [[f64; LANES]]) {
    let mut each = rows.chunks_exact(columns);
    let mut last: &[f64] = &[];
    let [a, b, c, d] = [(); LANES].map(|()| {
        last = each.next().unwrap_or(last);
        last
    });
    for (lane, (((a, b), c), d)) in lanes.iter_mut().zip(a.iter().zip(b).zip(c).zip(d)) {
        *lane = [*a, *b, *c, *d];
    }
}

/// The rows back in their places.
pub(super) fn scatter(lanes: &[[f64; LANES]], columns: usize, rows: &mut [f64]) {
    let mut each = rows.chunks_exact_mut(columns);
    let [a, b, c, d] = [(); LANES].map(|()| each.next());
    if let (Some(a), Some(b), Some(c), Some(d)) = (a, b, c, d) {
        let rows = a.iter_mut().zip(b).zip(c).zip(d);
        for ([w, x, y, z], (((a, b), c), d)) in lanes.iter().zip(rows) {
            (*a, *b, *c, *d) = (*w, *x, *y, *z);
        }
        return;
    }
    for (index, row) in rows.chunks_exact_mut(columns).enumerate() {
        for (value, lane) in row.iter_mut().zip(lanes) {
            *value = lane.get(index).copied().unwrap_or(*value);
        }
    }
}

/// Solves four rows.
pub(super) fn solve_across(cells: &mut [[f64; LANES]], links: &[Four]) {
    let mut before = [0.0; LANES];
    for (cell, link) in cells.iter_mut().zip(links) {
        before = blend(*cell, link.load, before, link.before);
        *cell = before;
    }
    let mut after = [0.0; LANES];
    for (cell, link) in cells.iter_mut().zip(links).rev() {
        after = blend(*cell, [1.0; LANES], after, link.after);
        *cell = after;
    }
}
