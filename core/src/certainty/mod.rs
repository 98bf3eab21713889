//! How sure a superfat is: of each jug, and so of each layer poured from it, and of the batch.
//!
//! In: a [`Recipe`] and its [`Plan`]. Out: a [`Certainty`], or the [`Advice`] that follows from it. Reads a plan and
//! depends on no other reader.
//!
//! A saponification value is a range, an alkali is never quite pure, a scale rounds. Two answers are given to what that
//! does to the superfat:
//!
//! * the *guaranteed* interval: whatever the inputs are within their ranges, the superfat lies in it, and each of its
//!   ends is reached at the ends of ranges that are named. Where its lower end is not below nought, no layer can be
//!   lye-heavy as long as the ranges hold.
//! * the standard uncertainty and the 95 % interval of JCGM 100 (the GUM), where the inputs are as likely to be low as
//!   high and rarely all at their worst together.
//!
//! What is one thing has one value: a bottle of fat in all layers, a tub of alkali, a jar of an additive.
//!
//! # What counts, and how much
//!
//! | input | range | basis |
//! | --- | --- | --- |
//! | saponification value | as published; else [`UNPUBLISHED`]; of a certificate [`CERTIFIED`] | the fat's sources |
//! | purity of alkali | what is sold; or as the recipe says (`purity_within`), else [`STATED_PURITY`] | the alkali's sources |
//! | fat or acid of an additive | [`LABELLED`], [`TABULATED`], [`REMEMBERED`] or [`PURE`] | by the kind of its source |
//! | a weighing | half a scale step either way | the scale |
//! | what is weighed into a jug | half a step at each of two readings, before and after | the scale |
//! | what stays behind | none to twice what the recipe says | common practice, no source |
//!
//! What stays behind moves the superfat only where a batch of one jug is poured over in one go: what is weighed out of a
//! well mixed vessel is what it is, however much stays in it. A scale is taken to show what it should within its
//! rounding: one that is out of true is out of this reckoning too.
//!
//! ```
//! let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
//! let plan = lamella::Plan::of(&recipe).unwrap();
//! let certainty = lamella::certainty::Certainty::of(&recipe, &plan).unwrap();
//! let first = &certainty.jugs[0].figures;
//! assert!(first.guaranteed.low < plan.jugs[0].superfat && plan.jugs[0].superfat < first.guaranteed.high);
//! ```

mod advice;
mod ends;
mod gum;
mod model;
mod page;
mod range;

pub use advice::{Advice, CoarsestScale, SmallestSuperfat};
pub use ends::End;
pub use model::{Input, InputKind, Model};
pub use page::{markdown, text};
pub use range::{CERTIFIED, LABELLED, PURE, REMEMBERED, STATED_PURITY, TABULATED, UNPUBLISHED};

use serde::Serialize;

use crate::batch::Plan;
use crate::quantity::{Exact, Share};
use crate::recipe::Recipe;

use self::ends::{Extreme, Search};
use self::gum::Middle;
use self::model::JugModel;

/// How sure the superfats of a plan are.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Certainty {
    /// Which document this is: `certainty/1`.
    pub lamella: &'static str,
    /// What is uncertain; corners and budgets point into this list.
    pub inputs: Vec<Input>,
    /// The jugs, as in the plan.
    pub jugs: Vec<JugCertainty>,
    /// All jugs together.
    pub batch: Figures,
    /// Index of the jug whose superfat can be the lowest.
    pub binding: usize,
}

/// How sure the superfat of a jug is, and so that of every layer poured from it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct JugCertainty {
    /// What it is called.
    pub name: String,
    /// Its layers, in pour order.
    pub layers: Vec<usize>,
    /// How sure.
    pub figures: Figures,
}

/// How sure a superfat is.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Figures {
    /// As the plan has it.
    pub superfat: Share,
    /// Whether it can be, or must be, lye-heavy.
    pub verdict: Verdict,
    /// What it cannot leave while the inputs are within their ranges.
    pub guaranteed: Guaranteed,
    /// With every input in the middle of its range.
    pub expected: Share,
    /// Standard uncertainty (JCGM 100), an absolute share: 0.01 is one point of superfat.
    pub uncertainty: Share,
    /// Ends of the 95 % coverage interval, within the guaranteed one.
    pub covered: (Share, Share),
    /// What each input contributes, the largest first.
    pub budget: Vec<Contribution>,
}

/// The guaranteed interval. Its ends are rounded outwards, at the twelfth decimal.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Guaranteed {
    /// Lower end; the least that a share can be when nothing bounds it, because a scale is so coarse that no fat at all
    /// may be in the jug.
    pub low: Share,
    /// Upper end.
    pub high: Share,
    /// The input ends at which the lower end is reached: (input, end).
    pub at_low: Vec<(usize, End)>,
    /// Those at which the upper end is reached.
    pub at_high: Vec<(usize, End)>,
}

/// What an input contributes to a standard uncertainty.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Contribution {
    /// Index of the input.
    pub input: usize,
    /// Its standard uncertainty times the sensitivity of the superfat to it.
    pub uncertainty: Share,
    /// Its share of the variance.
    pub of_variance: Share,
}

/// Whether a superfat can be negative, that is, alkali can be left over.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[expect(clippy::exhaustive_enums, reason = "an interval lies above nought, below it, or across")]
pub enum Verdict {
    /// Fat is left over, whatever the inputs are.
    FatLeft,
    /// Alkali may be left over.
    MayBeLyeHeavy,
    /// Alkali is left over, whatever the inputs are.
    LyeHeavy,
}

