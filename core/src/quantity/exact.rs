//! The number that computations run in, of 26 decimals, which never panics.
#![expect(clippy::arithmetic_side_effects, reason = "this file is where the checked operations are made")]

use std::fmt;
use std::ops::{Add, Div, Mul, Neg, Sub};

pub(crate) use self::decimal::{billionths, decimal_literal, difference, sum, trillionths};
pub(in crate::quantity) use self::digits::{push_digits, rounded_digits};
use super::fixed;

mod decimal;
mod digits;
mod steps;

/// A number inside a computation: a whole number of 1e-26 up to 1.7e12, or *poisoned* once an operation overflowed or
/// divided by zero. Poison spreads like a NaN and is met once, where the result becomes a quantity, so a formula reads as
/// a formula.
///
/// Sums are exact. A product or a quotient is rounded once, half to even, at the 26th decimal. A plan publishes twelve
/// decimals of figures below 1e6, so at least six guard digits lie between that rounding and anything a maker sees, after
/// all that a chain of operations spoils; an oracle in rational arithmetic holds the published figures to it.
///
/// ```
/// use lamella::quantity::Exact;
/// let third = Exact::ONE / Exact::from(3);
/// assert_eq!((third * Exact::from(3)).rounded(12), Exact::ONE.rounded(12));
/// assert!((Exact::ONE / Exact::ZERO).decimal().is_none());
/// ```
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct Exact(i128);

// A number of 128 bits is two of WebAssembly's: copied into every formula, its arithmetic would be a tenth of the code of a
// module that has to be downloaded. There the operations are calls.

/// What stands for a number that there is none of.
const POISON: i128 = i128::MIN;

/// Decimals that are still right at the end of a chain: a batch of 100 kg spoils four of the 26, the chain one more.
const GUARD: u32 = 20;

/// `mantissa * 10^-scale` in the unit; poison when it is too large or the scale is below it.
const fn in_unit(mantissa: i128, scale: u32) -> i128 {
    if scale > fixed::DECIMALS {
        return POISON;
    }
    let power = fixed::power_of_ten(fixed::DECIMALS - scale) as i128;
    // Most mantissas are short, and a short product needs no check.
    if mantissa.unsigned_abs().leading_zeros() + power.leading_zeros() > 128 {
        return mantissa * power;
    }
    match mantissa.checked_mul(power) {
        Some(value) => value,
        None => POISON,
    }
}

impl Exact {
    /// Nought.
    pub const ZERO: Self = Self(0);
    /// One.
    pub const ONE: Self = Self::literal(1, 0);
    /// No number at all.
    pub const POISONED: Self = Self(POISON);
    /// One thousand: milligrams in a gram.
    pub const THOUSAND: Self = Self::literal(1000, 0);
    /// One thousandth: grams in a milligram.
    pub const THOUSANDTH: Self = Self::literal(1, 3);
    /// One hundred: parts in a per cent.
    pub const HUNDRED: Self = Self::literal(100, 0);

    /// `mantissa * 10^-scale`, at compile time; `scale` is at most 26.
    #[must_use]
    pub const fn literal(mantissa: i64, scale: u32) -> Self {
        Self(in_unit(mantissa as i128, scale))
    }

    /// How many things there are.
    #[must_use]
    pub fn count(things: usize) -> Self {
        i128::try_from(things).map_or(Self(POISON), |things| Self(in_unit(things, 0)))
    }

    const fn is_poisoned(self) -> bool {
        self.0 == POISON
    }

    /// Without the digits that a chain of operations leaves behind the twentieth decimal. A value that lies exactly
    /// between two neighbours, as ounces and per cents easily do, comes out of a chain a hair beside the middle, and would
    /// be rounded to the wrong one.
    ///
    /// ```
    /// use lamella::quantity::Exact;
    /// let third = Exact::ONE / Exact::from(3);
    /// let middle = third * Exact::literal(75, 1); // 2.5, but for the 26th decimal
    /// assert_eq!(middle.rounded(0).unwrap().to_string(), "2");
    /// assert_eq!((middle + Exact::literal(3, 26)).rounded(0).unwrap().to_string(), "3");
    /// assert_eq!((middle + Exact::literal(3, 26)).steps(Exact::ONE), Some(2));
    /// ```
    #[must_use]
    pub fn settled(self) -> Self {
        self.settled_at(GUARD)
    }

    /// Rounded half to even at `decimals` places, of which there are at most 26.
    pub(crate) fn settled_at(self, decimals: u32) -> Self {
        if self.is_poisoned() {
            return self;
        }
        let digits = fixed::DECIMALS.saturating_sub(decimals);
        let size = fixed::shortened(self.0.unsigned_abs(), digits).checked_mul(fixed::power_of_ten(digits));
        with_sign(size, self.0 < 0)
    }

    /// So many times this value, exactly.
    #[must_use]
    #[cfg_attr(target_arch = "wasm32", inline(never))]
    pub const fn times(self, count: i64) -> Self {
        match self.0.checked_mul(count as i128) {
            Some(product) if !self.is_poisoned() => Self(product),
            _ => Self(POISON),
        }
    }

