//! Why there is no blend: what cannot be met together, and what comes nearest.
//!
//! What takes part is left out piece by piece; what can be left out while the rest still cannot be met stays out. What
//! remains is a smallest set: without any one of it there is a blend, which was found and checked. For blends of any
//! shares a mix of the conditions proves in decimals that there is none; the mix is the solver's, the proof is not.

use super::answer::{Conflict, Conflicting, Miss, Nearest};
use super::dual::mix;
use super::exact::{dot, least};
use super::program::{Care, Found, Program};
use super::request::{End, Request};
use super::say;
use super::solve::{Failure, decimals, point};
use super::space::{POINT, Side, Space};
use crate::quantity::{Exact, Share};

/// Rounds of the search for how far a ratio can go; it converges faster than linearly.
const ROUNDS: usize = 12;

/// Everything that may take part, in the order in which it is tried to do without.
fn members(space: &Space) -> Vec<Conflicting> {
    let mut all = Vec::new();
    all.extend(space.steps.map(|_| Conflicting::Steps));
    all.extend(space.fats_at_most.map(|_| Conflicting::FatsAtMost));
    let fats = space.lo.iter().zip(&space.hi).enumerate();
    for (fat, (lo, hi)) in fats {
        all.extend((*hi != Exact::ONE).then_some(Conflicting::Max(fat)));
        all.extend(lo.is_positive().then_some(Conflicting::Min(fat)));
    }
    all.extend(space.sides.iter().map(|side| Conflicting::Demand(side.demand, side.end)));
    all
}

/// The space in which only these take part.
fn only(space: &Space, members: &[Conflicting]) -> Space {
    let mut space = space.clone();
    let on = |member: Conflicting| members.contains(&member);
    if !on(Conflicting::Steps) {
        space = space.any_shares();
    }
    if !on(Conflicting::FatsAtMost) {
        space.fats_at_most = None;
    }
    for (fat, (lo, hi)) in space.lo.iter_mut().zip(space.hi.iter_mut()).enumerate() {
        if !on(Conflicting::Min(fat)) {
            *lo = Exact::ZERO;
        }
        if !on(Conflicting::Max(fat)) {
            *hi = Exact::ONE;
        }
    }
    let kept = space.sides.iter().filter(|side| on(Conflicting::Demand(side.demand, side.end)));
    let mut sides: Vec<Side> = kept.cloned().collect();
    // A single point of which one side is left out is a bound like any other.
    let both: Vec<usize> = sides.iter().map(|side| side.demand).collect();
    for side in &mut sides {
        side.point = side.point && both.iter().filter(|demand| **demand == side.demand).count() > 1;
    }
    space.sides = sides.into();
    space
}

/// Whether there is a blend; nothing when that is not known.
fn can_be_met(space: &Space) -> Option<bool> {
    match point(&Program::of(space), space, &[]) {
        Ok(_) => Some(true),
        Err(Failure::Nothing) => Some(false),
        Err(Failure::Stopped | Failure::Wrong) => None,
    }
}

/// Leaves out what can be left out. Nothing when it is unclear at any point whether there is a blend.
fn smallest(space: &Space, mut members: Vec<Conflicting>, order: &[Conflicting]) -> Option<Vec<Conflicting>> {
    for member in order {
        let rest: Vec<_> = members.iter().filter(|other| *other != member).cloned().collect();
        if !can_be_met(&only(space, &rest))? {
            members = rest;
        }
    }
    Some(members)
}

/// Whether a mix of the conditions has a gain below nought for every blend: then none meets them all.
fn proved(space: &Space) -> bool {
    let no_shares = || {
        let (lo, hi): (Exact, Exact) = (space.lo.iter().copied().sum(), space.hi.iter().copied().sum());
        let crossed = space.lo.iter().zip(&space.hi).any(|(lo, hi)| (*lo - *hi).is_positive());
        crossed || (lo - Exact::ONE).is_positive() || (Exact::ONE - hi).is_positive()
    };
    let mixed = || {
        let parts = mix(space)?;
        let mut loss = vec![Exact::ZERO; space.lo.len()];
        for (side, part) in space.sides.iter().zip(parts) {
            for (loss, gain) in loss.iter_mut().zip(&side.gain) {
                *loss = *loss - part * *gain;
            }
        }
        Some(least(&loss, &space.lo, &space.hi)?.is_positive())
    };
    no_shares() || mixed() == Some(true)
}

