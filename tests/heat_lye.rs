//! Lye and films against published values: every record of `d_lye_density_cp.json`, `e_dissolution_heat.json` and
//! `n_film_coefficients.json`, each with its source beside it.
#![expect(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    reason = "a test stops where something is not as it should be"
)]
#![expect(clippy::float_arithmetic, reason = "compares physical properties within tolerances")]

use lamella::heat::film::{Air, conductance, radiation};
use lamella::heat::lye::{
    Laliberte, POTASSIUM, heat_of_dissolving, sodium_capacity, sodium_density, water_capacity, water_density,
};
use lamella::heat::{Dissolving, cooled, cooling_time, jug_constant};
use lamella::material::Alkali;
use serde_json::Value;

fn records(text: &str) -> Vec<Value> {
    let file: Value = serde_json::from_str(text).expect("the file is JSON");
    file["records"].as_array().expect("a list of records").clone()
}

fn id(record: &Value) -> &str {
    record["id"].as_str().expect("an id")
}

/// A number, written as one or as text.
fn number(value: &Value) -> f64 {
    value
        .as_f64()
        .or_else(|| value.as_str().and_then(|text| text.parse().ok()))
        .unwrap_or_else(|| panic!("{value} is no number"))
}

fn near(id: &str, what: &str, got: f64, expected: f64, relative: f64) {
    assert!((got - expected).abs() <= expected.abs() * relative, "{id} {what}: {got}, published {expected}");
}

/// Laliberte's equations with the coefficients of a year, from the record that holds them.
fn laliberte(file: &[Value], solute: &str, year: &str) -> Laliberte {
    let expected =
        &file.iter().find(|record| id(record) == "d.coefficients").expect("coefficients")["expected"];
    let list = |key: &str| -> Vec<f64> {
        expected[key][solute].as_array().expect("a list").iter().map(number).collect()
    };
    Laliberte {
        density: list(year).try_into().expect("five"),
        capacity: list("cp_a1_a6_2009").try_into().expect("six"),
    }
}

#[test]
fn density_and_heat_capacity_of_lye() {
    let file = records(include_str!("vectors/published/d_lye_density_cp.json"));
    let own = laliberte(&file, "KOH", "density_c0_c4_2009");
    assert_eq!(own, POTASSIUM, "the coefficients of the library");
    let mut checked = 0;
    for record in &file {
        let (id, inputs, expected) = (id(record), &record["inputs"], &record["expected"]);
        if let Some(solute) =
            id.strip_prefix("d.water.").map(|_| "water").or_else(|| inputs["solute"].as_str())
        {
            if expected.get("reference_kg_m3").is_some() {
                checked += against_tables(id, &file, solute, inputs, expected);
            } else if expected.get("reference_J_kgK").is_some() {
                checked += capacity_against_perry(id, &file, solute, inputs, expected);
            } else if solute == "water" {
                let t = number(&inputs["t_C"]);
                near(id, "density", water_density(t), number(&expected["density_kg_m3"]), 1e-5);
                // The record asks for 1e-5 of the scheme it was computed with, which joins parabolas with kinks between
                // multiples of five degrees. Ours is a cubic through the same nodes: equal there, 5e-5 off at 4 °C.
                let tolerance = if t % 5.0 == 0.0 { 1e-5 } else { 1e-4 };
                near(id, "capacity", 1000.0 * water_capacity(t), number(&expected["cp_J_kgK"]), tolerance);
                checked += 2;
            } else {
                checked += curves(id, &file, solute, inputs, expected);
            }
        } else {
            // d.coefficients is used by all; d.verdict.density restates the comparisons above.
            assert!(matches!(id, "d.coefficients" | "d.verdict.density"), "{id} is not checked");
        }
    }
    assert!(checked > 600, "{checked} figures");
}

