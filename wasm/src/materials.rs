//! The library of materials.

use lamella::material::{Alkali, catalogue, library};
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

use crate::boundary::{Answer, maybe, plain};

/// Every material that a recipe can name, to choose from.
///
/// # Errors
/// None.
#[wasm_bindgen(unchecked_return_type = "Listed[]")]
pub fn materials() -> Answer {
    plain(&catalogue())
}

/// All that is known of a material, with the sources of each figure; nothing when there is none of this id.
///
/// # Errors
/// None.
#[wasm_bindgen(unchecked_return_type = "Material | undefined")]
pub fn material(#[wasm_bindgen(unchecked_param_type = "ListedKind")] kind: &str, id: &str) -> Answer {
    match kind {
        "fat" => maybe(library::fat(id)),
        "additive" | "liquid" => maybe(library::additive(id)),
        "colour" => maybe(library::colourant(id)),
        "scent" => maybe(library::fragrance(id)),
        _ => Ok(JsValue::UNDEFINED),
    }
}

/// What is known of an alkali, `naoh` or `koh`, as it is sold; nothing for any other.
///
/// # Errors
/// None.
#[wasm_bindgen(unchecked_return_type = "AlkaliData | undefined")]
pub fn alkali(#[wasm_bindgen(unchecked_param_type = "\"naoh\" | \"koh\"")] kind: &str) -> Answer {
    match kind {
        "naoh" => plain(library::alkali(Alkali::SodiumHydroxide)),
        "koh" => plain(library::alkali(Alkali::PotassiumHydroxide)),
        _ => Ok(JsValue::UNDEFINED),
    }
}

/// The substances that a scent's certificate may name because a label must.
///
/// # Errors
/// None.
#[wasm_bindgen(unchecked_return_type = "Allergen[]")]
pub fn allergens() -> Answer {
    plain(&library::allergens())
}
