//! What the log of a batch under way says, taken over into its record.

use super::{Actual, Check, Deviation, Event, Finding, Outcome, PouredLayer, Record, TemperatureReading};
use crate::batch::{FREE_ALKALI, Plan, WeighItem};
use crate::follow::{self, Batch, Mixed};
use crate::quantity::{Mass, Moment, Share};

impl Record {
    /// Takes over what the log of the batch says: weighings, temperatures, layers in the order in which they were
    /// poured, what else was seen and done, and as deviations what was left out, added or found to be otherwise. What
    /// stands in the record already stays as it is. Comes back what could not be taken over, and why.
    ///
    /// A weighing goes to the lot of its material; of which lot it was nothing in a log says, so that a material with no
    /// lot or with several is left to the maker. The operator is filled in where there is one. The time of an entry is
    /// read as a day and a time, or as a time of the day on which the work began; other words are no time. What was not
    /// reported is not taken over, though the plan goes on as if it had gone in as planned.
    ///
    /// ```
    /// use lamella::follow::{Batch, Event};
    /// let mut batch = Batch::new(lamella::recipe::read(lamella::EXAMPLE).unwrap()).unwrap();
    /// let mass = "412.6 g".parse().unwrap();
    /// batch.record(Event::Weighed { item: "olive-oil".to_owned(), vessel: None, mass }).unwrap();
    /// let mut record = lamella::record::read(r#"{"lamella": "record/1", "batch": "7", "product": "Tidal strata",
    ///     "lots": [{"lot": "O7", "material": "olive-oil"}], "weighings": []}"#).unwrap();
    /// assert!(record.take(&batch).is_empty());
    /// assert_eq!((record.weighings[0].lot.as_str(), record.weighings[0].mass), ("O7", mass));
    /// ```
    pub fn take(&mut self, batch: &Batch) -> Vec<Finding> {
        let mut findings = Vec::new();
        if self.product != batch.recipe().name {
            findings.push(Finding {
                code: "record.product",
                message: format!(
                    "the record is of {:?}, and the log of {:?}",
                    self.product,
                    batch.recipe().name
                ),
                advice: "check that the two belong together",
            });
        }
        // The log once more, from its beginning: each line is understood by the plan that it was written under.
        let Ok(mut again) = Batch::new(batch.recipe().clone()) else { return findings };
        let mut weighed = Vec::new();
        for entry in batch.log() {
            let poured = again.plan().layers.iter().map(|layer| layer.name.clone());
            let poured: Vec<String> = poured.filter(|layer| again.is_poured(layer)).collect();
            if again.record(entry.clone()).is_err() {
                break;
            }
            let at = self.when(entry.at.as_deref());
            match &entry.event {
                follow::Event::Weighed { item, vessel, mass } => {
                    let plan = again.plan();
                    if let Some((into, found)) = find(plan, item, vessel.as_deref()) {
                        let scale = plan.scales.get(found.scale).map_or("", |scale| &scale.name);
                        weighed.push(self.actual(&found.id, *mass, at, scale, into));
                    } else {
                        self.seen(at, entry.event.to_string());
                    }
                }
                follow::Event::Added { item, vessel, mass } => {
                    if item != "lye" && item != "pot" {
                        let into = vessel.as_deref().unwrap_or_default();
                        weighed.push(self.actual(item, *mass, at, "", into));
                    }
                    self.otherwise(words(again.plan(), &entry.event));
                }
                follow::Event::Skipped { .. } | follow::Event::Found { .. } => {
                    self.otherwise(words(again.plan(), &entry.event));
                }
                follow::Event::Poured { .. } | follow::Event::Reads { .. } => {
                    self.poured(&poured, &again, at)
                }
                follow::Event::Measured { of, temperature } => {
                    let what = match of {
                        Mixed::Fats => "fats",
                        Mixed::Lye => "lye",
                    };
                    let reading = TemperatureReading { what: what.to_owned(), value: *temperature, at };
                    if !self.temperatures.contains(&reading) {
                        self.temperatures.push(reading);
                    }
                }
                follow::Event::Tested { layer, free_alkali } => self.tested(layer, *free_alkali, at),
                follow::Event::Left { .. } | follow::Event::Note { .. } => {
                    self.seen(at, entry.event.to_string());
                }
            }
        }
        self.holds.clone_from(&batch.plan().holds);
        let had = self.weighings.clone();
        // What the maker divided over lots already, and adds up, is not asked for again.
        let materials = weighed.iter().map(|actual| actual.lot.clone());
        let divided: Vec<String> = materials.filter(|material| self.is_divided(&weighed, material)).collect();
        for actual in weighed.into_iter().filter(|actual| !divided.contains(&actual.lot)) {
            findings.extend(self.place(&had, actual));
        }
        findings
    }

    /// A weighing whose lot is not known yet: in its place stands the material.
    fn actual(&self, id: &str, mass: Mass, at: Option<Moment>, scale: &str, into: &str) -> Actual {
        let by = if let [one] = self.operators.as_slice() { one.clone() } else { String::new() };
        Actual { lot: id.to_owned(), mass, at, by, scale: scale.to_owned(), into: into.to_owned() }
    }

