//! Products, quotients and roundings of whole numbers of 1e-26.
//!
//! A plan is some thousands of products. Each takes four multiplications of machine words here, and the division by 1e26
//! that brings it back takes no division instruction: 1e26 is 2^26 times 5^26, of which the first is a shift and the second
//! a word whose reciprocal is a constant. All numbers are sizes; signs are the caller's. Every result is rounded once,
//! half to even. Tests hold it to fractions of any length.
#![expect(clippy::arithmetic_side_effects, reason = "each line says why it stays within its bits")]
#![expect(
    clippy::indexing_slicing,
    reason = "indices are compared with the length before, or the compiler runs them"
)]

/// Decimals of the unit.
pub(super) const DECIMALS: u32 = 26;
/// One, in the unit: 87 bits.
pub(super) const ONE: u128 = 10_u128.pow(DECIMALS);
/// The largest size: one bit is left for the sign.
pub(super) const LARGEST: u128 = (1 << 127) - 1;

/// A divisor of one word: shifted until its top bit is set, with the reciprocal of that,
/// floor((2^128 - 1) / divisor) - 2^64.
///
/// # Source
/// N. Möller, T. Granlund, Improved division by invariant integers, IEEE Trans. Comput. 60 (2011) 165: algorithm 4 here,
/// algorithms 5 and 6 in [`Divisor2`].
#[derive(Clone, Copy)]
struct Divisor {
    value: u64,
    shifted: u64,
    shift: u32,
    reciprocal: u64,
}

impl Divisor {
    const fn new(value: u64) -> Self {
        let shift = value.leading_zeros();
        let shifted = value << shift;
        Self { value, shifted, shift, reciprocal: reciprocal(shifted) }
    }

    /// Quotient and remainder of `high * 2^64 + low` by the shifted divisor, where `high` is below that.
    const fn step(self, high: u64, low: u64) -> (u64, u64) {
        // high * reciprocal + (high, low) < 2^128, since high < shifted.
        let estimate = self.reciprocal as u128 * high as u128 + join(high, low);
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

    /// Quotient and remainder of `high * 2^128 + low`, where `high` is below the divisor.
    const fn divide(self, high: u64, low: u128) -> (u128, u64) {
        let [lowest, middle] = halves(low);
        let top = (high << self.shift) | self.spill(middle);
        let (first, rest) = self.step(top, (middle << self.shift) | self.spill(lowest));
        let (second, rest) = self.step(rest, lowest << self.shift);
        (join(first, second), rest >> self.shift)
    }

    /// What the shift moves out of a word. Shifting by 64 - 0 would be no shift at all; in two steps it is the nought that
    /// is meant.
    const fn spill(self, word: u64) -> u64 {
        (word >> 1) >> (63 - self.shift)
    }
}

/// A divisor of two words whose top bit is set, with its reciprocal, floor((2^192 - 1) / divisor) - 2^64.
#[derive(Clone, Copy)]
struct Divisor2 {
    value: u128,
    reciprocal: u64,
}

impl Divisor2 {
    const fn new(value: u128) -> Self {
        let [low, high] = halves(value);
        let mut guess = reciprocal(high);
        let mut rest = high.wrapping_mul(guess).wrapping_add(low);
        if rest < low {
            guess = guess.wrapping_sub(1);
            if rest >= high {
                guess = guess.wrapping_sub(1);
                rest = rest.wrapping_sub(high);
            }
            rest = rest.wrapping_sub(high);
        }
        let [below, above] = halves(guess as u128 * low as u128);
        rest = rest.wrapping_add(above);
        if rest < above {
            guess = guess.wrapping_sub(1);
            if join(rest, below) >= value {
                guess = guess.wrapping_sub(1);
            }
        }
        Self { value, reciprocal: guess }
    }

