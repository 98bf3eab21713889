//! What a run means for a maker, each figure with its interval.
#![expect(clippy::float_arithmetic, reason = "reads an approximate model")]

use serde::Serialize;

use super::HeatError;
use super::course::{Course, Spot};
use super::grid::Grid;
use super::knowledge::Spread;
use super::scenario::Scenario;
use super::solve::{Steps, run};
use super::warming::{Warming, times};
use crate::quantity::{Duration, Exact, Length, Share, Temperature};

/// A figure as far as it is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Interval<T> {
    /// The least that any of the tried truths gives.
    pub low: T,
    /// What the likely truth gives.
    pub likely: T,
    /// The greatest.
    pub high: T,
}

/// A time that may lie past the end of the forecast; such are the greatest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum When {
    /// So long after the first pour, or after the pour of the layer it is about.
    At(Duration),
    /// Not within the forecast.
    Later,
}

/// What a layer does.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LayerForecast {
    /// What the maker calls it.
    pub name: String,
    /// Temperature of its batter when it is poured.
    pub poured_at: Temperature,
    /// Temperature at which it gels.
    pub gels_at: Interval<Temperature>,
    /// How much of it passes that temperature.
    pub gelled: Interval<Share>,
    /// How long after its pour it carries the next one, from its conversion.
    pub carries: Interval<When>,
    /// Its mean temperature at each of the forecast's times; nothing before its pour.
    pub warmth: Interval<Vec<Option<Temperature>>>,
}

/// What a block does.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Forecast {
    /// The highest temperature anywhere.
    pub peak: Interval<Temperature>,
    /// When that is, after the first pour.
    pub peak_at: Interval<When>,
    /// The layer that it is in, in the likely truth.
    pub peak_layer: String,
    /// How high above the bottom it is, in the likely truth.
    pub peak_height: Length,
    /// How much of the block passes its gel temperature.
    pub gelled: Interval<Share>,
    /// When the first of it does.
    pub gels: Interval<When>,
    /// In how many of the tried truths part of the block gels and part does not, so that a ring shows in the cut.
    pub ring: Share,
    /// By how much the hottest place passes the upper edge, at most, K as a difference of °C.
    pub apart: Interval<Temperature>,
    /// How much of the alkali has reacted at the end of the forecast.
    pub reacted: Interval<Share>,
    /// When it can be cut: nine tenths have reacted everywhere, and the hottest place has come down to 35 °C.
    pub cut: Interval<When>,
    /// Times after the first pour at which the layers are looked at, in whole minutes: even steps to the end of the
    /// forecast, every pour, and the hottest moment of the likely truth.
    pub times: Vec<Duration>,
    /// Which of these times is the hottest moment of the likely truth; the first is 0.
    pub hottest: usize,
    /// The layers.
    pub layers: Vec<LayerForecast>,
}

/// Conversion at which a layer carries the next pour. Source: judgement; a few per cent lie between an emulsion and a
/// paste that holds its shape.
pub const CARRIES: f64 = 0.075;
/// Conversion that a block wants everywhere before it is cut. Source: judgement; common practice names hours, not figures.
pub const CUT_CONVERSION: f64 = 0.9;
/// Temperature that it wants to be below, °C. Source: judgement; "firm as cold cheese" is common practice.
pub const CUT_TEMPERATURE: f64 = 35.0;
/// A ring shows when more than this share gels and more than this does not. Source: judgement.
const SHOWS: f64 = 0.03;

/// The figures of one run.
struct Outcome {
    peak: f64,
    peak_at: Option<f64>,
    spot: Spot,
    gelled: f64,
    gels: Option<f64>,
    apart: f64,
    reacted: f64,
    cut: Option<f64>,
    layers: Vec<(f64, f64, Option<f64>)>,
    warming: Warming,
}

impl Outcome {
    fn of(course: &Course) -> Self {
        let scenario = course.scenario();
        let mut peak = (f64::NEG_INFINITY, None, Spot::default());
        let (mut gels, mut cut) = (None, None);
        let mut apart = 0.0_f64;
        let mut carries: Vec<Option<f64>> = vec![None; scenario.layers.len()];
        let last = scenario.layers.last().map_or(0.0, |layer| layer.at);
        for moment in &course.moments {
            if moment.hottest.0 > peak.0 {
                peak = (moment.hottest.0, Some(moment.time), moment.hottest.1);
            }
            if gels.is_none() && moment.over_gel >= 0.0 {
                gels = Some(moment.time);
            }
            apart = apart.max(moment.hottest.0 - moment.edge);
            let firm = moment.least >= CUT_CONVERSION && moment.hottest.0 <= CUT_TEMPERATURE;
            if cut.is_none() && moment.time >= last && firm {
                cut = Some(moment.time);
            }
            for ((slot, conversion), layer) in carries.iter_mut().zip(&moment.layers).zip(&scenario.layers) {
                if slot.is_none() && *conversion >= CARRIES {
                    *slot = Some((moment.time - layer.at).max(0.0));
                }
            }
        }
        let mut gelled = 0.0;
        let mut layers: Vec<(f64, f64)> = vec![(0.0, 0.0); scenario.layers.len()];
        let shares = course.shares();
        let cells = course.rows().iter().flat_map(|(layer, _)| std::iter::repeat_n(*layer, course.columns()));
        for ((layer, share), peak) in cells.zip(shares).zip(&course.peak) {
            let gels_at = scenario.layers.get(layer).map_or(f64::INFINITY, |layer| layer.material.gels_at);
            if let Some(slot) = layers.get_mut(layer) {
                slot.1 += share;
                if *peak >= gels_at {
                    slot.0 += share;
                    gelled += share;
                }
            }
        }
        let by_layer = scenario.layers.iter().zip(layers).zip(carries);
        Self {
            peak: peak.0,
            peak_at: peak.1,
            spot: peak.2,
            gelled,
            gels,
            apart,
            reacted: course.moments.last().map_or(0.0, |moment| moment.conversion),
            cut,
            layers: by_layer
                .map(|((layer, (gelled, all)), carries)| (layer.material.gels_at, gelled / all, carries))
                .collect(),
            warming: Warming::of(course),
        }
    }
}

