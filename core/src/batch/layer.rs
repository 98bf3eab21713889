//! Layer: what is poured becomes a height in each mould.

use serde::Serialize;

use crate::quantity::{Exact, Length, Volume};
use crate::recipe::{LayerShare, Mould, Recipe};

/// Where a layer lies in a mould.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Height {
    /// Index of the mould.
    pub mould: usize,
    /// Lower face, above the bottom.
    pub from: Length,
    /// Upper face.
    pub to: Length,
}

impl Height {
    /// How thick the layer is.
    #[must_use]
    pub fn thickness(&self) -> Length {
        self.to - self.from
    }
}

/// The heights of layers of these volumes, in pour order. Each layer is shared among the moulds in proportion to what
/// they hold up to their fill, or, where the recipe states layers as heights, so that it stands as high in all of them.
/// What does not fit ends at the brim: the layer that passes it is cut off there, and those above it have no thickness.
pub(crate) fn heights(recipe: &Recipe, volumes: &[Volume]) -> Vec<Vec<Height>> {
    let parts = below(recipe, volumes.len());
    let wholes: Vec<Exact> = (0..volumes.len())
        .map(|layer| parts.iter().filter_map(|part| part.get(layer)).copied().sum())
        .collect();
    let mut of_layers: Vec<Vec<Height>> = vec![Vec::with_capacity(recipe.moulds.len()); volumes.len()];
    for ((index, mould), parts) in recipe.moulds.iter().enumerate().zip(&parts) {
        let mut below = Exact::ZERO;
        let mut from = Length::ZERO;
        for (((volume, heights), part), whole) in volumes.iter().zip(&mut of_layers).zip(parts).zip(&wholes) {
            below = below + volume.exact();
            let share = Volume::try_new(below * *part / *whole);
            // Up to the brim the shape still answers when the fill is passed; the caution tells.
            let level = |volume: Volume| {
                let each = Volume::try_new(volume.exact() / Exact::from(i64::from(mould.count()))).ok()?;
                mould.level_of(each)
            };
            let to = share.ok().and_then(level).unwrap_or(mould.shape().depth());
            heights.push(Height { mould: index, from, to });
            from = to;
        }
    }
    of_layers
}

/// How much of layers of these volumes is more than their moulds hold up to their brims.
pub(crate) fn over_brim(recipe: &Recipe, volumes: &[Volume]) -> Exact {
    let whole: Volume = volumes.iter().copied().sum();
    let of_moulds: Vec<Exact> =
        below(recipe, volumes.len()).iter().map(|part| part.last().copied().unwrap_or(Exact::ZERO)).collect();
    let all: Exact = of_moulds.iter().copied().sum();
    let over = |(mould, part): (&Mould, &Exact)| {
        let full = mould.volume_to(mould.shape().depth()).exact();
        (whole.exact().portion(*part, all) - full).max(Exact::ZERO)
    };
    recipe.moulds.iter().zip(&of_moulds).map(over).sum()
}

/// For each mould, what it takes of all that lies below the top of each layer, as weights.
fn below(recipe: &Recipe, layers: usize) -> Vec<Vec<Exact>> {
    let mut tops = Vec::with_capacity(layers);
    let mut top = Length::ZERO;
    for layer in &recipe.layers {
        if let LayerShare::Height(height) = layer.share {
            top += height;
            tops.push(top);
        }
    }
    let weights = |mould: &Mould| {
        if tops.len() == layers {
            tops.iter().map(|top| mould.volume_to(*top).exact()).collect()
        } else {
            vec![mould.capacity().exact(); layers]
        }
    };
    recipe.moulds.iter().map(weights).collect()
}
