//! Finding what to add by doing it: each offer is recorded in a copy of the batch, and what it is said to bring is read
//! off the plan of that copy. An offer that does not bring it is never made.

use super::Batch;
use super::event::Event;
use super::found::{Found, Place};
use super::outcome::{Addition, Tolerances};
use super::refuse::impossible;
use super::remedy::{NoRemedy, Remedy};
use crate::problem::Problem;
use crate::quantity::Share;

/// How often an offer is made larger before it is given up. What lye and water do on their way through their vessel is
/// met by the second round; the rest is for scale steps.
const ROUNDS: usize = 8;

/// What can be done about a place.
pub(super) struct Mend {
    pub(super) verdict: Verdict,
    /// The batch with all of it done.
    pub(super) after: Batch,
}

/// Whether something is to be done, and can be.
pub(super) enum Verdict {
    /// It is within the tolerances.
    Nothing,
    /// These bring it back; not the shares of the fats, where `shares` is false.
    Additions { additions: Vec<Addition>, shares: bool },
    /// Superfat and water are within their tolerances, and the shares of the fats cannot be brought back.
    SharesOnly(String),
    /// Nothing brings it back, and why.
    Cannot(String),
}

impl Mend {
    pub(super) fn additions(&self) -> &[Addition] {
        match &self.verdict {
            Verdict::Additions { additions, .. } => additions,
            _ => &[],
        }
    }
}

impl Batch {
    /// What brings a place back. `closed` says why nothing can be added there.
    pub(super) fn mend(
        &self,
        place: Place,
        tolerances: &Tolerances,
        closed: Option<&str>,
    ) -> Result<Mend, Problem> {
        let as_it_is = |verdict| Mend { verdict, after: self.clone() };
        let whole = self.offer(place, tolerances, tolerances.fats, closed.is_none())?;
        let reason = match whole {
            Ok(None) => return Ok(as_it_is(Verdict::Nothing)),
            Ok(Some((additions, after))) => {
                return Ok(Mend { verdict: Verdict::Additions { additions, shares: true }, after });
            }
            Err(reason) => reason,
        };
        if let Some(closed) = closed {
            return Ok(as_it_is(Verdict::Cannot(closed.to_owned())));
        }
        Ok(match self.offer(place, tolerances, None, true)? {
            Ok(None) => as_it_is(Verdict::SharesOnly(reason)),
            Ok(Some((additions, after))) => {
                Mend { verdict: Verdict::Additions { additions, shares: false }, after }
            }
            Err(reason) => as_it_is(Verdict::Cannot(reason)),
        })
    }

    /// The least that brings a place within the tolerances and leaves the other jugs as they are, and the batch with it;
    /// `None` when that is nothing. Or why there is no such thing.
    #[expect(clippy::type_complexity, reason = "three answers, used in one place")]
    fn offer(
        &self,
        place: Place,
        tolerances: &Tolerances,
        fats: Option<Share>,
        open: bool,
    ) -> Result<Result<Option<(Vec<Addition>, Self)>, String>, Problem> {
        let room = self.room(&self.found(place)?.tally);
        let mut remedy = Remedy::default();
        let mut now = self.clone();
        for _ in 0..ROUNDS {
            let found = now.found(place)?;
            let added = remedy.total().exact();
            let left = room - added;
            let case = now.case(place, &found, tolerances, fats, left).ok_or_else(impossible)?;
            let more = match case.remedy() {
                Ok(more) if more.total().is_zero() => {
                    let additions = self.additions(&remedy, &found, place);
                    return Ok(Ok((!additions.is_empty()).then_some((additions, now))));
                }
                Ok(more) => more,
                Err(NoRemedy::Room(needed)) => return Ok(Err(NoRemedy::Room(needed + added).words(room))),
                Err(reason) => return Ok(Err(reason.words(room))),
            };
            if !open {
                return Ok(Err(String::new()));
            }
            remedy.add(more);
            // What cannot be recorded cannot be done.
            let Ok(done) = self.with(&self.additions(&remedy, &found, place)) else { break };
            now = done;
            if self.moves_others(&now, place) {
                return Ok(Err(NoRemedy::Others.words(room)));
            }
        }
        Ok(Err(NoRemedy::Shares.words(room)))
    }

    /// The batch with additions recorded.
    pub(super) fn with(&self, additions: &[Addition]) -> Result<Self, Problem> {
        let mut batch = self.clone();
        for Addition { item, vessel, mass, .. } in additions {
            batch.record(Event::Added { item: item.clone(), vessel: vessel.clone(), mass: *mass })?;
        }
        Ok(batch)
    }

    /// Whether jugs beside this place would get otherwise than they do; for the whole batch, whether one would become
    /// lye-heavy.
    fn moves_others(&self, now: &Self, place: Place) -> bool {
        let jugs = self.plan.jugs.iter().zip(&now.plan.jugs).enumerate();
        jugs.into_iter().any(|(index, (before, after))| match place {
            Place::Batch => after.superfat < Share::ZERO && after.superfat < before.superfat,
            Place::Jug(jug) => jug != index && before.tally != after.tally,
        })
    }

    /// Fats first, then alkali, then water, so that lye follows the fat that is there.
    fn additions(&self, remedy: &Remedy, found: &Found, place: Place) -> Vec<Addition> {
        let vessel = match place {
            Place::Batch => None,
            Place::Jug(index) => self.plan.jugs.get(index).map(|jug| jug.name.clone()),
        };
        let fats = found.fats().zip(&remedy.fats).map(|(fat, mass)| (&*fat.id, &*fat.name, *mass));
        let alkalis = remedy.alkalis.iter().map(|(alkali, mass)| (alkali.id(), alkali.name(), *mass));
        let all = fats.chain(alkalis).chain([("water", "Water", remedy.water)]);
        let used = all.filter(|(.., mass)| !mass.is_zero());
        used.map(|(id, name, mass)| Addition {
            item: if vessel.is_none() { self.unambiguous(id) } else { id.to_owned() },
            name: name.to_owned(),
            vessel: vessel.clone(),
            mass,
        })
        .collect()
    }

    /// An item of the pot or of the lye by its id, or by its place in the recipe where an id stands twice.
    fn unambiguous(&self, id: &str) -> String {
        let (pot, lye) = (&self.plan.pot, &self.plan.lye);
        let items = pot.fats.iter().chain(&pot.doses).chain(&lye.alkalis).chain([&lye.water]);
        let mut same = items.chain(&lye.liquids).chain(&lye.doses).filter(|item| item.id == id);
        match (same.next(), same.next()) {
            (Some(first), Some(_)) => first.pointer.clone(),
            _ => id.to_owned(),
        }
    }
}
