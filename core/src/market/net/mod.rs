//! How heavy a bar may be said to be, how large to cut it, and how many bars a block gives.
//!
//! In: weights of the cured bar as a value with its interval, from weighings or an estimate. Out: the nominal quantity that
//! the packers' rules allow, the mass to cut for a wanted one, the count of bars. The rules hold when the bar is packed; a
//! bar that still dries after that is honest only when the nominal quantity still holds at its sale.

mod block;
mod error;
mod factor;
mod lot;

pub use block::{Bars, Block, bars};
pub use error::{Rounding, Table, tolerable_error, variation};
pub use factor::factor;
pub use lot::{Lot, LotError, lot};

use serde::Serialize;

use crate::batch::Plan;
use crate::quantity::{Exact, Mass, Share};

use super::rules::Market;

/// The lightest quantity that must be printed: 5 g.
///
/// # Source
/// Regulation (EC) No 1223/2009, article 19(1)(b); packaged goods are those of 5 g to 25 kg (GOV.UK, read).
pub const LEAST: Mass = Mass::literal(5, 0);

/// The share of bars that may be lighter than the nominal quantity by more than one tolerable negative error: 2.5 %.
///
/// # Source
/// Trading-standards guidance, "generally no more than 2.5 %" (read). German law has 2 % (FPackV, section 9(3), read).
pub const BELOW_ONE_ERROR: Share = Share::literal(25, 3);

/// Weights of the bars of a batch at one time: the mean, and between what they lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Weights {
    /// Lightest of them: at most 2.5 % are lighter.
    pub low: Mass,
    /// Their mean.
    pub mean: Mass,
    /// Heaviest of them.
    pub high: Mass,
}

/// The nominal quantity that may be printed, in whole steps, by each system.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Nominal {
    /// By the average system: the mean is not below it, and at most 2.5 % are below it by more than one tolerable negative
    /// error. That none is below it by more than two is for the scale to see when the bars are packed.
    pub average: Mass,
    /// By the minimum system: none is below it, as far as `low` says.
    pub minimum: Mass,
    /// Whether it is the lightest bars, and not the mean, that hold the average system's nominal down.
    pub held_by_lightest: bool,
}

/// The largest nominal quantity in whole `step`s (at least a tenth of a gram) that bars of these weights may carry; nothing
/// when that would be below 5 g or the weights are out of order.
///
/// ```
/// use lamella::market::net::{nominal, Weights};
/// let mass = |text: &str| text.parse().unwrap();
/// let bars = Weights { low: mass("94 g"), mean: mass("101.6 g"), high: mass("108 g") };
/// let found = nominal(&bars, mass("1 g")).unwrap();
/// // 94 g is lighter than 101 g by 7 g, more than the 4.6 g that are tolerated; than 98 g by 4 g.
/// assert_eq!(found.average.to_string(), "98 g");
/// assert_eq!(found.minimum.to_string(), "94 g");
/// ```
///
/// # Source
/// Three packers' rules: Directive 76/211/EEC, annex I, 1.1-1.3, and GOV.UK, read. S.I. 2006/659.
#[must_use]
pub fn nominal(weights: &Weights, step: Mass) -> Option<Nominal> {
    if weights.low > weights.mean || weights.mean > weights.high || step < Mass::literal(1, 1) {
        return None;
    }
    let down = |mass: Mass| {
        let steps = mass.exact().whole_steps(step.exact())?;
        Mass::try_new(Exact::from(steps) * step.exact()).ok()
    };
    let by_mean = down(weights.mean)?;
    let mut average = by_mean;
    while average >= LEAST {
        if weights.low >= average - tolerable_error(average, Rounding::Tenths)? {
            let minimum = down(weights.low)?;
            return Some(Nominal { average, minimum, held_by_lightest: average < by_mean });
        }
        average = average - step;
    }
    None
}

/// How much of its mass a bar loses from cutting to sale, as the caller's weighings or estimate have it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Loss {
    /// What is expected.
    pub typical: Share,
    /// Most that is to be reckoned with.
    pub most: Share,
}

/// The loss from pouring to the cured bar of a plan, as its water has it: an estimate where nothing was weighed.
#[must_use]
pub fn loss(plan: &Plan) -> Option<Share> {
    let (poured, cured) = (plan.batch.poured.exact(), plan.batch.cured.total.exact());
    Share::try_new((poured - cured) / poured).ok()
}

/// What a bar weighs after a loss.
///
/// ```
/// use lamella::market::net::after;
/// let bar = after("112.4 g".parse()?, "11.5 %".parse()?);
/// assert_eq!(bar.unwrap().to_string(), "99.474 g");
/// # Ok::<(), lamella::quantity::QuantityError>(())
/// ```
#[must_use]
pub fn after(now: Mass, loss: Share) -> Option<Mass> {
    Mass::try_new(now.exact() * (Exact::ONE - loss.exact())).ok()
}

/// The mass to cut a bar to so that a nominal quantity still holds when it is sold: nominal / (1 - loss), rounded up to
/// whole steps, with the largest loss to be reckoned with. `spread` is by how much the lightest bars fall short of the mean
/// when cut: what of it passes one tolerable negative error is added. Nothing when the loss is the whole bar.
///
/// ```
/// use lamella::market::net::{cut_for, Loss};
/// let loss = Loss { typical: "10 %".parse()?, most: "12 %".parse()? };
/// let cut = cut_for("100 g".parse()?, loss, "3 g".parse()?, "1 g".parse()?).unwrap();
/// assert_eq!(cut.to_string(), "114 g"); // 100 / 0.88 = 113.6; 3 g of spread is less than the 4.5 g tolerated
/// # Ok::<(), lamella::quantity::QuantityError>(())
/// ```
#[must_use]
pub fn cut_for(nominal: Mass, loss: Loss, spread: Mass, step: Mass) -> Option<Mass> {
    let kept = Exact::ONE - loss.most.max(loss.typical).exact();
    if !kept.is_positive() || !step.exact().is_positive() {
        return None;
    }
    // At sale the spread has dried with the bar.
    let error = tolerable_error(nominal, Rounding::Tenths)?;
    let beyond = (spread.exact() * kept - error.exact()).max(Exact::ZERO);
    up((nominal.exact() + beyond) / kept, step)
}

/// Rounded up to whole steps.
fn up(value: Exact, step: Mass) -> Option<Mass> {
    let whole = value.whole_steps(step.exact())?;
    let floor = Exact::from(whole) * step.exact();
    // A quotient that should be whole may come out one digit in the 28th place above it.
    let over = (value - floor).rounded(12).is_some_and(|rest| !rest.is_zero());
    let steps = if over { whole.checked_add(1)? } else { whole };
    Mass::try_new(Exact::from(steps) * step.exact()).ok()
}

/// The net quantity as a label has it. In the United States both in ounces and in grams, the ounces rounded down so that
/// they never say more; elsewhere in grams.
///
/// # Source
/// Both metric and inch/pound units: 16 CFR 500 (FPLA), read. Nominal quantity in units of mass: Regulation (EC) No
/// 1223/2009, article 19(1)(b).
#[must_use]
pub fn printed(nominal: Mass, market: Market) -> String {
    match market {
        Market::UnitedStates => {
            let hundredths =
                Exact::from(nominal.in_unit("oz")).whole_steps(Exact::literal(1, 2)).unwrap_or(0);
            let ounces = (Exact::from(hundredths) * Exact::literal(1, 2)).decimal().unwrap_or_default();
            format!("Net Wt {} oz ({nominal})", ounces.normalize())
        }
        Market::EuropeanUnion | Market::GreatBritain => nominal.to_string(),
    }
}
