//! A number as a count of steps.
#![expect(clippy::arithmetic_side_effects, reason = "a rest is below its step, and a step has 127 bits")]

use super::{Exact, GUARD, fixed};

/// A part of a step is near nought, a half or a whole when it is off by less than one in so many bits: far more than the
/// guard settles.
const NEAR: u32 = 60;

/// `rest` as a part of `step`, in units of the last decimal of the guard.
fn part_of(rest: u128, step: u128) -> Option<u128> {
    fixed::ratio(rest, fixed::power_of_ten(GUARD), step)
}

impl Exact {
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

    pub(super) fn counted(self, size: u128) -> Option<i64> {
        let size = i128::try_from(size).ok()?;
        i64::try_from(if self.0 < 0 { -size } else { size }).ok()
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
}
