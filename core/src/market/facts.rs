//! The facts of a label, read as strictly as a recipe: by a table, with all that is wrong at once.

use crate::limits;
use crate::problem::Problem;
use crate::quantity::Mass;
use crate::recipe::fields::{Kind, Table, Units, Wanted, Words, may};
use crate::recipe::json::{self, Json, text};
use crate::recipe::read::object;
use crate::recipe::read_value::{Node, Reader};
use crate::recipe::write::Entries;

use super::composition::Style;
use super::ingredients::ListOptions;
use super::label::LabelFacts;
use super::rules::Market;

const MARKET: Words<Market> = Words {
    names: &["european-union", "great-britain", "united-states"],
    values: &[Market::EuropeanUnion, Market::GreatBritain, Market::UnitedStates],
};
const STYLE: Words<Style> =
    Words { names: &["as-charged", "as-formed"], values: &[Style::AsCharged, Style::AsFormed] };
const NOMINAL: Wanted = Wanted { limit: limits::RECIPE_MASS, units: Units::Of(Mass::UNITS), example: "95 g" };

static FACTS: Table = Table::new(
    "label-facts",
    "the facts of a label",
    &[
        may("market", Kind::Word(MARKET.names), "Where the bars are sold; european-union by default."),
        may("style", Kind::Word(STYLE.names), "In which names the list is; as-charged by default."),
        may("responsible", Kind::Note, "Name and address of the responsible person."),
        may("origin", Kind::Note, "Country of origin, for imported bars."),
        may("nominal", Kind::Quantity(&[NOMINAL]), "Nominal quantity of a bar; above zero."),
        may("batch", Kind::Note, "Number of the batch."),
        may("durability", Kind::Note, "Date of minimum durability, or the months after opening."),
        may("precautions", Kind::List(&Kind::Name, 0), "Particular precautions."),
        may("function", Kind::Note, "What it is for, as Soap for hands and body."),
    ],
    &[],
);

/// Reads the facts of a label, and which list it is to carry, from a JSON object with the fields of [`LabelFacts`],
/// `market` and `style`. What is left out is told as missing on the label.
///
/// ```
/// use lamella::market::{Market, label};
/// let (facts, list) = label::read(r#"{"market": "great-britain", "nominal": "95 g"}"#).unwrap();
/// assert_eq!(facts.nominal, Some("95 g".parse().unwrap()));
/// assert_eq!(list.market, Market::GreatBritain);
/// let problems = label::read(r#"{"market": "gb", "nominal": "-5 g"}"#).unwrap_err();
/// let told: Vec<_> = problems.iter().map(|problem| (problem.pointer.as_str(), problem.code)).collect();
/// assert_eq!(told, [("/market", "field.word"), ("/nominal", "quantity.range")]);
/// ```
///
/// # Errors
/// Everything that is wrong with the object, in the order of its text.
pub fn read(text: &str) -> Result<(LabelFacts, ListOptions), Vec<Problem>> {
    object(text, Reader::label_facts)
}

/// What is wrong with facts that a program filled in: the same as when they are read.
pub(super) fn check(facts: &LabelFacts) -> Result<(), Vec<Problem>> {
    let mut reader = Reader::default();
    let json = written(facts);
    reader.label_facts(&Node { json: &json, pointer: String::new() });
    let problems = reader.finish();
    if problems.is_empty() { Ok(()) } else { Err(problems) }
}

fn written(facts: &LabelFacts) -> Json {
    let mut entries = Entries::default();
    entries.put("responsible", text(&facts.responsible));
    entries.put("origin", text(&facts.origin));
    if let Some(nominal) = facts.nominal {
        entries.quantity("nominal", nominal);
    }
    entries.put("batch", text(&facts.batch));
    entries.put("durability", text(&facts.durability));
    entries.put("precautions", json::list(facts.precautions.iter().map(text).collect()));
    entries.put("function", text(&facts.function));
    entries.object()
}

impl Reader {
    fn label_facts(&mut self, at: &Node<'_>) -> Option<(LabelFacts, ListOptions)> {
        let fields = self.object(at, &FACTS)?;
        let words = |reader: &mut Self, name: &str| {
            reader.maybe(&fields, name, String::new(), |reader, at| reader.name(at, 0).map(str::to_owned))
        };
        let market = self.maybe(&fields, "market", Market::default(), |reader, at| reader.word(at, &MARKET));
        let style = self.maybe(&fields, "style", Style::default(), |reader, at| reader.word(at, &STYLE));
        let responsible = words(self, "responsible");
        let origin = words(self, "origin");
        let nominal =
            self.maybe(&fields, "nominal", None, |reader, at| reader.positive(at, &NOMINAL).map(Some));
        let batch = words(self, "batch");
        let durability = words(self, "durability");
        let precautions =
            self.items(&fields, "precautions", 0, |reader, at| reader.name(at, 1).map(str::to_owned));
        let function = words(self, "function");
        let facts = LabelFacts {
            responsible: responsible?,
            origin: origin?,
            nominal: nominal?,
            batch: batch?,
            durability: durability?,
            precautions: precautions?,
            function: function?,
        };
        Some((facts, ListOptions::new(market?, style?)))
    }
}
