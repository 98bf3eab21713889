//! What surrounds a batch as it sets, and the scenario that follows from recipe, plan and surroundings.
#![expect(clippy::float_arithmetic, reason = "lengths, times and temperatures of an approximate model")]

use super::batter::{self, Mixing};
use super::film::{Air, conductance, radiation};
use super::kinetics::Kinetics;
use super::materials::{Material, SAPONIFYING, Sheet};
use super::scenario::{AT_TRACE, Charge, Depth, Ends, Phase, Scenario, Section};
use super::{HeatError, Spread};
use crate::Plan;
use crate::batch::JugPlan;
use crate::problem::Problem;
use crate::quantity::{Exact, Length};
use crate::recipe::mould::{Cavity, Shape};
use crate::recipe::{Process, Recipe};

/// A sheet of something, with its thickness in metres.
pub type Layup = Vec<(Sheet, f64)>;

/// The surroundings from some time on.
#[derive(Clone, Debug, PartialEq)]
pub struct Surroundings {
    /// From when, seconds after the first pour.
    pub from: f64,
    /// Temperature of the air, °C: a room, a fridge, an oven.
    pub air: f64,
    /// What lies on top.
    pub cover: Layup,
    /// What is wrapped around walls and cover.
    pub around: Layup,
}

/// A pour, in the order of the layers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pour {
    /// When, seconds after the first.
    pub at: f64,
    /// Temperature of the batter, °C; nothing for what mixing makes of the recipe's temperatures.
    pub temperature: Option<f64>,
}

/// What a recipe does not say, and a forecast of heat needs.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting {
    /// Which mould of the recipe.
    pub mould: usize,
    /// Its side walls, from the soap outwards.
    pub walls: Layup,
    /// What lies under the soap; the table it stands on is reckoned with.
    pub base: Layup,
    /// Surroundings in the order of time, the first from 0.
    pub surroundings: Vec<Surroundings>,
    /// Pours; those that are missing follow a quarter of an hour after one another.
    pub pours: Vec<Pour>,
    /// How long to look ahead, seconds.
    pub until: f64,
    /// The reaction.
    pub kinetics: Kinetics,
    /// Heat of reaction per mole of ester, J.
    pub heat: f64,
    /// What resistances are multiplied by, when a fit has shown it.
    pub insulation: f64,
    /// How far all this may be off.
    pub spread: Spread,
}

/// A quarter of an hour from one pour to the next. Source: common practice.
pub const BETWEEN: f64 = 900.0;
/// Temperature at which cooked soap is filled, °C, unless stated. Source: common practice, 70 to 80.
const COOKED: f64 = 75.0;
/// How much more than the moulds hold may stand heaped on them before it counts as not fitting. Source: judgement.
const HEAP: f64 = 1.1;
/// Resistance of the table and what is below it, m² K/W. Source: from memory: 20 mm of wood, and the air on both sides.
const TABLE: f64 = 0.25;
/// By how much a surface stands over the air, for its film, K: wrapped or not, films change by a few per cent.
const OVER: f64 = 12.0;
/// A block this many times as long as it is wide or high has a middle that its ends do not reach in a day.
const LONG: f64 = 2.5;

/// A box of 12 mm wood with a liner of 1 mm silicone, its lid on, in a room of 21 °C, for two days. Source: common practice.
impl Default for Setting {
    fn default() -> Self {
        Self {
            mould: 0,
            walls: vec![(Sheet::Silicone, 0.001), (Sheet::Wood, 0.012)],
            base: vec![(Sheet::Silicone, 0.001), (Sheet::Wood, 0.012)],
            surroundings: vec![Surroundings {
                from: 0.0,
                air: 21.0,
                cover: vec![(Sheet::Wood, 0.012)],
                around: Vec::new(),
            }],
            pours: Vec::new(),
            until: 172_800.0,
            kinetics: Kinetics::default(),
            heat: SAPONIFYING,
            insulation: 1.0,
            spread: Spread::default(),
        }
    }
}

