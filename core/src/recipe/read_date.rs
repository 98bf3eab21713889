//! Days, moments and spans of time of a document.

use super::read_value::{Node, Reader, echo};
use crate::quantity::{Date, DateError, Duration, Moment};

impl Reader {
    /// A day, `"2025-03-04"`.
    pub(crate) fn date(&mut self, at: &Node<'_>) -> Option<Date> {
        self.day(at, "2025-03-04")
    }

    /// A day, or a day and a time, `"2025-03-04 10:20"`.
    pub(crate) fn moment(&mut self, at: &Node<'_>) -> Option<Moment> {
        self.day(at, "2025-03-04 10:20")
    }

    fn day<T: std::str::FromStr<Err = DateError>>(&mut self, at: &Node<'_>, example: &str) -> Option<T> {
        let advice = format!("write for example {example:?}");
        let text = self.text(at, &advice)?;
        let error = match text.parse::<T>() {
            Ok(value) => return Some(value),
            Err(error) => error,
        };
        let found = echo(text);
        let (code, message) = match error {
            DateError::Form { .. } => ("date.form", format!("{found} is no date")),
            DateError::Absent { .. } => ("date.absent", format!("{found} is on no calendar")),
            DateError::Range { .. } => ("date.range", format!("{found} is outside the years 1900 to 2199")),
        };
        self.report(at, code, message, advice);
        None
    }
}

/// A span of time in the largest unit that it is a whole number of.
pub(crate) fn whole_units(span: Duration) -> String {
    let unit = ["d", "h", "min"].into_iter().find_map(|unit| {
        let number = span.in_unit(unit)?.normalize();
        (number.scale() == 0).then(|| format!("{number} {unit}"))
    });
    unit.unwrap_or_else(|| span.to_string())
}
