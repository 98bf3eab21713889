//! Chooses fats and shares.

use std::process::ExitCode;

use lamella::blend::{self, End};

const HELP: &str = "\
Chooses fats and shares: prints the blend with what every demand costs, and the fats as lines of a recipe; or why there is
no such blend.

    cargo run --release --features blend --example blend -- [--json] FILE.json

FILE.json is a blend/1 document, such as tests/vectors/blend/kitchen.json. --json prints the answer as data.
";

fn main() -> ExitCode {
    let (flags, files): (Vec<String>, Vec<String>) =
        std::env::args().skip(1).partition(|argument| argument.starts_with("--"));
    if flags.iter().any(|flag| flag == "--help") {
        print!("{HELP}");
        return ExitCode::SUCCESS;
    }
    let [file] = files.as_slice() else {
        eprint!("{HELP}");
        return ExitCode::FAILURE;
    };
    let text = match std::fs::read_to_string(file) {
        Ok(text) => text,
        Err(error) => {
            eprintln!("{file}: {error}");
            return ExitCode::FAILURE;
        }
    };
    let request = match blend::read(&text) {
        Ok(request) => request,
        Err(problems) => {
            for problem in problems {
                eprintln!("{problem}");
            }
            return ExitCode::FAILURE;
        }
    };
    let answer = match blend::solve(&request) {
        Ok(answer) => answer,
        Err(refusal) => {
            print!("{}", blend::render_refusal(&request, &refusal));
            return ExitCode::FAILURE;
        }
    };
    if flags.iter().any(|flag| flag == "--json") {
        match serde_json::to_string_pretty(&answer) {
            Ok(json) => println!("{json}"),
            Err(error) => eprintln!("{error}"),
        }
        return ExitCode::SUCCESS;
    }
    print!("{}", blend::render(&answer));
    explain(&request, &answer);
    print!("\nAs the fats of a recipe:\n\n{}", blend::fats_json(&request, &answer));
    ExitCode::SUCCESS
}

/// What one more point of each binding demand does, and which aim settles what.
fn explain(request: &blend::Request, answer: &blend::Answer) {
    if let Ok(changes) = blend::one_more_point(request, answer) {
        for change in changes {
            let figure = answer.demands.get(change.demand).map_or("", |demand| &demand.figure);
            let what = if change.end == End::AtLeast { "more of" } else { "less of" };
            match change.change {
                Ok(values) => {
                    let values = values.iter().zip(&answer.aims);
                    let values: Vec<_> =
                        values.map(|(by, aim)| format!("{} {:+}", aim.aim, by.round_dp(4))).collect();
                    println!("\nA point {what} {figure}: {}.", values.join(", "));
                }
                Err(refusal) => println!("\nA point {what} {figure}: {refusal}."),
            }
        }
    }
    if let Ok(settled) = blend::settled(request) {
        println!();
        for (fat, aim) in answer.fats.iter().zip(settled) {
            let aim = aim.and_then(|aim| answer.aims.get(aim)).map(|aim| aim.aim.as_str());
            println!(
                "- {}: {}",
                fat.name,
                aim.map_or("still free".to_owned(), |aim| format!("settled by {aim:?}"))
            );
        }
    }
}