fn problem(code: &'static str, pointer: &str, message: impl Into<String>, advice: &str) -> Vec<Problem> {
    vec![Problem { code, pointer: pointer.to_owned(), message: message.into(), advice: advice.to_owned() }]
}

impl From<HeatError> for Problem {
    fn from(error: HeatError) -> Self {
        Self {
            code: error.code(),
            pointer: String::new(),
            message: error.to_string(),
            advice: "look for a figure that is far too large or too small".to_owned(),
        }
    }
}

fn sum(layup: &Layup) -> f64 {
    layup.iter().map(|(sheet, thickness)| sheet.resistance(*thickness)).sum()
}

fn metres(length: Length) -> f64 {
    length.exact().approximate() / 1000.0
}

impl Scenario {
    /// What a plan poured in a setting comes to.
    ///
    /// # Errors
    /// `plan.other-recipe` when the plan is not one of the recipe, `mould.missing` when the recipe has no such mould, `heat.pours` when there are more pours than layers,
    /// `plan.mould` when layers do not fit, and what [`check`](Self::check) finds.
    pub fn of(recipe: &Recipe, plan: &Plan, setting: &Setting) -> Result<Self, Vec<Problem>> {
        if !plan.is_of(recipe) {
            return Err(vec![plan.of_other()]);
        }
        let Some(mould) = recipe.moulds.get(setting.mould) else {
            let advice = "add \"moulds\" to the recipe: without one nobody knows how large the block is";
            return Err(problem(
                "mould.missing",
                "/moulds",
                "there is no mould to forecast a block in",
                advice,
            ));
        };
        if setting.pours.len() > plan.layers.len() {
            let message = format!("{} pours are given for {} layers", setting.pours.len(), plan.layers.len());
            return Err(problem("heat.pours", "/pours", message, "give one for each layer, or fewer"));
        }
        let mut layers = Vec::with_capacity(plan.layers.len());
        let mut time = 0.0;
        let mut top = 0.0_f64;
        let brim = metres(mould.shape().depth());
        let heap = is_heap(recipe, plan);
        for (index, layer) in plan.layers.iter().enumerate() {
            let height = layer.heights.iter().find(|height| height.mould == setting.mould);
            // What runs off has no place in the block.
            let height = height.filter(|height| heap || height.to < mould.shape().depth());
            let thickness = height.map_or(f64::INFINITY, |height| metres(height.thickness()));
            let Some(jug) = plan.jugs.get(layer.jug).filter(|_| thickness.is_finite()) else {
                let message = format!("the layer {:?} does not fit into the mould", layer.name);
                let pointer = format!("/layers/{index}");
                return Err(problem(
                    "plan.mould",
                    &pointer,
                    message,
                    "make the batch smaller or the mould deeper",
                ));
            };
            let pour = setting.pours.get(index);
            time = match pour {
                Some(pour) => pour.at,
                None if index == 0 => 0.0,
                None => time + BETWEEN,
            };
            top += thickness;
            // A layer thinner than a hair does nothing for heat.
            if thickness < 1e-5 {
                continue;
            }
            let cooked = recipe.process == Process::Hot;
            let temperature = pour.and_then(|pour| pour.temperature);
            layers.push(Charge {
                name: layer.name.clone(),
                thickness,
                at: time,
                temperature: temperature
                    .unwrap_or_else(|| if cooked { COOKED } else { mixed(recipe, plan, jug) }),
                conversion: if cooked { 1.0 } else { AT_TRACE },
                material: Material::of(&jug.tally, setting.heat),
                kinetics: setting.kinetics,
            });
        }
        if let Some(first) = layers.first_mut() {
            // Layers too thin to count may have been the first.
            first.at = if setting.pours.is_empty() { 0.0 } else { first.at };
        }
        let (section, length) = section(mould.shape(), top.min(brim));
        let phases = setting.surroundings.iter().map(|around| phase(setting, around, &section, length, top));
        let scenario = Self { section, layers, phases: phases.collect(), until: setting.until };
        scenario.check().and_then(|()| setting.spread.check()).map_err(|error| vec![error.into()])?;
        Ok(scenario)
    }
}

