//! Scales, and what stays behind in vessels.

use crate::quantity::Mass;

/// A scale.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Scale {
    /// What the maker calls it.
    pub name: String,
    /// Smallest difference it shows.
    pub step: Mass,
    /// Most it can carry, vessel included.
    pub capacity: Mass,
}

/// The workshop.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Workshop {
    /// Its scales, the finest first. Never empty.
    pub scales: Vec<Scale>,
    /// What stays in a jug that says nothing of its own.
    pub jug_residue: Mass,
    /// What stays in the pot that the fats were melted in.
    pub pot_residue: Mass,
    /// What stays in the vessel of the lye.
    pub lye_residue: Mass,
}

impl Workshop {
    /// The finest scale that carries `mass`; nothing when none does.
    #[must_use]
    pub fn scale_for(&self, mass: Mass) -> Option<(usize, &Scale)> {
        self.scales.iter().enumerate().find(|(_, scale)| mass <= scale.capacity)
    }
}

/// Two scales, 0.1 g to 3 kg and 1 g to 30 kg, and no residue. Source: common practice.
impl Default for Workshop {
    fn default() -> Self {
        let scale = |name: &str, step, capacity| Scale { name: name.to_owned(), step, capacity };
        Self {
            scales: vec![
                scale("bench", Mass::literal(1, 1), Mass::literal(3000, 0)),
                scale("floor", Mass::literal(1, 0), Mass::literal(30_000, 0)),
            ],
            jug_residue: Mass::ZERO,
            pot_residue: Mass::ZERO,
            lye_residue: Mass::ZERO,
        }
    }
}
