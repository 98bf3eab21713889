//! The batch record: what really went in, from which lots, when and by whom, and what came out.
//!
//! In: `record/1` documents, and the [`Plan`](crate::Plan) of the batch where there is one. Out: what is still missing
//! from the record, what differs from the plan, the earliest expiry, and where a lot went and came from. The library has
//! no clock: every time is one that the maker wrote down. Depends on `quantity`, the plan, the reader of documents and
//! the sheet's page; of the other readers on `follow`, whose log of a batch under way it can take over.
//!
//! # What a record holds
//!
//! The fields follow what ISO 22716 (good manufacturing practices for cosmetics) asks a batch record to hold: raw
//! materials used, production process, testing and sampling, code marks, release. The list was put together from memory
//! of the standard and from what is said about it in public; the standard itself was not read. See [`Review`].

mod document;
mod fields;
mod hold;
mod log;
mod page;
mod review;
mod trace;
mod trial;
mod trial_document;
mod trial_page;
mod write;

pub use document::read;
#[cfg(feature = "schema")]
pub use document::schema;
pub use page::{markdown, page, text};
pub use review::{Expiry, Finding, Gap, Review, ReviewLine};
pub use trace::{Found, LotName, Source, back, forward};
pub use trial::{Comparison, Difference, Foam, Trial, Washes};
#[cfg(feature = "schema")]
pub use trial_document::trial_schema;
pub use trial_document::{read_trial, write_trial};
pub use trial_page::trial_page;
pub use write::write;

use crate::batch::Hold;
use crate::quantity::{Date, Mass, Moment, Share, Temperature};

/// The record of one batch.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Record {
    /// Its number.
    pub batch: String,
    /// The product, as the recipe names it.
    pub product: String,
    /// Version of the formula; may be empty.
    pub formula: String,
    /// Free text.
    pub note: String,
    /// When the work began.
    pub started: Option<Moment>,
    /// When it ended.
    pub finished: Option<Moment>,
    /// Who did it.
    pub operators: Vec<String>,
    /// What it was done with.
    pub equipment: Vec<Equipment>,
    /// Scales held against a known weight.
    pub scale_checks: Vec<ScaleCheck>,
    /// Lots of materials.
    pub lots: Vec<Lot>,
    /// What was weighed.
    pub weighings: Vec<Actual>,
    /// Temperatures that were taken.
    pub temperatures: Vec<TemperatureReading>,
    /// Layers, in the order in which they were poured.
    pub layers: Vec<PouredLayer>,
    /// What was seen and done: trace, gel, turning.
    pub events: Vec<Event>,
    /// What went otherwise than planned.
    pub deviations: Vec<Deviation>,
    /// What was tested.
    pub checks: Vec<Check>,
    /// Layers that were on hold when the log was taken over. A check of the layer ends a hold; see [`Record::standing`].
    pub holds: Vec<Hold>,
    /// What came out.
    pub output: Option<Output>,
    /// Day from which the cure counts.
    pub cure_from: Option<Date>,
    /// The mark by which a bar is known to be of this batch; may be empty.
    pub code: String,
    /// The label that went on it, by its name or version; may be empty.
    pub label: String,
    /// Bars that are kept.
    pub samples: Option<Samples>,
    /// Who let it go, or kept it back.
    pub release: Option<Release>,
}

/// A vessel, a blender, a mould.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Equipment {
    /// What it is.
    pub name: String,
    /// When it was cleaned.
    pub cleaned: Option<Moment>,
    /// By whom; may be empty.
    pub by: String,
}

/// A scale held against a known weight.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ScaleCheck {
    /// Which scale.
    pub scale: String,
    /// The known weight.
    pub weight: Mass,
    /// What the scale showed.
    pub shown: Mass,
    /// When.
    pub at: Option<Moment>,
}

