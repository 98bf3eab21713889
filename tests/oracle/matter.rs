//! What a gram of anything brings.

use super::{RBig, exact, ratio};
use lamella::material::atoms::molar;
use lamella::material::{Additive, Fat, FatKind, library};
use lamella::recipe::{Ingredient, Recipe};

/// A mixture by what its grams bring: everything in it adds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Matter {
    /// Grams.
    pub mass: RBig,
    /// Alkali that its fat would take up, in grams of KOH.
    pub demand: RBig,
    /// Alkali that its acid takes up, in grams of KOH.
    pub acid: RBig,
    /// Alkali in it, in grams of KOH.
    pub alkali: RBig,
    /// Water.
    pub water: RBig,
    /// Millilitres.
    pub volume: RBig,
}

impl Matter {
    /// Of nothing.
    pub const NONE: Self = Self {
        mass: RBig::ZERO,
        demand: RBig::ZERO,
        acid: RBig::ZERO,
        alkali: RBig::ZERO,
        water: RBig::ZERO,
        volume: RBig::ZERO,
    };

    /// Both together.
    #[must_use]
    pub fn and(&self, other: &Self) -> Self {
        Self {
            mass: &self.mass + &other.mass,
            demand: &self.demand + &other.demand,
            acid: &self.acid + &other.acid,
            alkali: &self.alkali + &other.alkali,
            water: &self.water + &other.water,
            volume: &self.volume + &other.volume,
        }
    }

    /// So many times it.
    #[must_use]
    pub fn times(&self, factor: &RBig) -> Self {
        Self {
            mass: &self.mass * factor,
            demand: &self.demand * factor,
            acid: &self.acid * factor,
            alkali: &self.alkali * factor,
            water: &self.water * factor,
            volume: &self.volume * factor,
        }
    }

    /// The share of the demand that alkali, once acids took theirs, leaves unmet.
    #[must_use]
    pub fn superfat(&self) -> RBig {
        (&self.demand - (&self.alkali - &self.acid)) / &self.demand
    }
}

/// A gram of a fat: it takes up its saponification value in milligrams of KOH, and takes the room that its density at the
/// temperature of the fats gives it. Density falls by 0.000 68 g/mL for a degree; 0.915 g/mL at 20 °C where none is known
/// (waxes 0.955, fatty acids 0.89).
pub(super) fn of_fat(fat: &Fat, recipe: &Recipe) -> Matter {
    let (density, at) = match &fat.density {
        Some(known) => (exact(known.typical.exact()), exact(known.at.exact())),
        None => match fat.kind {
            FatKind::WaxEster => (ratio(955, 1000), ratio(20, 1)),
            FatKind::FreeFattyAcid => (ratio(890, 1000), ratio(20, 1)),
            _ => (ratio(915, 1000), ratio(20, 1)),
        },
    };
    let warmer = exact(recipe.temperatures.fats.exact()) - at;
    Matter {
        mass: RBig::ONE,
        demand: exact(fat.saponification_value.typical.exact()) / ratio(1000, 1),
        volume: RBig::ONE / (density - ratio(68, 100_000) * warmer),
        ..Matter::NONE
    }
}

/// A gram of an additive, from its composition: its fat by the saponification value of that fat, its acid by the protons
/// it gives up, its parts each with their own density.
fn of_additive(additive: &Additive) -> Matter {
    let parts = &additive.composition;
    let share = |share: lamella::quantity::Share| exact(share.exact());
    let fat_value = additive.fat_saponification_value.map_or(RBig::ZERO, |value| exact(value.exact()));
    let acid = additive.acid.as_deref().and_then(library::acid).map_or(RBig::ZERO, |acid| {
        ratio(i128::from(acid.equivalents), 1) * exact(molar::KOH) / exact(acid.formula.molar_mass())
    });
    let volume = [
        (parts.water, 9_922),
        (parts.fat, 9_089),
        (parts.sugars, 15_867),
        (parts.protein, 13_092),
        (parts.fibre, 12_969),
        (parts.minerals, 24_126),
        (parts.alcohol, 7_720),
        (parts.polyols, 12_490),
        (parts.acid, 16_650),
        (parts.other(), 15_867),
    ];
    let volume = volume.into_iter().map(|(part, density)| share(part) * ratio(10_000, density));
    Matter {
        mass: RBig::ONE,
        demand: share(parts.fat) * fat_value / ratio(1000, 1),
        acid: share(parts.acid) * acid,
        alkali: RBig::ZERO,
        water: share(parts.water),
        volume: volume.fold(RBig::ZERO, |sum, part| sum + part),
    }
}

