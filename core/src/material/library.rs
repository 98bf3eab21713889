//! The embedded tables: every fat, additive, acid, colourant and scent that has an id.
//!
//! In: `core/data/*.toml`, turned into static arrays sorted by id when the crate is built. Out: whole tables, one row by
//! its id, and the id that a misspelt one may have meant. Nothing is parsed or copied at run time.

use std::borrow::Cow;

use super::acid::Acid;
use super::additive::{Additive, Composition, Form};
use super::alkali::{Alkali, AlkaliData};
use super::atoms::Formula;
use super::basis::{Basis, BasisKind};
use super::colourant::{Colourant, ColourantKind};
use super::fat::{AcidShare, Fat, FatDensity, FatKind, Inci, Ranged};
use super::fatty_acid::FattyAcid;
use super::fragrance::{Fragrance, FragranceKind, Pace};
use super::in_lye::InLye;
use super::label::{Allergen, AllergenList, Label, LabelPart, Substance};
use super::profile::Means;
use crate::quantity::{Density, IodineValue, SaponificationValue, Share, Temperature};

include!(concat!(env!("OUT_DIR"), "/library.rs"));

/// The row of this id in a table sorted by id.
fn find<'a, T>(table: &'a [T], id: &str, id_of: impl Fn(&T) -> &str) -> Option<&'a T> {
    table.binary_search_by(|row| id_of(row).cmp(id)).ok().and_then(|at| table.get(at))
}

/// Every fat, sorted by id.
#[must_use]
pub fn fats() -> &'static [Fat] {
    &FATS
}

/// The fat of this id.
///
/// ```
/// use lamella::material::library;
/// let olive = library::fat("olive-oil").unwrap();
/// assert_eq!(olive.saponification_value.typical.to_string(), "190 mg KOH/g");
/// assert!(library::fat("olive oil").is_none());
/// ```
#[must_use]
pub fn fat(id: &str) -> Option<&'static Fat> {
    find(&FATS, id, |row| &row.id)
}

/// What the profiles of the fats compute to, in their order.
#[expect(
    clippy::indexing_slicing,
    reason = "it runs in the compiler, which would refuse an index that is not there"
)]
static MEANS: [Means; FATS.len()] = {
    let mut means = [Means::of(FatKind::WaxEster, &[]); FATS.len()];
    let mut at = 0;
    while at < means.len() {
        if let Cow::Borrowed(profile) = &FATS[at].profile {
            means[at] = Means::of(FATS[at].kind, profile);
        }
        at += 1;
    }
    means
};

/// What the profile of a fat computes to: looked up where it is the library's own, else worked out.
pub(crate) fn means(fat: &Fat) -> Means {
    let known = FATS.binary_search_by(|row| row.id.cmp(&fat.id)).ok();
    let known = known.and_then(|at| FATS.get(at).zip(MEANS.get(at)));
    match known {
        Some((row, means)) if std::ptr::eq(&*row.profile, &*fat.profile) && row.kind == fat.kind => *means,
        _ => Means::of(fat.kind, &fat.profile),
    }
}

/// Why the profile of a fat does not compute to its stated values; nothing for all but a few. Its note says it too.
#[must_use]
pub fn deviation(fat: &str) -> Option<&'static str> {
    find(&DEVIATIONS, fat, |row| row.0).map(|row| row.1)
}

/// Every additive, liquids among them, sorted by id.
#[must_use]
pub fn additives() -> &'static [Additive] {
    &ADDITIVES
}

/// The additive or liquid of this id.
///
/// ```
/// use lamella::material::library;
/// let tahini = library::additive("tahini").unwrap();
/// assert_eq!(tahini.fat_like.as_deref(), Some("sesame-oil"));
/// ```
#[must_use]
pub fn additive(id: &str) -> Option<&'static Additive> {
    find(&ADDITIVES, id, |row| &row.id)
}

/// The additives that pour and can stand in for water, sorted by id.
pub fn liquids() -> impl Iterator<Item = &'static Additive> {
    ADDITIVES.iter().filter(|row| row.form == Form::Liquid)
}

/// Every acid, sorted by id.
#[must_use]
pub fn acids() -> &'static [Acid] {
    &ACIDS
}

