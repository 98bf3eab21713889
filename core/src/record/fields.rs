//! The fields of a `record/1` document.

use super::{Decision, Outcome};
use crate::limits;
use crate::quantity::{Mass, Share, Temperature};
use crate::recipe::fields::{Field, Kind, Table, Units, Wanted, Words, may, must};

pub(super) const OUTCOME: Words<Outcome> =
    Words { names: &["pass", "fail"], values: &[Outcome::Pass, Outcome::Fail] };
pub(super) const DECISION: Words<Decision> = Words {
    names: &["released", "held", "rejected"],
    values: &[Decision::Released, Decision::Held, Decision::Rejected],
};

pub(super) const MASS: Wanted =
    Wanted { limit: limits::RECIPE_MASS, units: Units::Of(Mass::UNITS), example: "412.3 g" };
pub(super) const TEMPERATURE: Wanted =
    Wanted { limit: limits::RECIPE_TEMPERATURE, units: Units::Of(Temperature::UNITS), example: "35 °C" };

pub(super) const FREE_ALKALI: Wanted =
    Wanted { limit: limits::FREE_ALKALI, units: Units::Of(Share::UNITS), example: "0.02 %" };
pub(super) const SUPERFAT: Wanted =
    Wanted { limit: limits::FOUND_SUPERFAT, units: Units::Of(Share::UNITS), example: "-2.7 %" };

const AT: Field = may("at", Kind::Moment, "When.");
const BY: Field = may("by", Kind::Name, "By whom.");

pub(super) static EQUIPMENT: Table = Table::new(
    "record-equipment",
    "a piece of equipment",
    &[must("equipment", Kind::Name, "What it is."), may("cleaned", Kind::Moment, "When it was cleaned."), BY],
    &[],
);
pub(super) static SCALE_CHECK: Table = Table::new(
    "record-scale-check",
    "a check of a scale",
    &[
        must("scale", Kind::Name, "Which scale."),
        must("weight", Kind::Quantity(&[MASS]), "The known weight."),
        must("shown", Kind::Quantity(&[MASS]), "What the scale showed."),
        AT,
    ],
    &[],
);
pub(super) static LOT: Table = Table::new(
    "record-lot",
    "a lot",
    &[
        must("lot", Kind::Name, "The maker's own name of it."),
        must("material", Kind::Name, "Id of the material, as in the recipe."),
        may("supplier", Kind::Name, "Who supplied it."),
        may("supplier_lot", Kind::Name, "The supplier's name of the lot."),
        may("received", Kind::Date, "When it came."),
        may("opened", Kind::Date, "When it was opened."),
        may("expires", Kind::Date, "Last day of its life."),
        may("batch", Kind::Name, "The batch that it is made of, when it is soap that is worked in again."),
    ],
    &[],
);
pub(super) static ACTUAL: Table = Table::new(
    "record-weighing",
    "a weighing",
    &[
        must("lot", Kind::Name, "The lot it came from."),
        must("mass", Kind::Quantity(&[MASS]), "What the scale showed."),
        AT,
        BY,
        may("scale", Kind::Name, "On which scale."),
        may("into", Kind::Name, "Into what: the pot, the lye, a jug."),
    ],
    &[],
);
pub(super) static READING: Table = Table::new(
    "record-temperature",
    "a temperature",
    &[
        must("what", Kind::Name, "Of what: lye, fats, batter, room."),
        must("value", Kind::Quantity(&[TEMPERATURE]), "What it was."),
        AT,
    ],
    &[],
);
pub(super) static LAYER: Table = Table::new(
    "record-layer",
    "a layer",
    &[
        must("layer", Kind::Name, "Its name."),
        AT,
        may("mass", Kind::Quantity(&[MASS]), "How much was poured."),
    ],
    &[],
);
pub(super) static EVENT: Table =
    Table::new("record-event", "an event", &[must("what", Kind::Name, "What was seen or done."), AT], &[]);
