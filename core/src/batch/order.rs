//! The order of work: what is prepared first, which layer when.

use serde::Serialize;

use crate::recipe::{Process, Recipe};

use super::plan::Plan;

/// What is to be done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Work {
    /// Line moulds, lay out jugs, weigh empty ones.
    Prepare,
    /// Put on goggles and gloves, open a window.
    Protect,
    /// The day before: weigh what the lye is made with, and freeze it to slush. Only where something in it would scorch.
    Freeze,
    /// Dissolve the alkali in its water, and let it cool.
    MakeLye,
    /// Weigh and melt the fats, stir in what goes into the pot.
    FillPot,
    /// Weigh out additives, colours and scents.
    WeighDoses,
    /// Divide the pot over the jugs.
    Divide,
    /// Stir a jug's additives and colours into its fat.
    Enrich,
    /// Add a jug's lye, and blend.
    AddLye,
    /// Cook until saponified.
    Cook,
    /// Stir in fat that was held back.
    AddHeld,
    /// Add scents and other last doses.
    Finish,
    /// Pour a layer.
    Pour,
    /// Wait until a layer carries the next one.
    Wait,
    /// Cover, and leave alone.
    Rest,
    /// Cut, and put to cure.
    Cut,
}

impl Work {
    /// The word for it in documents: `make-lye`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Prepare => "prepare",
            Self::Protect => "protect",
            Self::Freeze => "freeze",
            Self::MakeLye => "make-lye",
            Self::FillPot => "fill-pot",
            Self::WeighDoses => "weigh-doses",
            Self::Divide => "divide",
            Self::Enrich => "enrich",
            Self::AddLye => "add-lye",
            Self::Cook => "cook",
            Self::AddHeld => "add-held",
            Self::Finish => "finish",
            Self::Pour => "pour",
            Self::Wait => "wait",
            Self::Rest => "rest",
            Self::Cut => "cut",
        }
    }
}

/// A step of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Step {
    /// What is to be done.
    pub work: Work,
    /// Index of the jug that it is done to.
    pub jug: Option<usize>,
    /// Index of the layer that it is about.
    pub layer: Option<usize>,
}

/// The steps of a plan. A jug gets its lye right before its first pour, since from then on it thickens; its additives are
/// stirred in while the layer before it sets.
pub(crate) fn order(recipe: &Recipe, plan: &Plan) -> Vec<Step> {
    let plain = |work| Step { work, jug: None, layer: None };
    let at = |work, jug| Step { work, jug: Some(jug), layer: None };
    let ahead = plan.lye.order.iter().any(|step| step.step == Work::Freeze);
    let mut steps: Vec<Step> = ahead.then(|| plain(Work::Freeze)).into_iter().collect();
    steps.extend(
        [Work::Prepare, Work::Protect, Work::MakeLye, Work::FillPot, Work::WeighDoses, Work::Divide]
            .map(plain),
    );
    let mut mixed = vec![false; plan.jugs.len()];
    for (index, layer) in plan.layers.iter().enumerate() {
        let jug = layer.jug;
        let Some((slot, jug_plan)) = mixed.get_mut(jug).zip(plan.jugs.get(jug)) else { continue };
        let fresh = !std::mem::replace(slot, true);
        if fresh && !jug_plan.doses.is_empty() {
            steps.push(at(Work::Enrich, jug));
        }
        if let Some(below) = index.checked_sub(1) {
            steps.push(Step { work: Work::Wait, jug: None, layer: Some(below) });
        }
        if fresh {
            steps.push(at(Work::AddLye, jug));
            if recipe.process == Process::Hot {
                steps.push(at(Work::Cook, jug));
            }
            if !jug_plan.held.is_empty() {
                steps.push(at(Work::AddHeld, jug));
            }
            if !jug_plan.late_doses.is_empty() {
                steps.push(at(Work::Finish, jug));
            }
        }
        steps.push(Step { work: Work::Pour, jug: Some(jug), layer: Some(index) });
    }
    steps.extend([Work::Rest, Work::Cut].map(plain));
    steps
}
