//! How far scale steps can move a superfat.
//!
//! # Derivation
//!
//! Superfat is 1 - N / D, where D is the alkali demand of all the fat in a jug and N the alkali in it less what its acids
//! take, both as grams of KOH. Each is a sum of terms of two kinds.
//!
//! What is weighed into the jug for itself brings its mass times what a gram of it brings. It is rounded to the nearest
//! step s of its scale, so it lies within s / 2 of its ideal.
//!
//! What comes with a portion brings m p / P times what a gram brings, with m the mass of it in the vessel (pot or lye), P
//! all that is in the vessel and p the portion. Of these:
//!
//! * m lies within s / 2 of its ideal where it is weighed for itself. The fats of the pot are one split of the nearest
//!   whole number of steps: their sum moves by s / 2 at most, of which a fat has its share, and largest remainder moves each
//!   by less than a step more. So a fat lies within 3 s / 2.
//! * P lies within e of its ideal, e being the sum of s / 2 over what is weighed for itself in the vessel, and one more s / 2
//!   for the sum of the fats in the pot.
//! * p is a part of P less the residue, cut off to whole steps of the jugs' scale: that whole lies within e + s of its
//!   ideal, a portion has its share f of that, and largest remainder moves it by less than a step. So p lies within
//!   f (e + s) + s.
//! * Where the jugs stand on several scales, those of finer steps are given theirs first, together the nearest whole number
//!   of their steps. What is left for the others is moved by s / 2 of each finer step, t in all, so p lies within
//!   f e + t + 2 s.
//!
//! With every amount replaced by the span of what it can be, D and N become spans, and so does the superfat. Since a plan
//! states its ideals to twelve decimals, every span is a picogram wider. The true range is narrower, as m and P move
//! together; but no superfat can lie outside the span.

use std::collections::{BTreeMap, BTreeSet};

use crate::batch::{JugPlan, Plan, WeighItem, Weighing};
use crate::chemistry::{AlkaliMasses, AlkaliSplit, demand_of};
use crate::material::Alkali;
use crate::quantity::{Exact, Mass};
use crate::recipe::{Dose, Ingredient, Recipe};

use super::pair::{lye, step};

/// Everything that a value can be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Span {
    /// The least.
    pub low: Exact,
    /// The most.
    pub high: Exact,
}

/// A picogram: half of it is what publishing an ideal may have moved, twice over.
const PICOGRAM: Exact = Exact::literal(1, 12);
const NOUGHT: Span = Span { low: Exact::ZERO, high: Exact::ZERO };

impl Span {
    /// A mass that lies within `reach` of this one, and is not below nought.
    fn about(mass: Mass, reach: Exact) -> Self {
        let reach = reach + PICOGRAM;
        Self { low: (mass.exact() - reach).max(Exact::ZERO), high: mass.exact() + reach }
    }

    fn plus(self, other: Self) -> Self {
        Self { low: self.low + other.low, high: self.high + other.high }
    }

    fn minus(self, other: Self) -> Self {
        Self { low: self.low - other.high, high: self.high - other.low }
    }

    /// Times a number that is not negative.
    fn times(self, factor: Exact) -> Self {
        Self { low: self.low * factor, high: self.high * factor }
    }

    /// Times `part / whole`, none of which is negative.
    fn part(self, part: Self, whole: Self) -> Self {
        Self { low: self.low * part.low / whole.high, high: self.high * part.high / whole.low }
    }
}

/// What a gram brings, in grams of KOH: its fat's demand, its acid's, and alkali.
#[derive(Clone, Copy)]
struct Gram {
    fat: Exact,
    acid: Exact,
    alkali: Exact,
}

impl Gram {
    fn of(ingredient: &Ingredient) -> Self {
        let demand = demand_of(ingredient);
        Self { fat: demand.fat, acid: demand.acid, alkali: Exact::ZERO }
    }
}

/// A jug's two sums.
struct Sums {
    demand: Span,
    /// Alkali less acid.
    net: Span,
}

impl Sums {
    fn add(&mut self, gram: Gram, mass: Span) {
        self.demand = self.demand.plus(mass.times(gram.fat));
        self.net = self.net.plus(mass.times(gram.alkali)).minus(mass.times(gram.acid));
    }
}

/// A vessel that portions are taken from: what is in it, and how much that is.
struct Vessel {
    contents: Vec<(Gram, Span)>,
    /// Its ideal mass, and how far the weighed one may lie from it.
    mass: Mass,
    reach: Exact,
}

impl Vessel {
    /// The span of a portion, and of the whole.
    fn portion(&self, ideal: Mass, step: Mass, steps: &BTreeSet<Mass>, residue: Mass) -> (Span, Span) {
        let share = ideal.exact() / (self.mass - residue).exact();
        let reach = if steps.len() == 1 {
            share * (self.reach + step.exact()) + step.exact()
        } else {
            let finer: Exact = steps.iter().filter(|finer| **finer < step).map(|step| step.exact()).sum();
            share * self.reach + finer * Exact::literal(5, 1) + step.exact() + step.exact()
        };
        (Span::about(ideal, reach), Span::about(self.mass, self.reach))
    }
}

