//! Which layers share a jug.

use crate::quantity::Mass;
use crate::recipe::{Dose, Jug, Recipe};

/// What is in one jug: the mixture of one layer or of several.
#[derive(Clone, Debug)]
pub(crate) struct Mixture<'r> {
    /// The jug, where the recipe speaks of it.
    pub(crate) jug: Option<&'r Jug>,
    /// Name of the jug, or of its only layer.
    pub(crate) name: &'r str,
    /// Indices of its layers, in pour order. Never empty.
    pub(crate) layers: Vec<usize>,
    /// What goes into it.
    pub(crate) doses: &'r [Dose],
    /// JSON Pointer to the jug, or to its only layer.
    pub(crate) pointer: String,
    /// What stays on its walls.
    pub(crate) residue: Mass,
}

/// The jugs of a recipe in the order of their first pour.
pub(crate) fn mixtures(recipe: &Recipe) -> Vec<Mixture<'_>> {
    let mut mixtures: Vec<Mixture<'_>> = Vec::with_capacity(recipe.layers.len());
    let mut of_jug: Vec<Option<usize>> = vec![None; recipe.jugs.len()];
    for (index, layer) in recipe.layers.iter().enumerate() {
        let jug = layer.jug.and_then(|jug| recipe.jugs.get(jug));
        let slot = layer.jug.and_then(|jug| of_jug.get_mut(jug));
        if let Some(known) = slot.as_ref().and_then(|slot| **slot).and_then(|known| mixtures.get_mut(known)) {
            known.layers.push(index);
            continue;
        }
        if let Some(slot) = slot {
            *slot = Some(mixtures.len());
        }
        let of_layer = jug.is_none_or(|jug| jug.doses.is_empty());
        mixtures.push(Mixture {
            jug,
            name: jug.map_or(&layer.name, |jug| &jug.name),
            layers: vec![index],
            doses: if of_layer { &layer.doses } else { jug.map_or(&[], |jug| &jug.doses) },
            pointer: layer.jug.map_or_else(|| format!("/layers/{index}"), |jug| format!("/jugs/{jug}")),
            residue: jug.and_then(|jug| jug.residue).unwrap_or(recipe.workshop.jug_residue),
        });
    }
    mixtures
}
