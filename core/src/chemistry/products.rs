//! What a bar is made of: at pour, after the reaction, and cured.
//!
//! # Order of reaction
//!
//! Alkali first neutralises acids, then free fatty acids, then saponifies esters: neutralisation is quicker by orders of
//! magnitude. Where alkali runs short it is the esters that stay; all esters in the same proportion. Fat held back until
//! after the cook meets no alkali.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::material::atoms::molar;
use crate::material::{Fat, FattyAcid};
use crate::quantity::{Exact, Mass, Share, close};

use super::indices::acids_by_mass;
use super::tally::Tally;

/// A constituent of a bar.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Part {
    /// Fat as it was charged, before the reaction.
    Fat,
    /// Soap: alkali salts of fatty acids.
    Soap,
    /// Glycerol set free by the reaction.
    Glycerol,
    /// Fat that stayed unreacted, without its unsaponifiable matter.
    UnreactedFat,
    /// Unsaponifiable matter.
    Unsaponifiable,
    /// Alcohols and sterols set free from waxes.
    WaxAlcohols,
    /// Water.
    Water,
    /// Alkali, pure: all of it at pour, what is left over afterwards.
    Alkali,
    /// Carbonate that came with the alkali.
    Carbonate,
    /// Acids, as they were charged or left over.
    Acids,
    /// Salts of such acids.
    AcidSalts,
    /// Sugars.
    Sugars,
    /// Glycerol and sugar alcohols that were added.
    Polyols,
    /// Protein.
    Protein,
    /// Fibre.
    Fibre,
    /// Minerals: clay, salt, ash.
    Minerals,
    /// Ethanol.
    Alcohol,
    /// What the additives' compositions do not name.
    Other,
    /// Colours.
    Colour,
    /// Scents.
    Scent,
}

impl Part {
    /// The constituent in words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Fat => "fat",
            Self::Soap => "soap",
            Self::Glycerol => "glycerol",
            Self::UnreactedFat => "unreacted fat",
            Self::Unsaponifiable => "unsaponifiable matter",
            Self::WaxAlcohols => "alcohols of waxes",
            Self::Water => "water",
            Self::Alkali => "free alkali",
            Self::Carbonate => "carbonate",
            Self::Acids => "acids",
            Self::AcidSalts => "salts of acids",
            Self::Sugars => "sugars",
            Self::Polyols => "added polyols",
            Self::Protein => "protein",
            Self::Fibre => "fibre",
            Self::Minerals => "minerals",
            Self::Alcohol => "alcohol",
            Self::Other => "other matter",
            Self::Colour => "colours",
            Self::Scent => "scents",
        }
    }
}

/// When a bar is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Stage {
    /// When it is poured, nothing having reacted.
    Pour,
    /// When all the alkali has found something to react with.
    Reacted,
    /// When it has dried to the water of a cured bar, and alcohol is gone.
    Cured,
}

/// What something is made of, by mass; the parts sum to the total exactly.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Makeup {
    /// Constituents that are there, in the order of [`Part`].
    pub parts: Vec<(Part, Mass)>,
    /// All of it.
    pub total: Mass,
    /// Total fatty matter in the sense of ISO 685, as a share of the whole: fatty acids of the soap, unreacted fat,
    /// unsaponifiable matter and alcohols of waxes.
    pub total_fatty_matter: Share,
}

impl Makeup {
    /// Mass of a constituent; nought when it is not there.
    #[must_use]
    pub fn mass(&self, part: Part) -> Mass {
        self.parts.iter().find(|(known, _)| *known == part).map_or(Mass::ZERO, |(_, mass)| *mass)
    }

    /// Share of a constituent in the whole.
    #[must_use]
    pub fn share(&self, part: Part) -> Share {
        Share::try_new(self.mass(part).exact() / self.total.exact()).unwrap_or(Share::ZERO)
    }

    /// The makeup of a mixture at a stage; `cured_water` is the water of a cured bar. Nothing when the mixture is empty
    /// or a figure passes what a mass can hold.
    #[must_use]
    pub fn of(tally: &Tally, stage: Stage, cured_water: Share) -> Option<Self> {
        let mass = tally.mass();
        match stage {
            Stage::Pour => at_pour(tally, mass),
            Stage::Reacted | Stage::Cured => reacted(tally, mass, &Reaction::of(tally), stage, cured_water),
        }
    }

    /// The makeup of a mixture at pour, after the reaction and cured; what they have in common is worked out once.
    pub(crate) fn stages(tally: &Tally, cured_water: Share) -> Option<[Self; 3]> {
        let (mass, reaction) = (tally.mass(), Reaction::of(tally));
        let reacted = |stage| reacted(tally, mass, &reaction, stage, cured_water);
        Some([at_pour(tally, mass)?, reacted(Stage::Reacted)?, reacted(Stage::Cured)?])
    }
}