/// Whether what passes the brim is no more than a heap: what is weighed is often a little more than what fits.
fn is_heap(recipe: &Recipe, plan: &Plan) -> bool {
    let full = recipe.moulds.iter().map(|mould| mould.volume_to(mould.shape().depth()).exact());
    let poured = plan.layers.iter().map(|layer| layer.volume.exact());
    poured.sum::<Exact>().approximate() <= HEAP * full.sum::<Exact>().approximate()
}

/// The temperature of a jug's batter, °C: its lye at the recipe's temperature of lye, all else at that of the fats.
#[must_use]
pub fn mixed(recipe: &Recipe, plan: &Plan, jug: &JugPlan) -> f64 {
    let lye = plan.lye.tally.part(jug.lye.weighed.exact(), plan.lye.total.exact());
    let [fats, lye_at] =
        [recipe.temperatures.fats, recipe.temperatures.lye].map(|at| Exact::from(at.value()).approximate());
    let mixing = Mixing {
        tally: &jug.tally,
        lye: lye.mass().approximate(),
        lye_capacity: batter::capacity(&lye, lye_at),
        lye_at,
        rest_at: fats,
    };
    mixing.temperature()
}

/// The section that stands for a mould filled to `fill`, and its length: a rectangle or a cylinder of the same volume.
fn section(shape: &Shape, fill: f64) -> (Section, f64) {
    let fill_length = Length::try_new(Exact::from_approximate(fill * 1000.0, 9)).unwrap_or(Length::ZERO);
    let volume = shape.volume_to(fill_length).exact().approximate() * 1e-6;
    let area = volume / fill.max(1e-9);
    let straight = |area: f64, length: f64| {
        let width = area / length.max(1e-9);
        let ends = (length < LONG * width.max(fill)).then_some(Ends { length });
        (Section { depth: Depth::Straight, width, ends }, length)
    };
    let round = |area: f64| {
        let width = 2.0 * (area / std::f64::consts::PI).sqrt();
        (Section { depth: Depth::Round, width, ends: None }, width)
    };
    match *shape {
        Shape::Loaf { length, .. }
        | Shape::TaperedLoaf { length, .. }
        | Shape::Slab { length, .. }
        | Shape::LyingCylinder { length, .. } => straight(area, metres(length)),
        Shape::UprightCylinder { .. } => round(area),
        Shape::Tray { cavities, cavity } => {
            let each = area / f64::from(cavities.max(1));
            match cavity {
                Cavity::Box { length, .. } => straight(each, metres(length)),
                Cavity::Frustum { bottom_length, top_length, .. } => {
                    straight(each, (metres(bottom_length) + metres(top_length)) / 2.0)
                }
                Cavity::Cone { .. } | Cavity::Bowl { .. } => round(each),
            }
        }
    }
}

fn phase(setting: &Setting, around: &Surroundings, section: &Section, length: f64, height: f64) -> Phase {
    let surface = around.air + OVER;
    let air = Air::between(surface, around.air);
    let plan = section.width * length / (2.0 * (section.width + length));
    let glow = radiation(surface, around.air);
    let wrapped = sum(&around.around);
    let side = 1.0 / conductance(air.side(height.max(1e-3)) + glow, &[sum(&setting.walls), wrapped]);
    let top = 1.0 / conductance(air.top(plan) + glow, &[sum(&around.cover), wrapped]);
    let base = TABLE + sum(&setting.base);
    Phase {
        from: around.from,
        air: around.air,
        base: base * setting.insulation,
        side: side * setting.insulation,
        top: top * setting.insulation,
        end: side * setting.insulation,
    }
}
