//! The smallest addition that brings superfat, fats and water back, in whole scale steps.
//!
//! Fat first: every fat must come within its tolerance of its share of all the fat, which for so much fat in all is a
//! lower and an upper bound on each; what the bounds leave free goes to the fats with the highest saponification value
//! when demand is short, else to those with the lowest. More fat in all never makes a bound tighter than its own room,
//! so that the least amount is found by halving. Then lye, if alkali is short for that fat, and at last water.

use crate::chemistry::AlkaliSplit;
use crate::material::Alkali;
use crate::quantity::{Exact, Mass, told_apart};

/// A fat of the recipe in a place.
#[derive(Clone, Debug)]
pub(super) struct Line {
    /// What is there, g.
    pub(super) there: Exact,
    /// Its share of all the fat as planned.
    pub(super) share: Exact,
    /// Grams of KOH that a gram demands.
    pub(super) demand: Exact,
}

/// What is in a place, and what it should be.
#[derive(Clone, Debug)]
pub(super) struct Case {
    pub(super) lines: Vec<Line>,
    /// Demand of all the fat, that of additives included, g KOH.
    pub(super) demand: Exact,
    /// Alkali less acids, g KOH.
    pub(super) net: Exact,
    /// Pure alkali, g.
    pub(super) alkali: Exact,
    pub(super) water: Exact,
    /// Lowest and highest superfat that will do.
    pub(super) superfat: (Exact, Exact),
    /// How far a fat's share may be off, either way; nothing when shares do not count.
    pub(super) share_within: Option<Exact>,
    /// Least water to a gram of pure alkali.
    pub(super) least_water: Exact,
    /// Scale step, g.
    pub(super) step: Exact,
    /// The alkali that fresh lye is made with, and its water to a gram of pure alkali.
    pub(super) split: AlkaliSplit,
    pub(super) fresh_water: Exact,
    /// Whether fat can still be added here.
    pub(super) fat_fits: bool,
    /// Whether alkali can be.
    pub(super) alkali_fits: bool,
    /// How much of what goes into the vessel of the lye reaches the jugs.
    pub(super) arrives: Exact,
    /// Lye that is not given out yet and follows the fat.
    pub(super) spare: Option<Spare>,
    /// The most that may be added, g.
    pub(super) room: Exact,
}

/// Lye that still follows the fat.
#[derive(Clone, Copy, Debug)]
pub(super) struct Spare {
    /// The superfat that it is given out for.
    pub(super) aimed: Exact,
    /// How much net alkali there is of it, g KOH; `None` as long as it is not made and follows without end.
    pub(super) most: Option<Exact>,
    /// Pure alkali and water that come with a gram of net alkali.
    pub(super) alkali: Exact,
    pub(super) water: Exact,
}

/// What to add, in whole scale steps.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Remedy {
    /// Of each fat line.
    pub(super) fats: Vec<Mass>,
    /// Alkali, as weighed, for fresh lye.
    pub(super) alkalis: Vec<(Alkali, Mass)>,
    /// Water, that of the fresh lye included.
    pub(super) water: Mass,
}

/// Why there is none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum NoRemedy {
    /// No mixture of the recipe's fats does it.
    Shares,
    /// It would, but not within the room that is left: so many grams are needed.
    Room(Exact),
    /// Not while lye still follows the fat.
    Waits,
    /// It would change what the other jugs get.
    Others,
}

impl NoRemedy {
    /// What the maker is told; `room` is how many grams can be added.
    pub(super) fn words(self, room: Exact) -> String {
        match self {
            Self::Shares => {
                "no addition of the recipe's fats, of lye and of water brings it within the tolerances"
                    .to_owned()
            }
            Self::Waits => {
                "its lye is not weighed out yet and follows its fat: weigh out its lye as planned, then look here again"
                    .to_owned()
            }
            Self::Others => {
                "what would be added here takes lye from the other jugs: weigh out their lye first".to_owned()
            }
            Self::Room(needed) => {
                let [needed, room] = [needed, room].map(|grams| grams.decimal().unwrap_or_default());
                let (needed, room) = told_apart(needed, room, 1);
                format!("{needed} g would have to be added, and there is room for {room} g")
            }
        }
    }
}

