//! List: everything that is weighed, in the order of the work, as one list.

use super::plan::Plan;
use super::weigh::WeighItem;
use crate::quantity::Mass;

/// What something is weighed into.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Vessel {
    /// The pot of fats.
    Pot,
    /// The vessel of the lye.
    Lye,
    /// A jug, by its index in the plan.
    Jug(usize),
}

/// What a line of the weigh list is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum WeighKind {
    /// A fat of the pot.
    Fat,
    /// A dose that goes in before the lye: into the pot, the lye or a jug.
    Dose,
    /// An alkali.
    Alkali,
    /// Plain water.
    Water,
    /// A liquid in place of water.
    Liquid,
    /// What a jug gets from the pot.
    FromPot,
    /// What a jug gets of the lye.
    FromLye,
    /// A fat that goes in after the cook.
    Held,
    /// A dose that goes in last.
    LateDose,
}

/// Where a line of the weigh list stands in its plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct WeighPlace {
    /// What it is weighed into.
    pub vessel: Vessel,
    /// What it is.
    pub kind: WeighKind,
    /// The how-manieth of this kind in this vessel.
    pub index: usize,
}

/// A line of the weigh list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct WeighLine<'p> {
    /// Where it stands.
    pub place: WeighPlace,
    /// Id of the material; `pot` and `lye` for what a jug gets of these.
    pub id: &'p str,
    /// Its name.
    pub name: &'p str,
    /// JSON Pointer to the line of the recipe that asks for it; empty for what a jug gets of pot and lye.
    pub pointer: &'p str,
    /// At full precision.
    pub ideal: Mass,
    /// In whole steps of its scale.
    pub weighed: Mass,
    /// Index of the scale in the plan.
    pub scale: usize,
}

impl Plan {
    /// The places of all lines of the weigh list: the lye, the pot, then jug by jug, each in the order of the work.
    ///
    /// ```
    /// use lamella::quantity::Mass;
    /// let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
    /// let plan = lamella::Plan::of(&recipe).unwrap();
    /// let lines = plan.weigh_places().into_iter().filter_map(|place| plan.weigh_line(place));
    /// let from_pot: Mass = lines.filter(|line| line.id == "pot").map(|line| line.weighed).sum();
    /// assert_eq!(from_pot + plan.pot.left, plan.pot.total);
    /// ```
    #[must_use]
    pub fn weigh_places(&self) -> Vec<WeighPlace> {
        let mut places = Vec::new();
        let mut put = |vessel, kind, count| {
            places.extend((0..count).map(|index| WeighPlace { vessel, kind, index }));
        };
        put(Vessel::Lye, WeighKind::Water, 1);
        put(Vessel::Lye, WeighKind::Liquid, self.lye.liquids.len());
        put(Vessel::Lye, WeighKind::Alkali, self.lye.alkalis.len());
        put(Vessel::Lye, WeighKind::Dose, self.lye.doses.len());
        put(Vessel::Pot, WeighKind::Fat, self.pot.fats.len());
        put(Vessel::Pot, WeighKind::Dose, self.pot.doses.len());
        for (index, jug) in self.jugs.iter().enumerate() {
            let vessel = Vessel::Jug(index);
            put(vessel, WeighKind::FromPot, 1);
            put(vessel, WeighKind::Dose, jug.doses.len());
            put(vessel, WeighKind::FromLye, 1);
            put(vessel, WeighKind::Held, jug.held.len());
            put(vessel, WeighKind::LateDose, jug.late_doses.len());
        }
        // What the lye is not made with, such as no water at all, has no place in its order; it stands first.
        let named: Vec<&str> =
            self.lye.order.iter().flat_map(|step| &step.items).map(String::as_str).collect();
        let turn = |place: &WeighPlace| {
            let pointer = self.weigh_item(*place).map(|item| item.pointer.as_str());
            let turn = pointer.and_then(|pointer| named.iter().position(|one| *one == pointer));
            if place.vessel == Vessel::Lye { turn } else { Some(named.len()) }
        };
        places.sort_by_key(turn);
        places
    }

