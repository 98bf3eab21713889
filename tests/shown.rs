//! Two cases worked out by hand, step by step, and what the plan makes of them.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test stops at what it did not expect"
)]

use lamella::Plan;
use lamella::batch::{Reading, pours};
use lamella::chemistry::{Part, Stage};
use lamella::material::atoms::molar;
use lamella::quantity::{Exact, Mass, Share};

fn plan(text: &str) -> Plan {
    let recipe = lamella::recipe::read(text)
        .unwrap_or_else(|problems| panic!("{}", lamella::recipe::render(&problems, text, "shown.json")));
    Plan::of(&recipe).unwrap()
}

fn grams(text: &str) -> Mass {
    text.parse().unwrap()
}

fn texts(masses: impl IntoIterator<Item = Mass>) -> Vec<String> {
    masses.into_iter().map(|mass| mass.to_string()).collect()
}

/// One layer or more of olive oil alone: 190 mg KOH/g; sodium hydroxide of 98 %, the rest water; superfat 5 %; lye of 33 %.
fn olive(more: &str) -> String {
    format!(
        r#"{{"lamella": "recipe/1", "name": "Shown", "superfat": "5 %",
        "fats": [{{"fat": "olive-oil", "share": "100 %"}}], "alkali": {{"naoh": {{"purity": "98 %"}}}},
        "water": {{"lye_concentration": "33 %"}},
        "workshop": {{"scales": [{{"scale": "bench", "step": "0.1 g", "capacity": "3 kg"}}]}}, {more}}}"#
    )
}

/// A jug of 78 g shows 335 g, so 257.0 g are in it. A third is 85.666... g, on a scale of 0.1 g 856 steps and two thirds
/// of one each; three times 856 steps are 256.8 g, and the two steps that are missing go to the first two portions. The
/// scale then shows 335.0 - 85.7 = 249.3, 249.3 - 85.7 = 163.6 and 163.6 - 85.6 = 78.0 g: the jug is empty.
///
/// Source: common practice, no source.
fn thirds(readings: &[Reading]) {
    assert_eq!(texts(readings.iter().map(Reading::portion)), ["85.7 g", "85.7 g", "85.6 g"]);
    assert_eq!(readings.iter().map(Reading::portion).sum::<Mass>(), grams("257.0 g"));
    assert_eq!(readings[0].before, grams("335.0 g"));
    assert_eq!(texts(readings.iter().map(|reading| reading.after)), ["249.3 g", "163.6 g", "78 g"]);
}

#[test]
fn a_jug_in_three_equal_portions() {
    let [gross, tare, stays, step] = ["335 g", "78 g", "0 g", "0.1 g"].map(grams);
    thirds(&pours(gross, tare, stays, step, &[Exact::ONE; 3]).unwrap());
}

/// The same jug in a plan: 257 g of batter in three layers from one jug.
///
/// A gram of the oil takes 0.19 x 0.95 g KOH, that is 0.19 x 0.95 x 39.99676928 / 56.1053 = 0.1286762 g of sodium hydroxide,
/// 0.1313022 g of it at 98 %; and 0.1286762 x 67 / 33 = 0.2612517 g of water, of which 0.0026260 g come with the alkali. So
/// a gram of oil makes 1 + 0.1313022 + 0.2586256 = 1.3899279 g of batter, and 257 g of batter take 184.90168 g of oil,
/// 24.27801 g of alkali and 47.82031 g of water: 184.9 + 24.3 + 47.8 = 257.0 g as weighed.
#[test]
fn three_layers_out_of_one_jug() {
    let plan = plan(&olive(
        r#""size": {"batter": "257 g"}, "jugs": [{"jug": "white", "tare": "78 g"}], "layers": [
            {"layer": "low", "share": "1 part", "jug": "white"}, {"layer": "middle", "share": "1 part", "jug": "white"},
            {"layer": "high", "share": "1 part", "jug": "white"}]"#,
    ));
    let jug = &plan.jugs[0];
    let near = |mass: Mass| mass.value().round_dp(5).to_string();
    assert_eq!(near(plan.pot.fats[0].ideal), "184.90168");
    assert_eq!(near(plan.lye.alkalis[0].ideal), "24.27801");
    assert_eq!(near(plan.lye.water.ideal), "47.82031");
    assert_eq!(
        texts([plan.pot.total, plan.lye.alkalis[0].weighed, plan.lye.water.weighed]),
        ["184.9 g", "24.3 g", "47.8 g"]
    );
    assert_eq!((jug.net, jug.gross, jug.left), (grams("257.0 g"), grams("335.0 g"), Mass::ZERO));
    thirds(&plan.layers.iter().map(|layer| layer.reading).collect::<Vec<_>>());

    // Each portion has its own fat's lye in it: every one of them has the superfat of the jug.
    for layer in 0..3 {
        let makeup = plan.makeup(layer, Stage::Pour, Share::ZERO).unwrap();
        let fat = (makeup.mass(Part::Fat) + makeup.mass(Part::Unsaponifiable)).exact();
        let met =
            makeup.mass(Part::Alkali).exact() * molar::KOH / molar::NAOH / (fat * Exact::literal(19, 2));
        assert_eq!((Exact::ONE - met).rounded(8), jug.superfat.exact().rounded(8), "{layer}");
    }
}

