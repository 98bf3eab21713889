//! The `prices/1` document.

use std::collections::BTreeSet;

use crate::limits;
use crate::problem::Problem;
use crate::quantity::{Currency, Density, Duration, Exact, Mass, Money, Price, Share, Volume};
use crate::recipe::fields::{Field, Kind, Table, Units, Wanted, may, must};
use crate::recipe::read::document;
use crate::recipe::read_value::{Fields, Node, Reader};

/// What materials, work and everything else cost, as the maker states it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Prices {
    /// Free text.
    pub note: String,
    /// The currency of all amounts.
    pub currency: Currency,
    /// Decimals of its smallest coin: 2 for cents and pence, 0 for yen.
    pub decimals: u32,
    /// Prices of materials, by id.
    pub materials: Vec<MaterialPrice>,
    /// What is bought beyond what is weighed, as a share of what is weighed: spilt, scraped out, thrown away.
    pub wastage: Share,
    /// Work.
    pub labour: Option<Labour>,
    /// What else a batch costs.
    pub overheads: Vec<Overhead>,
    /// What goes around each bar.
    pub packaging: Vec<Packaging>,
    /// Bars that come out to be sold; nothing to take the number of the recipe.
    pub bars: Option<u32>,
    /// What is to be earned.
    pub margin: Option<Margin>,
    /// Tax on the price, such as value added tax.
    pub tax: Share,
    /// The price to pay is a whole number of these; nothing for the smallest coin.
    pub price_step: Option<Money>,
}

/// The price of a material.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MaterialPrice {
    /// Id of the material, as in the recipe; `naoh`, `koh` and `water` for those.
    pub material: String,
    /// Who sells it; may be empty.
    pub supplier: String,
    /// What a pack costs.
    pub pay: Money,
    /// What is in a pack.
    pub pack: Pack,
    /// Wastage of this material in place of that of the document.
    pub wastage: Option<Share>,
}

/// What is in a pack.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Pack {
    /// So much by mass.
    Mass(Mass),
    /// So much by volume, and how dense it is.
    Volume(Volume, Density),
}

impl MaterialPrice {
    /// The price by mass; nothing when the pack has none that a mass can hold.
    #[must_use]
    pub fn price(&self) -> Option<Price> {
        let mass = match self.pack {
            Pack::Mass(mass) => mass,
            Pack::Volume(volume, density) => volume.mass_at(density).ok()?,
        };
        Price::try_new(self.pay, mass).ok()
    }
}

/// Work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Labour {
    /// Pay of an hour.
    pub rate: Money,
    /// Time that the batch takes.
    pub time: Duration,
}

/// What else a batch costs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Overhead {
    /// What it is.
    pub what: String,
    /// How much.
    pub amount: OverheadAmount,
}

/// How much of an overhead.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum OverheadAmount {
    /// So much for the batch.
    Batch(Money),
    /// A share of materials and labour.
    Share(Share),
}

/// What goes around each bar.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Packaging {
    /// What it is.
    pub what: String,
    /// What it costs for a bar.
    pub each: Money,
}

/// What is to be earned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Margin {
    /// A share of the price without tax.
    OfPrice(Share),
    /// A share of the cost, on top of it.
    OfCost(Share),
}

/// Decimals of the smallest coin unless the document says otherwise. Source: most currencies of ISO 4217, from memory.
pub(super) const DECIMALS: u32 = 2;

const AMOUNT: Wanted = Wanted { limit: limits::PRICES_AMOUNT, units: Units::Bare, example: "12.50" };
const PACK_MASS: Wanted =
    Wanted { limit: limits::RECIPE_MASS, units: Units::Of(Mass::UNITS), example: "5 kg" };
const PACK_VOLUME: Wanted =
    Wanted { limit: limits::RECIPE_VOLUME, units: Units::Of(Volume::UNITS), example: "5 L" };
const DENSITY: Wanted =
    Wanted { limit: limits::DENSITY, units: Units::Of(Density::UNITS), example: "0.915 g/mL" };
