//! What a random input does to the C entry. The first byte says how the rest is taken:
//!
//! * as a document of a recipe, or as edits of one that plans, so that what lies behind the reader is reached: read and
//!   planned, and some handed to every function that takes one, and their plans to every function that takes a plan;
//! * as a document of another kind, for those who read one beside a plan;
//! * as calls one after the other, with handles that are fresh, freed, of another kind, or nonsense.
//!
//! Whatever it is, no call may panic (LAMELLA_INTERNAL), results must fit together, and nothing may be left.

use std::ffi::{c_char, c_int, c_void};
use std::mem::{MaybeUninit, size_of};
use std::ptr::{null, null_mut};

use lamella_ffi::*;

/// Documents that plan, small and large.
const SEEDS: [&str; 5] = [
    include_str!("../vectors/valid/plain.json"),
    include_str!("../vectors/valid/heights.json"),
    include_str!("../vectors/valid/dual_masses.json"),
    include_str!("../vectors/valid/hot_held_back.json"),
    include_str!("../vectors/valid/own_materials.json"),
];

/// First bytes, as remainders of 32: those below `EDITS` but `DOCUMENT` are documents too, those between it and `OTHER` are
/// edits, and both go no further than a plan.
const DOCUMENT: u8 = 0;
const EDITS: u8 = 13;
const OTHER: u8 = 22;
const CALLS: u8 = 23;

/// Takes an input.
pub(crate) fn run(data: &[u8]) {
    let Some((first, rest)) = data.split_first() else { return };
    // What takes long is done for a part of the inputs, which their bytes decide.
    let chosen =
        |one_in: usize| rest.iter().fold(0, |sum, byte| sum * 31 % 65_521 + usize::from(*byte)) % one_in == 0;
    match first % 32 {
        DOCUMENT if chosen(32) => document(rest),
        EDITS if chosen(32) => document(&edited(rest)),
        OTHER if chosen(32) => others(rest),
        CALLS..32 if chosen(4) => calls(rest, chosen(32)),
        plain if plain < EDITS => quickly(rest),
        _ => quickly(&edited(rest)),
    }
    assert_eq!(lamella_live_handles(), 0, "something is left");
}

/// A seed with parts of it replaced: each edit is a place of two bytes, how much goes, how much comes, and what.
fn edited(mut data: &[u8]) -> Vec<u8> {
    let mut take = |count: usize| {
        let (now, later) = data.split_at(count.min(data.len()));
        data = later;
        now
    };
    let byte = |bytes: &[u8]| bytes.first().copied().unwrap_or(0) as usize;
    // The small one more often than the others.
    let seed = SEEDS.get(byte(take(1)) % 16).unwrap_or(&SEEDS[0]);
    let mut text = seed.as_bytes().to_vec();
    loop {
        let head = take(4);
        let [high, low, gone, come] = head else { return text };
        let start = usize::from(u16::from_be_bytes([*high, *low])) % (text.len() + 1);
        let end = (start + usize::from(*gone) % 32).min(text.len());
        text.splice(start..end, take(usize::from(*come) % 32).iter().copied());
    }
}

fn checked(status: lamella_status) -> bool {
    assert_ne!(status, lamella_status::LAMELLA_INTERNAL, "a panic behind the wall");
    status == lamella_status::LAMELLA_OK
}

/// The bytes of a text, which is freed.
fn taken(text: *mut lamella_text) -> Vec<u8> {
    let (data, len) = (lamella_text_data(text), lamella_text_len(text));
    assert!(!data.is_null());
    let bytes = unsafe { std::slice::from_raw_parts(data.cast::<u8>(), len) }.to_vec();
    assert!(std::str::from_utf8(&bytes).is_ok());
    assert!(!bytes.contains(&0));
    assert!(checked(lamella_text_free(text)));
    bytes
}

type Making<'a> = &'a mut dyn FnMut(*mut *mut lamella_text) -> lamella_status;

/// The text that a call makes.
fn made(call: Making<'_>) -> Option<Vec<u8>> {
    let mut text = null_mut();
    checked(call(&raw mut text)).then(|| taken(text))
}

