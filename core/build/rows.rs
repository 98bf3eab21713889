//! What a row of each table looks like.

use std::collections::BTreeMap;
use std::path::Path;

use serde::Deserialize;
use serde::de::DeserializeOwned;

use crate::emit::{Field, field, list, option, percent, quantity, text, variant};

/// A row of a table.
pub(crate) trait Row: DeserializeOwned {
    /// Name of the static array.
    const TABLE: &'static str;
    /// The fields of the Rust value.
    fn fields(&self, id: &str) -> Result<Vec<Field>, String>;
}

/// The rows of a file by their id, which is unique and in kebab case.
pub(crate) fn read<T: Row>(data: &Path, file: &str, key: &str) -> Result<BTreeMap<String, T>, String> {
    let path = data.join(file);
    let source = std::fs::read_to_string(&path).map_err(|error| format!("{}: {error}", path.display()))?;
    let mut whole: toml::Table = source.parse().map_err(|error| format!("data/{file}: {error}"))?;
    let Some(toml::Value::Array(list)) = whole.remove(key) else {
        return Err(format!("data/{file}: no rows [[{key}]]"));
    };
    if let Some((other, _)) = whole.iter().next() {
        return Err(format!("data/{file}: {other:?} is not a row [[{key}]]"));
    }
    let mut rows = BTreeMap::new();
    for (number, value) in list.into_iter().enumerate() {
        let toml::Value::Table(mut row) = value else {
            return Err(format!("data/{file}: row {number} is not a table"));
        };
        let Some(toml::Value::String(id)) = row.remove("id") else {
            return Err(format!("data/{file}: row {number} has no id"));
        };
        let wrong = |what: &str| format!("data/{file}, row {id:?}: {what}");
        let kebab = id.split('-').all(|word| {
            !word.is_empty() && word.bytes().all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit())
        });
        if !kebab {
            return Err(wrong("an id has lower-case words joined by hyphens"));
        }
        let row: T = row.try_into().map_err(|error: toml::de::Error| wrong(error.message()))?;
        if rows.insert(id.clone(), row).is_some() {
            return Err(wrong("the id stands twice"));
        }
    }
    Ok(rows)
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Basis {
    what: String,
    kind: String,
    cite: String,
    seen: bool,
    /// Where the text was read: for the reader of the table, not for the library.
    url: Option<String>,
}

