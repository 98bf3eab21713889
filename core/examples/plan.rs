//! Plans a recipe and prints its sheet.

use std::io::{Read, Write};
use std::process::ExitCode;

use lamella::certainty::{self, Advice, Certainty};
use lamella::{Plan, recipe, sheet};

const HELP: &str = "\
Plans a recipe of layered bar soap and prints the sheet to work from.

    cargo run --release --example plan [-- [OPTION] [FILE.json]]

FILE.json is a recipe/1 document, - reads it from the standard input; without one, the example recipe is planned.

    --markdown    the sheet as Markdown
    --json        the plan as a plan/1 document
    --svg         the cross-section of the bar in its first mould
    --certainty   also how sure each superfat is, and what to aim for; with --json only that, as a certainty/1 document
    --help        this text
";

/// What went wrong, and the exit code that says so: 1 for the recipe, 2 for how it was asked for.
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
    let mut file = None;
    let mut certainty = None;
    for argument in arguments {
        let place = match argument.as_str() {
            "--help" => return Ok(HELP.to_owned()),
            "--json" | "--svg" | "--markdown" => &mut form,
            "--certainty" => &mut certainty,
            option if option.starts_with('-') && option != "-" => {
                return Err(Failure(2, format!("unknown option {option}; --help lists them\n")));
            }
            _ => &mut file,
        };
        if let Some(earlier) = place.replace(argument.clone()) {
            return Err(Failure(2, format!("{earlier} and {argument}: one is enough; --help says more\n")));
        }
    }
    let (name, text) = document(file)?;
    let failed = |problems: Vec<_>| Failure(1, recipe::render(&problems, &text, &name));
    let recipe = recipe::read(&text).map_err(failed)?;
    let plan = Plan::of(&recipe).map_err(failed)?;
    let sure = if certainty.is_some() {
        let sure = Certainty::of(&recipe, &plan);
        Some(sure.ok_or_else(|| Failure(1, format!("{name}: a figure is beyond what can be computed\n")))?)
    } else {
        None
    };
    match (form.as_deref(), sure) {
        (Some("--json"), Some(sure)) => {
            sure.to_json().map_err(|error| Failure(1, format!("{name}: {error}\n")))
        }
        (Some("--svg"), Some(_)) => {
            Err(Failure(2, "--svg draws the bar; --certainty cannot be drawn into it\n".to_owned()))
        }
        (Some("--markdown"), Some(sure)) => {
            let page = certainty::markdown(&sure, &Advice::of(&recipe), &plan.name);
            Ok(format!("{}\n{page}", sheet::markdown(&plan)))
        }
        (_, Some(sure)) => {
            let page = certainty::text(&sure, &Advice::of(&recipe), &plan.name);
            Ok(format!("{}\n\n{page}", sheet::text(&plan)))
        }
        (Some("--json"), None) => plan.to_json().map_err(|error| Failure(1, format!("{name}: {error}\n"))),
        (Some("--svg"), None) => sheet::svg(&plan, &recipe, 0)
            .ok_or_else(|| Failure(1, format!("{name}: the recipe has no mould to draw the bar in\n"))),
        (Some("--markdown"), None) => Ok(sheet::markdown(&plan)),
        (_, None) => Ok(sheet::text(&plan)),
    }
}

/// The name of the document and its text.
fn document(file: Option<String>) -> Result<(String, String), Failure> {
    let Some(name) = file else {
        return Ok(("example-recipe.json".to_owned(), lamella::EXAMPLE.to_owned()));
    };
    let mut text = String::new();
    let read = if name == "-" {
        std::io::stdin().read_to_string(&mut text)
    } else {
        std::fs::File::open(&name).and_then(|mut file| file.read_to_string(&mut text))
    };
    match read {
        Ok(_) => Ok((name, text)),
        Err(error) => Err(Failure(2, format!("{name}: {error}\n"))),
    }
}
