//! Names on labels: each was seen where it is said to have been seen, and one substance has one name.
#![expect(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

use std::collections::{BTreeMap, BTreeSet};

use lamella::material::{Label, library};
use lamella_tests::{has_form_of_cas, is_cas, root};
use serde_json::Value;

/// A name without English words in brackets, as it is printed in Europe.
fn latin(name: &str) -> String {
    let words = name.split(['(', ')']).step_by(2).flat_map(str::split_whitespace);
    words.collect::<Vec<_>>().join(" ")
}

/// Names with where they were seen.
fn seen() -> BTreeMap<String, String> {
    #[derive(serde::Deserialize)]
    struct Row {
        name: String,
        seen: String,
    }
    let mut vectors: Value = serde_json::from_str(include_str!("vectors/label_names.json")).unwrap();
    let rows: Vec<Row> = serde_json::from_value(vectors.get_mut("names").unwrap().take()).unwrap();
    assert!(rows.is_sorted_by(|a, b| a.name < b.name), "sorted, and each once");
    rows.into_iter().map(|row| (row.name, row.seen)).collect()
}

fn of_label(label: &Label) -> Vec<String> {
    let parts = label.parts.iter().map(|part| &*part.inci);
    let salts = [&label.sodium_salt, &label.potassium_salt];
    parts.chain(salts.into_iter().flatten().map(|name| &**name)).map(str::to_owned).collect()
}

/// What a colourant of the library prints.
fn of_colourant(id: &str) -> Vec<String> {
    let number = library::colourant(id).unwrap().colour_index.as_deref();
    match library::colourant_label(id) {
        Some(label) => of_label(label),
        None => vec![format!("CI {}", number.unwrap())],
    }
}

/// What an additive of the library prints as charged.
fn of_additive(id: &str) -> Vec<String> {
    let name = library::additive(id).unwrap().inci.as_deref();
    library::additive_label(id).map_or_else(|| name.into_iter().map(str::to_owned).collect(), of_label)
}

/// Every name that the tables can print, as it stands in them, with the row it is from.
fn used() -> Vec<(String, String)> {
    let mut all = Vec::new();
    let mut add =
        |row: &str, names: Vec<String>| all.extend(names.into_iter().map(|name| (name, row.to_owned())));
    for fat in library::fats() {
        let names = [&fat.inci.fat, &fat.inci.sodium_soap, &fat.inci.potassium_soap];
        add(&fat.id, names.into_iter().flatten().map(|name| name.to_string()).collect());
    }
    for additive in library::additives() {
        add(&additive.id, of_additive(&additive.id));
        add(&additive.id, additive.inci.iter().map(|name| name.to_string()).collect());
    }
    for colour in library::colourants() {
        add(&colour.id, of_colourant(&colour.id));
    }
    for scent in library::fragrances() {
        add(&scent.id, scent.inci.iter().map(|name| name.to_string()).collect());
    }
    for substance in library::substances() {
        add(&substance.id, vec![substance.inci.to_string()]);
    }
    all
}

#[test]
fn every_label_name_was_seen_in_the_inventory_or_in_annex_iv() {
    let seen = seen();
    let mut wanted = BTreeSet::new();
    for (name, row) in used() {
        let name = latin(&name);
        let place = seen.get(&name).map(String::as_str);
        // A number of the Colour Index counts only where the annex has it.
        let right: &[&str] = if name.starts_with("CI ") { &["annex IV"] } else { &["inventory"] };
        assert!(place.is_some_and(|place| right.contains(&place)), "{row}: {name} was seen in {place:?}");
        wanted.insert(name);
    }
    let unused: Vec<&String> = seen.keys().filter(|name| !wanted.contains(*name)).collect();
    assert!(unused.is_empty(), "no row prints {unused:?}");
}

