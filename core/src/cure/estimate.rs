//! What is to be expected of a cure before anything was weighed.

use crate::batch::{Hold, Plan};
use crate::chemistry::Part;
use crate::material::BasisKind;
use crate::quantity::{Date, Duration, Exact, Mass, QuantityError, Share};

use super::{Ready, Weight, drying};

/// Days in which what is still to be lost falls to 1/e: what is likely, and the range.
///
/// # Source
/// Common practice, no source: bars cure four to six weeks, after which little is lost. 95 % of the loss in six weeks is
/// 14 days; thin bars in dry air take half of that, thick ones in damp air twice as long.
const TIME: [f64; 3] = [7.0, 14.0, 28.0];
/// Water of a cured bar, lower and upper end. Source: common practice, no source: 8-15 % at four to eight weeks.
const WATER: [Share; 2] = [Share::literal(8, 2), Share::literal(15, 2)];

/// Mass after drying from one share of water to another; what is not water stays:
/// `mass (1 - from) / (1 - to)`, exact.
///
/// ```
/// let bar = "1200 g".parse()?;
/// let dry = lamella::cure::dried(bar, "30 %".parse()?, "8 %".parse()?)?;
/// assert_eq!(dry.to_string(), "913.04347826087 g");
/// # Ok::<(), lamella::quantity::QuantityError>(())
/// ```
///
/// # Errors
/// When nothing but water is to be left.
pub fn dried(mass: Mass, from: Share, to: Share) -> Result<Mass, QuantityError> {
    Mass::try_new(mass.exact() * (Exact::ONE - from.exact()) / (Exact::ONE - to.exact()))
}

/// What is to be expected of a bar's cure, from the water that the plan reckons with. An estimate from common practice,
/// and not a statement of this bar: its range is what is usual, not a confidence.
#[derive(Clone, Debug, PartialEq)]
pub struct Estimate {
    /// Layers that are on hold: a dry bar is no proof of a safe one.
    pub holds: Vec<Hold>,
    /// The bar when it is cut.
    pub fresh: Mass,
    /// Water in it then.
    pub water: Share,
    /// What it is likely to dry to, and the range.
    pub equilibrium: Weight,
    /// When it is dry.
    pub ready: Ready,
    /// What it rests on: common practice.
    pub basis: BasisKind,
    /// The same in words.
    pub source: &'static str,
}

impl Estimate {
    /// The cure to be expected of a bar that weighs `fresh` when it is cut. It dries to the water that the recipe says a
    /// cured bar has; the range is that of common practice. `settled_below` is the loss of a week below which it counts as
    /// dry, `cut` the day of the cut where it is known. `None` when `fresh` is not above zero, or the plan's water is all
    /// there is.
    ///
    /// ```
    /// use lamella::cure::{Estimate, SETTLED_BELOW};
    /// let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
    /// let plan = lamella::Plan::of(&recipe).unwrap();
    /// let estimate = Estimate::of(&plan, "120 g".parse().unwrap(), SETTLED_BELOW, None).unwrap();
    /// let at_sale = estimate.weight("8 weeks".parse().unwrap()).unwrap();
    /// assert!(at_sale.low < at_sale.mass && at_sale.mass < at_sale.high && at_sale.high < estimate.fresh);
    /// ```
    #[must_use]
    pub fn of(plan: &Plan, fresh: Mass, settled_below: Share, cut: Option<Date>) -> Option<Self> {
        if fresh <= Mass::ZERO {
            return None;
        }
        let reacted = &plan.batch.reacted;
        let water = reacted.share(Part::Water) + reacted.share(Part::Alcohol);
        let cured = plan.batch.cured.share(Part::Water).min(water);
        let [low, high] = WATER;
        let to = |share: Share| dried(fresh, water, share.min(water)).ok();
        let equilibrium = Weight { mass: to(cured)?, low: to(low.min(cured))?, high: to(high.max(cured))? };
        let mut estimate = Self {
            holds: plan.holds.clone(),
            fresh,
            water,
            equilibrium,
            ready: Ready { age: Duration::ZERO, low: Duration::ZERO, high: Duration::ZERO, date: None },
            basis: BasisKind::CommonPractice,
            source: "common practice, no source: 8-15 % of water in a cured bar, four to six weeks",
        };
        let [quick, usual, slow] = TIME;
        let below = settled_below.exact().approximate();
        let age = |end: Mass, time: f64| {
            drying::settled(fresh.exact().approximate(), end.exact().approximate(), drying::rate(time), below)
        };
        let ages = [
            age(equilibrium.mass, usual),
            age(equilibrium.high, quick),
            age(equilibrium.low, slow),
            age(equilibrium.low, quick),
            age(equilibrium.high, slow),
        ];
        let [likely, rest @ ..] = ages;
        let low = rest.into_iter().fold(likely, f64::min);
        let high = rest.into_iter().fold(likely, f64::max);
        estimate.ready = super::ready((likely, (low, high)), cut)?;
        Some(estimate)
    }

    /// Mass at an age, and the range.
    #[must_use]
    pub fn weight(&self, age: Duration) -> Option<Weight> {
        let days = drying::in_days(age);
        let fresh = self.fresh.exact().approximate();
        let at = |end: Mass, time: f64| {
            drying::grams(drying::first_order(fresh, end.exact().approximate(), drying::rate(time), days))
        };
        let [quick, usual, slow] = TIME;
        Some(Weight {
            mass: at(self.equilibrium.mass, usual)?,
            low: at(self.equilibrium.low, quick)?,
            high: at(self.equilibrium.high, slow)?,
        })
    }
}
