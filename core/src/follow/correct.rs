//! Putting a batch right: the smallest addition that brings a place back, or what is safe when nothing can.
//!
//! Something that went in cannot be taken out. So what can be done is to add the others: fats of the recipe, lye, water.
//! No advice given here lets soap be sold, given away or used that may hold free alkali.

use super::Batch;
use super::outcome::{Addition, Correction, Outcome, Safe, Tolerances};
use super::remedy::{Case, Line, NoRemedy, Remedy, Spare};
use crate::batch::JugPlan;
use crate::certainty::Verdict;
use crate::chemistry::{AlkaliSplit, Outline, Tally};
use crate::material::Fat;
use crate::problem::Problem;
use crate::quantity::{Exact, Mass, Share};
use crate::recipe::{FatStage, Ingredient, Purpose};

/// What is in a place.
struct Found {
    name: String,
    tally: Tally,
    planned: Outline,
    low: Share,
    high: Share,
    verdict: Verdict,
    /// Of each fat: which, how much is there, its share as planned.
    fats: Vec<(Fat, Exact, Exact)>,
    /// Why nothing can be added; empty when something can.
    closed: Vec<String>,
    /// Whether the lye still follows what is in the pot.
    waits: bool,
}

impl Batch {
    /// What to do about a jug, named by itself or by a layer of it, or without a name about the whole batch.
    ///
    /// Of a jug that a layer was poured from nothing is added to the rest: the plan knows one mixture to a jug, and the rest
    /// would no longer be that of the layer that is poured. What is safe then is said all the same.
    ///
    /// ```
    /// use lamella::follow::{Batch, Event, Outcome, Tolerances};
    /// let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
    /// let mut batch = Batch::new(recipe).unwrap();
    /// // A third more lye than planned went into one jug.
    /// let lye = batch.plan().jugs[2].lye.weighed;
    /// let name = batch.plan().jugs[2].name.clone();
    /// let more = "110 g".parse().unwrap();
    /// batch.record(Event::Weighed { item: "lye".to_owned(), vessel: Some(name.clone()), mass: more }).unwrap();
    /// assert!(lye < more);
    /// let correction = batch.correct(Some(&name), &Tolerances::default()).unwrap();
    /// assert!(correction.superfat < correction.aimed);
    /// assert!(!matches!(correction.remedy, Outcome::Nothing));
    /// ```
    ///
    /// # Errors
    /// `event.unknown` when no jug and no layer has this name, `event.impossible` when a figure is beyond what can be
    /// computed.
    pub fn correct(&self, place: Option<&str>, tolerances: &Tolerances) -> Result<Correction, Problem> {
        let found = match place {
            Some(name) => self.found_jug(name)?,
            None => self.found_batch()?,
        };
        self.judge(&found, tolerances).ok_or_else(super::refuse::impossible)
    }

    /// What to do about every jug that is not poured yet.
    ///
    /// # Errors
    /// As [`correct`](Self::correct).
    pub fn correct_all(&self, tolerances: &Tolerances) -> Result<Vec<Correction>, Problem> {
        let open = self.plan.jugs.iter().filter(|jug| {
            let mut layers = jug.layers.iter().filter_map(|layer| self.plan.layers.get(*layer));
            layers.any(|layer| !self.is_poured(&layer.name))
        });
        open.map(|jug| self.correct(Some(&jug.name), tolerances)).collect()
    }

    fn found_jug(&self, name: &str) -> Result<Found, Problem> {
        let index = self
            .plan
            .jugs
            .iter()
            .position(|jug| jug.name == name)
            .or_else(|| self.plan.layers.iter().find(|layer| layer.name == name).map(|layer| layer.jug));
        let found = index.and_then(|index| Some((index, self.plan.jugs.get(index)?)));
        let Some((index, jug)) = found else {
            return Err(Problem {
                code: "event.unknown",
                pointer: String::new(),
                message: format!("no jug and no layer has the name {name:?}"),
                advice: "use the name of a jug or a layer of the plan".to_owned(),
            });
        };
        let certainty = self.certainty().ok_or_else(super::refuse::impossible)?;
        let figures = &certainty.jugs.get(index).ok_or_else(super::refuse::impossible)?.figures;
        let names = jug.layers.iter().filter_map(|layer| self.plan.layers.get(*layer));
        let poured: Vec<&str> =
            names.map(|layer| layer.name.as_str()).filter(|name| self.is_poured(name)).collect();
        let closed = match poured.as_slice() {
            [] => Vec::new(),
            names => vec![format!(
                "{} is poured already, and what is added now would not reach it",
                names.join(", ")
            )],
        };
        Ok(Found {
            name: jug.name.clone(),
            tally: jug.tally,
            planned: self.base.planned(&jug.name).ok_or_else(super::refuse::impossible)?,
            low: figures.guaranteed.low,
            high: figures.guaranteed.high,
            verdict: figures.verdict,
            fats: self.fats_in(std::slice::from_ref(jug)),
            closed,
            waits: !self.has_lye(&jug.name),
        })
    }

