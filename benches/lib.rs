//! What the benches measure with: recipe documents, and their recipes.
#![expect(clippy::panic, reason = "a bench stops where its own fixture does not read")]

use lamella::recipe::{self, Recipe};

/// A recipe document with the name it has in the benches.
#[derive(Clone, Copy, Debug)]
pub struct Fixture {
    /// Its name.
    pub name: &'static str,
    /// Its text.
    pub text: &'static str,
}

/// Ten fats and seven layers, each in a jug of its own with additives of fat, of sugar and of clay, a colour and a scent.
pub const TEN_BY_SEVEN: Fixture = Fixture { name: "10x7", text: include_str!("fixtures/ten-by-seven.json") };
/// Six fats and seven layers, three of them out of one jug.
pub const TIDAL_STRATA: Fixture = Fixture { name: "tidal-strata", text: lamella::EXAMPLE };
/// Both.
pub const ALL: [Fixture; 2] = [TEN_BY_SEVEN, TIDAL_STRATA];

/// Two `blend/1` documents of twelve fats and twelve demands in whole per cents, by name: one of a maker's wishes, one that
/// holds every figure in a narrow window, with 22 bounds.
pub const BLENDS: [(&str, &str); 2] = [
    ("kitchen", include_str!("../tests/vectors/blend/kitchen.json")),
    ("narrow", include_str!("../tests/vectors/blend/narrow.json")),
];

impl Fixture {
    /// The recipe.
    ///
    /// # Panics
    /// When the document has problems.
    #[must_use]
    pub fn recipe(&self) -> Recipe {
        recipe::read(self.text).unwrap_or_else(|problems| panic!("{}: {problems:?}", self.name))
    }
}
