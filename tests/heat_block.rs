//! Laws of the block: energy, bounds, insulation, layers; the forecast of recipes; fits; hostile input.
#![expect(
    clippy::expect_used,
    clippy::arithmetic_side_effects,
    reason = "a test stops where something is not as it should be"
)]
#![expect(clippy::float_arithmetic, reason = "compares approximate solutions within tolerances")]

use lamella::heat::{
    CAUTION_CODES, Charge, Course, Degrees, Depth, Ends, Free, Grid, HeatError, Kinetics, Log, Material,
    Phase, Scenario, Section, Setting, Sheet, Spot, Spread, Steps, When, colour, colour_of, draw, fit,
    forecast, forecast_scenario, read_setting, run, run_column,
};
use lamella::quantity::{Duration, Temperature};
use lamella::{Plan, recipe};

const NEVER: f64 = f64::INFINITY;
const COARSE: Grid = Grid { columns: 16, rows: 14 };

fn material() -> Material {
    Material { density: 1020.0, capacity: 2500.0, conductivity: 0.25, heat: 1.4e8, gels_at: 72.0 }
}

fn layer(name: &str, thickness: f64, at: f64, temperature: f64) -> Charge {
    Charge {
        name: name.to_owned(),
        thickness,
        at,
        temperature,
        conversion: 0.05,
        material: material(),
        kinetics: Kinetics::default(),
    }
}

/// Two layers of unlike make, poured half an hour apart, wrapped so that resistances are multiplied by `wrap`.
fn block(wrap: f64) -> Scenario {
    let mut upper = layer("upper", 0.04, 1800.0, 42.0);
    upper.material =
        Material { conductivity: 0.3, capacity: 2700.0, heat: 1.2e8, gels_at: 66.0, ..material() };
    Scenario {
        section: Section { depth: Depth::Straight, width: 0.085, ends: None },
        layers: vec![layer("lower", 0.03, 0.0, 38.0), upper],
        phases: vec![Phase {
            from: 0.0,
            air: 21.0,
            base: 0.4 * wrap,
            side: 0.5 * wrap,
            top: 0.5 * wrap,
            end: NEVER,
        }],
        until: 86_400.0,
    }
}

fn course(scenario: &Scenario) -> Course {
    run(scenario, COARSE, &Steps::default(), &[]).expect("a run")
}

fn peak(course: &Course) -> f64 {
    course.moments.iter().map(|moment| moment.hottest.0).fold(f64::NEG_INFINITY, f64::max)
}

#[test]
fn heat_is_neither_made_nor_lost() {
    let mut round = block(1.0);
    round.section.depth = Depth::Round;
    let mut short = block(1.0);
    short.section.ends = Some(Ends { length: 0.08 });
    short.phases[0].end = 0.5;
    let mut scheduled = block(1.0);
    let first = scheduled.phases[0];
    scheduled.phases.push(Phase { from: 10_800.0, air: 4.0, top: 0.1, side: 0.1, ..first });
    scheduled.phases.push(Phase { from: 20_000.0, air: 60.0, ..first });
    for scenario in [block(1.0), block(20.0), round, short, scheduled] {
        for grid in [COARSE, Grid { columns: 6, rows: 29 }, Grid::column(30), Grid::column(1)] {
            let course = run(&scenario, grid, &Steps::default(), &[5000.0]).expect("a run");
            assert!(course.energy.imbalance() < 1e-11, "{}", course.energy.imbalance());
            // What was released is the heat of reaction times what reacted, to 1e-9.
            let last = course.frames.last().expect("the end");
            let mut reacted = 0.0;
            let volume = scenario.height()
                * scenario.section.width
                * match scenario.section.depth {
                    Depth::Round => std::f64::consts::PI * scenario.section.width / 4.0,
                    _ => scenario.section.ends.map_or(1.0, |ends| ends.length),
                };
            let cells = course.rows().iter().flat_map(|row| std::iter::repeat_n(row.0, course.columns()));
            for ((layer, share), conversion) in cells.zip(course.shares()).zip(&last.conversion) {
                reacted += scenario.layers[layer].material.heat * share * volume * (conversion - 0.05);
            }
            let off = (course.energy.released - reacted).abs() / reacted;
            assert!(off < 1e-9, "released {} of {reacted}: {off}", course.energy.released);
        }
    }
}

