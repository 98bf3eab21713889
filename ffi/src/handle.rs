//! Pointers of a C caller as Rust values, and the boundary that no panic crosses.

use std::panic::{AssertUnwindSafe, catch_unwind};

use crate::status::lamella_status;

/// Runs the body of a function. A panic in it would be a mistake of this library; the caller learns of it as a status.
///
/// Nothing that a body touches outlives a panic in it: the results are locals until they are handed over, so that
/// unwinding leaves nothing half written.
pub(crate) fn boundary(body: impl FnOnce() -> Result<(), lamella_status>) -> lamella_status {
    match catch_unwind(AssertUnwindSafe(body)) {
        Ok(Ok(())) => lamella_status::LAMELLA_OK,
        Ok(Err(status)) => status,
        Err(_) => lamella_status::LAMELLA_INTERNAL,
    }
}

/// The bytes that a caller hands in. NULL stands for no bytes, and only for that.
///
/// # Safety
/// Unless NULL, `data` must be readable for `len` bytes that nobody changes during `'a`.
pub(crate) unsafe fn bytes<'a>(data: *const u8, len: usize) -> Result<&'a [u8], lamella_status> {
    if len == 0 {
        return Ok(&[]);
    }
    if data.is_null() {
        return Err(lamella_status::LAMELLA_NULL_ARGUMENT);
    }
    if isize::try_from(len).is_err() {
        return Err(lamella_status::LAMELLA_LENGTH);
    }
    // SAFETY: `data` is not NULL, `len` is at most isize::MAX, and the caller vouches for the bytes.
    Ok(unsafe { std::slice::from_raw_parts(data, len) })
}

/// Where a caller wants a result.
pub(crate) struct Slot<T>(*mut *mut T);

impl<T> Slot<T> {
    /// A slot that must be there.
    ///
    /// # Safety
    /// Unless NULL, `out` must be aligned and writable until the slot is gone.
    pub(crate) unsafe fn needed(out: *mut *mut T) -> Result<Self, lamella_status> {
        if out.is_null() { Err(lamella_status::LAMELLA_NULL_ARGUMENT) } else { Ok(Self(out)) }
    }

    /// A slot that may be NULL when the caller does not want the result.
    ///
    /// # Safety
    /// As [`needed`](Self::needed).
    pub(crate) unsafe fn wanted(out: *mut *mut T) -> Option<Self> {
        (!out.is_null()).then_some(Self(out))
    }

    /// Hands `value` over: the caller owns it from now on.
    pub(crate) fn put(self, value: T) {
        let value = Box::into_raw(Box::new(value));
        // SAFETY: whoever made the slot vouched that it is aligned and writable.
        unsafe { self.0.write(value) }
    }
}

/// What a caller's pointer points to, or nothing for NULL.
///
/// # Safety
/// Unless NULL, `pointer` must come from [`Slot::put`] and must not be freed or changed during `'a`.
pub(crate) unsafe fn shared<'a, T>(pointer: *const T) -> Option<&'a T> {
    // SAFETY: the caller vouches that it is NULL or points to a live T.
    unsafe { pointer.as_ref() }
}

/// Takes back what [`Slot::put`] handed over, and frees it; NULL is nothing.
///
/// # Safety
/// Unless NULL, `pointer` must come from [`Slot::put`], and must not be used again.
pub(crate) unsafe fn free<T>(pointer: *mut T) {
    if !pointer.is_null() {
        // SAFETY: the caller vouches that it came from Box::into_raw and is not used again.
        drop(unsafe { Box::from_raw(pointer) });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_panic_is_a_status() {
        let status = boundary(|| panic!("on purpose"));
        assert_eq!(status, lamella_status::LAMELLA_INTERNAL);
    }

    #[test]
    fn no_bytes_may_be_null() {
        // SAFETY: NULL is allowed.
        assert_eq!(unsafe { bytes(std::ptr::null(), 0) }, Ok(&[][..]));
        // SAFETY: NULL is allowed.
        assert_eq!(unsafe { bytes(std::ptr::null(), 1) }, Err(lamella_status::LAMELLA_NULL_ARGUMENT));
        let one = [7];
        // SAFETY: the length is refused before a byte is read.
        assert_eq!(unsafe { bytes(one.as_ptr(), usize::MAX) }, Err(lamella_status::LAMELLA_LENGTH));
    }
}
