//! The fuzz target on stable Rust: every input that it once learned from, and some thousands that are drawn here.
#![expect(unsafe_code, reason = "the functions are those that C calls")]
#![expect(
    clippy::undocumented_unsafe_blocks,
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    reason = "the target is written as the fuzzer runs it"
)]

use lamella_tests::{files, read, root};

#[path = "fuzz/entry.rs"]
mod entry;

/// Of one thread: handles that are left are counted.
#[test]
fn inputs_do_no_harm() {
    let seeds: Vec<Vec<u8>> =
        files(&root().join("tests/fuzz/corpus/c_entry")).iter().map(|file| read(file)).collect();
    assert!(seeds.len() > 50, "{} inputs", seeds.len());
    seeds.iter().for_each(|seed| entry::run(seed));
    let mut state = 7_u64;
    let mut roll = || {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) as usize
    };
    for _ in 0..1500 {
        let mut input = seeds[roll() % seeds.len()].clone();
        for _ in 0..roll() % 4 {
            let at = roll() % (input.len() + 1);
            let end = (at + roll() % 9).min(input.len());
            let with: Vec<u8> = (0..roll() % 9).map(|_| roll() as u8).collect();
            input.splice(at..end, with);
        }
        entry::run(&input);
    }
}
