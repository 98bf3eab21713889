//! Volumes and fill heights of moulds against published check values, record by record.
//!
//! The records are in centimetres; 1 cm3 is 1 mL.
#![expect(
    clippy::expect_used,
    clippy::panic,
    clippy::arithmetic_side_effects,
    clippy::indexing_slicing,
    reason = "a test stops at what it did not expect; its counts are small"
)]

use lamella::quantity::{Exact, Length, Volume};
use lamella::recipe::mould::{Cavity, Mould, Shape};
use serde_json::Value;

fn records() -> Vec<Value> {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/vectors/published/j_geometry.json");
    let text = std::fs::read_to_string(path).expect("the vectors are checked in");
    let file: Value = serde_json::from_str(&text).expect("the vectors are JSON");
    file["records"].as_array().expect("a list of records").clone()
}

fn number(value: &Value) -> Exact {
    let text = value.as_str().unwrap_or_else(|| panic!("{value} is not a number as text"));
    Exact::from(text.parse::<lamella::quantity::Decimal>().expect("a decimal"))
}

fn cm(value: Exact) -> Length {
    Length::try_from_unit(value, "cm").expect("a length")
}

fn ml(value: Exact) -> Volume {
    Volume::try_new(value).expect("a volume")
}

fn length(inputs: &Value, keys: &[&str]) -> Length {
    let key = keys.iter().find(|key| inputs.get(**key).is_some());
    cm(number(&inputs[*key.unwrap_or_else(|| panic!("none of {keys:?} in {inputs}"))]))
}

fn shape(inputs: &Value) -> Shape {
    let of = |keys: &[&str]| length(inputs, keys);
    let height = &["H", "height", "fill_height"];
    let one = |cavity| Shape::Tray { cavities: 1, cavity };
    // The inverse records name no shape: they are tapered loaves.
    match inputs.get("shape").map_or("trapezoid", |name| name.as_str().expect("a name")) {
        "box" => Shape::Loaf { length: of(&["L"]), width: of(&["W"]), height: of(height) },
        "trapezoid" => Shape::TaperedLoaf {
            length: of(&["L"]),
            bottom_width: of(&["wb"]),
            top_width: of(&["wt"]),
            height: of(height),
        },
        "frustum" => one(Cavity::Frustum {
            bottom_length: of(&["Lb"]),
            bottom_width: of(&["Wb"]),
            top_length: of(&["Lt"]),
            top_width: of(&["Wt"]),
            height: of(height),
        }),
        "cylinder_upright" => Shape::UprightCylinder { diameter: of(&["D"]), height: of(height) },
        "cylinder_lying" => Shape::LyingCylinder { diameter: of(&["D"]), length: of(&["L"]) },
        "cone_frustum" => {
            one(Cavity::Cone { bottom_diameter: of(&["Db"]), top_diameter: of(&["Dt"]), height: of(height) })
        }
        "sphere_bowl" => one(Cavity::Bowl { radius: of(&["R"]), height: of(height) }),
        other => panic!("unknown shape {other}"),
    }
}

/// Within `tolerance` of the expected figure, relative to it.
fn near(id: &str, what: &str, got: Exact, expected: &Value, tolerance: Exact) {
    let expected = number(expected);
    let off = got - expected;
    let allowed = expected.max(-expected) * tolerance;
    assert!(
        off.decimal().is_some() && !(off.max(-off) - allowed).is_positive(),
        "{id} {what}: {got:?}, published {expected:?}"
    );
}

fn tolerance(record: &Value) -> Exact {
    match &record["tolerance"] {
        Value::String(word) if word == "exact" => Exact::ZERO,
        tolerance => {
            // Written like 1e-11.
            let text = tolerance["rel"].as_str().expect("a relative tolerance");
            Exact::from(lamella::quantity::Decimal::from_scientific(text).expect("a number"))
        }
    }
}

fn in_cm(length: Length) -> Exact {
    length.exact() / Exact::from(10)
}

