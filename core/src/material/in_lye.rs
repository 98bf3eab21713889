//! How an additive behaves in lye, and so when it goes in.

use serde::Serialize;

use super::additive::{Composition, Form};
use crate::quantity::Share;

/// How an additive behaves in lye, and so when it goes in. Each row of the library names one with its basis; one that
/// nobody names follows from the composition, on the side of caution.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum InLye {
    /// Goes into the water before the alkali, and dissolves there: tea, vinegar, sugar, citric acid.
    Water,
    /// As [`Water`](Self::Water); its minerals are salt, which strong lye does not keep dissolved.
    Salt,
    /// Scorches in hot lye: frozen to slush with the water, before the alkali. Milk, cream, juice with sugar.
    Frozen,
    /// Foams over: boiled flat, then as [`Frozen`](Self::Frozen). Beer, wine.
    Boiled,
    /// Dissolves in hot lye: silk.
    Hot,
    /// Goes into lye that is clear and has cooled: sodium lactate.
    Cooled,
    /// Does not belong in lye, but in the fats or in the batter at light trace: puree, honey, nut butter, flour, clay.
    Fats,
}

/// What may scorch, gel or clump, which is all but water, minerals, polyols and acid, from which a liquid is no longer
/// water in all but name. Source: judgement; tea, coffee, aloe and vinegar of the library are below, milks above.
const SCORCHES: Share = Share::literal(2, 2);
/// Minerals from which a liquid or a soluble powder is taken to be brine or salt. Source: judgement; milk holds 1 %.
const SALTY: Share = Share::literal(10, 2);

impl InLye {
    /// What a composition suggests, erring towards more care: sugar that nobody says is sucrose is taken to scorch.
    ///
    /// ```
    /// use lamella::material::{Composition, Form, InLye};
    /// let of = |water: &str, sugars: &str| Composition {
    ///     water: water.parse().unwrap(),
    ///     sugars: sugars.parse().unwrap(),
    ///     ..Composition::default()
    /// };
    /// assert_eq!(InLye::of(Form::Liquid, &of("98 %", "2 %")), InLye::Water);
    /// assert_eq!(InLye::of(Form::Liquid, &of("97 %", "3 %")), InLye::Frozen);
    /// assert_eq!(InLye::of(Form::Paste, &of("97 %", "3 %")), InLye::Fats);
    /// ```
    #[must_use]
    pub fn of(form: Form, composition: &Composition) -> Self {
        let Composition { water, minerals, polyols, acid, alcohol, .. } = *composition;
        let scorches = Share::literal(1, 0) - [water, minerals, polyols, acid].into_iter().sum() > SCORCHES;
        match form {
            _ if !alcohol.is_zero() => Self::Boiled,
            Form::Insoluble => Self::Fats,
            Form::Paste if scorches => Self::Fats,
            Form::Liquid | Form::Soluble if scorches => Self::Frozen,
            Form::Liquid | Form::Soluble if minerals >= SALTY => Self::Salt,
            Form::Liquid | Form::Paste | Form::Soluble => Self::Water,
        }
    }

    /// Whether it goes into finished lye, where acid, sugar and spirit must not.
    #[must_use]
    pub const fn comes_after(self) -> bool {
        matches!(self, Self::Hot | Self::Cooled)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::material::library;

    fn parts(water: i64, minerals: i64) -> Composition {
        Composition {
            water: Share::literal(water, 3),
            minerals: Share::literal(minerals, 3),
            ..Composition::default()
        }
    }

    #[test]
    fn a_material_that_says_nothing_is_treated_by_what_it_is_made_of_on_each_side_of_each_limit() {
        assert_eq!(InLye::of(Form::Liquid, &parts(980, 0)), InLye::Water);
        assert_eq!(InLye::of(Form::Liquid, &parts(979, 0)), InLye::Frozen);
        assert_eq!(InLye::of(Form::Soluble, &parts(979, 0)), InLye::Frozen);
        assert_eq!(InLye::of(Form::Paste, &parts(980, 0)), InLye::Water);
        assert_eq!(InLye::of(Form::Paste, &parts(979, 0)), InLye::Fats);
        assert_eq!(InLye::of(Form::Soluble, &parts(901, 99)), InLye::Water);
        assert_eq!(InLye::of(Form::Soluble, &parts(900, 100)), InLye::Salt);
        assert_eq!(InLye::of(Form::Insoluble, &parts(0, 1000)), InLye::Fats);
        let spirit = Composition { alcohol: Share::literal(1, 3), ..parts(999, 0) };
        assert_eq!(InLye::of(Form::Liquid, &spirit), InLye::Boiled);
    }

    /// A row may know better than its composition, but only where it says what is known: sugar that is sucrose, juice
    /// that is hardly sweet, lactate, silk.
    #[test]
    fn rows_that_need_less_care_than_their_composition_suggests_are_known_by_name() {
        let careful = |kind| matches!(kind, InLye::Frozen | InLye::Boiled | InLye::Fats);
        let bolder: Vec<&str> = library::additives()
            .iter()
            .filter(|row| !careful(row.in_lye) && careful(InLye::of(row.form, &row.composition)))
            .map(|row| &*row.id)
            .collect();
        let known = [
            "brown-sugar",
            "lime-juice",
            "maple-syrup",
            "silk-amino-acids",
            "silk-fibre",
            "sodium-lactate-60",
            "sugar",
        ];
        assert_eq!(bolder, known);
    }

    #[test]
    fn nothing_acid_sweet_or_spirited_goes_into_finished_lye() {
        for row in library::additives().iter().filter(|row| row.in_lye.comes_after()) {
            let parts = &row.composition;
            assert_eq!([parts.acid, parts.sugars, parts.alcohol], [Share::ZERO; 3], "{}", row.id);
            assert_ne!(row.form, Form::Liquid, "{}", row.id);
        }
    }

    #[test]
    fn every_row_says_what_its_behaviour_in_lye_rests_on() {
        for row in library::additives() {
            assert!(row.bases.iter().any(|basis| basis.what == "behaviour in lye"), "{}", row.id);
        }
    }
}
