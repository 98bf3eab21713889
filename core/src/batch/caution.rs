//! Cautions: what is worth the maker's attention. None of them stops a plan.

use serde::Serialize;

use crate::material::BasisKind;

use super::mixture::Mixture;
use super::plan::Plan;
use crate::recipe::Recipe;

mod batch;
mod jug;
mod lye;
mod scent;

/// One thing worth the maker's attention.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Caution {
    /// Stable code; every one is listed in [`CODES`].
    pub code: &'static str,
    /// JSON Pointer to what it is about in the recipe; empty for the batch.
    pub pointer: String,
    /// What it is about, by name.
    pub place: String,
    /// What is found, in one sentence.
    pub message: String,
    /// The figure, with its unit.
    pub figure: String,
    /// What it is held against, with its unit.
    pub limit: String,
    /// What the limit rests on.
    pub basis: BasisKind,
    /// The source, or what kind of practice it is.
    pub source: &'static str,
    /// What to do.
    pub advice: String,
}

/// Every caution code with what it means. A code is never removed or given another meaning.
pub const CODES: &[(&str, &str)] = &[
    ("superfat.lye-heavy", "a jug gets more alkali than its fat can take up"),
    ("superfat.low", "a jug has less superfat than is usual for skin"),
    ("superfat.high", "a jug has more superfat than is usual"),
    ("superfat.moved", "absorbed additives move a jug's superfat from what was asked for"),
    ("lye.saturated", "the lye is stronger than alkali dissolves"),
    ("lye.strong", "the lye is stronger than usual"),
    ("lye.weak", "the lye is weaker than usual"),
    ("lye.plain-water", "there is less plain water than alkali to dissolve"),
    ("lye.little-water", "the alkali meets little water where it goes in"),
    ("lye.undissolved", "the alkali meets less water than keeps it dissolved"),
    ("lye.salt", "more salt in the lye than stays dissolved"),
    ("lye.misplaced", "something in the lye that belongs in the fats"),
    ("lye.alcohol", "alcohol in the lye"),
    ("jug.alcohol", "alcohol in a jug"),
    ("jug.sugar", "more sugar than heats gently"),
    ("jug.water-uneven", "a jug has more or less water to its fat than the others"),
    ("jug.waits", "a jug stands mixed while other layers are poured"),
    ("additive.fresh", "a fresh, wet additive dosed high"),
    ("additive.late-water", "a wet additive that goes in late"),
    ("additive.allergen", "an additive that food law names as an allergen"),
    ("colour.unstable", "a colour that alkali changes"),
    ("colour.high", "more colour than usual"),
    ("scent.high", "more scent than usual"),
    ("scent.limit", "more of a scent in the cured bar than its certificate allows"),
    ("scent.vanillin", "a scent with vanillin, which browns soap"),
    ("scent.flash", "fats as warm as the flash point of a scent"),
    ("scent.pace", "a scent that thickens the batter"),
    ("weigh.few-steps", "something is weighed in few steps of its scale"),
    ("mould.over", "the layers do not fit into the moulds"),
    ("fat.poly-unsaturated", "much poly-unsaturated fat at a high superfat"),
    ("temperature.apart", "fats and lye far apart in temperature"),
    ("temperature.range", "fats or lye outside the usual temperatures"),
    ("batch.small", "a batch so small that scale steps and residue count"),
    ("sale.assessment", "goods to be sold need a qualified assessment"),
];

/// All cautions of a plan: of the batch, then jug by jug.
pub(crate) fn cautions(recipe: &Recipe, mixtures: &[Mixture<'_>], plan: &Plan) -> Vec<Caution> {
    let mut cautions = Vec::new();
    batch::cautions(recipe, plan, &mut cautions);
    lye::cautions(recipe, plan, &mut cautions);
    for (mixture, jug) in mixtures.iter().zip(&plan.jugs) {
        jug::cautions(recipe, mixture, jug, plan, &mut cautions);
    }
    scent::cautions(recipe, mixtures, plan, &mut cautions);
    jug::few_steps(mixtures, plan, &mut cautions);
    cautions
}

/// A share and its limit, as per cents `of` something that are told apart.
fn compared(found: crate::quantity::Share, limit: crate::quantity::Share, of: &str) -> (String, String) {
    let hundred = |share: crate::quantity::Share| share.in_unit("%").unwrap_or_default();
    let (found, limit) = crate::quantity::told_apart(hundred(found), hundred(limit), 1);
    let of = if of.is_empty() { String::new() } else { format!(" {of}") };
    (format!("{found} %{of}"), format!("{limit} %{of}"))
}

/// A per cent with one decimal.
fn percent(share: crate::quantity::Share) -> String {
    let hundred = share.exact() * crate::quantity::Exact::HUNDRED;
    hundred
        .decimal()
        .map_or_else(|| share.to_string(), |value| format!("{} %", crate::quantity::fixed(value, 1)))
}
