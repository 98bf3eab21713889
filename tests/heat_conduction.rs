//! Conduction against analytic series and integrations of high order: every record of `f_heat_conduction.json`.
//!
//! Source of each: in its record (Carslaw and Jaeger 1959, Incropera and Heisler, Ozisik; lumped self-heating by two
//! integrators of `scipy` that agree to 1e-12).
#![expect(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test stops where something is not as it should be"
)]
#![expect(clippy::float_arithmetic, reason = "compares approximate solutions within tolerances")]

use lamella::heat::{
    Charge, Course, Depth, Ends, Frame, Grid, Kinetics, Material, Phase, Scenario, Section, Spot, Steps, run,
};
use serde_json::Value;

fn records(prefix: &str) -> Vec<Value> {
    let file: Value =
        serde_json::from_str(include_str!("vectors/published/f_heat_conduction.json")).expect("JSON");
    let all = file["records"].as_array().expect("a list");
    let chosen: Vec<Value> = all.iter().filter(|record| id(record).starts_with(prefix)).cloned().collect();
    assert!(!chosen.is_empty(), "no record {prefix}");
    chosen
}

fn id(record: &Value) -> &str {
    record["id"].as_str().expect("an id")
}

fn number(value: &Value) -> f64 {
    value
        .as_f64()
        .or_else(|| value.as_str().and_then(|text| text.parse().ok()))
        .unwrap_or_else(|| panic!("{value} is no number"))
}

fn numbers(value: &Value) -> Vec<f64> {
    value.as_array().expect("a list").iter().map(number).collect()
}

/// A name of a place: `x=0.5`, `r=1`.
fn place(key: &str) -> Option<f64> {
    key.split_once('=').and_then(|(_, place)| place.parse().ok())
}

#[test]
fn every_record_has_a_test() {
    let known = [
        "f.slab.",
        "f.asym.",
        "f.bar.",
        "f.source.",
        "f.poured.",
        "f.composite.",
        "f.cylinder.",
        "f.semi.",
        "f.contact.",
        "f.lumped.", // in heat_lye.rs
        "f.selfheat.",
    ];
    for record in records("f.") {
        assert!(known.iter().any(|prefix| id(&record).starts_with(prefix)), "{} has no test", id(&record));
    }
}

// Heat passes a metre-like unit length in so many seconds: the series are in lengths and Fourier numbers, so that any
// will do. 80 mm of a material of 0.3 W/(m K) and 2.5 MJ/(m³ K).
const LENGTH: f64 = 0.08;
const CONDUCTIVITY: f64 = 0.3;
const CAPACITY: f64 = 2.5e6;
const AIR: f64 = 20.0;
const SPAN: f64 = 50.0;

fn material(conductivity: f64, capacity: f64, heat: f64) -> Material {
    Material { density: 1000.0, capacity: capacity / 1000.0, conductivity, heat, gels_at: 70.0 }
}

fn inert(thickness: f64, at: f64, temperature: f64) -> Charge {
    Charge {
        name: String::new(),
        thickness,
        at,
        temperature,
        conversion: 1.0,
        material: material(CONDUCTIVITY, CAPACITY, 0.0),
        kinetics: Kinetics::default(),
    }
}

const NEVER: f64 = f64::INFINITY;

fn phase(base: f64, side: f64, top: f64) -> Phase {
    Phase { from: 0.0, air: AIR, base, side, top, end: NEVER }
}

/// A slab that conducts up and down only.
fn upright(layers: Vec<Charge>, base: f64, top: f64, until: f64) -> Scenario {
    let section = Section { depth: Depth::Straight, width: 1.0, ends: None };
    Scenario { section, layers, phases: vec![phase(base, NEVER, top)], until }
}

/// Resistance of a Biot number over a length.
fn resistance(biot: f64, length: f64) -> f64 {
    if biot > 0.0 { length / CONDUCTIVITY / biot } else { NEVER }
}

/// Seconds of a Fourier number over a length.
fn seconds(fourier: f64, length: f64) -> f64 {
    fourier * length * length * CAPACITY / CONDUCTIVITY
}

fn at(course: &Course, time: f64) -> &Frame {
    course.frames.iter().find(|frame| (frame.time - time).abs() <= 1e-9 * time).expect("a frame")
}

fn theta(temperature: f64) -> f64 {
    (temperature - AIR) / SPAN
}

/// The rows that a column has by default are for layers; the series are held to 0.1 % of the span with them.
const ROWS: usize = lamella::heat::ROWS;