/// Every equation against temperature at one mass share.
fn curves(id: &str, file: &[Value], solute: &str, inputs: &Value, expected: &Value) -> usize {
    let w = number(&inputs["w"]);
    let newer = laliberte(file, solute, "density_c0_c4_2009");
    let older = laliberte(file, solute, "density_c0_c4_2004_from_memory");
    let mut checked = 0;
    for (key, figures) in expected.as_object().expect("an object") {
        let of: Box<dyn Fn(f64) -> f64> = match key.as_str() {
            "cp_J_kgK_Laliberte2009" => Box::new(move |t| 1000.0 * newer.capacity(w, t)),
            "cp_J_kgK_Olsson1997" => Box::new(move |t| 1000.0 * sodium_capacity(w, t)),
            "density_kg_m3_Laliberte2009" => Box::new(move |t| newer.density(w, t)),
            "density_kg_m3_Laliberte_Cooper2004_coefficients_from_memory" => {
                Box::new(move |t| older.density(w, t))
            }
            "density_kg_m3_Olsson1997" => Box::new(move |t| sodium_density(w, t)),
            "cp_w_in_fitted_range" | "density_w_in_fitted_range" => continue,
            other => panic!("{id}: unknown {other}"),
        };
        for (t, figure) in figures.as_object().expect("an object") {
            // To 1e-7, or to the last digit that is printed.
            let printed = figure.as_str().and_then(|text| text.split_once('.')).map_or(0, |(_, d)| d.len());
            let digit = 0.51 * 10.0_f64.powi(-i32::try_from(printed).expect("few"));
            let relative = 1e-7_f64.max(digit / number(figure));
            near(id, key, of(t.parse().expect("a temperature")), number(figure), relative);
            checked += 1;
        }
    }
    checked
}

/// The differences that the record states, and what the library uses against the reference itself.
fn against_tables(id: &str, file: &[Value], solute: &str, inputs: &Value, expected: &Value) -> usize {
    let (w, t) = (number(&inputs["w"]), number(&inputs["t_C"]));
    let reference = number(&expected["reference_kg_m3"]);
    let percent = |density: f64| 100.0 * (density / reference - 1.0);
    let mut checked = 0;
    for (key, figure) in expected.as_object().expect("an object") {
        let density = match key.as_str() {
            "Laliberte2009_minus_ref_percent" => laliberte(file, solute, "density_c0_c4_2009").density(w, t),
            "Laliberte_Cooper2004_minus_ref_percent" => {
                laliberte(file, solute, "density_c0_c4_2004_from_memory").density(w, t)
            }
            "Olsson1997_minus_ref_percent" => sodium_density(w, t),
            _ => continue,
        };
        assert!((percent(density) - number(figure)).abs() < 6e-4 + 1e-3, "{id} {key}: {}", percent(density));
        checked += 1;
    }
    // Sodium: within 0.2 % of every table. Potassium: within 0.1 % of Perry; the CRC column is doubtful and lies 0.3 to
    // 0.7 % below, as the record says.
    let allowed = match (solute, id.contains("CRC")) {
        ("NaOH", _) => 0.2,
        (_, true) => 0.8,
        (_, false) => 0.1,
    };
    let own = if solute == "NaOH" { sodium_density(w, t) } else { POTASSIUM.density(w, t) };
    assert!(percent(own).abs() <= allowed, "{id}: {} %", percent(own));
    checked + 1
}

fn capacity_against_perry(id: &str, file: &[Value], solute: &str, inputs: &Value, expected: &Value) -> usize {
    let (w, t) = (number(&inputs["w"]), number(&inputs["t_C"]));
    let reference = number(&expected["reference_J_kgK"]);
    let mut checked = 0;
    for (key, figure) in expected.as_object().expect("an object") {
        let capacity = match key.as_str() {
            "Laliberte2009_minus_ref_percent" => laliberte(file, solute, "density_c0_c4_2009").capacity(w, t),
            "Olsson1997_minus_ref_percent" => sodium_capacity(w, t),
            _ => continue,
        };
        let percent = 100.0 * (1000.0 * capacity / reference - 1.0);
        // The mass share is printed to four digits, which moves the capacity by up to 0.02 %.
        assert!((percent - number(figure)).abs() < 0.04, "{id} {key}: {percent}");
        assert!(percent.abs() < 8.0, "{id}: the spread between sources is larger than said");
        checked += 1;
    }
    checked
}

