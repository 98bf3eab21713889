//! What a batch costs: every gram of the weigh list at its price, and to which layer it goes.

use crate::batch::{JugPlan, Plan, WeighItem};
use crate::problem::Problem;
use crate::quantity::{Currency, Exact, Mass, Money, Share, apportion};

use super::document::{Margin, OverheadAmount, Prices, coin};
use super::{Bars, Costing, LayerCost, Line, PriceTag, Sum};

/// What is weighed of one material in the whole batch, and how it goes to the layers.
struct Use {
    id: String,
    name: String,
    mass: Mass,
    /// Grams that end up with each layer, what stays behind spread over those that get any.
    layers: Vec<Exact>,
}

/// Everything that is weighed, by material in the order in which it first stands on the weigh list.
fn uses(plan: &Plan) -> Vec<Use> {
    let mut uses: Vec<Use> = Vec::new();
    let count = plan.layers.len();
    let mut add = |item: &WeighItem, weights: &[Exact]| {
        let whole: Exact = weights.iter().copied().sum();
        let at = uses.iter().position(|known| known.id == item.id).unwrap_or_else(|| {
            uses.push(Use {
                id: item.id.to_string(),
                name: item.name.to_string(),
                mass: Mass::ZERO,
                layers: vec![Exact::ZERO; count],
            });
            uses.len().saturating_sub(1)
        });
        if let Some(known) = uses.get_mut(at) {
            known.mass += item.weighed;
            for (grams, weight) in known.layers.iter_mut().zip(weights) {
                *grams = *grams + item.weighed.exact() * *weight / whole;
            }
        }
    };
    let of_pot = weights(plan, |jug| jug.portion.weighed.exact());
    for item in plan.pot.fats.iter().chain(&plan.pot.doses) {
        add(item, &of_pot);
    }
    let of_lye = weights(plan, |jug| jug.lye.weighed.exact());
    let lye = &plan.lye;
    for item in lye.alkalis.iter().chain([&lye.water]).chain(&lye.liquids).chain(&lye.doses) {
        add(item, &of_lye);
    }
    for (index, jug) in plan.jugs.iter().enumerate() {
        let of_jug = weights_of_jug(plan, index, jug, Exact::ONE);
        for item in jug.held.iter().chain(&jug.doses).chain(&jug.late_doses) {
            add(item, &of_jug);
        }
    }
    uses.retain(|line| !line.mass.is_zero());
    uses
}

/// How what all jugs share goes to the layers.
fn weights(plan: &Plan, of_jug: impl Fn(&JugPlan) -> Exact) -> Vec<Exact> {
    let mut weights = vec![Exact::ZERO; plan.layers.len()];
    for (index, jug) in plan.jugs.iter().enumerate() {
        for (sum, part) in weights.iter_mut().zip(weights_of_jug(plan, index, jug, of_jug(jug))) {
            *sum = *sum + part;
        }
    }
    weights
}

/// How what is in one jug goes to the layers.
fn weights_of_jug(plan: &Plan, index: usize, jug: &JugPlan, whole: Exact) -> Vec<Exact> {
    let portions = jug.layers.iter().filter_map(|layer| plan.layers.get(*layer)).map(|layer| layer.portion);
    let all = portions.sum::<Mass>().exact();
    let of = |layer: &crate::batch::LayerPlan| {
        if layer.jug == index { whole * layer.portion.exact() / all } else { Exact::ZERO }
    };
    plan.layers.iter().map(of).collect()
}

/// Money in whole coins.
struct Coins {
    currency: Currency,
    coin: Exact,
}

impl Coins {
    fn money(&self, coins: i64) -> Option<Money> {
        Money::try_new(Exact::from(coins) * self.coin, self.currency).ok()
    }

    /// The nearest whole coins, half to even.
    fn nearest(&self, amount: Exact) -> Option<i64> {
        amount.steps(self.coin)
    }
}

/// Whole steps of at least an amount.
fn up(amount: Exact, step: Exact) -> Exact {
    let below = amount.whole_steps(step).map(Exact::from);
    let whole = Exact::from(below.and_then(Exact::decimal)) * step;
    if (amount - whole).is_positive() { whole + step } else { whole }
}

/// What the batch of a plan costs at these prices.
pub(super) fn reckon(plan: &Plan, prices: &Prices) -> Result<Costing, Vec<Problem>> {
    let bars = prices.bars.or_else(|| plan.batch.bars.map(|bars| bars.count));
    if bars.is_none() && !prices.packaging.is_empty() {
        return Err(vec![Problem {
            code: "prices.bars",
            pointer: "/packaging".to_owned(),
            message: "packaging is priced by the bar, and nothing says how many bars there are".to_owned(),
            advice: "add \"bars\" to the prices".to_owned(),
        }]);
    }
    costing(plan, prices, bars).ok_or_else(|| {
        vec![Problem {
            code: "plan.number",
            pointer: "/materials".to_owned(),
            message: format!("a cost of {:?} is beyond what can be computed", plan.name),
            advice: "look for a price or a pack that is far too large or too small".to_owned(),
        }]
    })
}