    fn found_batch(&self) -> Result<Found, Problem> {
        let certainty = self.certainty().ok_or_else(super::refuse::impossible)?;
        let figures = &certainty.batch;
        let divided = self.ledger.fixed.keys().any(|(jug, _)| jug.is_some());
        let closed = if divided {
            vec!["the batch is divided already: correct each jug".to_owned()]
        } else {
            Vec::new()
        };
        Ok(Found {
            name: "batch".to_owned(),
            tally: self.plan.jugs.iter().fold(Tally::EMPTY, |sum, jug| sum.plus(&jug.tally)),
            planned: (self.plan.jugs.iter())
                .filter_map(|jug| self.base.planned(&jug.name))
                .fold(Outline::EMPTY, |sum, jug| sum.plus(&jug)),
            low: figures.guaranteed.low,
            high: figures.guaranteed.high,
            verdict: figures.verdict,
            fats: self.fats_in(&self.plan.jugs),
            closed,
            waits: !divided,
        })
    }

    /// The fats of the recipe in these jugs, and those that came in beside.
    fn fats_in(&self, jugs: &[JugPlan]) -> Vec<(Fat, Exact, Exact)> {
        let truth = self.truth();
        let whole: Exact = self.base.fat_parts().iter().copied().sum();
        let mut fats: Vec<(Fat, Exact, Exact)> = (self.recipe.fats.iter().zip(self.base.fat_parts()))
            .map(|(line, part)| (line.fat.clone(), Exact::ZERO, *part / whole))
            .collect();
        let from_pot: Exact = jugs.iter().map(|jug| jug.portion.weighed.exact()).sum();
        let pot = self.plan.pot.total.exact();
        let mut add = |fat: &Fat, mass: Exact| match fats.iter_mut().find(|(known, ..)| known.id == fat.id) {
            Some((_, there, _)) => *there = *there + mass,
            None => fats.push((fat.clone(), mass, Exact::ZERO)),
        };
        let in_pot = truth.fats.iter().filter(|line| line.stage == FatStage::Pot);
        for (line, item) in in_pot.zip(&self.plan.pot.fats) {
            add(&line.fat, item.weighed.exact() * from_pot / pot);
        }
        let held: Vec<&Fat> = (truth.fats.iter().filter(|line| line.stage == FatStage::AfterCook))
            .map(|line| &line.fat)
            .collect();
        for jug in jugs {
            for (fat, item) in held.iter().zip(&jug.held) {
                add(fat, item.weighed.exact());
            }
        }
        // Only fat that was added counts beside the lines: a dose of fat that was planned is part of the plan.
        let added = |pointer: &str| pointer.starts_with("/events/");
        for (dose, item) in truth.pot.iter().zip(&self.plan.pot.doses) {
            if let (Ingredient::Fat(fat), true) = (&dose.ingredient, added(&dose.pointer)) {
                add(fat, item.weighed.exact() * from_pot / pot);
            }
        }
        let doses = truth.layers.iter().flat_map(|layer| &layer.doses);
        let doses: Vec<_> = doses.chain(truth.jugs.iter().flat_map(|jug| &jug.doses)).collect();
        for item in jugs.iter().flat_map(|jug| jug.doses.iter().chain(&jug.late_doses)) {
            let dose = doses.iter().find(|dose| dose.pointer == item.pointer && added(&dose.pointer));
            if let Some(Ingredient::Fat(fat)) = dose.map(|dose| &dose.ingredient) {
                add(fat, item.weighed.exact());
            }
        }
        fats
    }

