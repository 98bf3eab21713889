//! A batch under way: nothing is lost, replay is identity, and what cannot have happened is refused.
//! `LAMELLA_SEQUENCES` says how many sequences of events are drawn.
#![expect(clippy::unwrap_used, reason = "a test stops at what it did not expect; its counts are small")]

use lamella::follow::{self, Batch, Event};
use lamella::material::Alkali;
use lamella::problem::CODES;
use lamella::quantity::{Mass, Share};
use lamella::recipe;
use lamella::{EXAMPLE, Plan};
use lamella_tests::draw::{Draw, event, planned as drawn, sequences};

fn grams(text: &str) -> Mass {
    text.parse().unwrap()
}

fn example() -> Batch {
    Batch::new(recipe::read(EXAMPLE).unwrap()).unwrap()
}

fn weighed(item: &str, vessel: Option<&str>, mass: &str) -> Event {
    Event::Weighed { item: item.to_owned(), vessel: vessel.map(str::to_owned), mass: grams(mass) }
}

/// Everything that goes in comes out or stays, to the last digit.
fn conserves(plan: &Plan) {
    let sum = |items: &[lamella::batch::WeighItem]| items.iter().map(|item| item.weighed).sum::<Mass>();
    let (pot, lye) = (&plan.pot, &plan.lye);
    assert_eq!(pot.total, sum(&pot.fats) + sum(&pot.doses));
    assert_eq!(pot.total, plan.jugs.iter().map(|jug| jug.portion.weighed).sum::<Mass>() + pot.left);
    assert_eq!(lye.total, sum(&lye.alkalis) + lye.water.weighed + sum(&lye.liquids) + sum(&lye.doses));
    assert_eq!(lye.total, plan.jugs.iter().map(|jug| jug.lye.weighed).sum::<Mass>() + lye.left);
    let mut left = pot.left + lye.left;
    for (index, jug) in plan.jugs.iter().enumerate() {
        let beside = sum(&jug.held) + sum(&jug.doses) + sum(&jug.late_doses);
        assert_eq!(jug.net, jug.portion.weighed + jug.lye.weighed + beside, "{}", jug.name);
        let layers = plan.layers.iter().filter(|layer| layer.jug == index);
        let poured: Mass = layers.map(|layer| layer.portion).sum();
        assert_eq!(jug.net, poured + jug.left, "{}", jug.name);
        assert!(jug.left >= Mass::ZERO);
        left += jug.left;
    }
    assert!(pot.left >= Mass::ZERO && lye.left >= Mass::ZERO);
    assert_eq!(plan.batch.left, left);
    let poured: Mass = plan.layers.iter().map(|layer| layer.portion).sum();
    assert_eq!(plan.batch.weighed_in, poured + left);
}

#[test]
fn without_events_it_is_the_plan() {
    let mut draw = Draw::new(23);
    let example = recipe::read(EXAMPLE).unwrap();
    for recipe in (0..40).map(|_| drawn(&mut draw)).chain([example]) {
        let mut batch = Batch::new(recipe.clone()).unwrap();
        let plan = Plan::of(&recipe).unwrap();
        assert_eq!(batch.plan(), &plan);
        // What is weighed as planned changes nothing, and so every stage is reckoned anew without a trace.
        let item = plan.pot.fats[0].clone();
        let changes = batch.record(weighed(&item.pointer, None, &item.weighed.to_string())).unwrap();
        assert_eq!(changes, [], "{}", recipe::write(&recipe));
        assert_eq!(batch.plan(), &plan, "{}", recipe::write(&recipe));
        // Whatever is then done as planned, in order, moves nothing either.
        for layer in &plan.layers {
            let jug = &plan.jugs[layer.jug];
            if !jug.layers.iter().any(|index| batch.is_poured(&plan.layers[*index].name)) {
                let [portion, lye] = [jug.portion.weighed, jug.lye.weighed].map(|mass| mass.to_string());
                let name = Some(jug.name.as_str());
                assert_eq!(batch.record(weighed("pot", name, &portion)).unwrap(), []);
                assert_eq!(batch.record(weighed("lye", name, &lye)).unwrap(), []);
            }
            let event = Event::Reads { jug: jug.name.clone(), mass: layer.reading.after };
            assert_eq!(batch.record(event).unwrap(), [], "{}", recipe::write(&recipe));
        }
        assert_eq!(batch.plan(), &plan);
    }
}

