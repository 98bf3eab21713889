//! The fit: least squares by the method of Levenberg and Marquardt.

use std::fmt;

use super::student::quantile;

/// One weighing as the fit sees it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// Age in days (any unit of time will do; the rate is then per that unit).
    pub age: f64,
    /// Mass, g.
    pub mass: f64,
    /// Standard uncertainty of the mass beside those of the other weighings, g; 1 for all where nothing is known.
    pub uncertainty: f64,
}

/// Why no curve can be fitted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum NoFit {
    /// There are fewer than four different ages: three figures are sought, and one more weighing is to judge them by.
    TooFew,
    /// The mass does not fall.
    NoLoss,
    /// The mass falls along a straight line, so that nothing can be said of where it will end.
    NoEnd,
}

impl fmt::Display for NoFit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::TooFew => "weighings of four different days are needed to fit a curve",
            Self::NoLoss => "the mass does not fall, so there is no drying to fit",
            Self::NoEnd => "the mass still falls along a straight line: where it will end cannot be told yet",
        })
    }
}

/// A curve fitted to weighings: `m(t) = equilibrium + (initial - equilibrium) exp(-rate t)`.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    /// Mass that the bar dries to, g.
    pub equilibrium: f64,
    /// Mass at age nought, g.
    pub initial: f64,
    /// Share of what is still to be lost that is lost in a day, 1/d.
    pub rate: f64,
    /// Covariance of the three, in this order: that of the curve's own scatter.
    pub covariance: [[f64; 3]; 3],
    /// Standard deviation of a weighing of uncertainty 1 about the curve.
    pub residual: f64,
    /// Sum of the squared deviations, each over its uncertainty.
    pub squares: f64,
    /// Weighings beyond the three that the curve itself takes.
    pub freedom: u32,
    /// Uncertainty of the last weighing, relative to the others.
    last: f64,
}

/// What a fit says of an age.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Prediction {
    /// Mass on the curve, g.
    pub mass: f64,
    /// Its standard error, g.
    pub error: f64,
    /// The mean lies between these with 95 % confidence, g.
    pub mean: (f64, f64),
    /// A weighing like the last lies between these with 95 % confidence, g.
    pub weighing: (f64, f64),
}

/// Starting values of the rate that are tried, between these over the span of the ages.
const STARTS: u32 = 64;
const SLOWEST: f64 = 0.02;
const FASTEST: f64 = 400.0;

/// Three figures and one more to judge them by.
const LEAST_AGES: usize = 4;

impl Fit {
    /// Fits the curve. The rate is sought from many starting values, for each of which the rest is a straight line; from
    /// the best on all three figures move together until the last digit stands still. The same points give the same
    /// digits on every machine.
    ///
    /// ```
    /// use lamella::cure::{Fit, Point};
    /// let weighed = [(0.0, 120.0), (7.0, 114.0), (14.0, 109.9), (28.0, 104.9), (42.0, 102.4)];
    /// let points = weighed.map(|(age, mass)| Point { age, mass, uncertainty: 1.0 });
    /// let fit = Fit::of(&points).unwrap();
    /// assert!((fit.equilibrium - 100.0).abs() < 0.5);
    /// assert!((fit.at(42.0).mass - 102.4).abs() < 0.1);
    /// ```
    ///
    /// # Errors
    /// When the weighings do not make a curve; see [`NoFit`].
    pub fn of(points: &[Point]) -> Result<Self, NoFit> {
        let mut ages: Vec<f64> = points.iter().map(|point| point.age).collect();
        ages.sort_by(f64::total_cmp);
        ages.dedup();
        let (Some(first), Some(last)) = (ages.first(), ages.last()) else { return Err(NoFit::TooFew) };
        if ages.len() < LEAST_AGES {
            return Err(NoFit::TooFew);
        }
        let start = start(points, *first, last - first)?;
        let [equilibrium, initial, rate] = refine(points, start);
        if initial <= equilibrium {
            return Err(NoFit::NoLoss);
        }
        let sound = equilibrium.is_finite() && initial.is_finite() && equilibrium > 0.0;
        let bent = rate * (last - first) > SLOWEST;
        if !sound || !bent {
            return Err(NoFit::NoEnd);
        }
        let squares = sum_of_squares(points, [equilibrium, initial, rate]);
        let freedom = u32::try_from(points.len().saturating_sub(3)).unwrap_or(u32::MAX);
        let variance = squares / f64::from(freedom);
        let inverse = invert(normal(points, [equilibrium, initial, rate]).0).ok_or(NoFit::NoEnd)?;
        Ok(Self {
            equilibrium,
            initial,
            rate,
            covariance: inverse.map(|row| row.map(|value| value * variance)),
            residual: variance.sqrt(),
            squares,
            freedom,
            last: points.last().map_or(1.0, |point| point.uncertainty),
        })
    }

