//! How sure a superfat is: against `vectors/published/i_uncertainty.json`, against random draws, and the laws of the
//! interval. `LAMELLA_SAMPLES` says how many draws.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    clippy::float_arithmetic,
    reason = "a test stops at what it did not expect; its sums are of draws"
)]

use std::fs;
use std::path::Path;

use lamella::certainty::{Advice, Certainty, End, Figures, Input, InputKind, Model, Verdict};
use lamella::material::Ranged;
use lamella::quantity::{Exact, Mass, SaponificationValue, Share};
use lamella::recipe::{self, AlkaliChoice, AlkaliGrade, Recipe};
use lamella::{EXAMPLE, Plan};
use lamella_tests::draw::{self, Draw};
use lamella_tests::published::{all, exact, id, number, text, within};
use serde_json::Value;

/// How many draws; the default is for every day, the figure in DEVELOPERS.md for a release.
fn samples(default: usize) -> usize {
    std::env::var("LAMELLA_SAMPLES").ok().and_then(|count| count.parse().ok()).unwrap_or(default)
}

/// A recipe and a plan with the masses, ranges and scales of a record: one jug that gets all of it.
fn of_record(record: &Value) -> (Recipe, Plan) {
    let inputs = &record["inputs"];
    let fats = inputs["fats"].as_array().unwrap();
    let ids = ["olive-oil", "coconut-oil", "palm-oil", "shea-butter", "castor-oil", "beeswax"];
    let lines: Vec<String> = (fats.iter().zip(ids))
        .map(|(fat, id)| format!("{{\"fat\": \"{id}\", \"mass\": \"{} g\"}}", text(&fat["mass_g"])))
        .collect();
    let alkali = &inputs["alkalis"][0];
    assert_eq!(inputs["alkalis"].as_array().unwrap().len(), 1);
    let kind = if alkali["kind"] == "KOH" { "koh" } else { "naoh" };
    let document = format!(
        "{{\"lamella\": \"recipe/1\", \"name\": \"Record\", \"fats\": [{}], \"alkali\": {{\"{kind}\": {{}}}}, \
         \"superfat\": \"5 %\", \"water\": {{\"water_to_alkali\": \"2\"}}, \
         \"layers\": [{{\"layer\": \"All\", \"share\": \"1 part\"}}], \"workshop\": {{\"scales\": [\
         {{\"scale\": \"of alkali\", \"step\": \"{a} g\", \"capacity\": \"50 kg\"}}, \
         {{\"scale\": \"of fats\", \"step\": \"{f} g\", \"capacity\": \"50 kg\"}}]}}}}",
        lines.join(", "),
        a = text(&inputs["alkali_resolution_g"]),
        f = text(&inputs["fat_resolution_g"]),
    );
    let mut recipe = recipe::read(&document).unwrap_or_else(|problems| panic!("{document}\n{problems:?}"));
    let two = Exact::from(2);
    for (line, fat) in recipe.fats.iter_mut().zip(fats) {
        let (low, high) = (number(&fat["SV_lo"]), number(&fat["SV_hi"]));
        let value = |exact| SaponificationValue::try_new(exact).unwrap();
        line.fat.saponification_value =
            Ranged { min: Some(value(low)), typical: value((low + high) / two), max: Some(value(high)) };
    }
    let (low, high) = (number(&alkali["purity_lo"]), number(&alkali["purity_hi"]));
    let share = |exact| Share::try_new(exact).unwrap();
    let grade = AlkaliGrade {
        purity_within: Some(share((high - low) / two)),
        ..AlkaliGrade::new(share((low + high) / two), Share::ZERO)
    };
    recipe.alkali = if kind == "koh" { AlkaliChoice::Potassium(grade) } else { AlkaliChoice::Sodium(grade) };

    let mut plan = Plan::of(&recipe).unwrap();
    let scale = |name: &str| plan.scales.iter().position(|scale| scale.name == name).unwrap();
    let (of_alkali, of_fats) = (scale("of alkali"), scale("of fats"));
    let mass = |value: &Value| Mass::try_new(number(value)).unwrap();
    for (item, fat) in plan.pot.fats.iter_mut().zip(fats) {
        (item.weighed, item.scale) = (mass(&fat["mass_g"]), of_fats);
    }
    (plan.lye.alkalis[0].weighed, plan.lye.alkalis[0].scale) = (mass(&alkali["mass_g"]), of_alkali);
    plan.pot.total = plan.pot.fats.iter().map(|item| item.weighed).sum();
    plan.lye.total = plan.lye.alkalis[0].weighed + plan.lye.water.weighed;
    plan.jugs[0].portion.weighed = plan.pot.total;
    plan.jugs[0].lye.weighed = plan.lye.total;
    let alkali = plan.lye.alkalis[0].weighed.exact() * grade.purity.exact();
    plan.jugs[0].tally.sodium_hydroxide = if kind == "koh" { Exact::ZERO } else { alkali };
    plan.jugs[0].tally.potassium_hydroxide = if kind == "koh" { alkali } else { Exact::ZERO };
    plan.jugs[0].superfat = share(plan.jugs[0].tally.superfat());
    plan.batch.superfat = plan.jugs[0].superfat;
    (recipe, plan)
}

