//! What stands on a label, and what is still missing from it.

use serde::Serialize;

use crate::batch::{HOLD_ADVICE, Plan, held};
use crate::problem::Problem;
use crate::quantity::{Exact, Mass, Share, fixed, percent_beside};
use crate::recipe::{Purpose, Recipe};
use crate::sheet::document::{Block, Page, Table};
use crate::sheet::{marked, plain};

use super::envelope::{Standing, Verdict};
use super::facts;
pub use super::facts::read;
use super::ingredients::{IngredientList, ListOptions, ingredients, soap_of_non_volatile};
use super::net;
use super::rules::{Market, Rule};
use super::scent::{Limit, ScentReport, scents};

/// What the maker says for a label beside the recipe. What is left empty is told as missing.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct LabelFacts {
    /// Name and address of the responsible person.
    pub responsible: String,
    /// Country of origin, for imported bars.
    pub origin: String,
    /// Nominal quantity.
    pub nominal: Option<Mass>,
    /// Number of the batch.
    pub batch: String,
    /// Date of minimum durability, or the months after opening.
    pub durability: String,
    /// Particular precautions.
    pub precautions: Vec<String>,
    /// What it is for, as `Soap for hands and body`.
    pub function: String,
}

/// The copy of a label.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Label {
    /// What the maker calls the bars.
    pub name: String,
    /// What stands on it: what it is, and the words.
    pub items: Vec<(&'static str, String)>,
    /// The list of ingredients.
    pub ingredients: IngredientList,
    /// What is still missing, with the point of the article that asks for it.
    pub missing: Vec<String>,
    /// What the maker must know and does not print.
    pub notes: Vec<String>,
    /// Rules that it follows.
    pub rules: Vec<Rule>,
}

