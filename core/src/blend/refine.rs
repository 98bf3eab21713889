//! Systems of equations, solved to the digits of a decimal: doubles say where to go, decimals how far it is still.
#![expect(
    clippy::float_arithmetic,
    reason = "a step of refinement may be approximate; what is left is exact"
)]

use crate::quantity::Exact;

/// Steps that are taken at most; each gains about ten digits.
const STEPS: usize = 6;
/// Below this a pivot is rounding: coefficients are of the order of one.
const PIVOT: f64 = 1e-9;

/// Equations that settle the unknowns, eliminated in doubles.
struct Eliminated {
    /// The rows of the upper triangle with the factors of the lower below it.
    rows: Vec<Vec<f64>>,
    /// Which equations they are.
    order: Vec<usize>,
}

/// Solves a system of at least as many equations as unknowns; nothing when the unknowns are not settled by them.
/// Equations beyond those that settle the unknowns are not looked at: the caller checks what it gets.
///
/// Each row holds its coefficients and then its right-hand side, which is met to so many decimals.
pub(super) fn solve(rows: &[Vec<Exact>], unknowns: usize, decimals: u32) -> Option<Vec<Exact>> {
    let eliminated = eliminate(rows, unknowns)?;
    let mut values = vec![Exact::ZERO; unknowns];
    let enough = Exact::literal(1, decimals);
    for _ in 0..STEPS {
        let mut left = Vec::with_capacity(unknowns);
        let mut done = true;
        for index in &eliminated.order {
            let row = rows.get(*index)?;
            let rest = *row.get(unknowns)? - super::exact::dot(row.get(..unknowns)?, &values);
            rest.decimal()?;
            done &= !(rest.max(-rest) - enough).is_positive();
            left.push(rest.approximate());
        }
        if done {
            return Some(values);
        }
        for (value, step) in values.iter_mut().zip(eliminated.step(left)?) {
            *value = *value + Exact::from_approximate(step, 28);
        }
    }
    // The last step was below what is looked for, or the system is too close to unsettled to be believed.
    let rest = |index: &usize| {
        let row = rows.get(*index)?;
        Some(*row.get(unknowns)? - super::exact::dot(row.get(..unknowns)?, &values))
    };
    let close =
        |rest: Exact| rest.decimal().is_some() && !(rest.max(-rest) - Exact::literal(1, 18)).is_positive();
    eliminated.order.iter().all(|index| rest(index).is_some_and(close)).then_some(values)
}

fn eliminate(rows: &[Vec<Exact>], unknowns: usize) -> Option<Eliminated> {
    let mut done: Vec<Vec<f64>> =
        rows.iter().map(|row| row.iter().take(unknowns).map(|value| value.approximate()).collect()).collect();
    let mut order: Vec<usize> = (0..rows.len()).collect();
    let size = |done: &[Vec<f64>], row: usize, column: usize| {
        done.get(row).and_then(|row| row.get(column)).map_or(0.0, |value| value.abs())
    };
    for column in 0..unknowns {
        let pivot = (column..done.len())
            .max_by(|a, b| size(&done, *a, column).total_cmp(&size(&done, *b, column)))?;
        if size(&done, pivot, column) < PIVOT {
            return None;
        }
        done.swap(column, pivot);
        order.swap(column, pivot);
        let (above, below) = done.split_at_mut(column.checked_add(1)?);
        let pivot = above.last()?;
        let head = *pivot.get(column)?;
        for row in below {
            let factor = *row.get(column)? / head;
            for (cell, over) in row.iter_mut().zip(pivot).skip(column) {
                *cell -= factor * over;
            }
            *row.get_mut(column)? = factor;
        }
    }
    done.truncate(unknowns);
    order.truncate(unknowns);
    Some(Eliminated { rows: done, order })
}

impl Eliminated {
    /// The unknowns for this right-hand side, in doubles.
    fn step(&self, right: Vec<f64>) -> Option<Vec<f64>> {
        let mut values = right;
        for (index, row) in self.rows.iter().enumerate() {
            let known: f64 = row.iter().zip(&values).take(index).map(|(factor, value)| factor * value).sum();
            *values.get_mut(index)? -= known;
        }
        for (index, row) in self.rows.iter().enumerate().rev() {
            let later = index.checked_add(1)?;
            let known: f64 = row.iter().zip(&values).skip(later).map(|(factor, value)| factor * value).sum();
            let value = values.get_mut(index)?;
            *value = (*value - known) / row.get(index)?;
        }
        Some(values)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn all(values: &[i64]) -> Vec<Exact> {
        values.iter().map(|value| Exact::from(*value)).collect()
    }

    #[test]
    fn equations_are_solved_also_when_there_are_more_than_needed() {
        let rows = [all(&[0, 2, 4]), all(&[1, 1, 5]), all(&[1, 3, 9])];
        assert_eq!(solve(&rows, 2, 24).unwrap(), all(&[3, 2]));
        assert!(solve(&[all(&[1, 1, 2]), all(&[2, 2, 4])], 2, 24).is_none());
        assert!(solve(&[all(&[1, 1, 2])], 2, 24).is_none());
    }

    #[test]
    fn to_the_last_digits() {
        let third = solve(&[all(&[3, 1])], 1, 24).unwrap();
        let off = third[0] - Exact::ONE / Exact::from(3);
        assert!(off.rounded(24).unwrap().is_zero());
    }
}
