//! The batch record on paper.

use std::fmt::Display;

use super::trial_page::tried;
use super::{Decision, Outcome, Record, Review, Trial};
use crate::batch::Plan;
use crate::quantity::{Mass, fixed};
use crate::sheet::document::{Block, Cell, Page, Table, figures, words};
use crate::sheet::{held, marked, plain};

/// The batch record as plain text, with the trials of its bars and what they are beside those of the usual bar.
#[must_use]
pub fn text(record: &Record, plan: Option<&Plan>, trials: &[Trial], usual: Option<&Trial>) -> String {
    plain::render(&blocks(record, plan, trials, usual))
}

/// The batch record as Markdown.
#[must_use]
pub fn markdown(record: &Record, plan: Option<&Plan>, trials: &[Trial], usual: Option<&Trial>) -> String {
    marked::render(&blocks(record, plan, trials, usual))
}

/// The batch record in parts, for a screen that sets them itself.
#[must_use]
pub fn page(record: &Record, plan: Option<&Plan>, trials: &[Trial], usual: Option<&Trial>) -> Page {
    Page::of(blocks(record, plan, trials, usual))
}

fn blocks(record: &Record, plan: Option<&Plan>, trials: &[Trial], usual: Option<&Trial>) -> Vec<Block> {
    let review = Review::of(record, plan);
    let mut blocks = vec![Block::Title(format!("Batch record {}: {}", record.batch, record.product))];
    if !record.note.is_empty() {
        blocks.push(Block::Paragraph(record.note.clone()));
    }
    held::notice(&review.holds, &mut blocks);
    blocks.push(head(record, &review));
    looked_through(&review, &mut blocks);
    blocks.push(Block::Heading("Materials"));
    blocks.push(materials(&review, plan.is_some()));
    blocks.push(Block::Heading("Lots"));
    blocks.push(lots(record));
    blocks.push(Block::Heading("Weighings"));
    blocks.push(weighings(record));
    made(record, &mut blocks);
    tested(record, &mut blocks);
    for trial in trials.iter().filter(|trial| trial.batch == record.batch) {
        tried(trial, usual, &mut blocks);
    }
    blocks
}

fn shown(value: Option<impl Display>) -> Cell {
    value.map_or(Cell::Empty, |value| Cell::of(value.to_string()))
}

pub(super) fn grams(mass: Mass) -> String {
    fixed(mass.value(), mass.value().normalize().scale().clamp(2, 3))
}

fn head(record: &Record, review: &Review) -> Block {
    let or_blank = |text: &str| if text.is_empty() { "____________".to_owned() } else { text.to_owned() };
    let moment =
        |at: Option<crate::quantity::Moment>| or_blank(&at.map_or_else(String::new, |at| at.to_string()));
    let mut pairs = vec![
        ("Formula", or_blank(&record.formula)),
        ("Begun", moment(record.started)),
        ("Ended", moment(record.finished)),
        ("By", or_blank(&record.operators.join(", "))),
        ("Mark on the bar", or_blank(&record.code)),
        ("Label", or_blank(&record.label)),
        ("Cure from", or_blank(&record.cure_from.map_or_else(String::new, |day| day.to_string()))),
    ];
    if let Some(expiry) = &review.expiry {
        pairs.push((
            "Keeps no longer than",
            format!("{}, when lot {} of {} ends", expiry.date, expiry.lot, expiry.material),
        ));
    }
    let release = record.release.as_ref().map_or_else(String::new, |release| {
        let word = |decision| match decision {
            Decision::Released => "released",
            Decision::Held => "on hold",
            Decision::Rejected => "rejected",
        };
        let written = format!("{} by {} on {}", word(release.decision), release.by, release.on);
        match review.decision {
            Some(decision) if decision != release.decision => {
                format!("ON HOLD, NOT RELEASED. Written was: {written}")
            }
            _ => written,
        }
    });
    pairs.push(("Decision", or_blank(&release)));
    Block::Table(Table::pairs(pairs))
}

fn looked_through(review: &Review, blocks: &mut Vec<Block>) {
    if !review.findings.is_empty() {
        blocks.push(Block::Heading("To look at again"));
        let one = |finding: &super::Finding| format!("{}. To do: {}.", finding.message, finding.advice);
        blocks.push(Block::List(review.findings.iter().map(one).collect()));
    }
    if !review.gaps.is_empty() {
        blocks.push(Block::Heading("Still to be written down"));
        blocks.push(Block::List(review.gaps.iter().map(|gap| gap.what.to_owned()).collect()));
        blocks.push(Block::Paragraph(
            "What a record should hold follows ISO 22716 as remembered; the standard itself was not read."
                .to_owned(),
        ));
    }
}

fn materials(review: &Review, planned: bool) -> Block {
    let mut table = Table::new(vec![
        words("material"),
        figures("planned, g"),
        figures("weighed, g"),
        figures("more, g"),
        words("lots"),
    ]);
    for line in &review.lines {
        let figure = |mass: Option<Mass>| mass.map_or(Cell::Empty, |mass| Cell::of(grams(mass)));
        table.row(vec![
            Cell::of(&*line.name),
            if planned { figure(line.planned) } else { Cell::Empty },
            figure(line.weighed),
            figure(line.difference()),
            Cell::of(line.lots.join(", ")),
        ]);
    }
    Block::Table(table)
}

