//! Which library this is.

use std::ffi::{CStr, c_char};

/// Version of the ABI that this header describes: it rises with a change that a program built against an older header
/// would not survive. Compare it with lamella_abi_version() at start.
pub const LAMELLA_ABI_VERSION: u32 = 1;

const VERSION: &CStr = match CStr::from_bytes_with_nul(concat!(env!("CARGO_PKG_VERSION"), "\0").as_bytes()) {
    Ok(text) => text,
    Err(_) => c"",
};

/// The version of this library, such as "0.1.0". The text ends in NUL, lives for ever and must not be freed.
#[unsafe(no_mangle)]
pub extern "C" fn lamella_version() -> *const c_char {
    VERSION.as_ptr()
}

/// The version of its ABI; a program built against another one must not go on.
#[unsafe(no_mangle)]
pub extern "C" fn lamella_abi_version() -> u32 {
    LAMELLA_ABI_VERSION
}