    /// Standard errors of equilibrium, initial mass and rate.
    #[must_use]
    pub fn errors(&self) -> [f64; 3] {
        let [[a, _, _], [_, b, _], [_, _, c]] = self.covariance;
        [a.sqrt(), b.sqrt(), c.sqrt()]
    }

    /// Days in which half of what is to be lost is lost.
    #[must_use]
    pub fn half_time(&self) -> f64 {
        self.time_to(0.5)
    }

    /// Days in which a share of what is to be lost is lost; `share` from nought to below 1.
    #[must_use]
    pub fn time_to(&self, share: f64) -> f64 {
        -libm::log(1.0 - share) / self.rate
    }

    /// The mass at an age, with its intervals.
    #[must_use]
    pub fn at(&self, age: f64) -> Prediction {
        let (mass, error) = self.mean(age);
        let weighing = libm::hypot(error, self.residual * self.last);
        let factor = quantile(0.95, self.freedom);
        let around = |error: f64| (mass - factor * error, mass + factor * error);
        Prediction { mass, error, mean: around(error), weighing: around(weighing) }
    }

    /// The mass at an age, and its standard error.
    pub(super) fn mean(&self, age: f64) -> (f64, f64) {
        let parameters = [self.equilibrium, self.initial, self.rate];
        let mass = super::first_order(self.initial, self.equilibrium, self.rate, age);
        (mass, quadratic(&self.covariance, slopes(parameters, age)).max(0.0).sqrt())
    }

    /// Days after which less than `share` of the mass is lost in a week, with its 95 % interval; nought when that is so
    /// from the first day on. The interval is that of the tangent (propagation of the covariance), cut at nought.
    #[must_use]
    pub fn settled(&self, share: f64) -> (f64, (f64, f64)) {
        let of = |[equilibrium, initial, rate]: [f64; 3]| super::settled(initial, equilibrium, rate, share);
        let here = [self.equilibrium, self.initial, self.rate];
        let age = of(here);
        let [a, b, c] = here;
        let step = 1e-6;
        let slope = |up: [f64; 3], down: [f64; 3], width: f64| (of(up) - of(down)) / (2.0 * width);
        let gradient = [
            slope([a * (1.0 + step), b, c], [a * (1.0 - step), b, c], a * step),
            slope([a, b * (1.0 + step), c], [a, b * (1.0 - step), c], b * step),
            slope([a, b, c * (1.0 + step)], [a, b, c * (1.0 - step)], c * step),
        ];
        let half = quantile(0.95, self.freedom) * quadratic(&self.covariance, gradient).max(0.0).sqrt();
        (age, ((age - half).max(0.0), age + half))
    }
}

/// How the mass at an age moves with equilibrium, initial mass and rate.
fn slopes([equilibrium, initial, rate]: [f64; 3], age: f64) -> [f64; 3] {
    let left = libm::exp(-rate * age);
    [1.0 - left, left, -(initial - equilibrium) * age * left]
}

fn quadratic(matrix: &[[f64; 3]; 3], [x, y, z]: [f64; 3]) -> f64 {
    let [a, b, c] = matrix.map(|[p, q, r]| p * x + q * y + r * z);
    a * x + b * y + c * z
}

fn residual([equilibrium, initial, rate]: [f64; 3], point: &Point) -> f64 {
    (point.mass - super::first_order(initial, equilibrium, rate, point.age)) / point.uncertainty
}

fn sum_of_squares(points: &[Point], parameters: [f64; 3]) -> f64 {
    points.iter().map(|point| residual(parameters, point)).map(|value| value * value).sum()
}

/// A straight line `mass = level + slope x` through points with weights: level, slope, sum of squares.
pub(super) fn line(points: &[Point], x: impl Fn(&Point) -> f64) -> (f64, f64, f64) {
    let weight = |point: &Point| 1.0 / (point.uncertainty * point.uncertainty);
    let mean = |value: &dyn Fn(&Point) -> f64| {
        let whole: f64 = points.iter().map(weight).sum();
        points.iter().map(|point| weight(point) * value(point)).sum::<f64>() / whole
    };
    let (middle, height) = (mean(&x), mean(&|point| point.mass));
    let spread = mean(&|point| (x(point) - middle) * (x(point) - middle));
    let slope = mean(&|point| (x(point) - middle) * (point.mass - height)) / spread;
    let level = height - slope * middle;
    let squares = points.iter().map(|point| (point.mass - level - slope * x(point)) / point.uncertainty);
    (level, slope, squares.map(|value| value * value).sum())
}

