//! A batch under way.

use std::ffi::{c_char, c_int};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use lamella::follow::{self, Batch, Tolerances};

use crate::boundary::{boundary, reported};
use crate::form::{answer, json, written};
use crate::handle::{self, Handle};
use crate::plan::{Planned, lamella_plan};
use crate::pointer;
use crate::report::lamella_report;
use crate::status::lamella_status;
use crate::text::{self, lamella_text};

/// A batch under way: a plan, what really happened, and the rest of the plan that follows from it. It changes with what is
/// recorded; several threads may use one, and take turns. Free it with lamella_batch_free.
#[derive(Debug)]
pub struct lamella_batch;

impl Handle for lamella_batch {
    type Inner = Mutex<Batch>;
}

/// A batch is whole even where a panic interrupted a change of it: what changes it replaces it at the end.
fn locked(batch: &Mutex<Batch>) -> MutexGuard<'_, Batch> {
    batch.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Begins a batch of the recipe of a plan and sets `*out` to it: nothing has been done yet, and its plan is this one. Free
/// it with lamella_batch_free; the plan may be freed before it.
///
/// # Safety
/// `out` and `report` are writable unless NULL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_batch_of(
    plan: *const lamella_plan,
    out: *mut *mut lamella_batch,
    report: *mut *mut lamella_report,
) -> lamella_status {
    // SAFETY: the caller hands over NULL or somewhere to write.
    let report = unsafe { pointer::wanted(report) };
    reported(report, || {
        // SAFETY: the caller hands over NULL or somewhere to write.
        let out = unsafe { pointer::needed(out) }?;
        let batch = Batch::new((*handle::get(plan)?.recipe).clone())?;
        out.put(handle::new(Mutex::new(batch))?);
        Ok(())
    })
}

/// Reads the batch/1 document of `len` bytes at `text`, records its events again, and sets `*out` to the batch; free it
/// with lamella_batch_free. LAMELLA_PROBLEMS and `report` as for lamella_recipe_read; an event that cannot have happened is
/// a problem too.
///
/// # Safety
/// `text` is readable for `len` bytes; `out` and `report` are writable unless NULL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_batch_read(
    text: *const c_char,
    len: usize,
    out: *mut *mut lamella_batch,
    report: *mut *mut lamella_report,
) -> lamella_status {
    // SAFETY: the caller hands over NULL or somewhere to write.
    let report = unsafe { pointer::wanted(report) };
    reported(report, || {
        // SAFETY: the caller hands over NULL or somewhere to write.
        let out = unsafe { pointer::needed(out) }?;
        // SAFETY: the caller hands over NULL or `len` bytes to read.
        let batch = follow::read_bytes(unsafe { pointer::bytes(text, len) }?)?;
        out.put(handle::new(Mutex::new(batch))?);
        Ok(())
    })
}

/// Records what happened, and reckons the rest anew. `event` is one event of `len` bytes, as it stands in the list of a
/// batch/1 document: { "weighed": "naoh", "mass": "141.2 g" }. `out` may be NULL; otherwise `*out` is set to a changes/1
/// document that tells what it changed and by how much; free it with lamella_text_free.
///
/// LAMELLA_PROBLEMS when it cannot have happened after what was recorded before; the batch stays as it was. Pointers of the
/// report are into the event.
///
/// # Safety
/// `event` is readable for `len` bytes; `out` and `report` are writable unless NULL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_batch_record(
    batch: *mut lamella_batch,
    event: *const c_char,
    len: usize,
    out: *mut *mut lamella_text,
    report: *mut *mut lamella_report,
) -> lamella_status {
    // SAFETY: the caller hands over NULL or somewhere to write.
    let report = unsafe { pointer::wanted(report) };
    reported(report, || {
        // SAFETY: the caller hands over NULL or somewhere to write.
        let out = unsafe { pointer::wanted(out) };
        let batch = handle::get(batch)?;
        // SAFETY: the caller hands over NULL or `len` bytes to read.
        let event = unsafe { pointer::bytes(event, len) }?;
        let changes = locked(&batch).record_text(event)?;
        if let Some(out) = out {
            text::put(out, written(follow::changes_json(&changes))?)?;
        }
        Ok(())
    })
}