    /// A line of the weigh list; nothing when the plan has no such place.
    #[must_use]
    pub fn weigh_line(&self, place: WeighPlace) -> Option<WeighLine<'_>> {
        let item = self.weigh_item(place);
        if let Some(WeighItem { id, name, ideal, weighed, scale, pointer }) = item {
            return Some(WeighLine {
                place,
                id,
                name,
                pointer,
                ideal: *ideal,
                weighed: *weighed,
                scale: *scale,
            });
        }
        let Vessel::Jug(index) = place.vessel else { return None };
        let jug = self.jugs.get(index).filter(|_| place.index == 0)?;
        let (id, weighing) = match place.kind {
            WeighKind::FromPot => ("pot", jug.portion),
            WeighKind::FromLye => ("lye", jug.lye),
            _ => return None,
        };
        let (ideal, weighed, scale) = (weighing.ideal, weighing.weighed, weighing.scale);
        Some(WeighLine { place, id, name: id, pointer: "", ideal, weighed, scale })
    }

    fn weigh_item(&self, place: WeighPlace) -> Option<&WeighItem> {
        let list = match (place.vessel, place.kind) {
            (Vessel::Pot, WeighKind::Fat) => &self.pot.fats,
            (Vessel::Pot, WeighKind::Dose) => &self.pot.doses,
            (Vessel::Lye, WeighKind::Alkali) => &self.lye.alkalis,
            (Vessel::Lye, WeighKind::Water) => return Some(&self.lye.water).filter(|_| place.index == 0),
            (Vessel::Lye, WeighKind::Liquid) => &self.lye.liquids,
            (Vessel::Lye, WeighKind::Dose) => &self.lye.doses,
            (Vessel::Jug(jug), WeighKind::Dose) => &self.jugs.get(jug)?.doses,
            (Vessel::Jug(jug), WeighKind::Held) => &self.jugs.get(jug)?.held,
            (Vessel::Jug(jug), WeighKind::LateDose) => &self.jugs.get(jug)?.late_doses,
            _ => return None,
        };
        list.get(place.index)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_place_has_its_line() {
        let plan = Plan::of(&crate::recipe::read(crate::EXAMPLE).unwrap()).unwrap();
        let places = plan.weigh_places();
        let lines: Vec<WeighLine<'_>> = places.iter().filter_map(|place| plan.weigh_line(*place)).collect();
        assert_eq!(lines.len(), places.len());
        let into = |vessel: fn(Vessel) -> bool| -> Mass {
            lines.iter().filter(|line| vessel(line.place.vessel)).map(|line| line.weighed).sum()
        };
        assert_eq!(into(|vessel| vessel == Vessel::Pot), plan.pot.total);
        assert_eq!(into(|vessel| vessel == Vessel::Lye), plan.lye.total);
        let nets: Mass = plan.jugs.iter().map(|jug| jug.net).sum();
        assert_eq!(into(|vessel| matches!(vessel, Vessel::Jug(_))), nets);
    }

    /// With half the water as vinegar, the vinegar and the salt stand before the alkali, the lactate after it.
    #[test]
    fn the_lye_is_listed_in_the_order_in_which_it_is_made() {
        let mut document: serde_json::Value = serde_json::from_str(crate::EXAMPLE).unwrap();
        document["lye"] = serde_json::json!({
            "liquids": [{"liquid": "vinegar-cider", "share": "50 %"}],
            "doses": [{"additive": "sodium-lactate-60", "dose": "10 g"}, {"additive": "salt", "dose": "5 g"}]
        });
        let plan = Plan::of(&crate::recipe::read(&document.to_string()).unwrap()).unwrap();
        let places = plan.weigh_places();
        let lye = places.iter().filter(|place| place.vessel == Vessel::Lye);
        let ids: Vec<&str> = lye.filter_map(|place| plan.weigh_line(*place)).map(|line| line.id).collect();
        assert_eq!(ids, ["water", "vinegar-cider", "salt", "naoh", "sodium-lactate-60"]);
    }

    #[test]
    fn no_other_place_has_one() {
        let plan = Plan::of(&crate::recipe::read(crate::EXAMPLE).unwrap()).unwrap();
        for vessel in [Vessel::Pot, Vessel::Lye, Vessel::Jug(0), Vessel::Jug(99)] {
            for kind in [WeighKind::FromPot, WeighKind::FromLye, WeighKind::Water, WeighKind::LateDose] {
                assert_eq!(plan.weigh_line(WeighPlace { vessel, kind, index: 99 }), None);
            }
        }
    }
}
