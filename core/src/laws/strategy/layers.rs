//! Layers, the jugs they share, and moulds.

use proptest::prelude::{Just, Strategy, any};
use proptest::prop_oneof;
use proptest::sample::select;
use serde_json::{Map, Value, json};

use super::matter::{Place, lists};
use super::{number, put, split, text};

/// How the layers of a recipe say their share.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum ShareKind {
    Parts,
    PerCent,
    Mass,
    Ounces,
    Volume,
    Height,
}

/// A jug that may be used.
#[derive(Clone, Debug)]
struct JugDrawn {
    tare: Option<i64>,
    residue: Option<i64>,
    lists: Map<String, Value>,
}

/// Layers: how much of each, which jug (nought for none), and what goes into those that have one to themselves.
#[derive(Clone, Debug)]
pub(super) struct Layers {
    pub(super) kind: ShareKind,
    layers: Vec<(i64, usize, Map<String, Value>)>,
    jugs: Vec<JugDrawn>,
}

pub(super) fn layers(most: i64) -> impl Strategy<Value = Layers> {
    use ShareKind::{Height, Mass, Ounces, Parts, PerCent, Volume};
    let kind = select(vec![Parts, Parts, Parts, Parts, PerCent, Mass, Ounces, Volume, Height]);
    // Four to eight: no layer of eight is so thin that nothing of it is left to pour.
    let layer = (number(4, 8), 0..=3_usize, lists(Place::Jug, most));
    let jug = (
        proptest::option::of(number(500, 9_000)),
        proptest::option::of(number(0, 20)),
        prop_oneof![Just(Map::new()), lists(Place::Jug, most)],
    )
        .prop_map(|(tare, residue, lists)| JugDrawn { tare, residue, lists });
    let layers = proptest::collection::vec(layer, 1..=8);
    (kind, layers, proptest::collection::vec(jug, 3)).prop_map(|(kind, layers, jugs)| Layers {
        kind,
        layers,
        jugs,
    })
}

/// Moulds, and whether they stand in a document that does not need them.
#[derive(Clone, Debug)]
pub(super) struct Moulds {
    lines: Vec<(Map<String, Value>, i64)>,
    bowls: bool,
    shown: bool,
}

impl Layers {
    /// Puts layers, jugs, moulds and size into the document.
    pub(super) fn document(&self, top: &mut Map<String, Value>, moulds: &Moulds, size: Option<Value>) {
        let heights = self.kind == ShareKind::Height;
        let fills = size.as_ref().is_some_and(|size| size.get("moulds").is_some());
        if heights || fills || moulds.shown {
            let lines = moulds.lines.iter().map(|(mould, _)| Value::Object(mould.clone()));
            put(top, "moulds", lines.collect());
        }
        if let Some(size) = size {
            put(top, "size", size);
        }
        // Of a bowl's lowest millimetres there would be too little to pour.
        let most = if heights && moulds.bowls { 3 } else { 8 };
        let layers: Vec<_> = self.layers.iter().take(most).collect();
        let weights: Vec<i64> = layers.iter().map(|(weight, _, _)| *weight).collect();
        let depth = moulds.lines.iter().map(|(_, fill)| *fill).min().unwrap_or(100);
        let heights = split(depth, &weights);
        let users = |jug: usize| layers.iter().filter(|(_, known, _)| *known == jug).count();
        let mut lines = Vec::new();
        for (index, ((weight, jug, lists), height)) in layers.iter().zip(&heights).enumerate() {
            let mut line = Map::new();
            put(&mut line, "layer", json!(format!("band {}", index.saturating_add(1))));
            put(&mut line, "share", self.share(*weight, *height));
            let drawn = jug.checked_sub(1).and_then(|index| self.jugs.get(index));
            if drawn.is_some() {
                put(&mut line, "jug", json!(format!("jug {jug}")));
            }
            if drawn.is_none_or(|drawn| drawn.lists.is_empty() && users(*jug) == 1) {
                line.extend(lists.clone());
            }
            lines.push(Value::Object(line));
        }
        put(top, "layers", Value::Array(lines));
        let jugs: Vec<Value> = (1_usize..)
            .zip(&self.jugs)
            .filter(|(number, _)| users(*number) > 0)
            .map(|(number, jug)| jug.line(number))
            .collect();
        put(top, "jugs", Value::Array(jugs));
    }

