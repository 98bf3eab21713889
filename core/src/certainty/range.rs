//! How far each figure may be from the one that a plan reckons with, and what says so.

use crate::chemistry::reachable;
use crate::material::{Additive, Alkali, Basis, BasisKind, Fat, Ranged, library};
use crate::quantity::{Exact, SaponificationValue, Share};
use crate::recipe::AlkaliGrade;

/// The two ends of a range, and what they rest on.
#[derive(Clone, Debug)]
pub(crate) struct Range {
    pub(crate) low: Exact,
    pub(crate) high: Exact,
    pub(crate) basis: &'static str,
}

/// Spread of a saponification value of which no range is published, either way, as a part of it.
///
/// # Source
/// Derived: the middle of the half-widths of the ranges that the library has is 2.9 % of the typical value.
pub const UNPUBLISHED: Share = Share::literal(3, 2);
/// Spread of a saponification value that a certificate states, either way, as a part of it.
///
/// # Source
/// From memory: two laboratories that follow ISO 3657 agree to within about one per cent.
pub const CERTIFIED: Share = Share::literal(1, 2);
/// Spread of a purity that a recipe states without saying how well it is known: so many points either way.
///
/// # Source
/// From memory: trade specifications of fresh prills span two points (97.5 to 99.5 %).
pub const STATED_PURITY: Share = Share::literal(1, 2);
/// Spread of what a label states of an additive's fat or acid, as a part of it.
///
/// # Source
/// From memory: European guidance of December 2012 on tolerances of nutrition labels, fat from 10 to 40 g in 100 g.
pub const LABELLED: Share = Share::literal(20, 2);
/// Spread of a composition taken from a dataset or a handbook, as a part of each figure. A stand-in without a source.
pub const TABULATED: Share = Share::literal(15, 2);
/// Spread of a composition known from memory or common practice, as a part of each figure. A stand-in without a source.
pub const REMEMBERED: Share = Share::literal(30, 2);
/// Spread of the content of a substance that is nine tenths or more of what is weighed: a pure substance.
///
/// # Source
/// From memory: pharmacopoeias ask for 99 % or more of such substances.
pub const PURE: Share = Share::literal(1, 2);

/// Content from which a substance counts as pure.
const NEARLY_ALL: Share = Share::literal(90, 2);

/// A figure and the same part of it, either way.
fn around(value: Exact, part: Share) -> (Exact, Exact) {
    let by = value * part.exact();
    (value - by, value + by)
}

/// The range of a saponification value, mg KOH/g. `certified` when a recipe states it in place of the library.
pub(crate) fn saponification_value(value: &Ranged<SaponificationValue>, certified: bool) -> Range {
    let typical = value.typical.exact();
    let (part, basis) = match (value.min, value.max) {
        (Some(min), Some(max)) => {
            return Range {
                low: min.exact().min(typical),
                high: max.exact().max(typical),
                basis: "published range of the saponification value",
            };
        }
        _ if certified => (CERTIFIED, "certificate, 1 % either way"),
        _ => (UNPUBLISHED, "no published range: 3 % either way as a stand-in"),
    };
    let (low, high) = around(typical, part);
    Range {
        low: value.min.map_or(low, |min| min.exact().min(typical)),
        high: value.max.map_or(high, |max| max.exact().max(typical)),
        basis,
    }
}

/// Whether the saponification value is another than the library's.
pub(crate) fn is_certified(fat: &Fat) -> bool {
    library::fat(&fat.id).is_none_or(|known| known.saponification_value != fat.saponification_value)
}

/// The range of the saponification value of an additive's own fat, mg KOH/g.
pub(crate) fn own_fat(additive: &Additive) -> Option<Range> {
    let typical = additive.fat_saponification_value?;
    let like = reachable(additive).filter(|fat| fat.saponification_value.typical == typical);
    Some(match like {
        Some(fat) => saponification_value(&fat.saponification_value, false),
        None => saponification_value(&Ranged::exactly(typical), false),
    })
}

/// The range of an alkali's purity, as a share.
pub(crate) fn purity(alkali: Alkali, grade: AlkaliGrade) -> Range {
    let (value, whole) = (grade.purity.exact(), Exact::ONE);
    let usual = &library::alkali(alkali).purity;
    let (by, basis) = match grade.purity_within {
        Some(within) => (within, "stated in the recipe"),
        None if grade.purity == usual.typical => {
            return Range {
                low: usual.min.map_or(value, Share::exact).min(value),
                high: usual.max.map_or(value, Share::exact).max(value),
                basis: "range of what is sold",
            };
        }
        None => (STATED_PURITY, "stated without a tolerance: 1 point either way"),
    };
    Range { low: (value - by.exact()).max(Exact::ZERO), high: (value + by.exact()).min(whole), basis }
}

/// The range of a part of an additive's composition, as a share.
pub(crate) fn content(additive: &Additive, part: Share, what: &str, own: bool) -> Range {
    let (spread, basis) = if part >= NEARLY_ALL {
        (PURE, "pure substance: 1 % either way")
    } else if own {
        (LABELLED, "stated in the recipe, taken as from a label: a fifth of it either way")
    } else {
        match kind_of(additive, what) {
            BasisKind::Supplier => (LABELLED, "label or certificate: a fifth of it either way"),
            BasisKind::Standard | BasisKind::Regulation | BasisKind::Handbook | BasisKind::Dataset => {
                (TABULATED, "dataset or handbook: 15 % of it either way, a stand-in")
            }
            _ => (REMEMBERED, "from memory: 30 % of it either way, a stand-in"),
        }
    };
    let (low, high) = around(part.exact(), spread);
    Range { low, high: high.min(Exact::ONE), basis }
}

/// What a part of a composition rests on: the basis that names it, else the one of the composition.
fn kind_of(additive: &Additive, what: &str) -> BasisKind {
    let names = |basis: &&Basis| basis.what.split(", ").any(|item| item == what);
    let whole = |basis: &&Basis| basis.what == "composition";
    let found = additive.bases.iter().find(names).or_else(|| additive.bases.iter().find(whole));
    found.map_or(BasisKind::Memory, |basis| basis.kind)
}