#[test]
fn layers_are_warm_over_time_as_the_run_has_them() {
    let scenario = block(1.0);
    let forecast = forecast_scenario(&scenario, &Spread::default(), COARSE).expect("a forecast");
    let minutes = |duration: Duration| duration.exact().approximate() / 60.0;
    let degrees = |temperature: Temperature| temperature.exact().approximate();
    let times: Vec<f64> = forecast.times.iter().copied().map(minutes).collect();
    assert!(times.windows(2).all(|pair| pair[0] < pair[1]), "{times:?}");
    assert_eq!((times.first(), times.last()), (Some(&0.0), Some(&1440.0)));
    assert!(times.contains(&30.0), "the second pour: {times:?}");
    let When::At(peak_at) = forecast.peak_at.likely else { panic!("no peak") };
    assert_eq!(times[forecast.hottest], minutes(peak_at));
    // Frames at the same times are means that were reckoned another way; stopping there moves the steps a little.
    let stops: Vec<f64> = times.iter().map(|time| time * 60.0).collect();
    let run = run(&scenario, COARSE, &Steps::default(), &stops).expect("a run");
    let poured = [0.0, 30.0];
    for (index, layer) in forecast.layers.iter().enumerate() {
        let warmth = &layer.warmth;
        assert_eq!([warmth.low.len(), warmth.likely.len(), warmth.high.len()], [times.len(); 3]);
        for (number, time) in times.iter().enumerate() {
            let Some(likely) = warmth.likely[number] else {
                assert!(
                    *time < poured[index] && warmth.low[number].is_none() && warmth.high[number].is_none()
                );
                continue;
            };
            assert!(*time >= poured[index]);
            let [low, high] = [&warmth.low, &warmth.high].map(|list| list[number].expect("an interval"));
            assert!(low <= likely && likely <= high && high <= forecast.peak.high);
            if *time == poured[index] {
                assert_eq!([low, likely, high], [layer.poured_at; 3]);
                continue;
            }
            let frame = run.frames.iter().find(|frame| frame.time == time * 60.0).expect("a frame");
            let mean = run.mean(frame, Some(index));
            assert!((degrees(likely) - mean).abs() < 0.4, "{time} min: {likely} against {mean}");
        }
    }
    let coolest = forecast.layers.iter().flat_map(|layer| &layer.warmth.likely).flatten().min();
    assert!(coolest.copied().is_some_and(|coolest| degrees(coolest) >= 21.0));
    // One colour for one temperature, and none twice on the way up.
    let colours: Vec<String> =
        (0..=20).map(|step| colour_of(format!("{} °C", 5 * step).parse().expect("a temperature"))).collect();
    assert!(colours.windows(2).all(|pair| pair[0] != pair[1]), "{colours:?}");
    // A forecast of an odd length ends where it says.
    let odd = Scenario { until: 7_500.0, ..block(1.0) };
    let short = forecast_scenario(&odd, &Spread::default(), COARSE).expect("a forecast");
    assert_eq!(short.times.last().copied().map(minutes), Some(125.0));
    assert!(short.hottest < short.times.len());
}

#[test]
fn what_loses_nothing_ends_adiabatic() {
    let mut scenario = block(1.0);
    scenario.phases = vec![Phase { from: 0.0, air: 21.0, base: NEVER, side: NEVER, top: NEVER, end: NEVER }];
    scenario.until = 10.0 * 86_400.0;
    let course = course(&scenario);
    let mut heat = 0.0;
    let mut capacity = 0.0;
    for layer in &scenario.layers {
        let own = layer.material.density * layer.material.capacity * layer.thickness;
        heat += own * layer.temperature + layer.material.heat * 0.95 * layer.thickness;
        capacity += own;
    }
    let last = course.moments.last().expect("the end");
    assert!((last.mean - heat / capacity).abs() < 1e-6, "{} against {}", last.mean, heat / capacity);
    assert!((last.hottest.0 - last.edge).abs() < 1e-3, "{last:?}");
    assert_eq!(course.energy.lost, 0.0);
}

