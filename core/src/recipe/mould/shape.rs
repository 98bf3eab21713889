//! The shapes of moulds: how high a volume stands in one and how much lies below a height.

use serde::Serialize;

use super::geometry::{Hollow, ML_PER_MM3, MM3_PER_ML};
use crate::limits;
use crate::quantity::{Decimal, Exact, Length, Volume};

/// Shortest measure that a mould may have.
pub const LEAST: Length = Length::literal(1, 1);
/// The inside of a mould. Measures are inside measures; anything may taper either way.
///
/// The fields are plain. A shape that [has problems](Self::problems) holds nothing: its depth and its volume are nought.
///
/// ```
/// use lamella::recipe::mould::Shape;
/// let loaf = Shape::TaperedLoaf {
///     length: "24 cm".parse()?,
///     bottom_width: "7.5 cm".parse()?,
///     top_width: "8.5 cm".parse()?,
///     height: "6.5 cm".parse()?,
/// };
/// assert_eq!(loaf.volume().to_string(), "1248 mL");
/// let level = loaf.height_at("624 mL".parse()?).unwrap();
/// assert_eq!(level.to_string(), "33.514635111145 mm");
/// assert_eq!(loaf.height_at("1.3 L".parse()?), None);
/// # Ok::<(), lamella::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case", tag = "kind")]
#[non_exhaustive]
pub enum Shape {
    /// A rectangular box, cut into bars afterwards.
    Loaf {
        /// Length.
        length: Length,
        /// Width.
        width: Length,
        /// Height of the walls.
        height: Length,
    },
    /// A loaf with sloping long sides; the length is the same at every height.
    TaperedLoaf {
        /// Length.
        length: Length,
        /// Width at the bottom.
        bottom_width: Length,
        /// Width at the top.
        top_width: Length,
        /// Height of the walls.
        height: Length,
    },
    /// A flat box with a grid of dividers as high as its walls, which take up room.
    Slab {
        /// Length.
        length: Length,
        /// Width.
        width: Length,
        /// Height of the walls.
        height: Length,
        /// Cells along the length.
        cells_lengthwise: u32,
        /// Cells along the width.
        cells_across: u32,
        /// Thickness of a divider; may be nought.
        divider: Length,
    },
    /// A tube that stands.
    UprightCylinder {
        /// Inside diameter.
        diameter: Length,
        /// Height.
        height: Length,
    },
    /// A tube that lies, filled through a slit on top, at most up to its diameter.
    LyingCylinder {
        /// Inside diameter.
        diameter: Length,
        /// Length.
        length: Length,
    },
    /// Equal cavities in one tray, all filled to the same height.
    Tray {
        /// How many.
        cavities: u32,
        /// One of them.
        cavity: Cavity,
    },
}

/// One cavity of a tray, open at the top.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case", tag = "kind")]
#[non_exhaustive]
pub enum Cavity {
    /// A rectangular box.
    Box {
        /// Length.
        length: Length,
        /// Width.
        width: Length,
        /// Height.
        height: Length,
    },
    /// Between a rectangle at the bottom and one at the top, with plane sides.
    Frustum {
        /// Length at the bottom.
        bottom_length: Length,
        /// Width at the bottom.
        bottom_width: Length,
        /// Length at the top.
        top_length: Length,
        /// Width at the top.
        top_width: Length,
        /// Height.
        height: Length,
    },
    /// Between two circles: a muffin cup, or a cylinder when both are equal.
    Cone {
        /// Diameter at the bottom.
        bottom_diameter: Length,
        /// Diameter at the top.
        top_diameter: Length,
        /// Height.
        height: Length,
    },
    /// A half ball with its flat side up when `height` is the radius; a shallower cap below that, and up to twice the
    /// radius a ball that is filled through its top.
    Bowl {
        /// Radius of the ball.
        radius: Length,
        /// Height.
        height: Length,
    },
}

