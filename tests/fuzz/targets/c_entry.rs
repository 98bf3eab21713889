//! Random inputs for the whole C entry: see `entry.rs`. `.ci/fuzz` builds and runs it.
#![no_main]

#[path = "../entry.rs"]
mod entry;

libfuzzer_sys::fuzz_target!(|data: &[u8]| entry::run(data));