/// A document, read and planned; or its report.
fn quickly(document: &[u8]) {
    let (data, len) = (document.as_ptr().cast::<c_char>(), document.len());
    let (mut recipe, mut plan, mut report) = (null_mut(), null_mut(), null_mut());
    let read = unsafe { lamella_recipe_read(data, len, null(), &raw mut recipe, &raw mut report) };
    let made = checked(read) && checked(unsafe { lamella_plan_of(recipe, &raw mut plan, &raw mut report) });
    assert_eq!(made, report.is_null());
    let whole = |out, size| unsafe { lamella_plan_totals(plan, out, size) };
    let first = |out, size| unsafe { lamella_report_problem(report, 0, out, size) };
    assert!(if made {
        one::<lamella_totals>(&mut { whole })
    } else {
        one::<lamella_problem>(&mut { first })
    });
    assert!(checked(lamella_recipe_free(recipe)));
    assert!(checked(lamella_plan_free(plan)));
    assert!(checked(lamella_report_free(report)));
}

/// A document, handed to every function that takes one.
fn document(document: &[u8]) {
    let (data, len) = (document.as_ptr().cast::<c_char>(), document.len());
    let by_handles = handles(data, len);
    let mut problems = null_mut();
    let at_once = made(&mut |out| unsafe { lamella_plan_json(data, len, out, &raw mut problems) });
    let problems = (!problems.is_null()).then(|| taken(problems));
    match (at_once, problems, by_handles) {
        (Some(plan), None, Ok(other)) | (None, Some(plan), Err(other)) => assert!(plan == other),
        _ => panic!("one call and the handles do not agree"),
    }
    let answer = |kind| made(&mut |out| unsafe { lamella_lines_answer(data, len, null(), kind, 1, out) });
    let lines = document.split_inclusive(|byte| *byte == b'\n').count();
    let answers = answer(LAMELLA_ANSWER_CHECK).unwrap();
    assert_eq!(answers.iter().filter(|byte| **byte == b'\n').count(), lines);
}

/// The plan's document, or that of the problems.
fn handles(data: *const c_char, len: usize) -> Result<Vec<u8>, Vec<u8>> {
    let (mut recipe, mut plan, mut report) = (null_mut(), null_mut(), null_mut());
    let read = unsafe { lamella_recipe_read(data, len, null(), &raw mut recipe, &raw mut report) };
    if !checked(read) {
        return Err(told(report, data, len));
    }
    let canonical = made(&mut |out| unsafe { lamella_recipe_document(recipe, out) }).unwrap();
    let status = unsafe { lamella_plan_of(recipe, &raw mut plan, &raw mut report) };
    again(&canonical);
    assert!(checked(lamella_recipe_free(recipe)));
    if !checked(status) {
        return Err(told(report, data, len));
    }
    everything(plan);
    let document = made(&mut |out| unsafe { lamella_plan_document(plan, out) }).unwrap();
    assert!(checked(lamella_plan_free(plan)));
    Ok(document)
}

/// Canonical text reads, and is canonical.
fn again(canonical: &[u8]) {
    let (data, len) = (canonical.as_ptr().cast(), canonical.len());
    let mut recipe = null_mut();
    let status = unsafe { lamella_recipe_read(data, len, null(), &raw mut recipe, null_mut()) };
    assert!(checked(status), "canonical text does not read");
    let text = made(&mut |out| unsafe { lamella_recipe_document(recipe, out) }).unwrap();
    assert!(text == canonical);
    assert!(checked(lamella_recipe_free(recipe)));
}

/// The document of a report, which is freed.
fn told(report: *mut lamella_report, data: *const c_char, len: usize) -> Vec<u8> {
    assert!(lamella_report_count(report) > 0);
    for index in 0..=lamella_report_count(report) {
        one(&mut |out: *mut lamella_problem, size| unsafe {
            lamella_report_problem(report, index, out, size)
        });
    }
    let name = c"fuzz.json";
    made(&mut |out| unsafe { lamella_report_text(report, data, len, name.as_ptr(), 9, out) }).unwrap();
    let document = made(&mut |out| unsafe { lamella_report_document(report, out) }).unwrap();
    assert!(checked(lamella_report_free(report)));
    document
}

