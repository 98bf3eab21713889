//! How sure the superfat of each layer is, and what to change so that none can be lye-heavy.

use std::process::ExitCode;

use lamella::certainty::{Advice, Certainty, Figures};
use lamella::quantity::{Share, fixed};
use lamella::{EXAMPLE, Plan, recipe};

const HELP: &str = "\
Says how sure the superfat of each layer is: what it cannot leave, how far it is usually off, and what that comes from.

    cargo run --release --example certainty [-- [--json] [FILE.json]]

FILE.json is a recipe/1 document; without one, the example recipe is judged. --json prints a certainty/1 document.
";

fn main() -> ExitCode {
    match output() {
        Ok(text) => {
            print!("{text}");
            ExitCode::SUCCESS
        }
        Err(message) => {
            eprint!("{message}");
            ExitCode::FAILURE
        }
    }
}

fn output() -> Result<String, String> {
    let (mut name, mut json) = (None, false);
    for argument in std::env::args().skip(1) {
        match argument.as_str() {
            "--help" => return Ok(HELP.to_owned()),
            "--json" => json = true,
            _ => name = Some(argument),
        }
    }
    let text = match &name {
        Some(name) => std::fs::read_to_string(name).map_err(|error| format!("{name}: {error}\n"))?,
        None => EXAMPLE.to_owned(),
    };
    let name = name.as_deref().unwrap_or("example");
    let failed = |problems: Vec<_>| recipe::render(&problems, &text, name);
    let recipe = recipe::read(&text).map_err(failed)?;
    let plan = Plan::of(&recipe).map_err(failed)?;
    let certainty = Certainty::of(&recipe, &plan).ok_or("a figure is beyond what can be computed\n")?;
    if json {
        return certainty.to_json().map_err(|error| format!("{error}\n"));
    }
    Ok(report(&certainty, &Advice::of(&recipe)))
}

fn percent(share: Share) -> String {
    format!("{} %", fixed(share.in_unit("%").unwrap_or_default(), 1))
}

fn report(certainty: &Certainty, advice: &Advice) -> String {
    let mut out = String::from("Superfat, and how sure it is\n\n");
    let mut line = |name: &str, figures: &Figures| {
        out.push_str(&format!(
            "{name}: {}; {}\n  between {} and {} whatever the inputs are within their ranges\n  usually (95 in 100) between {} and {}; standard uncertainty {}\n  most of that from:",
            percent(figures.superfat),
            figures.verdict.words(),
            percent(figures.guaranteed.low),
            percent(figures.guaranteed.high),
            percent(figures.covered.0),
            percent(figures.covered.1),
            percent(figures.uncertainty),
        ));
        for part in figures.budget.iter().take(3) {
            if let Some(input) = certainty.inputs.get(part.input) {
                out.push_str(&format!(" {} ({} of the variance);", input.name, percent(part.of_variance)));
            }
        }
        out.push_str("\n\n");
    };
    for jug in &certainty.jugs {
        line(&jug.name, &jug.figures);
    }
    line("All together", &certainty.batch);
    match &advice.superfat {
        Some(found) => out.push_str(&format!(
            "So that no layer can be lye-heavy, aim for {} superfat or more; {} comes nearest then, with {} at the least.\n",
            percent(found.superfat),
            found.binding,
            percent(found.low)
        )),
        None => out.push_str("No superfat up to 50 % keeps every layer from being lye-heavy.\n"),
    }
    match &advice.scale {
        Some(found) => out.push_str(&format!(
            "At the superfat that it has, a scale of {} is the coarsest that does; {} comes nearest then.\n",
            found.step, found.binding
        )),
        None => out.push_str(
            "At the superfat that it has, no scale is fine enough: the other ranges alone use it up.\n",
        ),
    }
    out
}
