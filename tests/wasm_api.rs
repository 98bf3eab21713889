//! The WebAssembly face: the module that `wasm/build` makes, run by node over the same vectors.
//!
//! It needs node. `LAMELLA_SKIP_WASM=1` leaves it out on a machine that has none.

use std::process::Command;

use lamella::Plan;
use lamella::certainty::Certainty;
use lamella::heat::{self, Degrees, Grid, Scenario, Setting, Steps};
use lamella_tests::{documents, on_path, root, run, scratch};
use serde_json::{Value, json};

/// What readers of a plan that compute with doubles say of the example: the module must say it to the last bit.
#[expect(clippy::unwrap_used, reason = "the example plans")]
fn readers() -> Value {
    let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
    let plan = Plan::of(&recipe).unwrap();
    let setting = Setting::default();
    let scenario = Scenario::of(&recipe, &plan, &setting).unwrap();
    let times = [7_200.0, 14_400.0, 21_600.0, 32_400.0, 50_400.0];
    let course = heat::run(&scenario, Grid::default(), &Steps::default(), &times).unwrap();
    json!({
        "recipe": lamella::EXAMPLE,
        "certainty": Certainty::of(&recipe, &plan).unwrap(),
        "heat": heat::forecast(&recipe, &plan, &setting, Grid::default()).unwrap(),
        "heatSvg": heat::draw(&course, &recipe.name, Degrees::Celsius),
    })
}

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
    let cases = json!({ "version": lamella::VERSION, "cases": cases, "readers": readers() });
    std::fs::write(&file, cases.to_string()).unwrap();
    run(Command::new("node").arg(root().join("tests/js/vectors.mjs")).arg(root().join("wasm/pkg")).arg(file));
    // Nor does any function take what it cannot, or trap on it.
    run(Command::new("node").arg(root().join("tests/js/arguments.mjs")).arg(root().join("wasm/pkg")));
}