/// The conflict of a request that has no blend; nothing when the solver's claim does not stand.
pub(super) fn explain(request: &Request, space: &Space) -> Option<Conflict> {
    let all = members(space);
    if can_be_met(space)? {
        return None;
    }
    let forward = smallest(space, all.clone(), &all)?;
    let whole = |members: &[Conflicting]| {
        members.iter().any(|member| matches!(member, Conflicting::Steps | Conflicting::FatsAtMost))
    };
    let backward: Vec<_> = all.iter().rev().cloned().collect();
    // Whole numbers take long to search; one order has to do for them.
    let other = if whole(&forward) { None } else { smallest(space, all.clone(), &backward) };
    let members = match other {
        Some(other) if other.len() < forward.len() && !whole(&other) => other,
        _ => forward,
    };
    let proved = !whole(&members) && proved(&only(space, &members));
    if !whole(&members) && !proved {
        return None;
    }
    let words =
        members.iter().map(|member| say::member(request, member, reach(space, &members, member))).collect();
    Some(Conflict { members, words, proved, nearest: nearest(request, space) })
}

/// How far the figure of a member can go while the others are met, in its own unit.
fn reach(space: &Space, members: &[Conflicting], member: &Conflicting) -> Option<Exact> {
    let rest: Vec<_> = members.iter().filter(|other| *other != member).cloned().collect();
    let inside = only(space, &rest);
    let program = Program::of(&inside);
    let toward = |figure: Vec<Exact>| {
        point(&program, &inside, &Program::figure(&figure)).ok().map(|blend| blend.shares)
    };
    let fat = |at: usize, sign: Exact| {
        let figure = (0..space.lo.len()).map(|fat| if fat == at { sign } else { Exact::ZERO }).collect();
        toward(figure)?.get(at).copied()
    };
    match member {
        Conflicting::Demand(demand, end) => {
            let figure = space.figures.get(*demand)?;
            let sign = if *end == End::AtLeast { -Exact::ONE } else { Exact::ONE };
            let mut level = figure.of(&point(&program, &inside, &[]).ok()?.shares);
            for _ in 0..ROUNDS {
                let against = figure.against(level).into_iter();
                let shares = toward(against.map(|beyond| beyond * sign).collect())?;
                let next = figure.of(&shares);
                let moved = (next - level) * sign;
                if !(moved + Exact::literal(1, 10)).is_negative() {
                    break;
                }
                level = next;
            }
            Some(level)
        }
        Conflicting::Max(at) => fat(*at, Exact::ONE),
        Conflicting::Min(at) => fat(*at, -Exact::ONE),
        Conflicting::FatsAtMost | Conflicting::Steps => None,
    }
}

/// The blend that misses the demands least, in points.
fn nearest(request: &Request, space: &Space) -> Option<Nearest> {
    let mut free = space.any_shares();
    free.fats_at_most = None;
    let sides = std::mem::take(&mut free.sides);
    let points: Vec<Exact> = sides
        .iter()
        .map(|side| request.demands.get(side.demand).map(|demand| demand.measure.point()))
        .collect::<Option<_>>()?;
    let mut program = Program::of(&free);
    let cost = program.elastic(&sides, &points);
    let Found::Point(point) = program.run(&cost, &Care::default()) else { return None };
    let shares = decimals(&free, &point.shares)?;
    let mut sum = Exact::ZERO;
    let mut misses = Vec::new();
    for (side, point) in sides.iter().zip(&points) {
        let missed = -dot(&side.gain, &shares);
        if !(missed - POINT).is_positive() {
            continue;
        }
        sum = sum + missed * side.scale / *point;
        let demand = request.demands.get(side.demand)?;
        let bound = if side.end == End::AtLeast { demand.at_least } else { demand.at_most };
        let value = space.figures.get(side.demand)?.of(&shares);
        let by = value - Exact::from(bound);
        misses.push(Miss {
            demand: side.demand,
            end: side.end,
            value: value.published()?,
            by: by.max(-by).published()?,
        });
    }
    let shares = shares.into_iter().map(|share| Share::try_new(share).ok()).collect::<Option<_>>()?;
    Some(Nearest { shares, points: sum.published()?, misses })
}
