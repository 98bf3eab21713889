//! Figures that describe a blend of fats: saponification value, iodine value, classes of fatty acids.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::material::atoms::molar;
use crate::material::profile::Means;
use crate::material::{Class, Fat, FatKind, FattyAcid, library};
use crate::quantity::{Exact, IodineValue, SaponificationValue, Share};

/// What describes a blend of fats.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Indices {
    /// Saponification value from those the fats are reckoned with: the mean by mass, mg KOH/g.
    pub saponification_value: SaponificationValue,
    /// Saponification value computed from the profiles (mole mean), of the fats that have one; a check on the former.
    pub computed_saponification_value: Option<SaponificationValue>,
    /// Iodine value computed from the profiles by AOCS Cd 1c-85, of the fats that have one.
    pub computed_iodine_value: Option<IodineValue>,
    /// Mass shares of the classes in the fatty acids, in the order of `Class::ALL`.
    pub classes: Vec<ClassShare>,
    /// Share of the fat that the computed values speak of: triglycerides and fatty acids with a profile.
    pub profiled: Share,
}

/// A class and its mass share of the fatty acids.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct ClassShare {
    /// Which class.
    pub class: Class,
    /// Its share.
    pub share: Share,
}

/// Grams of fatty acids that a gram of a fat holds: the part of it that is no glyceryl, or of a wax what takes up its
/// alkali. Nought for a fat without a profile.
#[must_use]
pub fn acids_in(fat: &Fat) -> Exact {
    if fat.profile.is_empty() {
        return Exact::ZERO;
    }
    acids_of(fat, Exact::ONE, library::means(fat).molar_mass)
}

/// Grams of fatty acids in `mass` of a fat whose profile has the mean molar mass `mean`.
fn acids_of(fat: &Fat, mass: Exact, mean: Exact) -> Exact {
    match fat.kind {
        FatKind::Triglyceride => mass.portion(mean, mean + molar::GLYCERYL),
        FatKind::FreeFattyAcid => mass,
        FatKind::WaxEster => {
            let demand = mass * fat.saponification_value.typical.exact() * Exact::THOUSANDTH;
            demand.portion(mean, molar::KOH).min(mass)
        }
    }
}

/// Fatty acids of a blend by mass: each fat's acids are the part of it that is no glyceryl, shared out by its profile.
#[must_use]
pub fn acids_by_mass<'f>(fats: impl Iterator<Item = (&'f Fat, Exact)>) -> BTreeMap<FattyAcid, Exact> {
    let mut acids = BTreeMap::new();
    for (fat, mass) in fats.filter(|(fat, mass)| !fat.profile.is_empty() && !mass.is_zero()) {
        add_acids(&mut acids, fat, mass, &library::means(fat));
    }
    acids
}

/// Adds the acids of a fat whose profile has these means.
fn add_acids(acids: &mut BTreeMap<FattyAcid, Exact>, fat: &Fat, mass: Exact, means: &Means) {
    let per_share = match means.acids_per_share {
        Some(of_gram) => mass * of_gram,
        None => acids_of(fat, mass, means.molar_mass) / means.shares,
    };
    for line in fat.profile.iter().filter(|line| !line.share.typical.is_zero()) {
        let entry = acids.entry(line.acid).or_insert(Exact::ZERO);
        *entry = *entry + per_share * line.share.typical.exact();
    }
}

/// The indices of a blend; nothing when it has no fat or a figure is out of range.
///
/// The computed values are means by mass of what [`profile`](crate::material::profile) computes for each fat.
#[must_use]
pub fn indices<'f>(fats: impl Iterator<Item = (&'f Fat, Exact)>) -> Option<Indices> {
    indices_and_acids(fats).map(|(indices, _)| indices)
}

/// The indices of a blend, and its fatty acids by mass, which they are taken from.
pub(crate) fn indices_and_acids<'f>(
    fats: impl Iterator<Item = (&'f Fat, Exact)>,
) -> Option<(Indices, BTreeMap<FattyAcid, Exact>)> {
    let [mut total, mut demand, mut profiled, mut computed, mut iodine] = [Exact::ZERO; 5];
    let mut acids = BTreeMap::new();
    for (fat, mass) in fats {
        total = total + mass;
        demand = demand + mass * fat.saponification_value.typical.exact();
        if fat.profile.is_empty() || mass.is_zero() {
            continue;
        }
        let means = library::means(fat);
        add_acids(&mut acids, fat, mass, &means);
        // Neither is defined for a wax, whose alcohols a profile does not tell.
        if let Some((value, iodine_value)) = means.saponification_value.zip(means.iodine_value) {
            profiled = profiled + mass;
            computed = computed + mass * value;
            iodine = iodine + mass * iodine_value;
        }
    }
    let acid_total: Exact = acids.values().copied().sum();
    let classes = Class::ALL
        .into_iter()
        .map(|class| {
            let mass: Exact =
                acids.iter().filter(|(acid, _)| acid.class() == class).map(|(_, mass)| *mass).sum();
            let share = if acid_total.is_zero() { Exact::ZERO } else { mass / acid_total };
            Some(ClassShare { class, share: Share::try_new(share).ok()? })
        })
        .collect::<Option<Vec<_>>>()?;
    let known = profiled.is_positive();
    let indices = Indices {
        saponification_value: SaponificationValue::try_new(demand / total).ok()?,
        computed_saponification_value: known
            .then(|| SaponificationValue::try_new(computed / profiled).ok())
            .flatten(),
        computed_iodine_value: known.then(|| IodineValue::try_new(iodine / profiled).ok()).flatten(),
        classes,
        profiled: Share::try_new(profiled / total).ok()?,
    };
    Some((indices, acids))
}
