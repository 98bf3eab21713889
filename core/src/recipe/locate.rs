//! Where in its text a problem stands, and problems printed with their lines.

use std::collections::BTreeMap;

use super::json;
use crate::problem::Problem;

/// Most characters of a line that are shown.
const SHOWN: usize = 96;
/// Most problems that are printed in full.
const PRINTED: usize = 200;

/// A place in a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    /// Line, from one.
    pub line: usize,
    /// Column in characters, from one.
    pub column: usize,
    /// Characters that belong to it on this line, at least one.
    pub width: usize,
    /// The whole line, without its end.
    pub line_text: String,
}

/// The place of the value that a JSON Pointer leads to; nothing when the text is not JSON or has no such value. Of a
/// key that stands twice, the first.
///
/// ```
/// let text = "{\n  \"fats\": [\"é\", 45]\n}";
/// let place = lamella::recipe::locate(text, "/fats/1").unwrap();
/// assert_eq!((place.line, place.column, place.width), (2, 17, 2));
/// assert_eq!(lamella::recipe::locate(text, "/fats/2"), None);
/// ```
#[must_use]
pub fn locate(text: &str, pointer: &str) -> Option<Place> {
    Some(place(text, Index::of(text)?.find(pointer, 0)?.value))
}

/// Problems as a maker reads them: what is wrong, where in the file, the line with the place underlined, and what to do.
/// After two hundred the rest are only counted.
///
/// ```
/// let text = "{\n  \"lamella\": \"recipe/9\"\n}\n";
/// let problems = lamella::recipe::read(text).unwrap_err();
/// assert_eq!(lamella::recipe::render(&problems, text, "strata.json"), concat!(
///     "strata.json:2:14  document.format\n",
///     "  2 |   \"lamella\": \"recipe/9\"\n",
///     "    |              ^^^^^^^^^^\n",
///     "  the document is in the format \"recipe/9\", and this version reads \"recipe/1\"\n",
///     "  help: use a newer version of the library\n",
/// ));
/// ```
#[must_use]
pub fn render(problems: &[Problem], text: &str, file_name: &str) -> String {
    let index = Index::of(text);
    let mut repeats: BTreeMap<&str, usize> = BTreeMap::new();
    let mut out = String::new();
    for problem in problems.iter().take(PRINTED) {
        if !out.is_empty() {
            out.push('\n');
        }
        let occurrence = if problem.code == "document.duplicate" {
            let seen = repeats.entry(&problem.pointer).or_default();
            *seen = seen.saturating_add(1);
            *seen
        } else {
            0
        };
        let place = match &index {
            Some(index) => index.find(&problem.pointer, occurrence).map(|item| {
                let by_key = matches!(problem.code, "document.duplicate" | "field.unknown");
                place(text, item.key.filter(|_| by_key).unwrap_or(item.value))
            }),
            None => broken_at(text),
        };
        let unknown = "?".to_owned();
        let (line, column) = place
            .as_ref()
            .map_or((unknown.clone(), unknown), |place| (place.line.to_string(), place.column.to_string()));
        out.push_str(&format!("{file_name}:{line}:{column}  {}\n", problem.code));
        if let Some(place) = place {
            out.push_str(&underlined(&place));
        }
        out.push_str(&format!("  {}\n", problem.message));
        if !problem.advice.is_empty() {
            out.push_str(&format!("  help: {}\n", problem.advice));
        }
    }
    let more = problems.len().saturating_sub(PRINTED);
    if more > 0 {
        out.push_str(&format!("\n{file_name}: {more} more problems\n"));
    }
    out
}

/// The line and the underline below it; a long line is cut around the place.
fn underlined(place: &Place) -> String {
    let start = place.column.saturating_sub(1);
    let skip = if start.saturating_add(place.width.min(SHOWN / 2)) <= SHOWN {
        0
    } else {
        start.saturating_sub(SHOWN / 4)
    };
    let shown: String = place.line_text.chars().skip(skip).take(SHOWN).map(visible).collect();
    let long = place.line_text.chars().nth(skip.saturating_add(SHOWN)).is_some();
    let (before, after) = (if skip > 0 { "..." } else { "" }, if long { "..." } else { "" });
    let indent = " ".repeat(start.saturating_sub(skip).saturating_add(before.len()));
    let room = SHOWN.saturating_sub(start.saturating_sub(skip)).max(1);
    let carets = "^".repeat(place.width.clamp(1, room));
    let number = place.line.to_string();
    let margin = " ".repeat(number.len());
    format!("  {number} | {before}{shown}{after}\n  {margin} | {indent}{carets}\n")
}

/// Tabs and other control characters as one space, so that the underline stands below its place.
fn visible(character: char) -> char {
    if character.is_control() { ' ' } else { character }
}

