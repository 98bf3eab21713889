//! Putting a batch right: the smallest addition that brings a place back, or what is safe when nothing can.
//!
//! Something that went in cannot be taken out. So what can be done is to add the others: fats of the recipe, lye, water.
//! As long as the lye is not divided that is one correction of the pot and of the lye, from which every jug gets its part;
//! after that it is each jug's own. Each offer is made with those before it recorded, so that they hold one by one and all
//! together. No advice given here lets soap be sold, given away or used that may hold free alkali.

use super::Batch;
use super::found::Place;
use super::hold;
use super::mend::{Mend, Verdict};
use super::outcome::{Correction, Outcome, Safe, Tolerances};
use super::refuse::impossible;
use super::remedy::NoRemedy;
use super::replan::LYE;
use crate::certainty::{self, Figures};
use crate::chemistry::Tally;
use crate::problem::Problem;
use crate::quantity::{Exact, Share};
use crate::recipe::Purpose;

/// A place, and what can be done about it.
type Done = (Place, Mend);

impl Batch {
    /// What to do about a jug, named by itself or by a layer of it, or without a name about the whole batch. Where it takes
    /// a correction of the pot or the lye as well, that is part of it.
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
    /// // Doing what is offered brings what is promised.
    /// let Outcome::Additions { additions, superfat, .. } = correction.remedy else { panic!() };
    /// for add in additions {
    ///     batch.record(Event::Added { item: add.item, vessel: add.vessel, mass: add.mass }).unwrap();
    /// }
    /// assert_eq!(batch.plan().jugs[2].superfat, superfat);
    /// ```
    ///
    /// # Errors
    /// `event.unknown` when no jug and no layer has this name, `event.impossible` when a figure is beyond what can be
    /// computed.
    pub fn correct(&self, place: Option<&str>, tolerances: &Tolerances) -> Result<Correction, Problem> {
        match place {
            Some(name) => self.correct_jug(self.jug_named(name)?, tolerances),
            None => self.correct_batch(tolerances),
        }
    }

    /// What to do about the batch: as long as the lye is not divided the one correction of pot and lye, and after it what a
    /// jug needs by itself; then about every jug that is not poured yet. Each is to be done after those before it.
    ///
    /// # Errors
    /// As [`correct`](Self::correct).
    pub fn correct_all(&self, tolerances: &Tolerances) -> Result<Vec<Correction>, Problem> {
        let done = self.mends(tolerances, None)?;
        let of_batch =
            done.iter().any(|(place, mend)| *place == Place::Batch && !mend.additions().is_empty());
        let told = done.iter().filter(|(place, mend)| match (place, &mend.verdict) {
            (Place::Batch, Verdict::Nothing) => false,
            (Place::Batch, _) => true,
            // What the correction of the batch brings back is told there.
            (Place::Jug(_), Verdict::Nothing) => !of_batch,
            (Place::Jug(_), _) => true,
        });
        told.map(|done| self.told(&[done])).collect()
    }

    fn jug_named(&self, name: &str) -> Result<usize, Problem> {
        let by_name = self.plan.jugs.iter().position(|jug| jug.name == name);
        let of_layer = || self.plan.layers.iter().find(|layer| layer.name == name).map(|layer| layer.jug);
        by_name.or_else(of_layer).ok_or_else(|| Problem {
            code: "event.unknown",
            pointer: String::new(),
            message: format!("no jug and no layer has the name {name:?}"),
            advice: "use the name of a jug or a layer of the plan".to_owned(),
        })
    }

    fn correct_jug(&self, index: usize, tolerances: &Tolerances) -> Result<Correction, Problem> {
        if let Some(closed) = self.closed(index) {
            let mend = self.mend(Place::Jug(index), tolerances, Some(&closed))?;
            return self.told(&[&(Place::Jug(index), mend)]);
        }
        let done = self.mends(tolerances, Some(index))?;
        let its = |place: Place, mend: &Mend| {
            place == Place::Jug(index) || (place == Place::Batch && !mend.additions().is_empty())
        };
        self.told(&done.iter().filter(|(place, mend)| its(*place, mend)).collect::<Vec<_>>())
    }

