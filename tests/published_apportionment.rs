//! Splitting into whole steps and pouring from a jug against `vectors/published/g_apportionment.json`.
//!
//! Source: elections and a census that are published with their seats, each named in its record; the splits, the pours
//! and the independent rounding in whole steps of a scale, which is arithmetic. All exact.
#![expect(clippy::unwrap_used, reason = "a test stops where a record is not as it should be")]

use lamella::batch::{Reading, pours};
use lamella::quantity::{Exact, Mass, apportion, split_into_steps};
use lamella_tests::published::{covered, exact, id, number, numbers, records};
use serde_json::Value;

const FILE: &str = "g_apportionment";

#[test]
fn every_record_has_a_test() {
    covered(FILE, &["g.pub.", "g.split.", "g.naive.", "g.jug."]);
}

fn mass(value: &Value) -> Mass {
    Mass::try_new(number(value)).unwrap()
}

fn masses(value: &Value) -> Vec<Mass> {
    value.as_array().unwrap().iter().map(mass).collect()
}

fn total(parts: &[Mass]) -> Mass {
    parts.iter().copied().sum()
}

/// Five published elections and censuses by Hamilton's method; the second is the usual example of the Alabama paradox,
/// where a seat more for all
/// takes one from each of the two that have 500.
#[test]
fn published_elections() {
    for record in records(FILE, "g.pub.") {
        let id = id(&record);
        let weights = numbers(&record["inputs"]["weights"]);
        let seats = record["inputs"]["seats"].as_i64().unwrap();
        let published: Vec<i64> = record["expected"]["seats"]
            .as_array()
            .unwrap()
            .iter()
            .map(|seat| seat.as_i64().unwrap())
            .collect();
        assert_eq!(apportion(seats, &weights).as_ref(), Some(&published), "{id}");
        // No remainders are equal at the cut, so the order of the states does not matter.
        let mut mirrored = apportion(seats, &weights.iter().rev().copied().collect::<Vec<_>>()).unwrap();
        mirrored.reverse();
        assert_eq!(mirrored != published, record["expected"]["remainder_tie_at_the_cut"], "{id}");
        if id == "g.pub.alabama25" {
            let next = apportion(seats.saturating_add(1), &weights).unwrap();
            assert!(next[3] < published[3] && next[4] < published[4], "one seat more takes one from each");
        }
    }
}

#[test]
fn splits() {
    for record in records(FILE, "g.split.") {
        let (id, inputs, expected) = (id(&record), &record["inputs"], &record["expected"]);
        let (whole, step) = (mass(&inputs["total"]), mass(&inputs["resolution"]));
        let mut weights = numbers(&inputs["weights"]);
        let split = split_into_steps(whole, step, &weights).unwrap();
        assert_eq!(split.parts, masses(&expected["portions"]), "{id}");
        assert_eq!(split.remainder, mass(&expected["residue_below_one_step"]), "{id}");
        assert_eq!(total(&split.parts) + split.remainder, whole, "{id}");
        for (part, ideal) in split.parts.iter().zip(numbers(&expected["ideal"])) {
            let off = part.exact() - ideal;
            assert!((step.exact() - off.max(-off)).is_positive(), "{id}: {part} is a step from {ideal:?}");
        }
        // Only a tie at the cut depends on the order.
        weights.reverse();
        let mut mirrored = split_into_steps(whole, step, &weights).unwrap().parts;
        mirrored.reverse();
        let tie = expected["remainder_tie_at_the_cut"].as_bool().unwrap();
        assert_eq!(mirrored != split.parts, tie, "{id}");
    }
}

/// Each portion rounded on its own, half to even: in six of the eight the portions are more than there is, or leave a
/// step unused. Ours never.
#[test]
fn independent_rounding_misses_the_total() {
    let mut misses = 0_usize;
    for record in records(FILE, "g.naive.") {
        let (id, inputs, expected) = (id(&record), &record["inputs"], &record["expected"]);
        let (whole, step) = (mass(&inputs["total"]), mass(&inputs["resolution"]));
        let weights = numbers(&inputs["weights"]);
        let sum: Exact = weights.iter().copied().sum();
        let alone = |weight: &Exact| {
            let steps = (whole.exact() * *weight / sum).steps(step.exact()).unwrap();
            Mass::try_new(Exact::from(steps) * step.exact()).unwrap()
        };
        let naive: Vec<Mass> = weights.iter().map(alone).collect();
        assert_eq!(naive, masses(&expected["portions"]), "{id}");
        assert_eq!(total(&naive) - whole, mass(&expected["sum_minus_total"]), "{id}");
        let fits = |left: Mass| left >= Mass::ZERO && left < step;
        if !fits(whole - total(&naive)) {
            misses = misses.saturating_add(1);
        }
        let ours = split_into_steps(whole, step, &weights).unwrap();
        assert!(fits(whole - total(&ours.parts)), "{id}");
    }
    assert_eq!(misses, 6);
}

/// A jug emptied in equal pours. What sticks to it is missing from the last pour, unless it was left out of the plan:
/// then every pour is whole, and what stays is the loss.
#[test]
fn jugs() {
    for record in records(FILE, "g.jug.") {
        let (id, inputs, expected) = (id(&record), &record["inputs"], &record["expected"]);
        let (gross, tare) = (mass(&inputs["gross"]), mass(&inputs["tare"]));
        let step = mass(&inputs["resolution"]);
        let weights = vec![Exact::ONE; usize::try_from(inputs["n"].as_u64().unwrap()).unwrap()];
        let net = mass(&expected["net"]);
        assert_eq!(gross - tare, net, "{id}");

        let all = pours(gross, tare, Mass::ZERO, step, &weights).unwrap();
        let portions: Vec<Mass> = all.iter().map(Reading::portion).collect();
        assert_eq!(portions, masses(&expected["pours"]), "{id}");
        let stops: Vec<Mass> = all.iter().map(|reading| reading.after).collect();
        assert_eq!(stops, masses(&expected["stop_at_readings"]), "{id}");
        assert_eq!(all[0].before, gross, "{id}");
        assert!(all.windows(2).all(|pair| pair[0].after == pair[1].before), "{id}");

        let empty = mass(&inputs["final_empty_reading"]);
        let last = Reading { after: empty, ..*all.last().unwrap() };
        assert_eq!(last.portion(), mass(&expected["last_pour_actual_if_residue_sticks"]), "{id}");

        let stays = empty - tare;
        let planned = pours(gross, tare, stays, step, &weights).unwrap();
        assert_eq!(planned.last().unwrap().after, empty, "{id}");
        let poured: Mass = planned.iter().map(Reading::portion).sum();
        exact((net - poured).exact() / net.exact(), number(&expected["loss_fraction"]), id);
    }
}
