//! Layer: what is poured becomes a height in each mould.

use serde::Serialize;

use crate::quantity::{Exact, Length, Volume};
use crate::recipe::Recipe;

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
/// they hold up to their fill. A layer that does not fit has its upper face missing from the list of that mould.
pub(crate) fn heights(recipe: &Recipe, volumes: &[Volume]) -> Vec<Vec<Height>> {
    let capacity: Exact = recipe.moulds.iter().map(|mould| mould.capacity().exact()).sum();
    let mut of_layers: Vec<Vec<Height>> = vec![Vec::with_capacity(recipe.moulds.len()); volumes.len()];
    for (index, mould) in recipe.moulds.iter().enumerate() {
        let mut below = Exact::ZERO;
        let mut from = Length::ZERO;
        for (volume, heights) in volumes.iter().zip(&mut of_layers) {
            below = below + volume.exact();
            let share = Volume::try_new(below * mould.capacity().exact() / capacity);
            // Up to the brim the shape still answers when the fill is passed; the caution tells.
            let brim = |volume: Volume| {
                let each = Volume::try_new(volume.exact() / Exact::from(i64::from(mould.count()))).ok()?;
                mould.shape().height_at(each)
            };
            let Some(to) = share.ok().and_then(brim) else { break };
            heights.push(Height { mould: index, from, to });
            from = to;
        }
    }
    of_layers
}
