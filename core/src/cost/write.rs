//! Prices as the canonical text of their document.

use super::document::{DECIMALS, FORMAT, Labour, Margin, MaterialPrice, OverheadAmount, Pack, Prices};
use crate::quantity::{Money, Share};
use crate::recipe::json::{self, Json, Value, list, text};
use crate::recipe::read_date::whole_units;
use crate::recipe::write::Entries;

/// The prices as a document: fields in the order of the format, defaults left out.
#[must_use]
pub fn write(prices: &Prices) -> String {
    let mut top = Entries::default();
    top.put("lamella", text(FORMAT));
    top.unless(prices.note.is_empty(), "note", || text(&*prices.note));
    top.quantity("currency", prices.currency);
    top.unless(prices.decimals == DECIMALS, "decimals", || whole(prices.decimals));
    top.put("materials", list(prices.materials.iter().map(material).collect()));
    top.unless(prices.wastage == Share::ZERO, "wastage", || text(prices.wastage.to_string()));
    if let Some(work) = prices.labour {
        top.put("labour", labour(work));
    }
    top.list(
        "overheads",
        prices.overheads.iter().map(|overhead| {
            let mut entries = Entries::default();
            entries.put("overhead", text(&*overhead.what));
            match overhead.amount {
                OverheadAmount::Batch(money) => entries.put("amount", amount(money)),
                OverheadAmount::Share(share) => entries.quantity("share", share),
            }
            entries.object()
        }),
    );
    top.list(
        "packaging",
        prices.packaging.iter().map(|packaging| {
            let mut entries = Entries::default();
            entries.put("packaging", text(&*packaging.what));
            entries.put("each", amount(packaging.each));
            entries.object()
        }),
    );
    if let Some(bars) = prices.bars {
        top.put("bars", whole(bars));
    }
    if let Some(margin) = prices.margin {
        let mut entries = Entries::default();
        match margin {
            Margin::OfPrice(share) => entries.quantity("of_price", share),
            Margin::OfCost(share) => entries.quantity("of_cost", share),
        }
        top.put("margin", entries.object());
    }
    top.unless(prices.tax == Share::ZERO, "tax", || text(prices.tax.to_string()));
    if let Some(step) = prices.price_step {
        top.put("price_step", amount(step));
    }
    json::print(&top.object())
}

fn whole(number: u32) -> Json {
    Value::Whole(number.into()).json()
}

fn amount(money: Money) -> Json {
    text(money.amount().normalize().to_string())
}

fn labour(labour: Labour) -> Json {
    let mut entries = Entries::default();
    entries.put("rate", amount(labour.rate));
    entries.put("time", text(whole_units(labour.time)));
    entries.object()
}

fn material(price: &MaterialPrice) -> Json {
    let mut entries = Entries::default();
    entries.put("material", text(&*price.material));
    entries.unless(price.supplier.is_empty(), "supplier", || text(&*price.supplier));
    entries.put("price", amount(price.pay));
    match price.pack {
        Pack::Mass(mass) => entries.quantity("pack", mass),
        Pack::Volume(volume, density) => {
            entries.quantity("pack", volume);
            entries.quantity("density", density);
        }
    }
    if let Some(wastage) = price.wastage {
        entries.quantity("wastage", wastage);
    }
    entries.object()
}
