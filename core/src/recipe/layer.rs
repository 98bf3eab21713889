//! Layers, jugs and the size of the batch.

use crate::quantity::{Decimal, Length, Mass, Volume};

use super::dose::Dose;

/// How much of the bar a layer is. All layers of a recipe say it the same way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum LayerShare {
    /// Parts of the batch's fat; a per cent is a part.
    Parts(Decimal),
    /// How high it stands in the mould.
    Height(Length),
    /// What is poured.
    Mass(Mass),
    /// What is poured, by volume.
    Volume(Volume),
}

/// A vessel that holds the mixture of one or more layers.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Jug {
    /// What the maker calls it.
    pub name: String,
    /// Its own mass; nothing when the scale is set to nought with the jug on it.
    pub tare: Option<Mass>,
    /// What stays on its walls; nothing for that of the workshop.
    pub residue: Option<Mass>,
    /// What goes into the mixture.
    pub doses: Vec<Dose>,
}

/// A part of the bar that is poured in one go.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Layer {
    /// What the maker calls it.
    pub name: String,
    /// How much of the bar it is.
    pub share: LayerShare,
    /// Index of the jug it is poured from; nothing for one of its own.
    pub jug: Option<usize>,
    /// What goes into it; empty when it has a jug with doses.
    pub doses: Vec<Dose>,
}

/// How large the batch is to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Size {
    /// So much fat.
    Fat(Mass),
    /// So much poured, everything together.
    Batter(Mass),
    /// So many bars, each of so much when it is cut.
    Bars {
        /// How many.
        count: u32,
        /// Mass of one, fresh.
        each: Mass,
    },
    /// As much as fills the moulds.
    Moulds,
}
