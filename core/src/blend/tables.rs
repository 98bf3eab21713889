//! The fields of a `blend/1` document: the one place where they are listed.

use super::request::Aim;
use crate::limits;
use crate::material::Class;
use crate::quantity::{IodineValue, Mass, SaponificationValue, Share};
use crate::recipe::fields::{Kind, Table, Units, Wanted, Words, may, must};
use crate::recipe::tables::{LARGE_MASS, MASS, SHARE};
use crate::recipe::tables_dose::CERTIFICATE;

/// The format that is read.
pub(super) const FORMAT: &str = "blend/1";

pub(super) const CLASS: Words<Class> = Words {
    names: &[
        "short-saturated",
        "lauric-myristic",
        "palmitic-stearic",
        "mono-unsaturated",
        "poly-unsaturated",
        "hydroxy",
    ],
    values: &Class::ALL,
};

/// A figure that is no share.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Figure {
    Iodine,
    Saponification,
    Cost,
}

pub(super) const FIGURE: Words<Figure> = Words {
    names: &["iodine value", "saponification value", "cost"],
    values: &[Figure::Iodine, Figure::Saponification, Figure::Cost],
};

/// Aims that need no fat.
pub(super) const AIM: Words<Aim> = Words {
    names: &["cheapest", "nearest usual", "nearest targets", "least worst miss", "fewest fats"],
    values: &[Aim::Cheapest, Aim::NearestUsual, Aim::NearestTargets, Aim::LeastWorstMiss, Aim::FewestFats],
};

const fn wanted(limit: limits::Limit, units: Units, example: &'static str) -> Wanted {
    Wanted { limit, units, example }
}

pub(super) const LEVEL: Wanted = wanted(limits::RECIPE_SHARE, Units::Of(Share::UNITS), "20 %");
pub(super) const IODINE: Wanted = wanted(limits::IODINE_VALUE, Units::Of(IodineValue::UNITS), "65");
pub(super) const SAPONIFICATION: Wanted =
    wanted(limits::SAPONIFICATION_VALUE, Units::Of(SaponificationValue::UNITS), "190 mg KOH/g");
pub(super) const STEP: Wanted = wanted(limits::BLEND_STEP, Units::Of(Share::UNITS), "1 %");
pub(super) const PACK: Wanted = wanted(limits::RECIPE_MASS, Units::Of(Mass::UNITS), "1 kg");
pub(super) const PRICE: Wanted = wanted(limits::MONEY, Units::Bare, "7.50 EUR/kg");

pub(super) static FAT: Table = Table::new(
    "blend-fat",
    "a fat to choose from",
    &[
        must("fat", Kind::Name, "Id of a fat of the library."),
        may("certificate", Kind::Object(&CERTIFICATE), "Figures of the supplier in place of the library's."),
        may("price", Kind::Name, "What it costs, such as 7.50 EUR/kg or 38 EUR/5 kg."),
        may("stock", Kind::Quantity(&[MASS]), "How much of it there is; needs size."),
        may("min", Kind::Quantity(&[SHARE]), "Least share of the blend; 0 % by default."),
        may("max", Kind::Quantity(&[SHARE]), "Largest share of the blend; 100 % by default."),
        may("usual", Kind::Quantity(&[SHARE]), "Its share in the usual blend; 0 % by default."),
        may("groups", Kind::List(&Kind::Name, 1), "Groups it is in, such as palm or local."),
    ],
    &[],
);

// A cost is written as a price is. The list is named, since the oldest compiler lets no constant borrow from the middle of
// an expression.
const LEVEL_KINDS: &[Kind] = &[Kind::Quantity(&[LEVEL, IODINE, SAPONIFICATION]), Kind::Name];
const LEVELS: Kind = Kind::Either(LEVEL_KINDS);

pub(super) static DEMAND: Table = Table::new(
    "blend-demand",
    "a demand",
    &[
        may("class", Kind::Word(CLASS.names), "Of a class of fatty acids."),
        may("acid", Kind::Name, "Of a fatty acid, such as C18:2."),
        may("figure", Kind::Word(FIGURE.names), "Of the iodine value, the saponification value or the cost."),
        may("group", Kind::Name, "Of the share of the fats in a group."),
        may("at_least", LEVELS, "It is no less."),
        may("at_most", LEVELS, "It is no more."),
        may("exactly", LEVELS, "It is just so."),
        may("target", LEVELS, "It should be near this; an aim says how."),
    ],
    &[&["class"], &["acid"], &["figure"], &["group"]],
);

pub(super) static MOST_OF: Table = Table::new(
    "blend-most-of",
    "an aim",
    &[must("most_of", Kind::Name, "Id of the fat of which as much as possible is used up.")],
    &[],
);

// Named, as above.
const AIM_KINDS: &[Kind] = &[Kind::Word(AIM.names), Kind::Object(&MOST_OF)];
const AIM_KIND: Kind = Kind::Either(AIM_KINDS);

pub(super) static BLEND: Table = Table::new(
    "blend",
    "a blend",
    &[
        must("lamella", Kind::Tag(FORMAT), "The format: blend/1."),
        must("name", Kind::Name, "What the maker calls it."),
        may("note", Kind::Note, "Free text."),
        may("size", Kind::Quantity(&[LARGE_MASS]), "How much fat is to be blended; stocks need it."),
        may("step", Kind::Quantity(&[STEP]), "Shares are whole multiples of this, such as 1 %."),
        may("fats_at_most", Kind::Count(limits::BLEND_FATS), "At most so many fats."),
        must("fats", Kind::List(&Kind::Object(&FAT), 1), "The fats to choose from."),
        may("demands", Kind::List(&Kind::Object(&DEMAND), 0), "What the blend must be."),
        must("aims", Kind::List(&AIM_KIND, 1), "What it is best in, most important first."),
    ],
    &[],
);
