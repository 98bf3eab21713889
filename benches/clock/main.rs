//! Wall-clock benches: `cargo bench -p lamella-benches`, names `group/case`. Each asserts its result before it is timed.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a bench stops where its result is not as it should be"
)]

mod blend;
mod certainty;
mod document;
mod ffi;
mod heat;
mod plan;
mod quantity;

use criterion::Criterion;

fn main() {
    let mut criterion = Criterion::default().configure_from_args();
    plan::define(&mut criterion);
    certainty::define(&mut criterion);
    document::define(&mut criterion);
    blend::define(&mut criterion);
    ffi::define(&mut criterion);
    heat::define(&mut criterion);
    quantity::define(&mut criterion);
    criterion.final_summary();
}
