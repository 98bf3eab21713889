//! What an event changed in the rest of a batch, and by how much.

use serde::Serialize;

use crate::batch::{JugPlan, Plan, WeighItem};
use crate::quantity::{Length, Mass, Share};

/// A figure of the plan that an event changed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Change {
    /// Where: the pot, the lye, a jug or a layer, by name; `batch` for all of it.
    pub place: String,
    /// What: an item, or a figure in words.
    pub what: String,
    /// Before, with its unit.
    pub before: String,
    /// Now.
    pub now: String,
    /// The difference, with its sign.
    pub by: String,
}

/// Changes as their `changes/1` document, ending in a newline.
///
/// # Errors
/// None that changes can bring about; the signature is that of the writer.
pub fn changes_json(changes: &[Change]) -> Result<String, serde_json::Error> {
    #[derive(Serialize)]
    struct Document<'c> {
        lamella: &'static str,
        changes: &'c [Change],
    }
    crate::json::document(&Document { lamella: "changes/1", changes })
}

struct Changes {
    list: Vec<Change>,
}

impl Changes {
    fn mass(&mut self, place: &str, what: &str, before: Mass, now: Mass) {
        if before != now {
            self.put(place, what, before.to_string(), now.to_string(), signed(now - before, Mass::ZERO));
        }
    }

    /// A share, to a hundredth of a per cent.
    fn share(&mut self, place: &str, what: &str, before: Share, now: Share) {
        let round = |share: Share| Share::try_new(crate::quantity::Exact::from(share.exact().rounded(4)));
        if let (Ok(before), Ok(now)) = (round(before), round(now))
            && before != now
        {
            self.put(place, what, before.to_string(), now.to_string(), signed(now - before, Share::ZERO));
        }
    }

    /// A length, to a tenth of a millimetre.
    fn length(&mut self, place: &str, what: &str, before: Length, now: Length) {
        let round = |length: Length| Length::try_new(crate::quantity::Exact::from(length.exact().rounded(1)));
        if let (Ok(before), Ok(now)) = (round(before), round(now))
            && before != now
        {
            self.put(place, what, before.to_string(), now.to_string(), signed(now - before, Length::ZERO));
        }
    }

    fn put(&mut self, place: &str, what: &str, before: String, now: String, by: String) {
        self.list.push(Change { place: place.to_owned(), what: what.to_owned(), before, now, by });
    }

    fn items(&mut self, place: &str, before: &[WeighItem], now: &[WeighItem]) {
        for item in now {
            let earlier = before.iter().find(|earlier| earlier.pointer == item.pointer);
            let earlier = earlier.map_or(Mass::ZERO, |item| item.weighed);
            self.mass(place, &item.name, earlier, item.weighed);
        }
    }

    fn jug(&mut self, before: &JugPlan, now: &JugPlan) {
        let place = &now.name;
        self.mass(place, "from the pot", before.portion.weighed, now.portion.weighed);
        self.items(place, &before.held, &now.held);
        self.items(place, &before.doses, &now.doses);
        self.mass(place, "its lye", before.lye.weighed, now.lye.weighed);
        self.items(place, &before.late_doses, &now.late_doses);
        self.share(place, "superfat", before.superfat, now.superfat);
        self.share(place, "water of its fat", before.water_of_fat, now.water_of_fat);
        self.mass(place, "what stays in it", before.left, now.left);
    }
}

fn signed<T: PartialOrd + ToString>(difference: T, nought: T) -> String {
    let text = difference.to_string();
    if difference > nought { format!("+{text}") } else { text }
}

/// Everything in which two plans of one batch differ.
pub(crate) fn changes(before: &Plan, now: &Plan) -> Vec<Change> {
    let mut changes = Changes { list: Vec::new() };
    changes.items("pot", &before.pot.fats, &now.pot.fats);
    changes.items("pot", &before.pot.doses, &now.pot.doses);
    changes.items("lye", &before.lye.alkalis, &now.lye.alkalis);
    changes.mass("lye", "Water", before.lye.water.weighed, now.lye.water.weighed);
    changes.items("lye", &before.lye.liquids, &now.lye.liquids);
    changes.items("lye", &before.lye.doses, &now.lye.doses);
    let (earlier, later) = (&before.lye.figures, &now.lye.figures);
    changes.share("lye", "concentration", earlier.concentration, later.concentration);
    for jug in &now.jugs {
        if let Some(earlier) = before.jugs.iter().find(|earlier| earlier.name == jug.name) {
            changes.jug(earlier, jug);
        }
    }
    for layer in &now.layers {
        let Some(earlier) = before.layers.iter().find(|earlier| earlier.name == layer.name) else { continue };
        changes.mass(&layer.name, "its portion", earlier.portion, layer.portion);
        changes.mass(&layer.name, "reading after it is poured", earlier.reading.after, layer.reading.after);
        for (earlier, height) in earlier.heights.iter().zip(&layer.heights) {
            changes.length(&layer.name, "its upper face", earlier.to, height.to);
        }
    }
    changes.mass("pot", "what stays in it", before.pot.left, now.pot.left);
    changes.mass("lye", "what stays over", before.lye.left, now.lye.left);
    changes.share("batch", "superfat", before.batch.superfat, now.batch.superfat);
    changes.list
}