const SODIUM: f64 = 39.997;
const WATER: f64 = 18.015;

fn moles_of_water(share: f64) -> f64 {
    (1.0 - share) / WATER / (share / SODIUM)
}

#[test]
fn heat_of_dissolving_and_what_it_warms() {
    let file = records(include_str!("vectors/published/e_dissolution_heat.json"));
    let mut kinds = [0; 6];
    for record in &file {
        let (id, inputs, expected) = (id(record), &record["inputs"], &record["expected"]);
        if id == "e.infinite" {
            // The record's modern sources lie within 0.5 kJ/mol of each other, and 1.6 above the table of 1952.
            let far = |alkali| -heat_of_dissolving(alkali, 1e12);
            assert!((far(Alkali::SodiumHydroxide) - -44.505).abs() < 1e-6, "{id}");
            assert!(
                (far(Alkali::PotassiumHydroxide) - number(&expected["KOH"]["Parker_1965"])).abs() < 0.5,
                "{id}"
            );
            assert!(
                (far(Alkali::SodiumHydroxide) - number(&expected["NaOH"]["Parker_1965"])).abs() < 0.5,
                "{id}"
            );
            kinds[0] += 1;
        } else if id == "e.table" {
            // Routes B and C are anchored where the tables of 1982 are; A is the table of 1952, 1.6 kJ/mol smaller, which
            // the tables of 1982 replace. A's course is the same: it is checked after that shift.
            for (route, shift, tolerance) in
                [("route_A", 1.62, 0.45), ("route_B", 0.0, 0.45), ("route_C", 0.0, 0.3)]
            {
                for (moles, heat) in expected[route].as_object().expect("an object") {
                    let own = -heat_of_dissolving(Alkali::SodiumHydroxide, moles.parse().expect("moles"));
                    assert!((own + shift - number(heat)).abs() <= tolerance, "{id} {route} {moles}: {own}");
                    kinds[1] += 1;
                }
            }
        } else if id.starts_with("e.adiabatic") {
            let (w, t) = (number(&inputs["w"]), number(&inputs["t0_C"]));
            let lye = Dissolving {
                sodium: 1000.0 * w,
                water: 1000.0 * (1.0 - w),
                alkali_at: t,
                water_at: t,
                ..Dissolving::AT_25
            };
            let outcome = lye.outcome().expect("a lye");
            let bracket = expected["T_final_C_bracket"].as_array().expect("two");
            let (low, high) = (number(&bracket[0]) - 2.0, number(&bracket[1]) + 2.0);
            assert!((low..=high).contains(&outcome.temperature), "{id}: {}", outcome.temperature);
            near(id, "water to alkali", moles_of_water(w), number(&inputs["mol_water_per_mol"]), 1e-4);
            // Route C is an independent one: Olsson's enthalpies.
            let heat = number(&expected["route_C"]["heat_kJ_per_kg_solution"]);
            near(id, "heat", outcome.heat / 1e6, heat / 1000.0, 0.02);
            kinds[2] += 1;
        } else if id.starts_with("e.dilute50") {
            let [from, to] = ["w_start", "w_end"].map(|key| number(&inputs[key]));
            let of = |w| heat_of_dissolving(Alkali::SodiumHydroxide, moles_of_water(w));
            let own = of(from) - of(to);
            assert!((own - number(&expected["dH_dilution_kJ_mol"])).abs() <= 0.7, "{id}: {own}");
            // The heat of dilution warms the lye from 25 °C.
            let heat = -own * 1000.0 * (1000.0 * to / SODIUM);
            let end = 25.0 + heat / (1000.0 * lamella::heat::lye::capacity(to, 0.0, 40.0));
            assert!((end - number(&expected["T_final_C_cp_Olsson"])).abs() <= 4.0, "{id}: {end}");
            for (route, key) in
                [(1.0, "check_dilution_A_from_r3_kJ_mol"), (1.0, "check_dilution_C_from_r3_kJ_mol")]
            {
                let own = heat_of_dissolving(Alkali::SodiumHydroxide, 3.0) - of(to);
                assert!((own * route - number(&expected[key])).abs() <= 0.7, "{id} {key}: {own}");
            }
            kinds[3] += 1;
        } else if id.starts_with("e.constcp") {
            // A definition, not a model of this library: it never takes one heat capacity for all temperatures. Its
            // arithmetic is that of the energy balance, which must give the same when its own figures are put in.
            let of = |key: &str| number(&inputs[key]);
            let heat = of("NaOH_g") / 39.9971 * of("heat_kJ_mol") * 1000.0;
            let rise = heat / ((of("NaOH_g") + of("water_g")) * of("cp_J_gK"));
            near(id, "rise", rise, number(&expected["dT_K"]), 1e-4);
            kinds[4] += 1;
        } else {
            assert!(id.starts_with("e.koh.upper"), "{id} is not checked");
            let w = number(&inputs["w"]);
            let lye = Dissolving { potassium: 1000.0 * w, water: 1000.0 * (1.0 - w), ..Dissolving::AT_25 };
            let outcome = lye.outcome().expect("a lye");
            let upper = number(&expected["T_final_C_upper"]);
            assert!(outcome.temperature < upper, "{id}: {} is no less than {upper}", outcome.temperature);
            assert!(outcome.temperature > upper - 6.0, "{id}: {}", outcome.temperature);
            kinds[5] += 1;
        }
    }
    assert_eq!(kinds.iter().filter(|checked| **checked == 0).count(), 0, "{kinds:?}");
}

