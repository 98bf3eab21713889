//! Saponification of pure substances, constants and titration against `vectors/published/c_stoichiometry.json`.
//!
//! Source: reaction stoichiometry with the CIAAW conventional atomic weights, in exact fractions; titration as the methods
//! that each record names.
//!
//! What is computed from a profile agrees to 24 digits. What passes through a [`Fat`](lamella::material::Fat) agrees
//! within 1e-12, the tolerance of the records: a saponification value keeps twelve decimals, and the parts of a bar close
//! in nanograms, so that a hundred kilograms are saponified here.
#![expect(
    clippy::arithmetic_side_effects,
    clippy::unwrap_used,
    reason = "a test stops where a record is not as it should be; atoms are few"
)]

use lamella::chemistry::{Part, soap_by_acid, titration};
use lamella::material::atoms::{Formula, molar};
use lamella::material::{Alkali, FatKind, FattyAcid, library};
use lamella::quantity::{Exact, Mass, Volume};
use lamella_tests::published::{acid, covered, exact, id, near, number, records, text};
use lamella_tests::substance::{grams, pure, reacted, saponification_value, split, with};
use serde_json::Value;

const FILE: &str = "c_stoichiometry";
const SODIUM: Exact = Exact::ZERO;
const POTASSIUM: Exact = Exact::ONE;

/// Iodine values are asserted in `published_profiles.rs`, the mixtures in `published_batches.rs`.
#[test]
fn every_record_has_a_test() {
    let here = ["c.tg.", "c.ffa.", "c.di.", "c.mono.", "c.const.", "c.titration."];
    let elsewhere = ["c.iodine.", "c.mix.", "c.purity.", "c.dual.", "c.recipe."];
    covered(FILE, &[here.as_slice(), &elsewhere].concat());
}

/// Saponifies a hundred kilograms of a pure substance and compares what comes of a gram.
fn saponified(record: &Value, kind: FatKind, acids: &[FattyAcid]) {
    let (id, expected) = (id(record), &record["expected"]);
    let value = saponification_value(kind, acids);
    exact(value, number(&expected["SV_exact"]), id);
    exact(value, number(&expected["SV_mgKOH_per_g"]), id);
    let sodium = split(SODIUM).pure(value / Exact::THOUSAND).sodium;
    exact(sodium, number(&expected["NaOH_g_per_g"]), id);
    exact(sodium, number(&expected["NaOH_exact"]), id);
    exact(split(POTASSIUM).pure(value / Exact::THOUSAND).potassium, number(&expected["KOH_g_per_g"]), id);

    let whole = Exact::from(100_000);
    let fat = pure(kind, acids);
    let tally = grams(&fat, whole);
    let soaps = [(SODIUM, "sodium_soap_g_per_g"), (POTASSIUM, "potassium_soap_g_per_g")];
    for (potassium, soap) in soaps {
        let alkali = split(potassium).pure(tally.fat_demand());
        let bar = reacted(&with(&tally, alkali));
        let parts =
            [(Part::Soap, soap), (Part::Glycerol, "glycerol_g_per_g"), (Part::Water, "water_formed_g_per_g")];
        for (part, key) in parts {
            near(
                bar.mass(part).exact() / whole,
                number(&expected[key]),
                Exact::ONE,
                12,
                &format!("{id} {key}"),
            );
        }
        assert!(bar.mass(Part::Alkali).is_zero() && bar.mass(Part::UnreactedFat).is_zero(), "{id}");
        let by_acid = soap_by_acid([(&fat, whole)].into_iter(), potassium, bar.mass(Part::Soap)).unwrap();
        let sum: Mass = by_acid.iter().map(|(_, mass)| *mass).sum();
        assert_eq!(sum, bar.mass(Part::Soap), "{id}");
    }
}

#[test]
fn triglycerides() {
    for record in records(FILE, "c.tg.") {
        let name = id(&record).strip_prefix("c.tg.").unwrap();
        let acids: Vec<FattyAcid> = name
            .strip_prefix("mixed.")
            .map_or_else(|| vec![acid(name)], |names| names.split('_').map(acid).collect());
        saponified(&record, FatKind::Triglyceride, &acids);
    }
}

#[test]
fn free_acids() {
    for record in records(FILE, "c.ffa.") {
        let name = id(&record).strip_prefix("c.ffa.").unwrap();
        saponified(&record, FatKind::FreeFattyAcid, &[acid(name)]);
    }
}