type Filling<'a, T> = &'a mut dyn FnMut(*mut T, usize) -> lamella_status;

/// Whether there is such an item; the struct is written by a call.
fn one<T>(call: Filling<'_, T>) -> bool {
    let mut value = MaybeUninit::<T>::uninit();
    let status = call(value.as_mut_ptr(), size_of::<T>());
    std::hint::black_box(&value);
    checked(status)
}

/// Everything that can be asked of a plan, and of what is none.
fn everything(plan: *const lamella_plan) {
    unsafe {
        for index in 0..=lamella_plan_layer_count(plan) {
            one(&mut |out, size| lamella_plan_layer(plan, index, out, size));
            one(&mut |out, size| lamella_plan_portion(plan, index, out, size));
            let mut height = 0;
            while one(&mut |out, size| lamella_plan_height(plan, index, height, out, size)) {
                height += 1;
            }
        }
        for index in 0..=lamella_plan_jug_count(plan) {
            one(&mut |out, size| lamella_plan_jug(plan, index, out, size));
            let mut layer = 0;
            while one(&mut |out: *mut usize, _| lamella_plan_jug_layer(plan, index, layer, out)) {
                layer += 1;
            }
        }
        for index in 0..=lamella_plan_weigh_count(plan) {
            one(&mut |out, size| lamella_plan_weigh(plan, index, out, size));
        }
        for index in 0..=lamella_plan_scale_count(plan) {
            one(&mut |out, size| lamella_plan_scale(plan, index, out, size));
        }
        for index in 0..=lamella_plan_caution_count(plan) {
            one(&mut |out, size| lamella_plan_caution(plan, index, out, size));
        }
        for index in 0..=lamella_plan_step_count(plan) {
            one(&mut |out, size| lamella_plan_step(plan, index, out, size));
        }
        one(&mut |out, size| lamella_plan_totals(plan, out, size));
        for jug in 0..=lamella_plan_jug_count(plan) {
            one(&mut |out, size| lamella_plan_interval(plan, jug, out, size));
        }
        one(&mut |out, size| lamella_plan_interval(plan, usize::MAX, out, size));
        made(&mut |out| lamella_plan_certainty(plan, out));
        for form in [LAMELLA_FORM_TEXT, LAMELLA_FORM_JSON, LAMELLA_FORM_CSV] {
            made(&mut |out| lamella_plan_dossier(plan, form, out, null_mut()));
            made(&mut |out| lamella_plan_ingredients(plan, usize::MAX, 0, 1, form, out, null_mut()));
            made(&mut |out| lamella_plan_label(plan, null(), null(), 0, form, out, null_mut()));
        }
        made(&mut |out| lamella_plan_scents(plan, 0, 1, out, null_mut()));
        made(&mut |out| lamella_plan_verdict(plan, null(), 0, out, null_mut()));
        made(&mut |out| lamella_plan_text(plan, out));
        made(&mut |out| lamella_plan_markdown(plan, out));
        for mould in 0..=lamella_plan_mould_count(plan) {
            made(&mut |out| lamella_plan_svg(plan, mould, out));
        }
    }
}

