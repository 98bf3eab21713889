//! Prints the label, the verdict and the dossier of a recipe.

use std::io::Write;
use std::process::ExitCode;

use lamella::market::dossier::{self, Dossier, DossierOptions};
use lamella::market::envelope::{self, Verdict};
use lamella::market::label::{self, LabelFacts};
use lamella::market::{EXAMPLE_ASSESSMENT, ListOptions, Market, Style};
use lamella::{Plan, recipe};

const HELP: &str = "\
Plans a recipe and prints what goes with its sale: label copy, verdict of the assessment, dossier.

    cargo run --release --example label [-- [OPTION] [RECIPE.json [ASSESSMENT.json]]]

RECIPE.json is a recipe/1 document, ASSESSMENT.json an assessment/1 document. Without either, the examples are taken.

    --markdown    as Markdown
    --json        the dossier as a dossier/1 document
    --csv         the dossier's tables as comma-separated values
    --help        this text
";

/// What went wrong, and the exit code that says so: 1 for a document, 2 for how it was asked for.
struct Failure(u8, String);

fn main() -> ExitCode {
    let printed = output(std::env::args().skip(1)).and_then(|text| {
        let written = std::io::stdout().write_all(text.as_bytes());
        written.map_err(|error| Failure(2, format!("cannot write: {error}\n")))
    });
    match printed {
        Ok(()) => ExitCode::SUCCESS,
        Err(Failure(code, message)) => {
            eprint!("{message}");
            ExitCode::from(code)
        }
    }
}

fn output(arguments: impl Iterator<Item = String>) -> Result<String, Failure> {
    let mut form = None;
    let mut files = Vec::new();
    for argument in arguments {
        match argument.as_str() {
            "--help" => return Ok(HELP.to_owned()),
            "--json" | "--csv" | "--markdown" if form.is_none() => form = Some(argument),
            option if option.starts_with('-') => {
                return Err(Failure(2, format!("{option} is unknown or one too many; --help says more\n")));
            }
            _ => files.push(argument),
        }
    }
    let mut files = files.into_iter();
    let (recipe_file, assessment_file) = (files.next(), files.next());
    if let Some(third) = files.next() {
        return Err(Failure(2, format!("{third}: two files are enough; --help says more\n")));
    }
    let example = recipe_file.is_none();
    let (name, text) = document(recipe_file, lamella::EXAMPLE, "example-recipe.json")?;
    let failed = |problems: Vec<_>| Failure(1, recipe::render(&problems, &text, &name));
    let recipe = recipe::read(&text).map_err(failed)?;
    let plan = Plan::of(&recipe).map_err(failed)?;
    let assessment = match assessment_file {
        None if !example => None,
        file => {
            let (name, text) = document(file, EXAMPLE_ASSESSMENT, "example-assessment.json")?;
            let failed = |problems: Vec<_>| Failure(1, recipe::render(&problems, &text, &name));
            Some(envelope::read(&text).map_err(failed)?)
        }
    };
    let written = |error| Failure(1, format!("{name}: {error}\n"));
    let dossier = Dossier::of(&plan, &recipe, DossierOptions::default()).map_err(failed)?;
    let marked = form.as_deref() == Some("--markdown");
    match form.as_deref() {
        Some("--json") => return dossier::json(&dossier).map_err(written),
        Some("--csv") => return Ok(dossier::csv(&dossier)),
        _ => {}
    }
    let verdict = envelope::verdict(&plan, &recipe, assessment.as_ref()).map_err(failed)?;
    let facts = LabelFacts { function: "Soap".to_owned(), ..LabelFacts::default() };
    let mut parts = Vec::new();
    for market in [Market::EuropeanUnion, Market::GreatBritain, Market::UnitedStates] {
        let options = ListOptions::new(market, Style::AsCharged);
        let copy = label::label(&plan, &recipe, &facts, &options, &verdict).map_err(failed)?;
        parts.push(if marked { label::markdown(&copy) } else { label::text(&copy) });
    }
    parts.push(reasons(&verdict));
    parts.push(if marked { dossier::markdown(&dossier) } else { dossier::text(&dossier) });
    parts.retain(|part| !part.is_empty());
    Ok(parts.join("\n"))
}

/// Why a batch is not covered, one paragraph a reason.
fn reasons(verdict: &Verdict) -> String {
    let one = |reason: &envelope::Reason| {
        let envelope::Reason { what, figure, limit, distance, change, .. } = reason;
        format!("{what}: {figure}; covered is {limit}; outside by {distance}. To do: {change}.\n")
    };
    verdict.reasons.iter().map(one).collect::<Vec<_>>().join("\n")
}

/// The name of a document and its text.
fn document(file: Option<String>, example: &str, called: &str) -> Result<(String, String), Failure> {
    let Some(name) = file else { return Ok((called.to_owned(), example.to_owned())) };
    match std::fs::read_to_string(&name) {
        Ok(text) => Ok((name, text)),
        Err(error) => Err(Failure(2, format!("{name}: {error}\n"))),
    }
}