fn lots(record: &Record) -> Block {
    let mut table = Table::new(vec![
        words("lot"),
        words("material"),
        words("supplier"),
        words("supplier’s lot"),
        words("came"),
        words("opened"),
        words("ends"),
    ]);
    for lot in &record.lots {
        let supplier =
            if lot.batch.is_empty() { lot.supplier.clone() } else { format!("batch {}", lot.batch) };
        table.row(vec![
            Cell::of(&*lot.lot),
            Cell::of(&*lot.material),
            Cell::of(supplier),
            Cell::of(&*lot.supplier_lot),
            shown(lot.received),
            shown(lot.opened),
            shown(lot.expires),
        ]);
    }
    Block::Table(table)
}

fn weighings(record: &Record) -> Block {
    let mut table = Table::new(vec![
        words("when"),
        words("lot"),
        words("material"),
        figures("g"),
        words("into"),
        words("scale"),
        words("by"),
    ]);
    for actual in &record.weighings {
        let material = record.lot(&actual.lot).map_or("", |lot| &lot.material);
        table.row(vec![
            shown(actual.at),
            Cell::of(&*actual.lot),
            Cell::of(material),
            Cell::of(grams(actual.mass)),
            Cell::of(&*actual.into),
            Cell::of(&*actual.scale),
            Cell::of(&*actual.by),
        ]);
    }
    Block::Table(table)
}

/// Equipment, temperatures, layers, events, deviations.
fn made(record: &Record, blocks: &mut Vec<Block>) {
    let mut section = |title: &'static str, table: Table| {
        if !table.rows.is_empty() {
            blocks.push(Block::Heading(title));
            blocks.push(Block::Table(table));
        }
    };
    let mut table = Table::new(vec![words("what"), words("cleaned"), words("by")]);
    for item in &record.equipment {
        table.row(vec![Cell::of(&*item.name), shown(item.cleaned), Cell::of(&*item.by)]);
    }
    section("Equipment", table);
    let mut table =
        Table::new(vec![words("scale"), figures("weight, g"), figures("showed, g"), words("when")]);
    for check in &record.scale_checks {
        table.row(vec![
            Cell::of(&*check.scale),
            Cell::of(grams(check.weight)),
            Cell::of(grams(check.shown)),
            shown(check.at),
        ]);
    }
    section("Scales", table);
    let mut table = Table::new(vec![words("of"), words("temperature"), words("when")]);
    for reading in &record.temperatures {
        table.row(vec![Cell::of(&*reading.what), Cell::of(reading.value.to_string()), shown(reading.at)]);
    }
    section("Temperatures", table);
    let mut table = Table::new(vec![words("layer"), words("poured"), figures("g")]);
    for layer in &record.layers {
        table.row(vec![Cell::of(&*layer.layer), shown(layer.at), shown(layer.mass.map(grams))]);
    }
    section("Layers, from the bottom", table);
    let mut table = Table::new(vec![words("when"), words("what")]);
    for event in &record.events {
        table.row(vec![shown(event.at), Cell::of(&*event.what)]);
    }
    section("Seen and done", table);
    let mut table = Table::new(vec![words("otherwise than planned"), words("done about it"), words("by")]);
    for deviation in &record.deviations {
        table.row(vec![Cell::of(&*deviation.what), Cell::of(&*deviation.action), Cell::of(&*deviation.by)]);
    }
    section("Deviations", table);
}

/// Checks, output, samples.
fn tested(record: &Record, blocks: &mut Vec<Block>) {
    if !record.checks.is_empty() {
        blocks.push(Block::Heading("Tests"));
        let mut table =
            Table::new(vec![words("test"), words("found"), words(""), words("when"), words("by")]);
        for check in &record.checks {
            let outcome = match check.outcome {
                Outcome::Pass => "as it should be",
                Outcome::Fail => "NOT as it should be",
            };
            table.row(vec![
                Cell::of(&*check.check),
                Cell::of(&*check.result),
                Cell::of(outcome),
                shown(check.at),
                Cell::of(&*check.by),
            ]);
        }
        blocks.push(Block::Table(table));
    }
    let mut pairs = Vec::new();
    if let Some(output) = record.output {
        pairs.push(("Good bars", output.bars.to_string()));
        pairs.push(("Not good", output.rejected.to_string()));
        pairs.extend(output.mass.map(|mass| ("Mass of the good bars", format!("{} g", grams(mass)))));
    }
    if let Some(samples) = &record.samples {
        let place = if samples.place.is_empty() { String::new() } else { format!(", {}", samples.place) };
        pairs.push(("Bars that are kept", format!("{}{place}", samples.count)));
    }
    if !pairs.is_empty() {
        blocks.push(Block::Heading("What came out"));
        blocks.push(Block::Table(Table::pairs(pairs)));
    }
}
