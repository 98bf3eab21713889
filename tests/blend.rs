//! Blends: requests that have an answer by construction, requests that have none, and documents that are wrong.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    reason = "a test stops at what it did not expect; its counts are small"
)]

use std::collections::BTreeSet;
use std::path::Path;

use lamella::blend::{
    self, Aim, Answer, Candidate, Conflict, Conflicting, Demand, End, Measure, NoBlend, Request,
};
use lamella::chemistry::{acids_by_mass, indices};
use lamella::material::{Class, Fat, library};
use lamella::problem::CODES;
use lamella::quantity::{Currency, Decimal, Exact, Mass, Money, Price, Share};
use lamella::recipe::{self, Certificate};
use proptest::prelude::*;

fn config() -> ProptestConfig {
    let default = ProptestConfig::default();
    let cases = if std::env::var_os("PROPTEST_CASES").is_some() { default.cases } else { 24 };
    ProptestConfig { cases, failure_persistence: None, ..default }
}

/// Fats with a profile, and no waxes.
fn fats() -> Vec<&'static Fat> {
    let plain = |fat: &&Fat| {
        !fat.profile.is_empty() && lamella::material::profile::iodine_value(fat.kind, &fat.profile).is_some()
    };
    library::fats().iter().filter(plain).collect()
}

fn euros(cents: u32) -> Price {
    let money =
        Money::try_new(Exact::literal(i64::from(cents), 2), Currency::try_new("EUR").unwrap()).unwrap();
    Price::try_new(money, Mass::literal(1000, 0)).unwrap()
}

/// The figure of a blend by the functions that a plan uses.
fn figure(request: &Request, measure: &Measure, shares: &[Exact]) -> Exact {
    let blend = request.fats.iter().zip(shares).map(|(candidate, share)| (&candidate.fat, *share));
    let found = indices(blend.clone()).unwrap();
    let cost = |candidate: &Candidate| {
        Exact::from(candidate.price.unwrap().of(Mass::literal(1000, 0)).unwrap().amount())
    };
    match measure {
        Measure::Class(class) => {
            found.classes.iter().find(|line| line.class == *class).unwrap().share.exact()
        }
        Measure::Acid(acid) => {
            let acids = acids_by_mass(blend);
            acids.get(acid).copied().unwrap_or(Exact::ZERO) / acids.values().copied().sum()
        }
        Measure::IodineValue => found.computed_iodine_value.unwrap().exact(),
        Measure::SaponificationValue => found.saponification_value.exact(),
        Measure::Group(group) => request
            .fats
            .iter()
            .zip(shares)
            .filter(|(candidate, _)| candidate.groups.contains(group))
            .map(|(_, share)| *share)
            .sum(),
        Measure::Cost => request.fats.iter().zip(shares).map(|(fat, share)| cost(fat) * *share).sum(),
        _ => panic!("{measure:?}"),
    }
}

/// How far from a bound the value is on the wrong side; what two published figures may differ by is no miss.
fn missed(demand: &Demand, value: Exact) -> bool {
    let off = Exact::literal(1, 11) * Exact::ONE.max(demand.measure.point());
    demand.at_least.is_some_and(|low| (Exact::from(low) - value - off).is_positive())
        || demand.at_most.is_some_and(|high| (value - Exact::from(high) - off).is_positive())
}

/// A request in a few lines, for a message.
fn brief(request: &Request) -> String {
    let fat = |fat: &Candidate| {
        format!("{} {}..{} usual {} {:?}", fat.fat.id, fat.min, fat.max, fat.usual, fat.groups)
    };
    let fats: Vec<_> = request.fats.iter().map(fat).collect();
    let Request { step, fats_at_most, demands, aims, .. } = request;
    format!("{fats:#?}\nstep {step:?}, at most {fats_at_most:?}, {demands:#?}, {aims:?}")
}

