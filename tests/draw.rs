//! Numbers and recipes drawn from a seed, the same on every machine.
#![expect(
    clippy::arithmetic_side_effects,
    clippy::float_arithmetic,
    clippy::indexing_slicing,
    clippy::cast_possible_truncation,
    clippy::unwrap_used,
    reason = "a test stops where a draw is not as it should be"
)]

use std::fmt::Write;

use lamella::Plan;
use lamella::follow::{Entry, Event, Mixed};
use lamella::material::Alkali;
use lamella::quantity::{Exact, Mass, Share};
use lamella::recipe::Recipe;

/// A stream of numbers.
///
/// # Source
/// Steele, Lea and Flood, Fast splittable pseudorandom number generators, OOPSLA 2014 (from memory).
#[derive(Clone, Debug)]
pub struct Draw(u64);

impl Draw {
    /// From a seed.
    #[must_use]
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// 64 bits.
    pub fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A whole number below `end`.
    pub fn below(&mut self, end: usize) -> usize {
        (self.bits() % end as u64) as usize
    }

    /// One of a list.
    pub fn one<'t, T>(&mut self, list: &'t [T]) -> &'t T {
        let index = self.below(list.len());
        &list[index]
    }

    /// Whether something that happens once in `times` happens.
    pub fn once_in(&mut self, times: usize) -> bool {
        self.below(times) == 0
    }

    /// A number from 0 to 1.
    #[expect(clippy::cast_precision_loss, reason = "53 bits fit")]
    pub fn unit(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1_u64 << 53) as f64
    }
}

const FATS: [&str; 12] = [
    "olive-oil",
    "coconut-oil",
    "palm-oil",
    "shea-butter",
    "castor-oil",
    "cocoa-butter",
    "beef-tallow",
    "sunflower-oil",
    "beeswax",
    "rice-bran-oil",
    "stearic-acid-95",
    "lard",
];
const ADDITIVES: [&str; 7] =
    ["tahini", "honey", "kaolin", "pumpkin-puree", "citric-acid-anhyd", "sesame-seed", "sodium-lactate-60"];

