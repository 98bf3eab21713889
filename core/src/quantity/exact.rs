//! The number that computations run in, of 28 digits, which never panics. Only this file and `wide` touch decimals.
#![expect(clippy::arithmetic_side_effects, reason = "this file is where the checked operations are made")]

use std::ops::{Add, Div, Mul, Neg, Sub};

use rust_decimal::Decimal;

use super::wide;
use crate::limits::DECIMALS;

/// A number inside a computation: up to 28 significant digits, or *poisoned* once an operation overflowed or divided
/// by zero. Poison spreads like a NaN and is met once, where the result becomes a quantity, so a formula reads as a
/// formula.
///
/// The decimal library rounds silently past 28 digits. A chain of a plan starts from values below 1e6 with few decimals
/// and publishes twelve decimals, so at least nine guard digits lie between that rounding and anything a maker sees; an
/// oracle in rational arithmetic holds the published figures to it.
///
/// ```
/// use lamella::quantity::Exact;
/// let third = Exact::ONE / Exact::from(3);
/// assert_eq!((third * Exact::from(3)).rounded(12), Exact::ONE.rounded(12));
/// assert!((Exact::ONE / Exact::ZERO).decimal().is_none());
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Exact(Option<Decimal>);

impl Exact {
    /// Nought.
    pub const ZERO: Self = Self(Some(Decimal::ZERO));
    /// One.
    pub const ONE: Self = Self(Some(Decimal::ONE));
    /// One thousand: milligrams in a gram.
    pub const THOUSAND: Self = Self(Some(Decimal::ONE_THOUSAND));
    /// One hundred: parts in a per cent.
    pub const HUNDRED: Self = Self(Some(Decimal::ONE_HUNDRED));

    /// `mantissa * 10^-scale`, at compile time; `scale` is at most 28.
    #[must_use]
    pub const fn literal(mantissa: i64, scale: u32) -> Self {
        Self(Some(decimal_literal(mantissa, scale)))
    }

    /// How many things there are.
    #[must_use]
    pub fn count(things: usize) -> Self {
        Self(Some(Decimal::from(things)))
    }

    /// The value, or nothing when it is poisoned.
    #[must_use]
    pub const fn decimal(self) -> Option<Decimal> {
        self.0
    }

    /// Rounded half to even at `decimals` places; nothing when it is poisoned.
    #[must_use]
    pub fn rounded(self, decimals: u32) -> Option<Decimal> {
        self.0.map(|value| wide::rounded(value, decimals))
    }

    /// The value as a published figure keeps it: rounded at the twelfth decimal, after the [guard](Self::settled) is
    /// off.
    #[must_use]
    pub fn published(self) -> Option<Decimal> {
        self.settled().rounded(DECIMALS)
    }

    /// Without the digits that a chain of operations leaves behind the twentieth decimal. A value that lies exactly
    /// between two neighbours, as ounces and per cents easily do, comes out of a chain a hair beside the middle, and would
    /// be rounded to the wrong one.
    ///
    /// ```
    /// use lamella::quantity::Exact;
    /// let third = Exact::ONE / Exact::from(3);
    /// let middle = third * Exact::literal(75, 1); // 2.5, but for the 28th digit
    /// assert_eq!(middle.rounded(0).unwrap().to_string(), "2");
    /// assert_eq!((middle + Exact::literal(1, 27) * Exact::from(2)).rounded(0).unwrap().to_string(), "3");
    /// assert_eq!((middle + Exact::literal(1, 27) * Exact::from(2)).steps(Exact::ONE), Some(2));
    /// ```
    #[must_use]
    pub fn settled(self) -> Self {
        Self(self.rounded(GUARD))
    }

    /// Whole units of `step` nearest to this value, half to even; nothing when poisoned, `step` is not above nought or
    /// the count passes 64 bits.
    #[must_use]
    pub fn steps(self, step: Self) -> Option<i64> {
        whole(nearest((self / step).settled().0?))
    }

    /// Whole units of `step` that fit into this value; nothing in the cases of [`steps`](Self::steps).
    #[must_use]
    pub fn whole_steps(self, step: Self) -> Option<i64> {
        whole(wide::floor((self / step).settled().0?))
    }

    /// The billionths that are in it, and what remains in units of 1e-28: numbers that compare quickly. Nothing when
    /// poisoned or past 64 bits.
    pub(crate) fn billionths(self) -> Option<(i64, u64)> {
        wide::billionths(self.0?)
    }

    /// Whether the value is below nought (a poisoned one is not).
    #[must_use]
    pub fn is_negative(self) -> bool {
        self.0.is_some_and(|value| value.is_sign_negative() && !value.is_zero())
    }