/// Most steps that are tried: a hundred kilograms on a scale of a tenth of a gram.
const MOST: i64 = 1_000_000;

impl Case {
    pub(super) fn remedy(&self) -> Result<Remedy, NoRemedy> {
        let least = Exact::ONE - self.superfat.0;
        // Alkali above what the lowest superfat allows asks for fat; below the highest for lye.
        let short_of_fat = (self.net - least * self.demand).is_positive();
        if short_of_fat && (self.spare.is_some() || !self.fat_fits) {
            return Err(NoRemedy::Waits);
        }
        let fats = self.fats(short_of_fat)?;
        let demand = self.demand_with(&fats);
        let given = self.spare.map_or(Exact::ZERO, |spare| {
            let wanted = (Exact::ONE - spare.aimed) * (demand - self.demand);
            spare.most.map_or(wanted, |most| wanted.min(most))
        });
        let per_net = |of: fn(&Spare) -> Exact| given * self.spare.as_ref().map_or(Exact::ZERO, of);
        let missing = (Exact::ONE - self.superfat.1) * demand - (self.net + given);
        let (alkalis, more, fresh) = if !missing.is_positive() {
            (Vec::new(), Exact::ZERO, Exact::ZERO)
        } else if self.alkali_fits {
            self.alkalis(missing / self.arrives)
        } else {
            return Err(NoRemedy::Waits);
        };
        let superfat = Exact::ONE - (self.net + given + more * self.arrives) / demand;
        // A scale step of alkali may carry past the lower end of narrow tolerances.
        if (self.superfat.0 - superfat).is_positive() {
            return Err(NoRemedy::Shares);
        }
        // Fresh lye gets the water that lye has; water is added beyond that where too little is there.
        let own = self.alkali_water(&alkalis);
        let of_lye = self.up((self.fresh_water * fresh - own).max(Exact::ZERO));
        let there = self.water + per_net(|spare| spare.water) + (own + of_lye.exact()) * self.arrives;
        let alkali = self.alkali + per_net(|spare| spare.alkali) + fresh * self.arrives;
        let water = of_lye + self.up((self.least_water * alkali - there).max(Exact::ZERO) / self.arrives);
        let remedy = Remedy { fats, alkalis, water };
        let total = remedy.total().exact();
        if (total - self.room).is_positive() { Err(NoRemedy::Room(total)) } else { Ok(remedy) }
    }

    /// Up to the next scale step. What is above a step by less than twelve decimals show is the rounding of a quotient.
    fn up(&self, grams: Exact) -> Mass {
        let grams = Exact::from(grams.published());
        let steps = (-grams).whole_steps(self.step).map_or(0, i64::saturating_neg);
        self.of_steps(steps)
    }

    fn of_steps(&self, steps: i64) -> Mass {
        Mass::try_new(self.step.times(steps)).unwrap_or(Mass::ZERO)
    }

    fn demand_with(&self, fats: &[Mass]) -> Exact {
        let added = self.lines.iter().zip(fats).map(|(line, mass)| line.demand * mass.exact());
        self.demand + added.sum()
    }

    /// Water that comes with alkali as it is weighed.
    fn alkali_water(&self, alkalis: &[(Alkali, Mass)]) -> Exact {
        let of = |(alkali, mass): &(Alkali, Mass)| {
            let grade = self.split.grade(*alkali);
            grade.map_or(Exact::ZERO, |grade| crate::chemistry::carbonate_and_water(mass.exact(), grade).1)
        };
        alkalis.iter().map(of).sum()
    }

    /// Alkali that is missing, in steps; in grams of KOH, and how much pure alkali it is.
    fn alkalis(&self, missing: Exact) -> (Vec<(Alkali, Mass)>, Exact, Exact) {
        let weighed = self.split.weighed(missing);
        let mut alkalis = Vec::with_capacity(2);
        let (mut net, mut fresh) = (Exact::ZERO, Exact::ZERO);
        for alkali in Alkali::ALL {
            let (Some(grade), true) = (self.split.grade(alkali), weighed.of(alkali).is_positive()) else {
                continue;
            };
            let mass = self.up(weighed.of(alkali));
            let pure = mass.exact() * grade.purity.exact();
            net = net + pure * Alkali::PotassiumHydroxide.molar_mass() / alkali.molar_mass();
            fresh = fresh + pure;
            alkalis.push((alkali, mass));
        }
        (alkalis, net, fresh)
    }

