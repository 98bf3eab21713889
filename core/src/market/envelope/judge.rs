//! Whether a plan is inside an assessment.

use serde::Serialize;

use crate::batch::{Plan, held};
use crate::chemistry::{Part, Stage};
use crate::market::composition::{Composition, Role};
use crate::market::names;
use crate::problem::Problem;
use crate::quantity::{Exact, Mass, Share};
use crate::recipe::{Process, Purpose, Recipe};

use super::{Assessment, Basis, Covered, Range};
use crate::market::ingredients::{nameless, no_layer};

/// Where a batch stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Standing {
    /// For the household: no assessment is needed, and none of it may be sold or given away in the course of a business.
    Household,
    /// For sale, and no assessment was handed over: it must not be sold.
    Unassessed,
    /// Inside the assessment.
    Covered,
    /// Outside it.
    NotCovered,
}

/// One ingredient of an assessment and how the plan stands to it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Line {
    /// What it is called.
    pub name: String,
    /// Its share in the plan.
    pub share: Share,
    /// What is covered.
    pub range: Range,
    /// How much it could rise before it leaves the range; negative when it is above.
    pub room_above: Share,
    /// How much it could fall before it leaves the range; negative when it is below.
    pub room_below: Share,
    /// JSON Pointer into the assessment.
    pub pointer: String,
}

/// Why a plan is not covered.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Reason {
    /// What is out, by name.
    pub what: String,
    /// What is found.
    pub figure: String,
    /// What is covered.
    pub limit: String,
    /// How far outside it lies.
    pub distance: Share,
    /// What would bring it back.
    pub change: String,
    /// JSON Pointer into the assessment; empty when it says nothing of it.
    pub assessed: String,
    /// JSON Pointers into the recipe.
    pub pointers: Vec<String>,
}

/// The verdict on a plan.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Verdict {
    /// Where the batch stands.
    pub standing: Standing,
    /// The same as a sentence.
    pub says: String,
    /// Ingredient by ingredient, in the order of the assessment.
    pub lines: Vec<Line>,
    /// Why it is not covered; empty when it is.
    pub reasons: Vec<Reason>,
    /// Conditions in words, which no computation can check.
    pub to_see_to: Vec<String>,
}

impl Verdict {
    /// Whether an assessment covers the batch. Covered is not permitted: the rest of the law stays.
    #[must_use]
    pub const fn is_covered(&self) -> bool {
        matches!(self.standing, Standing::Covered)
    }
}

/// The verdict on a plan. Without an assessment the batch must not be sold, whatever it is planned for; one that is planned
/// for the household must not be sold even inside an assessment, since its records are not those of goods for sale.
///
/// The assessment's names are those of the composition as charged or as formed that it speaks of; shares are of the whole
/// bar, all layers together. At filling they are those when it is poured.
///
/// # Errors
/// `label.inci` for each material without a label name, since an assessment names what it covers.
pub fn verdict(
    plan: &Plan,
    recipe: &Recipe,
    assessment: Option<&Assessment>,
) -> Result<Verdict, Vec<Problem>> {
    let household = plan.purpose == Purpose::Household;
    let Some(assessment) = assessment else {
        let (standing, says) = if household {
            (
                Standing::Household,
                "This batch is for the household: it must not be sold, nor given away in the course of a business.",
            )
        } else {
            (
                Standing::Unassessed,
                "No assessment was handed over: this batch must not be sold until a qualified person has assessed it.",
            )
        };
        return Ok(Verdict {
            standing,
            says: with_holds(plan, says.to_owned()),
            lines: Vec::new(),
            reasons: Vec::new(),
            to_see_to: Vec::new(),
        });
    };
    let stage = match assessment.basis {
        Basis::AtFilling => Stage::Pour,
        Basis::Cured => Stage::Cured,
    };
    let composition = Composition::of(plan, recipe, None, assessment.style, stage, recipe.cured_water)
        .ok_or_else(|| vec![no_layer(plan, None)])?;
    let problems = nameless(&composition);
    if !problems.is_empty() {
        return Err(problems);
    }
    let mut lines = Vec::with_capacity(assessment.ingredients.len());
    let mut reasons = Vec::new();
    for covered in &assessment.ingredients {
        lines.push(ingredient(&composition, covered, &mut reasons));
    }
    unassessed(&composition, assessment, &mut reasons);
    conditions(plan, recipe, assessment, &composition, &mut reasons);
    let covered = reasons.is_empty();
    let standing = match (covered, household) {
        (true, true) => Standing::Household,
        (true, false) => Standing::Covered,
        (false, _) => Standing::NotCovered,
    };
    Ok(Verdict {
        standing,
        says: with_holds(plan, says(standing, assessment, reasons.len())),
        lines,
        reasons,
        to_see_to: assessment.conditions.other.clone(),
    })
}

