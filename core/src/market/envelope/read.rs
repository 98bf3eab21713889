//! Reading: an `assessment/1` document becomes an assessment, or all that is wrong with it at once.

use std::collections::BTreeSet;

use crate::market::{Style, names};
use crate::problem::Problem;
use crate::quantity::Share;
use crate::recipe::read::{document, utf8};
use crate::recipe::read_value::{Fields, Node, Reader};

use super::tables::{self, BASIS, FORMAT, PROCESS, SHARE, STYLE};
use super::{Assessment, Basis, Conditions, Covered, Range};

/// The widest range.
const ALL: Range = Range { min: Share::ZERO, max: Share::literal(1, 0) };

/// Reads an `assessment/1` document.
///
/// ```
/// let text = r#"{
///   "lamella": "assessment/1",
///   "name": "Plain bars", "reference": "A-17", "assessor": "A. Person", "date": "2026-03-31",
///   "ingredients": [
///     {"inci": "Olea Europaea Fruit Oil", "min": "20 %", "max": "60 %"},
///     {"inci": "Aqua", "max": "40 %"},
///     {"any": ["Kaolin", "Bentonite"], "group": "clays", "max": "3 %"}
///   ],
///   "conditions": {"superfat": {"min": "2 %", "max": "10 %"}}
/// }"#;
/// let assessment = lamella::market::envelope::read(text).unwrap();
/// assert_eq!(assessment.ingredients[2].name(), "clays");
///
/// let problems = lamella::market::envelope::read(&text.replace("60 %", "10 %")).unwrap_err();
/// assert_eq!(problems[0].code, "assessment.range");
/// ```
///
/// # Errors
/// Everything that is wrong with the document, in the order of its text; never an empty list.
pub fn read(text: &str) -> Result<Assessment, Vec<Problem>> {
    document(text, FORMAT, Reader::assessment)
}

/// Reads an `assessment/1` document of bytes that should be UTF-8.
///
/// # Errors
/// As [`read`]; also when the bytes are not UTF-8.
pub fn read_bytes(bytes: &[u8]) -> Result<Assessment, Vec<Problem>> {
    read(utf8(bytes)?)
}

impl Reader {
    fn assessment(&mut self, at: &Node<'_>) -> Option<Assessment> {
        let top = self.top(at, &tables::ASSESSMENT)?;
        let mut text =
            |name: &str| self.needed(&top, name, |reader, at| reader.name(at, 1).map(str::to_owned));
        let (name, reference, assessor) = (text("name"), text("reference"), text("assessor"));
        let date = self.needed(&top, "date", Self::date);
        let note =
            self.maybe(&top, "note", String::new(), |reader, at| reader.name(at, 0).map(str::to_owned));
        let basis = self.maybe(&top, "shares", Basis::default(), |reader, at| reader.word(at, &BASIS));
        let style = self.maybe(&top, "names", Style::default(), |reader, at| reader.word(at, &STYLE));
        if let (Some(at), Some(Basis::AtFilling), Some(Style::AsFormed)) = (top.get("names"), basis, style) {
            let message = "when the bar is filled nothing has formed yet";
            self.report(&at, "assessment.names", message, "add \"shares\": \"cured\", or name it as charged");
        }
        let mut seen = BTreeSet::new();
        let ingredients = self.items(&top, "ingredients", 1, |reader, at| reader.covered(at, &mut seen));
        let conditions = self.maybe(&top, "conditions", Conditions::default(), Self::conditions);
        let ingredients = ingredients?;
        self.can_be_met(&top, &ingredients);
        Some(Assessment {
            name: name?,
            reference: reference?,
            assessor: assessor?,
            date: date?,
            note: note?,
            basis: basis?,
            style: style?,
            ingredients,
            conditions: conditions?,
        })
    }

    fn covered(&mut self, at: &Node<'_>, seen: &mut BTreeSet<String>) -> Option<Covered> {
        let fields = self.object(at, &tables::INGREDIENT)?;
        let mut one = |reader: &mut Self, at: &Node<'_>| {
            let name = reader.name(at, 1)?;
            reader.unique(at, seen, &names::key(name), "ingredients");
            Some(name.to_owned())
        };
        let single = self.needed(&fields, "inci", &mut one);
        let several = self.items(&fields, "any", 2, &mut one);
        let group = self
            .maybe(&fields, "group", None, |reader, at| reader.name(at, 1).map(|name| Some(name.to_owned())));
        let range = self.range_of(&fields);
        let names = match single {
            Some(single) => vec![single],
            None => several.filter(|names| !names.is_empty())?,
        };
        Some(Covered { names, group: group?, range: range?, pointer: at.pointer.clone() })
    }

    /// The fields `min` and `max`.
    fn range_of(&mut self, fields: &Fields<'_>) -> Option<Range> {
        let min = self.maybe(fields, "min", ALL.min, |reader, at| reader.quantity(at, &SHARE));
        let max = self.maybe(fields, "max", ALL.max, |reader, at| reader.quantity(at, &SHARE));
        let (min, max) = min.zip(max)?;
        if let Some(at) = fields.get("min").filter(|_| min > max) {
            let message = format!("the least, {min}, is more than the most, {max}");
            self.report(&at, "assessment.range", message, "exchange the two, or mend one of them");
            return None;
        }
        Some(Range { min, max })
    }

    fn range(&mut self, at: &Node<'_>) -> Option<Range> {
        let fields = self.object(at, &tables::RANGE)?;
        if !fields.tried("min") && !fields.tried("max") {
            let message = "a range has neither \"min\" nor \"max\"";
            self.report(at, "assessment.range", message, "add one or both, or leave out the condition");
            return None;
        }
        self.range_of(&fields)
    }

    fn conditions(&mut self, at: &Node<'_>) -> Option<Conditions> {
        let fields = self.object(at, &tables::CONDITIONS)?;
        let process = self.maybe(&fields, "process", None, |reader, at| reader.word(at, &PROCESS).map(Some));
        let superfat = self.maybe(&fields, "superfat", None, |reader, at| reader.range(at).map(Some));
        let free_alkali =
            self.maybe(&fields, "free_alkali", None, |reader, at| reader.quantity(at, &SHARE).map(Some));
        let water = self.maybe(&fields, "water", None, |reader, at| reader.range(at).map(Some));
        let scents = self.maybe(&fields, "scents", None, |reader, at| reader.quantity(at, &SHARE).map(Some));
        let other = self.items(&fields, "other", 1, |reader, at| reader.name(at, 1).map(str::to_owned));
        Some(Conditions {
            process: process?,
            superfat: superfat?,
            free_alkali: free_alkali?,
            water: water?,
            scents: scents?,
            other: other?,
        })
    }

    /// Whether any composition lies in all the ranges.
    fn can_be_met(&mut self, top: &Fields<'_>, ingredients: &[Covered]) {
        let Some(at) = top.get("ingredients") else { return };
        let least: Share = ingredients.iter().map(|covered| covered.range.min).sum();
        let most: Share = ingredients.iter().map(|covered| covered.range.max).sum();
        let whole = Share::literal(1, 0);
        if ingredients.is_empty() {
            return;
        }
        if least > whole {
            let message = format!("the least of all ingredients sum to {least}, more than the whole");
            self.report(&at, "assessment.sum", message, "lower what they must hold at least");
        } else if most < whole {
            let message = format!("the most of all ingredients sum to {most}, less than the whole");
            self.report(&at, "assessment.sum", message, "add what is missing, water and alkali too");
        }
    }
}
