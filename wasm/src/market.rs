//! From the bar to its sale: label, composition, assessment.

use lamella::market::dossier::{self, Dossier, DossierOptions};
use lamella::market::envelope;
use lamella::market::label;
use lamella::{Plan, recipe};
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

use crate::boundary::{Answer, Thrown, absent, given, parsed, plain};
use crate::{planned, problems};

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
/** What the maker says for a label beside the recipe; what is left out is told as missing. */
export interface LabelFacts {
  /** Where the bars are sold; the European Union by default. */
  market?: Market;
  /** Whether the list names what was weighed in (default) or what became of it. */
  style?: "as-charged" | "as-formed";
  /** Name and address of the responsible person. */
  responsible?: string;
  /** Country of origin, for imported bars. */
  origin?: string;
  /** Nominal quantity, such as "95 g"; above zero. */
  nominal?: string;
  /** Number of the batch. */
  batch?: string;
  /** Date of minimum durability, or the months after opening. */
  durability?: string;
  /** Particular precautions. */
  precautions?: string[];
  /** What it is for, as "Soap for hands and body". */
  function?: string;
}
"#;

fn copy(recipe: &JsValue, facts: &JsValue, assessment: &JsValue) -> Result<label::Label, Thrown> {
    let facts = if absent(facts) { "{}".to_owned() } else { given(facts)? };
    let (facts, list) = label::read(&facts).map_err(problems)?;
    let (recipe, plan) = planned(recipe)?;
    let verdict = verdict_of(&recipe, &plan, assessment)?;
    label::label(&plan, &recipe, &facts, &list, &verdict).map_err(problems)
}

fn verdict_of(
    recipe: &recipe::Recipe,
    plan: &Plan,
    assessment: &JsValue,
) -> Result<envelope::Verdict, Thrown> {
    let assessment = match assessment {
        none if absent(none) => None,
        there => Some(envelope::read(&given(there)?).map_err(problems)?),
    };
    envelope::verdict(plan, recipe, assessment.as_ref()).map_err(problems)
}

/// The copy of the label: what stands on it, the list of ingredients, what is missing, what to know.
///
/// # Errors
/// As `plan`, for everything that is wrong with the facts, and for an assessment/1 document with problems.
#[wasm_bindgen(unchecked_return_type = "Label")]
pub fn label(
    #[wasm_bindgen(unchecked_param_type = "Recipe | Batch | string")] recipe: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "LabelFacts")] facts: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "Assessment | string")] assessment: &JsValue,
) -> Answer {
    plain(&copy(recipe, facts, assessment)?)
}

/// The same as a page in parts.
///
/// # Errors
/// As `label`.
#[wasm_bindgen(js_name = labelPage, unchecked_return_type = "Page")]
pub fn label_page(
    #[wasm_bindgen(unchecked_param_type = "Recipe | Batch | string")] recipe: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "LabelFacts")] facts: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "Assessment | string")] assessment: &JsValue,
) -> Answer {
    plain(&label::page(&copy(recipe, facts, assessment)?))
}

/// Whether an assessment covers the recipe, and if not, why and by how much.
///
/// # Errors
/// As `label`.
#[wasm_bindgen(unchecked_return_type = "Verdict")]
pub fn verdict(
    #[wasm_bindgen(unchecked_param_type = "Recipe | Batch | string")] recipe: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "Assessment | string")] assessment: &JsValue,
) -> Answer {
    let (recipe, plan) = planned(recipe)?;
    plain(&verdict_of(&recipe, &plan, assessment)?)
}

fn composed(recipe: &JsValue) -> Result<Dossier, Thrown> {
    let (recipe, plan) = planned(recipe)?;
    Dossier::of(&plan, &recipe, DossierOptions::default()).map_err(problems)
}

/// The composition for an assessor, as charged and as formed: a dossier/1 document.
///
/// # Errors
/// As `plan`.
#[wasm_bindgen(unchecked_return_type = "Dossier")]
pub fn dossier(#[wasm_bindgen(unchecked_param_type = "Recipe | Batch | string")] recipe: &JsValue) -> Answer {
    let text = dossier::json(&composed(recipe)?).map_err(|error| crate::boundary::unwritten(&error))?;
    parsed(&text)
}

/// The same as a page in parts.
///
/// # Errors
/// As `plan`.
#[wasm_bindgen(js_name = dossierPage, unchecked_return_type = "Page")]
pub fn dossier_page(
    #[wasm_bindgen(unchecked_param_type = "Recipe | Batch | string")] recipe: &JsValue,
) -> Answer {
    plain(&dossier::page(&composed(recipe)?))
}

/// Its tables as comma-separated values.
///
/// # Errors
/// As `plan`.
#[wasm_bindgen(js_name = dossierCsv)]
pub fn dossier_csv(
    #[wasm_bindgen(unchecked_param_type = "Recipe | Batch | string")] recipe: &JsValue,
) -> Result<String, JsValue> {
    Ok(dossier::csv(&composed(recipe)?))
}
