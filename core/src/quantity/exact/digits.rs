//! A figure as the digits of a document.
#![expect(clippy::arithmetic_side_effects, reason = "sizes stay below 64 bits, places below 40")]

use rust_decimal::Decimal;

use super::decimal::stripped;
use crate::quantity::Exact;

/// Digits before and after the point of 64 bits with up to 19 decimals.
const MOST: usize = 22;

/// Appends `value` times ten to the power of `shift`, without closing noughts: the text of that decimal. Documents are
/// little but figures, and nearly every one of them fits into 64 bits, where this takes a fraction of the time.
pub(in crate::quantity) fn push_digits(text: &mut String, value: Decimal, shift: u32) {
    match small(value, shift) {
        Some((size, scale)) => push_small(text, size, scale, value.is_sign_negative()),
        None => {
            let power = Exact::literal(10_i64.saturating_pow(shift), 0);
            let value =
                if shift == 0 { None } else { (Exact::from(value) * power).decimal() }.unwrap_or(value);
            text.push_str(&value.normalize().to_string());
        }
    }
}

/// The size of a figure of 64 bits, and its decimals, at most 19.
fn small(value: Decimal, shift: u32) -> Option<(u64, usize)> {
    let size = u64::try_from(value.mantissa().unsigned_abs()).ok()?;
    let scale = value.scale();
    if scale < shift {
        return Some((size.checked_mul(10_u64.checked_pow(shift - scale)?)?, 0));
    }
    let (size, scale) = stripped(size, scale - shift);
    (scale < 20).then_some((size, usize::try_from(scale).ok()?))
}

/// `value` with exactly `decimals` places, rounded half to even; nothing when 64 bits do not hold it.
pub(in crate::quantity) fn rounded_digits(value: Decimal, decimals: u32) -> Option<String> {
    let size = u64::try_from(value.mantissa().unsigned_abs()).ok()?;
    let scale = value.scale();
    let size = if scale <= decimals {
        size.checked_mul(10_u64.checked_pow(decimals - scale)?)?
    } else {
        let power = 10_u64.checked_pow(scale - decimals)?;
        let (whole, rest) = (size / power, size % power);
        whole + u64::from(rest > power / 2 || (rest == power / 2 && whole & 1 == 1))
    };
    let mut text = String::with_capacity(16);
    push_small(
        &mut text,
        size,
        usize::try_from(decimals).ok().filter(|places| *places < 20)?,
        value.is_sign_negative(),
    );
    Some(text)
}

fn push_small(text: &mut String, mut size: u64, scale: usize, negative: bool) {
    if negative && size > 0 {
        text.push('-');
    }
    let mut digits = [b'0'; MOST];
    let mut first = MOST;
    let mut written = 0;
    // From the last digit on; a nought stands before the point even where nothing else does.
    while size > 0 || written <= scale {
        if written == scale && scale > 0 {
            first -= 1;
            if let Some(place) = digits.get_mut(first) {
                *place = b'.';
            }
        }
        first -= 1;
        if let Some(place) = digits.get_mut(first) {
            *place = b'0' + (size % 10) as u8;
        }
        size /= 10;
        written += 1;
    }
    text.push_str(
        digits.get(first..).and_then(|digits| std::str::from_utf8(digits).ok()).unwrap_or_default(),
    );
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pushed(value: Decimal, shift: u32) -> String {
        let mut text = String::new();
        push_digits(&mut text, value, shift);
        text
    }

    #[test]
    fn ends_of_the_range() {
        let most = i128::from(u64::MAX);
        for (mantissa, scale, shift, wanted) in [
            (0, 0, 0, "0"),
            (0, 12, 2, "0"),
            (-5, 1, 0, "-0.5"),
            (5, 3, 2, "0.5"),
            (-5, 0, 2, "-500"),
            (1, 19, 0, "0.0000000000000000001"),
            (1, 20, 0, "0.00000000000000000001"),
            (10, 20, 0, "0.0000000000000000001"),
            (most, 0, 0, "18446744073709551615"),
            (most, 19, 0, "1.8446744073709551615"),
            (most + 1, 3, 0, "18446744073709551.616"),
            (most, 3, 2, "1844674407370955161.5"),
        ] {
            let value = Decimal::from_i128_with_scale(mantissa, scale);
            assert_eq!(pushed(value, shift), wanted, "{mantissa} {scale} {shift}");
        }
    }

    #[test]
    fn digits_are_those_of_the_decimal() {
        // A walk through mantissas of every length: Knuth's multiplier for 64 bits.
        let mut state = 1_u64;
        let mut rounded = 0;
        for count in 0..200_000_u32 {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            let mantissa = i128::from(state.cast_signed() >> (count % 64));
            let value = Decimal::from_i128_with_scale(mantissa, count % 29);
            assert_eq!(pushed(value, 0), value.normalize().to_string());
            let places = count % 13;
            let wanted = format!("{:.*}", places as usize, value.round_dp(places));
            let negative_nought =
                wanted.starts_with('-') && !wanted.contains(|digit: char| matches!(digit, '1'..='9'));
            let wanted = if negative_nought { wanted.replace('-', "") } else { wanted };
            if let Some(text) = rounded_digits(value, places) {
                assert_eq!(text, wanted, "{value} to {places}");
                rounded += 1;
            }
            // A share has at most twelve decimals, and a thousand millions is more than any.
            let share = Decimal::from_i128_with_scale(mantissa % 1_000_000_000_000_000, count % 13);
            assert_eq!(pushed(share, 2), (share * Decimal::ONE_HUNDRED).normalize().to_string());
        }
        assert!(rounded > 150_000, "{rounded}");
    }
}
