//! What a fatty-acid profile computes to: saponification value, iodine value, classes, and how much acid a fat holds.
//!
//! In: the typical shares of a profile. Out: exact figures. Nothing here knows where the profile came from.

use super::atoms::molar;
use super::fat::{AcidShare, FatKind};
use super::fatty_acid::{Class, FattyAcid};
use crate::quantity::{Exact, Share};

/// Mean molar mass of the fatty acids by moles, g/mol: sum of the shares over the sum of share / molar mass, so the
/// shares need not sum to one. Poisoned when the profile is empty or all nought.
///
/// The mean by mass that is sometimes used is larger, and makes the saponification value of wide mixtures such as
/// coconut oil 3-6 % too low.
#[must_use]
pub fn mean_molar_mass(profile: &[AcidShare]) -> Exact {
    let (shares, moles) = sums(profile);
    shares / moles
}

/// The shares of a profile, and the moles that a gram of such shares is.
const fn sums(mut profile: &[AcidShare]) -> (Exact, Exact) {
    let (mut shares, mut moles) = (Exact::ZERO, Exact::ZERO);
    while let [part, rest @ ..] = profile {
        let share = part.share.typical.exact();
        shares = shares.plus(share);
        moles = moles.plus(share.over(part.acid.molar_mass()));
        profile = rest;
    }
    (shares, moles)
}

/// What a profile computes to, together. For the library's own it is worked out when the crate is built.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Means {
    /// What its shares sum to.
    pub(crate) shares: Exact,
    /// Acids of a gram of the fat over the sum of the shares; nothing for a wax ester.
    pub(crate) acids_per_share: Option<Exact>,
    /// [`mean_molar_mass`].
    pub(crate) molar_mass: Exact,
    /// [`saponification_value`] without unsaponifiable matter.
    pub(crate) saponification_value: Option<Exact>,
    /// [`iodine_value`].
    pub(crate) iodine_value: Option<Exact>,
}

impl Means {
    pub(crate) const fn of(kind: FatKind, profile: &[AcidShare]) -> Self {
        let (shares, moles) = sums(profile);
        let molar_mass = shares.over(moles);
        Self {
            shares,
            acids_per_share: match kind {
                FatKind::Triglyceride => Some(molar_mass.over(molar_mass.plus(molar::GLYCERYL).by(shares))),
                FatKind::FreeFattyAcid => Some(Exact::ONE.over(shares)),
                FatKind::WaxEster => None,
            },
            molar_mass,
            saponification_value: saponification_value_of(kind, molar_mass),
            iodine_value: iodine_value(kind, profile),
        }
    }
}

/// Saponification value of a fat with this profile, mg KOH/g; nothing for a wax ester, whose alcohols a profile does not
/// tell. Poisoned when the profile is empty.
///
/// A triglyceride takes up 56 105.3 / (mean molar mass + 12.683), a free acid 56 105.3 / mean molar mass; unsaponifiable
/// matter takes up nothing, so the value is multiplied by one less its share.
///
/// ```
/// use lamella::material::{FatKind, library, profile};
/// use lamella::quantity::Share;
/// let coconut = library::fat("coconut-oil").unwrap();
/// let value = profile::saponification_value(coconut.kind, &coconut.profile, Share::ZERO).unwrap();
/// assert_eq!(value.rounded(1).unwrap().to_string(), "254.5");
/// ```
///
/// # Source
/// AOCS Recommended Practice Cd 3a-94 (from memory), with the mean by moles; the constants are exact sums of
/// [`weight`](super::atoms::weight).
#[must_use]
pub fn saponification_value(kind: FatKind, profile: &[AcidShare], unsaponifiable: Share) -> Option<Exact> {
    let value = saponification_value_of(kind, mean_molar_mass(profile))?;
    Some(value * (Exact::ONE - unsaponifiable.exact()))
}