fn costing(plan: &Plan, prices: &Prices, bars: Option<u32>) -> Option<Costing> {
    let coins = Coins { currency: prices.currency, coin: coin(prices.decimals) };
    let uses = uses(plan);
    let mut exact = Vec::with_capacity(uses.len());
    let mut unpriced = Vec::new();
    for line in &uses {
        let price = prices.materials.iter().find(|price| price.material == line.id);
        exact.push(match price {
            Some(price) => {
                let wastage = price.wastage.unwrap_or(prices.wastage);
                let bought = Mass::try_new(line.mass.exact() * (Exact::ONE + wastage.exact())).ok()?;
                Exact::from(price.price()?.of(bought).ok()?.amount())
            }
            None => {
                if line.id != "water" {
                    unpriced.push(line.name.clone());
                }
                Exact::ZERO
            }
        });
    }
    let materials = coins.nearest(exact.iter().copied().sum())?;
    let parts = apportion(materials, &exact)?;
    let mut of_layers = vec![0_i64; plan.layers.len()];
    let mut lines = Vec::with_capacity(uses.len());
    for ((line, exact), part) in uses.iter().zip(&exact).zip(parts) {
        let split = apportion(part, &line.layers)?;
        for (sum, part) in of_layers.iter_mut().zip(&split) {
            *sum = sum.checked_add(*part)?;
        }
        lines.push(Line {
            id: line.id.clone(),
            name: line.name.clone(),
            mass: line.mass,
            exact: Money::try_new(*exact, prices.currency).ok()?,
            cost: coins.money(part)?,
            layers: split.into_iter().map(|part| coins.money(part)).collect::<Option<_>>()?,
        });
    }
    let (sums, total) = sums(prices, bars, &coins, materials)?;
    let layers = layers(plan, &coins, &of_layers, total.checked_sub(materials)?)?;
    let unused = prices.materials.iter().filter(|price| !uses.iter().any(|line| line.id == price.material));
    let total_money = coins.money(total)?;
    let of_bars = match bars {
        Some(count) => Some(per_bar(count, total, &coins)?),
        None => None,
    };
    Some(Costing {
        holds: plan.holds.clone(),
        currency: prices.currency,
        decimals: prices.decimals,
        lines,
        unpriced,
        unused: unused.map(|price| price.material.clone()).collect(),
        materials: coins.money(materials)?,
        sums,
        layers,
        total: total_money,
        price: match (bars, prices.margin) {
            (Some(count), Some(margin)) => Some(tag(count, total, margin, prices, &coins)?),
            _ => None,
        },
        bars: of_bars,
    })
}

/// Labour, overheads and packaging, and everything together in coins.
fn sums(prices: &Prices, bars: Option<u32>, coins: &Coins, materials: i64) -> Option<(Vec<Sum>, i64)> {
    let mut sums = Vec::new();
    let mut total = materials;
    let mut add = |what: &str, amount: Exact| -> Option<i64> {
        let whole = coins.nearest(amount)?;
        sums.push(Sum { what: what.to_owned(), amount: coins.money(whole)? });
        total = total.checked_add(whole)?;
        Some(whole)
    };
    let mut worked = materials;
    if let Some(labour) = prices.labour {
        let hours = labour.time.exact() / Exact::from(3600);
        worked = worked.checked_add(add("labour", Exact::from(labour.rate.amount()) * hours)?)?;
    }
    for overhead in &prices.overheads {
        let amount = match overhead.amount {
            OverheadAmount::Batch(money) => Exact::from(money.amount()),
            OverheadAmount::Share(share) => Exact::from(worked) * coins.coin * share.exact(),
        };
        add(&overhead.what, amount)?;
    }
    for packaging in &prices.packaging {
        let count = Exact::from(i64::from(bars?));
        add(&packaging.what, Exact::from(packaging.each.amount()) * count)?;
    }
    Some((sums, total))
}

/// Each layer's materials, and its part of the rest by what is poured.
fn layers(plan: &Plan, coins: &Coins, materials: &[i64], rest: i64) -> Option<Vec<LayerCost>> {
    let portions: Vec<Exact> = plan.layers.iter().map(|layer| layer.portion.exact()).collect();
    let rest = apportion(rest, &portions)?;
    let layer = |((layer, materials), rest): ((&crate::batch::LayerPlan, &i64), i64)| {
        Some(LayerCost {
            name: layer.name.clone(),
            materials: coins.money(*materials)?,
            rest: coins.money(rest)?,
            total: coins.money(materials.checked_add(rest)?)?,
        })
    };
    plan.layers.iter().zip(materials).zip(rest).map(layer).collect()
}

/// The cost of the bars in whole coins: some of them carry one coin more, so that all of them make up the batch.
fn per_bar(count: u32, total: i64, coins: &Coins) -> Option<Bars> {
    let bars = i64::from(count);
    let (low, over) = (total.checked_div(bars)?, total.checked_rem(bars)?);
    Some(Bars {
        count,
        each: Money::try_new(Exact::from(total) * coins.coin / Exact::from(bars), coins.currency).ok()?,
        lower: coins.money(low)?,
        with_one_more: u32::try_from(over).ok()?,
    })
}

fn tag(count: u32, total: i64, margin: Margin, prices: &Prices, coins: &Coins) -> Option<PriceTag> {
    let cost = Exact::from(total) * coins.coin / Exact::from(i64::from(count));
    let wanted = match margin {
        Margin::OfPrice(share) => cost / (Exact::ONE - share.exact()),
        Margin::OfCost(share) => cost * (Exact::ONE + share.exact()),
    };
    let step = prices.price_step.map_or(coins.coin, |step| Exact::from(step.amount()));
    // What the customer pays is the round figure; what is left without tax follows from it.
    let pay = up(wanted * (Exact::ONE + prices.tax.exact()), step);
    let net = Exact::from(coins.nearest(pay / (Exact::ONE + prices.tax.exact()))?) * coins.coin;
    let money = |amount: Exact| Money::try_new(amount, coins.currency).ok();
    let earned = net - cost;
    Some(PriceTag {
        pay: money(pay)?,
        net: money(net)?,
        tax: money(pay - net)?,
        earned: money(earned)?,
        margin: if net.is_zero() { Share::ZERO } else { Share::try_new(earned / net).ok()? },
    })
}