/// A layer on hold is not sold, whatever covers it.
fn with_holds(plan: &Plan, says: String) -> String {
    if plan.holds.is_empty() {
        return says;
    }
    format!("On hold, not to be sold: {}. {says}", held(&plan.holds))
}

fn says(standing: Standing, assessment: &Assessment, reasons: usize) -> String {
    let report = format!("report {} of {} by {}", assessment.reference, assessment.date, assessment.assessor);
    match standing {
        Standing::Covered => format!("The formula is inside {report}."),
        Standing::Household => format!(
            "The formula is inside {report}, but the batch is planned for the household: it must not be sold."
        ),
        Standing::NotCovered | Standing::Unassessed => format!(
            "The formula is outside {report}, for {reasons} {}: it must not be sold until the report is amended.",
            if reasons == 1 { "reason" } else { "reasons" }
        ),
    }
}

/// Whether a line of the composition is one of the names.
fn is_one_of(inci: Option<&str>, covered: &Covered) -> bool {
    inci.is_some_and(|inci| covered.names.iter().any(|name| names::key(name) == names::key(inci)))
}

fn ingredient(composition: &Composition, covered: &Covered, reasons: &mut Vec<Reason>) -> Line {
    let found = composition.lines.iter().filter(|line| is_one_of(line.inci.as_deref(), covered));
    let mut mass = Mass::ZERO;
    let mut pointers = Vec::new();
    for line in found {
        mass += line.mass;
        pointers.extend(line.pointers.iter().cloned());
    }
    let exact = mass.exact() / composition.total.exact();
    let share = Share::try_new(exact).unwrap_or(Share::ZERO);
    let range = covered.range;
    let name = covered.name();
    // The exact quotient decides, not its twelfth decimal.
    let above = (exact - range.max.exact()).is_positive();
    let below = (range.min.exact() - exact).is_positive();
    if above || below {
        let change = if above {
            change(mass, composition.total, range.max, |grams, percent| {
                format!("take out {grams} of {name} from the batch ({percent} of it), all else as it is")
            })
        } else {
            change(mass, composition.total, range.min, |grams, _| {
                format!("add {grams} of {name} to the batch, all else as it is")
            })
        };
        reasons.push(Reason {
            what: name.to_owned(),
            figure: share.to_string(),
            limit: format!("{} to {}", range.min, range.max),
            distance: if above { share - range.max } else { range.min - share },
            change,
            assessed: covered.pointer.clone(),
            pointers,
        });
    }
    Line {
        name: name.to_owned(),
        share,
        range,
        room_above: range.max - share,
        room_below: share - range.min,
        pointer: covered.pointer.clone(),
    }
}

/// By how much a mass must change so that its share is `limit`, all else as it is: (limit x whole - mass) / (1 - limit).
/// Rounded up to the hundredth of a gram.
fn change(mass: Mass, whole: Mass, limit: Share, say: impl Fn(&str, &str) -> String) -> String {
    let rest = Exact::ONE - limit.exact();
    if rest.is_zero() {
        return "nothing but this ingredient may be in it".to_owned();
    }
    let needed = (limit.exact() * whole.exact() - mass.exact()) / rest;
    let size = needed.max(-needed);
    let step = Exact::literal(1, 2);
    let steps = size.whole_steps(step).map_or(0, |steps| steps.saturating_add(1));
    let rounded = step.times(steps);
    let grams = if needed.is_negative() { rounded.min(mass.exact()) } else { rounded };
    let percent = Share::try_new(Exact::from((grams / mass.exact()).rounded(4)));
    let grams = Mass::try_new(grams).map_or_else(|_| "more".to_owned(), |grams| grams.to_string());
    say(&grams, &percent.map_or_else(|_| "all".to_owned(), |percent| percent.to_string()))
}

