//! Recipes.

use std::ffi::c_char;
use std::sync::Arc;

use lamella::recipe::{self, Recipe};

use crate::boundary::{boundary, reported};
use crate::handle::{self, Handle};
use crate::options::{self, lamella_options};
use crate::pointer;
use crate::report::lamella_report;
use crate::status::lamella_status;
use crate::text::{self, lamella_text};

/// A recipe that was read and has no problems. It does not change: any number of threads may use it. Free it with
/// lamella_recipe_free; plans that were made of it go on without it.
#[derive(Debug)]
pub struct lamella_recipe;

impl Handle for lamella_recipe {
    type Inner = Arc<Recipe>;
}

/// Reads the recipe/1 document of `len` bytes at `text`, which need not end in NUL, and sets `*out` to the recipe; free
/// it with lamella_recipe_free.
///
/// `text` may be NULL only when `len` is nought. `options` may be NULL for the defaults. LAMELLA_PROBLEMS when the
/// document has problems: then `*report`, unless `report` is NULL, is set to all of them at once; free it with
/// lamella_report_free.
///
/// # Safety
/// `text` is readable for `len` bytes, `options` for as many as it says; `out` and `report` are writable unless NULL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_recipe_read(
    text: *const c_char,
    len: usize,
    options: *const lamella_options,
    out: *mut *mut lamella_recipe,
    report: *mut *mut lamella_report,
) -> lamella_status {
    // SAFETY: the caller hands over NULL or somewhere to write.
    let report = unsafe { pointer::wanted(report) };
    reported(report, || {
        // SAFETY: the caller hands over NULL or somewhere to write.
        let out = unsafe { pointer::needed(out) }?;
        // SAFETY: the caller hands over NULL or as many bytes as the options say.
        let most = unsafe { options::limits(options) }?;
        // SAFETY: the caller hands over NULL or `len` bytes to read.
        let document = unsafe { pointer::bytes(text, len) }?;
        let recipe = most.read(document)?;
        out.put(handle::new(Arc::new(recipe))?);
        Ok(())
    })
}

/// Sets `*out` to the recipe as canonical text: a recipe/1 document with its fields in the order of the format, defaults
/// left out, quantities in base units. Reading it gives the same recipe back. Free it with lamella_text_free.
///
/// # Safety
/// `out` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_recipe_document(
    recipe: *const lamella_recipe,
    out: *mut *mut lamella_text,
) -> lamella_status {
    boundary(|| {
        // SAFETY: the caller hands over NULL or somewhere to write.
        let out = unsafe { pointer::needed(out) }?;
        text::put(out, recipe::write(&*handle::get(recipe)?))
    })
}

/// Frees a recipe. NULL is nothing; a recipe that was freed already is LAMELLA_HANDLE, and no harm is done.
#[unsafe(no_mangle)]
pub extern "C" fn lamella_recipe_free(recipe: *mut lamella_recipe) -> lamella_status {
    handle::free(recipe)
}
