//! What is shown: one figure reads the same wherever it stands, and what is beyond a limit reads as beyond it.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test stops at what it did not expect"
)]

use lamella::batch::{CAUTION_CODES, Caution, Hold};
use lamella::market::dossier::{Dossier, DossierOptions};
use lamella::market::label::{self, LabelFacts};
use lamella::market::{ListOptions, Market, Style, envelope, scents};
use lamella::material::Class;
use lamella::quantity::{Decimal, Exact, Share, shown};
use lamella::recipe::{self, Recipe};
use lamella::{Plan, laws, screen, sheet};
use proptest::prelude::*;
use serde_json::{Value, json};

fn made(document: &Value) -> (Recipe, Plan) {
    let text = document.to_string();
    let recipe = recipe::read(&text)
        .unwrap_or_else(|problems| panic!("{}", recipe::render(&problems, &text, "figures.json")));
    let plan = Plan::of(&recipe).unwrap_or_else(|problems| panic!("{problems:#?}"));
    (recipe, plan)
}

/// The numbers of a text, in their order.
fn numbers(text: &str) -> Vec<Decimal> {
    let parts = text.split(|letter: char| !(letter.is_ascii_digit() || matches!(letter, '.' | '-')));
    parts.filter_map(|part| part.parse().ok()).collect()
}

/// How what is found stands to its limit, by the code of the caution.
enum Way {
    Above,
    Below,
    /// Outside a range.
    Outside,
    /// Two figures, each above its limit.
    BothAbove,
    /// As high as the limit, or below.
    UpTo,
    /// The caution has no such figures, or none that one side of would be wrong.
    None,
}

const ABOVE: [&str; 14] = [
    "lye.saturated",
    "lye.strong",
    "lye.salt",
    "lye.alcohol",
    "jug.alcohol",
    "jug.sugar",
    "jug.water-uneven",
    "additive.fresh",
    "additive.late-water",
    "colour.high",
    "scent.high",
    "scent.limit",
    "mould.over",
    "temperature.apart",
];
const BELOW: [&str; 7] = [
    "superfat.lye-heavy",
    "lye.weak",
    "lye.little-water",
    "lye.undissolved",
    "lye.plain-water",
    "batch.small",
    "weigh.few-steps",
];
const NONE: [&str; 8] = [
    "superfat.moved",
    "lye.misplaced",
    "jug.waits",
    "additive.allergen",
    "colour.unstable",
    "scent.vanillin",
    "scent.pace",
    "sale.assessment",
];

fn way(code: &str) -> Way {
    match code {
        "superfat.low" | "superfat.high" | "temperature.range" => Way::Outside,
        "fat.poly-unsaturated" => Way::BothAbove,
        "scent.flash" => Way::UpTo,
        code if ABOVE.contains(&code) => Way::Above,
        code if BELOW.contains(&code) => Way::Below,
        code if NONE.contains(&code) => Way::None,
        other => panic!("no rule for {other}"),
    }
}

#[test]
fn every_caution_has_a_rule_here() {
    for (code, _) in CAUTION_CODES {
        way(code);
    }
}

/// Whether the printed figure stands to the printed limit as the caution says.
fn reads_as_meant(caution: &Caution) -> bool {
    let (figure, limit) = (numbers(&caution.figure), numbers(&caution.limit));
    match (way(caution.code), figure.as_slice(), limit.as_slice()) {
        (Way::None, ..) => true,
        (Way::Above, [found, ..], [limit, ..]) => found > limit,
        (Way::Below, [found, ..], [limit, ..]) => found < limit,
        (Way::UpTo, [found, ..], [limit, ..]) => found >= limit,
        (Way::Outside, [found, ..], [low, high, ..]) => found < low || found > high,
        (Way::BothAbove, [a, b], [of_a, of_b]) => a > of_a && b > of_b,
        _ => false,
    }
}

/// The plan's own figure in a unit, rounded once.
fn once(published: &impl ToString, unit: &str, decimals: u32) -> String {
    shown(&published.to_string(), unit, Some(decimals)).unwrap()
}