/// Forecasts a scenario: seventeen runs, the likely one and sixteen around it.
///
/// # Errors
/// [`HeatError`] when the scenario, the spread or the grid are out of their ranges.
pub fn forecast_scenario(scenario: &Scenario, spread: &Spread, grid: Grid) -> Result<Forecast, HeatError> {
    scenario.check()?;
    spread.check()?;
    let mut outcomes = Vec::new();
    for truth in spread.truths() {
        let course = run(&truth.of(scenario), grid, &Steps::default(), &[])?;
        outcomes.push(Outcome::of(&course));
    }
    let all = |of: fn(&Outcome) -> f64| -> Vec<f64> { outcomes.iter().map(of).collect() };
    let whens = |of: fn(&Outcome) -> Option<f64>| -> Vec<Option<f64>> { outcomes.iter().map(of).collect() };
    let rings =
        outcomes.iter().filter(|outcome| outcome.gelled > SHOWS && outcome.gelled < 1.0 - SHOWS).count();
    let likely = outcomes.first().ok_or(HeatError::Steps)?;
    let (mut top, mut peak_layer) = (0.0, String::new());
    for layer in &scenario.layers {
        if likely.spot.up >= top {
            peak_layer.clone_from(&layer.name);
        }
        top += layer.thickness;
    }
    let pours = scenario.layers.iter().map(|layer| layer.at);
    let (times, hottest) = times(pours, likely.peak_at.unwrap_or_default(), scenario.until);
    let layers = scenario.layers.iter().enumerate().map(|(index, layer)| {
        let of = |pick: fn(&(f64, f64, Option<f64>)) -> f64| -> Vec<f64> {
            outcomes.iter().filter_map(|outcome| outcome.layers.get(index)).map(pick).collect()
        };
        let carries: Vec<Option<f64>> =
            outcomes.iter().filter_map(|outcome| outcome.layers.get(index)).map(|layer| layer.2).collect();
        LayerForecast {
            name: layer.name.clone(),
            poured_at: celsius(layer.temperature),
            gels_at: interval(&of(|layer| layer.0), celsius),
            gelled: interval(&of(|layer| layer.1), share),
            carries: when(&carries),
            warmth: warmth(&outcomes, index, &times),
        }
    });
    let layers: Vec<LayerForecast> = layers.collect();
    Ok(Forecast {
        peak: interval(&all(|outcome| outcome.peak), celsius),
        peak_at: when(&whens(|outcome| outcome.peak_at)),
        peak_layer,
        peak_height: Length::try_new(Exact::from_approximate(likely.spot.up * 1000.0, 1)).unwrap_or_default(),
        gelled: interval(&all(|outcome| outcome.gelled), share),
        gels: when(&whens(|outcome| outcome.gels)),
        ring: share(super::grid::count(rings) / super::grid::count(outcomes.len())),
        apart: interval(&all(|outcome| outcome.apart), celsius),
        reacted: interval(&all(|outcome| outcome.reacted), share),
        cut: when(&whens(|outcome| outcome.cut)),
        times: times.iter().copied().map(duration).collect(),
        hottest,
        layers,
    })
}

/// Mean temperatures of a layer at times; each as far as it is known.
fn warmth(outcomes: &[Outcome], layer: usize, times: &[f64]) -> Interval<Vec<Option<Temperature>>> {
    let at = |time: &f64| {
        let values: Vec<f64> =
            outcomes.iter().filter_map(|outcome| outcome.warming.at(layer, *time)).collect();
        (!values.is_empty()).then(|| interval(&values, celsius))
    };
    let known: Vec<Option<Interval<Temperature>>> = times.iter().map(at).collect();
    let all = |of: fn(&Interval<Temperature>) -> Temperature| {
        known.iter().map(|one| one.as_ref().map(of)).collect()
    };
    Interval { low: all(|one| one.low), likely: all(|one| one.likely), high: all(|one| one.high) }
}

pub(super) fn celsius(value: f64) -> Temperature {
    Temperature::try_new(Exact::from_approximate(value, 1)).unwrap_or_default()
}

fn share(value: f64) -> Share {
    Share::try_new(Exact::from_approximate(value.clamp(0.0, 1.0), 3)).unwrap_or_default()
}

pub(super) fn duration(seconds: f64) -> Duration {
    Duration::try_new(Exact::from_approximate((seconds / 60.0).round() * 60.0, 0)).unwrap_or_default()
}

/// The first is the likely one.
fn interval<T: Copy>(values: &[f64], of: impl Fn(f64) -> T) -> Interval<T> {
    let low = values.iter().copied().fold(f64::INFINITY, f64::min);
    let high = values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    Interval { low: of(low), likely: of(values.first().copied().unwrap_or(low)), high: of(high) }
}

fn when(values: &[Option<f64>]) -> Interval<When> {
    let far: Vec<f64> = values.iter().map(|value| value.unwrap_or(f64::INFINITY)).collect();
    interval(&far, |seconds| if seconds.is_finite() { When::At(duration(seconds)) } else { When::Later })
}
