//! What reads a plan, through C: batches under way, certainty, and for every other reader the text that Rust gives.
#![expect(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use lamella::market::dossier::{self, Dossier, DossierOptions};
use lamella::market::envelope;
use lamella::market::label::{self, LabelFacts};
use lamella::market::{ListOptions, Market, Style, ingredients, scents};
use lamella::recipe::{self, Recipe};
use lamella::{Plan, Problem, after, blend, cost, cure, heat, record};
use lamella_tests::c::{Link, compile, valgrind};
use lamella_tests::{on_path, read, root, run, scratch, vectors};
use serde_json::to_string_pretty;

use lamella_ffi as _;

const TEXT: u32 = 0;
const MARKDOWN: u32 = 1;
const JSON: u32 = 2;
const CSV: u32 = 3;
const SVG: u32 = 4;

fn c(file: &str) -> PathBuf {
    root().join("tests/c").join(file)
}

fn data(file: &str) -> PathBuf {
    root().join("core/data").join(file)
}

fn text(path: &Path) -> String {
    String::from_utf8(read(path)).unwrap()
}

#[test]
fn a_batch_is_followed() {
    let arguments = [data("example-recipe.json"), vectors("batch/tidal-strata.json")];
    for link in [Link::Shared, Link::Sanitized] {
        run(Command::new(compile(&c("batch.c"), link)).args(&arguments));
    }
    // It takes half a minute, and runs where all checks do.
    if on_path("valgrind") && std::env::var_os("CI").is_some() {
        run(valgrind(&compile(&c("batch.c"), Link::Shared)).args(&arguments));
    }
}

/// The example for the bench: what is left to pour follows what is reported, and goes back when that is taken back.
#[test]
fn the_bench_loop_follows() {
    let events = [
        r#"{"weighed": "naoh", "mass": "143.4 g"}"#,
        "undo",
        r#"{"weighed": "nothing at all", "mass": "1 g"}"#,
        "not an event",
        r#"{"weighed": "olive-oil", "mass": "440 g"}"#,
    ];
    let printed = at_the_bench(&data("example-recipe.json"), &events);
    let lines: Vec<&str> = printed.lines().collect();
    let next: Vec<&str> = lines.iter().filter(|line| line.starts_with("next: ")).copied().collect();
    let [before, weighed, undone, unknown, broken, more] = next[..] else { panic!("{printed}") };
    assert!(before.starts_with("next: ") && before.contains("superfat"), "{printed}");
    assert_eq!([undone, unknown, broken], [before; 3]);
    assert!(weighed != before && more != before, "{printed}");
    assert!(printed.contains("(event.unknown)") && printed.contains("(document.json)"), "{printed}");

    // The log is a document with which the batch is taken up again.
    let printed = at_the_bench(&vectors("batch/tidal-strata.json"), &["log"]);
    let document = printed.split_once('{').map(|(_, rest)| format!("{{{rest}")).unwrap();
    let (document, next) = document.rsplit_once("next: ").unwrap();
    assert_eq!(document, text(&vectors("batch/tidal-strata.json")));
    assert!(printed.starts_with(&format!("next: {next}")), "{printed}");
}

fn at_the_bench(document: &Path, lines: &[&str]) -> String {
    let program = compile(&root().join("ffi/examples/bench.c"), Link::Sanitized);
    let mut child =
        Command::new(program).arg(document).stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().unwrap();
    child.stdin.take().unwrap().write_all((lines.join("\n") + "\n").as_bytes()).unwrap();
    let output = child.wait_with_output().unwrap();
    assert!(output.status.success(), "{}", output.status);
    String::from_utf8(output.stdout).unwrap()
}

/// What C prints of a kind, in a form, for a document.
struct Asked {
    kind: &'static str,
    form: u32,
    document: Option<PathBuf>,
}

impl Asked {
    fn printed(&self) -> String {
        let program = compile(&c("readers.c"), Link::Sanitized);
        let mut command = Command::new(program);
        command.arg(self.kind).arg(self.form.to_string()).arg(data("example-recipe.json"));
        command.arg(self.document.as_deref().unwrap_or(Path::new("-")));
        String::from_utf8(run(&mut command).stdout).unwrap()
    }

    fn is(&self, wanted: &str) {
        assert_eq!(self.printed(), wanted, "{} {}", self.kind, self.form);
    }
}

fn asked(kind: &'static str, form: u32, document: Option<PathBuf>) -> Asked {
    Asked { kind, form, document }
}

fn json(value: &impl serde::Serialize) -> String {
    to_string_pretty(value).unwrap() + "\n"
}

fn example() -> (Recipe, Plan) {
    let recipe = recipe::read(lamella::EXAMPLE).unwrap();
    let plan = Plan::of(&recipe).unwrap();
    (recipe, plan)
}

