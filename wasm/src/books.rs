//! After the pour: cure, cost, record, and what is seen after the cut.

use js_sys::{Array, Object, Reflect};
use lamella::after::{Observation, causes as causes_of};
use lamella::cost::{self, Costing};
use lamella::cure::{self, Cure, Estimate};
use lamella::record::{self, Trial};
use lamella::{Failure, follow};
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

use crate::boundary::{Answer, Thrown, absent, failed, given, index, list, parsed, plain, text, word};
use crate::{planned, problems};

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
/** A record that took over the log of its batch. */
export interface TakenLog {
  record: BatchRecord;
  /** What could not be taken over, and why. */
  open: Finding[];
}
"#;

/// What a batch, a layer and a bar cost, as a page in parts.
///
/// # Errors
/// As `plan`, and for a prices/1 document with problems.
#[wasm_bindgen(js_name = costPage, unchecked_return_type = "Page")]
pub fn cost_page(
    #[wasm_bindgen(unchecked_param_type = "Recipe | Batch | string")] recipe: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "Prices | string")] prices: &JsValue,
) -> Answer {
    let prices = cost::read(&given(prices)?).map_err(problems)?;
    let (_, plan) = planned(recipe)?;
    let costing = Costing::of(&plan, &prices).map_err(problems)?;
    plain(&cost::page(&costing, &plan.name))
}

/// How the bars dry, from their weighings: as a page in parts. With the fresh mass of a bar an estimate from the recipe
/// stands beside it.
///
/// # Errors
/// As `plan`, and for a weighings/1 document with problems.
#[wasm_bindgen(js_name = curePage, unchecked_return_type = "Page")]
pub fn cure_page(
    #[wasm_bindgen(unchecked_param_type = "Recipe | Batch | string")] recipe: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "Weighings | string")] weighings: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "string")] fresh: &JsValue,
) -> Answer {
    let weighings = cure::read(&given(weighings)?).map_err(problems)?;
    let (_, plan) = planned(recipe)?;
    let fresh = if absent(fresh) { None } else { Some(text(fresh, "fresh")?) };
    let fresh = fresh.map(|text| cure::fresh(&text).map_err(problems)).transpose()?;
    let estimate = fresh.and_then(|fresh| Estimate::of(&plan, fresh, weighings.settled_below, weighings.cut));
    plain(&cure::page(&Cure::of(&weighings), estimate.as_ref()))
}

/// The drying curve of a bar as an SVG document; nothing when there is no such bar.
///
/// # Errors
/// LamellaError, for a weighings/1 document with problems.
#[wasm_bindgen(js_name = cureSvg)]
pub fn cure_svg(
    #[wasm_bindgen(unchecked_param_type = "Weighings | string")] weighings: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "number")] bar: &JsValue,
) -> Result<Option<String>, JsValue> {
    let bar = index(bar, "bar")?;
    let weighings = cure::read(&given(weighings)?).map_err(problems)?;
    Ok(cure::svg(&Cure::of(&weighings), bar))
}

/// The batch record, held against the plan, as a page in parts; with the log of the batch against the plan as it turned
/// out. With the trials of its bars, and what they are beside that of the usual bar.
///
/// # Errors
/// As `plan`, and for a record/1, batch/1 or trial/1 document with problems.
#[wasm_bindgen(js_name = recordPage, unchecked_return_type = "Page")]
pub fn record_page(
    #[wasm_bindgen(unchecked_param_type = "Recipe | Batch | string")] recipe: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "BatchRecord | string")] record: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "Batch | string")] batch: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "(Trial | string)[]")] trials: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "Trial | string")] usual: &JsValue,
) -> Answer {
    let record = record::read(&given(record)?).map_err(problems)?;
    let trials = if absent(trials) { Array::new() } else { list(trials, "trials")? };
    let trials: Vec<Trial> = trials.iter().map(|one| trial(&one)).collect::<Result<_, _>>()?;
    let usual = maybe_trial(usual)?;
    let page = |plan| plain(&record::page(&record, Some(plan), &trials, usual.as_ref()));
    if absent(batch) {
        return page(&planned(recipe)?.1);
    }
    page(follow::read(&given(batch)?).map_err(problems)?.plan())
}

