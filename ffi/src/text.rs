//! Texts that this library hands out.

use crate::handle;

/// A text made by this library: UTF-8, with its length; a NUL follows it that the length does not count, and there is
/// none within. Free it with lamella_text_free. Any number of threads may read one text.
#[derive(Debug)]
pub struct lamella_text {
    bytes: Box<[u8]>,
}

impl lamella_text {
    pub(crate) fn new(text: String) -> Self {
        let mut bytes = text.into_bytes();
        bytes.push(0);
        Self { bytes: bytes.into_boxed_slice() }
    }
}

/// The bytes of a text. They live as long as the text. NULL for NULL.
///
/// # Safety
/// `text` is NULL or a text that has not been freed.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_text_data(text: *const lamella_text) -> *const u8 {
    // SAFETY: the caller hands over NULL or a live text.
    unsafe { handle::shared(text) }.map_or(std::ptr::null(), |text| text.bytes.as_ptr())
}

/// How many bytes a text has, the closing NUL not counted. Nought for NULL.
///
/// # Safety
/// `text` is NULL or a text that has not been freed.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_text_len(text: *const lamella_text) -> usize {
    // SAFETY: the caller hands over NULL or a live text.
    unsafe { handle::shared(text) }.map_or(0, |text| text.bytes.len().saturating_sub(1))
}

/// Frees a text. NULL is nothing. Never give one to free() of C.
///
/// # Safety
/// `text` is NULL or a text that has not been freed; it must not be used again.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_text_free(text: *mut lamella_text) {
    // SAFETY: the caller hands over NULL or a live text, and does not use it again.
    unsafe { handle::free(text) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn threads_may_share_a_text() {
        fn shared<T: Send + Sync>() {}
        shared::<lamella_text>();
    }
}
