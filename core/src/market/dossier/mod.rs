//! What an assessor asks for: the composition of the bars with names, numbers, functions and ranges, and what is known of
//! impurities and stability.
//!
//! # Source
//! Items A.1 to A.4 of the report: Regulation (EC) No 1223/2009, annex I, headings read; that A.1 wants chemical identity
//! (name, INCI, CAS) and intended function is from memory.

mod notes;
mod print;

use serde::Serialize;

use crate::batch::{Hold, Plan};
use crate::chemistry::Stage;
use crate::problem::Problem;
use crate::quantity::{Exact, Mass, Share};
use crate::recipe::Recipe;

use super::allowed::soap_under_its_fat;
use super::charge::charges;
use super::composition::{Composition, Line, Role, Style};
use super::ingredients::no_layer;
use super::names;

pub use notes::Note;
pub use print::{csv, json, markdown, page, text};

/// How exact a dossier is, and between what the water of a cured bar lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DossierOptions {
    /// Decimals of a per cent, at most eight.
    pub decimals: u32,
    /// Least and most water of a cured bar; nothing for what the recipe says alone.
    pub cured_water: Option<(Share, Share)>,
}

/// Four decimals of a per cent: a part in a million.
impl Default for DossierOptions {
    fn default() -> Self {
        Self { decimals: 4, cured_water: None }
    }
}

/// A share of the bar and between what it lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Span {
    /// Least: in the layer that has least of it, with half a step less of it on the scale.
    pub min: Share,
    /// In the whole bar. These sum to exactly 100 %.
    pub typical: Share,
    /// Most: in the layer that has most of it, with half a step more.
    pub max: Share,
}

/// One ingredient.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct DossierLine {
    /// Label name (INCI); nothing where none is known.
    pub inci: Option<String>,
    /// The materials behind it, in English.
    pub name: String,
    /// CAS number, where known.
    pub cas: Option<String>,
    /// What it is there for.
    pub function: String,
    /// What it is.
    pub role: Role,
    /// Its share of the bar.
    pub share: Span,
    /// JSON Pointers to the lines of the recipe.
    pub pointers: Vec<String>,
}

/// The composition of the bars, twice.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Dossier {
    /// Which document this is: `dossier/1`.
    pub lamella: &'static str,
    /// What the maker calls the batch.
    pub name: String,
    /// Layers that are on hold.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub holds: Vec<Hold>,
    /// At filling, under the names as charged.
    pub at_filling: Vec<DossierLine>,
    /// Cured, under the names as formed.
    pub cured: Vec<DossierLine>,
    /// What comes along with the materials (annex I, A.4).
    pub impurities: Vec<Note>,
    /// What bears on keeping (annex I, A.2 and A.3).
    pub stability: Vec<Note>,
}

impl Dossier {
    /// The dossier of the bars of a plan.
    ///
    /// ```
    /// use lamella::market::dossier::{Dossier, DossierOptions};
    /// use lamella::quantity::Share;
    /// let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
    /// let plan = lamella::Plan::of(&recipe).unwrap();
    /// let dossier = Dossier::of(&plan, &recipe, DossierOptions::default()).unwrap();
    /// let sum: Share = dossier.cured.iter().map(|line| line.share.typical).sum();
    /// assert_eq!(sum.to_string(), "100 %");
    /// ```
    ///
    /// # Errors
    /// `label.layer` when the plan is not one of the recipe. A material without a label name is no problem here: the
    /// assessor sees its own name.
    pub fn of(plan: &Plan, recipe: &Recipe, options: DossierOptions) -> Result<Self, Vec<Problem>> {
        let table = |style, stage| {
            lines(plan, recipe, options, style, stage).ok_or_else(|| vec![no_layer(plan, None)])
        };
        Ok(Self {
            lamella: "dossier/1",
            name: plan.name.clone(),
            holds: plan.holds.clone(),
            at_filling: table(Style::AsCharged, Stage::Pour)?,
            cured: table(Style::AsFormed, Stage::Cured)?,
            impurities: notes::impurities(recipe),
            stability: notes::stability(plan, recipe),
        })
    }
}

fn lines(
    plan: &Plan,
    recipe: &Recipe,
    options: DossierOptions,
    style: Style,
    stage: Stage,
) -> Option<Vec<DossierLine>> {
    let water = recipe.cured_water;
    let (low, high) = options.cured_water.unwrap_or((water, water));
    let of = |layer, water| Composition::of(plan, recipe, layer, style, stage, water);
    let bar = of(None, water)?;
    let mut all = Vec::new();
    for layer in std::iter::once(None).chain((0..plan.layers.len()).map(Some)) {
        for water in [low.min(water), water, high.max(water)] {
            all.push(of(layer, water)?);
        }
        if stage == Stage::Pour || low == high {
            // Water of the cured bar plays no part, or has one value.
            all.truncate(all.len().saturating_sub(2));
        }
    }
    if low == high && low != water {
        all.push(of(None, low)?);
    }
    let typical = bar.percentages(options.decimals);
    let charges = charges(plan, recipe, None)?;
    bar.lines
        .iter()
        .zip(typical)
        .map(|(line, typical)| {
            let share = span(&all, line, typical, options.decimals)?;
            // The number and the function of a fat are not those of its soap.
            let soap = soap_under_its_fat(&charges, line);
            let known = line.inci.as_deref().filter(|_| !soap).and_then(names::substance);
            let name = if soap {
                format!("soap of {}, and what is left of it", line.name)
            } else {
                line.name.clone()
            };
            Some(DossierLine {
                inci: line.inci.clone(),
                name,
                cas: known.and_then(|known| known.cas.as_deref()).map(str::to_owned),
                function: known.map_or_else(|| function(line.role), |known| &known.function).to_owned(),
                role: line.role,
                share,
                pointers: line.pointers.clone(),
            })
        })
        .collect()
}

/// The function of a name of which nothing is known, by its role.
///
/// Source: words of the cosmetic ingredient glossary, from memory.
const fn function(role: Role) -> &'static str {
    match role {
        Role::Fat => "emollient",
        Role::Soap => "cleansing",
        Role::Alkali | Role::Impurity => "buffering",
        Role::Water => "solvent",
        Role::Glycerin => "humectant",
        Role::Additive => "skin conditioning",
        Role::Colour => "colorant",
        Role::Scent => "perfuming",
    }
}

/// Between what the share of a line lies, rounded outwards.
fn span(all: &[Composition], line: &Line, typical: Share, decimals: u32) -> Option<Span> {
    let step = Exact::literal(1, decimals.min(8).saturating_add(2));
    let (mut min, mut max) = (typical, typical);
    for composition in all {
        let same = |other: &&Line| {
            other.role == line.role
                && match (&other.inci, &line.inci) {
                    (Some(a), Some(b)) => names::key(a) == names::key(b),
                    (None, None) => other.materials == line.materials,
                    _ => false,
                }
        };
        let found = composition.lines.iter().find(same);
        let (mass, off) = found.map_or((Mass::ZERO, Mass::ZERO), |found| (found.mass, found.tolerance));
        let (mass, off, total) = (mass.exact(), off.exact(), composition.total.exact());
        let low = ((mass - off) / (total - off)).max(Exact::ZERO);
        let high = (mass + off) / (total + off);
        let floor = Exact::from(low.whole_steps(step)?) * step;
        let ceiling = -(Exact::from((-high).whole_steps(step)?) * step);
        min = min.min(Share::try_new(floor).ok()?);
        max = max.max(Share::try_new(ceiling).ok()?);
    }
    Some(Span { min, typical, max })
}
