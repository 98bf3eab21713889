//! What is wrong with a document.

use std::ffi::c_char;

use lamella::Failure;

use crate::boundary::boundary;
use crate::handle::{self, Handle};
use crate::pointer;
use crate::status::lamella_status;
use crate::text::{self, lamella_str, lamella_text};

/// What is wrong with a document, or the message of a mistake of this library: one problem or more. Free it with
/// lamella_report_free. Any number of threads may read one report.
#[derive(Debug)]
pub struct lamella_report;

impl Handle for lamella_report {
    type Inner = Failure;
}

/// A problem of a document. The views live as long as the report.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
#[expect(clippy::exhaustive_structs, reason = "its layout is part of the ABI; what is new comes at its end")]
pub struct lamella_problem {
    /// Stable code, such as "quantity.unit.missing".
    pub code: lamella_str,
    /// JSON Pointer to the place in the document (RFC 6901); empty for the document as a whole.
    pub pointer: lamella_str,
    /// What is wrong, in one sentence.
    pub message: lamella_str,
    /// What to do about it.
    pub advice: lamella_str,
}

/// How many problems there are. Nought for NULL and for what is no report.
#[unsafe(no_mangle)]
pub extern "C" fn lamella_report_count(report: *const lamella_report) -> usize {
    handle::get(report).map_or(0, |failure| failure.problems().len())
}

/// Writes the problem of an index, counted from nought in the order of the document, to `out`; `size` is sizeof *out.
///
/// LAMELLA_INDEX when there is none.
///
/// # Safety
/// `out` is writable for `size` bytes.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_report_problem(
    report: *const lamella_report,
    index: usize,
    out: *mut lamella_problem,
    size: usize,
) -> lamella_status {
    boundary(|| {
        let failure = handle::get(report)?;
        let problem = failure.problems().get(index).ok_or(lamella_status::LAMELLA_INDEX)?;
        let value = lamella_problem {
            code: lamella_str::new(problem.code),
            pointer: lamella_str::new(&problem.pointer),
            message: lamella_str::new(&problem.message),
            advice: lamella_str::new(&problem.advice),
        };
        // SAFETY: the caller vouches for `size` bytes.
        unsafe { pointer::fill(out, size, value) }
    })
}

/// Sets `*out` to the problems/1 document of a report; free it with lamella_text_free.
///
/// # Safety
/// `out` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_report_document(
    report: *const lamella_report,
    out: *mut *mut lamella_text,
) -> lamella_status {
    boundary(|| {
        // SAFETY: the caller hands over NULL or somewhere to write.
        let out = unsafe { pointer::needed(out) }?;
        let document = handle::get(report)?.to_json().map_err(|_| lamella_status::LAMELLA_INTERNAL)?;
        text::put(out, document)
    })
}

/// Sets `*out` to a report as a compiler prints it, each problem with its line of the document; free it with
/// lamella_text_free. `document` is the one that the report is about, of `len` bytes; `name` is what it is called, of
/// `name_len` bytes.
///
/// # Safety
/// `document` and `name` are readable for their lengths; `out` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_report_text(
    report: *const lamella_report,
    document: *const c_char,
    len: usize,
    name: *const c_char,
    name_len: usize,
    out: *mut *mut lamella_text,
) -> lamella_status {
    boundary(|| {
        // SAFETY: the caller hands over NULL or somewhere to write.
        let out = unsafe { pointer::needed(out) }?;
        let failure = handle::get(report)?;
        // SAFETY: the caller hands over NULL or `len` bytes to read.
        let document = String::from_utf8_lossy(unsafe { pointer::bytes(document, len) }?);
        // SAFETY: the caller hands over NULL or `name_len` bytes to read.
        let name = String::from_utf8_lossy(unsafe { pointer::bytes(name, name_len) }?);
        text::put(
            out,
            lamella::recipe::render(failure.problems(), &document, &name).replace('\0', "\u{fffd}"),
        )
    })
}

/// Frees a report. NULL is nothing; a report that was freed already is LAMELLA_HANDLE, and no harm is done.
#[unsafe(no_mangle)]
pub extern "C" fn lamella_report_free(report: *mut lamella_report) -> lamella_status {
    handle::free(report)
}
