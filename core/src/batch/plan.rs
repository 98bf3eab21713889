//! The plan: everything a batch needs, as figures.

use std::sync::Arc;

use serde::Serialize;

use crate::chemistry::{AlkaliSplit, Makeup, Stage, Tally};
use crate::material::Alkali;
use crate::quantity::{Density, Exact, Mass, Share, Volume};
use crate::recipe::{DoseBasis, Ingredient, Process, Purpose, Recipe, Scale, Temperatures};

use super::balance::Ideal;
use super::caution::{self, Caution};
use super::figures::{BatchFigures, LyeFigures, MouldLine, Sum};
use super::hold::{self, Hold};
use super::layer::{Height, heights};
use super::lye_order::{self, Dissolving, LyeStep};
use super::mixture::Mixture;
use super::order::{self, Step};
use super::pour::{PouredJug, Reading};
use super::weigh::{WeighItem, Weighed, Weighing};

/// A batch, planned. Every mass stands twice where it matters: at full precision and in whole scale steps; chemistry is
/// that of the weighed amounts unless a name says "ideal".
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Plan {
    /// Which document this is: `plan/1`.
    pub lamella: &'static str,
    /// What the maker calls it.
    pub name: String,
    /// What the maker says about it; may be empty.
    pub note: String,
    /// Who it is for.
    #[serde(rename = "for")]
    pub purpose: Purpose,
    /// Raw or cooked.
    pub process: Process,
    /// Scales of the workshop, the finest first; items point into this list.
    pub scales: Vec<ScaleLine>,
    /// Temperatures at mixing.
    pub temperatures: Temperatures,
    /// The moulds; heights of layers point into this list.
    pub moulds: Vec<MouldLine>,
    /// The pot of fats.
    pub pot: PotPlan,
    /// The lye.
    pub lye: LyePlan,
    /// The jugs, in the order of their first pour.
    pub jugs: Vec<JugPlan>,
    /// The layers, from the bottom.
    pub layers: Vec<LayerPlan>,
    /// What the batch is as a whole.
    pub batch: BatchFigures,
    /// What is worth the maker's attention.
    pub cautions: Vec<Caution>,
    /// Layers that are kept apart because they may hold free alkali. Nothing of them is used, labelled, sold or given away
    /// while they stand here.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub holds: Vec<Hold>,
    /// The order of work.
    pub steps: Vec<Step>,
    /// The recipe that it was made of. A reader that is handed another one has no answer.
    #[serde(skip)]
    pub(crate) recipe: Arc<Recipe>,
}

/// A scale of the workshop.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ScaleLine {
    /// What the maker calls it.
    pub name: String,
    /// Smallest difference it shows.
    pub step: Mass,
    /// Most it carries.
    pub capacity: Mass,
}

impl From<&Scale> for ScaleLine {
    fn from(scale: &Scale) -> Self {
        Self { name: scale.name.clone(), step: scale.step, capacity: scale.capacity }
    }
}

/// The pot in which the fats are melted together.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PotPlan {
    /// Its fats.
    pub fats: Vec<WeighItem>,
    /// What is stirred in before it is divided.
    pub doses: Vec<WeighItem>,
    /// All of it, weighed.
    pub total: Mass,
    /// What stays in it when the jugs have theirs.
    pub left: Mass,
}

/// The lye.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LyePlan {
    /// The alkalis.
    pub alkalis: Vec<WeighItem>,
    /// How pure each of them is reckoned to be.
    pub purities: Vec<Share>,
    /// Plain water.
    pub water: WeighItem,
    /// Liquids in place of water.
    pub liquids: Vec<WeighItem>,
    /// What is dissolved in it.
    pub doses: Vec<WeighItem>,
    /// All of it, weighed.
    pub total: Mass,
    /// What stays in its vessel.
    pub left: Mass,
    /// The order in which it is made; each item of it stands in one step.
    pub order: Vec<LyeStep>,
    /// What the alkali meets in that order.
    pub dissolving: Dissolving,
    /// What it is.
    pub figures: LyeFigures,
    /// What is in it, for computations.
    #[serde(skip)]
    pub tally: Tally,
}

