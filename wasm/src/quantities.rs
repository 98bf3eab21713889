//! Quantities as a page shows and takes them.

use std::str::FromStr;

use lamella::quantity::{Mass, QuantityError, Share};
use lamella::{quantity, screen};
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

use crate::boundary::{self, Answer, Thrown, absent, count, maybe, refused};

/// The number of a quantity such as `"784.39 g"` in another unit, without the unit: with so many decimals, at most twelve, or
/// with all that it has. Units are those of the recipe document: g, kg, oz, lb, mm, cm, in, mL, °C, °F, % and more.
///
/// # Errors
/// LamellaError, when the text is no quantity or of another kind than the unit.
#[wasm_bindgen]
pub fn shown(
    #[wasm_bindgen(unchecked_param_type = "string")] text: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "string")] unit: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "number")] decimals: &JsValue,
) -> Result<String, JsValue> {
    let (text, unit) = (boundary::text(text, "text")?, boundary::text(unit, "unit")?);
    let decimals = if absent(decimals) { None } else { Some(count(decimals, "decimals")?) };
    quantity::shown(&text, &unit, decimals).map_err(|error| refused(&error))
}

/// What a maker typed as a document carries it: a decimal comma counts as a point, signs between thousands are left out, and
/// `unit` stands where none was typed. `unit` may be `parts`, or empty for a bare number.
///
/// # Errors
/// LamellaError, when there is no number, or a unit that is not known, or a comma that may set off thousands as well
/// (`1,500`): the message then has both readings.
#[wasm_bindgen]
pub fn typed(
    #[wasm_bindgen(unchecked_param_type = "string")] text: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "string")] unit: &JsValue,
) -> Result<String, JsValue> {
    let (text, unit) = (boundary::text(text, "text")?, boundary::text(unit, "unit")?);
    quantity::typed(&text, &unit).map_err(|error| refused(&error))
}

/// Decimals at which a scale of this step tells its steps apart in `unit`.
///
/// # Errors
/// LamellaError, when the step is no mass above zero, or the unit none of mass.
#[wasm_bindgen(js_name = stepDecimals)]
pub fn step_decimals(
    #[wasm_bindgen(unchecked_param_type = "string")] step: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "string")] unit: &JsValue,
) -> Result<u32, JsValue> {
    let (step, unit) = (boundary::quantity(step, "step")?, boundary::text(unit, "unit")?);
    quantity::step_decimals(step, &unit).map_err(|error| refused(&error))
}

fn list<T: FromStr<Err = QuantityError>>(texts: &JsValue, name: &str) -> Result<Vec<T>, Thrown> {
    boundary::list(texts, name)?.iter().map(|text| boundary::quantity(&text, name)).collect()
}

/// What is left of 100 % beside the other shares; nothing when they pass it.
///
/// # Errors
/// LamellaError, when one of them is no share.
#[wasm_bindgen(unchecked_return_type = "string | undefined")]
pub fn rest(
    #[wasm_bindgen(unchecked_param_type = "readonly string[]")] of_all: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "number")] index: &JsValue,
) -> Answer {
    let index = boundary::index(index, "index")?;
    maybe(screen::rest(&list::<Share>(of_all, "shares")?, index).as_ref())
}

/// The shares that masses are of their sum, in steps of a hundredth of a per cent; nothing when there is nothing to divide.
///
/// # Errors
/// LamellaError, when one of them is no mass.
#[wasm_bindgen(js_name = sharesOf, unchecked_return_type = "string[] | undefined")]
pub fn shares_of(#[wasm_bindgen(unchecked_param_type = "readonly string[]")] masses: &JsValue) -> Answer {
    maybe(screen::shares_of(&list::<Mass>(masses, "masses")?).as_ref())
}

/// Shares in the same proportions that leave room for `taken` of the whole; nothing when they cannot.
///
/// # Errors
/// LamellaError, when one of them is no share.
#[wasm_bindgen(js_name = makeRoom, unchecked_return_type = "string[] | undefined")]
pub fn make_room(
    #[wasm_bindgen(unchecked_param_type = "readonly string[]")] of_all: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "string")] taken: &JsValue,
) -> Answer {
    let taken = boundary::quantity(taken, "taken")?;
    maybe(screen::make_room(&list::<Share>(of_all, "shares")?, taken).as_ref())
}