/// Largest error of a course against the places of a table by Fourier number, in the unit of the table.
fn worst(
    id: &str,
    course: &Course,
    table: &Value,
    length: f64,
    seconds: impl Fn(f64) -> f64,
    of: impl Fn(f64) -> f64,
) -> f64 {
    let mut worst = 0.0_f64;
    for (fourier, places) in table.as_object().expect("an object") {
        let frame = at(course, seconds(fourier.parse().expect("a number")));
        for (key, figure) in places.as_object().expect("an object") {
            let got = match (key.as_str(), place(key)) {
                ("mean", _) => course.mean(frame, None),
                (_, Some(place)) => course.temperature_at(frame, Spot { across: 0.0, up: place * length }),
                _ => continue,
            };
            let off = (of(got) - number(figure)).abs();
            assert!(off.is_finite(), "{id}");
            worst = worst.max(off);
        }
    }
    worst
}

#[test]
fn slabs() {
    // x counts from the middle: the lower half of the section is its mirror image.
    for record in records("f.slab.") {
        let half = LENGTH / 2.0;
        let biot = record["inputs"].get("Bi").map_or(NEVER, number);
        let wall = if biot.is_finite() { resistance(biot, half) } else { 0.0 };
        let times: Vec<f64> = numbers(&record["inputs"]["Fo"]).iter().map(|fo| seconds(*fo, half)).collect();
        let until = times.last().copied().expect("times") + 1.0;
        let scenario = upright(vec![inert(half, 0.0, AIR + SPAN)], NEVER, wall, until);
        let course = run(&scenario, Grid::column(ROWS), &Steps::finer(4.0), &times).expect("a run");
        let off =
            worst(id(&record), &course, &record["expected"]["theta"], half, |fo| seconds(fo, half), theta);
        assert!(off < 1e-3, "{}: {off}", id(&record));
        assert!(course.energy.imbalance() < 1e-12, "{}: {}", id(&record), course.energy.imbalance());
    }
}

#[test]
fn slabs_with_two_faces() {
    for record in records("f.asym.") {
        let inputs = &record["inputs"];
        let [base, top] = ["B0", "B1"].map(|key| resistance(number(&inputs[key]), LENGTH));
        let times: Vec<f64> = numbers(&inputs["Fo"]).iter().map(|fo| seconds(*fo, LENGTH)).collect();
        let until = times.last().copied().expect("times") + 1.0;
        let scenario = upright(vec![inert(LENGTH, 0.0, AIR + SPAN)], base, top, until);
        let course = run(&scenario, Grid::column(ROWS), &Steps::finer(4.0), &times).expect("a run");
        let table = &record["expected"]["theta"];
        let off = worst(id(&record), &course, table, LENGTH, |fo| seconds(fo, LENGTH), theta);
        assert!(off < 1e-3, "{}: {off}", id(&record));
    }
}

#[test]
fn slabs_that_heat_themselves() {
    for record in records("f.source.") {
        let of = |key: &str| number(&record["inputs"][key]);
        let [base, top] = ["B0", "B1"].map(|key| resistance(of(key), LENGTH));
        // G = q0 L²/(k dT), lam = L²/(alpha tau): a plain reaction of the first order gives q0 exp(-t/tau).
        let rate = of("lam") * CONDUCTIVITY / CAPACITY / (LENGTH * LENGTH);
        let heat = of("G") * CONDUCTIVITY * SPAN / (LENGTH * LENGTH) / rate;
        let mut layer = inert(LENGTH, 0.0, AIR + SPAN * of("theta0"));
        layer.conversion = 0.0;
        layer.material.heat = heat;
        layer.kinetics = Kinetics { rate, seed: 0.02, activation: 0.0, order: 1.0, self_order: 0.0 };
        let table = &record["expected"]["theta"];
        let fourier = table.as_object().expect("an object").keys().map(|fo| fo.parse().expect("a number"));
        let mut times: Vec<f64> = fourier.map(|fo: f64| seconds(fo, LENGTH)).collect();
        let peak = record["expected"]["midplane_maximum"].get("Fo").map(number);
        times.extend(peak.map(|fo| seconds(fo, LENGTH)));
        let until = times.iter().copied().fold(0.0, f64::max) + 1.0;
        let course =
            run(&upright(vec![layer], base, top, until), Grid::column(ROWS), &Steps::finer(8.0), &times)
                .expect("a run");
        let off = worst(id(&record), &course, table, LENGTH, |fo| seconds(fo, LENGTH), theta);
        assert!(off < 1e-3, "{}: {off}", id(&record));
        if let Some(fo) = peak {
            let middle = Spot { across: 0.0, up: LENGTH / 2.0 };
            let got = theta(course.temperature_at(at(&course, seconds(fo, LENGTH)), middle));
            let expected = number(&record["expected"]["midplane_maximum"]["theta_mid"]);
            assert!((got - expected).abs() < 1e-3, "{}: {got}", id(&record));
        }
        assert!(course.energy.imbalance() < 1e-9, "{}: {}", id(&record), course.energy.imbalance());
    }
}

