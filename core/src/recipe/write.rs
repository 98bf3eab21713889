//! Writing: a recipe as the canonical text of its document.

use super::json::{self, Json, Value, object, text};
use super::mould::{Cavity, Mould, Shape};
use super::read_dose::Vessel;
use super::read_mould::default_name;
use super::tables::{ADDITIVE_WATER, FORMAT, PROCESS, PURPOSE, STAGE};
use super::write_dose::{certificate, composition, lists, of_additive};
use super::{
    AdditiveWater, AlkaliChoice, AlkaliGrade, CURED_WATER, FatAmount, FatLine, FatStage, Jug, Layer,
    LayerShare, LyeExtras, Process, Purpose, Recipe, ShareReading, Size, Superfat, Temperatures, Water,
    Workshop,
};
use crate::material::{Alkali, library};
use crate::quantity::{Length, Share};

/// The recipe as a document: fields in the order of the format, defaults left out, quantities in base units.
///
/// Reading the text gives the same recipe back, and writing that gives the same text. A text that a maker typed loses
/// nothing but its layout and its units: `2 oz` comes back as `56.69904625 g`.
///
/// ```
/// let text = r#"{"lamella": "recipe/1", "name": "Plain", "superfat": "5.0%",
///   "fats": [{"fat": "olive-oil", "mass": "2 lb"}], "alkali": {"naoh": {"purity": "98 %"}},
///   "water": {"water_to_alkali": "2"}, "layers": [{"layer": "All", "share": "1 part"}]}"#;
/// let recipe = lamella::recipe::read(text).unwrap();
/// let written = lamella::recipe::write(&recipe);
/// assert!(written.contains(r#"{"fat": "olive-oil", "mass": "907.18474 g"}"#));
/// assert!(written.contains(r#""superfat": "5 %""#));
/// assert_eq!(lamella::recipe::read(&written), Ok(recipe));
/// ```
#[must_use]
pub fn write(recipe: &Recipe) -> String {
    json::print(&document(recipe))
}

/// The recipe as the tree of its document.
pub(crate) fn document(recipe: &Recipe) -> Json {
    let pot = lists(&recipe.pot, Vessel::Batch);
    let mut top = Entries::default();
    top.put("lamella", text(FORMAT));
    top.put("name", text(&recipe.name));
    top.unless(recipe.note.is_empty(), "note", || text(&recipe.note));
    top.unless(recipe.purpose == Purpose::default(), "for", || text(PURPOSE.name(recipe.purpose)));
    top.unless(recipe.process == Process::default(), "process", || text(PROCESS.name(recipe.process)));
    top.put("fats", json::list(recipe.fats.iter().map(fat).collect()));
    top.put("alkali", alkali(&recipe.alkali));
    top.put("superfat", superfat(recipe.superfat));
    top.put("water", water(recipe.water));
    top.unless(recipe.additive_water == AdditiveWater::default(), "additive_water", || {
        text(ADDITIVE_WATER.name(recipe.additive_water))
    });
    top.unless(recipe.lye == LyeExtras::default(), "lye", || lye(&recipe.lye));
    top.all(pot);
    top.unless(recipe.size.is_none(), "size", || recipe.size.map_or(Value::Null.json(), size));
    top.list("moulds", recipe.moulds.iter().enumerate().map(|(index, item)| mould(index, item)));
    top.list("jugs", recipe.jugs.iter().map(jug));
    top.put("layers", json::list(recipe.layers.iter().map(|layer| layer_of(layer, &recipe.jugs)).collect()));
    top.unless(recipe.workshop == Workshop::default(), "workshop", || workshop(&recipe.workshop));
    top.unless(recipe.temperatures == Temperatures::default(), "temperatures", || {
        temperatures(&recipe.temperatures)
    });
    top.unless(recipe.cured_water == CURED_WATER, "cured_water", || text(recipe.cured_water.to_string()));
    top.object()
}

/// The fields of an object, in order.
#[derive(Debug, Default)]
pub(crate) struct Entries(Vec<(String, Json)>);

impl Entries {
    pub(crate) fn put(&mut self, name: &str, value: Json) {
        self.0.push((name.to_owned(), value));
    }

    /// A quantity, as its base unit.
    pub(crate) fn quantity(&mut self, name: &str, value: impl ToString) {
        self.put(name, text(value.to_string()));
    }

    /// A field that is left out when it says the default.
    pub(crate) fn unless(&mut self, default: bool, name: &str, value: impl FnOnce() -> Json) {
        if !default {
            self.put(name, value());
        }
    }

    /// A list that is left out when it is empty.
    pub(crate) fn list(&mut self, name: &str, items: impl Iterator<Item = Json>) {
        let items: Vec<Json> = items.collect();
        self.unless(items.is_empty(), name, || json::list(items));
    }

