//! How the lye is made, in words, for the sheet and for the bench.

use super::super::Sheet;
use super::print::{amounts, degrees, list, percent};
use crate::batch::{LyeStep, LyeWork, Work};
use crate::quantity::{Temperature, fixed};

/// Lye in which something would scorch stays below this. Source: common practice, 25-30 °C.
const COLD: Temperature = Temperature::literal(30, 0);
/// Lactate goes into lye below this. Source: common practice.
const COOL: Temperature = Temperature::literal(50, 0);

/// Stock lye of 50 % freezes below 14 °C. Source: common practice, warmed and stirred above 20 °C before use.
const CLEAR: Temperature = Temperature::literal(20, 0);

/// A step of making the lye in words: what is done first, what is weighed, and what is done with it. Each may be empty.
pub(crate) struct LyeWords {
    pub(crate) first: String,
    pub(crate) weigh: String,
    pub(crate) then: String,
}

impl LyeWords {
    pub(super) fn sentence(&self) -> String {
        let parts = [&self.first, &self.weigh, &self.then].map(String::as_str);
        parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" ")
    }
}

pub(in crate::sheet) fn words(sheet: &Sheet<'_>, step: &LyeStep) -> LyeWords {
    let lye = &sheet.plan.lye;
    let has = |work: LyeWork| lye.order.iter().any(|step| step.work == work);
    // What scorches is frozen, and the lye stays cold from then on.
    let cold = has(LyeWork::Freeze);
    let wet = has(LyeWork::Boil) || has(LyeWork::Water);
    let amounts = || amounts(sheet, lye.items_of(step));
    let (first, weigh, then) = match step.work {
        LyeWork::Boil => (
            format!(
                "Boil {} until flat and all spirit is gone; let it cool overnight, and make up with water what boiled away.",
                names(sheet, step)
            ),
            format!("Weigh {} into the lye vessel.", amounts()),
            String::new(),
        ),
        LyeWork::Water => (String::new(), format!("Weigh {} into the lye vessel.", amounts()), String::new()),
        LyeWork::Dissolve => (
            String::new(),
            format!("Weigh {} into the lye vessel.", amounts()),
            if wet { "Stir until all of it is dissolved.".to_owned() } else { String::new() },
        ),
        LyeWork::Freeze => (
            String::new(),
            if step.items.is_empty() {
                String::new()
            } else {
                format!("Weigh {} into the lye vessel, and stir.", amounts())
            },
            "Freeze all of it in the vessel, and let it thaw to slush before going on.".to_owned(),
        ),
        LyeWork::Pour => (
            chill(cold) + &ready_made(sheet) + acid(sheet, cold),
            format!("Weigh in {}.", amounts()),
            strength(sheet, step, "Stir until it is even."),
        ),
        LyeWork::Alkali => (
            if has(LyeWork::Pour) { String::new() } else { chill(cold).trim_end().to_owned() },
            format!("Weigh {} into a dry cup.", amounts()),
            strength(sheet, step, &alkali(sheet, cold)),
        ),
        LyeWork::Hot => (
            String::new(),
            format!("Weigh {}.", amounts()),
            if cold {
                "Stir it in at once; in cold lye it takes a while to dissolve.".to_owned()
            } else {
                "Stir it in at once, while the lye is hot, until it is dissolved.".to_owned()
            },
        ),
        LyeWork::Cool => (String::new(), String::new(), cool(sheet, cold)),
        LyeWork::Last => {
            let warm = !cold && sheet.plan.temperatures.lye > COOL;
            let clear = if warm {
                format!("Once the lye is clear and below {}, stir", degrees(sheet, COOL))
            } else {
                "Stir".to_owned()
            };
            (String::new(), format!("Weigh {}.", amounts()), format!("{clear} it in."))
        }
    };
    LyeWords { first, weigh, then }
}

fn names(sheet: &Sheet<'_>, step: &LyeStep) -> String {
    let items = sheet.plan.lye.items_of(step);
    list(&items.map(|item| item.name.to_string()).collect::<Vec<_>>())
}

/// Cold, open and in moving air. Source: the data sheet of a maker of caustic soda: sugars that reduce (of milk, fruit and
/// honey) set carbon monoxide free in it; how much in a lye for soap is not known.
fn chill(cold: bool) -> String {
    let words = "Stand the open lye vessel in ice water, where air moves: sugar in lye gives off some carbon monoxide. ";
    if cold { words.to_owned() } else { String::new() }
}

/// Crystals hold more alkali than the lye above them. Source: phase diagram of NaOH and water, common practice.
fn ready_made(sheet: &Sheet<'_>) -> String {
    format!(
        "Use ready-made lye only when it is clear, without a crystal in it, and above {}. Pour it slowly into the lye \
         vessel, stirring; never pour what is in the vessel into it.",
        degrees(sheet, CLEAR)
    )
}

fn alkali(sheet: &Sheet<'_>, cold: bool) -> String {
    if cold {
        return format!(
            "Stir it into the slush in small portions over 10 to 20 minutes, so that it stays below {}; never tip the \
             slush onto it.",
            degrees(sheet, COLD)
        );
    }
    format!(
        "Stir it into the lye vessel a little at a time until all is dissolved; never pour the liquid onto it. \
         It grows very hot and gives off caustic fumes.{}",
        acid(sheet, cold)
    )
}

fn acid(sheet: &Sheet<'_>, cold: bool) -> &'static str {
    if sheet.plan.lye.tally.acid.is_positive() && !cold { " The acid heats it too: go slower." } else { "" }
}

/// After the last of the alkali: how strong it is now.
fn strength(sheet: &Sheet<'_>, step: &LyeStep, words: &str) -> String {
    let lye = &sheet.plan.lye;
    let last = lye.order.iter().rfind(|step| matches!(step.work, LyeWork::Pour | LyeWork::Alkali));
    if last != Some(step) {
        return words.to_owned();
    }
    format!(
        "{words} Then it is lye of {}, {} of water to one of alkali.",
        percent(lye.dissolving.concentration, 1),
        fixed(lye.dissolving.water_to_alkali.value(), 2)
    )
}

fn cool(sheet: &Sheet<'_>, cold: bool) -> String {
    let lye = sheet.plan.temperatures.lye;
    let salt = sheet.plan.cautions.iter().any(|caution| caution.code == "lye.salt");
    // Grains of salt are part of the recipe.
    let grains = if salt {
        " Salt falls out as fine grains: do not strain it, and stir it up before each pour."
    } else {
        ""
    };
    if cold && lye > COLD {
        return format!("Keep it below {} until it goes to the fats.{grains}", degrees(sheet, COLD));
    }
    format!("Let it come to {}.{grains}", degrees(sheet, lye))
}

/// The steps that belong to a step of the whole work.
pub(crate) fn steps<'p>(sheet: &Sheet<'p>, work: Work) -> impl Iterator<Item = &'p LyeStep> {
    sheet.plan.lye.order.iter().filter(move |step| step.step == work)
}
