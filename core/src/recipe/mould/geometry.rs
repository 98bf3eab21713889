//! The mathematics of a mould: volume under a level and level of a volume, in millimetres and decimals alone.
//!
//! Every shape but the lying cylinder has a free surface that is a quadratic of the height, with or without pi, so its
//! volume is a cubic with rational coefficients. The lying cylinder needs a square root and an
//! arc tangent; both run in decimals too, so every figure has the same bytes on every machine.
//!
//! # Source
//! Elementary geometry: prismatoid, circular segment, spherical cap.

use crate::quantity::Exact;

/// Pi to 26 decimals.
///
/// # Source
/// OEIS A000796: 3.141592653589793238462643383279...
pub(super) fn pi() -> Exact {
    Exact::literal(3_141_592_653_589_793_238, 18) + Exact::literal(46_264_338, 26)
}

/// Millilitres in a cubic millimetre.
pub(super) const ML_PER_MM3: Exact = Exact::literal(1, 3);
/// Cubic millimetres in a millilitre.
pub(super) const MM3_PER_ML: Exact = Exact::THOUSAND;
const TWO: Exact = Exact::literal(2, 0);
const FOUR: Exact = Exact::literal(4, 0);
const SIX: Exact = Exact::literal(6, 0);
/// A level counts as found when the next step would move it by less: far below the twelfth decimal.
const SETTLED: Exact = Exact::literal(1, 17);
/// Most steps towards a level. Halving alone needs 77 for ten metres.
const STEPS: u32 = 200;

/// How the cross-section, seen along the mould, widens with the height.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Wall {
    /// Straight walls, from the width of the bottom to that of the top.
    Straight { bottom: Exact, top: Exact },
    /// A circle that stands on its lowest point.
    Arc { radius: Exact },
}

/// How the free surface changes with the height.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Surface {
    /// `factor (a + b t + c t^2)` square millimetres at the share `t` of the depth.
    Quadratic { factor: Exact, a: Exact, b: Exact, c: Exact },
    /// The chord of a circle times the length.
    Chord { radius: Exact, length: Exact },
}

/// The hollow of a mould, all its cavities together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Hollow {
    pub(super) depth: Exact,
    pub(super) surface: Surface,
    pub(super) wall: Wall,
}

impl Hollow {
    /// Between two rectangles, each given as length and width; `factor` times.
    pub(super) fn frustum(factor: Exact, bottom: [Exact; 2], top: [Exact; 2], depth: Exact) -> Self {
        let ([length, width], [top_length, top_width]) = (bottom, top);
        let (longer, wider) = (top_length - length, top_width - width);
        let surface = Surface::Quadratic {
            factor,
            a: length * width,
            b: length * wider + width * longer,
            c: longer * wider,
        };
        Self { depth, surface, wall: Wall::Straight { bottom: width, top: top_width } }
    }

    /// Between two circles, each given by its diameter; `count` times.
    pub(super) fn cone(count: Exact, bottom: Exact, top: Exact, depth: Exact) -> Self {
        Self::frustum(count * pi() / FOUR, [bottom, bottom], [top, top], depth)
    }

    /// A ball of `radius` cut off at `depth` above its lowest point; `count` times.
    pub(super) fn bowl(count: Exact, radius: Exact, depth: Exact) -> Self {
        let surface = Surface::Quadratic {
            factor: count * pi(),
            a: Exact::ZERO,
            b: TWO * radius * depth,
            c: -(depth * depth),
        };
        Self { depth, surface, wall: Wall::Arc { radius } }
    }

    /// A cylinder on its side.
    pub(super) fn lying(diameter: Exact, length: Exact) -> Self {
        let radius = diameter / TWO;
        Self { depth: diameter, surface: Surface::Chord { radius, length }, wall: Wall::Arc { radius } }
    }

    /// Cubic millimetres below `height`, which lies from nought to the depth.
    pub(super) fn volume_to(&self, height: Exact) -> Exact {
        match self.surface {
            Surface::Quadratic { factor, a, b, c } => {
                if b.is_zero() && c.is_zero() {
                    return factor * height * a;
                }
                // factor (a h + b h^2 / 2D + c h^3 / 3D^2)
                let level = height / self.depth;
                factor * height * (a.times(6) + level * (b.times(3) + level * c.times(2))) / SIX
            }
            Surface::Chord { radius, length } => length * segment(radius, height),
        }
    }

    /// Square millimetres of the free surface at `height`.
    pub(super) fn area_at(&self, height: Exact) -> Exact {
        match self.surface {
            Surface::Quadratic { factor, a, b, c } => {
                let level = height / self.depth;
                factor * (a + level * (b + level * c))
            }
            Surface::Chord { radius, length } => length * chord(radius, height),
        }
    }

    /// Width of the cross-section at `height`.
    pub(super) fn width_at(&self, height: Exact) -> Exact {
        match self.wall {
            Wall::Straight { bottom, top } => bottom + (top - bottom).portion(height, self.depth),
            Wall::Arc { radius } => chord(radius, height),
        }
    }

