//! The sheet: byte for byte that of the example, and on every sheet what must never be missing.

#![expect(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test stops at what it did not expect; its counts are small"
)]

use std::fs;
use std::path::{Path, PathBuf};

use lamella::batch::{Plan, WeighItem, Weighing};
use lamella::quantity::{Decimal, Mass, fixed};
use lamella::recipe::{self, Recipe};
use lamella::sheet::{self, Sheet, Units};

fn vectors() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("vectors")
}

fn planned(text: &str) -> (Recipe, Plan) {
    let recipe = recipe::read(text).unwrap_or_else(|problems| panic!("{problems:?}"));
    let plan = Plan::of(&recipe).unwrap_or_else(|problems| panic!("{problems:?}"));
    (recipe, plan)
}

/// The example, and every valid document.
fn plans() -> Vec<Plan> {
    let folder = fs::read_dir(vectors().join("valid")).unwrap().map(|entry| entry.unwrap().path());
    let mut files: Vec<PathBuf> = folder.filter(|path| path.extension().is_some()).collect();
    files.sort();
    let texts = files.iter().map(|path| fs::read_to_string(path).unwrap());
    let plans: Vec<Plan> =
        std::iter::once(lamella::EXAMPLE.to_owned()).chain(texts).map(|text| planned(&text).1).collect();
    assert!(plans.len() > 5);
    plans
}

/// Compares with a file of the golden vectors; `BLESS=1` writes it.
fn golden(name: &str, found: &str) {
    let path = vectors().join("golden/tidal-strata").join(name);
    if std::env::var_os("BLESS").is_some() {
        fs::write(&path, found).unwrap();
    }
    let wanted = fs::read_to_string(&path).unwrap();
    let differs = found.lines().zip(wanted.lines()).find(|(found, wanted)| found != wanted);
    assert!(found == wanted, "{name} differs, first in {differs:?}; BLESS=1 writes it anew");
}

#[test]
fn the_example_is_the_golden_recipe() {
    let golden = fs::read_to_string(vectors().join("golden/tidal-strata/recipe.json")).unwrap();
    assert_eq!(lamella::EXAMPLE, golden);
}

#[test]
fn sheets_of_the_example() {
    let (recipe, plan) = planned(lamella::EXAMPLE);
    golden("sheet.txt", &sheet::text(&plan));
    golden("sheet.md", &sheet::markdown(&plan));
    golden("section.svg", &sheet::svg(&plan, &recipe, 0).unwrap());
    assert_eq!(sheet::svg(&plan, &recipe, 1), None);
}

#[test]
fn safety_stands_on_every_sheet() {
    for plan in plans() {
        for text in [sheet::text(&plan), sheet::markdown(&plan)] {
            let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
            let safety = text.find("Safety").unwrap();
            let block = &text[safety..text.find("At a glance").unwrap()];
            for words in [
                "Goggles, gloves, long sleeves",
                "Lye into water, never water into lye",
                "open window",
                "No aluminium",
                "Children and animals",
                "rinse at once with much running water",
                "No vinegar",
                "Never taste",
                "qualified assessor",
                "law",
            ] {
                assert!(block.contains(words), "{}: {words}", plan.name);
            }
            assert!(!text[..safety].contains(" g "), "{}: a figure stands before safety", plan.name);
        }
    }
}

/// Decimals that a scale shows.
fn places(plan: &Plan, scale: usize) -> u32 {
    plan.scales[scale].step.value().normalize().scale().min(3)
}

/// Every figure that somebody weighs or reads on a scale, as it must stand.
fn weighed(plan: &Plan) -> Vec<String> {
    let mut all: Vec<(Mass, usize)> = Vec::new();
    let item = |item: &WeighItem| (!item.ideal.is_zero()).then_some((item.weighed, item.scale));
    let part = |part: &Weighing| (part.weighed, part.scale);
    all.extend(plan.pot.fats.iter().chain(&plan.pot.doses).filter_map(item));
    let lye = &plan.lye;
    all.extend(lye.alkalis.iter().chain([&lye.water]).chain(&lye.liquids).chain(&lye.doses).filter_map(item));
    for jug in &plan.jugs {
        all.extend([part(&jug.portion), part(&jug.lye), (jug.gross, jug.portion.scale)]);
        all.extend(jug.held.iter().chain(&jug.doses).chain(&jug.late_doses).filter_map(item));
    }
    for layer in &plan.layers {
        let scale = plan.jugs[layer.jug].portion.scale;
        all.extend([layer.portion, layer.reading.before, layer.reading.after].map(|mass| (mass, scale)));
    }
    all.into_iter().map(|(mass, scale)| fixed(mass.value(), places(plan, scale))).collect()
}