/// Everything that a blend must be, looked at afresh.
fn good(request: &Request, answer: &Answer) {
    let shares: Vec<Exact> = answer.fats.iter().map(|fat| fat.share.exact()).collect();
    assert_eq!(answer.fats.iter().map(|fat| fat.share).sum::<Share>(), Share::literal(1, 0));
    assert!(answer.miss.is_zero(), "missed by {}: {:?}\n{}", answer.miss, shares, brief(request));
    // Few fats in whole steps may take more than the effort that is allowed; the answer then says so.
    let hard = request.step.is_some()
        && (request.fats_at_most.is_some() || request.aims.contains(&blend::Aim::FewestFats));
    assert!(answer.best || hard, "the search was stopped\n{}", brief(request));
    for (candidate, fat) in request.fats.iter().zip(&answer.fats) {
        assert!(candidate.min <= fat.share && fat.share <= candidate.max, "{fat:?}");
        if let Some(step) = request.step {
            let steps = fat.share.exact().steps(step.exact()).unwrap();
            assert_eq!((Exact::from(steps) * step.exact()).rounded(12), fat.share.exact().rounded(12));
        }
    }
    if let Some(most) = request.fats_at_most {
        assert!(shares.iter().filter(|share| share.is_positive()).count() <= most as usize);
    }
    for (demand, said) in request.demands.iter().zip(&answer.demands) {
        let value = figure(request, &demand.measure, &shares);
        assert!(!missed(demand, value), "{demand:?} {value:?}");
        let off = value - Exact::from(said.value);
        assert!(
            !(off.max(-off) - Exact::literal(1, 11) * Exact::HUNDRED).is_positive(),
            "{said:?} {value:?}"
        );
    }
    for aim in &answer.aims {
        let Some(bound) = aim.bound else { continue };
        let better = if aim.aim.starts_with("most of") { aim.value > bound } else { aim.value < bound };
        assert!(!better, "{aim:?}");
    }
}

/// What of an aim a blend has, reckoned here.
fn aimed(request: &Request, aim: Aim, shares: &[Exact]) -> Exact {
    let size = |value: Exact| value.max(-value);
    match aim {
        Aim::Cheapest => figure(request, &Measure::Cost, shares),
        Aim::NearestUsual => {
            request.fats.iter().zip(shares).map(|(fat, share)| size(*share - fat.usual.exact())).sum()
        }
        Aim::FewestFats => Exact::count(shares.iter().filter(|share| share.is_positive()).count()),
        Aim::MostOf(index) => -shares[index],
        _ => panic!("{aim:?}"),
    }
}

const MEASURES: usize = 11;

fn measure(index: usize) -> Measure {
    match index {
        0..=5 => Measure::Class(Class::ALL[index]),
        6 => Measure::Acid("C18:0".parse().unwrap()),
        7 => Measure::IodineValue,
        8 => Measure::SaponificationValue,
        9 => Measure::Group("a".to_owned()),
        _ => Measure::Cost,
    }
}

