//! What is offered to put a batch right is done, and must bring what was said. `LAMELLA_SEQUENCES` says how many batches
//! are drawn.
#![expect(clippy::unwrap_used, clippy::panic, reason = "a test stops at what it did not expect")]

use lamella::certainty::Verdict;
use lamella::follow::{Batch, Correction, Event, Outcome, Safe, Tolerances};
use lamella::quantity::Share;
use lamella::{EXAMPLE, recipe};
use lamella_tests::draw::{self, Draw, sequences};

fn weighed(item: &str, vessel: Option<&str>, mass: &str) -> Event {
    let mass = mass.parse().unwrap();
    Event::Weighed { item: item.to_owned(), vessel: vessel.map(str::to_owned), mass }
}

/// Records what is offered; whether there was anything.
fn apply(batch: &mut Batch, correction: &Correction) -> bool {
    let Outcome::Additions { additions, .. } = &correction.remedy else { return false };
    for line in additions {
        let (item, vessel) = (line.item.clone(), line.vessel.clone());
        let done = batch.record(Event::Added { item, vessel, mass: line.mass });
        done.unwrap_or_else(|problem| panic!("{problem}\n{correction:#?}\n{}", batch.to_json()));
    }
    true
}

/// The superfat of a place.
fn superfat(batch: &Batch, place: &str) -> Share {
    let jug = batch.plan().jugs.iter().find(|jug| jug.name == place);
    jug.map_or(batch.plan().batch.superfat, |jug| jug.superfat)
}

fn keeps(batch: &Batch, correction: &Correction) {
    if let Outcome::Additions { superfat: said, .. } = correction.remedy {
        let told = || format!("{correction:#?}\n{}", batch.to_json());
        assert_eq!(superfat(batch, &correction.place), said, "{}", told());
        assert!(said >= Share::ZERO, "{}", told());
        let off = said - correction.aimed;
        let bound = Tolerances::default().superfat;
        assert!(off <= bound && Share::ZERO - off <= bound, "{}", told());
        let certainty = batch.certainty().unwrap();
        let figures = certainty.jugs.iter().find(|jug| jug.name == correction.place);
        let figures = figures.map_or(&certainty.batch, |jug| &jug.figures);
        if correction.safe.is_empty() {
            assert_eq!(figures.verdict, Verdict::FatLeft, "{}", told());
        }
    }
}

/// Coconut oil weighed 300 g for 239, the lye made as planned and not divided: every jug would be short of lye by the same
/// part. What is offered is one correction of the lye.
#[test]
fn before_the_lye_is_divided_the_offer_is_one_for_the_batch() {
    let mut batch = Batch::new(recipe::read(EXAMPLE).unwrap()).unwrap();
    for (item, mass) in [("coconut-oil", "300 g"), ("naoh", "141.88 g"), ("water", "276.3 g")] {
        batch.record(weighed(item, None, mass)).unwrap();
    }
    let offers = batch.correct_all(&Tolerances::default()).unwrap();
    let [offer] = offers.as_slice() else { panic!("{offers:#?}") };
    assert_eq!(offer.place, "batch");
    let Outcome::Additions { additions, .. } = &offer.remedy else { panic!("{offer:#?}") };
    assert!(additions.iter().all(|line| line.vessel.is_none()), "{offer:#?}");
    assert!(additions.iter().any(|line| line.item == "naoh"), "{offer:#?}");
    assert!(apply(&mut batch, offer));
    keeps(&batch, offer);
    for jug in &batch.plan().jugs {
        assert!(
            jug.superfat >= Share::literal(4, 2) && jug.superfat <= Share::literal(62, 3),
            "{}",
            jug.superfat
        );
    }
    // Nothing is left to be done; that it is a bar of more coconut no addition that has room can change.
    for offer in batch.correct_all(&Tolerances::default()).unwrap() {
        match offer.remedy {
            Outcome::Nothing => {}
            Outcome::Cannot { .. } => {
                assert!(
                    offer.notes.iter().any(|note| note.contains("superfat and water are within")),
                    "{offer:#?}"
                );
            }
            _ => panic!("{offer:#?}"),
        }
    }
}

