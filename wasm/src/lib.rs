//! The WebAssembly face of Lamella: the document functions of the library, under their JavaScript names. Nothing is
//! computed here.
#![forbid(unsafe_code)]

use js_sys::{Error, JSON, Reflect};
use lamella::Failure;
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

/// The version of the library, such as `0.1.0`.
#[wasm_bindgen]
#[must_use]
pub fn version() -> String {
    lamella::VERSION.to_owned()
}

/// The plan/1 document of a recipe/1 document.
///
/// Throws an Error named LamellaError whose `problems` is the array of all that keeps the recipe from being planned, each
/// `{ code, pointer, message, advice }`. The same text gives the same text on every machine.
///
/// # Errors
/// The error that is thrown.
#[wasm_bindgen(js_name = planJson)]
pub fn plan_json(text: &str) -> Result<String, JsValue> {
    lamella::plan_json(text.as_bytes()).map_err(|failure| error(&failure))
}

/// The failure as JavaScript throws it.
fn error(failure: &Failure) -> JsValue {
    let error = Error::new(&failure.to_string());
    error.set_name("LamellaError");
    let document = failure.to_json().ok().and_then(|text| JSON::parse(&text).ok());
    let problems = document.and_then(|document| Reflect::get(&document, &"problems".into()).ok());
    // Setting a property of an object that was just made cannot fail.
    let _ = Reflect::set(&error, &"problems".into(), &problems.unwrap_or(JsValue::UNDEFINED));
    error.into()
}
