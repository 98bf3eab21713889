//! What crosses between JavaScript and the library: documents as text, failures as errors.

use std::str::FromStr;

use js_sys::{Array, Error, JSON, Reflect};
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
    failed(&Failure::from(vec![Problem::from(error)]))
}

/// Whether an argument was left out.
pub(crate) fn absent(value: &JsValue) -> bool {
    value.is_undefined() || value.is_null()
}

fn refuse(name: &str, wanted: &str, value: &JsValue) -> Thrown {
    let found = match value.as_f64() {
        Some(number) => format!("the number {number}"),
        None if value.is_undefined() => "undefined".to_owned(),
        None if value.is_null() => "null".to_owned(),
        None if Array::is_array(value) => "a list".to_owned(),
        None => value.js_typeof().as_string().unwrap_or_default(),
    };
    failed(&Failure::argument(name, wanted, &found))
}

/// A text. The glue of wasm-bindgen traps on anything else, so that no function takes a `&str`.
pub(crate) fn text(value: &JsValue, name: &str) -> Result<String, Thrown> {
    value.as_string().ok_or_else(|| refuse(name, "a text", value))
}

/// One of some texts.
pub(crate) fn word<T>(
    value: &JsValue,
    name: &str,
    wanted: &str,
    known: impl FnOnce(&str) -> Option<T>,
) -> Result<T, Thrown> {
    let text = text(value, name)?;
    known(&text).ok_or_else(|| failed(&Failure::argument(name, wanted, &format!("{text:?}"))))
}

/// A quantity as text.
pub(crate) fn quantity<T: FromStr<Err = QuantityError>>(value: &JsValue, name: &str) -> Result<T, Thrown> {
    text(value, name)?.parse().map_err(|error| refused(&error))
}

/// A whole number from 0 on. The glue would make one of anything: 4294967295 of -1, and 0 of a text.
pub(crate) fn count(value: &JsValue, name: &str) -> Result<u32, Thrown> {
    let number = value.as_f64().filter(|number| *number == f64::from(*number as u32));
    number.map(|number| number as u32).ok_or_else(|| refuse(name, "a whole number from 0 on", value))
}

/// The same as the index of something.
pub(crate) fn index(value: &JsValue, name: &str) -> Result<usize, Thrown> {
    // No machine that this runs on has less than 32 bits.
    Ok(usize::try_from(count(value, name)?).unwrap_or(usize::MAX))
}

/// The items of a list.
pub(crate) fn list(value: &JsValue, name: &str) -> Result<Array, Thrown> {
    if Array::is_array(value) { Ok(Array::from(value)) } else { Err(refuse(name, "a list", value)) }
}

/// True or false; false where it was left out.
pub(crate) fn flag(value: &JsValue, name: &str) -> Result<bool, Thrown> {
    let flag = if absent(value) { Some(false) } else { value.as_bool() };
    flag.ok_or_else(|| refuse(name, "true or false", value))
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
    if absent(given) {
        return Ok(Units::METRIC);
    }
    Units::read(&self::given(given)?).map_err(|problems| failed(&problems.into()))
}
