//! What is weighed: the pot, the lye, the jugs.

use super::super::document::{Block, Cell, Column, Table, figures, words};
use super::print::{capital, exact, ideal, list, named, percent, scale, scale_places, sum, weighed};
use crate::batch::{JugPlan, Plan, WeighItem, Weighing};
use crate::quantity::fixed;

fn columns() -> Vec<Column> {
    vec![words(""), words(""), figures("weigh, g"), figures("exact, g"), words("scale")]
}

fn item(plan: &Plan, table: &mut Table, name: &str, item: &WeighItem) {
    if item.ideal.is_zero() {
        return;
    }
    table.row(vec![
        Cell::Tick,
        Cell::of(name),
        Cell::of(weighed(plan, item.weighed, item.scale)),
        Cell::of(ideal(plan, item.ideal, item.scale)),
        Cell::of(scale(plan, item.scale)),
    ]);
}

fn part(plan: &Plan, table: &mut Table, name: &str, part: &Weighing) {
    table.row(vec![
        Cell::Tick,
        Cell::of(name),
        Cell::of(weighed(plan, part.weighed, part.scale)),
        Cell::of(ideal(plan, part.ideal, part.scale)),
        Cell::of(scale(plan, part.scale)),
    ]);
}

fn total(table: &mut Table, name: &str, figure: String) {
    table.sum(vec![Cell::Empty, Cell::of(name), Cell::of(figure), Cell::Empty, Cell::Empty]);
}

pub(super) fn pot(plan: &Plan, blocks: &mut Vec<Block>) {
    blocks.push(Block::Heading("Weigh: the pot of fats"));
    let mut table = Table::new(columns());
    let items = || plan.pot.fats.iter().chain(&plan.pot.doses);
    for line in items() {
        item(plan, &mut table, &line.name, line);
    }
    total(&mut table, "together", sum(plan, plan.pot.total, items().map(|item| item.scale)));
    blocks.push(Block::Table(table));
}

pub(super) fn lye(plan: &Plan, blocks: &mut Vec<Block>) {
    blocks.push(Block::Heading("Weigh: the lye"));
    let lye = &plan.lye;
    let mut table = Table::new(columns());
    item(plan, &mut table, &lye.water.name, &lye.water);
    for line in &lye.liquids {
        item(plan, &mut table, &line.name, line);
    }
    for (line, purity) in lye.alkalis.iter().zip(&lye.purities) {
        item(plan, &mut table, &format!("{}, {purity} pure", capital(&line.name)), line);
    }
    for line in &lye.doses {
        item(plan, &mut table, &line.name, line);
    }
    let scales = lye.alkalis.iter().chain([&lye.water]).chain(&lye.liquids).chain(&lye.doses);
    total(&mut table, "together", sum(plan, lye.total, scales.map(|item| item.scale)));
    blocks.push(Block::Table(table));
    blocks.push(Block::Paragraph(format!(
        "That is lye of {} with {} g of pure alkali in it: {} mL at {}.",
        percent(lye.figures.concentration, 2),
        fixed((lye.figures.sodium_hydroxide + lye.figures.potassium_hydroxide).value(), 2),
        fixed(lye.figures.volume.value(), 0),
        plan.temperatures.lye
    )));
}

pub(super) fn jugs(plan: &Plan, blocks: &mut Vec<Block>) {
    blocks.push(Block::Heading("Jugs, in the order of their first pour"));
    for jug in &plan.jugs {
        one_jug(plan, jug, blocks);
    }
    let from_pot = sum(plan, plan.pot.left, plan.jugs.iter().map(|jug| jug.portion.scale));
    let from_lye = sum(plan, plan.lye.left, plan.jugs.iter().map(|jug| jug.lye.scale));
    blocks.push(Block::Paragraph(format!(
        "Left over: {from_pot} g in the pot, {from_lye} g in the vessel of the lye."
    )));
}

fn one_jug(plan: &Plan, jug: &JugPlan, blocks: &mut Vec<Block>) {
    let layers: Vec<String> = jug
        .layers
        .iter()
        .filter_map(|layer| plan.layers.get(*layer))
        .map(|layer| named(&layer.name))
        .collect();
    let own = layers.len() == 1 && layers.first().is_some_and(|layer| *layer == named(&jug.name));
    let layers = if own { String::new() } else { format!(" for {}", list(&layers)) };
    blocks.push(Block::Subheading(format!("{}{layers}", named(&jug.name))));
    let mut table = Table::new(columns());
    part(plan, &mut table, "from the pot", &jug.portion);
    for line in &jug.doses {
        item(plan, &mut table, &line.name, line);
    }
    part(plan, &mut table, "lye", &jug.lye);
    for line in &jug.held {
        item(plan, &mut table, &format!("after the cook: {}", line.name), line);
    }
    for line in &jug.late_doses {
        item(plan, &mut table, &format!("last: {}", line.name), line);
    }
    let items = jug.doses.iter().chain(&jug.late_doses).chain(&jug.held).map(|item| item.scale);
    total(&mut table, "in the jug", sum(plan, jug.net, items.chain([jug.portion.scale, jug.lye.scale])));
    let scale = jug.portion.scale;
    if let Some(tare) = jug.tare {
        total(&mut table, "the jug itself", exact(tare, scale_places(plan, scale)));
        total(&mut table, "the scale shows", weighed(plan, jug.gross, scale));
    } else {
        total(&mut table, "the scale shows, without the jug", weighed(plan, jug.gross, scale));
    }
    blocks.push(Block::Table(table));
    let lye = format!(
        "Its lye holds {} g of alkali and {} g of water.",
        fixed(jug.alkali.value(), 2),
        fixed(jug.lye_water.value(), 2)
    );
    let superfat = format!(
        "Superfat: asked for {}, exact {}, as weighed {}.",
        percent(plan.batch.superfat_aimed, 2),
        percent(jug.superfat_ideal, 2),
        percent(jug.superfat, 2)
    );
    blocks.push(Block::Paragraph(format!("{lye} {superfat}")));
}
