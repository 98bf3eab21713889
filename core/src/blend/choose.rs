//! Which fats, when only so many may be used: a search that takes in or leaves out one fat after the other.
//!
//! Where shares of any size may be used, a program without whole numbers says for each choice how good a blend could be
//! at best, and what cannot beat the best one found so far is not looked into. The solver's own switches for such a choice
//! are slow to search, since a share of a per cent opens a switch by a hundredth only.
#![expect(clippy::float_arithmetic, reason = "bounds are approximate; what is chosen is checked in decimals")]

use super::program::{Care, Found, Point, Program};
use super::solve::Failure;
use super::space::Space;

/// Most choices that are looked at: a bound on the effort that does not depend on a clock.
const CHOICES: usize = 20_000;
/// A share above this is one.
const USED: f64 = 1e-8;

/// Fats to leave out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Choice {
    pub(super) without: Vec<usize>,
    /// Whether every other choice was looked at or cannot be better.
    pub(super) best: bool,
}

/// What has been decided of each fat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Taken {
    In,
    Out,
    Open,
}

/// The choice of at most `most` fats that makes `cost` small; for no cost, the first that allows a blend.
pub(super) fn choose(
    program: &Program,
    space: &Space,
    cost: &[(usize, f64)],
    most: usize,
) -> Result<Choice, Failure> {
    let start = space.lo.iter().zip(&space.hi).map(|(lo, hi)| match (lo.is_positive(), hi.is_zero()) {
        (true, _) => Taken::In,
        (_, true) => Taken::Out,
        _ => Taken::Open,
    });
    let mut open = vec![start.collect::<Vec<Taken>>()];
    let mut found: Option<(f64, Vec<usize>)> = None;
    let mut best = true;
    for _ in 0..CHOICES {
        let Some(taken) = open.pop() else { break };
        let count = |what: Taken| taken.iter().filter(|state| **state == what).count();
        if count(Taken::In) > most {
            continue;
        }
        let full = count(Taken::In) == most;
        let without = places(&taken, |state| state == Taken::Out || full && state == Taken::Open);
        let care = Care { without, relaxed: true, ..Care::default() };
        let Some(point) = run(program, cost, &care)? else { continue };
        if found.as_ref().is_some_and(|(value, _)| !beats(point.value, *value)) {
            continue;
        }
        let used = |fat: &usize| point.shares.get(*fat).is_some_and(|share| *share > USED);
        let still: Vec<usize> = if full { Vec::new() } else { places(&taken, |state| state == Taken::Open) };
        let needed: Vec<usize> = still.iter().copied().filter(used).collect();
        let few = |fats: &[usize]| fats.len().saturating_add(count(Taken::In)) <= most;
        if space.steps.is_none() && few(&needed) {
            let idle = places(&taken, |state| state != Taken::In);
            let without = idle.into_iter().filter(|fat| !needed.contains(fat)).collect();
            found = Some((point.value, without));
        } else if space.steps.is_some() && few(&still) {
            let care = Care { relaxed: false, brief: true, ..care };
            match program.run(cost, &care) {
                Found::Point(point) if found.as_ref().is_none_or(|(value, _)| beats(point.value, *value)) => {
                    best &= point.best;
                    found = Some((point.value, care.without));
                }
                Found::Point(_) | Found::Nothing => {}
                Found::Stopped | Found::Failed => best = false,
            }
        } else {
            let share = |fat: &usize| point.shares.get(*fat).copied().unwrap_or(0.0);
            let next = still.iter().copied().max_by(|a, b| share(a).total_cmp(&share(b)));
            for state in [Taken::Out, Taken::In] {
                let mut taken = taken.clone();
                if let Some(at) = next.and_then(|fat| taken.get_mut(fat)) {
                    *at = state;
                    open.push(taken);
                }
            }
        }
        if cost.is_empty() && found.is_some() {
            break;
        }
    }
    let done = open.is_empty() || cost.is_empty() && found.is_some();
    match found {
        Some((_, without)) => Ok(Choice { without, best: best && done }),
        None if done && best => Err(Failure::Nothing),
        None => Err(Failure::Stopped),
    }
}

/// The best of any shares; nothing when there is none.
fn run(program: &Program, cost: &[(usize, f64)], care: &Care) -> Result<Option<Point>, Failure> {
    match program.run(cost, care) {
        Found::Point(point) => Ok(Some(point)),
        Found::Nothing => Ok(None),
        Found::Stopped => Err(Failure::Stopped),
        Found::Failed => Err(Failure::Wrong),
    }
}

fn beats(value: f64, other: f64) -> bool {
    value < other - 1e-9 * other.abs().max(1.0)
}

fn places(taken: &[Taken], wanted: impl Fn(Taken) -> bool) -> Vec<usize> {
    taken.iter().enumerate().filter(|(_, state)| wanted(**state)).map(|(fat, _)| fat).collect()
}
