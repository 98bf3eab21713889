//! Pictures of a run: the section at some times, and temperatures over time, as SVG without a size of its own.
//!
//! Colours go from dark to light as temperature rises, so that they read the same in greys; lines differ by their dashes.
#![expect(clippy::float_arithmetic, reason = "draws an approximate model")]

use std::fmt::Write as _;

use super::course::{Course, Frame, Moment};
use super::grid::count;

/// The scale that temperatures are written in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[non_exhaustive]
pub enum Degrees {
    /// Celsius.
    #[default]
    Celsius,
    /// Fahrenheit.
    Fahrenheit,
}

impl Degrees {
    fn of(self, celsius: f64) -> f64 {
        match self {
            Self::Celsius => celsius,
            Self::Fahrenheit => celsius * 1.8 + 32.0,
        }
    }

    const fn symbol(self) -> &'static str {
        match self {
            Self::Celsius => "°C",
            Self::Fahrenheit => "°F",
        }
    }
}

/// Steps of colour.
const LEVELS: usize = 16;
/// Colours that the ramp passes through, dark to light; red, green, blue.
const RAMP: [[f64; 3]; 6] = [
    [24.0, 18.0, 66.0],
    [94.0, 26.0, 112.0],
    [172.0, 46.0, 92.0],
    [226.0, 94.0, 50.0],
    [246.0, 166.0, 62.0],
    [255.0, 240.0, 190.0],
];

/// The colour of a place between 0 (cold, dark) and 1 (hot, light), `#rrggbb`. Its lightness rises throughout.
#[must_use]
pub fn colour(place: f64) -> String {
    let place = place.clamp(0.0, 1.0) * count(RAMP.len().saturating_sub(1));
    let mut mixed = RAMP.first().copied().unwrap_or_default();
    for (index, pair) in RAMP.windows(2).enumerate() {
        let part = (place - count(index)).clamp(0.0, 1.0);
        if let ([from, to], true) = (pair, part > 0.0) {
            for (mixed, (from, to)) in mixed.iter_mut().zip(from.iter().zip(to)) {
                *mixed = from + (to - from) * part;
            }
        }
    }
    let [red, green, blue] = mixed.map(byte);
    format!("#{red:02x}{green:02x}{blue:02x}")
}

fn byte(value: f64) -> u8 {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped and rounded")]
    let byte = value.round().clamp(0.0, 255.0) as u8;
    byte
}

fn level(value: f64) -> usize {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped")]
    let level = (value * count(LEVELS)).clamp(0.0, count(LEVELS.saturating_sub(1))) as usize;
    level
}

// Distances, in units of the view box.
const WIDE: f64 = 640.0;
const MARGIN: f64 = 24.0;
const TOP: f64 = 52.0;
const ACROSS: usize = 3;
const GAP: f64 = 18.0;
const LEGEND: f64 = 84.0;
const CHART: f64 = 190.0;
const FONT: &str = "'Helvetica Neue', Helvetica, Arial, sans-serif";

fn text(out: &mut String, x: f64, y: f64, size: u32, anchor: &str, words: &str) {
    let words = words.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;");
    let _ = writeln!(
        out,
        r#"<text x="{x:.1}" y="{y:.1}" font-family="{FONT}" font-size="{size}" text-anchor="{anchor}" fill="currentColor">{words}</text>"#
    );
}

/// Draws the kept frames of a course (at most twelve) and the temperatures over its time. A line in a frame runs around
/// what is above its gel temperature at that moment.
///
/// ```
/// use lamella::heat::{self, Degrees, Grid, Scenario, Setting, Steps};
/// let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
/// let plan = lamella::Plan::of(&recipe).unwrap();
/// let scenario = Scenario::of(&recipe, &plan, &Setting::default()).unwrap();
/// let coarse = Grid { columns: 12, rows: 14 };
/// let course = heat::run(&scenario, coarse, &Steps::default(), &[10_800.0]).unwrap();
/// let svg = heat::draw(&course, &recipe.name, Degrees::Fahrenheit);
/// assert!(svg.starts_with("<svg") && svg.contains("°F"));
/// ```
#[must_use]
pub fn draw(course: &Course, title: &str, degrees: Degrees) -> String {
    let scale = Scale::of(course, degrees);
    let frames: Vec<&Frame> = course
        .frames
        .iter()
        .filter(|frame| frame.time > 0.0 && !frame.temperature.is_empty())
        .take(12)
        .collect();
    let width = (WIDE - 2.0 * MARGIN - LEGEND - GAP * count(ACROSS)) / count(ACROSS);
    let section = course.scenario();
    let millimetre = (width / section.section.width).min(170.0 / section.height());
    let height = section.height() * millimetre;
    let rows = frames.len().div_ceil(ACROSS);
    let panels = count(rows) * (height + 34.0);
    let all = TOP + panels + CHART + 66.0;
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDE:.0} {all:.0}\" role=\"img\" fill=\"none\">\n"
    );
    let plain: String = title.chars().filter(|letter| !letter.is_control()).take(60).collect();
    let escaped = plain.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;");
    let _ = writeln!(out, "<title>{escaped}: temperatures</title>");
    text(&mut out, MARGIN, 32.0, 18, "start", &plain);
    for (index, frame) in frames.iter().enumerate() {
        let (column, row) = (index.checked_rem(ACROSS).unwrap_or(0), index.checked_div(ACROSS).unwrap_or(0));
        let panel = Panel {
            x: MARGIN + count(column) * (width + GAP) + (width - section.section.width * millimetre) / 2.0,
            y: TOP + count(row) * (height + 34.0),
            unit: millimetre,
            height,
        };
        panel.draw(&mut out, course, frame, &scale);
        text(&mut out, panel.x, panel.y + height + 17.0, 12, "start", &clock(frame.time));
    }
    scale.legend(&mut out, WIDE - MARGIN - LEGEND + 14.0, TOP, (panels - 34.0).max(120.0));
    chart(&mut out, course, &scale, TOP + panels + 18.0);
    out.push_str("</svg>\n");
    out
}

