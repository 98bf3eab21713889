use super::*;

fn mm(text: &str) -> Length {
    format!("{text} mm").parse().unwrap()
}

/// Every way a wall can run.
fn shapes() -> Vec<Shape> {
    let tray = |cavity| Shape::Tray { cavities: 6, cavity };
    let bowl = |radius: &str, height: &str| tray(Cavity::Bowl { radius: mm(radius), height: mm(height) });
    vec![
        Shape::Loaf { length: mm("250"), width: mm("88.9"), height: mm("63.5") },
        Shape::TaperedLoaf {
            length: mm("240"),
            bottom_width: mm("60"),
            top_width: mm("85"),
            height: mm("65"),
        },
        Shape::Slab {
            length: mm("300"),
            width: mm("200"),
            height: mm("30"),
            cells_lengthwise: 4,
            cells_across: 3,
            divider: mm("1.5"),
        },
        Shape::UprightCylinder { diameter: mm("76.2"), height: mm("200") },
        Shape::UprightCylinder { diameter: mm("60"), height: mm("5000") },
        Shape::LyingCylinder { diameter: mm("100"), length: mm("250") },
        bowl("35", "35"),
        bowl("60", "20"),
        bowl("30", "50"),
        tray(Cavity::Cone { bottom_diameter: mm("70"), top_diameter: mm("50"), height: mm("40") }),
        tray(Cavity::Box { length: mm("80"), width: mm("1"), height: mm("5") }),
    ]
}

/// Nine bands up to the brim, among them three of a hundredth of the depth.
fn bands(shape: &Shape) -> Vec<Band> {
    let at =
        |share: i64| Length::try_new(shape.depth().exact() * Exact::from(share) / Exact::HUNDRED).unwrap();
    let levels = [0, 25, 26, 46, 47, 48, 70, 71, 90, 100];
    let pairs = levels.iter().zip(levels.iter().skip(1));
    pairs
        .map(|(from, to)| Band {
            name: format!("Layer {from}"),
            colour: "#8899aa".to_owned(),
            from: at(*from),
            to: at(*to),
            note: (at(*to) - at(*from)).to_string(),
        })
        .collect()
}

/// Reads the tags of `svg`, checks that they nest, that quotes close and that every entity is known.
fn assert_well_formed(svg: &str) {
    let mut open: Vec<&str> = Vec::new();
    let mut rest = svg;
    while let Some((text, after)) = rest.split_once('<') {
        assert_text(text);
        let (tag, after) = after.split_once('>').expect("a tag ends");
        rest = after;
        if let Some(name) = tag.strip_prefix('/') {
            assert_eq!(open.pop(), Some(name));
            continue;
        }
        assert_eq!(tag.matches('"').count() % 2, 0, "{tag}");
        assert!(!tag.contains('<'), "{tag}");
        if !tag.ends_with('/') {
            open.push(tag.split(' ').next().unwrap());
        }
    }
    assert_eq!(rest.trim(), "");
    assert!(open.is_empty(), "{open:?}");
}

fn assert_text(text: &str) {
    assert!(
        !text.contains(['>', '"', '\'']) && !text.contains(|c: char| c.is_control() && c != '\n'),
        "{text:?}"
    );
    for after in text.split('&').skip(1) {
        assert!(
            ["amp;", "lt;", "gt;", "quot;", "#39;"].iter().any(|known| after.starts_with(known)),
            "{text:?}"
        );
    }
}

/// Values of the attribute `name` in elements that carry `mark`.
fn attributes<'s>(svg: &'s str, mark: &str, name: &str) -> Vec<&'s str> {
    let name = format!("{name}=\"");
    let elements = svg.split('<').filter(|element| element.contains(mark));
    elements.map(|element| element.split(&name).nth(1).unwrap().split('"').next().unwrap()).collect()
}

/// Coordinates of the corners of a path of M, L and A.
fn corners(path: &str) -> Vec<(Exact, Exact)> {
    let pieces = path.split(['M', 'L', 'A', 'Z']).filter(|piece| !piece.is_empty());
    let corner = |piece: &str| {
        let numbers: Vec<Exact> = piece
            .split(' ')
            .map(|number| Exact::from(number.parse::<crate::quantity::Decimal>().unwrap()))
            .collect();
        let [.., x, y] = numbers[..] else { panic!("{piece}") };
        (x, y)
    };
    pieces.map(corner).collect()
}

#[test]
fn every_drawing_is_well_formed() {
    for shape in shapes() {
        let svg = draw(&shape, &bands(&shape), "A bar");
        assert_well_formed(&svg);
        assert_eq!(svg.matches("class=\"band\"").count(), 9);
        assert!(svg.contains("role=\"img\"") && svg.contains("<desc>Cross-section of a bar"));
        assert!(!svg.contains("NaN") && !svg.contains("inf"));
        assert_eq!(svg, draw(&shape, &bands(&shape), "A bar"));
        assert_well_formed(&draw(&shape, &[], ""));
    }
}

#[test]
fn hostile_words_stay_words() {
    let shape = shapes()[0];
    let evil = "</text><script>alert('x')</script>&\"\u{0}\u{7}\u{1b}\u{85}\u{fffe}\n\t";
    let mut bands = bands(&shape);
    for band in &mut bands {
        band.name = evil.repeat(20);
        band.note = evil.to_owned();
        band.colour = "#fff\" onload=\"x".to_owned();
    }
    let svg = draw(&shape, &bands, evil);
    assert_well_formed(&svg);
    assert!(!svg.contains("<script") && !svg.contains("onload") && !svg.contains('\u{fffe}'));
    assert!(svg.contains(NEUTRAL));
    assert!(is_colour("#00fFa9"));
    for text in ["", "#", "#12345", "#1234567", "#12345g", "red", "#12é45"] {
        assert!(!is_colour(text), "{text}");
    }
}

