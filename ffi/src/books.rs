//! Before and after the pour: heat, cost, cure, record, and what is seen after the cut. Each takes a document and gives
//! text.

use std::ffi::c_char;

use lamella::after::{self, Observation};
use lamella::cost::{self, Costing};
use lamella::cure::{self, Cure};
use lamella::heat::{self, Degrees, Grid, Scenario, Setting, Steps};
use lamella::record;

use crate::form::{
    self, LAMELLA_FORM_JSON, LAMELLA_FORM_MARKDOWN, LAMELLA_FORM_SVG, LAMELLA_FORM_TEXT, answer, json,
};
use crate::handle;
use crate::plan::lamella_plan;
use crate::report::lamella_report;
use crate::status::lamella_status;
use crate::text::lamella_text;

/// Times at which a section is drawn, in seconds after the first pour.
const DRAWN: [f64; 6] = [0.0, 7_200.0, 14_400.0, 21_600.0, 32_400.0, 50_400.0];

/// Sets `*out` to the forecast of how warm lye, batter and block get, where and when. `setting` is a heat/1 document of
/// `len` bytes; with `len` nought the block stands as by default. `form` is LAMELLA_FORM_JSON, or LAMELLA_FORM_SVG for the
/// section at six times (degrees Celsius). It takes seconds. Free it with lamella_text_free; `report` as for
/// lamella_recipe_read, its pointers into `setting`.
///
/// # Safety
/// `setting` is readable for `len` bytes; `out` and `report` are writable unless NULL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_heat(
    plan: *const lamella_plan,
    setting: *const c_char,
    len: usize,
    form: u32,
    out: *mut *mut lamella_text,
    report: *mut *mut lamella_report,
) -> lamella_status {
    let body = || {
        let planned = handle::get(plan)?;
        // SAFETY: the caller hands over NULL or `len` bytes to read.
        let document = unsafe { form::document(setting, len) }?;
        let setting = if document.is_empty() { Setting::default() } else { heat::read_setting(document)? };
        let (recipe, plan) = (&planned.recipe, &planned.plan);
        match form {
            LAMELLA_FORM_JSON => json(&heat::forecast(recipe, plan, &setting, Grid::default())?),
            LAMELLA_FORM_SVG => {
                let scenario = Scenario::of(recipe, plan, &setting)?;
                let course = heat::run(&scenario, Grid::default(), &Steps::default(), &DRAWN)
                    .map_err(|error| vec![error.into()])?;
                Ok(heat::draw(&course, &plan.name, Degrees::Celsius))
            }
            _ => Err(form::NONE),
        }
    };
    // SAFETY: the caller hands over NULL or somewhere to write.
    unsafe { answer(out, report, body) }
}

/// Sets `*out` to the cost sheet of a plan. `prices` is a prices/1 document of `len` bytes; `form` is LAMELLA_FORM_TEXT or
/// LAMELLA_FORM_MARKDOWN. Free it with lamella_text_free; `report` as for lamella_recipe_read.
///
/// # Safety
/// `prices` is readable for `len` bytes; `out` and `report` are writable unless NULL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_cost(
    plan: *const lamella_plan,
    prices: *const c_char,
    len: usize,
    form: u32,
    out: *mut *mut lamella_text,
    report: *mut *mut lamella_report,
) -> lamella_status {
    let body = || {
        let planned = handle::get(plan)?;
        // SAFETY: the caller hands over NULL or `len` bytes to read.
        let prices = cost::read(unsafe { form::document(prices, len) }?)?;
        let costing = Costing::of(&planned.plan, &prices)?;
        match form {
            LAMELLA_FORM_TEXT => Ok(cost::text(&costing, &planned.plan.name)),
            LAMELLA_FORM_MARKDOWN => Ok(cost::markdown(&costing, &planned.plan.name)),
            _ => Err(form::NONE),
        }
    };
    // SAFETY: the caller hands over NULL or somewhere to write.
    unsafe { answer(out, report, body) }
}

