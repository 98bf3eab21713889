//! A plan on paper.

use lamella::sheet;

use crate::boundary::boundary;
use crate::handle;
use crate::plan::lamella_plan;
use crate::pointer;
use crate::status::lamella_status;
use crate::text::{self, lamella_text};

/// Sets `*out` to the sheet for the bench as plain text, at most 96 columns; free it with lamella_text_free.
///
/// # Safety
/// `out` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_text(
    plan: *const lamella_plan,
    out: *mut *mut lamella_text,
) -> lamella_status {
    boundary(|| {
        // SAFETY: the caller hands over NULL or somewhere to write.
        let out = unsafe { pointer::needed(out) }?;
        text::put(out, sheet::text(&handle::get(plan)?.plan))
    })
}

/// Sets `*out` to the same sheet as Markdown (CommonMark with tables); free it with lamella_text_free.
///
/// # Safety
/// `out` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_markdown(
    plan: *const lamella_plan,
    out: *mut *mut lamella_text,
) -> lamella_status {
    boundary(|| {
        // SAFETY: the caller hands over NULL or somewhere to write.
        let out = unsafe { pointer::needed(out) }?;
        text::put(out, sheet::markdown(&handle::get(plan)?.plan))
    })
}

/// How many moulds a plan has. Nought for NULL and for what is no plan.
#[unsafe(no_mangle)]
pub extern "C" fn lamella_plan_mould_count(plan: *const lamella_plan) -> usize {
    handle::get(plan).map_or(0, |planned| planned.plan.moulds.len())
}

/// Sets `*out` to the cross-section of the bar in a mould, counted from nought, as SVG; free it with lamella_text_free.
///
/// LAMELLA_INDEX when there is no such mould.
///
/// # Safety
/// `out` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_svg(
    plan: *const lamella_plan,
    mould: usize,
    out: *mut *mut lamella_text,
) -> lamella_status {
    boundary(|| {
        // SAFETY: the caller hands over NULL or somewhere to write.
        let out = unsafe { pointer::needed(out) }?;
        let planned = handle::get(plan)?;
        let drawing = sheet::svg(&planned.plan, &planned.recipe, mould);
        text::put(out, drawing.ok_or(lamella_status::LAMELLA_INDEX)?)
    })
}
