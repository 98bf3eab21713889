//! From the bar to its sale: ingredients, label, composition, assessment, scents.

use std::ffi::c_char;
use std::mem::size_of;

use lamella::market::dossier::{self, Dossier, DossierOptions};
use lamella::market::envelope::{self, Verdict};
use lamella::market::label::{self, LabelFacts};
use lamella::market::{ListOptions, Market, Style, ingredients, scents};
use serde::Serialize;

use crate::boundary::Stop;
use crate::form::{
    self, LAMELLA_FORM_CSV, LAMELLA_FORM_JSON, LAMELLA_FORM_MARKDOWN, LAMELLA_FORM_TEXT, answer, json,
    written,
};
use crate::handle;
use crate::plan::{Planned, lamella_plan};
use crate::pointer;
use crate::report::lamella_report;
use crate::status::lamella_status;
use crate::text::{lamella_str, lamella_text};

/// The European Union, and Northern Ireland.
pub const LAMELLA_MARKET_EUROPEAN_UNION: u32 = 0;
/// England, Scotland and Wales.
pub const LAMELLA_MARKET_GREAT_BRITAIN: u32 = 1;
/// The United States.
pub const LAMELLA_MARKET_UNITED_STATES: u32 = 2;
/// Ingredients are named as what was weighed in.
pub const LAMELLA_STYLE_AS_CHARGED: u32 = 0;
/// Ingredients are named as what became of it.
pub const LAMELLA_STYLE_AS_FORMED: u32 = 1;

/// What the maker says for a label beside the recipe. Zero it but for its size, then fill in what there is; what is left
/// empty is told as missing. A text that cannot be (a quantity that is none, a line break) is LAMELLA_PROBLEMS, and the
/// report's pointers are the names of these fields: "/nominal". The texts are read during the call only.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
#[expect(clippy::exhaustive_structs, reason = "its layout is part of the ABI; what is new comes at its end")]
pub struct lamella_label_facts {
    /// sizeof of this struct, as the caller's header has it.
    pub size: usize,
    /// One of LAMELLA_MARKET_...
    pub market: u32,
    /// One of LAMELLA_STYLE_...
    pub style: u32,
    /// Name and address of the responsible person.
    pub responsible: lamella_str,
    /// Country of origin, for imported bars.
    pub origin: lamella_str,
    /// Nominal quantity with its unit, such as "95 g"; above zero.
    pub nominal: lamella_str,
    /// Number of the batch.
    pub batch: lamella_str,
    /// Date of minimum durability, or the months after opening.
    pub durability: lamella_str,
    /// What it is for, as "Soap for hands and body".
    pub function: lamella_str,
    /// Particular precautions, so many as the next field says.
    pub precautions: *const lamella_str,
    /// How many precautions there are, at most 100.
    pub precaution_count: usize,
}

/// Most precautions of a label.
const PRECAUTIONS: usize = 100;

/// The facts as the object that the reader of the library takes.
#[derive(Serialize)]
struct Facts<'t> {
    market: Market,
    style: Style,
    responsible: &'t str,
    origin: &'t str,
    #[serde(skip_serializing_if = "str::is_empty")]
    nominal: &'t str,
    batch: &'t str,
    durability: &'t str,
    precautions: Vec<&'t str>,
    function: &'t str,
}

