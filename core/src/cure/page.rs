//! The cure on paper: a table of weighings, what is to come, and the curve as SVG.

use super::drying::{self, Chart, Dot};
use super::{BarCure, Cure, Estimate, Ready, Verdict, Weight};
use crate::quantity::{Duration, Exact, Mass, Share, fixed, percent_beside};
use crate::recipe::read_date::whole_units;
use crate::sheet::document::{Block, Cell, Page, Table, figures, words};
use crate::sheet::{held, marked, plain};

/// Weeks that are looked ahead.
const WEEKS: [i64; 10] = [1, 2, 3, 4, 5, 6, 8, 10, 12, 16];

/// The cure as plain text. An estimate stands in for bars without a curve, and beside those that have one.
#[must_use]
pub fn text(cure: &Cure, estimate: Option<&Estimate>) -> String {
    plain::render(&blocks(cure, estimate))
}

/// The cure as Markdown.
#[must_use]
pub fn markdown(cure: &Cure, estimate: Option<&Estimate>) -> String {
    marked::render(&blocks(cure, estimate))
}

/// The cure in parts, for a screen that sets them itself.
#[must_use]
pub fn page(cure: &Cure, estimate: Option<&Estimate>) -> Page {
    Page::of(blocks(cure, estimate))
}

/// The weighings of one bar with its curve and the 95 % band of the curve, as SVG; nothing when there is no such bar.
#[must_use]
pub fn svg(cure: &Cure, bar: usize) -> Option<String> {
    let bar = cure.bars.get(bar)?;
    let dots = bar.points.iter().map(|point| Dot {
        age: drying::in_days(point.age),
        mass: point.mass.exact().approximate(),
        used: point.verdict == Verdict::Used,
    });
    let fit = bar.fit.as_ref().ok();
    let curve = fit.map(|fit| {
        move |age: f64| {
            let there = fit.at(age);
            let (low, high) = there.mean;
            [low, there.mass, high]
        }
    });
    Some(drying::draw(&Chart {
        title: format!("{}: {}", cure.batch, bar.name),
        dots: dots.collect(),
        curve: curve.as_ref().map(|curve| curve as &dyn Fn(f64) -> [f64; 3]),
        ready: bar.ready.map(|ready| drying::in_days(ready.age)),
    }))
}

fn blocks(cure: &Cure, estimate: Option<&Estimate>) -> Vec<Block> {
    let mut blocks = vec![Block::Title(format!("Cure of {}", cure.batch))];
    held::notice(estimate.map_or(&[], |estimate| &estimate.holds), &mut blocks);
    let cut = cure.cut.map_or_else(String::new, |cut| format!("Cut on {cut}. "));
    blocks.push(Block::Paragraph(format!(
        "{cut}A bar counts as dry when it loses less than {} of its mass in a week. Intervals hold with 95 % \
         confidence if the air of the room stays as it was. A dry bar is no proof of a safe one.",
        cure.settled_below
    )));
    for bar in &cure.bars {
        blocks.push(Block::Subheading(format!("Bar “{}”", bar.name)));
        blocks.push(weighings(bar));
        blocks.extend(findings(bar));
        match &bar.fit {
            Ok(_) => blocks.extend(forecast(bar, cure)),
            Err(reason) => blocks.push(Block::Paragraph(format!("No curve: {reason}."))),
        }
    }
    if let Some(estimate) = estimate {
        blocks.extend(expected(estimate));
    }
    blocks
}

fn grams(mass: Mass) -> String {
    fixed(mass.value(), 1)
}

/// A mass with all the decimals it was written with, and at least one.
fn written(mass: Mass) -> String {
    fixed(mass.value(), mass.value().normalize().scale().clamp(1, 3))
}

fn weighings(bar: &BarCure) -> Block {
    let mut table = Table::new(vec![
        words("day"),
        figures("age"),
        figures("weighed, g"),
        figures("curve, g"),
        figures("off by, g"),
        words(""),
    ]);
    for point in &bar.points {
        let note = match point.verdict {
            Verdict::Used => "",
            Verdict::Off => "left out: off the curve",
            Verdict::OtherBar => "left out: another bar",
        };
        table.row(vec![
            point.date.map_or(Cell::Empty, |date| Cell::of(date.to_string())),
            Cell::of(whole_units(point.age)),
            Cell::of(written(point.mass)),
            point.curve.map_or(Cell::Empty, |curve| Cell::of(fixed(curve.value(), 2))),
            point.curve.map_or(Cell::Empty, |curve| Cell::of(fixed((point.mass - curve).value(), 2))),
            Cell::of(note),
        ]);
    }
    Block::Table(table)
}

