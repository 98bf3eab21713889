//! Reading: a document becomes a recipe, or all that is wrong with it at once.

use super::fields::{Kind, Table};
use super::json::{self, Value};
use super::read_dose::Vessel;
use super::read_fats::FatsSay;
use super::read_layers::LayersSay;
use super::read_value::{Fields, Node, Reader, echo};
use super::tables::{self, ADDITIVE_WATER, FORMAT, PROCESS, PURPOSE};
use super::{AdditiveWater, CURED_WATER, LyeExtras, Process, Purpose, Recipe, Size, Temperatures, Workshop};
use crate::limits;
use crate::problem::Problem;

/// Reads a `recipe/1` document.
///
/// ```
/// let text = r#"{
///   "lamella": "recipe/1",
///   "name": "Tidal strata",
///   "fats": [{"fat": "olive-oil", "share": "70 %"}, {"fat": "coconut-oil", "share": "30 %"}],
///   "alkali": {"naoh": {}},
///   "superfat": "5 %",
///   "water": {"lye_concentration": "33 %"},
///   "size": {"fat": "1 kg"},
///   "layers": [{"layer": "Base", "share": "1 part"}]
/// }"#;
/// let recipe = lamella::recipe::read(text).unwrap();
/// assert_eq!(recipe.fats.len(), 2);
///
/// let problems = lamella::recipe::read(&text.replace("5 %", "5")).unwrap_err();
/// assert_eq!(problems[0].code, "quantity.unit.missing");
/// assert_eq!(problems[0].pointer, "/superfat");
/// ```
///
/// # Errors
/// Everything that is wrong with the document, in the order of its text; never an empty list.
pub fn read(text: &str) -> Result<Recipe, Vec<Problem>> {
    document(text, FORMAT, Reader::recipe)
}

/// Reads a `recipe/1` document of bytes that should be UTF-8.
///
/// # Errors
/// As [`read`]; also when the bytes are not UTF-8.
pub fn read_bytes(bytes: &[u8]) -> Result<Recipe, Vec<Problem>> {
    read(utf8(bytes)?)
}

/// Reads a document of the format that `build` takes: its value, or all that is wrong with it.
pub(crate) fn document<T>(
    text: &str,
    format: &'static str,
    build: impl FnOnce(&mut Reader, &Node<'_>) -> Option<T>,
) -> Result<T, Vec<Problem>> {
    if text.len() > limits::DOCUMENT_BYTES {
        return Err(vec![whole(
            "document.size",
            too_long(text.len()),
            "divide it, or leave out what is not needed",
        )]);
    }
    if text.starts_with('\u{feff}') {
        let message = "the text begins with a byte order mark (line 1, column 1)";
        return Err(vec![whole("document.json", message, "save it as UTF-8 without a byte order mark")]);
    }
    let json = json::parse(text).map_err(|broken| {
        let what = broken.what.replacen("EOF", "the text ends", 1);
        let message = format!("not JSON: {what} (line {}, column {})", broken.line, broken.column);
        vec![whole("document.json", message, mend(&what))]
    })?;
    let mut reader = Reader::default();
    let at = Node { json: &json, pointer: String::new() };
    let value = reader.of_format(&at, format, build);
    let problems = reader.finish();
    match value {
        Some(value) if problems.is_empty() => Ok(value),
        _ => Err(problems),
    }
}

/// Bytes of a document as text.
pub(crate) fn utf8(bytes: &[u8]) -> Result<&str, Vec<Problem>> {
    if bytes.len() > limits::DOCUMENT_BYTES {
        return Err(vec![whole(
            "document.size",
            too_long(bytes.len()),
            "divide it, or leave out what is not needed",
        )]);
    }
    std::str::from_utf8(bytes).map_err(|error| {
        let message = format!("the text is not UTF-8 from byte {} on", error.valid_up_to().saturating_add(1));
        vec![whole("document.encoding", message, "save it as UTF-8")]
    })
}

/// What to do about a text that is not JSON.
fn mend(what: &str) -> &'static str {
    if what.contains("recursion") {
        "nest less deeply: a recipe needs no more than eight levels"
    } else if what.contains("number out of range") {
        "write quantities in quotes, with their units"
    } else if what.contains("escape") || what.contains("surrogate") {
        "write the character itself in place of its code"
    } else {
        "look at this place and just before it: a comma, a quote or a brace"
    }
}

fn whole(code: &'static str, message: impl Into<String>, advice: &str) -> Problem {
    Problem { code, pointer: String::new(), message: message.into(), advice: advice.to_owned() }
}

fn too_long(bytes: usize) -> String {
    format!("the document has {bytes} bytes, and at most {} are read", limits::DOCUMENT_BYTES)
}