#[test]
fn conversion_rises_between_nought_and_one() {
    let mut quick = block(1.0);
    for layer in &mut quick.layers {
        layer.kinetics.rate = 10.0;
        layer.kinetics.activation = 200_000.0;
    }
    let mut odd = block(3.0);
    for layer in &mut odd.layers {
        layer.kinetics = Kinetics { rate: 1e-3, seed: 1e-6, activation: 9e4, order: 2.5, self_order: 0.5 };
    }
    for scenario in [block(1.0), block(50.0), quick, odd] {
        let times: Vec<f64> = (1..48_u32).map(|half| f64::from(half) * 1800.0).collect();
        let course = run(&scenario, COARSE, &Steps::default(), &times).expect("a run");
        for pair in course.frames.windows(2) {
            for (before, after) in pair[0].conversion.iter().zip(&pair[1].conversion) {
                assert!(after >= before && (0.0..=1.0).contains(after), "{before} {after}");
            }
        }
        assert!(course.frames.iter().all(|frame| frame.temperature.iter().all(|t| t.is_finite())));
    }
}

#[test]
fn nothing_happens_without_a_cause() {
    let mut still = block(1.0);
    for layer in &mut still.layers {
        (layer.temperature, layer.conversion) = (21.0, 1.0);
    }
    let course = course(&still);
    for frame in &course.frames {
        assert!(frame.temperature.iter().all(|temperature| *temperature == 21.0));
    }
    assert_eq!((course.energy.released, course.energy.lost), (0.0, 0.0));
}

#[test]
fn more_insulation_is_never_cooler_in_the_middle() {
    let times: Vec<f64> = (1..24_u32).map(|hour| f64::from(hour) * 3600.0).collect();
    let mut last: Option<Vec<f64>> = None;
    for wrap in [0.05, 0.3, 0.7, 1.0, 1.3, 2.0, 4.0, 10.0, 100.0] {
        let course = run(&block(wrap), COARSE, &Steps::default(), &times).expect("a run");
        let middle: Vec<f64> = course
            .frames
            .iter()
            .map(|frame| course.temperature_at(frame, Spot { across: 0.0, up: 0.035 }))
            .collect();
        if let Some(last) = &last {
            for ((cool, warm), frame) in last.iter().zip(&middle).zip(&course.frames) {
                // A reaction that has run through sooner has cooled for longer: the law is one of the rise and of the
                // peak, so it is checked until the cooler of the two has had its peak.
                if frame.time < 5.0 * 3600.0 {
                    assert!(warm > &(cool - 1e-6), "{wrap} {}: {cool} {warm}", frame.time);
                }
            }
            let highest = |values: &[f64]| values.iter().copied().fold(0.0, f64::max);
            assert!(highest(&middle) > highest(last) - 1e-6, "{wrap}");
        }
        last = Some(middle);
    }
    // Without a reaction it holds at every time.
    let cold = |wrap: f64| {
        let mut scenario = block(wrap);
        for layer in &mut scenario.layers {
            layer.conversion = 1.0;
        }
        run(&scenario, COARSE, &Steps::default(), &times).expect("a run")
    };
    let (thin, thick) = (cold(1.0), cold(1.5));
    for (a, b) in thin.frames.iter().zip(&thick.frames) {
        for (a, b) in a.temperature.iter().zip(&b.temperature) {
            assert!(b > &(a - 1e-9), "{a} {b}");
        }
    }
}

#[test]
fn the_default_grid_and_steps_are_fine_enough() {
    let scenario = block(1.5);
    let usual = run(&scenario, Grid::default(), &Steps::default(), &[]).expect("a run");
    let fine = run(&scenario, Grid { columns: 80, rows: 56 }, &Steps::finer(10.0), &[]).expect("a run");
    assert!((peak(&usual) - peak(&fine)).abs() < 0.3, "{} {}", peak(&usual), peak(&fine));
    let column = run_column(&scenario, &[]).expect("a run");
    assert!((peak(&column) - peak(&fine)).abs() < 3.0, "{} {}", peak(&column), peak(&fine));
}

