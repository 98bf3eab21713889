//! Moulds: their shapes, and how many of them are filled how high.
//!
//! In: measures. Out: the volume below a height, the height of a volume, the levels of layers. Depends on `quantity` and
//! `limits`.

mod geometry;
mod shape;

use serde::Serialize;

use self::geometry::Hollow;
use crate::limits;
use crate::quantity::{Exact, Length, Volume};

pub(crate) use geometry::square_root;
pub use shape::{Cavity, FieldProblem, LEAST, Shape};

/// Moulds of one kind, filled to one height.
///
/// Invariant: the shape has no problems, the count is at least one, the fill is above nought and at most the depth.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Mould {
    name: String,
    shape: Shape,
    count: u32,
    fill: Length,
    /// The inside of one of them, worked out once.
    #[serde(skip)]
    hollow: Hollow,
}

impl Mould {
    /// `count` moulds, each filled to `fill`, or to the brim where that is not said.
    ///
    /// # Errors
    /// Everything that is wrong: what [`Shape::problems`] finds, then `count` and `fill`.
    pub fn try_new(
        name: impl Into<String>,
        shape: Shape,
        count: u32,
        fill: Option<Length>,
    ) -> Result<Self, Vec<FieldProblem>> {
        let mut found = shape.problems();
        shape::pieces(&mut found, "count", count);
        let depth = shape.depth();
        let fill = fill.unwrap_or(depth);
        if found.is_empty() && (fill <= Length::ZERO || fill > depth) {
            found.push(("fill", format!("a fill of {fill} is not between 0 mm and the depth of {depth}")));
        }
        let whole = shape.volume_to(fill).exact() * Exact::from(i64::from(count));
        if found.is_empty() && !whole.decimal().is_some_and(|volume| limits::RECIPE_VOLUME.holds(volume)) {
            found.push(("count", format!("{count} moulds hold more than {} mL", limits::RECIPE_VOLUME.max)));
        }
        if found.is_empty() {
            Ok(Self { name: name.into(), hollow: shape.hollow(), shape, count, fill })
        } else {
            Err(found)
        }
    }

    /// What the maker calls it.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The inside of one of them.
    #[must_use]
    pub const fn shape(&self) -> &Shape {
        &self.shape
    }

    /// How many.
    #[must_use]
    pub const fn count(&self) -> u32 {
        self.count
    }

    /// How high each may be filled.
    #[must_use]
    pub const fn fill(&self) -> Length {
        self.fill
    }

    /// What all of them take up to the fill.
    #[must_use]
    pub fn capacity(&self) -> Volume {
        self.volume_to(self.fill)
    }

    /// What lies below `height` in all of them; the fill does not bound it.
    #[must_use]
    pub fn volume_to(&self, height: Length) -> Volume {
        let whole = shape::volume_below(&self.hollow, height).exact().times(i64::from(self.count));
        Volume::try_new(whole).unwrap_or(Volume::ZERO)
    }

    /// How high `volume`, shared by all of them, stands; nothing when it is below nought or above the
    /// [`capacity`](Self::capacity).
    #[must_use]
    pub fn height_at(&self, volume: Volume) -> Option<Length> {
        let capacity = self.capacity();
        if volume >= capacity {
            return (volume == capacity).then_some(self.fill);
        }
        let each = Volume::try_new(volume.exact() / Exact::from(i64::from(self.count))).ok()?;
        shape::level_of(&self.hollow, each).map(|height| height.min(self.fill))
    }

    /// How high `volume` stands in one of them, up to its brim.
    pub(crate) fn level_of(&self, volume: Volume) -> Option<Length> {
        shape::level_of(&self.hollow, volume)
    }

