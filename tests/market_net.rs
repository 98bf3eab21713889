//! Net quantities against `vectors/published/l_prepackages.json`: every record.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at what it did not expect; its records have the fields that they name"
)]

use lamella::market::Market;
use lamella::market::net::{self, Loss, LotError, Rounding, Weights};
use lamella::quantity::{Decimal, Exact, Mass, Share};
use serde_json::Value;

fn decimal(value: &Value) -> Decimal {
    value.as_str().map_or_else(|| value.to_string(), str::to_owned).parse().unwrap()
}

fn grams(value: &Value) -> Mass {
    Mass::try_new(decimal(value)).unwrap()
}

fn mass(text: &str) -> Mass {
    text.parse().unwrap()
}

/// Whether two numbers agree to the relative tolerance of the records, 1e-9.
fn close(found: Exact, wanted: Decimal) -> bool {
    let wanted = Exact::from(wanted);
    let off = (found - wanted) / wanted;
    !(off.max(-off) - Exact::literal(1, 9)).is_positive()
}

fn error(record: &Value, id: &str) {
    let nominal = grams(&record["inputs"]["Qn_g"]);
    let (wanted, found) =
        (&record["expected"], net::tolerable_error(nominal, Rounding::TenthsThenGrams).unwrap());
    assert_eq!(found, grams(&wanted["tne"]), "{id}");
    assert_eq!(nominal - found, grams(&wanted["TU1"]), "{id}");
    assert_eq!(nominal - found - found, grams(&wanted["TU2"]), "{id}");
    if nominal <= mass("1 kg") {
        assert_eq!(net::tolerable_error(nominal, Rounding::Tenths), Some(found), "{id}");
    }
}

fn lot(record: &Value, id: &str) {
    let (inputs, wanted) = (&record["inputs"], &record["expected"]);
    let sample: Vec<Mass> = inputs["sample_g"].as_array().unwrap().iter().map(grams).collect();
    let found = net::lot(grams(&inputs["Qn_g"]), &sample, Rounding::Tenths).unwrap();
    assert_eq!(u64::try_from(found.size).unwrap(), wanted["n"].as_u64().unwrap(), "{id}");
    assert_eq!(found.error, grams(&wanted["tne"]), "{id}");
    assert_eq!(u64::try_from(found.below_one).unwrap(), wanted["number_below_TU1"], "{id}");
    assert_eq!(u64::try_from(found.below_two).unwrap(), wanted["number_below_TU2"], "{id}");
    assert_eq!(found.mean_holds, wanted["mean_at_least_nominal"].as_bool().unwrap(), "{id}");
    assert_eq!(found.mean_accepted, wanted["mean_accepted"].as_bool().unwrap(), "{id}");
    let fraction =
        |name: &str| Exact::from(decimal(&wanted[name]["num"])) / Exact::from(decimal(&wanted[name]["den"]));
    assert_eq!(Some(found.mean.value()), fraction("mean").published(), "{id}");
    assert_eq!(Some(found.variance), fraction("variance").rounded(18), "{id}");
    assert!(close(found.mean_limit.exact(), decimal(&wanted["mean_limit"])), "{id}: {}", found.mean_limit);
}

#[test]
fn every_record_is_held() {
    let records: Value = serde_json::from_str(include_str!("vectors/published/l_prepackages.json")).unwrap();
    let records = records["records"].as_array().unwrap();
    assert_eq!(records.len(), 84);
    for record in records {
        let id = record["id"].as_str().unwrap();
        let (inputs, wanted) = (&record["inputs"], &record["expected"]);
        match id.split('.').nth(1).unwrap() {
            "tne" => error(record, id),
            "lot" => lot(record, id),
            "k" => {
                let size = usize::try_from(inputs["n"].as_u64().unwrap()).unwrap();
                assert!(close(net::factor(size).unwrap(), decimal(&wanted["k"])), "{id}");
            }
            "dry" => {
                let nominal = grams(&inputs["Qn_g"]);
                let loss = Share::try_new(decimal(&inputs["loss_fraction"])).unwrap();
                let left = net::after(grams(&inputs["mass_now_g"]), loss).unwrap();
                let error = net::tolerable_error(nominal, Rounding::Tenths).unwrap();
                assert_eq!(left, grams(&wanted["mass_after"]), "{id}");
                assert_eq!((nominal - left).max(Mass::ZERO), grams(&wanted["negative_error"]), "{id}");
                assert_eq!(error, grams(&wanted["tne"]), "{id}");
                assert_eq!(left < nominal, wanted["below_nominal"].as_bool().unwrap(), "{id}");
                assert_eq!(left < nominal - error, wanted["below_TU1"].as_bool().unwrap(), "{id}");
            }
            "mav" => {
                let label = grams(&inputs["label_g"]);
                let variation = net::variation(label).unwrap();
                assert_eq!(variation, grams(&wanted["mav_g"]), "{id}");
                assert_eq!(label - variation, grams(&wanted["lowest_individual_g"]), "{id}");
            }
            other => panic!("{other}"),
        }
    }
}