    fn correct_batch(&self, tolerances: &Tolerances) -> Result<Correction, Problem> {
        let done = self.mends(tolerances, None)?;
        let of_batch = match done.first() {
            Some((Place::Batch, mend)) => Some(&mend.verdict),
            _ => None,
        };
        let alone = done.iter().any(|(place, mend)| {
            matches!(place, Place::Jug(_))
                && matches!(mend.verdict, Verdict::Additions { .. } | Verdict::Cannot(_))
        });
        let closed = match (of_batch, alone) {
            (None | Some(Verdict::Nothing), true) => {
                Some("what is wrong is not the same in every jug: correct each jug")
            }
            _ => None,
        };
        if let Some(reason) = closed {
            let mend = Mend { verdict: Verdict::Cannot(reason.to_owned()), after: self.clone() };
            return self.told(&[&(Place::Batch, mend)]);
        }
        match done.first() {
            Some(first @ (Place::Batch, _)) => self.told(&[first]),
            _ => {
                let mend = self.mend(
                    Place::Batch,
                    tolerances,
                    Some("the batch is divided already: correct each jug"),
                )?;
                self.told(&[&(Place::Batch, mend)])
            }
        }
    }

    /// What can be done, one after another, each with those before it done: the batch as long as the lye is not divided,
    /// then every jug that is not poured from yet, or `only` one: what it is told does not rest on what others are offered.
    fn mends(&self, tolerances: &Tolerances, only: Option<usize>) -> Result<Vec<Done>, Problem> {
        let mut done: Vec<Done> = Vec::new();
        let mut now = self.clone();
        let mut first = self.clone();
        let mut add = |place, tolerances: &Tolerances, closed: Option<&str>| -> Result<(), Problem> {
            let mut mend = now.mend(place, tolerances, closed)?;
            match place {
                Place::Batch => first = mend.after.clone(),
                // Lye that is not weighed out yet may be divided otherwise once the other jugs are put right.
                Place::Jug(jug) if !first.brings_as_much(jug, &mend) => {
                    let reason = NoRemedy::Others.words(Exact::ZERO);
                    mend = Mend { verdict: Verdict::Cannot(reason), after: now.clone() };
                }
                Place::Jug(_) => {}
            }
            now = mend.after.clone();
            done.push((place, mend));
            Ok(())
        };
        // What its fats are is the same in every jug, and told of the batch.
        let of_jug = Tolerances { fats: tolerances.fats.filter(|_| self.is_divided(LYE)), ..*tolerances };
        if !self.is_divided(LYE) {
            add(Place::Batch, tolerances, None)?;
        }
        let asked = |index: usize| only.is_none_or(|only| only == index);
        for (index, jug) in self.plan.jugs.iter().enumerate().filter(|(index, _)| asked(*index)) {
            let mut layers = jug.layers.iter().filter_map(|layer| self.plan.layers.get(*layer));
            if layers.any(|layer| !self.is_poured(&layer.name)) {
                add(Place::Jug(index), &of_jug, self.closed(index).as_deref())?;
            }
        }
        Ok(done)
    }

    /// Whether what is offered for a jug brings the same without the offers for others.
    fn brings_as_much(&self, jug: usize, mend: &Mend) -> bool {
        let tally = |batch: &Self| batch.plan.jugs.get(jug).map(|jug| jug.tally);
        let alone = self.with(mend.additions());
        mend.additions().is_empty() || alone.is_ok_and(|alone| tally(&alone) == tally(&mend.after))
    }

    /// Why nothing can be added to a jug any more.
    fn closed(&self, index: usize) -> Option<String> {
        let layers = &self.plan.jugs.get(index)?.layers;
        let names = layers.iter().filter_map(|layer| self.plan.layers.get(*layer)).map(|layer| &*layer.name);
        let poured: Vec<&str> = names.filter(|name| self.is_poured(name)).collect();
        (!poured.is_empty()).then(|| {
            format!("{} is poured already, and what is added now would not reach it", poured.join(", "))
        })
    }

