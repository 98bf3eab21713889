//! The list of ingredients.

use serde::Serialize;

use crate::batch::Plan;
use crate::chemistry::Stage;
use crate::problem::Problem;
use crate::quantity::{Date, Exact, Share};
use crate::recipe::Recipe;

use super::allowed::{cautions, refused};
use super::charge::charges;
use super::composition::{Composition, Line, Role, Style};
use super::names::{self, PARFUM};
use super::rules::{self, LEAVE_ON, Market, RINSE_OFF, Rule};
use super::scent::{AllergenLine, allergens};

/// How a list is to be made.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ListOptions {
    /// Where the bars are sold.
    pub market: Market,
    /// In which names.
    pub style: Style,
    /// Materials, by id, that are nanomaterials: their suppliers say so.
    pub nano: Vec<String>,
    /// Whether the product stays on the skin; soap does not.
    pub leave_on: bool,
    /// The day on which these bars are first placed on the market; nothing for the strictest rules.
    pub placed_on: Option<Date>,
}

impl ListOptions {
    /// For bars that are rinsed off, by the strictest rules of a market.
    #[must_use]
    pub fn new(market: Market, style: Style) -> Self {
        Self { market, style, ..Self::default() }
    }

    /// The share above which a fragrance allergen is named.
    #[must_use]
    pub const fn threshold(&self) -> Share {
        if self.leave_on { LEAVE_ON } else { RINSE_OFF }
    }
}

/// In which part of the list a name stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Rank {
    /// One per cent or more: by weight.
    ByWeight,
    /// Below one per cent: after those, in any order; here by weight too.
    UnderOne,
    /// A colour: after all others, in any order; here by number.
    Colour,
}

/// One name of a list.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Entry {
    /// As it is printed.
    pub name: String,
    /// Its share when it is added, or, as formed, of the cured bar.
    pub share: Share,
    /// In which part of the list it stands.
    pub rank: Rank,
    /// Whether it is a fragrance allergen, which is part of the scent and named beside it.
    pub allergen: bool,
    /// Ids of the materials behind it.
    pub materials: Vec<String>,
}

/// A list of ingredients.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct IngredientList {
    /// Where it is for.
    pub market: Market,
    /// In which names.
    pub style: Style,
    /// The layer it is of; nothing for the whole bar.
    pub layer: Option<String>,
    /// The names in their order.
    pub entries: Vec<Entry>,
    /// The rules it follows.
    pub rules: Vec<Rule>,
    /// What the list prints and somebody still has to look at: `label.soap`, a soap that no inventory names, under the name
    /// of its fat; `label.purpose`, a material in the recipe as a colour that is none of annex IV; `label.statement`, a
    /// material that needs a statement of its supplier.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub cautions: Vec<Problem>,
}

impl IngredientList {
    /// As it stands on a label: `Ingredients: Olea Europaea Fruit Oil, Aqua, ...`
    #[must_use]
    pub fn text(&self) -> String {
        let names: Vec<&str> = self.entries.iter().map(|entry| entry.name.as_str()).collect();
        format!("Ingredients: {}", names.join(", "))
    }
}