pub(super) static DEVIATION: Table = Table::new(
    "record-deviation",
    "a deviation",
    &[
        must("what", Kind::Name, "What went otherwise than planned."),
        may("action", Kind::Name, "What was done about it."),
        BY,
    ],
    &[],
);
pub(super) static CHECK: Table = Table::new(
    "record-check",
    "a check",
    &[
        must("check", Kind::Name, "What was tested: weight, free alkali, pH, look."),
        must("result", Kind::Name, "What was found."),
        must("outcome", Kind::Word(OUTCOME.names), "How it ended."),
        may("layer", Kind::Name, "The layer that was tested, where it was one."),
        may(
            "free_alkali",
            Kind::Quantity(&[FREE_ALKALI]),
            "Free caustic alkali that was found in it, as sodium hydroxide (ISO 456).",
        ),
        AT,
        BY,
    ],
    &[],
);
pub(super) static HOLD: Table = Table::new(
    "record-hold",
    "a hold",
    &[
        must("layer", Kind::Name, "The layer."),
        may("superfat", Kind::Quantity(&[SUPERFAT]), "Its superfat as weighed."),
        may("worst", Kind::Quantity(&[SUPERFAT]), "The least that its superfat can be."),
        may(
            "free_alkali",
            Kind::Quantity(&[FREE_ALKALI]),
            "Free caustic alkali that a test found, too much of it.",
        ),
    ],
    &[],
);
pub(super) static OUTPUT: Table = Table::new(
    "record-output",
    "the output",
    &[
        must("bars", Kind::Count(limits::RECORD_COUNT), "Good bars."),
        may("rejected", Kind::Count(limits::RECORD_COUNT), "Bars that were not good; none by default."),
        may("mass", Kind::Quantity(&[MASS]), "Mass of the good bars."),
    ],
    &[],
);
pub(super) static SAMPLES: Table = Table::new(
    "record-samples",
    "a note of samples",
    &[
        must("count", Kind::Count(limits::RECORD_COUNT), "How many bars are kept."),
        may("place", Kind::Name, "Where."),
    ],
    &[],
);
pub(super) static RELEASE: Table = Table::new(
    "record-release",
    "the release",
    &[
        must("decision", Kind::Word(DECISION.names), "What was decided."),
        must("by", Kind::Name, "By whom."),
        must("on", Kind::Date, "Day of the decision."),
    ],
    &[],
);
/// The format that is read.
pub(crate) const FORMAT: &str = "record/1";

pub(crate) static RECORD: Table = Table::new(
    "record",
    "the record",
    &[
        must("lamella", Kind::Tag(FORMAT), "The format: record/1."),
        must("batch", Kind::Name, "Number of the batch."),
        must("product", Kind::Name, "The product, as the recipe names it."),
        may("formula", Kind::Name, "Version of the formula."),
        may("note", Kind::Note, "Free text."),
        may("started", Kind::Moment, "When the work began."),
        may("finished", Kind::Moment, "When it ended."),
        may("operators", Kind::List(&Kind::Name, 0), "Who did it."),
        may("equipment", Kind::List(&Kind::Object(&EQUIPMENT), 0), "What it was done with."),
        may("scale_checks", Kind::List(&Kind::Object(&SCALE_CHECK), 0), "Scales held against a weight."),
        must("lots", Kind::List(&Kind::Object(&LOT), 0), "Lots of materials."),
        must("weighings", Kind::List(&Kind::Object(&ACTUAL), 0), "What was weighed."),
        may("temperatures", Kind::List(&Kind::Object(&READING), 0), "Temperatures that were taken."),
        may("layers", Kind::List(&Kind::Object(&LAYER), 0), "Layers in the order in which they were poured."),
        may("events", Kind::List(&Kind::Object(&EVENT), 0), "What was seen and done."),
        may("deviations", Kind::List(&Kind::Object(&DEVIATION), 0), "What went otherwise than planned."),
        may("checks", Kind::List(&Kind::Object(&CHECK), 0), "What was tested."),
        may("holds", Kind::List(&Kind::Object(&HOLD), 0), "Layers on hold when the log was taken over."),
        may("output", Kind::Object(&OUTPUT), "What came out."),
        may("cure_from", Kind::Date, "Day from which the cure counts."),
        may("code", Kind::Name, "The mark by which a bar is known to be of this batch."),
        may("label", Kind::Name, "The label that went on it, by its name or version."),
        may("samples", Kind::Object(&SAMPLES), "Bars that are kept."),
        may("release", Kind::Object(&RELEASE), "Who let it go, or kept it back."),
    ],
    &[],
);