impl Reader {
    /// What a document, or one within another, says, when it is of the format that `build` takes.
    pub(crate) fn of_format<T>(
        &mut self,
        at: &Node<'_>,
        format: &str,
        build: impl FnOnce(&mut Self, &Node<'_>) -> Option<T>,
    ) -> Option<T> {
        if self.is_of_another_format(at, format) { None } else { build(self, at) }
    }

    /// A recipe from its document.
    pub(crate) fn recipe(&mut self, at: &Node<'_>) -> Option<Recipe> {
        let top = self.top(at, &tables::RECIPE)?;
        let name = self.needed(&top, "name", |reader, at| reader.name(at, 1).map(str::to_owned));
        let note =
            self.maybe(&top, "note", String::new(), |reader, at| reader.name(at, 0).map(str::to_owned));
        let purpose = self.maybe(&top, "for", Purpose::default(), |reader, at| reader.word(at, &PURPOSE));
        let process = self.maybe(&top, "process", Process::default(), |reader, at| reader.word(at, &PROCESS));
        let (fats, fats_say) = self.fats(&top, process);
        let alkali = self.needed(&top, "alkali", Self::alkali);
        let superfat = self.needed(&top, "superfat", Self::superfat);
        let water = self.needed(&top, "water", Self::water);
        let additive_water = self.maybe(&top, "additive_water", AdditiveWater::default(), |reader, at| {
            reader.word(at, &ADDITIVE_WATER)
        });
        let lye = self.maybe(&top, "lye", LyeExtras::default(), Self::lye);
        let pot = self.all_doses(&top, Vessel::Batch);
        let size = self.maybe(&top, "size", None, |reader, at| reader.size(at).map(Some));
        let moulds = self.moulds(&top);
        let (jugs_and_layers, layers_say) = self.jugs_and_layers(&top);
        self.how_large(&top, size.flatten(), moulds.as_ref().map(Vec::len), fats_say, layers_say);
        let workshop = self.maybe(&top, "workshop", Workshop::default(), Self::workshop);
        let temperatures = self.maybe(&top, "temperatures", Temperatures::default(), Self::temperatures);
        let cured_water = self
            .maybe(&top, "cured_water", CURED_WATER, |reader, at| reader.quantity(at, &tables::CURED_WATER));
        let (jugs, layers) = jugs_and_layers?;
        Some(Recipe {
            name: name?,
            note: note?,
            purpose: purpose?,
            process: process?,
            fats: fats?,
            alkali: alkali?,
            superfat: superfat?,
            water: water?,
            additive_water: additive_water?,
            lye: lye?,
            pot: pot?,
            size: size?,
            moulds: moulds?,
            jugs,
            layers,
            workshop: workshop?,
            temperatures: temperatures?,
            cured_water: cured_water?,
        })
    }

    /// The fields of a whole document; that it says its format has been seen to.
    pub(crate) fn top<'j>(&mut self, at: &Node<'j>, table: &'static Table) -> Option<Fields<'j>> {
        let top = self.object(at, table)?;
        for field in table.fields {
            if let Kind::Tag(format) = field.kind {
                self.needed(&top, field.name, |reader, at| reader.text(at, &format!("write {format:?}")));
            }
        }
        Some(top)
    }

    /// Reports a format that this version does not read; what else such a document says cannot be judged.
    fn is_of_another_format(&mut self, at: &Node<'_>, wanted: &str) -> bool {
        let Value::Object(entries) = &at.json.value else { return false };
        let Some((key, json)) = entries.iter().find(|(key, _)| key == "lamella") else { return false };
        let Value::Text(format) = &json.value else { return false };
        if format == wanted {
            return false;
        }
        let kind = wanted.split_once('/').map_or(wanted, |(kind, _)| kind);
        let number = format.strip_prefix(kind).and_then(|rest| rest.strip_prefix('/')?.parse::<u64>().ok());
        let advice = if number.is_some_and(|number| number > 1) {
            "use a newer version of the library".to_owned()
        } else {
            format!("write \"lamella\": {wanted:?}")
        };
        let message =
            format!("the document is in the format {}, and this version reads {wanted:?}", echo(format));
        self.report(&at.child(key, json), "document.format", message, advice);
        true
    }

    /// Whether exactly one thing says how large the batch is, and moulds are there where they are needed.
    fn how_large(
        &mut self,
        top: &Fields<'_>,
        size: Option<Size>,
        moulds: Option<usize>,
        fats: FatsSay,
        layers: LayersSay,
    ) {
        match (top.get("size"), fats) {
            (Some(at), FatsSay::Masses) => {
                let message = "the masses of the fats say how large the batch is, and so does this";
                self.report(&at, "size.twice", message, "leave out \"size\", or give the fats shares");
            }
            (None, FatsSay::Shares) if layers == LayersSay::Parts && !top.tried("size") => {
                let message = "nothing says how large the batch is";
                let advice = "add \"size\", for example { \"fat\": \"1 kg\" }; or give the fats masses";
                self.report(&top.node, "size.missing", message, advice);
            }
            _ => {}
        }
        if moulds != Some(0) || (top.tried("moulds") && !top.has("moulds")) {
            return;
        }
        let missing = "there is no mould";
        let at_size = top.get("size").filter(|_| size == Some(Size::Moulds));
        if let Some(at) = at_size {
            let message = format!("the batch is to fill the moulds, and {missing}");
            self.report(&at, "mould.missing", message, "add \"moulds\"");
        } else if let (LayersSay::Heights, Some(at)) = (layers, top.get("layers")) {
            let message = format!("the layers are heights in a mould, and {missing}");
            self.report(&at, "mould.missing", message, "add \"moulds\", or give the layers parts");
        }
    }
}