/// Rates to begin from, over a span of time.
pub(super) fn rates(span: f64) -> impl Iterator<Item = f64> {
    let steps = f64::from(STARTS.saturating_sub(1));
    let ratio = libm::log(FASTEST / SLOWEST) / steps;
    (0..STARTS).map(move |step| SLOWEST * libm::exp(ratio * f64::from(step)) / span)
}

/// The best of the rates to begin from, with the straight line that belongs to it.
fn start(points: &[Point], first: f64, span: f64) -> Result<[f64; 3], NoFit> {
    let mut best: Option<(f64, [f64; 3])> = None;
    for rate in rates(span) {
        let (level, slope, squares) = line(points, |point| libm::exp(-rate * (point.age - first)));
        if squares.is_finite() && best.is_none_or(|(least, _)| squares < least) {
            best = Some((squares, [level, level + slope * libm::exp(rate * first), rate]));
        }
    }
    let (_, parameters) = best.ok_or(NoFit::NoLoss)?;
    let [equilibrium, initial, _] = parameters;
    if initial > equilibrium { Ok(parameters) } else { Err(NoFit::NoLoss) }
}

/// `J'WJ` and `J'Wr`.
fn normal(points: &[Point], parameters: [f64; 3]) -> ([[f64; 3]; 3], [f64; 3]) {
    let mut matrix = [[0.0; 3]; 3];
    let mut vector = [0.0; 3];
    for point in points {
        let deviation = residual(parameters, point);
        let row = slopes(parameters, point.age).map(|slope| slope / point.uncertainty);
        for ((line, target), left) in matrix.iter_mut().zip(&mut vector).zip(row) {
            *target += left * deviation;
            for (cell, right) in line.iter_mut().zip(row) {
                *cell += left * right;
            }
        }
    }
    (matrix, vector)
}

/// The inverse of a symmetric matrix, scaled to a unit diagonal first; nothing when it has none.
fn invert(matrix: [[f64; 3]; 3]) -> Option<[[f64; 3]; 3]> {
    let [[a, _, _], [_, b, _], [_, _, c]] = matrix;
    let scale = [a.sqrt(), b.sqrt(), c.sqrt()];
    let scaled = rescale(matrix, scale);
    let [[a, b, c], [d, e, f], [g, h, i]] = scaled;
    let determinant = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
    if determinant.is_nan() || determinant.abs() <= 1e-15 {
        return None;
    }
    let adjugate = [
        [e * i - f * h, c * h - b * i, b * f - c * e],
        [f * g - d * i, a * i - c * g, c * d - a * f],
        [d * h - e * g, b * g - a * h, a * e - b * d],
    ];
    Some(rescale(adjugate.map(|row| row.map(|value| value / determinant)), scale))
}

/// Each cell over the scales of its row and its column.
fn rescale(matrix: [[f64; 3]; 3], scale: [f64; 3]) -> [[f64; 3]; 3] {
    let [p, q, r] = scale;
    let [first, second, third] = matrix;
    let row = |[a, b, c]: [f64; 3], by: f64| [a / (by * p), b / (by * q), c / (by * r)];
    [row(first, p), row(second, q), row(third, r)]
}

/// Steps of the fit; far more than it takes.
const MOST_STEPS: u32 = 500;

/// Levenberg and Marquardt: steps between that of Gauss and Newton and a short one downhill, as long as the squares
/// fall; then, where rounding hides whether they do, steps of Gauss and Newton alone.
fn refine(points: &[Point], start: [f64; 3]) -> [f64; 3] {
    let mut here = start;
    let mut squares = sum_of_squares(points, here);
    let mut damping = 1e-3;
    for _ in 0..MOST_STEPS {
        let Some(there) = step(points, here, damping) else { break };
        let next = sum_of_squares(points, there);
        if next < squares {
            let small = (squares - next) <= 1e-14 * squares;
            (here, squares, damping) = (there, next, damping * 0.1);
            if small {
                break;
            }
        } else {
            damping *= 10.0;
            if damping > 1e12 {
                break;
            }
        }
    }
    for _ in 0..20 {
        match step(points, here, 0.0) {
            Some(there) if sum_of_squares(points, there) <= squares * (1.0 + 1e-9) => here = there,
            _ => break,
        }
    }
    here
}

fn step(points: &[Point], here: [f64; 3], damping: f64) -> Option<[f64; 3]> {
    let (mut matrix, [u, v, w]) = normal(points, here);
    for (index, row) in matrix.iter_mut().enumerate() {
        if let Some(cell) = row.get_mut(index) {
            *cell *= 1.0 + damping;
        }
    }
    let [da, db, dc] = invert(matrix)?.map(|[a, b, c]| a * u + b * v + c * w);
    let [a, b, c] = here;
    let there = [a + da, b + db, c + dc];
    let sound = there.iter().all(|value| value.is_finite()) && c + dc > 0.0;
    sound.then_some(there)
}
