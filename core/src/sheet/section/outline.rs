//! The section as bare outlines.

use serde::Serialize;

use super::{Band, Frame, TWO};
use crate::quantity::{Exact, Length};
use crate::recipe::mould::Shape;

/// A layer of an [`Outline`].
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct BandOutline {
    /// Its shape as the data of an SVG path; empty where it does not show.
    pub path: String,
    /// Its lower face as it is drawn, mm from the bottom.
    pub from: Length,
    /// Its upper face.
    pub to: Length,
}

/// A cross-section as bare outlines, for a screen that draws them itself. Units are millimetres; x runs from the left of
/// the widest place to the right, y from the brim down to the bottom.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Outline {
    /// Widest width.
    pub width: Length,
    /// From the bottom to the brim.
    pub depth: Length,
    /// The hollow as the data of an SVG path; open at the top but for a tube.
    pub hollow: String,
    /// The bands, in the order in which they were given.
    pub bands: Vec<BandOutline>,
}

/// The same section as [`draw`](super::draw) makes it, as outlines only; nothing for a shape with problems.
///
/// ```
/// use lamella::recipe::mould::Shape;
/// use lamella::sheet::section::{Band, outline};
/// let loaf = Shape::Loaf { length: "25 cm".parse()?, width: "8 cm".parse()?, height: "6.5 cm".parse()? };
/// let band = Band { from: "0 mm".parse()?, to: "40 mm".parse()?, ..Band::default() };
/// let outline = outline(&loaf, &[band]).unwrap();
/// assert_eq!(outline.hollow, "M0.00 0.00L0.00 65.00L80.00 65.00L80.00 0.00");
/// assert_eq!(outline.bands[0].path, "M0.00 65.00L80.00 65.00L80.00 25.00L0.00 25.00L0.00 65.00Z");
/// # Ok::<(), lamella::quantity::QuantityError>(())
/// ```
#[must_use]
pub fn outline(shape: &Shape, bands: &[Band]) -> Option<Outline> {
    let depth = shape.depth();
    if depth.is_zero() {
        return None;
    }
    let fitted = Frame::new(shape, bands.len());
    let half = fitted.half / fitted.scale;
    let frame = Frame {
        scale: Exact::ONE,
        half,
        radius: fitted.radius.map(|radius| radius / fitted.scale),
        centre: half,
        bottom: depth.exact(),
        ..fitted
    };
    let band = |band: &Band| BandOutline {
        path: frame.band_path(band).unwrap_or_default(),
        from: frame.clamp(band.from),
        to: frame.clamp(band.to),
    };
    Some(Outline {
        width: Length::try_new(half * TWO).ok()?,
        depth,
        hollow: frame.contour(Exact::ZERO),
        bands: bands.iter().map(band).collect(),
    })
}