    /// Quotient and remainder of `high * 2^64 + low`, where `high` is below the divisor.
    const fn step(self, high: u128, low: u64) -> (u64, u128) {
        let ([d0, d1], [u1, u2]) = (halves(self.value), halves(high));
        let estimate = (self.reciprocal as u128 * u2 as u128).wrapping_add(high);
        let [q0, q1] = halves(estimate);
        let upper = u1.wrapping_sub(q1.wrapping_mul(d1));
        let mut remainder = join(upper, low).wrapping_sub(d0 as u128 * q1 as u128).wrapping_sub(self.value);
        let mut quotient = q1.wrapping_add(1);
        if (remainder >> 64) as u64 >= q0 {
            quotient = quotient.wrapping_sub(1);
            remainder = remainder.wrapping_add(self.value);
        }
        if remainder >= self.value {
            quotient = quotient.wrapping_add(1);
            remainder = remainder.wrapping_sub(self.value);
        }
        (quotient, remainder)
    }
}

/// The reciprocal of a word whose top bit is set.
const fn reciprocal(shifted: u64) -> u64 {
    // (2^128 - 1) / shifted - 2^64, the 2^64 taken off beforehand.
    (join(!shifted, u64::MAX) / shifted as u128) as u64
}

const fn join(high: u64, low: u64) -> u128 {
    ((high as u128) << 64) | low as u128
}

/// Lower and upper half.
const fn halves(number: u128) -> [u64; 2] {
    [number as u64, (number >> 64) as u64]
}

/// a * b, the upper 128 bits first.
const fn full_product(a: u128, b: u128) -> (u128, u128) {
    let ([a0, a1], [b0, b1]) = (halves(a), halves(b));
    let low = a0 as u128 * b0 as u128;
    // A product of two words and two words on top of it make 128 bits at most.
    let first = a1 as u128 * b0 as u128 + (low >> 64);
    let second = a0 as u128 * b1 as u128 + (first as u64) as u128;
    let high = a1 as u128 * b1 as u128 + (first >> 64) + (second >> 64);
    (high, (second << 64) | (low as u64) as u128)
}

/// 5^26, shifted by three bits until its top bit is set.
const FIVES: Divisor = Divisor::new(5_u64.pow(DECIMALS));
/// Bits that the twos in 1e26 cut off, less those by which the fives are shifted.
const TWOS: u32 = DECIMALS - FIVES.shift;
const HALF: u128 = ONE / 2;

/// a * b; nothing when it is too large.
pub(super) const fn product(a: u128, b: u128) -> Option<u128> {
    let (high, low) = full_product(a, b);
    let [upper, over] = halves(high >> TWOS);
    if over != 0 || upper >= FIVES.shifted {
        return None;
    }
    let [lowest, middle] = halves((high << (128 - TWOS)) | (low >> TWOS));
    let (first, rest) = FIVES.step(upper, middle);
    let (second, rest) = FIVES.step(rest, lowest);
    let quotient = join(first, second);
    // The rest is below the shifted fives, with the cut bits below 1e26.
    let rest = ((rest as u128) << TWOS) | (low & ((1 << TWOS) - 1));
    let up = rest > HALF || (rest == HALF && quotient & 1 == 1);
    at_most_largest(quotient + up as u128)
}

/// a * b / c, rounded once; nothing when it is too large or c is nought.
pub(super) const fn ratio(a: u128, b: u128, c: u128) -> Option<u128> {
    let (high, low) = full_product(a, b);
    if high >= c {
        return None;
    }
    // Below 128 because c is above nought. The upper half of the dividend is below c, so that the shift loses nothing.
    let shift = c.leading_zeros();
    let divisor = Divisor2::new(c << shift);
    let high = (high << shift) | ((low >> 1) >> (127 - shift));
    let [lowest, middle] = halves(low << shift);
    let (first, rest) = divisor.step(high, middle);
    let (second, rest) = divisor.step(rest, lowest);
    let quotient = join(first, second);
    let up = above_half(rest, divisor.value, quotient);
    match quotient.checked_add(up as u128) {
        Some(size) => at_most_largest(size),
        None => None,
    }
}

/// a / b; nothing when it is too large or b is nought.
pub(super) const fn quotient(a: u128, b: u128) -> Option<u128> {
    ratio(a, ONE, b)
}

/// Whether a remainder of a division rounds the quotient up, half to even.
const fn above_half(rest: u128, divisor: u128, quotient: u128) -> bool {
    // The rest is below the divisor, so that the difference is above nought.
    let other = divisor - rest;
    rest > other || (rest == other && quotient & 1 == 1)
}

const fn at_most_largest(size: u128) -> Option<u128> {
    if size <= LARGEST { Some(size) } else { None }
}

/// Quotient and remainder of `value` by 10^`digits`; `digits` is at most 26.
#[inline]
pub(super) const fn cut(value: u128, digits: u32) -> (u128, u128) {
    if (digits as usize) < DIVISORS.len() {
        let power = &DIVISORS[digits as usize];
        let [low, high] = halves(value);
        // Few digits of a large number leave a quotient of more than two words' steps, which is rare.
        if high < power.value {
            let (quotient, rest) = power.divide(0, join(high, low));
            return (quotient, rest as u128);
        }
    }
    let power = power_of_ten(digits);
    (value / power, value % power)
}

/// `value` over 10^`digits`, half to even; `digits` is at most 26.
pub(super) const fn shortened(value: u128, digits: u32) -> u128 {
    let (quotient, rest) = cut(value, digits);
    quotient + above_half(rest, power_of_ten(digits), quotient) as u128
}

/// 10^`exponent`, which is at most 26; one beyond that.
pub(super) const fn power_of_ten(exponent: u32) -> u128 {
    if exponent <= DECIMALS { POWERS[exponent as usize] } else { 1 }
}

/// 10^0 to 10^26.
const POWERS: [u128; DECIMALS as usize + 1] = {
    let mut powers = [1; DECIMALS as usize + 1];
    let mut at = 1;
    while at < powers.len() {
        powers[at] = powers[at - 1] * 10;
        at += 1;
    }
    powers
};

/// Those of one word, 10^0 to 10^19, as divisors.
const DIVISORS: [Divisor; 20] = {
    let mut divisors = [Divisor::new(1); 20];
    let mut at = 1;
    while at < divisors.len() {
        divisors[at] = Divisor::new(POWERS[at] as u64);
        at += 1;
    }
    divisors
};

#[cfg(test)]
mod tests {
    use super::*;
    use dashu_int::UBig;

