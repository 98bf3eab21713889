//! A dossier as text, Markdown, CSV and JSON.

use crate::quantity::{Share, fixed};
use crate::sheet::document::{Block, Cell, Page, Table, figures, words};
use crate::sheet::{held, marked, plain};

use super::{Dossier, DossierLine, Note};

/// The dossier as plain text of at most 96 columns.
#[must_use]
pub fn text(dossier: &Dossier) -> String {
    plain::render(&blocks(dossier))
}

/// The dossier as Markdown.
#[must_use]
pub fn markdown(dossier: &Dossier) -> String {
    marked::render(&blocks(dossier))
}

/// The dossier in parts, for a screen that sets them itself.
#[must_use]
pub fn page(dossier: &Dossier) -> Page {
    Page::of(blocks(dossier))
}

/// The dossier as its `dossier/1` document, ending in a newline.
///
/// # Errors
/// None that a dossier can bring about; the signature is that of the writer.
pub fn json(dossier: &Dossier) -> Result<String, serde_json::Error> {
    crate::json::document(dossier)
}

/// Both tables as comma-separated values: one row a line of a table, per cents as bare numbers, lines ended by a carriage
/// return and a line feed.
///
/// A text that a spreadsheet would take for a formula gets an apostrophe before it.
///
/// # Source
/// Form: RFC 4180, from memory.
#[must_use]
pub fn csv(dossier: &Dossier) -> String {
    let mut out = String::from("table,INCI,material,CAS,function,min %,typical %,max %\r\n");
    for (table, lines) in [("at filling", &dossier.at_filling), ("cured", &dossier.cured)] {
        for line in lines {
            let texts = [
                table,
                line.inci.as_deref().unwrap_or_default(),
                &line.name,
                line.cas.as_deref().unwrap_or_default(),
                &line.function,
            ];
            let mut cells: Vec<String> = texts.into_iter().map(quoted).collect();
            let span = line.share;
            cells.extend([span.min, span.typical, span.max].map(number));
            out.push_str(&cells.join(","));
            out.push_str("\r\n");
        }
    }
    out
}

fn number(share: Share) -> String {
    share.in_unit("%").unwrap_or_default().normalize().to_string()
}

fn quoted(text: &str) -> String {
    let guard = if text.starts_with(['=', '+', '-', '@', '\t', '\r']) { "'" } else { "" };
    let text = format!("{guard}{text}");
    if text.contains([',', '"', '\n', '\r']) { format!("\"{}\"", text.replace('"', "\"\"")) } else { text }
}

fn blocks(dossier: &Dossier) -> Vec<Block> {
    let mut blocks = vec![Block::Title(dossier.name.clone())];
    held::notice(&dossier.holds, &mut blocks);
    blocks.extend([
        Block::Paragraph(
            "Composition for a safety assessment: per cent by mass, least, in the whole bar, and most, over all layers \
             and half a step of the scales. CAS numbers and functions are from memory."
                .to_owned(),
        ),
        Block::Heading("At filling, as charged"),
        table(&dossier.at_filling),
        Block::Heading("Cured, as formed"),
        table(&dossier.cured),
    ]);
    for (heading, notes) in [("Impurities", &dossier.impurities), ("Keeping", &dossier.stability)] {
        if !notes.is_empty() {
            blocks.push(Block::Heading(heading));
            let said = |note: &Note| format!("{}: {}", note.of, note.says);
            blocks.push(Block::List(notes.iter().map(said).collect()));
        }
    }
    blocks
}

fn table(lines: &[DossierLine]) -> Block {
    let mut table = Table::new(vec![
        words("INCI"),
        words("material"),
        words("CAS"),
        words("function"),
        figures("min %"),
        figures("%"),
        figures("max %"),
    ]);
    let decimals = lines
        .iter()
        .flat_map(|line| [line.share.min, line.share.typical, line.share.max])
        .map(|share| share.in_unit("%").unwrap_or_default().normalize().scale())
        .max()
        .unwrap_or(0);
    let shown = |share: Share| Cell::of(fixed(share.in_unit("%").unwrap_or_default(), decimals));
    for line in lines {
        table.row(vec![
            Cell::of(line.inci.as_deref().unwrap_or("none known")),
            Cell::of(line.name.as_str()),
            Cell::of(line.cas.as_deref().unwrap_or_default()),
            Cell::of(line.function.as_str()),
            shown(line.share.min),
            shown(line.share.typical),
            shown(line.share.max),
        ]);
    }
    let sum: Share = lines.iter().map(|line| line.share.typical).sum();
    let empty = || Cell::Empty;
    table.sum(vec![Cell::of("together"), empty(), empty(), empty(), empty(), shown(sum), empty()]);
    Block::Table(table)
}