/// A request with a blend that meets it: windows around the figures of a blend in whole per cents.
fn requests() -> impl Strategy<Value = (Request, Vec<Exact>)> {
    let of_fat = (0_usize..1000, 0_u32..30, 80_u32..2500, 0_u32..20, any::<bool>());
    let of_demand = (0..MEASURES, 1_i64..600, 1_i64..600, 0_u8..3);
    (
        prop::collection::vec(of_fat, 2..10),
        prop::collection::vec(of_demand, 0..12),
        prop::option::of(prop::sample::select(vec![(1_i64, 2_u32), (5, 3), (5, 2)])),
        prop::sample::select(vec![
            vec![Aim::Cheapest],
            vec![Aim::NearestUsual, Aim::Cheapest],
            vec![Aim::FewestFats, Aim::Cheapest],
            vec![Aim::MostOf(0), Aim::Cheapest],
            vec![Aim::Cheapest, Aim::FewestFats],
        ]),
        0_u32..4,
    )
        .prop_map(|(lines, wanted, step, aims, limit)| {
            let all = fats();
            let mut taken = BTreeSet::new();
            let mut candidates = Vec::new();
            let mut weights = Vec::new();
            let mut usual = Vec::new();
            for (pick, weight, cents, often, grouped) in lines {
                let fat = all[pick % all.len()];
                if !taken.insert(fat.id.to_string()) {
                    continue;
                }
                let mut candidate = Candidate::new(fat.clone(), Certificate::default());
                candidate.price = Some(euros(cents));
                candidate.groups = if grouped { vec!["a".to_owned()] } else { Vec::new() };
                candidates.push(candidate);
                weights.push(Exact::from(i64::from(weight)));
                usual.push(Exact::from(i64::from(often)));
            }
            if weights.iter().all(|weight| weight.is_zero()) {
                weights[0] = Exact::ONE;
            }
            if usual.iter().all(|weight| weight.is_zero()) {
                usual[0] = Exact::ONE;
            }
            // Twentieths lie on every step.
            let split = |weights: &[Exact]| lamella::quantity::apportion(20, weights).unwrap();
            let shares: Vec<Exact> =
                split(&weights).iter().map(|part| Exact::literal(5, 2) * Exact::from(*part)).collect();
            for (index, (candidate, part)) in candidates.iter_mut().zip(split(&usual)).enumerate() {
                candidate.usual = Share::literal(part * 5, 2);
                if limit == 1 && index % 2 == 0 {
                    candidate.max =
                        Share::try_new((shares[index] + Exact::literal(1, 1)).min(Exact::ONE)).unwrap();
                }
                if limit == 2 && index % 3 == 0 {
                    candidate.min =
                        Share::try_new((shares[index] - Exact::literal(1, 1)).max(Exact::ZERO)).unwrap();
                }
            }
            let used = u32::try_from(shares.iter().filter(|share| share.is_positive()).count()).unwrap();
            let mut request = Request {
                name: "by construction".to_owned(),
                note: String::new(),
                size: None,
                step: step.map(|(mantissa, scale)| Share::literal(mantissa, scale)),
                fats_at_most: (limit == 3).then_some(used),
                fats: candidates,
                demands: Vec::new(),
                aims,
            };
            for (index, below, above, ends) in wanted {
                let measure = measure(index);
                if matches!(measure, Measure::Group(_))
                    && request.fats.iter().all(|fat| fat.groups.is_empty())
                {
                    continue;
                }
                let value = figure(&request, &measure, &shares);
                let at = |by: i64| (value + measure.point() * Exact::literal(by, 2)).rounded(5).unwrap();
                let at_least = Some(at(-below).max(Decimal::ZERO)).filter(|_| ends != 1);
                let at_most = Some(at(above)).filter(|_| ends != 0);
                request.demands.push(Demand { measure, at_least, at_most, target: None });
            }
            (request, shares)
        })
}

/// The request in which only these members of a conflict take part.
fn only(request: &Request, members: &[Conflicting]) -> Request {
    let mut only = request.clone();
    let on = |member: Conflicting| members.contains(&member);
    only.aims = vec![Aim::Cheapest];
    only.step = request.step.filter(|_| on(Conflicting::Steps));
    only.fats_at_most = request.fats_at_most.filter(|_| on(Conflicting::FatsAtMost));
    for (index, fat) in only.fats.iter_mut().enumerate() {
        fat.min = if on(Conflicting::Min(index)) { fat.min } else { Share::ZERO };
        if !on(Conflicting::Max(index)) {
            (fat.max, fat.stock) = (Share::literal(1, 0), None);
        }
    }
    for (index, demand) in only.demands.iter_mut().enumerate() {
        demand.at_least = demand.at_least.filter(|_| on(Conflicting::Demand(index, End::AtLeast)));
        demand.at_most = demand.at_most.filter(|_| on(Conflicting::Demand(index, End::AtMost)));
    }
    only
}

