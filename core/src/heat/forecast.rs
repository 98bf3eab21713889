//! The forecast of a plan: its lye, its batter, its block, and what deserves a second look.
#![expect(clippy::float_arithmetic, reason = "reads an approximate model")]

use serde::Serialize;

use super::batter::setting_point;
use super::dissolve::{Dissolving, cooling_time, jug_constant};
use super::grid::Grid;
use super::readings::{Forecast, Interval, When, celsius, duration, forecast_scenario};
use super::scenario::Scenario;
use super::setting::{Setting, mixed};
use crate::Plan;
use crate::batch::Caution;
use crate::material::BasisKind;
use crate::problem::Problem;
use crate::quantity::{Exact, Temperature, fixed, told_apart};
use crate::recipe::{AlkaliChoice, AlkaliGrade, Recipe};

/// What the lye does.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LyeForecast {
    /// Temperature when the alkali is dissolved, all having been as warm as the air, nothing lost.
    pub dissolved: Temperature,
    /// The same with all the water as ice at 0 °C.
    pub dissolved_in_ice: Temperature,
    /// Temperature at which it boils.
    pub boils_at: Temperature,
    /// How long it takes to fall to the recipe's temperature in air; nothing when it never does, or stands below.
    pub cools_in_air: Option<When>,
    /// The same with its jug in a bath of water as warm as the air.
    pub cools_in_bath: Option<When>,
}

/// All that is forecast of a plan.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct HeatForecast {
    /// Its lye.
    pub lye: LyeForecast,
    /// Temperature of the batter of each jug as it is mixed, in the order of the plan.
    pub batter: Vec<Temperature>,
    /// About where its fats begin to set, where their profiles are known.
    pub fats_set_at: Option<Temperature>,
    /// Its block.
    pub block: Forecast,
    /// What deserves a second look.
    pub cautions: Vec<Caution>,
}

/// Every code of a caution about heat with what it means. A code is never removed or given another meaning.
pub const CAUTION_CODES: &[(&str, &str)] = &[
    ("heat.boils", "the block may come to the boil"),
    ("heat.overheat", "the block may get so hot that it swells, cracks or parts"),
    ("heat.crack", "the inside may get so much hotter than the edge that the block cracks"),
    ("heat.alcohol", "alcohol may boil in the block"),
    ("heat.ring", "part of the block may gel and part not, which shows in the cut"),
    ("heat.false-trace", "a batter is poured below where its fats begin to set"),
    ("heat.carry", "a layer is poured before the one below is likely to carry it"),
    ("heat.cut", "the block may not be fit to cut within the forecast"),
];

/// Films of still air and of a stirred bath around a jug, W/(m² K). Source: from memory; air by the correlations here.
const FILMS: [f64; 2] = [11.0, 200.0];
/// Purity below which an alkali is a ready-made solution. Source: flakes of potassium hydroxide have 85 % and more.
const SOLID: f64 = 0.8;

/// Forecasts lye, batter and block of a plan in a setting.
///
/// ```
/// use lamella::heat::{Grid, Setting, When, forecast};
/// let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
/// let plan = lamella::Plan::of(&recipe).unwrap();
/// let coarse = Grid { columns: 12, rows: 14 };
/// let forecast = forecast(&recipe, &plan, &Setting::default(), coarse).unwrap();
/// assert!(forecast.block.peak.low < forecast.block.peak.likely);
/// assert!(forecast.block.peak.likely < forecast.block.peak.high);
/// ```
///
/// # Errors
/// Everything that keeps the plan from being forecast, as [`Scenario::of`] says it.
pub fn forecast(
    recipe: &Recipe,
    plan: &Plan,
    setting: &Setting,
    grid: Grid,
) -> Result<HeatForecast, Vec<Problem>> {
    let scenario = Scenario::of(recipe, plan, setting)?;
    let failed = |error: super::HeatError| vec![Problem::from(error)];
    let block = forecast_scenario(&scenario, &setting.spread, grid).map_err(failed)?;
    let air = scenario.phases.first().map_or(21.0, |phase| phase.air);
    let lye = lye(recipe, plan, air).map_err(failed)?;
    let fats = recipe.fats.iter().zip(&plan.pot.fats);
    let set_at = setting_point(fats.map(|(line, item)| (&line.fat, item.weighed.exact())));
    let batter: Vec<f64> = plan.jugs.iter().map(|jug| mixed(recipe, plan, jug)).collect();
    let mut cautions = Vec::new();
    of_block(&block, plan, setting, &scenario, &mut cautions);
    of_batter(plan, &scenario, set_at, &mut cautions);
    Ok(HeatForecast {
        lye,
        batter: batter.into_iter().map(celsius).collect(),
        fats_set_at: set_at.map(celsius),
        block,
        cautions,
    })
}

