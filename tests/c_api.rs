//! The C face: programs in C, compiled here against the library that this test was built with, over the same vectors.
#![expect(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

use std::ffi::OsString;
use std::fmt::Write;
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use lamella::Plan;
use lamella::batch::{Vessel, WeighKind};
use lamella::document::{Answer, line};
use lamella::quantity::Exact;
use lamella::recipe::{self, Limits};
use lamella_tests::c::{Link, compile, valgrind};
use lamella_tests::{documents, on_path, read, root, run, scratch, vectors};

// So that the library is linked, and with that built, whenever this test is.
use lamella_ffi as _;

fn c(file: &str) -> PathBuf {
    root().join("tests/c").join(file)
}

fn example() -> PathBuf {
    vectors("golden/tidal-strata/recipe.json")
}

/// The argument of `vectors.c`: one in `each` of the vectors of the project.
fn cases(folder: &str, each: usize) -> PathBuf {
    let folder = scratch(folder);
    let mut text = String::new();
    for case in documents(&folder).into_iter().step_by(each) {
        let status = if case.plans { 0 } else { 200 };
        writeln!(text, "{status}\n{}\n{}", case.document.display(), case.expected.display()).unwrap();
    }
    let file = folder.join("cases.txt");
    std::fs::write(&file, text).unwrap();
    file
}

#[test]
fn every_vector_gives_the_same_bytes() {
    let cases = cases("problems", 1);
    for link in [Link::Shared, Link::Static, Link::Sanitized] {
        run(Command::new(compile(&c("vectors.c"), link)).arg(&cases));
    }
}

#[test]
fn sheets_give_the_same_bytes() {
    let files = ["recipe.json", "sheet.txt", "sheet.md", "section.svg"];
    let folder = vectors("golden/tidal-strata");
    for link in [Link::Shared, Link::Sanitized] {
        run(Command::new(compile(&c("sheets.c"), link)).args(files.map(|file| folder.join(file))));
    }
}

#[test]
fn careless_callers_get_a_status() {
    for link in [Link::Shared, Link::Sanitized] {
        run(Command::new(compile(&c("edges.c"), link)).arg(example()));
    }
}

/// Facts of a label that no label can carry, and whatever else the readers of a plan may be handed, are told as a recipe's
/// problems are, and never taken without a look.
#[test]
fn what_cannot_be_is_never_printed() {
    for link in [Link::Shared, Link::Sanitized] {
        run(Command::new(compile(&c("hostile.c"), link)).arg(example()));
    }
}

/// Where valgrind is on the PATH; `.ci/install` sees to it that it is.
#[test]
fn valgrind_finds_nothing() {
    if !on_path("valgrind") {
        assert!(std::env::var_os("CI").is_none(), "no valgrind on the PATH");
        eprintln!("no valgrind on the PATH: not run");
        return;
    }
    let check = |file: &str, argument: &Path| run(valgrind(&compile(&c(file), Link::Shared)).arg(argument));
    check("edges.c", &example());
    check("accessors.c", &example());
    check("hostile.c", &example());
    // It is thirty times as slow; where all checks run, it takes every vector.
    let each = if std::env::var_os("CI").is_some() { 1 } else { 9 };
    check("vectors.c", &cases("valgrind-problems", each));
}

/// Every recipe that plans.
fn recipes() -> Vec<PathBuf> {
    let folder = scratch("accessors");
    documents(&folder).into_iter().filter(|case| case.plans).map(|case| case.document).collect()
}

#[test]
fn accessors_say_what_the_plan_says() {
    let sanitized = compile(&c("accessors.c"), Link::Sanitized);
    let program = compile(&c("accessors.c"), Link::Shared);
    for document in recipes() {
        let text = read(&document);
        let plan = Plan::of(&recipe::read_bytes(&text).unwrap()).unwrap();
        let wanted = said(&plan);
        for program in [&program, &sanitized] {
            let output = run(Command::new(program).arg(&document));
            let found = String::from_utf8(output.stdout).unwrap();
            for (found, wanted) in found.lines().zip(wanted.lines()) {
                assert_eq!(found, wanted, "{}", document.display());
            }
            assert_eq!(found.lines().count(), wanted.lines().count(), "{}", document.display());
        }
    }
}

/// What `accessors.c` must print of a plan.
fn said(plan: &Plan) -> String {
    let mut out = String::new();
    layers(plan, &mut out);
    jugs(plan, &mut out);
    weigh_list(plan, &mut out);
    remarks(plan, &mut out);
    totals(plan, &mut out);
    out
}

fn t(value: Exact) -> i64 {
    value.trillionths().unwrap()
}

fn layers(plan: &Plan, out: &mut String) {
    for layer in &plan.layers {
        let scale = plan.jugs.get(layer.jug).unwrap().portion.scale;
        writeln!(
            out,
            "layer name={} swatch={} jug={} volume={} scale={scale} mass={} before={} after={}",
            layer.name,
            layer.swatch,
            layer.jug,
            t(layer.volume.exact()),
            t(layer.portion.exact()),
            t(layer.reading.before.exact()),
            t(layer.reading.after.exact())
        )
        .unwrap();
        for height in &layer.heights {
            let (from, to) = (t(height.from.exact()), t(height.to.exact()));
            writeln!(out, "height mould={} from={from} to={to}", height.mould).unwrap();
        }
    }
}

