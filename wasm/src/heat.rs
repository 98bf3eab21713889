//! How warm lye, batter and block get.

use lamella::heat::{self, Degrees, Grid, Scenario, Setting, Steps};
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

use crate::boundary::{Answer, Thrown, absent, flag, given, plain, quantity};
use crate::{planned, problems};

fn setting(document: &JsValue) -> Result<Setting, Thrown> {
    if absent(document) {
        return Ok(Setting::default());
    }
    heat::read_setting(&given(document)?).map_err(problems)
}

/// Forecasts lye, batter and block: how warm, where, when; whether it gels; when a layer carries the next. It takes a
/// while: call it in a worker. `setting` is a heat/1 document; without one, a wooden box with its lid on.
///
/// # Errors
/// As `plan`, for a heat/1 document with problems, and for a block that cannot be forecast.
#[wasm_bindgen(js_name = heat, unchecked_return_type = "HeatForecast")]
pub fn forecast(
    #[wasm_bindgen(unchecked_param_type = "Recipe | Batch | string")] recipe: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "Heat | string")] surroundings: &JsValue,
) -> Answer {
    let (recipe, plan) = planned(recipe)?;
    let forecast =
        heat::forecast(&recipe, &plan, &setting(surroundings)?, Grid::default()).map_err(problems)?;
    plain(&forecast)
}

/// Checks a heat/1 document without forecasting anything: quick enough to be asked as it is typed.
///
/// # Errors
/// LamellaError with everything that is wrong with it.
#[wasm_bindgen(js_name = readHeat)]
pub fn read_heat(
    #[wasm_bindgen(unchecked_param_type = "Heat | string")] surroundings: &JsValue,
) -> Result<(), JsValue> {
    setting(surroundings).map(|_| ())
}

/// The colour that stands for a temperature such as `"61.5 °C"` in a picture: from dark at 0 °C to light at 100 °C.
///
/// # Errors
/// LamellaError, when the text is no temperature.
#[wasm_bindgen(js_name = heatColour)]
pub fn heat_colour(
    #[wasm_bindgen(unchecked_param_type = "string")] temperature: &JsValue,
) -> Result<String, JsValue> {
    Ok(heat::colour_of(quantity(temperature, "temperature")?))
}

/// Times at which the section is drawn, seconds after the first pour.
const TIMES: [f64; 5] = [7_200.0, 14_400.0, 21_600.0, 32_400.0, 50_400.0];

/// The section at six times and temperatures over time, as an SVG document.
///
/// # Errors
/// As `heat`.
#[wasm_bindgen(js_name = heatSvg)]
pub fn heat_svg(
    #[wasm_bindgen(unchecked_param_type = "Recipe | Batch | string")] recipe: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "boolean")] fahrenheit: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "Heat | string")] surroundings: &JsValue,
) -> Result<String, JsValue> {
    let fahrenheit = flag(fahrenheit, "fahrenheit")?;
    let (recipe, plan) = planned(recipe)?;
    let scenario = Scenario::of(&recipe, &plan, &setting(surroundings)?).map_err(problems)?;
    let course = heat::run(&scenario, Grid::default(), &Steps::default(), &TIMES)
        .map_err(|error| problems(vec![error.into()]))?;
    let degrees = if fahrenheit { Degrees::Fahrenheit } else { Degrees::Celsius };
    Ok(heat::draw(&course, &recipe.name, degrees))
}