#[test]
fn sequences_conserve_and_replay() {
    let (mut done, mut refused) = (0, 0);
    for seed in 0..sequences(25) {
        let mut draw = Draw::new(seed);
        let mut batch = Batch::new(drawn(&mut draw)).unwrap();
        for _ in 0..12 {
            let entry = event(&mut draw, batch.plan());
            let (before, log) = (batch.plan().clone(), batch.log().len());
            match batch.record(entry.clone()) {
                Ok(_) => done += 1,
                Err(problem) => {
                    refused += 1;
                    assert!(CODES.iter().any(|(code, _)| *code == problem.code), "{problem}");
                    assert!(problem.pointer.starts_with(&format!("/events/{log}")), "{problem}");
                    assert!(!problem.advice.is_empty(), "{problem}");
                    assert_eq!((batch.plan(), batch.log().len()), (&before, log), "{entry:?}");
                }
            }
            conserves(batch.plan());
            assert!(batch.certainty().is_some(), "{entry:?}\n{}", batch.to_json());
        }
        let text = batch.to_json();
        let again = follow::read(&text).unwrap_or_else(|problems| panic!("{text}\n{problems:#?}"));
        assert_eq!(again.to_json(), text);
        assert_eq!(again.plan(), batch.plan());
        assert_eq!(again.log(), batch.log());
        // Undone and recorded again it is the same; undone to the end it is the plan.
        let mut undone = again;
        if let Some(last) = undone.undo() {
            undone.record(last).unwrap();
            assert_eq!(undone.plan(), batch.plan());
        }
        while undone.undo().is_some() {}
        assert_eq!(undone.plan(), &Plan::of(batch.recipe()).unwrap());
    }
    assert!(done > refused / 2, "{done} events, {refused} refused");
}

/// Three lines of one jug: a portion that came out smaller makes the next two larger.
#[test]
fn a_smaller_portion_changes_the_others() {
    let mut batch = example();
    let line = batch.plan().layers.iter().find(|layer| layer.name == "First line").unwrap().clone();
    let third =
        |batch: &Batch| batch.plan().layers.iter().find(|layer| layer.name == "Third line").unwrap().portion;
    let second =
        |batch: &Batch| batch.plan().layers.iter().find(|layer| layer.name == "Second line").unwrap().portion;
    let before = (second(&batch), third(&batch));
    let less = grams("0.7 g");
    let changes =
        batch.record(Event::Poured { layer: "First line".into(), mass: line.portion - less }).unwrap();
    // Four and three parts of what is left share the seven tenths.
    assert_eq!(second(&batch), before.0 + grams("0.4 g"));
    assert_eq!(third(&batch), before.1 + grams("0.3 g"));
    let change = changes.iter().find(|change| change.place == "Second line" && change.what == "its portion");
    assert_eq!(change.unwrap().by, "+0.4 g");
    conserves(batch.plan());
    // The same by the scale: the reading is that of the jug after the pour.
    batch.undo();
    let after = line.reading.after + less;
    batch.record(Event::Reads { jug: "lines".into(), mass: after }).unwrap();
    assert_eq!(second(&batch), before.0 + grams("0.4 g"));
}

/// The lye follows the fat that a jug really got, and so does its superfat stay.
#[test]
fn lye_follows_the_portion() {
    let mut batch = example();
    let rust = |batch: &Batch| batch.plan().jugs.iter().find(|jug| jug.name == "Rust").unwrap().clone();
    let before = rust(&batch);
    let less = before.portion.weighed - grams("20 g");
    batch.record(weighed("pot", Some("Rust"), &less.to_string())).unwrap();
    let now = rust(&batch);
    // Rust's additives are absorbed, so its lye is in proportion to what it gets from the pot, to a scale step or two.
    let expected = before.lye.weighed.exact() * less.exact() / before.portion.weighed.exact();
    let gap = (now.lye.weighed.exact() - expected).approximate().abs();
    assert!(gap < 0.11, "{gap}");
    let moved = (now.superfat - before.superfat).exact().approximate().abs();
    assert!(moved < 0.001, "{moved}");
    // The other jugs get the fat, and lye for it.
    let foam = batch.plan().jugs.iter().find(|jug| jug.name == "Foam").unwrap();
    assert!((foam.superfat.exact().approximate() - 0.05).abs() < 0.002);
    // Honey is dosed on the fat of the layer.
    assert!(now.doses.iter().zip(&before.doses).all(|(now, before)| now.weighed < before.weighed));
}