/// # Safety
/// Unless NULL, `facts` must be readable for as many bytes as it says, and so must its texts.
unsafe fn facts(facts: *const lamella_label_facts) -> Result<(LabelFacts, ListOptions), Stop> {
    let none = lamella_str { data: std::ptr::null(), len: 0 };
    let base = lamella_label_facts {
        size: size_of::<lamella_label_facts>(),
        market: LAMELLA_MARKET_EUROPEAN_UNION,
        style: LAMELLA_STYLE_AS_CHARGED,
        responsible: none,
        origin: none,
        nominal: none,
        batch: none,
        durability: none,
        function: none,
        precautions: std::ptr::null(),
        precaution_count: 0,
    };
    // SAFETY: the caller vouches for as many bytes as it says.
    let given = unsafe { pointer::sized(facts, base) }?;
    // SAFETY: the caller vouches for its texts.
    let text = |text: lamella_str| unsafe { form::document(text.data, text.len) };
    let mut precautions = Vec::new();
    if given.precaution_count > PRECAUTIONS {
        return Err(form::NONE);
    }
    if given.precautions.is_null() && given.precaution_count > 0 {
        return Err(lamella_status::LAMELLA_NULL_ARGUMENT.into());
    }
    for index in 0..given.precaution_count {
        // SAFETY: the caller vouches that there are so many.
        precautions.push(text(unsafe { given.precautions.add(index).read_unaligned() })?);
    }
    let ListOptions { market, style, .. } = list(given.market, given.style)?;
    let facts = written(lamella::json::line(&Facts {
        market,
        style,
        responsible: text(given.responsible)?,
        origin: text(given.origin)?,
        nominal: text(given.nominal)?,
        batch: text(given.batch)?,
        durability: text(given.durability)?,
        precautions,
        function: text(given.function)?,
    }))?;
    Ok(label::read(&facts)?)
}

fn list(market: u32, style: u32) -> Result<ListOptions, Stop> {
    let market = match market {
        LAMELLA_MARKET_EUROPEAN_UNION => Market::EuropeanUnion,
        LAMELLA_MARKET_GREAT_BRITAIN => Market::GreatBritain,
        LAMELLA_MARKET_UNITED_STATES => Market::UnitedStates,
        _ => return Err(form::NONE),
    };
    let style = match style {
        LAMELLA_STYLE_AS_CHARGED => Style::AsCharged,
        LAMELLA_STYLE_AS_FORMED => Style::AsFormed,
        _ => return Err(form::NONE),
    };
    Ok(ListOptions::new(market, style))
}

/// # Safety
/// Unless NULL, `assessment` must be readable for `len` bytes.
unsafe fn verdict(planned: &Planned, assessment: *const c_char, len: usize) -> Result<Verdict, Stop> {
    // SAFETY: the caller vouches for `len` bytes.
    let document = unsafe { form::document(assessment, len) }?;
    let assessment = if document.is_empty() { None } else { Some(envelope::read(document)?) };
    Ok(envelope::verdict(&planned.plan, &planned.recipe, assessment.as_ref())?)
}

/// An index, or nothing for LAMELLA_NONE.
fn some(index: usize) -> Option<usize> {
    Some(index).filter(|index| *index != usize::MAX)
}

/// Sets `*out` to the list of ingredients of a layer, or with LAMELLA_NONE of the whole bar: `market` is one of
/// LAMELLA_MARKET_..., `style` one of LAMELLA_STYLE_..., `form` LAMELLA_FORM_TEXT for the line of the label or
/// LAMELLA_FORM_JSON. Free it with lamella_text_free. LAMELLA_PROBLEMS when a material has no label name.
///
/// # Safety
/// `out` and `report` are writable unless NULL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_ingredients(
    plan: *const lamella_plan,
    layer: usize,
    market: u32,
    style: u32,
    form: u32,
    out: *mut *mut lamella_text,
    report: *mut *mut lamella_report,
) -> lamella_status {
    let body = || {
        let planned = handle::get(plan)?;
        let list = ingredients(&planned.plan, &planned.recipe, some(layer), &list(market, style)?)?;
        match form {
            LAMELLA_FORM_TEXT => Ok(list.text() + "\n"),
            LAMELLA_FORM_JSON => json(&list),
            _ => Err(form::NONE),
        }
    };
    // SAFETY: the caller hands over NULL or somewhere to write.
    unsafe { answer(out, report, body) }
}

