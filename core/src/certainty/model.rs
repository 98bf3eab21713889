//! What a superfat depends on: every uncertain figure of a plan, and how it enters.

use serde::{Serialize, Serializer};

use super::range::{self, Range};
use crate::batch::{Mixture, Plan, WeighItem, mixtures};
use crate::chemistry::demand_of;
use crate::material::atoms::molar;
use crate::material::{Additive, Alkali, Fat, library};
use crate::quantity::{Exact, Mass};
use crate::recipe::{AlkaliChoice, AlkaliGrade, Dose, FatStage, Ingredient, Recipe};

/// What kind of figure is uncertain.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum InputKind {
    /// Saponification value of a fat: one bottle has one, wherever it goes.
    SaponificationValue,
    /// Purity of an alkali: one tub has one.
    Purity,
    /// What an additive is made of: one jar has one composition.
    Composition,
    /// What a scale shows, rounded to its step.
    Weighing,
    /// What stays behind of a batch that is poured over in one go.
    Residue,
}

/// An uncertain figure: it may be anything from its lower to its upper end.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Input {
    /// What kind of figure.
    pub kind: InputKind,
    /// Of what, in words: "saponification value of Olive oil".
    pub name: String,
    /// Lower end, in `unit`.
    #[serde(serialize_with = "number")]
    pub low: Exact,
    /// Upper end, in `unit`.
    #[serde(serialize_with = "number")]
    pub high: Exact,
    /// Unit of both; empty for a share as a fraction.
    pub unit: &'static str,
    /// Readings of the scale in it: two for what is the difference of two, else one.
    pub readings: u8,
    /// What the range rests on.
    pub basis: &'static str,
}

fn number<S: Serializer>(value: &Exact, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_str(&value.published().unwrap_or_default())
}

impl Input {
    /// The middle of the range.
    #[must_use]
    pub fn middle(&self) -> Exact {
        (self.low + self.high) / Exact::from(2)
    }
}

/// Index of an input.
pub(crate) type Var = usize;

/// What a gram of an ingredient does, in terms of inputs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Rate {
    /// Its fat: share of it (all of it when nothing), and its saponification value.
    pub(crate) fat: Option<(Option<Var>, Var)>,
    /// Its acid: share of it, and grams of KOH to a gram of acid.
    pub(crate) acid: Option<(Var, Exact)>,
    /// Its alkali: purity, and grams of KOH to a gram of pure alkali.
    pub(crate) alkali: Option<(Var, Exact)>,
}

/// So much of something: the input that is its mass, and what a gram of it does.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Part {
    pub(crate) mass: Var,
    pub(crate) rate: Rate,
}

/// How a jug gets its share of a vessel.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Intake {
    /// It is weighed out.
    Weighed(Var),
    /// All of it but the part that sticks.
    AllBut(Var),
}

/// A jug.
#[derive(Clone, Debug)]
pub(crate) struct JugModel {
    pub(crate) pot: Option<Intake>,
    pub(crate) lye: Option<Intake>,
    pub(crate) parts: Vec<Part>,
}

/// The uncertain figures of a plan, and how the superfat of each jug follows from them.
///
/// Superfat is 1 - N/D, where D is the demand of all the fat and N the alkali less what acids take. For each input by
/// itself both are straight lines over a common denominator, so that the superfat rises or falls over the whole range
/// of that input: its ends lie at ends of ranges.
#[derive(Clone, Debug)]
pub struct Model {
    pub(crate) inputs: Vec<Input>,
    pub(crate) pot: Vec<Part>,
    pub(crate) lye: Vec<Part>,
    pub(crate) jugs: Vec<JugModel>,
}

impl Model {
    /// The model of a plan of a recipe. Nothing when the plan is not one of this recipe.
    #[must_use]
    pub fn of(recipe: &Recipe, plan: &Plan) -> Option<Self> {
        plan.is_of(recipe).then_some(())?;
        let mixtures = mixtures(recipe);
        let mut builder = Builder {
            plan,
            inputs: Vec::with_capacity(48),
            fats: Vec::new(),
            jars: Vec::new(),
            tubs: Vec::new(),
        };
        builder.build(recipe, &mixtures)
    }