/// The members cannot be met together, and without any one of them they can.
fn smallest(request: &Request, conflict: &Conflict) {
    assert!(!conflict.members.is_empty());
    assert_eq!(conflict.members.len(), conflict.words.len());
    let all = only(request, &conflict.members);
    assert!(matches!(blend::solve(&all), Err(NoBlend::Conflict(_))), "{:?}", conflict.words);
    for member in &conflict.members {
        let rest: Vec<_> = conflict.members.iter().filter(|other| *other != member).cloned().collect();
        let answer = blend::solve(&only(request, &rest));
        assert!(answer.is_ok(), "without {member:?} of {:?}: {answer:?}", conflict.words);
    }
    let whole = |member: &Conflicting| matches!(member, Conflicting::Steps | Conflicting::FatsAtMost);
    assert_eq!(conflict.proved, !conflict.members.iter().any(whole));
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn a_blend_that_exists_is_found_and_none_known_is_better((request, known) in requests()) {
        let answer = blend::solve(&request).unwrap_or_else(|error| panic!("{error}\n{}", brief(&request)));
        good(&request, &answer);
        let shares: Vec<Exact> = answer.fats.iter().map(|fat| fat.share.exact()).collect();
        let (found, known) = (aimed(&request, request.aims[0], &shares), aimed(&request, request.aims[0], &known));
        let worse = (found - known - Exact::literal(1, 7)).is_positive();
        prop_assert!(!worse || !answer.best, "{found:?} {known:?}");
    }

    #[test]
    fn conflicts_are_real_and_smallest(
        (mut request, _) in requests(), raise in 0..MEASURES, by in 1_i64..40, lower in 0..MEASURES,
    ) {
        // Two more demands, a good way above and below what the fats reach or the other demands allow.
        for (index, up) in [(raise, true), (lower, false)] {
            let measure = measure(index);
            if matches!(measure, Measure::Group(_)) && request.fats.iter().all(|fat| fat.groups.is_empty()) {
                continue;
            }
            let start: Vec<_> = request.fats.iter().map(|fat| fat.usual.exact()).collect();
            let value = figure(&request, &measure, &start);
            let level = (value + measure.point() * Exact::from(if up { by } else { -by })).rounded(5).unwrap();
            let level = if measure.is_share() { level.min(Decimal::ONE).max(Decimal::ZERO) } else { level.max(Decimal::ZERO) };
            let (at_least, at_most) = if up { (Some(level), None) } else { (None, Some(level)) };
            request.demands.push(Demand { measure, at_least, at_most, target: None });
        }
        match blend::solve(&request) {
            Ok(answer) => good(&request, &answer),
            Err(NoBlend::Conflict(conflict)) => smallest(&request, &conflict),
            Err(error) => panic!("{error}\n{}", brief(&request)),
        }
    }
}

/// Every blend of four fats in steps of 5 % is looked at, and the solver's is as cheap as the cheapest.
#[test]
fn whole_steps_against_looking_at_every_blend() {
    let ids = ["olive-oil", "coconut-oil", "shea-butter", "castor-oil"];
    let cents = [790, 460, 1120, 940];
    let mut request = blend::read(&document("kitchen")).unwrap();
    request.step = Some(Share::literal(5, 2));
    request.size = None;
    request.fats.retain(|fat| ids.contains(&&*fat.fat.id));
    for (fat, cents) in request.fats.iter_mut().zip(cents) {
        fat.price = Some(euros(cents));
        fat.max = Share::literal(1, 0);
    }
    for most in [20_i64, 30, 40, 50, 60, 70, 80] {
        request.demands = vec![
            Demand {
                measure: Measure::IodineValue,
                at_least: None,
                at_most: Some(Decimal::from(most)),
                target: None,
            },
            Demand {
                measure: Measure::Class(Class::LauricMyristic),
                at_least: None,
                at_most: Some(Decimal::new(30, 2)),
                target: None,
            },
        ];
        let mut cheapest: Option<Decimal> = None;
        for a in 0..=20_i64 {
            for b in 0..=20 - a {
                for c in 0..=20 - a - b {
                    let shares =
                        [a, b, c, 20 - a - b - c].map(|part| Exact::literal(5, 2) * Exact::from(part));
                    let met = |demand: &Demand| !missed(demand, figure(&request, &demand.measure, &shares));
                    if request.demands.iter().all(met) {
                        let cost = figure(&request, &Measure::Cost, &shares).published().unwrap();
                        cheapest = Some(cheapest.map_or(cost, |least| least.min(cost)));
                    }
                }
            }
        }
        match (blend::solve(&request), cheapest) {
            (Ok(answer), Some(cheapest)) => {
                good(&request, &answer);
                assert_eq!(answer.aims[0].value, cheapest, "iodine value {most}");
            }
            (Err(NoBlend::Conflict(conflict)), None) => smallest(&request, &conflict),
            (found, wanted) => panic!("iodine value {most}: {found:?}, wanted {wanted:?}"),
        }
    }
}

fn document(name: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("vectors/blend/{name}.json"));
    std::fs::read_to_string(path).unwrap()
}