/// A recipe document: any seed gives a valid one, though not every one can be planned on its scales.
#[must_use]
pub fn recipe(draw: &mut Draw) -> String {
    let mut text = String::from("{\"lamella\": \"recipe/1\", \"name\": \"Drawn\",\n");
    let count = 1 + draw.below(5);
    let first = draw.below(FATS.len());
    let mut left = 100;
    let mut fats = Vec::new();
    for index in 0..count {
        let share = if index + 1 == count { left } else { 1 + draw.below((left - (count - index)).max(1)) };
        left -= share;
        fats.push(format!(
            "{{\"fat\": \"{}\", \"share\": \"{share} %\"}}",
            FATS[(first + index) % FATS.len()]
        ));
    }
    writeln!(text, "\"fats\": [{}],", fats.join(", ")).unwrap_or_default();
    let naoh =
        *draw.one(&["{}", r#"{"purity": "99 %"}"#, r#"{"purity": "97.5 %", "purity_within": "0.5 %"}"#]);
    let koh = *draw.one(&["\"purity\": \"90 %\"", "\"purity\": \"88 %\", \"purity_within\": \"2 %\""]);
    match draw.below(4) {
        0 => writeln!(text, "\"alkali\": {{\"koh\": {{{koh}}}}},"),
        1 => writeln!(
            text,
            "\"alkali\": {{\"naoh\": {naoh}, \"koh\": {{{koh}, \"share\": \"{} %\"}}}},",
            draw.below(100)
        ),
        _ => writeln!(text, "\"alkali\": {{\"naoh\": {naoh}}},"),
    }
    .unwrap_or_default();
    writeln!(text, "\"superfat\": \"{} %\",", draw.below(16)).unwrap_or_default();
    let water = *draw.one(&[
        r#""lye_concentration": "33 %""#,
        r#""water_to_alkali": "2.2""#,
        r#""share_of_fat": "33 %""#,
    ]);
    writeln!(text, "\"water\": {{{water}}},").unwrap_or_default();
    let liquid = if draw.once_in(3) { r#"{"liquid": "goat-milk", "share": "40 %"}"# } else { "" };
    let lye_dose = if draw.once_in(3) { dose(draw, "batch fat") } else { String::new() };
    writeln!(text, "\"lye\": {{\"liquids\": [{liquid}], \"doses\": [{lye_dose}]}},").unwrap_or_default();
    if draw.once_in(3) {
        writeln!(text, "\"doses\": [{}],", dose(draw, "batch fat")).unwrap_or_default();
    }
    let size = ["300 g", "1 kg", "2500 g", "7 kg"];
    writeln!(text, "\"size\": {{\"fat\": \"{}\"}},", draw.one(&size)).unwrap_or_default();
    let layers = 1 + draw.below(5);
    let shared = layers > 2 && draw.once_in(2);
    if shared {
        writeln!(
            text,
            "\"jugs\": [{{\"jug\": \"lines\", \"tare\": \"{} g\", \"residue\": \"{} g\", \"doses\": [{}]}}],",
            50 + draw.below(100),
            draw.below(4),
            dose(draw, "layer fat")
        )
        .unwrap_or_default();
    }
    let mut list = Vec::new();
    for index in 0..layers {
        let parts = 2 + draw.below(8);
        if shared && index % 2 == 0 {
            list.push(format!(
                "{{\"layer\": \"L{index}\", \"share\": \"{parts} parts\", \"jug\": \"lines\"}}"
            ));
            continue;
        }
        let mut doses = Vec::new();
        for _ in 0..draw.below(3) {
            let basis = *draw.one(&["layer fat", "layer fat", "layer", "batch fat"]);
            doses.push(dose(draw, basis));
        }
        list.push(format!(
            "{{\"layer\": \"L{index}\", \"share\": \"{parts} parts\", \"doses\": [{}]}}",
            doses.join(", ")
        ));
    }
    writeln!(text, "\"layers\": [{}],", list.join(", ")).unwrap_or_default();
    let (fine, coarse) =
        *draw.one(&[("0.01 g", "0.1 g"), ("0.1 g", "1 g"), ("1 g", "5 g"), ("0.05 g", "0.5 g")]);
    write!(
        text,
        "\"workshop\": {{\"scales\": [{{\"scale\": \"fine\", \"step\": \"{fine}\", \"capacity\": \"500 g\"}}, \
         {{\"scale\": \"coarse\", \"step\": \"{coarse}\", \"capacity\": \"20 kg\"}}], \
         \"jug_residue\": \"{} g\", \"pot_residue\": \"{} g\", \"lye_residue\": \"{} g\"}}}}",
        draw.below(3),
        draw.below(4),
        draw.below(3)
    )
    .unwrap_or_default();
    text
}

fn dose(draw: &mut Draw, basis: &str) -> String {
    let treatment = if basis == "layer" || draw.once_in(2) { "absorb" } else { "balance" };
    if draw.once_in(5) {
        let fat = draw.one(&FATS);
        return format!(
            "{{\"fat\": \"{fat}\", \"dose\": \"{} %\", \"of\": \"{basis}\", \"treatment\": \"{treatment}\"}}",
            1 + draw.below(6)
        );
    }
    let additive = draw.one(&ADDITIVES);
    format!(
        "{{\"additive\": \"{additive}\", \"dose\": \"{} %\", \"of\": \"{basis}\", \"treatment\": \"{treatment}\"}}",
        1 + draw.below(if *additive == "citric-acid-anhyd" { 2 } else { 9 })
    )
}

/// How many sequences of events are drawn: what `LAMELLA_SEQUENCES` says, else so many.
#[must_use]
pub fn sequences(usual: u64) -> u64 {
    std::env::var("LAMELLA_SEQUENCES").ok().and_then(|count| count.parse().ok()).unwrap_or(usual)
}

/// A recipe that can be planned.
#[must_use]
pub fn planned(draw: &mut Draw) -> Recipe {
    loop {
        let recipe = lamella::recipe::read(&recipe(draw)).unwrap();
        if Plan::of(&recipe).is_ok() {
            return recipe;
        }
    }
}

/// An event that may or may not be possible.
#[must_use]
pub fn event(draw: &mut Draw, plan: &Plan) -> Entry {
    let near = |draw: &mut Draw, planned: Mass| {
        let percent = *draw.one(&[100, 100, 99, 101, 97, 104, 90, 200]);
        let about = planned.exact() * Exact::from(percent) / Exact::from(100);
        Mass::try_new(Exact::from(about.rounded(2))).unwrap()
    };
    let jug = draw.one(&plan.jugs).clone();
    let layer = draw.one(&plan.layers).clone();
    let mut items = plan.pot.fats.clone();
    items.extend(plan.pot.doses.iter().chain(&plan.lye.alkalis).chain([&plan.lye.water]).cloned());
    let vessel = Some(jug.name.clone());
    let event = match draw.below(16) {
        0..=2 => {
            let item = draw.one(&items);
            Event::Weighed { item: item.pointer.clone(), vessel: None, mass: near(draw, item.weighed) }
        }
        3 | 4 => Event::Weighed { item: "pot".into(), vessel, mass: near(draw, jug.portion.weighed) },
        5 | 6 => Event::Weighed { item: "lye".into(), vessel, mass: near(draw, jug.lye.weighed) },
        7 => match jug.doses.first() {
            Some(dose) => {
                Event::Weighed { item: dose.pointer.clone(), vessel, mass: near(draw, dose.weighed) }
            }
            None => Event::Note { text: "nothing to dose".into() },
        },
        8 | 9 => Event::Poured { layer: layer.name.clone(), mass: near(draw, layer.portion) },
        10 | 11 => Event::Reads { jug: jug.name.clone(), mass: near(draw, layer.reading.after) },
        12 => match draw.below(3) {
            0 => Event::Skipped { item: layer.name.clone(), vessel: None },
            1 => Event::Skipped { item: draw.one(&items).pointer.clone(), vessel: None },
            _ => Event::Skipped { item: "honey".into(), vessel },
        },
        13 => Event::Left {
            vessel: (*draw.one(&["pot", "lye", &jug.name])).to_owned(),
            mass: "5 g".parse().unwrap(),
        },
        14 => match draw.below(3) {
            0 => Event::Found {
                alkali: *draw.one(&Alkali::ALL),
                purity: Some(Share::literal(90, 2)),
                is: None,
            },
            1 => Event::Found {
                alkali: *draw.one(&Alkali::ALL),
                purity: None,
                is: Some(Alkali::PotassiumHydroxide),
            },
            _ => Event::Measured { of: Mixed::Lye, temperature: "41 °C".parse().unwrap() },
        },
        _ => Event::Added {
            item: (*draw.one(&["olive-oil", "coconut-oil", "honey", "water", "lye", "naoh"])).to_owned(),
            vessel: vessel.filter(|_| draw.once_in(2)),
            mass: "7.5 g".parse().unwrap(),
        },
    };
    Entry { at: draw.once_in(3).then(|| "10:42".to_owned()), event }
}