    fn judge(&self, found: &Found, tolerances: &Tolerances) -> Option<Correction> {
        let aimed = Share::try_new(found.planned.superfat()).ok()?;
        let superfat = Share::try_new(found.tally.superfat()).ok()?;
        let case = self.case(found, aimed, tolerances)?;
        let whole = case.remedy();
        let mut notes = self.notes(found);
        let as_it_is = |remedy: &Remedy| remedy.total().is_zero();
        let remedy = if whole.as_ref().is_ok_and(as_it_is) {
            Outcome::Nothing
        } else if !found.closed.is_empty() {
            Outcome::Cannot { reasons: found.closed.clone() }
        } else {
            let partly = Case { share_within: None, ..case.clone() }.remedy();
            match (whole, partly) {
                (Ok(remedy), _) => add(&remedy, found, true)?,
                (Err(_), Ok(remedy)) if as_it_is(&remedy) => {
                    notes.push("superfat and water are within their tolerances; the shares of the fats are not, and cannot be brought back".to_owned());
                    Outcome::Cannot { reasons: vec![self.reason(&case)] }
                }
                (Err(_), Ok(remedy)) => {
                    notes.push(
                        "the shares of the fats cannot be brought back: it becomes a bar of another recipe"
                            .to_owned(),
                    );
                    add(&remedy, found, false)?
                }
                (Err(_), Err(none)) => Outcome::Cannot { reasons: vec![none.words(&case)] },
            }
        };
        let safe = safe(found, &remedy);
        if self.recipe.purpose == Purpose::Sale {
            notes.extend(for_sale(&remedy, &safe));
        }
        Some(Correction {
            place: found.name.clone(),
            aimed,
            superfat,
            guaranteed: (found.low, found.high),
            remedy,
            safe,
            notes,
        })
    }

    fn case(&self, found: &Found, aimed: Share, tolerances: &Tolerances) -> Option<Case> {
        let (tally, planned) = (&found.tally, &found.planned);
        let water_to_alkali = planned.water / (planned.alkali_koh * self.base.split.pure(Exact::ONE).total());
        // An alkali that was the other one is not what more lye should be made of.
        let choice = if self.ledger.is.is_empty() { self.truth().alkali } else { self.recipe.alkali };
        let kept = Exact::ONE - tolerances.water.exact();
        let lye = self.base.water_to_alkali();
        let lines = found.fats.iter().map(|(fat, there, share)| Line {
            there: *there,
            share: *share,
            demand: fat.saponification_value.typical.exact() / Exact::THOUSAND,
        });
        let scale = self.plan.jugs.first()?.portion.scale;
        Some(Case {
            lines: lines.collect(),
            demand: tally.fat_demand(),
            net: tally.alkali().as_koh() - tally.acid_demand,
            alkali: tally.alkali().total(),
            water: tally.water,
            superfat: (
                // A tolerance never reaches into lye-heavy soap.
                (aimed.exact() - tolerances.superfat.exact()).max(Exact::ZERO),
                (aimed.exact() + tolerances.superfat.exact()).max(Exact::ZERO),
            ),
            share_within: tolerances.fats.map(Share::exact),
            least_water: water_to_alkali * kept,
            step: self.plan.scales.get(scale)?.step.exact(),
            split: AlkaliSplit::of(&choice),
            fresh_water: lye,
            spare: found.waits.then(|| self.spare(aimed.exact())),
            room: self.room(tally),
        })
    }

    /// Lye that is not given out yet.
    fn spare(&self, aimed: Exact) -> Spare {
        let lye = &self.plan.lye;
        let koh = lye.tally.alkali().as_koh();
        let made = lye.alkalis.iter().any(|item| self.is_reported(&item.pointer));
        let over = (lye.left - self.truth().workshop.lye_residue).max(Mass::ZERO);
        Spare {
            aimed,
            most: made.then(|| over.exact() * koh / lye.total.exact()),
            alkali: lye.tally.alkali().total() / koh,
            water: lye.tally.water / koh,
        }
    }

    /// Grams that can be added: what the moulds still take up to their brims beside all that is planned, and never more
    /// than there is already, for then it is a new batch.
    fn room(&self, tally: &Tally) -> Exact {
        let there = tally.mass();
        if self.recipe.moulds.is_empty() {
            return there;
        }
        let brim: Exact = (self.recipe.moulds.iter())
            .map(|mould| mould.shape().volume().exact() * Exact::from(i64::from(mould.count())))
            .sum();
        let planned: Exact = self.plan.layers.iter().map(|layer| layer.volume.exact()).sum();
        ((brim - planned).max(Exact::ZERO) * there / tally.volume).min(there)
    }

