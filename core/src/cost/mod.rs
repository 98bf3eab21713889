//! Cost: what a batch, a layer and a bar cost, and what a bar must be sold for.
//!
//! In: a [`Plan`] and a `prices/1` document. Out: a [`Costing`] in whole coins, in which layers, lines and sums add up to
//! the total exactly. Nothing is converted between currencies. Depends on `quantity`, the plan, the reader of documents
//! and the sheet's page; on no other reader.
//!
//! # Rounding
//!
//! A cost is exact until it is money: mass (with wastage) times the price of a pack over its mass. The sum of all
//! materials is rounded to whole coins once, half to even, and divided over the lines, and each line over the layers, by
//! largest remainder; so lines and layers sum to the materials exactly. Labour, each overhead and each packaging are
//! rounded by themselves. What stays behind in pots and jugs is paid for by the layers that come out of them.

mod document;
mod page;
mod reckon;
mod write;

#[cfg(feature = "schema")]
pub use document::schema;
pub use document::{Labour, Margin, MaterialPrice, Overhead, OverheadAmount, Pack, Packaging, Prices, read};
pub use page::{markdown, page, text};
pub use write::write;

use crate::batch::{Hold, Plan};
use crate::problem::Problem;
use crate::quantity::{Currency, Exact, Mass, Money, Share};

/// A material of the batch.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// Id of the material.
    pub id: String,
    /// Its name.
    pub name: String,
    /// What is weighed of it, wastage left out.
    pub mass: Mass,
    /// Cost before it is rounded to coins; nought when it has no price.
    pub exact: Money,
    /// Its part of the materials in whole coins.
    pub cost: Money,
    /// The part of each layer, in the order of the layers; they sum to the cost.
    pub layers: Vec<Money>,
}

/// Something that the batch costs beside materials.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sum {
    /// What it is.
    pub what: String,
    /// How much, in whole coins.
    pub amount: Money,
}

/// What a layer costs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LayerCost {
    /// Its name.
    pub name: String,
    /// Its materials.
    pub materials: Money,
    /// Its part of everything else, by what is poured of it.
    pub rest: Money,
    /// Both.
    pub total: Money,
}

/// What the bars cost.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bars {
    /// How many.
    pub count: u32,
    /// One of them, not rounded to coins.
    pub each: Money,
    /// One of them in whole coins, rounded down ...
    pub lower: Money,
    /// ... and how many cost one coin more, so that all of them make up the batch.
    pub with_one_more: u32,
}

/// What a bar is sold for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PriceTag {
    /// What the customer pays: rounded up to the price step.
    pub pay: Money,
    /// The same without tax.
    pub net: Money,
    /// The tax in it.
    pub tax: Money,
    /// What is left of it when the bar is paid for.
    pub earned: Money,
    /// The same as a share of the price without tax.
    pub margin: Share,
}

/// What a batch costs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Costing {
    /// Layers that are on hold: bars of them are not sold.
    pub holds: Vec<Hold>,
    /// The currency.
    pub currency: Currency,
    /// Decimals of its smallest coin.
    pub decimals: u32,
    /// Materials in the order of the weigh list.
    pub lines: Vec<Line>,
    /// Materials without a price, by name: they count as nought, and the total is too low by what they cost.
    pub unpriced: Vec<String>,
    /// Prices of materials that the batch does not use, by id.
    pub unused: Vec<String>,
    /// All materials.
    pub materials: Money,
    /// Labour, overheads, packaging.
    pub sums: Vec<Sum>,
    /// The layers; their totals sum to the total.
    pub layers: Vec<LayerCost>,
    /// Everything.
    pub total: Money,
    /// The bars, where it is known how many.
    pub bars: Option<Bars>,
    /// What a bar is sold for, where a margin is stated and the bars are known.
    pub price: Option<PriceTag>,
}

impl Costing {
    /// What the batch of a plan costs at these prices.
    ///
    /// ```
    /// let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
    /// let plan = lamella::Plan::of(&recipe).unwrap();
    /// let prices = lamella::cost::read(r#"{
    ///     "lamella": "prices/1", "currency": "GBP",
    ///     "materials": [{ "material": "olive-oil", "price": "32.50", "pack": "5 kg" }]
    /// }"#).unwrap();
    /// let costing = lamella::cost::Costing::of(&plan, &prices).unwrap();
    /// let olive = costing.lines.iter().find(|line| line.id == "olive-oil").unwrap();
    /// assert_eq!(costing.materials, olive.cost);
    /// assert!(costing.unpriced.contains(&"Coconut oil".to_owned()));
    /// ```
    ///
    /// # Errors
    /// When packaging is priced and nothing says how many bars there are, or a figure passes what money can hold.
    pub fn of(plan: &Plan, prices: &Prices) -> Result<Self, Vec<Problem>> {
        reckon::reckon(plan, prices)
    }

    /// A material's share of everything, by its rounded cost.
    #[must_use]
    pub fn share(&self, line: &Line) -> Share {
        let total = Exact::from(self.total.amount());
        if total.is_zero() {
            return Share::ZERO;
        }
        Share::try_new(Exact::from(line.cost.amount()) / total).unwrap_or(Share::ZERO)
    }
}

/// What the change of one price does.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// The batch as it was.
    pub before: Costing,
    /// The batch with the new price.
    pub after: Costing,
}

impl Change {
    /// What another price for the same pack of one material does.
    ///
    /// # Errors
    /// When the material has no price to change, or as [`Costing::of`].
    pub fn of(plan: &Plan, prices: &Prices, material: &str, pay: Money) -> Result<Self, Vec<Problem>> {
        let mut changed = prices.clone();
        let known = changed.materials.iter_mut().find(|price| price.material == material);
        let known = known.filter(|_| pay.currency() == prices.currency).ok_or_else(|| {
            vec![Problem {
                code: "prices.material",
                pointer: "/materials".to_owned(),
                message: format!("{material:?} has no price in {} to change", prices.currency),
                advice: "add it to \"materials\", in the currency of the document".to_owned(),
            }]
        })?;
        known.pay = pay;
        Ok(Self { before: Costing::of(plan, prices)?, after: Costing::of(plan, &changed)? })
    }

    /// How much more the batch costs; negative for less.
    #[must_use]
    pub fn batch(&self) -> Option<Money> {
        difference(self.before.total, self.after.total)
    }

    /// How much more a bar costs, not rounded to coins; nothing where the bars are not known.
    #[must_use]
    pub fn bar(&self) -> Option<Money> {
        difference(self.before.bars?.each, self.after.bars?.each)
    }

    /// How much more a bar is sold for; nothing where there is no price.
    #[must_use]
    pub fn pay(&self) -> Option<Money> {
        difference(self.before.price?.pay, self.after.price?.pay)
    }
}

fn difference(before: Money, after: Money) -> Option<Money> {
    Money::try_new(Exact::from(after.amount()) - Exact::from(before.amount()), before.currency()).ok()
}
