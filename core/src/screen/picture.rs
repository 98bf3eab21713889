//! The bar in its mould as outlines.

use serde::Serialize;

use crate::batch::Plan;
use crate::quantity::{Exact, Length, Volume};
use crate::recipe::{Recipe, Shape};
use crate::sheet::section::{Band, BandOutline, outline};

/// What a bar without a mould is drawn in: a loaf of usual width, as high as the batter stands in it.
const USUAL_LENGTH: Length = Length::literal(250, 0);
const USUAL_WIDTH: Length = Length::literal(80, 0);
const USUAL_HEIGHT: Length = Length::literal(75, 0);

/// The cross-section of a bar.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Picture {
    /// Whether it is the mould of the recipe, to scale; otherwise the recipe has none, and the layers are drawn by volume
    /// in one of usual width.
    pub to_scale: bool,
    /// Widest width, mm.
    pub width: Length,
    /// From the bottom to the brim.
    pub depth: Length,
    /// How high the mould is to be filled.
    pub fill: Length,
    /// The hollow as the data of an SVG path in millimetres, y from the brim downwards.
    pub hollow: String,
    /// The layers, from the bottom.
    pub layers: Vec<PictureLayer>,
}

/// A layer of a [`Picture`].
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PictureLayer {
    /// Its outline; empty where it does not fit.
    pub outline: BandOutline,
    /// How thick it is.
    pub thickness: Length,
    /// How it looks, `#rrggbb`.
    pub swatch: String,
}

/// The mould that a picture is drawn in, and whether it is one of the recipe.
pub(super) fn shape(recipe: &Recipe, plan: &Plan, mould: usize) -> (Shape, bool) {
    if let Some(mould) = recipe.moulds.get(mould) {
        return (*mould.shape(), true);
    }
    let usual = Shape::Loaf { length: USUAL_LENGTH, width: USUAL_WIDTH, height: USUAL_HEIGHT };
    // A mould of the width and height, as long as it takes for the batter to fill it.
    let area = USUAL_WIDTH.exact() * USUAL_HEIGHT.exact();
    let length = plan.batch.volume.exact() * Exact::from(1000) / area;
    match Length::try_new(length * Exact::literal(102, 2)) {
        Ok(length) if !length.is_zero() => {
            (Shape::Loaf { length, width: USUAL_WIDTH, height: USUAL_HEIGHT }, false)
        }
        _ => (usual, false),
    }
}

/// The levels between the layers, from the bottom face of the first to the upper face of the last that fits.
pub(super) fn levels(plan: &Plan, shape: &Shape, mould: usize, of_recipe: bool) -> Vec<Length> {
    let mut levels = vec![Length::ZERO];
    let mut below = Volume::ZERO;
    for layer in &plan.layers {
        let to = if of_recipe {
            layer.heights.iter().find(|height| height.mould == mould).map(|height| height.to)
        } else {
            below += layer.volume;
            shape.height_at(below)
        };
        let Some(to) = to else { break };
        levels.push(to);
    }
    levels
}

/// The cross-section of the bar in a mould of the recipe, or in a usual one when the recipe has none.
///
/// ```
/// let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
/// let plan = lamella::Plan::of(&recipe).unwrap();
/// let picture = lamella::screen::picture(&recipe, &plan, 0).unwrap();
/// assert!(picture.to_scale);
/// assert_eq!(picture.layers.len(), plan.layers.len());
/// ```
#[must_use]
pub fn picture(recipe: &Recipe, plan: &Plan, mould: usize) -> Option<Picture> {
    plan.is_of(recipe).then_some(())?;
    let (shape, to_scale) = shape(recipe, plan, mould);
    let levels = levels(plan, &shape, mould, to_scale);
    let band = |index: usize| {
        let from = levels.get(index).copied();
        let to = levels.get(index.saturating_add(1)).copied();
        let (from, to) = from.zip(to).unwrap_or_default();
        Band { from, to, ..Band::default() }
    };
    let bands: Vec<Band> = (0..plan.layers.len()).map(band).collect();
    let outline = outline(&shape, &bands)?;
    let layers = outline.bands.into_iter().zip(&plan.layers).map(|(outline, layer)| PictureLayer {
        thickness: outline.to - outline.from,
        outline,
        swatch: layer.swatch.clone(),
    });
    Some(Picture {
        to_scale,
        width: outline.width,
        depth: outline.depth,
        fill: recipe.moulds.get(mould).map_or(outline.depth, crate::recipe::Mould::fill),
        hollow: outline.hollow,
        layers: layers.collect(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn without_a_mould_the_layers_stand_by_volume() {
        let mut recipe = crate::recipe::read(crate::EXAMPLE).unwrap();
        recipe.moulds.clear();
        recipe.size = Some(crate::recipe::Size::Fat("1 kg".parse().unwrap()));
        let plan = Plan::of(&recipe).unwrap();
        let picture = picture(&recipe, &plan, 0).unwrap();
        assert!(!picture.to_scale);
        assert!(picture.layers.iter().all(|layer| !layer.outline.path.is_empty()));
        let top = picture.layers.last().unwrap().outline.to;
        assert!(top < picture.depth && top.exact().approximate() > 70.0);
    }
}