#[test]
fn a_skipped_layer_leaves_its_batter_to_the_others() {
    let mut batch = example();
    let total = batch.plan().pot.total;
    batch.record(Event::Skipped { item: "Slate".into(), vessel: None }).unwrap();
    assert_eq!(batch.plan().layers.len(), 6);
    assert_eq!(batch.plan().pot.total, total);
    assert!(batch.plan().layers.iter().all(|layer| layer.name != "Slate"));
    conserves(batch.plan());
    let lines = |batch: &Batch| {
        batch
            .plan()
            .jugs
            .iter()
            .find(|jug| jug.name == "lines")
            .unwrap()
            .portion
            .weighed
            .exact()
            .approximate()
    };
    let before = lines(&batch);
    batch.record(Event::Skipped { item: "Second line".into(), vessel: None }).unwrap();
    // Seven of its eleven parts are left, of 74 in all where there were 78 without Slate.
    let expected = before * (7.0 / 11.0) * (78.0 / 74.0);
    assert!((lines(&batch) - expected).abs() < 0.3, "{} is not {expected}", lines(&batch));
    assert_eq!(batch.plan().layers.len(), 5);
    conserves(batch.plan());
    assert_eq!(follow::read(&batch.to_json()).unwrap().plan(), batch.plan());
}

/// What cannot have happened, with its code and its place.
#[test]
fn impossible_events_are_refused() {
    let poured = |layer: &str, mass: &str| Event::Poured { layer: layer.into(), mass: grams(mass) };
    let cases: Vec<(&str, &str, Vec<Event>)> = vec![
        ("event.unknown", "/events/0/weighed", vec![weighed("palm-oil", None, "10 g")]),
        ("event.unknown", "/events/0/in", vec![weighed("pot", Some("Sky"), "10 g")]),
        ("event.unknown", "/events/0/poured", vec![poured("Sky", "10 g")]),
        (
            "event.unknown",
            "/events/0/added",
            vec![Event::Added { item: "olive".into(), vessel: None, mass: grams("1 g") }],
        ),
        (
            "event.unknown",
            "/events/0/found",
            vec![Event::Found {
                alkali: Alkali::PotassiumHydroxide,
                purity: Some(Share::literal(9, 1)),
                is: None,
            }],
        ),
        (
            "event.twice",
            "/events/1/weighed",
            vec![weighed("castor-oil", None, "60 g"), weighed("castor-oil", None, "61 g")],
        ),
        ("event.twice", "/events/1/poured", vec![poured("Foam", "100 g"), poured("Foam", "100 g")]),
        (
            "event.late",
            "/events/1/weighed",
            vec![weighed("pot", Some("Rust"), "190 g"), weighed("castor-oil", None, "61 g")],
        ),
        (
            "event.late",
            "/events/1/weighed",
            vec![weighed("lye", Some("Rust"), "80 g"), weighed("naoh", None, "140 g")],
        ),
        (
            "event.late",
            "/events/1/weighed",
            vec![poured("Foam", "100 g"), weighed("lye", Some("Foam"), "80 g")],
        ),
        (
            "event.late",
            "/events/1/skipped",
            vec![poured("Foam", "100 g"), Event::Skipped { item: "Foam".into(), vessel: None }],
        ),
        ("event.order", "/events/0/poured", vec![poured("Third line", "40 g")]),
        ("event.more-than-there-is", "/events/0", vec![poured("Foam", "4 kg")]),
        ("event.more-than-there-is", "/events/0", vec![weighed("pot", Some("Rust"), "5 kg")]),
        (
            "event.more-than-there-is",
            "/events/0/mass",
            vec![Event::Reads { jug: "lines".into(), mass: grams("9 kg") }],
        ),
        ("event.nothing-left", "/events/0", vec![Event::Left { vessel: "pot".into(), mass: grams("5 kg") }]),
        ("event.impossible", "/events/0", vec![weighed("naoh", None, "0 g")]),
    ];
    let reached: Vec<&str> = cases.iter().map(|(code, ..)| *code).chain(["event.ambiguous"]).collect();
    for (code, _) in CODES.iter().filter(|(code, _)| code.starts_with("event.")) {
        assert!(reached.contains(code), "{code} has no case");
    }
    for (code, pointer, events) in cases {
        let mut batch = example();
        let mut last = None;
        for event in &events {
            last = batch.record(event.clone()).err();
        }
        let problem = last.unwrap_or_else(|| panic!("{code}: {events:?} was recorded"));
        assert_eq!((problem.code, problem.pointer.as_str()), (code, pointer), "{problem}");
    }
    // A fat that is in the pot twice over cannot be told by its id.
    let twice =
        EXAMPLE.replace("\"size\":", "\"doses\": [{\"fat\": \"castor-oil\", \"dose\": \"5 g\"}], \"size\":");
    let mut batch = Batch::new(recipe::read(&twice).unwrap()).unwrap();
    let problem = batch.record(weighed("castor-oil", None, "60 g")).unwrap_err();
    assert_eq!((problem.code, problem.pointer.as_str()), ("event.ambiguous", "/events/0/weighed"));
    batch.record(weighed("/fats/5", None, "60 g")).unwrap();
}

