//! From a request to shares: one aim after the other, every blend checked in decimals before it counts.

use super::choose::choose;
use super::exact::dot;
use super::program::{Care, Found, Program};
use super::refine;
use super::request::Aim;
use super::space::{POINT, Side, Space};
use crate::quantity::Exact;

/// Decimals of a share.
const DECIMALS: u32 = 12;
/// To how many decimals the corner of a blend is solved: more than its shares keep.
const CLOSE: u32 = 15;
/// How often sides that rounding misses are tightened.
const ROUNDS: usize = 3;

/// Why there are no shares.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Failure {
    /// The solver says that there is no such blend.
    Nothing,
    /// It gave up.
    Stopped,
    /// Its answers do not hold.
    Wrong,
}

/// A blend in decimals, and whether it was made sure that none is better.
#[derive(Clone, Debug)]
pub(super) struct Blend {
    pub(super) shares: Vec<Exact>,
    /// What they bring to each side.
    pub(super) brought: Vec<Exact>,
    pub(super) best: bool,
}

/// The shares that are best in the first aim, among those in the second, and so on.
pub(super) fn best(space: &Space, aims: &[Aim]) -> Result<Blend, Failure> {
    let mut stages = Stages::of(space);
    let mut blend: Option<Blend> = None;
    for aim in aims {
        let next = stages.next(*aim);
        blend = match (next, blend) {
            (Ok(next), Some(before)) if stages.keeps(&next.shares) => {
                let best = next.best && before.best;
                // A blend that misses nothing is not given for one that misses a last digit.
                let clean = |blend: &Blend| stages.space.holds(&blend.shares, &blend.brought);
                Some(Blend { best, ..if clean(&next) || !clean(&before) { next } else { before } })
            }
            (Ok(next), None) => Some(next),
            (Err(failure), None) => return Err(failure),
            // What was found stays when the solver cannot do better without giving up an earlier aim.
            (_, Some(before)) => Some(Blend { best: false, ..before }),
        };
        let shares = blend.as_ref().map_or(&[][..], |blend| &blend.shares);
        stages.hold(*aim, shares).ok_or(Failure::Wrong)?;
    }
    match blend {
        Some(blend) => Ok(blend),
        None => point(&stages.program, &stages.space, &[]),
    }
}

/// A program to which one aim after the other is added.
#[derive(Clone, Debug)]
pub(super) struct Stages {
    pub(super) space: Space,
    pub(super) program: Program,
    cost: Vec<(usize, f64)>,
    held: Vec<(Aim, Exact)>,
}

impl Stages {
    pub(super) fn of(space: &Space) -> Self {
        Self { space: space.clone(), program: Program::of(space), cost: Vec::new(), held: Vec::new() }
    }

    /// The blend that is best in an aim.
    pub(super) fn next(&mut self, aim: Aim) -> Result<Blend, Failure> {
        self.cost = self.program.cost(&self.space, aim);
        if aim != Aim::FewestFats {
            return point(&self.program, &self.space, &self.cost);
        }
        // The least number that allows a blend.
        let known = point(&self.program, &self.space, &[])?;
        let used = known.shares.iter().filter(|share| share.is_positive()).count();
        for most in 1..used {
            let fewer = Space { fats_at_most: u32::try_from(most).ok(), ..self.space.clone() };
            match point(&self.program, &fewer, &[]) {
                Err(Failure::Nothing) => {}
                Ok(blend) => return Ok(blend),
                Err(_) => return Ok(Blend { best: false, ..known }),
            }
        }
        Ok(known)
    }

    /// Holds what an aim has come to for those that follow.
    pub(super) fn hold(&mut self, aim: Aim, shares: &[Exact]) -> Option<()> {
        let value = self.space.value(aim, shares)?;
        if aim == Aim::FewestFats {
            self.space.fats_at_most = u32::try_from(value.steps(Exact::ONE)?).ok();
        }
        self.held.push((aim, value));
        let mut value = value;
        if let Aim::MostOf(fat) = aim {
            // Where other demands are what limits it, the next aim needs room to round in.
            let lo = self.space.lo.get_mut(fat)?;
            if self.space.steps.is_none() && Some(&value) != self.space.hi.get(fat) {
                value = (value - POINT).max(*lo);
            }
            *lo = value;
        }
        self.program.hold(&self.cost, value, aim);
        Some(())
    }

    fn keeps(&self, shares: &[Exact]) -> bool {
        self.held.iter().all(|(aim, value)| keeps(&self.space, *aim, *value, shares))
    }
}

/// Whether an aim is kept but for a ten millionth.
fn keeps(space: &Space, aim: Aim, held: Exact, shares: &[Exact]) -> bool {
    let Some(value) = space.value(aim, shares) else { return false };
    let worse = if matches!(aim, Aim::MostOf(_)) { held - value } else { value - held };
    !(worse - Exact::literal(1, 7) * Exact::ONE.max(held)).is_positive()
}

/// The shares that make `cost` small, in decimals, with every condition held.
pub(super) fn point(program: &Program, space: &Space, cost: &[(usize, f64)]) -> Result<Blend, Failure> {
    let most = space.fats_at_most.and_then(|most| usize::try_from(most).ok());
    let Some(most) = most.filter(|most| *most < space.lo.len()) else {
        return point_of(program, space, cost, Vec::new());
    };
    let choice = choose(program, space, cost, most)?;
    let blend = point_of(program, space, cost, choice.without)?;
    Ok(Blend { best: blend.best && choice.best, ..blend })
}

