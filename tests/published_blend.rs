//! Blends against published check values, record by record: optima, demands that conflict, fits to a profile, at most so
//! many fats.
//!
//! The fats of the records are made up: each is taken as free fatty acids, of which a gram holds a gram of acids, so that
//! shares in the fatty acids are the means that the records reckon with.
#![expect(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test stops at what it did not expect"
)]

use lamella::blend::{self, Aim, Answer, Candidate, Demand, Measure, NoBlend, Request};
use lamella::material::{AcidShare, FatKind, FattyAcid, Ranged, library};
use lamella::quantity::{
    Currency, Decimal, Exact, IodineValue, Mass, Money, Price, SaponificationValue, Share,
};
use lamella::recipe::Certificate;
use serde_json::Value;

fn records(what: &str) -> Vec<Value> {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/vectors/published/h_blend_lp.json");
    let text = std::fs::read_to_string(path).expect("the vectors are checked in");
    let file: Value = serde_json::from_str(&text).expect("the vectors are JSON");
    let all = file["records"].as_array().expect("a list of records");
    let found: Vec<_> =
        all.iter().filter(|record| record["id"].as_str().is_some_and(|id| id.starts_with(what))).collect();
    assert!(!found.is_empty(), "records {what}");
    found.into_iter().cloned().collect()
}

fn exact(value: &Value) -> Exact {
    let text = value.as_str().unwrap_or_else(|| panic!("{value} is not a number as text"));
    // Some have more digits than a decimal holds.
    let text = text.get(..28).unwrap_or(text);
    Exact::from(text.parse::<Decimal>().expect("a decimal"))
}

fn share(value: &Value) -> Share {
    Share::try_new(exact(value)).expect("a share")
}

fn percent(value: &Value) -> Share {
    Share::try_new(exact(value) / Exact::HUNDRED).expect("a share")
}

/// The acid that stands for a class of the records.
fn acid(class: &str) -> FattyAcid {
    match class {
        "C8-C10" => FattyAcid::new(8, 0),
        "C12-C14" => FattyAcid::new(12, 0),
        "C16-C18 saturated" => FattyAcid::new(16, 0),
        "oleic" => FattyAcid::new(18, 1),
        "polyunsaturated" => FattyAcid::new(18, 2),
        "ricinoleic" => FattyAcid { hydroxyls: 1, ..FattyAcid::new(18, 1) },
        _ => panic!("no class {class}"),
    }
}

fn candidate(name: &str, profile: &[(FattyAcid, Share)], price: &Value, lo: &Value, hi: &Value) -> Candidate {
    let mut fat = library::fat("stearic-acid-95").expect("it is there").clone();
    assert_eq!(fat.kind, FatKind::FreeFattyAcid);
    fat.id = name.to_owned().into();
    fat.name = name.to_owned().into();
    let line = |(acid, share): &(FattyAcid, Share)| AcidShare { acid: *acid, share: Ranged::exactly(*share) };
    fat.profile = profile.iter().map(line).collect();
    let money = Money::try_new(exact(price), Currency::try_new("EUR").expect("a code")).expect("money");
    let mut candidate = Candidate::new(fat, Certificate::default());
    candidate.price = Some(Price::try_new(money, Mass::literal(1000, 0)).expect("a price"));
    candidate.min = share(lo);
    candidate.max = share(hi);
    candidate
}

fn window(measure: Measure, window: &Value, scale: Exact) -> Demand {
    let bound = |index: usize| (exact(&window[index]) / scale).decimal();
    Demand { measure, at_least: bound(0), at_most: bound(1), target: None }
}

fn request(record: &Value) -> Request {
    let inputs = &record["inputs"];
    let mut fats = Vec::new();
    let mut demands = Vec::new();
    if let Some(list) = inputs["fats"].as_array() {
        let classes: Vec<&str> =
            inputs["classes"].as_array().expect("classes").iter().filter_map(Value::as_str).collect();
        for (index, fat) in list.iter().enumerate() {
            let shares = fat["profile_percent"].as_array().expect("a profile");
            let profile: Vec<_> =
                classes.iter().zip(shares).map(|(class, share)| (acid(class), percent(share))).collect();
            let name = fat["name"].as_str().expect("a name");
            let mut candidate =
                candidate(name, &profile, &fat["price"], &inputs["lo"][index], &inputs["hi"][index]);
            candidate.iodine_value = Some(IodineValue::try_new(exact(&fat["iv"])).expect("a value"));
            candidate.fat.saponification_value =
                Ranged::exactly(SaponificationValue::try_new(exact(&fat["sv"])).expect("a value"));
            fats.push(candidate);
        }
        if let Some(windows) = inputs["class_windows_percent"].as_object() {
            for (class, bounds) in windows {
                demands.push(window(Measure::Acid(acid(class)), bounds, Exact::HUNDRED));
            }
            demands.push(window(Measure::IodineValue, &inputs["iv_window"], Exact::ONE));
            demands.push(window(Measure::SaponificationValue, &inputs["sv_window"], Exact::ONE));
        }
        if let Some(targets) = inputs["target_percent"].as_array() {
            for (class, target) in classes.iter().zip(targets) {
                demands.push(Demand {
                    measure: Measure::Acid(acid(class)),
                    at_least: None,
                    at_most: None,
                    target: Some(percent(target).value()),
                });
            }
        }
    } else {
        for (index, name) in inputs["names"].as_array().expect("names").iter().enumerate() {
            let oleic = percent(&inputs["oleic_percent"][index]);
            let profile =
                [(FattyAcid::new(18, 1), oleic), (FattyAcid::new(16, 0), Share::literal(1, 0) - oleic)];
            let name = name.as_str().expect("a name");
            let (lo, hi) = (&inputs["lo"][index], &inputs["hi"][index]);
            fats.push(candidate(name, &profile, &inputs["prices"][index], lo, hi));
        }
        demands.push(window(Measure::Acid(FattyAcid::new(18, 1)), &inputs["oleic_window"], Exact::HUNDRED));
    }
    Request {
        name: record["id"].as_str().expect("an id").to_owned(),
        note: String::new(),
        size: None,
        step: None,
        fats_at_most: inputs["max_fats"].as_u64().map(|most| u32::try_from(most).expect("few")),
        fats,
        demands,
        aims: vec![Aim::Cheapest],
    }
}