const WASTAGE: Wanted =
    Wanted { limit: limits::RECIPE_SHARE, units: Units::Of(Share::UNITS), example: "2 %" };
const TIME: Wanted =
    Wanted { limit: limits::PRICES_TIME, units: Units::Of(Duration::UNITS), example: "3.5 h" };
const MARGIN: Wanted =
    Wanted { limit: limits::PRICES_MARGIN, units: Units::Of(Share::UNITS), example: "40 %" };
const MARKUP: Wanted =
    Wanted { limit: limits::PRICES_MARKUP, units: Units::Of(Share::UNITS), example: "60 %" };

const WASTAGE_FIELD: Field = may(
    "wastage",
    Kind::Quantity(&[WASTAGE]),
    "What is bought beyond what is weighed, as a share of what is weighed.",
);

static MATERIAL: Table = Table::new(
    "material-price",
    "a price",
    &[
        must("material", Kind::Name, "Id of the material, as in the recipe; naoh, koh or water for those."),
        may("supplier", Kind::Name, "Who sells it."),
        must("price", Kind::Quantity(&[AMOUNT]), "What a pack costs."),
        must("pack", Kind::Quantity(&[PACK_MASS, PACK_VOLUME]), "What is in a pack."),
        may("density", Kind::Quantity(&[DENSITY]), "Density of the material, when the pack is a volume."),
        WASTAGE_FIELD,
    ],
    &[],
);
static LABOUR: Table = Table::new(
    "labour",
    "the labour",
    &[
        must("rate", Kind::Quantity(&[AMOUNT]), "Pay of an hour."),
        must("time", Kind::Quantity(&[TIME]), "Time that the batch takes."),
    ],
    &[],
);
static OVERHEAD: Table = Table::new(
    "overhead",
    "an overhead",
    &[
        must("overhead", Kind::Name, "What it is."),
        may("amount", Kind::Quantity(&[AMOUNT]), "So much for the batch."),
        may("share", Kind::Quantity(&[WASTAGE]), "A share of materials and labour."),
    ],
    &[&["amount"], &["share"]],
);
static PACKAGING: Table = Table::new(
    "packaging",
    "a packaging",
    &[
        must("packaging", Kind::Name, "What it is."),
        must("each", Kind::Quantity(&[AMOUNT]), "What it costs for a bar."),
    ],
    &[],
);
static MARGIN_TABLE: Table = Table::new(
    "margin",
    "a margin",
    &[
        may("of_price", Kind::Quantity(&[MARGIN]), "A share of the price without tax."),
        may("of_cost", Kind::Quantity(&[MARKUP]), "A share of the cost, on top of it."),
    ],
    &[&["of_price"], &["of_cost"]],
);
/// The format that is read.
pub(crate) const FORMAT: &str = "prices/1";

pub(crate) static PRICES: Table = Table::new(
    "prices",
    "a list of prices",
    &[
        must("lamella", Kind::Tag(FORMAT), "The format: prices/1."),
        may("note", Kind::Note, "Free text."),
        must("currency", Kind::Name, "The currency of all amounts, by its three-letter code."),
        may("decimals", Kind::Count(limits::PRICES_DECIMALS), "Decimals of its smallest coin; 2 by default."),
        must("materials", Kind::List(&Kind::Object(&MATERIAL), 1), "Prices of materials."),
        WASTAGE_FIELD,
        may("labour", Kind::Object(&LABOUR), "Work."),
        may("overheads", Kind::List(&Kind::Object(&OVERHEAD), 0), "What else a batch costs."),
        may("packaging", Kind::List(&Kind::Object(&PACKAGING), 0), "What goes around each bar."),
        may("bars", Kind::Count(limits::RECIPE_COUNT), "Bars to be sold; those of the recipe by default."),
        may("margin", Kind::Object(&MARGIN_TABLE), "What is to be earned."),
        may("tax", Kind::Quantity(&[WASTAGE]), "Tax on the price."),
        may(
            "price_step",
            Kind::Quantity(&[AMOUNT]),
            "The price to pay is a whole number of these; above nought.",
        ),
    ],
    &[],
);

