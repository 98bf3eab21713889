//! How sure the superfats are, as a page that follows the sheet.

use super::{Advice, Certainty, Figures};
use crate::quantity::{Decimal, Share, fixed, told_apart};
use crate::sheet::document::{Block, Cell, Table, figures, words};
use crate::sheet::{marked, plain};

/// Inputs that are named for each jug: those that the most of its uncertainty comes from.
const NAMED: usize = 3;

/// The page as plain text; `name` is that of the batch.
///
/// ```
/// use lamella::certainty::{self, Advice, Certainty};
/// let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
/// let plan = lamella::Plan::of(&recipe).unwrap();
/// let sure = Certainty::of(&recipe, &plan).unwrap();
/// let page = certainty::text(&sure, &Advice::of(&recipe), &plan.name);
/// assert!(page.starts_with("Superfat of Tidal strata, and how sure it is"));
/// ```
#[must_use]
pub fn text(certainty: &Certainty, advice: &Advice, name: &str) -> String {
    plain::render(&blocks(certainty, advice, name))
}

/// The page as Markdown.
#[must_use]
pub fn markdown(certainty: &Certainty, advice: &Advice, name: &str) -> String {
    marked::render(&blocks(certainty, advice, name))
}

fn percent(share: Share) -> String {
    fixed(share.in_unit("%").unwrap_or_default(), 1)
}

/// A superfat: the least shortage must not read as none.
fn superfat(share: Share) -> String {
    told_apart(share.in_unit("%").unwrap_or_default(), Decimal::ZERO, 1).0
}

/// The jugs with their figures, and the batch at the end.
fn places(certainty: &Certainty) -> impl Iterator<Item = (&str, &Figures)> {
    let jugs = certainty.jugs.iter().map(|jug| (jug.name.as_str(), &jug.figures));
    jugs.chain([("All together", &certainty.batch)])
}

fn blocks(certainty: &Certainty, advice: &Advice, name: &str) -> Vec<Block> {
    let mut ranges = Table::new(vec![
        words("jug"),
        figures("superfat, %"),
        figures("least"),
        figures("most"),
        figures("usually from"),
        figures("to"),
        words("which means"),
    ]);
    let mut sources = Table::new(vec![words("jug"), figures("u, %"), words("most of it from")]);
    for (jug, figures) in places(certainty) {
        ranges.row(vec![
            Cell::of(jug),
            Cell::of(superfat(figures.superfat)),
            Cell::of(superfat(figures.guaranteed.low)),
            Cell::of(superfat(figures.guaranteed.high)),
            Cell::of(superfat(figures.covered.0)),
            Cell::of(superfat(figures.covered.1)),
            Cell::of(figures.verdict.words()),
        ]);
        let parts = figures.budget.iter().take(NAMED).filter_map(|part| {
            let input = certainty.inputs.get(part.input)?;
            Some(format!("{} ({} %)", input.name, percent(part.of_variance)))
        });
        sources.row(vec![
            Cell::of(jug),
            Cell::of(percent(figures.uncertainty)),
            Cell::of(parts.collect::<Vec<_>>().join(", ")),
        ]);
    }
    vec![
        Block::Title(format!("Superfat of {name}, and how sure it is")),
        Block::Paragraph(
            "Least and most are never left while saponification values, purities, scales and residues are within their \
             ranges; 95 batches in 100 lie between the usual ones."
                .to_owned(),
        ),
        Block::Table(ranges),
        Block::Heading("What it comes from"),
        Block::Paragraph(
            "u is the standard uncertainty by the GUM (JCGM 100); behind each input stands its part of u squared."
                .to_owned(),
        ),
        Block::Table(sources),
        Block::Heading("What to aim for"),
        Block::List(aims(advice)),
    ]
}

fn aims(advice: &Advice) -> Vec<String> {
    let superfat = match &advice.superfat {
        Some(found) => format!(
            "So that no layer can be lye-heavy, aim for {} % superfat or more; {} comes nearest then, with {} % at the \
             least.",
            percent(found.superfat),
            found.binding,
            superfat(found.low)
        ),
        None => "No superfat up to 50 % keeps every layer from being lye-heavy.".to_owned(),
    };
    let scale = match &advice.scale {
        Some(found) => format!(
            "At the superfat that it has, a scale of {} is the coarsest that does; {} comes nearest then.",
            found.step, found.binding
        ),
        None => "At the superfat that it has, no scale is fine enough: the other ranges alone use it up."
            .to_owned(),
    };
    vec![superfat, scale]
}
