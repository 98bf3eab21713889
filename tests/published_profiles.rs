//! The chemistry of a profile and the tables of fats against published values: `c_stoichiometry.json` and `profiles.json`
//! of `vectors/published`.
#![expect(clippy::unwrap_used, clippy::panic, reason = "a test stops where a record is not as it should be")]

use lamella::material::fat::Ranged;
use lamella::material::{FatKind, FattyAcid, library, profile};
use lamella::quantity::{Decimal, Exact, Share};
use lamella_tests::published::{acid, id, number};
use lamella_tests::substance::moles;
use serde_json::Value;

fn records(prefix: &str) -> Vec<Value> {
    let file = if prefix.starts_with("c.") { "c_stoichiometry" } else { "profiles" };
    lamella_tests::published::records(file, prefix)
}

/// Equal to at least twenty digits: everything here is above 1e-2 and computed to 26 decimals.
fn same(ours: Exact, published: Exact, what: &str) {
    let gap = (ours - published).decimal().unwrap_or_else(|| panic!("{what}: no value"));
    assert!(gap.abs() < Decimal::new(1, 20), "{what}: {ours:?} is not {published:?}");
}

#[test]
fn triglycerides() {
    for record in records("c.tg.") {
        let (id, expected) = (id(&record), &record["expected"]);
        let name = id.strip_prefix("c.tg.").unwrap();
        let mixed = name.strip_prefix("mixed.");
        let acids: Vec<FattyAcid> =
            mixed.map_or_else(|| vec![acid(name)], |names| names.split('_').map(acid).collect());
        let acids = moles(&acids);
        let value = profile::saponification_value(FatKind::Triglyceride, &acids, Share::ZERO).unwrap();
        same(value, number(&expected["SV_mgKOH_per_g"]), id);
        same(value / Exact::THOUSAND, number(&expected["KOH_g_per_g"]), id);
        let mass = (profile::mean_molar_mass(&acids) + Exact::literal(12_683, 3)) * Exact::from(3);
        same(mass, number(&expected["molar_mass_g_mol"]), id);
    }
}

#[test]
fn free_acids() {
    for record in records("c.ffa.") {
        let (id, expected) = (id(&record), &record["expected"]);
        let acids = moles(&[acid(id.strip_prefix("c.ffa.").unwrap())]);
        let value = profile::saponification_value(FatKind::FreeFattyAcid, &acids, Share::ZERO).unwrap();
        same(value, number(&expected["SV_mgKOH_per_g"]), id);
        same(profile::mean_molar_mass(&acids), number(&expected["molar_mass_g_mol"]), id);
    }
}

#[test]
fn iodine_values() {
    for record in records("c.iodine.") {
        let (id, expected) = (id(&record), &record["expected"]);
        let acid = acid(id.strip_prefix("c.iodine.").unwrap());
        let kinds = [
            (FatKind::Triglyceride, "triglyceride", "published_factor_triglyceride"),
            (FatKind::FreeFattyAcid, "free_acid", "published_factor_free_acid"),
        ];
        for (kind, exact, factor) in kinds {
            let ours = profile::iodine_by_stoichiometry(kind, acid).unwrap() * Exact::HUNDRED;
            same(ours, number(&expected[exact]), id);
            let published = profile::iodine_factor(kind, acid).unwrap();
            same(published, number(&expected[factor]), id);
            // The factor is the stoichiometry to one in its last digit (older atomic weights: 0.8986 of oleic acid is
            // 0.89854 now).
            let digits = expected[factor].as_str().unwrap().len().saturating_sub(2);
            let off = ours / Exact::HUNDRED - published;
            let agree = !(off.max(-off) - Exact::literal(1, u32::try_from(digits).unwrap())).is_positive();
            assert_eq!(agree, expected["agrees_with_published_factors"], "{id}");
        }
    }
}

#[test]
fn acid_in_a_triglyceride() {
    for record in records("m.factor.") {
        let (id, expected) = (id(&record), &record["expected"]);
        let ours = profile::acid_in_triglyceride(acid(id.strip_prefix("m.factor.").unwrap()));
        let published = number(&expected["num"]) / number(&expected["den"]);
        same(ours, published, id);
        assert_eq!(ours.rounded(20), number(&expected["decimal"]).rounded(20), "{id}");
    }
}

