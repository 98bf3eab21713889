//! Forecasts how warm a plan's lye, batter and block get, and draws it.

use std::io::{Read, Write};
use std::process::ExitCode;

use lamella::heat::{self, Degrees, Grid, HeatForecast, Interval, Scenario, Setting, Steps, When};
use lamella::quantity::{Share, Temperature, fixed};
use lamella::{Plan, recipe};

const HELP: &str = "\
Forecasts the heat of a recipe of layered bar soap: how warm its lye, its batter and its block get, where and when.

    cargo run --release --features heat --example heat [-- [OPTION] [RECIPE.json] [SETTING.json]]

RECIPE.json is a recipe/1 document; without one, the example recipe is taken. SETTING.json is a heat/1 document: mould
walls, wrapping, room, pour times; without one, a wooden box with its lid on.

    --svg            the section at six times, and temperatures over time
    --fahrenheit     the same in °F
    --json           the forecast as JSON
    --help           this text
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
            "--svg" | "--fahrenheit" | "--json" => form = Some(argument),
            option if option.starts_with('-') => {
                return Err(Failure(2, format!("unknown option {option}; --help lists them\n")));
            }
            _ => files.push(argument),
        }
    }
    let mut files = files.into_iter();
    let (name, text) = match files.next() {
        Some(name) => read(name)?,
        None => ("example-recipe.json".to_owned(), lamella::EXAMPLE.to_owned()),
    };
    let failed = |problems: Vec<_>| Failure(1, recipe::render(&problems, &text, &name));
    let recipe = recipe::read(&text).map_err(failed)?;
    let plan = Plan::of(&recipe).map_err(failed)?;
    let setting = match files.next() {
        Some(name) => {
            let (name, text) = read(name)?;
            heat::read_setting(&text)
                .map_err(|problems| Failure(1, recipe::render(&problems, &text, &name)))?
        }
        None => Setting::default(),
    };
    let degrees = match form.as_deref() {
        Some("--svg") => Degrees::Celsius,
        Some("--fahrenheit") => Degrees::Fahrenheit,
        form => {
            let forecast = heat::forecast(&recipe, &plan, &setting, Grid::default()).map_err(failed)?;
            return if form.is_some() {
                let json = serde_json::to_string_pretty(&forecast);
                json.map(|json| json + "\n").map_err(|error| Failure(1, format!("{name}: {error}\n")))
            } else {
                Ok(report(&forecast, &plan))
            };
        }
    };
    let scenario = Scenario::of(&recipe, &plan, &setting).map_err(failed)?;
    let times = [7_200.0, 14_400.0, 21_600.0, 32_400.0, 50_400.0];
    let course = heat::run(&scenario, Grid::default(), &Steps::default(), &times)
        .map_err(|error| Failure(1, format!("{name}: {error}\n")))?;
    Ok(heat::draw(&course, &recipe.name, degrees))
}

fn read(name: String) -> Result<(String, String), Failure> {
    let mut text = String::new();
    match std::fs::File::open(&name).and_then(|mut file| file.read_to_string(&mut text)) {
        Ok(_) => Ok((name, text)),
        Err(error) => Err(Failure(2, format!("{name}: {error}\n"))),
    }
}

fn degrees(temperature: Temperature) -> String {
    format!("{} °C", fixed(temperature.value(), 0))
}

fn percent(share: Share) -> String {
    format!("{} %", fixed(share.in_unit("%").unwrap_or_default(), 0))
}

fn clock(when: When) -> String {
    match when {
        When::At(duration) => {
            let hours = fixed(duration.in_unit("h").unwrap_or_default(), 1);
            format!("{hours} h")
        }
        _ => "not by then".to_owned(),
    }
}

/// `likely (low to high)`.
fn spread<T: Copy>(interval: Interval<T>, show: impl Fn(T) -> String) -> String {
    format!("{} ({} to {})", show(interval.likely), show(interval.low), show(interval.high))
}

fn report(forecast: &HeatForecast, plan: &Plan) -> String {
    let (lye, block) = (&forecast.lye, &forecast.block);
    let mut lines = vec![
        plan.name.clone(),
        String::new(),
        format!(
            "Lye        {} when dissolved, {} with all its water as ice; boils at {}",
            degrees(lye.dissolved),
            degrees(lye.dissolved_in_ice),
            degrees(lye.boils_at)
        ),
    ];
    if let (Some(air), Some(bath)) = (lye.cools_in_air, lye.cools_in_bath) {
        lines.push(format!("           ready after {} in air, {} in a water bath", clock(air), clock(bath)));
    }
    let batter =
        plan.jugs.iter().zip(&forecast.batter).map(|(jug, at)| format!("{} {}", jug.name, degrees(*at)));
    lines.push(format!("Batter     {}", batter.collect::<Vec<_>>().join(", ")));
    if let Some(set_at) = forecast.fats_set_at {
        lines.push(format!("           its fats begin to set at about {}", degrees(set_at)));
    }
    lines.extend([
        format!("Block      hottest {}", spread(block.peak, degrees)),
        format!(
            "           after {}, in {:?}, {} above the bottom",
            spread(block.peak_at, clock),
            block.peak_layer,
            block.peak_height
        ),
        format!(
            "           gels {}; the first of it after {}",
            spread(block.gelled, percent),
            spread(block.gels, clock)
        ),
        format!("           a ring in {} of the forecasts", percent(block.ring)),
        format!("           fit to cut after {}", spread(block.cut, clock)),
    ]);
    for layer in &block.layers {
        lines.push(format!(
            "Layer      {}: carries the next after {}, gels {} above {}",
            layer.name,
            spread(layer.carries, clock),
            spread(layer.gelled, percent),
            spread(layer.gels_at, degrees)
        ));
    }
    for caution in &forecast.cautions {
        lines.push(format!(
            "Look       {} {}: {} against {}; {} [{}]",
            caution.place, caution.message, caution.figure, caution.limit, caution.advice, caution.code
        ));
    }
    lines.push(String::new());
    lines.push(
        "Likely (least to greatest of seventeen forecasts). Estimates: trust your thermometer.".to_owned(),
    );
    lines.join("\n") + "\n"
}