/// Takes the last event back. LAMELLA_INDEX when there is none.
#[unsafe(no_mangle)]
pub extern "C" fn lamella_batch_undo(batch: *mut lamella_batch) -> lamella_status {
    boundary(|| {
        let batch = handle::get(batch)?;
        let undone = locked(&batch).undo();
        undone.map(drop).ok_or(lamella_status::LAMELLA_INDEX)
    })
}

/// How many events a batch has. Nought for NULL and for what is no batch.
#[unsafe(no_mangle)]
pub extern "C" fn lamella_batch_event_count(batch: *const lamella_batch) -> usize {
    handle::get(batch).map_or(0, |batch| locked(&batch).log().len())
}

/// Sets `*out` to the plan of what is left, as it is now: what was reported as it was, the rest as it follows. It does not
/// change with the batch; ask anew after an event. Free it with lamella_plan_free. Layers that were skipped are not in it.
///
/// # Safety
/// `out` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_batch_plan(
    batch: *const lamella_batch,
    out: *mut *mut lamella_plan,
) -> lamella_status {
    boundary(|| {
        // SAFETY: the caller hands over NULL or somewhere to write.
        let out = unsafe { pointer::needed(out) }?;
        let batch = handle::get(batch)?;
        let batch = locked(&batch);
        let planned = Planned::new(Arc::new(batch.truth().clone()), batch.plan().clone());
        drop(batch);
        out.put(handle::new(planned)?);
        Ok(())
    })
}

/// Sets `*out` to 1 when a layer is poured, else to 0. `layer` is its name, of `len` bytes.
///
/// # Safety
/// `layer` is readable for `len` bytes; `out` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_batch_is_poured(
    batch: *const lamella_batch,
    layer: *const c_char,
    len: usize,
    out: *mut c_int,
) -> lamella_status {
    boundary(|| {
        // SAFETY: the caller hands over NULL or somewhere to write.
        let out = unsafe { pointer::needed(out) }?;
        let batch = handle::get(batch)?;
        // SAFETY: the caller hands over NULL or `len` bytes to read.
        let layer = String::from_utf8_lossy(unsafe { pointer::bytes(layer, len) }?);
        out.put(c_int::from(locked(&batch).is_poured(&layer)));
        Ok(())
    })
}

/// Sets `*out` to the log as its batch/1 document: the recipe and the events. Reading it gives the same batch. Free it with
/// lamella_text_free.
///
/// # Safety
/// `out` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_batch_document(
    batch: *const lamella_batch,
    out: *mut *mut lamella_text,
) -> lamella_status {
    boundary(|| {
        // SAFETY: the caller hands over NULL or somewhere to write.
        let out = unsafe { pointer::needed(out) }?;
        let batch = handle::get(batch)?;
        let document = locked(&batch).to_json();
        text::put(out, document)
    })
}

/// Sets `*out` to what can be put right in the jugs that are not poured yet, as JSON: for each its superfat, the smallest
/// additions that bring it back, or why nothing does, and what is safe with it. Free it with lamella_text_free.
///
/// # Safety
/// `out` and `report` are writable unless NULL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_batch_corrections(
    batch: *const lamella_batch,
    out: *mut *mut lamella_text,
    report: *mut *mut lamella_report,
) -> lamella_status {
    let body = || {
        let batch = handle::get(batch)?;
        let corrections = locked(&batch).correct_all(&Tolerances::default());
        json(&corrections.map_err(|problem| vec![problem])?)
    };
    // SAFETY: the caller hands over NULL or somewhere to write.
    unsafe { answer(out, report, body) }
}

/// Frees a batch. NULL is nothing; a batch that was freed already is LAMELLA_HANDLE, and no harm is done.
#[unsafe(no_mangle)]
pub extern "C" fn lamella_batch_free(batch: *mut lamella_batch) -> lamella_status {
    handle::free(batch)
}