    /// The level at which `volume` cubic millimetres stand; the depth when they fill the hollow or overflow it. Newton's
    /// step where it stays between the bounds, else halving.
    pub(super) fn height_of(&self, volume: Exact) -> Exact {
        if volume.is_zero() {
            return volume;
        }
        let full = self.volume_to(self.depth);
        if !(full - volume).is_positive() {
            return self.depth;
        }
        let (mut low, mut high) = (Exact::ZERO, self.depth);
        let mut height = self.depth.portion(volume, full);
        if let Surface::Quadratic { b, c, .. } = self.surface
            && b.is_zero()
            && c.is_zero()
        {
            return height;
        }
        for _ in 0..STEPS {
            let excess = self.volume_to(height) - volume;
            if excess.is_positive() {
                high = height;
            } else {
                low = height;
            }
            let newton = height - excess / self.area_at(height);
            if size(newton - height).is_some_and(|moved| !(moved - SETTLED).is_positive()) {
                return newton.max(Exact::ZERO).min(self.depth);
            }
            let inside = (newton - low).is_positive() && (high - newton).is_positive();
            height = if inside { newton } else { (low + high) / TWO };
        }
        height
    }
}

/// The absolute value; nothing when poisoned.
fn size(value: Exact) -> Option<Exact> {
    value.decimal()?;
    Some(value.max(-value))
}

/// Width of a circle at `height` above its lowest point.
fn chord(radius: Exact, height: Exact) -> Exact {
    TWO * square_root(height * (TWO * radius - height))
}

/// Area of a circle below `height`: `R^2 angle - (R - h) chord / 2`, where `angle` is half of that under the chord and
/// its tangent's half is `sqrt(h / (2R - h))`.
fn segment(radius: Exact, height: Exact) -> Exact {
    let above = TWO * radius - height;
    if (height - radius).is_positive() {
        return pi() * radius * radius - segment(radius, above.max(Exact::ZERO));
    }
    let angle = TWO * arc_tangent(square_root(height / above));
    radius * radius * angle - (radius - height) * square_root(height * above)
}

/// Square root to all the digits there are; nought of a number that is not above nought. A correctly rounded double is
/// the start, and each of Newton's steps doubles its sixteen digits.
pub(crate) fn square_root(value: Exact) -> Exact {
    if !value.is_positive() {
        // Poison must stay poison.
        return value.max(Exact::ZERO);
    }
    let mut root = Exact::from_approximate(value.approximate().sqrt(), 26);
    for _ in 0..3 {
        root = (root + value / root) / TWO;
    }
    root
}

/// Arc tangent of a number from nought to one, by three halvings of the angle and the power series, whose terms then
/// shrink a hundredfold each.
fn arc_tangent(tangent: Exact) -> Exact {
    let mut x = tangent;
    for _ in 0..3 {
        x = x / (Exact::ONE + square_root(Exact::ONE + x * x));
    }
    let square = x * x;
    let mut power = x;
    let mut sum = Exact::ZERO;
    for odd in (1_i64..32).step_by(2) {
        sum = sum + power / Exact::from(odd);
        power = -(power * square);
    }
    Exact::from(8) * sum
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(a: Exact, b: Exact, decimals: u32) {
        assert_eq!((a - b).rounded(decimals), Exact::ZERO.decimal(), "{a:?} and {b:?}");
    }

    #[test]
    fn pi_has_26_decimals() {
        assert_eq!(pi().decimal().unwrap().to_string(), "3.14159265358979323846264338");
    }

    #[test]
    fn roots() {
        for value in [0, 1, 2, 4, 99, 1_000_000, 123_456_789_012] {
            let root = square_root(Exact::from(value));
            close(root * root, Exact::from(value), 14);
        }
        let small = square_root(Exact::literal(1, 18));
        close(small, Exact::literal(1, 9), 24);
        assert!(square_root(Exact::ONE / Exact::ZERO).decimal().is_none());
        assert_eq!(square_root(Exact::from(-1)), Exact::ZERO);
    }

    #[test]
    fn the_arc_tangent_of_one_is_a_quarter_of_pi() {
        close(FOUR * arc_tangent(Exact::ONE), pi(), 23);
        // tan 30 degrees
        close(SIX * arc_tangent(Exact::ONE / square_root(Exact::from(3))), pi(), 23);
    }

    #[test]
    fn half_and_whole_circle() {
        let radius = Exact::from(50);
        close(segment(radius, radius), pi() * radius * radius / TWO, 20);
        close(segment(radius, TWO * radius), pi() * radius * radius, 20);
        assert!(segment(radius, Exact::ZERO).is_zero());
        // A quarter: sqrt(h / (2R - h)) is tan 30 degrees at h = R/2; area R^2 (pi/3 - sqrt(3)/4).
        let expected = radius * radius * (pi() / Exact::from(3) - square_root(Exact::from(3)) / FOUR);
        close(segment(radius, radius / TWO), expected, 20);
    }
}
