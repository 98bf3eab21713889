//! A document in, a document out: what the faces for C and for WebAssembly call, so that they compute nothing.

use std::fmt;

use serde::Serialize;

use crate::batch::{Caution, Plan};
use crate::json;
use crate::problem::{Problem, short};
use crate::quantity::{Mass, Share};
use crate::recipe::{self, Limits};

/// Why no plan came of a document: all its problems, never none.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Failure {
    /// Which document this is: `problems/1`.
    lamella: &'static str,
    problems: Vec<Problem>,
}

impl Failure {
    /// The problems, in the order of the document.
    #[must_use]
    pub fn problems(&self) -> &[Problem] {
        &self.problems
    }

    /// The problems as their `problems/1` document, ending in a newline.
    ///
    /// # Errors
    /// None that problems can bring about; the signature is that of the writer.
    pub fn to_json(&self) -> Result<String, serde_json::Error> {
        json::document(self)
    }

    /// The same document on one line, without the newline.
    #[must_use]
    pub fn to_line(&self) -> String {
        // Texts and nothing else: the writer has no reason to refuse.
        json::line(self).unwrap_or_default()
    }

    /// What a face reports of an argument that its function does not take: the argument's name, what it must be and what
    /// it is, in words.
    #[must_use]
    pub fn argument(name: &str, wanted: &str, found: &str) -> Self {
        Self::from(vec![Problem {
            code: "call.argument",
            pointer: String::new(),
            message: format!("{name:?} must be {wanted}, found {}", short(found)),
            advice: format!("hand over {wanted}"),
        }])
    }

    /// What the faces report in place of a panic that they caught.
    #[must_use]
    pub fn internal(message: &str) -> Self {
        Self::from(vec![Problem {
            code: "library.internal",
            pointer: String::new(),
            message: format!("a mistake of this library: {message}"),
            advice: "tell those who look after the library, with the document".to_owned(),
        }])
    }
}

impl From<Vec<Problem>> for Failure {
    fn from(problems: Vec<Problem>) -> Self {
        Self { lamella: "problems/1", problems }
    }
}

/// One problem a line.
impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, problem) in self.problems.iter().enumerate() {
            let start = if index == 0 { "" } else { "\n" };
            write!(f, "{start}{problem}")?;
        }
        Ok(())
    }
}

impl std::error::Error for Failure {}

/// The `plan/1` document of a `recipe/1` document, ending in a newline. The same bytes give the same bytes on every
/// machine.
///
/// # Errors
/// Everything that is wrong with the document, or that keeps its recipe from being planned.
///
/// ```
/// let failure = lamella::plan_json(b"{}").unwrap_err();
/// assert_eq!(failure.problems()[0].code, "document.format");
/// assert!(failure.to_json().unwrap().starts_with("{\n  \"lamella\": \"problems/1\""));
/// ```
pub fn plan_json(document: &[u8]) -> Result<String, Failure> {
    let recipe = recipe::read_bytes(document)?;
    Plan::of(&recipe)?.to_json().map_err(|error| Failure::from(vec![unwritten(&error)]))
}

fn unwritten(error: &serde_json::Error) -> Problem {
    Problem {
        code: "plan.number",
        pointer: String::new(),
        message: format!("the plan cannot be written: {error}"),
        advice: "look for a figure that is far too large or too small".to_owned(),
    }
}

/// Bytes of a document as text.
///
/// # Errors
/// `document.size` when they are too many, `document.encoding` when they are not UTF-8.
pub fn utf8(bytes: &[u8]) -> Result<&str, Failure> {
    recipe::read::utf8(bytes).map_err(Failure::from)
}

/// What a line of a stream of recipes is answered with.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[non_exhaustive]
pub enum Answer {
    /// The whole plan, as the `plan/1` document.
    #[default]
    Plan,
    /// What a look through a catalogue wants to know, as a `check/1` document: the figures of the batch and the cautions.
    Check,
}

/// What a look through a catalogue wants to know of a recipe.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Check<'p> {
    /// Which document this is: `check/1`.
    lamella: &'static str,
    /// What the maker calls the recipe.
    pub name: &'p str,
    /// How many layers it has.
    pub layers: usize,
    /// All its fat, as weighed.
    pub fat: Mass,
    /// All that is poured.
    pub poured: Mass,
    /// Superfat that it asks for.
    pub superfat_aimed: Share,
    /// Superfat of all that is mixed, from what is weighed.
    pub superfat: Share,
    /// What is worth the maker's attention.
    pub cautions: &'p [Caution],
}

impl<'p> From<&'p Plan> for Check<'p> {
    fn from(plan: &'p Plan) -> Self {
        Self {
            lamella: "check/1",
            name: &plan.name,
            layers: plan.layers.len(),
            fat: plan.batch.fat,
            poured: plan.batch.poured,
            superfat_aimed: plan.batch.superfat_aimed,
            superfat: plan.batch.superfat,
            cautions: &plan.cautions,
        }
    }
}

/// The answer to a recipe on one line, ending in a newline: what was asked for, or the `problems/1` document.
///
/// ```
/// use lamella::document::{Answer, line};
/// use lamella::recipe::Limits;
/// let answer = line(lamella::EXAMPLE.as_bytes(), Limits::default(), Answer::Check);
/// assert!(answer.starts_with(r#"{"lamella":"check/1","name":"Tidal strata","layers":7,"#));
/// let answer = line(b"{}", Limits::default(), Answer::Check);
/// assert!(answer.starts_with(r#"{"lamella":"problems/1","problems":[{"code":"document.format""#));
/// ```
#[must_use]
pub fn line(document: &[u8], most: Limits, answer: Answer) -> String {
    let plan = most.read(document).and_then(|recipe| Plan::of(&recipe));
    let text = plan.map_err(Failure::from).and_then(|plan| {
        let text = match answer {
            Answer::Plan => json::line(&plan),
            Answer::Check => json::line(&Check::from(&plan)),
        };
        text.map_err(|error| Failure::from(vec![unwritten(&error)]))
    });
    let mut text = text.unwrap_or_else(|failure| failure.to_line());
    text.push('\n');
    text
}
