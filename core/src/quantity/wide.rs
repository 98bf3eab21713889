//! Sums, products, quotients and roundings of decimals, with the results of the decimal library and in a fraction of
//! its time.
//!
//! A plan is some thousands of products of a 28-digit number. The library brings such a product back to 96 bits digit by
//! digit; here it is one division by a power of ten, and a power of ten needs no division instruction, because its
//! reciprocal is a constant. What is rare (no common scale within 128 bits, a divisor of more than 64) is left to the
//! library. Tests hold every result to the library's.
#![expect(clippy::arithmetic_side_effects, reason = "each line says why it stays within its bits")]

use rust_decimal::Decimal;

/// Most decimals, and the bits of a mantissa, of the decimal library.
const MOST_DECIMALS: u32 = 28;
const MANTISSA_BITS: u32 = 96;
const FULL: u128 = 1 << MANTISSA_BITS;

/// A power of ten up to 10^19 as a divisor: shifted until its top bit is set, with the reciprocal of that,
/// floor((2^128 - 1) / divisor) - 2^64.
///
/// # Source
/// N. Möller, T. Granlund, Improved division by invariant integers, IEEE Trans. Comput. 60 (2011) 165, algorithm 4.
#[derive(Clone, Copy)]
struct Divisor {
    shifted: u64,
    shift: u32,
    reciprocal: u64,
}

impl Divisor {
    const fn new(value: u64) -> Self {
        let shift = value.leading_zeros();
        let shifted = value << shift;
        // The quotient lies in 2^64 .. 2^65, so that the cast drops exactly the 2^64.
        Self { shifted, shift, reciprocal: (u128::MAX / shifted as u128) as u64 }
    }

    /// Quotient and remainder of `high * 2^64 + low`, where `high < shifted`.
    fn step(self, high: u64, low: u64) -> (u64, u64) {
        // high * reciprocal + (high, low) < 2^128, since high < shifted.
        let estimate =
            u128::from(self.reciprocal) * u128::from(high) + (u128::from(high) << 64) + u128::from(low);
        let mut quotient = ((estimate >> 64) as u64).wrapping_add(1);
        let mut remainder = low.wrapping_sub(quotient.wrapping_mul(self.shifted));
        if remainder > estimate as u64 {
            quotient = quotient.wrapping_sub(1);
            remainder = remainder.wrapping_add(self.shifted);
        }
        if remainder >= self.shifted {
            quotient = quotient.wrapping_add(1);
            remainder -= self.shifted;
        }
        (quotient, remainder)
    }

    /// Quotient and remainder of a number of 192 bits.
    fn divide(self, number: Wide) -> (Wide, u64) {
        let Wide([low, middle, high]) = number;
        // A shift by 64 - 0 would be no shift at all; in two steps it is the nought that is meant.
        let spill = |limb: u64| (limb >> 1) >> (63 - self.shift);
        let (q2, r) = if high == 0 {
            // What spills over is below 2^63, and so below the divisor.
            (0, spill(middle))
        } else {
            self.step(spill(high), (high << self.shift) | spill(middle))
        };
        let (q1, r) = self.step(r, (middle << self.shift) | spill(low));
        let (q0, r) = self.step(r, low << self.shift);
        (Wide([q0, q1, q2]), r >> self.shift)
    }
}

const POWERS: [u128; 30] = powers();
const DIVISORS: [Divisor; 20] = divisors();

#[expect(
    clippy::indexing_slicing,
    reason = "it runs in the compiler, which would refuse an index that is not there"
)]
const fn powers() -> [u128; 30] {
    let mut powers = [1; 30];
    let mut at = 1;
    while at < powers.len() {
        powers[at] = powers[at - 1] * 10;
        at += 1;
    }
    powers
}

#[expect(
    clippy::indexing_slicing,
    reason = "it runs in the compiler, which would refuse an index that is not there"
)]
const fn divisors() -> [Divisor; 20] {
    let mut divisors = [Divisor::new(1); 20];
    let mut at = 1;
    while at < divisors.len() {
        // 10^19 is the largest power of ten of 64 bits.
        divisors[at] = Divisor::new(POWERS[at] as u64);
        at += 1;
    }
    divisors
}

/// A number of 192 bits, lowest limb first.
#[derive(Clone, Copy)]
struct Wide([u64; 3]);

impl Wide {
    const fn of(value: u128) -> Self {
        Self([value as u64, (value >> 64) as u64, 0])
    }

