//! What is said beside the figures: cautions, and the order of work.

use crate::boundary::boundary;
use crate::handle;
use crate::plan::{index_or_none, item, lamella_plan};
use crate::pointer;
use crate::status::lamella_status;
use crate::text::lamella_str;

/// One thing worth the maker's attention; it never stops a plan. The views live as long as the plan.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
#[expect(clippy::exhaustive_structs, reason = "its layout is part of the ABI; what is new comes at its end")]
pub struct lamella_caution {
    /// Stable code, such as "superfat.low".
    pub code: lamella_str,
    /// JSON Pointer to what it is about in the recipe; empty for the batch.
    pub pointer: lamella_str,
    /// What it is about, by name.
    pub place: lamella_str,
    /// What is found, in one sentence.
    pub message: lamella_str,
    /// The figure, with its unit.
    pub figure: lamella_str,
    /// What it is held against, with its unit.
    pub limit: lamella_str,
    /// What the limit rests on, such as "regulation" or "common-practice".
    pub basis: lamella_str,
    /// The source, or what kind of practice it is.
    pub source: lamella_str,
    /// What to do.
    pub advice: lamella_str,
}

/// How many cautions a plan has. Nought for NULL and for what is no plan.
#[unsafe(no_mangle)]
pub extern "C" fn lamella_plan_caution_count(plan: *const lamella_plan) -> usize {
    handle::get(plan).map_or(0, |planned| planned.plan.cautions.len())
}

/// Writes a caution, counted from nought, to `out`; `size` is sizeof *out.
///
/// LAMELLA_INDEX when there is none.
///
/// # Safety
/// `out` is writable for `size` bytes.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_caution(
    plan: *const lamella_plan,
    index: usize,
    out: *mut lamella_caution,
    size: usize,
) -> lamella_status {
    boundary(|| {
        let planned = handle::get(plan)?;
        let caution = item(&planned.plan.cautions, index)?;
        let value = lamella_caution {
            code: lamella_str::new(caution.code),
            pointer: lamella_str::new(&caution.pointer),
            place: lamella_str::new(&caution.place),
            message: lamella_str::new(&caution.message),
            figure: lamella_str::new(&caution.figure),
            limit: lamella_str::new(&caution.limit),
            basis: lamella_str::new(caution.basis.word()),
            source: lamella_str::new(caution.source),
            advice: lamella_str::new(&caution.advice),
        };
        // SAFETY: the caller vouches for `size` bytes.
        unsafe { pointer::fill(out, size, value) }
    })
}

/// A step of the work. The view lives for ever.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
#[expect(clippy::exhaustive_structs, reason = "its layout is part of the ABI; what is new comes at its end")]
pub struct lamella_step {
    /// What is to be done, in the words of the plan/1 document: "add-lye", "pour", "wait". New ones may come.
    pub work: lamella_str,
    /// Index of the jug that it is done to; LAMELLA_NONE when there is none.
    pub jug: usize,
    /// Index of the layer that it is about; LAMELLA_NONE when there is none.
    pub layer: usize,
}

/// How many steps the work has. Nought for NULL and for what is no plan.
#[unsafe(no_mangle)]
pub extern "C" fn lamella_plan_step_count(plan: *const lamella_plan) -> usize {
    handle::get(plan).map_or(0, |planned| planned.plan.steps.len())
}

/// Writes a step of the work, counted from nought, to `out`; `size` is sizeof *out.
///
/// LAMELLA_INDEX when there is none.
///
/// # Safety
/// `out` is writable for `size` bytes.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_step(
    plan: *const lamella_plan,
    index: usize,
    out: *mut lamella_step,
    size: usize,
) -> lamella_status {
    boundary(|| {
        let planned = handle::get(plan)?;
        let step = item(&planned.plan.steps, index)?;
        let value = lamella_step {
            work: lamella_str::new(step.work.word()),
            jug: index_or_none(step.jug),
            layer: index_or_none(step.layer),
        };
        // SAFETY: the caller vouches for `size` bytes.
        unsafe { pointer::fill(out, size, value) }
    })
}
