//! What if one more point were demanded, and what each aim leaves open.

use super::answer::{Answer, NoBlend};
use super::program::Program;
use super::request::{End, Request};
use super::result::{no_blend, solve};
use super::solve::{Stages, point};
use super::space::Space;
use crate::quantity::{Decimal, Exact};

/// What becomes of the aims when a demand is one point stricter.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OneMore {
    /// Place of the demand.
    pub demand: usize,
    /// The bound that is made stricter.
    pub end: End,
    /// By how much each aim's value changes, in the order of the request; or why there is no blend any more.
    pub change: Result<Vec<Decimal>, NoBlend>,
}

/// Makes each demand that is binding or has a shadow price stricter by one whole point and solves again: unlike a shadow price, which is a derivative,
/// this holds for whole steps, for any aims, and over the whole point. A point is a per cent of a share, one of every
/// other figure. A demand for a single point is moved up.
///
/// # Errors
/// [`NoBlend::Number`] when a figure is out of range. That a stricter demand cannot be met is a result.
pub fn one_more_point(request: &Request, answer: &Answer) -> Result<Vec<OneMore>, NoBlend> {
    let mut all = Vec::new();
    for (index, (demand, value)) in request.demands.iter().zip(&answer.demands).enumerate() {
        let priced = value.shadow_price.as_ref().map(|price| price.end);
        let Some(end) = value.binding.or(priced) else { continue };
        let point = demand.measure.point();
        let moved =
            |bound: Option<Decimal>, by: Exact| bound.and_then(|bound| (Exact::from(bound) + by).decimal());
        let mut stricter = request.clone();
        let Some(changed) = stricter.demands.get_mut(index) else { continue };
        if demand.at_least.is_some() && demand.at_least == demand.at_most {
            changed.at_least = moved(demand.at_least, point);
            changed.at_most = changed.at_least;
        } else if end == End::AtLeast {
            changed.at_least = moved(demand.at_least, point);
        } else {
            changed.at_most = moved(demand.at_most, -point);
        }
        let change = match solve(&stricter) {
            Ok(next) => {
                let pairs = next.aims.iter().zip(&answer.aims);
                let change = |(after, before): (&super::AimValue, &super::AimValue)| {
                    (Exact::from(after.value) - Exact::from(before.value)).published()
                };
                Ok(pairs.map(change).collect::<Option<Vec<_>>>().ok_or(NoBlend::Number)?)
            }
            Err(refusal) => Err(refusal),
        };
        all.push(OneMore { demand: index, end, change });
    }
    Ok(all)
}

/// Which aim settles the share of each fat: the first one that, once it is met as well as it can be, leaves the share no
/// room. Nothing for a fat that can still be exchanged for another after the last aim.
///
/// It asks the solver for the least and the largest share of each fat after each aim, so it takes longer than [`solve`];
/// shares are the same when they differ by less than a millionth.
///
/// # Errors
/// As [`solve`].
pub fn settled(request: &Request) -> Result<Vec<Option<usize>>, NoBlend> {
    let space = Space::of(request).ok_or(NoBlend::Number)?;
    let mut settled: Vec<Option<usize>> = vec![None; request.fats.len()];
    let mut stages = Stages::of(&space);
    for (place, aim) in request.aims.iter().enumerate() {
        let blend = stages.next(*aim).map_err(|failure| no_blend(request, &space, failure))?;
        stages.hold(*aim, &blend.shares).ok_or(NoBlend::Number)?;
        for (fat, settled) in settled.iter_mut().enumerate().filter(|(_, settled)| settled.is_none()) {
            let extreme = |sign: Exact| {
                let at = |other: usize| if other == fat { sign } else { Exact::ZERO };
                let figure: Vec<_> = (0..request.fats.len()).map(at).collect();
                let found = point(&stages.program, &stages.space, &Program::figure(&figure)).ok()?;
                found.shares.get(fat).copied()
            };
            let room = extreme(-Exact::ONE).zip(extreme(Exact::ONE)).map(|(most, least)| most - least);
            if room.is_some_and(|room| !(room - Exact::literal(1, 6)).is_positive()) {
                *settled = Some(place);
            }
        }
    }
    Ok(settled)
}