/// Partial glycerides are no kind of fat of the library; they follow from the formula: glycerol with `acids` acids, less a
/// water for each.
fn partial_glyceride(record: &Value, acids: u16, name: &str) {
    let (id, expected) = (id(record), &record["expected"]);
    let acid = acid(name);
    let (carbons, hydrogens) = (u16::from(acid.carbons), u16::from(acid.carbons - acid.double_bonds));
    let formula = Formula {
        c: 3 + acids * carbons,
        h: 8 + acids * (2 * hydrogens - 2),
        o: 3 + acids,
        ..Formula::default()
    };
    let mass = formula.molar_mass();
    let count = Exact::from(i64::from(acids));
    assert_eq!(mass.decimal(), number(&expected["molar_mass_g_mol"]).decimal(), "{id}");
    let koh = count * molar::KOH / mass;
    exact(koh, number(&expected["KOH_g_per_g"]), id);
    exact(koh * Exact::THOUSAND, number(&expected["SV_mgKOH_per_g"]), id);
    exact(koh * Exact::THOUSAND, number(&expected["SV_exact"]), id);
    let sodium = split(SODIUM).pure(koh).sodium;
    exact(sodium, number(&expected["NaOH_g_per_g"]), id);
    exact(sodium, number(&expected["NaOH_exact"]), id);
    let glycerol = molar::GLYCEROL / mass;
    exact(glycerol, number(&expected["glycerol_g_per_g"]), id);
    for (alkali, soap) in [(molar::NAOH, "sodium_soap_g_per_g"), (molar::KOH, "potassium_soap_g_per_g")] {
        let soap_mass = count * (acid.molar_mass() + alkali - molar::WATER) / mass;
        exact(soap_mass, number(&expected[soap]), id);
        // Mass in, mass out: no water is formed.
        exact(soap_mass + glycerol, Exact::ONE + count * alkali / mass, id);
    }
    assert!(number(&expected["water_formed_g_per_g"]).is_zero(), "{id}");
}

#[test]
fn partial_glycerides() {
    for record in records(FILE, "c.di.") {
        partial_glyceride(&record, 2, text(&record["inputs"]["diglyceride"]));
    }
    for record in records(FILE, "c.mono.") {
        partial_glyceride(&record, 1, text(&record["inputs"]["monoglyceride"]));
    }
}

#[test]
fn constants() {
    let three = Exact::from(3);
    let (naoh, koh) = (Alkali::SodiumHydroxide.molar_mass(), Alkali::PotassiumHydroxide.molar_mass());
    let row = |name: &str| library::acid(name).unwrap();
    let sodium_salt = |name: &str| {
        let mass = row(name).formula.molar_mass();
        (mass + Exact::from(i64::from(row(name).equivalents)) * (naoh - molar::WATER)) / mass
    };
    for record in records(FILE, "c.const.") {
        let (id, expected) = (id(&record), &record["expected"]);
        let ours = match id.strip_prefix("c.const.").unwrap() {
            "naoh_over_koh" => split(SODIUM).pure(Exact::ONE).sodium,
            "koh_over_naoh" => koh / naoh,
            "glycerol_per_naoh_ester" => molar::GLYCEROL / (three * naoh),
            "glycerol_per_koh_ester" => titration::glycerol(Exact::THOUSAND),
            "koh_per_citric" => row("citric").koh_per_gram(),
            "koh_per_citric_mono" => {
                let anhydrous = row("citric").formula.molar_mass();
                row("citric").koh_per_gram() * anhydrous / (anhydrous + molar::WATER)
            }
            "koh_per_lactic" => row("lactic").koh_per_gram(),
            "naoh_per_lactic" => split(SODIUM).pure(row("lactic").koh_per_gram()).sodium,
            "naoh_per_acetic" => split(SODIUM).pure(row("acetic").koh_per_gram()).sodium,
            "na_citrate_per_citric" => sodium_salt("citric"),
            "na_lactate_per_lactic" => sodium_salt("lactic"),
            // The molar mass of a triglyceride of saponification value 190.
            "sv_1_mean_M" => three * koh * Exact::THOUSAND / Exact::from(190),
            other => panic!("no constant {other}"),
        };
        exact(ours, number(&expected["decimal"]), id);
        exact(ours, number(expected), id);
    }
}

fn ml(value: &Value) -> Volume {
    Volume::try_new(number(value)).unwrap()
}

/// ISO 3657 and ISO 456, from memory of their formulas.
#[test]
fn titrations() {
    for record in records(FILE, "c.titration.") {
        let (id, inputs, expected) = (id(&record), &record["inputs"], &record["expected"]);
        let (strength, sample) =
            (number(&inputs["mol_L"]), Mass::try_new(number(&inputs["sample_g"])).unwrap());
        if id.starts_with("c.titration.sv.") {
            let (blank, used) = (ml(&inputs["blank_mL"]), ml(&inputs["titrant_mL"]));
            exact(
                titration::saponification_value(blank, used, strength, sample),
                number(&expected["SV"]),
                id,
            );
        } else {
            let found = titration::free_caustic_alkali(
                ml(&inputs["acid_mL"]),
                strength,
                Alkali::SodiumHydroxide,
                sample,
            );
            exact(found, number(&expected["percent_NaOH"]), id);
        }
    }
}
