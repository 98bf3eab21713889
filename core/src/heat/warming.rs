//! How warm the layers are over time, read off the moments of runs.
#![expect(clippy::float_arithmetic, reason = "reads an approximate model")]

use super::course::Course;
use super::grid::count;
use super::picture::colour;
use crate::quantity::Temperature;

/// Most even steps that a forecast is cut into.
const STEPS: f64 = 96.0;
/// They are whole multiples of so many seconds: a clock is read to five minutes.
const EVEN: f64 = 300.0;

/// Mean temperatures of the layers of one run: for each its times, seconds, and °C at them, the first as it is poured.
pub(super) struct Warming(Vec<Vec<(f64, f64)>>);

impl Warming {
    pub(super) fn of(course: &Course) -> Self {
        let layers = course.scenario().layers.iter().enumerate().map(|(index, layer)| {
            let after = course.moments.iter().filter(|moment| moment.time > layer.at);
            let means = after.filter_map(|moment| Some((moment.time, *moment.warmth.get(index)?)));
            std::iter::once((layer.at, layer.temperature)).chain(means).collect()
        });
        Self(layers.collect())
    }

    /// The mean temperature of a layer, °C, linear between moments; nothing before its pour.
    pub(super) fn at(&self, layer: usize, time: f64) -> Option<f64> {
        let points = self.0.get(layer)?;
        let poured = points.first().is_some_and(|point| point.0 <= time);
        poured.then(|| super::between(points, time))
    }
}

/// Times to look at, whole minutes in seconds: every pour, the hottest moment, and even steps from the first pour to the
/// end. Also which of them the hottest is.
pub(super) fn times(pours: impl Iterator<Item = f64>, hottest: f64, until: f64) -> (Vec<f64>, usize) {
    let even = (until / STEPS / EVEN).ceil() * EVEN;
    let whole = |time: f64| (time / 60.0).round() * 60.0;
    let steps = (0..=96_u32).map(|step| f64::from(step) * even).filter(|time| *time < until);
    let mut times: Vec<f64> = steps.chain(pours).chain([hottest, until]).map(whole).collect();
    times.sort_by(f64::total_cmp);
    times.dedup();
    let at = times.iter().position(|time| *time >= whole(hottest)).unwrap_or_default();
    (times, at)
}

/// The colour that stands for a temperature, `#rrggbb`, the same in every picture: from dark at 0 °C to light at 100 °C.
///
/// ```
/// use lamella::heat::colour_of;
/// let [cool, warm] = ["21 °C", "70 °C"].map(|text| colour_of(text.parse().unwrap()));
/// assert!(cool.starts_with('#') && cool != warm);
/// assert_eq!(colour_of("-5 °C".parse().unwrap()), colour_of("0 °C".parse().unwrap()));
/// ```
#[must_use]
pub fn colour_of(temperature: Temperature) -> String {
    colour(temperature.exact().approximate() / count(100))
}
