//! Pointers of a C caller: bytes that it hands in, places that it wants results in.

use std::ffi::c_char;
use std::mem::{MaybeUninit, size_of};

use crate::status::lamella_status;

/// More than any struct of the header will ever have: a size beyond it is a mistake.
const LARGEST: usize = 4096;

/// The bytes that a caller hands in. NULL stands for no bytes, and only for that.
///
/// # Safety
/// Unless NULL, `data` must be readable for `len` bytes that nobody changes during `'a`.
pub(crate) unsafe fn bytes<'a>(data: *const c_char, len: usize) -> Result<&'a [u8], lamella_status> {
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
    Ok(unsafe { std::slice::from_raw_parts(data.cast(), len) })
}

/// Where a caller wants a result. Whoever makes one vouches that it can be written until it is gone.
#[derive(Debug)]
pub(crate) struct Out<T>(*mut T);

impl<T> Out<T> {
    /// Hands `value` over.
    pub(crate) fn put(self, value: T) {
        // SAFETY: whoever made it vouched that it can be written; alignment does not matter.
        unsafe { self.0.write_unaligned(value) }
    }
}

/// A place that must be there.
///
/// # Safety
/// Unless NULL, `out` must be writable until the result is gone.
pub(crate) unsafe fn needed<T>(out: *mut T) -> Result<Out<T>, lamella_status> {
    if out.is_null() { Err(lamella_status::LAMELLA_NULL_ARGUMENT) } else { Ok(Out(out)) }
}

/// A place that may be NULL when the caller does not want the result.
///
/// # Safety
/// As [`needed`].
pub(crate) unsafe fn wanted<T>(out: *mut T) -> Option<Out<T>> {
    (!out.is_null()).then_some(Out(out))
}

/// Hands a struct over to a caller whose header knows `size` bytes of it: a shorter one gets so much, a longer one gets
/// noughts in what this library does not know.
///
/// # Safety
/// Unless NULL, `out` must be writable for `size` bytes.
pub(crate) unsafe fn fill<T: Copy>(out: *mut T, size: usize, value: T) -> Result<(), lamella_status> {
    if out.is_null() {
        return Err(lamella_status::LAMELLA_NULL_ARGUMENT);
    }
    if size == 0 || size > LARGEST {
        return Err(lamella_status::LAMELLA_LENGTH);
    }
    let known = size.min(size_of::<T>());
    let out = out.cast::<MaybeUninit<u8>>();
    // SAFETY: the caller vouches for `size` bytes, `known` is at most that and at most what `value` has.
    unsafe { std::ptr::copy_nonoverlapping((&raw const value).cast(), out, known) };
    // SAFETY: these are the bytes from `known` to `size`.
    unsafe { out.add(known).write_bytes(0, size.saturating_sub(known)) };
    Ok(())
}

/// A struct of a caller whose header knows as much of it as its first field says; what it does not know is as in `base`.
///
/// # Safety
/// Unless NULL, `from` must begin with its size and be readable for so many bytes.
pub(crate) unsafe fn sized<T: Copy>(from: *const T, base: T) -> Result<T, lamella_status> {
    if from.is_null() {
        return Ok(base);
    }
    // SAFETY: the caller vouches that it begins with its size.
    let size = unsafe { from.cast::<usize>().read_unaligned() };
    if size < size_of::<usize>() || size > LARGEST {
        return Err(lamella_status::LAMELLA_OPTION);
    }
    for at in size_of::<T>()..size {
        // SAFETY: `at` is below `size`, for which the caller vouches.
        if unsafe { from.cast::<u8>().add(at).read() } != 0 {
            return Err(lamella_status::LAMELLA_OPTION);
        }
    }
    let mut value = base;
    let known = size.min(size_of::<T>());
    let into = (&raw mut value).cast::<MaybeUninit<u8>>();
    // SAFETY: both have `known` bytes; T is made of numbers, of which every pattern of bits is one.
    unsafe { std::ptr::copy_nonoverlapping(from.cast(), into, known) };
    Ok(value)
}

/// Writes a text and a NUL into a buffer.
///
/// # Safety
/// Unless NULL, `buffer` must be writable for `size` bytes.
pub(crate) unsafe fn text_into(buffer: *mut c_char, size: usize, text: &str) -> Result<(), lamella_status> {
    if buffer.is_null() {
        return Err(lamella_status::LAMELLA_NULL_ARGUMENT);
    }
    if size <= text.len() {
        return Err(lamella_status::LAMELLA_BUFFER);
    }
    // SAFETY: the caller vouches for `size` bytes, which are more than the text has.
    unsafe { std::ptr::copy_nonoverlapping(text.as_ptr(), buffer.cast(), text.len()) };
    // SAFETY: there is room for one byte more.
    unsafe { buffer.add(text.len()).write(0) };
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

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

    #[test]
    fn a_struct_fills_what_the_caller_knows_of_it() {
        let mut bytes = [9_u8; 24];
        let out = bytes.as_mut_ptr().cast::<[u64; 2]>();
        // SAFETY: there are as many bytes as it says.
        assert_eq!(unsafe { fill(out, 8, [1, 2]) }, Ok(()));
        assert_eq!((bytes[0], bytes[8]), (1, 9));
        let out = bytes.as_mut_ptr().cast::<[u64; 2]>();
        // SAFETY: there are as many bytes as it says.
        assert_eq!(unsafe { fill(out, 20, [1, 2]) }, Ok(()));
        assert_eq!((bytes[8], bytes[16], bytes[19], bytes[20]), (2, 0, 0, 9));
        let out = bytes.as_mut_ptr().cast::<[u64; 2]>();
        for size in [0, usize::MAX] {
            // SAFETY: nothing is written.
            assert_eq!(unsafe { fill(out, size, [1, 2]) }, Err(lamella_status::LAMELLA_LENGTH));
        }
    }

    #[test]
    fn a_struct_says_how_much_of_it_there_is() {
        let base = [0_usize, 5, 6];
        // SAFETY: NULL is allowed.
        assert_eq!(unsafe { sized(std::ptr::null(), base) }, Ok(base));
        let word = size_of::<usize>();
        for (given, wanted) in [
            ([word, 1, 2, 0, 0], Ok([word, 5, 6])),
            ([2 * word, 1, 2, 3, 0], Ok([2 * word, 1, 6])),
            ([4 * word, 1, 2, 0, 3], Ok([4 * word, 1, 2])),
            ([4 * word, 1, 2, 3, 3], Err(lamella_status::LAMELLA_OPTION)),
            ([0, 1, 2, 3, 3], Err(lamella_status::LAMELLA_OPTION)),
            ([usize::MAX, 1, 2, 3, 3], Err(lamella_status::LAMELLA_OPTION)),
        ] {
            // SAFETY: there are five words.
            assert_eq!(unsafe { sized(given.as_ptr().cast(), base) }, wanted);
        }
    }

    #[test]
    fn a_buffer_holds_the_text_and_a_nul() {
        let mut buffer = [7; 4];
        // SAFETY: there are as many bytes as it says.
        assert_eq!(unsafe { text_into(buffer.as_mut_ptr(), 3, "abc") }, Err(lamella_status::LAMELLA_BUFFER));
        // SAFETY: there are as many bytes as it says.
        assert_eq!(unsafe { text_into(buffer.as_mut_ptr(), 4, "abc") }, Ok(()));
        assert_eq!(buffer.map(|byte| byte as u8), *b"abc\0");
    }
}
