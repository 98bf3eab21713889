//! Fats, alkali, water, lye, size and workshop.

use proptest::prelude::{Just, Strategy, any};
use proptest::prop_oneof;
use proptest::sample::{Index, select};
use serde_json::{Map, Value, json};

use super::layers::ShareKind;
use super::matter::{Place, doses};
use super::{number, put, split, text};
use crate::material::FatKind;
use crate::material::library::{self, Kind};

/// Fats by parts of ten thousand. The leading one is a triglyceride, has 40 % at least and is never held back, so that
/// there is alkali for the water to be reckoned on, whatever the others are.
#[derive(Clone, Debug)]
pub(super) struct Fats {
    /// Id, parts, whether it is held back where the process allows it.
    lines: Vec<(String, i64, bool)>,
    lead: String,
    certificate: Option<Value>,
    by: By,
}

#[derive(Clone, Copy, Debug)]
enum By {
    Share,
    /// Hundredths of a gram to a part.
    Grams(i64),
    /// Thousandths of an ounce to a part.
    Ounces(i64),
}

pub(super) fn fats() -> impl Strategy<Value = Fats> {
    let others = proptest::collection::vec((any::<Index>(), number(1, 100), any::<bool>()), 0..=9);
    let by = prop_oneof![
        3 => Just(By::Share),
        1 => (10_i64..=60).prop_map(By::Grams),
        1 => (4_i64..=20).prop_map(By::Ounces),
    ];
    (any::<Index>(), others, any::<Index>(), certificate(), by).prop_map(
        |(lead, others, at, certificate, by)| {
            let leads: Vec<&str> = library::fats()
                .iter()
                .filter(|fat| fat.kind == FatKind::Triglyceride)
                .map(|fat| fat.id.as_ref())
                .collect();
            let lead = (*lead.get(&leads)).to_owned();
            let mut chosen: Vec<(String, i64, bool)> = Vec::new();
            for (index, weight, held) in others {
                let id = index.get(&library::ids(Kind::Fat)).to_string();
                if id != lead && chosen.iter().all(|(known, _, _)| *known != id) {
                    chosen.push((id, weight, held));
                }
            }
            let place = at.index(chosen.len().saturating_add(1));
            chosen.insert(place, (lead.clone(), 50, false));
            let weights: Vec<i64> = chosen.iter().map(|(_, weight, _)| *weight).collect();
            let parts = split(6_000, &weights);
            let lines = chosen.into_iter().zip(parts).map(|((id, _, held), part)| {
                let part = if id == lead { part.saturating_add(4_000) } else { part };
                (id, part, held)
            });
            Fats { lines: lines.collect(), lead, certificate, by }
        },
    )
}

fn certificate() -> impl Strategy<Value = Option<Value>> {
    let stated = (1_700_i64..=2_600, number(0, 50), 890_i64..=930).prop_map(|(value, rest, density)| {
        json!({
            "saponification_value": text(value, 1, "mg KOH/g"),
            "unsaponifiable": text(rest, 1, "%"),
            "density": text(density, 3, "g/mL"),
            "iodine_value": "61.5",
            "profile": {"C16:0": "11 %", "C18:0": "4 %", "C18:1": "64.5 %", "C18:2": "19.5 %"},
        })
    });
    proptest::option::weighted(0.2, stated)
}

impl Fats {
    /// Whether the fats' own masses say how large the batch is.
    const fn say_the_size(&self) -> bool {
        !matches!(self.by, By::Share)
    }

    /// The lines of the document.
    pub(super) fn lines(&self, process: Option<&Value>) -> Value {
        let hot = process.is_some_and(|word| word == "hot");
        let line = |(id, part, held): &(String, i64, bool)| {
            let mut line = Map::new();
            put(&mut line, "fat", json!(id));
            match self.by {
                By::Share => put(&mut line, "share", text(*part, 2, "%")),
                By::Grams(each) => put(&mut line, "mass", text(part.saturating_mul(each), 2, "g")),
                By::Ounces(each) => put(&mut line, "mass", text(part.saturating_mul(each), 3, "oz")),
            }
            if hot && *held {
                put(&mut line, "stage", json!("after cook"));
            }
            if let Some(certificate) = self.certificate.as_ref().filter(|_| *id == self.lead) {
                put(&mut line, "certificate", certificate.clone());
            }
            Value::Object(line)
        };
        Value::Array(self.lines.iter().map(line).collect())
    }
}

pub(super) fn alkali() -> impl Strategy<Value = Value> {
    let grade = || (number(850, 980), number(0, 20));
    let of = |(purity, carbonate): (i64, i64)| {
        let mut grade = Map::new();
        put(&mut grade, "purity", text(purity, 1, "%"));
        put(&mut grade, "carbonate", text(carbonate, 1, "%"));
        grade
    };
    let share = (number(1, 999), 0..3_u8).prop_map(|(share, reading)| match reading {
        0 => text(share, 1, "%"),
        1 => json!({"pure_mass": text(share, 1, "%")}),
        _ => json!({"weighed_mass": text(share, 1, "%")}),
    });
    prop_oneof![
        2 => grade().prop_map(move |sodium| json!({"naoh": of(sodium)})),
        1 => grade().prop_map(move |potassium| json!({"koh": of(potassium)})),
        1 => Just(json!({"naoh": {}})),
        2 => (grade(), grade(), share).prop_map(move |(sodium, potassium, share)| {
            let mut potassium = of(potassium);
            put(&mut potassium, "share", share);
            json!({"naoh": of(sodium), "koh": potassium})
        }),
    ]
}