    fn reason(&self, case: &Case) -> String {
        case.remedy().err().unwrap_or(NoRemedy::Shares).words(case)
    }

    /// What else to know about a place.
    fn notes(&self, found: &Found) -> Vec<String> {
        let mut notes = Vec::new();
        let over = self.plan.lye.left - self.truth().workshop.lye_residue;
        let step = self.plan.jugs.first().and_then(|jug| self.plan.scales.get(jug.portion.scale));
        if found.waits && step.is_some_and(|scale| over >= scale.step) {
            notes.push(format!(
                "{over} of the lye stays over: weigh each jug its own, and do not pour the rest in"
            ));
        }
        let doses = self.plan.jugs.iter().filter(|jug| found.name == jug.name || found.name == "batch");
        for jug in doses {
            for item in jug.doses.iter().chain(&jug.late_doses) {
                let planned = item.ideal.exact();
                if (item.weighed.exact() - planned * Exact::literal(15, 1)).is_positive()
                    && planned.is_positive()
                {
                    notes.push(format!(
                        "{}: {} of {} where {} was planned; it cannot be taken out, and the superfat above reckons with it",
                        jug.name,
                        item.weighed,
                        item.name,
                        crate::quantity::fixed(item.ideal.value(), 2)
                    ));
                }
            }
        }
        let koh = found.tally.potassium_hydroxide / found.tally.alkali().as_koh();
        let planned = self.base.split.potassium_moles;
        if (koh - planned - Exact::literal(5, 2)).is_positive() {
            let percent = (koh * Exact::HUNDRED).rounded(0).unwrap_or_default();
            notes.push(format!(
                "{percent} % of its soap is potassium soap, which stays softer and takes up water"
            ));
        }
        notes
    }
}

fn add(remedy: &Remedy, found: &Found, shares: bool) -> Option<Outcome> {
    let mut additions = Vec::new();
    for ((fat, ..), mass) in found.fats.iter().zip(&remedy.fats) {
        if !mass.is_zero() {
            additions.push(Addition { item: fat.id.to_string(), name: fat.name.to_string(), mass: *mass });
        }
    }
    for (alkali, mass) in &remedy.alkalis {
        additions.push(Addition {
            item: alkali.id().to_owned(),
            name: alkali.name().to_owned(),
            mass: *mass,
        });
    }
    if !remedy.water.is_zero() {
        additions.push(Addition { item: "water".to_owned(), name: "Water".to_owned(), mass: remedy.water });
    }
    Some(Outcome::Additions { additions, superfat: Share::try_new(remedy.superfat).ok()?, shares })
}

/// What to know about a batch that was for sale.
fn for_sale(remedy: &Outcome, safe: &[Safe]) -> Option<String> {
    match (remedy, safe) {
        (Outcome::Nothing, []) => None,
        (_, []) => Some(
            "it is not what was assessed: ask the assessor whether the report still covers it before it is sold"
                .to_owned(),
        ),
        _ => Some("it was meant for sale: it must not be sold or given away as it is".to_owned()),
    }
}

/// Soap that may hold free alkali is held and tested; soap that must hold some is thrown away, unless what is added
/// takes it up. What was put right is tested all the same where its ranges reach below nought.
fn safe(found: &Found, remedy: &Outcome) -> Vec<Safe> {
    let risky = found.verdict != Verdict::FatLeft;
    match remedy {
        Outcome::Nothing if risky => vec![Safe::Hold, Safe::Test],
        Outcome::Nothing => Vec::new(),
        Outcome::Cannot { .. } => match found.verdict {
            Verdict::LyeHeavy => vec![Safe::Discard],
            Verdict::MayBeLyeHeavy if found.tally.superfat().is_negative() => {
                vec![Safe::Hold, Safe::Test, Safe::Discard]
            }
            Verdict::MayBeLyeHeavy => vec![Safe::Hold, Safe::Test],
            Verdict::FatLeft => Vec::new(),
        },
        Outcome::Additions { superfat, .. } => {
            // The lower end moves with the superfat, or in proportion to alkali over demand; the worse of both is taken.
            let (low, before, after) = (found.low.exact(), found.tally.superfat(), superfat.exact());
            let in_proportion =
                Exact::ONE - (Exact::ONE - low) * (Exact::ONE - after) / (Exact::ONE - before);
            if (low + after - before).min(in_proportion).is_negative() {
                vec![Safe::Hold, Safe::Test]
            } else {
                Vec::new()
            }
        }
    }
}
