//! After the cut: from what the maker sees to what may have caused it.
//!
//! In: a [`Plan`] with its [`Recipe`], and an [`Observation`]. Out: the [`Cause`]s in order, each with the figures of this
//! very recipe that speak for it and against it, and the observation that would tell it from the others. Depends on the
//! plan and the sheet's page; on no other reader.
//!
//! # How causes are ranked
//!
//! Nothing is scored. A cause for which a figure of the recipe speaks and none against is *likely*; one against which
//! figures speak and none for is *unlikely*; the rest is *possible*. Among equals the one with more figures for it comes
//! first, then the one with fewer against it, then the one that is commoner in practice. The figures are shown, so that
//! the maker can judge the order.
//!
//! # What border and middle say
//!
//! A colour that changed only at the border points to air and to the scent of a neighbour: both come from outside and
//! get a few millimetres in. The same colour all through points to what is in the layer.
//!
//! Every cause rests on common practice; no source was read. The figures that speak for it are arithmetic on the plan.

mod body;
mod colour;
mod facts;
mod page;
mod surface;

pub use page::{markdown, page, text};

use serde::Serialize;

use crate::batch::Plan;
use crate::material::BasisKind;
use crate::recipe::Recipe;

use facts::Facts;

/// What the maker sees.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Observation {
    /// The colour is dull or brown, all through.
    DullThroughout,
    /// It is so only at the border, and the middle is as it should be.
    DullBorder,
    /// The top has cracked.
    CrackOnTop,
    /// A white, dusty bloom on the surface.
    Ash,
    /// Drops or a film of liquid on the bar.
    Weeping,
    /// The middle is soft, or darker and softer than the rim.
    SoftCentre,
    /// It crumbles or breaks when it is cut.
    Crumbling,
    /// Dark or orange spots that grow with time.
    DarkSpots,
    /// Specks that were there at the cut.
    Specks,
}

impl Observation {
    /// All of them, in the order in which they are shown.
    pub const ALL: [Self; 9] = [
        Self::DullThroughout,
        Self::DullBorder,
        Self::CrackOnTop,
        Self::Ash,
        Self::Weeping,
        Self::SoftCentre,
        Self::Crumbling,
        Self::DarkSpots,
        Self::Specks,
    ];

    /// The word for it in documents: `dull-throughout`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::DullThroughout => "dull-throughout",
            Self::DullBorder => "dull-border",
            Self::CrackOnTop => "crack-on-top",
            Self::Ash => "ash",
            Self::Weeping => "weeping",
            Self::SoftCentre => "soft-centre",
            Self::Crumbling => "crumbling",
            Self::DarkSpots => "dark-spots",
            Self::Specks => "specks",
        }
    }

    /// The observation in words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::DullThroughout => "dull colour all through",
            Self::DullBorder => "dull border, the middle as it should be",
            Self::CrackOnTop => "crack on top",
            Self::Ash => "white bloom on the surface",
            Self::Weeping => "drops or a film of liquid",
            Self::SoftCentre => "soft centre",
            Self::Crumbling => "crumbles when it is cut",
            Self::DarkSpots => "dark or orange spots that grow",
            Self::Specks => "specks",
        }
    }
}

/// A figure of the recipe, and what it says about a cause.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Reason {
    /// The figure, or the names of materials.
    pub figure: String,
    /// What it says.
    pub says: &'static str,
}

/// Where a cause stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Standing {
    /// Figures of the recipe speak for it and none against.
    Likely,
    /// Some speak for and some against it, or none at all.
    Possible,
    /// Figures speak against it and none for it.
    Unlikely,
}

impl Standing {
    /// The standing in words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Likely => "likely",
            Self::Possible => "possible",
            Self::Unlikely => "unlikely",
        }
    }
}

/// What may have caused it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Cause {
    /// Stable code.
    pub code: &'static str,
    /// The cause in words.
    pub what: &'static str,
    /// Where it stands.
    pub standing: Standing,
    /// What speaks for it.
    pub speaks_for: Vec<Reason>,
    /// What speaks against it.
    pub speaks_against: Vec<Reason>,
    /// What to look at to tell it from the others.
    pub tell: &'static str,
    /// What to do next time, and with this batch where that matters.
    pub advice: &'static str,
    /// What the connection rests on.
    pub basis: BasisKind,
    /// The same in words.
    pub source: &'static str,
}

