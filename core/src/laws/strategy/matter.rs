//! Doses: additives, fats, colours and scents, in a jug, in the pot or in the lye.

use proptest::prelude::{Just, Strategy, any};
use proptest::prop_oneof;
use proptest::sample::{Index, select};
use serde_json::{Map, Value, json};

use super::{number, put, text};
use crate::material::library::{self, Kind};

/// Where a dose goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Place {
    Jug,
    Pot,
    Lye,
}

/// What a dose is reckoned on; only in a jug are all of them allowed.
#[derive(Clone, Copy, Debug)]
enum Basis {
    LayerFat,
    Layer,
    BatchFat,
    Batch,
    Grams,
    Ounces,
}

fn basis(place: Place) -> impl Strategy<Value = Basis> {
    use Basis::{Batch, BatchFat, Grams, Layer, LayerFat, Ounces};
    select(match place {
        Place::Jug => vec![LayerFat, LayerFat, LayerFat, Layer, BatchFat, Batch, Grams, Ounces],
        Place::Pot | Place::Lye => vec![BatchFat, BatchFat, Grams, Ounces],
    })
}

/// The fields that say how much: `thousandths` of the most that the basis allows, `most` being hundredths of a per cent of
/// a layer's fat. What is reckoned on the batch goes into every jug, so it is an eighth of that.
fn amount(basis: Basis, thousandths: i64, most: i64, place: Place) -> (Value, Option<&'static str>) {
    let part = |most: i64| most.saturating_mul(thousandths).div_euclid(1000).max(1);
    let eighth = most.div_euclid(8);
    match (basis, place) {
        (Basis::LayerFat, _) => (text(part(most), 2, "%"), Some("layer fat")),
        (Basis::Layer, _) => (text(part(most.div_euclid(3)), 2, "%"), Some("layer")),
        (Basis::BatchFat, Place::Jug) => (text(part(eighth), 2, "%"), Some("batch fat")),
        (Basis::BatchFat, Place::Pot) => (text(part(most.div_euclid(2)), 2, "%"), None),
        (Basis::BatchFat, Place::Lye) => (text(part(eighth.min(50)), 2, "%"), None),
        (Basis::Batch, _) => (text(part(eighth), 2, "%"), Some("batch")),
        (Basis::Grams, _) => (text(part(eighth), 2, "g"), None),
        (Basis::Ounces, _) => (text(part(eighth.div_euclid(2)), 3, "oz"), None),
    }
}

/// What is dosed: the field that names it, its id, and fields of its own.
type Named = (&'static str, String, Map<String, Value>);

fn of_table(field: &'static str, kind: Kind) -> impl Strategy<Value = Named> {
    any::<Index>().prop_map(move |index| (field, index.get(&library::ids(kind)).to_string(), Map::new()))
}

fn own(field: &'static str, id: &str, fields: Value) -> impl Strategy<Value = Named> + use<> {
    let fields = fields.as_object().cloned().unwrap_or_default();
    Just((field, id.to_owned(), fields))
}

fn stirred() -> impl Strategy<Value = Named> {
    let nuts = json!({"name": "Pecan butter", "composition": {
        "water": "2 %", "fat": "58.5 %", "sugars": "4 %", "protein": "9.2 %", "fat_like": "peanut-oil"}});
    let must = json!({"name": "Grape must", "composition": {
        "water": "78.3 %", "sugars": "19 %", "acid": "0.9 %", "acid_is": "tartaric"}});
    let certified =
        json!({"certificate": {"saponification_value": "183.7 mg KOH/g", "unsaponifiable": "7 %"}});
    prop_oneof![
        10 => of_table("additive", Kind::Additive),
        3 => of_table("fat", Kind::Fat),
        1 => own("additive", "pecan-butter", nuts),
        1 => own("additive", "grape-must", must),
        1 => own("fat", "shea-butter", certified),
    ]
}

fn line(
    named: impl Strategy<Value = Named>,
    place: Place,
    most: i64,
    treated: bool,
) -> impl Strategy<Value = Value> {
    (named, basis(place), number(1, 1000), any::<bool>()).prop_map(
        move |((field, id, fields), basis, thousandths, balance)| {
            let (dose, of) = amount(basis, thousandths, most, place);
            let mut line = fields;
            put(&mut line, field, json!(id));
            put(&mut line, "dose", dose);
            if let Some(of) = of {
                put(&mut line, "of", json!(of));
            }
            // What comes after the lye cannot be balanced by it.
            let late = matches!(basis, Basis::Layer | Basis::Batch);
            if treated && balance && !late {
                put(&mut line, "treatment", json!("balance"));
            }
            Value::Object(line)
        },
    )
}

/// What is stirred into the pot or the lye, or a jug.
pub(super) fn doses(place: Place, most: i64) -> impl Strategy<Value = Vec<Value>> {
    proptest::collection::vec(line(stirred(), place, most, true), 0..=2)
}

/// The lists of doses, colours and scents of a jug, a layer or the pot; an empty one is left out.
pub(super) fn lists(place: Place, most: i64) -> impl Strategy<Value = Map<String, Value>> {
    let mica = json!({"name": "Dusk mica", "swatch": "#7a5c8e"});
    let scent = json!({"name": "Harbour blend", "kind": "compound"});
    let colour = prop_oneof![6 => of_table("colour", Kind::Colourant), 1 => own("colour", "dusk-mica", mica)];
    let scented =
        prop_oneof![6 => of_table("scent", Kind::Fragrance), 1 => own("scent", "harbour-blend", scent)];
    let few = |lines| proptest::collection::vec(lines, 0..=1);
    let colours = few(line(colour, place, most.div_euclid(6), false).boxed());
    let scents = few(line(scented, place, most.div_euclid(2), false).boxed());
    (doses(place, most), colours, scents).prop_map(|(doses, colours, scents)| {
        let mut lists = Map::new();
        for (key, list) in [("doses", doses), ("colours", colours), ("scents", scents)] {
            if !list.is_empty() {
                put(&mut lists, key, Value::Array(list));
            }
        }
        lists
    })
}
