//! Figures as they stand on a sheet.

use crate::batch::{Plan, WeighItem};
use crate::quantity::{Decimal, Length, Mass, Share, Volume, fixed};

/// Most decimals of a scale step in grams; one that has more is a step in ounces.
const MOST_PLACES: u32 = 3;

/// Decimals of a number as it is.
fn places(value: Decimal) -> u32 {
    value.normalize().scale()
}

fn step_of(plan: &Plan, scale: usize) -> Mass {
    plan.scales.get(scale).map_or(Mass::ZERO, |line| line.step)
}

/// Decimals that a scale shows.
pub(super) fn scale_places(plan: &Plan, scale: usize) -> u32 {
    places(step_of(plan, scale).value()).min(MOST_PLACES)
}

/// A mass as its scale shows it, without the unit; beside it in ounces where the scale steps in ounces.
pub(super) fn weighed(plan: &Plan, mass: Mass, scale: usize) -> String {
    let grams = fixed(mass.value(), scale_places(plan, scale));
    match ounce_places(step_of(plan, scale)).zip(mass.in_unit("oz")) {
        Some((places, ounces)) => format!("{grams} ({} oz)", fixed(ounces, places)),
        None => grams,
    }
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
pub(crate) fn grams(plan: &Plan, mass: Mass, scale: usize) -> String {
    let plain = weighed(plan, mass, scale);
    match plain.split_once(' ') {
        Some((grams, ounces)) => format!("{grams} g {ounces}"),
        None => format!("{plain} g"),
    }
}

/// A mass at full precision, as far as it means anything beside that scale: two decimals more.
pub(super) fn ideal(plan: &Plan, mass: Mass, scale: usize) -> String {
    fixed(mass.value(), scale_places(plan, scale).saturating_add(2))
}

/// A sum of weighed masses, with all the decimals that it has and at least those of the scales.
pub(super) fn sum(plan: &Plan, mass: Mass, scales: impl Iterator<Item = usize>) -> String {
    let least = scales.map(|scale| scale_places(plan, scale)).max().unwrap_or(0);
    fixed(mass.value(), least.max(places(mass.value()).min(MOST_PLACES)))
}

/// A mass with all its decimals, and at least `least`.
pub(super) fn exact(mass: Mass, least: u32) -> String {
    fixed(mass.value(), places(mass.value()).max(least))
}

pub(crate) fn percent(share: Share, places: u32) -> String {
    format!("{} %", fixed(share.in_unit("%").unwrap_or_default(), places))
}

pub(crate) fn millimetres(length: Length) -> String {
    format!("{} mm", fixed(length.value(), 1))
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
pub(super) fn amounts<'i>(plan: &Plan, items: impl IntoIterator<Item = &'i WeighItem>) -> String {
    let one = |item: &WeighItem| format!("{} {}", grams(plan, item.weighed, item.scale), item.name);
    items.into_iter().filter(|item| !item.ideal.is_zero()).map(one).collect::<Vec<_>>().join("; ")
}

/// With a capital letter to begin with.
pub(super) fn capital(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
