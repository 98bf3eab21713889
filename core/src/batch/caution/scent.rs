//! Cautions about what suppliers certify of scents.

use crate::material::{BasisKind, Fragrance};
use crate::quantity::{Exact, Mass, Share, percent_beside};
use crate::recipe::{Dose, Ingredient, Recipe};

use super::super::mixture::Mixture;
use super::super::plan::{JugPlan, Plan};
use super::Caution;

/// A scent of which there is a certificate.
struct Certified<'r> {
    scent: &'r Fragrance,
    pointer: &'r str,
    /// How much of it is in all the bars.
    mass: Exact,
}

pub(super) fn cautions(recipe: &Recipe, mixtures: &[Mixture<'_>], plan: &Plan, out: &mut Vec<Caution>) {
    let bars = plan.batch.cured.total.exact();
    for certified in certified(recipe, mixtures, plan) {
        let Some(certificate) = certified.scent.certificate.as_deref() else { continue };
        let caution = |code, message: String, figure: String, limit: String, advice: &str| Caution {
            code,
            pointer: certified.pointer.to_owned(),
            place: certified.scent.name.to_string(),
            message,
            figure,
            limit,
            basis: BasisKind::Supplier,
            source: "the supplier's certificate, as the recipe states it",
            advice: advice.to_owned(),
        };
        let share = certified.mass / bars;
        let shown = |limit| {
            Share::try_new(share).map_or_else(|_| "much".to_owned(), |share| percent_beside(share, limit, 1))
        };
        if let Some(limit) = certificate.limit.filter(|limit| (share - limit.exact()).is_positive()) {
            out.push(caution(
                "scent.limit",
                "there is more of it in the cured bar than its certificate allows".to_owned(),
                shown(limit),
                limit.to_string(),
                "take less of it: the share rises as water leaves, so leave room",
            ));
        }
        if let Some(vanillin) = certificate.vanillin.filter(|vanillin| !vanillin.is_zero()) {
            out.push(caution(
                "scent.vanillin",
                "it holds vanillin, which browns soap for weeks".to_owned(),
                format!("{vanillin} of the scent"),
                "none where the bar is to stay light".to_owned(),
                "put it into a dark layer, and look at layers beside it",
            ));
        }
        let fats = plan.temperatures.fats;
        if let Some(flash) = certificate.flash_point.filter(|flash| *flash <= fats) {
            out.push(caution(
                "scent.flash",
                "the fats are as warm as its flash point: it evaporates, and its vapour can catch fire"
                    .to_owned(),
                format!("fats {fats}"),
                format!("flash point {flash}"),
                "let the batter cool before it goes in, and keep flames away",
            ));
        }
    }
}

/// Every scent with a certificate once, with all that is in the bars of it, under this or any other dose.
fn certified<'r>(recipe: &'r Recipe, mixtures: &[Mixture<'r>], plan: &Plan) -> Vec<Certified<'r>> {
    let mut found: Vec<Certified<'r>> = Vec::new();
    let doses = recipe.pot.iter().chain(mixtures.iter().flat_map(|mixture| mixture.doses));
    for (scent, dose) in doses.filter_map(|dose| Some((scent(dose)?, dose))) {
        let known = found.iter().any(|known| known.scent.id == scent.id);
        if scent.certificate.is_some() && !known {
            found.push(Certified { scent, pointer: &dose.pointer, mass: Exact::ZERO });
        }
    }
    for certified in &mut found {
        let id = &certified.scent.id;
        certified.mass = plan.jugs.iter().map(|jug| poured(id, recipe, plan, jug)).sum();
    }
    found
}

fn scent(dose: &Dose) -> Option<&Fragrance> {
    match &dose.ingredient {
        Ingredient::Fragrance(scent) => Some(scent),
        _ => None,
    }
}

/// How much of a scent is poured from a jug. An id may be that of another material too: only lines of scents count.
fn poured(id: &str, recipe: &Recipe, plan: &Plan, jug: &JugPlan) -> Exact {
    let weighed = |items: &[super::super::weigh::WeighItem], scents: &[&str]| {
        let of = items.iter().filter(|item| item.id == id && scents.contains(&item.pointer.as_str()));
        of.map(|item| item.weighed.exact()).sum::<Exact>()
    };
    let of_jugs = recipe.jugs.iter().flat_map(|jug| &jug.doses);
    let all = recipe.pot.iter().chain(of_jugs).chain(recipe.layers.iter().flat_map(|layer| &layer.doses));
    let scents: Vec<&str> =
        all.filter(|dose| scent(dose).is_some()).map(|dose| dose.pointer.as_str()).collect();
    let pot = weighed(&plan.pot.doses, &scents) * jug.portion.weighed.exact() / plan.pot.total.exact();
    let own = weighed(&jug.late_doses, &scents) + weighed(&jug.doses, &scents);
    let layers = jug.layers.iter().filter_map(|layer| plan.layers.get(*layer));
    let portions: Mass = layers.map(|layer| layer.portion).sum();
    (pot + own) * portions.exact() / jug.net.exact()
}