/// Sets `*out` to how bars dry: when they are ready, and what they will weigh. `weighings` is a weighings/1 document of
/// `len` bytes; `form` is LAMELLA_FORM_TEXT, LAMELLA_FORM_MARKDOWN, or LAMELLA_FORM_SVG for the curve of its bar `bar`,
/// counted from nought; the other forms take no notice of `bar`. Free it with lamella_text_free; `report` as for
/// lamella_recipe_read.
///
/// LAMELLA_INDEX when there is no curve of such a bar.
///
/// # Safety
/// `weighings` is readable for `len` bytes; `out` and `report` are writable unless NULL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_cure(
    weighings: *const c_char,
    len: usize,
    form: u32,
    bar: usize,
    out: *mut *mut lamella_text,
    report: *mut *mut lamella_report,
) -> lamella_status {
    let body = || {
        // SAFETY: the caller hands over NULL or `len` bytes to read.
        let cure = Cure::of(&cure::read(unsafe { form::document(weighings, len) }?)?);
        match form {
            LAMELLA_FORM_TEXT => Ok(cure::text(&cure, None)),
            LAMELLA_FORM_MARKDOWN => Ok(cure::markdown(&cure, None)),
            LAMELLA_FORM_SVG => cure::svg(&cure, bar).ok_or(lamella_status::LAMELLA_INDEX.into()),
            _ => Err(form::NONE),
        }
    };
    // SAFETY: the caller hands over NULL or somewhere to write.
    unsafe { answer(out, report, body) }
}

/// Sets `*out` to the page of a batch record. `record` is a record/1 document of `len` bytes; `plan` is the plan that it is
/// held against, or NULL; `form` is LAMELLA_FORM_TEXT or LAMELLA_FORM_MARKDOWN. Free it with lamella_text_free; `report` as
/// for lamella_recipe_read.
///
/// # Safety
/// `record` is readable for `len` bytes; `out` and `report` are writable unless NULL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_record(
    record: *const c_char,
    len: usize,
    plan: *const lamella_plan,
    form: u32,
    out: *mut *mut lamella_text,
    report: *mut *mut lamella_report,
) -> lamella_status {
    let body = || {
        let planned = if plan.is_null() { None } else { Some(handle::get(plan)?) };
        let plan = planned.as_ref().map(|planned| &planned.plan);
        // SAFETY: the caller hands over NULL or `len` bytes to read.
        let read = record::read(unsafe { form::document(record, len) }?)?;
        match form {
            LAMELLA_FORM_TEXT => Ok(record::text(&read, plan, &[], None)),
            LAMELLA_FORM_MARKDOWN => Ok(record::markdown(&read, plan, &[], None)),
            _ => Err(form::NONE),
        }
    };
    // SAFETY: the caller hands over NULL or somewhere to write.
    unsafe { answer(out, report, body) }
}

/// Sets `*out` to what may have caused something that is seen after the cut, the likeliest first. `seen`, of `len` bytes, is
/// one of dull-throughout, dull-border, crack-on-top, ash, weeping, soft-centre, crumbling, dark-spots, specks; anything
/// else is LAMELLA_OPTION. `layer` is where it is seen, or LAMELLA_NONE for the bar. `form` is LAMELLA_FORM_TEXT,
/// LAMELLA_FORM_MARKDOWN or LAMELLA_FORM_JSON. Free it with lamella_text_free.
///
/// # Safety
/// `seen` is readable for `len` bytes; `out` and `report` are writable unless NULL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_causes(
    plan: *const lamella_plan,
    seen: *const c_char,
    len: usize,
    layer: usize,
    form: u32,
    out: *mut *mut lamella_text,
    report: *mut *mut lamella_report,
) -> lamella_status {
    let body = || {
        let planned = handle::get(plan)?;
        let (recipe, plan) = (&planned.recipe, &planned.plan);
        // SAFETY: the caller hands over NULL or `len` bytes to read.
        let seen = unsafe { form::document(seen, len) }?;
        let seen = Observation::ALL.into_iter().find(|known| known.word() == seen).ok_or(form::NONE)?;
        let (layer, place) = if layer == usize::MAX {
            (None, "bar")
        } else {
            (Some(layer), crate::plan::item(&plan.layers, layer)?.name.as_str())
        };
        let causes = after::causes(plan, recipe, seen, layer);
        match form {
            LAMELLA_FORM_TEXT => Ok(after::text(seen, place, &causes)),
            LAMELLA_FORM_MARKDOWN => Ok(after::markdown(seen, place, &causes)),
            LAMELLA_FORM_JSON => json(&causes),
            _ => Err(form::NONE),
        }
    };
    // SAFETY: the caller hands over NULL or somewhere to write.
    unsafe { answer(out, report, body) }
}