    /// Whether the weighings of a material's several lots come to what the log says of it.
    fn is_divided(&self, weighed: &[Actual], material: &str) -> bool {
        let of_log: Mass = weighed.iter().filter(|one| one.lot == material).map(|one| one.mass).sum();
        let lots = || self.lots.iter().filter(|lot| lot.material == material);
        let here = self.weighings.iter().filter(|one| lots().any(|lot| lot.lot == one.lot));
        lots().count() > 1 && here.map(|one| one.mass).sum::<Mass>() == of_log
    }

    /// Takes a weighing over when one lot of its material is listed, and nothing of it was weighed before.
    fn place(&mut self, had: &[Actual], actual: Actual) -> Option<Finding> {
        let (material, mass) = (actual.lot.clone(), actual.mass);
        let of_material = self.lots.iter().filter(|lot| lot.material == material);
        let lots: Vec<String> = of_material.map(|lot| lot.lot.clone()).collect();
        let actual = match lots.as_slice() {
            [] => {
                return Some(Finding {
                    code: "record.lot-missing",
                    message: format!("{material}: {mass} were weighed, and no lot of it is listed"),
                    advice: "list the lot, and take the log over again",
                });
            }
            [lot] => Actual { lot: lot.clone(), ..actual },
            several => {
                return Some(Finding {
                    code: "record.lot-open",
                    message: format!("{material}: {mass} were weighed, from {}", several.join(" or ")),
                    advice: "write down how much came from which lot",
                });
            }
        };
        if had.contains(&actual) {
            return None;
        }
        if had.iter().any(|other| lots.contains(&other.lot)) {
            return Some(Finding {
                code: "record.twice",
                message: format!(
                    "{material}: the log says {mass}, and the record has weighings of it already"
                ),
                advice: "keep one of the two",
            });
        }
        self.weighings.push(actual);
        None
    }

    /// The time of an entry.
    fn when(&self, at: Option<&str>) -> Option<Moment> {
        let at = at?.trim();
        let day = || self.started.and_then(|started| format!("{} {at}", started.date).parse().ok());
        at.parse().ok().or_else(day)
    }

    fn seen(&mut self, at: Option<Moment>, what: String) {
        let event = Event { at, what };
        if !self.events.contains(&event) {
            self.events.push(event);
        }
    }

    fn otherwise(&mut self, what: String) {
        if !self.deviations.iter().any(|known| known.what == what) {
            self.deviations.push(Deviation { what, action: String::new(), by: String::new() });
        }
    }

    fn tested(&mut self, layer: &str, free_alkali: Share, at: Option<Moment>) {
        let check = Check {
            check: "free caustic alkali".to_owned(),
            result: free_alkali.to_string(),
            outcome: if free_alkali > FREE_ALKALI { Outcome::Fail } else { Outcome::Pass },
            layer: layer.to_owned(),
            free_alkali: Some(free_alkali),
            at,
            by: String::new(),
        };
        if !self.checks.contains(&check) {
            self.checks.push(check);
        }
    }

    /// The layer that was poured last.
    fn poured(&mut self, before: &[String], batch: &Batch, at: Option<Moment>) {
        let mut poured = batch.plan().layers.iter().filter(|layer| batch.is_poured(&layer.name));
        let new = poured.find(|layer| !before.contains(&layer.name));
        if let Some(layer) = new.filter(|new| self.layers.iter().all(|layer| layer.layer != new.name)) {
            let poured = PouredLayer { layer: layer.name.clone(), at, mass: Some(layer.portion) };
            self.layers.push(poured);
        }
    }
}

/// An event in words, with the name of what it is about.
fn words(plan: &Plan, event: &follow::Event) -> String {
    let mut event = event.clone();
    if let follow::Event::Added { item, vessel, .. } | follow::Event::Skipped { item, vessel } = &mut event
        && let Some((_, found)) = find(plan, item, vessel.as_deref())
    {
        *item = found.name.to_string();
    }
    event.to_string()
}

/// An item of a plan, by id or by place in the recipe, and into what it goes; portions of pot and lye are none.
fn find<'p>(plan: &'p Plan, item: &str, vessel: Option<&str>) -> Option<(&'p str, &'p WeighItem)> {
    let is = |known: &&WeighItem| known.id == item || known.pointer == item;
    let Some(vessel) = vessel else {
        let lye = &plan.lye;
        let in_pot = plan.pot.fats.iter().chain(&plan.pot.doses).find(is).map(|found| ("pot", found));
        let mut of_lye = lye.alkalis.iter().chain([&lye.water]).chain(&lye.liquids).chain(&lye.doses);
        return in_pot.or_else(|| of_lye.find(is).map(|found| ("lye", found)));
    };
    let of_layer = || plan.layers.iter().find(|layer| layer.name == vessel).map(|layer| layer.jug);
    let index = plan.jugs.iter().position(|jug| jug.name == vessel).or_else(of_layer)?;
    let jug = plan.jugs.get(index)?;
    let found = jug.held.iter().chain(&jug.doses).chain(&jug.late_doses).find(is)?;
    Some((jug.name.as_str(), found))
}