/// The alkali of a recipe's grade: water bound in what is solid, and water that a ready-made lye brings.
fn waters(grade: Option<AlkaliGrade>, pure: f64) -> [f64; 2] {
    let Some(grade) = grade else { return [0.0; 2] };
    let [purity, carbonate] = [grade.purity, grade.carbonate].map(|share| share.exact().approximate());
    let water = pure / purity.max(0.01) * (1.0 - purity - carbonate).max(0.0);
    if purity < SOLID { [0.0, water] } else { [water, 0.0] }
}

fn lye(recipe: &Recipe, plan: &Plan, air: f64) -> Result<LyeForecast, super::HeatError> {
    let of = |exact: Exact| exact.approximate();
    let tally = &plan.lye.tally;
    let [sodium, potassium] = [of(tally.sodium_hydroxide), of(tally.potassium_hydroxide)];
    let grades = match recipe.alkali {
        AlkaliChoice::Sodium(grade) => [Some(grade), None],
        AlkaliChoice::Potassium(grade) => [None, Some(grade)],
        AlkaliChoice::Dual { sodium, potassium, .. } => [Some(sodium), Some(potassium)],
    };
    let [[a, b], [c, d]] = [waters(grades[0], sodium), waters(grades[1], potassium)];
    let (bound_water, stock_water) = (a + c, b + d);
    let water = (of(tally.water) - bound_water - stock_water).max(0.0);
    let at = air.clamp(0.0, 60.0);
    let warm = Dissolving {
        sodium,
        potassium,
        bound_water,
        stock_water,
        alkali_at: at,
        water,
        water_at: at,
        solids: (of(tally.mass()) - sodium - potassium - of(tally.water)).max(0.0),
        ..Dissolving::AT_25
    };
    let outcome = warm.outcome()?;
    let iced = Dissolving { water: 0.0, ice: water, ice_at: 0.0, ..warm }.outcome()?;
    let target = recipe.temperatures.lye.exact().approximate();
    let litres = of(tally.mass()) / super::lye::density(outcome.share, 0.0, 40.0);
    let [cools_in_air, cools_in_bath] = FILMS.map(|film| {
        let constant = jug_constant(outcome.capacity, litres, film);
        cooling_time(outcome.temperature, at, target, constant).map(|seconds| When::At(duration(seconds)))
    });
    Ok(LyeForecast {
        dissolved: celsius(outcome.temperature),
        dissolved_in_ice: celsius(iced.temperature),
        boils_at: celsius(outcome.boils_at),
        cools_in_air,
        cools_in_bath,
    })
}

fn degrees(temperature: Temperature) -> f64 {
    temperature.exact().approximate()
}

/// Between what something lies; its upper end is told apart from the limit that it is held against.
fn shown(interval: Interval<Temperature>, limit: f64) -> String {
    let [low, likely] = [interval.low, interval.likely].map(|end| fixed(end.value(), 0));
    let (high, _) = told_apart(interval.high.value(), celsius(limit).value(), 0);
    format!("{likely} °C ({low} to {high})")
}

/// Peak from which a block swells, cracks or parts, °C. Source: from memory; soap is boiled at about 90 °C on purpose.
const TOO_HOT: f64 = 90.0;
/// The same for what is rich in sugar, which browns and foams. Source: from memory.
const TOO_HOT_SWEET: f64 = 82.0;
/// Sugar that makes it so, of the fat. Source: common practice, over 3 % expect overheating.
const SWEET: f64 = 0.03;
/// Difference from inside to edge at which soap that sets outside is forced open inside, K. Source: from memory.
const TOO_FAR_APART: f64 = 30.0;
/// Boiling point of water, °C.
const BOILS: f64 = 100.0;
/// Boiling point of alcohol, °C. Source: CRC Handbook.
const ALCOHOL_BOILS: f64 = 78.3;
/// Alcohol of a jug that is worth a word. Source: judgement.
const ALCOHOL: f64 = 0.005;

struct Look<'c> {
    cautions: &'c mut Vec<Caution>,
}

impl Look<'_> {
    #[expect(clippy::too_many_arguments, reason = "the fields of a caution, once")]
    fn out(
        &mut self,
        code: &'static str,
        place: &str,
        message: &str,
        figure: String,
        limit: String,
        basis: BasisKind,
        source: &'static str,
        advice: &str,
    ) {
        self.cautions.push(Caution {
            code,
            pointer: String::new(),
            place: place.to_owned(),
            message: message.to_owned(),
            figure,
            limit,
            basis,
            source,
            advice: advice.to_owned(),
        });
    }
}

