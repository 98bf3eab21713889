//! Moulds filled to their brims: what scale steps make too much of fits, and what really overflows is told and drawn.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    reason = "a test stops at what it did not expect; its numbers are small"
)]

use lamella::Plan;
use lamella::quantity::{Exact, Length, Mass, Volume, told_apart};
use lamella::recipe::{self, Recipe};
use proptest::prelude::*;
use serde_json::{Value, json};

fn read(document: &Value) -> Recipe {
    let text = document.to_string();
    recipe::read(&text).unwrap_or_else(|problems| panic!("{}", recipe::render(&problems, &text, "brim.json")))
}

fn document(moulds: Value, size: Value, layers: usize, step: &str) -> Value {
    let layers: Vec<Value> =
        (0..layers).map(|index| json!({"layer": format!("L{index}"), "share": "1 part"})).collect();
    json!({
        "lamella": "recipe/1", "name": "Brim", "superfat": "5 %",
        "fats": [{"fat": "olive-oil", "share": "70 %"}, {"fat": "coconut-oil", "share": "30 %"}],
        "alkali": {"naoh": {"purity": "99 %"}}, "water": {"lye_concentration": "33 %"},
        "moulds": moulds, "size": size, "layers": layers,
        "workshop": {"scales": [{"scale": "only", "step": step, "capacity": "60 kg"}]}
    })
}

/// Every layer has a place in every mould: one upon the other, from the bottom and never past the brim.
fn places(recipe: &Recipe, plan: &Plan) -> Result<(), String> {
    for (index, mould) in recipe.moulds.iter().enumerate() {
        let mut below = Length::ZERO;
        for layer in &plan.layers {
            let height = layer.heights.get(index).filter(|height| height.mould == index);
            let height = height.ok_or_else(|| format!("{} has no place in mould {index}", layer.name))?;
            if height.from != below || height.to < below || height.to > mould.shape().depth() {
                return Err(format!("{}: {height:?} upon {below}", layer.name));
            }
            below = height.to;
        }
        let picture = lamella::screen::picture(recipe, plan, index).ok_or("no picture")?;
        if picture.layers.len() != plan.layers.len() {
            return Err("the picture lacks a layer".to_owned());
        }
    }
    Ok(())
}

/// What the layers are more than the moulds hold, and what scale steps may make it: a step of batter for each weighing.
fn over(recipe: &Recipe, plan: &Plan) -> (Exact, Exact) {
    let full: Volume = recipe.moulds.iter().map(|mould| mould.volume_to(mould.shape().depth())).sum();
    let poured: Volume = plan.layers.iter().map(|layer| layer.volume).sum();
    let portions: Mass = plan.layers.iter().map(|layer| layer.portion).sum();
    let steps: Mass = plan
        .weigh_places()
        .iter()
        .map(|place| plan.scales[plan.weigh_line(*place).unwrap().scale].step)
        .sum();
    (poured.exact() - full.exact(), steps.exact().portion(plan.batch.volume.exact(), portions.exact()))
}

fn told(plan: &Plan) -> Option<&str> {
    plan.cautions.iter().find(|caution| caution.code == "mould.over").map(|caution| caution.figure.as_str())
}

/// Rounding made 0.03 mL too much of two equal layers, and the upper one had no height.
#[test]
fn a_mould_filled_to_its_brim_keeps_its_top_layer() {
    let loaf = json!([{"shape": "loaf", "length": "250 mm", "width": "80 mm", "height": "70 mm"}]);
    let recipe = read(&document(loaf, json!({"moulds": "filled"}), 2, "0.1 g"));
    let plan = Plan::of(&recipe).unwrap();
    assert_eq!(places(&recipe, &plan), Ok(()));
    assert!(over(&recipe, &plan).0.is_positive(), "the case that was");
    assert_eq!(plan.layers[1].heights[0].to.to_string(), "70 mm");
    assert_eq!(told(&plan), None);
}

/// A little more at a time: rounding on the one side of the bound, an overflow that is told with its figure on the
/// other, down to less than a millilitre.
#[test]
fn what_is_over_by_more_than_rounding_is_told_with_its_figure() {
    let loaf = json!([{"shape": "loaf", "length": "250 mm", "width": "80 mm", "height": "70 mm"}]);
    let (mut fits, mut less_than_a_millilitre) = (0, 0);
    let full = Plan::of(&read(&document(loaf.clone(), json!({"moulds": "filled"}), 3, "0.01 g"))).unwrap();
    let full: Mass = full.layers.iter().map(|layer| layer.portion).sum();
    for hundredths in (0..100).step_by(4) {
        let batter = format!("{} g", full.value() + Exact::literal(hundredths, 2).decimal().unwrap());
        let recipe = read(&document(loaf.clone(), json!({"batter": batter}), 3, "0.01 g"));
        let plan = Plan::of(&recipe).unwrap();
        assert_eq!(places(&recipe, &plan), Ok(()));
        let (over, rounding) = over(&recipe, &plan);
        if (over - rounding).is_positive() {
            let (figure, _) = told_apart(over.decimal().unwrap(), rounding.decimal().unwrap(), 2);
            let figure = format!("{figure} mL over the brim");
            assert_eq!(told(&plan), Some(figure.as_str()));
            assert_eq!(plan.layers[2].heights[0].to.to_string(), "70 mm");
            less_than_a_millilitre += i32::from((Exact::ONE - over).is_positive());
        } else {
            assert_eq!(told(&plan), None, "{batter}");
            fits += 1;
        }
    }
    assert!(fits > 0 && less_than_a_millilitre > 0, "{fits} {less_than_a_millilitre}");
}

