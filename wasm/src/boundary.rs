//! What crosses between JavaScript and the library: documents as text, failures as errors.

use js_sys::{Error, JSON, Reflect};
use lamella::quantity::QuantityError;
use lamella::sheet::Units;
use lamella::{Failure, Problem};
use serde::Serialize;
use wasm_bindgen::JsValue;

/// What JavaScript gets thrown.
pub(crate) type Thrown = JsValue;
/// A plain object, or what is thrown in its place.
pub(crate) type Answer = Result<JsValue, Thrown>;

/// The text of a document that came as text or as a plain object.
pub(crate) fn given(document: &JsValue) -> Result<String, Thrown> {
    if let Some(text) = document.as_string() {
        return Ok(text);
    }
    // What JSON cannot say (undefined, a function, a BigInt, a circle) comes back as nothing or throws.
    let text = JSON::stringify(document).ok().and_then(|text| text.as_string());
    text.ok_or_else(|| {
        failed(&Failure::from(vec![Problem {
            code: "document.json",
            pointer: String::new(),
            message: "the document is neither a text nor a plain object".to_owned(),
            advice: "hand over the text of a document, or the object that it parses to".to_owned(),
        }]))
    })
}

/// JSON as a plain object.
pub(crate) fn parsed(text: &str) -> Answer {
    JSON::parse(text)
}

/// A value of the library as a plain object.
pub(crate) fn plain<T: Serialize>(value: &T) -> Answer {
    let text = lamella::json::line(value).map_err(|error| unwritten(&error))?;
    parsed(&text)
}

/// A value that may not be there; then `undefined`.
pub(crate) fn maybe<T: Serialize>(value: Option<&T>) -> Answer {
    value.map_or(Ok(JsValue::UNDEFINED), plain)
}

/// A failure as JavaScript throws it.
pub(crate) fn failed(failure: &Failure) -> Thrown {
    let error = Error::new(&failure.to_string());
    error.set_name("LamellaError");
    let document = failure.to_json().ok().and_then(|text| JSON::parse(&text).ok());
    let problems = document.and_then(|document| Reflect::get(&document, &"problems".into()).ok());
    // Setting a property of an object that was just made cannot fail.
    let _ = Reflect::set(&error, &"problems".into(), &problems.unwrap_or(JsValue::UNDEFINED));
    error.into()
}

/// A text that is no quantity.
pub(crate) fn refused(error: &QuantityError) -> Thrown {
    failed(&Failure::from(vec![Problem {
        code: error.code(),
        pointer: String::new(),
        message: error.to_string(),
        advice: String::new(),
    }]))
}

pub(crate) fn unwritten(error: &serde_json::Error) -> Thrown {
    failed(&Failure::from(vec![Problem {
        code: "plan.number",
        pointer: String::new(),
        message: format!("it cannot be written: {error}"),
        advice: "look for a figure that is far too large or too small".to_owned(),
    }]))
}

/// The units that a maker reads; metric ones where none are given.
pub(crate) fn units(given: &JsValue) -> Result<Units, Thrown> {
    if given.is_undefined() || given.is_null() {
        return Ok(Units::METRIC);
    }
    // What is not a text is no name of a unit, and told as such.
    let named = |field: &str| {
        Reflect::get(given, &field.into()).ok().and_then(|unit| unit.as_string()).unwrap_or_default()
    };
    Units::of(&named("mass"), &named("length"), &named("temperature")).map_err(|error| refused(&error))
}
