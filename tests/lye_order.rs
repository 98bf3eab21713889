//! The order in which lye is made, on the sheet and at the bench, and what is said of it.
#![expect(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

use lamella::batch::Work;
use lamella::laws::{self, strategy};
use lamella::recipe;
use lamella::screen::tasks;
use lamella::{Plan, sheet};
use proptest::prelude::*;
use serde_json::{Value, json};

/// Olive and coconut, lye of two parts water to one of alkali.
fn document(changes: Value) -> Value {
    let mut document = json!({
        "lamella": "recipe/1", "name": "Trial", "superfat": "5 %",
        "fats": [{"fat": "olive-oil", "share": "70 %"}, {"fat": "coconut-oil", "share": "30 %"}],
        "alkali": {"naoh": {"purity": "100 %"}},
        "water": {"water_to_alkali": "2"},
        "size": {"fat": "1 kg"},
        "layers": [{"layer": "All", "share": "1 part"}],
        "workshop": {"scales": [{"scale": "fine", "step": "0.001 g", "capacity": "60 kg"}]},
    });
    document.as_object_mut().unwrap().extend(changes.as_object().unwrap().clone());
    document
}

fn plan(changes: Value) -> Plan {
    Plan::of(&recipe::read(&document(changes).to_string()).unwrap()).unwrap()
}

fn liquids(lines: &[(&str, &str)]) -> Value {
    lines.iter().map(|(id, share)| json!({"liquid": id, "share": share})).collect()
}

/// The work on the lye as the bench has it: the name of what is weighed, or the key of what is done.
fn bench(plan: &Plan) -> Vec<String> {
    let lye = |work| matches!(work, Work::Freeze | Work::MakeLye);
    let mine = tasks(plan).into_iter().filter(|task| lye(task.work));
    mine.map(|task| task.weigh.map_or(task.key, |weigh| weigh.item)).collect()
}

/// The order of work of the sheet, in one line.
fn paper(plan: &Plan) -> String {
    let text = sheet::text(plan);
    let (_, order) = text.split_once("Order of work\n").unwrap();
    let words: Vec<&str> = order.split("\n\n\n").next().unwrap().split_whitespace().collect();
    words.join(" ")
}

/// The sheet names what the bench weighs, once each and in the same order.
fn paper_is_as_the_bench(plan: &Plan) {
    let paper = paper(plan);
    let mut from = 0;
    for task in tasks(plan).iter().filter(|task| matches!(task.work, Work::Freeze | Work::MakeLye)) {
        let Some(weigh) = &task.weigh else { continue };
        let line = format!("{:.3} g {}", weigh.mass.value(), weigh.item);
        assert_eq!(paper.matches(&line).count(), 1, "{line}: {paper}");
        let at = paper.find(&line).unwrap();
        assert!(at >= from, "{line} comes too early: {paper}");
        from = at;
    }
}

fn caution<'p>(plan: &'p Plan, code: &str) -> Option<&'p lamella::batch::Caution> {
    plan.cautions.iter().find(|caution| caution.code == code)
}

#[test]
fn vinegar_goes_into_the_water_and_not_into_hot_strong_lye() {
    let plan = plan(json!({"lye": {"liquids": liquids(&[("vinegar-cider", "50 %")])}}));
    assert_eq!(bench(&plan), ["Water", "Vinegar, cider", "sodium hydroxide", "dissolve", "cool"]);
    paper_is_as_the_bench(&plan);
    // The alkali meets the water of both, and no caution asks for more plain water.
    assert_eq!(plan.lye.dissolving.water_to_alkali, plan.lye.figures.water_to_alkali);
    assert!(paper(&plan).contains("Then it is lye of 33.3 %, 2.00 of water to one of alkali."));
    assert!(
        paper(&plan)
            .contains("It grows very hot and gives off caustic fumes. The acid heats it too: go slower.")
    );
    assert_eq!(caution(&plan, "lye.plain-water"), None);
}