fn findings(bar: &BarCure) -> Vec<Block> {
    let mut lines = Vec::new();
    let off = bar.points.iter().filter(|point| point.verdict == Verdict::Off);
    for point in off {
        lines.push(format!(
            "{} at {} lies off the curve of the others: weigh it again. A slip of the pen, another bar, or a scale that \
             was not level?",
            grams(point.mass) + " g",
            whole_units(point.age)
        ));
    }
    if let Some(shift) = bar.shift {
        let from = bar.points.get(shift.from).map_or_else(String::new, |point| whole_units(point.age));
        let (size, more) =
            if shift.by < Mass::ZERO { (Mass::ZERO - shift.by, "less") } else { (shift.by, "more") };
        lines.push(format!(
            "From {from} on it weighs {} g {more} than before throughout: that is another bar, or another scale. The \
             curve is that of the longer run.",
            grams(size)
        ));
    }
    if lines.is_empty() { Vec::new() } else { vec![Block::List(lines)] }
}

fn forecast(bar: &BarCure, cure: &Cure) -> Vec<Block> {
    let mut pairs = Vec::new();
    if let Some(end) = bar.equilibrium() {
        pairs.push(("It dries to", interval(&end)));
    }
    if let Ok(fit) = &bar.fit {
        let time = drying::days(fit.half_time());
        pairs.push(("Half of the loss in", time.map_or_else(String::new, in_days)));
        let scatter = drying::grams(fit.residual);
        let scatter = scatter.map_or_else(String::new, |mass| format!("{} g", fixed(mass.value(), 2)));
        pairs.push(("Scatter of a weighing", scatter));
    }
    if let Some(ready) = bar.ready {
        pairs.push(("Dry", dry(&ready)));
    }
    let table = Block::Table(Table::pairs(pairs));
    let mut ahead = Table::new(vec![
        figures("weeks"),
        words("day"),
        figures("mass, g"),
        figures("from, g"),
        figures("to, g"),
        figures("loss of the week"),
    ]);
    for week in WEEKS {
        let (Some(now), Some(next)) = (bar.weight(weeks(week)), bar.weight(weeks(week.saturating_add(1))))
        else {
            continue;
        };
        let loss = Share::try_new((now.mass - next.mass).exact() / now.mass.exact()).unwrap_or_default();
        ahead.row(vec![
            Cell::of(week.to_string()),
            cure.cut
                .and_then(|cut| cut.plus_days(week.saturating_mul(7)))
                .map_or(Cell::Empty, |day| Cell::of(day.to_string())),
            Cell::of(grams(now.mass)),
            Cell::of(grams(now.low)),
            Cell::of(grams(now.high)),
            Cell::of(percent_beside(loss, cure.settled_below, 2)),
        ]);
    }
    vec![table, Block::Table(ahead)]
}

fn weeks(count: i64) -> Duration {
    Duration::try_from_unit(Exact::from(count), "weeks").unwrap_or(Duration::ZERO)
}

fn interval(weight: &Weight) -> String {
    format!("{} g, between {} and {} g", grams(weight.mass), grams(weight.low), grams(weight.high))
}

fn in_days(span: Duration) -> String {
    format!("{} days", fixed(span.in_unit("d").unwrap_or_default(), 1))
}

fn dry(ready: &Ready) -> String {
    let day = ready.date.map_or_else(String::new, |date| format!(", on {date}"));
    if ready.age.is_zero() {
        return "from the first day on".to_owned();
    }
    format!(
        "after {}{day}; between {} and {}",
        in_days(ready.age),
        fixed(ready.low.in_unit("d").unwrap_or_default(), 1),
        in_days(ready.high)
    )
}

fn expected(estimate: &Estimate) -> Vec<Block> {
    let mut blocks = vec![
        Block::Subheading("What is to be expected without weighings".to_owned()),
        Block::Paragraph(format!(
            "An estimate, and no statement of this bar: {}. A bar of {} g with {} % of water.",
            estimate.source,
            grams(estimate.fresh),
            fixed(estimate.water.in_unit("%").unwrap_or_default(), 1)
        )),
    ];
    blocks.push(Block::Table(Table::pairs(vec![
        ("It dries to", interval(&estimate.equilibrium)),
        ("Dry", dry(&estimate.ready)),
    ])));
    let mut ahead =
        Table::new(vec![figures("weeks"), figures("mass, g"), figures("from, g"), figures("to, g")]);
    for week in WEEKS {
        if let Some(weight) = estimate.weight(weeks(week)) {
            ahead.row(vec![
                Cell::of(week.to_string()),
                Cell::of(grams(weight.mass)),
                Cell::of(grams(weight.low)),
                Cell::of(grams(weight.high)),
            ]);
        }
    }
    blocks.push(Block::Table(ahead));
    blocks
}