#[test]
fn the_same_run_twice_is_the_same_to_the_last_bit() {
    let bits = |course: &Course| -> Vec<u64> {
        course.frames.iter().flat_map(|frame| frame.temperature.iter().map(|t| t.to_bits())).collect()
    };
    let (once, twice) = (course(&block(1.0)), course(&block(1.0)));
    assert_eq!(bits(&once), bits(&twice));
    assert_eq!(once.moments, twice.moments);
    // Figures that every machine must give, x86-64 and wasm32 alike: a change of them is a change of the model.
    let last = once.moments.last().expect("the end");
    let words: u64 = bits(&once)
        .iter()
        .fold(0xcbf2_9ce4_8422_2325, |hash, bits| (hash ^ bits).wrapping_mul(0x0100_0000_01b3));
    assert_eq!(words, HASH, "{last:?}");
}

/// FNV-1a over the bits of the kept frames of [`block`].
const HASH: u64 = 2710015175854226621;

fn planned(text: &str) -> (recipe::Recipe, Plan) {
    let recipe = recipe::read(text).expect("a recipe");
    let plan = Plan::of(&recipe).expect("a plan");
    (recipe, plan)
}

const WRAPPED: &str = r#"{
  "lamella": "heat/1",
  "surroundings": [
    { "from": "0 h", "air": "70 °F", "cover": [{ "sheet": "wood", "thickness": "12 mm" }],
      "around": [{ "sheet": "blanket", "thickness": "30 mm" }] },
    { "from": "12 h", "air": "21 °C" }
  ],
  "pours": [{ "at": "0 min", "temperature": "40 °C" }, { "at": "2 min" }],
  "until": "36 h",
  "own": { "rate": "120 %", "rate_within": "10 %", "insulation": "110 %", "insulation_within": "5 %" }
}"#;

#[test]
fn the_example_is_forecast() {
    let (recipe, plan) = planned(lamella::EXAMPLE);
    let plain = forecast(&recipe, &plan, &Setting::default(), COARSE).expect("a forecast");
    let setting = read_setting(WRAPPED).expect("a setting");
    assert!((setting.surroundings[0].air - 190.0 / 9.0).abs() < 1e-9);
    let warm = forecast(&recipe, &plan, &setting, COARSE).expect("a forecast");
    assert!(warm.block.peak.likely > plain.block.peak.likely);
    assert!(warm.block.gelled.likely >= plain.block.gelled.likely);
    let codes: Vec<&str> = warm.cautions.iter().map(|caution| caution.code).collect();
    // The second layer is poured two minutes after the first.
    assert!(codes.contains(&"heat.carry"), "{codes:?}");
    assert!(codes.iter().all(|code| CAUTION_CODES.iter().any(|(known, _)| known == code)));
    for forecast in [&plain, &warm] {
        let block = &forecast.block;
        assert!(block.peak.low <= block.peak.likely && block.peak.likely <= block.peak.high);
        assert!(block.cut.low <= block.cut.likely && block.cut.likely <= block.cut.high);
        assert!(block.gelled.low <= block.gelled.likely && block.gelled.likely <= block.gelled.high);
        assert_eq!(block.layers.len(), 7);
        assert!(block.layers.iter().all(|layer| layer.carries.low < When::Later));
        let json = serde_json::to_string(&forecast).expect("JSON");
        assert!(json.contains("\"peak\":{\"low\":\""), "{json}");
    }
    // Lye of 33 %: 106 to 108 °C from room temperature, about 30 °C with ice.
    let dissolved = plain.lye.dissolved.to_string();
    assert!(dissolved.starts_with("10"), "{dissolved}");
    // A well known factor narrows the interval.
    let width = |spread: &Spread| {
        let scenario = Scenario::of(&recipe, &plan, &setting).expect("a scenario");
        let block = forecast_scenario(&scenario, spread, COARSE).expect("a forecast");
        block.peak.high.exact() - block.peak.low.exact()
    };
    assert!((width(&Spread::default()) - width(&setting.spread)).is_positive());
}