#[test]
fn acid_then_sugar_and_salt_dissolve_in_the_water_before_the_alkali() {
    let doses = json!([
        {"additive": "sugar", "dose": "10 g"},
        {"additive": "salt", "dose": "5 g"},
        {"additive": "citric-acid-anhyd", "dose": "6 g"}
    ]);
    let plan = plan(json!({"lye": {"doses": doses}}));
    let wanted = [
        "Water",
        "Citric acid anhydrous",
        "Sugar, granulated (sucrose)",
        "Salt, table (NaCl)",
        "stir water",
        "sodium hydroxide",
        "dissolve",
        "cool",
    ];
    assert_eq!(bench(&plan), wanted);
    paper_is_as_the_bench(&plan);
}

#[test]
fn silk_goes_into_hot_lye_and_lactate_into_cooled() {
    let doses = json!([
        {"additive": "sodium-lactate-60", "dose": "20 g"},
        {"additive": "silk-fibre", "dose": "1 g"}
    ]);
    let warm = plan(json!({"lye": {"doses": doses}, "temperatures": {"lye": "50 °C"}}));
    let wanted = [
        "Water",
        "sodium hydroxide",
        "dissolve",
        "Silk (tussah) fibre",
        "hot",
        "cool",
        "Sodium lactate 60 % solution",
        "last lye",
    ];
    assert_eq!(bench(&warm), wanted);
    paper_is_as_the_bench(&warm);
    assert!(!paper(&warm).contains("below 50 °C"));
    let hot = plan(json!({"lye": {"doses": doses}, "temperatures": {"lye": "51 °C"}}));
    assert!(paper(&hot).contains("Once the lye is clear and below 50 °C, stir it in."), "{}", paper(&hot));
    // What comes later is not there yet when the alkali goes in: 40 % of 20 g, and 10 % of 1 g.
    let (met, all) = (warm.lye.dissolving.water, warm.lye.figures.water);
    assert_eq!(all - met, "8.1 g".parse().unwrap());
    assert!(warm.lye.dissolving.concentration > warm.lye.figures.concentration);
}

#[test]
fn milk_is_frozen_to_slush_the_day_before_and_its_lye_stays_cold() {
    let milk = |lye: &str| {
        plan(json!({
            "lye": {"liquids": liquids(&[("goat-milk", "50 %")])}, "temperatures": {"lye": lye}
        }))
    };
    let plan = milk("35 °C");
    let wanted = ["Water", "Goat milk", "freeze", "before dissolve", "sodium hydroxide", "dissolve", "cool"];
    assert_eq!(bench(&plan), wanted);
    paper_is_as_the_bench(&plan);
    let steps: Vec<Work> = plan.steps.iter().map(|step| step.work).take(4).collect();
    assert_eq!(steps, [Work::Freeze, Work::Prepare, Work::Protect, Work::MakeLye]);
    let paper = paper(&plan);
    for words in [
        "1 The day before. Weigh",
        "Freeze all of it in the vessel, and let it thaw to slush before going on.",
        "Stand the open lye vessel in ice water, where air moves: sugar in lye gives off some carbon monoxide.",
        "in small portions over 10 to 20 minutes, so that it stays below 30 °C",
        "Keep it below 30 °C until it goes to the fats.",
    ] {
        assert!(paper.contains(words), "{words}: {paper}");
    }
    assert!(!paper.contains("35 °C"), "{paper}");
    assert!(self::paper(&milk("30 °C")).contains("Let it come to 30 °C."));
}

#[test]
fn beer_is_boiled_flat_before_it_is_weighed() {
    let plan = plan(json!({"lye": {"liquids": liquids(&[("beer", "100 %")])}}));
    let wanted =
        ["before boil", "Beer, regular", "freeze", "before dissolve", "sodium hydroxide", "dissolve", "cool"];
    assert_eq!(bench(&plan), wanted);
    paper_is_as_the_bench(&plan);
    assert!(
        paper(&plan).contains("1 Two days before. Boil Beer, regular until flat and all spirit is gone;")
    );
}

#[test]
fn honey_in_the_lye_is_frozen_with_the_water_and_told_to_go_elsewhere() {
    let plan = plan(json!({"lye": {"doses": [{"additive": "honey", "dose": "15 g"}]}}));
    let wanted = ["Water", "Honey", "freeze", "before dissolve", "sodium hydroxide", "dissolve", "cool"];
    assert_eq!(bench(&plan), wanted);
    paper_is_as_the_bench(&plan);
    let said = caution(&plan, "lye.misplaced").unwrap();
    assert_eq!((said.pointer.as_str(), said.figure.as_str()), ("/lye/doses/0", "15.0 g in the lye"));
}

