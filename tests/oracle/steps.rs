//! Whole scale steps, from exact fractions.

use super::{Ideal, RBig, exact, ratio};
use lamella::quantity::{Decimal, Mass};
use lamella::recipe::{FatStage, Recipe};

/// The nearest whole number, half to even.
#[must_use]
pub fn half_even(value: &RBig) -> i128 {
    let below = value.floor();
    let rest = value - RBig::from(below.clone());
    let below = i128::try_from(below).expect("a figure of a plan");
    match rest.cmp(&ratio(1, 2)) {
        std::cmp::Ordering::Less => below,
        std::cmp::Ordering::Greater => below + 1,
        std::cmp::Ordering::Equal => below + (below & 1),
    }
}

/// So many steps as a mass.
fn steps_of(count: i128, step: Mass) -> Decimal {
    let value = step.value();
    Decimal::from_i128_with_scale(value.mantissa() * count, value.scale()).normalize()
}

/// An amount on a scale of this step.
#[must_use]
pub fn weighed(value: &RBig, step: Mass) -> Decimal {
    steps_of(half_even(&(value / exact(step.exact()))), step)
}

/// Whole seats over weights by largest remainder, ties to the earlier.
#[must_use]
pub fn apportion(seats: i128, weights: &[RBig]) -> Vec<i128> {
    let whole: RBig = weights.iter().fold(RBig::ZERO, |sum, weight| sum + weight);
    let quotas: Vec<RBig> = weights.iter().map(|weight| ratio(seats, 1) * weight / &whole).collect();
    let floors: Vec<i128> =
        quotas.iter().map(|quota| i128::try_from(quota.floor()).expect("a count")).collect();
    let mut order: Vec<usize> = (0..weights.len()).collect();
    order.sort_by(|a, b| {
        let rest = |index: usize| &quotas[index] - ratio(floors[index], 1);
        rest(*b).cmp(&rest(*a))
    });
    let left = usize::try_from(seats - floors.iter().sum::<i128>()).expect("a count");
    let mut parts = floors;
    for index in order.into_iter().take(left) {
        parts[index] += 1;
    }
    parts
}

/// The fats of the pot, weighed on a scale of this step.
#[must_use]
pub fn fats(recipe: &Recipe, ideal: &Ideal, step: Mass) -> Vec<Decimal> {
    let lines = recipe.fats.iter().zip(&ideal.fats).filter(|(line, _)| line.stage == FatStage::Pot);
    let amounts: Vec<RBig> = lines.map(|(_, amount)| amount.clone()).collect();
    let whole = amounts.iter().fold(RBig::ZERO, |sum, amount| sum + amount);
    let seats = half_even(&(whole / exact(step.exact())));
    apportion(seats, &amounts).into_iter().map(|count| steps_of(count, step)).collect()
}

/// A weighed whole, less what sticks to its vessel, over the jugs.
///
/// The finest steps first, as many as are nearest to their part of what is left; the coarsest get the whole steps of the rest.
fn split(whole: Decimal, residue: Mass, steps: &[Mass], weights: &[RBig]) -> Vec<Decimal> {
    let mut left = exact(whole) - exact(residue.exact());
    let mut parts = vec![Decimal::ZERO; steps.len()];
    let mut order: Vec<Mass> = steps.to_vec();
    order.sort();
    order.dedup();
    for (position, step) in order.iter().enumerate() {
        let own: Vec<usize> = (0..steps.len()).filter(|index| steps[*index] == *step).collect();
        let sum = |from: Mass| -> RBig {
            let heavier = (0..steps.len()).filter(|index| steps[*index] >= from);
            heavier.fold(RBig::ZERO, |sum, index| sum + &weights[index])
        };
        let size = exact(step.exact());
        let seats = if position + 1 == order.len() {
            i128::try_from((left.clone() / &size).floor()).expect("a count")
        } else {
            let of_own = own.iter().fold(RBig::ZERO, |sum, index| sum + &weights[*index]);
            half_even(&(&left * of_own / sum(*step) / &size))
        };
        let of_own: Vec<RBig> = own.iter().map(|index| weights[*index].clone()).collect();
        for (index, count) in own.into_iter().zip(apportion(seats, &of_own)) {
            parts[index] = steps_of(count, *step);
        }
        left -= size * ratio(seats, 1);
    }
    parts
}

/// What each jug gets from the weighed pot.
#[must_use]
pub fn portions(recipe: &Recipe, ideal: &Ideal, pot: Decimal, steps: &[Mass]) -> Vec<Decimal> {
    let weights: Vec<RBig> = ideal.jugs.iter().map(|jug| jug.portion.clone()).collect();
    split(pot, recipe.workshop.pot_residue, steps, &weights)
}

/// What each jug gets of the weighed lye.
#[must_use]
pub fn lyes(recipe: &Recipe, ideal: &Ideal, lye: Decimal, steps: &[Mass]) -> Vec<Decimal> {
    let weights: Vec<RBig> = ideal.jugs.iter().map(|jug| jug.lye.clone()).collect();
    split(lye, recipe.workshop.lye_residue, steps, &weights)
}

/// What is poured from a jug.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Portions {
    /// What the scale shows with the full jug.
    pub gross: Decimal,
    /// One portion for each layer.
    pub portions: Vec<Decimal>,
}

impl Portions {
    /// A jug of this tare and net mass, poured in proportion to `weights`.
    #[must_use]
    pub fn of(tare: Mass, net: Mass, residue: Mass, step: Mass, weights: &[RBig]) -> Self {
        let gross = weighed(&(exact(tare.exact()) + exact(net.exact())), step);
        let shown = exact(gross) - exact(tare.exact());
        let net = exact(net.exact());
        let whole = if shown < net { shown } else { net };
        let seats = ((whole - exact(residue.exact())) / exact(step.exact())).floor();
        let seats = i128::try_from(seats).expect("a count");
        let portions = apportion(seats, weights).into_iter().map(|count| steps_of(count, step)).collect();
        Self { gross, portions }
    }
}