fn clock(seconds: f64) -> String {
    let minutes = (seconds / 60.0).round();
    let hours = (minutes / 60.0).floor();
    format!("{hours:.0} h {:02.0} min", minutes - 60.0 * hours)
}

/// From temperatures to places between 0 and 1, on even degrees.
struct Scale {
    low: f64,
    high: f64,
    tick: f64,
    degrees: Degrees,
}

impl Scale {
    fn of(course: &Course, degrees: Degrees) -> Self {
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        for frame in &course.frames {
            for temperature in &frame.temperature {
                low = low.min(degrees.of(*temperature));
                high = high.max(degrees.of(*temperature));
            }
        }
        for moment in &course.moments {
            low = low.min(degrees.of(moment.air)).min(degrees.of(moment.edge));
            high = high.max(degrees.of(moment.hottest.0)).max(degrees.of(moment.air));
        }
        if !(low.is_finite() && high.is_finite()) {
            (low, high) = (0.0, 100.0);
        }
        let span = (high - low).max(1.0);
        let tick = [1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0]
            .into_iter()
            .find(|tick| span / tick <= 7.0)
            .unwrap_or(200.0);
        let low = (low / tick).floor() * tick;
        let high = ((high / tick).ceil() * tick).max(low + tick);
        Self { low, high, tick, degrees }
    }

    fn place(&self, celsius: f64) -> f64 {
        (self.degrees.of(celsius) - self.low) / (self.high - self.low)
    }

    fn ticks(&self) -> impl Iterator<Item = f64> {
        let ticks = ((self.high - self.low) / self.tick).round();
        (0..=20_u32).map(f64::from).filter(move |tick| *tick <= ticks).map(|tick| self.low + tick * self.tick)
    }

