//! Multipliers of conditions by the solver, in doubles: which sides have a price, and a mix of sides that no blend can
//! meet. Both are only proposals, which decimals then check.
#![expect(
    clippy::float_arithmetic,
    reason = "the solver is approximate; what it proposes is checked in decimals"
)]

use microlp::{ComparisonOp, OptimizationDirection, Problem, SolveOptions, Variable};

use super::space::Space;
use crate::quantity::Exact;

fn solved(problem: &Problem) -> Option<microlp::Solution> {
    let mut options = SolveOptions::default();
    options.presolve = false;
    problem.solve_with(options).ok()?.into_solution().ok()
}

/// A price above this has no end: the side cannot be made stricter at all.
const ENDLESS: f64 = 1e9;

/// Which sides have a price.
#[derive(Clone, Debug)]
pub(super) struct Multipliers {
    /// Of each side that holds the blend back, whether it has one.
    pub(super) priced: Vec<bool>,
    /// Fats without a surplus.
    pub(super) tight: Vec<usize>,
    /// Whether the wanted price has no end.
    pub(super) endless: bool,
}

/// A solution of the dual program that gives the side at `wanted` among `held` its largest price, or all together their
/// least.
pub(super) fn multipliers(
    space: &Space,
    cost: &[Exact],
    shares: &[Exact],
    (free, held): (&[usize], &[usize]),
    wanted: Option<usize>,
) -> Option<Multipliers> {
    let mut problem = Problem::new(OptimizationDirection::Maximize);
    let prices: Vec<Variable> = held
        .iter()
        .enumerate()
        .map(|(place, index)| {
            let point = space.sides.get(*index).is_some_and(|side| side.point);
            let weight = match wanted {
                Some(wanted) if wanted == place => 1.0,
                None if !point => -1.0,
                _ => 0.0,
            };
            // A single point has a price of either sign.
            let lo = if point { -ENDLESS } else { 0.0 };
            problem.add_var(weight, (lo, ENDLESS))
        })
        .collect();
    let of_share = problem.add_var(0.0, (f64::NEG_INFINITY, f64::INFINITY));
    let gain = |index: usize, fat: usize| {
        let side = space.sides.get(index)?;
        Some(side.gain.get(fat)?.approximate())
    };
    for (fat, (cost, share)) in cost.iter().zip(shares).enumerate() {
        let (lo, hi) = (*space.lo.get(fat)?, *space.hi.get(fat)?);
        if (hi - lo).is_zero() {
            continue;
        }
        let op = if free.contains(&fat) {
            ComparisonOp::Eq
        } else if (*share - lo - Exact::literal(1, 9)).is_positive() {
            ComparisonOp::Ge
        } else {
            ComparisonOp::Le
        };
        let mut terms = vec![(of_share, 1.0)];
        for (index, price) in held.iter().zip(&prices) {
            terms.push((*price, gain(*index, fat)?));
        }
        problem.add_constraint(terms, op, cost.approximate());
    }
    let solution = solved(&problem)?;
    let values: Vec<f64> = prices.iter().map(|price| solution.var_value(*price)).collect();
    let share = solution.var_value(of_share);
    let largest = cost.iter().map(|cost| cost.approximate().abs()).fold(1.0, f64::max);
    let mut tight = Vec::new();
    for (fat, cost) in cost.iter().enumerate() {
        let mut rest = cost.approximate() - share;
        for (index, value) in held.iter().zip(&values) {
            rest -= gain(*index, fat)? * value;
        }
        if rest.abs() < largest * 1e-8 {
            tight.push(fat);
        }
    }
    let endless =
        wanted.and_then(|wanted| values.get(wanted)).is_some_and(|value| value.abs() > ENDLESS / 10.0);
    Some(Multipliers { priced: values.iter().map(|value| value.abs() > 1e-8).collect(), tight, endless })
}

/// A mix of the sides whose gain is below nought for every blend, if there is one: each side's part of it.
pub(super) fn mix(space: &Space) -> Option<Vec<Exact>> {
    let mut problem = Problem::new(OptimizationDirection::Minimize);
    let parts: Vec<Variable> = space.sides.iter().map(|_| problem.add_var(0.0, (0.0, 1.0))).collect();
    let level = problem.add_var(1.0, (f64::NEG_INFINITY, f64::INFINITY));
    for (fat, (lo, hi)) in space.lo.iter().zip(&space.hi).enumerate() {
        let over = problem.add_var(hi.approximate(), (0.0, f64::INFINITY));
        let under = problem.add_var(-lo.approximate(), (0.0, f64::INFINITY));
        let mut terms = vec![(level, 1.0), (over, 1.0), (under, -1.0)];
        for (side, part) in space.sides.iter().zip(&parts) {
            terms.push((*part, -side.gain.get(fat)?.approximate()));
        }
        problem.add_constraint(terms, ComparisonOp::Ge, 0.0);
    }
    problem.add_constraint(parts.iter().map(|part| (*part, 1.0)).collect::<Vec<_>>(), ComparisonOp::Eq, 1.0);
    let solution = solved(&problem)?;
    Some(
        parts
            .iter()
            .map(|part| Exact::from_approximate(solution.var_value(*part), 15).max(Exact::ZERO))
            .collect(),
    )
}
