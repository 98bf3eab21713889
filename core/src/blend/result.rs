//! From shares to an answer with all its figures.

use super::answer::{AimValue, Answer, DemandValue, FatShare, NoBlend, ShadowPrice};
use super::conflict;
use super::program::{Care, Found, Program};
use super::request::{Aim, End, Request};
use super::shadow::{Prices, prices};
use super::solve::{Blend, Failure, best, decimals};
use super::space::{POINT, Space};
use crate::quantity::{Decimal, Exact, Mass, Share};
use crate::recipe::{FatAmount, FatLine, FatStage, json, write};

/// Finds the blend that a request asks for.
///
/// ```
/// let request = lamella::blend::read(
///     r#"{
///         "lamella": "blend/1",
///         "name": "Kitchen bar",
///         "fats": [
///             { "fat": "olive-oil", "price": "7.50 EUR/kg" },
///             { "fat": "coconut-oil", "price": "4.20 EUR/kg", "max": "30 %" },
///             { "fat": "shea-butter", "price": "11 EUR/kg" }
///         ],
///         "step": "1 %",
///         "demands": [
///             { "class": "palmitic-stearic", "at_least": "18 %" },
///             { "figure": "iodine value", "at_most": "65" }
///         ],
///         "aims": ["cheapest"]
///     }"#,
/// )
/// .unwrap();
/// let answer = lamella::blend::solve(&request).unwrap();
/// let shares: Vec<String> = answer.fats.iter().map(|fat| fat.share.to_string()).collect();
/// assert_eq!(shares, ["58 %", "30 %", "12 %"]);
/// ```
///
/// # Errors
/// [`NoBlend::Conflict`] with the smallest set of demands that cannot be met together; or that the solver failed.
pub fn solve(request: &Request) -> Result<Answer, NoBlend> {
    let space = Space::of(request).ok_or(NoBlend::Number)?;
    let allowed = space.without_forbidden();
    let blend = best(&allowed, &request.aims).map_err(|failure| no_blend(request, &space, failure))?;
    answer(request, &allowed, &blend).ok_or(NoBlend::Number)
}

pub(super) fn no_blend(request: &Request, space: &Space, failure: Failure) -> NoBlend {
    match failure {
        Failure::Stopped => NoBlend::Effort,
        Failure::Wrong => NoBlend::Solver,
        Failure::Nothing => conflict::explain(request, space)
            .map_or(NoBlend::Solver, |conflict| NoBlend::Conflict(Box::new(conflict))),
    }
}

/// The prices of the first aim that is no count, when it is a sum over the shares; and its place.
fn first_prices(
    request: &Request,
    space: &Space,
    shares: &[Exact],
    brought: &[Exact],
) -> Option<(usize, Prices)> {
    let place = request.aims.iter().position(|aim| *aim != Aim::FewestFats)?;
    let aim = *request.aims.get(place)?;
    let cost = space.linear(aim)?;
    let mut any = space.any_shares();
    if space.fats_at_most.is_some() || place > 0 {
        // The number of fats chooses them; what a demand costs is asked among those.
        any.fats_at_most = None;
        for (hi, share) in any.hi.iter_mut().zip(shares) {
            if share.is_zero() {
                *hi = Exact::ZERO;
            }
        }
    }
    let alone = place == 0 && request.aims.len() == 1;
    if alone && space.steps.is_none() {
        return prices(&any, space, &cost, (shares, brought)).map(|prices| (place, prices));
    }
    let program = Program::of(&any);
    let Found::Point(point) = program.run(&Program::figure(&cost), &Care::default()) else { return None };
    let corner = decimals(&any, &point.shares)?;
    prices(&any, space, &cost, (&corner, &any.brought(&corner))).map(|prices| (place, prices))
}

