//! Numbers.

use std::ffi::c_char;

use lamella::quantity::{self, Exact, Length, Mass, Share, Volume};

use crate::boundary::boundary;
use crate::pointer;
use crate::status::lamella_status;

/// A mass in picograms (1e-12 g), exact: a mass has at most twelve decimals of a gram, so that nothing is rounded, not
/// even an ounce. Sums and differences are exact too. Whole scale steps: divide it by the step of its scale. 64 bits hold
/// 9 223 kg; a figure beyond is LAMELLA_RANGE.
pub type lamella_mass = i64;

/// A share in trillionths (1e-12), exact: 1 000 000 000 000 is the whole, 50 000 000 000 is 5 %.
pub type lamella_share = i64;

/// A length in 1e-12 mm, exact.
pub type lamella_length = i64;

/// A volume in 1e-12 mL, exact.
pub type lamella_volume = i64;

/// The double nearest to one of these numbers in its base unit (g, mm, mL, or 1 for a share). For drawing and for display;
/// it is not exact, and no function takes one.
#[unsafe(no_mangle)]
pub extern "C" fn lamella_approximate(value: i64) -> f64 {
    Exact::from_trillionths(value).approximate()
}

/// Writes one of these numbers in its base unit to `buffer`, with exactly `decimals` places (at most 12), rounded half to
/// even, and a NUL: "41.1" for 41 100 000 000 000 and 1. 32 bytes always do; LAMELLA_BUFFER when `size` does not, and
/// LAMELLA_OPTION for more decimals.
///
/// # Safety
/// `buffer` is writable for `size` bytes.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_decimal(
    value: i64,
    decimals: u32,
    buffer: *mut c_char,
    size: usize,
) -> lamella_status {
    // SAFETY: the caller vouches for `size` bytes.
    boundary(|| unsafe { print(Exact::from_trillionths(value), decimals, buffer, size) })
}

/// The same for a share as per cent, without the sign: "5.0" for 50 000 000 000 and 1.
///
/// # Safety
/// `buffer` is writable for `size` bytes.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_percent(
    value: lamella_share,
    decimals: u32,
    buffer: *mut c_char,
    size: usize,
) -> lamella_status {
    // SAFETY: the caller vouches for `size` bytes.
    boundary(|| unsafe { print(Exact::from_trillionths(value) * Exact::HUNDRED, decimals, buffer, size) })
}

/// # Safety
/// `buffer` is writable for `size` bytes, or NULL.
unsafe fn print(value: Exact, decimals: u32, buffer: *mut c_char, size: usize) -> Result<(), lamella_status> {
    if decimals > lamella::limits::DECIMALS {
        return Err(lamella_status::LAMELLA_OPTION);
    }
    let value = value.decimal().ok_or(lamella_status::LAMELLA_INTERNAL)?;
    // SAFETY: the caller vouches for `size` bytes.
    unsafe { pointer::text_into(buffer, size, &quantity::fixed(value, decimals)) }
}

/// A figure as C gets it.
pub(crate) fn trillionths(value: impl Figure) -> Result<i64, lamella_status> {
    value.count().ok_or(lamella_status::LAMELLA_RANGE)
}

/// What is handed out in trillionths of its base unit.
pub(crate) trait Figure {
    fn count(self) -> Option<i64>;
}

macro_rules! figure {
    ($($kind:ty),*) => {
        $(impl Figure for $kind {
            fn count(self) -> Option<i64> {
                self.trillionths()
            }
        })*
    };
}
figure!(Mass, Share, Length, Volume);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_number_fits_into_32_bytes() {
        for value in [0, i64::MIN, i64::MAX, 41_100_000_000_000, -1] {
            for decimals in [0, 1, 12] {
                let mut buffer = [7; 32];
                // SAFETY: there are 32 bytes.
                let status = unsafe { lamella_decimal(value, decimals, buffer.as_mut_ptr(), 32) };
                assert_eq!(status, lamella_status::LAMELLA_OK, "{value} {decimals}");
                // SAFETY: there are 32 bytes.
                let status = unsafe { lamella_percent(value, decimals, buffer.as_mut_ptr(), 32) };
                assert_eq!(status, lamella_status::LAMELLA_OK, "{value} {decimals}");
            }
        }
    }
}