#[test]
fn one_layer_poured_on_another() {
    for record in records("f.poured.") {
        let of = |key: &str| number(&record["inputs"][key]);
        let wait = seconds(of("wait_Fo"), LENGTH);
        let lower = of("a") * LENGTH;
        let layers = vec![
            inert(lower, 0.0, AIR + SPAN * of("theta1")),
            inert(LENGTH - lower, wait, AIR + SPAN * of("theta2")),
        ];
        let table = record["expected"]["theta"].as_object().expect("an object");
        let time = |fo: &str| wait + seconds(fo.parse().expect("a number"), LENGTH);
        let times: Vec<f64> = table.keys().map(|fo| time(fo)).chain([wait]).collect();
        let until = times.iter().copied().fold(0.0, f64::max) + 1.0;
        let scenario = upright(layers, resistance(of("B0"), LENGTH), resistance(of("Btop"), LENGTH), until);
        let course = run(&scenario, Grid::column(2 * ROWS), &Steps::finer(4.0), &times).expect("a run");
        for (fo, places) in table {
            let frame = at(&course, time(fo));
            for (key, figure) in places.as_object().expect("an object") {
                let spot = |up: f64| course.temperature_at(frame, Spot { across: 0.0, up });
                let got = match key.as_str() {
                    "interface" => spot(lower),
                    "mean" => course.mean(frame, None),
                    "mean_layer1" => course.mean(frame, Some(0)),
                    "mean_layer2" => course.mean(frame, Some(1)),
                    "mean_layer1_just_before_pour" => course.mean(at(&course, wait), None),
                    other => spot(place(other).expect("a place") * LENGTH),
                };
                let off = (theta(got) - number(figure)).abs();
                assert!(off < 1e-3, "{} {fo} {key}: {off}", id(&record));
            }
        }
    }
}

#[test]
fn two_materials() {
    for record in records("f.composite.") {
        let of = |key: &str| number(&record["inputs"][key]);
        let layer = |thickness, k, c, theta| Charge {
            material: material(of(k), of(c), 0.0),
            ..inert(thickness, 0.0, AIR + of(theta))
        };
        let layers = vec![layer(of("a"), "k1", "c1", "th1"), layer(of("b") - of("a"), "k2", "c2", "th2")];
        let times = numbers(&record["inputs"]["times_s"]);
        let over = |h: f64| if h > 0.0 { 1.0 / h } else { NEVER };
        let until = times.iter().copied().fold(0.0, f64::max) + 1.0;
        let scenario = upright(layers, over(of("h0")), over(of("h1")), until);
        let course = run(&scenario, Grid::column(ROWS), &Steps::finer(4.0), &times).expect("a run");
        let span = of("th1").max(of("th2"));
        for (time, places) in record["expected"]["T_excess"].as_object().expect("an object") {
            let frame = at(&course, time.parse().expect("seconds"));
            for (key, figure) in places.as_object().expect("an object") {
                let spot = |up: f64| course.temperature_at(frame, Spot { across: 0.0, up });
                let got = match key.as_str() {
                    "interface" => spot(of("a")),
                    "top" => spot(of("b")),
                    "x=0" => spot(0.0),
                    "middle_of_layer_2" => spot((of("a") + of("b")) / 2.0),
                    "mean_layer1" => course.mean(frame, Some(0)),
                    "mean_layer2" => course.mean(frame, Some(1)),
                    other => panic!("unknown {other}"),
                };
                let off = (got - AIR - number(figure)).abs() / span;
                assert!(off < 1e-3, "{} {time} {key}: {off}", id(&record));
            }
        }
    }
}