/// The same where the jug is the pot of oil, and each portion of it gets lye for its own fat: 257 g of oil, three layers with
/// a jug each.
///
/// The lye: 257 x 0.1313022 = 33.74468 g of alkali and 257 x 0.2586256 = 66.46679 g of water, weighed 33.7 and 66.5 g, in all
/// 100.2 g, a third of which is 33.4 g. From its own fat, 85.7 g of oil want 85.7 x 0.3899279 = 33.41682 g of it and 85.6 g
/// want 33.37783 g: on the scale 33.4 g for each.
///
/// The superfat of what is weighed: 33.4 / 100.2 x 33.7 x 0.98 = 11.0086667 g of sodium hydroxide are
/// 15.4423609 g of KOH. The first two portions demand 85.7 x 0.19 = 16.283 g, so 1 - 15.4423609 / 16.283 = 5.162680 % stays
/// unmet; the last demands 16.264 g, so 5.051888 %.
#[test]
fn three_portions_of_fat_and_their_lye() {
    let plan = plan(&olive(
        r#""size": {"fat": "257 g"}, "layers": [{"layer": "low", "share": "1 part"},
            {"layer": "middle", "share": "1 part"}, {"layer": "high", "share": "1 part"}]"#,
    ));
    let jugs = &plan.jugs;
    assert_eq!(texts(jugs.iter().map(|jug| jug.portion.weighed)), ["85.7 g", "85.7 g", "85.6 g"]);
    assert_eq!(texts(jugs.iter().map(|jug| jug.lye.weighed)), ["33.4 g"; 3]);
    assert_eq!(plan.lye.total, grams("100.2 g"));
    let per_gram = Exact::literal(3_899_279, 7);
    for jug in jugs {
        let own = (jug.portion.weighed.exact() * per_gram).steps(Exact::literal(1, 1)).unwrap();
        assert_eq!(Exact::from(own) * Exact::literal(1, 1), jug.lye.weighed.exact());
    }
    let superfats: Vec<String> =
        jugs.iter().map(|jug| jug.superfat.value().round_dp(8).to_string()).collect();
    assert_eq!(superfats, ["0.05162680", "0.05162680", "0.05051888"]);
    let ideal: Vec<String> = jugs.iter().map(|jug| jug.superfat_ideal.to_string()).collect();
    assert_eq!(ideal, ["5 %"; 3]);
}

/// A seed butter at 12 % of a layer's fat: what it does to the superfat, without and with lye of its own.
///
/// 1. 1000 g of olive oil of 190 mg KOH/g demand 190 g KOH.
/// 2. 12 % of 1000 g are 120 g of tahini. 53.76 % of it is fat: 64.512 g.
/// 3. That fat is sesame oil, of 190.5 mg KOH/g: it demands 64.512 x 0.1905 = 12.289536 g KOH.
/// 4. Together 202.289536 g KOH.
/// 5. Superfat 5 %: the lye is made for 190 x 0.95 = 180.5 g KOH.
/// 6. Absorbed, nothing is added: 202.289536 - 180.5 = 21.789536 g stay unmet, which is 21.789536 / 202.289536 =
///    10.771 459 775 359 %. The maker who asked for 5 % gets more than twice that.
/// 7. Balanced, the lye follows by 12.289536 x 0.95 = 11.6750592 g KOH, so that 202.289536 x 0.05 = 10.1144768 g stay unmet:
///    5 % of 202.289536 g.
/// 8. 11.6750592 g KOH are 11.6750592 x 39.99676928 / 56.1053 = 8.323004229 g of sodium hydroxide, 8.492861457862 g of it at
///    98 %: in all 131.302245828789 g without and 139.795107286651 g with balance.
#[test]
fn seed_butter_at_twelve_per_cent() {
    let with = |treatment: &str| {
        plan(&olive(&format!(
            r#""size": {{"fat": "1 kg"}}, "layers": [{{"layer": "all", "share": "1 part",
                "doses": [{{"additive": "tahini", "dose": "12 %", "treatment": "{treatment}"}}]}}]"#
        )))
    };
    let (absorbed, balanced) = (with("absorb"), with("balance"));
    for plan in [&absorbed, &balanced] {
        assert_eq!(plan.jugs[0].doses[0].weighed, grams("120 g"));
    }
    assert_eq!(absorbed.jugs[0].superfat_ideal.to_string(), "10.7714597754 %");
    assert_eq!(balanced.jugs[0].superfat_ideal.to_string(), "5 %");
    assert_eq!(absorbed.lye.alkalis[0].ideal, grams("131.302245828789 g"));
    assert_eq!(balanced.lye.alkalis[0].ideal, grams("139.795107286651 g"));
    // What the batch demands is the same; only the lye is another.
    for plan in [&absorbed, &balanced] {
        assert_eq!(plan.batch.demand_koh, grams("202.289536 g"));
    }
    // The maker is told: without balance the superfat has moved.
    let codes = |plan: &Plan| plan.cautions.iter().map(|caution| caution.code).collect::<Vec<_>>();
    assert!(codes(&absorbed).contains(&"superfat.moved"));
    assert!(!codes(&balanced).contains(&"superfat.moved"));

    // As weighed on the scale of 0.1 g: 131.3 g of alkali are 131.3 x 0.98 x 56.1053 / 39.99676928 = 180.496913 g KOH, so
    // (202.289536 - 180.496913) / 202.289536 = 10.772986 % stay unmet.
    let superfat = absorbed.jugs[0].superfat.value().round_dp(8);
    assert_eq!(superfat.to_string(), "0.10772986");
}
