//! What a maker reports from the bench.

use std::fmt;

use crate::material::Alkali;
use crate::quantity::{Mass, Share, Temperature};

/// One line of the log.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// When, as the maker writes it; this library has no clock.
    pub at: Option<String>,
    /// What happened.
    pub event: Event,
}

impl From<Event> for Entry {
    fn from(event: Event) -> Self {
        Self { at: None, event }
    }
}

/// Which of the two temperatures at mixing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(clippy::exhaustive_enums, reason = "two things are mixed")]
pub enum Mixed {
    /// That of the fats.
    Fats,
    /// That of the lye.
    Lye,
}

/// What happened.
///
/// Things are named as the plan names them: by id (`coconut-oil`, `naoh`, `water`), or by their JSON Pointer in the
/// recipe (`/fats/1`) where an id stands twice; a jug by its name, or by that of a layer that is poured from it.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Event {
    /// So much of an item of the plan went in: all of it together, not what was added last. With a vessel, into that jug:
    /// one of its doses, or `pot` for what it gets from the pot of fats, or `lye` for what it gets of the lye.
    Weighed {
        /// The item.
        item: String,
        /// The jug; nothing for the pot and the vessel of the lye.
        vessel: Option<String>,
        /// How much.
        mass: Mass,
    },
    /// So much went in beside the plan: into a jug, or without one into the pot, or the lye for water and alkali.
    Added {
        /// A material of the recipe or of the library, or `lye` for what was left of it, or an alkali by its id; in a jug
        /// that is the alkali of fresh lye, and its water an addition of its own.
        item: String,
        /// The jug.
        vessel: Option<String>,
        /// How much.
        mass: Mass,
    },
    /// A layer was poured.
    Poured {
        /// The layer.
        layer: String,
        /// How much.
        mass: Mass,
    },
    /// The scale shows this with the jug on it, after the next layer of the jug was poured.
    Reads {
        /// The jug.
        jug: String,
        /// What the scale shows.
        mass: Mass,
    },
    /// An item, or a whole layer, was left out.
    Skipped {
        /// The item or the layer.
        item: String,
        /// The jug.
        vessel: Option<String>,
    },
    /// So much will stay, or stays, in `pot`, `lye` or a jug.
    Left {
        /// The vessel.
        vessel: String,
        /// How much.
        mass: Mass,
    },
    /// An alkali turned out to be of another purity, or to be the other alkali.
    Found {
        /// What the recipe calls it.
        alkali: Alkali,
        /// How pure it is.
        purity: Option<Share>,
        /// What it is.
        is: Option<Alkali>,
    },
    /// A temperature at mixing.
    Measured {
        /// Of what.
        of: Mixed,
        /// The temperature.
        temperature: Temperature,
    },
    /// The free caustic alkali of a poured layer was determined. What is found last counts: up to
    /// [`FREE_ALKALI`](crate::batch::FREE_ALKALI) it ends a hold, above it the layer is on hold.
    Tested {
        /// The layer.
        layer: String,
        /// Free caustic alkali as sodium hydroxide (ISO 456).
        free_alkali: Share,
    },
    /// Anything else.
    Note {
        /// The text.
        text: String,
    },
}

/// The event in words.
impl fmt::Display for Event {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let into = |vessel: &Option<String>| {
            vessel.as_ref().map_or_else(String::new, |vessel| format!(" into {vessel}"))
        };
        match self {
            Self::Weighed { item, vessel, mass } => write!(f, "weighed {mass} of {item}{}", into(vessel)),
            Self::Added { item, vessel, mass } => write!(f, "added {mass} of {item}{}", into(vessel)),
            Self::Poured { layer, mass } => write!(f, "poured {mass} of {layer}"),
            Self::Reads { jug, mass } => write!(f, "the scale shows {mass} with {jug}"),
            Self::Skipped { item, vessel: None } => write!(f, "left {item} out"),
            Self::Skipped { item, vessel: Some(vessel) } => write!(f, "left {item} out of {vessel}"),
            Self::Left { vessel, mass } => write!(f, "{mass} stays in {vessel}"),
            Self::Found { alkali, purity, is } => {
                write!(f, "the {} turned out to be", alkali.name())?;
                if let Some(is) = is {
                    write!(f, " {}", is.name())?;
                }
                purity.map_or(Ok(()), |purity| write!(f, " of {purity}"))
            }
            Self::Measured { of: Mixed::Fats, temperature } => write!(f, "the fats have {temperature}"),
            Self::Measured { of: Mixed::Lye, temperature } => write!(f, "the lye has {temperature}"),
            Self::Tested { layer, free_alkali } => {
                write!(f, "tested {layer}: {free_alkali} free alkali")
            }
            Self::Note { text } => f.write_str(text),
        }
    }
}
