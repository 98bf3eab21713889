//! Rows of the tables that speak of labels.

use serde::Deserialize;

use crate::emit::{Decimal, Field, field, list, option, percent, text, variant};
use crate::rows::{Basis, Row, bases};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Part {
    inci: String,
    share: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Label {
    parts: Vec<Part>,
    sodium_salt: Option<String>,
    potassium_salt: Option<String>,
    #[serde(default)]
    note: String,
    bases: Vec<Basis>,
}

impl Label {
    fn all(&self, id: &str) -> Result<Vec<Field>, String> {
        let mut sum = Decimal::ZERO;
        let mut parts = Vec::new();
        for Part { inci, share } in &self.parts {
            sum = sum.plus(&Decimal::parse(share)?)?;
            parts.push(format!("LabelPart {{ inci: {}, share: {} }}", text(inci), percent(share)?));
        }
        if sum.exceeds(&Decimal::HUNDRED) || Decimal::HUNDRED.exceeds(&sum) {
            return Err(format!("the parts sum to {sum}, not to 100"));
        }
        let name = |name: &Option<String>| option(name.as_deref().map(text));
        Ok(vec![
            field("id", text(id)),
            list("parts", "LabelPart", &parts),
            field("sodium_salt", name(&self.sodium_salt)),
            field("potassium_salt", name(&self.potassium_salt)),
            bases(&self.bases)?,
            field("note", text(&self.note)),
        ])
    }
}

impl Row for Label {
    const TABLE: &'static str = "ADDITIVE_LABELS";

    fn fields(&self, id: &str) -> Result<Vec<Field>, String> {
        self.all(id)
    }
}

/// The same for colourants.
#[derive(Deserialize)]
#[serde(transparent)]
pub(crate) struct ColourLabel(Label);

impl Row for ColourLabel {
    const TABLE: &'static str = "COLOURANT_LABELS";

    fn fields(&self, id: &str) -> Result<Vec<Field>, String> {
        self.0.all(id)
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Substance {
    inci: String,
    us: Option<String>,
    cas: Option<String>,
    function: String,
}

impl Row for Substance {
    const TABLE: &'static str = "SUBSTANCES";

    fn fields(&self, id: &str) -> Result<Vec<Field>, String> {
        Ok(vec![
            field("id", text(id)),
            field("inci", text(&self.inci)),
            field("us", option(self.us.as_deref().map(text))),
            field("cas", option(self.cas.as_deref().map(text))),
            field("function", text(&self.function)),
        ])
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Allergen {
    name: String,
    entry: String,
    cas: Vec<String>,
    #[serde(default)]
    members: Vec<String>,
    #[serde(default)]
    formerly: Vec<String>,
    list: String,
    #[serde(default)]
    prohibited: bool,
    #[serde(default)]
    scents: Vec<String>,
    bases: Vec<Basis>,
}

impl Row for Allergen {
    const TABLE: &'static str = "ALLERGENS";

    fn fields(&self, id: &str) -> Result<Vec<Field>, String> {
        let added = match self.list.as_str() {
            "2023" => "added-in2023",
            other => other,
        };
        let texts = |list: &[String]| list.iter().map(|one| text(one)).collect::<Vec<_>>();
        Ok(vec![
            field("id", text(id)),
            field("name", text(&self.name)),
            field("entry", text(&self.entry)),
            list("cas", "Cow<'static, str>", &texts(&self.cas)),
            list("members", "Cow<'static, str>", &texts(&self.members)),
            list("formerly", "Cow<'static, str>", &texts(&self.formerly)),
            field("list", variant("AllergenList", added, &["original", "added-in2023"])?),
            field("prohibited", self.prohibited.to_string()),
            list("scents", "Cow<'static, str>", &texts(&self.scents)),
            bases(&self.bases)?,
        ])
    }
}