/// What a text of law says, beside the records. Source: S.I. 2006/659, schedule 2, paragraph 4; GOV.UK.
#[test]
fn printed_factors_and_bounds() {
    let factor = |size| net::factor(size).unwrap().rounded(3).unwrap().to_string();
    assert_eq!((factor(30), factor(50), factor(20)), ("0.503".into(), "0.379".into(), "0.64".into()));
    assert!(net::factor(101).is_none());
    let error = |text: &str| net::tolerable_error(mass(text), Rounding::Tenths).map(|mass| mass.to_string());
    let wanted = [
        ("30 g", "2.7 g"),
        ("50 g", "4.5 g"),
        ("113 g", "5.1 g"),
        ("310 g", "9.3 g"),
        ("1001 g", "15.1 g"),
        ("1.2 kg", "18 g"),
        ("10 kg", "150 g"),
        ("12 kg", "150 g"),
        ("15 kg", "150 g"),
        ("20 kg", "200 g"),
    ];
    for (nominal, tolerated) in wanted {
        assert_eq!(error(nominal).as_deref(), Some(tolerated), "{nominal}");
    }
    assert_eq!(error("4.9 g"), None);
    assert_eq!(net::lot(mass("100 g"), &[mass("100 g")], Rounding::Tenths), Err(LotError::Size));
    assert_eq!(net::lot(mass("3 g"), &[mass("3 g"); 5], Rounding::Tenths), Err(LotError::Nominal));
}

#[test]
fn a_nominal_quantity_keeps_the_rules_and_is_the_largest() {
    let step = mass("1 g");
    for (low, mean) in [("95 g", "101.6 g"), ("99 g", "100 g"), ("80 g", "120 g"), ("5.5 g", "6 g")] {
        let weights = Weights { low: mass(low), mean: mass(mean), high: mass("150 g") };
        let found = net::nominal(&weights, step).unwrap();
        let keeps = |nominal: Mass| {
            let error = net::tolerable_error(nominal, Rounding::Tenths).unwrap();
            weights.mean >= nominal && weights.low >= nominal - error
        };
        assert!(keeps(found.average) && !keeps(found.average + step), "{low} {mean}: {}", found.average);
        assert!(found.minimum <= weights.low && found.minimum + step > weights.low);
    }
    let wrong = Weights { low: mass("9 g"), mean: mass("8 g"), high: mass("10 g") };
    assert_eq!(net::nominal(&wrong, step), None);
}

#[test]
fn what_is_cut_holds_at_sale() {
    let share = |text: &str| text.parse::<Share>().unwrap();
    for (nominal, most) in [("100 g", "12 %"), ("85 g", "9.5 %"), ("113 g", "15 %"), ("80 g", "20 %")] {
        let loss = Loss { typical: share("8 %"), most: share(most) };
        let (nominal, step) = (mass(nominal), mass("0.5 g"));
        let cut = net::cut_for(nominal, loss, Mass::ZERO, step).unwrap();
        assert!(net::after(cut, share(most)).unwrap() >= nominal);
        assert!(net::after(cut - step, share(most)).unwrap() < nominal, "{cut} is no larger than it must be");
    }
    let whole = Loss { typical: share("0 %"), most: share("100 %") };
    assert_eq!(net::cut_for(mass("100 g"), whole, Mass::ZERO, mass("1 g")), None);
    // 100 / 0.8 is 125 exactly: no step is added for a digit that is not there.
    let fifth = Loss { typical: share("20 %"), most: share("20 %") };
    assert_eq!(net::cut_for(mass("100 g"), fifth, Mass::ZERO, mass("1 g")), Some(mass("125 g")));
    // A spread of 10 g dries to 8 g, 3.5 g beyond the 4.5 g tolerated: (100 + 3.5) / 0.8 = 129.4.
    assert_eq!(net::cut_for(mass("100 g"), fifth, mass("10 g"), mass("1 g")), Some(mass("130 g")));
}

#[test]
fn bars_of_a_block() {
    let length = |text: &str| text.parse().unwrap();
    let count = |all: &str, bar: &str, kerf: &str, end: &str| {
        let block =
            net::Block { length: length(all), bar: length(bar), kerf: length(kerf), end: length(end) };
        net::bars(&block).map(|bars| (bars.count, bars.cuts, bars.rest.to_string()))
    };
    assert_eq!(count("250 mm", "25 mm", "0 mm", "0 mm"), Some((10, 9, "0 mm".into())));
    assert_eq!(count("250 mm", "25 mm", "1 mm", "0 mm"), Some((9, 9, "17 mm".into())));
    assert_eq!(count("249 mm", "24 mm", "1 mm", "0 mm"), Some((10, 9, "0 mm".into())));
    assert_eq!(count("20 mm", "25 mm", "1 mm", "0 mm"), Some((0, 0, "20 mm".into())));
    assert_eq!(count("6 mm", "25 mm", "1 mm", "3 mm"), Some((0, 2, "0 mm".into())));
    assert_eq!(count("250 mm", "0 mm", "1 mm", "0 mm"), None);
}

#[test]
fn quantities_are_printed_as_the_market_wants_them() {
    assert_eq!(net::printed(mass("100 g"), Market::GreatBritain), "100 g");
    // 100 g is 3.527 oz; 3.53 would say more than there is.
    assert_eq!(net::printed(mass("100 g"), Market::UnitedStates), "Net Wt 3.52 oz (100 g)");
    assert_eq!(net::printed(mass("4 oz"), Market::UnitedStates), "Net Wt 4 oz (113.3980925 g)");
}