#[test]
fn powder_and_oil_go_last_and_are_told_to_go_elsewhere() {
    for (key, id) in [("additive", "kaolin"), ("additive", "vitamin-e-mixed"), ("fat", "olive-oil")] {
        let plan = plan(json!({"lye": {"doses": [{key: id, "dose": "5 g"}]}}));
        let order = bench(&plan);
        assert_eq!(order[..4], ["Water", "sodium hydroxide", "dissolve", "cool"], "{id}");
        assert_eq!(order[5..], ["last lye"], "{id}");
        assert!(caution(&plan, "lye.misplaced").is_some(), "{id}");
    }
    let sugar = plan(json!({"lye": {"doses": [{"additive": "sugar", "dose": "5 g"}]}}));
    assert_eq!(caution(&sugar, "lye.misplaced"), None);
}

#[test]
fn vinegar_and_milk_in_one_lye_are_both_there_before_the_alkali() {
    let lines = liquids(&[("goat-milk", "40 %"), ("tea-green", "30 %"), ("wine-red", "10 %")]);
    let plan = plan(json!({"lye": {"liquids": lines, "doses": [{"additive": "salt", "dose": "2 g"}]}}));
    let wanted = [
        "before boil",
        "Wine, table, red",
        "Water",
        "Tea, green, brewed",
        "Salt, table (NaCl)",
        "stir water",
        "Goat milk",
        "freeze",
        "before dissolve",
        "sodium hydroxide",
        "dissolve",
        "cool",
    ];
    assert_eq!(bench(&plan), wanted);
    paper_is_as_the_bench(&plan);
}

#[test]
fn ready_made_lye_is_poured_into_the_water_and_never_stirred_like_a_solid() {
    let with = |purity: &str| {
        plan(json!({
            "alkali": {"naoh": {"purity": purity}},
            "lye": {"liquids": liquids(&[("vinegar-cider", "50 %")])}
        }))
    };
    let ready = with("60 %");
    assert_eq!(
        bench(&ready),
        ["Water", "Vinegar, cider", "before dilute", "sodium hydroxide", "dilute", "cool"]
    );
    paper_is_as_the_bench(&ready);
    let words = paper(&ready);
    assert!(words.contains("Pour it slowly into the lye vessel, stirring"), "{words}");
    assert!(!words.contains("until all is dissolved"), "{words}");
    assert!(words.contains("The acid heats it too: go slower."), "{words}");
    let solid = with("60.1 %");
    assert_eq!(bench(&solid), ["Water", "Vinegar, cider", "sodium hydroxide", "dissolve", "cool"]);
}

/// The solid dissolves in what the ready-made lye has become, so that the last alkali meets the least water.
#[test]
fn ready_made_lye_comes_before_solid_alkali_and_weak_before_strong() {
    let with = |sodium: &str, potassium: &str| {
        let koh = json!({"purity": potassium, "share": "40 %"});
        let plan = plan(json!({"alkali": {"naoh": {"purity": sodium}, "koh": koh}}));
        bench(&plan).into_iter().filter(|line| line.ends_with("hydroxide")).collect::<Vec<_>>()
    };
    let (sodium, potassium) = ("sodium hydroxide", "potassium hydroxide");
    assert_eq!(with("99 %", "45 %"), [potassium, sodium]);
    assert_eq!(with("45 %", "90 %"), [sodium, potassium]);
    assert_eq!(with("50 %", "45 %"), [potassium, sodium]);
}

/// Which of the two cautions is raised with so much water to a gram of alkali.
fn said(alkali: &Value, ratio: &str) -> Vec<(&'static str, String, String)> {
    let plan = plan(json!({"alkali": alkali, "water": {"water_to_alkali": ratio}}));
    let mine = plan.cautions.into_iter();
    mine.filter(|one| matches!(one.code, "lye.undissolved" | "lye.little-water"))
        .map(|one| (one.code, one.figure, one.limit))
        .collect()
}

