//! What a safety assessment covers, and whether a plan is inside it.
//!
//! In: an `assessment/1` document, a plan and its recipe. Out: a verdict with every reason as a figure, its limit, the
//! distance to it and the change that brings it back. A batch for the household needs no assessment, and may not be sold.
//!
//! # Source
//! Before goods are placed on the market a qualified person assesses their composition: Regulation (EC) No 1223/2009,
//! article 10, and in Great Britain the same as amended by S.I. 2019/696, schedule 34 (read). That reports are written as
//! ranges is practice; that what lies outside them needs an amendment is an inference.

mod judge;
mod read;
mod tables;
mod write;

use serde::Serialize;

pub use judge::{Line, Reason, Standing, Verdict, verdict};
pub use read::{read, read_bytes};
pub use write::write;

use crate::market::Style;
use crate::quantity::{Date, Share};
use crate::recipe::Process;

/// The JSON Schema of an `assessment/1` document; the same as `core/schema/assessment-1.json`.
#[cfg(feature = "schema")]
#[must_use]
pub fn schema() -> String {
    crate::recipe::schema::of(&tables::ASSESSMENT, "What a safety assessment of bar soap covers")
}

/// What the shares of an assessment are shares of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Basis {
    /// Of everything when it is poured.
    #[default]
    AtFilling,
    /// Of the cured bar.
    Cured,
}

/// A closed range of a share.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Range {
    /// Least.
    pub min: Share,
    /// Most.
    pub max: Share,
}

impl Range {
    /// Whether it holds a share.
    #[must_use]
    pub fn holds(&self, share: Share) -> bool {
        self.min <= share && share <= self.max
    }
}

/// One ingredient that is covered, or several that stand for each other.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Covered {
    /// Label names; more than one are alternatives.
    pub names: Vec<String>,
    /// What the alternatives are called together; nothing for a single ingredient.
    pub group: Option<String>,
    /// Share of the finished product, of all names together.
    pub range: Range,
    /// JSON Pointer to it in its document.
    pub pointer: String,
}

impl Covered {
    /// What it is called.
    #[must_use]
    pub fn name(&self) -> &str {
        self.group.as_deref().or_else(|| self.names.first().map(String::as_str)).unwrap_or_default()
    }
}

/// Under which conditions an assessment holds.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Conditions {
    /// How it is made.
    pub process: Option<Process>,
    /// Superfat of every jug, as weighed.
    pub superfat: Option<Range>,
    /// Most free alkali in the cured bar.
    pub free_alkali: Option<Share>,
    /// Water of the cured bar.
    pub water: Option<Range>,
    /// Most of all scents together.
    pub scents: Option<Share>,
    /// In words, for the maker to see to.
    pub other: Vec<String>,
}

/// A safety assessment, as far as it can be computed with.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Assessment {
    /// The product or range of products.
    pub name: String,
    /// The report's number.
    pub reference: String,
    /// Who signed it.
    pub assessor: String,
    /// The day of the report.
    pub date: Date,
    /// Free text.
    pub note: String,
    /// What its shares are shares of.
    pub basis: Basis,
    /// In which names it is written.
    pub style: Style,
    /// What it covers.
    pub ingredients: Vec<Covered>,
    /// Under which conditions.
    pub conditions: Conditions,
}