/// Asked about one jug the answer is the same correction of the lye, and what it says of the jug is so.
#[test]
fn an_offer_for_one_jug_before_the_lye_is_divided_holds() {
    let mut batch = Batch::new(recipe::read(EXAMPLE).unwrap()).unwrap();
    for (item, mass) in [("coconut-oil", "300 g"), ("naoh", "141.88 g"), ("water", "276.3 g")] {
        batch.record(weighed(item, None, mass)).unwrap();
    }
    for name in ["lines", "Rust", "Foam"] {
        let offer = batch.correct(Some(name), &Tolerances::default()).unwrap();
        let mut done = batch.clone();
        assert!(apply(&mut done, &offer), "{offer:#?}");
        keeps(&done, &offer);
    }
}

/// A batch whose jugs are off in opposite ways is not right because their mean is.
#[test]
fn a_right_mean_of_wrong_jugs_is_not_right() {
    let mut batch = Batch::new(recipe::read(EXAMPLE).unwrap()).unwrap();
    for jug in batch.plan().jugs.clone() {
        let more: lamella::quantity::Mass = "4 g".parse().unwrap();
        let lye = match jug.name.as_str() {
            "Slate" => jug.lye.weighed + more,
            "Foam" => jug.lye.weighed - more,
            _ => jug.lye.weighed,
        };
        batch.record(Event::Weighed { item: "lye".to_owned(), vessel: Some(jug.name), mass: lye }).unwrap();
    }
    let whole = batch.correct(None, &Tolerances::default()).unwrap();
    assert!(matches!(whole.remedy, Outcome::Cannot { .. }), "{whole:#?}");
}

/// Whatever went wrong: doing what is offered brings what is promised, one offer alone and all of them together, and no
/// other jug becomes lye-heavy by it.
#[test]
fn apply_the_offer_get_the_claim() {
    let tolerances = Tolerances::default();
    let (mut offered, mut batches) = (0, 0);
    for seed in 0..sequences(60) {
        let mut draw = Draw::new(seed.wrapping_mul(7919));
        let mut batch = Batch::new(draw::planned(&mut draw)).unwrap();
        for _ in 0..1 + draw.below(7) {
            let entry = draw::event(&mut draw, batch.plan());
            // What cannot have happened is refused, and the batch stays as it was.
            let _ = batch.record(entry);
        }
        let offers = batch.correct_all(&tolerances).unwrap();
        let mut all = batch.clone();
        for offer in &offers {
            if apply(&mut all, offer) {
                offered += 1;
                keeps(&all, offer);
            }
        }
        // What is added to jugs later moves no jug before it; the batch as a whole it does.
        for offer in offers.iter().filter(|offer| offer.place != "batch") {
            keeps(&all, offer);
        }
        for (before, after) in batch.plan().jugs.iter().zip(&all.plan().jugs) {
            assert!(
                after.superfat >= Share::ZERO || after.superfat >= before.superfat,
                "{}: {} before, {} after\n{}",
                after.name,
                before.superfat,
                after.superfat,
                all.to_json()
            );
        }
        let one_for_all = offers.iter().any(|offer| offer.place == "batch");
        for offer in offers.iter().filter(|_| !one_for_all) {
            let mut alone = batch.clone();
            if apply(&mut alone, offer) {
                keeps(&alone, offer);
            }
        }
        let names: Vec<String> = batch.plan().jugs.iter().map(|jug| jug.name.clone()).collect();
        for name in names.iter().map(|name| Some(name.as_str())).chain([None]) {
            let offer = batch.correct(name, &tolerances).unwrap();
            let mut alone = batch.clone();
            if apply(&mut alone, &offer) {
                keeps(&alone, &offer);
            }
            // What burns is never without a word.
            if superfat(&batch, &offer.place) < Share::ZERO
                && !matches!(offer.remedy, Outcome::Additions { .. })
            {
                assert!(
                    offer.safe.contains(&Safe::Hold) || offer.safe.contains(&Safe::Discard),
                    "{offer:#?}"
                );
            }
        }
        batches += 1;
    }
    assert!(offered > batches / 8, "{offered} offers in {batches} batches");
}
