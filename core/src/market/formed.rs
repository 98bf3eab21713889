//! What becomes of each material of a recipe when the alkali has done its work.

use crate::batch::Plan;
use crate::chemistry::{AlkaliMasses, Makeup, Part, Tally};
use crate::material::atoms::molar;
use crate::material::{Alkali, library};
use crate::quantity::{Exact, Temperature};
use crate::recipe::FatStage;

use super::charge::{Charge, Source};
use super::composition::{Draft, Role, role};
use super::names::{self, AQUA, GLYCERIN};

/// How far the alkali of a mixture got, by the order of reaction of [`Makeup`].
struct Extent {
    acid: Exact,
    fatty_acid: Exact,
    ester: Exact,
    /// Alkali left over, as a share of all of it.
    over: Exact,
    /// Sodium hydroxide as a share of the alkali, in moles.
    sodium: Exact,
}

fn part(part: Exact, whole: Exact) -> Exact {
    if whole.is_zero() { Exact::ZERO } else { part / whole }
}

impl Extent {
    fn of(tally: &Tally) -> Self {
        let offered = tally.alkali().as_koh();
        let acid = offered.min(tally.acid_demand);
        let fatty_acid = (offered - acid).min(tally.fatty_acid_demand);
        let esters = tally.ester_demand + tally.wax_demand;
        let ester = (offered - acid - fatty_acid).min(esters);
        let only_sodium = AlkaliMasses { sodium: tally.sodium_hydroxide, potassium: Exact::ZERO };
        Self {
            acid: part(acid, tally.acid_demand),
            fatty_acid: part(fatty_acid, tally.fatty_acid_demand),
            ester: part(ester, esters),
            over: part(offered - acid - fatty_acid - ester, offered),
            sodium: part(only_sodium.as_koh(), offered),
        }
    }
}

/// Grams to a gram of potassium hydroxide.
fn per_koh(molar_mass: Exact) -> Exact {
    molar_mass / molar::KOH
}

/// What a tally of one charge turns into.
struct Products {
    sodium_soap: Exact,
    potassium_soap: Exact,
    glycerol: Exact,
    /// Water that neutralisation makes.
    water: Exact,
    /// Alkali taken up, as it is mixed.
    alkali: Exact,
}

impl Products {
    fn of(tally: &Tally, extent: &Extent) -> Self {
        let (ester, ester_koh) = (tally.ester * extent.ester, tally.ester_demand * extent.ester);
        let wax_koh = tally.wax_demand * extent.ester;
        let fatty_acid_koh = tally.fatty_acid_demand * extent.fatty_acid;
        let acid_koh = tally.acid_demand * extent.acid;
        let glycerol = ester_koh * per_koh(molar::GLYCEROL) / Exact::from(3);
        let water = per_koh(molar::WATER);
        let sodium = per_koh(molar::NAOH);
        // Esters take the alkali whole; acids give a water back for it.
        let of_acids = tally.fatty_acid * extent.fatty_acid + tally.wax_acids * extent.ester;
        let acids_koh = fatty_acid_koh + wax_koh;
        let soap =
            |alkali: Exact| (ester - glycerol) + ester_koh * alkali + of_acids + acids_koh * (alkali - water);
        let (n, k) = (extent.sodium, Exact::ONE - extent.sodium);
        Self {
            sodium_soap: n * soap(sodium),
            potassium_soap: k * soap(Exact::ONE),
            glycerol,
            // The water that a wax's acids give back goes to its alcohol, which keeps the name of the wax.
            water: (fatty_acid_koh + acid_koh) * water,
            alkali: (ester_koh + wax_koh + fatty_acid_koh + acid_koh) * (n * sodium + k),
        }
    }
}

fn tally_of(charge: &Charge<'_>, at: Temperature) -> Tally {
    let one = match charge.source {
        Source::Fat(fat, FatStage::AfterCook) => Tally::of_held_fat(fat, at.exact()),
        Source::Fat(fat, _) => Tally::of_fat(fat, at.exact()),
        Source::Additive(_, ingredient) => Tally::of_ingredient(ingredient, at.exact()),
        Source::Alkali(alkali, grade) => Tally::of_alkali(alkali, grade, Exact::ONE),
        Source::Water => Tally { water: Exact::ONE, ..Tally::EMPTY },
        Source::Colour(_) => Tally { colour: Exact::ONE, ..Tally::EMPTY },
        Source::Scent(_) => Tally { scent: Exact::ONE, ..Tally::EMPTY },
    };
    one.times(charge.mass)
}

/// Water and alcohol in a charge.
pub(super) fn water_and_alcohol(charge: &Charge<'_>) -> Option<(Exact, Exact)> {
    let tally = tally_of(charge, Temperature::literal(20, 0));
    (!tally.water.is_zero() || !tally.alcohol.is_zero()).then_some((tally.water, tally.alcohol))
}

