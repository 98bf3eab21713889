//! Pour: what is in a jug becomes portions, and the readings of the scale before and after each.

use serde::Serialize;

use crate::problem::Problem;
use crate::quantity::{Exact, Mass, split_into_steps};
use crate::recipe::Recipe;

use super::balance::Ideal;
use super::coarse::nothing_left;
use super::mixture::Mixture;
use super::size::{layer_shares, nothing_to_pour};
use super::weigh::Weighed;
use super::{mass, number};

/// What the scale shows with the jug on it, before and after a pour. With a tare that is not known the jug counts as
/// nought, as on a scale set to nought with the empty jug.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Reading {
    /// Before the pour.
    pub before: Mass,
    /// After it: pour until the scale shows this.
    pub after: Mass,
}

impl Reading {
    /// What is poured: the difference of the two.
    #[must_use]
    pub fn portion(&self) -> Mass {
        self.before - self.after
    }
}

/// A jug's pours.
#[derive(Debug)]
pub(crate) struct PouredJug {
    /// What the scale shows when all is in.
    pub(crate) gross: Mass,
    /// One portion for each layer of the mixture, in pour order.
    pub(crate) portions: Vec<Mass>,
    /// The readings of each.
    pub(crate) readings: Vec<Reading>,
    /// What stays in the jug: its residue and what does not make a step.
    pub(crate) left: Mass,
}

/// Divides each jug over its layers.
///
/// # Errors
/// `plan.residue` when a jug holds no more than stays on its walls, `scale.coarse` when its scale shows nothing of it.
pub(crate) fn pour(
    recipe: &Recipe,
    mixtures: &[Mixture<'_>],
    ideal: &Ideal,
    weighed: &Weighed,
) -> Result<Vec<PouredJug>, Vec<Problem>> {
    let shares = layer_shares(recipe);
    let mut poured = Vec::with_capacity(mixtures.len());
    let mut problems = Vec::new();
    for ((mixture, jug), ideal_jug) in mixtures.iter().zip(&weighed.jugs).zip(&ideal.jugs) {
        let tare = mixture.jug.and_then(|jug| jug.tare).unwrap_or(Mass::ZERO);
        let step = recipe.workshop.scales.get(jug.portion.scale).map_or(Mass::ZERO, |scale| scale.step);
        let weights: Vec<Exact> =
            mixture.layers.iter().filter_map(|layer| shares.get(*layer)).copied().collect();
        match one_jug(recipe, mixture, tare, jug.net, step, &weights) {
            Ok(Some(jug)) => poured.push(jug),
            // As weighed there is not even what stays on its walls.
            Ok(None) if jug.net <= mixture.residue && !mixture.residue.is_zero() => {
                problems.push(nothing_to_pour(mixture));
            }
            Ok(None) => {
                let there = ideal_jug.outline.mass - mixture.residue.exact();
                let at = (mixture.pointer.as_str(), format!("what is poured from {:?}", mixture.name));
                problems.push(nothing_left(recipe, mixtures, ideal, at, (there, jug.portion.scale)));
            }
            Err(problem) => problems.push(problem),
        }
    }
    if problems.is_empty() { Ok(poured) } else { Err(problems) }
}

/// Nothing when less than a step can be poured.
fn one_jug(
    recipe: &Recipe,
    mixture: &Mixture<'_>,
    tare: Mass,
    net: Mass,
    step: Mass,
    weights: &[Exact],
) -> Result<Option<PouredJug>, Problem> {
    let steps = (tare + net).exact().steps(step.exact()).ok_or_else(|| number(recipe))?;
    let gross = mass(step.exact().times(steps), recipe)?;
    // The scale may round up by half a step; no more can be poured than is there.
    let shown_too_much = (gross - tare - net).max(Mass::ZERO);
    let stays = mixture.residue + shown_too_much;
    if gross - tare - stays < step {
        return Ok(None);
    }
    let readings = pours(gross, tare, stays, step, weights).ok_or_else(|| number(recipe))?;
    let portions: Vec<Mass> = readings.iter().map(Reading::portion).collect();
    let left = net - portions.iter().copied().sum();
    Ok(Some(PouredJug { gross, portions, readings, left }))
}

/// The pours that empty a jug of all but what stays in it, in proportion to `weights`: what the scale shows before and
/// after each. Every portion is a whole number of steps, and what does not make a step stays too.
///
/// Nothing when more stays than there is, or the weights cannot be divided by (see
/// [`split_into_steps`]).
///
/// ```
/// use lamella::batch::pours;
/// use lamella::quantity::{Exact, Mass};
/// let [gross, tare, stays, step] = ["1004 g", "400 g", "0 g", "0.5 g"].map(|text| text.parse().unwrap());
/// let pours = pours(gross, tare, stays, step, &[Exact::ONE; 3]).unwrap();
/// let after: Vec<String> = pours.iter().map(|reading| reading.after.to_string()).collect();
/// assert_eq!(after, ["802.5 g", "601 g", "400 g"]);
/// ```
#[must_use]
pub fn pours(gross: Mass, tare: Mass, stays: Mass, step: Mass, weights: &[Exact]) -> Option<Vec<Reading>> {
    let portions = split_into_steps(gross - tare - stays, step, weights)?.parts;
    let mut shown = gross;
    let readings = portions.into_iter().map(|portion| {
        let before = shown;
        shown = before - portion;
        Reading { before, after: shown }
    });
    Some(readings.collect())
}
