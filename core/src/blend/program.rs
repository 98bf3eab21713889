//! A request as a linear program in doubles, for the solver. Nothing that comes out of here is believed before it has
//! been checked in decimals.
#![expect(
    clippy::float_arithmetic,
    reason = "the solver is approximate; what it finds is checked in decimals"
)]

use microlp::{
    ComparisonOp, Error, OptimizationDirection, Problem, SolutionStatus, SolveOptions, SolveOutcome, Variable,
};

use super::request::Aim;
use super::space::{Side, Space};
use crate::quantity::Exact;

/// Most parts of a branched search that are looked at: a bound on the effort that does not depend on a clock.
const NODES: u64 = 50_000;
/// How closely the solver keeps to conditions, the closest that it allows: 1e-10 of the scale of each.
const CLOSE: f64 = 1e-10;
/// By how much conditions are tightened when rounding to decimals has to be made up for.
const TIGHT: f64 = 4e-10;
/// What a later aim may take from an earlier one, as a part of it.
const GIVE: f64 = 1e-9;

#[derive(Clone, Copy, Debug)]
struct Var {
    lo: f64,
    hi: f64,
    whole: bool,
}

#[derive(Clone, Debug)]
struct Row {
    terms: Vec<(usize, f64)>,
    op: ComparisonOp,
    right: f64,
    side: Option<usize>,
}

/// A blend that the solver found.
#[derive(Clone, Debug)]
pub(super) struct Point {
    /// The shares, as fractions.
    pub(super) shares: Vec<f64>,
    /// What was made small.
    pub(super) value: f64,
    /// Whether it claims that none is better.
    pub(super) best: bool,
}

/// What the solver says.
#[derive(Clone, Debug)]
pub(super) enum Found {
    /// A blend.
    Point(Point),
    /// There is no such blend, it says.
    Nothing,
    /// It gave up.
    Stopped,
    /// It failed.
    Failed,
}

/// How a program is to be solved.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Care {
    /// Sides that are tightened by a hair.
    pub(super) tight: Vec<usize>,
    /// Without the solver's simplifications.
    pub(super) plain: bool,
    /// Fats that are left out.
    pub(super) without: Vec<usize>,
    /// With less effort, for one of many programs.
    pub(super) brief: bool,
    /// In any shares, also where whole steps are wanted.
    pub(super) relaxed: bool,
}

/// The program: the first variables are the shares, in units of one over `whole`.
#[derive(Clone, Debug)]
pub(super) struct Program {
    fats: usize,
    whole: f64,
    vars: Vec<Var>,
    rows: Vec<Row>,
}

impl Program {
    pub(super) fn of(space: &Space) -> Self {
        let whole = space.steps.map_or(1.0, |steps| Exact::from(steps).approximate());
        let mut program = Self { fats: space.lo.len(), whole, vars: Vec::new(), rows: Vec::new() };
        for (lo, hi) in space.lo.iter().zip(&space.hi) {
            let (lo, hi) = (lo.approximate() * whole, hi.approximate() * whole);
            program.vars.push(match space.steps {
                Some(_) => Var { lo: (lo - 1e-9).ceil(), hi: (hi + 1e-9).floor(), whole: true },
                None => Var { lo, hi, whole: false },
            });
        }
        let all = (0..program.fats).map(|index| (index, 1.0)).collect();
        program.row(all, ComparisonOp::Eq, whole);
        let mut point = None;
        for (index, side) in space.sides.iter().enumerate() {
            // The two bounds of a single point are one equation.
            if side.point && point.replace(side.demand) == Some(side.demand) {
                continue;
            }
            let op = if side.point { ComparisonOp::Eq } else { ComparisonOp::Ge };
            let terms = terms(&side.gain);
            if !side.point && program.never_missed(&terms) {
                continue;
            }
            program.rows.push(Row { terms, op, right: 0.0, side: Some(index).filter(|_| !side.point) });
        }
        program
    }

    /// Whether shares within the limits of the fats meet a side whatever they are, with room to spare.
    fn never_missed(&self, terms: &[(usize, f64)]) -> bool {
        let mut gains = vec![0.0; self.fats];
        for (fat, gain) in terms {
            if let Some(at) = gains.get_mut(*fat) {
                *at = *gain;
            }
        }
        let mut order: Vec<(f64, f64)> = Vec::with_capacity(self.fats);
        let (mut left, mut sum) = (self.whole, 0.0);
        for (gain, var) in gains.iter().zip(&self.vars) {
            left -= var.lo;
            sum += gain * var.lo;
            order.push((*gain, var.hi - var.lo));
        }
        order.sort_unstable_by(|(a, _), (b, _)| a.total_cmp(b));
        for (gain, room) in order {
            let taken = room.min(left.max(0.0));
            sum += gain * taken;
            left -= taken;
        }
        sum > 1e-6 * self.whole
    }

    fn var(&mut self, lo: f64, hi: f64, whole: bool) -> usize {
        self.vars.push(Var { lo, hi, whole });
        self.vars.len().saturating_sub(1)
    }

    fn row(&mut self, terms: Vec<(usize, f64)>, op: ComparisonOp, right: f64) {
        self.rows.push(Row { terms, op, right, side: None });
    }

    /// A pair of variables above nought whose difference is what `row` differs from `right`.
    fn difference(&mut self, mut row: Vec<(usize, f64)>, right: f64) -> (usize, usize) {
        let over = self.var(0.0, f64::INFINITY, false);
        let under = self.var(0.0, f64::INFINITY, false);
        row.push((over, -1.0));
        row.push((under, 1.0));
        self.row(row, ComparisonOp::Eq, right);
        (over, under)
    }

