//! What is wrong with a document, said so that a maker can mend it.

use std::fmt;

use serde::Serialize;

use crate::quantity::QuantityError;

/// Something wrong in a maker's document: data, collected and not thrown. A plan is made only when there is none.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Problem {
    /// Stable code, `area.noun.what`; every one is listed in [`CODES`].
    pub code: &'static str,
    /// JSON Pointer (RFC 6901) to the place in the document; empty for the document as a whole.
    pub pointer: String,
    /// What is wrong: found value and what is allowed, in one sentence.
    pub message: String,
    /// What to do about it.
    pub advice: String,
}

/// A text that is no quantity, and stands in no document.
impl From<&QuantityError> for Problem {
    fn from(error: &QuantityError) -> Self {
        let words = error.to_string();
        let (message, advice) = words.split_once("; ").unwrap_or((&words, "use a number within it"));
        Self { code: error.code(), pointer: String::new(), message: short(message), advice: short(advice) }
    }
}

/// A sentence without the rest of a very long text that it repeats.
pub(crate) fn short(words: &str) -> String {
    const MOST: usize = 300;
    match words.char_indices().nth(MOST) {
        Some((end, _)) => format!("{}...", words.get(..end).unwrap_or_default()),
        None => words.to_owned(),
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let place = if self.pointer.is_empty() { "/" } else { &self.pointer };
        write!(f, "{place}: {} [{}]", self.message, self.code)?;
        if self.advice.is_empty() { Ok(()) } else { write!(f, "; {}", self.advice) }
    }
}

