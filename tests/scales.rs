//! Workshops of several scales: each line on the finest that carries it, and nothing lost between them.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test stops at what it did not expect; its numbers are small"
)]

use lamella::Plan;
use lamella::batch::{JugPlan, Weighing};
use lamella::certainty::Certainty;
use lamella::follow::{Batch, Event};
use lamella::laws;
use lamella::quantity::{Exact, Mass, Share};
use lamella::recipe::{self, Recipe};
use proptest::prelude::*;
use serde_json::{Value, json};

fn recipe(fat: i64, scales: &[(&str, &str)], layers: &[(i64, Option<i64>)]) -> Recipe {
    let scales: Vec<Value> = scales
        .iter()
        .enumerate()
        .map(|(index, (step, capacity))| json!({"scale": format!("S{index}"), "step": step, "capacity": capacity}))
        .collect();
    let jugs: Vec<Value> = layers
        .iter()
        .enumerate()
        .map(|(index, (_, tare))| match tare {
            Some(tare) => json!({"jug": format!("J{index}"), "tare": format!("{tare} g")}),
            None => json!({"jug": format!("J{index}")}),
        })
        .collect();
    let layers: Vec<Value> = layers
        .iter()
        .enumerate()
        .map(|(index, (parts, _))| {
            json!({"layer": format!("L{index}"), "share": format!("{parts} parts"), "jug": format!("J{index}")})
        })
        .collect();
    let document = json!({
        "lamella": "recipe/1", "name": "Scales", "superfat": "5 %",
        "fats": [{"fat": "olive-oil", "share": "70 %"}, {"fat": "coconut-oil", "share": "30 %"}],
        "alkali": {"naoh": {"purity": "99 %"}}, "water": {"lye_concentration": "33 %"},
        "size": {"fat": format!("{fat} g")}, "workshop": {"scales": scales}, "jugs": jugs, "layers": layers
    });
    let text = document.to_string();
    recipe::read(&text)
        .unwrap_or_else(|problems| panic!("{}", recipe::render(&problems, &text, "scales.json")))
}

const FINE_AND_COARSE: &[(&str, &str)] = &[("0.01 g", "500 g"), ("1 g", "30 kg")];

/// The thin layer's lye was weighed on the floor scale, and its superfat was 2.55 % for 5 %.
#[test]
fn a_thin_layer_beside_a_thick_one_is_weighed_on_the_fine_scale() {
    let recipe = recipe(1000, FINE_AND_COARSE, &[(98, None), (2, None)]);
    let plan = Plan::of(&recipe).unwrap();
    assert_eq!([plan.jugs[0].portion.scale, plan.jugs[1].portion.scale], [1, 0]);
    // 418 g of lye fit on the fine scale in a cup, though the jug does not.
    assert_eq!([plan.jugs[0].lye.scale, plan.jugs[1].lye.scale], [0, 0]);
    let (low, high): (Share, Share) = ("4.9 %".parse().unwrap(), "5.1 %".parse().unwrap());
    for jug in &plan.jugs {
        assert!(low <= jug.superfat && jug.superfat <= high, "{} {}", jug.name, jug.superfat);
    }
    let sheet = lamella::sheet::text(&plan);
    assert!(sheet.contains("of lye in a cup on “S0”, scrape all of it into “J0”"), "{sheet}");
    assert!(sheet.contains("of lye into “J1”"), "{sheet}");
}

/// A jug of known mass counts on its scale, one of which nothing is known does not.
#[test]
fn the_mass_of_a_jug_counts_where_it_is_known() {
    // The thin jug holds about 29 g: 470 g of jug are carried by the fine scale, 475 g are not.
    let scale = |tare| {
        let recipe = recipe(1000, FINE_AND_COARSE, &[(98, None), (2, tare)]);
        Plan::of(&recipe).unwrap().jugs[1].portion.scale
    };
    assert_eq!([scale(None), scale(Some(470)), scale(Some(475))], [0, 0, 1]);
}

/// What is said about the lye of a jug is as sure as the scale that it is weighed on.
#[test]
fn certainty_follows_the_scale_of_each_line() {
    let mixed = recipe(1000, FINE_AND_COARSE, &[(98, None), (2, None)]);
    let coarse = recipe(1000, &FINE_AND_COARSE[1..], &[(98, None), (2, None)]);
    let width = |recipe: &Recipe| {
        let plan = Plan::of(recipe).unwrap();
        let sure = Certainty::of(recipe, &plan).unwrap();
        let range = &sure.jugs[1].figures.guaranteed;
        range.high.exact() - range.low.exact()
    };
    assert!((width(&coarse) - width(&mixed) * Exact::from(2)).is_positive());
}

fn gross(jug: &JugPlan) -> Exact {
    jug.portion.ideal.exact() + jug.lye.ideal.exact() + jug.tare.unwrap_or(Mass::ZERO).exact()
}

/// The first scale that carries this; what was published of it may have moved its twelfth decimal.
fn finest(plan: &Plan, mass: Exact) -> usize {
    let last = Exact::literal(5, 12);
    let carries = |scale: &lamella::batch::ScaleLine| !(mass - last - scale.capacity.exact()).is_positive();
    plan.scales.iter().position(carries).unwrap()
}