/// A jug.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct JugPlan {
    /// What it is called; the name of its layer when it has none of its own.
    pub name: String,
    /// Its layers, in pour order.
    pub layers: Vec<usize>,
    /// Its own mass, where known.
    pub tare: Option<Mass>,
    /// What it gets from the pot.
    pub portion: Weighing,
    /// Fats that go in after the cook.
    pub held: Vec<WeighItem>,
    /// What goes in before the lye.
    pub doses: Vec<WeighItem>,
    /// What goes in after the lye: scents, and doses on what is in the jug.
    pub late_doses: Vec<WeighItem>,
    /// What it gets of the lye.
    pub lye: Weighing,
    /// Pure alkali dissolved in that lye.
    pub alkali: Mass,
    /// Water in that lye.
    pub lye_water: Mass,
    /// All that is in it.
    pub net: Mass,
    /// What the scale shows with it.
    pub gross: Mass,
    /// What stays in it after the last pour.
    pub left: Mass,
    /// Superfat at full precision.
    pub superfat_ideal: Share,
    /// Superfat of what is weighed.
    pub superfat: Share,
    /// Fat of every kind as a share of what is in it.
    pub fat_share: Share,
    /// Water as a share of that fat.
    pub water_of_fat: Share,
    /// Sugars as a share of that fat.
    pub sugars_of_fat: Share,
    /// Density of its batter.
    pub density: Density,
    /// What is in it, as poured.
    pub at_pour: Makeup,
    /// After the reaction.
    pub reacted: Makeup,
    /// Cured.
    pub cured: Makeup,
    /// What is in it, for computations.
    #[serde(skip)]
    pub tally: Tally,
}

/// A layer.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LayerPlan {
    /// What it is called.
    pub name: String,
    /// Index of its jug in the plan.
    pub jug: usize,
    /// What is poured.
    pub portion: Mass,
    /// What the scale shows before and after.
    pub reading: Reading,
    /// Volume of the portion.
    pub volume: Volume,
    /// Where it lies in each mould that it fits in.
    pub heights: Vec<Height>,
    /// How it looks, `#rrggbb`, for drawing.
    pub swatch: String,
}

impl Plan {
    /// What a layer is made of at a stage: its part of what is in its jug, closing on its portion exactly. Nothing when
    /// there is no such layer.
    #[must_use]
    pub fn makeup(&self, layer: usize, stage: Stage, cured_water: Share) -> Option<Makeup> {
        let layer = self.layers.get(layer)?;
        let jug = self.jugs.get(layer.jug)?;
        Makeup::of(&jug.tally.part(layer.portion.exact(), jug.net.exact()), stage, cured_water)
    }

    /// The plan as its `plan/1` document, ending in a newline.
    ///
    /// # Errors
    /// None that a plan can bring about; the signature is that of the writer.
    pub fn to_json(&self) -> Result<String, serde_json::Error> {
        crate::json::document(self)
    }
}