/// [`saponification_value`] from the mean molar mass of the acids, without unsaponifiable matter.
const fn saponification_value_of(kind: FatKind, mean: Exact) -> Option<Exact> {
    let per_ester = match kind {
        FatKind::Triglyceride => mean.plus(molar::GLYCERYL),
        FatKind::FreeFattyAcid => mean,
        FatKind::WaxEster => return None,
    };
    Some(molar::KOH.portion(Exact::THOUSAND, per_ester))
}

/// Grams of fatty acid that one gram of a triglyceride of one acid holds: 3 M(acid) / M(triglyceride).
#[must_use]
pub fn acid_in_triglyceride(acid: FattyAcid) -> Exact {
    acid.molar_mass() / (acid.molar_mass() + molar::GLYCERYL)
}

/// Grams of fatty acids that one gram of a triglyceride with this profile holds. Poisoned when the profile is empty.
#[must_use]
pub fn acids_in_triglyceride(profile: &[AcidShare]) -> Exact {
    let mean = mean_molar_mass(profile);
    mean / (mean + molar::GLYCERYL)
}

/// Iodine that one gram of an acid adds, free or as its triglyceride, g/g: 253.808 94 times the double bonds over the
/// molar mass (for a triglyceride, a third of it). Nothing for a wax ester.
#[must_use]
pub const fn iodine_by_stoichiometry(kind: FatKind, acid: FattyAcid) -> Option<Exact> {
    let per_ester = match kind {
        FatKind::Triglyceride => acid.molar_mass().plus(molar::GLYCERYL),
        FatKind::FreeFattyAcid => acid.molar_mass(),
        FatKind::WaxEster => return None,
    };
    Some(molar::IODINE.times(acid.double_bonds as i64).over(per_ester))
}

/// The published factor of an acid, g iodine per gram; nothing for an acid that the method does not list. The gamma
/// isomer of C18:3 has the mass and the bonds of the usual one, so it takes its factor.
///
/// # Source
/// AOCS Recommended Practice Cd 1c-85 (reapproved 2009): triglycerides 0.950 C16:1, 0.860 C18:1, 1.732 C18:2, 2.616 C18:3,
/// 0.785 C20:1, 0.723 C22:1; free acids 0.9976, 0.8986, 1.810, 2.735, 0.8175, 0.7497.
#[must_use]
pub const fn iodine_factor(kind: FatKind, acid: FattyAcid) -> Option<Exact> {
    if acid.hydroxyls > 0 {
        return None;
    }
    let (triglyceride, free) = match (acid.carbons, acid.double_bonds) {
        (16, 1) => ((950, 3), (9_976, 4)),
        (18, 1) => ((860, 3), (8_986, 4)),
        (18, 2) => ((1_732, 3), (1_810, 3)),
        (18, 3) => ((2_616, 3), (2_735, 3)),
        (20, 1) => ((785, 3), (8_175, 4)),
        (22, 1) => ((723, 3), (7_497, 4)),
        _ => return None,
    };
    let (mantissa, scale) = match kind {
        FatKind::Triglyceride => triglyceride,
        FatKind::FreeFattyAcid => free,
        FatKind::WaxEster => return None,
    };
    Some(Exact::literal(mantissa, scale))
}

/// Iodine value of a fat with this profile, g I2/100 g; nothing for a wax ester.
///
/// The sum over the acids of the per cent of each times its published factor, and for acids that the method does not list
/// times [`iodine_by_stoichiometry`]. The shares count as they stand: acids that a profile leaves out add nothing. The
/// method reads low for fats with much unsaponifiable matter.
///
/// ```
/// use lamella::material::{library, profile};
/// let olive = library::fat("olive-oil").unwrap();
/// let value = profile::iodine_value(olive.kind, &olive.profile).unwrap();
/// assert_eq!(value.rounded(1).unwrap().to_string(), "80.1");
/// ```
///
/// # Source
/// AOCS Recommended Practice Cd 1c-85, as [`iodine_factor`].
#[must_use]
pub const fn iodine_value(kind: FatKind, mut profile: &[AcidShare]) -> Option<Exact> {
    let mut value = Exact::ZERO;
    while let [part, rest @ ..] = profile {
        let factor = match iodine_factor(kind, part.acid) {
            Some(factor) => factor,
            None => match iodine_by_stoichiometry(kind, part.acid) {
                Some(factor) => factor,
                None => return None,
            },
        };
        value = value.plus(part.share.typical.exact().by(factor));
        profile = rest;
    }
    match kind {
        FatKind::WaxEster => None,
        FatKind::Triglyceride | FatKind::FreeFattyAcid => Some(value.by(Exact::HUNDRED)),
    }
}