/// The fraction of an interval's end; its decimal has fewer digits than are compared.
fn ratio(value: &Value) -> Exact {
    number(&serde_json::json!({ "num": value["num"], "den": value["den"] }))
}

/// The superfat at a corner.
fn at(model: &Model, jug: Option<usize>, corner: &[(usize, End)]) -> Exact {
    let mut values: Vec<Exact> = model.inputs().iter().map(Input::middle).collect();
    for (input, end) in corner {
        values[*input] = match end {
            End::Low => model.inputs()[*input].low,
            End::High => model.inputs()[*input].high,
        };
    }
    model.superfat(jug, &values)
}

fn near_share(ours: Share, published: &Value, allowed: Exact, what: &str) {
    within(ours.exact(), number(published), allowed, what);
}

#[test]
fn published_intervals_and_uncertainties() {
    for record in all("i_uncertainty") {
        let (id, expected) = (id(&record), &record["expected"]);
        let (recipe, plan) = of_record(&record);
        let certainty = Certainty::of(&recipe, &plan).unwrap();
        let model = Model::of(&recipe, &plan).unwrap();
        let figures = &certainty.jugs[0].figures;
        assert_eq!(figures, &certainty.batch, "{id}: one jug is the batch");
        // The ends to 24 digits where they are attained, and rounded outwards where they are shown.
        let interval = &expected["interval_exact"];
        let (low, high) = (&figures.guaranteed.at_low, &figures.guaranteed.at_high);
        exact(at(&model, Some(0), low), ratio(&interval["lo"]), id);
        exact(at(&model, Some(0), high), ratio(&interval["hi"]), id);
        let last = Exact::literal(1, 12);
        within(figures.guaranteed.low.exact(), ratio(&interval["lo"]), last, id);
        within(figures.guaranteed.high.exact(), ratio(&interval["hi"]), last, id);
        assert!(!(figures.guaranteed.low.exact() - ratio(&interval["lo"])).is_positive(), "{id}: outwards");
        assert!(!(ratio(&interval["hi"]) - figures.guaranteed.high.exact()).is_positive(), "{id}: outwards");
        near_share(figures.superfat, &expected["nominal_at_midpoints"], last, id);
        near_share(figures.expected, &expected["nominal_at_midpoints"], Exact::literal(1, 9), id);
        // The closed-form sensitivities against another linear propagation, to its last printed digit.
        near_share(figures.uncertainty, &expected["linear_sd"], Exact::literal(1, 8), id);
        let shares = expected["linear_variance_shares"].as_object().unwrap();
        for (name, share) in shares {
            let found =
                figures.budget.iter().find(|line| matches(&certainty.inputs[line.input], name, &recipe));
            near_share(found.unwrap().of_variance, share, Exact::literal(2, 6), &format!("{id} {name}"));
        }
        assert_eq!(figures.budget.len(), shares.len(), "{id}");
        // Within 2 % of the Monte Carlo, of the better Sobol numbers, and of the closed form where there is one.
        let deviations = [
            &expected["monte_carlo_1e6"]["sd"],
            &expected["sobol_2^20"]["sd"],
            &expected["closed_form"]["sd"],
        ];
        for deviation in deviations.into_iter().filter(|value| !value.is_null()) {
            near_share(figures.uncertainty, deviation, number(deviation) * Exact::literal(2, 2), id);
        }
        // Whether it may be lye-heavy, where the Monte Carlo found that it may.
        let may = number(&expected["probability_superfat_negative"]).is_positive();
        assert_eq!(figures.verdict == Verdict::MayBeLyeHeavy, may, "{id}");
        draws_agree(&model, expected, id);
    }
}

