//! Conformance tests of Lamella: its own laws, published values, documents good and bad, and its faces in C and JS.
//!
//! Here is what they share: the vectors, blessing, and running tools.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test stops where a file or a tool is not as it should be"
)]

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

pub mod c;
pub mod draw;
pub mod oracle;
pub mod published;
pub mod substance;

/// The README's Rust blocks run as documentation tests of this package.
#[cfg(doctest)]
#[doc = include_str!("../README.md")]
pub struct Readme;

/// Whether a text is a CAS number with its check digit: the last digit is the sum of the others, each times its place from
/// the right, modulo ten.
///
/// # Source
/// Chemical Abstracts Service, check digit of the registry number (from memory).
#[must_use]
pub fn is_cas(text: &str) -> bool {
    let digits: Vec<u32> = text.chars().filter_map(|letter| letter.to_digit(10)).collect();
    let Some((last, rest)) = digits.split_last() else { return false };
    let sum: u32 = rest.iter().rev().zip(1..).map(|(digit, place)| digit.saturating_mul(place)).sum();
    has_form_of_cas(text) && sum % 10 == *last
}

/// Whether a text is digits in the form of a CAS number, whatever its check digit.
#[must_use]
pub fn has_form_of_cas(text: &str) -> bool {
    let lengths: Vec<usize> = text.split('-').map(str::len).collect();
    text.chars().all(|letter| letter == '-' || letter.is_ascii_digit())
        && matches!(lengths.as_slice(), [2..=7, 2, 1])
}

/// The folder of the workspace.
#[must_use]
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().to_owned()
}

/// A folder or file below `tests/vectors`.
#[must_use]
pub fn vectors(below: &str) -> PathBuf {
    root().join("tests/vectors").join(below)
}

/// The folders of the golden vectors, sorted; never none.
#[must_use]
pub fn golden() -> Vec<PathBuf> {
    let folders: Vec<PathBuf> =
        entries(&vectors("golden")).into_iter().filter(|path| path.is_dir()).collect();
    assert!(!folders.is_empty(), "no golden vectors");
    folders
}

/// Documents that must not read, sorted.
#[must_use]
pub fn bad() -> Vec<PathBuf> {
    let documents = |path: &PathBuf| !path.to_string_lossy().ends_with(".problems.json");
    files(&vectors("bad")).into_iter().filter(documents).collect()
}

/// A document with the text that must come of it.
#[derive(Clone, Debug)]
pub struct Case {
    /// The recipe.
    pub document: PathBuf,
    /// Its plan, or its problems.
    pub expected: PathBuf,
    /// Whether a plan comes of it.
    pub plans: bool,
}

/// Every golden vector with its plan, and every other document of the vectors with what Rust makes of it, written to
/// `folder`.
///
/// # Panics
/// When `folder` cannot be written.
#[must_use]
pub fn documents(folder: &Path) -> Vec<Case> {
    let golden = golden().into_iter().map(|folder| Case {
        document: folder.join("recipe.json"),
        expected: folder.join("plan.json"),
        plans: true,
    });
    let valid =
        files(&vectors("valid")).into_iter().filter(|path| path.extension().is_some_and(|is| is == "json"));
    let others = bad().into_iter().chain(valid).enumerate().map(|(index, document)| {
        let made = lamella::plan_json(&read(&document));
        let plans = made.is_ok();
        let text = made.or_else(|failure| failure.to_json()).unwrap();
        let expected = folder.join(format!("{index}.json"));
        std::fs::write(&expected, text).unwrap();
        Case { document, expected, plans }
    });
    golden.chain(others).collect()
}

/// All the files below a folder, sorted; none when there is no such folder.
#[must_use]
pub fn files(folder: &Path) -> Vec<PathBuf> {
    let below = entries(folder).into_iter();
    below.flat_map(|path| if path.is_dir() { files(&path) } else { vec![path] }).collect()
}

fn entries(folder: &Path) -> Vec<PathBuf> {
    let Ok(entries) = std::fs::read_dir(folder) else { return Vec::new() };
    let mut paths: Vec<PathBuf> = entries.map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    paths
}

/// The bytes of a file.
///
/// # Panics
/// When it cannot be read.
#[must_use]
pub fn read(path: &Path) -> Vec<u8> {
    std::fs::read(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// Compares a checked-in file with what it should be; with `BLESS=1` in the environment it is rewritten instead.
///
/// # Panics
/// When they differ.
pub fn compare(path: &Path, text: &str) {
    if std::env::var_os("BLESS").is_some_and(|value| value == "1") {
        std::fs::write(path, text).unwrap();
        return;
    }
    let there = std::fs::read_to_string(path).unwrap_or_default();
    if there != text {
        let line = there.lines().zip(text.lines()).take_while(|(a, b)| a == b).count();
        let at = |text: &str| text.lines().nth(line).unwrap_or("(end)").to_owned();
        panic!(
            "{} line {}: there is\n{}\nand it should be\n{}\n(BLESS=1 rewrites the file)",
            path.display(),
            line.saturating_add(1),
            at(&there),
            at(text)
        );
    }
}

/// An empty folder for what a test makes, below the folder of the test binaries.
#[must_use]
pub fn scratch(name: &str) -> PathBuf {
    let folder = binaries().join("lamella-tests").join(name);
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

/// The folder that the test binaries lie in, and the libraries that they were built with.
#[must_use]
pub fn binaries() -> PathBuf {
    std::env::current_exe().unwrap().parent().unwrap().to_owned()
}

/// Whether a program is on the PATH.
#[must_use]
pub fn on_path(program: &str) -> bool {
    let path = std::env::var_os("PATH").unwrap_or_default();
    std::env::split_paths(&path).any(|folder| folder.join(program).is_file())
}

/// Runs a command that must succeed.
///
/// # Panics
/// When it cannot be started or fails; with the end of what it printed.
pub fn run(command: &mut Command) -> Output {
    let name = called(command);
    let output = command.output().unwrap_or_else(|error| panic!("{name}: {error}"));
    assert!(
        output.status.success(),
        "{name}: {}\n{}{}",
        output.status,
        end(&output.stdout),
        end(&output.stderr)
    );
    output
}

/// A command in a few words: its program, its first arguments, and how many more there are.
fn called(command: &Command) -> String {
    const SHOWN: usize = 4;
    let mut name = command.get_program().to_string_lossy().into_owned();
    for argument in command.get_args().take(SHOWN) {
        name.push(' ');
        name.push_str(&argument.to_string_lossy());
    }
    match command.get_args().count().saturating_sub(SHOWN) {
        0 => name,
        more => format!("{name} ... and {more} more"),
    }
}

/// The last lines of an output.
fn end(bytes: &[u8]) -> String {
    const LINES: usize = 40;
    let text = String::from_utf8_lossy(bytes);
    let lines: Vec<&str> = text.lines().collect();
    let shown = lines.get(lines.len().saturating_sub(LINES)..).unwrap_or(&lines);
    shown.iter().flat_map(|line| [line, "\n"]).collect()
}