    /// The uncertain figures.
    #[must_use]
    pub fn inputs(&self) -> &[Input] {
        &self.inputs
    }

    /// The superfat of a jug, or of all jugs together when `jug` is nothing, with these values of the inputs in their
    /// order. Poisoned when there is no fat, or values are missing.
    #[must_use]
    pub fn superfat(&self, jug: Option<usize>, values: &[Exact]) -> Exact {
        let (mut net, mut demand) = (Exact::ZERO, Exact::ZERO);
        let value = |var: Var| values.get(var).copied().unwrap_or(Exact::POISONED);
        let rate = |rate: &Rate| {
            let fat = rate.fat.map_or(Exact::ZERO, |(share, sv)| {
                share.map_or(Exact::ONE, value) * value(sv) / Exact::THOUSAND
            });
            let acid = rate.acid.map_or(Exact::ZERO, |(share, koh)| value(share) * koh);
            let alkali = rate.alkali.map_or(Exact::ZERO, |(purity, koh)| value(purity) * koh);
            (alkali - acid, fat)
        };
        let sum = |parts: &[Part]| {
            parts.iter().fold((Exact::ZERO, Exact::ZERO, Exact::ZERO), |(n, d, m), part| {
                let (mass, (net, demand)) = (value(part.mass), rate(&part.rate));
                (n + mass * net, d + mass * demand, m + mass)
            })
        };
        let (pot, lye) = (sum(&self.pot), sum(&self.lye));
        for (index, model) in self.jugs.iter().enumerate() {
            if jug.is_some_and(|jug| jug != index) {
                continue;
            }
            for ((n, d, mass), share) in [(pot, model.pot), (lye, model.lye)] {
                let factor = match share {
                    None => continue,
                    Some(Intake::Weighed(var)) => value(var) / mass,
                    Some(Intake::AllBut(var)) => Exact::ONE - value(var),
                };
                (net, demand) = (net + n * factor, demand + d * factor);
            }
            let (n, d, _) = sum(&model.parts);
            (net, demand) = (net + n, demand + d);
        }
        Exact::ONE - net / demand
    }
}