fn matches(input: &Input, name: &str, recipe: &Recipe) -> bool {
    let of = |index: &str| recipe.fats[index.parse::<usize>().unwrap()].fat.name.to_string();
    match name.split_once(' ').unwrap() {
        (fat, "SV") => input.name == format!("saponification value of {}", of(fat.trim_start_matches("fat"))),
        (alkali, "mass") if alkali.ends_with("OH") => {
            input.name.ends_with("hydroxide") && input.kind == InputKind::Weighing
        }
        (fat, "mass") => input.name == of(fat.trim_start_matches("fat")),
        _ => input.kind == InputKind::Purity,
    }
}

/// Our own draws have the mean, the deviation and the percentiles of the record, within five of its standard errors for
/// as many draws.
fn draws_agree(model: &Model, expected: &Value, id: &str) {
    let count = samples(4000);
    let mut draw = Draw::new(0x1a_5e_11_a0);
    let mut found: Vec<f64> = (0..count)
        .map(|_| {
            let values: Vec<Exact> = model.inputs().iter().map(|input| between(input, draw.unit())).collect();
            model.superfat(Some(0), &values).approximate()
        })
        .collect();
    found.sort_by(f64::total_cmp);
    #[expect(clippy::cast_precision_loss, reason = "counts of draws are small")]
    let n = count as f64;
    let mean = found.iter().sum::<f64>() / n;
    let deviation = (found.iter().map(|value| (value - mean).powi(2)).sum::<f64>() / (n - 1.0)).sqrt();
    let at = |percent: usize| found[(count * percent / 100).min(count - 1)];
    let ours = [
        ("mean", mean),
        ("sd", deviation),
        ("p1", at(1)),
        ("p5", at(5)),
        ("p50", at(50)),
        ("p95", at(95)),
        ("p99", at(99)),
    ];
    for (name, ours) in ours {
        let theirs = number(&expected["sobol_2^20"][name]).approximate();
        let error = text(&expected["monte_carlo_standard_errors"][name]).parse::<f64>().unwrap();
        let allowed = 5.0 * error * (1.0 + 1e6 / n).sqrt();
        assert!((ours - theirs).abs() < allowed, "{id} {name}: {ours} is not {theirs} within {allowed}");
    }
}

/// A point of a range, on a grid of a millionth of it.
fn between(input: &Input, part: f64) -> Exact {
    input.low + (input.high - input.low) * Exact::from_approximate(part, 6)
}

fn documents() -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("vectors/valid");
    let mut paths: Vec<_> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    let json = paths.into_iter().filter(|path| path.extension().is_some_and(|extension| extension == "json"));
    json.map(|path| fs::read_to_string(path).unwrap()).chain([EXAMPLE.to_owned()]).collect()
}

