//! The same from C's side: bytes in, text out, text freed.
#![expect(unsafe_code, reason = "the functions are those that C calls")]

use std::hint::black_box;
use std::ptr;

use criterion::Criterion;
use lamella_benches::ALL;
use lamella_ffi::{lamella_plan_json, lamella_status, lamella_text_free, lamella_text_len};

/// Length of the plan of a document.
fn plan(document: &[u8]) -> usize {
    let mut text = ptr::null_mut();
    // SAFETY: the document is a slice, and `text` is somewhere to write.
    let status =
        unsafe { lamella_plan_json(document.as_ptr(), document.len(), &raw mut text, ptr::null_mut()) };
    assert_eq!(status, lamella_status::LAMELLA_OK);
    // SAFETY: the text was just made.
    let len = unsafe { lamella_text_len(text) };
    // SAFETY: it is not used again.
    unsafe { lamella_text_free(text) };
    len
}

pub(crate) fn define(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("ffi");
    for fixture in ALL {
        let document = fixture.text.as_bytes();
        assert_eq!(plan(document), lamella::plan_json(document).unwrap().len());
        group.bench_function(fixture.name, |bench| bench.iter(|| plan(black_box(document))));
    }
    group.finish();
}
