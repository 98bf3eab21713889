//! Mixtures, purities, dual alkali and whole recipes against `vectors/published/c_stoichiometry.json`.
//!
//! Source: reaction stoichiometry with the CIAAW conventional atomic weights, in exact fractions. Tolerance 1e-12, that of
//! the records: a saponification value keeps twelve decimals. What no fat enters agrees to 24 digits.
#![expect(clippy::panic, clippy::unwrap_used, reason = "a test stops where a record is not as it should be")]

use lamella::chemistry::{AlkaliSplit, Part, Tally, carbonate_and_water, mole_share};
use lamella::material::atoms::molar;
use lamella::material::{Additive, Alkali, Composition, FatKind, library};
use lamella::quantity::{Exact, Share};
use lamella::recipe::{AlkaliGrade, Ingredient, ShareReading, Superfat};
use lamella_tests::published::{acid, exact, id, near, number, records, text};
use lamella_tests::substance::{WARM, dual, grade, grams, pure, reacted, saponification_value, split, with};
use serde_json::Value;

const FILE: &str = "c_stoichiometry";

/// The parts of a mixture that alkali takes up: kind, name of the acid, mass in grams.
fn parts(mixture: &Value) -> Vec<(FatKind, String, Exact)> {
    [(FatKind::Triglyceride, "tg"), (FatKind::FreeFattyAcid, "ffa")]
        .into_iter()
        .flat_map(|(kind, key)| {
            let list = mixture[key].as_object().unwrap();
            list.iter().map(move |(name, mass)| (kind, name.clone(), number(mass))).collect::<Vec<_>>()
        })
        .collect()
}

/// A mixture of pure triglycerides, free acids and unsaponifiable matter.
fn mixed(mixture: &Value) -> Tally {
    let unsaponifiable = Tally { unsaponifiable: number(&mixture["unsap"]), ..Tally::EMPTY };
    parts(mixture)
        .into_iter()
        .fold(unsaponifiable, |sum, (kind, name, mass)| sum.plus(&grams(&pure(kind, &[acid(&name)]), mass)))
}

/// Its demand in grams of KOH without a fat between, to 28 digits.
fn demand(mixture: &Value) -> Exact {
    let one =
        |(kind, name, mass): (FatKind, String, Exact)| mass * saponification_value(kind, &[acid(&name)]);
    parts(mixture).into_iter().map(one).sum::<Exact>() / Exact::THOUSAND
}

fn close(ours: Exact, published: &Value, what: &str) {
    near(ours, number(published), Exact::ONE, 12, what);
}

fn share(value: Exact) -> Share {
    Share::try_new(value).unwrap()
}

#[test]
fn mixtures() {
    for record in records(FILE, "c.mix.") {
        let (id, inputs, expected) = (id(&record), &record["inputs"], &record["expected"]);
        let tally = mixed(inputs);
        let fat = tally.fat();
        assert_eq!(fat.rounded(12), number(&expected["total_fat_g"]).rounded(12), "{id}");
        let per_gram = |koh: Exact| koh * Exact::THOUSAND / fat;
        close(per_gram(tally.fat_demand()), &expected["SV"], id);
        close(per_gram(tally.fatty_acid_demand), &expected["acid_value"], id);
        close(per_gram(tally.ester_demand), &expected["ester_value"], id);
        exact(demand(inputs) / molar::KOH, number(&expected["base_mol"]), id);
        close(tally.fat_demand() / molar::KOH, &expected["base_mol"], id);

        let weighed = [
            ("KOH_g_lye_discount", Exact::ONE, Superfat::OfDemand as fn(Share) -> Superfat),
            ("NaOH_g_lye_discount", Exact::ZERO, Superfat::OfDemand),
            ("NaOH_g_fat_excess", Exact::ZERO, Superfat::FatExcess),
        ];
        for (key, potassium, reading) in weighed {
            for (superfat, published) in expected[key].as_object().unwrap() {
                let what = format!("{id} {key} {superfat}");
                let discount = reading(share(number(&Value::String(superfat.clone())))).discount();
                let met = Exact::ONE - discount;
                let exactly = split(potassium).weighed(demand(inputs) * met);
                exact(exactly.total(), number(published), &what);
                let alkali = split(potassium).pure(tally.fat_demand() * met);
                close(alkali.total(), published, &what);
                // The superfat of what was weighed is the one asked for.
                near(with(&tally, alkali).superfat(), discount, Exact::ONE, 24, &what);
            }
        }
        // The parts of a bar close in nanograms: a hundred times as much for 1e-12, or 2e-11 g of a small part.
        let hundred = tally.times(Exact::HUNDRED);
        for (potassium, key) in [(Exact::ZERO, "sodium_soap_g_full"), (Exact::ONE, "potassium_soap_g_full")] {
            let bar = reacted(&with(&hundred, split(potassium).pure(hundred.fat_demand())));
            let parts = [
                (Part::Soap, key),
                (Part::Glycerol, "glycerol_g_full"),
                (Part::Water, "water_formed_g_full"),
            ];
            for (part, key) in parts {
                let ours = bar.mass(part).exact() / Exact::HUNDRED;
                near(ours, number(&expected[key]), Exact::from(20), 12, &format!("{id} {key}"));
            }
            assert!(bar.mass(Part::UnreactedFat).is_zero() && bar.mass(Part::Alkali).is_zero(), "{id}");
            near(bar.mass(Part::Unsaponifiable).exact(), hundred.unsaponifiable, fat, 12, id);
        }
    }
}