    pub(crate) fn all(&mut self, entries: Self) {
        self.0.extend(entries.0);
    }

    pub(crate) fn object(self) -> Json {
        object(self.0)
    }
}

/// An object of one field.
fn single(name: &str, value: impl ToString) -> Json {
    let mut entries = Entries::default();
    entries.quantity(name, value);
    entries.object()
}

pub(crate) fn fat(line: &FatLine) -> Json {
    let mut entries = Entries::default();
    entries.put("fat", text(&*line.fat.id));
    match line.amount {
        FatAmount::Share(share) => entries.quantity("share", share),
        FatAmount::Mass(mass) => entries.quantity("mass", mass),
    }
    entries.unless(line.stage == FatStage::default(), "stage", || text(STAGE.name(line.stage)));
    entries.unless(line.certificate == super::Certificate::default(), "certificate", || {
        certificate(&line.certificate)
    });
    entries.object()
}

fn alkali(choice: &AlkaliChoice) -> Json {
    let mut entries = Entries::default();
    match choice {
        AlkaliChoice::Sodium(sodium) => {
            entries.put("naoh", grade(sodium, Alkali::SodiumHydroxide).object());
        }
        AlkaliChoice::Potassium(potassium) => {
            entries.put("koh", grade(potassium, Alkali::PotassiumHydroxide).object());
        }
        AlkaliChoice::Dual { sodium, potassium, share, reading } => {
            entries.put("naoh", grade(sodium, Alkali::SodiumHydroxide).object());
            let mut koh = grade(potassium, Alkali::PotassiumHydroxide);
            koh.put(
                "share",
                match reading {
                    ShareReading::Moles => text(share.to_string()),
                    ShareReading::PureMass => single("pure_mass", share),
                    ShareReading::WeighedMass => single("weighed_mass", share),
                },
            );
            entries.put("koh", koh.object());
        }
    }
    entries.object()
}

fn grade(grade: &AlkaliGrade, alkali: Alkali) -> Entries {
    let mut entries = Entries::default();
    let usual = library::alkali(alkali).purity.typical;
    entries.unless(grade.purity == usual, "purity", || text(grade.purity.to_string()));
    entries.unless(grade.carbonate == Share::ZERO, "carbonate", || text(grade.carbonate.to_string()));
    if let Some(within) = grade.purity_within {
        entries.quantity("purity_within", within);
    }
    entries
}

fn superfat(superfat: Superfat) -> Json {
    match superfat {
        Superfat::OfDemand(share) => text(share.to_string()),
        Superfat::FatExcess(share) => single("fat_excess", share),
    }
}

fn water(water: Water) -> Json {
    match water {
        Water::LyeConcentration(share) => single("lye_concentration", share),
        Water::WaterToAlkali(ratio) => single("water_to_alkali", ratio.normalize()),
        Water::ShareOfFat(share) => single("share_of_fat", share),
    }
}

fn lye(lye: &LyeExtras) -> Json {
    let mut entries = Entries::default();
    entries.list(
        "liquids",
        lye.liquids.iter().map(|line| {
            let mut entries = Entries::default();
            if let super::Ingredient::Additive(additive) = &line.dose.ingredient {
                of_additive(&mut entries, "liquid", additive, line.dose.own);
                entries.quantity("share", line.share);
                super::write_dose::treatment(&mut entries, line.dose.treatment);
                entries.unless(!line.dose.own, "composition", || composition(additive));
            }
            entries.object()
        }),
    );
    entries.all(lists(&lye.doses, Vessel::Batch));
    entries.object()
}

fn size(size: Size) -> Json {
    match size {
        Size::Fat(mass) => single("fat", mass),
        Size::Batter(mass) => single("batter", mass),
        Size::Bars { count, each } => {
            let mut entries = Entries::default();
            entries.put("bars", Value::Whole(count.into()).json());
            entries.quantity("each", each);
            entries.object()
        }
        Size::Moulds => single("moulds", "filled"),
    }
}

fn mould(index: usize, mould: &Mould) -> Json {
    let mut entries = Entries::default();
    let usual = default_name(index.saturating_add(1));
    entries.unless(mould.name() == usual, "mould", || text(mould.name()));
    shape(&mut entries, mould.shape());
    entries.unless(mould.fill() == mould.shape().depth(), "fill", || text(mould.fill().to_string()));
    entries.unless(mould.count() == 1, "count", || Value::Whole(mould.count().into()).json());
    entries.object()
}

