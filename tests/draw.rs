//! Numbers and recipes drawn from a seed, the same on every machine.
#![expect(
    clippy::arithmetic_side_effects,
    clippy::float_arithmetic,
    clippy::indexing_slicing,
    clippy::cast_possible_truncation,
    reason = "a test stops where a draw is not as it should be"
)]

use std::fmt::Write;

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
