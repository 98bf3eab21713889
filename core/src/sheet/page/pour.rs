//! The pours: what the scale shows, and how high each layer stands.

use super::super::Sheet;
use super::super::document::{Block, Cell, Column, Table, figures, words};
use super::print::{exact, height, list, named, scale_places, weighed};
use crate::batch::LayerPlan;

pub(super) fn pours(sheet: &Sheet<'_>, blocks: &mut Vec<Block>) {
    let plan = sheet.plan;
    blocks.push(Block::Heading("Pour"));
    // Where there is one mould, its heights stand beside the readings.
    let beside = plan.moulds.len() == 1;
    let mut columns = vec![words(""), words("layer"), words("from jug")];
    let unit = sheet.units.mass.symbol;
    columns.extend(["scale shows", "pour", "stop at"].map(|what| figures(format!("{what}, {unit}"))));
    if beside {
        columns.extend(from_to_columns(sheet));
    }
    let width = columns.len();
    let mut table = Table::new(columns);
    for layer in &plan.layers {
        let Some(jug) = plan.jugs.get(layer.jug) else { continue };
        let scale = jug.portion.scale;
        let mut cells = vec![
            Cell::Tick,
            Cell::of(layer.name.as_str()),
            Cell::of(jug.name.as_str()),
            Cell::of(weighed(sheet, layer.reading.before, scale)),
            Cell::of(weighed(sheet, layer.portion, scale)),
            Cell::of(weighed(sheet, layer.reading.after, scale)),
        ];
        if beside {
            cells.extend(from_to(sheet, layer, 0));
        }
        table.row(cells);
    }
    let least = plan.jugs.iter().map(|jug| scale_places(sheet, jug.portion.scale)).max().unwrap_or(0);
    let mut cells = vec![Cell::Empty, Cell::of("together"), Cell::Empty, Cell::Empty];
    cells.push(Cell::of(exact(sheet, plan.batch.poured, least)));
    cells.resize_with(width, || Cell::Empty);
    table.sum(cells);
    blocks.push(Block::Table(table));
    let without: Vec<String> =
        plan.jugs.iter().filter(|jug| jug.tare.is_none()).map(|jug| named(&jug.name)).collect();
    if !without.is_empty() {
        blocks.push(Block::Paragraph(format!(
            "The mass of the empty jug is not known for {}: set the scale to nought with it, or weigh it and add \
             its mass to what the scale shows.",
            list(&without)
        )));
    }
    if beside {
        return;
    }
    for (index, mould) in plan.moulds.iter().enumerate() {
        blocks.push(Block::Paragraph(format!("Heights in {}, from its bottom:", named(&mould.name))));
        blocks.push(Block::Table(heights(sheet, index)));
    }
}

fn heights(sheet: &Sheet<'_>, mould: usize) -> Table {
    let plan = sheet.plan;
    let mut table = Table::new(std::iter::once(words("layer")).chain(from_to_columns(sheet)).collect());
    for layer in &plan.layers {
        let cells = from_to(sheet, layer, mould);
        table.row(std::iter::once(Cell::of(layer.name.as_str())).chain(cells).collect());
    }
    table
}

fn from_to_columns(sheet: &Sheet<'_>) -> [Column; 2] {
    ["from", "up to"].map(|end| figures(format!("{end}, {}", sheet.units.length.symbol)))
}

/// Where a layer lies in a mould.
fn from_to(sheet: &Sheet<'_>, layer: &LayerPlan, mould: usize) -> [Cell; 2] {
    match layer.heights.iter().find(|height| height.mould == mould) {
        Some(lies) => [lies.from, lies.to].map(|length| Cell::of(height(sheet, length))),
        None => [Cell::Empty, Cell::of("over the brim")],
    }
}
