//! From the fat of a batch to everything in it.

use super::matter::{self, Matter, lye_density};
use super::{RBig, exact};
use lamella::material::Alkali;
use lamella::material::atoms::molar;
use lamella::quantity::Share;
use lamella::recipe::{
    AdditiveWater, AlkaliChoice, AlkaliGrade, Amount, Dose, DoseBasis, FatAmount, FatStage, Recipe,
    ShareReading, Superfat, Treatment, Water,
};

/// A recipe with what its grams bring.
#[derive(Debug)]
pub struct Batch<'r> {
    pub(super) recipe: &'r Recipe,
    /// For each jug, in the order of the first pour: its layers.
    pub jugs: Vec<Vec<usize>>,
    /// Share of the demand that is to stay unmet.
    pub unmet: RBig,
}

/// Ideal amounts, g.
#[derive(Clone, Debug)]
pub struct Ideal {
    /// All the fat lines.
    pub fat: RBig,
    /// Each of them.
    pub fats: Vec<RBig>,
    /// Doses of the pot.
    pub pot_doses: Vec<RBig>,
    /// Alkalis as weighed.
    pub alkalis: Vec<(Alkali, RBig)>,
    /// Plain water.
    pub water: RBig,
    /// Liquids in its place.
    pub liquids: Vec<RBig>,
    /// Doses of the lye.
    pub lye_doses: Vec<RBig>,
    /// All of the lye.
    pub lye: RBig,
    /// The jugs.
    pub jugs: Vec<IdealJug>,
    /// Whether the size was met by a fraction, and not to so many decimals only.
    pub exact: bool,
}

/// Ideal amounts of a jug, g.
#[derive(Clone, Debug)]
pub struct IdealJug {
    /// Fat of the fat lines in it.
    pub fat: RBig,
    /// From the pot.
    pub portion: RBig,
    /// Fats held back, one for each such line.
    pub held: Vec<RBig>,
    /// Its doses.
    pub doses: Vec<RBig>,
    /// Of the lye.
    pub lye: RBig,
    /// Alkali it needs, in grams of KOH.
    pub need: RBig,
    /// All that is in it.
    pub contents: Matter,
}

fn sum<'a>(values: impl IntoIterator<Item = &'a RBig>) -> RBig {
    values.into_iter().fold(RBig::ZERO, |sum, value| sum + value)
}

fn share(share: Share) -> RBig {
    exact(share.exact())
}

/// A dose that is reckoned on a fat, or is a mass.
fn early(dose: &Dose, layer_fat: &RBig, batch_fat: &RBig) -> RBig {
    match dose.amount {
        Amount::Mass(mass) => exact(mass.exact()),
        Amount::Share(part, DoseBasis::LayerFat) => share(part) * layer_fat,
        Amount::Share(part, DoseBasis::BatchFat) => share(part) * batch_fat,
        _ => RBig::ZERO,
    }
}

impl<'r> Batch<'r> {
    /// Of a recipe.
    #[must_use]
    pub fn of(recipe: &'r Recipe) -> Self {
        let mut jugs: Vec<(Option<usize>, Vec<usize>)> = Vec::new();
        for (index, layer) in recipe.layers.iter().enumerate() {
            match jugs.iter_mut().find(|(jug, _)| jug.is_some() && *jug == layer.jug) {
                Some((_, layers)) => layers.push(index),
                None => jugs.push((layer.jug, vec![index])),
            }
        }
        let unmet = match recipe.superfat {
            Superfat::OfDemand(part) => share(part),
            // Alkali is the demand over one and the excess.
            Superfat::FatExcess(excess) => RBig::ONE - RBig::ONE / (RBig::ONE + share(excess)),
            _ => unreachable!("a superfat that this oracle does not know"),
        };
        Self { recipe, jugs: jugs.into_iter().map(|(_, layers)| layers).collect(), unmet }
    }

