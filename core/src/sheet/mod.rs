//! A plan on paper: what a maker works from at the bench, as plain text or Markdown, and the bar in its mould as SVG.
//!
//! In: a [`Plan`]. Out: text. What is said is written once, as headings, tables and lists (`page`), and set twice
//! (`plain`, `marked`). The only arithmetic is adding up what stands on the sheet.

pub(crate) mod document;
pub(crate) mod held;
pub(crate) mod marked;
mod page;
pub(crate) mod plain;
pub mod section;
mod units;

pub use document::Page;
use section::Band;
pub use units::Units;

use crate::batch::{LayerPlan, LyeStep, Plan, Step};
use crate::recipe::Recipe;

/// A plan as a sheet to work from. Masses, heights and temperatures stand in the units that it was made with; what a plan
/// found is not changed by them.
///
/// ```
/// use lamella::sheet::{Sheet, Units};
/// let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
/// let plan = lamella::Plan::of(&recipe).unwrap();
/// let sheet = Sheet::in_units(&plan, Units::of("oz", "in", "°F").unwrap()).text();
/// assert!(sheet.contains("weigh, oz") && sheet.contains("fats 100 °F") && sheet.contains("up to, in"));
/// ```
#[derive(Clone, Copy, Debug)]
pub struct Sheet<'p> {
    plan: &'p Plan,
    units: Units,
}

impl<'p> Sheet<'p> {
    /// In grams, millimetres and degrees Celsius.
    #[must_use]
    pub const fn of(plan: &'p Plan) -> Self {
        Self::in_units(plan, Units::METRIC)
    }

    /// In units of one's own.
    #[must_use]
    pub const fn in_units(plan: &'p Plan, units: Units) -> Self {
        Self { plan, units }
    }

    /// As plain text: UTF-8, columns that line up in a font of one width, at most 96 columns.
    #[must_use]
    pub fn text(&self) -> String {
        plain::render(&page::blocks(self))
    }

    /// As Markdown: CommonMark with tables. Names stand for themselves, whatever characters they have.
    #[must_use]
    pub fn markdown(&self) -> String {
        marked::render(&page::blocks(self))
    }

    /// In its parts, for a screen that sets them itself.
    #[must_use]
    pub fn page(&self) -> Page {
        Page::of(page::blocks(self))
    }

    /// A step of making the lye: what is done first, what is weighed, what is done with it.
    pub(crate) fn lye_words(&self, step: &LyeStep) -> page::LyeWords {
        page::lye_words(self, step)
    }

    /// A step of the work in a sentence or two; empty when there is nothing to do in it.
    pub(crate) fn step_words(&self, step: &Step) -> String {
        page::said(self, step).unwrap_or_default()
    }
}

/// [`Sheet::text`] in metric units.
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
    Sheet::of(plan).text()
}

/// [`Sheet::markdown`] in metric units.
#[must_use]
pub fn markdown(plan: &Plan) -> String {
    Sheet::of(plan).markdown()
}

/// [`Sheet::page`] in metric units.
///
/// ```
/// let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
/// let page = lamella::sheet::page(&lamella::Plan::of(&recipe).unwrap());
/// assert!(page.to_json().unwrap().contains("never water into lye"));
/// ```
#[must_use]
pub fn page(plan: &Plan) -> Page {
    Sheet::of(plan).page()
}

/// The rules of lye safety as they stand on every sheet, and who decides about a sale: a line each.
#[must_use]
pub fn safety(plan: &Plan) -> Vec<&'static str> {
    page::safety_lines(plan)
}

/// The cross-section of the bar in a mould of the recipe, as SVG; nothing when there is no such mould. `recipe` is the
/// one that the plan was made of. A layer that does not fit into the mould is left out.
#[must_use]
pub fn svg(plan: &Plan, recipe: &Recipe, mould: usize) -> Option<String> {
    plan.is_of(recipe).then_some(())?;
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
    let sheet = Sheet::of(plan);
    let note = [
        page::length(&sheet, height.thickness()),
        page::grams(&sheet, layer.portion, jug.portion.scale),
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
