//! How a call went.

use std::ffi::{CStr, c_char};

/// How a call went. Hundreds say where to look: 1xx the arguments of the call, 2xx the document, 9xx this library. New
/// values may come within these; a value never changes its meaning. Unless a call returns LAMELLA_OK it has written
/// nothing, except that LAMELLA_PROBLEMS and LAMELLA_INTERNAL set the report of a call that has one.
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
    /// A handle that was freed, is of another kind, or never was one.
    LAMELLA_HANDLE = 102,
    /// An option is outside its range.
    LAMELLA_OPTION = 103,
    /// There is no item of this index.
    LAMELLA_INDEX = 104,
    /// A figure passes what 64 bits hold in trillionths (9 tonnes of it, 9 cubic metres); the document has it.
    LAMELLA_RANGE = 105,
    /// A buffer is too short for what was to be written.
    LAMELLA_BUFFER = 106,
    /// A callback asked for the end.
    LAMELLA_STOPPED = 107,
    /// The document has problems; the report has them.
    LAMELLA_PROBLEMS = 200,
    /// A mistake of this library; the report has its message. Everything can go on being used.
    LAMELLA_INTERNAL = 900,
}

use lamella_status::*;

const TEXTS: [(lamella_status, &CStr); 11] = [
    (LAMELLA_OK, c"ok"),
    (LAMELLA_NULL_ARGUMENT, c"a pointer that must not be NULL is"),
    (LAMELLA_LENGTH, c"a length is more than any object can have"),
    (LAMELLA_HANDLE, c"a handle that was freed, is of another kind, or never was one"),
    (LAMELLA_OPTION, c"an option is outside its range"),
    (LAMELLA_INDEX, c"there is no item of this index"),
    (LAMELLA_RANGE, c"a figure passes what 64 bits hold in trillionths"),
    (LAMELLA_BUFFER, c"a buffer is too short for what was to be written"),
    (LAMELLA_STOPPED, c"a callback asked for the end"),
    (LAMELLA_PROBLEMS, c"the document has problems"),
    (LAMELLA_INTERNAL, c"a mistake of this library"),
];

/// What a status means, in English, for messages. Takes any number; an unknown one is called an unknown status. The
/// text ends in NUL, is never NULL, lives for ever and must not be freed.
#[unsafe(no_mangle)]
pub extern "C" fn lamella_status_text(status: u32) -> *const c_char {
    let known = TEXTS.iter().find(|(known, _)| *known as u32 == status);
    known.map_or(c"unknown status", |(_, text)| text).as_ptr()
}