/// The causes of an observation, the likeliest first; never empty. With the index of a layer, of that layer; otherwise of
/// the whole bar. A layer that is not there counts as the whole bar.
///
/// ```
/// use lamella::after::{Observation, causes};
/// let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
/// let plan = lamella::Plan::of(&recipe).unwrap();
/// // Rust, the third layer, has pumpkin and honey.
/// let causes = causes(&plan, &recipe, Observation::DullThroughout, Some(2));
/// assert_eq!(causes[0].code, "after.browning");
/// assert!(causes[0].speaks_for[0].figure.contains("sugars"));
/// ```
///
/// Empty for a plan that is not one of this recipe.
#[must_use]
pub fn causes(plan: &Plan, recipe: &Recipe, seen: Observation, layer: Option<usize>) -> Vec<Cause> {
    if !plan.is_of(recipe) {
        return Vec::new();
    }
    let facts = Facts::of(plan, recipe, layer);
    let cases = match seen {
        Observation::DullThroughout => colour::throughout(&facts),
        Observation::DullBorder => colour::border(&facts),
        Observation::CrackOnTop => surface::crack(&facts),
        Observation::Ash => surface::ash(&facts),
        Observation::Weeping => surface::weeping(&facts),
        Observation::SoftCentre => body::soft_centre(&facts),
        Observation::Crumbling => body::crumbling(&facts),
        Observation::DarkSpots => colour::spots(&facts),
        Observation::Specks => colour::specks(&facts),
    };
    let mut causes: Vec<Cause> = cases.into_iter().map(Case::close).collect();
    // Stable: what is commoner in practice was written first.
    causes.sort_by_key(|cause| {
        (cause.standing, std::cmp::Reverse(cause.speaks_for.len()), cause.speaks_against.len())
    });
    causes
}

/// A cause while its reasons are gathered.
struct Case {
    code: &'static str,
    what: &'static str,
    tell: &'static str,
    advice: &'static str,
    speaks_for: Vec<Reason>,
    speaks_against: Vec<Reason>,
}

impl Case {
    const fn new(code: &'static str, what: &'static str, tell: &'static str, advice: &'static str) -> Self {
        Self { code, what, tell, advice, speaks_for: Vec::new(), speaks_against: Vec::new() }
    }

    /// A figure that speaks for the cause.
    fn speaks(mut self, figure: impl Into<String>, says: &'static str) -> Self {
        self.speaks_for.push(Reason { figure: figure.into(), says });
        self
    }

    /// A figure that speaks against it.
    fn denies(mut self, figure: impl Into<String>, says: &'static str) -> Self {
        self.speaks_against.push(Reason { figure: figure.into(), says });
        self
    }

    /// A figure that speaks for the cause where `holds`, else against it.
    fn weigh(
        self,
        holds: bool,
        figure: impl Into<String>,
        says: &'static str,
        otherwise: &'static str,
    ) -> Self {
        if holds { self.speaks(figure, says) } else { self.denies(figure, otherwise) }
    }

    /// A figure that is told only where it speaks for the cause.
    fn if_so(self, holds: bool, figure: impl Into<String>, says: &'static str) -> Self {
        if holds { self.speaks(figure, says) } else { self }
    }

    /// Names that speak for the cause, or that there are none of them.
    fn names(
        self,
        names: &[String],
        none: &'static str,
        says: &'static str,
        otherwise: &'static str,
    ) -> Self {
        if names.is_empty() { self.denies(none, otherwise) } else { self.speaks(names.join("; "), says) }
    }

    fn close(self) -> Cause {
        let standing = match (self.speaks_for.is_empty(), self.speaks_against.is_empty()) {
            (false, true) => Standing::Likely,
            (true, false) => Standing::Unlikely,
            _ => Standing::Possible,
        };
        Cause {
            code: self.code,
            what: self.what,
            standing,
            speaks_for: self.speaks_for,
            speaks_against: self.speaks_against,
            tell: self.tell,
            advice: self.advice,
            basis: BasisKind::CommonPractice,
            source: "common practice, no source",
        }
    }
}