impl Verdict {
    /// The verdict in words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::FatLeft => "cannot be lye-heavy",
            Self::MayBeLyeHeavy => "may be lye-heavy",
            Self::LyeHeavy => "is lye-heavy",
        }
    }
}

impl Certainty {
    /// How sure the superfats of a plan are. Nothing when the plan is not one of this recipe, or a figure passes what
    /// its quantity can hold.
    #[must_use]
    pub fn of(recipe: &Recipe, plan: &Plan) -> Option<Self> {
        let model = Model::of(recipe, plan)?;
        let judge = Judge::new(&model);
        let mut jugs = Vec::with_capacity(plan.jugs.len());
        for (jug, part) in plan.jugs.iter().zip(&model.jugs) {
            let figures = judge.figures(std::slice::from_ref(part), jug.superfat)?;
            jugs.push(JugCertainty { name: jug.name.clone(), layers: jug.layers.clone(), figures });
        }
        let batch = judge.figures(&model.jugs, plan.batch.superfat)?;
        let lowest = jugs.iter().enumerate().min_by_key(|(_, jug)| jug.figures.guaranteed.low);
        let binding = lowest.map_or(0, |(index, _)| index);
        Some(Self { lamella: "certainty/1", inputs: model.inputs, jugs, batch, binding })
    }

    /// Whether no layer can be lye-heavy while the inputs are within their ranges.
    #[must_use]
    pub fn is_safe(&self) -> bool {
        self.jugs.iter().all(|jug| jug.figures.verdict == Verdict::FatLeft)
    }

    /// As its `certainty/1` document, ending in a newline.
    ///
    /// # Errors
    /// None that a certainty can bring about; the signature is that of the writer.
    pub fn to_json(&self) -> Result<String, serde_json::Error> {
        crate::json::document(self)
    }
}

/// The lower ends of the guaranteed interval of each jug, and nothing else: what the advice asks over and over.
fn lows(recipe: &Recipe, plan: &Plan) -> Option<Vec<Share>> {
    let model = Model::of(recipe, plan)?;
    let search = Search::new(&model, End::Low);
    let low = |jug| down(search.extreme(std::slice::from_ref(jug), Exact::ONE).superfat);
    Some(model.jugs.iter().map(low).collect())
}

struct Judge<'m> {
    low: Search<'m>,
    high: Search<'m>,
    middle: Middle<'m>,
}

impl<'m> Judge<'m> {
    fn new(model: &'m Model) -> Self {
        Self {
            low: Search::new(model, End::Low),
            high: Search::new(model, End::High),
            middle: Middle::of(model),
        }
    }

    fn figures(&self, jugs: &[JugModel], superfat: Share) -> Option<Figures> {
        let start = Exact::ONE - superfat.exact();
        let (low, high) = (self.low.extreme(jugs, start), self.high.extreme(jugs, start));
        let guaranteed = Guaranteed {
            low: down(low.superfat),
            high: up(high.superfat),
            at_low: corner(&low),
            at_high: corner(&high),
        };
        let verdict = if guaranteed.low >= Share::ZERO {
            Verdict::FatLeft
        } else if guaranteed.high < Share::ZERO {
            Verdict::LyeHeavy
        } else {
            Verdict::MayBeLyeHeavy
        };
        let spread = self.middle.spread(jugs);
        let (from, to) = gum::covered(&spread);
        let budget = spread.budget.iter().map(|(input, part)| {
            Some(Contribution {
                input: *input,
                uncertainty: share(*part)?,
                of_variance: share(gum::part_of(*part, &spread))?,
            })
        });
        Some(Figures {
            superfat,
            verdict,
            expected: share(spread.expected)?,
            uncertainty: share(spread.uncertainty)?,
            covered: (share(from)?.max(guaranteed.low), share(to)?.min(guaranteed.high)),
            budget: budget.collect::<Option<_>>()?,
            guaranteed,
        })
    }
}

fn corner(extreme: &Extreme) -> Vec<(usize, End)> {
    extreme.corner.iter().enumerate().filter_map(|(input, end)| Some((input, (*end)?))).collect()
}

/// A double as a share of nine decimals.
fn share(value: f64) -> Option<Share> {
    Share::try_new(Exact::from_approximate(value, 9)).ok()
}

/// The twelfth decimal.
const LAST: Exact = Exact::literal(1, 12);
/// More than the rounding of 26 decimals can amount to in the ends, and far less than the twelfth decimal.
const GUARD: Exact = Exact::literal(1, 20);

/// Rounded downwards at the twelfth decimal; the least share there is when it is poisoned or out of reach.
fn down(value: Exact) -> Share {
    let steps = (value - GUARD).whole_steps(LAST);
    let rounded = steps.map(|steps| LAST.times(steps));
    rounded.and_then(|value| Share::try_new(value).ok()).unwrap_or(Share::literal(-1_000_000, 0))
}

/// Rounded upwards at the twelfth decimal.
fn up(value: Exact) -> Share {
    let steps = (-(value + GUARD)).whole_steps(LAST);
    let rounded = steps.map(|steps| -LAST.times(steps));
    rounded.and_then(|value| Share::try_new(value).ok()).unwrap_or(Share::literal(1_000_000, 0))
}
