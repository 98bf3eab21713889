//! The forms that the readers of a plan answer in.

use std::ffi::c_char;

use serde::Serialize;

use crate::boundary::{Stop, reported};
use crate::pointer;
use crate::report::lamella_report;
use crate::status::lamella_status;
use crate::text::{self, lamella_text};

/// Plain text of at most 96 columns.
pub const LAMELLA_FORM_TEXT: u32 = 0;
/// Markdown: CommonMark with tables.
pub const LAMELLA_FORM_MARKDOWN: u32 = 1;
/// JSON.
pub const LAMELLA_FORM_JSON: u32 = 2;
/// Tables as comma-separated values.
pub const LAMELLA_FORM_CSV: u32 = 3;
/// A drawing, as SVG.
pub const LAMELLA_FORM_SVG: u32 = 4;

/// The shape of every call that makes a text of a document or a plan.
///
/// # Safety
/// `out` and `report` are writable unless NULL.
pub(crate) unsafe fn answer(
    out: *mut *mut lamella_text,
    report: *mut *mut lamella_report,
    body: impl FnOnce() -> Result<String, Stop>,
) -> lamella_status {
    // SAFETY: the caller vouches that it is NULL or can be written.
    let report = unsafe { pointer::wanted(report) };
    reported(report, || {
        // SAFETY: the caller vouches that it is NULL or can be written.
        let out = unsafe { pointer::needed(out) }?;
        Ok(text::put(out, body()?)?)
    })
}

/// A value as JSON, ending in a newline.
pub(crate) fn json(value: &impl Serialize) -> Result<String, Stop> {
    written(lamella::json::document(value))
}

/// What a writer wrote; it has no reason to refuse.
pub(crate) fn written(text: Result<String, serde_json::Error>) -> Result<String, Stop> {
    text.map_err(|_| lamella_status::LAMELLA_INTERNAL.into())
}

/// A form that there is not.
pub(crate) const NONE: Stop = Stop::Status(lamella_status::LAMELLA_OPTION);

/// The document that a caller hands in.
///
/// # Safety
/// Unless NULL, `text` must be readable for `len` bytes that nobody changes during `'a`.
pub(crate) unsafe fn document<'a>(text: *const c_char, len: usize) -> Result<&'a str, Stop> {
    // SAFETY: the caller vouches for `len` bytes.
    Ok(lamella::document::utf8(unsafe { pointer::bytes(text, len) }?)?)
}