/// Three times what the mould holds: the layers that run off have no thickness, and a place all the same.
#[test]
fn layers_that_run_off_are_cut_off_at_the_brim() {
    let bowls = json!([{"shape": "tray", "cavity": {"shape": "bowl", "radius": "40 mm", "height": "40 mm"}, "cavities": 6}]);
    let recipe = read(&document(bowls, json!({"batter": "2.4 kg"}), 4, "0.1 g"));
    let plan = Plan::of(&recipe).unwrap();
    assert_eq!(places(&recipe, &plan), Ok(()));
    assert!(told(&plan).is_some());
    assert!(plan.layers[3].heights[0].thickness().is_zero());
}

fn shapes() -> impl Strategy<Value = Value> {
    let side = 40_i64..=300;
    let cavity = prop_oneof![
        (side.clone(), side.clone(), side.clone()).prop_map(|(l, w, h)| json!({"shape": "box", "length": mm(l), "width": mm(w), "height": mm(h)})),
        (40_i64..=90, 1_i64..=40, 30_i64..=90).prop_map(|(bottom, more, h)| json!({
            "shape": "frustum", "bottom_length": mm(bottom), "bottom_width": mm(bottom), "top_length": mm(bottom + more),
            "top_width": mm(bottom + 2 * more), "height": mm(h)
        })),
        (40_i64..=90, 1_i64..=40, 30_i64..=90).prop_map(|(bottom, more, h)| json!({
            "shape": "cone", "bottom_diameter": mm(bottom), "top_diameter": mm(bottom + more), "height": mm(h)
        })),
        (30_i64..=90, 1_i64..=10).prop_map(|(radius, part)| json!({
            "shape": "bowl", "radius": mm(radius), "height": mm(radius * part / 10 + 5)
        })),
    ];
    prop_oneof![
        (side.clone(), side.clone(), side.clone()).prop_map(|(l, w, h)| json!({"shape": "loaf", "length": mm(l), "width": mm(w), "height": mm(h)})),
        (side.clone(), 40_i64..=90, 1_i64..=40, side.clone()).prop_map(|(l, bottom, more, h)| json!({
            "shape": "tapered loaf", "length": mm(l), "bottom_width": mm(bottom), "top_width": mm(bottom + more), "height": mm(h)
        })),
        (side.clone(), side.clone()).prop_map(|(d, h)| json!({"shape": "upright cylinder", "diameter": mm(d), "height": mm(h)})),
        (side.clone(), side).prop_map(|(d, l)| json!({"shape": "lying cylinder", "diameter": mm(d), "length": mm(l)})),
        (cavity, 1_i64..=12).prop_map(|(cavity, count)| json!({"shape": "tray", "cavity": cavity, "cavities": count})),
    ]
}

fn mm(size: i64) -> String {
    format!("{size} mm")
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_layer_of_full_moulds_lacks_its_place(
        moulds in proptest::collection::vec(shapes(), 1..=2),
        layers in 1_usize..=7,
        step in prop_oneof![Just("0.01 g"), Just("0.1 g"), Just("1 g")],
        more in 0_i64..=100,
    ) {
        let mut moulds = moulds;
        for (index, mould) in moulds.iter_mut().enumerate() {
            mould["mould"] = json!(format!("M{index}"));
        }
        let moulds = Value::from(moulds);
        let recipe = read(&document(moulds.clone(), json!({"moulds": "filled"}), layers, step));
        let Ok(plan) = Plan::of(&recipe) else { return Ok(()) };
        prop_assert_eq!(places(&recipe, &plan), Ok(()));
        let (most, rounding) = over(&recipe, &plan);
        prop_assert!(!(most - rounding).is_positive(), "{:?} of {:?}", most, rounding);
        prop_assert!(told(&plan).is_none_or(|figure| !figure.contains("brim")));
        // The same moulds, and more than they hold.
        let batter = plan.layers.iter().map(|layer| layer.portion).sum::<Mass>();
        let batter = Mass::try_new(batter.exact() * Exact::from(100 + more) / Exact::HUNDRED).unwrap();
        let size = json!({"batter": format!("{} g", batter.value().round_dp(2))});
        let recipe = read(&document(moulds, size, layers, step));
        let Ok(plan) = Plan::of(&recipe) else { return Ok(()) };
        prop_assert_eq!(places(&recipe, &plan), Ok(()));
        let (most, rounding) = over(&recipe, &plan);
        let overflows = told(&plan).is_some_and(|figure| figure.contains("brim"));
        // In several moulds one may run over by a hair more than all of them together.
        prop_assert!(overflows || !(most - rounding).is_positive(), "{:?} of {:?}", most, rounding);
    }
}