struct Builder<'p> {
    plan: &'p Plan,
    inputs: Vec<Input>,
    /// Fats met, with the input of their saponification value.
    fats: Vec<(&'p Fat, Var)>,
    /// Additives met, with what a gram of them does.
    jars: Vec<(&'p Additive, Rate)>,
    /// Alkalis met, with what a gram of them does.
    tubs: Vec<(Alkali, AlkaliGrade, Rate)>,
}

impl<'p> Builder<'p> {
    fn build(&mut self, recipe: &'p Recipe, mixtures: &[Mixture<'p>]) -> Option<Model> {
        let plan = self.plan;
        let in_pot = recipe.fats.iter().filter(|line| line.stage == FatStage::Pot);
        let mut pot = Vec::with_capacity(plan.pot.fats.len().saturating_add(plan.pot.doses.len()));
        for (line, item) in in_pot.zip(&plan.pot.fats) {
            let rate = self.fat(&line.fat);
            pot.extend(self.weighed(item, rate));
        }
        for (dose, item) in recipe.pot.iter().zip(&plan.pot.doses) {
            let rate = self.dose(dose);
            pot.extend(self.weighed(item, rate));
        }
        let mut lye = Vec::new();
        for item in &plan.lye.alkalis {
            let rate = self.alkali(&recipe.alkali, &item.id);
            lye.extend(self.weighed(item, rate));
        }
        lye.extend(self.weighed(&plan.lye.water, Rate::default()));
        for (line, item) in recipe.lye.liquids.iter().zip(&plan.lye.liquids) {
            let rate = self.dose(&line.dose);
            lye.extend(self.weighed(item, rate));
        }
        for (dose, item) in recipe.lye.doses.iter().zip(&plan.lye.doses) {
            let rate = self.dose(dose);
            lye.extend(self.weighed(item, rate));
        }
        let sole = mixtures.len() == 1;
        let mut jugs = Vec::with_capacity(mixtures.len());
        for (mixture, jug) in mixtures.iter().zip(&plan.jugs) {
            let (pot_share, lye_share) = if sole {
                (
                    self.all_but("fats", plan.pot.total, jug.portion.weighed, recipe.workshop.pot_residue),
                    self.all_but("lye", plan.lye.total, jug.lye.weighed, recipe.workshop.lye_residue),
                )
            } else {
                let portion = (jug.portion.weighed, jug.portion.scale);
                (
                    self.divided("fats", &jug.name, portion.0, portion.1),
                    self.divided("lye", &jug.name, jug.lye.weighed, jug.lye.scale),
                )
            };
            let mut parts = Vec::with_capacity(mixture.doses.len());
            let held = recipe.fats.iter().filter(|line| line.stage == FatStage::AfterCook);
            for (line, item) in held.zip(&jug.held) {
                let rate = self.fat(&line.fat);
                parts.extend(self.weighed(item, rate));
            }
            let (mut early, mut late) = (jug.doses.iter(), jug.late_doses.iter());
            for dose in mixture.doses {
                let last = dose.is_late() || matches!(dose.ingredient, Ingredient::Fragrance(_));
                let item = if last { late.next() } else { early.next() }?;
                let rate = self.dose(dose);
                if rate != Rate::default() {
                    parts.extend(self.weighed(item, rate));
                }
            }
            jugs.push(JugModel { pot: pot_share, lye: lye_share, parts });
        }
        Some(Model { inputs: std::mem::take(&mut self.inputs), pot, lye, jugs })
    }

    fn input(
        &mut self,
        kind: InputKind,
        name: String,
        range: Range,
        unit: &'static str,
        readings: u8,
    ) -> Var {
        let Range { low, high, basis } = range;
        self.inputs.push(Input { kind, name, low, high, unit, readings, basis });
        self.inputs.len().saturating_sub(1)
    }

    fn step(&self, scale: usize) -> Exact {
        self.plan.scales.get(scale).map_or(Exact::ZERO, |scale| scale.step.exact())
    }

    /// A weighing of an item: half a step either way; nothing when none of it is weighed.
    fn weighed(&mut self, item: &WeighItem, rate: Rate) -> Option<Part> {
        let mass = self.reading(item.name.to_string(), item.weighed, item.scale, 1)?;
        Some(Part { mass, rate })
    }

    fn reading(&mut self, name: String, weighed: Mass, scale: usize, readings: u8) -> Option<Var> {
        if weighed.is_zero() {
            return None;
        }
        let half = self.step(scale) * Exact::from(i64::from(readings)) / Exact::from(2);
        let basis = if readings == 1 {
            "scale step: half a step either way"
        } else {
            "scale step: half a step either way at each of two readings"
        };
        let range =
            Range { low: (weighed.exact() - half).max(Exact::ZERO), high: weighed.exact() + half, basis };
        Some(self.input(InputKind::Weighing, name, range, "g", readings))
    }

    /// What is weighed into a jug: the difference of two readings of the scale.
    fn divided(&mut self, what: &str, jug: &str, weighed: Mass, scale: usize) -> Option<Intake> {
        self.reading(format!("{what} into {jug}"), weighed, scale, 2).map(Intake::Weighed)
    }

    /// A batch of one jug is not divided: it gets everything but what sticks to the vessel, of which anything from none
    /// to twice what is stated may stay. What is below a scale step is poured over with the rest.
    fn all_but(&mut self, what: &str, whole: Mass, taken: Mass, residue: Mass) -> Option<Intake> {
        if taken.is_zero() {
            return None;
        }
        let most = (residue.exact() + residue.exact()).max((whole - taken).exact());
        let range = Range {
            low: Exact::ZERO,
            high: (most / whole.exact()).min(Exact::ONE),
            basis: "from none to twice what the recipe says",
        };
        let name = format!("{what} that stay behind, as a part of them");
        Some(Intake::AllBut(self.input(InputKind::Residue, name, range, "", 1)))
    }

    fn saponification_value(&mut self, name: &str, range: Range) -> Var {
        let name = format!("saponification value of {name}");
        self.input(InputKind::SaponificationValue, name, range, "mg KOH/g", 1)
    }

    fn fat(&mut self, fat: &'p Fat) -> Rate {
        let same =
            |known: &&Fat| known.id == fat.id && known.saponification_value == fat.saponification_value;
        let known = self.fats.iter().find(|(known, _)| same(known)).map(|(_, var)| *var);
        let var = known.unwrap_or_else(|| {
            let range = range::saponification_value(&fat.saponification_value, range::is_certified(fat));
            let var = self.saponification_value(&fat.name, range);
            self.fats.push((fat, var));
            var
        });
        Rate { fat: Some((None, var)), ..Rate::default() }
    }

    fn dose(&mut self, dose: &'p Dose) -> Rate {
        match &dose.ingredient {
            Ingredient::Fat(fat) => self.fat(fat),
            Ingredient::Additive(additive) => self.additive(dose, additive),
            Ingredient::Colourant(_) | Ingredient::Fragrance(_) => Rate::default(),
            Ingredient::Alkali(alkali, grade) => self.tub(*alkali, *grade),
        }
    }

    fn additive(&mut self, dose: &Dose, additive: &'p Additive) -> Rate {
        if let Some((_, rate)) = self.jars.iter().find(|(known, _)| *known == additive) {
            return *rate;
        }
        let mut rate = Rate::default();
        let demand = demand_of(&dose.ingredient);
        let composition = &additive.composition;
        if let (true, Some(sv)) = (demand.fat.is_positive(), range::own_fat(additive)) {
            let content = range::content(additive, composition.fat, "fat", dose.own);
            let name = format!("fat in {}", additive.name);
            let share = self.input(InputKind::Composition, name, content, "", 1);
            let sv = self.saponification_value(&format!("the fat in {}", additive.name), sv);
            rate.fat = Some((Some(share), sv));
        }
        let acid = additive.acid.as_deref().and_then(library::acid);
        if let (true, Some(acid)) = (demand.acid.is_positive(), acid) {
            let content = range::content(additive, composition.acid, "acid", dose.own);
            let name = format!("acid in {}", additive.name);
            let share = self.input(InputKind::Composition, name, content, "", 1);
            rate.acid = Some((share, acid.koh_per_gram()));
        }
        self.jars.push((additive, rate));
        rate
    }

    fn alkali(&mut self, choice: &AlkaliChoice, id: &str) -> Rate {
        let alkali = Alkali::ALL.into_iter().find(|alkali| alkali.id() == id);
        let split = crate::chemistry::AlkaliSplit::of(choice);
        let Some((alkali, grade)) = alkali.and_then(|alkali| Some((alkali, split.grade(alkali)?))) else {
            return Rate::default();
        };
        self.tub(alkali, grade)
    }

    fn tub(&mut self, alkali: Alkali, grade: AlkaliGrade) -> Rate {
        let same = |known: &&(Alkali, AlkaliGrade, Rate)| known.0 == alkali && known.1 == grade;
        if let Some((_, _, rate)) = self.tubs.iter().find(same) {
            return *rate;
        }
        let name = format!("purity of {}", alkali.name());
        let purity = self.input(InputKind::Purity, name, range::purity(alkali, grade), "", 1);
        let rate = Rate { alkali: Some((purity, molar::KOH / alkali.molar_mass())), ..Rate::default() };
        self.tubs.push((alkali, grade, rate));
        rate
    }
}
