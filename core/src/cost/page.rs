//! The cost sheet.

use super::{Costing, Line, PriceTag};
use crate::quantity::{Exact, Money, Share, fixed};
use crate::sheet::document::{Block, Cell, Page, Table, figures, words};
use crate::sheet::{held, marked, plain};

/// The cost sheet as plain text; `name` is that of the batch.
#[must_use]
pub fn text(costing: &Costing, name: &str) -> String {
    plain::render(&blocks(costing, name))
}

/// The cost sheet as Markdown.
#[must_use]
pub fn markdown(costing: &Costing, name: &str) -> String {
    marked::render(&blocks(costing, name))
}

/// The cost sheet in parts, for a screen that sets them itself.
#[must_use]
pub fn page(costing: &Costing, name: &str) -> Page {
    Page::of(blocks(costing, name))
}

/// An amount in whole coins, without the currency.
fn coins(costing: &Costing, money: Money) -> String {
    fixed(money.amount(), costing.decimals)
}

/// An amount of a single bar: two decimals more than coins have.
fn finely(costing: &Costing, money: Money) -> String {
    fixed(money.amount(), costing.decimals.saturating_add(2))
}

fn percent(share: Share) -> String {
    format!("{} %", fixed(share.in_unit("%").unwrap_or_default(), 1))
}

fn blocks(costing: &Costing, name: &str) -> Vec<Block> {
    let mut blocks = vec![Block::Title(format!("Cost of {name}"))];
    held::notice(&costing.holds, &mut blocks);
    blocks.push(Block::Paragraph(format!(
        "All amounts in {}. Lines and layers are rounded so that they add up to the last coin.",
        costing.currency
    )));
    if !costing.unpriced.is_empty() {
        blocks.push(Block::Paragraph(format!(
            "Without a price, and counted as nought: {}. The batch costs more than it says here.",
            costing.unpriced.join("; ")
        )));
    }
    blocks.push(Block::Heading("Materials"));
    blocks.push(materials(costing));
    blocks.push(Block::Heading("The batch"));
    blocks.push(batch(costing));
    blocks.push(Block::Heading("Layers"));
    blocks.push(layers(costing));
    if let Some(bars) = costing.bars {
        blocks.push(Block::Heading("A bar"));
        let coin = format!("{} with one coin more", bars.with_one_more);
        let mut pairs = vec![
            ("Bars", bars.count.to_string()),
            ("One costs", finely(costing, bars.each)),
            ("In whole coins", format!("{}, {coin}", coins(costing, bars.lower))),
        ];
        pairs.extend(costing.price.iter().flat_map(|price| tag(costing, price)));
        blocks.push(Block::Table(Table::pairs(pairs)));
        blocks.extend(dearer(costing));
    }
    blocks
}

fn materials(costing: &Costing) -> Block {
    let mut table =
        Table::new(vec![words("material"), figures("weighed, g"), figures("cost"), figures("of all")]);
    for line in &costing.lines {
        table.row(vec![
            Cell::of(&*line.name),
            Cell::of(fixed(line.mass.value(), 2)),
            Cell::of(coins(costing, line.cost)),
            Cell::of(percent(costing.share(line))),
        ]);
    }
    table.sum(vec![
        Cell::of("materials"),
        Cell::Empty,
        Cell::of(coins(costing, costing.materials)),
        Cell::Empty,
    ]);
    Block::Table(table)
}

fn batch(costing: &Costing) -> Block {
    let mut table = Table::new(vec![words(""), figures("cost")]);
    table.row(vec![Cell::of("materials"), Cell::of(coins(costing, costing.materials))]);
    for sum in &costing.sums {
        table.row(vec![Cell::of(&*sum.what), Cell::of(coins(costing, sum.amount))]);
    }
    table.sum(vec![Cell::of("the batch"), Cell::of(coins(costing, costing.total))]);
    Block::Table(table)
}

fn layers(costing: &Costing) -> Block {
    let mut table =
        Table::new(vec![words("layer"), figures("materials"), figures("the rest"), figures("together")]);
    for layer in &costing.layers {
        table.row(vec![
            Cell::of(&*layer.name),
            Cell::of(coins(costing, layer.materials)),
            Cell::of(coins(costing, layer.rest)),
            Cell::of(coins(costing, layer.total)),
        ]);
    }
    table.sum(vec![
        Cell::of("the batch"),
        Cell::of(coins(costing, costing.materials)),
        Cell::Empty,
        Cell::of(coins(costing, costing.total)),
    ]);
    Block::Table(table)
}

fn tag(costing: &Costing, price: &PriceTag) -> Vec<(&'static str, String)> {
    vec![
        ("The customer pays", coins(costing, price.pay)),
        ("Without tax", coins(costing, price.net)),
        ("Tax in it", coins(costing, price.tax)),
        ("Left when the bar is paid for", finely(costing, price.earned)),
        ("That is of the price without tax", percent(price.margin)),
    ]
}

/// What a tenth on the price of the dearest materials does to a bar.
fn dearer(costing: &Costing) -> Option<Block> {
    let bars = Exact::from(i64::from(costing.bars?.count));
    let mut lines: Vec<&Line> = costing.lines.iter().filter(|line| !line.exact.amount().is_zero()).collect();
    lines.sort_by_key(|line| std::cmp::Reverse(line.exact.amount()));
    let said = lines.into_iter().take(5).filter_map(|line| {
        let more = Exact::from(line.exact.amount()) / Exact::from(10) / bars;
        let more = Money::try_new(more, costing.currency).ok()?;
        Some(format!("If {} costs a tenth more, a bar costs {} more.", line.name, finely(costing, more)))
    });
    let said: Vec<String> = said.collect();
    if said.is_empty() { None } else { Some(Block::List(said)) }
}
