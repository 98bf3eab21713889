//! The half of the job after the pour: cure, cost, batch record, trial, and what is seen after the cut.

use std::io::Write;
use std::process::ExitCode;

use lamella::after::{Observation, causes};
use lamella::cost::{self, Change, Costing};
use lamella::cure::{self, Cure, Estimate};
use lamella::quantity::{Mass, Money, fixed};
use lamella::record::Record;
use lamella::{Plan, Problem, after, follow, recipe, record};

const HELP: &str = "\
Prints the pages that follow a plan, of the example recipe and the example documents beside it.

    cargo run --release --example bench_book [-- [PAGE] [--markdown] [--log FILE.json]]

Pages, all of them unless one is named:

    --cure        weighings, drying curve, what is to come
    --curve       the drying curve of the first bar as SVG
    --cost        cost of batch, layers and bars, and what a dearer oil does
    --record      the batch record with lots, weighings and the trial at the basin
    --after       causes of a dull layer

With --log the record is of a batch/1 log, such as tests/vectors/batch/tidal-strata.json: what was weighed, poured and
measured by it stands in place of what the example record has, and the plan is that of the log.

    --help        this text
";

const RECIPE: &str = lamella::EXAMPLE;
const WEIGHINGS: &str = include_str!("../data/example-weighings.json");
const PRICES: &str = include_str!("../data/example-prices.json");
const RECORD: &str = include_str!("../data/example-record.json");
const TRIAL: &str = include_str!("../data/example-trial.json");
const USUAL: &str = include_str!("../data/example-usual-trial.json");

fn main() -> ExitCode {
    let mut page = None;
    let mut form = Form::Text;
    let mut log = None;
    let mut arguments = std::env::args().skip(1);
    while let Some(argument) = arguments.next() {
        match argument.as_str() {
            "--help" => {
                print!("{HELP}");
                return ExitCode::SUCCESS;
            }
            "--markdown" => form = Form::Markdown,
            "--log" => match arguments.next() {
                Some(file) => log = Some(file),
                None => {
                    eprintln!("--log needs a file");
                    return ExitCode::from(2);
                }
            },
            "--cure" | "--curve" | "--cost" | "--record" | "--after" => page = Some(argument),
            other => {
                eprintln!("unknown option {other}; --help lists them");
                return ExitCode::from(2);
            }
        }
    }
    match pages(page.as_deref(), form, log.as_deref()) {
        Ok(text) => match std::io::stdout().write_all(text.as_bytes()) {
            Ok(()) => ExitCode::SUCCESS,
            Err(error) => {
                eprintln!("cannot write: {error}");
                ExitCode::from(2)
            }
        },
        Err(message) => {
            eprint!("{message}");
            ExitCode::from(1)
        }
    }
}

#[derive(Clone, Copy)]
enum Form {
    Text,
    Markdown,
}

/// Problems of a document as a maker reads them.
fn told<T>(read: Result<T, Vec<Problem>>, text: &str, name: &str) -> Result<T, String> {
    read.map_err(|problems| recipe::render(&problems, text, name))
}

fn pages(page: Option<&str>, form: Form, log: Option<&str>) -> Result<String, String> {
    let recipe = told(recipe::read(RECIPE), RECIPE, "example-recipe.json")?;
    let plan = told(Plan::of(&recipe), RECIPE, "example-recipe.json")?;
    let wanted = |name: &str| page.is_none_or(|page| page == name);
    let mut out = Vec::new();
    if wanted("--cure") {
        out.push(cure_page(&plan, form)?);
    }
    if page == Some("--curve") {
        let weighings = told(cure::read(WEIGHINGS), WEIGHINGS, "example-weighings.json")?;
        out.extend(cure::svg(&Cure::of(&weighings), 0));
    }
    if wanted("--cost") {
        out.push(cost_page(&plan, form)?);
    }
    if wanted("--record") {
        out.push(record_page(&plan, form, log)?);
    }
    if wanted("--after") {
        let seen = Observation::DullThroughout;
        let found = causes(&plan, &recipe, seen, Some(2));
        let place = "the layer “Rust”";
        out.push(match form {
            Form::Text => after::text(seen, place, &found),
            Form::Markdown => after::markdown(seen, place, &found),
        });
    }
    Ok(out.join("\n\n"))
}

fn cure_page(plan: &Plan, form: Form) -> Result<String, String> {
    let weighings = told(cure::read(WEIGHINGS), WEIGHINGS, "example-weighings.json")?;
    let cure = Cure::of(&weighings);
    let fresh: Mass = "121.4 g".parse().map_err(|error| format!("{error}\n"))?;
    let estimate = Estimate::of(plan, fresh, weighings.settled_below, weighings.cut);
    Ok(match form {
        Form::Text => cure::text(&cure, estimate.as_ref()),
        Form::Markdown => cure::markdown(&cure, estimate.as_ref()),
    })
}

fn cost_page(plan: &Plan, form: Form) -> Result<String, String> {
    let prices = told(cost::read(PRICES), PRICES, "example-prices.json")?;
    let costing = told(Costing::of(plan, &prices), PRICES, "example-prices.json")?;
    let mut page = match form {
        Form::Text => cost::text(&costing, &plan.name),
        Form::Markdown => cost::markdown(&costing, &plan.name),
    };
    let olive = prices.materials.iter().find(|price| price.material == "olive-oil");
    let dearer = "52.00".parse::<lamella::quantity::Decimal>().map_err(|error| format!("{error}\n"))?;
    if let (Some(olive), Ok(pay)) = (olive, Money::try_new(dearer, prices.currency)) {
        let change = told(Change::of(plan, &prices, "olive-oil", pay), PRICES, "example-prices.json")?;
        if let Some((more, to_pay)) = change.bar().zip(change.pay()) {
            page.push_str(&format!(
                "\nOlive oil at {pay} in place of {}: a bar costs {} more and sells for {} more.\n",
                olive.pay,
                fixed(more.amount(), 4),
                fixed(to_pay.amount(), 2),
            ));
        }
    }
    Ok(page)
}

fn record_page(plan: &Plan, form: Form, log: Option<&str>) -> Result<String, String> {
    let mut record = told(record::read(RECORD), RECORD, "example-record.json")?;
    let mut open = String::new();
    let mut batch = None;
    if let Some(file) = log {
        let text = std::fs::read_to_string(file).map_err(|error| format!("{file}: {error}\n"))?;
        let log = told(follow::read(&text), &text, file)?;
        record = Record {
            weighings: Vec::new(),
            temperatures: Vec::new(),
            layers: Vec::new(),
            events: Vec::new(),
            deviations: Vec::new(),
            ..record
        };
        for finding in record.take(&log) {
            open.push_str(&format!("\nNot taken over: {}; {}.\n", finding.message, finding.advice));
        }
        batch = Some(log);
    }
    let plan = batch.as_ref().map_or(plan, |batch| batch.plan());
    let trial = told(record::read_trial(TRIAL), TRIAL, "example-trial.json")?;
    let usual = told(record::read_trial(USUAL), USUAL, "example-usual-trial.json")?;
    let trials = [trial];
    Ok(match form {
        Form::Text => record::text(&record, Some(plan), &trials, Some(&usual)),
        Form::Markdown => record::markdown(&record, Some(plan), &trials, Some(&usual)),
    } + &open)
}
