//! Published check values: reading the records of `vectors/published` and comparing with them.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    reason = "a test stops where a record is not as it should be"
)]

use dashu_int::IBig;
use dashu_ratio::RBig;
use lamella::material::FattyAcid;
use lamella::quantity::{Decimal, Exact};
use serde_json::Value;

use crate::oracle::half_even;

/// All records of a file, `"b_units"`.
#[must_use]
pub fn all(file: &str) -> Vec<Value> {
    let path = format!("{}/vectors/published/{file}.json", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(path).unwrap();
    let mut file: Value = serde_json::from_str(&text).unwrap();
    let Value::Array(records) = file["records"].take() else { panic!("no records") };
    records
}

/// The records of a file whose id starts with `prefix`; there is at least one.
#[must_use]
pub fn records(file: &str, prefix: &str) -> Vec<Value> {
    let chosen: Vec<Value> = all(file).into_iter().filter(|record| id(record).starts_with(prefix)).collect();
    assert!(!chosen.is_empty(), "no record {prefix}");
    chosen
}

/// Every record of a file starts with one of these, so that none is left without its test.
pub fn covered(file: &str, prefixes: &[&str]) {
    for record in all(file) {
        let id = id(&record);
        assert!(prefixes.iter().any(|prefix| id.starts_with(prefix)), "{id} has no test");
    }
}

/// The id of a record.
#[must_use]
pub fn id(record: &Value) -> &str {
    text(&record["id"])
}

/// A text of a record.
#[must_use]
pub fn text(value: &Value) -> &str {
    value.as_str().unwrap_or_else(|| panic!("{value} is not a text"))
}

/// A number of a record, as text or as `num` and `den`, to 26 decimals. A `decimal` beside a
/// fraction must agree with it.
#[must_use]
pub fn number(value: &Value) -> Exact {
    match value {
        Value::String(text) => Exact::from(text.parse::<Decimal>().unwrap()),
        Value::Number(count) => Exact::from(count.as_i64().unwrap()),
        _ => fraction(value),
    }
}

fn fraction(value: &Value) -> Exact {
    let [above, below] = ["num", "den"].map(|part| text(&value[part]).parse::<IBig>().unwrap());
    let scaled = half_even(&RBig::from_parts_signed(above * IBig::from(10).pow(26), below));
    let one = 10_i128.pow(26);
    let decimal = |number: i128, scale: u32| Exact::from(Decimal::from_i128_with_scale(number, scale));
    let quotient = decimal(scaled / one, 0) + decimal(scaled % one, 26);
    if let Some(decimal) = value.get("decimal") {
        exact(quotient, number(decimal), "a fraction and its decimal");
    }
    quotient
}

/// The numbers of a list.
#[must_use]
pub fn numbers(value: &Value) -> Vec<Exact> {
    value.as_array().unwrap().iter().map(number).collect()
}

/// Equal to 24 significant digits, of a figure below 0.01 to 26 decimals.
pub fn exact(ours: Exact, published: Exact, what: &str) {
    near(ours, published, Exact::literal(1, 2), 24, what);
}

/// The fatty acid of a trivial name.
#[must_use]
pub fn acid(name: &str) -> FattyAcid {
    let short = match name {
        "butyric" => "C4:0",
        "caproic" => "C6:0",
        "caprylic" => "C8:0",
        "capric" => "C10:0",
        "lauric" => "C12:0",
        "myristic" => "C14:0",
        "palmitic" => "C16:0",
        "palmitoleic" => "C16:1",
        "stearic" => "C18:0",
        "oleic" => "C18:1",
        "linoleic" => "C18:2",
        "linolenic" => "C18:3",
        "ricinoleic" => "C18:1-OH",
        "arachidic" => "C20:0",
        "gondoic" => "C20:1",
        "behenic" => "C22:0",
        "erucic" => "C22:1",
        "lignoceric" => "C24:0",
        other => panic!("no acid {other}"),
    };
    short.parse().unwrap()
}

/// Equal within `10^-digits` of the published figure, or of `scale` where that is larger.
pub fn near(ours: Exact, published: Exact, scale: Exact, digits: u32, what: &str) {
    let size = published.max(-published).max(scale);
    let allowed = size * Exact::literal(1, digits);
    within(ours, published, allowed, what);
}

/// Equal within `allowed`.
pub fn within(ours: Exact, published: Exact, allowed: Exact, what: &str) {
    let gap = ours - published;
    let gap = gap.max(-gap);
    assert!(gap.decimal().is_some(), "{what}: no value");
    assert!(!(gap - allowed).is_positive(), "{what}: {ours:?} is not {published:?}");
}
