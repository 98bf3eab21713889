//! Molar masses against `vectors/published/a_molar_masses.json`.
//!
//! Source: CIAAW, Standard atomic weights 2021, conventional values; three public libraries of chemistry beside them.
#![expect(clippy::unwrap_used, clippy::panic, reason = "a test stops where a record is not as it should be")]

use lamella::material::atoms::{Formula, molar, weight};
use lamella::material::{FattyAcid, library};
use lamella::quantity::Exact;
use lamella_tests::published::{acid, covered, id, near, number, records, text};
use serde_json::Value;

const FILE: &str = "a_molar_masses";

#[test]
fn every_record_has_a_test() {
    covered(FILE, &["a.M.", "a.elements", "a.agreement"]);
}

fn formula(atoms: &Value) -> Formula {
    let mut formula = Formula::default();
    for (atom, count) in atoms.as_object().unwrap() {
        let count = u16::try_from(count.as_u64().unwrap()).unwrap();
        match atom.as_str() {
            "C" => formula.c = count,
            "H" => formula.h = count,
            "N" => formula.n = count,
            "O" => formula.o = count,
            "Na" => formula.na = count,
            "K" => formula.k = count,
            "Cl" => formula.cl = count,
            other => panic!("no atom {other}"),
        }
    }
    formula
}

/// The same substance by another way through the library: constants, acids of the table and their salts, fatty acids,
/// their soaps and glycerides.
fn otherwise(name: &str) -> Option<Exact> {
    let sodium = molar::NAOH - molar::WATER;
    let potassium = molar::KOH - molar::WATER;
    let of = |id: &str| library::acid(id).unwrap().formula.molar_mass();
    let salt = |id: &str, metal: Exact| {
        let acid = library::acid(id).unwrap();
        acid.formula.molar_mass() + Exact::from(i64::from(acid.equivalents)) * metal
    };
    let waters = |count| Exact::from(count) * molar::WATER;
    Some(match name {
        "NaOH" => molar::NAOH,
        "sodium_hydroxide_monohydrate" => molar::NAOH + molar::WATER,
        "water" => molar::WATER,
        "citric_acid_anhydrous" => of("citric"),
        "citric_acid_monohydrate" => of("citric") + waters(1),
        "trisodium_citrate_anhydrous" => salt("citric", sodium),
        "trisodium_citrate_dihydrate" => salt("citric", sodium) + waters(2),
        "tripotassium_citrate_anhydrous" => salt("citric", potassium),
        "tripotassium_citrate_monohydrate" => salt("citric", potassium) + waters(1),
        "lactic_acid" => of("lactic"),
        "sodium_lactate" => salt("lactic", sodium),
        "potassium_lactate" => salt("lactic", potassium),
        "acetic_acid" => of("acetic"),
        "sodium_acetate" => salt("acetic", sodium),
        _ => return fatty(name, sodium, potassium),
    })
}

fn fatty(name: &str, sodium: Exact, potassium: Exact) -> Option<Exact> {
    let glyceride = |acids: [FattyAcid; 3]| {
        let acids: Exact = acids.into_iter().map(FattyAcid::molar_mass).sum();
        acids + Exact::from(3) * molar::GLYCERYL
    };
    if let Some(name) = name.strip_prefix("tri-").and_then(|name| name.strip_suffix("_glyceride")) {
        return Some(glyceride([acid(name); 3]));
    }
    if let Some(names) = name.strip_prefix("glyceride_of_") {
        let acids: Vec<FattyAcid> = names.split('_').map(acid).collect();
        return Some(glyceride(acids.try_into().unwrap()));
    }
    let name = name.strip_suffix("_acid")?;
    if name == "EDTA" {
        return None;
    }
    Some(match (name.strip_prefix("sodium_soap_of_"), name.strip_prefix("potassium_soap_of_")) {
        (Some(name), _) => acid(name).molar_mass() + sodium,
        (_, Some(name)) => acid(name).molar_mass() + potassium,
        _ => acid(name).molar_mass(),
    })
}

/// Exact: a sum of atomic weights has at most eight decimals. The three libraries, with older or averaged weights, agree
/// within 7e-5 of it, the one with the same weights to the last digit of a double.
#[test]
fn substances() {
    let records = records(FILE, "a.M.");
    assert_eq!(records.len(), 85);
    let mut twice = 0_usize;
    for record in &records {
        let (id, expected) = (id(record), &record["expected"]);
        let published = number(&expected["exact_with_these_weights"]);
        let ours = formula(&record["inputs"]["atoms"]).molar_mass();
        assert_eq!(ours.decimal().map(|value| value.normalize()), published.decimal(), "{id}");
        if let Some(other) = otherwise(id.strip_prefix("a.M.").unwrap()) {
            assert_eq!(other.rounded(12), ours.rounded(12), "{id}");
            twice = twice.saturating_add(1);
        }
        for (library, digits) in [("molmass", 5), ("chemicals", 5), ("periodictable", 14)] {
            let tenfold = if digits == 5 { Exact::literal(7, 0) } else { Exact::ONE };
            let allowed = published * tenfold * Exact::literal(1, digits);
            let other = number(&expected[library]);
            lamella_tests::published::within(ours, other, allowed, &format!("{id} {library}"));
        }
    }
    // Without another way: carbonates and their hydrate, salt, lactose, sorbitol, EDTA and its salt.
    assert_eq!(records.len().saturating_sub(twice), 8);
}

/// The atomic weights are the conventional ones; the other libraries' lie within 1.5e-4 (chlorine, 35.453).
#[test]
fn elements() {
    for record in records(FILE, "a.elements") {
        for (element, published) in record["expected"].as_object().unwrap() {
            let ours = match element.as_str() {
                "H" => weight::H,
                "C" => weight::C,
                "N" => weight::N,
                "O" => weight::O,
                "Na" => weight::NA,
                "Cl" => weight::CL,
                "K" => weight::K,
                other => panic!("no element {other}"),
            };
            assert_eq!(ours, number(&published["CIAAW_conventional"]), "{element}");
            assert_eq!(ours, number(&published["periodictable"]), "{element}");
            for library in ["molmass", "chemicals"] {
                let ours = ours / Exact::literal(15, 1);
                near(ours, number(&published[library]) / Exact::literal(15, 1), Exact::ZERO, 4, element);
            }
        }
    }
}

/// Information on the three libraries: the fewest digits to which they agree, which the tolerances above keep to.
#[test]
fn agreement() {
    for record in records(FILE, "a.agreement") {
        let expected = &record["expected"];
        for library in ["molmass", "chemicals"] {
            assert_eq!(text(&expected[library]["worst_substance"]), "sodium chloride");
            // 10^-4.3 is 5e-5.
            let digits = expected[library]["digits"].to_string();
            assert_eq!(digits, "4.3");
        }
        let salt = weight::NA + weight::CL;
        let found = number(&records(FILE, "a.M.sodium_chloride")[0]["expected"]["molmass"]);
        let off = (found - salt) / salt;
        assert!((off - Exact::literal(4, 5)).is_positive() && (Exact::literal(7, 5) - off).is_positive());
    }
}