/// The acid of this id.
#[must_use]
pub fn acid(id: &str) -> Option<&'static Acid> {
    find(&ACIDS, id, |row| &row.id)
}

/// Every colourant, sorted by id.
#[must_use]
pub fn colourants() -> &'static [Colourant] {
    &COLOURANTS
}

/// The colourant of this id.
#[must_use]
pub fn colourant(id: &str) -> Option<&'static Colourant> {
    find(&COLOURANTS, id, |row| &row.id)
}

/// Every scent, sorted by id.
#[must_use]
pub fn fragrances() -> &'static [Fragrance] {
    &FRAGRANCES
}

/// The scent of this id.
#[must_use]
pub fn fragrance(id: &str) -> Option<&'static Fragrance> {
    find(&FRAGRANCES, id, |row| &row.id)
}

/// What is known of an alkali as it is sold.
///
/// ```
/// use lamella::material::{Alkali, library};
/// assert_eq!(library::alkali(Alkali::PotassiumHydroxide).purity.typical.to_string(), "90 %");
/// ```
#[must_use]
pub fn alkali(alkali: Alkali) -> &'static AlkaliData {
    let [potassium, sodium] = &ALKALIS;
    match alkali {
        Alkali::SodiumHydroxide => sodium,
        Alkali::PotassiumHydroxide => potassium,
    }
}

/// What an additive is on a label where it is more than its one name.
#[must_use]
pub fn additive_label(id: &str) -> Option<&'static Label> {
    find(&ADDITIVE_LABELS, id, |row| &row.id)
}

/// What a colourant is on a label where it is more than its number.
#[must_use]
pub fn colourant_label(id: &str) -> Option<&'static Label> {
    find(&COLOURANT_LABELS, id, |row| &row.id)
}

/// Every label name of which more is known, sorted by id.
#[must_use]
pub fn substances() -> &'static [Substance] {
    &SUBSTANCES
}

/// Every fragrance allergen, sorted by id.
#[must_use]
pub fn allergens() -> &'static [Allergen] {
    &ALLERGENS
}

/// The fragrance allergen that a certificate means by a name: that of the label, an id, an isomer or an oil that is summed
/// under it, or a CAS number. Capitals, spaces and hyphens do not matter, and `α` is `alpha`.
///
/// ```
/// use lamella::material::library::allergen;
/// let id = |name: &str| allergen(name).map(|row| row.id.to_string());
/// assert_eq!(id("Geranial"), id("citral"));
/// assert_eq!(id("α-Pinene"), Some("pinene".to_owned()));
/// assert_eq!(id("5989-27-5"), Some("limonene".to_owned()));
/// assert_eq!(id("Bisabolol"), None);
/// ```
#[must_use]
pub fn allergen(name: &str) -> Option<&'static Allergen> {
    let wanted = allergen_key(name);
    allergens().iter().find(|row| {
        let names = [&row.id, &row.name].into_iter().chain(&*row.members).chain(&*row.formerly);
        row.cas.iter().any(|cas| cas == name.trim())
            || names.into_iter().any(|name| allergen_key(name) == wanted)
    })
}

/// What two spellings of a substance have in common.
pub(crate) fn allergen_key(name: &str) -> String {
    let mut key = String::with_capacity(name.len());
    for letter in name.chars() {
        match letter {
            'α' | 'Α' => key.push_str("alpha"),
            'β' | 'Β' => key.push_str("beta"),
            'γ' | 'Γ' => key.push_str("gamma"),
            'δ' | 'Δ' => key.push_str("delta"),
            letter if letter.is_alphanumeric() => key.extend(letter.to_lowercase()),
            _ => {}
        }
    }
    key
}

/// A table that is looked up by id.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Kind {
    /// Fats.
    Fat,
    /// Additives, liquids among them.
    Additive,
    /// Liquids alone.
    Liquid,
    /// Acids.
    Acid,
    /// Colourants.
    Colourant,
    /// Scents.
    Fragrance,
}

