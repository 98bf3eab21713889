//! Moulds of a document.

use std::collections::BTreeSet;

use super::fields::{Field, Kind, Table, may, must};
use super::json::Value;
use super::mould::{Cavity, Mould, Shape};
use super::read_value::{Fields, Node, Reader, echo, listed, meant};
use super::tables::LENGTH;
use crate::limits;
use crate::quantity::Length;

const COUNT: Kind = Kind::Count(limits::RECIPE_COUNT);
const MEASURE: Kind = Kind::Quantity(&[LENGTH]);
const SHAPES: [&str; 6] = ["loaf", "tapered loaf", "slab", "upright cylinder", "lying cylinder", "tray"];
const CAVITIES: [&str; 4] = ["box", "frustum", "cone", "bowl"];

const NAME_FIELD: Field = may("mould", Kind::Name, "Its name; mould 1, mould 2 ... by default.");
const SHAPE_FIELD: Field = must("shape", Kind::Word(&SHAPES), "Its shape.");
const FILL_FIELD: Field = may("fill", MEASURE, "How high it is filled; to the brim by default.");
const COUNT_FIELD: Field = may("count", COUNT, "How many of them; one by default.");
const CAVITY_FIELD: Field = must("shape", Kind::Word(&CAVITIES), "Its shape.");

macro_rules! mould {
    ($id:literal, $what:literal, $($field:expr),*) => {
        Table::new($id, $what, &[NAME_FIELD, SHAPE_FIELD, $($field),*, FILL_FIELD, COUNT_FIELD], &[])
    };
}

static LOAF: Table = mould!(
    "loaf",
    "a loaf mould",
    must("length", MEASURE, "Inside length."),
    must("width", MEASURE, "Inside width."),
    must("height", MEASURE, "Height of the walls.")
);
static TAPERED_LOAF: Table = mould!(
    "tapered-loaf",
    "a tapered loaf mould",
    must("length", MEASURE, "Inside length."),
    must("bottom_width", MEASURE, "Inside width at the bottom."),
    must("top_width", MEASURE, "Inside width at the top."),
    must("height", MEASURE, "Height of the walls.")
);
static SLAB: Table = mould!(
    "slab",
    "a slab mould",
    must("length", MEASURE, "Inside length."),
    must("width", MEASURE, "Inside width."),
    must("height", MEASURE, "Height of the walls."),
    may("cells_lengthwise", COUNT, "Cells along the length; one by default."),
    may("cells_across", COUNT, "Cells along the width; one by default."),
    may("divider", MEASURE, "Thickness of a divider; nought by default.")
);
static UPRIGHT_CYLINDER: Table = mould!(
    "upright-cylinder",
    "an upright cylinder",
    must("diameter", MEASURE, "Inside diameter."),
    must("height", MEASURE, "Height.")
);
static LYING_CYLINDER: Table = mould!(
    "lying-cylinder",
    "a lying cylinder",
    must("diameter", MEASURE, "Inside diameter."),
    must("length", MEASURE, "Inside length.")
);
static TRAY: Table = mould!(
    "tray",
    "a tray",
    must("cavities", COUNT, "How many cavities it has."),
    must("cavity", CAVITY, "One of them.")
);

static BOX: Table = Table::new(
    "box",
    "a box",
    &[
        CAVITY_FIELD,
        must("length", MEASURE, "Length."),
        must("width", MEASURE, "Width."),
        must("height", MEASURE, "Height."),
    ],
    &[],
);
static FRUSTUM: Table = Table::new(
    "frustum",
    "a frustum",
    &[
        CAVITY_FIELD,
        must("bottom_length", MEASURE, "Length at the bottom."),
        must("bottom_width", MEASURE, "Width at the bottom."),
        must("top_length", MEASURE, "Length at the top."),
        must("top_width", MEASURE, "Width at the top."),
        must("height", MEASURE, "Height."),
    ],
    &[],
);
static CONE: Table = Table::new(
    "cone",
    "a cone",
    &[
        CAVITY_FIELD,
        must("bottom_diameter", MEASURE, "Diameter at the bottom."),
        must("top_diameter", MEASURE, "Diameter at the top."),
        must("height", MEASURE, "Height."),
    ],
    &[],
);
static BOWL: Table = Table::new(
    "bowl",
    "a bowl",
    &[CAVITY_FIELD, must("radius", MEASURE, "Radius of the ball."), must("height", MEASURE, "Height.")],
    &[],
);