fn of_block(
    block: &Forecast,
    plan: &Plan,
    setting: &Setting,
    scenario: &Scenario,
    cautions: &mut Vec<Caution>,
) {
    let mut look = Look { cautions };
    let place = block.peak_layer.as_str();
    let high = degrees(block.peak.high);
    let shares = plan.jugs.iter().map(|jug| jug.sugars_of_fat.exact().approximate());
    let sweet = shares.fold(0.0_f64, f64::max) > SWEET;
    let limit = if sweet { TOO_HOT_SWEET } else { TOO_HOT };
    let cooler =
        "pour cooler, insulate less, use a flatter mould or less sugar; have a fridge or a fan at hand";
    if high >= BOILS {
        look.out(
            "heat.boils",
            place,
            "may come to the boil and rise out of its mould",
            shown(block.peak, BOILS),
            "100 °C".to_owned(),
            BasisKind::Derived,
            "boiling point of water",
            cooler,
        );
    } else if high >= limit {
        look.out(
            "heat.overheat",
            place,
            "may get so hot that it swells, cracks or parts",
            shown(block.peak, limit),
            format!("{} °C", fixed(celsius(limit).value(), 0)),
            BasisKind::Memory,
            "from memory",
            cooler,
        );
    }
    if degrees(block.apart.high) >= TOO_FAR_APART && high >= 70.0 {
        look.out(
            "heat.crack",
            place,
            "may get so much hotter than the edge that the block cracks along the top",
            shown(block.apart, TOO_FAR_APART),
            format!("{} K", fixed(celsius(TOO_FAR_APART).value(), 0)),
            BasisKind::Memory,
            "from memory",
            "insulate all around, or keep all of it cool",
        );
    }
    let alcohol = plan
        .jugs
        .iter()
        .find(|jug| (jug.tally.alcohol / jug.tally.fat()).approximate() > ALCOHOL && high >= ALCOHOL_BOILS);
    if let Some(jug) = alcohol {
        look.out(
            "heat.alcohol",
            &jug.name,
            "holds alcohol, which may boil in the block",
            shown(block.peak, ALCOHOL_BOILS),
            "78.3 °C".to_owned(),
            BasisKind::Handbook,
            "CRC Handbook",
            "boil the alcohol off first, or keep the block cool",
        );
    }
    if block.ring.exact().approximate() >= 0.2 {
        look.out(
            "heat.ring",
            place,
            "may gel while its rim does not, which shows as a ring in the cut",
            format!("in {} of the forecasts", block.ring),
            "20 %".to_owned(),
            BasisKind::CommonPractice,
            "common practice",
            "insulate so that all of it gels, or cool so that none does; the bar is fine either way",
        );
    }
    if !setting.pours.is_empty() {
        let next = scenario.layers.iter().skip(1).map(|layer| layer.at);
        for ((layer, forecast), next) in scenario.layers.iter().zip(&block.layers).zip(next) {
            let waits = duration(next - layer.at);
            if When::At(waits) < forecast.carries.low {
                look.out(
                    "heat.carry",
                    &layer.name,
                    "is not likely to carry the next layer when that is poured",
                    format!("{} min", fixed(waits.in_unit("min").unwrap_or_default(), 0)),
                    in_minutes(forecast.carries.low),
                    BasisKind::Memory,
                    "judgement on conversion",
                    "wait, pour over a spoon, or mix it to a thicker trace",
                );
            }
        }
    }
    if block.cut.likely == When::Later {
        look.out(
            "heat.cut",
            place,
            "may not be fit to cut within the forecast",
            in_minutes(block.cut.low),
            format!("{} h", fixed(duration(scenario.until).in_unit("h").unwrap_or_default(), 0)),
            BasisKind::Memory,
            "judgement on conversion and temperature",
            "look further ahead, or keep it warm",
        );
    }
}

fn in_minutes(when: When) -> String {
    match when {
        When::At(duration) => format!("{} min", fixed(duration.in_unit("min").unwrap_or_default(), 0)),
        When::Later => "later".to_owned(),
    }
}

fn of_batter(plan: &Plan, scenario: &Scenario, set_at: Option<f64>, cautions: &mut Vec<Caution>) {
    let Some(set_at) = set_at else { return };
    let mut look = Look { cautions };
    for layer in scenario.layers.iter().filter(|layer| layer.temperature < set_at) {
        if plan.process == crate::recipe::Process::Hot {
            continue;
        }
        let (found, limit) = told_apart(celsius(layer.temperature).value(), celsius(set_at).value(), 0);
        look.out(
            "heat.false-trace",
            &layer.name,
            "is poured below where its fats begin to set: what looks like trace may be fat going solid",
            format!("{found} °C"),
            format!("{limit} °C, give or take 5"),
            BasisKind::Memory,
            "a line through titres from memory",
            "warm fats and lye by a few degrees",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_passes_a_limit_reads_as_passing_it() {
        let peak = |high| {
            let [low, likely, high] = [60.0, 70.4, high].map(celsius);
            Interval { low, likely, high }
        };
        assert_eq!(shown(peak(78.4), ALCOHOL_BOILS), "70 °C (60 to 78.4)");
        assert_eq!(shown(peak(81.2), ALCOHOL_BOILS), "70 °C (60 to 81)");
        assert_eq!(shown(peak(90.0), TOO_HOT), "70 °C (60 to 90)");
    }
}
