//! Food-like additives, liquids, clays, salts and sugars, by what they are made of.

use std::borrow::Cow;

use serde::Serialize;

use super::basis::Basis;
use super::in_lye::InLye;
use crate::quantity::{Exact, SaponificationValue, Share};

/// In what shape an additive comes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Form {
    /// Pours, and can replace water: milk, juice, tea.
    Liquid,
    /// Spoons: puree, butter, honey.
    Paste,
    /// Dry and dissolves in water: sugar, salt.
    Soluble,
    /// Dry and does not dissolve: clay, ground seed.
    Insoluble,
}

/// What a hundred grams are made of, as shares of the whole. What the named parts leave over is [`other`](Self::other).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Composition {
    /// Free water.
    pub water: Share,
    /// Fat that alkali can reach.
    pub fat: Share,
    /// Sugars.
    pub sugars: Share,
    /// Protein.
    pub protein: Share,
    /// Fibre.
    pub fibre: Share,
    /// Minerals: ash, salts, clay.
    pub minerals: Share,
    /// Ethanol.
    pub alcohol: Share,
    /// Glycerol and sugar alcohols, which neither brown nor take up alkali.
    pub polyols: Share,
    /// Acid that takes up alkali; which one, the additive says.
    pub acid: Share,
}

impl Composition {
    const fn parts(&self) -> [Share; 9] {
        [
            self.water,
            self.fat,
            self.sugars,
            self.protein,
            self.fibre,
            self.minerals,
            self.alcohol,
            self.polyols,
            self.acid,
        ]
    }

    /// The named parts together.
    #[must_use]
    pub fn named(&self) -> Share {
        self.parts().into_iter().sum()
    }

    /// What is not named: starch, pectin, carbon, lactate and the like. Nought when the named parts fill the whole.
    #[must_use]
    pub fn other(&self) -> Share {
        let rest = Share::literal(1, 0) - self.named();
        rest.max(Share::ZERO)
    }

    /// The named parts in their order, and [`other`](Self::other), to compute with.
    pub(crate) fn exact(&self) -> [Exact; 10] {
        let [water, fat, sugars, protein, fibre, minerals, alcohol, polyols, acid] =
            self.parts().map(Share::exact);
        let named = [water, fat, sugars, protein, fibre, minerals, alcohol, polyols, acid];
        let other = (Exact::ONE - named.into_iter().sum()).max(Exact::ZERO);
        [water, fat, sugars, protein, fibre, minerals, alcohol, polyols, acid, other]
    }
}

/// An additive: anything but fat, alkali, colour and scent that goes into a layer, the pot or the lye.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Additive {
    /// Stable id, `pumpkin-puree`.
    pub id: Cow<'static, str>,
    /// Name in English.
    pub name: Cow<'static, str>,
    /// In what shape it comes.
    pub form: Form,
    /// How it behaves in lye, and so when it goes in.
    pub in_lye: InLye,
    /// What it is made of.
    pub composition: Composition,
    /// The fat whose profile its own fat has, by id; nothing when it has none or none fits.
    pub fat_like: Option<Cow<'static, str>>,
    /// Saponification value of its own fat: that of the fat it is like, or stated where none fits.
    pub fat_saponification_value: Option<SaponificationValue>,
    /// The acid in it, by id of the acid table; nothing when it has none.
    pub acid: Option<Cow<'static, str>>,
    /// Fresh, wet plant or animal matter, which spoils in a bar when dosed high or put on top undried.
    pub fresh: bool,
    /// An allergen that food law names (nut, sesame, milk, egg, gluten ...), for the label.
    pub allergen: Option<Cow<'static, str>>,
    /// Label name (INCI), where known.
    pub inci: Option<Cow<'static, str>>,
    /// Where the numbers come from.
    pub bases: Cow<'static, [Basis]>,
    /// What a maker should know.
    pub note: Cow<'static, str>,
}
