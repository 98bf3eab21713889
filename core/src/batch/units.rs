//! What a gram of everything brings, and the shares of a recipe: worked out once for all the trials of a size.

use crate::chemistry::{AlkaliSplit, Outline, Tally, carbonate_and_water, demand_of};
use crate::material::Alkali;
use crate::quantity::Exact;
use crate::recipe::{Amount, Dose, DoseBasis, FatAmount, FatStage, Recipe, Treatment, Water};

use super::mixture::Mixture;

/// Tallies of one gram of everything that a recipe uses, and its shares, worked out once.
#[derive(Debug)]
pub(crate) struct Units {
    /// Each fat line's share of all the fat, as a part of [`fat_whole`](Self::fat_whole).
    pub(crate) fat_parts: Vec<Exact>,
    /// What the parts sum to.
    pub(crate) fat_whole: Exact,
    pub(crate) fats: Vec<Tally>,
    /// All the parts of the fats that go into the pot, in outline.
    pub(super) pot_fat: Outline,
    /// All the parts of the fats that are held back, in outline.
    pub(super) held_fat: Outline,
    pub(crate) pot: Vec<Unit>,
    /// What the doses of the pot are together.
    pub(super) pot_mixed: Mixed,
    pub(crate) doses: Vec<Vec<Unit>>,
    /// What the doses of each jug are together.
    pub(super) mixed: Vec<Mixed>,
    pub(crate) liquids: Vec<Unit>,
    pub(crate) lye: Vec<Unit>,
    pub(crate) split: AlkaliSplit,
    /// Share of the demand that is left unmet.
    pub(crate) discount: Exact,
    /// Temperature of the lye, °C.
    pub(crate) lye_temperature: Exact,
    /// Water that the rule of the recipe asks for with a gram of demand, less what the alkali for it brings.
    pub(super) water_per_demand: Exact,
}

/// One gram of a dose.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Unit {
    pub(crate) tally: Tally,
    pub(super) outline: Outline,
    /// Alkali that a gram needs on top, in grams of KOH: none when it is absorbed.
    pub(crate) need: Exact,
}

impl Unit {
    fn of(dose: &Dose, temperature: Exact, discount: Exact) -> Self {
        let demand = demand_of(&dose.ingredient);
        let tally = Tally::of_demanding(&dose.ingredient, &demand, temperature);
        let need = match dose.treatment {
            Treatment::Absorb => Exact::ZERO,
            Treatment::Balance => demand.fat * (Exact::ONE - discount) + demand.acid,
        };
        Self { tally, outline: tally.outline(), need }
    }
}

/// The doses of a jug that are not reckoned on what is in it, together: for a gram of the layer's fat, for a gram of the
/// batch's, and those in grams.
#[derive(Clone, Copy, Debug)]
pub(super) struct Mixed {
    of_layer_fat: Portion,
    of_batch_fat: Portion,
    plain: Portion,
}

/// Something in outline, and the alkali it needs on top.
#[derive(Clone, Copy, Debug)]
struct Portion {
    outline: Outline,
    need: Exact,
}

impl Portion {
    const NONE: Self = Self { outline: Outline::EMPTY, need: Exact::ZERO };

    fn add(&mut self, unit: &Unit, mass: Exact) {
        self.outline = self.outline.and(mass, &unit.outline);
        self.need = self.need + unit.need * mass;
    }
}

impl Mixed {
    fn of(doses: &[Dose], units: &[Unit]) -> Self {
        let mut mixed =
            Self { of_layer_fat: Portion::NONE, of_batch_fat: Portion::NONE, plain: Portion::NONE };
        for (dose, unit) in doses.iter().zip(units) {
            match dose.amount {
                Amount::Mass(mass) => mixed.plain.add(unit, mass.exact()),
                Amount::Share(share, DoseBasis::LayerFat) => mixed.of_layer_fat.add(unit, share.exact()),
                Amount::Share(share, DoseBasis::BatchFat) => mixed.of_batch_fat.add(unit, share.exact()),
                Amount::Share(_, DoseBasis::Layer | DoseBasis::Batch) => {}
            }
        }
        mixed
    }

