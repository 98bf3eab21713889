//! Figures that describe a blend of fats: saponification value, iodine value, classes of fatty acids.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::material::atoms::molar;
use crate::material::{AcidShare, Class, Fat, FatKind, FattyAcid};
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
    /// Share of the fat whose profile is known; the three figures above speak of this much.
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

/// Moles of fatty acid in the typical profile, and its sum of shares: (sum w / M, sum w).
fn moles(profile: &[AcidShare]) -> (Exact, Exact) {
    profile.iter().fold((Exact::ZERO, Exact::ZERO), |(moles, sum), acid| {
        let share = acid.share.typical.exact();
        if share.is_zero() { (moles, sum) } else { (moles + share / acid.acid.molar_mass(), sum + share) }
    })
}

/// Mole mean of the molar masses of a profile, g/mol; nothing for an empty one.
///
/// Shares are by mass, so the mole mean is the harmonic one: (sum w) / (sum w / M).
pub(crate) fn mean_molar_mass(profile: &[AcidShare]) -> Option<Exact> {
    let (moles, sum) = moles(profile);
    moles.is_positive().then(|| sum / moles)
}

/// Fatty acids of a blend by mass: each fat's acids are the part of it that is no glyceryl, shared out by its profile.
#[must_use]
pub fn acids_by_mass<'f>(fats: impl Iterator<Item = (&'f Fat, Exact)>) -> BTreeMap<FattyAcid, Exact> {
    let mut acids = BTreeMap::new();
    for (fat, mass) in fats {
        let (moles, sum) = moles(&fat.profile);
        if !moles.is_positive() || mass.is_zero() {
            continue;
        }
        let mean = sum / moles;
        let acid_mass = match fat.kind {
            FatKind::Triglyceride => mass * mean / (mean + molar::GLYCERYL),
            FatKind::FreeFattyAcid => mass,
            FatKind::WaxEster => (mass * fat.saponification_value.typical.exact() * mean / (Exact::THOUSAND * molar::KOH)).min(mass),
        };
        for line in fat.profile.iter().filter(|line| !line.share.typical.is_zero()) {
            let entry = acids.entry(line.acid).or_insert(Exact::ZERO);
            *entry = *entry + acid_mass * line.share.typical.exact() / sum;
        }
    }
    acids
}

/// The indices of a blend; nothing when it has no fat or a figure is out of range.
///
/// # Source
/// Computed saponification value: 56 105.3 / (M + 12.683) with M the mole mean of the acids' molar masses, for neutral
/// triglycerides (stoichiometry; AOCS Cd 3a-94 as remembered takes a mass mean, which is 3-6 % low for coconut).
/// Iodine value: AOCS Cd 1c-85 as coefficients per mass per cent, see [`iodine_coefficient`].
#[must_use]
pub fn indices<'f>(fats: impl Iterator<Item = (&'f Fat, Exact)> + Clone) -> Option<Indices> {
    let total: Exact = fats.clone().map(|(_, mass)| mass).sum();
    let demand: Exact = fats.clone().map(|(fat, mass)| mass * fat.saponification_value.typical.exact()).sum();
    let profiled_fats = fats.clone().filter(|(fat, _)| !fat.profile.is_empty());
    let profiled: Exact = profiled_fats.clone().map(|(_, mass)| mass).sum();
    let mut computed = Exact::ZERO;
    let mut iodine = Exact::ZERO;
    for (fat, mass) in profiled_fats {
        let (moles, sum) = moles(&fat.profile);
        computed = computed + mass * saponification_value(fat.kind, sum / moles, fat);
        let value: Exact = fat.profile.iter().map(|line| line.share.typical.exact() * iodine_coefficient(line.acid, fat.kind)).sum();
        iodine = iodine + mass * value / sum;
    }
    let acids = acids_by_mass(fats);
    let acid_total: Exact = acids.values().copied().sum();
    let classes = Class::ALL
        .into_iter()
        .map(|class| {
            let mass: Exact = acids.iter().filter(|(acid, _)| acid.class() == class).map(|(_, mass)| *mass).sum();
            let share = if acid_total.is_zero() { Exact::ZERO } else { mass / acid_total };
            Some(ClassShare { class, share: Share::try_new(share).ok()? })
        })
        .collect::<Option<Vec<_>>>()?;
    let known = profiled.is_positive();
    Some(Indices {
        saponification_value: SaponificationValue::try_new(demand / total).ok()?,
        computed_saponification_value: known.then(|| SaponificationValue::try_new(computed / profiled).ok()).flatten(),
        computed_iodine_value: known.then(|| IodineValue::try_new(Exact::HUNDRED * iodine / profiled).ok()).flatten(),
        classes,
        profiled: Share::try_new(profiled / total).ok()?,
    })
}

/// Saponification value from the mole mean of the acids; a wax's profile says nothing of its alcohols, so there the
/// published value stands.
fn saponification_value(kind: FatKind, mean: Exact, fat: &Fat) -> Exact {
    let koh = molar::KOH * Exact::THOUSAND;
    match kind {
        FatKind::Triglyceride => koh / (mean + molar::GLYCERYL),
        FatKind::FreeFattyAcid => koh / mean,
        FatKind::WaxEster => fat.saponification_value.typical.exact(),
    }
}

/// Iodine value that one mass per cent of an acid adds.
///
/// # Source
/// AOCS Recommended Practice Cd 1c-85 (reapproved 2009): triglycerides 0.950 C16:1, 0.860 C18:1, 1.732 C18:2, 2.616 C18:3,
/// 0.785 C20:1, 0.723 C22:1; free acids 0.9976, 0.8986, 1.810, 2.735, 0.8175, 0.7497. Acids that the method does not list:
/// 253.808 94 x double bonds / (M + 12.683), free acids without the 12.683; derived.
#[must_use]
pub fn iodine_coefficient(acid: FattyAcid, kind: FatKind) -> Exact {
    let free = kind == FatKind::FreeFattyAcid;
    let listed = match (acid.carbons, acid.double_bonds, acid.hydroxyls) {
        (_, 0, _) => return Exact::ZERO,
        (16, 1, 0) => Some((950, 9_976)),
        (18, 1, 0) => Some((860, 8_986)),
        (18, 2, 0) => Some((1_732, 18_100)),
        (18, 3, 0) => Some((2_616, 27_350)),
        (20, 1, 0) => Some((785, 8_175)),
        (22, 1, 0) => Some((723, 7_497)),
        _ => None,
    };
    match listed {
        Some((_, acid)) if free => Exact::literal(acid, 4),
        Some((glyceride, _)) => Exact::literal(glyceride, 3),
        None => {
            let bonds = Exact::from(i64::from(acid.double_bonds));
            let extra = if free { Exact::ZERO } else { molar::GLYCERYL };
            molar::IODINE * bonds / (acid.molar_mass() + extra)
        }
    }
}