#[test]
fn cylinders() {
    for record in records("f.cylinder.") {
        let radius = LENGTH / 2.0;
        let biot = number(&record["inputs"]["Bi"]);
        let section = Section { depth: Depth::Round, width: LENGTH, ends: None };
        let times: Vec<f64> =
            numbers(&record["inputs"]["Fo"]).iter().map(|fo| seconds(*fo, radius)).collect();
        let until = times.last().copied().expect("times") + 1.0;
        let scenario = Scenario {
            section,
            layers: vec![inert(0.1, 0.0, AIR + SPAN)],
            phases: vec![phase(NEVER, resistance(biot, radius), NEVER)],
            until,
        };
        let course =
            run(&scenario, Grid { columns: 2 * ROWS, rows: 1 }, &Steps::finer(4.0), &times).expect("a run");
        for (fo, places) in record["expected"]["theta"].as_object().expect("an object") {
            let frame = at(&course, seconds(fo.parse().expect("a number"), radius));
            for (key, figure) in places.as_object().expect("an object") {
                let got = match place(key) {
                    Some(place) => course.temperature_at(frame, Spot { across: place * radius, up: 0.05 }),
                    None => course.mean(frame, None),
                };
                let off = (theta(got) - number(figure)).abs();
                assert!(off < 1e-3, "{} {fo} {key}: {off}", id(&record));
            }
        }
        assert!(course.energy.imbalance() < 1e-12);
    }
}

/// Errors of the default grid and its refinements against the bar: places and times as recorded.
fn bar(record: &Value, grid: Grid, steps: &Steps) -> (f64, Course) {
    let of = |key: &str| number(&record["inputs"][key]);
    let over = |h: f64| if h > 0.0 { 1.0 / h } else { NEVER };
    let layer =
        Charge { material: material(of("k"), of("rho") * of("cp"), 0.0), ..inert(of("H"), 0.0, of("T0")) };
    let phase = Phase {
        from: 0.0,
        air: of("Ta"),
        base: over(of("hb")),
        side: over(of("hs")),
        top: over(of("ht")),
        end: NEVER,
    };
    let times: Vec<f64> = numbers(&record["inputs"]["hours"]).iter().map(|hours| hours * 3600.0).collect();
    let scenario = Scenario {
        section: Section { depth: Depth::Straight, width: of("W"), ends: None },
        layers: vec![layer],
        phases: vec![phase],
        until: 86_400.0,
    };
    let course = run(&scenario, grid, steps, &times).expect("a run");
    let mut worst = 0.0_f64;
    for (hours, places) in record["expected"]["T"].as_object().expect("an object") {
        let frame = at(&course, 3600.0 * hours.parse::<f64>().expect("hours"));
        let spot = |across: f64, up: f64| {
            course.temperature_at(frame, Spot { across: across * of("W"), up: up * of("H") })
        };
        for (key, figure) in places.as_object().expect("an object") {
            let got = match key.as_str() {
                "2d_centre" => spot(0.0, 0.5),
                "2d_corner_bottom_left" => spot(0.5, 0.0),
                "2d_mean" => course.mean(frame, None),
                "2d_quarter_point" => spot(0.25, 0.25),
                "2d_top_middle" => spot(0.0, 1.0),
                "3d_centre" | "3d_mean" => continue,
                other => panic!("unknown {other}"),
            };
            worst = worst.max((got - number(figure)).abs() / (of("T0") - of("Ta")));
        }
    }
    (worst, course)
}

#[test]
fn bars_at_the_default_grid_and_steps() {
    for record in records("f.bar.") {
        let (off, course) = bar(&record, Grid::default(), &Steps::default());
        println!("{}: {off:.2e} of the span in {} steps", id(&record), course.steps);
        assert!(off < 1e-3, "{}: {off}", id(&record));
        assert!(course.energy.imbalance() < 1e-12, "{}", course.energy.imbalance());
    }
}

#[test]
fn second_order_in_space() {
    for record in records("f.bar.") {
        let errors = [20, 40, 80].map(|cells| {
            let grid = Grid { columns: cells, rows: cells };
            bar(&record, grid, &Steps::finer(12.0)).0
        });
        let orders = [errors[0] / errors[1], errors[1] / errors[2]].map(f64::log2);
        println!("{}: errors {errors:?}, orders {orders:?}", id(&record));
        assert!(
            orders.iter().all(|order| (1.8..2.4).contains(order)),
            "{}: {errors:?} {orders:?}",
            id(&record)
        );
    }
}

/// A block of finite length: the section then stands for the mean along it. The ends are lumped, so that the agreement is
/// that of an approximation, within 2 % of the span.
#[test]
fn ends_of_a_block() {
    for record in records("f.bar.") {
        let of = |key: &str| number(&record["inputs"][key]);
        let (_, course) = bar(&record, Grid::default(), &Steps::default());
        let mut scenario = course.scenario().clone();
        scenario.section.ends = Some(Ends { length: of("L") });
        for phase in &mut scenario.phases {
            phase.end = 1.0 / of("he");
        }
        let times: Vec<f64> =
            numbers(&record["inputs"]["hours"]).iter().map(|hours| hours * 3600.0).collect();
        let course = run(&scenario, Grid::default(), &Steps::default(), &times).expect("a run");
        for (hours, places) in record["expected"]["T"].as_object().expect("an object") {
            let frame = at(&course, 3600.0 * hours.parse::<f64>().expect("hours"));
            let off = (course.mean(frame, None) - number(&places["3d_mean"])).abs() / (of("T0") - of("Ta"));
            assert!(off < 0.02, "{} {hours}: {off}", id(&record));
        }
        assert!(course.energy.imbalance() < 1e-12);
    }
}

