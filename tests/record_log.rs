//! The log of a batch under way, taken over into its record.

use lamella::follow::{self, Batch};
use lamella::quantity::Mass;
use lamella::record::{self, Actual, Lot, Record, Review};
use lamella::{EXAMPLE, recipe};

/// What went in by the log stands in the record, with its lot; what the log cannot say is told.
#[test]
fn a_record_takes_over_the_log_of_its_batch() {
    let log = include_str!("vectors/batch/tidal-strata.json");
    let batch = follow::read(log).unwrap();
    let mut record = record::read(
        r#"{"lamella": "record/1", "batch": "2025-014", "product": "Tidal strata",
            "started": "2025-03-04 08:50", "operators": ["A. Maker"], "weighings": [],
            "lots": [{"lot": "01", "material": "olive-oil"}, {"lot": "07", "material": "naoh"}]}"#,
    )
    .unwrap();
    assert_eq!(record.take(&batch), []);
    let weighings: Vec<String> = (record.weighings.iter())
        .map(|actual| {
            let at = actual.at.map_or_else(String::new, |at| at.to_string());
            format!("{} {} {at} {} {} {}", actual.lot, actual.mass, actual.by, actual.scale, actual.into)
        })
        .collect();
    assert_eq!(
        weighings,
        ["01 412.6 g 2025-03-04 10:05 A. Maker bench pot", "07 143.4 g 2025-03-04 10:20 A. Maker fine lye"]
    );
    let layers: Vec<_> =
        record.layers.iter().map(|layer| (layer.layer.as_str(), layer.mass.unwrap())).collect();
    assert_eq!(layers, [("Silt", "360.4 g".parse().unwrap())]);
    let [lye] = record.temperatures.as_slice() else { panic!("{:?}", record.temperatures) };
    assert_eq!((lye.what.as_str(), lye.value, lye.at), ("lye", "36.5 °C".parse().unwrap(), None));
    let seen: Vec<&str> = record.events.iter().map(|event| event.what.as_str()).collect();
    assert_eq!(seen[0], "Lye clear, left in the sink to cool.");
    assert_eq!(seen[1], "weighed 240.5 g of pot into Silt");
    assert!(record.deviations.is_empty());

    // Taking it over once more changes nothing, and the record survives being written.
    let before = record.clone();
    assert_eq!(record.take(&batch), []);
    assert_eq!(record, before);
    assert_eq!(record::read(&record::write(&record)), Ok(before.clone()));

    // A review against the plan as it turned out has no quarrel with what was weighed.
    let review = Review::of(&record, Some(batch.plan()));
    assert!(review.findings.iter().all(|finding| finding.code != "record.off"), "{:?}", review.findings);

    // A lot that is not listed, one of two, another product, and a weighing that stands there already.
    let codes = |record: &Record| -> Vec<&str> {
        record.clone().take(&batch).iter().map(|finding| finding.code).collect()
    };
    let mut other = Record { lots: Vec::new(), weighings: Vec::new(), ..before.clone() };
    assert_eq!(codes(&other), ["record.lot-missing", "record.lot-missing"]);
    other.lots = before.lots.clone();
    other.lots.push(Lot { lot: "01b".to_owned(), ..before.lots[0].clone() });
    assert_eq!(codes(&other), ["record.lot-open"]);
    // Once the maker has divided it over both, nothing is left to ask.
    for (lot, mass) in [("01", "400 g"), ("01b", "12.6 g")] {
        let mass = mass.parse().unwrap();
        other.weighings.push(Actual { lot: lot.to_owned(), mass, ..before.weighings[0].clone() });
    }
    assert_eq!(codes(&other), [""; 0]);
    other = Record { product: "Plain".to_owned(), ..before.clone() };
    assert_eq!(codes(&other), ["record.product"]);
    other = before;
    other.weighings[0].mass = "412.5 g".parse().unwrap();
    assert_eq!(codes(&other), ["record.twice"]);
}

/// What was added goes to its lot, and is a deviation, as is what was left out.
#[test]
fn what_was_added_or_left_out_is_a_deviation() {
    let mut batch = Batch::new(recipe::read(EXAMPLE).unwrap()).unwrap();
    let mass = |text: &str| text.parse::<Mass>().unwrap();
    let added =
        |item: &str, of: &str| follow::Event::Added { item: item.to_owned(), vessel: None, mass: mass(of) };
    batch.record(added("coconut-oil", "5 g")).unwrap();
    let slate = || Some("Slate".to_owned());
    batch.record(follow::Event::Skipped { item: "kaolin".to_owned(), vessel: slate() }).unwrap();
    let lot = Lot {
        lot: "C".to_owned(),
        material: "coconut-oil".to_owned(),
        supplier: String::new(),
        supplier_lot: String::new(),
        received: None,
        opened: None,
        expires: None,
        batch: String::new(),
    };
    let mut record = Record { product: "Tidal strata".to_owned(), lots: vec![lot], ..Record::default() };
    assert_eq!(record.take(&batch), []);
    let found: Vec<_> = record.weighings.iter().map(|actual| (actual.lot.as_str(), actual.mass)).collect();
    assert_eq!(found, [("C", mass("5 g"))]);
    let deviations: Vec<&str> = record.deviations.iter().map(|deviation| deviation.what.as_str()).collect();
    assert_eq!(deviations, ["added 5 g of Coconut oil", "left Kaolin, cosmetic out of Slate"]);
}
