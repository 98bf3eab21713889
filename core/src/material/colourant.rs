//! Pigments and other colours.

use std::borrow::Cow;

use serde::Serialize;

use super::basis::Basis;
use crate::quantity::Share;

/// What a colour is, which says how it behaves in alkali.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum ColourantKind {
    /// An inorganic pigment: oxide, ultramarine, chromium green, titanium dioxide.
    Pigment,
    /// Coated mica.
    Mica,
    /// A coloured clay.
    Clay,
    /// Carbon.
    Carbon,
    /// A plant colour.
    Plant,
}

/// A colourant, used in small doses and reckoned as inert.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Colourant {
    /// Stable id, `ultramarine-blue`.
    pub id: Cow<'static, str>,
    /// Name in English.
    pub name: Cow<'static, str>,
    /// What it is.
    pub kind: ColourantKind,
    /// Colour Index number, `77007`, where it has one.
    pub colour_index: Option<Cow<'static, str>>,
    /// How it looks in a bar, `#rrggbb`, for drawing only.
    pub swatch: Cow<'static, str>,
    /// Largest usual dose as a share of fat.
    pub usual_max: Share,
    /// Whether it keeps its hue at the pH of soap.
    pub alkali_stable: bool,
    /// Where the numbers come from.
    pub bases: Cow<'static, [Basis]>,
    /// What a maker should know.
    pub note: Cow<'static, str>,
}
