//! Figures as they stand on a sheet.

use super::super::{Sheet, Units};
use crate::batch::{Plan, WeighItem};
use crate::quantity::{Decimal, Length, Mass, Share, Temperature, Volume, fixed, step_decimals};

/// Most decimals of a scale step in grams; one that has more is a step in ounces.
const MOST_PLACES: u32 = 3;

/// Decimals of a mass that is not weighed, where it is not in grams.
const OTHER_PLACES: u32 = 3;

/// Decimals of a number as it is.
fn places(value: Decimal) -> u32 {
    value.normalize().scale()
}

fn step_of(plan: &Plan, scale: usize) -> Mass {
    plan.scales.get(scale).map_or(Mass::ZERO, |line| line.step)
}

/// Decimals that a scale shows.
pub(super) fn scale_places(sheet: &Sheet<'_>, scale: usize) -> u32 {
    let step = step_of(sheet.plan, scale);
    if sheet.units.in_grams() {
        places(step.value()).min(MOST_PLACES)
    } else {
        step_decimals(step, sheet.units.mass.symbol).unwrap_or(0)
    }
}

/// A mass in the unit of the sheet, with so many decimals, without the unit.
pub(super) fn in_unit(sheet: &Sheet<'_>, mass: Mass, places: u32) -> String {
    let value = if sheet.units.in_grams() { None } else { mass.in_unit(sheet.units.mass.symbol) };
    fixed(value.unwrap_or(mass.value()), places)
}

/// A mass that nobody weighs: with so many decimals where it is in grams.
pub(super) fn rounded(sheet: &Sheet<'_>, mass: Mass, places: u32) -> String {
    let places = if sheet.units.in_grams() { places } else { OTHER_PLACES };
    with_unit(sheet, in_unit(sheet, mass, places))
}

/// The figure of a mass with its unit.
pub(super) fn with_unit(sheet: &Sheet<'_>, figure: impl std::fmt::Display) -> String {
    format!("{figure} {}", sheet.units.mass.symbol)
}

/// A mass as its scale shows it, without the unit; beside it in ounces where the scale steps in ounces.
pub(super) fn weighed(sheet: &Sheet<'_>, mass: Mass, scale: usize) -> String {
    let figure = in_unit(sheet, mass, scale_places(sheet, scale));
    match ounces_beside(sheet, step_of(sheet.plan, scale)).zip(mass.in_unit("oz")) {
        Some((places, ounces)) => format!("{figure} ({} oz)", fixed(ounces, places)),
        None => figure,
    }
}

/// Decimals of ounces beside the grams of a scale that steps in ounces.
fn ounces_beside(sheet: &Sheet<'_>, step: Mass) -> Option<u32> {
    sheet.units.in_grams().then(|| ounce_places(step)).flatten()
}

/// Decimals of a step in ounces, where it is a step in ounces and not in grams.
fn ounce_places(step: Mass) -> Option<u32> {
    let ounces = step.in_unit("oz").map(places).filter(|places| *places <= MOST_PLACES);
    ounces.filter(|_| places(step.value()) > MOST_PLACES)
}

/// The step of a scale in its own unit.
pub(super) fn step(step: Mass) -> String {
    match ounce_places(step).zip(step.in_unit("oz")) {
        Some((places, ounces)) => format!("{} oz", fixed(ounces, places)),
        None => format!("{} g", step.value().normalize()),
    }
}

/// As [`weighed`], with the unit.
pub(crate) fn grams(sheet: &Sheet<'_>, mass: Mass, scale: usize) -> String {
    let plain = weighed(sheet, mass, scale);
    match plain.split_once(' ') {
        Some((figure, ounces)) => format!("{} {ounces}", with_unit(sheet, figure)),
        None => with_unit(sheet, plain),
    }
}

/// A mass at full precision, as far as it means anything beside that scale: two decimals more.
pub(super) fn ideal(sheet: &Sheet<'_>, mass: Mass, scale: usize) -> String {
    in_unit(sheet, mass, scale_places(sheet, scale).saturating_add(2))
}

/// A sum of weighed masses: in grams with all the decimals that it has, and at least those of the scales.
pub(super) fn sum(sheet: &Sheet<'_>, mass: Mass, scales: impl Iterator<Item = usize>) -> String {
    let least = scales.map(|scale| scale_places(sheet, scale)).max().unwrap_or(0);
    let own = if sheet.units.in_grams() { places(mass.value()).min(MOST_PLACES) } else { 0 };
    in_unit(sheet, mass, least.max(own))
}

/// A mass with at least so many decimals: in grams with all that it has.
pub(super) fn exact(sheet: &Sheet<'_>, mass: Mass, least: u32) -> String {
    if sheet.units.in_grams() {
        all_grams(mass, least)
    } else {
        in_unit(sheet, mass, least.max(OTHER_PLACES))
    }
}

/// Grams with all their decimals, and at least `least`.
pub(super) fn all_grams(mass: Mass, least: u32) -> String {
    fixed(mass.value(), places(mass.value()).max(least))
}

/// A height, without its unit: to a tenth of a millimetre, a hundredth of a larger unit.
pub(super) fn height(sheet: &Sheet<'_>, length: Length) -> String {
    if sheet.units.length == Units::METRIC.length {
        return fixed(length.value(), 1);
    }
    fixed(length.in_unit(sheet.units.length.symbol).unwrap_or_default(), 2)
}

pub(crate) fn length(sheet: &Sheet<'_>, length: Length) -> String {
    format!("{} {}", height(sheet, length), sheet.units.length.symbol)
}

/// A temperature as the recipe has it, or in whole degrees of another scale.
pub(super) fn degrees(sheet: &Sheet<'_>, temperature: Temperature) -> String {
    let unit = sheet.units.temperature;
    if unit == Units::METRIC.temperature {
        return temperature.to_string();
    }
    format!("{} {}", fixed(temperature.in_unit(unit.symbol).unwrap_or_default(), 0), unit.symbol)
}

pub(crate) fn percent(share: Share, places: u32) -> String {
    format!("{} %", fixed(share.in_unit("%").unwrap_or_default(), places))
}

pub(super) fn millilitres(volume: Volume) -> String {
    format!("{} mL", fixed(volume.value(), 0))
}

/// The name of a scale.
pub(super) fn scale(plan: &Plan, scale: usize) -> String {
    plan.scales.get(scale).map_or_else(String::new, |line| line.name.clone())
}

/// A name that a maker gave, marked off from the words around it.
pub(super) fn named(name: &str) -> String {
    format!("“{name}”")
}

/// Names in a sentence: `a`, `a and b`, `a, b and c`.
pub(super) fn list(names: &[String]) -> String {
    match names.split_last() {
        None => String::new(),
        Some((only, [])) => only.clone(),
        Some((last, rest)) => format!("{} and {last}", rest.join(", ")),
    }
}

/// Weighed things in a sentence, with their masses. Names may have commas of their own.
pub(super) fn amounts<'i>(sheet: &Sheet<'_>, items: impl IntoIterator<Item = &'i WeighItem>) -> String {
    let one = |item: &WeighItem| format!("{} {}", grams(sheet, item.weighed, item.scale), item.name);
    items.into_iter().filter(|item| !item.ideal.is_zero()).map(one).collect::<Vec<_>>().join("; ")
}

/// With a capital letter to begin with.
pub(super) fn capital(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
