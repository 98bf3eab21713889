//! The fields of a `batch/1` document.

use super::event::Mixed;
use crate::limits;
use crate::material::Alkali;
use crate::quantity::{Mass, Share, Temperature};
use crate::recipe::fields::{Kind, Table, Units, Wanted, Words, may, must};
use crate::recipe::tables::RECIPE;

/// The format that is read and written.
pub(crate) const FORMAT: &str = "batch/1";

pub(crate) const MIXED: Words<Mixed> = Words { names: &["fats", "lye"], values: &[Mixed::Fats, Mixed::Lye] };
pub(crate) const ALKALI: Words<Alkali> =
    Words { names: &["naoh", "koh"], values: &[Alkali::SodiumHydroxide, Alkali::PotassiumHydroxide] };

pub(crate) const MASS: Wanted =
    Wanted { limit: limits::RECIPE_MASS, units: Units::Of(Mass::UNITS), example: "85.6 g" };
pub(crate) const PURITY: Wanted =
    Wanted { limit: limits::RECIPE_PURITY, units: Units::Of(Share::UNITS), example: "98 %" };
pub(crate) const TEMPERATURE: Wanted =
    Wanted { limit: limits::RECIPE_TEMPERATURE, units: Units::Of(Temperature::UNITS), example: "38 °C" };

pub(crate) const FREE_ALKALI: Wanted =
    Wanted { limit: limits::FREE_ALKALI, units: Units::Of(Share::UNITS), example: "0.02 %" };

pub(crate) static EVENT: Table = Table::new(
    "event",
    "an event",
    &[
        may(
            "weighed",
            Kind::Name,
            "So much of this went in: an id or a place of the recipe, \"pot\" or \"lye\".",
        ),
        may("added", Kind::Name, "So much of this went in beside the plan."),
        may("poured", Kind::Name, "This layer was poured."),
        may("reads", Kind::Name, "The scale shows this with the jug after its next layer was poured."),
        may("skipped", Kind::Name, "This item, or this layer, was left out."),
        may("left", Kind::Name, "So much stays in \"pot\", \"lye\" or this jug."),
        may("found", Kind::Word(ALKALI.names), "This alkali turned out to be otherwise."),
        may("temperature", Kind::Quantity(&[TEMPERATURE]), "A temperature at mixing."),
        may("tested", Kind::Name, "The free caustic alkali of this poured layer was determined (ISO 456)."),
        may("note", Kind::Note, "Anything else."),
        may("in", Kind::Name, "The jug it went into, or a layer of it."),
        may("mass", Kind::Quantity(&[MASS]), "How much."),
        may("purity", Kind::Quantity(&[PURITY]), "How pure the alkali is."),
        may("is", Kind::Word(ALKALI.names), "Which alkali it is."),
        may("free_alkali", Kind::Quantity(&[FREE_ALKALI]), "What was found, as sodium hydroxide."),
        may("of", Kind::Word(MIXED.names), "Whose temperature."),
        may("at", Kind::Name, "When, as the maker writes it."),
    ],
    &[
        &["weighed"],
        &["added"],
        &["poured"],
        &["reads"],
        &["skipped"],
        &["left"],
        &["found"],
        &["temperature"],
        &["tested"],
        &["note"],
    ],
);

pub(crate) static BATCH: Table = Table::new(
    "batch",
    "a batch",
    &[
        must("lamella", Kind::Tag(FORMAT), "The format: batch/1."),
        must("recipe", Kind::Object(&RECIPE), "The recipe that it is made by, a recipe/1 document."),
        may("events", Kind::List(&Kind::Object(&EVENT), 0), "What happened, in order."),
    ],
    &[],
);