    fn legend(&self, out: &mut String, x: f64, y: f64, height: f64) {
        let step = height / count(LEVELS);
        for index in 0..LEVELS {
            let colour = colour((count(index) + 0.5) / count(LEVELS));
            let at = y + height - step * (count(index) + 1.0);
            let _ = writeln!(
                out,
                r#"<rect x="{x:.1}" y="{at:.1}" width="14" height="{:.1}" fill="{colour}"/>"#,
                step + 0.3
            );
        }
        for tick in self.ticks() {
            let at = y + height * (1.0 - (tick - self.low) / (self.high - self.low));
            let _ = writeln!(out, r#"<path d="M{:.1} {at:.1}h5" stroke="currentColor"/>"#, x + 14.0);
            text(out, x + 23.0, at + 4.0, 12, "start", &format!("{tick:.0} {}", self.degrees.symbol()));
        }
    }
}

/// Where a section is drawn.
struct Panel {
    x: f64,
    y: f64,
    unit: f64,
    height: f64,
}

impl Panel {
    fn draw(&self, out: &mut String, course: &Course, frame: &Frame, scale: &Scale) {
        let columns = course.columns();
        let width = course.scenario().section.width * self.unit;
        let cell = width / 2.0 / count(columns);
        let mut paths = vec![String::new(); LEVELS];
        let mut gel = String::new();
        let mut bottom = self.y + self.height;
        let mut below: Vec<bool> = vec![false; columns.saturating_mul(2)];
        for ((layer, height), cells) in course.rows().iter().zip(frame.temperature.chunks_exact(columns)) {
            let tall = height * self.unit;
            let top = bottom - tall;
            let whole: Vec<f64> = cells.iter().rev().chain(cells).copied().collect();
            let levels: Vec<usize> = whole.iter().map(|cell| level(scale.place(*cell))).collect();
            let mut start = 0_usize;
            for run in levels.chunk_by(|a, b| a == b) {
                if let Some(path) = run.first().and_then(|level| paths.get_mut(*level)) {
                    let _ = write!(
                        path,
                        "M{:.1} {top:.1}h{:.1}v{:.1}h-{:.1}z",
                        self.x + count(start) * cell,
                        count(run.len()) * cell + 0.2,
                        tall + 0.2,
                        count(run.len()) * cell + 0.2
                    );
                }
                start = start.saturating_add(run.len());
            }
            let gels_at =
                course.scenario().layers.get(*layer).map_or(f64::INFINITY, |layer| layer.material.gels_at);
            let over: Vec<bool> = whole.iter().map(|cell| *cell >= gels_at).collect();
            let mut left = false;
            for (index, (here, under)) in over.iter().zip(&below).enumerate() {
                let at = self.x + count(index) * cell;
                if *here != left {
                    let _ = write!(gel, "M{at:.1} {top:.1}v{tall:.1}");
                }
                if here != under {
                    let _ = write!(gel, "M{at:.1} {bottom:.1}h{cell:.1}");
                }
                left = *here;
            }
            below = over;
            bottom = top;
        }
        for (index, here) in below.iter().enumerate() {
            if *here {
                let _ = write!(gel, "M{:.1} {bottom:.1}h{cell:.1}", self.x + count(index) * cell);
            }
        }
        for (index, path) in paths.iter().enumerate().filter(|(_, path)| !path.is_empty()) {
            let colour = colour((count(index) + 0.5) / count(LEVELS));
            let _ = writeln!(out, r#"<path d="{path}" fill="{colour}"/>"#);
        }
        if !gel.is_empty() {
            // White under black shows on dark and on light.
            let _ = writeln!(out, "<path d=\"{gel}\" stroke=\"#fff\" stroke-width=\"2.2\"/>");
            let _ = writeln!(out, "<path d=\"{gel}\" stroke=\"#000\" stroke-width=\"0.9\"/>");
        }
        let _ = writeln!(
            out,
            "<path d=\"M{:.1} {:.1}v{:.1}h{width:.1}v-{:.1}\" stroke=\"currentColor\" stroke-width=\"1.5\"/>",
            self.x, self.y, self.height, self.height
        );
    }
}

/// A line of the chart: its name, its dashes, what it shows.
type Line = (&'static str, &'static str, fn(&Moment) -> f64);

/// Temperatures over time.
fn chart(out: &mut String, course: &Course, scale: &Scale, top: f64) {
    let (left, right) = (MARGIN + 44.0, WIDE - MARGIN - LEGEND);
    let until = course.scenario().until;
    let x = |time: f64| left + (right - left) * time / until;
    let y = |celsius: f64| top + CHART * (1.0 - scale.place(celsius));
    for tick in scale.ticks() {
        let at = top + CHART * (1.0 - (tick - scale.low) / (scale.high - scale.low));
        let _ = writeln!(
            out,
            r#"<path d="M{left:.1} {at:.1}H{right:.1}" stroke="currentColor" stroke-opacity="0.2"/>"#
        );
        text(out, left - 6.0, at + 4.0, 12, "end", &format!("{tick:.0} {}", scale.degrees.symbol()));
    }
    let hours = until / 3600.0;
    let tick = [0.25, 0.5, 1.0, 2.0, 4.0, 6.0, 12.0, 24.0]
        .into_iter()
        .find(|tick| hours / tick <= 9.0)
        .unwrap_or(48.0);
    for index in (0..=12_u32).map(f64::from).filter(|index| index * tick <= hours + 1e-9) {
        let at = x(index * tick * 3600.0);
        let _ = writeln!(out, r#"<path d="M{at:.1} {:.1}v5" stroke="currentColor"/>"#, top + CHART);
        text(out, at, top + CHART + 19.0, 12, "middle", &format!("{} h", index * tick));
    }
    let lines: [Line; 4] = [
        ("hottest", "", |moment| moment.hottest.0),
        ("mean", "7 3", |moment| moment.mean),
        ("edge", "2 3", |moment| moment.edge),
        ("air", "9 3 2 3", |moment| moment.air),
    ];
    for (index, (name, dashes, of)) in lines.into_iter().enumerate() {
        let mut path = String::new();
        for moment in &course.moments {
            let command = if path.is_empty() { 'M' } else { 'L' };
            let _ = write!(path, "{command}{:.1} {:.1}", x(moment.time), y(of(moment)));
        }
        let style = format!(r#"stroke="currentColor" stroke-width="1.6" stroke-dasharray="{dashes}""#);
        let _ = writeln!(out, r#"<path d="{path}" {style}/>"#);
        let at = left + count(index) * 110.0;
        let _ = writeln!(out, r#"<path d="M{at:.1} {:.1}h26" {style}/>"#, top + CHART + 38.0);
        text(out, at + 31.0, top + CHART + 42.0, 12, "start", name);
    }
}