/// A shadow price is what the re-solved blend costs, where the blend has the same corners over the whole way.
#[test]
fn shadow_prices_are_what_a_little_more_costs() {
    for name in ["kitchen", "narrow"] {
        let mut request = blend::read(&document(name)).unwrap();
        request.step = None;
        let answer = blend::solve(&request).unwrap();
        let mut seen = 0;
        for (index, demand) in answer.demands.iter().enumerate() {
            let Some(price) = &demand.shadow_price else { continue };
            let part = Exact::literal(1, 4);
            let by = request.demands[index].measure.point() * part;
            let mut stricter = request.clone();
            let bound = match price.end {
                End::AtLeast => &mut stricter.demands[index].at_least,
                End::AtMost => &mut stricter.demands[index].at_most,
            };
            let by = if price.end == End::AtLeast { by } else { -by };
            *bound = (Exact::from(*bound) + by).decimal();
            let next = blend::solve(&stricter).unwrap();
            let rate = (Exact::from(next.aims[0].value) - Exact::from(answer.aims[0].value)) / part;
            let off = rate - Exact::from(price.per_point);
            assert!(!(off.max(-off) - Exact::literal(2, 5)).is_positive(), "{name} {demand:?} {rate:?}");
            seen += 1;
        }
        assert!(seen >= 4, "{name}: {seen}");
    }
}

#[test]
fn a_blend_becomes_the_fats_of_a_recipe() {
    let request = blend::read(&document("kitchen")).unwrap();
    let answer = blend::solve(&request).unwrap();
    let fats = blend::fats_json(&request, &answer);
    let text = format!(
        r#"{{"lamella": "recipe/1", "name": "From a blend", "fats": {fats}, "alkali": {{"naoh": {{}}}},
        "superfat": "5 %", "water": {{"lye_concentration": "33 %"}}, "size": {{"fat": "2 kg"}},
        "layers": [{{"layer": "All", "share": "1 part"}}]}}"#
    );
    let recipe = recipe::read(&text).unwrap();
    assert_eq!(recipe.fats, blend::fat_lines(&request, &answer));
    lamella::Plan::of(&recipe).unwrap();
}

#[test]
fn aims_are_met_in_their_order() {
    let mut request = blend::read(&document("kitchen")).unwrap();
    for step in [request.step, None] {
        request.step = step;
        request.aims = vec![Aim::FewestFats, Aim::Cheapest];
        let fewest = blend::solve(&request).unwrap();
        good(&request, &fewest);
        request.aims = vec![Aim::NearestUsual, Aim::FewestFats];
        let usual = blend::solve(&request).unwrap();
        good(&request, &usual);
        request.aims = vec![Aim::Cheapest];
        let cheapest = blend::solve(&request).unwrap();
        let count = |answer: &Answer| answer.fats.iter().filter(|fat| !fat.share.is_zero()).count();
        assert!(count(&fewest) <= count(&cheapest) && count(&fewest) <= count(&usual));
        assert!(fewest.cost_per_kilogram >= cheapest.cost_per_kilogram);
        // As few fats as that and no dearer: at most so many fats says the same.
        request.fats_at_most = Some(u32::try_from(count(&fewest)).unwrap());
        let limited = blend::solve(&request).unwrap();
        let cost = |answer: &Answer| Exact::from(answer.cost_per_kilogram);
        let off = cost(&limited) - cost(&fewest);
        assert!(!(off.max(-off) - Exact::literal(1, 7)).is_positive());
        request.fats_at_most = None;
    }
    request.aims = vec![Aim::MostOf(2), Aim::Cheapest];
    let used_up = blend::solve(&request).unwrap();
    let stock = request.fats[2].stock.unwrap();
    assert_eq!(used_up.fats[2].mass.unwrap(), stock, "all the shea butter there is");
    assert_eq!(blend::settled(&request).unwrap()[2], Some(0));
}

#[test]
fn a_conflict_in_words_and_figures() {
    let request = blend::read(&document("too-much")).unwrap();
    let refusal = blend::solve(&request).unwrap_err();
    let NoBlend::Conflict(conflict) = &refusal else { panic!("{refusal}") };
    smallest(&request, conflict);
    let printed = blend::render_refusal(&request, &refusal);
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("vectors/blend/too-much.md");
    if std::env::var_os("BLESS").is_some() {
        std::fs::write(&path, &printed).unwrap();
    }
    assert_eq!(printed, std::fs::read_to_string(path).unwrap_or_default());
}

