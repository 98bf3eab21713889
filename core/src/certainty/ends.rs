//! The guaranteed interval: the smallest and the largest superfat that the inputs' ranges allow, and which ends of
//! which ranges bring them about.
//!
//! # How the ends are found
//!
//! With D the demand of the fat and N the alkali less what acids take, the superfat is smallest where the ratio N/D is
//! largest. For a ratio r, the sum N - r D falls apart into what comes from the pot, from the lye and from each dose,
//! and each of those is largest at ends of ranges that can be told one by one: more of what adds alkali, less of what
//! adds demand; and of what is mixed in a vessel and then weighed out, more of whatever is above the mean of the vessel.
//! The ratio at those ends is a better r; when the same ends come out again it is the largest ratio there is
//! (Dinkelbach, Management Science 13 (1967) 492, from memory). One or two rounds do.

use serde::Serialize;

use super::model::{Intake, JugModel, Model, Part, Rate, Var};
use crate::quantity::Exact;

/// Which end of a range.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[expect(clippy::exhaustive_enums, reason = "a range has two ends")]
pub enum End {
    /// The lower one.
    Low,
    /// The upper one.
    High,
}

/// An end of the superfat, and where it is attained.
#[derive(Clone, Debug)]
pub(crate) struct Extreme {
    pub(crate) superfat: Exact,
    /// The end of each input that matters; nothing for the others.
    pub(crate) corner: Vec<Option<End>>,
}

/// Rounds after which the search gives up; two are usual.
const ROUNDS: usize = 50;

/// What is in something, in sums: net alkali (less acids) in grams of KOH, demand in grams of KOH, mass in grams.
#[derive(Clone, Copy, Debug)]
struct Sum {
    net: Exact,
    demand: Exact,
    mass: Exact,
}

const NOTHING: Sum = Sum { net: Exact::ZERO, demand: Exact::ZERO, mass: Exact::ZERO };

impl Sum {
    /// Its worth for the search.
    fn worth(&self, ratio: Exact) -> Exact {
        self.net - ratio * self.demand
    }
}

/// A vessel whose choice of ends does not depend on the ratio, worked out once.
#[derive(Clone, Debug)]
struct Fixed {
    sum: Sum,
    corner: Vec<(Var, End)>,
}

/// Finds the ends of a model.
pub(crate) struct Search<'m> {
    model: &'m Model,
    /// Which end of the superfat is sought: the low one wants the ratio large.
    end: End,
    pot: Option<Fixed>,
    lye: Option<Fixed>,
    divided: bool,
}

impl<'m> Search<'m> {
    pub(crate) fn new(model: &'m Model, end: End) -> Self {
        let divided = model.jugs.iter().any(|jug| matches!(jug.pot.or(jug.lye), Some(Intake::Weighed(_))));
        let mut search = Self { model, end, pot: None, lye: None, divided };
        search.pot = search.fixed(&model.pot);
        search.lye = search.fixed(&model.lye);
        search
    }

    /// As long as a vessel holds fat alone, or alkali alone, the mean of one kind is all that counts.
    fn fixed(&self, parts: &[Part]) -> Option<Fixed> {
        let fat = parts.iter().any(|part| part.rate.fat.is_some());
        let other = parts.iter().any(|part| part.rate.alkali.is_some() || part.rate.acid.is_some());
        if fat && other {
            return None;
        }
        let mut corner = Corner::List(Vec::with_capacity(parts.len().saturating_mul(2)));
        let sum = self.vessel(parts, Exact::ONE, &mut corner);
        let Corner::List(corner) = corner else { return None };
        Some(Fixed { sum, corner })
    }

    /// Whether `worth` is to be large.
    fn better(&self, worth: Exact) -> bool {
        match self.end {
            End::Low => worth.is_positive(),
            End::High => worth.is_negative(),
        }
    }

    fn value(&self, var: Var, end: End) -> Exact {
        self.model.inputs.get(var).map_or(Exact::ZERO, |input| match end {
            End::Low => input.low,
            End::High => input.high,
        })
    }

    /// What a gram does at its best ends for a ratio.
    fn rate(&self, rate: &Rate, ratio: Exact, corner: &mut Corner<'_>) -> Sum {
        let little_fat = ratio.is_negative() == (self.end == End::High);
        let fat_end = if little_fat { End::Low } else { End::High };
        let (for_alkali, for_acid) = match self.end {
            End::Low => (End::High, End::Low),
            End::High => (End::Low, End::High),
        };
        let mut sum = Sum { mass: Exact::ONE, ..NOTHING };
        if let Some((share, sv)) = rate.fat {
            corner.set(sv, fat_end);
            sum.demand = self.value(sv, fat_end) / Exact::THOUSAND;
            if let Some(share) = share {
                corner.set(share, fat_end);
                sum.demand = sum.demand * self.value(share, fat_end);
            }
        }
        if let Some((purity, koh)) = rate.alkali {
            corner.set(purity, for_alkali);
            sum.net = self.value(purity, for_alkali) * koh;
        }
        if let Some((share, koh)) = rate.acid {
            corner.set(share, for_acid);
            sum.net = sum.net - self.value(share, for_acid) * koh;
        }
        sum
    }

