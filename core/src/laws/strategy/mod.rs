//! Strategies that build valid recipes, for property tests.
//!
//! Nothing is drawn and thrown away: shares come from splitting a whole number, materials from the tables of the library
//! by index, and doses are drawn so small that every recipe can be planned. So shrinking is quick, and a test never stops
//! for want of cases.
//!
//! ```
//! use lamella::{Plan, laws};
//! use proptest::strategy::{Strategy, ValueTree};
//! use proptest::test_runner::TestRunner;
//!
//! let mut runner = TestRunner::deterministic();
//! let recipe = laws::strategy::recipes().new_tree(&mut runner).unwrap().current();
//! assert!(Plan::of(&recipe).is_ok());
//! ```

mod batch;
mod layers;
mod matter;

use proptest::prelude::{Just, Strategy};
use serde_json::{Map, Value, json};

use crate::quantity::{Exact, apportion};
use crate::recipe::{self, Recipe};

/// Recipes over everything that a document can say, all of which can be planned.
#[expect(clippy::panic, reason = "a document of these strategies that is refused is a mistake of theirs")]
pub fn recipes() -> impl Strategy<Value = Recipe> {
    documents().prop_map(|text| match recipe::read(&text) {
        Ok(recipe) => recipe,
        Err(problems) => panic!("{}", recipe::render(&problems, &text, "a generated recipe")),
    })
}

/// The same as the texts of their documents.
pub fn documents() -> impl Strategy<Value = String> {
    // Water of additives that counts in the recipe's leaves room for less of them.
    proptest::bool::ANY.prop_flat_map(document).prop_map(|document| document.to_string())
}

fn document(counts: bool) -> impl Strategy<Value = Value> {
    // Largest dose of a layer's fat in hundredths of a per cent: at most 8 layers of 2 additives each and 4 in the pot and
    // the lye stay well below the least water of a recipe, 3.7 % of the fat.
    let most = if counts { 16 } else { 800 };
    let chemistry = (batch::fats(), batch::alkali(), batch::superfat(), batch::water(), batch::lye(most));
    let layers = (layers::layers(most), layers::moulds(), matter::lists(matter::Place::Pot, most));
    let room = (batch::size(), batch::workshop(), batch::temperatures(), batch::words());
    (chemistry, layers, room, Just(counts)).prop_map(|(chemistry, layers, room, counts)| {
        let (fats, alkali, superfat, water, lye) = chemistry;
        let (layers, moulds, pot) = layers;
        let (size, workshop, temperatures, words) = room;
        let mut top = words;
        let lines = fats.lines(top.get("process"));
        put(&mut top, "fats", lines);
        put(&mut top, "alkali", alkali);
        put(&mut top, "superfat", superfat);
        put(&mut top, "water", water);
        put(&mut top, "lye", lye);
        put(&mut top, "workshop", workshop);
        put(&mut top, "temperatures", temperatures);
        if counts {
            put(&mut top, "additive_water", json!("counts"));
        }
        top.extend(pot);
        layers.document(&mut top, &moulds, size.of(&fats, layers.kind));
        Value::Object(top)
    })
}

fn put(object: &mut Map<String, Value>, key: &str, value: Value) {
    object.insert(key.to_owned(), value);
}

/// `mantissa * 10^-decimals` with a unit.
fn text(mantissa: i64, decimals: u32, unit: &str) -> Value {
    let number = Exact::literal(mantissa, decimals).decimal().unwrap_or_default().normalize();
    json!(format!("{number} {unit}").trim_end())
}

/// Splits a whole number over weights that are all above nought.
fn split(whole: i64, weights: &[i64]) -> Vec<i64> {
    let weights: Vec<Exact> = weights.iter().map(|weight| Exact::from(*weight)).collect();
    apportion(whole, &weights).unwrap_or_default()
}

/// A whole number, now and then one of the ends.
fn number(least: i64, most: i64) -> impl Strategy<Value = i64> {
    proptest::prop_oneof![8 => least..=most, 1 => Just(least), 1 => Just(most)]
}
