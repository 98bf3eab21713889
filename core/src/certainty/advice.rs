//! What to change so that no layer can be lye-heavy: the superfat to aim for, or the scale to weigh on.

use serde::Serialize;

use super::lows;
use crate::batch::Plan;
use crate::quantity::{Exact, Mass, Share};
use crate::recipe::{Recipe, Scale, Superfat};

/// What to change so that no layer can be lye-heavy while all inputs are within their ranges.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Advice {
    /// The smallest superfat to aim for with the workshop's scales; nothing when none up to 50 % is enough.
    pub superfat: Option<SmallestSuperfat>,
    /// The coarsest scale with the superfat as it is; nothing when no scale is fine enough, because the other ranges
    /// alone use the superfat up.
    pub scale: Option<CoarsestScale>,
}

/// A superfat to aim for.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SmallestSuperfat {
    /// As a share of the demand left unmet, in tenths of a per cent.
    pub superfat: Share,
    /// Name of the jug that needs it: with less, it could be lye-heavy first.
    pub binding: String,
    /// The lowest that its superfat can then be.
    pub low: Share,
}

/// A scale to weigh on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CoarsestScale {
    /// Its step, of 1, 2 or 5 times a power of ten, if everything is weighed on it.
    pub step: Mass,
    /// Name of the jug that comes nearest to being lye-heavy with it.
    pub binding: String,
    /// The lowest that its superfat can then be.
    pub low: Share,
}

/// Tenths of a per cent in the largest superfat that a recipe may ask for.
const MOST: i64 = 500;
/// Scale steps that are tried, the coarsest first: (mantissa, decimals), g. Coarser ones weigh no jug of a kitchen.
const STEPS: [(i64, u32); 16] = [
    (100, 0),
    (50, 0),
    (20, 0),
    (10, 0),
    (5, 0),
    (2, 0),
    (1, 0),
    (5, 1),
    (2, 1),
    (1, 1),
    (5, 2),
    (2, 2),
    (1, 2),
    (5, 3),
    (2, 3),
    (1, 3),
];

impl Advice {
    /// The advice for a recipe. Each figure comes from planning the recipe anew with it, weighing and all, so that it
    /// holds for the amounts that the maker would weigh.
    ///
    /// ```
    /// let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
    /// let advice = lamella::certainty::Advice::of(&recipe);
    /// assert!(advice.superfat.is_some());
    /// ```
    #[must_use]
    pub fn of(recipe: &Recipe) -> Self {
        Self { superfat: smallest_superfat(recipe), scale: coarsest_scale(recipe) }
    }
}

/// The lowest jug of a recipe's plan: its name, and the lower end of its superfat.
fn lowest(recipe: &Recipe) -> Option<(String, Share)> {
    let plan = Plan::of(recipe).ok()?;
    let lows = lows(recipe, &plan)?;
    let (jug, low) = plan.jugs.iter().zip(lows).min_by_key(|(_, low)| *low)?;
    Some((jug.name.clone(), low))
}

fn smallest_superfat(recipe: &Recipe) -> Option<SmallestSuperfat> {
    let mut trial = recipe.clone();
    let mut safe_at = |tenths: i64| -> Option<SmallestSuperfat> {
        let superfat = Share::try_new(Exact::from(tenths) / Exact::THOUSAND).ok()?;
        trial.superfat = Superfat::OfDemand(superfat);
        let (binding, low) = lowest(&trial)?;
        (low >= Share::ZERO).then_some(SmallestSuperfat { superfat, binding, low })
    };
    // The alkali falls in proportion to one less the superfat, and the largest ratio of alkali to demand with it.
    let (_, low) = lowest(recipe)?;
    let kept = (Exact::ONE - recipe.superfat.discount()) / (Exact::ONE - low.exact());
    let guess = ((Exact::ONE - kept) * Exact::THOUSAND).whole_steps(Exact::ONE).unwrap_or(0).clamp(0, MOST);
    let mut at = guess;
    let mut found = safe_at(at);
    while found.is_none() && at < MOST {
        at = at.saturating_add(1);
        found = safe_at(at);
    }
    // Scale steps make the way down uneven: what comes below a step that is not enough is not looked for.
    while at > 0 {
        at = at.saturating_sub(1);
        match safe_at(at) {
            Some(smaller) => found = Some(smaller),
            None => break,
        }
    }
    found
}

fn coarsest_scale(recipe: &Recipe) -> Option<CoarsestScale> {
    let capacity = recipe.workshop.scales.iter().map(|scale| scale.capacity).max()?;
    let mut trial = recipe.clone();
    STEPS.into_iter().find_map(|(mantissa, decimals)| {
        let step = Mass::literal(mantissa, decimals);
        trial.workshop.scales = vec![Scale { name: "trial".to_owned(), step, capacity }];
        let (binding, low) = lowest(&trial)?;
        (low >= Share::ZERO).then_some(CoarsestScale { step, binding, low })
    })
}
