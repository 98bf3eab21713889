//! What an event does to what is known of a batch.
//!
//! What is taken out of a vessel settles what is in it: after the first portion the pot is as it is planned or reported,
//! after the first lye the lye, after the first pour the jug.

use super::event::{Event, Mixed};
use super::replan::{LYE, Ledger, POT};
use crate::batch::{JugPlan, LayerPlan, Plan, WeighItem};
use crate::problem::Problem;
use crate::quantity::{Mass, Share};

/// Where an item is, and under what pointer.
pub(super) struct Found {
    pub(super) jug: Option<String>,
    pub(super) pointer: String,
    pub(super) weighed: Mass,
}

/// An event that does not fit, before its place in the log is known.
pub(super) fn refused(code: &'static str, field: &str, message: String, advice: &str) -> Problem {
    Problem { code, pointer: format!("/{field}"), message, advice: advice.to_owned() }
}

/// Applies an event to what is known; `plan` is the plan of it, `number` the place of the event in the log.
pub(crate) fn apply(ledger: &mut Ledger, plan: &Plan, event: &Event, number: usize) -> Result<(), Problem> {
    let mut applying = Applying { ledger, plan };
    match event {
        Event::Weighed { item, vessel, mass } => {
            let found = applying.find(item, vessel.as_deref(), "weighed")?;
            applying.weigh(&found, *mass, item, "weighed")
        }
        Event::Skipped { item, vessel } => applying.skip(item, vessel.as_deref()),
        Event::Added { item, vessel, mass } => applying.add(item, vessel.as_deref(), *mass, number),
        Event::Poured { layer, mass } => applying.pour(layer, *mass, "poured"),
        Event::Reads { jug, mass } => applying.reads(jug, *mass),
        Event::Left { vessel, mass } => applying.left(vessel, *mass),
        Event::Found { alkali, purity, is } => applying.alkali(*alkali, *purity, *is),
        Event::Measured { of: Mixed::Fats, temperature } => {
            applying.ledger.truth.temperatures.fats = *temperature;
            Ok(())
        }
        Event::Measured { of: Mixed::Lye, temperature } => {
            applying.ledger.truth.temperatures.lye = *temperature;
            Ok(())
        }
        Event::Tested { layer, free_alkali } => applying.tested(layer, *free_alkali),
        Event::Note { .. } => Ok(()),
    }
}

pub(super) struct Applying<'a> {
    pub(super) ledger: &'a mut Ledger,
    plan: &'a Plan,
}

