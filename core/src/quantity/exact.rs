//! The number that computations run in, of 26 decimals, which never panics.
#![expect(clippy::arithmetic_side_effects, reason = "this file is where the checked operations are made")]

use std::fmt;
use std::ops::{Add, Div, Mul, Neg, Sub};

use rust_decimal::Decimal;

use super::fixed;
use crate::limits;

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

/// What stands for a number that there is none of.
const POISON: i128 = i128::MIN;

/// Decimals that are still right at the end of a chain: a batch of 100 kg spoils four of the 26, the chain one more.
const GUARD: u32 = 20;

/// A part of a step is near nought, a half or a whole when it is off by less than one in so many bits: far more than the
/// guard settles.
const NEAR: u32 = 60;

/// `rest` as a part of `step`, in units of the last decimal of the guard.
fn part_of(rest: u128, step: u128) -> Option<u128> {
    fixed::ratio(rest, fixed::power_of_ten(GUARD), step)
}

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

    /// The value, to 28 digits and without closing noughts; nothing when it is poisoned.
    #[must_use]
    pub fn decimal(self) -> Option<Decimal> {
        if self.is_poisoned() {
            return None;
        }
        let size = self.0.unsigned_abs();
        // Of 128 bits at most ten digits go, and the 96 bits that a decimal has are left.
        (0..=fixed::DECIMALS).find_map(|digits| {
            let size = fixed::shortened(size, digits);
            (size < MANTISSA).then(|| self.as_signed(size, fixed::DECIMALS - digits))
        })
    }

    /// Rounded half to even at `decimals` places; nothing when it is poisoned or 28 digits do not hold it.
    #[must_use]
    pub fn rounded(self, decimals: u32) -> Option<Decimal> {
        if decimals >= fixed::DECIMALS {
            return self.decimal();
        }
        if self.is_poisoned() {
            return None;
        }
        let size = fixed::shortened(self.0.unsigned_abs(), fixed::DECIMALS - decimals);
        (size < MANTISSA).then(|| self.as_signed(size, decimals))
    }

    /// The value as a published figure keeps it: rounded at the twelfth decimal, after the [guard](Self::settled) is
    /// off.
    #[must_use]
    pub fn published(self) -> Option<Decimal> {
        if self.is_poisoned() {
            return None;
        }
        Some(self.as_signed(self.published_size(), limits::DECIMALS))
    }

    /// As [`published`](Self::published), where it lies within `limit`.
    pub(crate) fn published_within(self, limit: &limits::Limit) -> Option<Decimal> {
        // The ends of a range are whole numbers, which rounding does not pass.
        if limit.holds_exact(self) {
            return Some(self.as_signed(self.published_size(), limits::DECIMALS));
        }
        self.published().filter(|value| limit.holds(*value))
    }

    /// Its size as a whole number of the twelfth decimal: at most 82 bits.
    fn published_size(self) -> u128 {
        const BEHIND: u32 = fixed::DECIMALS - limits::DECIMALS;
        const SETTLED: u64 = 10_u64.pow(fixed::DECIMALS - GUARD);
        const HALF: u64 = 10_u64.pow(GUARD - limits::DECIMALS) / 2;
        let (whole, rest) = fixed::cut(self.0.unsigned_abs(), BEHIND);
        // The rest is below 1e14.
        let rest = rest as u64;
        let (settled, below) = (rest / SETTLED, rest % SETTLED);
        let settled = settled + u64::from(below > SETTLED / 2 || (below == SETTLED / 2 && settled & 1 == 1));
        whole + u128::from(settled > HALF || (settled == HALF && whole & 1 == 1))
    }

    /// `size * 10^-scale` with the sign of this number, without closing noughts.
    fn as_signed(self, size: u128, scale: u32) -> Decimal {
        plain(size, self.0 < 0, scale)
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

    /// Whole units of `step` nearest to this value, half to even; nothing when poisoned, `step` is not above nought or
    /// the count passes 64 bits.
    #[must_use]
    pub fn steps(self, step: Self) -> Option<i64> {
        let (whole, rest, step) = self.in_steps(step)?;
        // Far from the middle there is nothing to settle. Twice the rest is below twice the step, which has 127 bits.
        let (twice, near) = (rest * 2, step >> NEAR);
        let up = if twice.abs_diff(step) > near {
            twice > step
        } else {
            const HALF: u128 = fixed::power_of_ten(GUARD) / 2;
            let part = part_of(rest, step)?;
            part > HALF || (part == HALF && whole & 1 == 1)
        };
        self.counted(whole + u128::from(up))
    }

    /// Whole units of `step` that fit into this value; nothing in the cases of [`steps`](Self::steps).
    #[must_use]
    pub fn whole_steps(self, step: Self) -> Option<i64> {
        let (whole, rest, step) = self.in_steps(step)?;
        let near = step >> NEAR;
        let (full, over) = if rest > near && step - rest > near {
            (false, true)
        } else {
            const WHOLE: u128 = fixed::power_of_ten(GUARD);
            let part = part_of(rest, step)?;
            (part == WHOLE, part > 0 && part < WHOLE)
        };
        self.counted(whole + u128::from(full) + u128::from(over && self.0 < 0))
    }

    /// How often `step` goes into the size of this number, what remains, and the size of the step.
    fn in_steps(self, step: Self) -> Option<(u128, u128, u128)> {
        if self.is_poisoned() || step.0 <= 0 {
            return None;
        }
        let (size, step) = (self.0.unsigned_abs(), step.0.unsigned_abs());
        let whole = size / step;
        Some((whole, size - whole * step, step))
    }

    fn counted(self, size: u128) -> Option<i64> {
        let size = i128::try_from(size).ok()?;
        i64::try_from(if self.0 < 0 { -size } else { size }).ok()
    }

    /// So many times this value, exactly.
    #[must_use]
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
    pub(crate) const fn plus(self, other: Self) -> Self {
        match self.0.checked_add(other.0) {
            Some(sum) if !self.is_poisoned() && !other.is_poisoned() => Self(sum),
            _ => Self(POISON),
        }
    }

    /// The product, at compile time too.
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
    pub(crate) const fn over(self, other: Self) -> Self {
        if self.is_poisoned() || other.is_poisoned() {
            return Self(POISON);
        }
        let size = fixed::quotient(self.0.unsigned_abs(), other.0.unsigned_abs());
        with_sign(size, (self.0 ^ other.0) < 0)
    }

    /// A decimal, at compile time too.
    pub(crate) const fn of_decimal(value: Decimal) -> Self {
        let (mantissa, scale) = (value.mantissa(), value.scale());
        if mantissa == 0 {
            return Self::ZERO;
        }
        if scale <= fixed::DECIMALS {
            return Self(in_unit(mantissa, scale));
        }
        let size = fixed::shortened(mantissa.unsigned_abs(), scale - fixed::DECIMALS);
        with_sign(Some(size), mantissa < 0)
    }

    /// The billionths that are in it, and what remains in units of 1e-26: numbers that compare quickly. Nothing when
    /// poisoned or past 64 bits.
    pub(crate) fn billionths(self) -> Option<(i64, u64)> {
        const BILLIONTH: u64 = 10_u64.pow(fixed::DECIMALS - 9);
        if self.is_poisoned() {
            return None;
        }
        let (whole, rest) = fixed::cut(self.0.unsigned_abs(), fixed::DECIMALS - 9);
        let (whole, rest) = (i64::try_from(whole).ok()?, u64::try_from(rest).ok()?);
        match (self.0 < 0, rest) {
            (false, _) => Some((whole, rest)),
            (true, 0) => Some((-whole, 0)),
            (true, _) => Some((-whole - 1, BILLIONTH - rest)),
        }
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

    /// A double beside the value, for drawing and for physics that is approximate anyway. NaN when poisoned.
    #[must_use]
    #[expect(clippy::float_arithmetic, reason = "it becomes a float")]
    pub fn approximate(self) -> f64 {
        if self.is_poisoned() {
            return f64::NAN;
        }
        let size = self.0.unsigned_abs();
        let size = if let Ok(small) = u64::try_from(size) {
            small as f64 / 1e26
        } else {
            // Of what is not small, eighteen decimals are more than a double tells apart, and a power of ten that it
            // holds exactly.
            let (shorter, _) = fixed::cut(size, fixed::DECIMALS - 18);
            let (whole, rest) = fixed::cut(shorter, 18);
            whole as f64 + rest as f64 / 1e18
        };
        if self.0 < 0 { -size } else { size }
    }

    /// A double rounded to `decimals` places; poisoned when it is not a finite number that fits.
    #[must_use]
    #[expect(clippy::float_arithmetic, reason = "it was a float")]
    pub fn from_approximate(value: f64, decimals: u32) -> Self {
        if !value.is_finite() {
            return Self(POISON);
        }
        // A cast cuts off, and stops at the largest number there is, which then is too large for the unit.
        let whole = value as i64;
        let rest = libm::rint((value - whole as f64) * 1e26) as i128;
        Self(in_unit(i128::from(whole), 0)).plus(Self(rest)).settled_at(decimals)
    }

    /// The value in trillionths, the last digit that a quantity keeps; exact. Nothing when it is poisoned, has more decimals
    /// than a quantity, or passes 64 bits, which is 9 223 372 units.
    ///
    /// ```
    /// use lamella::quantity::{Exact, Mass};
    /// let ounce: Mass = "1 oz".parse()?;
    /// assert_eq!(ounce.exact().trillionths(), Some(28_349_523_125_000));
    /// assert_eq!(Exact::from_trillionths(28_349_523_125_000), ounce.exact());
    /// assert_eq!((Exact::ONE / Exact::from(3)).trillionths(), None);
    /// # Ok::<(), lamella::quantity::QuantityError>(())
    /// ```
    #[must_use]
    pub fn trillionths(self) -> Option<i64> {
        if self.is_poisoned() {
            return None;
        }
        let digits = fixed::DECIMALS.checked_sub(limits::DECIMALS)?;
        let (size, 0) = fixed::cut(self.0.unsigned_abs(), digits) else { return None };
        self.counted(size)
    }

    /// So many trillionths.
    #[must_use]
    pub const fn from_trillionths(count: i64) -> Self {
        Self::literal(count, limits::DECIMALS)
    }
}

/// Bits of a decimal's mantissa: 96.
const MANTISSA: u128 = 1 << 96;

const fn with_sign(size: Option<u128>, negative: bool) -> Exact {
    match size {
        Some(size) if size > fixed::LARGEST => Exact(POISON),
        Some(size) if negative => Exact(-(size as i128)),
        Some(size) => Exact(size as i128),
        None => Exact(POISON),
    }
}

/// `size * 10^-scale`, of at most 96 bits, without closing noughts after the point and without a minus before nought.
fn plain(mut size: u128, negative: bool, mut scale: u32) -> Decimal {
    if size == 0 {
        return Decimal::ZERO;
    }
    // Every figure below eighteen million fits into 64 bits, where a division is cheap.
    while scale > 0 && size > u128::from(u64::MAX) {
        let (shorter, rest) = fixed::cut(size, 1);
        if rest != 0 {
            break;
        }
        (size, scale) = (shorter, scale - 1);
    }
    match u64::try_from(size) {
        Ok(size) => short(size, negative, scale),
        Err(_) => Decimal::from_parts(size as u32, (size >> 32) as u32, (size >> 64) as u32, negative, scale),
    }
}

/// The same of 64 bits.
fn short(mut size: u64, negative: bool, mut scale: u32) -> Decimal {
    strip::<8, 100_000_000>(&mut size, &mut scale);
    strip::<4, 10_000>(&mut size, &mut scale);
    strip::<2, 100>(&mut size, &mut scale);
    strip::<1, 10>(&mut size, &mut scale);
    Decimal::from_parts(size as u32, (size >> 32) as u32, 0, negative && size > 0, scale)
}

/// Takes closing noughts off, `DIGITS` at a time; `POWER` is so many tens.
fn strip<const DIGITS: u32, const POWER: u64>(size: &mut u64, scale: &mut u32) {
    while *scale >= DIGITS && *size & 1 == 0 && size.is_multiple_of(POWER) {
        *size /= POWER;
        *scale -= DIGITS;
    }
}

/// `mantissa * 10^-scale` as a decimal, at compile time.
pub(crate) const fn decimal_literal(mantissa: i64, scale: u32) -> Decimal {
    assert!(scale <= 28, "a decimal has at most 28 decimals");
    let size = mantissa.unsigned_abs();
    Decimal::from_parts((size & 0xffff_ffff) as u32, (size >> 32) as u32, 0, mantissa < 0, scale)
}

/// So many billionths as a decimal.
pub(crate) fn billionths(count: i64) -> Decimal {
    short(count.unsigned_abs(), count < 0, 9)
}

/// Exact sum of two published figures. Both lie within their limits and have at most twelve decimals, so the sum has
/// at most 22 digits; ten thousand such addends still fit in 28.
pub(crate) fn sum(a: Decimal, b: Decimal) -> Decimal {
    a + b
}

/// Exact difference of two published figures; see [`sum`].
pub(crate) fn difference(a: Decimal, b: Decimal) -> Decimal {
    a - b
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

impl From<Decimal> for Exact {
    fn from(value: Decimal) -> Self {
        Self::of_decimal(value)
    }
}

impl From<Option<Decimal>> for Exact {
    fn from(value: Option<Decimal>) -> Self {
        value.map_or(Self(POISON), Self::from)
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
