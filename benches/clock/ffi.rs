//! The same from C's side: bytes in, text out, text freed; by way of the handles; what an accessor costs; and recipes by
//! the line.
#![expect(unsafe_code, reason = "the functions are those that C calls")]

use std::ffi::c_char;
use std::hint::black_box;
use std::mem::size_of;
use std::ptr;

use criterion::{Criterion, Throughput};
use lamella::document::{Answer, line};
use lamella::recipe::Limits;
use lamella_benches::{ALL, TIDAL_STRATA};
use lamella_ffi::*;

/// Length of the plan of a document.
fn plan(document: &[u8]) -> usize {
    let mut text = ptr::null_mut();
    // SAFETY: the document is a slice, and `text` is somewhere to write.
    let status = unsafe {
        lamella_plan_json(document.as_ptr().cast(), document.len(), &raw mut text, ptr::null_mut())
    };
    assert_eq!(status, lamella_status::LAMELLA_OK);
    freed(text)
}

/// The length of a text, which is freed.
fn freed(text: *mut lamella_text) -> usize {
    let len = lamella_text_len(text);
    assert_eq!(lamella_text_free(text), lamella_status::LAMELLA_OK);
    len
}

/// The handle of the plan of a document.
fn handle(document: &[u8]) -> *mut lamella_plan {
    let (mut recipe, mut plan) = (ptr::null_mut(), ptr::null_mut());
    let (data, len) = (document.as_ptr().cast(), document.len());
    // SAFETY: the document is a slice, and `recipe` is somewhere to write.
    let status = unsafe { lamella_recipe_read(data, len, ptr::null(), &raw mut recipe, ptr::null_mut()) };
    assert_eq!(status, lamella_status::LAMELLA_OK);
    // SAFETY: `plan` is somewhere to write.
    let status = unsafe { lamella_plan_of(recipe, &raw mut plan, ptr::null_mut()) };
    assert_eq!(status, lamella_status::LAMELLA_OK);
    assert_eq!(lamella_recipe_free(recipe), lamella_status::LAMELLA_OK);
    plan
}

/// The same as [`plan`], step by step.
fn by_handles(document: &[u8]) -> usize {
    let plan = handle(document);
    let mut text = ptr::null_mut();
    // SAFETY: `text` is somewhere to write.
    let status = unsafe { lamella_plan_document(plan, &raw mut text) };
    assert_eq!(status, lamella_status::LAMELLA_OK);
    assert_eq!(lamella_plan_free(plan), lamella_status::LAMELLA_OK);
    freed(text)
}

pub(crate) fn define(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("ffi");
    for fixture in ALL {
        let document = fixture.text.as_bytes();
        let wanted = lamella::plan_json(document).unwrap().len();
        assert_eq!([plan(document), by_handles(document)], [wanted; 2]);
        let name = fixture.name;
        group.bench_function(format!("{name}/rust"), |bench| {
            bench.iter(|| lamella::plan_json(black_box(document)).unwrap().len());
        });
        group.bench_function(format!("{name}/c"), |bench| bench.iter(|| plan(black_box(document))));
        group.bench_function(format!("{name}/c-handles"), |bench| {
            bench.iter(|| by_handles(black_box(document)));
        });
    }
    group.finish();
    accessors(criterion);
    lines(criterion);
}

fn accessors(criterion: &mut Criterion) {
    let plan = handle(TIDAL_STRATA.text.as_bytes());
    let mut group = criterion.benchmark_group("accessor");
    assert_eq!(lamella_plan_layer_count(plan), 7);
    group.bench_function("layer_count", |bench| bench.iter(|| lamella_plan_layer_count(black_box(plan))));
    macro_rules! accessor {
        ($name:literal, $call:ident, $kind:ident) => {
            let get = |index: usize| {
                let mut value = std::mem::MaybeUninit::<$kind>::uninit();
                // SAFETY: there is room for one.
                let status = unsafe { $call(plan, index, value.as_mut_ptr(), size_of::<$kind>()) };
                black_box(&value);
                status
            };
            assert_eq!(get(0), lamella_status::LAMELLA_OK);
            group.bench_function($name, |bench| bench.iter(|| get(black_box(0))));
        };
    }
    accessor!("layer", lamella_plan_layer, lamella_layer);
    accessor!("portion", lamella_plan_portion, lamella_portion);
    accessor!("jug", lamella_plan_jug, lamella_jug);
    accessor!("weigh", lamella_plan_weigh, lamella_weigh);
    let decimal = |value: i64| {
        let mut buffer: [c_char; 32] = [0; 32];
        // SAFETY: there are 32 bytes.
        let status = unsafe { lamella_decimal(value, 1, buffer.as_mut_ptr(), 32) };
        black_box(&buffer);
        status
    };
    assert_eq!(decimal(41_100_000_000_000), lamella_status::LAMELLA_OK);
    group.bench_function("decimal", |bench| bench.iter(|| decimal(black_box(41_100_000_000_000))));
    group.finish();
    assert_eq!(lamella_plan_free(plan), lamella_status::LAMELLA_OK);
}

/// A hundred lines a call.
fn lines(criterion: &mut Criterion) {
    const LINES: usize = 100;
    let document = TIDAL_STRATA.text.replace('\n', " ");
    let text = format!("{document}\n").repeat(LINES);
    let wanted = line(document.as_bytes(), Limits::default(), Answer::Check).len();
    let answer = |threads| {
        let mut out = ptr::null_mut();
        let (data, len) = (text.as_ptr().cast(), text.len());
        // SAFETY: the lines are a slice, and `out` is somewhere to write.
        let status = unsafe {
            lamella_lines_answer(data, len, ptr::null(), LAMELLA_ANSWER_CHECK, threads, &raw mut out)
        };
        assert_eq!(status, lamella_status::LAMELLA_OK);
        freed(out)
    };
    let mut group = criterion.benchmark_group("lines");
    group.throughput(Throughput::Elements(LINES as u64));
    for threads in [1, 2] {
        assert_eq!(answer(threads), LINES.saturating_mul(wanted));
        group.bench_function(format!("check/{threads}-threads"), |bench| bench.iter(|| answer(threads)));
    }
    group.finish();
}