    /// Whether the value is above nought (a poisoned one is not).
    #[must_use]
    pub fn is_positive(self) -> bool {
        self.0.is_some_and(|value| value.is_sign_positive() && !value.is_zero())
    }

    /// Whether the value is exactly nought.
    #[must_use]
    pub fn is_zero(self) -> bool {
        self.0.is_some_and(|value| value.is_zero())
    }

    /// The smaller of two; poison wins.
    #[must_use]
    pub fn min(self, other: Self) -> Self {
        Self(self.0.zip(other.0).map(|(a, b)| a.min(b)))
    }

    /// The larger of two; poison wins.
    #[must_use]
    pub fn max(self, other: Self) -> Self {
        Self(self.0.zip(other.0).map(|(a, b)| a.max(b)))
    }

    /// The nearest double, for drawing and for physics that is approximate anyway. NaN when poisoned.
    #[must_use]
    pub fn approximate(self) -> f64 {
        use rust_decimal::prelude::ToPrimitive;
        self.0.and_then(|value| value.to_f64()).unwrap_or(f64::NAN)
    }

    /// A double rounded to `decimals` places; poisoned when it is not a finite number that 28 digits hold.
    #[must_use]
    pub fn from_approximate(value: f64, decimals: u32) -> Self {
        use rust_decimal::prelude::FromPrimitive;
        Self(Decimal::from_f64(value)).map(|value| value.round_dp(decimals).normalize())
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
        let value = self.0?;
        let value = if value.scale() > DECIMALS { value.normalize() } else { value };
        let missing = usize::try_from(DECIMALS.checked_sub(value.scale())?).ok()?;
        i64::try_from(value.mantissa().checked_mul(*POWERS.get(missing)?)?).ok()
    }

    /// So many trillionths.
    #[must_use]
    pub fn from_trillionths(count: i64) -> Self {
        Self::literal(count, DECIMALS).map(|value| value.normalize())
    }

    fn map(self, change: impl FnOnce(Decimal) -> Decimal) -> Self {
        Self(self.0.map(change))
    }
}

/// Powers of ten up to that of a trillionth.
const POWERS: [i128; 13] = [
    1,
    10,
    100,
    1_000,
    10_000,
    100_000,
    1_000_000,
    10_000_000,
    100_000_000,
    1_000_000_000,
    10_000_000_000,
    100_000_000_000,
    1_000_000_000_000,
];

/// Decimals that are still right at the end of a chain: a batch of a tonne keeps 22, and a chain spoils one or two.
const GUARD: u32 = 20;

/// `mantissa * 10^-scale` as a decimal, at compile time.
pub(crate) const fn decimal_literal(mantissa: i64, scale: u32) -> Decimal {
    assert!(scale <= 28, "a decimal has at most 28 decimals");
    let size = mantissa.unsigned_abs();
    Decimal::from_parts((size & 0xffff_ffff) as u32, (size >> 32) as u32, 0, mantissa < 0, scale)
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

fn nearest(value: Decimal) -> Decimal {
    wide::rounded(value, 0)
}

fn whole(value: Decimal) -> Option<i64> {
    use rust_decimal::prelude::ToPrimitive;
    value.to_i64()
}

impl From<i64> for Exact {
    fn from(value: i64) -> Self {
        Self(Some(Decimal::from(value)))
    }
}

impl From<Decimal> for Exact {
    fn from(value: Decimal) -> Self {
        Self(Some(value))
    }
}

impl From<Option<Decimal>> for Exact {
    fn from(value: Option<Decimal>) -> Self {
        Self(value)
    }
}

impl Add for Exact {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.zip(other.0).and_then(|(a, b)| wide::sum(a, b)))
    }
}

impl Sub for Exact {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.zip(other.0).and_then(|(a, b)| wide::sum(a, -b)))
    }
}

impl Mul for Exact {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        Self(self.0.zip(other.0).and_then(|(a, b)| wide::product(a, b)))
    }
}

impl Div for Exact {
    type Output = Self;
    fn div(self, other: Self) -> Self {
        Self(self.0.zip(other.0).and_then(|(a, b)| wide::quotient(a, b)))
    }
}

impl Neg for Exact {
    type Output = Self;
    fn neg(self) -> Self {
        Self(self.0.map(|value| -value))
    }
}

impl std::iter::Sum for Exact {
    fn sum<I: Iterator<Item = Self>>(iter: I) -> Self {
        iter.fold(Self::ZERO, |total, item| total + item)
    }
}