/// Documents that are wrong, with all that is wrong in them.
#[test]
fn bad_documents_say_what_is_wrong() {
    let of =
        |events: &str| format!("{{\"lamella\": \"batch/1\", \"recipe\": {EXAMPLE}, \"events\": [{events}]}}");
    let cases: Vec<(String, Vec<(&str, &str)>)> = vec![
        ("[".into(), vec![("document.json", "")]),
        (EXAMPLE.into(), vec![("document.format", "/lamella")]),
        ("{\"lamella\": \"batch/2\"}".into(), vec![("document.format", "/lamella")]),
        ("{\"lamella\": \"batch/1\"}".into(), vec![("field.missing", "")]),
        (
            of("").replace("\"superfat\": \"5 %\"", "\"superfat\": \"5\""),
            vec![("quantity.unit.missing", "/recipe/superfat")],
        ),
        (of("{}"), vec![("field.choice", "/events/0")]),
        (of("7"), vec![("field.type", "/events/0")]),
        (of("{\"poured\": \"Foam\"}"), vec![("field.missing", "/events/0")]),
        (of("{\"poured\": \"Foam\", \"mass\": \"-1 g\"}"), vec![("quantity.range", "/events/0/mass")]),
        (of("{\"poured\": \"Foam\", \"mass\": \"1\"}"), vec![("quantity.unit.missing", "/events/0/mass")]),
        (of("{\"poured\": \"Foam\", \"mass\": 1.5}"), vec![("field.type", "/events/0/mass")]),
        (
            of(
                "{\"note\": \"a\", \"mass\": \"1 g\"}, {\"found\": \"naoh\"}, {\"note\": \"b\", \"poured\": \"Foam\", \"mass\": \"1 g\"}",
            ),
            vec![
                ("field.unknown", "/events/0/mass"),
                ("field.missing", "/events/1"),
                ("field.choice", "/events/2"),
            ],
        ),
        (of("{\"temperature\": \"40 °C\", \"of\": \"air\"}"), vec![("field.word", "/events/0/of")]),
        (of("{\"weihed\": \"water\", \"mass\": \"1 g\"}"), vec![("field.unknown", "/events/0/weihed")]),
        // Events that cannot have happened, each in its place; what follows is recorded.
        (
            of(
                "{\"poured\": \"Sky\", \"mass\": \"1 g\"}, {\"note\": \"fine\"}, {\"weighed\": \"tin\", \"mass\": \"1 g\"}",
            ),
            vec![("event.unknown", "/events/0/poured"), ("event.unknown", "/events/2/weighed")],
        ),
    ];
    for (text, expected) in cases {
        let problems = follow::read(&text).unwrap_err();
        let mut found: Vec<(&str, &str)> =
            problems.iter().map(|problem| (problem.code, problem.pointer.as_str())).collect();
        let mut expected = expected;
        found.sort_unstable();
        expected.sort_unstable();
        assert_eq!(found, expected, "{problems:#?}");
    }
    assert_eq!(follow::read_bytes(b"\xff").unwrap_err()[0].code, "document.encoding");
}

/// The sample of the example program: its text is the canonical one (`BLESS=1` writes it anew).
#[test]
fn the_sample_is_canonical() {
    let path = lamella_tests::vectors("batch/tidal-strata.json");
    let text = std::fs::read_to_string(&path).unwrap();
    let batch = follow::read(&text).unwrap_or_else(|problems| panic!("{problems:#?}"));
    if std::env::var_os("BLESS").is_some() {
        std::fs::write(&path, batch.to_json()).unwrap();
    }
    assert_eq!(batch.to_json(), std::fs::read_to_string(&path).unwrap());
    conserves(batch.plan());
    assert_eq!(batch.recipe(), &recipe::read(EXAMPLE).unwrap());
}