/// The same without some fats.
fn point_of(
    program: &Program,
    space: &Space,
    cost: &[(usize, f64)],
    without: Vec<usize>,
) -> Result<Blend, Failure> {
    let mut care = Care { without, ..Care::default() };
    let first = match program.run(cost, &care) {
        Found::Point(point) => point,
        Found::Stopped => return Err(Failure::Stopped),
        Found::Nothing | Found::Failed => match program.run(cost, &Care { plain: true, ..care.clone() }) {
            Found::Point(point) => point,
            Found::Stopped => return Err(Failure::Stopped),
            Found::Nothing => return Err(Failure::Nothing),
            Found::Failed => return Err(Failure::Wrong),
        },
    };
    let best = first.best;
    let first = decimals(space, &first.shares);
    if let Some(shares) = &first {
        let brought = space.brought(shares);
        if space.holds(shares, &brought) {
            return Ok(Blend { shares: shares.clone(), brought, best });
        }
        if let Some(blend) =
            stepped_back(space, shares, &brought).and_then(|shares| held(space, shares, best))
        {
            return Ok(blend);
        }
    }
    // Sides that rounding misses are tightened, and the program is solved again.
    let mut rounded = first.clone();
    for _ in 0..ROUNDS {
        let Some(shares) = &rounded else { break };
        let missed = |(_, side): &(usize, &Side)| !side.point && side.miss(shares).is_positive();
        care.tight.extend(space.sides.iter().enumerate().filter(missed).map(|(index, _)| index));
        let Found::Point(next) = program.run(cost, &care) else { break };
        rounded = decimals(space, &next.shares);
        if let Some(blend) = rounded.clone().and_then(|shares| held(space, shares, next.best)) {
            return Ok(blend);
        }
    }
    let shares = first.ok_or(Failure::Wrong)?;
    let brought = space.brought(&shares);
    let close = space.miss(&shares, &brought).is_some_and(|miss| !(miss - POINT).is_positive());
    if close { Ok(Blend { shares, brought, best }) } else { Err(Failure::Wrong) }
}

/// Shares as a blend, when they miss nothing.
fn held(space: &Space, shares: Vec<Exact>, best: bool) -> Option<Blend> {
    let brought = space.brought(&shares);
    space.holds(&shares, &brought).then_some(Blend { shares, brought, best })
}

/// Doubles as decimals that lie within the limits of each fat and sum to one; nothing when they are not near that.
pub(super) fn decimals(space: &Space, shares: &[f64]) -> Option<Vec<Exact>> {
    let exact = shares.iter().map(|share| Exact::from_approximate(*share, DECIMALS));
    if let Some(step) = space.step {
        return exact.map(|share| Some(Exact::from(share.steps(step.exact())?) * step.exact())).collect();
    }
    closed(space, exact.collect())
}

/// Shares rounded, held within the limits and brought to a sum of one.
fn closed(space: &Space, shares: Vec<Exact>) -> Option<Vec<Exact>> {
    let mut shares = shares
        .into_iter()
        .zip(space.lo.iter().zip(&space.hi))
        .map(|(share, (lo, hi))| Some(Exact::from(share.rounded(DECIMALS)?).max(*lo).min(*hi)))
        .collect::<Option<Vec<_>>>()?;
    let mut left = Exact::ONE - shares.iter().copied().sum();
    // What rounding left goes to the fat that is farthest from its limits; to one at a limit only when there is no other.
    while !left.is_zero() {
        let room = |index: usize| {
            let share = shares.get(index).copied()?;
            let (down, up) = (share - *space.lo.get(index)?, *space.hi.get(index)? - share);
            let room = if left.is_positive() { up } else { down };
            Some((down.min(up).decimal()?, room.decimal()?))
        };
        let index = (0..shares.len()).max_by_key(|index| room(*index))?;
        let room = Exact::from(room(index)?.1);
        if !room.is_positive() {
            return None;
        }
        let taken = if left.is_positive() { left.min(room) } else { left.max(-room) };
        let share = shares.get_mut(index)?;
        *share = *share + taken;
        left = left - taken;
    }
    Some(shares)
}

/// The same corner a few last digits inside: the equations of the sides that hold the blend back are solved in decimals,
/// with room for rounding. Nothing when the corner is not settled by as many sides as it takes.
fn stepped_back(space: &Space, shares: &[Exact], brought: &[Exact]) -> Option<Vec<Exact>> {
    let (free, mut held) = space.corner(shares, brought);
    // A side that only fats at a limit touch is met or not, whatever the others do.
    held.retain(|index| {
        let gain = |fat: &usize| space.sides.get(*index).and_then(|side| side.gain.get(*fat));
        free.iter().any(|fat| gain(fat).is_some_and(|gain| !gain.is_zero()))
    });
    if free.len() != held.len().checked_add(1)? {
        return None;
    }
    let room = Exact::literal(2, DECIMALS) * Exact::count(free.len().saturating_add(1));
    let fixed: Vec<Exact> = shares
        .iter()
        .enumerate()
        .map(|(index, share)| if free.contains(&index) { Exact::ZERO } else { *share })
        .collect();
    let equation = |gain: &dyn Fn(usize) -> Option<Exact>, right: Exact| {
        let mut row = free.iter().map(|index| gain(*index)).collect::<Option<Vec<_>>>()?;
        row.push(right);
        Some(row)
    };
    let mut rows = Vec::with_capacity(free.len());
    for index in held {
        let side = space.sides.get(index)?;
        let inside = if side.point { Exact::ZERO } else { room };
        let right = inside - dot(&side.gain, &fixed);
        rows.push(equation(&|index| side.gain.get(index).copied(), right)?);
    }
    rows.push(equation(&|_| Some(Exact::ONE), Exact::ONE - fixed.iter().copied().sum())?);
    let values = refine::solve(&rows, free.len(), CLOSE)?;
    let mut corner = fixed;
    for (index, value) in free.iter().zip(values) {
        *corner.get_mut(*index)? = value;
    }
    closed(space, corner)
}