    /// The levels of layers poured one after another, from the bottom; nothing when they overflow.
    #[must_use]
    pub fn levels(&self, layers: &[Volume]) -> Option<Vec<Length>> {
        let mut below = Volume::ZERO;
        let level = |layer: &Volume| {
            below += *layer;
            self.height_at(below)
        };
        layers.iter().map(level).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(text: &str) -> Length {
        format!("{text} mm").parse().unwrap()
    }

    /// One of every shape and cavity, tapering both ways.
    fn shapes() -> Vec<Shape> {
        let tray = |cavities, cavity| Shape::Tray { cavities, cavity };
        let tapered = |bottom: &str, top: &str| Shape::TaperedLoaf {
            length: mm("240"),
            bottom_width: mm(bottom),
            top_width: mm(top),
            height: mm("65"),
        };
        let frustum = |bottom: [&str; 2], top: [&str; 2]| Cavity::Frustum {
            bottom_length: mm(bottom[0]),
            bottom_width: mm(bottom[1]),
            top_length: mm(top[0]),
            top_width: mm(top[1]),
            height: mm("31.7"),
        };
        let cone = |bottom: &str, top: &str| Cavity::Cone {
            bottom_diameter: mm(bottom),
            top_diameter: mm(top),
            height: mm("40"),
        };
        let bowl = |height: &str| Cavity::Bowl { radius: mm("35"), height: mm(height) };
        vec![
            Shape::Loaf { length: mm("406.4"), width: mm("88.9"), height: mm("63.5") },
            tapered("75", "85"),
            tapered("90", "80"),
            Shape::Slab {
                length: mm("300"),
                width: mm("200"),
                height: mm("30"),
                cells_lengthwise: 4,
                cells_across: 3,
                divider: mm("1.5"),
            },
            Shape::UprightCylinder { diameter: mm("76.2"), height: mm("200") },
            Shape::LyingCylinder { diameter: mm("100"), length: mm("250") },
            Shape::LyingCylinder { diameter: mm("63.37"), length: mm("311.1") },
            tray(6, Cavity::Box { length: mm("80"), width: mm("55"), height: mm("25") }),
            tray(8, frustum(["70", "50"], ["80", "57"])),
            tray(8, frustum(["70", "50"], ["64", "57"])),
            tray(1, frustum(["80", "57"], ["70", "50"])),
            tray(12, cone("50", "70")),
            tray(12, cone("70", "50")),
            tray(1, cone("0.1", "90")),
            tray(6, bowl("35")),
            tray(6, bowl("12.5")),
            tray(6, bowl("70")),
        ]
    }

    fn at(shape: &Shape, hundredths: i64) -> Length {
        Length::try_new(shape.depth().exact() * Exact::from(hundredths) / Exact::HUNDRED).unwrap()
    }

    #[test]
    fn a_level_comes_back_from_its_volume() {
        for shape in shapes() {
            assert!(shape.problems().is_empty(), "{shape:?}");
            for hundredths in 0..=100 {
                let height = at(&shape, hundredths);
                let back = shape.height_at(shape.volume_to(height)).unwrap();
                let off = (back - height).value().abs();
                assert!(off <= Length::literal(1, 9).value(), "{shape:?} at {height}: {back}");
            }
        }
    }

    #[test]
    fn a_volume_comes_back_from_its_level() {
        for shape in shapes() {
            let full = shape.volume();
            for thousandths in 0..=1000 {
                let volume = Volume::try_new(full.exact() * Exact::literal(thousandths, 3)).unwrap();
                let back = shape.volume_to(shape.height_at(volume).unwrap());
                let off = (back - volume).value().abs();
                assert!(off <= Volume::literal(1, 9).value(), "{shape:?}: {volume} {back}");
            }
        }
    }

    #[test]
    fn volume_rises_with_height_and_the_surface_is_its_slope() {
        for shape in shapes() {
            for hundredths in 0..100 {
                let (low, high) = (at(&shape, hundredths), at(&shape, hundredths + 1));
                let (below, above) = (shape.volume_to(low), shape.volume_to(high));
                assert!(below < above, "{shape:?}");
                // Simpson's rule over the surface is exact where the surface is a quadratic.
                let middle = Length::try_new((low + high).exact() / Exact::from(2)).unwrap();
                let areas = shape.plan_area_at(low)
                    + Exact::from(4) * shape.plan_area_at(middle)
                    + shape.plan_area_at(high);
                let simpson = areas * (high - low).exact() / Exact::from(6) / Exact::THOUSAND;
                let tolerance = if matches!(shape, Shape::LyingCylinder { .. }) {
                    Exact::literal(2, 1)
                } else {
                    Exact::literal(1, 8)
                };
                let off = (above - below).exact() - simpson;
                assert!(!(off.max(-off) - tolerance).is_positive(), "{shape:?} at {low}: {off:?}");
            }
        }
    }

    #[test]
    fn levels_add_up() {
        for shape in shapes() {
            let third = Volume::try_new(shape.volume().exact() / Exact::from(3)).unwrap();
            let levels = shape.levels(&[third, third]).unwrap();
            let both = shape.height_at(third + third).unwrap();
            assert_eq!(levels, [shape.height_at(third).unwrap(), both]);
            assert_eq!(shape.levels(&[third, third, third + Volume::literal(1, 0)]), None);
        }
    }

    #[test]
    fn three_moulds_hold_threefold() {
        for shape in shapes() {
            let mould = Mould::try_new("m", shape, 3, None).unwrap();
            assert_eq!(mould.capacity(), shape.volume() + shape.volume() + shape.volume());
            assert_eq!(mould.height_at(mould.capacity()), Some(shape.depth()));
            let half = at(&shape, 50);
            let low = Mould::try_new("m", shape, 3, Some(half)).unwrap();
            let level = low.height_at(low.capacity()).unwrap();
            assert!((level - half).value().abs() <= Length::literal(1, 9).value());
            assert_eq!(low.height_at(low.capacity() + Volume::literal(1, 12)), None);
        }
    }

    #[test]
    fn the_ends() {
        for shape in shapes() {
            assert_eq!(shape.volume_to(Length::ZERO), Volume::ZERO);
            assert_eq!(shape.volume_to(mm("-1")), Volume::ZERO);
            assert_eq!(shape.volume_to(shape.depth() + mm("1")), shape.volume());
            assert_eq!(shape.height_at(Volume::ZERO), Some(Length::ZERO));
            assert_eq!(shape.height_at(shape.volume()), Some(shape.depth()));
            assert_eq!(shape.height_at(shape.volume() + Volume::literal(1, 12)), None);
            assert_eq!(shape.height_at(Volume::literal(-1, 12)), None);
        }
    }

    /// Figures worked out apart, by quadrature and bisection in 40-digit arithmetic: every decimal kept must agree.
    #[test]
    fn to_the_last_decimal() {
        let shapes = shapes();
        let volume = |index: usize, height: &str| shapes[index].volume_to(mm(height)).to_string();
        assert_eq!(volume(6, "63.2"), "980.96821208019 mL");
        assert_eq!(volume(6, "0.013"), "0.004894055612 mL");
        assert_eq!(volume(9, "12.3456"), "349.121167547491 mL");
        assert_eq!(volume(13, "12.3456"), "2.51531162912 mL");
        assert_eq!(volume(14, "13"), "97.690965156028 mL");
        let level = shapes[14].height_at("12.345678 mL".parse().unwrap()).unwrap();
        assert_eq!(level.to_string(), "4.419890254607 mm");
    }

    #[test]
    fn half_widths() {
        let half = |index: usize, height: &str| shapes()[index].half_width_at(mm(height)).to_string();
        assert_eq!(half(0, "10"), "44.45 mm");
        assert_eq!(half(1, "0"), "37.5 mm");
        assert_eq!(half(1, "32.5"), "40 mm");
        assert_eq!(half(3, "1"), "98.5 mm");
        assert_eq!(half(4, "1"), "38.1 mm");
        assert_eq!(half(5, "50"), "50 mm");
        assert_eq!(half(5, "10"), "30 mm");
        assert_eq!(half(5, "90"), "30 mm");
        assert_eq!(half(11, "20"), "30 mm");
        assert_eq!(half(14, "7"), "21 mm");
    }

    #[test]
    fn what_is_wrong_is_said_field_by_field() {
        let fields = |shape: Shape| -> Vec<&str> {
            assert_eq!((shape.volume(), shape.depth()), (Volume::ZERO, Length::ZERO));
            assert_eq!(shape.height_at(Volume::ZERO), None);
            assert_eq!(shape.half_width_at(mm("1")), Length::ZERO);
            shape.problems().into_iter().map(|(field, _)| field).collect()
        };
        let loaf = |length: &str, width: &str| Shape::Loaf {
            length: mm(length),
            width: mm(width),
            height: mm("60"),
        };
        assert_eq!(fields(loaf("0", "-3")), ["length", "width"]);
        assert_eq!(fields(loaf("10001", "80")), ["length"]);
        assert_eq!(fields(loaf("10000", "10000")), [""]);
        let slab = |cells_across, divider: &str| Shape::Slab {
            length: mm("300"),
            width: mm("200"),
            height: mm("30"),
            cells_lengthwise: 1,
            cells_across,
            divider: mm(divider),
        };
        assert_eq!(fields(slab(0, "1")), ["cells_across"]);
        assert_eq!(fields(slab(3, "100")), ["divider"]);
        assert_eq!(fields(slab(3, "-1")), ["divider"]);
        let bowl = Cavity::Bowl { radius: mm("30"), height: mm("60.1") };
        assert_eq!(fields(Shape::Tray { cavities: 0, cavity: bowl }), ["cavities", "cavity/height"]);
        let extreme = Length::literal(1_000_000, 0);
        let huge = Cavity::Bowl { radius: extreme, height: Length::literal(-1_000_000, 0) };
        assert_eq!(
            fields(Shape::Tray { cavities: u32::MAX, cavity: huge }),
            ["cavities", "cavity/radius", "cavity/height"]
        );
        let good = Shape::Loaf { length: mm("240"), width: mm("80"), height: mm("60") };
        let found = Mould::try_new("m", good, 0, Some(mm("61"))).unwrap_err();
        assert_eq!(found.len(), 1, "{found:?}");
        let found = Mould::try_new("m", good, 1, Some(mm("61"))).unwrap_err();
        assert_eq!(
            found,
            [("fill", "a fill of 61 mm is not between 0 mm and the depth of 60 mm".to_owned())]
        );
        assert_eq!(Mould::try_new("m", good, 10_000, None).unwrap_err()[0].0, "count");
    }

    #[test]
    fn json() {
        let tray = Shape::Tray { cavities: 6, cavity: Cavity::Bowl { radius: mm("35"), height: mm("35") } };
        let mould = Mould::try_new("domes", tray, 2, None).unwrap();
        assert_eq!(
            serde_json::to_string(&mould).unwrap(),
            r#"{"name":"domes","shape":{"kind":"tray","cavities":6,"cavity":{"kind":"bowl","radius":"35 mm","height":"35 mm"}},"count":2,"fill":"35 mm"}"#
        );
    }
}
