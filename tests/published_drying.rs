//! Drying curves fitted to weighings, and masses after drying, against published check values, record by record.
//!
//! Source of the values: `scipy.optimize.curve_fit` and mpmath, as the file says. Tolerances are those of its records.
#![expect(
    clippy::unwrap_used,
    clippy::float_arithmetic,
    reason = "a test stops at what it did not expect; a fit is approximate"
)]

use lamella::cure::{Fit, Point, dried};
use lamella::quantity::{Exact, Mass, Share};
use lamella_tests::published::{covered, id, number, records, text};
use serde_json::Value;

const FILE: &str = "k_drying_fit";

fn float(value: &Value) -> f64 {
    text(value).parse().unwrap()
}

fn floats(value: &Value) -> Vec<f64> {
    value.as_array().unwrap().iter().map(float).collect()
}

fn near(ours: f64, published: f64, relative: f64, what: &str) {
    assert!((ours - published).abs() <= relative * published.abs(), "{what}: {ours} is not {published}");
}

fn fit(inputs: &Value) -> Fit {
    let (ages, masses) = (floats(&inputs["t"]), floats(&inputs["m"]));
    let uncertainties = match &inputs["sigma_relative"] {
        Value::Null => vec![1.0; ages.len()],
        list => floats(list),
    };
    let points: Vec<Point> = ages
        .into_iter()
        .zip(masses)
        .zip(uncertainties)
        .map(|((age, mass), uncertainty)| Point { age, mass, uncertainty })
        .collect();
    Fit::of(&points).unwrap()
}

#[test]
fn fits() {
    covered(FILE, &["k.fit.", "k.balance."]);
    for record in records(FILE, "k.fit.") {
        let id = id(&record);
        let (fit, wanted) = (fit(&record["inputs"]), &record["expected"]);
        near(fit.equilibrium, float(&wanted["m_inf"]), 1e-8, id);
        near(fit.initial, float(&wanted["m0"]), 1e-8, id);
        near(fit.rate, float(&wanted["k"]), 1e-8, id);
        near(fit.half_time(), float(&wanted["half_time"]), 1e-8, id);
        near(fit.time_to(0.99), float(&wanted["t_to_99pct_of_loss"]), 1e-8, id);
        let [equilibrium, initial, rate] = fit.errors();
        let errors = &wanted["standard_errors"];
        near(equilibrium, float(&errors["m_inf"]), 1e-6, id);
        near(initial, float(&errors["m0"]), 1e-6, id);
        near(rate, float(&errors["k"]), 1e-6, id);
        let [[_, ab, ac], [_, _, bc], _] = fit.covariance;
        let correlation = &wanted["correlation"];
        near(ab / (equilibrium * initial), float(&correlation["m_inf_m0"]), 1e-6, id);
        near(ac / (equilibrium * rate), float(&correlation["m_inf_k"]), 1e-6, id);
        near(bc / (initial * rate), float(&correlation["m0_k"]), 1e-6, id);
        near(fit.residual, float(&wanted["residual_sd"]), 1e-6, id);
        near(fit.squares, float(&wanted["ssr_weighted"]), 1e-6, id);
        assert_eq!(u64::from(fit.freedom), wanted["degrees_of_freedom"].as_u64().unwrap(), "{id}");
        let prediction = &wanted["prediction"];
        let there = fit.at(float(&prediction["t"]));
        near(there.mass, float(&prediction["m"]), 1e-8, id);
        near(there.error, float(&prediction["se"]), 1e-6, id);
        let interval = floats(&prediction["ci95"]);
        near(there.mean.0, interval[0], 1e-8, id);
        near(there.mean.1, interval[1], 1e-8, id);
    }
}

/// The fit does not depend on the unit of time, nor on where the weighings begin.
#[test]
fn units_of_time_do_not_matter() {
    for record in records(FILE, "k.fit.") {
        let id = id(&record);
        let inputs = &record["inputs"];
        let of = |factor: f64| {
            let ages = floats(&inputs["t"]).into_iter().map(|age| age * factor);
            let points: Vec<Point> = ages
                .zip(floats(&inputs["m"]))
                .map(|(age, mass)| Point { age, mass, uncertainty: 1.0 })
                .collect();
            Fit::of(&points).unwrap()
        };
        let (days, hours) = (of(1.0), of(24.0));
        near(hours.equilibrium, days.equilibrium, 1e-9, id);
        near(hours.rate * 24.0, days.rate, 1e-8, id);
    }
}

#[test]
fn balances() {
    for record in records(FILE, "k.balance.") {
        let inputs = &record["inputs"];
        let mass = Mass::try_new(number(&inputs["m0"])).unwrap();
        let share = |key: &str| Share::try_new(number(&inputs[key])).unwrap();
        let dry = dried(mass, share("water_fraction_start"), share("water_fraction_end")).unwrap();
        let wanted = number(&record["expected"]["m_end"]);
        assert_eq!(Some(dry.value()), wanted.published(), "{}", id(&record));
        let lost = (mass - dry).exact() / mass.exact();
        let wanted = number(&record["expected"]["loss_fraction"]);
        let gap = lost - wanted;
        assert!(!(gap.max(-gap) - Exact::literal(1, 15)).is_positive(), "{}", id(&record));
    }
}