/// What is wrong with a mould: the field, `cavity/height` for one inside, and what to do.
pub type FieldProblem = (&'static str, String);

impl Shape {
    /// How high the mould can be filled: the height of its walls, or the diameter of a lying cylinder.
    #[must_use]
    pub fn depth(&self) -> Length {
        self.sound().map_or(Length::ZERO, |hollow| length(hollow.depth))
    }

    /// What it holds when full, all cavities together.
    #[must_use]
    pub fn volume(&self) -> Volume {
        self.volume_to(self.depth())
    }

    /// What lies below `height`, all cavities together. A height below the bottom counts as nought, one above the depth
    /// as the depth.
    #[must_use]
    pub fn volume_to(&self, height: Length) -> Volume {
        self.sound().map_or(Volume::ZERO, |hollow| volume_below(&hollow, height))
    }

    /// How high `volume`, shared by all cavities, stands; nothing when it is below nought or more than the mould holds.
    /// The inverse of [`volume_to`](Self::volume_to), to the twelfth decimal of a millimetre wherever the mould is
    /// wider than a needle.
    #[must_use]
    pub fn height_at(&self, volume: Volume) -> Option<Length> {
        level_of(&self.sound()?, volume)
    }

    /// The levels of layers poured one after another, from the bottom; nothing when they overflow.
    ///
    /// ```
    /// use lamella::recipe::mould::Shape;
    /// let tube = Shape::LyingCylinder { diameter: "10 cm".parse()?, length: "25 cm".parse()? };
    /// let levels = tube.levels(&["467.312 mL".parse()?, "801.106 mL".parse()?]).unwrap();
    /// assert_eq!(levels[0].to_string(), "28.765794568097 mm");
    /// assert_eq!(levels[1].to_string(), "61.57093734709 mm");
    /// # Ok::<(), lamella::quantity::QuantityError>(())
    /// ```
    #[must_use]
    pub fn levels(&self, layers: &[Volume]) -> Option<Vec<Length>> {
        let mut below = Volume::ZERO;
        let level = |layer: &Volume| {
            below += *layer;
            self.height_at(below)
        };
        layers.iter().map(level).collect()
    }

    /// Half the width of the cross-section at `height`, for drawing: of a loaf, a slab or a lying cylinder as seen from
    /// its end, of a tray one cavity.
    #[must_use]
    pub fn half_width_at(&self, height: Length) -> Length {
        let width = self.sound().map(|hollow| hollow.width_at(clamp(height, &hollow)) / Exact::from(2));
        width.map_or(Length::ZERO, length)
    }

    /// Area of the free surface at `height`, all cavities together, in square millimetres.
    #[must_use]
    pub fn plan_area_at(&self, height: Length) -> Exact {
        self.sound().map_or(Exact::ZERO, |hollow| hollow.area_at(clamp(height, &hollow)))
    }

    /// Everything that is wrong with the measures, in the order of the fields; empty when the mould can be used.
    #[must_use]
    pub fn problems(&self) -> Vec<FieldProblem> {
        let mut found = self.problems_of_fields();
        if found.is_empty() {
            let hollow = self.hollow();
            let volume = (hollow.volume_to(hollow.depth) * ML_PER_MM3).published();
            if !volume.is_some_and(|volume| limits::RECIPE_VOLUME.holds(volume)) {
                let most = limits::RECIPE_VOLUME.max;
                found.push((
                    "",
                    format!("the mould holds more than {most} mL; check the unit of its measures"),
                ));
            }
        }
        found
    }

    fn problems_of_fields(&self) -> Vec<FieldProblem> {
        let mut found = Vec::new();
        match *self {
            Self::Loaf { length, width, height } => {
                measures(&mut found, &[("length", length), ("width", width), ("height", height)]);
            }
            Self::TaperedLoaf { length, bottom_width, top_width, height } => measures(
                &mut found,
                &[
                    ("length", length),
                    ("bottom_width", bottom_width),
                    ("top_width", top_width),
                    ("height", height),
                ],
            ),
            Self::Slab { length, width, height, cells_lengthwise, cells_across, divider } => {
                measures(&mut found, &[("length", length), ("width", width), ("height", height)]);
                pieces(&mut found, "cells_lengthwise", cells_lengthwise);
                pieces(&mut found, "cells_across", cells_across);
                if divider < Length::ZERO {
                    found.push(("divider", format!("a divider of {divider} is thinner than nothing")));
                }
                for (side, cells) in [(length, cells_lengthwise), (width, cells_across)] {
                    if found.is_empty() && !free(side, cells, divider).is_positive() {
                        found.push((
                            "divider",
                            format!("{cells} cells in {side} leave no room beside dividers of {divider}"),
                        ));
                    }
                }
            }
            Self::UprightCylinder { diameter, height } => {
                measures(&mut found, &[("diameter", diameter), ("height", height)]);
            }
            Self::LyingCylinder { diameter, length } => {
                measures(&mut found, &[("diameter", diameter), ("length", length)]);
            }
            Self::Tray { cavities, cavity } => {
                pieces(&mut found, "cavities", cavities);
                cavity.problems(&mut found);
            }
        }
        found
    }

    /// The hollow, unless something is wrong with it.
    fn sound(&self) -> Option<Hollow> {
        self.problems().is_empty().then(|| self.hollow())
    }

    pub(super) fn hollow(&self) -> Hollow {
        match *self {
            Self::Loaf { length, width, height } => {
                let base = [length.exact(), width.exact()];
                Hollow::frustum(Exact::ONE, base, base, height.exact())
            }
            Self::TaperedLoaf { length, bottom_width, top_width, height } => Hollow::frustum(
                Exact::ONE,
                [length.exact(), bottom_width.exact()],
                [length.exact(), top_width.exact()],
                height.exact(),
            ),
            Self::Slab { length, width, height, cells_lengthwise, cells_across, divider } => {
                let base = [free(length, cells_lengthwise, divider), free(width, cells_across, divider)];
                Hollow::frustum(Exact::ONE, base, base, height.exact())
            }
            Self::UprightCylinder { diameter, height } => {
                Hollow::cone(Exact::ONE, diameter.exact(), diameter.exact(), height.exact())
            }
            Self::LyingCylinder { diameter, length } => Hollow::lying(diameter.exact(), length.exact()),
            Self::Tray { cavities, cavity } => cavity.hollow(cavities),
        }
    }
}

impl Cavity {
    fn problems(&self, found: &mut Vec<FieldProblem>) {
        match *self {
            Self::Box { length, width, height } => measures(
                found,
                &[("cavity/length", length), ("cavity/width", width), ("cavity/height", height)],
            ),
            Self::Frustum { bottom_length, bottom_width, top_length, top_width, height } => measures(
                found,
                &[
                    ("cavity/bottom_length", bottom_length),
                    ("cavity/bottom_width", bottom_width),
                    ("cavity/top_length", top_length),
                    ("cavity/top_width", top_width),
                    ("cavity/height", height),
                ],
            ),
            Self::Cone { bottom_diameter, top_diameter, height } => measures(
                found,
                &[
                    ("cavity/bottom_diameter", bottom_diameter),
                    ("cavity/top_diameter", top_diameter),
                    ("cavity/height", height),
                ],
            ),
            Self::Bowl { radius, height } => {
                measures(found, &[("cavity/radius", radius), ("cavity/height", height)]);
                if height > radius + radius {
                    let text = format!("a ball of radius {radius} is at most {} high", radius + radius);
                    found.push(("cavity/height", text));
                }
            }
        }
    }

    fn hollow(&self, count: u32) -> Hollow {
        let count = Exact::from(i64::from(count));
        match *self {
            Self::Box { length, width, height } => {
                let base = [length.exact(), width.exact()];
                Hollow::frustum(count, base, base, height.exact())
            }
            Self::Frustum { bottom_length, bottom_width, top_length, top_width, height } => Hollow::frustum(
                count,
                [bottom_length.exact(), bottom_width.exact()],
                [top_length.exact(), top_width.exact()],
                height.exact(),
            ),
            Self::Cone { bottom_diameter, top_diameter, height } => {
                Hollow::cone(count, bottom_diameter.exact(), top_diameter.exact(), height.exact())
            }
            Self::Bowl { radius, height } => Hollow::bowl(count, radius.exact(), height.exact()),
        }
    }
}

/// [`Shape::volume_to`] of a sound shape.
pub(super) fn volume_below(hollow: &Hollow, height: Length) -> Volume {
    Volume::try_new(hollow.volume_to(clamp(height, hollow)) * ML_PER_MM3).unwrap_or(Volume::ZERO)
}

/// [`Shape::height_at`] of a sound shape.
pub(super) fn level_of(hollow: &Hollow, volume: Volume) -> Option<Length> {
    let full = Volume::try_new(hollow.volume_to(hollow.depth) * ML_PER_MM3).ok()?;
    if volume < Volume::ZERO || volume > full {
        return None;
    }
    // The brim is the brim, whichever way the full volume was rounded.
    if volume == full {
        return Some(length(hollow.depth));
    }
    Length::try_new(hollow.height_of(volume.exact() * MM3_PER_ML)).ok()
}

/// What dividers leave of a side.
fn free(side: Length, cells: u32, divider: Length) -> Exact {
    side.exact() - divider.exact() * Exact::from(i64::from(cells.saturating_sub(1)))
}

fn length(value: Exact) -> Length {
    Length::try_new(value).unwrap_or(Length::ZERO)
}

fn clamp(height: Length, hollow: &Hollow) -> Exact {
    height.exact().max(Exact::ZERO).min(hollow.depth)
}

fn measures(found: &mut Vec<FieldProblem>, fields: &[(&'static str, Length)]) {
    for (field, value) in fields {
        if *value < LEAST || !limits::RECIPE_LENGTH.holds(value.value()) {
            let words = field.trim_start_matches("cavity/").replace('_', " ");
            let most = limits::RECIPE_LENGTH.max;
            found.push((*field, format!("a {words} of {value} is outside {LEAST} to {most} mm")));
        }
    }
}

pub(super) fn pieces(found: &mut Vec<FieldProblem>, field: &'static str, value: u32) {
    if !limits::RECIPE_COUNT.holds(Decimal::from(value)) {
        found.push((field, format!("{value} is outside {}", limits::RECIPE_COUNT.phrase())));
    }
}