    /// What is said about the last of these places, when all of them are done in order.
    fn told(&self, done: &[&Done]) -> Result<Correction, Problem> {
        let (place, mend) = done.last().ok_or_else(impossible)?;
        let found = self.found(*place)?;
        let share = |share: Exact| Share::try_new(share).map_err(|_| impossible());
        let aimed = share(found.aimed())?;
        let before = self.sure(*place)?;
        let after = mend.after.sure(*place)?;
        let mut notes = self.notes(*place, &found.tally);
        let additions: Vec<_> = done.iter().flat_map(|(_, mend)| mend.additions()).cloned().collect();
        let shares =
            |mend: &Mend| matches!(mend.verdict, Verdict::Nothing | Verdict::Additions { shares: true, .. });
        let remedy = match &mend.verdict {
            Verdict::Cannot(reason) => Outcome::Cannot { reasons: vec![reason.clone()] },
            Verdict::SharesOnly(reason) if additions.is_empty() => {
                notes.push("superfat and water are within their tolerances; the shares of the fats are not, and cannot be brought back".to_owned());
                Outcome::Cannot { reasons: vec![reason.clone()] }
            }
            Verdict::Nothing if additions.is_empty() => Outcome::Nothing,
            _ => {
                let shares = done.iter().all(|(_, mend)| shares(mend));
                if !shares {
                    notes.push(
                        "the shares of the fats cannot be brought back: it becomes a bar of another recipe"
                            .to_owned(),
                    );
                }
                Outcome::Additions { additions, superfat: after.superfat, shares }
            }
        };
        let jug = match place {
            Place::Batch => None,
            Place::Jug(index) => Some(self.plan.jugs.get(*index).ok_or_else(impossible)?),
        };
        let planned = jug.map_or(aimed, |jug| hold::planned_for(jug, &self.planned));
        let safe = safe(planned, &after, &remedy);
        if self.recipe.purpose == Purpose::Sale {
            notes.extend(for_sale(&remedy, &safe));
        }
        let place = jug.map_or_else(|| "batch".to_owned(), |jug| jug.name.clone());
        let guaranteed = (before.guaranteed.low, before.guaranteed.high);
        Ok(Correction { place, aimed, superfat: before.superfat, guaranteed, remedy, safe, notes })
    }

    /// How sure the superfat of a place is.
    fn sure(&self, place: Place) -> Result<Figures, Problem> {
        let certainty = self.certainty().ok_or_else(impossible)?;
        let mut jugs = certainty.jugs.into_iter();
        let figures = match place {
            Place::Batch => Some(certainty.batch),
            Place::Jug(index) => jugs.nth(index).map(|jug| jug.figures),
        };
        figures.ok_or_else(impossible)
    }

    /// What else to know about a place.
    fn notes(&self, place: Place, tally: &Tally) -> Vec<String> {
        let mut notes = Vec::new();
        let jugs = match place {
            Place::Batch => self.plan.jugs.as_slice(),
            Place::Jug(index) => self.plan.jugs.get(index).map(std::slice::from_ref).unwrap_or_default(),
        };
        let waits = jugs.iter().any(|jug| !self.has_lye(&jug.name));
        let over = self.plan.lye.left - self.truth().workshop.lye_residue;
        let coarsest = self.plan.jugs.iter().map(|jug| jug.lye.scale).max();
        let step = coarsest.and_then(|scale| self.plan.scales.get(scale));
        if waits && step.is_some_and(|scale| over >= scale.step) {
            notes.push(format!(
                "{over} of the lye stays over: weigh each jug its own, and do not pour the rest in"
            ));
        }
        for jug in jugs {
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
        let koh = tally.potassium_hydroxide / tally.alkali().as_koh();
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

/// What is safe with a place once what is offered is done. Soap that is held is tested or thrown away; soap that may hold
/// free alkali by the ranges of what went in is tested.
fn safe(planned: Share, figures: &Figures, remedy: &Outcome) -> Vec<Safe> {
    let held = hold::is_held(planned, figures);
    match (figures.verdict, remedy) {
        (certainty::Verdict::LyeHeavy, _) => vec![Safe::Discard],
        (_, Outcome::Cannot { .. }) if held && figures.superfat < Share::ZERO => {
            vec![Safe::Hold, Safe::Test, Safe::Discard]
        }
        _ if held => vec![Safe::Hold, Safe::Test],
        (certainty::Verdict::MayBeLyeHeavy, _) => vec![Safe::Test],
        (certainty::Verdict::FatLeft, _) => Vec::new(),
    }
}
