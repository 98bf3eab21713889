//! The examples of the C face, each built and run as its head says: C, C++, Python, make, CMake, Dask.
#![expect(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use lamella::{Plan, recipe};
use lamella_tests::c::{Link, compile, valgrind};
use lamella_tests::{binaries, golden, on_path, read, root, run, scratch, vectors};
use serde_json::Value;

use lamella_ffi as _;

fn example(file: &str) -> PathBuf {
    root().join("ffi/examples").join(file)
}

fn text(output: Output) -> String {
    String::from_utf8(output.stdout).unwrap()
}

fn plan(document: &Path) -> Plan {
    Plan::of(&recipe::read_bytes(&read(document)).unwrap()).unwrap()
}

/// A file that holds `text`.
fn file(name: &str, text: &str) -> PathBuf {
    let path = scratch("examples").join(name);
    std::fs::write(&path, text).unwrap();
    path
}

/// A program refuses an empty recipe as a compiler does.
fn refuses(program: &Path, name: &str, words: &str) {
    let output = Command::new(program).arg(file(name, "{}")).output().unwrap();
    assert_eq!(output.status.code(), Some(1));
    assert!(output.stdout.is_empty());
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(said.contains(words), "{said}");
}

#[test]
fn c_prints_the_weigh_list() {
    let program = compile(&example("plan.c"), Link::Shared);
    for folder in golden() {
        let document = folder.join("recipe.json");
        let printed = text(run(Command::new(&program).arg(&document)));
        let plan = plan(&document);
        let lines: Vec<&str> = printed.lines().filter(|line| line.contains(" g  ")).collect();
        let places = plan.weigh_places();
        assert_eq!(lines.len(), places.len(), "{printed}");
        for (line, place) in lines.into_iter().zip(places) {
            let wanted = plan.weigh_line(place).unwrap();
            let (grams, name) = line.trim_start().split_once(" g  ").unwrap();
            assert_eq!(name, wanted.name);
            assert_eq!(format!("{grams} g").parse(), Ok(wanted.weighed), "{line}");
        }
    }
    refuses(&program, "for-c.json", "for-c.json:1:1  document.format");
    let missing = Command::new(&program).arg("no such file").output().unwrap();
    assert_eq!(missing.status.code(), Some(2));
}

/// The program of the README.
#[test]
fn the_readme_prints_a_weigh_list() {
    let readme = String::from_utf8(read(&root().join("README.md"))).unwrap();
    let block = readme.split("```c\n").nth(1).and_then(|rest| rest.split("```").next()).unwrap();
    let program = compile(&file("readme.c", block), Link::Sanitized);
    let printed = text(run(&mut Command::new(program)));
    let names: Vec<&str> = printed.lines().filter_map(|line| Some(line.split_once(" g  ")?.1)).collect();
    assert_eq!(names, ["Water", "sodium hydroxide", "Olive oil", "pot", "lye"], "{printed}");
}

#[test]
fn cpp_prints_what_each_layer_gets() {
    let program = compile(&example("plan.cpp"), Link::Shared);
    let document = vectors("golden/tidal-strata/recipe.json");
    let printed = text(run(Command::new(&program).arg(&document)));
    let plan = plan(&document);
    assert_eq!(printed.lines().count(), plan.layers.len());
    for (line, layer) in printed.lines().zip(&plan.layers) {
        let grams = |mass: lamella::quantity::Mass| lamella::quantity::fixed(mass.value(), 1);
        let (before, after) = (grams(layer.reading.before), grams(layer.reading.after));
        let portion = grams(layer.portion);
        assert_eq!(line, format!("{}: pour {portion} g, from {before} g to {after} g", layer.name));
    }
    refuses(&program, "for-cpp.json", "document.format");
    run(valgrind_if_there(&program).arg(&document));
}

fn valgrind_if_there(program: &Path) -> Command {
    if on_path("valgrind") { valgrind(program) } else { Command::new(program) }
}

/// A program of the machine that a test wants; `.ci/install` installs all of them.
fn wanted(program: &str) -> Command {
    assert!(on_path(program), "{program} is not on the PATH: `.ci/install` installs what the tests want");
    Command::new(program)
}

fn python(script: &str) -> Command {
    let mut command = wanted("python3");
    command.arg(example(script)).env("LAMELLA_LIBRARY", binaries().join("liblamella_ffi.so"));
    command
}

#[test]
fn python_looks_through_a_catalogue() {
    for (answers, format) in [("check", "check/1"), ("plan", "plan/1")] {
        let mut command = python("catalogue.py");
        command.args(["--recipes", "300", "--threads", "2", "--answers", answers]);
        let found: Value = serde_json::from_str(&text(run(&mut command))).unwrap();
        assert_eq!(found.get("recipes"), Some(&Value::from(300)));
        // Of what is looked into, the hundredth of each hundred has a problem.
        let looked = found.get("looked into").unwrap();
        assert_eq!(looked.get(format), Some(&Value::from(3)), "{found}");
        assert_eq!(looked.get("problems/1"), Some(&Value::from(3)), "{found}");
    }
}

