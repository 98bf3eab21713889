//! What demands cost, and a proof of how good a blend can be.
//!
//! At a corner the sides that hold the blend back and the fats with room on both sides make a square system, whose
//! solution are the multipliers: the shadow prices. It is solved in decimals. Where more sides meet than it takes, one
//! more point of a side costs the largest multiplier that any solution gives it; the solver finds that, and the system of
//! what it chose is again solved in decimals.

use super::dual::{Multipliers, multipliers};
use super::exact::least;
use super::refine::solve;
use super::space::Space;
use crate::quantity::Exact;

/// To how many decimals multipliers are solved.
const DIGITS: u32 = 24;

/// Places of sides with their prices.
type SidePrices = Vec<(usize, Exact)>;

/// Multipliers of the sides, and what follows from them.
#[derive(Clone, Debug)]
pub(super) struct Prices {
    /// Cost of the side by one of its gain, for each side that holds the blend back.
    pub(super) sides: SidePrices,
    /// What a share of each fat costs beyond what it brings.
    pub(super) surplus: Vec<Exact>,
    /// What no blend is below.
    pub(super) bound: Option<Exact>,
}

/// The prices at a corner of the blends that make the figure `cost` small; nothing when it is not one.
///
/// The shares stand with what they bring to each side. `all` is the space of the proof: it may have fats that `space` leaves out.
pub(super) fn prices(
    space: &Space,
    all: &Space,
    cost: &[Exact],
    (shares, brought): (&[Exact], &[Exact]),
) -> Option<Prices> {
    let (free, held) = space.corner(shares, brought);
    let square = equations(space, cost, &free, &held)
        .and_then(|rows| solve(&rows, held.len().saturating_add(1), DIGITS))
        .and_then(|values| checked(space, cost, shares, &free, &held, values));
    let (Found { sides, surplus, of_share }, largest) = match square {
        Some(found) => (found, None),
        None => meeting(space, cost, shares, &free, &held)?,
    };
    // The cost of a blend is that of its surpluses and of the share itself, and what its sides bring beyond nought.
    let bound = least(&surplus, &all.lo, &all.hi).map(|least| least + of_share);
    Some(Prices { sides: largest.unwrap_or(sides), surplus, bound })
}

/// Multipliers that go together.
#[derive(Clone, Debug)]
struct Found {
    sides: SidePrices,
    surplus: Vec<Exact>,
    /// The price of a share.
    of_share: Exact,
}

/// One equation for each of these fats: prices times gains, and the price of a share, make up its cost.
fn equations(space: &Space, cost: &[Exact], fats: &[usize], held: &[usize]) -> Option<Vec<Vec<Exact>>> {
    let row = |fat: &usize| {
        let mut row = Vec::with_capacity(held.len().saturating_add(2));
        for index in held {
            let side = space.sides.get(*index)?;
            row.push(*side.gain.get(*fat)?);
        }
        row.push(Exact::ONE);
        row.push(*cost.get(*fat)?);
        Some(row)
    };
    fats.iter().map(row).collect()
}

/// Whether the multipliers are those of a best blend: none below nought, no fat with room on both sides that would make
/// it better.
fn checked(
    space: &Space,
    cost: &[Exact],
    shares: &[Exact],
    free: &[usize],
    held: &[usize],
    values: Vec<Exact>,
) -> Option<Found> {
    let small = cost.iter().fold(Exact::ONE, |most, cost| most.max(*cost).max(-*cost)) * Exact::literal(1, 9);
    let (of_share, of_sides) = values.split_last()?;
    let mut sides = Vec::with_capacity(held.len());
    for (index, value) in held.iter().zip(of_sides) {
        let side = space.sides.get(*index)?;
        if !side.point && (*value + small).is_negative() {
            return None;
        }
        let value = if side.point { *value } else { value.max(Exact::ZERO) };
        sides.push((*index, value));
    }
    let mut surplus = Vec::with_capacity(cost.len());
    for (fat, (cost, share)) in cost.iter().zip(shares).enumerate() {
        let mut rest = *cost - *of_share;
        for (index, price) in &sides {
            rest = rest - *price * *space.sides.get(*index)?.gain.get(fat)?;
        }
        let (lo, hi) = (*space.lo.get(fat)?, *space.hi.get(fat)?);
        let fixed = (hi - lo).is_zero();
        let at_lo = !(*share - lo - Exact::literal(1, 9)).is_positive();
        let off = rest.max(-rest);
        let wrong = if free.contains(&fat) {
            (off - small).is_positive()
        } else if at_lo {
            (rest + small).is_negative()
        } else {
            (rest - small).is_positive()
        };
        if wrong && !fixed {
            return None;
        }
        surplus.push(rest);
    }
    Some(Found { sides, surplus, of_share: *of_share })
}

/// The multipliers where more sides meet than it takes: some that go together, and each side's largest.
fn meeting(
    space: &Space,
    cost: &[Exact],
    shares: &[Exact],
    free: &[usize],
    held: &[usize],
) -> Option<(Found, Option<SidePrices>)> {
    let settled = |found: &Multipliers| {
        // The sides that it prices, and the fats that it leaves no surplus, are a system of their own.
        let priced: Vec<usize> =
            held.iter().zip(&found.priced).filter(|(_, priced)| **priced).map(|(index, _)| *index).collect();
        let rows = equations(space, cost, &found.tight, &priced)?;
        let solved = solve(&rows, priced.len().checked_add(1)?, DIGITS)?;
        checked(space, cost, shares, free, &priced, solved)
    };
    let ask = |wanted| multipliers(space, cost, shares, (free, held), wanted);
    let base = settled(&ask(None)?)?;
    let mut largest = base.sides.clone();
    for (place, index) in held.iter().enumerate() {
        let Some(found) = ask(Some(place)) else { continue };
        if found.endless {
            largest.retain(|(side, _)| side != index);
            continue;
        }
        let most = settled(&found).and_then(|found| found.sides.into_iter().find(|(side, _)| side == index));
        let Some((_, most)) = most else { continue };
        match largest.iter_mut().find(|(side, _)| side == index) {
            Some((_, price)) => *price = price.max(most),
            None => largest.push((*index, most)),
        }
    }
    Some((base, Some(largest)))
}
