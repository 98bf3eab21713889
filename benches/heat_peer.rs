//! A day of the example block for other integrators: the semi-discrete system as JSON, what this library makes of it, and
//! how long that took at least. `benches/peers/heat_scipy.py` reads it.
#![expect(clippy::unwrap_used, reason = "a bench stops where its result is not as it should be")]
#![expect(clippy::disallowed_types, reason = "a bench needs a clock")]

use std::time::Instant;

use lamella::Plan;
use lamella::heat::{Grid, Scenario, Setting, Sheet, Spot, Steps, run};

fn main() {
    let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
    let plan = Plan::of(&recipe).unwrap();
    let mut setting = Setting { until: 86_400.0, ..Setting::default() };
    for surroundings in &mut setting.surroundings {
        surroundings.around = vec![(Sheet::Blanket, 0.03)];
    }
    let scenario = Scenario::of(&recipe, &plan, &setting).unwrap();
    let times: Vec<f64> = (1..=24_u32).map(|hour| f64::from(hour.saturating_mul(3600))).collect();
    let mut least = f64::INFINITY;
    for _ in 0..200 {
        let start = Instant::now();
        std::hint::black_box(run(&scenario, Grid::default(), &Steps::default(), &times).unwrap());
        least = least.min(start.elapsed().as_secs_f64());
    }
    let course = run(&scenario, Grid::default(), &Steps::default(), &times).unwrap();
    let middle = Spot { across: 0.0, up: 0.034 };
    let temperatures: Vec<f64> = course
        .frames
        .iter()
        .filter(|frame| frame.time > 0.0)
        .map(|frame| course.temperature_at(frame, middle))
        .collect();
    let layers: Vec<String> = scenario
        .layers
        .iter()
        .map(|layer| {
            let (material, kinetics) = (&layer.material, &layer.kinetics);
            format!(
                r#"{{"at":{:?},"temperature":{:?},"conversion":{:?},"density":{:?},"capacity":{:?},"conductivity":{:?},"heat":{:?},"rate":{:?},"seed":{:?},"activation":{:?}}}"#,
                layer.at,
                layer.temperature,
                layer.conversion,
                material.density,
                material.capacity,
                material.conductivity,
                material.heat,
                kinetics.rate,
                kinetics.seed,
                kinetics.activation
            )
        })
        .collect();
    let phase = scenario.phases.first().unwrap();
    let rows: Vec<String> =
        course.rows().iter().map(|(layer, height)| format!("[{layer},{height:?}]")).collect();
    println!(
        r#"{{"width":{:?},"columns":{},"air":{:?},"base":{:?},"side":{:?},"top":{:?},"until":{:?},"rows":[{}],"layers":[{}],"seconds":{least:?},"steps":{},"up":0.034,"times":{times:?},"temperatures":{temperatures:?}}}"#,
        scenario.section.width,
        course.columns(),
        phase.air,
        phase.base,
        phase.side,
        phase.top,
        scenario.until,
        rows.join(","),
        layers.join(","),
        course.steps
    );
}