impl Applying<'_> {
    pub(super) fn fixed(&self, jug: Option<&str>, item: &str) -> Option<Mass> {
        self.ledger.fixed.get(&(jug.map(str::to_owned), item.to_owned())).copied()
    }

    pub(super) fn fix(&mut self, jug: Option<&str>, item: &str, mass: Mass) {
        self.ledger.fixed.insert((jug.map(str::to_owned), item.to_owned()), mass);
    }

    /// What was not reported went in as planned.
    fn settle(&mut self, jug: Option<&str>, item: &str, planned: Mass) {
        self.ledger.fixed.entry((jug.map(str::to_owned), item.to_owned())).or_insert(planned);
    }

    /// The jug of this name, or the one that the layer of this name is poured from.
    pub(super) fn jug(&self, name: &str, field: &str) -> Result<JugPlan, Problem> {
        let of_layer = |layer: &&crate::batch::LayerPlan| layer.name == name;
        let by_name = self.plan.jugs.iter().find(|jug| jug.name == name);
        let by_layer =
            || self.plan.layers.iter().find(of_layer).and_then(|layer| self.plan.jugs.get(layer.jug));
        by_name.or_else(by_layer).cloned().ok_or_else(|| {
            let known: Vec<String> = self.plan.jugs.iter().map(|jug| format!("{:?}", jug.name)).collect();
            refused(
                "event.unknown",
                field,
                format!("no jug and no layer has the name {name:?}"),
                &format!("use one of {}", known.join(", ")),
            )
        })
    }

    fn pot_items(&self) -> Vec<WeighItem> {
        self.plan.pot.fats.iter().chain(&self.plan.pot.doses).cloned().collect()
    }

    fn lye_items(&self) -> Vec<WeighItem> {
        let lye = &self.plan.lye;
        let items = lye.alkalis.iter().chain([&lye.water]).chain(&lye.liquids).chain(&lye.doses);
        items.cloned().collect()
    }

    pub(super) fn is_divided(&self, what: &str) -> bool {
        self.ledger.fixed.keys().any(|(jug, item)| jug.is_some() && item == what)
    }

    fn is_begun(&self, jug: &JugPlan) -> bool {
        let names = jug.layers.iter().filter_map(|layer| self.plan.layers.get(*layer));
        names.map(|layer| &layer.name).any(|name| self.ledger.poured.contains_key(name))
    }

    pub(super) fn find(&self, item: &str, vessel: Option<&str>, field: &str) -> Result<Found, Problem> {
        let (jug, items, place) = match vessel {
            None => {
                let items = self.pot_items().into_iter().chain(self.lye_items()).collect::<Vec<_>>();
                (None, items, "the pot and the lye".to_owned())
            }
            Some(vessel) => {
                let jug = self.jug(vessel, "in")?;
                let whole = match item {
                    POT => Some(jug.portion.weighed),
                    LYE => Some(jug.lye.weighed),
                    _ => None,
                };
                if let Some(weighed) = whole {
                    return Ok(Found { jug: Some(jug.name), pointer: item.to_owned(), weighed });
                }
                let items = jug.held.into_iter().chain(jug.doses).chain(jug.late_doses).collect();
                (Some(jug.name.clone()), items, format!("{:?}", jug.name))
            }
        };
        let mut same = items.iter().filter(|known| known.id == item || known.pointer == item);
        let advice = || {
            let mut known: Vec<String> = items.iter().map(|item| format!("{:?}", item.id)).collect();
            if jug.is_some() {
                known.extend([format!("{POT:?}"), format!("{LYE:?}")]);
            }
            format!("use one of {}", known.join(", "))
        };
        match (same.next(), same.next()) {
            (Some(found), None) => Ok(Found { jug, pointer: found.pointer.clone(), weighed: found.weighed }),
            (Some(first), Some(second)) => Err(refused(
                "event.ambiguous",
                field,
                format!("{item:?} stands more than once in {place}"),
                &format!("write its place in the recipe, {:?} or {:?}", first.pointer, second.pointer),
            )),
            (None, _) => Err(refused(
                "event.unknown",
                field,
                format!("{place} have no {item:?} in the plan"),
                &advice(),
            )),
        }
    }

    /// Whether something can still go where it is said to have gone.
    pub(super) fn still_open(&self, found: &Found, item: &str, field: &str) -> Result<(), Problem> {
        let late = |vessel: &str, what: &str| {
            refused(
                "event.late",
                field,
                format!("{item:?} goes into {vessel}, and {what} already"),
                "put this line before that one, or undo up to it",
            )
        };
        match &found.jug {
            None if self.pot_items().iter().any(|known| known.pointer == found.pointer) => {
                if self.is_divided(POT) { Err(late("the pot", "the pot is divided")) } else { Ok(()) }
            }
            None if self.is_divided(LYE) => Err(late("the lye", "the lye is divided")),
            None => Ok(()),
            Some(name) => {
                let jug = self.jug(name, field)?;
                if self.is_begun(&jug) {
                    Err(late(&format!("{name:?}"), "it is poured from"))
                } else {
                    Ok(())
                }
            }
        }
    }

    fn weigh(&mut self, found: &Found, mass: Mass, item: &str, field: &str) -> Result<(), Problem> {
        self.still_open(found, item, field)?;
        if let Some(earlier) = self.fixed(found.jug.as_deref(), &found.pointer) {
            return Err(refused(
                "event.twice",
                field,
                format!("{item:?} was reported already, with {earlier}"),
                "undo that line first; or write \"added\" for what came on top",
            ));
        }
        if found.jug.is_some() && found.pointer == POT {
            self.settle_pot();
        }
        if found.jug.is_some() && found.pointer == LYE {
            self.settle_lye();
        }
        self.fix(found.jug.as_deref(), &found.pointer, mass);
        Ok(())
    }

    pub(super) fn settle_pot(&mut self) {
        for item in self.pot_items() {
            self.settle(None, &item.pointer, item.weighed);
        }
    }

    pub(super) fn settle_lye(&mut self) {
        for item in self.lye_items() {
            self.settle(None, &item.pointer, item.weighed);
        }
    }

    fn settle_jug(&mut self, jug: &JugPlan) {
        self.settle_pot();
        self.settle_lye();
        let name = Some(jug.name.as_str());
        self.settle(name, POT, jug.portion.weighed);
        self.settle(name, LYE, jug.lye.weighed);
        for item in jug.held.iter().chain(&jug.doses).chain(&jug.late_doses) {
            self.settle(name, &item.pointer, item.weighed);
        }
    }

    fn layer(&self, name: &str, field: &str) -> Result<&LayerPlan, Problem> {
        self.plan.layers.iter().find(|known| known.name == name).ok_or_else(|| {
            let known: Vec<String> =
                self.plan.layers.iter().map(|layer| format!("{:?}", layer.name)).collect();
            refused(
                "event.unknown",
                field,
                format!("no layer has the name {name:?}"),
                &format!("use one of {}", known.join(", ")),
            )
        })
    }

    fn tested(&mut self, layer: &str, free_alkali: Share) -> Result<(), Problem> {
        self.layer(layer, "tested")?;
        if !self.ledger.poured.contains_key(layer) {
            return Err(refused(
                "event.order",
                "tested",
                format!("{layer:?} is not poured yet"),
                "report the pour first: the test is of the bar",
            ));
        }
        self.ledger.tests.insert(layer.to_owned(), free_alkali);
        Ok(())
    }

    fn pour(&mut self, layer: &str, mass: Mass, field: &str) -> Result<(), Problem> {
        let line = self.layer(layer, field)?;
        if let Some(earlier) = self.ledger.poured.get(layer) {
            return Err(refused(
                "event.twice",
                field,
                format!("{layer:?} was poured already, {earlier}"),
                "undo that line first",
            ));
        }
        let jug = self.plan.jugs.get(line.jug).cloned().ok_or_else(super::refuse::impossible)?;
        let names = jug.layers.iter().filter_map(|layer| self.plan.layers.get(*layer));
        let next = names.map(|layer| &layer.name).find(|name| !self.ledger.poured.contains_key(*name));
        if next.is_some_and(|next| next != layer) {
            let next = next.map_or("", String::as_str);
            return Err(refused(
                "event.order",
                field,
                format!("from {:?} the next layer is {next:?}, not {layer:?}", jug.name),
                "report the layers of a jug in the order in which they are poured, or skip one",
            ));
        }
        self.settle_jug(&jug);
        self.ledger.poured.insert(layer.to_owned(), mass);
        Ok(())
    }

    fn reads(&mut self, name: &str, reading: Mass) -> Result<(), Problem> {
        let jug = self.jug(name, "reads")?;
        let open = jug.layers.iter().filter_map(|layer| self.plan.layers.get(*layer));
        let next = open.into_iter().find(|layer| !self.ledger.poured.contains_key(&layer.name));
        let Some(layer) = next else {
            let message = format!("every layer of {:?} is poured", jug.name);
            return Err(refused("event.late", "reads", message, "use \"left\" for what stays in it"));
        };
        let before = layer.reading.before;
        if reading > before {
            return Err(refused(
                "event.more-than-there-is",
                "mass",
                format!(
                    "the scale showed {before} with {:?} before the pour, and {reading} after it",
                    jug.name
                ),
                "look at the reading; a pour makes it fall",
            ));
        }
        self.pour(&layer.name.clone(), before - reading, "reads")
    }

    fn skip(&mut self, item: &str, vessel: Option<&str>) -> Result<(), Problem> {
        let layer = self.ledger.truth.layers.iter().position(|layer| layer.name == item);
        let Some(layer) = layer.filter(|_| vessel.is_none()) else {
            let found = self.find(item, vessel, "skipped")?;
            return self.weigh(&found, Mass::ZERO, item, "skipped");
        };
        let jug = self.jug(item, "skipped")?;
        let late = |message: String| {
            refused(
                "event.late",
                "skipped",
                message,
                "pour it, or keep it as a bar of its own, and report that",
            )
        };
        if self.ledger.poured.contains_key(item) {
            return Err(late(format!("{item:?} is poured already")));
        }
        if self.ledger.truth.layers.len() == 1 {
            return Err(late(format!("{item:?} is the only layer")));
        }
        let filled = self.fixed(Some(&jug.name), POT).is_some() || self.fixed(Some(&jug.name), LYE).is_some();
        let sole = jug.layers.len() == 1;
        if sole && filled {
            return Err(late(format!("the jug of {item:?} is filled already")));
        }
        if jug.layers.iter().all(|at| *at == layer || self.is_poured(*at)) && !sole {
            return Err(late(format!("nothing else is poured from {:?}", jug.name)));
        }
        self.ledger.truth.layers.remove(layer);
        Ok(())
    }

    fn is_poured(&self, layer: usize) -> bool {
        self.plan.layers.get(layer).is_some_and(|layer| self.ledger.poured.contains_key(&layer.name))
    }
}
