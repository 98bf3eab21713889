//! The WebAssembly face: the module that `wasm/build` makes, run by node over the same vectors.
//!
//! It needs node. `LAMELLA_SKIP_WASM=1` leaves it out on a machine that has none.

use std::process::Command;

use lamella_tests::{documents, on_path, root, run, scratch};
use serde_json::json;

#[test]
fn every_vector_gives_the_same_bytes() {
    if std::env::var_os("LAMELLA_SKIP_WASM").is_some_and(|value| value == "1") {
        eprintln!("LAMELLA_SKIP_WASM=1: not run");
        return;
    }
    if !on_path("node") {
        panic!("node is not on the PATH: install it, or set LAMELLA_SKIP_WASM=1 to leave this test out");
    }
    run(Command::new(root().join("wasm/build")).arg("module").current_dir(root()));

    let folder = scratch("wasm");
    let cases: Vec<_> = documents(&folder)
        .into_iter()
        .map(|case| json!({ "document": case.document, "expected": case.expected, "plans": case.plans }))
        .collect();
    let file = folder.join("cases.json");
    std::fs::write(&file, json!({ "version": lamella::VERSION, "cases": cases }).to_string()).unwrap();
    run(Command::new("node").arg(root().join("tests/js/vectors.mjs")).arg(root().join("wasm/pkg")).arg(file));
}
