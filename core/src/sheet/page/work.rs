//! The order of work in words.

use super::super::{Sheet, document::Block};
use super::lye;
use super::print::{amounts, degrees, grams, list, named, scale, sum};
use crate::batch::{JugPlan, LayerPlan, LyeWork, Plan, Step, Work};

pub(super) fn order(sheet: &Sheet<'_>, blocks: &mut Vec<Block>) {
    let plan = sheet.plan;
    blocks.push(Block::Heading("Order of work"));
    let one = |step: &Step| match step.work {
        Work::Freeze | Work::MakeLye => made(sheet, step.work),
        _ => said(sheet, step).into_iter().collect(),
    };
    blocks.push(Block::Numbered(plan.steps.iter().flat_map(one).collect()));
}

/// Making the lye, a sentence or two a step.
fn made(sheet: &Sheet<'_>, work: Work) -> Vec<String> {
    let mut steps: Vec<String> =
        lye::steps(sheet, work).map(|step| lye::words(sheet, step).sentence()).collect();
    if let (Work::Freeze, Some(first)) = (work, steps.first_mut()) {
        // Boiled flat, it cools overnight before it can be frozen.
        let boils = lye::steps(sheet, work).any(|step| step.work == LyeWork::Boil);
        *first = format!("{} {first}", if boils { "Two days before." } else { "The day before." });
    }
    steps
}

/// A step in words; nothing when there is nothing to do in it.
pub(in crate::sheet) fn said(sheet: &Sheet<'_>, step: &Step) -> Option<String> {
    let plan = sheet.plan;
    let jug = step.jug.and_then(|jug| plan.jugs.get(jug));
    let layer = step.layer.and_then(|layer| plan.layers.get(layer));
    match step.work {
        Work::Prepare => Some(prepare(plan)),
        Work::Protect => {
            let words =
                "Open a window; put on goggles, gloves and long sleeves. They stay on until all is washed.";
            Some(words.to_owned())
        }
        Work::Freeze | Work::MakeLye => Some(made(sheet, step.work).join(" ")),
        Work::FillPot => Some(fill_pot(sheet)),
        Work::WeighDoses => weigh_doses(sheet),
        Work::Divide => Some(divide(sheet)),
        Work::Enrich => jug
            .map(|jug| format!("Stir into the fat in {}: {}.", named(&jug.name), amounts(sheet, &jug.doses))),
        Work::AddLye => jug.map(|jug| add_lye(sheet, jug)),
        Work::Cook => jug.map(|jug| format!("Cook {} until it is saponified.", named(&jug.name))),
        Work::AddHeld => {
            jug.map(|jug| format!("Stir into {}: {}.", named(&jug.name), amounts(sheet, &jug.held)))
        }
        Work::Finish => jug
            .map(|jug| format!("Stir into {} last: {}.", named(&jug.name), amounts(sheet, &jug.late_doses))),
        Work::Pour => jug.zip(layer).map(|(jug, layer)| pour(sheet, jug, layer)),
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

fn fill_pot(sheet: &Sheet<'_>) -> String {
    let plan = sheet.plan;
    let pot = &plan.pot;
    let mut text = "Weigh the fats of the pot and melt them together.".to_owned();
    if !pot.doses.is_empty() {
        text.push_str(&format!(" Stir in {}.", amounts(sheet, &pot.doses)));
    }
    text.push_str(&format!(" Let them come to {}.", degrees(sheet, plan.temperatures.fats)));
    text
}

fn weigh_doses(sheet: &Sheet<'_>) -> Option<String> {
    let plan = sheet.plan;
    let any = plan.jugs.iter().any(|jug| !(jug.doses.is_empty() && jug.late_doses.is_empty()));
    any.then(|| "Weigh what goes into each jug, and set it beside its jug.".to_owned())
}

fn divide(sheet: &Sheet<'_>) -> String {
    let plan = sheet.plan;
    let one = |jug: &JugPlan| {
        format!("{} into {}", grams(sheet, jug.portion.weighed, jug.portion.scale), named(&jug.name))
    };
    let parts: Vec<String> = plan.jugs.iter().map(one).collect();
    let left = sum(sheet, plan.pot.left, plan.jugs.iter().map(|jug| jug.portion.scale));
    let left = if plan.pot.left.is_zero() {
        String::new()
    } else {
        format!(" {left} {} stay behind.", sheet.units.mass.symbol)
    };
    format!("Stir the pot well and divide it: {}.{left}", list(&parts))
}

/// Lye that is weighed on another scale than the jug's comes in a cup.
fn add_lye(sheet: &Sheet<'_>, jug: &JugPlan) -> String {
    let lye = grams(sheet, jug.lye.weighed, jug.lye.scale);
    let name = named(&jug.name);
    if jug.lye.scale == jug.portion.scale {
        return format!("Weigh {lye} of lye into {name}, and blend.");
    }
    let scale = named(&scale(sheet.plan, jug.lye.scale));
    format!("Weigh {lye} of lye in a cup on {scale}, scrape all of it into {name}, and blend.")
}

fn pour(sheet: &Sheet<'_>, jug: &JugPlan, layer: &LayerPlan) -> String {
    let scale = jug.portion.scale;
    let own = if jug.name == layer.name { String::new() } else { format!(" from {}", named(&jug.name)) };
    format!(
        "Pour {}{own}: {}, until the scale shows {}.",
        named(&layer.name),
        grams(sheet, layer.portion, scale),
        grams(sheet, layer.reading.after, scale)
    )
}
