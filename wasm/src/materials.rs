//! The library of materials.

use lamella::material::{Alkali, catalogue, library};
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

use crate::boundary::{Answer, maybe, plain, text, word};

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
/// LamellaError, for a kind that is none.
#[wasm_bindgen(unchecked_return_type = "Material | undefined")]
pub fn material(
    #[wasm_bindgen(unchecked_param_type = "ListedKind")] kind: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "string")] id: &JsValue,
) -> Answer {
    let id = text(id, "id")?;
    word(kind, "kind", "one of fat, additive, liquid, colour, scent", |kind| match kind {
        "fat" => Some(maybe(library::fat(&id))),
        "additive" | "liquid" => Some(maybe(library::additive(&id))),
        "colour" => Some(maybe(library::colourant(&id))),
        "scent" => Some(maybe(library::fragrance(&id))),
        _ => None,
    })?
}

/// What is known of an alkali, `naoh` or `koh`, as it is sold.
///
/// # Errors
/// LamellaError, for any other.
#[wasm_bindgen(unchecked_return_type = "AlkaliData")]
pub fn alkali(#[wasm_bindgen(unchecked_param_type = "\"naoh\" | \"koh\"")] kind: &JsValue) -> Answer {
    let kind = word(kind, "kind", "naoh or koh", |kind| match kind {
        "naoh" => Some(Alkali::SodiumHydroxide),
        "koh" => Some(Alkali::PotassiumHydroxide),
        _ => None,
    })?;
    plain(library::alkali(kind))
}

/// The substances that a scent's certificate may name because a label must.
///
/// # Errors
/// None.
#[wasm_bindgen(unchecked_return_type = "Allergen[]")]
pub fn allergens() -> Answer {
    plain(&library::allergens())
}
