//! The cure as a drawing: weighings, curve, and the band that it lies in.

use crate::quantity::{Exact, fixed};
use crate::sheet::section::svg::{SANS, SERIF, cut, escape, n};

/// A weighing in the drawing.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Dot {
    /// Age, days.
    pub(crate) age: f64,
    /// Mass, g.
    pub(crate) mass: f64,
    /// Whether the curve is fitted to it.
    pub(crate) used: bool,
}

/// What is drawn.
pub(crate) struct Chart<'c> {
    pub(crate) title: String,
    pub(crate) dots: Vec<Dot>,
    /// Mass at an age with the ends of its interval: `[low, mass, high]`.
    pub(crate) curve: Option<&'c dyn Fn(f64) -> [f64; 3]>,
    /// Age at which the bar is dry, days.
    pub(crate) ready: Option<f64>,
}

const WIDTH: f64 = 640.0;
const HEIGHT: f64 = 360.0;
/// Edges of the plot.
const LEFT: f64 = 56.0;
const RIGHT: f64 = 620.0;
const TOP: f64 = 52.0;
const BOTTOM: f64 = 312.0;
/// Pieces that the curve is drawn in.
const PIECES: u32 = 96;
/// Days that are drawn at least, and at most.
const SHORTEST: f64 = 14.0;
const LONGEST: f64 = 400.0;
const TITLE_LENGTH: usize = 60;

fn at(value: f64) -> String {
    n(Exact::from_approximate(value, 4))
}

/// The drawing as SVG, in the colour of the text around it.
pub(crate) fn draw(chart: &Chart<'_>) -> String {
    let frame = Frame::of(chart);
    let mut svg = vec![format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" role="img" fill="none" stroke-linejoin="round" stroke-linecap="round">"#
    )];
    svg.push(format!("<title>{}</title>", escape(&chart.title)));
    svg.push(format!("<desc>{}</desc>", escape(&description(chart))));
    svg.push(format!(
        r#"<text x="{LEFT}" y="28" font-family="{SERIF}" font-size="18" fill="currentColor">{}</text>"#,
        escape(&cut(&chart.title, TITLE_LENGTH))
    ));
    svg.push(frame.grid());
    if let Some(curve) = chart.curve {
        svg.extend(frame.curve(curve));
    }
    if let Some(ready) = chart.ready.filter(|ready| *ready <= frame.days) {
        let x = at(frame.x(ready));
        svg.push(format!(
            r#"<path class="ready" stroke="currentColor" stroke-width="1" stroke-dasharray="4 4" d="M{x} {TOP}V{BOTTOM}"/><text x="{x}" y="{}" text-anchor="middle" font-family="{SANS}" font-size="11" fill="currentColor">dry</text>"#,
            at(TOP - 6.0)
        ));
    }
    for dot in chart.dots.iter().filter(|dot| dot.age <= frame.days) {
        let fill = if dot.used { "currentColor" } else { "none" };
        svg.push(format!(
            r#"<circle cx="{}" cy="{}" r="3.5" fill="{fill}" stroke="currentColor"/>"#,
            at(frame.x(dot.age)),
            at(frame.y(dot.mass))
        ));
    }
    svg.push("</svg>\n".to_owned());
    svg.join("\n")
}

fn description(chart: &Chart<'_>) -> String {
    let used = chart.dots.iter().filter(|dot| dot.used).count();
    let left = chart.dots.len().saturating_sub(used);
    let mut words = format!("Mass over age: {used} weighings");
    if left > 0 {
        words.push_str(&format!(" and {left} that are left out"));
    }
    words.push_str(if chart.curve.is_some() { ", the curve and its band." } else { ", and no curve yet." });
    words
}

struct Frame {
    days: f64,
    low: f64,
    high: f64,
}

impl Frame {
    fn of(chart: &Chart<'_>) -> Self {
        let last = chart.dots.iter().map(|dot| dot.age).fold(0.0, f64::max);
        let days = (last.max(chart.ready.unwrap_or(0.0)) * 1.15).clamp(SHORTEST, LONGEST);
        let of_curve = chart.curve.into_iter().flat_map(|curve| [curve(0.0), curve(days)]).flatten();
        let masses: Vec<f64> = chart.dots.iter().map(|dot| dot.mass).chain(of_curve).collect();
        let low = masses.iter().copied().fold(f64::INFINITY, f64::min);
        let high = masses.iter().copied().fold(0.0, f64::max);
        if !(low.is_finite() && high > low) {
            return Self { days, low: 0.0, high: high.max(1.0) };
        }
        let room = (high - low) * 0.08;
        Self { days, low: low - room, high: high + room }
    }

