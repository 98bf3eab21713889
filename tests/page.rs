//! The page: the one HTML file that `wasm/build` makes, in Chromium, through the whole job.
//!
//! It needs node with npm and Chromium. `LAMELLA_SKIP_WASM=1` leaves it out on a machine that has none.

use std::process::Command;

use lamella_tests::{on_path, root, run};

#[test]
fn the_whole_job_is_done_in_a_browser() {
    if std::env::var_os("LAMELLA_SKIP_WASM").is_some_and(|value| value == "1") {
        eprintln!("LAMELLA_SKIP_WASM=1: not run");
        return;
    }
    for program in ["node", "npm", "chromium"] {
        if !on_path(program) {
            panic!(
                "{program} is not on the PATH: install it, or set LAMELLA_SKIP_WASM=1 to leave this test out"
            );
        }
    }
    run(Command::new(root().join("wasm/build")).current_dir(root()));
    let trials = root().join("wasm/page/tests/page.mjs");
    // Other tests keep the processor busy: the clock is given room here, and none when the trials are run by themselves.
    let output = run(Command::new("node").arg(trials).env("SLACK", slack()));
    println!("{}", String::from_utf8_lossy(&output.stdout));
    let package = root().join("wasm/page/tests/package.mjs");
    let output = run(Command::new("node").arg(package).env("SLACK", slack()));
    println!("{}", String::from_utf8_lossy(&output.stdout));
}

fn slack() -> String {
    std::env::var("SLACK").unwrap_or_else(|_| "8".to_owned())
}
