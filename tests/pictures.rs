//! Every picture that the library can draw, into a folder for a person to look at, and what no picture may do.
//!
//! The pictures are left in `target/pictures`; `node wasm/page/tests/pictures.mjs` makes a PNG of each, light and dark.
#![expect(clippy::unwrap_used, clippy::panic, reason = "a test stops at what it did not expect")]

use std::fs;
use std::path::PathBuf;

use lamella::cure::{self, Cure};
use lamella::heat::{self, Degrees, Grid, Scenario, Setting, Steps};
use lamella::{EXAMPLE, Plan, recipe, sheet};
use lamella_tests::{golden, root};
use roxmltree::{Document, Node};

/// All of them: a name and the drawing.
fn pictures() -> Vec<(String, String)> {
    let mut all = Vec::new();
    let recipes = golden().into_iter().map(|folder| {
        let name = folder.file_name().unwrap().to_string_lossy().into_owned();
        (name, fs::read_to_string(folder.join("recipe.json")).unwrap())
    });
    for (name, text) in recipes {
        let recipe = recipe::read(&text).unwrap();
        let plan = Plan::of(&recipe).unwrap();
        for mould in 0..recipe.moulds.len() {
            all.push((format!("section-{name}-{mould}"), sheet::svg(&plan, &recipe, mould).unwrap()));
        }
    }
    let weighings = cure::read(include_str!("../core/data/example-weighings.json")).unwrap();
    let cure = Cure::of(&weighings);
    for bar in 0..cure.bars.len() {
        all.push((format!("drying-{bar}"), cure::svg(&cure, bar).unwrap()));
    }
    // A bar of which there is no curve yet.
    let one = r#"{"lamella": "weighings/1", "batch": "7", "cut": "2025-03-05",
        "bars": [{"bar": "A", "weighings": [{"date": "2025-03-05", "mass": "121.4 g"}]}]}"#;
    all.extend(
        cure::svg(&Cure::of(&cure::read(one).unwrap()), 0).map(|svg| ("drying-first".to_owned(), svg)),
    );
    let recipe = recipe::read(EXAMPLE).unwrap();
    let plan = Plan::of(&recipe).unwrap();
    let scenario = Scenario::of(&recipe, &plan, &Setting::default()).unwrap();
    let grid = Grid { columns: 20, rows: 16 };
    let course = heat::run(&scenario, grid, &Steps::default(), &[3600.0, 10_800.0, 43_200.0]).unwrap();
    for (name, degrees) in [("heat-celsius", Degrees::Celsius), ("heat-fahrenheit", Degrees::Fahrenheit)] {
        all.push((name.to_owned(), heat::draw(&course, &recipe.name, degrees)));
    }
    all
}

/// The value of a property as it reaches an element: its own, else of what it stands in.
fn inherited<'a>(node: Node<'a, '_>, name: &str) -> Option<&'a str> {
    node.ancestors().find_map(|above| above.attribute(name))
}

/// A line is a path that is drawn and does not come back to where it began.
fn is_line(node: Node<'_, '_>) -> bool {
    match node.tag_name().name() {
        "path" => {
            let drawn = inherited(node, "stroke").is_some_and(|stroke| stroke != "none");
            drawn && !node.attribute("d").unwrap_or_default().trim_end().ends_with(['Z', 'z'])
        }
        "polyline" | "line" => true,
        _ => false,
    }
}

fn number(node: Node<'_, '_>, name: &str) -> Option<f64> {
    node.attribute(name)?.trim_end_matches("px").parse().ok()
}

/// What is wrong with a picture.
#[expect(clippy::float_arithmetic, reason = "places on a drawing")]
fn wrong(svg: &str) -> Vec<String> {
    let document = Document::parse(svg).unwrap();
    let view: Vec<f64> = (document.root_element().attribute("viewBox").unwrap().split(' '))
        .map(|figure| figure.parse().unwrap())
        .collect();
    let [left, top, width, height] = *view else { panic!("{view:?}") };
    let mut wrong = Vec::new();
    for node in document.descendants().filter(Node::is_element) {
        let tell = || svg.get(node.range()).unwrap_or_default().chars().take(160).collect::<String>();
        if is_line(node) && inherited(node, "fill") != Some("none") {
            wrong.push(format!("a line is filled: {}", tell()));
        }
        if node.tag_name().name() != "text" {
            continue;
        }
        // Black text is not seen on black: it takes the colour of the text around the picture.
        if inherited(node, "fill") != Some("currentColor") {
            wrong.push(format!("a text has a colour of its own: {}", tell()));
        }
        let (Some(x), Some(y)) = (number(node, "x"), number(node, "y")) else { continue };
        let size = inherited(node, "font-size").and_then(|size| size.parse::<f64>().ok()).unwrap_or(16.0);
        let letters = u32::try_from(node.text().unwrap_or_default().chars().count()).unwrap();
        // A letter of a proportional font is half as wide as it is high, more or less.
        let long = f64::from(letters) * size * 0.5;
        let begins = match inherited(node, "text-anchor") {
            Some("end") => x - long,
            Some("middle") => x - long / 2.0,
            _ => x,
        };
        let inside = begins >= left - 1.0
            && begins + long <= left + width + 1.0
            && y - size * 0.8 >= top - 1.0
            && y <= top + height + 1.0;
        if !inside && node.attribute("transform").is_none() {
            wrong.push(format!("a text sticks out: {}", tell()));
        }
    }
    wrong
}

#[test]
fn no_axis_of_a_picture_is_filled_and_no_text_sticks_out() {
    let folder: PathBuf = root().join("target/pictures");
    fs::create_dir_all(&folder).unwrap();
    let pictures = pictures();
    assert!(pictures.len() >= 8, "{} pictures", pictures.len());
    let mut all = Vec::new();
    for (name, svg) in &pictures {
        fs::write(folder.join(format!("{name}.svg")), svg).unwrap();
        all.extend(wrong(svg).into_iter().map(|what| format!("{name}: {what}")));
    }
    assert!(all.is_empty(), "{}", all.join("\n"));
}

/// The test above sees what it is there for.
#[test]
fn a_filled_axis_is_seen() {
    let axis = r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 50" fill="none"><g fill="currentColor">
        <path stroke="currentColor" d="M10 10V40H90"/><text x="90" y="20">grams of soap</text></g></svg>"#;
    assert_eq!(wrong(axis).len(), 2, "{:?}", wrong(axis));
}