    /// Product of two numbers of at most 96 bits.
    fn product(a: u128, b: u128) -> Self {
        let (a0, a1) = (u128::from(a as u64), a >> 64);
        let (b0, b1) = (u128::from(b as u64), b >> 64);
        let low = a0 * b0;
        // Each cross product has at most 96 bits, and so have the two with the carry but one.
        let middle = a0 * b1 + a1 * b0 + (low >> 64);
        let high = a1 * b1 + (middle >> 64);
        Self([low as u64, middle as u64, high as u64])
    }

    /// The upper 128 bits.
    const fn upper(self) -> u128 {
        let Self([_, middle, high]) = self;
        ((high as u128) << 64) | middle as u128
    }

    /// The lower 128 bits.
    const fn lower(self) -> u128 {
        let Self([low, middle, _]) = self;
        ((middle as u128) << 64) | low as u128
    }

    const fn bits(self) -> u32 {
        let Self([low, _, _]) = self;
        if self.upper() == 0 { 64 - low.leading_zeros() } else { 192 - self.upper().leading_zeros() }
    }

    /// This number over 10^`digits`, half to even; `inexact` says that something below it was already cut off. Nothing
    /// past 10^29.
    fn shortened(self, digits: usize, inexact: bool) -> Option<u128> {
        let (first, second) = if digits > 19 { (19, digits - 19) } else { (digits, 0) };
        let (mut quotient, mut remainder) = DIVISORS.get(first)?.divide(self);
        let (mut divisor, mut rest) = (POWERS.get(first)?, inexact);
        if second > 0 {
            rest |= remainder != 0;
            (quotient, remainder) = DIVISORS.get(second)?.divide(quotient);
            divisor = POWERS.get(second)?;
        }
        let (quotient, twice) = (quotient.lower(), u128::from(remainder) * 2);
        let up = twice > *divisor || (twice == *divisor && (rest || quotient & 1 == 1));
        Some(quotient + u128::from(up))
    }

    /// As a decimal, cut to 96 bits and 28 decimals by as few digits as that takes.
    fn fitted(self, negative: bool, scale: u32, inexact: bool) -> Option<Decimal> {
        let over = self.bits().saturating_sub(MANTISSA_BITS);
        let mut digits = scale.saturating_sub(MOST_DECIMALS);
        if over > 0 {
            // So many bits take at most so many digits: 1234 / 4096 is a little more than log10(2). One fewer may do.
            let enough = ((over * 1234) >> 12) + 1;
            let fewer = POWERS.get(enough as usize - 1)? << (MANTISSA_BITS - 64);
            digits = digits.max(if self.upper() < fewer { enough - 1 } else { enough });
        }
        if digits == 0 && !inexact {
            return Some(build(self.lower(), negative, scale));
        }
        let rounded = self.shortened(digits as usize, inexact)?;
        if rounded < FULL {
            return Some(build(rounded, negative, scale.checked_sub(digits)?));
        }
        // Rounded up to 2^96: one digit more.
        let rounded = Self::of(rounded).shortened(1, false)?;
        Some(build(rounded, negative, scale.checked_sub(digits + 1)?))
    }
}

/// Mantissa of at most 96 bits, sign, decimals.
fn parts(value: Decimal) -> (u128, bool, u32) {
    (value.mantissa().unsigned_abs(), value.is_sign_negative(), value.scale())
}

fn build(mantissa: u128, negative: bool, scale: u32) -> Decimal {
    Decimal::from_parts(mantissa as u32, (mantissa >> 32) as u32, (mantissa >> 64) as u32, negative, scale)
}

/// a * b; nothing when it overflows.
pub(super) fn product(a: Decimal, b: Decimal) -> Option<Decimal> {
    let ((a, minus_a, scale_a), (b, minus_b, scale_b)) = (parts(a), parts(b));
    if a == 0 || b == 0 {
        return Some(Decimal::ZERO);
    }
    // Scales are at most 28 each.
    let (negative, scale) = (minus_a != minus_b, scale_a + scale_b);
    if a.leading_zeros() + b.leading_zeros() >= 256 - MANTISSA_BITS && scale <= MOST_DECIMALS {
        return Some(build(a * b, negative, scale));
    }
    Wide::product(a, b).fitted(negative, scale, false)
}