/// Computed from the NBS tables and the equations for lye apart, with everything at 25 °C (20 °C columns elsewhere).
#[test]
fn lye_that_loses_nothing() {
    let sodium = [
        (20.0, 84.2),
        (25.0, 97.3),
        (28.0, 104.1),
        (30.0, 108.0),
        (33.33, 113.5),
        (35.0, 115.7),
        (40.0, 119.7),
    ];
    for (percent, expected) in sodium {
        let lye = Dissolving { sodium: percent, water: 100.0 - percent, ..Dissolving::AT_25 };
        let got = lye.outcome().expect("a lye");
        assert!((got.temperature - expected).abs() < 0.5, "{percent} %: {}", got.temperature);
        assert!(got.temperature < got.boils_at);
    }
    let potassium = [(20.0, 84.7, 70.6), (30.0, 119.5, 96.3), (33.33, 131.2, 104.6), (40.0, 153.8, 120.0)];
    for (percent, pure, flake) in potassium {
        let lye = Dissolving { potassium: percent, water: 100.0 - percent, ..Dissolving::AT_25 };
        let bound = percent / 9.0;
        let flaked = Dissolving { bound_water: bound, water: lye.water - bound, ..lye };
        for (lye, expected) in [(lye, pure), (flaked, flake)] {
            let got = lye.outcome().expect("a lye").temperature;
            assert!((got - expected).abs() < 2.0, "{percent} %: {got}, {expected}");
        }
    }
}