/// The law of a plan whose lines are on several scales.
fn kept(recipe: &Recipe, plan: &Plan) -> Result<(), String> {
    for jug in &plan.jugs {
        let scale = finest(plan, gross(jug));
        if jug.portion.scale != scale {
            return Err(format!("{} stands on {} and {scale} carries it", jug.name, jug.portion.scale));
        }
        if jug.lye.scale != finest(plan, jug.lye.ideal.exact()).min(scale) {
            return Err(format!("the lye of {} is on {}", jug.name, jug.lye.scale));
        }
        let step = plan.scales[scale].step.exact();
        for shown in [jug.gross].into_iter().chain(jug.layers.iter().map(|layer| plan.layers[*layer].portion))
        {
            if Mass::try_new(step.times(shown.exact().steps(step).unwrap())) != Ok(shown) {
                return Err(format!("{shown} is no whole number of {step:?}"));
            }
        }
    }
    for (what, of) in [("pot", (|jug| jug.portion) as fn(&JugPlan) -> Weighing), ("lye", |jug| jug.lye)] {
        let (total, left) =
            if what == "pot" { (plan.pot.total, plan.pot.left) } else { (plan.lye.total, plan.lye.left) };
        let all: Vec<Weighing> = plan.jugs.iter().map(of).collect();
        assert_eq!(all.iter().map(|line| line.weighed).sum::<Mass>() + left, total);
        let step = |line: &Weighing| plan.scales[line.scale].step.exact();
        let coarsest = all.iter().map(step).fold(Exact::ZERO, Exact::max);
        if (left.exact() - coarsest).is_positive() || left < Mass::ZERO {
            return Err(format!("{left} is left of the {what}"));
        }
        let ideals: Exact = all.iter().map(|line| line.ideal.exact()).sum();
        for line in &all {
            // Its part of what there is, which by rounding of alkali, water and fats is a little more or less than its ideal.
            let part = total.exact().portion(line.ideal.exact(), ideals);
            // Less than a step; on the coarsest scale also its part of what makes no step there and of what the finer ones
            // were rounded by, together less than two more.
            let most = step(line) * Exact::from(if step(line) == coarsest { 3 } else { 2 });
            let apart = line.weighed.exact() - part;
            if (apart.max(-apart) - most).is_positive() {
                return Err(format!(
                    "{} of the {what} for {part:?} in steps of {:?}",
                    line.weighed,
                    step(line)
                ));
            }
        }
    }
    laws::check::mass(recipe, plan).map_err(|broken| format!("{broken:?}"))?;
    laws::check::parts(recipe, plan).map_err(|broken| format!("{broken:?}"))?;
    laws::check::bound(recipe, plan).map_err(|broken| format!("{broken:?}"))
}

fn workshops() -> impl Strategy<Value = Vec<(&'static str, &'static str)>> {
    prop_oneof![
        Just(FINE_AND_COARSE.to_vec()),
        Just(vec![("0.01 g", "200 g"), ("0.1 g", "1 kg"), ("1 g", "60 kg")]),
        Just(vec![("0.1 g", "300 g"), ("0.5 g", "900 g"), ("5 g", "60 kg")]),
        Just(vec![("0.02 g", "600 g"), ("0.1 oz", "60 kg")]),
        Just(vec![("1 g", "60 kg")]),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_line_is_on_the_finest_scale_that_carries_it_and_nothing_is_lost(
        scales in workshops(),
        fat in 300_i64..=3000,
        layers in proptest::collection::vec((1_i64..=60, proptest::option::of(20_i64..=400)), 1..=7),
    ) {
        let recipe = recipe(fat, &scales, &layers);
        let Ok(plan) = Plan::of(&recipe) else { return Ok(()) };
        prop_assert_eq!(kept(&recipe, &plan), Ok(()));
        // A batch in which all goes as planned stays its plan, whatever scales it is weighed on.
        let mut batch = Batch::new(recipe).unwrap();
        for jug in &plan.jugs {
            let name = Some(jug.name.clone());
            for (item, mass) in [("pot", jug.portion.weighed), ("lye", jug.lye.weighed)] {
                batch.record(Event::Weighed { item: item.to_owned(), vessel: name.clone(), mass }).unwrap();
            }
            prop_assert_eq!(&batch.plan().jugs, &plan.jugs);
        }
    }

    /// More fat in the pot, and all that is not weighed yet is divided anew in steps of each line's scale.
    #[test]
    fn a_batch_under_way_is_divided_in_steps_of_each_scale(
        scales in workshops(),
        fat in 300_i64..=3000,
        more in 1_i64..=50,
        layers in proptest::collection::vec((1_i64..=60, proptest::option::of(20_i64..=400)), 2..=7),
    ) {
        let recipe = recipe(fat, &scales, &layers);
        let Ok(plan) = Plan::of(&recipe) else { return Ok(()) };
        let mut batch = Batch::new(recipe).unwrap();
        let mass = plan.pot.fats[0].weighed + Mass::try_new(more).unwrap();
        let event = Event::Weighed { item: plan.pot.fats[0].id.to_string(), vessel: None, mass };
        if batch.record(event).is_err() { return Ok(()) }
        let now = batch.plan();
        let portions: Mass = now.jugs.iter().map(|jug| jug.portion.weighed).sum();
        let lyes: Mass = now.jugs.iter().map(|jug| jug.lye.weighed).sum();
        prop_assert_eq!((portions + now.pot.left, lyes + now.lye.left), (now.pot.total, now.lye.total));
        for (jug, was) in now.jugs.iter().zip(&plan.jugs) {
            for (line, was) in [(jug.portion, was.portion), (jug.lye, was.lye)] {
                let step = now.scales[line.scale].step.exact();
                prop_assert_eq!(line.scale, was.scale);
                prop_assert_eq!(Mass::try_new(step.times(line.weighed.exact().steps(step).unwrap())), Ok(line.weighed));
            }
        }
    }
}