/// Volume at heights, heights at volumes, levels and thicknesses of layers.
fn full_record(id: &str, record: &Value, shape: &Shape) -> usize {
    let (expected, rel) = (&record["expected"], tolerance(record));
    let fraction = |share: Exact| Length::try_new(shape.depth().exact() * share).expect("a length");
    let volume = shape.volume().exact();
    near(id, "full volume", volume, &expected["full_volume"], rel);
    assert_eq!(shape.depth(), length(&record["inputs"], &["height"]), "{id}");

    let fractions = expected["volume_at_fraction_of_height"].as_object().expect("fractions");
    for (share, expected) in fractions {
        let height = fraction(number(&Value::String(share.clone())));
        near(id, share, shape.volume_to(height).exact(), expected, rel);
    }
    let quarters = [(2, "height_at_half_volume"), (3, "height_at_three_quarter_volume")];
    for (quarters, key) in quarters {
        let part = ml(volume * Exact::from(quarters) / Exact::from(4));
        near(id, key, in_cm(shape.height_at(part).expect("below the brim")), &expected[key], rel);
    }

    let list = |key: &str| expected[key].as_array().unwrap_or_else(|| panic!("{id}: no {key}")).clone();
    let layers: Vec<Volume> = record["inputs"]["layer_volumes"]
        .as_array()
        .expect("layers")
        .iter()
        .map(|volume| ml(number(volume)))
        .collect();
    let levels = shape.levels(&layers).expect("the layers fit");
    let heights = list("cumulative_fill_heights");
    let thicknesses = list("layer_thicknesses");
    assert_eq!((levels.len(), levels.len()), (heights.len(), thicknesses.len()), "{id}");
    let mut below = Length::ZERO;
    for ((level, height), thickness) in levels.into_iter().zip(&heights).zip(&thicknesses) {
        near(id, "level", in_cm(level), height, rel);
        near(id, "thickness", in_cm(level - below), thickness, rel);
        below = level;
    }

    let thirds = list("volumes_of_three_equal_thickness_layers");
    assert_eq!(thirds.len(), 3, "{id}");
    let mut below = Volume::ZERO;
    for (index, third) in thirds.iter().enumerate() {
        let level = fraction(Exact::count(index + 1) / Exact::from(3));
        let to = shape.volume_to(level);
        near(id, "third", (to - below).exact(), third, rel);
        below = to;
    }
    fractions.len() + 3 + 2 * heights.len() + 3
}

#[test]
fn every_record() {
    let mut checked = 0;
    let mut kinds = [0; 4];
    for record in records() {
        let id = record["id"].as_str().expect("an id");
        let (inputs, expected) = (&record["inputs"], &record["expected"]);
        let shape = shape(inputs);
        assert_eq!(shape.problems(), [], "{id}");
        if expected.get("full_volume").is_some() {
            kinds[0] += 1;
            checked += full_record(id, &record, &shape);
        } else if expected.get("num").is_some() {
            kinds[1] += 1;
            let fraction = number(&expected["num"]) / number(&expected["den"]);
            assert_eq!(shape.volume(), ml(fraction), "{id}");
            assert_eq!(shape.volume(), ml(number(&expected["decimal"])), "{id}");
            checked += 2;
        } else if expected.get("h").is_some() {
            kinds[2] += 1;
            let height = shape.height_at(ml(number(&inputs["V"]))).expect("below the brim");
            // The record asks for 1e-13. A length ends at the twelfth decimal of a millimetre, which for a level of 5 mm
            // is 1e-13 already: the rounding alone may take that up, so 1e-12 is what can be asked.
            near(id, "h", in_cm(height), &expected["h"], Exact::literal(1, 12));
            checked += 1;
        } else {
            kinds[3] += 1;
            checked += batch(id, &record, shape);
        }
    }
    assert!(kinds.iter().all(|records| *records > 0), "{kinds:?}");
    assert!(checked >= 100, "{checked} figures");
}

/// The mass that fills several moulds, with what is lost on the way counted on what is mixed.
fn batch(id: &str, record: &Value, shape: Shape) -> usize {
    let (inputs, expected, rel) = (&record["inputs"], &record["expected"], tolerance(record));
    let count = inputs["n"].as_u64().and_then(|n| u32::try_from(n).ok()).expect("a count");
    let fill = length(inputs, &["fill_height"]);
    let mould = Mould::try_new(id, shape, count, Some(fill)).expect("a sound mould");
    near(id, "volume", shape.volume_to(fill).exact(), &expected["volume_each"], rel);
    let mixed = mould.capacity().exact() * number(&inputs["density_g_mL"])
        / (Exact::ONE - number(&inputs["loss_fraction"]));
    near(id, "mass", mixed, &expected["mass_g"], rel);
    2
}