/// The list of ingredients of the bars, all layers taken together (`layer` nothing), or of one layer.
///
/// Order: by weight at the time of adding; below 1 % by weight too, which the rule leaves free; colours last, by number.
/// Names of equal weight stand by the alphabet. As formed, weights are those of the cured bar. Parfum stands for all scents;
/// the allergens that must be named are those of the market's lists above the threshold of the cured bar.
///
/// ```
/// use lamella::market::{ingredients, ListOptions, Market, Style};
/// let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
/// let plan = lamella::Plan::of(&recipe).unwrap();
/// let list = ingredients(&plan, &recipe, None, &ListOptions::new(Market::EuropeanUnion, Style::AsFormed)).unwrap();
/// assert!(list.text().starts_with("Ingredients: Sodium Olivate, Sodium Cocoate"));
/// ```
///
/// # Errors
/// `label.inci` for every material without a label name, with the line of the recipe; `label.layer` when there is no such
/// layer; in the Union and in Great Britain `label.prohibited` for a substance of a scent that no cosmetic may hold,
/// `label.colour` for a colour that annex IV does not list, or not for such bars or so much of it, and `label.peanut` for
/// what is made from peanut and holds its protein.
pub fn ingredients(
    plan: &Plan,
    recipe: &Recipe,
    layer: Option<usize>,
    options: &ListOptions,
) -> Result<IngredientList, Vec<Problem>> {
    let stage = match options.style {
        Style::AsCharged => Stage::Pour,
        Style::AsFormed => Stage::Cured,
    };
    let composition = Composition::of(plan, recipe, layer, options.style, stage, recipe.cured_water)
        .ok_or_else(|| vec![no_layer(plan, layer)])?;
    let charges = charges(plan, recipe, layer).unwrap_or_default();
    let named = allergens(plan, recipe, layer, recipe.cured_water, options.threshold()).unwrap_or_default();
    let mut problems = nameless(&composition);
    problems.extend(refused(&charges, &composition, options));
    if options.market != Market::UnitedStates {
        problems.extend(prohibited(&named));
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    let mut entries: Vec<Entry> = Vec::new();
    for line in composition.lines.iter().filter(|line| line.role != Role::Impurity) {
        let entry = entry(&composition, line, options);
        // Two numbers may have one name in the United States.
        match entries.iter_mut().find(|known| known.name == entry.name) {
            Some(known) => {
                known.share += entry.share;
                known.materials.extend(entry.materials);
                known.rank = rank(&known.name, known.share, known.rank == Rank::Colour);
            }
            None => entries.push(entry),
        }
    }
    let lists = rules::allergen_lists(options.market, options.placed_on);
    for line in named.iter().filter(|line| line.above && lists.contains(&line.list)) {
        entries.push(Entry {
            name: line.name.clone(),
            share: line.share,
            rank: rank(&line.name, line.share, false),
            allergen: true,
            materials: line.scents.clone(),
        });
    }
    entries.sort_by(|a, b| {
        let by_weight = b.share.cmp(&a.share);
        let order = if a.rank == Rank::Colour { a.name.cmp(&b.name) } else { by_weight };
        a.rank.cmp(&b.rank).then(order).then(a.allergen.cmp(&b.allergen)).then_with(|| a.name.cmp(&b.name))
    });
    let layer = layer.and_then(|layer| plan.layers.get(layer)).map(|layer| layer.name.clone());
    Ok(IngredientList {
        market: options.market,
        style: options.style,
        layer,
        rules: rules_of(&entries, options),
        cautions: cautions(&charges, &composition, options),
        entries,
    })
}

fn entry(composition: &Composition, line: &Line, options: &ListOptions) -> Entry {
    let share = composition.share(line);
    let nano = line.materials.iter().any(|id| options.nano.contains(id));
    let name = printed(line.inci.as_deref().unwrap_or_default(), options.market);
    let rank = rank(&name, share, line.role == Role::Colour);
    let name = if nano { format!("{name} (nano)") } else { name };
    Entry { name, share, rank, allergen: false, materials: line.materials.clone() }
}

/// A name as the market prints it: in Europe without English words in brackets, in the United States with them and with
/// the English names of that country.
fn printed(inci: &str, market: Market) -> String {
    match market {
        Market::UnitedStates => {
            let english = names::substance(inci).and_then(|substance| substance.us.as_deref());
            english.unwrap_or(inci).to_owned()
        }
        Market::EuropeanUnion | Market::GreatBritain => names::latin(inci),
    }
}

/// Source: Regulation (EC) No 1223/2009, article 19(1)(g): less than 1 %.
const ONE_PER_CENT: Share = Share::literal(1, 2);

fn rank(name: &str, share: Share, colour: bool) -> Rank {
    if colour || names::is_colour(name) {
        Rank::Colour
    } else if share < ONE_PER_CENT {
        Rank::UnderOne
    } else {
        Rank::ByWeight
    }
}

/// The lines that have no label name, as problems.
pub(super) fn nameless(composition: &Composition) -> Vec<Problem> {
    let without = composition.lines.iter().filter(|line| line.inci.is_none());
    without
        .map(|line| Problem {
            code: "label.inci",
            pointer: line.pointers.first().cloned().unwrap_or_default(),
            message: format!("{:?} has no label name (INCI)", line.name),
            advice: match line.role {
                Role::Soap | Role::Fat => {
                    "ask the supplier, and add \"inci\" to the fat's certificate".to_owned()
                }
                Role::Colour => "add \"colour_index\" with its number to the colour".to_owned(),
                _ => "ask the supplier, and add \"inci\" to the dose".to_owned(),
            },
        })
        .collect()
}

pub(super) fn no_layer(plan: &Plan, layer: Option<usize>) -> Problem {
    let number = layer.map_or(0, |layer| layer.saturating_add(1));
    Problem {
        code: "label.layer",
        pointer: "/layers".to_owned(),
        message: format!("{:?} has no layer {number}, or is no plan of this recipe", plan.name),
        advice: "ask for a layer of the plan, and hand over the recipe that it was made of".to_owned(),
    }
}

/// A label never names what no cosmetic may hold.
fn prohibited(named: &[AllergenLine]) -> impl Iterator<Item = Problem> {
    (named.iter().filter(|line| line.prohibited)).map(|line| Problem {
        code: "label.prohibited",
        pointer: String::new(),
        message: format!(
            "{} of {} is prohibited in cosmetics: these bars must not be sold",
            line.name,
            line.scents.join(", ")
        ),
        advice: "use a scent without it; ask its supplier for a certificate of the law in force".to_owned(),
    })
}

fn rules_of(entries: &[Entry], options: &ListOptions) -> Vec<Rule> {
    if options.market == Market::UnitedStates {
        return vec![rules::US_ORDER, rules::US_SOAP];
    }
    let mut all = vec![rules::ORDER, rules::GLOSSARY, rules::STYLES, rules::IMPURITIES];
    let any = |wanted: &dyn Fn(&Entry) -> bool| entries.iter().any(wanted);
    let mut when = |found: bool, rule: Rule| {
        if found {
            all.push(rule);
        }
    };
    when(any(&|entry| entry.rank == Rank::UnderOne), rules::UNDER_ONE);
    when(any(&|entry| entry.rank == Rank::Colour), rules::COLOURS);
    when(any(&|entry| entry.name == PARFUM), rules::PARFUM_RULE);
    when(any(&|entry| entry.name.ends_with("(nano)")), rules::NANO);
    when(any(&|entry| entry.name == PARFUM || entry.allergen), rules::ALLERGENS);
    when(
        options.market == Market::EuropeanUnion && any(&|entry| entry.name == PARFUM),
        rules::ALLERGENS_2023,
    );
    all
}

/// Soap as a share of what does not evaporate, and whether that is the bulk of it: one of the conditions under which the law
/// of the United States does not count a bar among cosmetics.
///
/// # Source
/// 21 CFR 701.20. That "the bulk" is more than half is an interpretation.
#[must_use]
pub fn soap_of_non_volatile(plan: &Plan) -> (Share, bool) {
    use crate::chemistry::Part;
    let cured = &plan.batch.cured;
    let volatile = [Part::Water, Part::Alcohol, Part::Scent].map(|part| cured.mass(part).exact());
    let rest = cured.total.exact() - volatile.into_iter().sum();
    let share = cured.mass(Part::Soap).exact() / rest;
    let half = Exact::ONE / Exact::from(2);
    (Share::try_new(share).unwrap_or(Share::ZERO), (share - half).is_positive())
}