#[test]
fn sodium_hydroxide_never_meets_less_water_than_dissolves_it_without_a_word() {
    let naoh = json!({"naoh": {"purity": "100 %"}});
    assert_eq!(said(&naoh, "1.3"), []);
    let one = |code, figure: &str, limit: &str| vec![(code, figure.to_owned(), limit.to_owned())];
    let little = "1.29 of water to one of alkali (43.7 %)";
    assert_eq!(said(&naoh, "1.29"), one("lye.little-water", little, "1.30 of water to one of alkali"));
    let still = "1.10 of water to one of alkali (47.6 %)";
    assert_eq!(said(&naoh, "1.1"), one("lye.little-water", still, "1.30 of water to one of alkali"));
    let less = "1.09 of water to one of alkali (47.8 %)";
    assert_eq!(said(&naoh, "1.09"), one("lye.undissolved", less, "1.10 of water to one of alkali"));
}

#[test]
fn potassium_hydroxide_is_held_to_its_own_solubility_and_a_mixture_to_both() {
    let koh = json!({"koh": {"purity": "100 %"}});
    let code = |alkali: &Value, ratio| said(alkali, ratio).into_iter().map(|one| one.0).collect::<Vec<_>>();
    assert!(code(&koh, "1.03").is_empty());
    assert_eq!(code(&koh, "1.02"), ["lye.little-water"]);
    assert_eq!(code(&koh, "0.89"), ["lye.little-water"]);
    assert_eq!(code(&koh, "0.88"), ["lye.undissolved"]);
    // Half of each by mass: (1.1 + 100/112) / 2 and (1.3 + 100/97) / 2.
    let both =
        json!({"naoh": {"purity": "100 %"}, "koh": {"purity": "100 %", "share": {"pure_mass": "50 %"}}});
    assert!(code(&both, "1.17").is_empty());
    assert_eq!(code(&both, "1.16"), ["lye.little-water"]);
    assert_eq!(code(&both, "1.00"), ["lye.little-water"]);
    assert_eq!(code(&both, "0.99"), ["lye.undissolved"]);
}

/// A lye that is strong only until its lactate goes in: what counts is the moment of the alkali.
#[test]
fn water_that_comes_after_the_alkali_does_not_dissolve_it() {
    let dose = json!([{"additive": "sodium-lactate-60", "dose": "60 g"}]);
    let plan = plan(json!({"water": {"water_to_alkali": "1.4"}, "lye": {"doses": dose}}));
    assert!(plan.lye.figures.water_to_alkali > "139 %".parse().unwrap());
    let said = caution(&plan, "lye.little-water").unwrap();
    assert!(said.figure.starts_with("1.23 of water"), "{}", said.figure);
}

#[test]
fn alkali_that_does_not_dissolve_stands_first_on_the_sheet() {
    let plan = plan(json!({"water": {"water_to_alkali": "1"}, "for": "sale"}));
    let text = sheet::text(&plan);
    let (_, cautions) = text.split_once("Cautions\n").unwrap();
    let first = cautions.split("\n  - ").nth(1).unwrap();
    assert!(first.contains("it does not stay dissolved"), "{first}");
    assert!(first.split_whitespace().collect::<Vec<_>>().join(" ").contains("do not make it so"), "{first}");
}

#[test]
fn less_plain_water_than_alkali_is_said_of_milk_on_each_side_and_not_of_vinegar() {
    let half = |id: &str, share: &str| {
        let plan = plan(json!({"lye": {"liquids": liquids(&[(id, share)])}}));
        caution(&plan, "lye.plain-water").is_some()
    };
    assert!(!half("cow-milk", "50 %"));
    assert!(half("cow-milk", "50.1 %"));
    assert!(!half("vinegar-cider", "90 %"));
}