#[test]
fn every_shape_of_mould_is_forecast() {
    let shapes = [
        r#""shape": "loaf", "length": "250 mm", "width": "85 mm", "height": "75 mm""#,
        r#""shape": "tapered loaf", "length": "250 mm", "bottom_width": "70 mm", "top_width": "90 mm", "height": "75 mm""#,
        r#""shape": "slab", "length": "300 mm", "width": "200 mm", "height": "30 mm", "cells_across": 3"#,
        r#""shape": "upright cylinder", "diameter": "76 mm", "height": "200 mm""#,
        r#""shape": "lying cylinder", "diameter": "100 mm", "length": "250 mm""#,
        r#""shape": "tray", "cavities": 6, "cavity": { "shape": "box", "length": "80 mm", "width": "55 mm", "height": "25 mm" }"#,
        r#""shape": "tray", "cavities": 6, "cavity": { "shape": "cone", "bottom_diameter": "50 mm", "top_diameter": "70 mm", "height": "40 mm" }"#,
        r#""shape": "tray", "cavities": 6, "cavity": { "shape": "bowl", "radius": "35 mm", "height": "35 mm" }"#,
    ];
    for shape in shapes {
        for process in ["cold", "hot"] {
            let text = format!(
                r#"{{ "lamella": "recipe/1", "name": "Mould", "process": "{process}",
                "fats": [{{ "fat": "olive-oil", "share": "60 %" }}, {{ "fat": "coconut-oil", "share": "40 %" }}],
                "alkali": {{ "naoh": {{}} }}, "superfat": "5 %", "water": {{ "lye_concentration": "30 %" }},
                "size": {{ "moulds": "filled" }}, "moulds": [{{ {shape} }}],
                "layers": [{{ "layer": "A", "share": "1 part" }}, {{ "layer": "B", "share": "2 parts" }}] }}"#
            );
            let (recipe, plan) = planned(&text);
            let scenario = Scenario::of(&recipe, &plan, &Setting::default())
                .unwrap_or_else(|p| panic!("{shape}: {p:?}"));
            let course = course(&scenario);
            assert!(course.energy.imbalance() < 1e-11, "{shape}");
            assert!((20.0..100.0).contains(&peak(&course)), "{shape}: {}", peak(&course));
            if process == "hot" {
                assert_eq!(course.energy.released, 0.0);
            }
        }
    }
}

#[test]
fn a_fit_finds_what_made_the_log() {
    let scenario = block(1.0);
    let grid = Grid { columns: 8, rows: 8 };
    let spot = Spot { across: 0.0, up: 0.035 };
    let mut truth = lamella::heat::Truth::USUAL;
    (truth.rate, truth.resistance) = (1.4, 0.8);
    let times: Vec<f64> = (1..60_u32).map(|tick| f64::from(tick) * 1200.0).collect();
    let course = run(&truth.of(&scenario), grid, &Steps::finer(4.0), &times).expect("a run");
    // A thermometer that shows tenths, with an error that goes round.
    let readings: Vec<(f64, f64)> = course
        .frames
        .iter()
        .filter(|frame| frame.time > 0.0 && frame.time < 80_000.0)
        .enumerate()
        .map(|(index, frame)| {
            let wobble = [0.2, -0.1, -0.3, 0.1, 0.3, -0.2][index % 6];
            (frame.time, ((course.temperature_at(frame, spot) + wobble) * 10.0).round() / 10.0)
        })
        .collect();
    let log = Log { spot, readings };
    let free = Free { rate: true, resistance: true, heat: false };
    let found = fit(&scenario, &log, free, grid).expect("a fit");
    println!("{found:?}");
    for (estimate, truth) in [(found.rate, 1.4), (found.resistance, 0.8)] {
        assert!((estimate.factor / truth - 1.0).abs() < 0.03, "{found:?}");
        assert!(estimate.error > 0.0 && estimate.error < 0.02, "{found:?}");
    }
    assert!(found.left < 0.4 && found.rounds < 20, "{found:?}");
    let three = fit(&scenario, &log, Free { heat: true, ..free }, grid).expect("a fit");
    assert!((three.heat.factor - 1.0).abs() < 0.05, "{three:?}");

    // Logs that cannot be fitted say so.
    let short = Log { readings: log.readings[..2].to_vec(), ..log.clone() };
    let mut falling = log.clone();
    falling.readings.swap(3, 4);
    let mut broken = log.clone();
    broken.readings[5].1 = f64::NAN;
    let flat = Log { spot, readings: times.iter().map(|time| (*time, 21.0)).collect() };
    let mut inert = scenario.clone();
    for layer in &mut inert.layers {
        (layer.conversion, layer.temperature) = (1.0, 21.0);
    }
    for (scenario, log) in [(&scenario, &short), (&scenario, &falling), (&inert, &flat)] {
        assert_eq!(fit(scenario, log, free, grid).expect_err("no fit").code(), "heat.log");
    }
    assert_eq!(fit(&scenario, &broken, free, grid).expect_err("no fit").code(), "heat.parameter");
    let nothing = Free { rate: false, resistance: false, heat: false };
    assert_eq!(fit(&scenario, &log, nothing, grid).expect_err("no fit").code(), "heat.log");
}