#[test]
fn bands_lie_inside_the_wall() {
    let slack = Exact::literal(11, 3);
    for shape in shapes() {
        let frame = Frame::new(&shape, 9);
        let svg = draw(&shape, &bands(&shape), "A bar");
        for path in attributes(&svg, "class=\"band\"", "d") {
            for (x, y) in corners(path) {
                let height = Length::try_new((frame.bottom - y) / frame.scale).unwrap();
                // The corner's own rounding moves the height, and a round wall is flat at its foot.
                let near = Length::try_new(slack / frame.scale).unwrap();
                let half = [height - near, height, height + near].map(|height| frame.half_at(height));
                let half = half.into_iter().fold(Exact::ZERO, Exact::max);
                let off = x - frame.centre;
                assert!(!(off.max(-off) - half - slack).is_positive(), "{shape:?} {path}");
                assert!(!(y - frame.bottom - slack).is_positive());
                assert!(!(frame.y(shape.depth()) - slack - y).is_positive());
            }
        }
    }
}

#[test]
fn bands_stack_and_stop_at_the_brim() {
    let shape = shapes()[0];
    let mut bands = bands(&shape);
    bands[8].to = mm("99");
    bands.push(Band { from: mm("70"), to: mm("80"), ..bands[0].clone() });
    bands.push(Band { from: mm("20"), to: mm("10"), ..bands[0].clone() });
    let svg = draw(&shape, &bands, "A bar");
    let paths = attributes(&svg, "class=\"band\"", "d");
    assert_eq!(paths.len(), 9);
    let faces: Vec<(Exact, Exact)> =
        paths.iter().map(|path| (corners(path)[2].1, corners(path)[0].1)).collect();
    assert_eq!(faces[0].0.rounded(2), Frame::new(&shape, 11).y(shape.depth()).rounded(2));
    for pair in faces.windows(2) {
        assert_eq!(pair[0].1, pair[1].0);
    }
}

#[test]
fn labels_do_not_overlap() {
    for shape in shapes() {
        let svg = draw(&shape, &bands(&shape), "A bar");
        let names = attributes(&svg, "font-size=\"14\"", "y");
        let places: Vec<Exact> =
            names.iter().map(|y| Exact::from(y.parse::<crate::quantity::Decimal>().unwrap())).collect();
        assert_eq!(places.len(), 9);
        for pair in places.windows(2) {
            // Rounding to hundredths may take one off.
            assert!(!(pair[1] - pair[0] - LABEL + Exact::literal(1, 2)).is_negative(), "{places:?}");
        }
        let view = attributes(&svg, "viewBox", "viewBox")[0].rsplit(' ').next().unwrap();
        let foot = Exact::from(view.parse::<crate::quantity::Decimal>().unwrap());
        assert!((foot - places[8] - Exact::from(14)).is_positive());
        assert!((places[0] - TITLE_BASELINE - Exact::from(14)).is_positive());
    }
}

#[test]
fn labels_stand_where_they_want_when_they_can() {
    let at = |places: &[i64]| places.iter().copied().map(Exact::from).collect::<Vec<_>>();
    let spread = |wanted: &[i64], top, bottom| {
        spread(&at(wanted), Exact::from(10), Exact::from(top), Exact::from(bottom))
    };
    assert_eq!(spread(&[20, 40, 80], 0, 100), at(&[20, 40, 80]));
    assert_eq!(spread(&[50, 50, 50], 0, 100), at(&[40, 50, 60]));
    assert_eq!(spread(&[2, 2, 90], 0, 100), at(&[0, 10, 90]));
    assert_eq!(spread(&[10, 95, 99, 100], 0, 100), at(&[10, 80, 90, 100]));
    assert_eq!(spread(&[40, 52, 52], 0, 100), at(&[38, 48, 58]));
    assert_eq!(spread(&[], 0, 100), at(&[]));
}

#[test]
fn the_ruler_thins_out_on_a_tall_mould() {
    let figures = |shape: &Shape| {
        let svg = draw(shape, &[], "");
        let ruler = svg.split("text-anchor=\"end\"").nth(1).unwrap();
        ruler
            .split("</text>")
            .filter_map(|text| text.rsplit('>').next().map(str::to_owned))
            .collect::<Vec<_>>()
    };
    assert_eq!(figures(&shapes()[0])[..7], ["0 mm", "10", "20", "30", "40", "50", "60"]);
    assert_eq!(figures(&shapes()[3])[..5], ["0 mm", "10", "20", "30", "40"]);
    assert_eq!(figures(&shapes()[4])[..3], ["0 mm", "500", "1000"]);
}

#[test]
fn a_mould_with_problems_says_so() {
    let shape = Shape::Loaf { length: mm("0"), width: mm("80"), height: mm("60") };
    let band = Band {
        name: "A".to_owned(),
        colour: "#000000".to_owned(),
        from: mm("0"),
        to: mm("10"),
        note: String::new(),
    };
    let svg = draw(&shape, &[band], "A bar");
    assert_well_formed(&svg);
    assert!(svg.contains("need mending") && !svg.contains("class=\"band\""));
}