    fn share(&self, weight: i64, height: i64) -> Value {
        match self.kind {
            ShareKind::Parts => text(weight, 1, "parts"),
            ShareKind::PerCent => text(weight, 0, "%"),
            ShareKind::Mass => text(weight.saturating_mul(3_711), 2, "g"),
            ShareKind::Ounces => text(weight.saturating_mul(17), 1, "oz"),
            ShareKind::Volume => text(weight.saturating_mul(413), 1, "mL"),
            ShareKind::Height => text(height, 1, "mm"),
        }
    }
}

impl JugDrawn {
    fn line(&self, number: usize) -> Value {
        let mut line = self.lists.clone();
        put(&mut line, "jug", json!(format!("jug {number}")));
        if let Some(tare) = self.tare {
            put(&mut line, "tare", text(tare, 1, "g"));
        }
        if let Some(residue) = self.residue {
            put(&mut line, "residue", text(residue, 1, "g"));
        }
        Value::Object(line)
    }
}

/// Fields of a shape, all in tenths of a millimetre, and how deep it is.
type Drawn = (Map<String, Value>, i64);

fn shape(word: &str, fields: &[(&str, i64)], depth: i64) -> Drawn {
    let mut shape = Map::new();
    put(&mut shape, "shape", json!(word));
    for (field, tenths) in fields {
        put(&mut shape, field, text(*tenths, 1, "mm"));
    }
    (shape, depth)
}

fn tray(cavities: i64, (cavity, depth): Drawn) -> Drawn {
    let mut tray = Map::new();
    put(&mut tray, "shape", json!("tray"));
    put(&mut tray, "cavities", json!(cavities));
    put(&mut tray, "cavity", Value::Object(cavity));
    (tray, depth)
}

fn mould_shape() -> impl Strategy<Value = Drawn> {
    let measure = || number(0, 100);
    (0..10_u8, measure(), measure(), measure(), number(10, 14)).prop_map(|(which, a, b, c, count)| {
        let add = i64::saturating_add;
        let (long, wide, high) = (add(2_000, a), add(700, b), add(600, c));
        match which {
            0 => shape("loaf", &[("length", long), ("width", wide), ("height", high)], high),
            1 => shape(
                "tapered loaf",
                &[("length", long), ("bottom_width", wide), ("top_width", add(700, c)), ("height", high)],
                high,
            ),
            2 => {
                let fields =
                    [("length", long), ("width", add(2_000, b)), ("height", add(300, c)), ("divider", 15)];
                let (mut slab, depth) = shape("slab", &fields, add(300, c));
                put(&mut slab, "cells_lengthwise", json!(count.div_euclid(3)));
                put(&mut slab, "cells_across", json!(2));
                (slab, depth)
            }
            3 => shape("upright cylinder", &[("diameter", wide), ("height", long)], long),
            4 => shape("lying cylinder", &[("diameter", wide), ("length", long)], wide),
            5 => {
                let fields = [("length", add(600, a)), ("width", add(550, b)), ("height", add(280, c))];
                tray(count, shape("box", &fields, add(280, c)))
            }
            6 => {
                let fields = [
                    ("bottom_length", add(600, a)),
                    ("bottom_width", add(550, b)),
                    ("top_length", add(650, c)),
                    ("top_width", add(550, a)),
                    ("height", add(280, b)),
                ];
                tray(count, shape("frustum", &fields, add(280, b)))
            }
            7 => {
                let fields = [
                    ("bottom_diameter", add(560, a)),
                    ("top_diameter", add(560, b)),
                    ("height", add(350, c)),
                ];
                tray(count, shape("cone", &fields, add(350, c)))
            }
            _ => {
                let fields = [("radius", add(380, a)), ("height", add(280, c))];
                tray(count, shape("bowl", &fields, add(280, c)))
            }
        }
    })
}

pub(super) fn moulds() -> impl Strategy<Value = Moulds> {
    let one = (mould_shape(), number(70, 100), 1..=3_i64, any::<bool>());
    (proptest::collection::vec(one, 1..=2), any::<bool>()).prop_map(|(drawn, shown)| {
        let bowls = drawn.iter().any(|((shape, _), ..)| {
            shape.get("cavity").and_then(|cavity| cavity.get("shape")).is_some_and(|word| word == "bowl")
        });
        let line = |(number, ((mut shape, depth), per_cent, count, named)): (u8, (Drawn, i64, i64, bool))| {
            let fill = depth.saturating_mul(per_cent).div_euclid(100);
            put(&mut shape, "fill", text(fill, 1, "mm"));
            put(&mut shape, "count", json!(count));
            if named {
                put(&mut shape, "mould", json!(format!("form {number}")));
            }
            (shape, fill)
        };
        Moulds { lines: (0..).zip(drawn).map(line).collect(), bowls, shown }
    })
}
