//! What is simulated: a section, its layers, and what surrounds it. Plain SI figures, checked before use.
use super::HeatError;
use super::kinetics::Kinetics;
use super::materials::Material;

/// Longest run, seconds: fourteen days.
pub const LONGEST: f64 = 14.0 * 86_400.0;
/// Most layers, and most changes of the surroundings.
pub const MOST: usize = 200;

/// How the section goes on behind the paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Depth {
    /// A loaf or slab: the same along its length.
    Straight,
    /// A tube or cup that stands: the same all around.
    Round,
}

/// The ends of a block that is too short to be the same along its length; their loss is spread over the section, which
/// then stands for the mean along the length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ends {
    /// Length of the block, m.
    pub length: f64,
}

/// The section through the block: it is the same left and right of its middle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Section {
    /// Straight or round.
    pub depth: Depth,
    /// Full width or diameter, m.
    pub width: f64,
    /// Ends to be reckoned with; nothing for the middle of a long block.
    pub ends: Option<Ends>,
}

/// A layer as it is poured.
#[derive(Clone, Debug, PartialEq)]
pub struct Charge {
    /// What the maker calls it.
    pub name: String,
    /// Thickness, m.
    pub thickness: f64,
    /// When it is poured, seconds from the start; layers are poured in order.
    pub at: f64,
    /// Temperature when it is poured, °C.
    pub temperature: f64,
    /// Share of the alkali that has reacted when it is poured.
    pub conversion: f64,
    /// What it is made of.
    pub material: Material,
    /// How fast it reacts.
    pub kinetics: Kinetics,
}

/// What surrounds the block from some time on. Resistances are from the surface of the soap to the air, m² K/W; infinity
/// lets nothing through, nought holds the surface at the temperature of the air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Phase {
    /// From when, seconds.
    pub from: f64,
    /// Temperature of the air, °C.
    pub air: f64,
    /// Below.
    pub base: f64,
    /// At the sides.
    pub side: f64,
    /// Above.
    pub top: f64,
    /// At the ends, where they are reckoned with.
    pub end: f64,
}

/// All that a run needs.
#[derive(Clone, Debug, PartialEq)]
pub struct Scenario {
    /// The section.
    pub section: Section,
    /// Its layers from the bottom; at least one, the first poured at 0.
    pub layers: Vec<Charge>,
    /// Its surroundings in the order of time; at least one, the first from 0.
    pub phases: Vec<Phase>,
    /// When the run ends, seconds.
    pub until: f64,
}

/// Share of the alkali that has reacted when a batter is poured, at trace. Source: from memory, a few to ten per cent.
pub const AT_TRACE: f64 = 0.05;

impl Scenario {
    /// Height of all layers, m.
    #[must_use]
    pub fn height(&self) -> f64 {
        self.layers.iter().map(|layer| layer.thickness).sum()
    }

    /// Whether it can be computed with.
    ///
    /// # Errors
    /// [`HeatError`] for the first thing that is wrong.
    pub fn check(&self) -> Result<(), HeatError> {
        HeatError::check("width", self.section.width, 1e-3, 10.0)?;
        if let Some(ends) = self.section.ends {
            HeatError::check("length", ends.length, 1e-3, 100.0)?;
        }
        HeatError::check("until", self.until, 1.0, LONGEST)?;
        if self.layers.is_empty() || self.layers.len() > MOST {
            return Err(HeatError::Layers);
        }
        let mut last = 0.0;
        for (index, layer) in self.layers.iter().enumerate() {
            HeatError::check("thickness", layer.thickness, 1e-6, 10.0)?;
            HeatError::check("temperature", layer.temperature, -30.0, 150.0)?;
            HeatError::check("conversion", layer.conversion, 0.0, 1.0)?;
            HeatError::check("at", layer.at, 0.0, self.until)?;
            let material = &layer.material;
            HeatError::check("density", material.density, 1.0, 30_000.0)?;
            HeatError::check("capacity", material.capacity, 1.0, 100_000.0)?;
            HeatError::check("conductivity", material.conductivity, 1e-4, 1e6)?;
            HeatError::check("heat", material.heat, 0.0, 1e11)?;
            HeatError::check("gels_at", material.gels_at, -100.0, 1000.0)?;
            layer.kinetics.check()?;
            if layer.at < last || layer.at >= self.until || (index == 0 && layer.at > 0.0) {
                return Err(HeatError::Order);
            }
            last = layer.at;
        }
        HeatError::check("height", self.height(), 1e-4, 10.0)?;
        if self.phases.is_empty() || self.phases.len() > MOST {
            return Err(HeatError::Phases);
        }
        let mut last = 0.0;
        for (index, phase) in self.phases.iter().enumerate() {
            HeatError::check("from", phase.from, 0.0, LONGEST)?;
            HeatError::check("air", phase.air, -60.0, 250.0)?;
            for (name, resistance) in
                [("base", phase.base), ("side", phase.side), ("top", phase.top), ("end", phase.end)]
            {
                // Infinity is allowed: nothing passes.
                HeatError::check(name, resistance.min(1e12), 0.0, 1e12)?;
            }
            let wrong = if index == 0 { phase.from > 0.0 } else { phase.from <= last };
            if wrong {
                return Err(HeatError::Order);
            }
            last = phase.from;
        }
        Ok(())
    }
}
