//! A trial on paper: what was found, and how it stands beside the maker's usual bar.

use super::page::grams;
use super::{Comparison, Trial};
use crate::quantity::fixed;
use crate::recipe::read_date::whole_units;
use crate::sheet::document::{Block, Cell, Page, Table, figures, words};

/// A trial in parts, beside that of the usual bar where there is one, for a screen that sets them itself.
///
/// ```
/// let trial = r#"{ "lamella": "trial/1", "batch": "12", "washes": { "count": 20, "before": "98.2 g", "after": "91.0 g" } }"#;
/// let page = lamella::record::trial_page(&lamella::record::read_trial(trial).unwrap(), None);
/// assert!(page.to_json().unwrap().contains("0.36 g each"));
/// ```
#[must_use]
pub fn trial_page(trial: &Trial, usual: Option<&Trial>) -> Page {
    let mut blocks = vec![Block::Title(format!("A bar of batch {}", trial.batch))];
    tried(trial, usual, &mut blocks);
    Page::of(blocks)
}

pub(super) fn tried(trial: &Trial, usual: Option<&Trial>, blocks: &mut Vec<Block>) {
    blocks.push(Block::Heading("Tried at the basin"));
    let said = [
        ("When", trial.on.map_or_else(String::new, |on| on.to_string())),
        ("Age", trial.age.map_or_else(String::new, whole_units)),
        ("By", trial.by.clone()),
        ("Water", water(trial)),
        ("Lather", trial.lather.clone()),
        ("Feel", trial.feel.clone()),
        ("Look and smell", trial.look.clone()),
        ("Foam", foam(trial)),
        ("Washes", washes(trial)),
        ("pH", ph(trial)),
        ("Note", trial.note.clone()),
    ];
    let pairs = said.into_iter().filter(|(_, value)| !value.is_empty()).collect();
    blocks.push(Block::Table(Table::pairs(pairs)));
    if let Some(usual) = usual {
        beside(&Comparison::of(trial, usual), blocks);
    }
}

fn water(trial: &Trial) -> String {
    let warm = trial.temperature.map(|warm| warm.to_string());
    let words = Some(trial.water.clone()).filter(|words| !words.is_empty());
    words.into_iter().chain(warm).collect::<Vec<_>>().join(", ")
}

fn foam(trial: &Trial) -> String {
    let Some(foam) = trial.foam else { return String::new() };
    let height = format!("{} high", foam.height);
    match foam.later.zip(foam.after) {
        Some((later, after)) => format!("{height}; {later} after {}", whole_units(after)),
        None => height,
    }
}

fn washes(trial: &Trial) -> String {
    let Some(washes) = trial.washes else { return String::new() };
    let loss = washes.loss().map_or_else(|_| String::new(), |loss| fixed(loss.value(), 2));
    let lasts = washes.lasts().map_or_else(String::new, |count| format!("; a bar lasts about {count}"));
    format!(
        "{} took it from {} to {} g: {loss} g each{lasts}",
        washes.count,
        grams(washes.before),
        grams(washes.after)
    )
}

fn ph(trial: &Trial) -> String {
    match trial.ph.zip(trial.solution) {
        Some((value, solution)) => format!("{} in a solution of {solution}", value.normalize()),
        None => String::new(),
    }
}

fn beside(comparison: &Comparison, blocks: &mut Vec<Block>) {
    blocks.push(Block::Subheading(format!("Beside the usual bar, batch {}", comparison.usual)));
    if !comparison.figures.is_empty() {
        let mut table =
            Table::new(vec![words(""), figures("this bar"), figures("the usual"), figures("more")]);
        for line in &comparison.figures {
            table.row(vec![
                Cell::of(line.what),
                Cell::of(&*line.this),
                Cell::of(&*line.usual),
                Cell::of(&*line.more),
            ]);
        }
        blocks.push(Block::Table(table));
    }
    if !comparison.words.is_empty() {
        let mut table = Table::new(vec![words(""), words("this bar"), words("the usual")]);
        for (what, this, usual) in &comparison.words {
            table.row(vec![Cell::of(*what), Cell::of(&**this), Cell::of(&**usual)]);
        }
        blocks.push(Block::Table(table));
    }
    if !comparison.unlike.is_empty() {
        blocks
            .push(Block::Paragraph("Not the same at both trials, so that the figures say less:".to_owned()));
        blocks.push(Block::List(comparison.unlike.clone()));
    }
}