#[test]
fn every_weighed_figure_stands_on_the_sheet() {
    for plan in plans() {
        for text in [sheet::text(&plan), sheet::markdown(&plan)] {
            for figure in weighed(&plan) {
                let stands = text.split_whitespace().any(|word| word == figure);
                assert!(stands, "{}: {figure}", plan.name);
            }
        }
    }
}

#[test]
fn what_is_weighed_in_is_poured_or_left() {
    for plan in plans() {
        let batch = &plan.batch;
        assert_eq!(batch.weighed_in, batch.poured + batch.left, "{}", plan.name);
        let portions: Mass = plan.layers.iter().map(|layer| layer.portion).sum();
        assert_eq!(batch.poured, portions, "{}", plan.name);
        let left: Mass = plan.jugs.iter().map(|jug| jug.left).sum();
        assert_eq!(batch.left, left + plan.pot.left + plan.lye.left, "{}", plan.name);
    }
}

/// Columns of a line: none of these names has a character that takes two.
fn columns(line: &str) -> usize {
    line.chars().count()
}

#[test]
fn lines_keep_to_the_width() {
    for plan in plans() {
        for line in sheet::text(&plan).lines() {
            assert!(columns(line) <= 96, "{}: {line}", plan.name);
            assert_eq!(line, line.trim_end());
        }
    }
}

const NASTY: &str = "<script>alert(1)</script> | **b** [x](javascript:y) `c` & _d_ # 1. \\ ~e~";

/// The example with names that mean something in Markdown, HTML and XML; one is as long as a name can be.
fn nasty() -> (Recipe, Plan) {
    let mut text = lamella::EXAMPLE.to_owned();
    let name = NASTY.replace('\\', "\\\\");
    for (word, with) in [
        ("Tidal strata", name.clone()),
        ("Foam", format!("Foam {name}")),
        ("two-litre", format!("two {name}")),
        ("beech loaf", name.clone()),
        ("Silt", "long ".repeat(40).trim_end().to_owned()),
        ("fine", "x".repeat(200)),
    ] {
        assert!(text.contains(word));
        text = text.replace(&format!("\"{word}\""), &format!("\"{with}\""));
    }
    planned(&text)
}

#[test]
fn names_are_harmless() {
    let (recipe, plan) = nasty();
    let text = sheet::text(&plan);
    assert!(text.lines().all(|line| columns(line) <= 96), "{text}");
    let markdown = sheet::markdown(&plan);
    assert!(!markdown.contains('<') && !markdown.contains('>'), "{markdown}");
    for letter in ['*', '_', '[', ']', '`', '~', '#'] {
        // What stands in bold, and headings, are the sheet's own.
        let ours = |at: usize| {
            let before = markdown[..at].chars().next_back();
            before == Some('\\')
                || (letter == '*' && (markdown[at..].starts_with("**") || before == Some('*')))
                || (letter == '#' && matches!(before, None | Some('\n' | '#')))
        };
        assert!(markdown.match_indices(letter).all(|(at, _)| ours(at)), "{letter} in {markdown}");
    }
    assert!(!markdown.contains("**b**"));
    // All rows of a table have the same number of cells.
    for table in markdown.split("\n\n").filter(|part| part.starts_with('|')) {
        let cells = |line: &str| line.replace("\\\\", "").replace("\\|", "").matches('|').count();
        let counts: Vec<usize> = table.lines().map(cells).collect();
        assert!(counts.windows(2).all(|pair| pair[0] == pair[1]), "{table}");
    }
    let svg = sheet::svg(&plan, &recipe, 0).unwrap();
    assert!(!svg.contains("<script"));
}

#[test]
fn control_characters_do_not_reach_paper() {
    let (_, mut plan) = planned(lamella::EXAMPLE);
    plan.name = "a\u{7}b\u{202e}c\nd".to_owned();
    plan.note = "# x\r\n- y".to_owned();
    plan.layers[0].name = "\u{1b}[31m\u{2028}red".to_owned();
    for text in [sheet::text(&plan), sheet::markdown(&plan)] {
        let bad =
            |letter: char| (letter.is_control() && letter != '\n') || "\u{202e}\u{2028}".contains(letter);
        assert!(!text.contains(bad));
    }
    assert!(sheet::text(&plan).starts_with("a\u{fffd}b\u{fffd}c d\n"));
}