#[test]
fn books_say_what_they_say_in_rust() {
    let (recipe, plan) = example();
    let prices = Some(data("example-prices.json"));
    let costing =
        cost::Costing::of(&plan, &cost::read(&text(&data("example-prices.json"))).unwrap()).unwrap();
    asked("cost", TEXT, prices.clone()).is(&cost::text(&costing, &plan.name));
    asked("cost", MARKDOWN, prices).is(&cost::markdown(&costing, &plan.name));

    let weighings = Some(data("example-weighings.json"));
    let dried = cure::Cure::of(&cure::read(&text(&data("example-weighings.json"))).unwrap());
    asked("cure", TEXT, weighings.clone()).is(&cure::text(&dried, None));
    asked("cure", MARKDOWN, weighings.clone()).is(&cure::markdown(&dried, None));
    asked("cure", SVG, weighings).is(&cure::svg(&dried, 0).unwrap());

    let book = record::read(&text(&data("example-record.json"))).unwrap();
    let document = Some(data("example-record.json"));
    asked("record", TEXT, document.clone()).is(&record::text(&book, Some(&plan), &[], None));
    asked("record", MARKDOWN, document).is(&record::markdown(&book, Some(&plan), &[], None));

    let seen = after::Observation::SoftCentre;
    let causes = after::causes(&plan, &recipe, seen, None);
    asked("causes", TEXT, None).is(&after::text(seen, "bar", &causes));
    asked("causes", JSON, None).is(&json(&causes));
}

#[test]
fn the_market_says_what_it_says_in_rust() {
    let (recipe, plan) = example();
    let list = ListOptions::new(Market::GreatBritain, Style::AsCharged);
    let list = ingredients(&plan, &recipe, None, &list).unwrap();
    asked("ingredients", TEXT, None).is(&(list.text() + "\n"));
    asked("ingredients", JSON, None).is(&json(&list));

    let composed = Dossier::of(&plan, &recipe, DossierOptions::default()).unwrap();
    asked("dossier", TEXT, None).is(&dossier::text(&composed));
    asked("dossier", CSV, None).is(&dossier::csv(&composed));
    asked("dossier", JSON, None).is(&dossier::json(&composed).unwrap());
    asked("scents", TEXT, None).is(&json(&scents(&plan, &recipe, None, false).unwrap()));

    let document = Some(data("example-assessment.json"));
    let assessment = envelope::read(&text(&data("example-assessment.json"))).unwrap();
    let verdict = envelope::verdict(&plan, &recipe, Some(&assessment)).unwrap();
    asked("verdict", TEXT, document.clone()).is(&json(&verdict));
    let facts = LabelFacts {
        nominal: Some("95 g".parse().unwrap()),
        precautions: vec!["Keep dry.".to_owned(), "Not for eyes.".to_owned()],
        ..LabelFacts::default()
    };
    let list = ListOptions::new(Market::EuropeanUnion, Style::AsFormed);
    let copy = label::label(&plan, &recipe, &facts, &list, &verdict).unwrap();
    asked("label", TEXT, document.clone()).is(&label::text(&copy));
    asked("label", MARKDOWN, document.clone()).is(&label::markdown(&copy));
    asked("label", JSON, document).is(&json(&copy));
}

#[test]
fn blends_say_what_they_say_in_rust() {
    let kitchen = vectors("blend/kitchen.json");
    let request = blend::read(&text(&kitchen)).unwrap();
    let found = blend::solve(&request).unwrap();
    asked("blend", TEXT, Some(kitchen.clone())).is(&blend::render(&found));
    asked("blend", JSON, Some(kitchen.clone())).is(&json(&found));
    asked("blend-fats", TEXT, Some(kitchen)).is(&blend::fats_json(&request, &found));
    let much = asked("blend", TEXT, Some(vectors("blend/too-much.json"))).printed();
    assert_eq!(much, "blend.conflict \n");
}

#[test]
fn heat_says_what_it_says_in_rust() {
    let (recipe, plan) = example();
    let setting = scratch("readers").join("heat.json");
    std::fs::write(&setting, r#"{"lamella": "heat/1", "until": "2 h"}"#).unwrap();
    let read = heat::read_setting(&text(&setting)).unwrap();
    let forecast = heat::forecast(&recipe, &plan, &read, heat::Grid::default()).unwrap();
    asked("heat", JSON, Some(setting)).is(&json(&forecast));
}

/// Every bad document of the other formats, with every problem in its place.
#[test]
fn problems_are_those_of_rust() {
    let told = |problems: Vec<Problem>| -> String {
        problems.iter().map(|problem| format!("{} {}\n", problem.code, problem.pointer)).collect()
    };
    let mut count = 0_usize;
    for path in lamella_tests::files(&vectors("bad_books")) {
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        let Ok(document) = String::from_utf8(read(&path)) else { continue };
        let (kind, problems) = match name.split('_').next() {
            _ if name.ends_with(".problems.json") => continue,
            Some("prices") => ("cost", cost::read(&document).unwrap_err()),
            Some("weighings") => ("cure", cure::read(&document).unwrap_err()),
            Some("record") => ("record", record::read(&document).unwrap_err()),
            _ => continue,
        };
        asked(kind, MARKDOWN, Some(path)).is(&told(problems));
        count = count.saturating_add(1);
    }
    assert!(count > 20, "{count} documents");
}