/// A document of another kind, handed to all who read one.
fn others(document: &[u8]) {
    let (data, len) = (document.as_ptr().cast::<c_char>(), document.len());
    let plan = planned(SEEDS[0]);
    type Other<'a> = &'a dyn Fn(*mut *mut lamella_text, *mut *mut lamella_report) -> lamella_status;
    let readers: [Other<'_>; 9] = unsafe {
        [
            &|out, report| lamella_plan_cost(plan, data, len, 0, out, report),
            &|out, report| lamella_cure(data, len, u32::from(len % 2 == 0) * 4, 0, out, report),
            &|out, report| lamella_record(data, len, plan, 1, out, report),
            &|out, report| lamella_plan_verdict(plan, data, len, out, report),
            &|out, report| lamella_plan_label(plan, null(), data, len, 2, out, report),
            &|out, report| lamella_plan_causes(plan, data, len, 0, 2, out, report),
            &|out, report| lamella_blend_fats(data, len, out, report),
            // No such form: it reads, and does not forecast, which takes too long for here.
            &|out, report| lamella_plan_heat(plan, data, len, 9, out, report),
            &|out, report| {
                let mut batch = null_mut();
                let status = lamella_batch_read(data, len, &raw mut batch, report);
                if status == lamella_status::LAMELLA_OK {
                    assert!(checked(lamella_batch_document(batch, out)));
                    assert!(checked(lamella_batch_free(batch)));
                }
                status
            },
        ]
    };
    for reader in readers {
        let (mut text, mut report) = (null_mut(), null_mut());
        let status = reader(&raw mut text, &raw mut report);
        if checked(status) {
            taken(text);
        } else if status == lamella_status::LAMELLA_PROBLEMS {
            told(report, data, len);
        }
    }
    let batch = begun(plan);
    let mut report = null_mut();
    let recorded = unsafe { lamella_batch_record(batch, data, len, null_mut(), &raw mut report) };
    if !checked(recorded) && !report.is_null() {
        told(report, data, len);
    }
    assert_eq!(checked(lamella_batch_undo(batch)), recorded == lamella_status::LAMELLA_OK);
    assert!(checked(lamella_batch_free(batch)));
    assert!(checked(lamella_plan_free(plan)));
}

/// The plan of a seed.
fn planned(seed: &str) -> *mut lamella_plan {
    let (mut recipe, mut plan) = (null_mut(), null_mut());
    unsafe {
        let (data, len) = (seed.as_ptr().cast(), seed.len());
        assert!(checked(lamella_recipe_read(data, len, null(), &raw mut recipe, null_mut())));
        assert!(checked(lamella_plan_of(recipe, &raw mut plan, null_mut())));
    }
    assert!(checked(lamella_recipe_free(recipe)));
    plan
}

fn begun(plan: *const lamella_plan) -> *mut lamella_batch {
    let mut batch = null_mut();
    assert!(checked(unsafe { lamella_batch_of(plan, &raw mut batch, null_mut()) }));
    batch
}

/// Events: some that can happen in the first seed, some that cannot.
const EVENTS: [&str; 8] = [
    r#"{"weighed": "naoh", "mass": "70 g"}"#,
    r#"{"weighed": "/fats/0", "mass": "410.5 g"}"#,
    r#"{"weighed": "water", "mass": "150 g"}"#,
    r#"{"added": "water", "mass": "3 g"}"#,
    r#"{"found": "naoh", "purity": "97 %"}"#,
    r#"{"note": "it rains"}"#,
    r#"{"poured": "nothing", "mass": "1 g"}"#,
    r#"{"weighed": "naoh"}"#,
];

/// Calls one after the other: each is four bytes, what and with which handles.
fn calls(data: &[u8], asked_everything: bool) {
    let mut slots = [0_usize; 8];
    for call in data.chunks_exact(4).take(if asked_everything { 24 } else { 8 }) {
        let [what, into, from, more] = call else { return };
        let into = usize::from(*into) % slots.len();
        let from = usize::from(*from) % slots.len();
        // A handle is a key: any number may be tried for one.
        let handle = if more % 16 == 15 { usize::from(*more) << (more % 56) } else { slots[from] };
        if let Some(new) = one_call(*what, handle, *more, asked_everything) {
            freed(std::mem::replace(&mut slots[into], new));
        }
    }
    for slot in slots {
        freed(slot);
    }
}

/// Frees a handle, whatever it is, and in vain once more.
fn freed(handle: usize) {
    let free = || {
        [
            lamella_recipe_free(handle as *mut _),
            lamella_plan_free(handle as *mut _),
            lamella_report_free(handle as *mut _),
            lamella_text_free(handle as *mut _),
            lamella_batch_free(handle as *mut _),
        ]
        .map(checked)
    };
    let done = free();
    if handle != 0 {
        assert!(done.iter().filter(|done| **done).count() <= 1);
        assert_eq!(free(), [false; 5]);
    }
}

