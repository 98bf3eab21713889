//! Splitting a whole into whole steps so that nothing is lost: the largest remainder rule.

use super::exact::Exact;
use super::kind::Mass;

/// A mass divided into whole scale steps.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Split {
    /// The parts, in order; each a whole number of steps.
    pub parts: Vec<Mass>,
    /// What is left below one step.
    pub remainder: Mass,
}

/// Divides `seats` whole units over `weights` in proportion, by largest remainder (Hamilton's method, Hare quota); equal
/// remainders go to the earlier part. The result sums to `seats`, and each part is within one unit of its ideal.
///
/// Nothing comes back when a weight is negative or poisoned, or when units are to be divided over no weight at all.
///
/// ```
/// use lamella::quantity::{apportion, Exact};
/// let thirds = [Exact::ONE, Exact::ONE, Exact::ONE];
/// assert_eq!(apportion(2570, &thirds), Some(vec![857, 857, 856]));
/// ```
#[must_use]
pub fn apportion(seats: i64, weights: &[Exact]) -> Option<Vec<i64>> {
    let total: Exact = weights.iter().copied().sum();
    total.decimal()?;
    if seats < 0 || weights.iter().any(|weight| weight.is_negative()) {
        return None;
    }
    if seats == 0 {
        return Some(vec![0; weights.len()]);
    }
    if !total.is_positive() {
        return None;
    }
    if weights.len() == 1 {
        return Some(vec![seats]);
    }
    let each = Exact::from(seats) / total;
    let mut given: i64 = 0;
    let mut parts = Vec::with_capacity(weights.len());
    let mut order = Vec::with_capacity(weights.len());
    for (index, weight) in weights.iter().enumerate() {
        let ideal = *weight * each;
        // A quotient that should be whole may come out a last digit below it.
        let snapped = ideal.settled_at(18);
        let whole = snapped.whole_steps(Exact::ONE)?;
        given = given.checked_add(whole)?;
        parts.push(whole);
        order.push(((snapped - Exact::from(whole)).billionths()?, index));
    }
    // Largest remainder first; the sort is stable, so equal ones stay in order.
    order.sort_by_key(|(remainder, _)| std::cmp::Reverse(*remainder));
    let left = usize::try_from(seats.checked_sub(given)?).ok()?;
    for (_, index) in order.iter().take(left) {
        if let Some(part) = parts.get_mut(*index) {
            *part = part.checked_add(1)?;
        }
    }
    Some(parts)
}

/// Divides `total` into whole steps of `step` in proportion to `weights`; what does not make a step remains.
///
/// ```
/// use lamella::quantity::{split_into_steps, Exact, Mass};
/// let split = split_into_steps("257 g".parse()?, "0.1 g".parse()?, &[Exact::ONE; 3]).unwrap();
/// let parts: Vec<String> = split.parts.iter().map(Mass::to_string).collect();
/// assert_eq!(parts, ["85.7 g", "85.7 g", "85.6 g"]);
/// assert!(split.remainder.is_zero());
/// # Ok::<(), lamella::quantity::QuantityError>(())
/// ```
#[must_use]
pub fn split_into_steps(total: Mass, step: Mass, weights: &[Exact]) -> Option<Split> {
    let steps = total.exact().whole_steps(step.exact())?;
    let parts = apportion(steps, weights)?
        .into_iter()
        .map(|count| Mass::try_new(step.exact().times(count)).ok())
        .collect::<Option<Vec<_>>>()?;
    let remainder = total - parts.iter().copied().sum();
    Some(Split { parts, remainder })
}

/// One of those that a whole is divided over: the step it is weighed in, and its part of the whole.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Share {
    pub(crate) step: Exact,
    pub(crate) weight: Exact,
}

/// Divides `wanted` grams, and no more than is `there`, over shares that are weighed in steps of their own. Those of the
/// finest step are given theirs first, together the nearest number of their steps, and so on; those of the coarsest get what
/// is then left of it, in as many steps as there are, and what does not make a step remains. So no rounding of a coarse
/// scale ends in a share that a fine one weighs. Among shares of one step it is largest remainder. Where all have one step
/// this is [`split_into_steps`].
pub(crate) fn divide(there: Mass, wanted: Exact, shares: &[Share]) -> Option<Vec<Mass>> {
    let mut steps: Vec<Exact> = Vec::with_capacity(2);
    for share in shares {
        if !steps.contains(&share.step) {
            steps.push(share.step);
        }
    }
    steps.sort_by_key(|step| step.decimal());
    let (mut there, mut wanted) = (there.exact(), wanted.min(there.exact()));
    let mut weight: Exact = shares.iter().map(|share| share.weight).sum();
    let mut parts = vec![Mass::ZERO; shares.len()];
    for step in &steps {
        let of_step = || shares.iter().filter(|share| share.step == *step).map(|share| share.weight);
        let weights: Vec<Exact> = of_step().collect();
        let own: Exact = of_step().sum();
        let ideal = if steps.last() == Some(step) { wanted } else { wanted.portion(own, weight) };
        let count = ideal.steps(*step)?.min(there.whole_steps(*step)?);
        let mut counts = apportion(count, &weights)?.into_iter();
        for (share, part) in shares.iter().zip(&mut parts) {
            if share.step == *step {
                *part = Mass::try_new(step.times(counts.next()?)).ok()?;
            }
        }
        let given = step.times(count);
        (there, wanted, weight) = (there - given, wanted - given, weight - own);
    }
    Some(parts)
}

/// Rounds `parts` at the ninth decimal so that they sum to `whole` exactly, by largest remainder in nanograms: how the
/// composition of a bar closes. Nothing when the parts do not sum to the whole within a microgram, which means that a
/// formula is wrong, not a rounding.
#[must_use]
pub fn close(parts: &[Exact], whole: Mass) -> Option<Vec<Mass>> {
    let mut counts = Vec::with_capacity(parts.len());
    let mut order = Vec::with_capacity(parts.len());
    let mut sum: i64 = 0;
    for (index, part) in parts.iter().enumerate() {
        let (count, remainder) = part.billionths()?;
        sum = sum.checked_add(count)?;
        counts.push(count);
        order.push((remainder, index));
    }
    let (whole_count, below) = whole.exact().billionths()?;
    let mut left = whole_count.checked_sub(sum)?;
    if left < 0 || left > 1000_i64.saturating_add(i64::try_from(parts.len()).ok()?) {
        return None;
    }
    order.sort_by_key(|(remainder, _)| std::cmp::Reverse(*remainder));
    while left > 0 && !order.is_empty() {
        for (_, index) in order.iter().take(usize::try_from(left).ok()?) {
            if let Some(count) = counts.get_mut(*index) {
                *count = count.checked_add(1)?;
            }
            left = left.saturating_sub(1);
        }
    }
    let mut masses: Vec<Mass> = counts.iter().map(|count| Mass::of_nanograms(*count)).collect();
    // What is below a nanogram goes to the largest part, so that the sum is exact to the last digit.
    if below != 0 {
        let largest = counts.iter().enumerate().max_by_key(|(_, count)| **count);
        if let Some(mass) = largest.and_then(|(index, _)| masses.get_mut(index)) {
            *mass += whole - Mass::of_nanograms(whole_count);
        }
    }
    Some(masses)
}