/// A lot of a material.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lot {
    /// The maker's own name of it, which no other lot of the workshop has.
    pub lot: String,
    /// Id of the material, as in the recipe.
    pub material: String,
    /// Who supplied it; may be empty.
    pub supplier: String,
    /// The supplier's name of the lot; may be empty.
    pub supplier_lot: String,
    /// When it came.
    pub received: Option<Date>,
    /// When it was opened.
    pub opened: Option<Date>,
    /// Last day of its life.
    pub expires: Option<Date>,
    /// The batch that it is made of, when it is soap that is worked in again; may be empty.
    pub batch: String,
}

/// One weighing of the batch log.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Actual {
    /// The lot it came from; its material is that of the lot.
    pub lot: String,
    /// What the scale showed.
    pub mass: Mass,
    /// When.
    pub at: Option<Moment>,
    /// By whom; may be empty.
    pub by: String,
    /// On which scale; may be empty.
    pub scale: String,
    /// Into what: the pot, the lye, a jug; may be empty.
    pub into: String,
}

/// A temperature that was taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TemperatureReading {
    /// Of what: lye, fats, batter, room.
    pub what: String,
    /// What it was.
    pub value: Temperature,
    /// When.
    pub at: Option<Moment>,
}

/// A layer as it was poured.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PouredLayer {
    /// Its name.
    pub layer: String,
    /// When.
    pub at: Option<Moment>,
    /// How much, where it was weighed.
    pub mass: Option<Mass>,
}

/// Something that was seen or done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Event {
    /// When.
    pub at: Option<Moment>,
    /// What.
    pub what: String,
}

/// Something that went otherwise than planned.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Deviation {
    /// What went otherwise.
    pub what: String,
    /// What was done about it; may be empty.
    pub action: String,
    /// Who decided; may be empty.
    pub by: String,
}

/// How a test ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Outcome {
    /// As it should be.
    Pass,
    /// Out of specification.
    Fail,
}

/// A test of the bar.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Check {
    /// What was tested: weight, free alkali, pH, look.
    pub check: String,
    /// What was found.
    pub result: String,
    /// How it ended.
    pub outcome: Outcome,
    /// The layer that was tested, where it was one; may be empty.
    pub layer: String,
    /// Free caustic alkali that was found in it, as sodium hydroxide.
    pub free_alkali: Option<Share>,
    /// When.
    pub at: Option<Moment>,
    /// By whom; may be empty.
    pub by: String,
}

/// What came out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Output {
    /// Good bars.
    pub bars: u32,
    /// Bars that were not good.
    pub rejected: u32,
    /// Mass of the good bars, where it was weighed.
    pub mass: Option<Mass>,
}

/// Bars that are kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Samples {
    /// How many.
    pub count: u32,
    /// Where; may be empty.
    pub place: String,
}

/// What is decided about a batch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Decision {
    /// It may go.
    Released,
    /// It waits.
    Held,
    /// It must not go.
    Rejected,
}

/// Who let a batch go, or kept it back.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Release {
    /// What was decided.
    pub decision: Decision,
    /// By whom.
    pub by: String,
    /// When.
    pub on: Date,
}

impl Record {
    /// The lot of this name.
    #[must_use]
    pub fn lot(&self, name: &str) -> Option<&Lot> {
        self.lots.iter().find(|lot| lot.lot == name)
    }

    /// The lots that something was weighed from, in the order of the list, with how much.
    #[must_use]
    pub fn used(&self) -> Vec<(&Lot, Mass)> {
        let of = |lot: &Lot| {
            self.weighings.iter().filter(|actual| actual.lot == lot.lot).map(|actual| actual.mass).sum()
        };
        let all = self.lots.iter().map(|lot| (lot, of(lot)));
        all.filter(|(lot, _)| self.weighings.iter().any(|actual| actual.lot == lot.lot)).collect()
    }

    /// The earliest expiry of what went in: the batch cannot outlive it. Nothing when no lot states one.
    #[must_use]
    pub fn expiry(&self) -> Option<Expiry> {
        let dated = self.used().into_iter().filter_map(|(lot, _)| Some((lot.expires?, lot)));
        let (date, lot) = dated.min_by_key(|(date, _)| *date)?;
        Some(Expiry { date, lot: lot.lot.clone(), material: lot.material.clone() })
    }
}