/// Relative luminance, Rec. 709 on gamma-encoded channels: what a grey print shows.
fn grey(colour: &str) -> f64 {
    let channel =
        |from: usize| f64::from(u8::from_str_radix(&colour[from..from + 2], 16).expect("hexadecimal"));
    0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5)
}

#[test]
fn pictures_read_in_grey_and_are_the_same_twice() {
    let greys: Vec<f64> = (0..=100_u32).map(|place| grey(&colour(f64::from(place) / 100.0))).collect();
    assert!(greys.windows(2).all(|pair| pair[1] > pair[0]), "{greys:?}");
    assert!(greys[100] - greys[0] > 180.0);
    let course = run(&block(3.0), COARSE, &Steps::default(), &[3600.0, 20_000.0]).expect("a run");
    let svg = draw(&course, "A & <b>", Degrees::Celsius);
    assert_eq!(svg, draw(&course, "A & <b>", Degrees::Celsius));
    assert!(svg.contains("A &amp; &lt;b&gt;") && svg.contains("°C") && !svg.contains("NaN"), "{svg}");
    assert!(svg.len() < 100_000, "{} bytes", svg.len());
    let other = draw(&course, "", Degrees::Fahrenheit);
    assert!(other.contains("°F") && !other.contains("°C"));
}

/// Every figure of a scenario is spoiled in turn: a clear refusal or a finite result, never a panic, never without end.
#[test]
fn hostile_figures() {
    let bad =
        [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -1.0, 0.0, 1e-300, 1e-6, 1.0, 1e3, 1e6, 1e300, f64::MAX];
    type Spoil = fn(&mut Scenario, f64);
    let fields: [Spoil; 21] = [
        |s, v| s.section.width = v,
        |s, v| s.section.ends = Some(Ends { length: v }),
        |s, v| s.until = v,
        |s, v| s.layers[0].thickness = v,
        |s, v| s.layers[0].at = v,
        |s, v| s.layers[1].at = v,
        |s, v| s.layers[0].temperature = v,
        |s, v| s.layers[0].conversion = v,
        |s, v| s.layers[0].material.density = v,
        |s, v| s.layers[0].material.capacity = v,
        |s, v| s.layers[0].material.conductivity = v,
        |s, v| s.layers[0].material.heat = v,
        |s, v| s.layers[0].material.gels_at = v,
        |s, v| s.layers[0].kinetics.rate = v,
        |s, v| s.layers[0].kinetics.seed = v,
        |s, v| s.layers[0].kinetics.activation = v,
        |s, v| s.layers[0].kinetics.order = v,
        |s, v| s.layers[0].kinetics.self_order = v,
        |s, v| s.phases[0].air = v,
        |s, v| s.phases[0].side = v,
        |s, v| s.phases[0].from = v,
    ];
    let grid = Grid { columns: 4, rows: 4 };
    for spoil in fields {
        for value in bad {
            let mut scenario = block(1.0);
            spoil(&mut scenario, value);
            match run(&scenario, grid, &Steps::default(), &[f64::NAN, -5.0, 100.0, 1e300]) {
                Ok(course) => {
                    let last = course.moments.last().expect("a moment");
                    assert!(last.mean.is_finite() && last.conversion <= 1.0, "{value}: {last:?}");
                }
                Err(error) => assert!(error.code().starts_with("heat."), "{error}"),
            }
        }
    }
    let wrong =
        |scenario: &Scenario, grid, steps: &Steps| run(scenario, grid, steps, &[]).expect_err("refused");
    let good = block(1.0);
    for grid in [
        Grid { columns: 3, rows: 4 },
        Grid { columns: 4, rows: 0 },
        Grid { columns: usize::MAX - 1, rows: 4 },
    ] {
        assert_eq!(wrong(&good, grid, &Steps::default()), HeatError::Grid);
    }
    let few = Steps { most: 3, ..Steps::default() };
    assert_eq!(wrong(&good, grid, &few), HeatError::Steps);
    let none = Steps { longest: f64::NAN, ..Steps::default() };
    assert_eq!(wrong(&good, grid, &none).code(), "heat.parameter");
    let empty = Scenario { layers: Vec::new(), ..good.clone() };
    assert_eq!(wrong(&empty, grid, &Steps::default()), HeatError::Layers);
    let bare = Scenario { phases: Vec::new(), ..good };
    assert_eq!(wrong(&bare, grid, &Steps::default()), HeatError::Phases);
}

