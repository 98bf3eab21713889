//! The drawing of a bar in its mould: a cross-section to scale, as SVG.
//!
//! In: a shape and the bands that stand in it. Out: one SVG document without a size of its own, whose lines and letters
//! take the colour of the text around it. Coordinates are decimals with two places, so the same input is the same bytes
//! everywhere.

mod outline;
pub(crate) mod svg;

pub use outline::{BandOutline, Outline, outline};
use svg::{NAME_SIZE, NOTE_SIZE, SANS, SERIF, TITLE_SIZE, breadth, cut, escape, n, spread, text};

use crate::quantity::{Exact, Length, fixed};
use crate::recipe::mould::{Cavity, Shape, square_root};

/// One layer in the drawing.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Band {
    /// Name of the layer; any text.
    pub name: String,
    /// Colour of the layer as `#rrggbb`; anything else is drawn in a neutral grey.
    pub colour: String,
    /// Level of its lower face above the bottom of the mould.
    pub from: Length,
    /// Level of its upper face. What lies above the brim is not drawn.
    pub to: Length,
    /// What stands under the name in small letters: `18.2 mm · 312.5 g · superfat 6.1 %`. May be empty.
    pub note: String,
}

/// What a colour that cannot be read is drawn in.
const NEUTRAL: &str = "#b8b4ac";

// Distances of the drawing, in units of its view box, which read as pixels at its natural size.
const MARGIN: Exact = Exact::literal(20, 0);
const TITLE_BASELINE: Exact = Exact::literal(34, 0);
const TOP: Exact = Exact::literal(60, 0);
const RULER: Exact = Exact::literal(56, 0);
const LEFT: Exact = Exact::literal(76, 0);
const WIDEST: Exact = Exact::literal(260, 0);
const TALLEST: Exact = Exact::literal(300, 0);
/// Largest scale: five to a millimetre.
const LARGEST_SCALE: Exact = Exact::literal(5, 0);
/// Thickness of the wall, which is not to scale: nobody states it.
const WALL: Exact = Exact::literal(6, 0);
/// Between the wall and where the leaders turn, and from there to the labels.
const BEND: Exact = Exact::literal(14, 0);
const LEADER: Exact = Exact::literal(34, 0);
/// From the middle of one label to the next: two lines and air.
const LABEL: Exact = Exact::literal(36, 0);
const TWO: Exact = Exact::literal(2, 0);

/// Most characters of a title, a name and a note that are shown; a tooltip and the description carry the whole.
const TITLE_LENGTH: usize = 60;
const NAME_LENGTH: usize = 40;
const NOTE_LENGTH: usize = 60;

/// Draws the cross-section of one bar in its mould: of a loaf or a lying cylinder as seen from its end, of a slab one
/// cell, of a tray one cavity. A shape with problems gives a sheet that says so.
///
/// ```
/// use lamella::recipe::mould::Shape;
/// use lamella::sheet::section::{Band, draw};
/// let loaf = Shape::Loaf { length: "25 cm".parse()?, width: "8 cm".parse()?, height: "6.5 cm".parse()? };
/// let band = Band {
///     name: "Oat & honey".to_owned(),
///     colour: "#d9b98c".to_owned(),
///     from: "0 mm".parse()?,
///     to: "40 mm".parse()?,
///     note: "40 mm".to_owned(),
/// };
/// let svg = draw(&loaf, &[band], "Breakfast");
/// assert!(svg.starts_with("<svg") && svg.contains("Oat &amp; honey"));
/// # Ok::<(), lamella::quantity::QuantityError>(())
/// ```
#[must_use]
pub fn draw(shape: &Shape, bands: &[Band], title: &str) -> String {
    let frame = Frame::new(shape, bands.len());
    let mut bands: Vec<&Band> = bands.iter().collect();
    // From the top down, as the labels stand. Equal middles keep the order in which they were given, turned round.
    bands.reverse();
    bands.sort_by_key(|band| std::cmp::Reverse(band.from + band.to));
    let (width, height) = frame.size(&bands, title);

    let mut svg = vec![format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {} {}" role="img" fill="none" stroke-linejoin="round" stroke-linecap="round">"#,
        n(width),
        n(height)
    )];
    svg.push(format!("<title>{}</title>", escape(title)));
    svg.push(format!("<desc>{}</desc>", escape(&description(shape, &bands))));
    svg.push(text(MARGIN, TITLE_BASELINE, TITLE_SIZE, SERIF, &cut(title, TITLE_LENGTH)));
    if shape.depth().is_zero() {
        let words = "The measures of this mould need mending before it can be drawn.";
        svg.push(text(MARGIN, TOP + LABEL, NAME_SIZE, SERIF, words));
    } else {
        svg.push(frame.wall());
        svg.extend(bands.iter().filter_map(|band| frame.band(band)));
        svg.push(frame.outline());
        svg.push(frame.ruler());
        svg.extend(frame.labels(&bands));
    }
    svg.push("</svg>\n".to_owned());
    svg.join("\n")
}