    /// A sequence that is the same everywhere (Knuth's 64-bit linear congruence, its upper half).
    struct Numbers(u64);

    impl Numbers {
        fn next(&mut self) -> u32 {
            self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (self.0 >> 32) as u32
        }

        /// Of any number of bits up to 127, some of them round in tens or in twos.
        fn size(&mut self) -> u128 {
            let all = (0..4).fold(0_u128, |all, _| (all << 32) | u128::from(self.next()));
            let size = all >> (1 + self.next() % 127);
            let round = power_of_ten(self.next() % 27);
            match self.next() % 4 {
                0 if size >= round => size / round * round,
                1 => size | (u128::MAX >> 1 >> (self.next() % 127)),
                2 => size & !(u128::MAX >> (self.next() % 128)),
                _ => size,
            }
        }
    }

    fn triples() -> Vec<[u128; 3]> {
        let corners =
            [0, 1, 2, 5, 99, ONE / 2, ONE - 1, ONE, ONE + 1, 1 << 63, u64::MAX.into(), 1 << 64, LARGEST];
        let mut numbers = Numbers(1);
        let mut triples: Vec<_> =
            (0..200_000).map(|_| [numbers.size(), numbers.size(), numbers.size()]).collect();
        for a in corners {
            for b in corners {
                triples.extend(corners.iter().map(|c| [a, b, *c]));
            }
        }
        triples
    }

    /// The same by long division.
    fn by_the_book(a: u128, b: u128, c: u128) -> Option<u128> {
        let (a, b, c) = (UBig::from(a), UBig::from(b), UBig::from(c));
        if c == UBig::ZERO {
            return None;
        }
        let (whole, rest) = (&a * &b / &c, a * b % &c);
        let twice = rest * UBig::from(2_u8);
        let odd = whole.clone() % UBig::from(2_u8) == UBig::ONE;
        let up = twice > c || (twice == c && odd);
        let size = u128::try_from(whole + UBig::from(u8::from(up))).ok()?;
        (size <= LARGEST).then_some(size)
    }

    #[test]
    fn products_and_quotients_are_those_of_long_division() {
        for [a, b, c] in triples() {
            assert_eq!(product(a, b), by_the_book(a, b, ONE), "{a} * {b}");
            assert_eq!(ratio(a, b, c), by_the_book(a, b, c), "{a} * {b} / {c}");
            assert_eq!(quotient(a, b), by_the_book(a, ONE, b), "{a} / {b}");
        }
    }

    #[test]
    fn a_tie_goes_to_the_even_neighbour() {
        let half = ONE / 2;
        assert_eq!(product(1, half), Some(0));
        assert_eq!(product(3, half), Some(2));
        assert_eq!(ratio(1, 1, 2), Some(0));
        assert_eq!(ratio(3, 1, 2), Some(2));
        assert_eq!([25, 35, 45].map(|value| shortened(value, 1)), [2, 4, 4]);
    }

    #[test]
    fn roundings_are_those_of_long_division() {
        for [a, _, _] in triples() {
            for digits in 0..=DECIMALS {
                let power = power_of_ten(digits);
                assert_eq!(cut(a, digits), (a / power, a % power), "{a}, {digits} digits");
                assert_eq!(Some(shortened(a, digits)), by_the_book(a, 1, power), "{a}, {digits} digits");
            }
        }
    }
}