/// Recipes drawn until so many of them can be planned.
fn drawn(seed: u64, count: usize) -> Vec<(Recipe, Plan)> {
    let mut draw = Draw::new(seed);
    let mut found = Vec::new();
    while found.len() < count {
        let document = draw::recipe(&mut draw);
        let recipe = recipe::read(&document).unwrap_or_else(|problems| panic!("{document}\n{problems:#?}"));
        if let Ok(plan) = Plan::of(&recipe) {
            found.push((recipe, plan));
        }
    }
    found
}

fn planned() -> Vec<(Recipe, Plan)> {
    let of = |document: String| {
        let recipe = recipe::read(&document).unwrap();
        let plan = Plan::of(&recipe).unwrap();
        (recipe, plan)
    };
    documents().into_iter().map(of).collect()
}

/// Every place of a plan whose superfat is judged, with its figures.
fn places(certainty: &Certainty) -> Vec<(Option<usize>, &Figures)> {
    let jugs = certainty.jugs.iter().enumerate().map(|(jug, line)| (Some(jug), &line.figures));
    jugs.chain([(None, &certainty.batch)]).collect()
}

/// The law of the interval: no draw lies outside. Half of the inputs of a draw are at an end of their range.
fn no_draw_outside(recipe: &Recipe, plan: &Plan, draws: usize, seed: u64) {
    let certainty = Certainty::of(recipe, plan).unwrap();
    let model = Model::of(recipe, plan).unwrap();
    let mut draw = Draw::new(seed);
    for _ in 0..draws {
        let values: Vec<Exact> = (model.inputs().iter())
            .map(|input| match draw.below(4) {
                0 => input.low,
                1 => input.high,
                _ => between(input, draw.unit()),
            })
            .collect();
        for (jug, figures) in places(&certainty) {
            let superfat = model.superfat(jug, &values);
            // Poison: the scale is so coarse that there may be no fat at all.
            if superfat.decimal().is_none() {
                assert_eq!(figures.guaranteed.low, Share::literal(-1_000_000, 0));
                continue;
            }
            assert!(
                !(figures.guaranteed.low.exact() - superfat).is_positive()
                    && !(superfat - figures.guaranteed.high.exact()).is_positive(),
                "{jug:?} of {}: {superfat:?} is outside {:?}\n{}",
                recipe.name,
                figures.guaranteed,
                recipe::write(recipe)
            );
        }
    }
}

#[test]
fn no_draw_lies_outside_the_guaranteed_interval() {
    let draws = samples(0);
    for (index, (recipe, plan)) in planned().into_iter().enumerate() {
        no_draw_outside(&recipe, &plan, draws.max(200), index as u64);
    }
    let recipes = if draws > 0 { 200 } else { 40 };
    for (index, (recipe, plan)) in drawn(7, recipes).into_iter().enumerate() {
        no_draw_outside(&recipe, &plan, draws.max(100), index as u64);
    }
}

/// The interval is not wider than it must be: each end is the superfat at the corner that is named for it.
#[test]
fn the_corners_evaluate_to_the_ends() {
    let mut spread = 0;
    for (recipe, plan) in planned().into_iter().chain(drawn(11, 100)) {
        let certainty = Certainty::of(&recipe, &plan).unwrap();
        let model = Model::of(&recipe, &plan).unwrap();
        for (jug, figures) in places(&certainty) {
            let guaranteed = &figures.guaranteed;
            for (end, corner) in
                [(guaranteed.low, &guaranteed.at_low), (guaranteed.high, &guaranteed.at_high)]
            {
                let superfat = at(&model, jug, corner);
                if superfat.decimal().is_some() {
                    within(end.exact(), superfat, Exact::literal(1, 12), &recipe::write(&recipe));
                    spread += 1;
                }
            }
        }
    }
    assert!(spread > 500, "{spread}");
}