    /// `self * part / whole`, rounded once.
    ///
    /// ```
    /// use lamella::quantity::Exact;
    /// let [seven, three] = [7, 3].map(Exact::from);
    /// assert_eq!(seven.portion(three, seven), three);
    /// ```
    #[must_use]
    #[cfg_attr(target_arch = "wasm32", inline(never))]
    pub const fn portion(self, part: Self, whole: Self) -> Self {
        if self.is_poisoned() || part.is_poisoned() || whole.is_poisoned() {
            return Self(POISON);
        }
        if self.is_zero() && !whole.is_zero() {
            return self;
        }
        let size = fixed::ratio(self.0.unsigned_abs(), part.0.unsigned_abs(), whole.0.unsigned_abs());
        with_sign(size, (self.0 ^ part.0 ^ whole.0) < 0)
    }

    /// The sum, at compile time too; operators are not.
    #[cfg_attr(target_arch = "wasm32", inline(never))]
    pub(crate) const fn plus(self, other: Self) -> Self {
        match self.0.checked_add(other.0) {
            Some(sum) if !self.is_poisoned() && !other.is_poisoned() => Self(sum),
            _ => Self(POISON),
        }
    }

    /// The product, at compile time too.
    #[cfg_attr(target_arch = "wasm32", inline(never))]
    pub(crate) const fn by(self, other: Self) -> Self {
        if self.is_poisoned() || other.is_poisoned() {
            return Self(POISON);
        }
        if self.is_zero() || other.is_zero() {
            return Self::ZERO;
        }
        let size = fixed::product(self.0.unsigned_abs(), other.0.unsigned_abs());
        with_sign(size, (self.0 ^ other.0) < 0)
    }

    /// The quotient, at compile time too.
    #[cfg_attr(target_arch = "wasm32", inline(never))]
    pub(crate) const fn over(self, other: Self) -> Self {
        if self.is_poisoned() || other.is_poisoned() {
            return Self(POISON);
        }
        let size = fixed::quotient(self.0.unsigned_abs(), other.0.unsigned_abs());
        with_sign(size, (self.0 ^ other.0) < 0)
    }

    /// Whether the value is below nought (a poisoned one is not).
    #[must_use]
    pub const fn is_negative(self) -> bool {
        self.0 < 0 && !self.is_poisoned()
    }

    /// Whether the value is above nought (a poisoned one is not).
    #[must_use]
    pub const fn is_positive(self) -> bool {
        self.0 > 0
    }

    /// Whether the value lies between two others, both included; a poisoned one does not.
    pub(crate) const fn is_between(self, least: Self, most: Self) -> bool {
        !self.is_poisoned() && least.0 <= self.0 && self.0 <= most.0
    }

    /// Whether the value lies between `-bound` and `bound`, both included; a poisoned one does not.
    #[must_use]
    pub const fn is_within(self, bound: Self) -> bool {
        !self.is_poisoned() && self.0.unsigned_abs() <= bound.0.unsigned_abs()
    }

    /// Whether the value is exactly nought.
    #[must_use]
    pub const fn is_zero(self) -> bool {
        self.0 == 0
    }

    /// The smaller of two; poison wins.
    #[must_use]
    pub fn min(self, other: Self) -> Self {
        // Poison is the smallest of all.
        Self(self.0.min(other.0))
    }

    /// The larger of two; poison wins.
    #[must_use]
    pub fn max(self, other: Self) -> Self {
        if self.is_poisoned() || other.is_poisoned() { Self(POISON) } else { Self(self.0.max(other.0)) }
    }
}

const fn with_sign(size: Option<u128>, negative: bool) -> Exact {
    match size {
        Some(size) if size > fixed::LARGEST => Exact(POISON),
        Some(size) if negative => Exact(-(size as i128)),
        Some(size) => Exact(size as i128),
        None => Exact(POISON),
    }
}

impl fmt::Debug for Exact {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.decimal() {
            Some(value) => write!(f, "Exact({value})"),
            None => f.write_str("Exact(poisoned)"),
        }
    }
}

impl From<i64> for Exact {
    fn from(value: i64) -> Self {
        Self(in_unit(i128::from(value), 0))
    }
}

impl Add for Exact {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        self.plus(other)
    }
}

impl Sub for Exact {
    type Output = Self;
    #[cfg_attr(target_arch = "wasm32", inline(never))]
    fn sub(self, other: Self) -> Self {
        match self.0.checked_sub(other.0) {
            Some(difference) if !self.is_poisoned() && !other.is_poisoned() => Self(difference),
            _ => Self(POISON),
        }
    }
}

impl Mul for Exact {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        self.by(other)
    }
}

impl Div for Exact {
    type Output = Self;
    fn div(self, other: Self) -> Self {
        self.over(other)
    }
}

impl Neg for Exact {
    type Output = Self;
    fn neg(self) -> Self {
        // The negative of poison is none, and stays poison.
        Self(self.0.wrapping_neg())
    }
}

impl std::iter::Sum for Exact {
    fn sum<I: Iterator<Item = Self>>(iter: I) -> Self {
        iter.fold(Self::ZERO, |total, item| total + item)
    }
}