/// Puts the stages together; nothing when a figure passes what its quantity can hold.
pub(crate) fn assemble(
    recipe: &Recipe,
    mixtures: &[Mixture<'_>],
    ideal: &Ideal,
    weighed: Weighed,
    poured: Vec<PouredJug>,
) -> Option<Plan> {
    let mut mixed = Tally::EMPTY;
    let mut out = Tally::EMPTY;
    for (jug, pour) in weighed.jugs.iter().zip(&poured) {
        mixed = mixed.plus(&jug.tally);
        let portions: Mass = pour.portions.iter().copied().sum();
        out = out.and(portions.exact() / jug.net.exact(), &jug.tally);
    }
    let portions = poured.iter().flat_map(|pour| &pour.portions).copied().sum();
    let sum = Sum { ideal, weighed: &weighed, mixed, poured: out, portions };
    let batch = BatchFigures::of(recipe, &sum)?;
    let layers = layers(recipe, mixtures, &weighed, &poured)?;
    let (lye_order, dissolving) = lye_order::order(recipe, &weighed)?;
    let figures = LyeFigures::of(&weighed.lye_tally, batch.fat.exact())?;
    let pot_left = weighed.pot - weighed.jugs.iter().map(|jug| jug.portion.weighed).sum();
    let lye_left = weighed.lye - weighed.jugs.iter().map(|jug| jug.lye.weighed).sum();
    let lye_tally = weighed.lye_tally;
    let mut jugs = Vec::with_capacity(mixtures.len());
    for (((mixture, ideal_jug), jug), pour) in mixtures.iter().zip(&ideal.jugs).zip(weighed.jugs).zip(poured)
    {
        let tally = jug.tally;
        let fat = tally.fat();
        let lye = lye_tally.part(jug.lye.weighed.exact(), weighed.lye.exact());
        let [at_pour, reacted, cured] = Makeup::stages(&tally, recipe.cured_water)?;
        let (late_doses, doses) = late_and_early(mixture, jug.doses);
        jugs.push(JugPlan {
            name: mixture.name.to_owned(),
            layers: mixture.layers.clone(),
            tare: mixture.jug.and_then(|jug| jug.tare),
            portion: jug.portion,
            held: jug.held,
            doses,
            late_doses,
            lye: jug.lye,
            alkali: Mass::try_new(lye.alkali().total()).ok()?,
            lye_water: Mass::try_new(lye.water).ok()?,
            net: jug.net,
            gross: pour.gross,
            left: pour.left,
            superfat_ideal: Share::try_new(ideal_jug.outline.superfat()).ok()?,
            superfat: Share::try_new(tally.superfat()).ok()?,
            fat_share: Share::try_new(fat / jug.net.exact()).ok()?,
            water_of_fat: Share::try_new(tally.water / fat).ok()?,
            sugars_of_fat: Share::try_new(tally.sugars / fat).ok()?,
            density: Density::try_new(tally.mass() / tally.volume).ok()?,
            at_pour,
            reacted,
            cured,
            tally,
        });
    }
    let mut plan = Plan {
        lamella: "plan/1",
        name: recipe.name.clone(),
        note: recipe.note.clone(),
        purpose: recipe.purpose,
        process: recipe.process,
        scales: recipe.workshop.scales.iter().map(ScaleLine::from).collect(),
        temperatures: recipe.temperatures,
        moulds: recipe.moulds.iter().map(MouldLine::from).collect(),
        pot: PotPlan { fats: weighed.fats, doses: weighed.pot_doses, total: weighed.pot, left: pot_left },
        lye: LyePlan {
            purities: purities(recipe, &weighed.alkalis),
            alkalis: weighed.alkalis.into_iter().map(|(_, item)| item).collect(),
            water: weighed.water,
            liquids: weighed.liquids,
            doses: weighed.lye_doses,
            total: weighed.lye,
            left: lye_left,
            order: lye_order,
            dissolving,
            figures,
            tally: lye_tally,
        },
        jugs,
        layers,
        batch,
        cautions: Vec::new(),
        holds: Vec::new(),
        steps: Vec::new(),
        recipe: Arc::new(recipe.clone()),
    };
    plan.steps = order::order(recipe, &plan);
    plan.cautions = caution::cautions(recipe, mixtures, &plan);
    plan.holds = hold::lye_heavy(&plan);
    Some(plan)
}

fn purities(recipe: &Recipe, alkalis: &[(Alkali, WeighItem)]) -> Vec<Share> {
    let split = AlkaliSplit::of(&recipe.alkali);
    alkalis.iter().filter_map(|(alkali, _)| split.grade(*alkali)).map(|grade| grade.purity).collect()
}

fn layers(
    recipe: &Recipe,
    mixtures: &[Mixture<'_>],
    weighed: &Weighed,
    poured: &[PouredJug],
) -> Option<Vec<LayerPlan>> {
    let mut slots: Vec<Option<LayerPlan>> = vec![None; recipe.layers.len()];
    for (index, ((mixture, jug), pour)) in mixtures.iter().zip(&weighed.jugs).zip(poured).enumerate() {
        let lines = mixture.layers.iter().zip(&pour.portions).zip(&pour.readings);
        for ((layer, portion), reading) in lines {
            let volume = Volume::try_new(jug.tally.volume * portion.exact() / jug.net.exact()).ok()?;
            *slots.get_mut(*layer)? = Some(LayerPlan {
                name: recipe.layers.get(*layer)?.name.clone(),
                jug: index,
                portion: *portion,
                reading: *reading,
                volume,
                heights: Vec::new(),
                swatch: swatch(mixture),
            });
        }
    }
    let mut layers: Vec<LayerPlan> = slots.into_iter().collect::<Option<_>>()?;
    let volumes: Vec<Volume> = layers.iter().map(|layer| layer.volume).collect();
    for (layer, heights) in layers.iter_mut().zip(heights(recipe, &volumes)) {
        layer.heights = heights;
    }
    Some(layers)
}

/// Plain soap, for drawing.
const PLAIN: &str = "#efe6cf";

/// The colour that a mixture is drawn in: that of its largest colour.
fn swatch(mixture: &Mixture<'_>) -> String {
    let colours = mixture.doses.iter().filter_map(|dose| match &dose.ingredient {
        Ingredient::Colourant(colourant) => Some((strength(dose.amount), colourant.swatch.as_ref())),
        _ => None,
    });
    let strongest = colours.reduce(|a, b| if (b.0 - a.0).is_positive() { b } else { a });
    strongest.map_or(PLAIN, |(_, swatch)| swatch).to_owned()
}

fn strength(amount: crate::recipe::Amount) -> Exact {
    match amount {
        crate::recipe::Amount::Share(share, _) => share.exact(),
        crate::recipe::Amount::Mass(mass) => mass.exact(),
    }
}

/// Scents and doses on what is in the jug go in last; the rest goes in before the lye.
fn late_and_early(mixture: &Mixture<'_>, items: Vec<WeighItem>) -> (Vec<WeighItem>, Vec<WeighItem>) {
    let mut late = Vec::new();
    let mut early = Vec::new();
    for (dose, item) in mixture.doses.iter().zip(items) {
        let last = dose.is_late() || matches!(dose.ingredient, Ingredient::Fragrance(_));
        if last { late.push(item) } else { early.push(item) }
    }
    (late, early)
}

/// The word for a dose's basis on a sheet.
impl DoseBasis {
    /// The basis in words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::LayerFat => "layer fat",
            Self::Layer => "layer",
            Self::BatchFat => "batch fat",
            Self::Batch => "batch",
        }
    }
}
