//! Fats chosen by what the blend must be.

use lamella::blend;
use serde::Serialize;
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

use crate::boundary::{Answer, given, plain};
use crate::problems;

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
/** What comes of a search for a blend. */
export interface FoundBlend {
  /** Whether there is one. */
  found: boolean;
  /** The blend with its figures, or the demands that conflict, in words. */
  words: string;
  /** The fats as lines of a recipe, as text; empty when there is none. */
  fats: string;
}
"#;

#[derive(Serialize)]
struct Blend {
    found: bool,
    words: String,
    fats: String,
}

/// Chooses fats and shares by a blend/1 document: what the blend must be, and what it is to be best in. Where its demands
/// conflict, says which.
///
/// # Errors
/// LamellaError, for a blend/1 document with problems.
#[wasm_bindgen(js_name = blend, unchecked_return_type = "FoundBlend")]
pub fn solve(#[wasm_bindgen(unchecked_param_type = "Blend | string")] request: &JsValue) -> Answer {
    let request = blend::read(&given(request)?).map_err(problems)?;
    plain(&match blend::solve(&request) {
        Ok(answer) => {
            Blend { found: true, words: blend::render(&answer), fats: blend::fats_json(&request, &answer) }
        }
        Err(refusal) => {
            Blend { found: false, words: blend::render_refusal(&request, &refusal), fats: String::new() }
        }
    })
}
