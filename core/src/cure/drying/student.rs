//! Student's distribution for whole degrees of freedom.

use std::f64::consts::PI;

/// How much of Student's distribution lies between `-t` and `t`.
///
/// # Source
/// The finite series in the cosine of atan(t / sqrt(freedom)): M. Abramowitz, I. Stegun, Handbook of Mathematical
/// Functions, 26.7.3 and 26.7.4, from memory; held to published fits by the tests.
pub(crate) fn within(t: f64, freedom: u32) -> f64 {
    let size = f64::from(freedom);
    let angle = libm::atan(t / size.sqrt());
    let (sine, cosine) = (libm::sin(angle), libm::cos(angle));
    let square = cosine * cosine;
    let even = freedom.is_multiple_of(2);
    // Factors 1/2, 3/4 ... for even freedoms, 2/3, 4/5 ... for odd ones.
    let (mut term, mut factor) = if even { (1.0, 1.0) } else { (cosine, 2.0) };
    let terms = if even { freedom / 2 } else { freedom.saturating_sub(1) / 2 };
    let mut sum = 0.0;
    for _ in 0..terms {
        sum += term;
        term *= square * factor / (factor + 1.0);
        factor += 2.0;
    }
    if even { sine * sum } else { 2.0 / PI * (angle + sine * sum) }
}

/// The `t` between which and `-t` a share of the distribution lies; not a number without freedom.
pub(crate) fn quantile(share: f64, freedom: u32) -> f64 {
    if freedom == 0 {
        return f64::NAN;
    }
    let (mut low, mut high) = (0.0, 1.0);
    while within(high, freedom) < share && high < 1e12 {
        high *= 2.0;
    }
    loop {
        let middle = (low + high) / 2.0;
        // Until no number lies between the two.
        if middle <= low || middle >= high {
            return middle;
        }
        if within(middle, freedom) < share {
            low = middle;
        } else {
            high = middle;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The 0.975 quantiles of the usual printed tables.
    #[test]
    fn printed_tables() {
        let table = [(1, 12.706), (2, 4.303), (3, 3.182), (4, 2.776), (7, 2.365), (8, 2.306), (30, 2.042)];
        for (freedom, wanted) in table {
            assert!((quantile(0.95, freedom) - wanted).abs() < 6e-4, "{freedom}");
        }
        assert!((quantile(0.95, 200) - 1.972).abs() < 6e-4);
        assert!(quantile(0.95, 0).is_nan());
        assert_eq!(within(0.0, 5), 0.0);
    }
}
