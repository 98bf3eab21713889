//! Where a number comes from.

use std::borrow::Cow;

use serde::Serialize;

/// What kind of thing a figure rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum BasisKind {
    /// A published standard.
    Standard,
    /// A law or regulation.
    Regulation,
    /// A handbook or a paper.
    Handbook,
    /// A public dataset.
    Dataset,
    /// A supplier's certificate or label.
    Supplier,
    /// Arithmetic on other stated figures.
    Derived,
    /// Common practice of the trade, without a source.
    CommonPractice,
    /// From memory: the source was not read.
    Memory,
}

impl BasisKind {
    /// The word for it in documents: `common-practice`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Standard => "standard",
            Self::Regulation => "regulation",
            Self::Handbook => "handbook",
            Self::Dataset => "dataset",
            Self::Supplier => "supplier",
            Self::Derived => "derived",
            Self::CommonPractice => "common-practice",
            Self::Memory => "memory",
        }
    }
}

/// One source, and which figures rest on it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Basis {
    /// What rests on it, in words: "saponification value, iodine value".
    pub what: Cow<'static, str>,
    /// What kind of source it is.
    pub kind: BasisKind,
    /// The citation: title, edition, table or page.
    pub cite: Cow<'static, str>,
    /// Whether the figure was read in the cited text; otherwise it is from memory of it.
    pub seen: bool,
}
