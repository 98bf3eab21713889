//! Acids that take up alkali before any fat does.

use std::borrow::Cow;

use serde::Serialize;

use super::atoms::{Formula, molar};
use super::basis::Basis;
use crate::quantity::Exact;

/// An acid, by its formula and the protons it gives up in soap.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Acid {
    /// Stable id, `citric`.
    pub id: Cow<'static, str>,
    /// Name in English.
    pub name: Cow<'static, str>,
    /// The acid without water of crystallisation.
    #[serde(skip)]
    pub formula: Formula,
    /// Protons that strong alkali takes.
    pub equivalents: u8,
    /// Name of its sodium salt.
    pub sodium_salt: Cow<'static, str>,
    /// Where the numbers come from.
    pub bases: Cow<'static, [Basis]>,
}

impl Acid {
    /// Grams of KOH that one gram of the acid takes up.
    ///
    /// ```
    /// let citric = lamella::material::library::acid("citric").unwrap();
    /// assert_eq!(citric.koh_per_gram().rounded(6).unwrap().to_string(), "0.876084");
    /// ```
    #[must_use]
    pub fn koh_per_gram(&self) -> Exact {
        molar::KOH.times(i64::from(self.equivalents)) / self.formula.molar_mass()
    }
}
