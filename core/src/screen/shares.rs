//! Shares that must make a whole.

use crate::quantity::{Exact, Mass, Share, apportion};

const WHOLE: Share = Share::literal(1, 0);

/// What is left of the whole beside the other shares: the share at `index` that makes all of them sum to 100 %. Nothing
/// when the others pass it, or there is no such share.
///
/// ```
/// use lamella::screen::rest;
/// let shares = ["45 %", "24 %", "10 %"].map(|share| share.parse().unwrap());
/// assert_eq!(rest(&shares, 0).unwrap().to_string(), "66 %");
/// ```
#[must_use]
pub fn rest(shares: &[Share], index: usize) -> Option<Share> {
    let own = shares.get(index)?;
    let rest = WHOLE - (shares.iter().copied().sum::<Share>() - *own);
    (rest >= Share::ZERO).then_some(rest)
}

/// Shares in the proportions of `shares` that leave room for `taken` of the whole, in steps of a whole per cent where both
/// allow it, else of a tenth, else of a ten-thousandth; they sum to what `taken` leaves, exactly. Nothing when there is nothing to
/// divide, or `taken` is more than the whole.
///
/// ```
/// use lamella::screen::make_room;
/// let shares = ["50 %", "30 %", "20 %"].map(|share| share.parse().unwrap());
/// let made = make_room(&shares, "5 %".parse().unwrap()).unwrap();
/// let text: Vec<String> = made.iter().map(|share| share.to_string()).collect();
/// assert_eq!(text, ["48 %", "28 %", "19 %"]);
/// ```
#[must_use]
pub fn make_room(shares: &[Share], taken: Share) -> Option<Vec<Share>> {
    let left = WHOLE - taken;
    if left < Share::ZERO || taken < Share::ZERO {
        return None;
    }
    let steps = [Exact::literal(1, 2), Exact::literal(1, 3), Exact::literal(1, 6), Exact::literal(1, 12)];
    let fits = |step: &Exact| {
        let mut all = shares.iter().copied().chain([left]);
        all.all(|share| {
            (share.exact() / *step)
                .steps(Exact::ONE)
                .is_some_and(|count| (share.exact() - Exact::from(count) * *step).is_zero())
        })
    };
    let step = steps.into_iter().find(fits)?;
    let weights: Vec<Exact> = shares.iter().map(|share| share.exact()).collect();
    let parts = apportion((left.exact() / step).steps(Exact::ONE)?, &weights)?;
    parts.into_iter().map(|part| Share::try_new(Exact::from(part) * step).ok()).collect()
}

/// The shares that masses are of their sum, in steps of a hundredth of a per cent; they sum to the whole, exactly. Nothing
/// when there is nothing to divide.
///
/// ```
/// use lamella::screen::shares_of;
/// let masses = ["500 g", "0.375 kg", "125 g"].map(|mass| mass.parse().unwrap());
/// let text: Vec<String> = shares_of(&masses).unwrap().iter().map(|share| share.to_string()).collect();
/// assert_eq!(text, ["50 %", "37.5 %", "12.5 %"]);
/// ```
#[must_use]
pub fn shares_of(masses: &[Mass]) -> Option<Vec<Share>> {
    let step = Exact::literal(1, 4);
    let weights: Vec<Exact> = masses.iter().map(|mass| mass.exact()).collect();
    let parts = apportion((WHOLE.exact() / step).steps(Exact::ONE)?, &weights)?;
    parts.into_iter().map(|part| Share::try_new(Exact::from(part) * step).ok()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shares(texts: &[&str]) -> Vec<Share> {
        texts.iter().map(|text| text.parse().unwrap()).collect()
    }

    #[test]
    fn nothing_is_lost() {
        for taken in ["0 %", "1 %", "33.3 %", "12.345 %", "100 %"] {
            let taken: Share = taken.parse().unwrap();
            for all in [&["50 %", "30 %", "20 %"][..], &["33.3 %", "33.3 %", "33.4 %"], &["100 %"]] {
                let made = make_room(&shares(all), taken).unwrap();
                assert_eq!(made.iter().copied().sum::<Share>() + taken, WHOLE);
            }
        }
    }

    #[test]
    fn shares_of_masses_are_a_whole() {
        let masses = ["1 g", "1 g", "1 g"].map(|mass| mass.parse().unwrap());
        assert_eq!(shares_of(&masses).unwrap(), shares(&["33.34 %", "33.33 %", "33.33 %"]));
    }

    #[test]
    fn what_cannot_be_is_not() {
        assert_eq!(rest(&shares(&["60 %", "50 %", "1 %"]), 2), None);
        assert_eq!(rest(&[], 0), None);
        assert_eq!(make_room(&shares(&["0 %"]), shares(&["5 %"])[0]), None);
        assert_eq!(make_room(&shares(&["50 %"]), shares(&["101 %"])[0]), None);
        assert_eq!(shares_of(&[]), None);
        assert_eq!(shares_of(&[Mass::ZERO]), None);
    }
}
