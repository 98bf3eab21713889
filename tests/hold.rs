//! A layer on hold stays on hold, on every paper, until it is put right or tested.
#![expect(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

use lamella::batch::FREE_ALKALI;
use lamella::cost::{self, Costing};
use lamella::cure::{self, Cure, Estimate};
use lamella::follow::{self, Batch, Event, Outcome, Tolerances};
use lamella::market::dossier::{self, Dossier, DossierOptions};
use lamella::market::label::{LabelFacts, label};
use lamella::market::{ListOptions, Market, Style, envelope};
use lamella::quantity::Share;
use lamella::record::{self, Decision, Record, Review};
use lamella::{EXAMPLE, Plan, recipe, sheet};

const LOG: &str = include_str!("vectors/batch/tidal-strata.json");
const RECORD: &str = include_str!("../core/data/example-record.json");

/// 84 g of lye in the jug of “Rust”, where 77.4 g belong; everything else as planned, and everything poured.
fn poured() -> Batch {
    let mut batch = follow::read(LOG).unwrap();
    let layers: Vec<String> = batch.plan().layers.iter().map(|layer| layer.name.clone()).collect();
    for layer in layers.iter().filter(|layer| layer.as_str() != "Silt") {
        let mass = batch.plan().layers.iter().find(|line| line.name == **layer).unwrap().portion;
        batch.record(Event::Poured { layer: layer.clone(), mass }).unwrap();
    }
    batch
}

fn tested(found: &str) -> Event {
    Event::Tested { layer: "Rust".to_owned(), free_alkali: found.parse().unwrap() }
}

/// The record of the example with what the log says; it has a release.
fn recorded(batch: &Batch) -> Record {
    let mut record = record::read(RECORD).unwrap();
    assert_eq!(record.release.as_ref().unwrap().decision, Decision::Released);
    record.take(batch);
    record
}

fn copy(batch: &Batch) -> Result<lamella::market::label::Label, Vec<lamella::Problem>> {
    let (plan, truth) = (batch.plan(), batch.truth());
    let verdict = envelope::verdict(plan, truth, None).unwrap();
    let options = ListOptions::new(Market::GreatBritain, Style::AsCharged);
    label(plan, truth, &LabelFacts::default(), &options, &verdict)
}

#[test]
fn a_hold_stands_on_every_paper() {
    let batch = poured();
    let (plan, truth) = (batch.plan(), batch.truth());
    let [hold] = plan.holds.as_slice() else { panic!("{:#?}", plan.holds) };
    assert_eq!((hold.layer.as_str(), hold.superfat), ("Rust", Some(plan.jugs[2].superfat)));
    assert!(hold.superfat < Some(Share::ZERO) && hold.worst < hold.superfat);
    let record = recorded(&batch);
    let prices = cost::read(include_str!("../core/data/example-prices.json")).unwrap();
    let weighings = cure::read(include_str!("../core/data/example-weighings.json")).unwrap();
    let fresh = "120 g".parse().unwrap();
    let estimate = Estimate::of(plan, fresh, weighings.settled_below, None).unwrap();
    let dossier = Dossier::of(plan, truth, DossierOptions::default()).unwrap();
    let papers = [
        ("sheet", sheet::text(plan)),
        ("record", record::text(&record, Some(plan), &[], None)),
        ("record without the plan of the log", record::text(&record, None, &[], None)),
        ("dossier", dossier::text(&dossier)),
        ("cost", cost::text(&Costing::of(plan, &prices).unwrap(), &plan.name)),
        ("cure", cure::text(&Cure::of(&weighings), Some(&estimate))),
        ("verdict", envelope::verdict(plan, truth, None).unwrap().says),
        ("plan", plan.to_json().unwrap()),
    ];
    for (name, paper) in papers {
        let said = paper.contains("On hold") || paper.contains("\"holds\"");
        assert!(said && paper.contains("Rust") && paper.contains("-2.6"), "{name}\n{paper}");
    }
    // There is no label of it at all.
    let problems = copy(&batch).unwrap_err();
    assert_eq!(problems[0].code, "label.held");
    assert!(problems[0].message.contains("Rust"), "{}", problems[0].message);
}