fn at_pour(tally: &Tally, mass: Exact) -> Option<Makeup> {
    let fat = tally.fat() - tally.unsaponifiable;
    let contents = Contents {
        fat,
        water: tally.water,
        alkali: tally.alkali().total(),
        acids: tally.acid,
        alcohol: tally.alcohol,
        ..Contents::NONE
    };
    contents.finish(tally, Mass::try_new(mass).ok()?, fat + tally.unsaponifiable)
}

fn reacted(
    tally: &Tally,
    mass: Exact,
    reaction: &Reaction,
    stage: Stage,
    cured_water: Share,
) -> Option<Makeup> {
    let water = tally.water + reaction.water;
    let (water, alcohol) = if stage == Stage::Cured {
        let solids = mass - tally.water - reaction.water - tally.alcohol;
        let share = cured_water.exact();
        (water.min(solids.portion(share, Exact::ONE - share)), Exact::ZERO)
    } else {
        (water, tally.alcohol)
    };
    let total = mass - (tally.water + reaction.water - water) - (tally.alcohol - alcohol);
    let fatty = reaction.fatty_acids + reaction.unreacted + tally.unsaponifiable + reaction.wax_alcohols;
    let contents = Contents {
        fat: Exact::ZERO,
        soap: reaction.soap,
        glycerol: reaction.glycerol,
        unreacted: reaction.unreacted,
        wax_alcohols: reaction.wax_alcohols,
        water,
        alkali: reaction.alkali,
        acids: reaction.acids,
        acid_salts: reaction.acid_salts,
        alcohol,
    };
    // What dries away is reckoned, not weighed, so the cured total is kept to the nanogram like its parts.
    let total = if stage == Stage::Cured { total.settled_at(9) } else { total };
    contents.finish(tally, Mass::try_new(total).ok()?, fatty)
}

/// What a mixture holds at a stage, beside what takes no part in the reaction.
struct Contents {
    fat: Exact,
    soap: Exact,
    glycerol: Exact,
    unreacted: Exact,
    wax_alcohols: Exact,
    water: Exact,
    alkali: Exact,
    acids: Exact,
    acid_salts: Exact,
    alcohol: Exact,
}

/// What a formula leaves behind the twentieth decimal is nothing, and so is less than half of the last digit of a part.
const NOTHING: Exact = Exact::literal(5, 10);

impl Contents {
    const NONE: Self = Self {
        fat: Exact::ZERO,
        soap: Exact::ZERO,
        glycerol: Exact::ZERO,
        unreacted: Exact::ZERO,
        wax_alcohols: Exact::ZERO,
        water: Exact::ZERO,
        alkali: Exact::ZERO,
        acids: Exact::ZERO,
        acid_salts: Exact::ZERO,
        alcohol: Exact::ZERO,
    };

    /// The makeup that closes on `total`; `fatty` is its total fatty matter.
    fn finish(&self, tally: &Tally, total: Mass, fatty: Exact) -> Option<Makeup> {
        let all = [
            (Part::Fat, self.fat),
            (Part::Soap, self.soap),
            (Part::Glycerol, self.glycerol),
            (Part::UnreactedFat, self.unreacted),
            (Part::Unsaponifiable, tally.unsaponifiable),
            (Part::WaxAlcohols, self.wax_alcohols),
            (Part::Water, self.water),
            (Part::Alkali, self.alkali),
            (Part::Carbonate, tally.carbonate),
            (Part::Acids, self.acids),
            (Part::AcidSalts, self.acid_salts),
            (Part::Sugars, tally.sugars),
            (Part::Polyols, tally.polyols),
            (Part::Protein, tally.protein),
            (Part::Fibre, tally.fibre),
            (Part::Minerals, tally.minerals),
            (Part::Alcohol, self.alcohol),
            (Part::Other, tally.other),
            (Part::Colour, tally.colour),
            (Part::Scent, tally.scent),
        ];
        // At most twenty: they fit on the stack.
        let (mut parts, mut masses) = ([Part::Fat; 20], [Exact::ZERO; 20]);
        let there = all.into_iter().filter(|(_, mass)| !mass.is_within(NOTHING));
        let mut count: usize = 0;
        for ((part, mass), found) in parts.iter_mut().zip(&mut masses).zip(there) {
            (*part, *mass) = found;
            count = count.saturating_add(1);
        }
        let closed = close(masses.get(..count)?, total)?;
        Some(Makeup {
            parts: parts.into_iter().zip(closed).collect(),
            total,
            total_fatty_matter: Share::try_new(fatty / total.exact()).ok()?,
        })
    }
}