/// Where things stand in the drawing.
struct Frame<'s> {
    shape: &'s Shape,
    /// Cells of a slab across: the half width is of all of them.
    cells: Exact,
    /// Units to a millimetre.
    scale: Exact,
    /// Half of the widest width, in units.
    half: Exact,
    /// Radius of a round wall, in units.
    radius: Option<Exact>,
    /// The axis of the section.
    centre: Exact,
    /// The bottom of the hollow.
    bottom: Exact,
    /// Where the labels may stand.
    labels_top: Exact,
    labels_bottom: Exact,
}

impl<'s> Frame<'s> {
    fn new(shape: &'s Shape, labels: usize) -> Self {
        let cells = match shape {
            Shape::Slab { cells_across, .. } => Exact::from(i64::from(*cells_across)),
            _ => Exact::ONE,
        };
        let radius = match *shape {
            Shape::LyingCylinder { diameter, .. } => Some(diameter.exact() / TWO),
            Shape::Tray { cavity: Cavity::Bowl { radius, .. }, .. } => Some(radius.exact()),
            _ => None,
        };
        let depth = shape.depth();
        // Straight walls are widest at an end, round ones at the end or where the radius is.
        let middle = radius.and_then(|radius| Length::try_new(radius).ok()).unwrap_or(depth);
        let widest =
            [Length::ZERO, middle, depth].map(|height| shape.half_width_at(height)).into_iter().max();
        let half = widest.unwrap_or_default().exact() / cells;
        let scale = (WIDEST / (TWO * half)).min(TALLEST / depth.exact()).min(LARGEST_SCALE);
        let (tall, half) = (depth.exact() * scale, half * scale);
        let content = tall.max(LABEL * Exact::count(labels));
        Self {
            shape,
            cells,
            scale,
            half,
            radius: radius.map(|radius| radius * scale),
            centre: LEFT + WALL + half,
            bottom: TOP + (content + tall) / TWO,
            labels_top: TOP + LABEL / TWO,
            labels_bottom: TOP + content - LABEL / TWO,
        }
    }

    /// Width and height of the view box.
    fn size(&self, bands: &[&Band], title: &str) -> (Exact, Exact) {
        let longest = bands.iter().flat_map(|band| {
            let name = breadth(&cut(&band.name, NAME_LENGTH), NAME_SIZE);
            [name, breadth(&cut(&band.note, NOTE_LENGTH), NOTE_SIZE)]
        });
        let labels = self.labels_left() + longest.fold(Exact::ZERO, Exact::max);
        let title = MARGIN + breadth(&cut(title, TITLE_LENGTH), TITLE_SIZE);
        let least = Exact::from(440);
        let height = (self.labels_bottom + LABEL / TWO).max(self.bottom + WALL);
        let (width, height) = (labels.max(title).max(least) + MARGIN, height + MARGIN);
        if width.decimal().and(height.decimal()).is_some() {
            (width, height)
        } else {
            (least.max(title + MARGIN), TOP + LABEL + MARGIN)
        }
    }

    fn y(&self, height: Length) -> Exact {
        self.bottom - height.exact() * self.scale
    }

    fn half_at(&self, height: Length) -> Exact {
        self.shape.half_width_at(height).exact() / self.cells * self.scale
    }

    /// Rightmost of the section.
    fn right(&self) -> Exact {
        self.centre + self.half + WALL
    }

    fn labels_left(&self) -> Exact {
        self.right() + BEND + LEADER
    }

    fn clamp(&self, height: Length) -> Length {
        height.max(Length::ZERO).min(self.shape.depth())
    }