pub(crate) fn bases(bases: &[Basis]) -> Result<Field, String> {
    const KINDS: [&str; 8] =
        ["standard", "regulation", "handbook", "dataset", "supplier", "derived", "common-practice", "memory"];
    let mut items = Vec::new();
    for Basis { what, kind, cite, seen, url } in bases {
        if url.is_some() && !seen {
            return Err(format!("basis {what:?} has a url, yet it was not seen"));
        }
        let kind = variant("BasisKind", kind, &KINDS)?;
        let (what, cite) = (text(what), text(cite));
        items.push(format!("Basis {{ what: {what}, kind: {kind}, cite: {cite}, seen: {seen} }}"));
    }
    if items.is_empty() {
        return Err("no basis".to_owned());
    }
    Ok(list("bases", "Basis", &items))
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Range {
    min: Option<String>,
    pub(crate) typical: String,
    max: Option<String>,
}

impl Range {
    fn emit(&self, one: impl Fn(&str) -> Result<String, String>) -> Result<String, String> {
        let end = |end: &Option<String>| end.as_deref().map(&one).transpose().map(option);
        Ok(format!(
            "Ranged {{ min: {}, typical: {}, max: {} }}",
            end(&self.min)?,
            one(&self.typical)?,
            end(&self.max)?
        ))
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Density {
    typical: String,
    at: String,
}

#[derive(Default, Deserialize)]
#[serde(deny_unknown_fields)]
struct Inci {
    fat: Option<String>,
    sodium_soap: Option<String>,
    potassium_soap: Option<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Fat {
    name: String,
    source: String,
    kind: String,
    pub(crate) saponification_value: Range,
    iodine_value: Option<Range>,
    unsaponifiable_max: Option<String>,
    density: Option<Density>,
    #[serde(default)]
    inci: Inci,
    note: String,
    pub(crate) deviation: Option<String>,
    bases: Vec<Basis>,
    #[serde(default)]
    profile: BTreeMap<String, Range>,
}

/// `C18:1-OH` as its carbons, double bonds, hydroxyls and whether it is the gamma isomer.
fn acid(name: &str) -> Option<(u8, u8, u8, bool)> {
    let rest = name.strip_prefix('C')?;
    let (rest, gamma) = rest.strip_suffix("-gamma").map_or((rest, false), |rest| (rest, true));
    let (rest, hydroxyls) = rest.strip_suffix("-OH").map_or((rest, 0), |rest| (rest, 1));
    let (carbons, double_bonds) = rest.split_once(':')?;
    Some((carbons.parse().ok()?, double_bonds.parse().ok()?, hydroxyls, gamma))
}

impl Row for Fat {
    const TABLE: &'static str = "FATS";

    fn fields(&self, id: &str) -> Result<Vec<Field>, String> {
        let mut acids = BTreeMap::new();
        for (name, share) in &self.profile {
            let acid = acid(name).ok_or_else(|| format!("profile: {name:?} is not an acid such as C18:1"))?;
            let share = share.emit(percent).map_err(|wrong| format!("profile {name}: {wrong}"))?;
            acids.insert(acid, share);
        }
        let acids: Vec<String> = acids
            .into_iter()
            .map(|((carbons, double_bonds, hydroxyls, gamma), share)| {
                let acid = format!(
                    "carbons: {carbons}, double_bonds: {double_bonds}, hydroxyls: {hydroxyls}, gamma: {gamma}"
                );
                format!("AcidShare {{ acid: FattyAcid {{ {acid} }}, share: {share} }}")
            })
            .collect();
        let density = |density: &Density| -> Result<String, String> {
            let typical = quantity("Density", &density.typical)?;
            Ok(format!("FatDensity {{ typical: {typical}, at: {} }}", quantity("Temperature", &density.at)?))
        };
        let iodine = self.iodine_value.as_ref().map(|range| range.emit(|n| quantity("IodineValue", n)));
        let name = |name: &Option<String>| option(name.as_deref().map(text));
        let Inci { fat, sodium_soap, potassium_soap } = &self.inci;
        let (fat, sodium, potassium) = (name(fat), name(sodium_soap), name(potassium_soap));
        let note = match &self.deviation {
            Some(why) => format!("{} {why}", self.note),
            None => self.note.clone(),
        };
        Ok(vec![
            field("id", text(id)),
            field("name", text(&self.name)),
            field("source", text(&self.source)),
            field("kind", variant("FatKind", &self.kind, &["triglyceride", "free-fatty-acid", "wax-ester"])?),
            field(
                "saponification_value",
                self.saponification_value.emit(|n| quantity("SaponificationValue", n))?,
            ),
            field("iodine_value", option(iodine.transpose()?)),
            field("unsaponifiable_max", option(self.unsaponifiable_max.as_deref().map(percent).transpose()?)),
            field("unsaponifiable_stated", "None".to_owned()),
            field("density", option(self.density.as_ref().map(density).transpose()?)),
            list("profile", "AcidShare", &acids),
            field(
                "inci",
                format!("Inci {{ fat: {fat}, sodium_soap: {sodium}, potassium_soap: {potassium} }}"),
            ),
            bases(&self.bases)?,
            field("note", text(&note)),
        ])
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Composition {
    water: Option<String>,
    pub(crate) fat: Option<String>,
    sugars: Option<String>,
    protein: Option<String>,
    fibre: Option<String>,
    minerals: Option<String>,
    alcohol: Option<String>,
    polyols: Option<String>,
    pub(crate) acid: Option<String>,
}

impl Composition {
    /// The parts in the order of [`PARTS`].
    pub(crate) fn all(&self) -> [Option<&str>; 9] {
        let Self { water, fat, sugars, protein, fibre, minerals, alcohol, polyols, acid } = self;
        [water, fat, sugars, protein, fibre, minerals, alcohol, polyols, acid].map(|part| part.as_deref())
    }
}

const PARTS: [&str; 9] =
    ["water", "fat", "sugars", "protein", "fibre", "minerals", "alcohol", "polyols", "acid"];

const IN_LYE: [&str; 7] = ["water", "salt", "frozen", "boiled", "hot", "cooled", "fats"];

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Additive {
    name: String,
    pub(crate) form: String,
    in_lye: String,
    pub(crate) composition: Composition,
    pub(crate) fat_like: Option<String>,
    pub(crate) fat_saponification_value: Option<String>,
    pub(crate) acid: Option<String>,
    #[serde(default)]
    fresh: bool,
    allergen: Option<String>,
    inci: Option<String>,
    bases: Vec<Basis>,
    #[serde(default)]
    note: String,
}

impl Row for Additive {
    const TABLE: &'static str = "ADDITIVES";

    fn fields(&self, id: &str) -> Result<Vec<Field>, String> {
        let mut parts = Vec::new();
        for (name, part) in PARTS.into_iter().zip(self.composition.all()) {
            let share = part.map_or_else(|| Ok("Share::ZERO".to_owned()), percent);
            parts
                .push(format!("{name}: {}", share.map_err(|wrong| format!("composition, {name}: {wrong}"))?));
        }
        let words = |word: &Option<String>| option(word.as_deref().map(text));
        let value = self.fat_saponification_value.as_deref().map(|n| quantity("SaponificationValue", n));
        Ok(vec![
            field("id", text(id)),
            field("name", text(&self.name)),
            field("form", variant("Form", &self.form, &["liquid", "paste", "soluble", "insoluble"])?),
            field("in_lye", variant("InLye", &self.in_lye, &IN_LYE)?),
            field("composition", format!("Composition {{ {} }}", parts.join(", "))),
            field("fat_like", words(&self.fat_like)),
            field("fat_saponification_value", option(value.transpose()?)),
            field("acid", words(&self.acid)),
            field("fresh", self.fresh.to_string()),
            field("allergen", words(&self.allergen)),
            field("inci", words(&self.inci)),
            bases(&self.bases)?,
            field("note", text(&self.note)),
        ])
    }
}

#[derive(Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
struct Atoms {
    c: u16,
    h: u16,
    n: u16,
    o: u16,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Acid {
    name: String,
    formula: Atoms,
    equivalents: u8,
    sodium_salt: String,
    bases: Vec<Basis>,
}

impl Row for Acid {
    const TABLE: &'static str = "ACIDS";

    fn fields(&self, id: &str) -> Result<Vec<Field>, String> {
        let Atoms { c, h, n, o } = self.formula;
        Ok(vec![
            field("id", text(id)),
            field("name", text(&self.name)),
            field("formula", format!("Formula {{ c: {c}, h: {h}, n: {n}, o: {o}, na: 0, k: 0, cl: 0 }}")),
            field("equivalents", self.equivalents.to_string()),
            field("sodium_salt", text(&self.sodium_salt)),
            bases(&self.bases)?,
        ])
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Alkali {
    purity: Range,
    carbonate_max: String,
    bases: Vec<Basis>,
    note: String,
}

impl Row for Alkali {
    const TABLE: &'static str = "ALKALIS";

    fn fields(&self, id: &str) -> Result<Vec<Field>, String> {
        let alkali = if id == "naoh" { "Alkali::SodiumHydroxide" } else { "Alkali::PotassiumHydroxide" };
        Ok(vec![
            field("alkali", alkali),
            field("purity", self.purity.emit(percent)?),
            field("carbonate_max", percent(&self.carbonate_max)?),
            bases(&self.bases)?,
            field("note", text(&self.note)),
        ])
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Colourant {
    name: String,
    kind: String,
    colour_index: Option<String>,
    swatch: String,
    usual_max: String,
    alkali_stable: bool,
    bases: Vec<Basis>,
    note: String,
}

impl Row for Colourant {
    const TABLE: &'static str = "COLOURANTS";

    fn fields(&self, id: &str) -> Result<Vec<Field>, String> {
        Ok(vec![
            field("id", text(id)),
            field("name", text(&self.name)),
            field(
                "kind",
                variant("ColourantKind", &self.kind, &["pigment", "mica", "clay", "carbon", "plant"])?,
            ),
            field("colour_index", option(self.colour_index.as_deref().map(text))),
            field("swatch", text(&self.swatch)),
            field("usual_max", percent(&self.usual_max)?),
            field("alkali_stable", self.alkali_stable.to_string()),
            bases(&self.bases)?,
            field("note", text(&self.note)),
        ])
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Fragrance {
    name: String,
    kind: String,
    inci: Option<String>,
    pace: String,
    usual_max: String,
    bases: Vec<Basis>,
    note: String,
}

impl Row for Fragrance {
    const TABLE: &'static str = "FRAGRANCES";

    fn fields(&self, id: &str) -> Result<Vec<Field>, String> {
        Ok(vec![
            field("id", text(id)),
            field("name", text(&self.name)),
            field("kind", variant("FragranceKind", &self.kind, &["essential-oil", "compound"])?),
            field("inci", option(self.inci.as_deref().map(text))),
            field("pace", variant("Pace", &self.pace, &["steady", "faster", "seizing", "unknown"])?),
            field("usual_max", percent(&self.usual_max)?),
            field("certificate", "None"),
            bases(&self.bases)?,
            field("note", text(&self.note)),
        ])
    }
}
