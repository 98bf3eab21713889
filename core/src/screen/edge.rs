//! An edge between two layers that is dragged to another height.

use serde::Serialize;

use super::picture::{levels, shape};
use crate::batch::Plan;
use crate::quantity::{Exact, Length, Mass, Volume};
use crate::recipe::{LayerShare, Recipe};

/// Shares of two neighbours after their edge was moved; together they are what they were.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Dragged {
    /// Share of the layer below, as a document states it.
    pub below: String,
    /// Share of the layer above.
    pub above: String,
}

/// The shares of layer `below` and the one above it when the edge between them moves to `height` above the bottom of the
/// mould. They are rounded to a tenth of a part, half a millimetre, a gram or a millilitre, and each keeps at least one such
/// step. Nothing when there is no such edge.
///
/// ```
/// let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
/// let plan = lamella::Plan::of(&recipe).unwrap();
/// let moved = lamella::screen::drag(&recipe, &plan, 0, 0, "10 mm".parse().unwrap()).unwrap();
/// assert_eq!((moved.below.as_str(), moved.above.as_str()), ("14.2 parts", "13.8 parts"));
/// ```
#[must_use]
pub fn drag(recipe: &Recipe, plan: &Plan, mould: usize, below: usize, height: Length) -> Option<Dragged> {
    plan.is_of(recipe).then_some(())?;
    let above = below.checked_add(1)?;
    let (shape, of_recipe) = shape(recipe, plan, mould);
    let levels = levels(plan, &shape, mould, of_recipe);
    let (from, to) = (*levels.get(below)?, *levels.get(above.checked_add(1)?)?);
    let height = height.max(from).min(to);
    let low = shape.volume_to(from).exact();
    let part = (shape.volume_to(height).exact() - low) / (shape.volume_to(to).exact() - low);
    let shares = [recipe.layers.get(below)?.share, recipe.layers.get(above)?.share];
    let number = |share| match share {
        LayerShare::Parts(parts) => Exact::from(parts),
        LayerShare::Height(height) => height.exact(),
        LayerShare::Mass(mass) => mass.exact(),
        LayerShare::Volume(volume) => volume.exact(),
    };
    let step = match shares {
        [LayerShare::Parts(_), _] => Exact::literal(1, 1),
        [LayerShare::Height(_), _] => Exact::literal(5, 1),
        _ => Exact::ONE,
    };
    let both = shares.map(number).into_iter().sum::<Exact>();
    // Heights are stated where they are measured.
    let wanted = if matches!(shares, [LayerShare::Height(_), _]) {
        height.exact() - from.exact()
    } else {
        both * part
    };
    let steps = Exact::from(wanted.steps(step)?) * step;
    let lower = steps.min(both - step).max(step);
    let upper = both - lower;
    if !lower.is_positive() || !upper.is_positive() {
        return None;
    }
    let text = |value: Exact| match shares {
        [LayerShare::Parts(_), _] => value.published().map(|parts| format!("{} parts", parts.normalize())),
        [LayerShare::Height(_), _] => Length::try_new(value).ok().map(|height| height.to_string()),
        [LayerShare::Mass(_), _] => Mass::try_new(value).ok().map(|mass| mass.to_string()),
        [LayerShare::Volume(_), _] => Volume::try_new(value).ok().map(|volume| volume.to_string()),
    };
    Some(Dragged { below: text(lower)?, above: text(upper)? })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_edge_stays_between_its_neighbours() {
        let recipe = crate::recipe::read(crate::EXAMPLE).unwrap();
        let plan = Plan::of(&recipe).unwrap();
        let at = |height: &str| drag(&recipe, &plan, 0, 0, height.parse().unwrap()).unwrap();
        assert_eq!(at("0 mm").below, "0.1 parts");
        assert_eq!(at("500 mm").above, "0.1 parts");
        assert!(drag(&recipe, &plan, 0, 6, Length::ZERO).is_none());
    }

    #[test]
    fn an_edge_left_where_it_is_moves_nothing_much() {
        let recipe = crate::recipe::read(crate::EXAMPLE).unwrap();
        let plan = Plan::of(&recipe).unwrap();
        let edge = plan.layers[0].heights[0].to;
        let moved = drag(&recipe, &plan, 0, 0, edge).unwrap();
        // The doses of a layer take up room too, so that parts of fat are not quite parts of height.
        let parts: f64 = moved.below.trim_end_matches(" parts").parse().unwrap();
        assert!((23.0..=25.5).contains(&parts), "{parts}");
    }
}