/// Sets `*out` to the copy of a label: what stands on it, what is missing, what to know. `facts` may be NULL for none.
/// `assessment` is an assessment/1 document of `len` bytes, nought for none. `form` is LAMELLA_FORM_TEXT,
/// LAMELLA_FORM_MARKDOWN or LAMELLA_FORM_JSON. Free it with lamella_text_free; `report` as for lamella_recipe_read.
///
/// # Safety
/// `facts` is readable for as many bytes as it says, and so are its texts; `assessment` for `len` bytes; `out` and `report`
/// are writable unless NULL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_label(
    plan: *const lamella_plan,
    facts: *const lamella_label_facts,
    assessment: *const c_char,
    len: usize,
    form: u32,
    out: *mut *mut lamella_text,
    report: *mut *mut lamella_report,
) -> lamella_status {
    let body = || {
        let planned = handle::get(plan)?;
        // SAFETY: the caller vouches for the facts.
        let (facts, list) = unsafe { self::facts(facts) }?;
        // SAFETY: the caller vouches for `len` bytes.
        let verdict = unsafe { verdict(&planned, assessment, len) }?;
        let label = label::label(&planned.plan, &planned.recipe, &facts, &list, &verdict)?;
        match form {
            LAMELLA_FORM_TEXT => Ok(label::text(&label)),
            LAMELLA_FORM_MARKDOWN => Ok(label::markdown(&label)),
            LAMELLA_FORM_JSON => json(&label),
            _ => Err(form::NONE),
        }
    };
    // SAFETY: the caller hands over NULL or somewhere to write.
    unsafe { answer(out, report, body) }
}

/// Sets `*out` to whether an assessment covers a plan, and if not, why and by how much, as JSON. `assessment` is an
/// assessment/1 document of `len` bytes, nought for none. Free it with lamella_text_free; `report` as for
/// lamella_recipe_read.
///
/// # Safety
/// `assessment` is readable for `len` bytes; `out` and `report` are writable unless NULL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_verdict(
    plan: *const lamella_plan,
    assessment: *const c_char,
    len: usize,
    out: *mut *mut lamella_text,
    report: *mut *mut lamella_report,
) -> lamella_status {
    // SAFETY: the caller vouches for `len` bytes.
    let body = || json(&unsafe { verdict(&*handle::get(plan)?, assessment, len) }?);
    // SAFETY: the caller hands over NULL or somewhere to write.
    unsafe { answer(out, report, body) }
}

/// Sets `*out` to the composition for an assessor, as charged and as formed: `form` is LAMELLA_FORM_TEXT,
/// LAMELLA_FORM_MARKDOWN, LAMELLA_FORM_CSV, or LAMELLA_FORM_JSON for a dossier/1 document. Free it with lamella_text_free.
///
/// # Safety
/// `out` and `report` are writable unless NULL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_dossier(
    plan: *const lamella_plan,
    form: u32,
    out: *mut *mut lamella_text,
    report: *mut *mut lamella_report,
) -> lamella_status {
    let body = || {
        let planned = handle::get(plan)?;
        let dossier = Dossier::of(&planned.plan, &planned.recipe, DossierOptions::default())?;
        match form {
            LAMELLA_FORM_TEXT => Ok(dossier::text(&dossier)),
            LAMELLA_FORM_MARKDOWN => Ok(dossier::markdown(&dossier)),
            LAMELLA_FORM_CSV => Ok(dossier::csv(&dossier)),
            LAMELLA_FORM_JSON => written(dossier::json(&dossier)),
            _ => Err(form::NONE),
        }
    };
    // SAFETY: the caller hands over NULL or somewhere to write.
    unsafe { answer(out, report, body) }
}

/// Sets `*out` to how much scent is in a layer, or with LAMELLA_NONE in the whole bar, against its certificates, and which
/// allergens pass the threshold, as JSON. `leave_on` is 0 for bars that are rinsed off, which soap is, else 1. Free it with
/// lamella_text_free.
///
/// LAMELLA_INDEX when there is no such layer.
///
/// # Safety
/// `out` and `report` are writable unless NULL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_scents(
    plan: *const lamella_plan,
    layer: usize,
    leave_on: u32,
    out: *mut *mut lamella_text,
    report: *mut *mut lamella_report,
) -> lamella_status {
    let body = || {
        let planned = handle::get(plan)?;
        if leave_on > 1 {
            return Err(form::NONE);
        }
        let found = scents(&planned.plan, &planned.recipe, some(layer), leave_on == 1);
        json(&found.ok_or(lamella_status::LAMELLA_INDEX)?)
    };
    // SAFETY: the caller hands over NULL or somewhere to write.
    unsafe { answer(out, report, body) }
}
