//! Names on a label.

use crate::material::{Label, Substance, library};
use crate::quantity::Exact;

use super::charge::Source;

/// Water on a label.
pub(super) const AQUA: &str = "Aqua";
/// Glycerol on a label.
pub(super) const GLYCERIN: &str = "Glycerin";
/// A perfume or an aromatic composition, and what it is made of.
///
/// Source: Regulation (EC) No 1223/2009, article 19(1)(g), read in a quotation.
pub(super) const PARFUM: &str = "Parfum";

/// A name without English words in brackets: `Olea Europaea (Olive) Fruit Oil` is `Olea Europaea Fruit Oil`.
pub(super) fn latin(name: &str) -> String {
    let mut out = String::with_capacity(name.len());
    let mut depth = 0_u32;
    for letter in name.chars() {
        match letter {
            '(' => depth = depth.saturating_add(1),
            ')' => depth = depth.saturating_sub(1),
            _ if depth > 0 => {}
            ' ' if out.ends_with(' ') || out.is_empty() => {}
            other => out.push(other),
        }
    }
    out.trim_end().to_owned()
}

/// What two names have in common that are the same name.
pub(super) fn key(name: &str) -> String {
    latin(name).to_lowercase()
}

/// What is known of a label name.
pub(super) fn substance(name: &str) -> Option<&'static Substance> {
    let wanted = key(name);
    library::substances().iter().find(|row| key(&row.inci) == wanted)
}

/// Whether a name is a number of the Colour Index.
pub(super) fn is_colour(name: &str) -> bool {
    name.strip_prefix("CI ").is_some_and(|digits| digits.starts_with(|first: char| first.is_ascii_digit()))
}

/// A number of the Colour Index as a label has it; a name stays a name.
fn colour_name(stated: &str) -> String {
    if stated.bytes().all(|byte| byte.is_ascii_digit()) { format!("CI {stated}") } else { stated.to_owned() }
}

/// What a material is on a label as it was charged: names with their parts of it. Nothing for a part without a name.
pub(super) fn charged(source: Source<'_>) -> Vec<(Option<String>, Exact)> {
    let whole = |name: Option<String>| vec![(name, Exact::ONE)];
    match source {
        Source::Fat(fat, _) => whole(fat.inci.fat.as_deref().map(str::to_owned)),
        Source::Alkali(alkali, _) => whole(Some(alkali_name(alkali).to_owned())),
        Source::Water => whole(Some(AQUA.to_owned())),
        Source::Additive(additive, _) => {
            let usual = library::additive(&additive.id).and_then(|known| known.inci.as_deref());
            match library::additive_label(&additive.id).filter(|_| additive.inci.as_deref() == usual) {
                Some(label) => parts(label),
                None => whole(additive.inci.as_deref().map(str::to_owned)),
            }
        }
        Source::Colour(colour) => {
            let usual = library::colourant(&colour.id).and_then(|known| known.colour_index.as_deref());
            match library::colourant_label(&colour.id).filter(|_| colour.colour_index.as_deref() == usual) {
                Some(label) => parts(label),
                None => whole(colour.colour_index.as_deref().map(colour_name)),
            }
        }
        Source::Scent(_) => whole(Some(PARFUM.to_owned())),
    }
}

fn parts(label: &Label) -> Vec<(Option<String>, Exact)> {
    label.parts.iter().map(|part| (Some(part.inci.to_string()), part.share.exact())).collect()
}

/// The label name of an alkali.
pub(super) const fn alkali_name(alkali: crate::material::Alkali) -> &'static str {
    match alkali {
        crate::material::Alkali::SodiumHydroxide => "Sodium Hydroxide",
        crate::material::Alkali::PotassiumHydroxide => "Potassium Hydroxide",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn brackets_and_capitals_do_not_tell_names_apart() {
        assert_eq!(latin("Olea Europaea (Olive) Fruit Oil"), "Olea Europaea Fruit Oil");
        assert_eq!(latin("Orange (Sweet (Peel))"), "Orange");
        assert_eq!(latin("Broken) (name"), "Broken");
        assert_eq!(key("AQUA"), key("Aqua"));
        assert!(is_colour("CI 77007") && !is_colour("CI") && !is_colour("Citral"));
        assert_eq!(colour_name("77007"), "CI 77007");
        assert_eq!(colour_name("Lampblack"), "Lampblack");
    }
}
