//! How large a document a caller lets in.

use super::{Dose, Recipe};
use crate::limits;
use crate::problem::Problem;

/// The most that a caller lets a document have. The defaults are the most that the format allows; a caller who takes
/// documents of strangers may ask for less, never for more.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Limits {
    /// Bytes of the text; 1 MiB ([`limits::DOCUMENT_BYTES`]).
    pub document_bytes: usize,
    /// Layers; 200 ([`limits::ITEMS`]).
    pub layers: usize,
    /// Fats, liquids, doses, colours and scents together; 10 000 ([`limits::MATERIALS`]).
    pub materials: usize,
}

impl Default for Limits {
    fn default() -> Self {
        Self { document_bytes: limits::DOCUMENT_BYTES, layers: limits::ITEMS, materials: limits::MATERIALS }
    }
}

impl Limits {
    /// Reads a `recipe/1` document within these limits. A text that is too long is refused before it is parsed.
    ///
    /// # Errors
    /// As [`read_bytes`](super::read_bytes); `document.size` for a text that is too long or names too many materials,
    /// `list.length` for too many layers.
    ///
    /// ```
    /// use lamella::recipe::Limits;
    /// let small = Limits { layers: 6, ..Limits::default() };
    /// let problems = small.read(lamella::EXAMPLE.as_bytes()).unwrap_err();
    /// assert_eq!(problems[0].code, "list.length");
    /// assert_eq!(problems[0].message, "the document has 7 layers, and at most 6 are read");
    /// ```
    pub fn read(self, document: &[u8]) -> Result<Recipe, Vec<Problem>> {
        if document.len() > self.document_bytes {
            return Err(vec![self.too_long(document.len())]);
        }
        super::read_bytes(document).and_then(|recipe| self.hold(recipe))
    }

    /// The problem of a text of so many bytes, too many.
    #[must_use]
    pub fn too_long(self, bytes: usize) -> Problem {
        let most = self.document_bytes;
        problem("document.size", "", format!("the document has {bytes} bytes, and at most {most} are read"))
    }

    /// The recipe, when it is within the limits on layers and materials.
    pub(crate) fn hold(self, recipe: Recipe) -> Result<Recipe, Vec<Problem>> {
        let mut problems = Vec::new();
        let layers = recipe.layers.len();
        if layers > self.layers {
            let message = format!("the document has {layers} layers, and at most {} are read", self.layers);
            problems.push(problem("list.length", "/layers", message));
        }
        let materials = materials(&recipe);
        if materials > self.materials {
            let message =
                format!("the document names {materials} materials, and at most {} are read", self.materials);
            problems.push(problem("document.size", "", message));
        }
        if problems.is_empty() { Ok(recipe) } else { Err(problems) }
    }
}

fn problem(code: &'static str, pointer: &str, message: String) -> Problem {
    let advice = "divide it, or leave out what is not needed".to_owned();
    Problem { code, pointer: pointer.to_owned(), message, advice }
}

/// How many lines of a recipe name a material.
fn materials(recipe: &Recipe) -> usize {
    let lists = [&recipe.lye.doses, &recipe.pot];
    let jugs = recipe.jugs.iter().map(|jug| &jug.doses);
    let layers = recipe.layers.iter().map(|layer| &layer.doses);
    let doses =
        lists.into_iter().chain(jugs).chain(layers).map(Vec::<Dose>::len).fold(0, usize::saturating_add);
    doses.saturating_add(recipe.fats.len()).saturating_add(recipe.lye.liquids.len())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_limit_is_met() {
        let document = crate::EXAMPLE.as_bytes();
        let most = Limits::default();
        let recipe = most.read(document).unwrap();
        let just = Limits {
            document_bytes: document.len(),
            layers: recipe.layers.len(),
            materials: materials(&recipe),
        };
        assert!(just.read(document).is_ok());
        for less in [
            Limits { document_bytes: just.document_bytes - 1, ..just },
            Limits { layers: just.layers - 1, ..just },
            Limits { materials: just.materials - 1, ..just },
        ] {
            assert_eq!(less.read(document).unwrap_err().len(), 1, "{less:?}");
        }
    }

    #[test]
    fn more_materials_than_sums_hold_are_refused_without_being_asked() {
        let doses = vec![r#"{"additive":"honey","dose":"1 g"}"#; 200].join(",");
        let layer = |index| format!(r#"{{"layer":"{index}","share":"1 part","doses":[{doses}]}}"#);
        let layers = |count: usize| (0..count).map(layer).collect::<Vec<_>>().join(",");
        let document = |count| {
            format!(
                r#"{{"lamella":"recipe/1","name":"Many","fats":[{{"fat":"olive-oil","share":"100 %"}}],
                "alkali":{{"naoh":{{}}}},"superfat":"5 %","water":{{"lye_concentration":"33 %"}},
                "size":{{"fat":"1 kg"}},"layers":[{}]}}"#,
                layers(count)
            )
        };
        let problems = crate::recipe::read(&document(50)).unwrap_err();
        assert_eq!(problems.len(), 1);
        assert_eq!(problems[0].message, "the document names 10001 materials, and at most 10000 are read");
        assert!(crate::recipe::read(&document(49)).is_ok());
    }
}