#[test]
fn no_release_stands_while_a_layer_is_on_hold() {
    let mut batch = poured();
    let record = recorded(&batch);
    for plan in [None, Some(batch.plan())] {
        assert_eq!(record.decision(plan), Some(Decision::Held));
        let review = Review::of(&record, plan);
        assert_eq!(review.decision, Some(Decision::Held));
        assert!(review.findings.iter().any(|finding| finding.code == "record.held"), "{:?}", review.findings);
        let page = record::text(&record, plan, &[], None);
        assert!(page.contains("ON HOLD, NOT RELEASED"), "{page}");
        assert!(!page.contains("Decision         released"), "{page}");
    }
    // It is written and read with its hold.
    let again = record::read(&record::write(&record)).unwrap();
    assert_eq!(again, record);
    assert_eq!(again.decision(None), Some(Decision::Held));
    // With a plan of the recipe, which knows nothing of the log, it is on hold too.
    let plan = Plan::of(&recipe::read(EXAMPLE).unwrap()).unwrap();
    assert!(plan.holds.is_empty());
    assert_eq!(record.decision(Some(&plan)), Some(Decision::Held));

    // A test of the layer that finds too much ends nothing; one that finds no more than allowed does.
    batch.record(tested("0.051 %")).unwrap();
    assert_eq!(batch.plan().holds[0].free_alkali, Some("0.051 %".parse().unwrap()));
    assert_eq!(recorded(&batch).decision(Some(batch.plan())), Some(Decision::Held));
    batch.record(tested(&FREE_ALKALI.to_string())).unwrap();
    assert!(batch.plan().holds.is_empty(), "{:?}", batch.plan().holds);
    let record = recorded(&batch);
    assert_eq!(record.decision(Some(batch.plan())), Some(Decision::Released));
    assert_eq!(record.checks.iter().filter(|check| check.layer == "Rust").count(), 2);
    assert!(copy(&batch).is_ok());
    // What is found last counts: a layer that fails later is on hold again.
    batch.record(tested("0.2 %")).unwrap();
    assert_eq!(recorded(&batch).decision(None), Some(Decision::Held));
    assert_eq!(copy(&batch).unwrap_err()[0].code, "label.held");
}

/// A test written into the record alone counts as well; one of another layer, or one without a figure, does not.
#[test]
fn only_a_test_of_that_layer_ends_a_hold() {
    let batch = poured();
    let record = recorded(&batch);
    let mut check = record.checks[0].clone();
    check.outcome = record::Outcome::Pass;
    for (layer, found, released) in [
        ("Slate", Some("0 %"), false),
        ("", Some("0 %"), false),
        ("Rust", None, false),
        ("Rust", Some("0.0501 %"), false),
        ("Rust", Some("0.05 %"), true),
    ] {
        let free_alkali = found.map(|found| found.parse().unwrap());
        let with = |outcome| {
            let check = record::Check { layer: layer.to_owned(), free_alkali, outcome, ..check.clone() };
            let mut record = record.clone();
            record.checks.push(check);
            record.decision(Some(batch.plan()))
        };
        let expected = if released { Decision::Released } else { Decision::Held };
        assert_eq!(with(record::Outcome::Pass), Some(expected), "{layer} {found:?}");
        assert_eq!(with(record::Outcome::Fail), Some(Decision::Held), "{layer} {found:?}");
    }
}