#[test]
fn an_answer_prints_as_it_did() {
    for name in ["kitchen", "narrow"] {
        let request = blend::read(&document(name)).unwrap();
        let answer = blend::solve(&request).unwrap();
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("vectors/blend/{name}.md"));
        let printed = blend::render(&answer);
        if std::env::var_os("BLESS").is_some() {
            std::fs::write(&path, &printed).unwrap();
        }
        assert_eq!(printed, std::fs::read_to_string(path).unwrap_or_default());
        let data = serde_json::to_value(&answer).unwrap();
        assert_eq!(data["fats"].as_array().unwrap().len(), 12);
        assert!(data["cost_per_kilogram"].is_string() && data["demands"][0]["value"].is_string());
    }
}

const PLAIN: &str = r#"{
  "lamella": "blend/1", "name": "Two", "size": "1 kg", "step": "1 %", "fats_at_most": 2,
  "fats": [
    {"fat": "olive-oil", "price": "7.50 EUR/kg", "usual": "60 %", "max": "90 %"},
    {"fat": "lard", "price": "38 EUR/5 kg", "stock": "700 g", "usual": "40 %", "groups": ["local"]}
  ],
  "demands": [{"group": "local", "at_least": "20 %", "at_most": "60 %"}, {"acid": "C18:1", "target": "50 %"}],
  "aims": ["cheapest", {"most_of": "lard"}]
}"#;