/// Materials that no inventory names: a label of theirs asks for a name.
#[test]
fn what_no_inventory_names_has_no_name_here() {
    let fats = library::fats().iter().filter(|fat| fat.inci.fat.is_none()).map(|fat| &*fat.id);
    assert_eq!(fats.collect::<Vec<_>>(), ["goose-fat"]);
    let additives = library::additives().iter().filter(|row| of_additive(&row.id).is_empty());
    assert_eq!(additives.map(|row| &*row.id).collect::<Vec<_>>(), ["cashew-butter", "peanut-butter"]);
    // The names that the pattern of other soaps would give, and that the inventory does not have.
    let patterns = [
        "Potassium Canolate",
        "Potassium Cocoa Butterate",
        "Potassium Grapeseedate",
        "Potassium Lardate",
        "Potassium Sesameseedate",
        "Sodium Apricotkernelate",
        "Sodium Canolate",
        "Sodium Cornate",
        "Sodium Cottonseedate",
        "Sodium Hempseedate",
        "Sodium Jojobate",
        "Sodium Linseedate",
        "Sodium Rice Branate",
        "Sodium Sweetalmondate",
    ];
    for (name, row) in used() {
        assert!(!patterns.contains(&name.as_str()), "{row}: {name}");
    }
}

/// A row that says a name was read has read it; none rests its name on memory.
#[test]
fn every_name_says_where_it_was_seen() {
    let fats = library::fats().iter().filter(|row| row.inci.fat.is_some()).map(|row| (&row.id, &row.bases));
    let additives =
        library::additives().iter().filter(|row| row.inci.is_some()).map(|row| (&row.id, &row.bases));
    let scents = library::fragrances().iter().filter(|row| row.inci.as_deref() != Some("Parfum"));
    let scents = scents.map(|row| (&row.id, &row.bases));
    for (id, bases) in fats.chain(additives).chain(scents) {
        let read = bases.iter().any(|basis| {
            basis.what.starts_with("label name")
                && basis.seen
                && basis.cite.contains("EU inventory of cosmetic ingredients")
        });
        assert!(read, "{id}: {bases:?}");
    }
    let labels = library::additives().iter().filter_map(|row| library::additive_label(&row.id));
    let colours = library::colourants().iter().filter_map(|row| library::colourant_label(&row.id));
    for label in labels.chain(colours) {
        let read = label.bases.iter().any(|basis| basis.what == "names of the parts" && basis.seen);
        assert!(read, "{}", label.id);
    }
}

/// Numbers that two names share, and why both stand.
const ONE_NUMBER: [(&str, &[&str]); 2] = [
    // One number in the inventory; the first names cattle alone, the second stands for sheep too.
    ("61789-97-7", &["Adeps Bovis", "Tallow"]),
    // Annex IV, entry 119, gives the number of bentonite to all of CI 77004.
    ("1302-78-9", &["Bentonite", "CI 77004"]),
];

#[test]
fn no_two_rows_print_different_names_for_one_substance() {
    let mut by_number: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    for row in library::substances() {
        if let Some(cas) = row.cas.as_deref() {
            by_number.entry(cas).or_default().insert(&*row.inci);
        }
    }
    let shared: BTreeMap<&str, BTreeSet<&str>> =
        by_number.into_iter().filter(|(_, names)| names.len() > 1).collect();
    let allowed: BTreeMap<&str, BTreeSet<&str>> =
        ONE_NUMBER.iter().map(|(cas, names)| (*cas, names.iter().copied().collect())).collect();
    assert_eq!(shared, allowed);

    // One name has one spelling, bracketed English words included.
    let mut spellings: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for (name, row) in used() {
        // The table of substances leaves the bracketed words out.
        if !library::substances().iter().any(|substance| *substance.id == row) {
            spellings.entry(latin(&name).to_lowercase()).or_default().insert(name);
        }
    }
    let many: Vec<_> = spellings.values().filter(|names| names.len() > 1).collect();
    assert!(many.is_empty(), "{many:?}");

    // A material that is an additive and a colourant is the same on a label.
    let both = [("charcoal", "activated-charcoal")].into_iter();
    let ids = library::colourants().iter().map(|row| &*row.id);
    let both = both.chain(ids.filter(|id| library::additive(id).is_some()).map(|id| (id, id)));
    let both: Vec<_> = both.collect();
    assert!(both.len() > 5, "{both:?}");
    for (additive, colourant) in both {
        assert_eq!(of_additive(additive), of_colourant(colourant), "{additive}");
    }
}

