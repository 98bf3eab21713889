//! A recipe survives being written: the same recipe is read back, and the same text written again.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test stops at what it did not expect; its counts are small"
)]

use std::fs;
use std::path::{Path, PathBuf};

use lamella::recipe::{
    self, AlkaliChoice, Amount, Ingredient, LayerShare, Recipe, Shape, Size, Superfat, Water,
};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("vectors/valid")
}

/// Every valid document with its name, in order.
fn documents() -> Vec<(String, String)> {
    let mut all: Vec<_> = fs::read_dir(folder())
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|extension| extension == "json"))
        .map(|path| {
            (path.file_stem().unwrap().to_string_lossy().into_owned(), fs::read_to_string(path).unwrap())
        })
        .collect();
    all.sort();
    all
}

fn read(name: &str, text: &str) -> Recipe {
    recipe::read(text).unwrap_or_else(|problems| {
        panic!("{name}:\n{}", recipe::render(&problems, text, &format!("{name}.json")))
    })
}

fn recipes() -> Vec<Recipe> {
    documents().iter().map(|(name, text)| read(name, text)).collect()
}

#[test]
fn what_is_written_reads_the_same() {
    for (name, text) in documents() {
        let recipe = read(&name, &text);
        let written = recipe::write(&recipe);
        assert_eq!(read(&name, &written), recipe, "{name}:\n{written}");
        assert_eq!(recipe::write(&read(&name, &written)), written, "{name}");
        assert_eq!(recipe::read_bytes(written.as_bytes()).as_ref(), Ok(&recipe), "{name}");
    }
}

/// The canonical text of each; `BLESS=1` writes it anew.
#[test]
fn the_canonical_text_stays_as_it_is() {
    for (name, text) in documents() {
        let path = folder().join("canonical").join(format!("{name}.json"));
        let written = recipe::write(&read(&name, &text));
        if std::env::var_os("BLESS").is_some() {
            fs::write(&path, &written).unwrap();
        }
        assert_eq!(fs::read_to_string(&path).unwrap_or_default(), written, "{name}");
    }
}

