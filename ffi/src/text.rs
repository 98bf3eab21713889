//! Texts that this library hands out.

use std::ffi::c_char;

use crate::handle::{self, Handle};
use crate::pointer::Out;
use crate::status::lamella_status;

/// A view of a text that belongs to a handle: UTF-8, `len` bytes, no NUL after them. It lives as long as the handle that
/// it was asked of. `data` is never NULL.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
#[expect(clippy::exhaustive_structs, reason = "its layout is part of the ABI")]
pub struct lamella_str {
    /// The first byte.
    pub data: *const c_char,
    /// How many bytes there are.
    pub len: usize,
}

impl lamella_str {
    pub(crate) fn new(text: &str) -> Self {
        Self { data: text.as_ptr().cast(), len: text.len() }
    }
}

/// A text made by this library: UTF-8, with its length; a NUL follows it that the length does not count, and there is
/// none within. Free it with lamella_text_free, never with free() of C. Any number of threads may read one text.
#[derive(Debug)]
pub struct lamella_text;

impl Handle for lamella_text {
    type Inner = Box<[u8]>;
}

/// Hands a text over.
pub(crate) fn put(out: Out<*mut lamella_text>, text: String) -> Result<(), lamella_status> {
    let mut bytes = text.into_bytes();
    bytes.push(0);
    out.put(handle::new::<lamella_text>(bytes.into_boxed_slice())?);
    Ok(())
}

/// The bytes of a text. They live as long as the text. NULL for NULL and for what is no text.
#[unsafe(no_mangle)]
pub extern "C" fn lamella_text_data(text: *const lamella_text) -> *const c_char {
    handle::get(text).map_or(std::ptr::null(), |bytes| bytes.as_ptr().cast())
}

/// How many bytes a text has, the closing NUL not counted. Nought for NULL and for what is no text.
#[unsafe(no_mangle)]
pub extern "C" fn lamella_text_len(text: *const lamella_text) -> usize {
    handle::get(text).map_or(0, |bytes| bytes.len().saturating_sub(1))
}

/// Frees a text. NULL is nothing; a text that was freed already is LAMELLA_HANDLE, and no harm is done.
#[unsafe(no_mangle)]
pub extern "C" fn lamella_text_free(text: *mut lamella_text) -> lamella_status {
    handle::free(text)
}