/// Every id of a table, sorted.
#[must_use]
pub fn ids(kind: Kind) -> Vec<&'static str> {
    match kind {
        Kind::Fat => FATS.iter().map(|row| &*row.id).collect(),
        Kind::Additive => ADDITIVES.iter().map(|row| &*row.id).collect(),
        Kind::Liquid => liquids().map(|row| &*row.id).collect(),
        Kind::Acid => ACIDS.iter().map(|row| &*row.id).collect(),
        Kind::Colourant => COLOURANTS.iter().map(|row| &*row.id).collect(),
        Kind::Fragrance => FRAGRANCES.iter().map(|row| &*row.id).collect(),
    }
}

/// Longest text that [`similar`] compares, in bytes; no id comes near it.
const LONGEST: usize = 64;

/// The id of a table that `id` most likely meant, for advice; nothing when none is near.
///
/// Capitals, spaces and underscores are forgiven first. Then an id that begins with the text wins (`olive` means
/// `olive-oil`), then the one that the fewest single-letter changes lead to, if they are at most a third of the letters.
///
/// ```
/// use lamella::material::library::{Kind, similar};
/// assert_eq!(similar("Olive Oyl", Kind::Fat), Some("olive-oil"));
/// assert_eq!(similar("olive", Kind::Fat), Some("olive-oil"));
/// assert_eq!(similar("unobtainium", Kind::Fat), None);
/// ```
#[must_use]
pub fn similar(id: &str, kind: Kind) -> Option<&'static str> {
    if id.len() > LONGEST {
        return None;
    }
    let wanted = id.trim().to_lowercase().replace([' ', '_'], "-");
    let letters = wanted.chars().count();
    let nearest = |known: &'static str| {
        let begins =
            letters >= 3 && known.strip_prefix(wanted.as_str()).is_some_and(|rest| rest.starts_with('-'));
        (if begins { 1 } else { distance(&wanted, known) }, known)
    };
    let (changes, known) = ids(kind).into_iter().map(nearest).min()?;
    (changes <= 1.max(letters.div_ceil(3)) && changes < letters).then_some(known)
}

/// Fewest insertions, removals and replacements of a letter that turn `a` into `b`.
fn distance(a: &str, b: &str) -> usize {
    let mut row: Vec<usize> = (0..=b.chars().count()).collect();
    for (done, letter) in a.chars().enumerate() {
        let mut corner = done;
        let mut left = done.saturating_add(1);
        let mut cells = row.iter_mut();
        if let Some(first) = cells.next() {
            *first = left;
        }
        for (cell, other) in cells.zip(b.chars()) {
            let replaced = corner.saturating_add(usize::from(letter != other));
            corner = *cell;
            left = replaced.min(corner.saturating_add(1)).min(left.saturating_add(1));
            *cell = left;
        }
    }
    row.last().copied().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::{Kind, distance, fats, ids, similar};

    #[test]
    fn distances_are_those_of_the_textbook() {
        assert_eq!(distance("kitten", "sitting"), 3);
        assert_eq!(distance("", "abc"), 3);
        assert_eq!(distance("abc", ""), 3);
        assert_eq!(distance("same", "same"), 0);
    }

    #[test]
    fn every_id_is_nearest_to_itself() {
        let kinds = [Kind::Fat, Kind::Additive, Kind::Liquid, Kind::Acid, Kind::Colourant, Kind::Fragrance];
        for kind in kinds {
            for id in ids(kind) {
                assert_eq!(similar(id, kind), Some(id));
            }
        }
    }

    #[test]
    fn slips_are_understood() {
        assert_eq!(similar("coconut oil", Kind::Fat), Some("coconut-oil"));
        assert_eq!(similar("shea", Kind::Fat), Some("shea-butter"));
        assert_eq!(similar("caster-oil", Kind::Fat), Some("castor-oil"));
        assert_eq!(similar("cows-milk", Kind::Liquid), Some("cow-milk"));
        assert_eq!(similar("citrc", Kind::Acid), Some("citric"));
        assert_eq!(similar("", Kind::Fat), None);
        assert_eq!(similar("x", Kind::Acid), None);
        assert_eq!(similar(&"olive".repeat(1000), Kind::Fat), None);
        assert_eq!(similar("éééé", Kind::Fat), None);
        assert!(!fats().is_empty());
    }
}