/// Every problem code with what it means. A code is never removed or given another meaning.
pub const CODES: &[(&str, &str)] = &[
    ("document.json", "the text is not JSON"),
    ("document.size", "the document is longer than allowed"),
    ("document.encoding", "the text is not UTF-8"),
    ("document.format", "the document does not say which format it is in, or an unknown one"),
    ("document.duplicate", "a key stands twice in one object"),
    ("field.unknown", "a field that the format does not have"),
    ("field.missing", "a field that must be there is not"),
    ("field.type", "a value of another JSON type than wanted"),
    ("field.word", "a word that is not one of those allowed here"),
    ("field.text", "a name or note is empty, too long, or has control characters"),
    ("field.choice", "exactly one of several fields must be there"),
    ("list.length", "a list is empty where it must not be, or too long"),
    ("name.duplicate", "two things of one kind have the same name"),
    ("quantity.form", "not a number with a unit"),
    ("quantity.comma", "a decimal comma"),
    ("quantity.unit.missing", "a number without a unit"),
    ("quantity.unit.unknown", "a unit of another kind, or none"),
    ("quantity.digits", "more decimals than are kept"),
    ("quantity.range", "a number outside what is allowed here"),
    ("quantity.overflow", "a number beyond any a computation can hold"),
    ("material.unknown", "no material of this id"),
    ("material.composition", "parts of a composition that do not fit together"),
    ("fat.shares.sum", "shares of the fats do not sum to 100 %"),
    ("fat.amounts.mixed", "some fats by share and some by mass"),
    ("fat.profile.sum", "fatty acids of a certificate outside 95-101 %"),
    ("fat.held-back", "fat held back until after the cook does not fit the rest of the recipe"),
    ("fat.total", "there is no fat to saponify"),
    ("alkali.share", "the share of potassium hydroxide is missing, or stands without a second alkali"),
    ("alkali.purity", "purity and carbonate together pass 100 %"),
    ("water.liquid", "a material that cannot stand in for water"),
    ("water.liquids", "liquids replace more water than there is"),
    ("water.additives", "the additives bring more water than the recipe has"),
    ("dose.basis", "a dose on a basis that cannot be used here"),
    ("dose.balance", "a dose that cannot be balanced by lye"),
    ("layer.share", "shares of layers of different kinds, or none above nought"),
    ("layer.jug", "a layer names a jug that is not there, or has doses beside those of its jug"),
    ("jug.unused", "a jug that no layer is poured from"),
    ("size.missing", "nothing says how large the batch is"),
    ("size.twice", "two things say how large the batch is"),
    ("mould.missing", "something needs a mould and there is none"),
    ("mould.shape", "a mould's dimensions do not make a mould"),
    ("scale.missing", "no scale of the workshop can weigh this"),
    ("scale.coarse", "a scale is too coarse to weigh this"),
    ("date.form", "not a day of the calendar as year, month and day"),
    ("date.absent", "a day or a time that there is not"),
    ("date.range", "a year outside those that are read"),
    ("date.order", "a day before another that it must follow"),
    ("weighings.cut", "a weighing by date, and the day of the cut is not known"),
    ("weighings.uncertainty", "some weighings of a bar state their uncertainty and some do not"),
    ("prices.currency", "not the code of a currency"),
    ("prices.pack", "a pack by volume without a density, or one by mass with one"),
    ("prices.bars", "something is priced by the bar, and the bars are not known"),
    ("prices.material", "a material has no price to change"),
    ("record.lot", "a weighing from a lot that is not listed"),
    ("trial.foam", "a height of foam later without the time, or the time without it"),
    ("trial.washes", "a bar that does not weigh less after its washes"),
    ("plan.number", "a figure of the plan is beyond what can be computed"),
    ("plan.residue", "what stays behind is more than there is"),
    ("plan.size", "no batch of this size comes out of this recipe"),
    ("call.argument", "a function was given something that it does not take"),
    ("library.internal", "a mistake of this library, not of the document"),
    ("assessment.names", "names of what has formed, at a time when nothing has"),
    ("assessment.range", "a range whose least is more than its most, or that says neither"),
    ("assessment.sum", "ranges that no composition can lie in"),
    ("plan.other-recipe", "a plan is read with a recipe that it was not made of"),
    ("plan.dose-identity", "two doses of a recipe made in a program cannot be told apart"),
    ("label.inci", "a material has no label name"),
    ("label.held", "a label is asked for a batch with layers on hold"),
    ("label.prohibited", "a substance of a scent that is prohibited in cosmetics"),
    ("label.colour", "a colour that annex IV does not list, or not for such bars or so much of it"),
    ("label.peanut", "a material made from peanut that holds more of its protein than is allowed"),
    ("label.soap", "a soap that no inventory names stands under the name of its fat"),
    ("label.purpose", "a material that is no permitted colour is in the recipe as one"),
    ("label.statement", "a material that needs a statement of its supplier"),
    ("label.layer", "a label is asked for a layer that is not there"),
    ("heat.parameter", "a figure of heat outside of what can be computed with"),
    ("heat.layers", "no layer to forecast, or too many"),
    ("heat.phases", "no surroundings, or too many"),
    ("heat.order", "times that do not begin at nought and rise, or lie past the end"),
    ("heat.pours", "more pours than layers"),
    ("heat.grid", "a grid that cannot be used"),
    ("heat.steps", "a run that takes more steps than allowed"),
    ("heat.log", "a thermometer log that cannot be fitted"),
    ("plan.mould", "the layers do not fit into the moulds"),
    ("blend.fat.range", "the least share of a fat is above its largest, or the least shares pass 100 %"),
    ("blend.step", "steps of a share that do not make up 100 %"),
    ("blend.stock", "a stock, and nothing says how much fat is to be blended"),
    ("blend.price", "a price is missing or in another currency"),
    ("blend.figure", "a fat lacks a figure that a demand or an aim needs"),
    ("blend.demand", "a demand that demands nothing, or more at least than at most"),
    ("blend.group", "a group that no fat is in"),
    ("blend.usual", "the usual shares do not sum to 100 %"),
    ("blend.aim", "an aim that nothing in the document gives a measure of"),
    ("blend.conflict", "no blend meets all demands"),
    ("blend.effort", "no blend was found within the effort that is allowed"),
    ("blend.solver", "the solver gave no answer that holds when it is checked"),
    ("blend.number", "a figure of the blend is beyond what can be computed"),
    ("event.unknown", "an event names something that the plan does not have"),
    ("event.ambiguous", "an event names something that the plan has more than once"),
    ("event.twice", "an event reports again what was reported"),
    ("event.late", "an event is about something that is settled already"),
    ("event.order", "an event comes before one that must come first"),
    ("event.more-than-there-is", "an event takes more than there is"),
    ("event.nothing-left", "an event leaves nothing for the rest of the batch"),
    ("event.impossible", "no plan can be made of the rest of the batch after an event"),
];