#[test]
fn ounces_are_shown_where_the_scale_has_them() {
    let step = "{ \"scale\": \"bench\", \"step\": \"0.01 oz\", \"capacity\": \"3 kg\" }";
    let at = lamella::EXAMPLE.find("\"scales\": [").unwrap();
    let end = at + lamella::EXAMPLE[at..].find(']').unwrap();
    let text = format!("{}\"scales\": [{step}{}", &lamella::EXAMPLE[..at], &lamella::EXAMPLE[end..]);
    let (_, plan) = planned(&text);
    let sheet = sheet::text(&plan);
    let oil = &plan.pot.fats[0];
    let ounces = oil.weighed.in_unit("oz").unwrap();
    assert_eq!(ounces, ounces.round_dp(2));
    assert!(sheet.contains(&format!("({} oz)", fixed(ounces, 2))), "{sheet}");
    assert!(sheet.contains("“bench” (0.01 oz, up to 3000 g)"));
    assert_ne!(ounces, Decimal::ZERO);
}

#[test]
fn bars_and_lye_heavy_batches_say_so() {
    let size = "\"size\": { \"moulds\": \"filled\" }";
    let bars = lamella::EXAMPLE.replace(size, "\"size\": { \"bars\": 10, \"each\": \"120 g\" }");
    let (_, plan) = planned(&bars);
    let got = plan.batch.bars.unwrap();
    assert_eq!(got.count, 10);
    assert!(sheet::text(&plan).contains("10 of 120.0 g fresh"));
    let heavy = lamella::EXAMPLE.replace("\"superfat\": \"5 %\"", "\"superfat\": \"0 %\"");
    let (_, plan) = planned(&heavy);
    assert!(plan.jugs.iter().any(|jug| jug.superfat.value() < Decimal::ZERO));
    let sheet = sheet::text(&plan);
    assert!(sheet.contains("LYE-HEAVY"));
    let cautions = &sheet[sheet.find("Cautions").unwrap()..];
    assert!(cautions.lines().nth(3).unwrap().contains("gets more alkali"), "{cautions}");
}

#[test]
fn metric_units_are_the_ones_without_a_word() {
    for plan in plans() {
        let sheet = Sheet::in_units(&plan, Units::of("g", "mm", "°C").unwrap());
        assert_eq!((sheet.text(), sheet.markdown()), (sheet::text(&plan), sheet::markdown(&plan)));
    }
}

/// The rows of all tables, as text.
fn rows(sheet: &Sheet<'_>) -> Vec<Vec<String>> {
    let page: serde_json::Value = serde_json::from_str(&sheet.page().to_json().unwrap()).unwrap();
    let tables = page["blocks"].as_array().unwrap().iter().filter(|block| block["is"] == "table");
    let rows = tables.flat_map(|table| table["of"]["rows"].as_array().unwrap());
    let text = |cell: &serde_json::Value| cell["text"].as_str().unwrap_or("").to_owned();
    rows.map(|row| row["cells"].as_array().unwrap().iter().map(text).collect()).collect()
}

/// What is read in another unit is the same portion: no two steps of a scale look alike in it.
#[test]
fn weighed_in_ounces_or_pounds_it_is_the_same_step() {
    let mut seen = 0;
    for plan in plans() {
        for unit in ["oz", "lb"] {
            let sheet = Sheet::in_units(&plan, Units::of(unit, "in", "°F").unwrap());
            let (here, metric) = (rows(&sheet), rows(&Sheet::of(&plan)));
            assert_eq!(here.len(), metric.len());
            for (row, grams) in
                here.iter().zip(&metric).filter(|(row, _)| row.len() == 5 && !row[4].is_empty())
            {
                let scale = plan.scales.iter().find(|scale| scale.name == row[4]).unwrap();
                let read: Mass = format!("{} {unit}", row[2]).parse().unwrap();
                let weighed: Mass = format!("{} g", grams[2].split(' ').next().unwrap()).parse().unwrap();
                let off = (read.value() - weighed.value()).abs();
                assert!(off <= scale.step.value() / Decimal::TWO, "{}: {row:?} is {grams:?}", plan.name);
                seen += 1;
            }
        }
    }
    assert!(seen > 100, "{seen}");
}

#[test]
fn a_sheet_in_other_units_has_no_grams_but_in_the_mass_check() {
    let (_, plan) = planned(lamella::EXAMPLE);
    let text = Sheet::in_units(&plan, Units::of("oz", "in", "°F").unwrap()).text();
    // Scales keep the step that they have; cautions are those of the plan.
    let from = text.find("Weigh: the pot of fats").unwrap();
    let to = text.find("What the bars are made of").unwrap();
    for gone in [" g ", " g,", " g.", ", g ", " mm", "°C"] {
        assert!(!text[from..to].contains(gone), "{gone:?}: {}", &text[from..to]);
    }
    assert!(text.contains("g weighed in ="));
}
