//! The WebAssembly face of Lamella: plain objects in, plain objects out. Nothing is computed here.
//!
//! Documents cross as JSON text, so that the one reader of the library takes them: it names every unknown field, every
//! missing one and every quantity out of range at once. `wasm/index.js` hands the functions on and throws their errors as
//! `LamellaError`.
#![forbid(unsafe_code)]

#[cfg(feature = "blend")]
pub mod blend;
#[cfg(feature = "books")]
pub mod books;
mod boundary;
#[cfg(feature = "heat")]
pub mod heat;
#[cfg(feature = "market")]
pub mod market;
pub mod materials;
pub mod quantities;
#[cfg(feature = "sure")]
pub mod sure;

use boundary::{Answer, Thrown, given, index, plain};
use lamella::sheet::Sheet;
use lamella::{Plan, Problem, recipe, screen, sheet};
use serde::Serialize;
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"import type {
  Advice, AlkaliData, Allergen, Assessment, Batch, BatchRecord, Blend, Cause, Certainty, Change, Correction, Dossier, Dragged, Explanation, Finding, Heat, HeatForecast, Hold, Label, Listed, ListedKind, Market,
  Material, Observation, Page, Picture, Plan, Prices, Recipe, Task, Trial, Verdict, Weighings,
} from '../types.js';

/** What a page shows while a recipe is edited. */
export interface Look {
  plan: Plan;
  /** The cross-section; null when the measures of the mould make none. */
  picture: Picture | null;
  /** The rules of lye safety, and who decides about a sale: a line each. */
  safety: string[];
}

/** The units that a maker reads: those of the scales, of the ruler and of the thermometer. */
export interface Units {
  /** `"g"`, `"oz"`, `"lb"` or another unit of mass. */
  mass: string;
  /** `"mm"`, `"in"` or another unit of length. */
  length: string;
  /** `"°C"`, `"°F"` or another unit of temperature. */
  temperature: string;
}
"#;

/// The version of the library, such as `0.1.0`.
#[wasm_bindgen]
#[must_use]
pub fn version() -> String {
    lamella::VERSION.to_owned()
}

/// The plan/1 document of a recipe/1 document, as text. The same text gives the same text on every machine.
///
/// # Errors
/// LamellaError, with everything that keeps the recipe from being planned.
#[wasm_bindgen(js_name = planJson)]
pub fn plan_json(#[wasm_bindgen(unchecked_param_type = "string")] text: &JsValue) -> Result<String, JsValue> {
    lamella::plan_json(boundary::text(text, "text")?.as_bytes()).map_err(|failure| boundary::failed(&failure))
}

/// A recipe to look at and to try things on: seven layers, three of them from one jug.
///
/// # Errors
/// None.
#[wasm_bindgen(unchecked_return_type = "Recipe")]
pub fn example() -> Answer {
    boundary::parsed(lamella::EXAMPLE)
}

/// The recipe as the library writes it: fields in the order of the format, defaults left out, quantities in base units.
///
/// # Errors
/// LamellaError, with everything that is wrong with the document.
#[wasm_bindgen(js_name = readRecipe, unchecked_return_type = "Recipe")]
pub fn read_recipe(#[wasm_bindgen(unchecked_param_type = "Recipe | string")] recipe: &JsValue) -> Answer {
    boundary::parsed(&recipe::write(&read(recipe)?))
}

/// Plans a batch: what to weigh, the lye of each layer, what the scale shows before and after every pour, how high each
/// layer stands, what the cured bar is made of, and what deserves a second look.
///
/// # Errors
/// LamellaError, with everything that keeps the recipe from being planned.
#[wasm_bindgen(unchecked_return_type = "Plan")]
pub fn plan(#[wasm_bindgen(unchecked_param_type = "Recipe | Batch | string")] recipe: &JsValue) -> Answer {
    plain(&planned(recipe)?.1)
}

/// The sheet to work from, as parts that a page sets itself; `sheetText` has it set. In the units that are given, else in
/// g, mm and °C.
///
/// # Errors
/// As `plan`, and for a unit that is none.
#[wasm_bindgen(unchecked_return_type = "Page")]
pub fn sheet(
    #[wasm_bindgen(unchecked_param_type = "Recipe | Batch | string")] recipe: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "Units")] units: &JsValue,
) -> Answer {
    plain(&Sheet::in_units(&planned(recipe)?.1, boundary::units(units)?).page())
}

/// The sheet to work from as plain text, for a font of one width.
///
/// # Errors
/// As `plan`, and for a unit that is none.
#[wasm_bindgen(js_name = sheetText)]
pub fn sheet_text(
    #[wasm_bindgen(unchecked_param_type = "Recipe | Batch | string")] recipe: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "Units")] units: &JsValue,
) -> Result<String, JsValue> {
    Ok(Sheet::in_units(&planned(recipe)?.1, boundary::units(units)?).text())
}

/// The sheet to work from as Markdown.
///
/// # Errors
/// As `plan`, and for a unit that is none.
#[wasm_bindgen(js_name = sheetMarkdown)]
pub fn sheet_markdown(
    #[wasm_bindgen(unchecked_param_type = "Recipe | Batch | string")] recipe: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "Units")] units: &JsValue,
) -> Result<String, JsValue> {
    Ok(Sheet::in_units(&planned(recipe)?.1, boundary::units(units)?).markdown())
}