/// Ingredients that the assessment does not name at all.
fn unassessed(composition: &Composition, assessment: &Assessment, reasons: &mut Vec<Reason>) {
    let unknown = composition.lines.iter().filter(|line| {
        line.role != Role::Impurity
            && !assessment.ingredients.iter().any(|covered| is_one_of(line.inci.as_deref(), covered))
    });
    for line in unknown {
        let name = line.inci.clone().unwrap_or_default();
        reasons.push(Reason {
            figure: composition.share(line).to_string(),
            limit: "not assessed".to_owned(),
            distance: composition.share(line),
            change: format!("leave out {}, or have the report amended by {name}", line.name),
            what: name,
            assessed: String::new(),
            pointers: line.pointers.clone(),
        });
    }
}

fn conditions(
    plan: &Plan,
    recipe: &Recipe,
    assessment: &Assessment,
    composition: &Composition,
    reasons: &mut Vec<Reason>,
) {
    let wanted = &assessment.conditions;
    let mut reason = |what: String,
                      figure: String,
                      limit: String,
                      distance: Share,
                      change: &str,
                      field: &str,
                      at: &str| {
        reasons.push(Reason {
            what,
            figure,
            limit,
            distance,
            change: change.to_owned(),
            assessed: format!("/conditions/{field}"),
            pointers: vec![at.to_owned()],
        });
    };
    if let Some(process) = wanted.process.filter(|process| *process != recipe.process) {
        let word = |process| if process == Process::Hot { "hot" } else { "cold" }.to_owned();
        let change = "make it as it was assessed";
        reason(
            "process".to_owned(),
            word(recipe.process),
            word(process),
            Share::ZERO,
            change,
            "process",
            "/process",
        );
    }
    if let Some(range) = wanted.superfat {
        for jug in plan.jugs.iter().filter(|jug| !range.holds(jug.superfat)) {
            let (what, figure) = (format!("superfat of {}", jug.name), jug.superfat.to_string());
            let distance = outside(jug.superfat, range);
            let change = "change the superfat asked for, or balance the additives that move it";
            reason(what, figure, said(range), distance, change, "superfat", "/superfat");
        }
    }
    if let Some(most) = wanted.free_alkali {
        let free = plan.batch.cured.share(Part::Alkali);
        if free > most {
            let change = "raise the superfat";
            let (figure, limit) = (free.to_string(), format!("at most {most}"));
            reason("free alkali".to_owned(), figure, limit, free - most, change, "free_alkali", "/superfat");
        }
    }
    if let Some(range) = wanted.water {
        let water = plan.batch.cured.share(Part::Water);
        if !range.holds(water) {
            let change = "cure it longer or shorter, and state the water of the cured bar";
            let distance = outside(water, range);
            reason(
                "water of the cured bar".to_owned(),
                water.to_string(),
                said(range),
                distance,
                change,
                "water",
                "/cured_water",
            );
        }
    }
    if let Some(most) = wanted.scents {
        let scents: Mass =
            composition.lines.iter().filter(|line| line.role == Role::Scent).map(|line| line.mass).sum();
        let exact = scents.exact() / composition.total.exact();
        if (exact - most.exact()).is_positive() {
            let share = Share::try_new(exact).unwrap_or(most);
            let change = change(scents, composition.total, most, |grams, percent| {
                format!("take out {grams} of scents from the batch ({percent} of them), all else as it is")
            });
            let (figure, limit) = (share.to_string(), format!("at most {most}"));
            reason("all scents".to_owned(), figure, limit, share - most, &change, "scents", "/scents");
        }
    }
}

fn said(range: Range) -> String {
    format!("{} to {}", range.min, range.max)
}

fn outside(share: Share, range: Range) -> Share {
    if share > range.max { share - range.max } else { range.min - share }
}
