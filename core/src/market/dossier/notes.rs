//! What is known of impurities and of keeping.

use serde::Serialize;

use crate::batch::Plan;
use crate::chemistry::{AlkaliSplit, Part};
use crate::material::{Alkali, Class, ColourantKind, FragranceKind};
use crate::quantity::{Share, fixed};
use crate::recipe::{Ingredient, Recipe};

/// Something said of a material or of the bars.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Note {
    /// Of what.
    pub of: String,
    /// What.
    pub says: String,
}

fn note(of: &str, says: impl Into<String>) -> Note {
    Note { of: of.to_owned(), says: says.into() }
}

fn percent(share: Share, decimals: u32) -> String {
    format!("{} %", fixed(share.in_unit("%").unwrap_or_default(), decimals))
}

/// What comes along with the materials, and what to ask their suppliers for.
///
/// Source: what to ask for is common practice of assessors, from memory.
pub(super) fn impurities(recipe: &Recipe) -> Vec<Note> {
    let mut notes = Vec::new();
    let split = AlkaliSplit::of(&recipe.alkali);
    for alkali in Alkali::ALL {
        if let Some(grade) = split.grade(alkali) {
            notes.push(note(
                alkali.name(),
                format!("purity {}, carbonate {}, the rest water", grade.purity, grade.carbonate),
            ));
        }
    }
    let mut add = |of: &str, says: &str| {
        let new = note(of, says);
        if !notes.contains(&new) {
            notes.push(new);
        }
    };
    for dose in recipe.all_doses() {
        let name = dose.ingredient.name();
        match &dose.ingredient {
            Ingredient::Colourant(colour) => match colour.kind {
                ColourantKind::Pigment | ColourantKind::Mica | ColourantKind::Clay => {
                    add(name, "heavy metals: certificate of the supplier");
                }
                ColourantKind::Carbon => {
                    add(name, "polycyclic aromatics, heavy metals: certificate of the supplier")
                }
                ColourantKind::Plant => add(name, "microbial count, pesticides: statement of the supplier"),
            },
            Ingredient::Fragrance(scent) => match scent.kind {
                FragranceKind::EssentialOil => {
                    add(name, "allergens and restricted constituents of the lot: certificate")
                }
                FragranceKind::Compound => add(name, "code number, supplier, allergens: certificate"),
            },
            Ingredient::Additive(additive) => {
                if let Some(allergen) = &additive.allergen {
                    add(name, &format!("food allergen: {allergen}"));
                }
                let parts = &additive.composition;
                let food = !(parts.protein.is_zero() && parts.fibre.is_zero() && parts.sugars.is_zero());
                if food {
                    add(name, "food: pesticides and moulds' toxins, statement of the supplier");
                } else if !parts.minerals.is_zero() {
                    add(name, "minerals: heavy metals, certificate of the supplier");
                }
            }
            Ingredient::Fat(_) | Ingredient::Alkali(..) => {}
        }
    }
    notes
}

/// What bears on keeping: figures of the bars, then what the library says of the materials.
pub(super) fn stability(plan: &Plan, recipe: &Recipe) -> Vec<Note> {
    let cured = &plan.batch.cured;
    let mut notes = vec![
        note(
            "bars",
            format!(
                "free alkali by stoichiometry {}, if all has reacted: to be determined on the bar (ISO 456)",
                percent(cured.share(Part::Alkali), 3)
            ),
        ),
        note("bars", format!("water when cured {}", percent(cured.share(Part::Water), 1))),
        note(
            "bars",
            format!("total fatty matter {} (in the sense of ISO 685)", percent(cured.total_fatty_matter, 1)),
        ),
    ];
    for jug in &plan.jugs {
        notes.push(note(&jug.name, format!("superfat {}", percent(jug.superfat, 2))));
    }
    let poly = plan.batch.indices.classes.iter().find(|line| line.class == Class::PolyUnsaturated);
    if let Some(poly) = poly {
        notes.push(note(
            "fats",
            format!(
                "poly-unsaturated {} of the fatty acids: the part that turns rancid first",
                percent(poly.share, 1)
            ),
        ));
    }
    notes.push(note(
        "bars",
        "microbiology: low risk by pH above 10 or a water activity below 0.75 (ISO 29621); measure, do not assume",
    ));
    for dose in recipe.all_doses() {
        let says: &str = match &dose.ingredient {
            Ingredient::Additive(additive) if additive.fresh => {
                "fresh and wet: it may spoil where it is not in the alkaline bar"
            }
            Ingredient::Colourant(colour) if !colour.alkali_stable => "changes its colour in alkali",
            Ingredient::Fragrance(scent) => match scent.certificate.as_deref().and_then(|one| one.vanillin) {
                Some(vanillin) if !vanillin.is_zero() => "holds vanillin: the bar browns",
                _ => continue,
            },
            _ => continue,
        };
        let new = note(dose.ingredient.name(), says);
        if !notes.contains(&new) {
            notes.push(new);
        }
    }
    notes
}
