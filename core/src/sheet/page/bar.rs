//! What the bar is made of, what its fat is like, and whether the masses add up.

use std::collections::BTreeSet;

use super::super::Sheet;
use super::super::document::{Block, Cell, Table, figures, words};
use super::print::{all_grams, in_unit, percent};
use crate::batch::Plan;
use crate::chemistry::{Makeup, Part};
use crate::quantity::{Decimal, Share, fixed};

fn stages(plan: &Plan) -> [&Makeup; 3] {
    [&plan.batch.at_pour, &plan.batch.reacted, &plan.batch.cured]
}

pub(super) fn makeup(sheet: &Sheet<'_>, blocks: &mut Vec<Block>) {
    let plan = sheet.plan;
    blocks.push(Block::Heading("What the bars are made of"));
    let mut columns = vec![words("")];
    for stage in ["at pour", "reacted", "cured"] {
        columns.extend([figures(format!("{stage}, {}", sheet.units.mass.symbol)), figures("%")]);
    }
    let mut table = Table::new(columns);
    let parts: BTreeSet<Part> =
        stages(plan).iter().flat_map(|makeup| &makeup.parts).map(|(part, _)| *part).collect();
    for part in parts {
        let mut cells = vec![Cell::of(part.name())];
        for makeup in stages(plan) {
            cells.extend(in_it(sheet, makeup, part));
        }
        table.row(cells);
    }
    let mut cells = vec![Cell::of("together")];
    for makeup in stages(plan) {
        cells.extend([Cell::of(in_unit(sheet, makeup.total, 2)), Cell::of("100.00")]);
    }
    table.sum(cells);
    blocks.push(Block::Table(table));
    let share = |makeup: &Makeup, part| percent(makeup.share(part), 2);
    let cured = &plan.batch.cured;
    blocks.push(Block::Paragraph(format!(
        "Cured: total fatty matter {} (in the sense of ISO 685), glycerol {}, moisture {}.",
        percent(cured.total_fatty_matter, 2),
        share(cured, Part::Glycerol),
        share(cured, Part::Water)
    )));
}

/// Mass and share of a part; nothing where it is not there.
fn in_it(sheet: &Sheet<'_>, makeup: &Makeup, part: Part) -> [Cell; 2] {
    let mass = makeup.mass(part);
    if mass.is_zero() {
        return [Cell::Empty, Cell::Empty];
    }
    let share = makeup.share(part).in_unit("%").unwrap_or_default();
    [Cell::of(in_unit(sheet, mass, 2)), Cell::of(fixed(share, 2))]
}

pub(super) fn fats(plan: &Plan, blocks: &mut Vec<Block>) {
    blocks.push(Block::Heading("The fat"));
    let indices = &plan.batch.indices;
    let mut table = Table::new(vec![words(""), figures(""), words("")]);
    let mut row = |name: &str, value: Decimal, places, unit| {
        table.row(vec![Cell::of(name), Cell::of(fixed(value, places)), Cell::of(unit)]);
    };
    row("saponification value, used", indices.saponification_value.value(), 1, "mg KOH/g");
    if let Some(value) = indices.computed_saponification_value {
        row("the same, from the fatty acids alone", value.value(), 1, "mg KOH/g");
    }
    if let Some(value) = indices.computed_iodine_value {
        row("iodine value, from the fatty acids", value.value(), 1, "g I2/100 g");
    }
    let per_cent = |share: Share| share.in_unit("%").unwrap_or_default();
    for line in indices.classes.iter().filter(|line| !line.share.is_zero()) {
        row(line.class.name(), per_cent(line.share), 1, "% of the fatty acids");
    }
    row("fat with known fatty acids", per_cent(indices.profiled), 1, "%");
    blocks.push(Block::Paragraph("All fat of the batch counts here, that of additives too.".to_owned()));
    blocks.push(Block::Table(table));
}

pub(super) fn check(plan: &Plan, blocks: &mut Vec<Block>) {
    blocks.push(Block::Heading("Mass check"));
    // In grams whatever the maker reads: rounded in another unit it would not add up to the last digit.
    let batch = &plan.batch;
    let masses = [batch.weighed_in, batch.poured, batch.left];
    let places = masses.iter().map(|mass| mass.value().normalize().scale()).max().unwrap_or(0);
    let [weighed, poured, left] = masses.map(|mass| all_grams(mass, places));
    blocks.push(Block::Paragraph(format!(
        "{weighed} g weighed in = {poured} g poured + {left} g left in pot, lye vessel and jugs."
    )));
}