    /// A linear figure of the shares to make small.
    pub(super) fn figure(figure: &[Exact]) -> Vec<(usize, f64)> {
        terms(figure)
    }

    /// What an aim makes small, with the variables it needs.
    pub(super) fn cost(&mut self, space: &Space, aim: Aim) -> Vec<(usize, f64)> {
        match aim {
            Aim::Cheapest | Aim::MostOf(_) => {
                space.linear(aim).map(|figure| terms(&figure)).unwrap_or_default()
            }
            Aim::NearestUsual => {
                let mut cost = Vec::new();
                for (fat, usual) in space.usual.iter().enumerate() {
                    let (over, under) = self.difference(vec![(fat, 1.0)], usual.approximate() * self.whole);
                    cost.extend([(over, 1.0), (under, 1.0)]);
                }
                cost
            }
            Aim::NearestTargets => {
                let mut cost = Vec::new();
                for miss in space.targets.iter() {
                    let (over, under) = self.difference(terms(miss), 0.0);
                    cost.extend([(over, 1.0), (under, 1.0)]);
                }
                cost
            }
            Aim::LeastWorstMiss => {
                let worst = self.var(0.0, f64::INFINITY, false);
                for miss in space.targets.iter() {
                    let (over, under) = self.difference(terms(miss), 0.0);
                    self.row(vec![(over, 1.0), (under, 1.0), (worst, -1.0)], ComparisonOp::Le, 0.0);
                }
                vec![(worst, 1.0)]
            }
            // The choice of fats is no matter of a sum.
            Aim::FewestFats => Vec::new(),
        }
    }

    /// Conditions that may be missed; the sum of the misses in points is what is made small.
    pub(super) fn elastic(&mut self, sides: &[Side], points: &[Exact]) -> Vec<(usize, f64)> {
        let mut cost = Vec::new();
        for (side, point) in sides.iter().zip(points) {
            let missed = self.var(0.0, f64::INFINITY, false);
            let in_points = |gain: &Exact| *gain * side.scale / *point;
            let mut terms = terms(&side.gain.iter().map(in_points).collect::<Vec<_>>());
            terms.push((missed, 1.0));
            self.row(terms, ComparisonOp::Ge, 0.0);
            cost.push((missed, 1.0));
        }
        cost
    }

    /// Holds what an aim has come to for those that follow.
    pub(super) fn hold(&mut self, cost: &[(usize, f64)], value: Exact, aim: Aim) {
        let value = value.approximate();
        match aim {
            Aim::FewestFats => {}
            Aim::MostOf(fat) => {
                if let Some(var) = self.vars.get_mut(fat) {
                    var.lo = value * self.whole;
                    var.lo = if var.whole { var.lo.round() } else { var.lo.min(var.hi) };
                }
            }
            _ => {
                let right = (value + GIVE * value.abs().max(1.0)) * self.whole;
                self.row(cost.to_vec(), ComparisonOp::Le, right);
            }
        }
    }

    /// Asks the solver for the shares that make `cost` small.
    pub(super) fn run(&self, cost: &[(usize, f64)], care: &Care) -> Found {
        let mut costs = vec![0.0; self.vars.len()];
        for (var, value) in cost {
            if let Some(at) = costs.get_mut(*var) {
                *at = *value;
            }
        }
        let mut limits = self.vars.clone();
        for fat in &care.without {
            if let Some(var) = limits.get_mut(*fat) {
                var.hi = 0.0;
            }
        }
        for var in &mut limits {
            var.whole &= !care.relaxed;
        }
        if limits.iter().any(|var| var.lo > var.hi) {
            return Found::Nothing;
        }
        let mut problem = Problem::new(OptimizationDirection::Minimize);
        let whole = |value: f64| {
            #[expect(
                clippy::cast_possible_truncation,
                reason = "it saturates, and the limits are within 1e9"
            )]
            let value = value as i32;
            value
        };
        let vars: Vec<Variable> = limits
            .iter()
            .zip(&costs)
            .map(|(var, cost)| match var.whole {
                true => problem.add_integer_var(*cost, (whole(var.lo), whole(var.hi))),
                false => problem.add_var(*cost, (var.lo, var.hi)),
            })
            .collect();
        for row in &self.rows {
            let terms: Vec<_> =
                row.terms.iter().filter_map(|(var, factor)| Some((*vars.get(*var)?, *factor))).collect();
            let tight = row.side.is_some_and(|side| care.tight.contains(&side));
            let right = if tight { row.right + TIGHT } else { row.right };
            problem.add_constraint(terms, row.op, right);
        }
        let mut options = SolveOptions::default();
        options.tolerances.feasibility = CLOSE;
        options.int_tol = 1e-9;
        options.node_limit = Some(if care.brief { NODES / 25 } else { NODES });
        options.presolve = limits.iter().any(|var| var.whole) && !care.plain;
        match problem.solve_with(options) {
            Ok(SolveOutcome::Solution(solution)) => {
                let share = |(var, limit): (&Variable, &Var)| {
                    let value = solution.var_value(*var);
                    (if limit.whole { value.round() } else { value }) / self.whole
                };
                Found::Point(Point {
                    shares: vars.iter().take(self.fats).zip(&limits).map(share).collect(),
                    value: solution.objective(),
                    best: solution.status() == SolutionStatus::Optimal,
                })
            }
            Ok(SolveOutcome::Interrupted(_)) => Found::Stopped,
            Err(Error::Infeasible) => Found::Nothing,
            Err(_) => Found::Failed,
        }
    }
}

/// The terms of a figure that are not nought.
fn terms(figure: &[Exact]) -> Vec<(usize, f64)> {
    let terms = figure.iter().enumerate().filter(|(_, value)| !value.is_zero());
    terms.map(|(index, value)| (index, value.approximate())).collect()
}