    /// What goes into a jug.
    #[must_use]
    pub fn doses(&self, jug: usize) -> &'r [Dose] {
        let layer = &self.recipe.layers[self.jugs[jug][0]];
        let of_jug = layer.jug.map_or(&[][..], |jug| &self.recipe.jugs[jug].doses);
        if of_jug.is_empty() { &layer.doses } else { of_jug }
    }

    /// What stays on the walls of a jug.
    #[must_use]
    pub fn residue(&self, jug: usize) -> RBig {
        let named = self.recipe.layers[self.jugs[jug][0]].jug.map(|jug| &self.recipe.jugs[jug]);
        let residue = named.and_then(|jug| jug.residue).unwrap_or(self.recipe.workshop.jug_residue);
        exact(residue.exact())
    }

    fn gram(&self, dose: &Dose) -> Matter {
        matter::of(&dose.ingredient, self.recipe)
    }

    /// Alkali that the lye adds for a gram of a dose, in grams of KOH.
    fn need(&self, dose: &Dose) -> RBig {
        let gram = self.gram(dose);
        match dose.treatment {
            Treatment::Absorb => RBig::ZERO,
            _ => gram.demand * (RBig::ONE - &self.unmet) + gram.acid,
        }
    }

    /// Everything, when all the fat is `fat` grams that go to the jugs in proportion to `weights`.
    #[must_use]
    pub fn at(&self, fat: &RBig, weights: &[RBig]) -> Ideal {
        let recipe = self.recipe;
        let parts: Vec<RBig> = recipe
            .fats
            .iter()
            .map(|line| match line.amount {
                FatAmount::Share(part) => share(part),
                FatAmount::Mass(mass) => exact(mass.exact()),
                _ => unreachable!("an amount that this oracle does not know"),
            })
            .collect();
        let all = sum(&parts);
        let fats: Vec<RBig> = parts.iter().map(|part| fat * part / &all).collect();
        let pot_doses: Vec<RBig> = recipe.pot.iter().map(|dose| early(dose, fat, fat)).collect();

        let pot_fats = || recipe.fats.iter().zip(&fats).filter(|(line, _)| line.stage == FatStage::Pot);
        let mut pot = Matter::NONE;
        // What the pot needs, fats with the superfat left out and doses as each is treated.
        let mut pot_need = RBig::ZERO;
        for (line, mass) in pot_fats() {
            let grams = matter::of_fat(&line.fat, recipe).times(mass);
            pot_need += &grams.demand * (RBig::ONE - &self.unmet);
            pot = pot.and(&grams);
        }
        for (dose, mass) in recipe.pot.iter().zip(&pot_doses) {
            pot_need += self.need(dose) * mass;
            pot = pot.and(&self.gram(dose).times(mass));
        }
        let usable = &pot.mass - exact(recipe.workshop.pot_residue.exact());
        let whole = sum(weights);

        let mut jugs = Vec::new();
        for (index, weight) in weights.iter().enumerate() {
            let portion = weight * &usable / &whole;
            // The jug's part of everything that went into the pot, and of what is held back.
            let part = &portion / &pot.mass;
            let jug_fat = fat * &part;
            let mut contents = pot.times(&part);
            let mut need = &pot_need * &part;
            let mut held = Vec::new();
            for (line, mass) in recipe.fats.iter().zip(&fats) {
                if line.stage == FatStage::AfterCook {
                    let mass = mass * &part;
                    contents = contents.and(&matter::of_fat(&line.fat, recipe).times(&mass));
                    held.push(mass);
                }
            }
            let doses: Vec<RBig> = self.doses(index).iter().map(|dose| early(dose, &jug_fat, fat)).collect();
            for (dose, mass) in self.doses(index).iter().zip(&doses) {
                need += self.need(dose) * mass;
                contents = contents.and(&self.gram(dose).times(mass));
            }
            jugs.push(IdealJug { fat: jug_fat, portion, held, doses, lye: RBig::ZERO, need, contents });
        }
        let mut ideal = Ideal {
            fat: fat.clone(),
            fats,
            pot_doses,
            alkalis: Vec::new(),
            water: RBig::ZERO,
            liquids: Vec::new(),
            lye_doses: recipe.lye.doses.iter().map(|dose| early(dose, fat, fat)).collect(),
            lye: RBig::ZERO,
            jugs,
            exact: true,
        };
        let lye = self.lye(&mut ideal);
        let needs = sum(ideal.jugs.iter().map(|jug| &jug.need));
        let residue = exact(recipe.workshop.lye_residue.exact());
        for jug in &mut ideal.jugs {
            jug.lye = (&ideal.lye - &residue) * &jug.need / &needs;
            jug.contents = jug.contents.and(&lye.times(&(&jug.lye / &ideal.lye)));
        }
        self.late(&mut ideal);
        ideal
    }

    /// Doses on what is in a jug, or in all of them, reckoned on what is there before the first of them.
    fn late(&self, ideal: &mut Ideal) {
        let batch = sum(ideal.jugs.iter().map(|jug| &jug.contents.mass));
        for (index, jug) in ideal.jugs.iter_mut().enumerate() {
            let before = jug.contents.mass.clone();
            for (dose, mass) in self.doses(index).iter().zip(&mut jug.doses) {
                let of = match dose.amount {
                    Amount::Share(part, DoseBasis::Layer) => share(part) * &before,
                    Amount::Share(part, DoseBasis::Batch) => share(part) * &batch,
                    _ => continue,
                };
                jug.contents = jug.contents.and(&self.gram(dose).times(&of));
                *mass = of;
            }
        }
    }

    /// Alkalis with their grades, and the grams of each that meet a gram of demand (as KOH), as weighed.
    fn alkalis(&self) -> Vec<(Alkali, AlkaliGrade, RBig)> {
        let weighed = |alkali: Alkali, grade: AlkaliGrade, moles: RBig| {
            let mass = moles * exact(alkali.molar_mass()) / exact(molar::KOH) / share(grade.purity);
            (alkali, grade, mass)
        };
        match self.recipe.alkali {
            AlkaliChoice::Sodium(grade) => vec![weighed(Alkali::SodiumHydroxide, grade, RBig::ONE)],
            AlkaliChoice::Potassium(grade) => vec![weighed(Alkali::PotassiumHydroxide, grade, RBig::ONE)],
            AlkaliChoice::Dual { sodium, potassium, share: part, reading } => {
                let part = share(part);
                // A hundred grams of both, as they are stated, hold these moles.
                let of = |mass: &RBig, alkali: Alkali, purity: Share| match reading {
                    ShareReading::Moles => mass.clone(),
                    ShareReading::PureMass => mass / exact(alkali.molar_mass()),
                    _ => mass * share(purity) / exact(alkali.molar_mass()),
                };
                let k = of(&part, Alkali::PotassiumHydroxide, potassium.purity);
                let na = of(&(RBig::ONE - &part), Alkali::SodiumHydroxide, sodium.purity);
                let k = &k / (&k + na);
                vec![
                    weighed(Alkali::SodiumHydroxide, sodium, RBig::ONE - &k),
                    weighed(Alkali::PotassiumHydroxide, potassium, k),
                ]
            }
            _ => unreachable!("an alkali that this oracle does not know"),
        }
    }

    /// The lye: fills in the amounts, and gives what all of it brings.
    fn lye(&self, ideal: &mut Ideal) -> Matter {
        let recipe = self.recipe;
        let alkalis = self.alkalis();
        let pure =
            sum(&alkalis.iter().map(|(_, grade, mass)| mass * share(grade.purity)).collect::<Vec<_>>());
        let own_water = |grade: &AlkaliGrade| RBig::ONE - share(grade.purity) - share(grade.carbonate);
        let dose_water: RBig = recipe
            .lye
            .doses
            .iter()
            .zip(&ideal.lye_doses)
            .fold(RBig::ZERO, |sum, (dose, mass)| sum + self.gram(dose).water * mass);
        // Before the lye all the water of the jugs is that of additives.
        let additives = match recipe.additive_water {
            AdditiveWater::Counts => sum(ideal.jugs.iter().map(|jug| &jug.contents.water)),
            _ => RBig::ZERO,
        };
        // Water that is still to be filled in when the alkali meets `demand`.
        let fill = |demand: &RBig| {
            let alkali = &pure * demand;
            let water = match recipe.water {
                Water::LyeConcentration(part) => &alkali / share(part) - &alkali,
                Water::WaterToAlkali(ratio) => &alkali * exact(ratio),
                Water::ShareOfFat(part) => &ideal.fat * share(part),
                _ => unreachable!("a water rule that this oracle does not know"),
            };
            let brought = alkalis
                .iter()
                .fold(RBig::ZERO, |sum, (_, grade, mass)| sum + mass * own_water(grade) * demand);
            water - brought - &dose_water - &additives
        };
        let liquids = |fill: &RBig| -> Vec<RBig> {
            let lines = recipe.lye.liquids.iter();
            lines.map(|line| fill * share(line.share) / self.gram(&line.dose).water).collect()
        };
        // Demand that a demand leads to, by the liquids that are balanced: a straight line, so two points tell it.
        let fixed = sum(ideal.jugs.iter().map(|jug| &jug.need))
            + recipe
                .lye
                .doses
                .iter()
                .zip(&ideal.lye_doses)
                .fold(RBig::ZERO, |sum, (dose, mass)| sum + self.need(dose) * mass);
        let leads_to = |demand: &RBig| {
            let masses = liquids(&fill(demand));
            let lines = recipe.lye.liquids.iter().zip(&masses);
            lines.fold(fixed.clone(), |sum, (line, mass)| sum + self.need(&line.dose) * mass)
        };
        let (at_nought, at_one) = (leads_to(&RBig::ZERO), leads_to(&RBig::ONE));
        let demand = &at_nought / (RBig::ONE - (&at_one - &at_nought));

        let filled = fill(&demand);
        let plain =
            RBig::ONE - recipe.lye.liquids.iter().fold(RBig::ZERO, |sum, line| sum + share(line.share));
        ideal.alkalis = alkalis.iter().map(|(alkali, _, mass)| (*alkali, mass * &demand)).collect();
        ideal.water = &filled * plain;
        ideal.liquids = liquids(&filled);
        let total = sum(ideal.alkalis.iter().map(|(_, mass)| mass))
            + &ideal.water
            + sum(&ideal.liquids)
            + sum(&ideal.lye_doses);
        // So much more of all that what sticks to the vessel is not missed.
        let more = (&total + exact(recipe.workshop.lye_residue.exact())) / &total;
        let parts = ideal.alkalis.iter_mut().map(|(_, mass)| mass);
        for mass in parts.chain([&mut ideal.water]).chain(&mut ideal.liquids).chain(&mut ideal.lye_doses) {
            *mass = &*mass * &more;
        }
        ideal.lye = total * more;
        self.of_lye(ideal, &alkalis)
    }

    fn of_lye(&self, ideal: &Ideal, alkalis: &[(Alkali, AlkaliGrade, RBig)]) -> Matter {
        let mut lye = Matter { mass: ideal.water.clone(), water: ideal.water.clone(), ..Matter::NONE };
        let mut pure = [RBig::ZERO, RBig::ZERO];
        for ((alkali, mass), (_, grade, _)) in ideal.alkalis.iter().zip(alkalis) {
            let strong = mass * share(grade.purity);
            lye.mass += mass;
            lye.alkali += &strong * exact(molar::KOH) / exact(alkali.molar_mass());
            lye.water += mass * (RBig::ONE - share(grade.purity) - share(grade.carbonate));
            pure[usize::from(*alkali == Alkali::PotassiumHydroxide)] = strong;
        }
        let [sodium, potassium] = pure;
        let celsius = exact(self.recipe.temperatures.lye.exact());
        lye.volume = &lye.mass / lye_density(&(sodium / &lye.mass), &(potassium / &lye.mass), &celsius);
        for (line, mass) in self.recipe.lye.liquids.iter().zip(&ideal.liquids) {
            lye = lye.and(&self.gram(&line.dose).times(mass));
        }
        for (dose, mass) in self.recipe.lye.doses.iter().zip(&ideal.lye_doses) {
            lye = lye.and(&self.gram(dose).times(mass));
        }
        lye
    }
}