    /// The least fat, in steps.
    fn fats(&self, short: bool) -> Result<Vec<Mass>, NoRemedy> {
        let steps_of = |steps: Vec<i64>| steps.into_iter().map(|steps| self.of_steps(steps)).collect();
        if let Some(steps) = self.shared(0, short) {
            return Ok(steps_of(steps));
        }
        if !self.fat_fits {
            return Err(NoRemedy::Shares);
        }
        let (mut low, mut high) = (0_i64, 1_i64);
        while self.shared(high, short).is_none() {
            (low, high) = (high, high.saturating_mul(2));
            if high > MOST {
                return Err(NoRemedy::Shares);
            }
        }
        while high.saturating_sub(low) > 1 {
            let middle = i64::midpoint(low, high);
            if self.shared(middle, short).is_some() { high = middle } else { low = middle }
        }
        // Whole steps make the way down uneven by a step or so for each fat.
        let fewer = (1..=4).rev().map(|less| high.saturating_sub(less)).filter(|steps| *steps >= 0);
        let least = fewer.into_iter().find(|steps| self.shared(*steps, short).is_some()).unwrap_or(high);
        self.shared(least, short).map(steps_of).ok_or(NoRemedy::Shares)
    }

    /// So many steps of fat, shared among the lines so that all is within its bounds; nothing when that cannot be.
    fn shared(&self, steps: i64, short: bool) -> Option<Vec<i64>> {
        let there: Exact = self.lines.iter().map(|line| line.there).sum();
        let whole = there + self.step.times(steps);
        let mut given = Vec::with_capacity(self.lines.len());
        let mut free = steps;
        for line in &self.lines {
            let (least, most) = match self.share_within {
                Some(within) => {
                    let least = (line.share - within).max(Exact::ZERO) * whole - line.there;
                    let most = (line.share + within) * whole - line.there;
                    let least = (-least).whole_steps(self.step)?.saturating_neg().max(0);
                    let most = most.whole_steps(self.step)?;
                    // A fat that the recipe does not have is not added.
                    (least, if line.share.is_zero() { most.min(0) } else { most })
                }
                None if line.share.is_zero() => (0, 0),
                None => (0, steps),
            };
            if most < least {
                return None;
            }
            free = free.checked_sub(least)?;
            given.push((least, most));
        }
        if free < 0 {
            return None;
        }
        let mut order: Vec<usize> = (0..self.lines.len()).collect();
        order.sort_by_key(|index| self.lines.get(*index).and_then(|line| line.demand.decimal()));
        if short {
            order.reverse();
        }
        for index in order {
            if let Some((least, most)) = given.get_mut(index) {
                let more = most.saturating_sub(*least).min(free);
                *least = least.saturating_add(more);
                free = free.saturating_sub(more);
            }
        }
        if free > 0 {
            return None;
        }
        let fats: Vec<i64> = given.into_iter().map(|(steps, _)| steps).collect();
        let masses: Vec<Mass> = fats.iter().map(|steps| self.of_steps(*steps)).collect();
        let enough = (Exact::ONE - self.superfat.0) * self.demand_with(&masses) - self.net;
        (!short || !enough.is_negative()).then_some(fats)
    }
}

impl Remedy {
    /// This and more.
    pub(super) fn add(&mut self, more: Self) {
        self.fats.resize(more.fats.len().max(self.fats.len()), Mass::ZERO);
        for (mass, more) in self.fats.iter_mut().zip(more.fats) {
            *mass += more;
        }
        for (alkali, mass) in more.alkalis {
            match self.alkalis.iter_mut().find(|(known, _)| *known == alkali) {
                Some((_, known)) => *known += mass,
                None => self.alkalis.push((alkali, mass)),
            }
        }
        self.water += more.water;
    }

    pub(super) fn total(&self) -> Mass {
        let alkali: Mass = self.alkalis.iter().map(|(_, mass)| *mass).sum();
        self.fats.iter().copied().sum::<Mass>() + alkali + self.water
    }
}