/// No other corner of the ranges reaches further: all of them are tried where there are few inputs.
#[test]
fn no_corner_reaches_further() {
    let mut tried = 0;
    for (recipe, plan) in drawn(19, 400) {
        let model = Model::of(&recipe, &plan).unwrap();
        let inputs = model.inputs();
        if inputs.len() > 11 {
            continue;
        }
        tried += 1;
        let certainty = Certainty::of(&recipe, &plan).unwrap();
        for corner in 0..1_usize << inputs.len() {
            let values: Vec<Exact> = (inputs.iter().enumerate())
                .map(|(index, input)| if corner >> index & 1 == 1 { input.high } else { input.low })
                .collect();
            for (jug, figures) in places(&certainty) {
                let superfat = model.superfat(jug, &values);
                let Some(_) = superfat.decimal() else { continue };
                let (low, high) = (figures.guaranteed.low.exact(), figures.guaranteed.high.exact());
                assert!(
                    !(low - superfat).is_positive() && !(superfat - high).is_positive(),
                    "{jug:?} {values:?}"
                );
            }
        }
    }
    assert!(tried > 5, "{tried}");
}

/// The inputs at the values that the plan reckons with give the superfat of the plan, to its last digit.
#[test]
fn the_model_is_that_of_the_plan() {
    let mut checked = 0;
    for (recipe, plan) in planned().into_iter().chain(drawn(13, 60)) {
        let model = Model::of(&recipe, &plan).unwrap();
        if plan.jugs.len() == 1 {
            continue;
        }
        let typical = |input: &Input| -> Option<Exact> {
            match input.kind {
                InputKind::SaponificationValue => {
                    let name = input.name.trim_start_matches("saponification value of ");
                    let fats = recipe.fats.iter().map(|line| &line.fat);
                    fats.clone()
                        .find(|fat| fat.name == name)
                        .map(|fat| fat.saponification_value.typical.exact())
                }
                InputKind::Purity => {
                    let index = plan.lye.alkalis.iter().position(|item| input.name.ends_with(&item.name));
                    Some(plan.lye.purities[index.unwrap()].exact())
                }
                // A weighing that its step does not reach below nought is the middle of its range.
                InputKind::Weighing if input.low.is_positive() => Some(input.middle()),
                _ => None,
            }
        };
        let Some(values) = model.inputs().iter().map(typical).collect::<Option<Vec<Exact>>>() else {
            continue;
        };
        for (index, jug) in plan.jugs.iter().enumerate() {
            let superfat = Share::try_new(model.superfat(Some(index), &values)).unwrap();
            assert_eq!(superfat, jug.superfat, "{} of {}", jug.name, recipe::write(&recipe));
        }
        let batch = Share::try_new(model.superfat(None, &values)).unwrap();
        assert_eq!(batch, plan.batch.superfat);
        checked += 1;
    }
    assert!(checked > 5, "{checked}");
}

/// The uncertainty is that of draws, also with additives, liquids and several jugs.
#[test]
fn the_uncertainty_is_that_of_draws() {
    let draws = samples(2000);
    let mut recipes = planned();
    recipes.extend(drawn(17, 4));
    for (recipe, plan) in recipes {
        let certainty = Certainty::of(&recipe, &plan).unwrap();
        let model = Model::of(&recipe, &plan).unwrap();
        let mut draw = Draw::new(3);
        let places = places(&certainty);
        let mut sums = vec![(0.0, 0.0); places.len()];
        for _ in 0..draws {
            let values: Vec<Exact> = (model.inputs().iter())
                .map(|input| {
                    // The sum of two readings is a triangle.
                    let first = draw.unit();
                    let part = if input.readings == 2 { f64::midpoint(first, draw.unit()) } else { first };
                    between(input, part)
                })
                .collect();
            for ((jug, figures), sum) in places.iter().zip(&mut sums) {
                let off =
                    model.superfat(*jug, &values).approximate() - figures.expected.exact().approximate();
                *sum = (sum.0 + off, sum.1 + off * off);
            }
        }
        #[expect(clippy::cast_precision_loss, reason = "counts of draws are small")]
        let n = draws as f64;
        for ((jug, figures), (sum, squares)) in places.iter().zip(sums) {
            let ours = figures.uncertainty.exact().approximate();
            let drawn = ((squares - sum * sum / n) / (n - 1.0)).sqrt();
            // Two per cent for the linear law, and four standard errors of a deviation from so many draws.
            let allowed = 0.02 + 4.0 / (2.0 * n).sqrt();
            // A portion of a few scale steps is not near linear any more; the interval is what counts there.
            if ours < 0.05 {
                assert!(
                    (drawn / ours - 1.0).abs() < allowed,
                    "{jug:?} of {}: {drawn} is not {ours}",
                    recipe.name
                );
            }
        }
    }
}