    /// A vessel: its best sum when all of it is used, its best mean when it is weighed out of.
    fn vessel(&self, parts: &[Part], ratio: Exact, corner: &mut Corner<'_>) -> Sum {
        let lines: Vec<(Var, Sum, Exact)> = parts
            .iter()
            .map(|part| {
                let rate = self.rate(&part.rate, ratio, corner);
                (part.mass, rate, rate.worth(ratio))
            })
            .collect();
        // The mean that a part is held against; nought where the parts simply add up.
        let mut mean = Exact::ZERO;
        let mut before: Vec<End> = Vec::new();
        for _ in 0..ROUNDS {
            let ends: Vec<End> = lines
                .iter()
                .map(|(_, _, worth)| if self.better(*worth - mean) { End::High } else { End::Low })
                .collect();
            if !self.divided || ends == before {
                before = ends;
                break;
            }
            let sum = self.total(&lines, &ends);
            mean = sum.worth(ratio) / sum.mass;
            before = ends;
        }
        for ((var, _, worth), end) in lines.iter().zip(&before) {
            if self.divided || !worth.is_zero() {
                corner.set(*var, *end);
            }
        }
        self.total(&lines, &before)
    }

    fn total(&self, lines: &[(Var, Sum, Exact)], ends: &[End]) -> Sum {
        let mut sum = NOTHING;
        for ((var, rate, _), end) in lines.iter().zip(ends) {
            let mass = self.value(*var, *end);
            sum.mass = sum.mass + mass;
            sum.net = add(sum.net, rate.net, mass);
            sum.demand = add(sum.demand, rate.demand, mass);
        }
        sum
    }

    /// The end of one jug, or of all of them together.
    pub(crate) fn extreme(&self, jugs: &[JugModel], start: Exact) -> Extreme {
        let mut ratio = start;
        let mut found: Vec<Option<End>> = Vec::new();
        for _ in 0..ROUNDS {
            let mut ends = vec![None; self.model.inputs.len()];
            let next = self.ratio(jugs, ratio, &mut ends);
            let same = ends == found && next.is_negative() == ratio.is_negative();
            found = ends;
            ratio = next;
            // Doses bring demand or take alkali, never the reverse: where no vessel depends on the ratio nothing does.
            let settled =
                self.pot.is_some() && self.lye.is_some() && next.is_positive() && start.is_positive();
            if same || next.decimal().is_none() || settled {
                break;
            }
        }
        Extreme { superfat: Exact::ONE - ratio, corner: found }
    }

    fn ratio(&self, jugs: &[JugModel], ratio: Exact, ends: &mut [Option<End>]) -> Exact {
        let corner = &mut Corner::Ends(ends);
        let mut vessel = |parts: &[Part], fixed: &Option<Fixed>| match fixed {
            Some(fixed) if ratio.is_positive() => {
                for (var, end) in &fixed.corner {
                    corner.set(*var, *end);
                }
                fixed.sum
            }
            _ => self.vessel(parts, ratio, corner),
        };
        let pot = vessel(&self.model.pot, &self.pot);
        let lye = vessel(&self.model.lye, &self.lye);
        let (mut net, mut demand) = (Exact::ZERO, Exact::ZERO);
        for jug in jugs {
            for (sum, share) in [(&pot, jug.pot), (&lye, jug.lye)] {
                let factor = match share {
                    None => continue,
                    Some(Intake::Weighed(var)) => {
                        let end = if self.better(sum.worth(ratio)) { End::High } else { End::Low };
                        corner.set(var, end);
                        self.value(var, end) / sum.mass
                    }
                    Some(Intake::AllBut(var)) => {
                        let end = if self.better(sum.worth(ratio)) { End::Low } else { End::High };
                        corner.set(var, end);
                        Exact::ONE - self.value(var, end)
                    }
                };
                net = add(net, sum.net, factor);
                demand = add(demand, sum.demand, factor);
            }
            for part in &jug.parts {
                let rate = self.rate(&part.rate, ratio, corner);
                let end = if self.better(rate.worth(ratio)) { End::High } else { End::Low };
                corner.set(part.mass, end);
                let mass = self.value(part.mass, end);
                net = add(net, rate.net, mass);
                demand = add(demand, rate.demand, mass);
            }
        }
        net / demand
    }
}

fn add(sum: Exact, rate: Exact, amount: Exact) -> Exact {
    if rate.is_zero() { sum } else { sum + rate * amount }
}

/// Where the chosen ends are noted.
enum Corner<'c> {
    List(Vec<(Var, End)>),
    Ends(&'c mut [Option<End>]),
}

impl Corner<'_> {
    fn set(&mut self, var: Var, end: End) {
        match self {
            Self::List(list) => list.push((var, end)),
            Self::Ends(ends) => {
                if let Some(slot) = ends.get_mut(var) {
                    *slot = Some(end);
                }
            }
        }
    }
}