#[test]
fn purities() {
    for record in records(FILE, "c.purity.") {
        let (id, inputs, expected) = (id(&record), &record["inputs"], &record["expected"]);
        let [purity, carbonate] = ["purity", "carbonate_fraction"].map(|name| share(number(&inputs[name])));
        let grade = AlkaliGrade::new(purity, carbonate);
        let need = number(&inputs["need_pure_g"]);
        let (alkali, weighed) = match text(&inputs["alkali"]) {
            "NaOH" => {
                let split =
                    AlkaliSplit { sodium: Some(grade), potassium: None, potassium_moles: Exact::ZERO };
                (Alkali::SodiumHydroxide, split.weighed(need * molar::KOH / molar::NAOH).sodium)
            }
            "KOH" => {
                let split = AlkaliSplit { sodium: None, potassium: Some(grade), potassium_moles: Exact::ONE };
                (Alkali::PotassiumHydroxide, split.weighed(need).potassium)
            }
            other => panic!("no alkali {other}"),
        };
        assert_eq!(inputs["rest_is_water"], true, "{id}");
        exact(weighed, number(&expected["weigh_g"]), id);
        let (carbonate, water) = carbonate_and_water(weighed, grade);
        exact(carbonate, number(&expected["carbonate_g"]), id);
        exact(water, number(&expected["water_brought_g"]), id);
        let tally = Tally::of_alkali(alkali, grade, weighed);
        exact(tally.alkali().total(), need, id);
        exact(tally.mass(), weighed, id);
    }
}

#[test]
fn dual_alkali_by_three_readings() {
    let mixtures = records(FILE, "c.mix.");
    let records = records(FILE, "c.dual.");
    assert_eq!(records.len(), 82);
    for record in &records {
        let (id, inputs, expected) = (id(record), &record["inputs"], &record["expected"]);
        let (sodium, potassium) = (number(&inputs["NaOH_purity"]), number(&inputs["KOH_purity"]));
        let asked = number(&inputs["KOH_share"]);
        let koh = number(&inputs["base_mol"]) * molar::KOH;
        // Of the third of the mixtures only the demand is published.
        if let Some(mixture) = mixtures.iter().find(|mixture| mixture["id"] == inputs["mixture"]) {
            let met = Exact::ONE - number(&inputs["lye_discount"]);
            exact(demand(&mixture["inputs"]) * met, koh, id);
        }
        let readings = [
            (ShareReading::Moles, "mole_share"),
            (ShareReading::PureMass, "pure_mass_share"),
            (ShareReading::WeighedMass, "weighed_mass_share"),
        ];
        for (reading, key) in readings {
            let (what, published) = (format!("{id} {key}"), &expected[key]);
            let split = dual(asked, reading, sodium, potassium);
            let weighed = split.weighed(koh);
            exact(weighed.sodium, number(&published["NaOH_weigh_g"]), &what);
            exact(weighed.potassium, number(&published["KOH_weigh_g"]), &what);
            // What was weighed meets the demand.
            let pure = split.pure(koh);
            exact(pure.as_koh(), koh, &what);
            exact(weighed.sodium * sodium + weighed.potassium * potassium, pure.total(), &what);
        }
        let moles = mole_share(share(asked), ShareReading::PureMass, share(sodium), share(potassium));
        exact(moles, number(&expected["mole_share_of_KOH_in_pure_mass_share"]), id);
    }
}