/// Mass shares of the classes, in the order of [`Class::ALL`]; they sum to what the profile sums to.
#[must_use]
pub fn classes(profile: &[AcidShare]) -> [(Class, Share); 6] {
    Class::ALL.map(|class| {
        let of_class = profile.iter().filter(|part| part.acid.class() == class);
        (class, of_class.map(|part| part.share.typical).sum())
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::material::fat::Ranged;

    fn share(acid: &str, percent: i64) -> AcidShare {
        AcidShare { acid: acid.parse().unwrap(), share: Ranged::exactly(Share::literal(percent, 3)) }
    }

    fn rounded(value: Option<Exact>, decimals: u32) -> String {
        value.unwrap().rounded(decimals).unwrap().to_string()
    }

    #[test]
    fn an_empty_profile_is_poison_not_a_number() {
        assert!(mean_molar_mass(&[]).decimal().is_none());
        assert!(saponification_value(FatKind::Triglyceride, &[], Share::ZERO).unwrap().decimal().is_none());
        assert!(acids_in_triglyceride(&[]).decimal().is_none());
        assert!(iodine_value(FatKind::Triglyceride, &[]).unwrap().is_zero());
        assert!(iodine_value(FatKind::WaxEster, &[]).is_none());
    }

    #[test]
    fn shares_need_not_sum_to_one() {
        let (half, whole) = ([share("C18:1", 500)], [share("C18:1", 1000)]);
        let value =
            |profile: &[AcidShare]| saponification_value(FatKind::FreeFattyAcid, profile, Share::ZERO);
        assert_eq!(rounded(value(&half), 20), rounded(value(&whole), 20));
    }

    #[test]
    fn unsaponifiable_matter_takes_up_nothing() {
        let oleic = [share("C18:1", 1000)];
        let value = |part| saponification_value(FatKind::Triglyceride, &oleic, part).unwrap();
        let twice = value(Share::literal(5, 1)) * Exact::from(2);
        assert_eq!(twice.rounded(20), value(Share::ZERO).rounded(20));
    }

    /// Corn and cottonseed oil of NRC, National Academies Press record 9826, p. 258, Table 12-6, stated 125 and 105; the
    /// factors of Cd 1c-85 give 124.8 and 105.1.
    #[test]
    fn iodine_value_follows_the_published_factors() {
        let corn = [share("C18:1", 242), share("C18:2", 590), share("C18:3", 7)];
        let cotton = [share("C16:1", 8), share("C18:1", 170), share("C18:2", 515), share("C18:3", 2)];
        assert_eq!(rounded(iodine_value(FatKind::Triglyceride, &corn), 1), "124.8");
        assert_eq!(rounded(iodine_value(FatKind::Triglyceride, &cotton), 1), "105.1");
    }

    #[test]
    fn acids_that_the_method_does_not_list_count_by_their_bonds() {
        let ricinoleic = [share("C18:1-OH", 1000)];
        assert_eq!(rounded(iodine_value(FatKind::Triglyceride, &ricinoleic), 1), "81.6");
        let stearidonic = [share("C18:4", 1000)];
        assert_eq!(rounded(iodine_value(FatKind::Triglyceride, &stearidonic), 0), "351");
    }

    #[test]
    fn classes_keep_every_gram() {
        for fat in crate::material::library::fats() {
            let profile: Share = fat.profile.iter().map(|part| part.share.typical).sum();
            let classes: Share = classes(&fat.profile).into_iter().map(|(_, share)| share).sum();
            assert_eq!(profile, classes, "{}", fat.id);
        }
    }
}
