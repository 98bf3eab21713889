//! What the bars are made of under the names of a label, by mass: as charged or as formed.
//!
//! # As charged
//!
//! Every material of the recipe under its own name with the mass that was weighed, less what stayed behind. The alkali
//! stands with what it holds of water and carbonate: those are impurities, no ingredients.
//!
//! # As formed
//!
//! Fats stand as their sodium and potassium soaps, under the fat's own name where no inventory has one for the soap (no name
//! is made up; the ingredient list says so as `label.soap`); what the alkali left of a fat, its unsaponifiable matter and what a wax
//! sets free keep the fat's own name. Glycerol stands as Glycerin, all water together as Aqua, alkali that is left over and
//! carbonate as what they are. An additive keeps its name for whatever its dry matter has become, the soap of its own fat
//! included; its water counts as Aqua. An acid that is sold as such stands as its salt.

use serde::Serialize;

use crate::batch::Plan;
use crate::chemistry::Stage;
use crate::quantity::{Exact, Mass, Share, apportion, close};
use crate::recipe::Recipe;

use super::charge::{Charge, Source, charges, tally};
use super::formed;
use super::names::{self, AQUA};

/// In which names a composition is told.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Style {
    /// What was weighed in: oils, hydroxide, water.
    #[default]
    AsCharged,
    /// What became of it: soaps, glycerin, water.
    AsFormed,
}

/// What a line of a composition is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Role {
    /// Fat: charged, or what the alkali left of it.
    Fat,
    /// Soap.
    Soap,
    /// Alkali.
    Alkali,
    /// Water.
    Water,
    /// Glycerol, set free or added.
    Glycerin,
    /// An additive.
    Additive,
    /// A colour.
    Colour,
    /// A scent.
    Scent,
    /// What came along with a material and is no ingredient: carbonate of the alkali.
    Impurity,
}

/// One name of a composition.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Line {
    /// Label name (INCI) as the library or the recipe has it; nothing where none is known.
    pub inci: Option<String>,
    /// What it is.
    pub role: Role,
    /// The material, in English; several are joined with commas.
    pub name: String,
    /// Ids of the materials behind it.
    pub materials: Vec<String>,
    /// JSON Pointers to the lines of the recipe that it comes from.
    pub pointers: Vec<String>,
    /// How much of it there is.
    pub mass: Mass,
    /// How much more or less it may be by half a step of the scales it was weighed on.
    pub tolerance: Mass,
}

/// What the bars are made of; the lines sum to the total exactly.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Composition {
    /// In which names.
    pub style: Style,
    /// When.
    pub stage: Stage,
    /// In the order of the recipe: fats, alkali, water, doses.
    pub lines: Vec<Line>,
    /// All of it.
    pub total: Mass,
}

impl Composition {
    /// The composition of the bars (`layer` nothing: all layers together, as in a bar that is cut through them all) or of
    /// one layer. `cured_water` is the water of the cured bar, used at that stage alone. Nothing when there is no such layer
    /// or the plan is not one of the recipe.
    ///
    /// ```
    /// use lamella::{chemistry::Stage, market::{Composition, Style}};
    /// let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
    /// let plan = lamella::Plan::of(&recipe).unwrap();
    /// let of = |style, stage| Composition::of(&plan, &recipe, None, style, stage, recipe.cured_water).unwrap();
    /// assert_eq!(of(Style::AsCharged, Stage::Pour).total, plan.batch.poured);
    /// assert_eq!(of(Style::AsFormed, Stage::Cured).total, plan.batch.cured.total);
    /// ```
    #[must_use]
    pub fn of(
        plan: &Plan,
        recipe: &Recipe,
        layer: Option<usize>,
        style: Style,
        stage: Stage,
        cured_water: Share,
    ) -> Option<Self> {
        let charges = charges(plan, recipe, layer)?;
        let tally = tally(plan, layer)?;
        // Nothing has formed yet when it is poured.
        let style = if stage == Stage::Pour { Style::AsCharged } else { style };
        let makeup = crate::chemistry::Makeup::of(&tally, stage, cured_water)?;
        let drafts = match style {
            Style::AsCharged => {
                let water = makeup.mass(crate::chemistry::Part::Water).exact();
                let kept = if stage == Stage::Cured { formed::kept_water(&tally, water) } else { Exact::ONE };
                charges.iter().flat_map(|charge| as_charged(charge, kept, stage)).collect()
            }
            Style::AsFormed => formed::formed(plan, &charges, &tally, &makeup),
        };
        // Names as charged cannot say that more water was made than a cured bar holds; then they sum to a little less.
        let gap = makeup.total.exact() - sum(&drafts);
        let closes = !(gap.max(-gap) - CLOSE).is_positive();
        let total = if closes { makeup.total } else { Mass::try_new(sum(&drafts)).ok()? };
        Some(Self { style, stage, lines: merge(drafts, total)?, total })
    }

    /// Share of a line in the whole.
    #[must_use]
    pub fn share(&self, line: &Line) -> Share {
        Share::try_new(line.mass.exact() / self.total.exact()).unwrap_or(Share::ZERO)
    }

    /// The line with this label name, whatever its capitals and bracketed words.
    #[must_use]
    pub fn line(&self, inci: &str) -> Option<&Line> {
        let wanted = names::key(inci);
        self.lines.iter().find(|line| line.inci.as_deref().is_some_and(|name| names::key(name) == wanted))
    }