/// Reads a `prices/1` document.
///
/// # Errors
/// Everything that is wrong with the document, in the order of its text.
pub fn read(text: &str) -> Result<Prices, Vec<Problem>> {
    document(text, FORMAT, |reader, at| {
        let top = &reader.top(at, &PRICES)?;
        let note =
            reader.maybe(top, "note", String::new(), |reader, at| reader.name(at, 0).map(str::to_owned));
        let currency = reader.needed(top, "currency", currency);
        // Amounts are read for what is wrong with them even where the currency is not known.
        let coin = currency.or_else(|| Currency::try_new("XXX").ok())?;
        let decimals =
            reader.maybe(top, "decimals", DECIMALS, |reader, at| reader.number(at, &limits::PRICES_DECIMALS));
        let mut seen = BTreeSet::new();
        let materials = reader.items(top, "materials", 1, |reader, at| material(reader, at, coin, &mut seen));
        let wastage = reader.maybe(top, "wastage", Share::ZERO, share);
        let labour = reader.maybe(top, "labour", None, |reader, at| labour(reader, at, coin).map(Some));
        let overheads = reader.items(top, "overheads", 0, |reader, at| overhead(reader, at, coin));
        let packaging = reader.items(top, "packaging", 0, |reader, at| packaging(reader, at, coin));
        let bars =
            reader.maybe(top, "bars", None, |reader, at| reader.number(at, &limits::RECIPE_COUNT).map(Some));
        let margin = reader.maybe(top, "margin", None, |reader, at| margin(reader, at).map(Some));
        let tax = reader.maybe(top, "tax", Share::ZERO, share);
        let step = reader.maybe(top, "price_step", None, |reader, at| step(reader, at, coin).map(Some));
        currency?;
        Some(Prices {
            note: note?,
            currency: coin,
            decimals: decimals?,
            materials: materials?,
            wastage: wastage?,
            labour: labour?,
            overheads: overheads?,
            packaging: packaging?,
            bars: bars?,
            margin: margin?,
            tax: tax?,
            price_step: step?,
        })
    })
}

fn currency(reader: &mut Reader, at: &Node<'_>) -> Option<Currency> {
    let advice = "write its three capital letters: \"GBP\"";
    let text = reader.text(at, advice)?;
    let currency = Currency::try_new(text).ok();
    if currency.is_none() {
        let found = crate::recipe::read_value::echo(text);
        reader.report(at, "prices.currency", format!("{found} is no code of a currency"), advice);
    }
    currency
}

fn share(reader: &mut Reader, at: &Node<'_>) -> Option<Share> {
    reader.quantity(at, &WASTAGE)
}

fn amount(reader: &mut Reader, at: &Node<'_>, currency: Currency) -> Option<Money> {
    let text = reader.quantity_text(at, &AMOUNT)?;
    let value = reader.bare(at, text, text, &AMOUNT)?;
    Money::try_new(value, currency).ok()
}

fn step(reader: &mut Reader, at: &Node<'_>, currency: Currency) -> Option<Money> {
    let step = amount(reader, at, currency)?;
    if step.amount().is_zero() {
        reader.report(
            at,
            "quantity.range",
            "\"price_step\" must be above nought",
            "write for example \"0.50\"",
        );
        return None;
    }
    Some(step)
}

fn material(
    reader: &mut Reader,
    at: &Node<'_>,
    currency: Currency,
    seen: &mut BTreeSet<String>,
) -> Option<MaterialPrice> {
    let fields = reader.object(at, &MATERIAL)?;
    let id = reader.needed(&fields, "material", |reader, at| {
        let id = reader.name(at, 1)?;
        reader.unique(at, seen, id, "prices");
        Some(id.to_owned())
    });
    let supplier =
        reader.maybe(&fields, "supplier", String::new(), |reader, at| reader.name(at, 1).map(str::to_owned));
    let pay = reader.needed(&fields, "price", |reader, at| amount(reader, at, currency));
    let pack = pack(reader, &fields);
    let wastage = reader.maybe(&fields, "wastage", None, |reader, at| share(reader, at).map(Some));
    Some(MaterialPrice { material: id?, supplier: supplier?, pay: pay?, pack: pack?, wastage: wastage? })
}