/// The copy of the label of a plan's bars. `verdict` is that of the batch's assessment: bars that must not be sold say so.
///
/// # Errors
/// Those of [`read`] for facts that a label cannot carry, such as a nominal quantity that is not above zero; `label.held`
/// when a layer of the plan is on hold; those of [`ingredients`].
///
/// # Source
/// Seven points of Regulation (EC) No 1223/2009, article 19(1)(a) to (g), read. The nominal quantity may be left out below
/// 5 g and where bars are sold by number (article 19(1)(b)); durability where it is more than 30 months (article 19(1)(c),
/// the number from memory).
pub fn label(
    plan: &Plan,
    recipe: &Recipe,
    facts: &LabelFacts,
    options: &ListOptions,
    verdict: &Verdict,
) -> Result<Label, Vec<Problem>> {
    if !plan.holds.is_empty() {
        return Err(vec![Problem {
            code: "label.held",
            pointer: String::new(),
            message: format!("no label is made while layers are on hold: {}", held(&plan.holds)),
            advice: HOLD_ADVICE.to_owned(),
        }]);
    }
    facts::check(facts)?;
    let list = ingredients(plan, recipe, None, options)?;
    let mut items = Vec::new();
    let mut missing = Vec::new();
    let nominal = facts.nominal.map(|nominal| net::printed(nominal, options.market)).unwrap_or_default();
    let united_states = options.market == Market::UnitedStates;
    let points: [(&'static str, &str, &str, &str); 5] = [
        ("What it is", &facts.function, "19(1)(f)", "identity: 16 CFR 500"),
        ("Net quantity", &nominal, "19(1)(b)", "ounces and grams: 16 CFR 500"),
        ("Responsible person", &facts.responsible, "19(1)(a)", "name and place of business: 16 CFR 500"),
        ("Batch", &facts.batch, "19(1)(e)", ""),
        (
            "Best used before the end of",
            &facts.durability,
            "19(1)(c), unless it keeps more than 30 months",
            "",
        ),
    ];
    for (what, words, article, american) in points {
        let point = if united_states { american.to_owned() } else { format!("article {article}") };
        if !words.is_empty() {
            items.push((what, words.to_owned()));
        } else if !point.is_empty() {
            missing.push(format!("{what} ({point})"));
        }
    }
    if !facts.origin.is_empty() {
        items.push(("Made in", facts.origin.clone()));
    }
    if !facts.precautions.is_empty() {
        items.push(("Precautions", facts.precautions.join(" ")));
    }
    let mut notes = vec![verdict.says.clone()];
    if plan.purpose == Purpose::Household && !matches!(verdict.standing, Standing::Household) {
        notes.push("The recipe is for the household.".to_owned());
    }
    notes.extend(verdict.to_see_to.iter().map(|words| format!("Condition of the report: {words}")));
    notes.extend(
        list.cautions.iter().map(|caution| format!("{}: {}.", capital(&caution.message), caution.advice)),
    );
    if facts.nominal.is_some_and(|nominal| nominal < net::LEAST) {
        notes.push("Below 5 g no quantity need be printed (article 19(1)(b)).".to_owned());
    }
    if united_states {
        let (share, bulk) = soap_of_non_volatile(plan);
        // More than half is the bulk of it, and the least more must not read as half.
        let share = percent_beside(share, Share::literal(5, 1), 2);
        notes.push(if bulk {
            format!("Soap is {share} of what does not evaporate: sold as soap alone it is no cosmetic (21 CFR 701.20).")
        } else {
            format!("Soap is only {share} of what does not evaporate: it is a cosmetic (21 CFR 701.20).")
        });
    }
    if let Some(report) = scents(plan, recipe, None, options.leave_on) {
        notes.extend(said(&report));
    }
    let rules = list.rules.clone();
    Ok(Label { name: plan.name.clone(), items, ingredients: list, missing, notes, rules })
}

/// With a capital letter to begin with.
fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

fn percent(share: Share) -> String {
    format!("{} %", fixed(share.in_unit("%").unwrap_or_default(), 2))
}

/// The most that may be in it to the hundredth of a gram, and not a hundredth more.
fn down(most: Mass) -> String {
    let step = Exact::literal(1, 2);
    let whole = most.exact().whole_steps(step).unwrap_or_default();
    fixed(step.times(whole).decimal().unwrap_or_default(), 2)
}

/// What a report on scents says, in sentences.
fn said(report: &ScentReport) -> Vec<String> {
    let mut notes = Vec::new();
    for line in &report.scents {
        let limit = match (line.limit, line.largest) {
            (Some(limit), Some(largest)) => {
                format!(", limit {limit}, so at most {} g in the batch", down(largest))
            }
            (Some(limit), None) => format!(", limit {limit}"),
            (None, _) => String::new(),
        };
        let passed = if line.verdict == Limit::Passed { "OVER ITS LIMIT: " } else { "" };
        let share =
            |share| line.limit.map_or_else(|| percent(share), |limit| percent_beside(share, limit, 2));
        let (poured, cured) = (share(line.at_pour), share(line.cured));
        notes.push(format!("{passed}{}: {poured} when poured, {cured} cured{limit}.", line.name));
    }
    notes.extend(report.notes.iter().map(|note| format!("{}.", capital(note))));
    notes
}

/// The label and what goes with it as plain text of at most 96 columns.
#[must_use]
pub fn text(label: &Label) -> String {
    plain::render(&blocks(label))
}

/// The same as Markdown.
#[must_use]
pub fn markdown(label: &Label) -> String {
    marked::render(&blocks(label))
}

/// The label and what goes with it in parts, for a screen that sets them itself.
#[must_use]
pub fn page(label: &Label) -> Page {
    Page::of(blocks(label))
}

fn blocks(label: &Label) -> Vec<Block> {
    let list = &label.ingredients;
    let mut blocks = vec![
        Block::Title(label.name.clone()),
        Block::Heading("On the label"),
        Block::Paragraph(format!("Market: {}.", list.market.name())),
    ];
    if !label.items.is_empty() {
        blocks.push(Block::Table(Table::pairs(label.items.clone())));
    }
    blocks.push(Block::Paragraph(list.text()));
    if !label.missing.is_empty() {
        blocks.push(Block::Heading("Still missing"));
        blocks.push(Block::List(label.missing.clone()));
    }
    blocks.push(Block::Heading("To know"));
    blocks.push(Block::List(label.notes.clone()));
    blocks.push(Block::Heading("Rules"));
    let rule = |rule: &Rule| {
        let from = if rule.seen { "" } else { ", from memory" };
        format!("{} ({}{from})", rule.says, rule.cite)
    };
    blocks.push(Block::List(label.rules.iter().map(rule).collect()));
    blocks
}