    /// Per cent of each line, in the order of the lines, with so many decimals (at most eight), by largest remainder: they
    /// sum to exactly 100.
    #[must_use]
    pub fn percentages(&self, decimals: u32) -> Vec<Share> {
        let scale = 10_i64.pow(decimals.min(8));
        let weights: Vec<Exact> = self.lines.iter().map(|line| line.mass.exact()).collect();
        let units = apportion(scale.saturating_mul(100), &weights).unwrap_or_default();
        let share = |units: i64| Exact::from(units) / (Exact::from(scale) * Exact::HUNDRED);
        units.into_iter().map(|units| Share::try_new(share(units)).unwrap_or(Share::ZERO)).collect()
    }
}

/// A line before it is merged with those of its name.
#[derive(Clone, Debug)]
pub(super) struct Draft {
    pub(super) inci: Option<String>,
    pub(super) role: Role,
    pub(super) name: String,
    pub(super) material: String,
    pub(super) pointer: String,
    pub(super) mass: Exact,
    pub(super) tolerance: Exact,
}

impl Draft {
    /// A part of a charge.
    pub(super) fn of(charge: &Charge<'_>, inci: Option<String>, role: Role, mass: Exact) -> Self {
        let role = if inci.as_deref().is_some_and(names::is_colour) { Role::Colour } else { role };
        Self {
            inci,
            role,
            name: charge.source.name().to_owned(),
            material: charge.source.id().to_owned(),
            pointer: charge.pointer.clone(),
            mass,
            tolerance: charge.half_step * mass / charge.mass,
        }
    }
}

/// The role of a name that a source has.
pub(super) fn role(source: Source<'_>, inci: Option<&str>) -> Role {
    match (source, inci) {
        (_, Some(AQUA)) => Role::Water,
        (_, Some(names::GLYCERIN)) => Role::Glycerin,
        (Source::Fat(..), _) => Role::Fat,
        (Source::Alkali(..), _) => Role::Alkali,
        (Source::Water, _) => Role::Water,
        (Source::Additive(..), _) => Role::Additive,
        (Source::Colour(_), Some(name)) if !names::is_colour(name) => Role::Additive,
        (Source::Colour(_), _) => Role::Colour,
        (Source::Scent(_), _) => Role::Scent,
    }
}

/// The names of a charge as it was weighed; when cured, with the part `kept` of its water and without its alcohol.
fn as_charged(charge: &Charge<'_>, kept: Exact, stage: Stage) -> Vec<Draft> {
    let gone = if stage == Stage::Cured {
        formed::water_and_alcohol(charge)
            .map_or(Exact::ZERO, |(water, alcohol)| water * (Exact::ONE - kept) + alcohol)
    } else {
        Exact::ZERO
    };
    let mass = charge.mass - gone;
    let parts = names::charged(charge.source).into_iter();
    parts
        .map(|(inci, part)| {
            let role = role(charge.source, inci.as_deref());
            Draft::of(charge, inci, role, mass * part)
        })
        .collect()
}

/// What two roundings may lie apart.
const CLOSE: Exact = Exact::literal(1, 7);

fn sum(drafts: &[Draft]) -> Exact {
    // To the last digit that a mass keeps: what a quotient leaves in the 25th is nothing.
    Exact::from(drafts.iter().map(|draft| draft.mass).sum::<Exact>().rounded(9))
}

/// Drafts of one name as one line, closing on the total.
fn merge(drafts: Vec<Draft>, total: Mass) -> Option<Vec<Line>> {
    let mut keys: Vec<String> = Vec::new();
    let mut merged: Vec<(Line, Exact, Exact)> = Vec::new();
    for draft in drafts {
        if draft.mass.rounded(9).is_some_and(|mass| mass.is_zero()) {
            continue;
        }
        let carbonate = if draft.role == Role::Impurity { "impurity " } else { "" };
        let key = match &draft.inci {
            Some(inci) => format!("{carbonate}{}", names::key(inci)),
            None => format!("id {}", draft.material),
        };
        let index = keys.iter().position(|known| *known == key).unwrap_or_else(|| {
            keys.push(key);
            let (inci, role) = (draft.inci.clone(), draft.role);
            let line = Line {
                inci,
                role,
                name: String::new(),
                materials: Vec::new(),
                pointers: Vec::new(),
                mass: Mass::ZERO,
                tolerance: Mass::ZERO,
            };
            merged.push((line, Exact::ZERO, Exact::ZERO));
            merged.len().saturating_sub(1)
        });
        let (line, mass, tolerance) = merged.get_mut(index)?;
        *mass = *mass + draft.mass;
        *tolerance = *tolerance + draft.tolerance;
        if !line.materials.contains(&draft.material) {
            line.materials.push(draft.material);
            let comma = if line.name.is_empty() { "" } else { ", " };
            line.name.push_str(&format!("{comma}{}", draft.name));
        }
        if !line.pointers.contains(&draft.pointer) {
            line.pointers.push(draft.pointer);
        }
    }
    let masses: Vec<Exact> = merged.iter().map(|(_, mass, _)| *mass).collect();
    let closed = close(&masses, total)?;
    merged
        .into_iter()
        .zip(closed)
        .map(|((line, _, tolerance), mass)| {
            Some(Line { mass, tolerance: Mass::try_new(tolerance).ok()?, ..line })
        })
        .collect()
}
