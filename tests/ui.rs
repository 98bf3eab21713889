//! Mistakes that do not compile: `ui/*.rs`, each with the message that its author reads.

use std::process::Command;

use lamella_tests::run;

/// The messages are those of one compiler; another one words them differently.
const COMPILER: &str = "rustc 1.95.";

#[test]
fn mistakes_do_not_compile() {
    let rustc = std::env::var_os("RUSTC").unwrap_or_else(|| "rustc".into());
    let version = String::from_utf8(run(Command::new(rustc).arg("--version")).stdout).unwrap();
    if !version.starts_with(COMPILER) {
        eprintln!("the messages are those of {COMPILER}x, this is {version}: not run");
        return;
    }
    trybuild::TestCases::new().compile_fail("ui/*.rs");
}