/// a + b; nothing when it overflows.
pub(super) fn sum(a: Decimal, b: Decimal) -> Option<Decimal> {
    let ((x, minus_x, scale_x), (y, minus_y, scale_y)) = (parts(a), parts(b));
    if x == 0 {
        return Some(b);
    }
    if y == 0 {
        return Some(a);
    }
    let scale = scale_x.max(scale_y);
    let aligned = |value: u128, power: &u128| {
        let bits = 256 - value.leading_zeros() - power.leading_zeros();
        // At most 126 bits each, 127 their sum.
        (bits <= 126).then(|| value * power)
    };
    let factor = |own: u32| POWERS.get(scale.saturating_sub(own) as usize);
    let Some((x, y)) = aligned(x, factor(scale_x)?).zip(aligned(y, factor(scale_y)?)) else {
        return a.checked_add(b);
    };
    let (size, negative) = if minus_x == minus_y {
        (x + y, minus_x)
    } else if x >= y {
        (x - y, minus_x)
    } else {
        (y - x, minus_y)
    };
    if size < FULL {
        Some(build(size, negative, scale))
    } else {
        Wide::of(size).fitted(negative, scale, false)
    }
}

/// a / b; nothing when it overflows or b is nought.
pub(super) fn quotient(a: Decimal, b: Decimal) -> Option<Decimal> {
    let ((x, minus_x, scale_x), (y, minus_y, scale_y)) = (parts(a), parts(b));
    if x == 0 && y != 0 {
        return Some(Decimal::ZERO);
    }
    // By a power of ten only the point moves; a short number stays short, and what is reckoned with it stays quick.
    let moved = POWERS.iter().position(|power| *power == y).and_then(|tens| u32::try_from(tens).ok());
    let scale = moved.and_then(|tens| (scale_x + tens).checked_sub(scale_y));
    if let Some(scale) = scale.filter(|scale| *scale <= MOST_DECIMALS) {
        return Some(build(x, minus_x != minus_y, scale));
    }
    let divisor = u64::try_from(y).ok().filter(|divisor| *divisor != 0);
    let scale_of = |digits: u32| (scale_x + digits).checked_sub(scale_y);
    let bits = |value: u128| 128 - value.leading_zeros();
    // Enough digits that the quotient has 96 bits, if its decimals allow them.
    let wanted = (((MANTISSA_BITS + bits(y)).saturating_sub(bits(x)) * 1234) >> 12) + 1;
    let digits = wanted.min((MOST_DECIMALS + scale_y).saturating_sub(scale_x));
    let (Some(divisor), Some(scale), Some(power)) =
        (divisor, scale_of(digits), POWERS.get(digits as usize).filter(|power| **power < FULL))
    else {
        return a.checked_div(b);
    };
    let divisor = u128::from(divisor);
    let Wide([low, middle, high]) = Wide::product(x, *power);
    // Long division: each remainder is below the divisor, so each quotient is below 2^64.
    let (high, rest) = (u128::from(high) / divisor, u128::from(high) % divisor);
    let next = (rest << 64) | u128::from(middle);
    let (middle, rest) = (next / divisor, next % divisor);
    let next = (rest << 64) | u128::from(low);
    let (low, rest) = (next / divisor, next % divisor);
    let whole = Wide([low as u64, middle as u64, high as u64]);
    if whole.bits() <= MANTISSA_BITS {
        // All the decimals there are: the remainder decides.
        if rest == 0 {
            return Some(plain(whole.lower(), minus_x != minus_y, scale));
        }
        let up = rest * 2 > divisor || (rest * 2 == divisor && low & 1 == 1);
        return Wide::of(whole.lower() + u128::from(up)).fitted(minus_x != minus_y, scale, false);
    }
    whole.fitted(minus_x != minus_y, scale, rest != 0)
}

/// Rounded half to even at `decimals` places, without closing noughts.
pub(super) fn rounded(value: Decimal, decimals: u32) -> Decimal {
    let (mantissa, negative, scale) = parts(value);
    let cut = scale.saturating_sub(decimals);
    let shortened = if cut == 0 { Some(mantissa) } else { Wide::of(mantissa).shortened(cut as usize, false) };
    // A cut of at most 28 digits always succeeds.
    plain(shortened.unwrap_or(mantissa), negative, scale - cut)
}

/// The largest whole number that is not above `value`.
pub(super) fn floor(value: Decimal) -> Decimal {
    let (mantissa, negative, scale) = parts(value);
    let power = POWERS.get(scale as usize).copied().unwrap_or(1);
    let (whole, rest) = (mantissa / power, mantissa % power);
    build(whole + u128::from(negative && rest != 0), negative, 0)
}

