//! Causes on paper.

use super::{Cause, Observation, Reason};
use crate::sheet::document::{Block, Page, Table};
use crate::sheet::{marked, plain};

/// The causes of an observation as plain text; `place` is what was looked at: a layer, the bar.
#[must_use]
pub fn text(seen: Observation, place: &str, causes: &[Cause]) -> String {
    plain::render(&blocks(seen, place, causes))
}

/// The same as Markdown.
#[must_use]
pub fn markdown(seen: Observation, place: &str, causes: &[Cause]) -> String {
    marked::render(&blocks(seen, place, causes))
}

/// The causes in parts, for a screen that sets them itself.
#[must_use]
pub fn page(seen: Observation, place: &str, causes: &[Cause]) -> Page {
    Page::of(blocks(seen, place, causes))
}

fn blocks(seen: Observation, place: &str, causes: &[Cause]) -> Vec<Block> {
    let mut blocks = vec![
        Block::Title(format!("Seen on {place}: {}", seen.name())),
        Block::Paragraph(
            "What may have caused it, the likeliest first. The order follows from the figures of the recipe that stand \
             beside each cause; that the one leads to the other is common practice, and no source was read."
                .to_owned(),
        ),
    ];
    for cause in causes {
        blocks.push(Block::Subheading(format!("{}: {}", cause.standing.name(), cause.what)));
        let mut pairs = Vec::new();
        if !cause.speaks_for.is_empty() {
            pairs.push(("For it", said(&cause.speaks_for)));
        }
        if !cause.speaks_against.is_empty() {
            pairs.push(("Against it", said(&cause.speaks_against)));
        }
        pairs.push(("To tell", format!("{}.", cause.tell)));
        pairs.push(("To do", format!("{}.", cause.advice)));
        blocks.push(Block::Table(Table::pairs(pairs)));
    }
    blocks
}

fn said(reasons: &[Reason]) -> String {
    let one = |reason: &Reason| format!("{}: {}", reason.figure, reason.says);
    reasons.iter().map(one).collect::<Vec<_>>().join("; ")
}