#[test]
fn every_cas_number_has_its_check_digit() {
    assert!(is_cas("7732-18-5") && !is_cas("7732-18-4") && !is_cas("77321-8-5"));
    let mut found = 0;
    for file in std::fs::read_dir(root().join("core/data")).unwrap() {
        let path = file.unwrap().path();
        let text = std::fs::read_to_string(&path).unwrap();
        for word in text.split(|letter: char| letter != '-' && !letter.is_alphanumeric()) {
            if has_form_of_cas(word) {
                assert!(is_cas(word), "{}: {word}", path.display());
                found += 1;
            }
        }
    }
    let fields = library::allergens().iter().flat_map(|row| row.cas.iter().map(|cas| (&row.id, &**cas)));
    let fields =
        fields.chain(library::substances().iter().filter_map(|row| Some((&row.id, row.cas.as_deref()?))));
    let wrong: Vec<_> = fields.clone().filter(|(_, cas)| !is_cas(cas)).collect();
    assert!(wrong.is_empty(), "{wrong:?}");
    assert!(found >= fields.count(), "{found}");
}

/// Pages that may be given as the place where a source was read: libraries, journals, archives, encyclopedias, public bodies.
const READ_AT: [&str; 27] = [
    "archive.org",
    "cameo.mfa.org",
    "datapdf.com",
    "digilib.universitaspertamina.ac.id",
    "discovery.researcher.life",
    "docslib.org",
    "en.wikipedia.org",
    "encyclopedia2.thefreedictionary.com",
    "grasasyaceites.revistas.csic.es",
    "ijhs.ut.ac.ir",
    "istitlaa.ncc.gov.sa",
    "itjfs.com",
    "link.springer.com",
    "pakbs.org",
    "paperexplained.cn",
    "plantfadb.org",
    "pmc.ncbi.nlm.nih.gov",
    "scilit.com",
    "search.napstic.cn",
    "studylib.es",
    "www.cosmeticsinfo.org",
    "www.drugfuture.com",
    "www.gutenberg.org",
    "www.nap.edu",
    "www.ncbi.nlm.nih.gov",
    "www.proquest.com",
    "zendy.io",
];

/// What a source is called: a standard, a law, a handbook, a paper, a dataset; no address of a page, no trader.
#[test]
fn no_citation_names_a_page_or_a_trader() {
    let fats = library::fats().iter().flat_map(|row| row.bases.iter().map(|basis| (&row.id, basis)));
    let alkalis = lamella::material::Alkali::ALL;
    let alkalis = alkalis.into_iter().flat_map(|alkali| &*library::alkali(alkali).bases);
    let all = fats.map(|(_, basis)| basis).chain(alkalis);
    let all = all.chain(library::additives().iter().flat_map(|row| &*row.bases));
    let all = all.chain(library::colourants().iter().flat_map(|row| &*row.bases));
    let all = all.chain(library::fragrances().iter().flat_map(|row| &*row.bases));
    for basis in all {
        for mark in [".com", ".cn", ".it", ".biz", ".us", ".net", "blog", "by a supplier", "Group"] {
            // An association of the trade, which publishes what the names mean.
            let association = basis.cite.starts_with("cosmeticsinfo.org");
            assert!(association || !basis.cite.contains(mark), "{mark}: {basis:?}");
        }
    }
    let folder = root().join("core/data");
    for file in ["fats.toml", "alkalis.toml"] {
        let text = std::fs::read_to_string(folder.join(file)).unwrap();
        for address in text.split("url = \"").skip(1) {
            let host = address.split('/').nth(2).unwrap();
            assert!(READ_AT.contains(&host), "{file}: {host}");
        }
    }
}
