//! How a call went.

use std::ffi::{CStr, c_char};

/// How a call went. Hundreds say where to look: 1xx the arguments of the call, 2xx the document, 9xx this library. New
/// values may come within these; a value never changes its meaning.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(clippy::exhaustive_enums, reason = "it is only ever returned to C, which takes it for a number")]
pub enum lamella_status {
    /// It went well.
    LAMELLA_OK = 0,
    /// A pointer that must not be NULL is.
    LAMELLA_NULL_ARGUMENT = 100,
    /// A length is more than any object can have.
    LAMELLA_LENGTH = 101,
    /// The document has problems that keep it from being planned.
    LAMELLA_PROBLEMS = 200,
    /// A mistake of this library. Nothing was written, and everything can go on being used.
    LAMELLA_INTERNAL = 900,
}

use lamella_status::{LAMELLA_INTERNAL, LAMELLA_LENGTH, LAMELLA_NULL_ARGUMENT, LAMELLA_OK, LAMELLA_PROBLEMS};

const TEXTS: [(lamella_status, &CStr); 5] = [
    (LAMELLA_OK, c"ok"),
    (LAMELLA_NULL_ARGUMENT, c"a pointer that must not be NULL is"),
    (LAMELLA_LENGTH, c"a length is more than any object can have"),
    (LAMELLA_PROBLEMS, c"the document has problems that keep it from being planned"),
    (LAMELLA_INTERNAL, c"a mistake of this library"),
];

/// What a status means, in English, for messages. Takes any number; an unknown one is called an unknown status. The
/// text ends in NUL, is never NULL, lives for ever and must not be freed.
#[unsafe(no_mangle)]
pub extern "C" fn lamella_status_text(status: u32) -> *const c_char {
    let known = TEXTS.iter().find(|(known, _)| *known as u32 == status);
    known.map_or(c"unknown status", |(_, text)| text).as_ptr()
}