/// The layers that are on hold by a record, and by the log of its batch: nothing of them is labelled or released until a
/// check of the layer that found no more free alkali than allowed is recorded.
///
/// # Errors
/// LamellaError, for a record/1 or a batch/1 document with problems.
#[wasm_bindgen(unchecked_return_type = "Hold[]")]
pub fn holds(
    #[wasm_bindgen(unchecked_param_type = "BatchRecord | string")] record: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "Batch | string")] batch: &JsValue,
) -> Answer {
    let record = record::read(&given(record)?).map_err(problems)?;
    if batch.is_undefined() || batch.is_null() {
        return plain(&record.standing(None));
    }
    let batch = follow::read(&given(batch)?).map_err(problems)?;
    plain(&record.standing(Some(batch.plan())))
}

/// A record with what the log of its batch says of it: weighings, temperatures, layers as they were poured, what was seen,
/// and what went otherwise than planned. What stands in the record already stays as it is.
///
/// # Errors
/// LamellaError, for a record/1 or a batch/1 document with problems; pointers are into the record or the log.
#[wasm_bindgen(js_name = takeLog, unchecked_return_type = "TakenLog")]
pub fn take_log(
    #[wasm_bindgen(unchecked_param_type = "BatchRecord | string")] record: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "Batch | string")] batch: &JsValue,
) -> Answer {
    let mut record = record::read(&given(record)?).map_err(problems)?;
    let batch = follow::read(&given(batch)?).map_err(problems)?;
    let open = record.take(&batch);
    let taken = Object::new();
    // Setting a property of an object that was just made cannot fail.
    let _ = Reflect::set(&taken, &"record".into(), &parsed(&record::write(&record))?);
    let _ = Reflect::set(&taken, &"open".into(), &plain(&open)?);
    Ok(taken.into())
}

/// A trial of a bar at the basin as a page in parts, and what it is beside that of the usual bar.
///
/// # Errors
/// LamellaError, for a trial/1 document with problems.
#[wasm_bindgen(js_name = trialPage, unchecked_return_type = "Page")]
pub fn trial_page(
    #[wasm_bindgen(unchecked_param_type = "Trial | string")] of: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "Trial | string")] usual: &JsValue,
) -> Answer {
    plain(&record::trial_page(&trial(of)?, maybe_trial(usual)?.as_ref()))
}

fn trial(document: &JsValue) -> Result<Trial, Thrown> {
    record::read_trial(&given(document)?).map_err(problems)
}

fn maybe_trial(document: &JsValue) -> Result<Option<Trial>, Thrown> {
    if absent(document) { Ok(None) } else { trial(document).map(Some) }
}

/// What may have caused something that is seen after the cut, the likeliest first; of a layer by its index, or of the whole
/// bar.
///
/// # Errors
/// As `plan`, for an observation that is none, and for a layer that is not there.
#[wasm_bindgen(unchecked_return_type = "Cause[]")]
pub fn causes(
    #[wasm_bindgen(unchecked_param_type = "Recipe | Batch | string")] recipe: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "Observation")] seen: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "number")] layer: &JsValue,
) -> Answer {
    let known = Observation::ALL.map(Observation::word).join(", ");
    let seen = word(seen, "seen", &format!("one of {known}"), |word| {
        Observation::ALL.into_iter().find(|known| known.word() == word)
    })?;
    let (recipe, plan) = planned(recipe)?;
    let layer = if absent(layer) { None } else { Some(index(layer, "layer")?) };
    if let Some(layer) = layer.filter(|layer| *layer >= plan.layers.len()) {
        let wanted = format!("below {}, the number of layers", plan.layers.len());
        return Err(failed(&Failure::argument("layer", &wanted, &layer.to_string())));
    }
    plain(&causes_of(&plan, &recipe, seen, layer))
}
