//! What stands on a label for a material, and what an assessor asks of a name.

use std::borrow::Cow;

use serde::Serialize;

use super::basis::Basis;
use crate::quantity::Share;

/// One of the ingredients that a material is on a label.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LabelPart {
    /// Label name (INCI); one that begins with `CI ` is a colour.
    pub inci: Cow<'static, str>,
    /// Its share of the material by mass.
    pub share: Share,
}

/// A material that is several ingredients on a label, or becomes another one in lye.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Label {
    /// Id of the additive or the colourant.
    pub id: Cow<'static, str>,
    /// What it is, by mass; together 100 %.
    pub parts: Cow<'static, [LabelPart]>,
    /// Name of what sodium hydroxide makes of it, where it is an acid.
    pub sodium_salt: Option<Cow<'static, str>>,
    /// Name of what potassium hydroxide makes of it.
    pub potassium_salt: Option<Cow<'static, str>>,
    /// Where this comes from.
    pub bases: Cow<'static, [Basis]>,
    /// What a maker should know.
    pub note: Cow<'static, str>,
}

/// What goes with a label name. Names and CAS numbers are read; the names of the United States and the functions are from
/// memory.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Substance {
    /// Stable id.
    pub id: Cow<'static, str>,
    /// Label name (INCI), without an English word in brackets.
    pub inci: Cow<'static, str>,
    /// Name on labels of the United States, where it differs.
    pub us: Option<Cow<'static, str>>,
    /// CAS number, where known.
    pub cas: Option<Cow<'static, str>>,
    /// What it is there for, in words of the cosmetic ingredient glossary.
    pub function: Cow<'static, str>,
}

/// Which list a fragrance allergen is on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum AllergenList {
    /// The first 26: Regulation (EC) No 1223/2009, annex III, entries 45 and 67-92.
    Original,
    /// Added by Regulation (EU) 2023/1545.
    AddedIn2023,
}

/// A fragrance substance, or a whole oil, that a label must name above a threshold.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Allergen {
    /// Stable id, `linalool`.
    pub id: Cow<'static, str>,
    /// Name on the label.
    pub name: Cow<'static, str>,
    /// Entry of Regulation (EC) No 1223/2009: of annex III; of annex II where it is prohibited.
    pub entry: Cow<'static, str>,
    /// CAS numbers, of all that is summed under it.
    pub cas: Cow<'static, [Cow<'static, str>]>,
    /// Substances, isomers and oils that are summed under it, beside what has its own name.
    pub members: Cow<'static, [Cow<'static, str>]>,
    /// Names and ids that it once had in this library.
    pub formerly: Cow<'static, [Cow<'static, str>]>,
    /// Which list it is on.
    pub list: AllergenList,
    /// Whether it is no longer allowed at all.
    pub prohibited: bool,
    /// Scents of the library that are this oil, and so count whole.
    pub scents: Cow<'static, [Cow<'static, str>]>,
    /// Where this comes from.
    pub bases: Cow<'static, [Basis]>,
}