/// One gram of an acid of this assay, as an additive that is nothing but acid and water. An assay of the monohydrate
/// counts its water of crystallisation; a share keeps twelve decimals.
fn acid_product(name: &str, assay: Exact) -> Tally {
    let (row, hydrate) = match name {
        "citric acid, anhydrous" => ("citric", Exact::ZERO),
        "citric acid monohydrate" => ("citric", molar::WATER),
        "lactic acid" => ("lactic", Exact::ZERO),
        "acetic acid" => ("acetic", Exact::ZERO),
        other => panic!("no acid {other}"),
    };
    let mass = library::acid(row).unwrap().formula.molar_mass();
    let anhydrous = share(assay * mass / (mass + hydrate));
    let additive = Additive {
        composition: Composition {
            acid: anhydrous,
            water: Share::literal(1, 0) - anhydrous,
            ..Composition::default()
        },
        acid: Some(row.into()),
        fat_like: None,
        fat_saponification_value: None,
        ..library::additive("citric-acid-anhyd").unwrap().clone()
    };
    Tally::of_ingredient(&Ingredient::Additive(additive), WARM)
}

/// The acid takes its alkali first. From the rounded weighings the superfat comes back, not the one that was asked for.
#[test]
fn recipes_with_acid() {
    for record in records(FILE, "c.recipe.") {
        let (id, inputs, expected) = (id(&record), &record["inputs"], &record["expected"]);
        let fats = mixed(&inputs["mixture"]);
        let acid = acid_product(text(&inputs["acid"]), number(&inputs["acid_assay"]))
            .times(number(&inputs["acid_g"]));
        let (sodium, potassium) = (number(&inputs["NaOH_purity"]), number(&inputs["KOH_purity"]));
        let split = dual(number(&inputs["KOH_mole_share"]), ShareReading::Moles, sodium, potassium);
        let discount = number(&inputs["lye_discount"]);
        let for_fats = fats.fat_demand() * (Exact::ONE - discount);

        // Balanced: lye for the acid too.
        let weighed = split.weighed(for_fats + acid.acid_demand);
        close(weighed.sodium, &expected["NaOH_weigh_g"], id);
        close(weighed.potassium, &expected["KOH_weigh_g"], id);

        let tenth = Exact::literal(1, 1);
        let rounded = |weighed: Exact| Exact::from(weighed.steps(tenth).unwrap()) * tenth;
        let (sodium_shown, potassium_shown) = (rounded(weighed.sodium), rounded(weighed.potassium));
        assert_eq!(sodium_shown.rounded(1), number(&expected["NaOH_rounded_g"]).rounded(1), "{id}");
        assert_eq!(potassium_shown.rounded(1), number(&expected["KOH_rounded_g"]).rounded(1), "{id}");
        let charged = fats
            .plus(&acid)
            .plus(&Tally::of_alkali(Alkali::SodiumHydroxide, grade(sodium), sodium_shown))
            .plus(&Tally::of_alkali(Alkali::PotassiumHydroxide, grade(potassium), potassium_shown));
        close(charged.superfat(), &expected["superfat_from_rounded"], id);
        close(charged.superfat(), &expected["superfat_from_rounded_exact"], id);

        // Absorbed: the lye is that of the fats alone, and the acid takes of it.
        let absorbed = with(&fats.plus(&acid), split.pure(for_fats));
        close(absorbed.superfat(), &expected["superfat_if_acid_not_compensated"], id);

        // Its neutralisation alone makes this water, beside what the product brought.
        let alone = with(&acid, split.pure(acid.acid_demand)).times(Exact::from(100_000));
        if !alone.mass().is_zero() {
            let made = reacted(&alone).mass(Part::Water).exact() - alone.water;
            close(made / Exact::from(100_000), &expected["water_formed_by_acid_g"], id);
        } else {
            assert!(number(&expected["water_formed_by_acid_g"]).is_zero(), "{id}");
        }
    }
}
