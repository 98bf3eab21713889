//! The library as a list to choose from.

use serde::Serialize;

use super::additive::Form;
use super::library;

/// What a listed material is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum ListedKind {
    /// A fat.
    Fat,
    /// An additive that does not pour.
    Additive,
    /// An additive that pours, and can stand in for water.
    Liquid,
    /// A colour.
    Colour,
    /// A scent.
    Scent,
}

/// A material of the library, as a list shows it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Listed {
    /// What it is.
    pub kind: ListedKind,
    /// Its id, by which a recipe names it.
    pub id: &'static str,
    /// Its name in English.
    pub name: &'static str,
    /// Its name on a label (INCI), where one is known; of a colour its index. A maker may search by it.
    pub inci: Option<&'static str>,
    /// How it looks, of a colour.
    pub swatch: Option<&'static str>,
}

/// Every material of the library that a recipe can name, by kind and then by id.
///
/// ```
/// use lamella::material::{ListedKind, catalogue};
/// let all = catalogue();
/// let olive = all.iter().find(|material| material.id == "olive-oil").unwrap();
/// assert_eq!((olive.kind, olive.inci), (ListedKind::Fat, Some("Olea Europaea (Olive) Fruit Oil")));
/// ```
#[must_use]
pub fn catalogue() -> Vec<Listed> {
    let plain = |kind, id, name, inci| Listed { kind, id, name, inci, swatch: None };
    let fats = library::fats()
        .iter()
        .map(|row| plain(ListedKind::Fat, &*row.id, &*row.name, row.inci.fat.as_deref()));
    let additives = library::additives().iter().map(|row| {
        let kind = if row.form == Form::Liquid { ListedKind::Liquid } else { ListedKind::Additive };
        plain(kind, &*row.id, &*row.name, row.inci.as_deref())
    });
    let colours = library::colourants().iter().map(|row| Listed {
        swatch: Some(&*row.swatch),
        ..plain(ListedKind::Colour, &*row.id, &*row.name, row.colour_index.as_deref())
    });
    let scents = library::fragrances()
        .iter()
        .map(|row| plain(ListedKind::Scent, &*row.id, &*row.name, row.inci.as_deref()));
    fats.chain(additives).chain(colours).chain(scents).collect()
}