/// A pack by mass; or by volume, and then with a density.
fn pack(reader: &mut Reader, fields: &Fields<'_>) -> Option<Pack> {
    let density = reader
        .maybe(fields, "density", None, |reader, at| reader.positive::<Density>(at, &DENSITY).map(Some));
    let at = fields.get("pack")?;
    let text = reader.quantity_text(&at, &PACK_MASS)?;
    let volume = reader.first_that_fits(&at, text, &[PACK_MASS, PACK_VOLUME])? == 1;
    if !volume {
        if let Some(at) = fields.get("density") {
            let message = "a pack that is stated by mass needs no density";
            reader.report(&at, "prices.pack", message, "leave it out, or state the pack by volume");
        }
        return reader.positive(&at, &PACK_MASS).map(Pack::Mass);
    }
    let volume: Option<Volume> = reader.positive(&at, &PACK_VOLUME);
    if !fields.tried("density") {
        let message = "a pack that is stated by volume needs the density of what is in it";
        reader.report(&at, "prices.pack", message, "add for example \"density\": \"0.915 g/mL\"");
    }
    Some(Pack::Volume(volume?, density??))
}

fn labour(reader: &mut Reader, at: &Node<'_>, currency: Currency) -> Option<Labour> {
    let fields = reader.object(at, &LABOUR)?;
    let rate = reader.needed(&fields, "rate", |reader, at| amount(reader, at, currency));
    let time = reader.needed(&fields, "time", |reader, at| reader.quantity(at, &TIME));
    Some(Labour { rate: rate?, time: time? })
}

fn overhead(reader: &mut Reader, at: &Node<'_>, currency: Currency) -> Option<Overhead> {
    let fields = reader.object(at, &OVERHEAD)?;
    let what = reader.needed(&fields, "overhead", |reader, at| reader.name(at, 1).map(str::to_owned));
    let batch = reader
        .needed(&fields, "amount", |reader, at| amount(reader, at, currency).map(OverheadAmount::Batch));
    let share = reader.needed(&fields, "share", |reader, at| share(reader, at).map(OverheadAmount::Share));
    Some(Overhead { what: what?, amount: batch.or(share)? })
}

fn packaging(reader: &mut Reader, at: &Node<'_>, currency: Currency) -> Option<Packaging> {
    let fields = reader.object(at, &PACKAGING)?;
    let what = reader.needed(&fields, "packaging", |reader, at| reader.name(at, 1).map(str::to_owned));
    let each = reader.needed(&fields, "each", |reader, at| amount(reader, at, currency));
    Some(Packaging { what: what?, each: each? })
}

fn margin(reader: &mut Reader, at: &Node<'_>) -> Option<Margin> {
    let fields = reader.object(at, &MARGIN_TABLE)?;
    let of_price =
        reader.needed(&fields, "of_price", |reader, at| reader.quantity(at, &MARGIN).map(Margin::OfPrice));
    let of_cost =
        reader.needed(&fields, "of_cost", |reader, at| reader.quantity(at, &MARKUP).map(Margin::OfCost));
    of_price.or(of_cost)
}

/// The smallest coin of a currency with so many decimals.
#[must_use]
pub(super) fn coin(decimals: u32) -> Exact {
    Exact::literal(1, decimals.min(crate::limits::DECIMALS))
}

/// The JSON Schema of a `prices/1` document, as text.
#[cfg(feature = "schema")]
#[must_use]
pub fn schema() -> String {
    crate::recipe::schema::of(&PRICES, "Prices of what a batch is made with")
}