#[test]
fn wrong_documents_say_what_and_where() {
    blend::read(PLAIN).unwrap();
    let table: &[(&str, &str, &str, &str)] = &[
        ("blend/1", "blend/2", "document.format", "/lamella"),
        ("blend/1", "recipe/1", "document.format", "/lamella"),
        (r#""lamella": "blend/1", "#, "", "document.format", ""),
        (r#""name": "Two""#, r#""nome": "Two""#, "field.unknown", "/nome"),
        (r#""name": "Two", "#, "", "field.missing", ""),
        (r#""step": "1 %""#, r#""step": "3 %""#, "blend.step", "/step"),
        (r#""step": "1 %""#, r#""step": "0 %""#, "quantity.range", "/step"),
        (r#""step": "1 %""#, r#""step": 1"#, "field.type", "/step"),
        (r#""fats_at_most": 2"#, r#""fats_at_most": 0"#, "quantity.range", "/fats_at_most"),
        (r#""size": "1 kg", "#, "", "blend.stock", "/fats/1/stock"),
        (r#""fat": "lard""#, r#""fat": "lord""#, "material.unknown", "/fats/1/fat"),
        (r#""fat": "lard""#, r#""fat": "olive-oil""#, "name.duplicate", "/fats/1/fat"),
        ("7.50 EUR/kg", "7.50 USD/kg", "blend.price", "/fats"),
        ("7.50 EUR/kg", "7.50 EUR", "quantity.form", "/fats/0/price"),
        ("7.50 EUR/kg", "7,50 EUR/kg", "quantity.comma", "/fats/0/price"),
        ("7.50 EUR/kg", "7.50 EUR/mL", "quantity.unit.unknown", "/fats/0/price"),
        ("7.50 EUR/kg", "-7.50 EUR/kg", "quantity.range", "/fats/0/price"),
        ("7.50 EUR/kg", "7.50 EUR/0 kg", "quantity.range", "/fats/0/price"),
        (r#""price": "7.50 EUR/kg", "#, "", "blend.price", "/aims/0"),
        (r#""max": "90 %""#, r#""max": "90 %", "min": "95 %""#, "blend.fat.range", "/fats/0"),
        (r#""usual": "60 %""#, r#""usual": "50 %""#, "blend.usual", "/fats"),
        (r#""group": "local", "#, r#""group": "lokal", "#, "blend.group", "/demands/0"),
        (r#""group": "local", "#, "", "field.choice", "/demands/0"),
        (r#""at_least": "20 %""#, r#""at_least": "70 %""#, "blend.demand", "/demands/0"),
        (r#""at_least": "20 %""#, r#""exactly": "20 %""#, "field.choice", "/demands/0"),
        (r#""at_least": "20 %""#, r#""at_least": "20""#, "quantity.unit.missing", "/demands/0/at_least"),
        (r#", "target": "50 %""#, "", "blend.demand", "/demands/1"),
        (r#""acid": "C18:1""#, r#""acid": "C18""#, "field.word", "/demands/1/acid"),
        (
            r#""acid": "C18:1", "target": "50 %""#,
            r#""class": "oleic", "target": "50 %""#,
            "field.word",
            "/demands/1/class",
        ),
        (
            r#""acid": "C18:1", "target": "50 %""#,
            r#""figure": "cost", "target": "50 %""#,
            "quantity.form",
            "/demands/1/target",
        ),
        (
            r#""acid": "C18:1", "target": "50 %""#,
            r#""figure": "cost", "at_most": "9 USD/kg""#,
            "blend.price",
            "/demands/1/at_most",
        ),
        (r#"["cheapest", {"most_of": "lard"}]"#, "[]", "list.length", "/aims"),
        (r#"{"most_of": "lard"}"#, r#"{"most_of": "lord"}"#, "material.unknown", "/aims/1/most_of"),
        (r#"{"most_of": "lard"}"#, r#""cheapest""#, "name.duplicate", "/aims/1"),
        (r#"{"most_of": "lard"}"#, r#""chepest""#, "field.word", "/aims/1"),
        (
            r#""fat": "lard", "#,
            r#""fat": "beeswax", "certificate": {"profile": {"C16:0": "50 %"}}, "#,
            "fat.profile.sum",
            "/fats/1/certificate/profile",
        ),
    ];
    let codes: BTreeSet<&str> = CODES.iter().map(|(code, _)| *code).collect();
    for (from, to, code, pointer) in table {
        let text = PLAIN.replacen(from, to, 1);
        assert_ne!(text, PLAIN, "{from}");
        let problems = blend::read(&text).expect_err(to);
        let found = problems.iter().find(|problem| problem.code == *code && problem.pointer == *pointer);
        assert!(found.is_some(), "{to}: {problems:#?}");
        for problem in &problems {
            assert!(codes.contains(problem.code));
            assert!(recipe::locate(&text, &problem.pointer).is_some(), "{problem}");
            for words in [&problem.message, &problem.advice] {
                assert!(!words.is_empty() && !words.ends_with(['.', ' ', '!']), "{words}");
            }
        }
    }
    // What an aim or a demand needs, and no fat has.
    let targets =
        PLAIN.replace(r#", {"acid": "C18:1", "target": "50 %"}"#, "").replace("cheapest", "nearest targets");
    assert_eq!(blend::read(&targets).unwrap_err()[0].code, "blend.aim");
    let wax = PLAIN.replace("olive-oil", "lanolin");
    assert_eq!(blend::read(&wax).unwrap_err()[0].code, "blend.figure");
    // All at once, in the order of the text.
    let many = PLAIN
        .replace("1 kg", "1 kq")
        .replace("1 %", "7 %")
        .replace("20 %", "20")
        .replace("\"lard\"}", "\"lord\"}");
    let found: Vec<_> = blend::read(&many).unwrap_err().into_iter().map(|problem| problem.pointer).collect();
    assert_eq!(found, ["/size", "/step", "/demands/0/at_least", "/aims/1/most_of"]);
}

/// One demand that no blend meets is not "any one of them".
#[test]
fn a_single_impossible_demand_is_told_as_one() {
    let told = |name: &str, keep: usize| {
        let mut request = blend::read(&document(name)).unwrap();
        request.demands.truncate(keep);
        if keep == 1 {
            request.demands[0].at_least = Some(Decimal::ONE);
            request.demands[0].at_most = None;
        }
        let refusal = blend::solve(&request).unwrap_err();
        let NoBlend::Conflict(conflict) = &refusal else { panic!("{refusal}") };
        (conflict.members.len(), blend::render_refusal(&request, &refusal))
    };
    let (one, printed) = told("kitchen", 1);
    assert_eq!(one, 1, "{printed}");
    assert!(printed.contains("meets this demand") && !printed.contains("without any one"), "{printed}");
    let (several, printed) = told("too-much", usize::MAX);
    assert!(several > 1 && printed.contains("without any one of them"), "{printed}");
}

#[test]
fn every_code_of_a_refusal_is_listed() {
    let all = [NoBlend::Effort, NoBlend::Solver, NoBlend::Number];
    for refusal in all {
        assert!(CODES.iter().any(|(code, _)| *code == refusal.code()), "{refusal}");
    }
}