/// The same figure on the sheet, in the composition for the assessor and where it is explained, each at the decimals of that
/// place, is the published one rounded once.
fn reads_the_same(recipe: &Recipe, plan: &Plan) {
    let page = sheet::text(plan);
    let indices = &plan.batch.indices;
    let notes = Dossier::of(plan, recipe, DossierOptions::default()).unwrap().stability;
    let note = |of: &str, start: &str| {
        let found =
            notes.iter().find_map(|note| (note.of == of).then_some(note.says.as_str())?.strip_prefix(start));
        found.and_then(|rest| rest.split_whitespace().next()).map(str::to_owned)
    };
    let poly = indices.classes.iter().find(|line| line.class == Class::PolyUnsaturated).unwrap();
    assert_eq!(note("fats", "poly-unsaturated "), Some(once(&poly.share, "%", 1)));
    for (index, jug) in plan.jugs.iter().enumerate() {
        assert_eq!(note(&jug.name, "superfat "), Some(once(&jug.superfat, "%", 2)), "{}", jug.name);
        let (exact, weighed) = (once(&jug.superfat_ideal, "%", 2), once(&jug.superfat, "%", 2));
        let flat = page.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(
            flat.contains(&format!("exact {exact} %, as weighed {weighed} %")),
            "{exact} {weighed}\n{page}"
        );
        let explained = screen::explain(recipe, plan, &format!("density/{index}")).unwrap();
        let density = explained.from.iter().find(|input| input.name == "density");
        if let Some(density) = density {
            assert_eq!(density.value, format!("{} g/mL", once(&jug.density, "g/mL", 3)));
        }
    }
    for (index, layer) in plan.layers.iter().enumerate() {
        let Some(height) = layer.heights.first() else { continue };
        let explained = screen::explain(recipe, plan, &format!("height/{index}")).unwrap();
        let told = format!("{:?}", explained.from);
        for end in [height.from, height.to] {
            let wanted = once(&end, "mm", 1);
            assert!(told.contains(&wanted) && page.contains(&wanted), "{wanted} {told}\n{page}");
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn one_figure_reads_the_same_on_every_page(text in laws::strategy::documents()) {
        let recipe = recipe::read(&text).unwrap();
        reads_the_same(&recipe, &Plan::of(&recipe).unwrap());
    }

    #[test]
    fn every_caution_reads_as_it_is_meant(text in laws::strategy::documents()) {
        let plan = Plan::of(&recipe::read(&text).unwrap()).unwrap();
        for caution in &plan.cautions {
            prop_assert!(reads_as_meant(caution), "{:#?}", caution);
        }
    }
}

/// A kilogram of fat on a scale that weighs a dose of it to a hundred-thousandth.
fn base() -> Value {
    json!({
        "lamella": "recipe/1", "name": "At the edge", "superfat": "5 %", "size": { "fat": "1000 g" },
        "fats": [{ "fat": "olive-oil", "share": "80 %" }, { "fat": "coconut-oil", "share": "20 %" }],
        "alkali": { "naoh": {} }, "water": { "lye_concentration": "33 %" },
        "layers": [{ "layer": "All", "share": "1 part" }],
        "workshop": { "scales": [{ "scale": "fine", "step": "0.001 g", "capacity": "5 kg" }], "jug_residue": "0 g",
            "pot_residue": "0 g", "lye_residue": "0 g" },
    })
}

fn changed(path: &str, value: Value) -> Value {
    let mut document = base();
    match path.split_once('/') {
        Some((field, below)) => document[field][0][below] = value,
        None => document[path] = value,
    }
    document
}

/// The caution of a code, which must read as it is meant.
fn raised(document: &Value, code: &str) -> Option<Caution> {
    let (_, plan) = made(document);
    let found = plan.cautions.into_iter().find(|caution| caution.code == code);
    assert!(found.as_ref().is_none_or(reads_as_meant), "{found:#?}");
    found
}

/// On each side of a limit, by less than its usual decimals show: the one is told and reads as beyond it, the other is not
/// told at all.
#[test]
fn cautions_a_hair_beyond_their_limits() {
    let dose = |list: &str, key: &str, id: &str, share: &str| {
        changed(&format!("layers/{list}"), json!([{ key: id, "dose": share }]))
    };
    let warm = |fats: &str, lye: &str| changed("temperatures", json!({ "fats": fats, "lye": lye }));
    let fat = |mass: &str| changed("size", json!({ "fat": mass }));
    let cases = [
        (
            "scent.high",
            dose("scents", "scent", "bergamot", "3.02 %"),
            dose("scents", "scent", "bergamot", "3 %"),
            "3.02 %",
        ),
        (
            "additive.fresh",
            dose("doses", "additive", "pumpkin-puree", "10.004 %"),
            dose("doses", "additive", "pumpkin-puree", "10 %"),
            // The little fat of the puree is fat of the jug too.
            "10.001 %",
        ),
        ("batch.small", fat("299.7 g"), fat("300 g"), "299.7 g"),
        ("temperature.apart", warm("45.04 °C", "35 °C"), warm("45 °C", "35 °C"), "10.04 °C"),
        ("temperature.range", warm("50.04 °C", "45 °C"), warm("50 °C", "45 °C"), "50.04 °C"),
        ("temperature.range", warm("25 °C", "19.96 °C"), warm("25 °C", "20 °C"), "19.96 °C"),
        ("superfat.low", changed("superfat", json!("2.98 %")), changed("superfat", json!("3.1 %")), "2.98 %"),
        (
            "superfat.high",
            changed("superfat", json!("8.02 %")),
            changed("superfat", json!("7.9 %")),
            "8.02 %",
        ),
    ];
    for (code, beyond, within, figure) in cases {
        let caution = raised(&beyond, code).unwrap_or_else(|| panic!("{code} is not raised"));
        assert!(caution.figure.starts_with(figure), "{caution:#?}");
        assert_eq!(raised(&within, code), None, "{code}");
    }
}

/// Less superfat than none by a ten-thousandth of a per cent is a shortage too, and reads as one.
#[test]
fn the_least_shortage_does_not_read_as_none() {
    let why = |superfat: Option<&str>, free_alkali: Option<&str>| {
        let share = |text: &str| text.parse::<Share>().unwrap();
        let (superfat, free_alkali) = (superfat.map(share), free_alkali.map(share));
        Hold { layer: "Sea".to_owned(), superfat, worst: superfat, free_alkali }.why()
    };
    assert_eq!(why(Some("-0.0004 %"), None), "superfat -0.0004 %, worst case -0.0004 %");
    assert_eq!(why(Some("-2.664 %"), None), "superfat -2.66 %, worst case -2.66 %");
    assert_eq!(why(None, Some("0.0501 %")), "tested: 0.0501 % free alkali, at most 0.05 % allowed");
    assert_eq!(why(None, Some("0.2 %")), "tested: 0.200 % free alkali, at most 0.05 % allowed");
}

/// A scent a hair above what its certificate allows: the caution and the label print more than the limit, and what the label
/// says may be in the batch is not rounded up.
#[test]
fn a_scent_a_hair_above_its_certificate() {
    let limited = |limit: &Share| {
        let certificate = json!({ "reference": "L1", "limit": limit.to_string() });
        changed(
            "layers/scents",
            json!([{ "scent": "bergamot", "dose": "1.3 %", "certificate": certificate }]),
        )
    };
    let (recipe, plan) = made(&limited(&Share::literal(1, 6)));
    let found = scents(&plan, &recipe, None, false).unwrap().scents[0].cured;
    for decimals in 2..9 {
        // The share less one step of its own decimals, so that it is above the limit by less than that.
        let step = Exact::literal(1, decimals + 2);
        let limit = Share::try_new(step.times(found.exact().whole_steps(step).unwrap())).unwrap();
        let document = limited(&limit);
        let caution = raised(&document, "scent.limit").unwrap();
        assert_eq!(caution.limit, limit.to_string());
        let (recipe, plan) = made(&document);
        let verdict = envelope::verdict(&plan, &recipe, None).unwrap();
        let list = ListOptions::new(Market::EuropeanUnion, Style::AsCharged);
        let label = label::label(&plan, &recipe, &LabelFacts::default(), &list, &verdict).unwrap();
        let note = label.notes.iter().find(|note| note.starts_with("OVER ITS LIMIT")).unwrap();
        let [_, cured, of_limit, room] = numbers(note)[..] else { panic!("{note}") };
        assert!(cured > of_limit, "{note}");
        let largest = scents(&plan, &recipe, None, false).unwrap().scents[0].largest.unwrap();
        assert!(room <= largest.value(), "{note} {largest}");
    }
}
