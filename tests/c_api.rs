//! The C face: programs in C, compiled here against the library that this test was built with, over the same vectors.
use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::process::Command;

use lamella_tests::{Case, binaries, documents, golden, on_path, read, root, run, scratch, vectors};

// So that the library is linked, and with that built, whenever this test is.
use lamella_ffi as _;

/// How a program gets the library.
#[derive(Clone, Copy)]
enum Link {
    Shared,
    Static,
    /// Shared, with the address and undefined-behaviour sanitizers in the C code.
    Sanitized,
}

/// Compiles a C file of the project as strictly as its users may.
fn compile(source: &Path, name: &str, link: Link) -> PathBuf {
    let program = scratch("c").join(name);
    let libraries = binaries();
    let mut cc = Command::new("cc");
    cc.args([
        "-std=c99",
        "-Wall",
        "-Wextra",
        "-pedantic",
        "-Werror",
        "-g",
        "-D_POSIX_C_SOURCE=200809L",
        "-I",
    ])
    .arg(root().join("ffi/include"))
    .arg(source)
    .arg("-o")
    .arg(&program);
    match link {
        Link::Static => {
            cc.arg(libraries.join("liblamella_ffi.a")).args(["-lpthread", "-ldl", "-lm"]);
        }
        Link::Shared | Link::Sanitized => {
            let mut search = OsString::from("-Wl,-rpath,");
            search.push(&libraries);
            cc.arg("-L").arg(&libraries).args(["-llamella_ffi", "-lpthread"]).arg(search);
        }
    }
    if let Link::Sanitized = link {
        cc.args(["-fsanitize=address,undefined", "-fno-sanitize-recover=all"]);
    }
    run(&mut cc);
    program
}

/// The arguments of `vectors.c`.
fn cases(folder: &str) -> Vec<OsString> {
    let argument = |case: Case| {
        [if case.plans { "0".into() } else { "200".into() }, case.document.into(), case.expected.into()]
    };
    documents(&scratch(folder)).into_iter().flat_map(argument).collect()
}

fn c(file: &str) -> PathBuf {
    root().join("tests/c").join(file)
}

#[test]
fn every_vector_gives_the_same_bytes() {
    let cases = cases("problems");
    run(Command::new(compile(&c("vectors.c"), "vectors", Link::Shared)).args(&cases));
    run(Command::new(compile(&c("vectors.c"), "vectors-static", Link::Static)).args(&cases));
    run(Command::new(compile(&c("vectors.c"), "vectors-sanitized", Link::Sanitized)).args(&cases));
}

#[test]
fn careless_callers_get_a_status() {
    let recipe = vectors("golden/tidal-strata/recipe.json");
    run(Command::new(compile(&c("edges.c"), "edges", Link::Shared)).arg(&recipe));
    run(Command::new(compile(&c("edges.c"), "edges-sanitized", Link::Sanitized)).arg(&recipe));
}

/// Where valgrind is on the PATH; `.ci/run` sees to it that it is.
#[test]
fn valgrind_finds_nothing() {
    if !on_path("valgrind") {
        eprintln!("no valgrind on the PATH: not run");
        return;
    }
    let check = |program: PathBuf, arguments: &[OsString]| {
        run(Command::new("valgrind")
            .args(["-q", "--error-exitcode=9", "--leak-check=full"])
            .args(["--errors-for-leak-kinds=definite,indirect,possible"])
            .arg(program)
            .args(arguments));
    };
    let recipe = vectors("golden/tidal-strata/recipe.json");
    check(compile(&c("edges.c"), "edges-valgrind", Link::Shared), &[recipe.into()]);
    check(compile(&c("vectors.c"), "vectors-valgrind", Link::Shared), &cases("valgrind-problems"));
}

/// The example does what its head says.
#[test]
fn the_example_plans() {
    let program = compile(&root().join("ffi/examples/plan.c"), "plan", Link::Shared);
    for folder in golden() {
        let output = run(Command::new(&program).arg(folder.join("recipe.json")));
        assert_eq!(output.stdout, read(&folder.join("plan.json")), "{}", folder.display());
    }
    let empty = scratch("c").join("empty.json");
    std::fs::write(&empty, "{}").unwrap();
    let output = Command::new(&program).arg(&empty).output().unwrap();
    assert_eq!(output.status.code(), Some(1));
    assert!(output.stdout.is_empty());
    assert!(String::from_utf8_lossy(&output.stderr).contains("field.missing"));
}