    pub(super) fn add_to(
        &self,
        outline: Outline,
        need: Exact,
        layer_fat: Exact,
        batch_fat: Exact,
    ) -> (Outline, Exact) {
        let parts =
            [(&self.of_layer_fat, layer_fat), (&self.of_batch_fat, batch_fat), (&self.plain, Exact::ONE)];
        parts
            .into_iter()
            .filter(|(part, _)| !part.outline.mass.is_zero())
            .fold((outline, need), |(outline, need), (part, fat)| {
                (outline.and(fat, &part.outline), need + part.need * fat)
            })
    }
}

impl Units {
    pub(crate) fn of(recipe: &Recipe, mixtures: &[Mixture<'_>]) -> Self {
        let warm = recipe.temperatures.fats.exact();
        let discount = recipe.superfat.discount();
        let unit = |dose: &Dose| Unit::of(dose, warm, discount);
        let units = |doses: &[Dose]| doses.iter().map(unit).collect::<Vec<_>>();
        let doses: Vec<Vec<Unit>> = mixtures.iter().map(|mixture| units(mixture.doses)).collect();
        let fat_parts: Vec<Exact> = recipe
            .fats
            .iter()
            .map(|line| match line.amount {
                FatAmount::Share(share) => share.exact(),
                FatAmount::Mass(mass) => mass.exact(),
            })
            .collect();
        let fats = recipe.fats.iter().map(|line| match line.stage {
            FatStage::Pot => Tally::of_fat(&line.fat, warm),
            FatStage::AfterCook => Tally::of_held_fat(&line.fat, warm),
        });
        let fats: Vec<Tally> = fats.collect();
        let all_of = |stage: FatStage| {
            let lines = recipe.fats.iter().zip(&fats).zip(&fat_parts);
            lines
                .filter(|((line, _), _)| line.stage == stage)
                .fold(Outline::EMPTY, |sum, ((_, unit), part)| sum.and(*part, &unit.outline()))
        };
        let pot = units(&recipe.pot);
        let split = AlkaliSplit::of(&recipe.alkali);
        Self {
            pot_fat: all_of(FatStage::Pot),
            held_fat: all_of(FatStage::AfterCook),
            pot_mixed: Mixed::of(&recipe.pot, &pot),
            pot,
            fat_whole: fat_parts.iter().copied().sum(),
            fat_parts,
            fats,
            mixed: mixtures
                .iter()
                .zip(&doses)
                .map(|(mixture, units)| Mixed::of(mixture.doses, units))
                .collect(),
            doses,
            liquids: recipe.lye.liquids.iter().map(|line| unit(&line.dose)).collect(),
            lye: units(&recipe.lye.doses),
            water_per_demand: water_per_demand(recipe.water, &split),
            split,
            discount,
            lye_temperature: recipe.temperatures.lye.exact(),
        }
    }
}

fn water_per_demand(water: Water, split: &AlkaliSplit) -> Exact {
    let pure = split.pure(Exact::ONE).total();
    let weighed = split.weighed(Exact::ONE);
    let brought = |alkali: Alkali| {
        let grade = split.grade(alkali);
        grade.map_or(Exact::ZERO, |grade| carbonate_and_water(weighed.of(alkali), grade).1)
    };
    let asked = match water {
        Water::LyeConcentration(share) => pure.portion(Exact::ONE - share.exact(), share.exact()),
        Water::WaterToAlkali(ratio) => pure * Exact::from(ratio),
        Water::ShareOfFat(_) => Exact::ZERO,
    };
    asked - brought(Alkali::SodiumHydroxide) - brought(Alkali::PotassiumHydroxide)
}

/// Everything in the pot together.
pub(crate) fn pot_tally(recipe: &Recipe, units: &Units, fats: &[Exact], doses: &[Exact]) -> Tally {
    let in_pot =
        recipe.fats.iter().zip(&units.fats).zip(fats).filter(|((line, _), _)| line.stage == FatStage::Pot);
    let fats = in_pot.fold(Tally::EMPTY, |tally, ((_, unit), mass)| tally.and(*mass, unit));
    units.pot.iter().zip(doses).fold(fats, |tally, (unit, mass)| tally.and(*mass, &unit.tally))
}