#[test]
fn python_sees_problems_and_callbacks_that_raise() {
    let script = file(
        "python_edges.py",
        "import lamella\n\
         for document in [b'', b'{}', b'\\xff', b'[' * 1000]:\n\
         \x20   try:\n\
         \x20       lamella.plan(document)\n\
         \x20       raise SystemExit('no problem')\n\
         \x20   except lamella.LamellaError as error:\n\
         \x20       assert error.status == lamella.PROBLEMS and error.problems[0]['code']\n\
         assert lamella.plan(open(__import__('sys').argv[1], 'rb').read())['lamella'] == 'plan/1'\n\
         def refuse(answer):\n\
         \x20   raise KeyError('enough')\n\
         for lines, take in [([b'{}\\n'] * 9, refuse), ((1 / 0 for _ in '1'), print)]:\n\
         \x20   try:\n\
         \x20       lamella.stream(lines, take, threads=2)\n\
         \x20       raise SystemExit('nothing raised')\n\
         \x20   except (KeyError, ZeroDivisionError):\n\
         \x20       pass\n\
         assert lamella._lib.lamella_live_handles() == 0\n",
    );
    let mut command = wanted("python3");
    command.arg(script).arg(vectors("golden/tidal-strata/recipe.json"));
    command.env("PYTHONPATH", root().join("ffi/examples"));
    run(command.env("LAMELLA_LIBRARY", binaries().join("liblamella_ffi.so")));
}

/// Two workers of an engine answer as one thread does.
#[test]
fn dask_looks_through_a_catalogue() {
    if std::env::var_os("LAMELLA_SKIP_DASK").is_some_and(|value| value == "1") {
        eprintln!("LAMELLA_SKIP_DASK=1: not run");
        return;
    }
    let python = environment().unwrap_or_else(|why| {
        panic!("{why}\nno Dask: connect the machine, or set LAMELLA_SKIP_DASK=1 to leave this test out")
    });
    let mut command = Command::new(python);
    command.arg(example("dask_catalogue.py")).args(["--recipes", "400"]);
    let printed = text(run(command.env("LAMELLA_LIBRARY", binaries().join("liblamella_ffi.so"))));
    let found: Value = serde_json::from_str(&printed).unwrap();
    assert_eq!(found, serde_json::json!({ "recipes": 400, "workers": 2, "with problems": 4 }));
}

/// The interpreter of an environment that has Dask; it is made once.
fn environment() -> Result<PathBuf, String> {
    let folder = scratch("dask");
    let python = folder.join("bin/python");
    let has_dask = |python: &Path| {
        let mut command = Command::new(python);
        command
            .args(["-c", "import dask.bag, distributed"])
            .output()
            .is_ok_and(|output| output.status.success())
    };
    if has_dask(&python) {
        return Ok(python);
    }
    let mut make = wanted("python3");
    make.args(["-m", "venv"]).arg(&folder);
    let mut install = Command::new(&python);
    install.args(["-m", "pip", "install", "--quiet", "--disable-pip-version-check", "dask[distributed]"]);
    for command in [&mut make, &mut install] {
        let output = command.output().map_err(|error| error.to_string())?;
        if !output.status.success() {
            return Err(String::from_utf8_lossy(&output.stderr).into_owned());
        }
    }
    Ok(python)
}

/// What is installed is what C people expect, and make and CMake find it.
#[test]
fn it_installs_and_make_and_cmake_find_it() {
    let prefix = scratch("installed");
    // The same build as this test's, so that it is soon there.
    run(Command::new(root().join("ffi/install")).arg(&prefix).env("PROFILE", "dev").current_dir(root()));
    let version = lamella::VERSION;
    for file in [
        "include/lamella.h",
        "lib/liblamella.a",
        "lib/liblamella.so",
        "lib/liblamella.so.0.1",
        &format!("lib/liblamella.so.{version}"),
    ] {
        assert!(prefix.join(file).exists(), "no {file}");
    }
    let configured = prefix.join("lib/pkgconfig");
    let asked =
        text(run(wanted("pkg-config").env("PKG_CONFIG_PATH", &configured).args(["--modversion", "lamella"])));
    assert_eq!(asked.trim(), version);

    let document = vectors("golden/tidal-strata/recipe.json");
    let wanted_list = text(run(Command::new(compile(&example("plan.c"), Link::Static)).arg(&document)));
    let check = |folder: &Path| {
        let printed = text(run(Command::new(folder.join("plan")).arg(&document)));
        assert_eq!(printed, wanted_list);
        run(Command::new(folder.join("plan-cpp")).arg(&document));
        let needed = text(run(wanted("readelf").arg("-d").arg(folder.join("plan"))));
        assert!(needed.contains("[liblamella.so.0.1]"), "another soname:\n{needed}");
    };
    let made = scratch("made");
    run(wanted("make")
        .env("PKG_CONFIG_PATH", &configured)
        .arg(format!("OUT={}", made.display()))
        .arg("-f")
        .arg(example("Makefile")));
    check(&made);
    let cmake = scratch("cmake");
    run(wanted("cmake").env("PKG_CONFIG_PATH", &configured).arg("-S").arg(example("")).arg("-B").arg(&cmake));
    run(wanted("cmake").arg("--build").arg(&cmake));
    check(&cmake);
}