/// 100 g of lye of 28 % keeps 6.70 g of salt dissolved: worked by hand from the rows at 24.67 and 30.11 %, where
/// `salt / all = 18.3364 % - 0.459559 alkali / all`.
#[test]
fn salt_that_lye_of_that_strength_does_not_keep_dissolved_is_told_to_go_to_the_batter() {
    let with = |salt: &str| {
        plan(json!({
            "water": {"lye_concentration": "28 %"},
            "lye": {"doses": [{"additive": "salt", "dose": salt, "composition": {"minerals": "100 %", "water": "0 %"}}]}
        }))
    };
    let plain = with("0 g");
    let (alkali, water) = (plain.lye.figures.sodium_hydroxide, plain.lye.figures.water);
    assert_eq!(caution(&plain, "lye.salt"), None);
    // (0.183364 x 508.8 - 0.459559 x 142.5) / (1 - 0.183364)
    let number = |mass: lamella::quantity::Mass| mass.value().to_string().parse::<f64>().unwrap();
    let most =
        (0.183_363_970_588 * number(alkali + water) - 0.459_558_823_529 * number(alkali)) / 0.816_636_029_412;
    let below = with(&format!("{:.1} g", most - 0.06));
    assert_eq!(caution(&below, "lye.salt"), None);
    let above = with(&format!("{:.1} g", most + 0.1));
    let said = caution(&above, "lye.salt").unwrap();
    assert_eq!(said.limit, format!("{most:.1} g of salt"));
    assert!(said.advice.contains("light trace") && said.advice.contains("do not strain it"));
    let words = "Salt falls out as fine grains: do not strain it, and stir it up before each pour.";
    assert!(paper(&above).contains(words) && !paper(&below).contains(words), "{}", paper(&above));
    // The salt of a brine counts, that of clay and of milk does not.
    let brine = plan(json!({"lye": {"liquids": liquids(&[("brine-saturated", "100 %")])}}));
    assert!(caution(&brine, "lye.salt").is_some());
    let clay = plan(json!({"lye": {"doses": [{"additive": "kaolin", "dose": "200 g"}]}}));
    assert_eq!(caution(&clay, "lye.salt"), None);
}

#[test]
fn a_maker_may_say_how_a_material_of_ones_own_behaves_in_lye() {
    let own = |composition: Value| {
        let dose = json!({"additive": "house-tonic", "dose": "9 g", "composition": composition});
        let mut order = bench(&plan(json!({"lye": {"doses": [dose]}})));
        order.retain(|line| line == "house-tonic" || line == "sodium hydroxide" || line == "freeze");
        order
    };
    let (tonic, alkali) = ("house-tonic", "sodium hydroxide");
    // What is not said follows from what it is made of.
    assert_eq!(own(json!({"form": "liquid", "water": "100 %"})), [tonic, alkali]);
    assert_eq!(own(json!({"form": "liquid", "water": "90 %", "sugars": "10 %"})), [tonic, "freeze", alkali]);
    let sucrose = json!({"form": "liquid", "water": "90 %", "sugars": "10 %", "in_lye": "water"});
    assert_eq!(own(sucrose), [tonic, alkali]);
    let lactate = json!({"water": "40 %", "in_lye": "cooled"});
    assert_eq!(own(lactate), [alkali, tonic]);
}

#[test]
fn a_figure_of_ones_own_does_not_make_a_library_row_less_careful() {
    let flat = json!({"liquid": "beer", "share": "50 %", "composition": {"alcohol": "0 %"}});
    let plan = plan(json!({"lye": {"liquids": [flat]}}));
    assert_eq!(bench(&plan)[0], "before boil");
    let sweet =
        json!({"liquid": "tea-black", "share": "50 %", "composition": {"water": "90 %", "sugars": "9 %"}});
    let sweet = self::plan(json!({"lye": {"liquids": [sweet]}}));
    assert!(bench(&sweet).contains(&"freeze".to_owned()));
}

fn config() -> ProptestConfig {
    ProptestConfig { failure_persistence: None, ..ProptestConfig::default() }
}

proptest! {
    #![proptest_config(config())]

    /// The law of the lye holds for ready-made lye too, of any strength and beside solid alkali.
    #[test]
    fn no_lye_is_made_in_an_order_that_burns_whatever_the_alkali(
        text in strategy::documents(), sodium in 300_u32..=620, potassium in 300_u32..=950,
    ) {
        let mut document: Value = serde_json::from_str(&text).unwrap();
        let per_cent = |tenths: u32| json!(format!("{}.{} %", tenths.div_euclid(10), tenths.rem_euclid(10)));
        for (kind, purity) in [("naoh", sodium), ("koh", potassium)] {
            if let Some(grade) = document["alkali"].get_mut(kind) {
                grade["purity"] = per_cent(purity);
            }
        }
        document["water"] = json!({"water_to_alkali": "3"});
        document["additive_water"] = json!("extra");
        let recipe = recipe::read(&document.to_string()).unwrap();
        prop_assert_eq!(laws::lye_order(&recipe), Ok(()));
    }
}
