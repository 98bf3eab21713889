//! How documents are written: laid out for a person, or on one line for a program.
//!
//! Both go through one serialiser, so that a program has the code of a plan's JSON once.

use std::io;

use serde::Serialize;
use serde::ser::Error as _;
use serde_json::ser::{CompactFormatter, Formatter, PrettyFormatter, Serializer};

/// A document with a line for each field, ending in a newline.
///
/// ```
/// let share = serde_json::json!({ "share": "5 %" });
/// assert_eq!(lamella::json::document(&share).unwrap(), "{\n  \"share\": \"5 %\"\n}\n");
/// ```
///
/// # Errors
/// When the value refuses to be written; no document of this library does.
pub fn document(value: &impl Serialize) -> Result<String, serde_json::Error> {
    let mut text = written(value, Layout { lines: Some(PrettyFormatter::new()) })?;
    text.push('\n');
    Ok(text)
}

/// The same on one line, without the newline.
///
/// ```
/// let share = serde_json::json!({ "share": "5 %" });
/// assert_eq!(lamella::json::line(&share).unwrap(), r#"{"share":"5 %"}"#);
/// ```
///
/// # Errors
/// As [`document`].
pub fn line(value: &impl Serialize) -> Result<String, serde_json::Error> {
    written(value, Layout { lines: None })
}

fn written(value: &impl Serialize, layout: Layout) -> Result<String, serde_json::Error> {
    let mut bytes = Vec::with_capacity(1024);
    value.serialize(&mut Serializer::with_formatter(&mut bytes, layout))?;
    String::from_utf8(bytes).map_err(serde_json::Error::custom)
}

/// A type of its own for both: with two, everything that is written would be compiled twice.
struct Layout {
    lines: Option<PrettyFormatter<'static>>,
}

macro_rules! either {
    ($($name:ident($($given:ident: $kind:ty)?)),* $(,)?) => {$(
        #[inline]
        fn $name<W: ?Sized + io::Write>(&mut self, writer: &mut W $(, $given: $kind)?) -> io::Result<()> {
            match &mut self.lines {
                Some(lines) => lines.$name(writer $(, $given)?),
                None => CompactFormatter.$name(writer $(, $given)?),
            }
        }
    )*};
}

impl Formatter for Layout {
    either!(
        begin_array(),
        end_array(),
        begin_array_value(first: bool),
        end_array_value(),
        begin_object(),
        end_object(),
        begin_object_key(first: bool),
        begin_object_value(),
        end_object_value(),
    );
}
