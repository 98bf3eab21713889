//! From a number inside a computation to a decimal or a double, and back.
#![expect(clippy::arithmetic_side_effects, reason = "sizes stay below 128 bits, scales below 27")]

use rust_decimal::Decimal;

use super::{Exact, GUARD, POISON, fixed, in_unit, with_sign};
use crate::limits;

/// Bits of a decimal's mantissa: 96.
const MANTISSA: u128 = 1 << 96;

impl Exact {
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
fn short(size: u64, negative: bool, scale: u32) -> Decimal {
    let (size, scale) = stripped(size, scale);
    Decimal::from_parts(size as u32, (size >> 32) as u32, 0, negative && size > 0, scale)
}

/// `size * 10^-scale` without closing noughts after the point.
pub(super) fn stripped(mut size: u64, mut scale: u32) -> (u64, u32) {
    if size == 0 {
        return (0, 0);
    }
    strip::<8, 100_000_000>(&mut size, &mut scale);
    strip::<4, 10_000>(&mut size, &mut scale);
    strip::<2, 100>(&mut size, &mut scale);
    strip::<1, 10>(&mut size, &mut scale);
    (size, scale)
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

/// A published figure in trillionths; nothing when it has more decimals, or 64 bits do not hold it.
pub(crate) fn trillionths(value: Decimal) -> Option<i64> {
    let value = if value.scale() > limits::DECIMALS { value.normalize() } else { value };
    let factor = fixed::power_of_ten(limits::DECIMALS.checked_sub(value.scale())?);
    i64::try_from(value.mantissa().checked_mul(i128::try_from(factor).ok()?)?).ok()
}