#[test]
fn the_documents_use_the_whole_format() {
    let recipes = recipes();
    let some = |what: &str, test: &dyn Fn(&Recipe) -> bool| {
        assert!(recipes.iter().any(test), "no document has {what}")
    };
    let doses = |recipe: &Recipe| -> Vec<_> {
        let layers = recipe.layers.iter().flat_map(|layer| &layer.doses);
        layers
            .chain(&recipe.pot)
            .chain(&recipe.lye.doses)
            .chain(recipe.jugs.iter().flat_map(|jug| &jug.doses))
            .cloned()
            .collect()
    };
    some("a hot process", &|recipe| recipe.process == recipe::Process::Hot);
    some("a fat held back", &|recipe| {
        recipe.fats.iter().any(|line| line.stage == recipe::FatStage::AfterCook)
    });
    some("a profile", &|recipe| recipe.fats.iter().any(|line| line.certificate.profile.is_some()));
    some("fats by mass", &|recipe| {
        recipe.fats.iter().any(|line| matches!(line.amount, recipe::FatAmount::Mass(_)))
    });
    for reading in
        [recipe::ShareReading::Moles, recipe::ShareReading::PureMass, recipe::ShareReading::WeighedMass]
    {
        some(
            "this reading of two alkalis",
            &|recipe| matches!(recipe.alkali, AlkaliChoice::Dual { reading: found, .. } if found == reading),
        );
    }
    some("potassium alone", &|recipe| matches!(recipe.alkali, AlkaliChoice::Potassium(_)));
    some("an excess of fat", &|recipe| matches!(recipe.superfat, Superfat::FatExcess(_)));
    some("water by concentration", &|recipe| matches!(recipe.water, Water::LyeConcentration(_)));
    some("water by ratio", &|recipe| matches!(recipe.water, Water::WaterToAlkali(_)));
    some("water by fat", &|recipe| matches!(recipe.water, Water::ShareOfFat(_)));
    some("a liquid", &|recipe| !recipe.lye.liquids.is_empty());
    some("a dose in the lye", &|recipe| !recipe.lye.doses.is_empty());
    some("a dose in the pot", &|recipe| !recipe.pot.is_empty());
    some("size by fat", &|recipe| matches!(recipe.size, Some(Size::Fat(_))));
    some("size by batter", &|recipe| matches!(recipe.size, Some(Size::Batter(_))));
    some("size by bars", &|recipe| matches!(recipe.size, Some(Size::Bars { .. })));
    some("size by moulds", &|recipe| recipe.size == Some(Size::Moulds));
    some("parts", &|recipe| matches!(recipe.layers[0].share, LayerShare::Parts(_)));
    some("heights", &|recipe| matches!(recipe.layers[0].share, LayerShare::Height(_)));
    some("masses", &|recipe| matches!(recipe.layers[0].share, LayerShare::Mass(_)));
    some("volumes", &|recipe| matches!(recipe.layers[0].share, LayerShare::Volume(_)));
    for basis in [
        recipe::DoseBasis::LayerFat,
        recipe::DoseBasis::Layer,
        recipe::DoseBasis::BatchFat,
        recipe::DoseBasis::Batch,
    ] {
        some("this basis", &|recipe| {
            doses(recipe).iter().any(|dose| matches!(dose.amount, Amount::Share(_, found) if found == basis))
        });
    }
    some("an own additive", &|recipe| {
        doses(recipe).iter().any(|dose| dose.own && matches!(dose.ingredient, Ingredient::Additive(_)))
    });
    some("an own fat", &|recipe| {
        doses(recipe).iter().any(|dose| dose.own && matches!(dose.ingredient, Ingredient::Fat(_)))
    });
    some("an own colour", &|recipe| {
        doses(recipe).iter().any(|dose| dose.own && matches!(dose.ingredient, Ingredient::Colourant(_)))
    });
    some("an own scent", &|recipe| {
        doses(recipe).iter().any(|dose| dose.own && matches!(dose.ingredient, Ingredient::Fragrance(_)))
    });
    let shape = |test: fn(&Shape) -> bool| {
        recipes.iter().any(|recipe| recipe.moulds.iter().any(|mould| test(mould.shape())))
    };
    assert!(shape(|shape| matches!(shape, Shape::Loaf { .. })));
    assert!(shape(|shape| matches!(shape, Shape::TaperedLoaf { .. })));
    assert!(shape(|shape| matches!(shape, Shape::Slab { .. })));
    assert!(shape(|shape| matches!(shape, Shape::UprightCylinder { .. })));
    assert!(shape(|shape| matches!(shape, Shape::LyingCylinder { .. })));
    assert!(shape(|shape| matches!(shape, Shape::Tray { .. })));
}

#[test]
fn units_are_converted_exactly() {
    let recipe = read("masses", include_str!("vectors/valid/dual_masses.json"));
    assert!(
        matches!(recipe.fats[0].amount, recipe::FatAmount::Mass(mass) if mass.to_string() == "992.233309375 g")
    );
    assert_eq!(recipe.temperatures.lye.to_string(), "35 °C");
    let recipe = read("strata", include_str!("vectors/valid/tidal_strata.json"));
    assert!(
        matches!(recipe.size, Some(Size::Bars { count: 24, each }) if each.to_string() == "113.3980925 g")
    );
    assert_eq!(recipe.workshop.scales[0].name, "pocket", "the finest scale comes first");
    assert_eq!(recipe.layers[0].doses[2].pointer, "/layers/0/colours/0");
}

#[test]
fn a_certificate_stands_in_for_the_library() {
    let recipe = read("strata", include_str!("vectors/valid/tidal_strata.json"));
    let shea = &recipe.fats[2].fat;
    assert_eq!(shea.saponification_value.typical.to_string(), "181 mg KOH/g");
    assert_eq!((shea.saponification_value.min, shea.saponification_value.max), (None, None));
    assert_eq!(shea.density.unwrap().at.to_string(), "20 °C");
    assert_eq!(shea.profile.len(), 5);
    // All of what the certificate states, not half of it as of a published maximum.
    assert_eq!(shea.unsaponifiable().decimal().unwrap().to_string(), "0.06");
    assert_eq!(shea.bases.last().unwrap().cite, "certificate stated in the recipe");
}