/// A gram of any ingredient of a dose.
pub(super) fn of(ingredient: &Ingredient, recipe: &Recipe) -> Matter {
    let inert = |volume| Matter { mass: RBig::ONE, volume, ..Matter::NONE };
    match ingredient {
        Ingredient::Fat(fat) => of_fat(fat, recipe),
        Ingredient::Additive(additive) => of_additive(additive),
        Ingredient::Colourant(_) => inert(ratio(357, 1000)),
        Ingredient::Fragrance(_) => inert(ratio(1053, 1000)),
        _ => unreachable!("an ingredient of a kind that this oracle does not know"),
    }
}

/// Density of sodium hydroxide in water: per cent by mass, then kg/m3 at 20, 25, 40, 60 and 80 °C.
const SODIUM: [(i128, [i128; 5]); 8] = [
    (0, [9_982, 9_970, 9_922, 9_832, 9_718]),
    (1_000, [11_082, 11_060, 10_990, 10_885, 10_767]),
    (2_000, [12_178, 12_153, 12_074, 11_962, 11_840]),
    (2_500, [12_719, 12_693, 12_611, 12_495, 12_371]),
    (3_000, [13_253, 13_226, 13_140, 13_020, 12_893]),
    (3_333, [13_604, 13_575, 13_486, 13_363, 13_233]),
    (4_000, [14_285, 14_254, 14_158, 14_028, 13_893]),
    (5_000, [15_229, 15_195, 15_094, 14_957, 14_818]),
];

/// The same of potassium hydroxide at 20 °C.
const POTASSIUM: [(i128, i128); 6] =
    [(0, 9_982), (1_000, 10_904), (2_000, 11_872), (3_000, 12_892), (4_000, 13_972), (5_000, 15_123)];

/// A broken line through points, level beyond its ends.
fn line(points: &[(RBig, RBig)], x: &RBig) -> RBig {
    let (first, last) = (&points[0], &points[points.len() - 1]);
    if x <= &first.0 {
        return first.1.clone();
    }
    let between = points.windows(2).find(|pair| x <= &pair[1].0);
    between.map_or(last.1.clone(), |pair| {
        let ((x0, y0), (x1, y1)) = (&pair[0], &pair[1]);
        y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    })
}

/// g/mL of lye with these mass shares of pure alkali. Each table is read at both shares together, and the two are weighted
/// by mass; the table of potassium hydroxide moves with temperature as that of sodium hydroxide does.
pub(super) fn lye_density(sodium: &RBig, potassium: &RBig, celsius: &RBig) -> RBig {
    let share = sodium + potassium;
    let per_cent = &share * ratio(10_000, 1);
    let sodium_at = |celsius: &RBig| {
        let rows: Vec<(RBig, RBig)> = SODIUM
            .iter()
            .map(|(share, row)| {
                let columns = [20, 25, 40, 60, 80].map(|degrees: i128| ratio(degrees, 1));
                let row: Vec<(RBig, RBig)> =
                    columns.into_iter().zip(row.iter().map(|y| ratio(*y, 10_000))).collect();
                (ratio(*share, 1), line(&row, celsius))
            })
            .collect();
        line(&rows, &per_cent)
    };
    let sodium_density = sodium_at(celsius);
    if potassium.is_zero() {
        return sodium_density;
    }
    let rows: Vec<(RBig, RBig)> = POTASSIUM.iter().map(|(x, y)| (ratio(*x, 1), ratio(*y, 10_000))).collect();
    let potassium_density = line(&rows, &per_cent) + &sodium_density - sodium_at(&ratio(20, 1));
    (sodium_density * sodium + potassium_density * potassium) / share
}
