//! Fats and shares chosen by a solver.

use std::ffi::c_char;

use lamella::blend;

use crate::form::{self, LAMELLA_FORM_JSON, LAMELLA_FORM_TEXT, answer, json};
use crate::report::lamella_report;
use crate::status::lamella_status;
use crate::text::lamella_text;

/// Sets `*out` to the blend that a blend/1 document of `len` bytes at `request` asks for: `form` is LAMELLA_FORM_TEXT or
/// LAMELLA_FORM_JSON. Free it with lamella_text_free. `report` as for lamella_recipe_read; demands that cannot be met
/// together are a problem, "blend.conflict", that names them.
///
/// # Safety
/// `request` is readable for `len` bytes; `out` and `report` are writable unless NULL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_blend(
    request: *const c_char,
    len: usize,
    form: u32,
    out: *mut *mut lamella_text,
    report: *mut *mut lamella_report,
) -> lamella_status {
    let body = || {
        // SAFETY: the caller hands over NULL or `len` bytes to read.
        let request = blend::read(unsafe { form::document(request, len) }?)?;
        if form != LAMELLA_FORM_TEXT && form != LAMELLA_FORM_JSON {
            return Err(form::NONE);
        }
        let found = blend::solve(&request).map_err(|refusal| vec![refusal.problem()])?;
        if form == LAMELLA_FORM_JSON { json(&found) } else { Ok(blend::render(&found)) }
    };
    // SAFETY: the caller hands over NULL or somewhere to write.
    unsafe { answer(out, report, body) }
}

/// Sets `*out` to the fats of the same blend as they stand in a recipe/1 document: a list in JSON. Otherwise as
/// lamella_blend.
///
/// # Safety
/// As for lamella_blend.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_blend_fats(
    request: *const c_char,
    len: usize,
    out: *mut *mut lamella_text,
    report: *mut *mut lamella_report,
) -> lamella_status {
    let body = || {
        // SAFETY: the caller hands over NULL or `len` bytes to read.
        let request = blend::read(unsafe { form::document(request, len) }?)?;
        let found = blend::solve(&request).map_err(|refusal| vec![refusal.problem()])?;
        Ok(blend::fats_json(&request, &found))
    };
    // SAFETY: the caller hands over NULL or somewhere to write.
    unsafe { answer(out, report, body) }
}