#[test]
fn one_bottle_has_one_saponification_value() {
    let recipe = recipe::read(EXAMPLE).unwrap();
    let plan = Plan::of(&recipe).unwrap();
    let certainty = Certainty::of(&recipe, &plan).unwrap();
    let kinds = |kind| certainty.inputs.iter().filter(|input| input.kind == kind).count();
    // Six fats in seven layers, and the fat in tahini, pumpkin and the other additives that have some.
    let own = certainty.inputs.iter().filter(|input| input.name.starts_with("fat in ")).count();
    assert_eq!(kinds(InputKind::SaponificationValue), recipe.fats.len() + own);
    assert_eq!(kinds(InputKind::Purity), 1);
    // Were the layers' errors independent, those of the batch would be far smaller than those of each.
    let least = certainty.jugs.iter().map(|jug| jug.figures.uncertainty).min().unwrap();
    assert!(certainty.batch.uncertainty.exact().approximate() > 0.8 * least.exact().approximate());
    let names: Vec<&str> =
        certainty.batch.budget.iter().map(|line| certainty.inputs[line.input].name.as_str()).collect();
    assert!(names[0].starts_with("saponification value of "), "{names:?}");
}

#[test]
fn advice_holds_and_is_the_smallest() {
    let recipe = recipe::read(EXAMPLE).unwrap();
    let advice = Advice::of(&recipe);
    let safe = |superfat: &str| {
        let mut recipe = recipe.clone();
        recipe.superfat = recipe::Superfat::OfDemand(superfat.parse().unwrap());
        Certainty::of(&recipe, &Plan::of(&recipe).unwrap()).unwrap().is_safe()
    };
    let found = advice.superfat.unwrap();
    assert!(safe(&found.superfat.to_string()));
    let less = found.superfat - Share::literal(1, 3);
    assert!(!safe(&less.to_string()), "{less} is enough too");
    // At 5 % the ranges of saponification value and purity alone use the superfat up; at 20 % no scale matters much.
    assert_eq!(advice.scale, None);
    let mut fat = recipe.clone();
    fat.superfat = recipe::Superfat::OfDemand("20 %".parse().unwrap());
    let scale = Advice::of(&fat).scale.unwrap();
    assert!(scale.step >= Mass::literal(1, 0), "{scale:?}");
    assert!(scale.low >= Share::ZERO);
}

#[test]
fn what_nothing_is_known_of_says_so() {
    let document =
        EXAMPLE.replace("\"purity\": \"98.5 %\"", "\"purity\": \"98.5 %\", \"purity_within\": \"0.25 %\"");
    let recipe = recipe::read(&document).unwrap();
    let certainty = Certainty::of(&recipe, &Plan::of(&recipe).unwrap()).unwrap();
    let purity = certainty.inputs.iter().find(|input| input.kind == InputKind::Purity).unwrap();
    assert_eq!(purity.basis, "stated in the recipe");
    assert_eq!((purity.low, purity.high), (Exact::literal(9825, 4), Exact::literal(9875, 4)));
    let honey = certainty.inputs.iter().all(|input| !input.basis.is_empty());
    assert!(honey, "every range has a basis");
}