    /// To a point along the wall: an arc, or a straight line. Both sides run counter-clockwise.
    fn along(&self, x: Exact, y: Exact, wall: Exact) -> String {
        match self.radius.map(|radius| n(radius + wall)) {
            Some(radius) => format!("A{radius} {radius} 0 0 0 {} {}", n(x), n(y)),
            None => format!("L{} {}", n(x), n(y)),
        }
    }

    /// The shape of a band; nothing when none of it shows.
    fn band_path(&self, band: &Band) -> Option<String> {
        let (from, to) = (self.clamp(band.from), self.clamp(band.to));
        if from >= to {
            return None;
        }
        let (low, high) = (self.half_at(from), self.half_at(to));
        let (from, to) = (self.y(from), self.y(to));
        Some(format!(
            "M{} {}L{} {}{}L{} {}{}Z",
            n(self.centre - low),
            n(from),
            n(self.centre + low),
            n(from),
            self.along(self.centre + high, to, Exact::ZERO),
            n(self.centre - high),
            n(to),
            self.along(self.centre - low, from, Exact::ZERO),
        ))
    }

    fn band(&self, band: &Band) -> Option<String> {
        let path = self.band_path(band)?;
        let to = self.clamp(band.to);
        let (high, to) = (self.half_at(to), self.y(to));
        let colour = if is_colour(&band.colour) { &band.colour } else { NEUTRAL };
        // The seam is the upper face, thin enough to part two whites without striping a thin layer.
        let seam = format!("M{} {}H{}", n(self.centre - high), n(to), n(self.centre + high));
        let tooltip = escape(&whole(band));
        Some(format!(
            r#"<g><title>{tooltip}</title><path class="band" fill="{colour}" d="{path}"/><path stroke="{}" stroke-width="0.6" stroke-opacity="0.6" d="{seam}"/></g>"#,
            ink(colour)
        ))
    }

    /// The line of the wall, `out` away from the hollow; open at the top but for a tube.
    fn contour(&self, out: Exact) -> String {
        let brim = self.shape.depth();
        let top = self.y(brim);
        let bottom = self.bottom + out;
        let Some(radius) = self.radius else {
            let (low, high) = (self.half_at(Length::ZERO) + out, self.half_at(brim) + out);
            let [a, b, c, d] = [-high, -low, low, high].map(|x| n(self.centre + x));
            let (top, bottom) = (n(top), n(bottom));
            return format!("M{a} {top}L{b} {bottom}L{c} {bottom}L{d} {top}");
        };
        let tube = matches!(self.shape, Shape::LyingCylinder { .. });
        let top = if tube { top - out } else { top };
        // Where the circle of the wall meets the height of the brim.
        let (outer, above) = (radius + out, self.bottom - radius - top);
        let half = square_root(outer * outer - above * above);
        let start = format!("M{} {}", n(self.centre - half), n(top));
        let down = self.along(self.centre, bottom, out);
        let up = self.along(self.centre + half, top, out);
        format!("{start}{down}{up}{}", if tube { "Z" } else { "" })
    }

