//! Recipes that are changed in a way whose effect a law knows.

use serde_json::{Map, Value};

use crate::quantity::{Exact, Mass, Share, Volume};
use crate::recipe::{
    self, Amount, Dose, DoseBasis, FatAmount, Jug, Layer, LayerShare, Mould, Recipe, Size, Superfat,
};

/// The recipe with its fats the other way round.
#[must_use]
pub fn fats_reversed(recipe: &Recipe) -> Recipe {
    let mut changed = recipe.clone();
    changed.fats.reverse();
    changed
}

/// The recipe with another share of the demand left unmet; nothing when that is no superfat.
#[must_use]
pub fn superfat(recipe: &Recipe, discount: Exact) -> Option<Recipe> {
    let superfat = Superfat::OfDemand(Share::try_new(discount).ok()?);
    Some(Recipe { superfat, ..recipe.clone() })
}

/// The recipe with every mass, but those of its scales, changed.
fn with_masses(recipe: &Recipe, change: &impl Fn(Mass) -> Option<Mass>) -> Option<Recipe> {
    let mut changed = recipe.clone();
    for line in &mut changed.fats {
        if let FatAmount::Mass(mass) = &mut line.amount {
            *mass = change(*mass)?;
        }
    }
    match &mut changed.size {
        Some(Size::Fat(mass) | Size::Batter(mass) | Size::Bars { each: mass, .. }) => *mass = change(*mass)?,
        Some(Size::Moulds) | None => {}
    }
    let lists = [&mut changed.pot, &mut changed.lye.doses].into_iter();
    let of_jugs = changed.jugs.iter_mut().map(|jug| &mut jug.doses);
    let of_layers = changed.layers.iter_mut().map(|layer| &mut layer.doses);
    for dose in lists.chain(of_jugs).chain(of_layers).flatten() {
        if let Amount::Mass(mass) = &mut dose.amount {
            *mass = change(*mass)?;
        }
    }
    for layer in &mut changed.layers {
        if let LayerShare::Mass(mass) = &mut layer.share {
            *mass = change(*mass)?;
        }
    }
    for mass in changed.jugs.iter_mut().flat_map(|jug| [&mut jug.tare, &mut jug.residue]).flatten() {
        *mass = change(*mass)?;
    }
    let workshop = &mut changed.workshop;
    for mass in [&mut workshop.jug_residue, &mut workshop.pot_residue, &mut workshop.lye_residue] {
        *mass = change(*mass)?;
    }
    Some(changed)
}

/// The recipe with every mass moved to the nearest thousandth of an ounce, none of them to nought.
#[must_use]
pub fn whole_ounces(recipe: &Recipe) -> Recipe {
    let nearest = |mass: Mass| {
        let thousandth = Mass::try_from_unit(Exact::literal(1, 3), "oz").ok()?;
        let least = i64::from(!mass.is_zero());
        let count = mass.exact().steps(thousandth.exact())?.max(least);
        Mass::try_new(Exact::from(count) * thousandth.exact()).ok()
    };
    with_masses(recipe, &nearest).unwrap_or_else(|| recipe.clone())
}

/// Fields of a document that hold masses (or other quantities, which are left as they are).
const MASSES: [&str; 10] =
    ["mass", "dose", "share", "fat", "batter", "each", "tare", "residue", "step", "capacity"];

/// The document of a recipe with every mass that the unit holds exactly written in that unit.
#[must_use]
pub fn in_unit(recipe: &Recipe, unit: &str) -> String {
    fn walk(value: &mut Value, field: &str, unit: &str) {
        match value {
            Value::Object(fields) => each(fields, unit),
            Value::Array(items) => items.iter_mut().for_each(|item| walk(item, field, unit)),
            Value::String(text) if MASSES.contains(&field) || field.ends_with("_residue") => {
                if let Some(other) = text.parse::<Mass>().ok().and_then(|mass| written(mass, unit)) {
                    *text = other;
                }
            }
            Value::String(_) | Value::Number(_) | Value::Bool(_) | Value::Null => {}
        }
    }
    fn each(fields: &mut Map<String, Value>, unit: &str) {
        for (field, value) in fields.iter_mut() {
            walk(value, field, unit);
        }
    }
    let text = recipe::write(recipe);
    let Ok(mut document) = serde_json::from_str::<Value>(&text) else { return text };
    walk(&mut document, "", unit);
    document.to_string()
}

/// A mass in a unit, where reading it gives the same mass.
fn written(mass: Mass, unit: &str) -> Option<String> {
    let number = mass.in_unit(unit)?.round_dp(12).normalize();
    let text = format!("{number} {unit}");
    (text.parse::<Mass>() == Ok(mass)).then_some(text)
}