#[test]
fn settings_with_everything_wrong() {
    let text = r#"{
      "lamella": "heat/1",
      "walls": [{ "sheet": "wod", "thickness": "12" }],
      "surroundings": [{ "from": "1 h", "air": "21" }, { "from": "2 h", "air": "900 °C", "fan": 1 }],
      "pours": [{ "at": "0 min" }, { "at": "-3 min" }],
      "until": "3 moons",
      "own": { "rate": "0 %", "heat_within": 5 }
    }"#;
    let problems = read_setting(text).expect_err("refused");
    let found: Vec<(&str, &str)> = problems.iter().map(|p| (p.pointer.as_str(), p.code)).collect();
    for (pointer, code) in [
        ("/walls/0/sheet", "field.word"),
        ("/walls/0/thickness", "quantity.unit.missing"),
        ("/surroundings/0/air", "quantity.unit.missing"),
        ("/surroundings/1/air", "quantity.range"),
        ("/surroundings/1/fan", "field.unknown"),
        ("/pours/1/at", "quantity.range"),
        ("/until", "quantity.unit.unknown"),
        ("/own/rate", "quantity.range"),
        ("/own/heat_within", "field.type"),
    ] {
        assert!(found.contains(&(pointer, code)), "{pointer} {code} is not in {found:?}");
    }
    let order = read_setting(
        r#"{ "lamella": "heat/1", "surroundings": [{ "from": "0 h", "air": "20 °C" }, { "from": "0 h", "air": "5 °C" }],
            "pours": [{ "at": "5 min" }] }"#,
    );
    let codes: Vec<&str> = order.expect_err("refused").iter().map(|problem| problem.code).collect();
    assert_eq!(codes, ["heat.order", "heat.order"]);
    assert_eq!(read_setting(r#"{"lamella": "recipe/1"}"#).expect_err("refused")[0].code, "document.format");
    assert_eq!(read_setting("{}").expect_err("refused")[0].code, "document.format");
    for problem in problems {
        assert!(lamella::problem::CODES.iter().any(|(code, _)| *code == problem.code), "{}", problem.code);
    }

    let (recipe, plan) = planned(lamella::EXAMPLE);
    let many =
        Setting { pours: vec![lamella::heat::Pour { at: 0.0, temperature: None }; 8], ..Setting::default() };
    assert_eq!(Scenario::of(&recipe, &plan, &many).expect_err("refused")[0].code, "heat.pours");
    let elsewhere = Setting { mould: 3, ..Setting::default() };
    assert_eq!(Scenario::of(&recipe, &plan, &elsewhere).expect_err("refused")[0].code, "mould.missing");
    let soon = Setting { until: 600.0, ..Setting::default() };
    assert_eq!(Scenario::of(&recipe, &plan, &soon).expect_err("refused")[0].code, "heat.parameter");
    assert!(Sheet::Foam.resistance(0.01) > Sheet::Wood.resistance(0.01));
}