    fn wall(&self) -> String {
        let path = self.contour(WALL / TWO);
        let (width, cap) = (n(WALL), r#"stroke-linecap="butt""#);
        format!(
            r#"<path stroke="currentColor" stroke-opacity="0.16" stroke-width="{width}" {cap} d="{path}"/>"#
        )
    }

    fn outline(&self) -> String {
        let path = self.contour(Exact::ZERO);
        format!(r#"<path class="outline" stroke="currentColor" stroke-width="1.1" d="{path}"/>"#)
    }

    /// A ruler from the bottom to the brim: a tick each 10 mm, or each 50, 100 ... where ticks would run together.
    fn ruler(&self) -> String {
        let step = |apart: i64| {
            let wide = |step: &i64| !(Exact::from(*step) * self.scale - Exact::from(apart)).is_negative();
            [10, 50, 100, 500, 1000].into_iter().find(wide).unwrap_or(5000)
        };
        let depth = self.shape.depth();
        let marks = |step: i64| {
            let count = depth.exact().whole_steps(Exact::from(step)).unwrap_or(0);
            (0..=count).map(move |mark| Exact::from(mark) * Exact::from(step))
        };
        let at = |millimetres: Exact| self.bottom - millimetres * self.scale;
        let (minor, major) = (step(4), step(12));
        let axis = n(RULER);
        let mut path = format!("M{axis} {}V{}", n(self.bottom), n(self.y(depth)));
        for (step, length) in [(minor, 4), (major, 7)] {
            for mark in marks(step) {
                path.push_str(&format!("M{axis} {}h-{length}", n(at(mark))));
            }
        }
        let mut svg = vec![format!(
            r#"<g font-family="{SANS}" font-size="10" text-anchor="end"><path stroke="currentColor" stroke-width="0.8" stroke-opacity="0.7" d="{path}"/><g fill="currentColor" fill-opacity="0.75">"#
        )];
        let side = n(RULER - Exact::from(11));
        for mark in marks(major) {
            let unit = if mark.is_zero() { " mm" } else { "" };
            let figure = fixed(mark.decimal().unwrap_or_default(), 0);
            let baseline = n(at(mark) + Exact::literal(35, 1));
            svg.push(format!(r#"<text x="{side}" y="{baseline}">{figure}{unit}</text>"#));
        }
        svg.push("</g></g>".to_owned());
        svg.join("")
    }

    fn labels(&self, bands: &[&Band]) -> Vec<String> {
        let half = |band: &Band| {
            let middle = (self.clamp(band.from) + self.clamp(band.to)).exact() / TWO;
            Length::try_new(middle).unwrap_or_default()
        };
        let wanted: Vec<Exact> = bands.iter().map(|band| self.y(half(band))).collect();
        let places = spread(&wanted, LABEL, self.labels_top, self.labels_bottom);
        let (bend, left) = (self.right() + BEND, self.labels_left());
        let label = |((band, from), to): ((&&Band, &Exact), &Exact)| {
            let edge = self.centre + self.half_at(half(band));
            let leader = format!(
                "M{} {}H{}L{} {}H{}",
                n(edge),
                n(*from),
                n(bend),
                n(left - Exact::from(14)),
                n(*to),
                n(left - Exact::from(6)),
            );
            let mut svg = format!(
                r#"<g class="label"><path stroke="currentColor" stroke-width="0.7" stroke-opacity="0.5" d="{leader}"/>"#
            );
            let drop = if band.note.is_empty() { 5 } else { -1 };
            let name = cut(&band.name, NAME_LENGTH);
            svg.push_str(&text(left, *to + Exact::from(drop), NAME_SIZE, SERIF, &name));
            if !band.note.is_empty() {
                let note = cut(&band.note, NOTE_LENGTH);
                svg.push_str(&text(left, *to + Exact::from(13), NOTE_SIZE, SANS, &note));
            }
            svg.push_str("</g>");
            svg
        };
        bands.iter().zip(&wanted).zip(&places).map(label).collect()
    }
}

fn whole(band: &Band) -> String {
    if band.note.is_empty() { band.name.clone() } else { format!("{}: {}", band.name, band.note) }
}

fn description(shape: &Shape, bands: &[&Band]) -> String {
    let layers: Vec<String> = bands.iter().rev().map(|band| whole(band)).collect();
    let depth = fixed(shape.depth().value(), 1);
    if layers.is_empty() {
        return format!("Cross-section of an empty mould, {depth} mm deep.");
    }
    format!("Cross-section of a bar in its mould, {depth} mm deep. From the bottom: {}.", layers.join("; "))
}

/// What is seen on a colour `#rrggbb`, whatever the page around is: black on light, white on dark.
fn ink(colour: &str) -> &'static str {
    let part =
        |at: usize| colour.get(at..at.saturating_add(2)).and_then(|part| u32::from_str_radix(part, 16).ok());
    let [red, green, blue] = [1, 3, 5].map(|at| part(at).unwrap_or(0));
    if red.saturating_add(green).saturating_add(blue) > 384 { "#000" } else { "#fff" }
}

/// Whether `text` is a colour as `#rrggbb`.
///
/// ```
/// use lamella::sheet::section::is_colour;
/// assert!(is_colour("#d9B98c") && !is_colour("red") && !is_colour("#fff"));
/// ```
#[must_use]
pub fn is_colour(text: &str) -> bool {
    text.strip_prefix('#')
        .is_some_and(|digits| digits.len() == 6 && digits.bytes().all(|b| b.is_ascii_hexdigit()))
}

#[cfg(test)]
mod tests;