fn half(value: Exact) -> Exact {
    value * Exact::literal(5, 1)
}

/// Half of a mass, where that has no more decimals than a mass keeps.
fn half_mass(mass: Mass) -> Option<Mass> {
    let half = Mass::try_new(half(mass.exact())).ok()?;
    (half + half == mass).then_some(half)
}

/// Doses of half a layer: those that are reckoned on the layer stay, the others are halved.
fn half_doses(doses: &[Dose]) -> Option<Vec<Dose>> {
    let halve = |dose: &Dose| {
        let amount = match dose.amount {
            Amount::Mass(mass) => Amount::Mass(half_mass(mass)?),
            Amount::Share(share, basis @ (DoseBasis::BatchFat | DoseBasis::Batch)) => {
                let half = Share::try_new(half(share.exact())).ok()?;
                Amount::Share((half + half == share).then_some(half)?, basis)
            }
            Amount::Share(..) => dose.amount,
        };
        Some(Dose { amount, ..dose.clone() })
    };
    doses.iter().map(halve).collect()
}

/// The recipe with the layer of this index in two halves, one after the other. A layer with a mixture of its own gets two
/// jugs, in each of which half of what stayed in the one stays. Nothing when the layer is stated by its height, or a half
/// has more decimals than are kept.
#[must_use]
pub fn halved(recipe: &Recipe, layer: usize) -> Option<Recipe> {
    let mut changed = recipe.clone();
    let whole = recipe.layers.get(layer)?;
    let share = match whole.share {
        LayerShare::Parts(parts) => {
            let half = half(Exact::from(parts)).published()?;
            (Exact::from(half) + Exact::from(half) - Exact::from(parts)).is_zero().then_some(())?;
            LayerShare::Parts(half)
        }
        LayerShare::Mass(mass) => LayerShare::Mass(half_mass(mass)?),
        LayerShare::Volume(volume) => {
            let half = Volume::try_new(half(volume.exact())).ok()?;
            LayerShare::Volume((half + half == volume).then_some(half)?)
        }
        LayerShare::Height(_) => return None,
    };
    let named = whole.jug.and_then(|jug| recipe.jugs.get(jug));
    let users = recipe.layers.iter().filter(|layer| layer.jug == whole.jug).count();
    let (jugs, doses) = if named.is_some() && users > 1 {
        ([whole.jug, whole.jug], Vec::new())
    } else {
        let residue = named.and_then(|jug| jug.residue).unwrap_or(recipe.workshop.jug_residue);
        // Doses may stand with the jug or with its only layer.
        let of_jug = named.map_or(&[][..], |jug| &jug.doses);
        let doses = half_doses(if of_jug.is_empty() { &whole.doses } else { of_jug })?;
        let jug = Jug {
            name: String::new(),
            tare: named.and_then(|jug| jug.tare),
            residue: Some(half_mass(residue)?),
            doses: Vec::new(),
        };
        let first = changed.jugs.len();
        changed.jugs.extend([
            Jug { name: format!("{} (lower half)", whole.name), ..jug.clone() },
            Jug { name: format!("{} (upper half)", whole.name), ..jug },
        ]);
        ([Some(first), Some(first.saturating_add(1))], doses)
    };
    let halves = jugs.into_iter().zip(["lower", "upper"]).map(|(jug, which)| Layer {
        name: format!("{} ({which} half)", whole.name),
        share,
        jug,
        doses: doses.clone(),
    });
    changed.layers.splice(layer..=layer, halves);
    Some(changed.with_places())
}

/// The recipe with `factor` times everything: masses, volumes and moulds, and what the scales carry.
#[must_use]
pub fn times(recipe: &Recipe, factor: u32) -> Option<Recipe> {
    let many = Exact::from(i64::from(factor));
    let more = |mass: Mass| Mass::try_new(mass.exact() * many).ok();
    let mut changed = with_masses(recipe, &more)?;
    for layer in &mut changed.layers {
        match &mut layer.share {
            LayerShare::Volume(volume) => *volume = Volume::try_new(volume.exact() * many).ok()?,
            // A height stands for as much more as there are more moulds; masses are done, parts stay parts.
            LayerShare::Height(_) | LayerShare::Mass(_) | LayerShare::Parts(_) => {}
        }
    }
    let moulds = recipe.moulds.iter().map(|mould| {
        let count = mould.count().checked_mul(factor)?;
        Mould::try_new(mould.name(), *mould.shape(), count, Some(mould.fill())).ok()
    });
    changed.moulds = moulds.collect::<Option<_>>()?;
    for scale in &mut changed.workshop.scales {
        scale.capacity = more(scale.capacity)?;
    }
    Some(changed)
}