    fn x(&self, age: f64) -> f64 {
        LEFT + (RIGHT - LEFT) * age / self.days
    }

    fn y(&self, mass: f64) -> f64 {
        let part = (mass - self.low) / (self.high - self.low);
        BOTTOM - (BOTTOM - TOP) * part.clamp(-0.05, 1.05)
    }

    /// The axes, a line every so many grams, a tick every so many days.
    fn grid(&self) -> String {
        let mut out = format!(
            r#"<g font-family="{SANS}" font-size="11" fill="currentColor"><path class="axis" fill="none" stroke="currentColor" stroke-width="0.8" d="M{LEFT} {TOP}V{BOTTOM}H{RIGHT}"/>"#
        );
        let (step, decimals) = nice((self.high - self.low) / 6.0);
        for mass in marks(self.low, self.high, step) {
            let y = self.y(mass);
            out.push_str(&format!(
                r#"<path fill="none" stroke="currentColor" stroke-opacity="0.2" stroke-width="0.6" d="M{LEFT} {}H{RIGHT}"/><text x="{}" y="{}" text-anchor="end">{}</text>"#,
                at(y),
                at(LEFT - 6.0),
                at(y + 4.0),
                fixed(Exact::from_approximate(mass, 6).decimal().unwrap_or_default(), decimals)
            ));
        }
        let (step, decimals) = nice(self.days / 8.0);
        for day in marks(0.0, self.days, step) {
            let x = at(self.x(day));
            out.push_str(&format!(
                r#"<path fill="none" stroke="currentColor" stroke-width="0.8" d="M{x} {BOTTOM}v4"/><text x="{x}" y="{}" text-anchor="middle">{}</text>"#,
                at(BOTTOM + 16.0),
                fixed(Exact::from_approximate(day, 6).decimal().unwrap_or_default(), decimals)
            ));
        }
        out.push_str(&format!(
            r#"<text x="{RIGHT}" y="{}" text-anchor="end">days since the cut</text><text x="{}" y="{}">g</text></g>"#,
            at(BOTTOM + 34.0),
            at(LEFT - 30.0),
            at(TOP - 10.0)
        ));
        out
    }

    fn curve(&self, curve: &dyn Fn(f64) -> [f64; 3]) -> [String; 2] {
        let ages = (0..=PIECES).map(|piece| self.days * f64::from(piece) / f64::from(PIECES));
        let points: Vec<(f64, [f64; 3])> = ages.map(|age| (age, curve(age))).collect();
        let place = |age: f64, mass: f64| format!("{} {}", at(self.x(age)), at(self.y(mass)));
        let line = |points: &mut dyn Iterator<Item = (f64, f64)>| {
            points.map(|(age, mass)| place(age, mass)).collect::<Vec<_>>().join("L")
        };
        let lower = line(&mut points.iter().map(|(age, [low, ..])| (*age, *low)));
        let upper = line(&mut points.iter().rev().map(|(age, [.., high])| (*age, *high)));
        let middle = line(&mut points.iter().map(|(age, [_, mass, _])| (*age, *mass)));
        [
            format!(r#"<path class="band" fill="currentColor" fill-opacity="0.14" d="M{lower}L{upper}Z"/>"#),
            format!(r#"<path class="curve" stroke="currentColor" stroke-width="1.6" d="M{middle}"/>"#),
        ]
    }
}

/// A step of 1, 2 or 5 times a power of ten that is at least `least`, and the decimals it has.
fn nice(least: f64) -> (f64, u32) {
    let mut step = 0.001;
    let mut decimals = 3;
    loop {
        for factor in [1.0, 2.0, 5.0] {
            if step * factor >= least || step > 1e9 {
                return (step * factor, decimals);
            }
        }
        step *= 10.0;
        decimals = u32::saturating_sub(decimals, 1);
    }
}

/// Multiples of a step between two ends.
fn marks(low: f64, high: f64, step: f64) -> impl Iterator<Item = f64> {
    let first = (low / step).ceil();
    (0..64).map(move |index| (first + f64::from(index)) * step).take_while(move |mark| *mark <= high)
}
