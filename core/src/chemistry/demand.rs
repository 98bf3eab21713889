//! How much alkali a gram of something takes up.

use crate::material::{Additive, Fat, library};
use crate::quantity::Exact;
use crate::recipe::Ingredient;

/// Alkali that one gram takes up, in grams of potassium hydroxide.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Demand {
    /// By its fat, when all of it is saponified.
    pub fat: Exact,
    /// By its acid, which takes its alkali before any fat does.
    pub acid: Exact,
}

impl Demand {
    /// Of something that alkali leaves alone.
    pub const NONE: Self = Self { fat: Exact::ZERO, acid: Exact::ZERO };
}

/// The alkali demand of one gram of an ingredient: saponification value / 1000 of its fat, and of its acid the grams of
/// KOH that neutralise it.
///
/// ```
/// use lamella::{chemistry::demand_of, material::library, recipe::Ingredient};
/// let olive = Ingredient::Fat(library::fat("olive-oil").unwrap().clone());
/// assert_eq!(demand_of(&olive).fat.rounded(3).unwrap().to_string(), "0.19");
/// ```
#[must_use]
pub fn demand_of(ingredient: &Ingredient) -> Demand {
    match ingredient {
        Ingredient::Fat(fat) => Demand { fat: of_fat(fat), acid: Exact::ZERO },
        Ingredient::Additive(additive) => Demand { fat: of_own_fat(additive), acid: of_acid(additive) },
        Ingredient::Colourant(_) | Ingredient::Fragrance(_) | Ingredient::Alkali(..) => Demand::NONE,
    }
}

/// Grams of KOH that a gram of fat demands.
pub(crate) fn of_fat(fat: &Fat) -> Exact {
    fat.saponification_value.typical.exact() * Exact::THOUSANDTH
}

fn of_own_fat(additive: &Additive) -> Exact {
    let value = additive.fat_saponification_value.map_or(Exact::ZERO, |value| value.exact());
    additive.composition.fat.exact() * value * Exact::THOUSANDTH
}

fn of_acid(additive: &Additive) -> Exact {
    let acid = additive.acid.as_deref().and_then(library::acid);
    acid.map_or(Exact::ZERO, |acid| additive.composition.acid.exact() * acid.koh_per_gram())
}

/// The fat that an additive's own fat is like, where the library has one.
#[must_use]
pub fn reachable(additive: &Additive) -> Option<&'static Fat> {
    additive.fat_like.as_deref().and_then(library::fat)
}