/// All that the superfat of a jug can be when every weighing is rounded as the plan rounds: see the derivation in this
/// module. Nothing when there is no such jug, or a weighing may be of nothing at all.
#[must_use]
pub fn superfat_span(recipe: &Recipe, plan: &Plan, jug: usize) -> Option<Span> {
    let jug = plan.jugs.get(jug)?;
    let doses = doses(recipe);
    let half = |item: &WeighItem| step(plan, item.scale).exact() * Exact::literal(5, 1);
    let gram = |item: &WeighItem| gram(recipe, &doses, item);

    let mut pot = Vessel {
        contents: Vec::new(),
        mass: Mass::ZERO,
        reach: plan.pot.fats.first().map_or(Exact::ZERO, half),
    };
    for item in &plan.pot.fats {
        pot.mass += item.ideal;
        pot.contents.push((gram(item)?, Span::about(item.ideal, half(item) * Exact::from(3))));
    }
    for item in &plan.pot.doses {
        pot.mass += item.ideal;
        pot.reach = pot.reach + half(item);
        pot.contents.push((gram(item)?, Span::about(item.ideal, half(item))));
    }
    let mut vessel = Vessel { contents: Vec::new(), mass: Mass::ZERO, reach: Exact::ZERO };
    for item in lye(plan) {
        vessel.mass += item.ideal;
        vessel.reach = vessel.reach + half(item);
        vessel.contents.push((gram(item)?, Span::about(item.ideal, half(item))));
    }

    let mut sums = Sums { demand: NOUGHT, net: NOUGHT };
    let workshop = &recipe.workshop;
    let steps = |of: fn(&JugPlan) -> &Weighing| -> BTreeSet<Mass> {
        plan.jugs.iter().map(|jug| step(plan, of(jug).scale)).collect()
    };
    let from = [
        (&pot, &jug.portion, steps(|jug| &jug.portion), workshop.pot_residue),
        (&vessel, &jug.lye, steps(|jug| &jug.lye), workshop.lye_residue),
    ];
    for (vessel, weighing, steps, residue) in from {
        let (part, whole) = vessel.portion(weighing.ideal, step(plan, weighing.scale), &steps, residue);
        whole.low.is_positive().then_some(())?;
        for (gram, mass) in &vessel.contents {
            sums.add(*gram, mass.part(part, whole));
        }
    }
    for item in own(jug) {
        sums.add(gram(item)?, Span::about(item.ideal, half(item)));
    }
    superfat(&sums)
}

/// What is weighed into a jug for itself.
fn own(jug: &JugPlan) -> impl Iterator<Item = &WeighItem> {
    jug.held.iter().chain(&jug.doses).chain(&jug.late_doses)
}

fn superfat(sums: &Sums) -> Option<Span> {
    let Span { low, high } = sums.demand;
    low.is_positive().then_some(())?;
    // Alkali less acid may be below nought: then a larger demand brings the quotient up.
    let most = sums.net.high / if sums.net.high.is_negative() { high } else { low };
    let least = sums.net.low / if sums.net.low.is_negative() { low } else { high };
    Some(Span { low: Exact::ONE - most - PICOGRAM, high: Exact::ONE - least + PICOGRAM })
}

/// Every dose of a recipe by its place in the document.
fn doses(recipe: &Recipe) -> BTreeMap<&str, &Dose> {
    let liquids = recipe.lye.liquids.iter().map(|line| &line.dose);
    let jugs = recipe.jugs.iter().flat_map(|jug| &jug.doses);
    let layers = recipe.layers.iter().flat_map(|layer| &layer.doses);
    let all = recipe.pot.iter().chain(&recipe.lye.doses).chain(liquids).chain(jugs).chain(layers);
    all.map(|dose| (dose.pointer.as_str(), dose)).collect()
}

/// What a gram of a weighed item brings; nothing when the recipe does not have it.
fn gram(recipe: &Recipe, doses: &BTreeMap<&str, &Dose>, item: &WeighItem) -> Option<Gram> {
    if let Some(dose) = doses.get(item.pointer.as_str()) {
        return Some(Gram::of(&dose.ingredient));
    }
    let split = AlkaliSplit::of(&recipe.alkali);
    let alkali = |alkali: Alkali| {
        let pure = split.grade(alkali).map_or(Exact::ZERO, |grade| grade.purity.exact());
        let masses = match alkali {
            Alkali::SodiumHydroxide => AlkaliMasses { sodium: pure, potassium: Exact::ZERO },
            Alkali::PotassiumHydroxide => AlkaliMasses { sodium: Exact::ZERO, potassium: pure },
        };
        Gram { fat: Exact::ZERO, acid: Exact::ZERO, alkali: masses.as_koh() }
    };
    match item.pointer.as_str() {
        "/water" => Some(Gram { fat: Exact::ZERO, acid: Exact::ZERO, alkali: Exact::ZERO }),
        "/alkali/naoh" => Some(alkali(Alkali::SodiumHydroxide)),
        "/alkali/koh" => Some(alkali(Alkali::PotassiumHydroxide)),
        pointer => {
            let index: usize = pointer.strip_prefix("/fats/").and_then(whole)?;
            let fat = recipe.fats.get(index)?.fat.clone();
            Some(Gram::of(&Ingredient::Fat(fat)))
        }
    }
}

fn whole(text: &str) -> Option<usize> {
    use std::str::FromStr;
    usize::from_str(text).ok()
}
