//! From the document of a recipe to the document of its plan.

use crate::handle::{Slot, boundary, bytes};
use crate::status::lamella_status;
use crate::text::lamella_text;

/// Plans a batch: reads the recipe/1 document of `len` bytes at `text`, which need not end in NUL, and writes its plan/1
/// document.
///
/// `text` may be NULL only when `len` is nought. `out_plan` must not be NULL; `*out_plan` is set only on LAMELLA_OK.
/// `out_problems` may be NULL; `*out_problems` is set only on LAMELLA_PROBLEMS, to a problems/1 document that names every
/// problem with its place in the recipe and what to do about it. Free what was set with lamella_text_free.
///
/// The same bytes give the same bytes on every machine. Any number of threads may call it at once.
///
/// # Safety
/// `text` is readable for `len` bytes; `out_plan` and `out_problems` are writable unless NULL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_json(
    text: *const u8,
    len: usize,
    out_plan: *mut *mut lamella_text,
    out_problems: *mut *mut lamella_text,
) -> lamella_status {
    boundary(|| {
        // SAFETY: the caller hands over NULL or somewhere to write.
        let plan = unsafe { Slot::needed(out_plan) }?;
        // SAFETY: the caller hands over NULL or somewhere to write.
        let problems = unsafe { Slot::wanted(out_problems) };
        // SAFETY: the caller hands over NULL or `len` bytes to read.
        let document = unsafe { bytes(text, len) }?;
        match lamella::plan_json(document) {
            Ok(text) => {
                plan.put(lamella_text::new(text));
                Ok(())
            }
            Err(failure) => {
                if let Some(slot) = problems {
                    let text = failure.to_json().map_err(|_| lamella_status::LAMELLA_INTERNAL)?;
                    slot.put(lamella_text::new(text));
                }
                Err(lamella_status::LAMELLA_PROBLEMS)
            }
        }
    })
}