/// A call with a handle; the handle that it made.
fn one_call(what: u8, handle: usize, more: u8, asked_everything: bool) -> Option<usize> {
    let seed = if asked_everything { SEEDS[usize::from(more) % SEEDS.len()] } else { SEEDS[0] };
    let (data, len) = (seed.as_ptr().cast::<c_char>(), seed.len() / (1 + usize::from(more / 128)));
    let (mut out, mut report) = (0_usize, null_mut::<lamella_report>());
    let slot = (&raw mut out).cast::<c_void>();
    let status = unsafe {
        match what % 21 {
            0 | 1 => lamella_recipe_read(data, len, null(), slot.cast(), &raw mut report),
            2 | 3 => lamella_plan_of(handle as *const _, slot.cast(), &raw mut report),
            4 => lamella_plan_json(data, len, slot.cast(), null_mut()),
            5 => lamella_recipe_document(handle as *const _, slot.cast()),
            6 => lamella_plan_document(handle as *const _, slot.cast()),
            7 => lamella_plan_svg(handle as *const _, usize::from(more % 4), slot.cast()),
            8 => lamella_report_document(handle as *const _, slot.cast()),
            9 => lamella_plan_text(handle as *const _, slot.cast()),
            10 => limited(data, len, more, slot.cast()),
            11 => lamella_lines_answer(data, len, null(), u32::from(more % 3), 1, slot.cast()),
            12 => {
                freed(handle);
                return None;
            }
            13 => {
                if asked_everything {
                    everything(handle as *const _);
                }
                return None;
            }
            14 => {
                std::hint::black_box((
                    lamella_text_data(handle as *const _),
                    lamella_text_len(handle as *const _),
                ));
                return None;
            }
            15 => lamella_batch_of(handle as *const _, slot.cast(), &raw mut report),
            16 => {
                let event = EVENTS[usize::from(more) % EVENTS.len()];
                let (data, len) = (event.as_ptr().cast(), event.len());
                lamella_batch_record(handle as *mut _, data, len, slot.cast(), &raw mut report)
            }
            17 => lamella_batch_plan(handle as *const _, slot.cast()),
            18 => lamella_batch_document(handle as *const _, slot.cast()),
            19 => {
                checked(lamella_batch_undo(handle as *mut _));
                return None;
            }
            _ => return stopped(data, len, more),
        }
    };
    if checked(status) {
        assert_ne!(out, 0);
        return Some(out);
    }
    assert_eq!(out, 0, "written in spite of a failure");
    (!report.is_null()).then_some(report as usize)
}

unsafe fn limited(
    data: *const c_char,
    len: usize,
    more: u8,
    out: *mut *mut lamella_recipe,
) -> lamella_status {
    let options = lamella_options {
        size: usize::from(more) % 80,
        document_bytes: usize::from(more) * 64,
        layers: usize::from(more % 8),
        materials: usize::from(more),
    };
    // Only what the size covers is read; beyond it lies what a longer struct would have.
    let room = [options, lamella_options { size: 0, document_bytes: 0, layers: 0, materials: 0 }, options];
    unsafe { lamella_recipe_read(data, len, room.as_ptr(), out, null_mut()) }
}

/// A stream that a callback ends.
fn stopped(data: *const c_char, len: usize, more: u8) -> Option<usize> {
    struct Left(*const c_char, usize, u8);
    unsafe extern "C" fn source(context: *mut c_void, buffer: *mut c_char, capacity: usize) -> isize {
        let left = unsafe { &mut *context.cast::<Left>() };
        let count = capacity.min(left.1).min(97);
        unsafe { std::ptr::copy_nonoverlapping(left.0, buffer, count) };
        left.0 = left.0.wrapping_add(count);
        left.1 -= count;
        count as isize
    }
    unsafe extern "C" fn sink(context: *mut c_void, _: *const c_char, _: usize) -> c_int {
        let left = unsafe { &mut *context.cast::<Left>() };
        left.2 = left.2.wrapping_sub(1);
        c_int::from(left.2 == 0)
    }
    let mut left = Left(data, len, more);
    let context = (&raw mut left).cast();
    checked(unsafe {
        lamella_lines_stream(Some(source), Some(sink), context, null(), LAMELLA_ANSWER_CHECK, 1)
    });
    None
}