/// The fat of the library that a food of the dataset is.
fn fat_of(food: &str) -> &'static str {
    match food {
        "almond" => "sweet-almond-oil",
        "avocado" => "avocado-oil",
        "babassu" => "babassu-oil",
        "beef_tallow" => "beef-tallow",
        "canola" => "rapeseed-oil-low-erucic",
        "cocoa_butter" => "cocoa-butter",
        "coconut" => "coconut-oil",
        "corn" => "maize-oil",
        "cottonseed" => "cottonseed-oil",
        "cupu_assu" => "cupuacu-butter",
        "goose_fat" => "goose-fat",
        "grapeseed" => "grapeseed-oil",
        "hazelnut" => "hazelnut-oil",
        "lard" => "lard",
        "linseed" => "linseed-oil",
        "mutton_tallow" => "mutton-tallow",
        "olive" => "olive-oil",
        "palm" => "palm-oil",
        "peanut" => "peanut-oil",
        "safflower" => "safflower-oil",
        "sesame" => "sesame-oil",
        "shea_nut" => "shea-butter",
        "soybean" => "soybean-oil",
        "sunflower" | "sunflower_linoleic" => "sunflower-oil",
        "sunflower_high_oleic" => "sunflower-oil-high-oleic",
        "teaseed" => "camellia-oil",
        "walnut" => "walnut-oil",
        other => panic!("no fat for {other}"),
    }
}

/// Saturated acids in 100 g of fat: the sum of the shares that `choose` picks, times the acid in a gram of fat.
fn saturated(fat: &str, total: Exact, choose: impl Fn(&Ranged<Share>) -> Share) -> Exact {
    let row = library::fat(fat).unwrap();
    let saturated = row.profile.iter().filter(|part| part.acid.double_bonds == 0 && part.acid.hydroxyls == 0);
    let share: Share = saturated.map(|part| choose(&part.share)).sum();
    share.exact() * profile::acids_in_triglyceride(&row.profile) * total
}

/// The saturated acids of our typical profiles against a public dataset, within the tolerance that the records state: 3 g,
/// 6 g for tallows, lard and palm.
///
/// Cupuaçu butter does not test anything any more: the row, from memory, gave 50.1 g against the measured 53.2 g, the
/// measurement was taken to be right, and the row now rests on it.
#[test]
fn saturated_acids() {
    for record in records("m.usda.") {
        let (id, expected) = (id(&record), &record["expected"]);
        let food = id.strip_prefix("m.usda.").unwrap();
        let fat = fat_of(food);
        let published = number(&expected["saturated_g_per_100g"]);
        let total = match expected["total_fat_g_per_100g"].as_str() {
            None | Some("") => Exact::HUNDRED, // not stated for three refined oils
            Some(_) => number(&expected["total_fat_g_per_100g"]),
        };
        let typical = saturated(fat, total, |range| range.typical);
        let least = saturated(fat, total, |range| range.min.unwrap_or(range.typical));
        let most = saturated(fat, total, |range| range.max.unwrap_or(range.typical));
        let gap = (typical - published).decimal().unwrap().abs();
        match food {
            // 43.1 g against 46.6 g, 3.5 apart. Both are right: our row is the average of Belitz, Table 14.9, and shea
            // differs that much from west to east; the dataset lies well inside the ranges of Codex CXS 325R.
            "shea_nut" => {
                assert!(gap > Decimal::from(3), "{id}: not an exception any more");
                assert!((published - least).is_positive() && (most - published).is_positive(), "{id}");
            }
            // 10.4 g against 21.1 g. Another plant: camellia oil here is of Camellia oleifera, whose published ranges end
            // at 13.2 % saturated acids; tea seed with 21 % is that of the tea bush, Camellia sinensis (from memory).
            "teaseed" => assert!((published - most).is_positive(), "{id}"),
            _ => {
                let wide = ["tallow", "lard", "palm"].iter().any(|word| food.contains(word));
                let tolerance = Decimal::from(if wide { 6 } else { 3 });
                assert!(gap <= tolerance, "{id}: {typical:?} is not {published:?}");
            }
        }
    }
}
