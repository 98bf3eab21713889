//! The pours: what the scale shows, and how high each layer stands.

use super::super::document::{Block, Cell, Table, figures, words};
use super::print::{exact, list, named, scale_places, weighed};
use crate::batch::{LayerPlan, Plan};
use crate::quantity::fixed;

pub(super) fn pours(plan: &Plan, blocks: &mut Vec<Block>) {
    blocks.push(Block::Heading("Pour"));
    // Where there is one mould, its heights stand beside the readings.
    let beside = plan.moulds.len() == 1;
    let mut columns = vec![
        words(""),
        words("layer"),
        words("from jug"),
        figures("scale shows, g"),
        figures("pour, g"),
        figures("stop at, g"),
    ];
    if beside {
        columns.extend([figures("from, mm"), figures("up to, mm")]);
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
            Cell::of(weighed(plan, layer.reading.before, scale)),
            Cell::of(weighed(plan, layer.portion, scale)),
            Cell::of(weighed(plan, layer.reading.after, scale)),
        ];
        if beside {
            cells.extend(from_to(layer, 0));
        }
        table.row(cells);
    }
    let least = plan.jugs.iter().map(|jug| scale_places(plan, jug.portion.scale)).max().unwrap_or(0);
    let mut cells = vec![Cell::Empty, Cell::of("together"), Cell::Empty, Cell::Empty];
    cells.push(Cell::of(exact(plan.batch.poured, least)));
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
        blocks.push(Block::Table(heights(plan, index)));
    }
}

fn heights(plan: &Plan, mould: usize) -> Table {
    let mut table = Table::new(vec![words("layer"), figures("from, mm"), figures("up to, mm")]);
    for layer in &plan.layers {
        let cells = from_to(layer, mould);
        table.row(std::iter::once(Cell::of(layer.name.as_str())).chain(cells).collect());
    }
    table
}

/// Where a layer lies in a mould, mm.
fn from_to(layer: &LayerPlan, mould: usize) -> [Cell; 2] {
    match layer.heights.iter().find(|height| height.mould == mould) {
        Some(height) => [height.from, height.to].map(|length| Cell::of(fixed(length.value(), 1))),
        None => [Cell::Empty, Cell::of("over the brim")],
    }
}
