//! The rules of law that the figures here are held against, each with where it stands and whether it was read there.

use serde::Serialize;

use crate::material::AllergenList;
use crate::quantity::{Date, Share};

/// Where goods are placed on the market.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Market {
    /// The European Union, and Northern Ireland, where its rules on cosmetics hold.
    #[default]
    EuropeanUnion,
    /// England, Scotland and Wales.
    GreatBritain,
    /// The United States.
    UnitedStates,
}

impl Market {
    /// The market in words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::EuropeanUnion => "European Union and Northern Ireland",
            Self::GreatBritain => "Great Britain",
            Self::UnitedStates => "United States",
        }
    }
}

/// A rule of law.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Rule {
    /// What it says.
    pub says: &'static str,
    /// Where it stands.
    pub cite: &'static str,
    /// Whether it was read there, or in a quotation or copy of it; otherwise it is from memory.
    pub seen: bool,
}

const fn rule(says: &'static str, cite: &'static str, seen: bool) -> Rule {
    Rule { says, cite, seen }
}

/// Order of an ingredient list.
pub const ORDER: Rule = rule(
    "ingredients stand in descending order of weight at the time they are added",
    "Regulation (EC) No 1223/2009, article 19(1)(g); in Great Britain as amended by S.I. 2019/696, schedule 34",
    true,
);
/// Ingredients below one per cent.
pub const UNDER_ONE: Rule = rule(
    "those of less than 1 % may stand in any order after those of more",
    "Regulation (EC) No 1223/2009, article 19(1)(g)",
    true,
);
/// Colours.
pub const COLOURS: Rule = rule(
    "colours may stand in any order after the other ingredients, by their number of the Colour Index",
    "Regulation (EC) No 1223/2009, article 19(1)(g)",
    true,
);
/// Scents.
pub const PARFUM_RULE: Rule = rule(
    "perfume and aromatic compositions stand as parfum",
    "Regulation (EC) No 1223/2009, article 19(1)(g)",
    true,
);
/// Nanomaterials.
pub const NANO: Rule =
    rule("a nanomaterial is followed by (nano)", "Regulation (EC) No 1223/2009, article 19(1)(g)", true);
/// Names.
pub const GLOSSARY: Rule = rule(
    "ingredients have the names of the common ingredient glossary",
    "Regulation (EC) No 1223/2009, article 33",
    true,
);
/// Impurities.
pub const IMPURITIES: Rule = rule(
    "impurities of raw materials, and technical materials that are not in the finished product, are no ingredients",
    "Regulation (EC) No 1223/2009, article 19(1)(g)(i)-(ii)",
    true,
);
/// Which of the two styles a list is in.
pub const STYLES: Rule = rule(
    "soap may be told as charged or as formed; the first follows the words of the article, the second is common",
    "common practice; not in the text of the regulation",
    false,
);
/// Fragrance allergens.
pub const ALLERGENS: Rule = rule(
    "a listed substance of a scent is named above 0.01 % of the finished product that is rinsed off, 0.001 % of one that stays on",
    "Regulation (EC) No 1223/2009, annex III, entries 45 and 67-92",
    true,
);
/// The longer list of fragrance allergens, and from when it must be followed.
pub const ALLERGENS_2023: Rule = rule(
    "the longer list: goods without it may be placed on the market until 31 July 2026 and made available until 31 July 2028",
    "Regulation (EU) 2023/1545, annex, footnotes, OJ L 188, 27.7.2023, p. 1",
    true,
);
/// Order in the United States.
pub const US_ORDER: Rule = rule(
    "ingredients stand in descending order of predominance; those of 1 % or less, then colours, may stand in any order after",
    "21 CFR 701.3(a) and (f)",
    false,
);
/// Soap in the United States.
pub const US_SOAP: Rule = rule(
    "soap is no cosmetic when the bulk of its non-volatile matter is alkali salt of fatty acids, to which it owes its detergency, \
     and it is sold and represented as soap alone; its label then needs no ingredient list",
    "21 CFR 701.20",
    true,
);

/// The first day on which goods placed on the market of the Union must follow the longer list of allergens.
///
/// # Source
/// Regulation (EU) 2023/1545: goods without it may be placed until 31 July 2026.
pub const ALLERGENS_2023_PLACED_FROM: Date = Date::literal(2026, 8, 1);
/// The first day on which no goods may be made available in the Union that do not follow it.
///
/// # Source
/// Regulation (EU) 2023/1545: until 31 July 2028.
pub const ALLERGENS_2023_AVAILABLE_FROM: Date = Date::literal(2028, 8, 1);

/// Above this share of a product that is rinsed off an allergen is named: 0.01 %.
///
/// # Source
/// Regulation (EC) No 1223/2009, annex III, entries 45 and 67-92.
pub const RINSE_OFF: Share = Share::literal(1, 4);
/// Above this share of a product that stays on the skin: 0.001 %.
///
/// # Source
/// Regulation (EC) No 1223/2009, annex III, entries 45 and 67-92.
pub const LEAVE_ON: Share = Share::literal(1, 5);

/// The lists of fragrance allergens that hold on a market for goods first placed on it on a day; without a day all
/// that there are.
///
/// Great Britain has not been seen to adopt the longer list (instruments up to S.I. 2025/413 looked through). In the United States
/// no list is in force: the statute of 2022 asks for one (from memory).
///
/// ```
/// use lamella::market::{allergen_lists, Market};
/// let day = |text: &str| text.parse().ok();
/// assert_eq!(allergen_lists(Market::EuropeanUnion, day("2026-07-31")).len(), 1);
/// assert_eq!(allergen_lists(Market::EuropeanUnion, day("2026-08-01")).len(), 2);
/// ```
#[must_use]
pub fn allergen_lists(market: Market, placed_on: Option<Date>) -> &'static [AllergenList] {
    const BOTH: &[AllergenList] = &[AllergenList::Original, AllergenList::AddedIn2023];
    const FIRST: &[AllergenList] = &[AllergenList::Original];
    match (market, placed_on) {
        (Market::EuropeanUnion, Some(day)) if day < ALLERGENS_2023_PLACED_FROM => FIRST,
        (Market::EuropeanUnion, _) => BOTH,
        (Market::GreatBritain, _) => FIRST,
        (Market::UnitedStates, _) => &[],
    }
}
