//! A batch under way: what each event changed, and what to do about what came out otherwise.

use std::process::ExitCode;

use lamella::follow::{self, Batch, Correction, Outcome, Tolerances};
use lamella::quantity::{Share, fixed};
use lamella::recipe;

const HELP: &str = "\
Replays the log of a batch: what each line changed in the rest of the plan, and what to put right.

    cargo run --release --example follow -- FILE.json

FILE.json is a batch/1 document, such as tests/vectors/batch/tidal-strata.json.
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

fn percent(share: Share) -> String {
    format!("{} %", fixed(share.in_unit("%").unwrap_or_default(), 2))
}

fn output() -> Result<String, String> {
    let Some(name) = std::env::args().nth(1).filter(|name| name != "--help") else {
        return Ok(HELP.to_owned());
    };
    let text = std::fs::read_to_string(&name).map_err(|error| format!("{name}: {error}\n"))?;
    let failed = |problems: Vec<_>| recipe::render(&problems, &text, &name);
    let log = follow::read(&text).map_err(failed)?;
    let mut batch = Batch::new(log.recipe().clone()).map_err(failed)?;
    let mut out = format!("{}\n", batch.recipe().name);
    for (index, entry) in log.log().iter().enumerate() {
        let at = entry.at.as_deref().map(|at| format!("{at}  ")).unwrap_or_default();
        out.push_str(&format!("\n{}. {at}{}\n", index.saturating_add(1), entry.event));
        let changes = batch.record(entry.clone()).map_err(|problem| format!("{problem}\n"))?;
        for change in changes {
            out.push_str(&format!(
                "   {}, {}: {} -> {} ({})\n",
                change.place, change.what, change.before, change.now, change.by
            ));
        }
    }
    let corrections = batch.correct_all(&Tolerances::default()).map_err(|problem| format!("{problem}\n"))?;
    if !batch.plan().holds.is_empty() {
        out.push_str("\nOn hold\n\n");
        for hold in &batch.plan().holds {
            out.push_str(&format!("   {}: {}\n", hold.layer, hold.why()));
        }
        out.push_str(&format!("   to do: {}\n", lamella::batch::HOLD_ADVICE));
    }
    out.push_str("\nWhat is not poured yet\n");
    for correction in &corrections {
        out.push_str(&said(correction));
    }
    Ok(out)
}

fn said(correction: &Correction) -> String {
    let mut out = format!(
        "\n{}: superfat {}, planned {}; between {} and {} whatever the inputs are within their ranges\n",
        correction.place,
        percent(correction.superfat),
        percent(correction.aimed),
        percent(correction.guaranteed.0),
        percent(correction.guaranteed.1),
    );
    match &correction.remedy {
        Outcome::Additions { additions, superfat, .. } => {
            for addition in additions {
                let into = addition.vessel.as_ref().map_or("", |_| " to it");
                let into = match (into, addition.item.as_str()) {
                    ("", "naoh" | "koh" | "water") => " to the lye",
                    ("", _) => " to the pot",
                    (into, _) => into,
                };
                out.push_str(&format!("   add {} of {}{into}\n", addition.mass, addition.name));
            }
            out.push_str(&format!("   which makes its superfat {}\n", percent(*superfat)));
        }
        Outcome::Cannot { reasons } => {
            for reason in reasons {
                out.push_str(&format!("   {reason}\n"));
            }
        }
        _ => out.push_str("   within the tolerances: nothing to add\n"),
    }
    for safe in &correction.safe {
        out.push_str(&format!("   {}\n", safe.words()));
    }
    for note in &correction.notes {
        out.push_str(&format!("   {note}\n"));
    }
    out
}
