//! Size, workshop, temperatures.

use std::collections::BTreeSet;

use super::layer::Size;
use super::read_value::{Node, Reader};
use super::tables::{self, BAR_MASS, FILLED, LARGE_MASS, MASS, STEP, TEMPERATURE};
use super::{Scale, Temperatures, Workshop};
use crate::limits;
use crate::quantity::{Exact, Mass};

/// Steps that a scale must at least show.
const LEAST_STEPS: i64 = 10;

impl Reader {
    pub(crate) fn size(&mut self, at: &Node<'_>) -> Option<Size> {
        let fields = self.object(at, &tables::SIZE)?;
        let fat = self.needed(&fields, "fat", |reader, at| reader.positive(at, &LARGE_MASS).map(Size::Fat));
        let batter =
            self.needed(&fields, "batter", |reader, at| reader.positive(at, &LARGE_MASS).map(Size::Batter));
        let bars = self.needed(&fields, "bars", |reader, at| reader.number(at, &limits::RECIPE_COUNT));
        let each = self.needed(&fields, "each", |reader, at| reader.positive::<Mass>(at, &BAR_MASS));
        let moulds = self.needed(&fields, "moulds", |reader, at| reader.word(at, &FILLED));
        let bars = bars.zip(each).map(|(count, each)| Size::Bars { count, each });
        fat.or(batter).or(bars).or(moulds.map(|()| Size::Moulds))
    }

    pub(crate) fn workshop(&mut self, at: &Node<'_>) -> Option<Workshop> {
        let fields = self.object(at, &tables::WORKSHOP)?;
        let usual = Workshop::default();
        let mut seen = BTreeSet::new();
        let scales = self.items(&fields, "scales", 1, |reader, at| reader.scale(at, &mut seen));
        let mut residue =
            |name, usual| self.maybe(&fields, name, usual, |reader, at| reader.quantity::<Mass>(at, &MASS));
        let jug_residue = residue("jug_residue", usual.jug_residue);
        let pot_residue = residue("pot_residue", usual.pot_residue);
        let lye_residue = residue("lye_residue", usual.lye_residue);
        let mut scales = if fields.has("scales") { scales? } else { usual.scales };
        scales.sort_by_key(|scale| (scale.step, scale.capacity));
        Some(Workshop {
            scales,
            jug_residue: jug_residue?,
            pot_residue: pot_residue?,
            lye_residue: lye_residue?,
        })
    }

    fn scale(&mut self, at: &Node<'_>, seen: &mut BTreeSet<String>) -> Option<Scale> {
        let fields = self.object(at, &tables::SCALE)?;
        let name = self.needed(&fields, "scale", |reader, at| {
            let name = reader.name(at, 1)?;
            reader.unique(at, seen, name, "scales");
            Some(name.to_owned())
        });
        let step = self.needed(&fields, "step", |reader, at| reader.positive::<Mass>(at, &STEP));
        let capacity =
            self.needed(&fields, "capacity", |reader, at| reader.quantity::<Mass>(at, &LARGE_MASS));
        if let (Some(step), Some(capacity), Some(at)) = (step, capacity, fields.get("capacity")) {
            let least = Mass::try_new(step.exact() * Exact::from(LEAST_STEPS)).unwrap_or(capacity);
            if capacity < least {
                let message = format!(
                    "a scale with steps of {step} cannot carry only {capacity}: {least} is the least"
                );
                self.report(&at, "quantity.range", message, "check the units of \"step\" and \"capacity\"");
            }
        }
        Some(Scale { name: name?, step: step?, capacity: capacity? })
    }

    pub(crate) fn temperatures(&mut self, at: &Node<'_>) -> Option<Temperatures> {
        let fields = self.object(at, &tables::TEMPERATURES)?;
        let usual = Temperatures::default();
        let fats = self.maybe(&fields, "fats", usual.fats, |reader, at| reader.quantity(at, &TEMPERATURE));
        let lye = self.maybe(&fields, "lye", usual.lye, |reader, at| reader.quantity(at, &TEMPERATURE));
        Some(Temperatures { fats: fats?, lye: lye? })
    }
}
