//! The order of work in words.

use super::super::document::Block;
use super::print::{amounts, grams, list, named, scale, sum};
use crate::batch::{JugPlan, LayerPlan, Plan, Step, Work};

pub(super) fn order(plan: &Plan, blocks: &mut Vec<Block>) {
    blocks.push(Block::Heading("Order of work"));
    blocks.push(Block::Numbered(plan.steps.iter().filter_map(|step| said(plan, step)).collect()));
}

/// A step in words; nothing when there is nothing to do in it.
pub(in crate::sheet) fn said(plan: &Plan, step: &Step) -> Option<String> {
    let jug = step.jug.and_then(|jug| plan.jugs.get(jug));
    let layer = step.layer.and_then(|layer| plan.layers.get(layer));
    match step.work {
        Work::Prepare => Some(prepare(plan)),
        Work::Protect => {
            let words =
                "Open a window; put on goggles, gloves and long sleeves. They stay on until all is washed.";
            Some(words.to_owned())
        }
        Work::MakeLye => Some(make_lye(plan)),
        Work::FillPot => Some(fill_pot(plan)),
        Work::WeighDoses => weigh_doses(plan),
        Work::Divide => Some(divide(plan)),
        Work::Enrich => jug
            .map(|jug| format!("Stir into the fat in {}: {}.", named(&jug.name), amounts(plan, &jug.doses))),
        Work::AddLye => jug.map(|jug| add_lye(plan, jug)),
        Work::Cook => jug.map(|jug| format!("Cook {} until it is saponified.", named(&jug.name))),
        Work::AddHeld => {
            jug.map(|jug| format!("Stir into {}: {}.", named(&jug.name), amounts(plan, &jug.held)))
        }
        Work::Finish => {
            jug.map(|jug| format!("Stir into {} last: {}.", named(&jug.name), amounts(plan, &jug.late_doses)))
        }
        Work::Pour => jug.zip(layer).map(|(jug, layer)| pour(plan, jug, layer)),
        Work::Wait => layer.map(|layer| format!("Wait until {} carries the next layer.", named(&layer.name))),
        Work::Rest => Some("Cover, and leave alone until it is firm and cool.".to_owned()),
        Work::Cut => {
            Some("Cut with gloves on, and put the bars to cure where air gets to every side.".to_owned())
        }
    }
}

fn prepare(plan: &Plan) -> String {
    let names: Vec<String> = plan.jugs.iter().map(|jug| named(&jug.name)).collect();
    let (jugs, it) = if names.len() == 1 { ("the jug", "it") } else { ("the jugs", "each") };
    format!("Line the moulds. Set out {jugs} {}, weigh {it} empty and write its mass on it.", list(&names))
}

fn make_lye(plan: &Plan) -> String {
    let lye = &plan.lye;
    // Liquids scorch in fresh lye; where there is water, the alkali is dissolved in that first.
    let dry = lye.water.ideal.is_zero();
    let (first, then): (Vec<_>, Vec<_>) = if dry {
        (lye.liquids.iter().collect(), lye.doses.iter().collect())
    } else {
        (vec![&lye.water], lye.liquids.iter().chain(&lye.doses).collect())
    };
    let mut text = format!(
        "Weigh {}{}. Weigh {}; stir it in a little at a time until all is dissolved.",
        amounts(plan, first),
        if dry { ", and chill well" } else { "" },
        amounts(plan, &lye.alkalis)
    );
    if !then.is_empty() {
        text.push_str(&format!(" Stir in {}.", amounts(plan, then)));
    }
    text.push_str(&format!(" Let it come to {}.", plan.temperatures.lye));
    text
}

fn fill_pot(plan: &Plan) -> String {
    let pot = &plan.pot;
    let mut text = "Weigh the fats of the pot and melt them together.".to_owned();
    if !pot.doses.is_empty() {
        text.push_str(&format!(" Stir in {}.", amounts(plan, &pot.doses)));
    }
    text.push_str(&format!(" Let them come to {}.", plan.temperatures.fats));
    text
}

fn weigh_doses(plan: &Plan) -> Option<String> {
    let any = plan.jugs.iter().any(|jug| !(jug.doses.is_empty() && jug.late_doses.is_empty()));
    any.then(|| "Weigh what goes into each jug, and set it beside its jug.".to_owned())
}

fn divide(plan: &Plan) -> String {
    let one = |jug: &JugPlan| {
        format!("{} into {}", grams(plan, jug.portion.weighed, jug.portion.scale), named(&jug.name))
    };
    let parts: Vec<String> = plan.jugs.iter().map(one).collect();
    let left = sum(plan, plan.pot.left, plan.jugs.iter().map(|jug| jug.portion.scale));
    let left = if plan.pot.left.is_zero() { String::new() } else { format!(" {left} g stay behind.") };
    format!("Stir the pot well and divide it: {}.{left}", list(&parts))
}

/// Lye that is weighed on another scale than the jug's comes in a cup.
fn add_lye(plan: &Plan, jug: &JugPlan) -> String {
    let lye = grams(plan, jug.lye.weighed, jug.lye.scale);
    let name = named(&jug.name);
    if jug.lye.scale == jug.portion.scale {
        return format!("Weigh {lye} of lye into {name}, and blend.");
    }
    let scale = named(&scale(plan, jug.lye.scale));
    format!("Weigh {lye} of lye in a cup on {scale}, scrape all of it into {name}, and blend.")
}

fn pour(plan: &Plan, jug: &JugPlan, layer: &LayerPlan) -> String {
    let scale = jug.portion.scale;
    let own = if jug.name == layer.name { String::new() } else { format!(" from {}", named(&jug.name)) };
    format!(
        "Pour {}{own}: {}, until the scale shows {}.",
        named(&layer.name),
        grams(plan, layer.portion, scale),
        grams(plan, layer.reading.after, scale)
    )
}