#[test]
fn ice_cools_and_may_be_left() {
    // By Hess: melt at 0 °C (333.6 J/g), warm the water to 25 °C (104.8 J/g), dissolve there (299.9, 316.5, 328.0 J/g of
    // lye by the NBS tables), warm or cool the lye with 3.6, 3.57, 3.47 J/(g K). A rough estimate that goes round, 18, 26
    // and 37 °C, is 5 K lower; the balance does not bear it out.
    for (percent, expected) in [(30.0, 23.1), (33.33, 31.8), (40.0, 43.7)] {
        let lye = Dissolving { sodium: percent, ice: 100.0 - percent, ..Dissolving::AT_25 };
        let got = lye.outcome().expect("a lye");
        assert!((got.temperature - expected).abs() < 0.5, "{percent} %: {}", got.temperature);
        assert_eq!(got.ice_left, 0.0);
    }
    let weak = Dissolving { sodium: 10.0, ice: 190.0, ice_at: -18.0, ..Dissolving::AT_25 };
    let got = weak.outcome().expect("a lye");
    assert!(got.temperature == 0.0 && got.ice_left > 100.0 && got.ice_left < 190.0, "{got:?}");
    for wrong in [
        Dissolving { sodium: f64::NAN, water: 1.0, ..Dissolving::AT_25 },
        Dissolving { sodium: -1.0, water: 1.0, ..Dissolving::AT_25 },
        Dissolving { water_at: 1e9, water: 1.0, ..Dissolving::AT_25 },
        Dissolving { sodium: 100.0, ..Dissolving::AT_25 },
    ] {
        assert_eq!(wrong.outcome().expect_err("wrong").code(), "heat.parameter");
    }
}

#[test]
fn newton_cooling() {
    let file = records(include_str!("vectors/published/f_heat_conduction.json"));
    let mut checked = 0;
    for record in file.iter().filter(|record| id(record).starts_with("f.lumped")) {
        let of = |key: &str| number(&record["inputs"][key]);
        let expected = record["expected"].as_object().expect("an object");
        let constant = of("mass_kg") * of("cp") / (of("U") * of("A"));
        for (key, figure) in expected {
            let got = if key == "tau_s" {
                constant
            } else if let Some(target) = key.strip_prefix("time_to_") {
                cooling_time(of("T0"), of("Ta"), target.parse().expect("a target"), constant).expect("a time")
            } else {
                let seconds = key.trim_start_matches("T(").trim_end_matches(" s)").parse().expect("seconds");
                cooled(of("T0"), of("Ta"), constant, seconds)
            };
            near(id(record), key, got, number(figure), 2e-11);
            checked += 1;
        }
    }
    assert!(checked >= 10);
    // A litre of lye in air needs the better part of an hour to lose two thirds of its excess, in water a few minutes.
    let capacity = 3.6 * 1300.0;
    assert!((1.0..3.0).contains(&(jug_constant(capacity, 1.0, 11.0) / 3600.0)));
    assert!((3.0..15.0).contains(&(jug_constant(capacity, 1.0, 200.0) / 60.0)));
}

#[test]
fn films_and_walls() {
    let file = records(include_str!("vectors/published/n_film_coefficients.json"));
    for record in &file {
        let (id, inputs, expected) = (id(record), &record["inputs"], &record["expected"]);
        let of = |key: &str| number(&inputs[key]);
        if id.starts_with("n.u") {
            let layers = inputs["layers_thickness_m_k"].as_array().expect("layers");
            let resistances: Vec<f64> =
                layers.iter().map(|layer| number(&layer[0]) / number(&layer[1])).collect();
            near(id, "U", conductance(of("h"), &resistances), number(&expected["U"]["decimal"]), 1e-15);
            continue;
        }
        let air = Air::between(of("surface_C"), of("air_C"));
        let length = of("L_m") * of("W_m") / (2.0 * (of("L_m") + of("W_m")));
        let side = air.side(of("H_m"));
        let figures = [
            ("Gr_side", air.grashof(of("H_m"))),
            ("Lc_area_over_perimeter", length),
            ("Nu_side", side * of("H_m") / air.conductivity),
            ("Nu_top", air.top(length) * length / air.conductivity),
            ("Nu_bottom", air.bottom(length) * length / air.conductivity),
            ("Pr", air.prandtl),
            ("h_side", side),
            ("h_top", air.top(length)),
            ("h_bottom", air.bottom(length)),
            ("h_radiation", radiation(of("surface_C"), of("air_C"))),
        ];
        for (key, got) in figures {
            near(id, key, got, number(&expected[key]), 1e-6);
        }
        near(id, "k", air.conductivity, number(&expected["air"]["k"]), 1e-6);
    }
}