/// Within 1e-7 of it, relative to the larger of it and one.
fn near(value: Exact, wanted: Exact, what: &str) {
    let off = (value - wanted).max(wanted - value);
    let allowed = Exact::literal(1, 7) * Exact::ONE.max(wanted);
    assert!(!(off - allowed).is_positive(), "{what}: {value:?}, wanted {wanted:?}");
}

/// Shares sum to one, lie within their limits, and miss no bound by more than a billionth; looked at here afresh.
fn feasible(request: &Request, answer: &Answer) {
    let sum: Share = answer.fats.iter().map(|fat| fat.share).sum();
    assert_eq!(sum, Share::literal(1, 0), "{}", request.name);
    for (fat, candidate) in answer.fats.iter().zip(&request.fats) {
        assert!(candidate.min <= fat.share && fat.share <= candidate.max, "{} {}", request.name, fat.fat);
    }
    for demand in &answer.demands {
        let room = Exact::literal(1, 9) * if demand.unit.is_empty() { Exact::ONE } else { Exact::HUNDRED };
        let value = Exact::from(demand.value);
        let low = demand.at_least.is_some_and(|bound| (Exact::from(bound) - value - room).is_positive());
        let high = demand.at_most.is_some_and(|bound| (value - Exact::from(bound) - room).is_positive());
        assert!(!low && !high, "{} {demand:?}", request.name);
    }
}

fn shares(answer: &Answer, wanted: &Value, what: &str) {
    for (fat, wanted) in answer.fats.iter().zip(wanted.as_array().expect("shares")) {
        near(fat.share.exact(), exact(wanted), what);
    }
}

#[test]
fn the_cheapest_blends() {
    for record in records("h.lp").iter().chain(&records("h.mip")) {
        let expected = &record["expected"];
        if expected["status"] == "infeasible" {
            continue;
        }
        let request = request(record);
        let answer = blend::solve(&request).unwrap_or_else(|error| panic!("{}: {error}", request.name));
        feasible(&request, &answer);
        assert!(answer.miss.is_zero(), "{}", request.name);
        let wanted = exact(&expected["objective"]);
        near(Exact::from(answer.aims[0].value), wanted, &request.name);
        shares(&answer, &expected["x"], &request.name);
        let bound = Exact::from(answer.aims[0].bound.expect("a proof"));
        assert!(!(bound - wanted - Exact::literal(1, 11)).is_positive(), "{} is no bound", request.name);
        let Some(reduced) = expected["reduced_costs"].as_array() else { continue };
        near(bound, wanted, &request.name);
        for ((fat, candidate), reduced) in answer.fats.iter().zip(&request.fats).zip(reduced) {
            if fat.share.is_zero() && candidate.min.is_zero() {
                near(fat.too_dear_by.map_or(Exact::ZERO, Exact::from), exact(reduced), &request.name);
            }
        }
    }
}

#[test]
fn demands_that_conflict() {
    let mut seen = 0_u32;
    for record in records("h.lp") {
        if record["expected"]["status"] != "infeasible" {
            continue;
        }
        let request = request(&record);
        let Err(NoBlend::Conflict(conflict)) = blend::solve(&request) else { panic!("{}", request.name) };
        assert!(conflict.proved && !conflict.members.is_empty(), "{}", request.name);
        assert_eq!(conflict.members.len(), conflict.words.len());
        let nearest = conflict.nearest.expect("the limits of the fats allow a blend");
        near(Exact::from(nearest.points), exact(&record["expected"]["least_total_violation"]), &request.name);
        seen = seen.saturating_add(1);
    }
    assert_eq!(seen, 3);
}

#[test]
fn fits_to_a_profile() {
    for record in records("h.fit") {
        let mut request = request(&record);
        let largest = record["what"].as_str().is_some_and(|what| what.starts_with("smallest largest"));
        request.aims = vec![if largest { Aim::LeastWorstMiss } else { Aim::NearestTargets }];
        let answer = blend::solve(&request).unwrap_or_else(|error| panic!("{}: {error}", request.name));
        feasible(&request, &answer);
        near(Exact::from(answer.aims[0].value), exact(&record["expected"]["objective"]), &request.name);
        if record["expected"]["unique_optimum"] == true {
            shares(&answer, &record["expected"]["x"], &request.name);
        }
    }
}

#[test]
fn corners_worked_by_hand() {
    for record in records("h.hand") {
        let request = request(&record);
        let answer = blend::solve(&request).unwrap_or_else(|error| panic!("{}: {error}", request.name));
        feasible(&request, &answer);
        near(Exact::from(answer.aims[0].value), exact(&record["expected"]["objective"]), &request.name);
        let Some(wanted) = record["expected"]["x_exact"].as_array() else {
            let settled = blend::settled(&request).expect("it has a blend");
            assert_eq!(settled, [None, None, Some(0)], "a and b can be exchanged for each other");
            continue;
        };
        for (fat, wanted) in answer.fats.iter().zip(wanted) {
            assert_eq!(fat.share.exact(), exact(&wanted["num"]) / exact(&wanted["den"]), "{}", request.name);
        }
    }
}
