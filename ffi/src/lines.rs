//! Many recipes at once, one document a line: what C sees of it.

use std::ffi::{c_char, c_int, c_void};

use lamella::document::Answer;

use crate::boundary::boundary;
use crate::options::{self, lamella_options};
use crate::pointer;
use crate::status::lamella_status;
use crate::stream::{Order, stream};
use crate::text::{self, lamella_text};

/// Answer with the whole plan, as a plan/1 document.
pub const LAMELLA_ANSWER_PLAN: u32 = 0;
/// Answer with what a look through a catalogue wants to know, as a check/1 document: name, layers, fat, what is poured,
/// superfat, cautions.
pub const LAMELLA_ANSWER_CHECK: u32 = 1;

/// Gives more of the lines: writes at most `capacity` bytes to `buffer` and returns how many; nought at the end, less
/// than nought to stop. It may divide lines anywhere. It must not throw or jump out.
pub type lamella_source =
    Option<unsafe extern "C" fn(context: *mut c_void, buffer: *mut c_char, capacity: usize) -> isize>;

/// Takes an answer: `len` bytes of UTF-8 that end in a newline and live until it returns. Returns nought to go on, anything
/// else to stop. It must not throw or jump out.
pub type lamella_sink =
    Option<unsafe extern "C" fn(context: *mut c_void, line: *const c_char, len: usize) -> c_int>;

/// Most threads that may be asked for.
const THREADS: usize = 1024;

/// Answers a stream of recipe/1 documents in JSON Lines: one document a line, one answer a line, in the same order. A line
/// with problems is answered with its problems/1 document, on one line, and harms no other; so is an empty line, and one
/// that is longer than the options allow. The last line need not end in a newline.
///
/// `answer` is LAMELLA_ANSWER_PLAN or LAMELLA_ANSWER_CHECK. `threads` is how many threads plan: 1 for the calling thread
/// alone, 0 for as many as the machine has processors, at most 1024. `source` and `sink` are called in turn, and only on
/// the calling thread; `context` is handed to both. At most some hundred lines a thread are held at a time, however many there are.
/// `options` may be NULL for the defaults; their limits are for each line.
///
/// LAMELLA_STOPPED when a callback stops it, with lines that it has not answered; LAMELLA_LENGTH when `source` returns more than `capacity`.
///
/// # Safety
/// `source` and `sink` are functions of these kinds that can be called with `context` until the call returns; `options`
/// is readable for as many bytes as it says.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_lines_stream(
    source: lamella_source,
    sink: lamella_sink,
    context: *mut c_void,
    options: *const lamella_options,
    answer: u32,
    threads: usize,
) -> lamella_status {
    boundary(|| {
        let source = source.ok_or(lamella_status::LAMELLA_NULL_ARGUMENT)?;
        let sink = sink.ok_or(lamella_status::LAMELLA_NULL_ARGUMENT)?;
        // SAFETY: the caller hands over NULL or as many bytes as the options say.
        let order = unsafe { order(options, answer, threads) }?;
        let more = |buffer: &mut [u8]| {
            // SAFETY: the caller vouches for the function; the buffer has as many bytes as it says.
            let got = unsafe { source(context, buffer.as_mut_ptr().cast(), buffer.len()) };
            let got = usize::try_from(got).map_err(|_| lamella_status::LAMELLA_STOPPED)?;
            if got > buffer.len() { Err(lamella_status::LAMELLA_LENGTH) } else { Ok(got) }
        };
        let put = |line: &str| {
            // SAFETY: the caller vouches for the function; the line has as many bytes as it says.
            let stop = unsafe { sink(context, line.as_ptr().cast(), line.len()) };
            if stop == 0 { Ok(()) } else { Err(lamella_status::LAMELLA_STOPPED) }
        };
        stream(order, more, put)
    })
}

/// The same for lines that are all in memory: `len` bytes at `lines`. Sets `*out` to all the answers; free it with
/// lamella_text_free. For an engine that hands out lines in portions.
///
/// # Safety
/// `lines` is readable for `len` bytes, `options` for as many as it says; `out` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_lines_answer(
    lines: *const c_char,
    len: usize,
    options: *const lamella_options,
    answer: u32,
    threads: usize,
    out: *mut *mut lamella_text,
) -> lamella_status {
    boundary(|| {
        // SAFETY: the caller hands over NULL or somewhere to write.
        let out = unsafe { pointer::needed(out) }?;
        // SAFETY: the caller hands over NULL or as many bytes as the options say.
        let order = unsafe { order(options, answer, threads) }?;
        // SAFETY: the caller hands over NULL or `len` bytes to read.
        let mut rest = unsafe { pointer::bytes(lines, len) }?;
        let more = |buffer: &mut [u8]| {
            let (now, later) = rest.split_at_checked(buffer.len()).unwrap_or((rest, &[]));
            rest = later;
            let room = buffer.get_mut(..now.len()).ok_or(lamella_status::LAMELLA_INTERNAL)?;
            room.copy_from_slice(now);
            Ok(now.len())
        };
        let mut answers = String::new();
        let put = |line: &str| {
            answers.push_str(line);
            Ok(())
        };
        stream(order, more, put)?;
        text::put(out, answers)
    })
}

/// # Safety
/// Unless NULL, `options` must be readable for as many bytes as it says.
unsafe fn order(
    options: *const lamella_options,
    answer: u32,
    threads: usize,
) -> Result<Order, lamella_status> {
    // SAFETY: the caller vouches for as many bytes as it says.
    let most = unsafe { options::limits(options) }?;
    let answer = match answer {
        LAMELLA_ANSWER_PLAN => Answer::Plan,
        LAMELLA_ANSWER_CHECK => Answer::Check,
        _ => return Err(lamella_status::LAMELLA_OPTION),
    };
    if threads > THREADS {
        return Err(lamella_status::LAMELLA_OPTION);
    }
    let threads = if threads == 0 {
        std::thread::available_parallelism().map_or(1, usize::from).min(THREADS)
    } else {
        threads
    };
    Ok(Order { most, answer, threads })
}