const BY_SHAPE: [(&str, &Table); 6] = [
    ("loaf", &LOAF),
    ("tapered loaf", &TAPERED_LOAF),
    ("slab", &SLAB),
    ("upright cylinder", &UPRIGHT_CYLINDER),
    ("lying cylinder", &LYING_CYLINDER),
    ("tray", &TRAY),
];
const BY_CAVITY: [(&str, &Table); 4] =
    [("box", &BOX), ("frustum", &FRUSTUM), ("cone", &CONE), ("bowl", &BOWL)];

/// A mould: its fields depend on its shape.
pub(crate) static MOULD: Kind = Kind::Tagged("shape", &BY_SHAPE);
const CAVITY: Kind = Kind::Tagged("shape", &BY_CAVITY);

impl Reader {
    /// All moulds.
    pub(crate) fn moulds(&mut self, top: &Fields<'_>) -> Option<Vec<Mould>> {
        let mut seen = BTreeSet::new();
        let mut number = 0_usize;
        self.items(top, "moulds", 0, |reader, at| {
            number = number.saturating_add(1);
            reader.mould(at, number, &mut seen)
        })
    }

    fn mould(&mut self, at: &Node<'_>, number: usize, seen: &mut BTreeSet<String>) -> Option<Mould> {
        let (shape, fields) = self.tagged(at, "a mould", &BY_SHAPE)?;
        let name = match fields.get("mould") {
            Some(at) => self.name(&at, 1).map(str::to_owned),
            None => Some(default_name(number)),
        };
        if let Some(name) = &name {
            self.unique(&fields.get("mould").unwrap_or_else(|| at.clone()), seen, name, "moulds");
        }
        let shape = self.shape(shape, &fields);
        let fill = self.maybe(&fields, "fill", None, |reader, at| reader.measure(at).map(Some));
        let count = self.maybe(&fields, "count", 1, |reader, at| reader.number(at, &limits::RECIPE_COUNT));
        let problems = match Mould::try_new(name?, shape?, count?, fill?) {
            Ok(mould) => return Some(mould),
            Err(problems) => problems,
        };
        for (field, message) in problems {
            let mut place = at.clone();
            for step in field.split('/').filter(|step| !step.is_empty()) {
                place = step_into(&place, step).unwrap_or(place);
            }
            let (message, advice) = match message.split_once("; ") {
                Some((message, advice)) => (message.to_owned(), advice.to_owned()),
                None => (message, "check the measures and their units".to_owned()),
            };
            self.report(&place, "mould.shape", message, advice);
        }
        None
    }