/// The rules of lye safety as they stand on every sheet, and who decides about a sale: a line each.
///
/// # Errors
/// As `plan`.
#[wasm_bindgen(unchecked_return_type = "string[]")]
pub fn safety(#[wasm_bindgen(unchecked_param_type = "Recipe | Batch | string")] recipe: &JsValue) -> Answer {
    plain(&sheet::safety(&planned(recipe)?.1))
}

/// The cross-section of the bar in a mould of the recipe, as an SVG document; nothing when there is no such mould.
///
/// # Errors
/// As `plan`.
#[wasm_bindgen(js_name = sectionSvg)]
pub fn section_svg(
    #[wasm_bindgen(unchecked_param_type = "Recipe | Batch | string")] recipe: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "number")] mould: &JsValue,
) -> Result<Option<String>, JsValue> {
    let mould = index(mould, "mould")?;
    let (recipe, plan) = planned(recipe)?;
    Ok(sheet::svg(&plan, &recipe, mould))
}

/// The cross-section of the bar as outlines in millimetres, for a page that draws it itself. Without a mould the layers
/// stand in one of usual width.
///
/// # Errors
/// As `plan`.
#[wasm_bindgen(unchecked_return_type = "Picture | undefined")]
pub fn picture(
    #[wasm_bindgen(unchecked_param_type = "Recipe | Batch | string")] recipe: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "number")] mould: &JsValue,
) -> Answer {
    let mould = index(mould, "mould")?;
    let (recipe, plan) = planned(recipe)?;
    boundary::maybe(screen::picture(&recipe, &plan, mould).as_ref())
}

/// Everything that a page shows while a recipe is edited, in one go.
#[derive(Serialize)]
struct Look {
    plan: Plan,
    picture: Option<screen::Picture>,
    safety: Vec<&'static str>,
}

/// The plan, the cross-section in a mould, and the rules of lye safety in one go: what a page shows while a recipe is
/// edited.
///
/// # Errors
/// As `plan`.
#[wasm_bindgen(unchecked_return_type = "Look")]
pub fn look(
    #[wasm_bindgen(unchecked_param_type = "Recipe | Batch | string")] recipe: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "number")] mould: &JsValue,
) -> Answer {
    let mould = index(mould, "mould")?;
    let (recipe, plan) = planned(recipe)?;
    let picture = screen::picture(&recipe, &plan, mould);
    plain(&Look { picture, safety: sheet::safety(&plan), plan })
}

/// The shares of layer `below` and the one above it when the edge between them is moved to `height`, such as `"12.5 mm"`.
///
/// # Errors
/// As `plan`, and for a height that is none.
#[wasm_bindgen(unchecked_return_type = "Dragged | undefined")]
pub fn drag(
    #[wasm_bindgen(unchecked_param_type = "Recipe | Batch | string")] recipe: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "number")] mould: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "number")] below: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "string")] height: &JsValue,
) -> Answer {
    let (mould, below) = (index(mould, "mould")?, index(below, "below")?);
    let height = boundary::quantity(height, "height")?;
    let (recipe, plan) = planned(recipe)?;
    boundary::maybe(screen::drag(&recipe, &plan, mould, below, height).as_ref())
}

/// The work one thing at a time, in the order of work.
///
/// # Errors
/// As `plan`, and for a unit that is none.
#[wasm_bindgen(unchecked_return_type = "Task[]")]
pub fn tasks(
    #[wasm_bindgen(unchecked_param_type = "Recipe | Batch | string")] recipe: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "Units")] units: &JsValue,
) -> Answer {
    plain(&screen::tasks_in(&planned(recipe)?.1, boundary::units(units)?))
}

/// Where a figure comes from: `fat/0`, `alkali`, `water`, `concentration`, `superfat`, `poured`, `cured`, `indices`, or of a
/// jug or a layer of the plan by its index `superfat/2`, `portion/2`, `height/2`, `density/2`.
///
/// # Errors
/// As `plan`.
#[wasm_bindgen(unchecked_return_type = "Explanation | undefined")]
pub fn explain(
    #[wasm_bindgen(unchecked_param_type = "Recipe | Batch | string")] recipe: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "string")] figure: &JsValue,
) -> Answer {
    let figure = boundary::text(figure, "figure")?;
    let (recipe, plan) = planned(recipe)?;
    boundary::maybe(screen::explain(&recipe, &plan, &figure).as_ref())
}

fn read(recipe: &JsValue) -> Result<recipe::Recipe, Thrown> {
    recipe::read(&given(recipe)?).map_err(problems)
}

/// A recipe with its plan; of the log of a batch, as they turned out.
fn planned(document: &JsValue) -> Result<(recipe::Recipe, Plan), Thrown> {
    lamella::follow::planned(&given(document)?).map_err(problems)
}

fn problems(problems: Vec<Problem>) -> Thrown {
    boundary::failed(&problems.into())
}