/// Before it is poured a correction ends it, when it is recorded.
#[test]
fn a_recorded_correction_ends_a_hold() {
    let mut batch = follow::read(LOG).unwrap();
    assert_eq!(batch.plan().holds.len(), 1);
    let offer = batch.correct(Some("Rust"), &Tolerances::default()).unwrap();
    let Outcome::Additions { additions, .. } = offer.remedy else { panic!("{offer:#?}") };
    let (last, first) = additions.split_last().unwrap();
    for line in first {
        let (item, vessel) = (line.item.clone(), line.vessel.clone());
        batch.record(Event::Added { item, vessel, mass: line.mass }).unwrap();
        assert_eq!(batch.plan().holds.len(), 1, "half a correction is none");
    }
    let (item, vessel) = (last.item.clone(), last.vessel.clone());
    batch.record(Event::Added { item, vessel, mass: last.mass }).unwrap();
    assert!(batch.plan().holds.is_empty(), "{:?}", batch.plan().holds);
    // Taken back, it is on hold again.
    batch.undo();
    assert_eq!(batch.plan().holds.len(), 1);
}

/// What is planned is no slip: the same superfat, reached by weighing as planned, is told in a caution.
#[test]
fn a_batch_weighed_as_planned_is_not_on_hold() {
    let mut batch = Batch::new(recipe::read(EXAMPLE).unwrap()).unwrap();
    for jug in batch.plan().jugs.clone() {
        let vessel = Some(jug.name);
        batch.record(Event::Weighed { item: "lye".to_owned(), vessel, mass: jug.lye.weighed }).unwrap();
    }
    assert!(!batch.certainty().unwrap().is_safe());
    assert!(batch.plan().holds.is_empty(), "{:?}", batch.plan().holds);
}

/// A point below what was planned, where it may be lye-heavy, is a slip; less than a point is weighing.
#[test]
fn a_slip_of_more_than_a_point_is_on_hold_where_it_may_be_lye_heavy() {
    let mut sides = [false; 2];
    for more in ["0.8 g", "1 g", "1.1 g", "1.2 g", "1.3 g", "2 g"] {
        let mut batch = Batch::new(recipe::read(EXAMPLE).unwrap()).unwrap();
        let foam = |batch: &Batch| batch.plan().jugs.iter().find(|jug| jug.name == "Foam").unwrap().superfat;
        let planned = foam(&batch);
        let lye = batch.plan().jugs.iter().find(|jug| jug.name == "Foam").unwrap().lye.weighed;
        let mass = lye + more.parse().unwrap();
        let vessel = Some("Foam".to_owned());
        batch.record(Event::Weighed { item: "lye".to_owned(), vessel, mass }).unwrap();
        let slipped = planned.min(Share::literal(5, 2)) - foam(&batch) > Share::literal(1, 2);
        assert_eq!(!batch.plan().holds.is_empty(), slipped, "{more}: {planned}, {}", foam(&batch));
        sides[usize::from(slipped)] = true;
    }
    assert_eq!(sides, [true, true]);
}

/// A test is of a bar: before the pour there is none.
#[test]
fn what_is_not_poured_is_not_tested() {
    let mut batch = follow::read(LOG).unwrap();
    let problem = batch.record(tested("0 %")).unwrap_err();
    assert_eq!((problem.code, problem.pointer.as_str()), ("event.order", "/events/8/tested"));
    let unknown = Event::Tested { layer: "Sky".to_owned(), free_alkali: Share::ZERO };
    assert_eq!(batch.record(unknown).unwrap_err().code, "event.unknown");
    let text = r#"{"tested": "Rust"}"#;
    assert_eq!(follow::read_event(text.as_bytes()).unwrap_err()[0].code, "field.missing");
    let text = r#"{"tested": "Rust", "free_alkali": "-0.1 %"}"#;
    assert_eq!(follow::read_event(text.as_bytes()).unwrap_err()[0].code, "quantity.range");
    let text = r#"{"tested": "Rust", "free_alkali": "0.02 %", "at": "14:00"}"#;
    let entry = follow::read_event(text.as_bytes()).unwrap();
    let mut batch = poured();
    batch.record(entry).unwrap();
    assert_eq!(follow::read(&batch.to_json()).unwrap().plan(), batch.plan());
}