fn broken_at(text: &str) -> Option<Place> {
    let broken = json::parse(text).err()?;
    let line_text = text.split('\n').nth(broken.line.saturating_sub(1))?.trim_end_matches('\r').to_owned();
    Some(Place { line: broken.line, column: broken.column, width: 1, line_text })
}

/// From and to where in the text, in bytes.
type Span = (usize, usize);

fn place(text: &str, span: Span) -> Place {
    let before = text.get(..span.0).unwrap_or("");
    let line_start = before.rfind('\n').map_or(0, |end| end.saturating_add(1));
    let rest = text.get(line_start..).unwrap_or("");
    let line_text = rest.split('\n').next().unwrap_or("").trim_end_matches('\r').to_owned();
    let column = before.get(line_start..).unwrap_or("").chars().count().saturating_add(1);
    let found = text.get(span.0..span.1).unwrap_or("");
    let width = found.split(['\n', '\r']).next().unwrap_or("").chars().count().max(1);
    Place { line: before.matches('\n').count().saturating_add(1), column, width, line_text }
}

/// Where a value stands; of a list or an object, its opening brace.
#[derive(Debug, Default)]
struct Item {
    key: Option<Span>,
    value: Span,
    inside: Inside,
}

#[derive(Debug, Default)]
enum Inside {
    #[default]
    Nothing,
    List(Vec<Item>),
    Object(BTreeMap<String, Vec<Item>>),
}

/// Every value of a text with where it stands.
#[derive(Debug)]
struct Index {
    top: Item,
}

impl Index {
    /// Nothing when the text is not JSON; so what follows may take its grammar, and its depth, for granted.
    fn of(text: &str) -> Option<Self> {
        json::parse(text).ok()?;
        Some(Self { top: Scan { text, at: 0 }.item()? })
    }

    /// The value at a pointer; of a key that stands several times, the occurrence counted from nought.
    fn find(&self, pointer: &str, occurrence: usize) -> Option<&Item> {
        let mut item = &self.top;
        if pointer.is_empty() {
            return Some(item);
        }
        let mut steps = pointer.strip_prefix('/')?.split('/').peekable();
        while let Some(step) = steps.next() {
            let step = step.replace("~1", "/").replace("~0", "~");
            item = match &item.inside {
                Inside::Nothing => return None,
                Inside::List(items) => items.get(step.parse::<usize>().ok()?)?,
                Inside::Object(entries) => {
                    let same = entries.get(&step)?;
                    same.get(if steps.peek().is_none() { occurrence } else { 0 })?
                }
            };
        }
        Some(item)
    }
}

/// Walks a text that is known to be JSON.
struct Scan<'t> {
    text: &'t str,
    at: usize,
}

impl Scan<'_> {
    fn next(&self) -> Option<u8> {
        self.text.as_bytes().get(self.at).copied()
    }

    fn step(&mut self) {
        self.at = self.at.saturating_add(1);
    }

    fn space(&mut self) {
        while self.next().is_some_and(|byte| matches!(byte, b' ' | b'\t' | b'\r' | b'\n' | b',' | b':')) {
            self.step();
        }
    }

    /// A text with its quotes.
    fn quoted(&mut self) -> Span {
        let start = self.at;
        self.step();
        while let Some(byte) = self.next() {
            self.step();
            match byte {
                b'"' => break,
                b'\\' => self.step(),
                _ => {}
            }
        }
        (start, self.at)
    }

    fn item(&mut self) -> Option<Item> {
        self.space();
        let start = self.at;
        let open = (start, start.saturating_add(1));
        match self.next()? {
            b'"' => Some(Item { value: self.quoted(), ..Item::default() }),
            b'[' => {
                self.step();
                let mut items = Vec::new();
                loop {
                    self.space();
                    if self.next()? == b']' {
                        break;
                    }
                    items.push(self.item()?);
                }
                self.step();
                Some(Item { value: open, inside: Inside::List(items), key: None })
            }
            b'{' => {
                self.step();
                let mut entries: BTreeMap<String, Vec<Item>> = BTreeMap::new();
                loop {
                    self.space();
                    if self.next()? == b'}' {
                        break;
                    }
                    let key = self.quoted();
                    let name: String = serde_json::from_str(self.text.get(key.0..key.1)?).ok()?;
                    let item = Item { key: Some(key), ..self.item()? };
                    entries.entry(name).or_default().push(item);
                }
                self.step();
                Some(Item { value: open, inside: Inside::Object(entries), key: None })
            }
            _ => {
                let end = |byte: u8| matches!(byte, b',' | b']' | b'}' | b' ' | b'\t' | b'\r' | b'\n');
                while self.next().is_some_and(|byte| !end(byte)) {
                    self.step();
                }
                Some(Item { value: (start, self.at), ..Item::default() })
            }
        }
    }
}
