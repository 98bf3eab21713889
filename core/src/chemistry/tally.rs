//! What a mixture is made of, in figures that add up.

use crate::material::atoms::molar;
use crate::material::{Additive, Alkali, Fat, FatKind, FattyAcid, profile};
use crate::quantity::Exact;
use crate::recipe::{AlkaliGrade, Ingredient};

use super::demand::{self, Demand, demand_of, reachable};
use super::density;
use super::lye::{AlkaliMasses, carbonate_and_water};

macro_rules! adds_and_scales {
    ($(#[$about:meta])* pub struct $name:ident { $($(#[$doc:meta])* $field:ident,)* }) => {
        $(#[$about])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub struct $name {
            $($(#[$doc])* pub $field: Exact,)*
        }

        impl $name {
            /// Of nothing.
            pub const EMPTY: Self = Self { $($field: Exact::ZERO,)* };

            /// This and another together.
            #[must_use]
            pub fn plus(&self, other: &Self) -> Self {
                Self { $($field: add(self.$field, other.$field),)* }
            }

            /// This with so many times another.
            #[must_use]
            pub fn and(mut self, factor: Exact, other: &Self) -> Self {
                // Most fields of most tallies are nought.
                $(if !other.$field.is_zero() {
                    self.$field = self.$field + other.$field * factor;
                })*
                self
            }

            /// Where the straight line from another through this comes to, `at` times as far beyond this.
            #[must_use]
            pub fn beyond(&self, before: &Self, at: Exact) -> Self {
                Self { $($field: self.$field + (self.$field - before.$field) * at,)* }
            }

            /// `part / whole` of it.
            #[must_use]
            pub fn part(&self, part: Exact, whole: Exact) -> Self {
                self.times(part / whole)
            }

            /// So many times it.
            #[must_use]
            pub fn times(&self, factor: Exact) -> Self {
                Self { $($field: if self.$field.is_zero() { self.$field } else { self.$field * factor },)* }
            }
        }
    };
}

/// Most fields of most tallies are nought, and nought is quicker to see than to add.
fn add(a: Exact, b: Exact) -> Exact {
    if b.is_zero() {
        a
    } else if a.is_zero() {
        b
    } else {
        a + b
    }
}

adds_and_scales! {
    /// What the balance of a batch has to know about a mixture, in the units of a [`Tally`].
    pub struct Outline {
        /// Everything.
        mass,
        /// Its room.
        volume,
        /// Its water.
        water,
        /// Demand of all its fat.
        fat_demand,
        /// Demand of its acids.
        acid_demand,
        /// Its alkali in grams of KOH.
        alkali_koh,
    }
}

impl Outline {
    /// As [`Tally::superfat`].
    #[must_use]
    pub fn superfat(&self) -> Exact {
        (self.fat_demand - (self.alkali_koh - self.acid_demand)) / self.fat_demand
    }
}

adds_and_scales! {
    /// Everything that a computation needs to know about a mixture, in grams (demands in grams of KOH, volume in
    /// millilitres). It adds and scales.
    pub struct Tally {
        /// Demand of triglycerides.
        ester_demand,
        /// Triglycerides without their unsaponifiable matter.
        ester,
        /// Demand of free fatty acids, which are neutralised before esters are saponified.
        fatty_acid_demand,
        /// Free fatty acids.
        fatty_acid,
        /// Demand of wax esters.
        wax_demand,
        /// Wax esters without their unsaponifiable matter.
        wax,
        /// Fatty acids that the wax esters would set free.
        wax_acids,
        /// Demand of fat held back until no alkali is left.
        held_demand,
        /// Fat held back.
        held,
        /// Unsaponifiable matter of all the fats.
        unsaponifiable,
        /// Demand of acids that are no fatty acids.
        acid_demand,
        /// Such acids.
        acid,
        /// Pure sodium hydroxide.
        sodium_hydroxide,
        /// Pure potassium hydroxide.
        potassium_hydroxide,
        /// Carbonate that came with the alkali.
        carbonate,
        /// Water.
        water,
        /// Ethanol.
        alcohol,
        /// Sugars.
        sugars,
        /// Protein.
        protein,
        /// Fibre.
        fibre,
        /// Minerals.
        minerals,
        /// Glycerol and sugar alcohols that were added.
        polyols,
        /// What the additives' compositions do not name.
        other,
        /// Colours.
        colour,
        /// Scents.
        scent,
        /// Volume when it is mixed, mL.
        volume,
    }
}

impl Tally {
    /// It in outline.
    #[must_use]
    pub fn outline(&self) -> Outline {
        Outline {
            mass: self.mass(),
            volume: self.volume,
            water: self.water,
            fat_demand: self.fat_demand(),
            acid_demand: self.acid_demand,
            alkali_koh: self.alkali().as_koh(),
        }
    }

    /// One gram of a fat from the pot, at the temperature of the fats.
    #[must_use]
    pub fn of_fat(fat: &Fat, temperature: Exact) -> Self {
        let whole = Exact::ONE;
        Self {
            volume: whole / density::fat_density(fat, temperature),
            ..Self::of_fat_matter(fat, whole, demand::of_fat(fat))
        }
    }

    /// One gram of a fat that goes in when no alkali is left.
    #[must_use]
    pub fn of_held_fat(fat: &Fat, temperature: Exact) -> Self {
        let all = Self::of_fat(fat, temperature);
        Self {
            held: Exact::ONE - all.unsaponifiable,
            held_demand: demand::of_fat(fat),
            unsaponifiable: all.unsaponifiable,
            volume: all.volume,
            ..Self::EMPTY
        }
    }

    /// `mass` grams of fat with a demand of `demand` in all.
    fn of_fat_matter(fat: &Fat, mass: Exact, demand: Exact) -> Self {
        let unsaponifiable = mass * fat.unsaponifiable();
        let matter = mass - unsaponifiable;
        let tally = Self { unsaponifiable, ..Self::EMPTY };
        match fat.kind {
            FatKind::Triglyceride => Self { ester: matter, ester_demand: demand, ..tally },
            FatKind::FreeFattyAcid => Self { fatty_acid: matter, fatty_acid_demand: demand, ..tally },
            FatKind::WaxEster => {
                let molar_mass = if fat.profile.is_empty() {
                    STAND_IN.molar_mass()
                } else {
                    profile::mean_molar_mass(&fat.profile)
                };
                let wax_acids = (demand * molar_mass / molar::KOH).min(matter);
                Self { wax: matter, wax_demand: demand, wax_acids, ..tally }
            }
        }
    }

    /// One gram of any ingredient of a dose, at the temperature of the fats.
    #[must_use]
    pub fn of_ingredient(ingredient: &Ingredient, temperature: Exact) -> Self {
        Self::of_demanding(ingredient, &demand_of(ingredient), temperature)
    }

    /// [`of_ingredient`](Self::of_ingredient) where its demand is known.
    pub(crate) fn of_demanding(ingredient: &Ingredient, demand: &Demand, temperature: Exact) -> Self {
        match ingredient {
            Ingredient::Fat(fat) => Self::of_fat(fat, temperature),
            Ingredient::Additive(additive) => Self::of_additive(additive, demand),
            Ingredient::Colourant(_) => {
                Self { colour: Exact::ONE, volume: density::COLOUR_VOLUME, ..Self::EMPTY }
            }
            Ingredient::Fragrance(_) => {
                Self { scent: Exact::ONE, volume: density::SCENT_VOLUME, ..Self::EMPTY }
            }
            Ingredient::Alkali(alkali, grade) => Self::of_fresh_alkali(*alkali, *grade, temperature),
        }
    }

    fn of_additive(additive: &Additive, demand: &Demand) -> Self {
        let parts = additive.composition.exact();
        let [water, fat, sugars, protein, fibre, minerals, alcohol, polyols, acid, other] = parts;
        let own_fat = match reachable(additive) {
            Some(like) => Self::of_fat_matter(like, fat, demand.fat),
            None => Self { ester: fat, ester_demand: demand.fat, ..Self::EMPTY },
        };
        Self {
            acid,
            acid_demand: demand.acid,
            water,
            alcohol,
            sugars,
            protein,
            fibre,
            minerals,
            polyols,
            other,
            volume: density::additive_volume(&parts),
            ..own_fat
        }
    }

    /// One gram of alkali that goes into a jug by itself. Its volume is what it adds to twice as much water, which is about
    /// what it is dissolved in.
    fn of_fresh_alkali(alkali: Alkali, grade: AlkaliGrade, temperature: Exact) -> Self {
        let tally = Self::of_alkali(alkali, grade, Exact::ONE);
        let [water, whole] = [Exact::from(2), Exact::from(3)];
        let dense = density::lye_density(
            tally.sodium_hydroxide / whole,
            tally.potassium_hydroxide / whole,
            temperature,
        );
        Self { volume: whole / dense - water / density::water_density(temperature), ..tally }
    }

    /// A weighed mass of alkali of a grade; its volume is reckoned with the lye's.
    #[must_use]
    pub fn of_alkali(alkali: Alkali, grade: AlkaliGrade, weighed: Exact) -> Self {
        let (carbonate, water) = carbonate_and_water(weighed, grade);
        let pure = weighed * grade.purity.exact();
        let tally = Self { carbonate, water, ..Self::EMPTY };
        match alkali {
            Alkali::SodiumHydroxide => Self { sodium_hydroxide: pure, ..tally },
            Alkali::PotassiumHydroxide => Self { potassium_hydroxide: pure, ..tally },
        }
    }

    /// Mass of it all, g.
    #[must_use]
    pub fn mass(&self) -> Exact {
        self.fat()
            + self.acid
            + self.sodium_hydroxide
            + self.potassium_hydroxide
            + self.carbonate
            + self.water
            + self.alcohol
            + self.sugars
            + self.protein
            + self.fibre
            + self.minerals
            + self.polyols
            + self.other
            + self.colour
            + self.scent
    }

    /// All fat, unsaponifiable matter included, g.
    #[must_use]
    pub fn fat(&self) -> Exact {
        self.ester + self.fatty_acid + self.wax + self.held + self.unsaponifiable
    }

    /// Demand of all the fat, g KOH.
    #[must_use]
    pub fn fat_demand(&self) -> Exact {
        self.ester_demand + self.fatty_acid_demand + self.wax_demand + self.held_demand
    }

    /// The alkali in it, pure.
    #[must_use]
    pub const fn alkali(&self) -> AlkaliMasses {
        AlkaliMasses { sodium: self.sodium_hydroxide, potassium: self.potassium_hydroxide }
    }

    /// Superfat: the share of the fat's demand that the alkali leaves unmet after the acids took theirs. Negative when
    /// alkali is left over. Poisoned when there is no fat.
    #[must_use]
    pub fn superfat(&self) -> Exact {
        let demand = self.fat_demand();
        (demand - (self.alkali().as_koh() - self.acid_demand)) / demand
    }
}

/// The acid that stands in for those of a wax without a profile.
/// Source: from memory; esters of palmitic acid are the largest part of beeswax.
const STAND_IN: FattyAcid = FattyAcid::new(16, 0);
