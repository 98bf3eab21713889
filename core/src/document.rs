//! A document in, a document out: what the faces for C and for WebAssembly call, so that they compute nothing.

use std::fmt;

use serde::Serialize;

use crate::batch::Plan;
use crate::problem::Problem;
use crate::recipe;

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
        let mut text = serde_json::to_string_pretty(self)?;
        text.push('\n');
        Ok(text)
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