    /// The table that the word under `shape` names, with the fields read by it.
    fn tagged<'d>(
        &mut self,
        at: &Node<'d>,
        what: &str,
        tables: &[(&'static str, &Table)],
    ) -> Option<(&'static str, Fields<'d>)> {
        let names: Vec<&str> = tables.iter().map(|(name, _)| *name).collect();
        if !matches!(at.json.value, Value::Object(_)) {
            self.wrong_type(
                at,
                "an object",
                format!("write {{ \"shape\": {:?}, ... }}", names.first().unwrap_or(&"")),
            );
            return None;
        }
        let Some(tag) = step_into(at, "shape") else {
            let message = format!("{what} has no \"shape\"");
            self.report(at, "field.missing", message, format!("add \"shape\": {}", listed(&names)));
            return None;
        };
        let word = self.text(&tag, &format!("write {}", listed(&names)))?;
        let Some((name, table)) = tables.iter().find(|(name, _)| *name == word) else {
            let message = format!("{} cannot be {}", tag.label(), echo(word));
            self.report(&tag, "field.word", message, meant(word, &names));
            return None;
        };
        Some((*name, self.object(at, table)?))
    }

    fn measure(&mut self, at: &Node<'_>) -> Option<Length> {
        self.quantity(at, &LENGTH)
    }

    /// All fields are read before the first that is missing ends it.
    fn shape(&mut self, shape: &str, fields: &Fields<'_>) -> Option<Shape> {
        if shape == "tray" {
            let cavities =
                self.needed(fields, "cavities", |reader, at| reader.number(at, &limits::RECIPE_COUNT));
            let cavity = self.needed(fields, "cavity", Self::cavity);
            return Some(Shape::Tray { cavities: cavities?, cavity: cavity? });
        }
        let mut length = |name| self.needed(fields, name, Self::measure);
        match shape {
            "loaf" => {
                let (length, width, height) = (length("length"), length("width"), length("height"));
                Some(Shape::Loaf { length: length?, width: width?, height: height? })
            }
            "tapered loaf" => {
                let (long, bottom) = (length("length"), length("bottom_width"));
                let (top, height) = (length("top_width"), length("height"));
                Some(Shape::TaperedLoaf {
                    length: long?,
                    bottom_width: bottom?,
                    top_width: top?,
                    height: height?,
                })
            }
            "slab" => {
                let (length, width, height) = (length("length"), length("width"), length("height"));
                let divider = self.maybe(fields, "divider", Length::ZERO, Self::measure);
                let mut cells =
                    |name| self.maybe(fields, name, 1, |reader, at| reader.number(at, &limits::RECIPE_COUNT));
                let (lengthwise, across) = (cells("cells_lengthwise"), cells("cells_across"));
                Some(Shape::Slab {
                    length: length?,
                    width: width?,
                    height: height?,
                    cells_lengthwise: lengthwise?,
                    cells_across: across?,
                    divider: divider?,
                })
            }
            "upright cylinder" => {
                let (diameter, height) = (length("diameter"), length("height"));
                Some(Shape::UprightCylinder { diameter: diameter?, height: height? })
            }
            _ => {
                let (diameter, long) = (length("diameter"), length("length"));
                Some(Shape::LyingCylinder { diameter: diameter?, length: long? })
            }
        }
    }

    fn cavity(&mut self, at: &Node<'_>) -> Option<Cavity> {
        let (shape, fields) = self.tagged(at, "a cavity", &BY_CAVITY)?;
        let mut length = |name| self.needed(&fields, name, Self::measure);
        match shape {
            "box" => {
                let (length, width, height) = (length("length"), length("width"), length("height"));
                Some(Cavity::Box { length: length?, width: width?, height: height? })
            }
            "frustum" => {
                let (bottom_length, bottom_width) = (length("bottom_length"), length("bottom_width"));
                let (top_length, top_width) = (length("top_length"), length("top_width"));
                let height = length("height");
                Some(Cavity::Frustum {
                    bottom_length: bottom_length?,
                    bottom_width: bottom_width?,
                    top_length: top_length?,
                    top_width: top_width?,
                    height: height?,
                })
            }
            "cone" => {
                let (bottom, top) = (length("bottom_diameter"), length("top_diameter"));
                let height = length("height");
                Some(Cavity::Cone { bottom_diameter: bottom?, top_diameter: top?, height: height? })
            }
            _ => {
                let (radius, height) = (length("radius"), length("height"));
                Some(Cavity::Bowl { radius: radius?, height: height? })
            }
        }
    }
}

/// What the `number`th mould is called unless the document says otherwise.
pub(crate) fn default_name(number: usize) -> String {
    format!("mould {number}")
}

fn step_into<'d>(at: &Node<'d>, name: &str) -> Option<Node<'d>> {
    let Value::Object(entries) = &at.json.value else { return None };
    entries.iter().find(|(key, _)| key == name).map(|(key, json)| at.child(key, json))
}