/// What the alkali of a mixture makes of its acids and fats, g.
struct Reaction {
    soap: Exact,
    /// Fatty acids that the soap would set free.
    fatty_acids: Exact,
    glycerol: Exact,
    unreacted: Exact,
    wax_alcohols: Exact,
    acid_salts: Exact,
    acids: Exact,
    /// Water that neutralisation makes.
    water: Exact,
    /// Alkali left over, pure.
    alkali: Exact,
}

impl Reaction {
    fn of(tally: &Tally) -> Self {
        let alkali = tally.alkali();
        let offered = alkali.as_koh();
        // A mole of the alkali as it is mixed, per gram of KOH equivalent: mass of alkali / grams as KOH.
        let alkali_per_koh = if offered.is_zero() { Exact::ZERO } else { alkali.total() / offered };

        let to_acid = offered.min(tally.acid_demand);
        let to_fatty_acid = (offered - to_acid).min(tally.fatty_acid_demand);
        let ester_demand = tally.ester_demand + tally.wax_demand;
        let to_esters = (offered - to_acid - to_fatty_acid).min(ester_demand);
        let over = offered - to_acid - to_fatty_acid - to_esters;

        let share = |part: Exact, whole: Exact| if whole.is_zero() { Exact::ZERO } else { part / whole };
        let water_per_koh = molar::WATER_PER_KOH;
        let neutralised = tally.acid * share(to_acid, tally.acid_demand);
        let acid_salts = neutralised + to_acid * (alkali_per_koh - water_per_koh);

        let fatty_acid = tally.fatty_acid * share(to_fatty_acid, tally.fatty_acid_demand);
        let soap_of_acids = fatty_acid + to_fatty_acid * (alkali_per_koh - water_per_koh);

        let saponified = share(to_esters, ester_demand);
        let ester = tally.ester * saponified;
        let ester_koh = tally.ester_demand * saponified;
        let glycerol = ester_koh * molar::GLYCEROL_PER_KOH;
        let soap_of_esters = ester + ester_koh * alkali_per_koh - glycerol;

        let wax = tally.wax * saponified;
        let wax_koh = to_esters - ester_koh;
        let wax_acids = tally.wax_acids * saponified;
        let soap_of_wax = wax_acids + wax_koh * (alkali_per_koh - water_per_koh);
        let wax_alcohols = wax + wax_koh * alkali_per_koh - soap_of_wax;

        let fatty_acids =
            fatty_acid + wax_acids + (soap_of_esters - ester_koh * (alkali_per_koh - water_per_koh));
        Self {
            soap: soap_of_acids + soap_of_esters + soap_of_wax,
            fatty_acids,
            glycerol,
            unreacted: tally.held
                + (tally.ester - ester)
                + (tally.fatty_acid - fatty_acid)
                + (tally.wax - wax),
            wax_alcohols,
            acid_salts,
            acids: tally.acid - neutralised,
            water: (to_acid + to_fatty_acid) * water_per_koh,
            alkali: over * alkali_per_koh,
        }
    }
}

/// The soap of a mixture by fatty acid, closing on `soap`. Fats are given with the mass of each that is in the mixture;
/// free fatty acids and esters are taken to be turned to soap in the proportions of the whole, fats without a profile
/// are left out of the proportions.
#[must_use]
pub fn soap_by_acid<'f>(
    fats: impl Iterator<Item = (&'f Fat, Exact)>,
    potassium_moles: Exact,
    soap: Mass,
) -> Option<Vec<(FattyAcid, Mass)>> {
    soap_of_acids(acids_by_mass(fats), potassium_moles, soap)
}

/// The soap of a mixture by fatty acid, from the fatty acids of its fats by mass.
pub(crate) fn soap_of_acids(
    acids: BTreeMap<FattyAcid, Exact>,
    potassium_moles: Exact,
    soap: Mass,
) -> Option<Vec<(FattyAcid, Mass)>> {
    let metal = molar::NAOH * (Exact::ONE - potassium_moles) + molar::KOH * potassium_moles - molar::WATER;
    let weight = |(acid, mass): (&FattyAcid, &Exact)| {
        let molar_mass = acid.molar_mass();
        mass.portion(molar_mass + metal, molar_mass)
    };
    let weights: Vec<Exact> = acids.iter().map(weight).collect();
    let total: Exact = weights.iter().copied().sum();
    if total.is_zero() {
        return Some(Vec::new());
    }
    let of_weight = soap.exact() / total;
    let parts: Vec<Exact> = weights.into_iter().map(|weight| weight * of_weight).collect();
    let closed = close(&parts, soap)?;
    Some(acids.into_keys().zip(closed).collect())
}
