//! What the README shows is what the program prints.
#![expect(clippy::unwrap_used, reason = "a test stops where the README is not as it should be")]

use std::fs;
use std::path::Path;

use lamella::{Plan, recipe, sheet};

fn readme() -> String {
    fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("../README.md")).unwrap()
}

/// The fenced blocks of a language, in order.
fn blocks(language: &str) -> Vec<String> {
    let readme = readme();
    let fence = format!("```{language}\n");
    readme.split(&fence).skip(1).map(|rest| rest.split("```").next().unwrap().to_owned()).collect()
}

#[test]
fn the_recipe_plans_and_its_sheet_holds_what_is_quoted() {
    let document = &blocks("json")[0];
    let plan = Plan::of(&recipe::read(document).unwrap()).unwrap();
    let sheet = sheet::text(&plan);
    let quoted = blocks("text");
    assert_eq!(quoted.len(), 3);
    for block in &quoted[..2] {
        assert!(sheet.contains(block.as_str()), "the sheet does not hold\n{block}\nin\n{sheet}");
    }
}

#[test]
fn the_mistakes_are_those_of_the_recipe_spoilt_in_two_places() {
    let spoilt = blocks("json")[0]
        .replace("\"dose\": \"0.3 %\"", "\"dose\": \"0,3 %\"")
        .replace("lye_concentration", "lye_strength");
    let problems = recipe::read(&spoilt).unwrap_err();
    let printed = recipe::render(&problems, &spoilt, "recipe.json");
    assert_eq!(printed.trim_end(), blocks("text")[2].trim_end());
}

#[test]
fn it_opens_with_the_job_and_two_commands() {
    let readme = readme();
    let mut paragraphs = readme.split("\n\n");
    assert_eq!(paragraphs.next(), Some("# Lamella"));
    let job = paragraphs.next().unwrap();
    assert!(job.starts_with("Lamella is for people who make bar soap"), "{job}");
    // The whole of the job, in the maker's words.
    for part in [
        "plan", "balance", "size", "split", "weigh", "pour", "cure", "test", "label", "assess", "price",
        "record", "sell",
    ] {
        assert!(job.contains(part), "the job has no {part:?}");
    }
    let commands = &blocks("sh")[0];
    let lines: Vec<&str> = commands.lines().map(|line| line.split('#').next().unwrap().trim()).collect();
    assert_eq!(lines, ["cargo run --release --example plan", ".ci/test"]);
    // The second sets up what it needs, and is what the whole of the checks calls.
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let test = fs::read_to_string(root.join(".ci/test")).unwrap();
    assert!(test.contains(".ci/install") && test.contains("cargo test --workspace --all-features"));
    let run = fs::read_to_string(root.join(".ci/run")).unwrap();
    assert!(run.contains(r#".ci/"$part""#) && run.contains(" test "));
}