fn jugs(plan: &Plan, out: &mut String) {
    for jug in &plan.jugs {
        write!(out, "jug name={} layers=", jug.name).unwrap();
        for layer in &jug.layers {
            write!(out, "{layer},").unwrap();
        }
        write!(out, " scale={}", jug.portion.scale).unwrap();
        if let Some(tare) = jug.tare {
            write!(out, " tare={}", t(tare.exact())).unwrap();
        }
        for (name, value) in [
            ("portion", jug.portion.weighed.exact()),
            ("portion_ideal", jug.portion.ideal.exact()),
            ("lye", jug.lye.weighed.exact()),
            ("lye_ideal", jug.lye.ideal.exact()),
            ("alkali", jug.alkali.exact()),
            ("lye_water", jug.lye_water.exact()),
            ("net", jug.net.exact()),
            ("gross", jug.gross.exact()),
            ("left", jug.left.exact()),
            ("superfat", jug.superfat.exact()),
            ("superfat_ideal", jug.superfat_ideal.exact()),
        ] {
            write!(out, " {name}={}", t(value)).unwrap();
        }
        out.push('\n');
    }
}

fn weigh_list(plan: &Plan, out: &mut String) {
    for place in plan.weigh_places() {
        let line = plan.weigh_line(place).unwrap();
        let (vessel, jug) = match place.vessel {
            Vessel::Jug(jug) => (3, jug.to_string()),
            vessel => (if vessel == Vessel::Pot { 1 } else { 2 }, "-".to_owned()),
        };
        let kinds = [
            WeighKind::Fat,
            WeighKind::Dose,
            WeighKind::Alkali,
            WeighKind::Water,
            WeighKind::Liquid,
            WeighKind::FromPot,
            WeighKind::FromLye,
            WeighKind::Held,
            WeighKind::LateDose,
        ];
        let kind = kinds.iter().position(|kind| *kind == place.kind).unwrap().saturating_add(1);
        writeln!(
            out,
            "weigh id={} name={} pointer={} weighed={} ideal={} scale={} jug={jug} vessel={vessel} kind={kind}",
            line.id,
            line.name,
            line.pointer,
            t(line.weighed.exact()),
            t(line.ideal.exact()),
            line.scale
        )
        .unwrap();
    }
    for scale in &plan.scales {
        let (step, capacity) = (t(scale.step.exact()), t(scale.capacity.exact()));
        writeln!(out, "scale name={} step={step} capacity={capacity}", scale.name).unwrap();
    }
}

fn remarks(plan: &Plan, out: &mut String) {
    let word = |value: serde_json::Value| value.as_str().unwrap().to_owned();
    for caution in &plan.cautions {
        writeln!(
            out,
            "caution code={} pointer={} place={} message={} figure={} limit={} basis={} source={} advice={}",
            caution.code,
            caution.pointer,
            caution.place,
            caution.message,
            caution.figure,
            caution.limit,
            word(serde_json::to_value(caution.basis).unwrap()),
            caution.source,
            caution.advice
        )
        .unwrap();
    }
    for step in &plan.steps {
        let index = |index: Option<usize>| index.map_or("-".to_owned(), |index| index.to_string());
        let work = word(serde_json::to_value(step.work).unwrap());
        writeln!(out, "step work={work} jug={} layer={}", index(step.jug), index(step.layer)).unwrap();
    }
}

fn totals(plan: &Plan, out: &mut String) {
    let (batch, lye) = (&plan.batch, &plan.lye);
    write!(out, "totals").unwrap();
    for (name, value) in [
        ("fat", batch.fat.exact()),
        ("fat_ideal", batch.fat_ideal.exact()),
        ("weighed_in", batch.weighed_in.exact()),
        ("poured", batch.poured.exact()),
        ("left", batch.left.exact()),
        ("lye", lye.total.exact()),
        ("lye_left", lye.left.exact()),
        ("volume", batch.volume.exact()),
        ("lye_concentration", lye.figures.concentration.exact()),
        ("superfat_aimed", batch.superfat_aimed.exact()),
        ("superfat_ideal", batch.superfat_ideal.exact()),
        ("superfat", batch.superfat.exact()),
        ("bars", batch.bars.map_or(Exact::ZERO, |bars| Exact::from_trillionths(bars.count.into()))),
        ("bar_fresh", batch.bars.map_or(Exact::ZERO, |bars| bars.fresh.exact())),
        ("bar_cured", batch.bars.map_or(Exact::ZERO, |bars| bars.cured.exact())),
    ] {
        write!(out, " {name}={}", t(value)).unwrap();
    }
    out.push('\n');
}

/// Every vector as a line, good and bad ones mixed, is answered in its turn.
#[test]
fn lines_are_answered_in_their_order() {
    let one_line = |document: &PathBuf| -> Vec<u8> {
        read(document).into_iter().map(|byte| if byte == b'\n' { b' ' } else { byte }).collect()
    };
    let documents: Vec<PathBuf> =
        documents(&scratch("lines")).into_iter().map(|case| case.document).collect();
    let lines: Vec<Vec<u8>> = documents.iter().map(one_line).collect();
    assert!(lines.len() > 100);
    let program = compile(&c("lines.c"), Link::Sanitized);
    for (word, answer) in [("plan", Answer::Plan), ("check", Answer::Check)] {
        let wanted: String = lines.iter().map(|text| line(text, Limits::default(), answer)).collect();
        for threads in ["1", "2", "5"] {
            let output = piped(&program, [word, threads].map(OsString::from), lines.join(&b'\n'));
            assert!(output == wanted.as_bytes(), "{word} with {threads} threads: other answers");
        }
    }
}

/// The output of a program that is given an input, which it reads while it writes.
fn piped(program: &Path, arguments: [OsString; 2], input: Vec<u8>) -> Vec<u8> {
    let mut child =
        Command::new(program).args(arguments).stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().unwrap();
    let mut stdin = child.stdin.take().unwrap();
    let writer = std::thread::spawn(move || stdin.write_all(&input));
    let output = child.wait_with_output().unwrap();
    writer.join().unwrap().unwrap();
    assert!(output.status.success(), "{}: {}", program.display(), output.status);
    output.stdout
}