/// The billionths that are in `value`, and what remains in units of 1e-28; nothing when they pass 64 bits.
pub(super) fn billionths(value: Decimal) -> Option<(i64, u64)> {
    let (mantissa, negative, scale) = parts(value);
    let (whole, rest) = if let Some(cut) = scale.checked_sub(9) {
        let (whole, rest) = DIVISORS.get(cut as usize)?.divide(Wide::of(mantissa));
        // The rest is below 10^cut, and cut + 28 - scale is 19.
        (whole.lower(), rest * POWERS.get((MOST_DECIMALS - scale) as usize).map_or(1, |power| *power as u64))
    } else {
        (mantissa.checked_mul(*POWERS.get((9 - scale) as usize)?)?, 0)
    };
    let whole = i64::try_from(whole).ok()?;
    match (negative, rest) {
        (false, _) => Some((whole, rest)),
        (true, 0) => Some((-whole, 0)),
        (true, _) => Some((-whole - 1, BILLIONTH - rest)),
    }
}

/// One billionth in units of 1e-28.
const BILLIONTH: u64 = 10_000_000_000_000_000_000;

/// Without closing noughts after the point, and without a minus before nought.
fn plain(mut mantissa: u128, negative: bool, mut scale: u32) -> Decimal {
    if mantissa == 0 {
        return Decimal::ZERO;
    }
    // Most published figures fit into 64 bits, where a division is cheap.
    if let Ok(mut short) = u64::try_from(mantissa) {
        while scale > 0 && short.is_multiple_of(10) {
            short /= 10;
            scale -= 1;
        }
        return build(u128::from(short), negative, scale);
    }
    while scale > 0 && mantissa.is_multiple_of(10) {
        mantissa /= 10;
        scale -= 1;
    }
    build(mantissa, negative, scale)
}

#[cfg(test)]
mod tests {
    use super::*;
    use rust_decimal::RoundingStrategy;

    /// A sequence that is the same everywhere (Knuth's 64-bit linear congruence, its upper half).
    struct Numbers(u64);

    impl Numbers {
        fn next(&mut self) -> u32 {
            self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (self.0 >> 32) as u32
        }

        /// Of any number of bits and decimals.
        fn decimal(&mut self) -> Decimal {
            let mantissa =
                (u128::from(self.next()) << 64) | (u128::from(self.next()) << 32) | u128::from(self.next());
            let mantissa = mantissa >> (self.next() % 97);
            let closing = POWERS[(self.next() % 12) as usize];
            let mantissa = if self.next().is_multiple_of(4) && mantissa >= closing {
                mantissa / closing * closing
            } else {
                mantissa
            };
            build(mantissa, self.next().is_multiple_of(2), self.next() % 29)
        }
    }

    const CORNERS: [u128; 9] = [0, 1, 5, 15, 99, u64::MAX as u128, 1 << 64, FULL / 10, FULL - 1];

    fn pairs() -> Vec<(Decimal, Decimal)> {
        let mut numbers = Numbers(1);
        let mut pairs: Vec<_> = (0..200_000).map(|_| (numbers.decimal(), numbers.decimal())).collect();
        let corners: Vec<Decimal> = CORNERS
            .iter()
            .flat_map(|mantissa| [0, 1, 12, 27, 28].map(|scale| build(*mantissa, scale == 12, scale)))
            .collect();
        for a in &corners {
            pairs.extend(corners.iter().map(|b| (*a, *b)));
        }
        pairs
    }

    #[test]
    fn products_are_those_of_the_library() {
        for (a, b) in pairs() {
            assert_eq!(product(a, b), a.checked_mul(b), "{a} * {b}");
        }
    }

    #[test]
    fn sums_are_those_of_the_library() {
        for (a, b) in pairs() {
            assert_eq!(sum(a, b), a.checked_add(b), "{a} + {b}");
        }
    }

    #[test]
    fn quotients_are_those_of_the_library() {
        for (a, b) in pairs() {
            assert_eq!(quotient(a, b), a.checked_div(b), "{a} / {b}");
        }
    }

    #[test]
    fn billionths_and_their_rest_are_the_number() {
        for (a, _) in pairs() {
            let Some((whole, rest)) = billionths(a) else {
                assert!(a.abs() >= Decimal::from(9_000_000_000_i64), "{a}");
                continue;
            };
            assert!(rest < BILLIONTH);
            let below = a.round_dp_with_strategy(9, RoundingStrategy::ToNegativeInfinity);
            assert_eq!(Decimal::new(whole, 9), below, "{a}");
            assert_eq!(build(u128::from(rest), false, 28), a - below, "{a}");
        }
    }

    #[test]
    fn roundings_are_those_of_the_library() {
        for (a, _) in pairs() {
            for decimals in [0, 1, 9, 12, 18, 28] {
                let whole = a.round_dp_with_strategy(decimals, RoundingStrategy::MidpointNearestEven);
                let ours = rounded(a, decimals);
                assert_eq!(ours.serialize(), whole.normalize().serialize(), "{a} at {decimals}");
            }
            assert_eq!(floor(a), a.floor(), "{a}");
        }
    }
}