/// The part of the water that was charged which a cured bar still holds, so that water made by the reaction is counted;
/// never below nought.
pub(super) fn kept_water(tally: &Tally, cured: Exact) -> Exact {
    let made = Products::of(tally, &Extent::of(tally)).water;
    part(cured - made, tally.water).max(Exact::ZERO)
}

/// The lines of a reacted or cured bar.
pub(super) fn formed(plan: &Plan, charges: &[Charge<'_>], tally: &Tally, makeup: &Makeup) -> Vec<Draft> {
    let extent = Extent::of(tally);
    let alcohol_stays = !makeup.mass(Part::Alcohol).is_zero();
    let mut drafts = Vec::new();
    let mut glycerol = Exact::ZERO;
    for charge in charges {
        let own = tally_of(charge, plan.temperatures.fats);
        let products = Products::of(&own, &extent);
        match charge.source {
            Source::Fat(fat, _) => {
                // A soap that no inventory names stands under the name of its fat; the list says so beside it.
                let own = fat.inci.fat.as_deref();
                let soaps = [
                    (fat.inci.sodium_soap.as_deref().or(own), products.sodium_soap),
                    (fat.inci.potassium_soap.as_deref().or(own), products.potassium_soap),
                ];
                let soap = products.sodium_soap + products.potassium_soap;
                let left = charge.mass + products.alkali - soap - products.glycerol - products.water;
                drafts.extend(soaps.map(|(name, mass)| named(charge, name, Role::Soap, mass)));
                drafts.push(named(charge, own, Role::Fat, left));
                glycerol = glycerol + products.glycerol;
            }
            Source::Additive(additive, _) => {
                let gone = if alcohol_stays { Exact::ZERO } else { own.alcohol };
                let dry =
                    charge.mass - own.water - gone + products.alkali - products.glycerol - products.water;
                let salt = library::additive_label(&additive.id).and_then(|label| {
                    Some((label.sodium_salt.as_deref()?, label.potassium_salt.as_deref()?))
                });
                match salt {
                    Some((sodium, potassium)) => {
                        drafts.push(named(charge, Some(sodium), Role::Additive, dry * extent.sodium));
                        let rest = dry * (Exact::ONE - extent.sodium);
                        drafts.push(named(charge, Some(potassium), Role::Additive, rest));
                    }
                    None => drafts.extend(dry_parts(charge, dry)),
                }
                glycerol = glycerol + products.glycerol;
            }
            Source::Alkali(alkali, _) => {
                let left = (own.sodium_hydroxide + own.potassium_hydroxide) * extent.over;
                drafts.push(named(charge, Some(names::alkali_name(alkali)), Role::Alkali, left));
                let carbonate = match alkali {
                    Alkali::SodiumHydroxide => "Sodium Carbonate",
                    Alkali::PotassiumHydroxide => "Potassium Carbonate",
                };
                drafts.push(named(charge, Some(carbonate), Role::Impurity, own.carbonate));
            }
            Source::Water => {}
            Source::Colour(_) | Source::Scent(_) => {
                drafts.extend(names::charged(charge.source).into_iter().map(|(inci, part)| {
                    let role = role(charge.source, inci.as_deref());
                    Draft::of(charge, inci, role, charge.mass * part)
                }));
            }
        }
    }
    drafts.push(product("glycerol", GLYCERIN, Role::Glycerin, glycerol));
    drafts.push(product("water", AQUA, Role::Water, makeup.mass(Part::Water).exact()));
    drafts
}

fn named(charge: &Charge<'_>, inci: Option<&str>, role: Role, mass: Exact) -> Draft {
    Draft::of(charge, inci.map(str::to_owned), role, mass)
}

/// The dry matter of an additive under its names, water not among them.
fn dry_parts(charge: &Charge<'_>, dry: Exact) -> Vec<Draft> {
    let mut parts = names::charged(charge.source);
    if parts.len() > 1 {
        parts.retain(|(name, _)| name.as_deref() != Some(AQUA));
    }
    let whole: Exact = parts.iter().map(|(_, part)| *part).sum();
    let draft = |(inci, part): (Option<String>, Exact)| {
        let role = role(charge.source, inci.as_deref());
        Draft::of(charge, inci, role, dry * part / whole)
    };
    parts.into_iter().map(draft).collect()
}

/// What comes out of the whole mixture and belongs to no line of the recipe alone.
fn product(what: &str, inci: &str, role: Role, mass: Exact) -> Draft {
    let text = |text: &str| text.to_owned();
    Draft {
        inci: Some(text(inci)),
        role,
        name: text(what),
        material: text(what),
        pointer: String::new(),
        mass,
        tolerance: Exact::ZERO,
    }
}