fn answer(request: &Request, space: &Space, blend: &Blend) -> Option<Answer> {
    let Blend { shares, brought, .. } = blend;
    let priced = first_prices(request, space, shares, brought);
    let costs = priced.as_ref().filter(|(place, _)| request.aims.get(*place) == Some(&Aim::Cheapest));
    let mut fats = Vec::with_capacity(shares.len());
    for (index, (candidate, share)) in request.fats.iter().zip(shares).enumerate() {
        let surplus = costs.and_then(|(_, prices)| prices.surplus.get(index).copied());
        let unused = share.is_zero() && space.lo.get(index)?.is_zero() && space.hi.get(index)?.is_positive();
        fats.push(FatShare {
            fat: candidate.fat.id.to_string(),
            name: candidate.fat.name.to_string(),
            share: Share::try_new(*share).ok()?,
            mass: request.size.map(|size| Mass::try_new(size.exact() * *share).ok()).unwrap_or(None),
            too_dear_by: surplus
                .filter(|surplus| unused && (*surplus - POINT).is_positive())
                .and_then(|surplus| surplus.published()),
        });
    }
    let currency = request.fats.iter().find_map(|fat| Some(fat.price?.currency().to_string()));
    let demands = (0..request.demands.len())
        .map(|index| {
            demand(request, space, (shares, brought), index, priced.as_ref().map(|(_, prices)| prices))
        })
        .collect::<Option<Vec<_>>>()?;
    let mut aims = Vec::with_capacity(request.aims.len());
    for (place, aim) in request.aims.iter().enumerate() {
        let bound = priced.as_ref().filter(|(at, _)| *at == place).and_then(|(_, prices)| prices.bound);
        // A bound stays one when it is rounded.
        let bound = bound.map(|bound| bound - Exact::literal(2, 12) * Exact::ONE.max(bound).max(-bound));
        let bound = if matches!(aim, Aim::MostOf(_)) { bound.map(|bound| -bound) } else { bound };
        let name = match aim {
            Aim::MostOf(index) => request.fats.get(*index).map_or("", |fat| &fat.fat.name),
            _ => "",
        };
        aims.push(AimValue {
            aim: aim.words(name),
            value: space.value(*aim, shares)?.published()?,
            unit: match aim {
                Aim::Cheapest => format!("{}/kg", currency.as_deref().unwrap_or("")),
                Aim::NearestTargets | Aim::LeastWorstMiss => "points".to_owned(),
                Aim::NearestUsual | Aim::FewestFats | Aim::MostOf(_) => String::new(),
            },
            bound: bound.and_then(Exact::published),
        });
    }
    let per_kilogram = space.value(Aim::Cheapest, shares);
    let whole = |cost: Exact| request.size.map(|size| cost * size.exact() / Exact::THOUSAND);
    Some(Answer {
        name: request.name.clone(),
        fats,
        demands,
        aims,
        cost_per_kilogram: per_kilogram.and_then(Exact::published),
        cost: per_kilogram.and_then(whole).and_then(Exact::published),
        currency: currency.filter(|_| per_kilogram.is_some()),
        best: blend.best,
        miss: space.miss(shares, brought)?.published()?,
    })
}

fn demand(
    request: &Request,
    space: &Space,
    (shares, brought): (&[Exact], &[Exact]),
    index: usize,
    prices: Option<&Prices>,
) -> Option<DemandValue> {
    let demand = request.demands.get(index)?;
    let figure = space.figures.get(index)?;
    let value = figure.of(shares);
    let gap = |bound: Option<Decimal>, sign: Exact| bound.map(|bound| (value - Exact::from(bound)) * sign);
    let gaps =
        [(End::AtLeast, gap(demand.at_least, Exact::ONE)), (End::AtMost, gap(demand.at_most, -Exact::ONE))];
    let slack = gaps.iter().filter_map(|(_, gap)| *gap).reduce(Exact::min).map(|gap| gap.max(Exact::ZERO));
    let held = space.sides.iter().zip(brought).enumerate().filter(|(_, (side, _))| side.demand == index);
    let mut binding = None;
    let mut shadow = None;
    for (at, (side, brought)) in held {
        if !(*brought - POINT).is_positive() {
            binding = binding.or(Some(side.end));
        }
        let price = prices.and_then(|prices| prices.sides.iter().find(|(other, _)| *other == at));
        if let Some((_, price)) = price.filter(|(_, price)| !price.is_zero()) {
            let per_point = *price / side.scale * figure.weighed(shares) * demand.measure.point();
            shadow = shadow.or(Some((side.end, per_point)));
        }
    }
    Some(DemandValue {
        figure: demand.measure.name(),
        unit: request.unit(&demand.measure),
        value: value.published()?,
        at_least: demand.at_least,
        at_most: demand.at_most,
        target: demand.target,
        slack: slack.and_then(Exact::published),
        binding,
        shadow_price: match shadow {
            Some((end, price)) => Some(ShadowPrice { end, per_point: price.published()? }),
            None => None,
        },
    })
}

/// The fats that a blend uses as lines of a recipe, with their certificates.
#[must_use]
pub fn fat_lines(request: &Request, answer: &Answer) -> Vec<FatLine> {
    let used = request.fats.iter().zip(&answer.fats).filter(|(_, fat)| !fat.share.is_zero());
    used.map(|(candidate, fat)| FatLine {
        fat: candidate.fat.clone(),
        amount: FatAmount::Share(fat.share),
        stage: FatStage::Pot,
        certificate: candidate.certificate.clone(),
    })
    .collect()
}

/// The fats that a blend uses as the `"fats"` list of a `recipe/1` document.
#[must_use]
pub fn fats_json(request: &Request, answer: &Answer) -> String {
    json::print(&json::list(fat_lines(request, answer).iter().map(write::fat).collect()))
}
