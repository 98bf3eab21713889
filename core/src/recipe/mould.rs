//! Moulds.

use serde::Serialize;

use crate::quantity::Length;

/// A shape.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Shape {
    /// A box.
    Loaf {
        /// Length.
        length: Length,
        /// Width.
        width: Length,
        /// Height.
        height: Length,
    },
}

/// A mould.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Mould {
    /// What the maker calls it.
    pub name: String,
    /// Its shape.
    pub shape: Shape,
    /// How many of them.
    pub count: u32,
    /// How high it is filled.
    pub fill: Length,
}
