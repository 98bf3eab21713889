//! What is weighed: the pot, the lye, the jugs.

use super::super::Sheet;
use super::super::document::{Block, Cell, Column, Table, figures, words};
use super::print::{
    capital, degrees, exact, ideal, list, named, percent, rounded, scale, scale_places, sum, weighed,
};
use crate::batch::{JugPlan, WeighItem, Weighing};
use crate::quantity::fixed;

fn columns(sheet: &Sheet<'_>) -> Vec<Column> {
    let unit = sheet.units.mass.symbol;
    let masses = ["weigh", "exact"].map(|what| figures(format!("{what}, {unit}")));
    let [weigh, exact] = masses;
    vec![words(""), words(""), weigh, exact, words("scale")]
}

fn item(sheet: &Sheet<'_>, table: &mut Table, name: &str, item: &WeighItem) {
    if item.ideal.is_zero() {
        return;
    }
    table.row(vec![
        Cell::Tick,
        Cell::of(name),
        Cell::of(weighed(sheet, item.weighed, item.scale)),
        Cell::of(ideal(sheet, item.ideal, item.scale)),
        Cell::of(scale(sheet.plan, item.scale)),
    ]);
}

fn part(sheet: &Sheet<'_>, table: &mut Table, name: &str, part: &Weighing) {
    table.row(vec![
        Cell::Tick,
        Cell::of(name),
        Cell::of(weighed(sheet, part.weighed, part.scale)),
        Cell::of(ideal(sheet, part.ideal, part.scale)),
        Cell::of(scale(sheet.plan, part.scale)),
    ]);
}

fn total(table: &mut Table, name: &str, figure: String) {
    table.sum(vec![Cell::Empty, Cell::of(name), Cell::of(figure), Cell::Empty, Cell::Empty]);
}

pub(super) fn pot(sheet: &Sheet<'_>, blocks: &mut Vec<Block>) {
    let plan = sheet.plan;
    blocks.push(Block::Heading("Weigh: the pot of fats"));
    let mut table = Table::new(columns(sheet));
    let items = || plan.pot.fats.iter().chain(&plan.pot.doses);
    for line in items() {
        item(sheet, &mut table, &line.name, line);
    }
    total(&mut table, "together", sum(sheet, plan.pot.total, items().map(|item| item.scale)));
    blocks.push(Block::Table(table));
}

pub(super) fn lye(sheet: &Sheet<'_>, blocks: &mut Vec<Block>) {
    let plan = sheet.plan;
    blocks.push(Block::Heading("Weigh: the lye"));
    let lye = &plan.lye;
    let mut table = Table::new(columns(sheet));
    for line in lye.order.iter().flat_map(|step| lye.items_of(step)) {
        let purity = lye.alkalis.iter().position(|one| one.pointer == line.pointer);
        let name = match purity.and_then(|at| lye.purities.get(at)) {
            Some(purity) => format!("{}, {purity} pure", capital(&line.name)),
            None => line.name.to_string(),
        };
        item(sheet, &mut table, &name, line);
    }
    total(&mut table, "together", sum(sheet, lye.total, lye.items().map(|item| item.scale)));
    blocks.push(Block::Table(table));
    blocks.push(Block::Paragraph(format!(
        "That is lye of {} with {} of pure alkali in it: {} mL at {}.",
        percent(lye.figures.concentration, 2),
        rounded(sheet, lye.figures.sodium_hydroxide + lye.figures.potassium_hydroxide, 2),
        fixed(lye.figures.volume.value(), 0),
        degrees(sheet, plan.temperatures.lye)
    )));
}

pub(super) fn jugs(sheet: &Sheet<'_>, blocks: &mut Vec<Block>) {
    let plan = sheet.plan;
    blocks.push(Block::Heading("Jugs, in the order of their first pour"));
    for jug in &plan.jugs {
        one_jug(sheet, jug, blocks);
    }
    let from_pot = sum(sheet, plan.pot.left, plan.jugs.iter().map(|jug| jug.portion.scale));
    let from_lye = sum(sheet, plan.lye.left, plan.jugs.iter().map(|jug| jug.lye.scale));
    let unit = sheet.units.mass.symbol;
    blocks.push(Block::Paragraph(format!(
        "Left over: {from_pot} {unit} in the pot, {from_lye} {unit} in the vessel of the lye."
    )));
}

fn one_jug(sheet: &Sheet<'_>, jug: &JugPlan, blocks: &mut Vec<Block>) {
    let plan = sheet.plan;
    let layers: Vec<String> = jug
        .layers
        .iter()
        .filter_map(|layer| plan.layers.get(*layer))
        .map(|layer| named(&layer.name))
        .collect();
    let own = layers.len() == 1 && layers.first().is_some_and(|layer| *layer == named(&jug.name));
    let layers = if own { String::new() } else { format!(" for {}", list(&layers)) };
    blocks.push(Block::Subheading(format!("{}{layers}", named(&jug.name))));
    let mut table = Table::new(columns(sheet));
    part(sheet, &mut table, "from the pot", &jug.portion);
    for line in &jug.doses {
        item(sheet, &mut table, &line.name, line);
    }
    part(sheet, &mut table, "lye", &jug.lye);
    for line in &jug.held {
        item(sheet, &mut table, &format!("after the cook: {}", line.name), line);
    }
    for line in &jug.late_doses {
        item(sheet, &mut table, &format!("last: {}", line.name), line);
    }
    let items = jug.doses.iter().chain(&jug.late_doses).chain(&jug.held).map(|item| item.scale);
    total(&mut table, "in the jug", sum(sheet, jug.net, items.chain([jug.portion.scale, jug.lye.scale])));
    let scale = jug.portion.scale;
    if let Some(tare) = jug.tare {
        total(&mut table, "the jug itself", exact(sheet, tare, scale_places(sheet, scale)));
        total(&mut table, "the scale shows", weighed(sheet, jug.gross, scale));
    } else {
        total(&mut table, "the scale shows, without the jug", weighed(sheet, jug.gross, scale));
    }
    blocks.push(Block::Table(table));
    let lye = format!(
        "Its lye holds {} of alkali and {} of water.",
        rounded(sheet, jug.alkali, 2),
        rounded(sheet, jug.lye_water, 2)
    );
    let superfat = format!(
        "Superfat: asked for {}, exact {}, as weighed {}.",
        percent(plan.batch.superfat_aimed, 2),
        percent(jug.superfat_ideal, 2),
        percent(jug.superfat, 2)
    );
    blocks.push(Block::Paragraph(format!("{lye} {superfat}")));
}