#[test]
fn early_times_and_contact() {
    for record in records("f.semi.") {
        let of = |key: &str| number(&record["inputs"][key]);
        let depth = 8.0 * (of("k") / of("rho_cp") * of("t_s")).sqrt();
        let layer =
            Charge { material: material(of("k"), of("rho_cp"), 0.0), ..inert(depth, 0.0, AIR + SPAN) };
        let scenario = upright(vec![layer], NEVER, 1.0 / of("h"), of("t_s") + 1.0);
        let course = run(&scenario, Grid::column(400), &Steps::finer(4.0), &[of("t_s")]).expect("a run");
        let frame = at(&course, of("t_s"));
        let got = theta(course.temperature_at(frame, Spot { across: 0.0, up: depth - of("x_m") }));
        let off = (got - number(&record["expected"]["theta"])).abs();
        assert!(off < 1e-3, "{}: {off}", id(&record));
    }
    for record in records("f.contact.") {
        let of = |key: &str| number(&record["inputs"][key]);
        let layer = |k, c, t| Charge { material: material(of(k), of(c), 0.0), ..inert(0.05, 0.0, of(t)) };
        let layers = vec![layer("k1", "rho_cp1", "T1"), layer("k2", "rho_cp2", "T2")];
        let course =
            run(&upright(layers, NEVER, NEVER, 121.0), Grid::column(400), &Steps::finer(4.0), &[120.0]);
        let course = course.expect("a run");
        let got = course.temperature_at(at(&course, 120.0), Spot { across: 0.0, up: 0.05 });
        let off = (got - number(&record["expected"]["T_contact"])).abs() / (of("T2") - of("T1")).abs();
        assert!(off < 1e-3, "{}: {off}", id(&record));
    }
}

/// Self-heating of a body without gradients: one cell that conducts well.
#[test]
fn lumped_self_heating() {
    for record in records("f.selfheat.") {
        let of = |key: &str| number(&record["inputs"][key]);
        let times = numbers(&record["inputs"]["times_s"]);
        let kinetics = Kinetics {
            rate: of("k0"),
            seed: of("a0"),
            activation: of("E"),
            order: of("n"),
            self_order: of("m"),
        };
        let capacity = 2.5e6;
        let layer = Charge {
            name: String::new(),
            thickness: 0.05,
            at: 0.0,
            temperature: of("T0"),
            conversion: 0.0,
            material: material(1e5, capacity, of("dTad") * capacity),
            kinetics,
        };
        // tau = capacity of the cell over the conductance of its top.
        let top = of("tau") / (capacity * 0.05) - 0.025 / 1e5;
        let scenario = Scenario {
            section: Section { depth: Depth::Straight, width: 0.1, ends: None },
            layers: vec![layer],
            phases: vec![Phase { from: 0.0, air: of("Ta"), base: NEVER, side: NEVER, top, end: NEVER }],
            until: times.iter().copied().fold(0.0, f64::max) + 1.0,
        };
        let errors = |steps: &Steps| {
            let course = run(&scenario, Grid::column(1), steps, &times).expect("a run");
            let [mut off, mut degrees] = [0.0_f64; 2];
            let [temperatures, conversions] =
                ["T_C", "conversion"].map(|key| numbers(&record["expected"][key]));
            for ((time, temperature), conversion) in times.iter().zip(temperatures).zip(conversions) {
                let frame = at(&course, *time);
                degrees = degrees.max((frame.temperature[0] - temperature).abs());
                off = off.max((frame.conversion[0] - conversion).abs());
            }
            (off, degrees)
        };
        let (off, degrees) = errors(&Steps::default());
        println!("{}: {off:.1e}, {degrees:.1e} K at the default steps", id(&record));
        assert!(off < 5e-3 && degrees < 0.3, "{}: {off}, {degrees} K", id(&record));
        // The record asks for 1e-7 and 1e-5 K of an integrator of high order; steps of second order get there too.
        let (off, degrees) = errors(&Steps::finer(400.0));
        assert!(off < 1e-6 && degrees < 3e-5, "{}: {off}, {degrees} K", id(&record));
    }
}
