//! What is proved in decimals: the least a linear figure can be over all blends.
//!
//! Nothing here trusts the solver. A bound holds whatever the multipliers are that it is computed from.

use crate::quantity::Exact;

/// Sum of products.
pub(super) fn dot(a: &[Exact], b: &[Exact]) -> Exact {
    a.iter().zip(b).filter(|(a, b)| !a.is_zero() && !b.is_zero()).map(|(a, b)| *a * *b).sum()
}

/// The least that `figure` can be over all shares between `lo` and `hi` that sum to one; nothing when there are none or a
/// number is poisoned.
///
/// The cheapest way to fill one kilogram is to begin with the least of each and go on with the cheapest first.
pub(super) fn least(figure: &[Exact], lo: &[Exact], hi: &[Exact]) -> Option<Exact> {
    let mut order: Vec<(crate::quantity::Decimal, Exact)> = Vec::with_capacity(figure.len());
    let mut left = Exact::ONE;
    let mut sum = Exact::ZERO;
    for ((value, lo), hi) in figure.iter().zip(lo).zip(hi) {
        let room = *hi - *lo;
        if room.is_negative() {
            return None;
        }
        left = left - *lo;
        if !lo.is_zero() {
            sum = sum + *value * *lo;
        }
        if !room.is_zero() {
            order.push((value.decimal()?, room));
        }
    }
    order.sort_unstable_by_key(|(value, _)| *value);
    for (value, room) in order {
        if !left.is_positive() {
            break;
        }
        let taken = room.min(left);
        sum = sum + Exact::from(value) * taken;
        left = left - taken;
    }
    (left.is_zero() && sum.decimal().is_some()).then_some(sum)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn all(values: &[i64]) -> Vec<Exact> {
        values.iter().map(|value| Exact::from(*value)).collect()
    }

    #[test]
    fn a_kilogram_is_filled_with_the_cheapest_first() {
        let (lo, hi) = ([1, 0, 2], [10, 4, 10]);
        let tenths = |values: [i64; 3]| values.map(|value| Exact::literal(value, 1));
        let least = least(&all(&[5, 1, 3]), &tenths(lo), &tenths(hi)).unwrap();
        assert_eq!(least, Exact::literal(24, 1) * Exact::ONE); // 0.1 x 5 + 0.4 x 1 + 0.5 x 3
        assert!(super::least(&all(&[1]), &[Exact::ZERO], &[Exact::literal(5, 1)]).is_none());
        assert!(super::least(&all(&[1, 1]), &all(&[1, 1]), &all(&[1, 1])).is_none());
    }
}