fn shape(entries: &mut Entries, shape: &Shape) {
    let count = |count: u32| Value::Whole(count.into()).json();
    match *shape {
        Shape::Loaf { length, width, height } => {
            named(entries, "loaf", &[("length", length), ("width", width), ("height", height)]);
        }
        Shape::TaperedLoaf { length, bottom_width, top_width, height } => {
            let widths = [("bottom_width", bottom_width), ("top_width", top_width)];
            named(entries, "tapered loaf", &[("length", length), widths[0], widths[1], ("height", height)]);
        }
        Shape::Slab { length, width, height, cells_lengthwise, cells_across, divider } => {
            named(entries, "slab", &[("length", length), ("width", width), ("height", height)]);
            entries.unless(cells_lengthwise == 1, "cells_lengthwise", || count(cells_lengthwise));
            entries.unless(cells_across == 1, "cells_across", || count(cells_across));
            entries.unless(divider.is_zero(), "divider", || text(divider.to_string()));
        }
        Shape::UprightCylinder { diameter, height } => {
            named(entries, "upright cylinder", &[("diameter", diameter), ("height", height)]);
        }
        Shape::LyingCylinder { diameter, length } => {
            named(entries, "lying cylinder", &[("diameter", diameter), ("length", length)]);
        }
        Shape::Tray { cavities, cavity } => {
            named(entries, "tray", &[]);
            entries.put("cavities", count(cavities));
            entries.put("cavity", cavity_of(&cavity));
        }
    }
}

fn cavity_of(cavity: &Cavity) -> Json {
    let mut entries = Entries::default();
    match *cavity {
        Cavity::Box { length, width, height } => {
            named(&mut entries, "box", &[("length", length), ("width", width), ("height", height)]);
        }
        Cavity::Frustum { bottom_length, bottom_width, top_length, top_width, height } => {
            named(
                &mut entries,
                "frustum",
                &[
                    ("bottom_length", bottom_length),
                    ("bottom_width", bottom_width),
                    ("top_length", top_length),
                    ("top_width", top_width),
                    ("height", height),
                ],
            );
        }
        Cavity::Cone { bottom_diameter, top_diameter, height } => {
            let diameters = [("bottom_diameter", bottom_diameter), ("top_diameter", top_diameter)];
            named(&mut entries, "cone", &[diameters[0], diameters[1], ("height", height)]);
        }
        Cavity::Bowl { radius, height } => {
            named(&mut entries, "bowl", &[("radius", radius), ("height", height)]);
        }
    }
    entries.object()
}

/// A shape's word and measures.
fn named(entries: &mut Entries, shape: &str, measures: &[(&str, Length)]) {
    entries.put("shape", text(shape));
    for (name, measure) in measures {
        entries.quantity(name, measure);
    }
}

fn jug(jug: &Jug) -> Json {
    let mut entries = Entries::default();
    entries.put("jug", text(&jug.name));
    if let Some(tare) = jug.tare {
        entries.quantity("tare", tare);
    }
    if let Some(residue) = jug.residue {
        entries.quantity("residue", residue);
    }
    entries.all(lists(&jug.doses, Vessel::Jug));
    entries.object()
}

fn layer_of(layer: &Layer, jugs: &[Jug]) -> Json {
    let mut entries = Entries::default();
    entries.put("layer", text(&layer.name));
    entries.put(
        "share",
        text(match layer.share {
            LayerShare::Parts(parts) if parts == crate::quantity::Decimal::ONE => "1 part".to_owned(),
            LayerShare::Parts(parts) => format!("{} parts", parts.normalize()),
            LayerShare::Height(height) => height.to_string(),
            LayerShare::Mass(mass) => mass.to_string(),
            LayerShare::Volume(volume) => volume.to_string(),
        }),
    );
    if let Some(jug) = layer.jug.and_then(|index| jugs.get(index)) {
        entries.put("jug", text(&jug.name));
    }
    entries.all(lists(&layer.doses, Vessel::Jug));
    entries.object()
}

fn workshop(workshop: &Workshop) -> Json {
    let usual = Workshop::default();
    let mut entries = Entries::default();
    entries.unless(workshop.scales == usual.scales, "scales", || {
        let scale = |scale: &super::Scale| {
            let mut entries = Entries::default();
            entries.put("scale", text(&scale.name));
            entries.quantity("step", scale.step);
            entries.quantity("capacity", scale.capacity);
            entries.object()
        };
        json::list(workshop.scales.iter().map(scale).collect())
    });
    let residues = [
        ("jug_residue", workshop.jug_residue, usual.jug_residue),
        ("pot_residue", workshop.pot_residue, usual.pot_residue),
        ("lye_residue", workshop.lye_residue, usual.lye_residue),
    ];
    for (name, residue, usual) in residues {
        entries.unless(residue == usual, name, || text(residue.to_string()));
    }
    entries.object()
}

fn temperatures(temperatures: &Temperatures) -> Json {
    let usual = Temperatures::default();
    let mut entries = Entries::default();
    entries.unless(temperatures.fats == usual.fats, "fats", || text(temperatures.fats.to_string()));
    entries.unless(temperatures.lye == usual.lye, "lye", || text(temperatures.lye.to_string()));
    entries.object()
}
