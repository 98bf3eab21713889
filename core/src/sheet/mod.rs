//! A plan on paper: what a maker works from at the bench, as plain text or Markdown, and the bar in its mould as SVG.
//!
//! In: a [`Plan`]. Out: text. What is said is written once, as headings, tables and lists (`page`), and set twice
//! (`plain`, `marked`). The only arithmetic is adding up what stands on the sheet.

pub(crate) mod document;
pub(crate) mod marked;
mod page;
pub(crate) mod plain;
pub mod section;

pub use document::Page;
use section::Band;

use crate::batch::{LayerPlan, Plan, Step};
use crate::recipe::Recipe;

/// The sheet as plain text: UTF-8, columns that line up in a font of one width, at most 96 columns.
///
/// ```
/// let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
/// let plan = lamella::Plan::of(&recipe).unwrap();
/// let sheet = lamella::sheet::text(&plan);
/// assert!(sheet.starts_with("Tidal strata\n"));
/// assert!(sheet.contains("never water into lye"));
/// ```
#[must_use]
pub fn text(plan: &Plan) -> String {
    plain::render(&page::blocks(plan))
}

/// The sheet as Markdown: CommonMark with tables. Names stand for themselves, whatever characters they have.
#[must_use]
pub fn markdown(plan: &Plan) -> String {
    marked::render(&page::blocks(plan))
}

/// The sheet in its parts, for a screen that sets them itself.
///
/// ```
/// let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
/// let page = lamella::sheet::page(&lamella::Plan::of(&recipe).unwrap());
/// assert!(page.to_json().unwrap().contains("never water into lye"));
/// ```
#[must_use]
pub fn page(plan: &Plan) -> Page {
    Page::of(page::blocks(plan))
}

/// The rules of lye safety as they stand on every sheet, and who decides about a sale: a line each.
#[must_use]
pub fn safety(plan: &Plan) -> Vec<&'static str> {
    page::safety_lines(plan)
}

/// A step of the work in a sentence or two; empty when there is nothing to do in it.
pub(crate) fn step_words(plan: &Plan, step: &Step) -> String {
    page::said(plan, step).unwrap_or_default()
}

/// The cross-section of the bar in a mould of the recipe, as SVG; nothing when there is no such mould. `recipe` is the
/// one that the plan was made of. A layer that does not fit into the mould is left out.
#[must_use]
pub fn svg(plan: &Plan, recipe: &Recipe, mould: usize) -> Option<String> {
    let shape = recipe.moulds.get(mould)?.shape();
    let bands: Vec<Band> = plan.layers.iter().filter_map(|layer| band(plan, layer, mould)).collect();
    let title = match plan.moulds.get(mould) {
        Some(line) if plan.moulds.len() > 1 => format!("{}: {}", plan.name, line.name),
        _ => plan.name.clone(),
    };
    Some(section::draw(shape, &bands, &title))
}

fn band(plan: &Plan, layer: &LayerPlan, mould: usize) -> Option<Band> {
    let height = layer.heights.iter().find(|height| height.mould == mould)?;
    let jug = plan.jugs.get(layer.jug)?;
    let note = [
        page::millimetres(height.thickness()),
        page::grams(plan, layer.portion, jug.portion.scale),
        format!("superfat {}", page::percent(jug.superfat, 1)),
    ];
    Some(Band {
        name: layer.name.clone(),
        colour: layer.swatch.clone(),
        from: height.from,
        to: height.to,
        note: note.join(" · "),
    })
}