pub(super) fn superfat() -> impl Strategy<Value = Value> {
    let share = || number(0, 250).prop_map(|share| text(share, 1, "%"));
    prop_oneof![3 => share(), 1 => share().prop_map(|share| json!({"fat_excess": share}))]
}

pub(super) fn water() -> impl Strategy<Value = Value> {
    prop_oneof![
        number(250, 450).prop_map(|share| json!({"lye_concentration": text(share, 1, "%")})),
        number(125, 350).prop_map(|ratio| json!({"water_to_alkali": text(ratio, 2, "")})),
        number(250, 600).prop_map(|share| json!({"share_of_fat": text(share, 1, "%")})),
    ]
}

/// Liquids in place of some of the water, or all of it, and a little dissolved in it.
pub(super) fn lye(most: i64) -> impl Strategy<Value = Value> {
    let liquids = proptest::collection::vec((any::<Index>(), number(1, 20), any::<bool>()), 0..=3);
    (liquids, number(10, 100), doses(Place::Lye, most)).prop_map(|(drawn, whole, doses)| {
        let mut chosen: Vec<(String, i64, bool)> = Vec::new();
        for (index, weight, balance) in drawn {
            let id = index.get(&library::ids(Kind::Liquid)).to_string();
            if chosen.iter().all(|(known, _, _)| *known != id) {
                chosen.push((id, weight, balance));
            }
        }
        let weights: Vec<i64> = chosen.iter().map(|(_, weight, _)| *weight).collect();
        let shares = if weights.is_empty() { Vec::new() } else { split(whole.saturating_mul(10), &weights) };
        let line = |((id, _, balance), share): ((String, i64, bool), i64)| {
            let treatment = if balance { "balance" } else { "absorb" };
            json!({"liquid": id, "share": text(share, 1, "%"), "treatment": treatment})
        };
        let liquids: Vec<Value> = chosen.into_iter().zip(shares).map(line).collect();
        json!({"liquids": liquids, "doses": doses})
    })
}

/// How large the batch is; the form that is asked for gives way where fats or layers say it.
#[derive(Clone, Debug)]
pub(super) struct SizeDrawn {
    form: u8,
    hundredths: i64,
}

pub(super) fn size() -> impl Strategy<Value = SizeDrawn> {
    (0..6_u8, number(70_000, 1_200_000)).prop_map(|(form, hundredths)| SizeDrawn { form, hundredths })
}

impl SizeDrawn {
    /// The field of the document, if it is to have one.
    pub(super) fn of(&self, fats: &Fats, shares: ShareKind) -> Option<Value> {
        let own = matches!(shares, ShareKind::Mass | ShareKind::Volume | ShareKind::Height);
        if fats.say_the_size() || (own && self.form < 3) {
            return None;
        }
        let ounces = self.hundredths.div_euclid(30);
        Some(match self.form {
            0 => json!({"fat": text(self.hundredths, 2, "g")}),
            1 => json!({"fat": text(ounces, 2, "oz")}),
            2 => json!({"batter": text(self.hundredths, 2, "g")}),
            3 => json!({"batter": text(ounces, 2, "oz")}),
            4 => {
                json!({"bars": self.hundredths.div_euclid(8_000), "each": text(self.hundredths.div_euclid(100).clamp(900, 1_500), 1, "g")})
            }
            _ => json!({"moulds": "filled"}),
        })
    }
}

/// Sets of scales that carry every batch, and what stays behind.
pub(super) fn workshop() -> impl Strategy<Value = Value> {
    let scale =
        |name: &str, step: &str, capacity: &str| json!({"scale": name, "step": step, "capacity": capacity});
    let fine = scale("fine", "0.01 g", "200 g");
    let bench = scale("bench", "0.1 g", "3 kg");
    let floor = scale("floor", "1 g", "60 kg");
    let ounces = scale("ounces", "0.05 oz", "120 lb");
    let wide = scale("wide", "0.1 g", "60 kg");
    let sets = vec![
        json!([fine, bench, floor]),
        json!([bench, floor]),
        json!([fine, wide]),
        json!([floor]),
        json!([ounces]),
    ];
    (select(sets), number(0, 20), number(0, 40), number(0, 30)).prop_map(|(scales, jug, pot, lye)| {
        json!({
            "scales": scales,
            "jug_residue": text(jug, 1, "g"),
            "pot_residue": text(pot, 1, "g"),
            "lye_residue": text(lye, 1, "g"),
        })
    })
}

pub(super) fn temperatures() -> impl Strategy<Value = Value> {
    (number(200, 700), number(180, 850))
        .prop_map(|(fats, lye)| json!({"fats": text(fats, 1, "°C"), "lye": text(lye, 1, "°C")}))
}

/// What the recipe says besides its figures, and how it is made.
pub(super) fn words() -> impl Strategy<Value = Map<String, Value>> {
    let names = select(vec!["Drift", "Ühr \"quoted\" \\ bar", "霞 layers", "a"]);
    let notes = select(vec!["", "Stir slowly, then wait."]);
    (names, notes, any::<bool>(), any::<bool>(), number(0, 300)).prop_map(|(name, note, sale, hot, cured)| {
        let mut top = Map::new();
        put(&mut top, "lamella", json!("recipe/1"));
        put(&mut top, "name", json!(name));
        put(&mut top, "note", json!(note));
        put(&mut top, "for", json!(if sale { "sale" } else { "household" }));
        put(&mut top, "process", json!(if hot { "hot" } else { "cold" }));
        put(&mut top, "cured_water", text(cured, 1, "%"));
        top
    })
}
