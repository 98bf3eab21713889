//! Days of the calendar, and times of day: given, never asked of a clock.

use std::fmt;
use std::str::FromStr;

use serde::{Serialize, Serializer};
use thiserror::Error;

use super::kind::Duration;

/// Why a text is not a date or a time.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[non_exhaustive]
pub enum DateError {
    /// The text has another form.
    #[error("{found:?} is not a date; write year, month and day: \"2025-03-04\"")]
    Form {
        /// What was read.
        found: String,
    },
    /// The calendar has no such day, or the clock no such minute.
    #[error("{found:?} is on no calendar")]
    Absent {
        /// What was read.
        found: String,
    },
    /// The year is outside what is read.
    #[error("{found:?} is outside the years {FIRST} to {LAST}")]
    Range {
        /// What was read.
        found: String,
    },
}

/// First year that is read.
const FIRST: u16 = 1900;
/// Last year that is read.
const LAST: u16 = 2199;
/// Minutes of a day.
const DAY: u16 = 1440;

/// A day of the Gregorian calendar, 1900 to 2199; written `2025-03-04`.
///
/// ```
/// use lamella::quantity::Date;
/// let cut: Date = "2024-02-28".parse()?;
/// assert_eq!(cut.days_until("2024-03-01".parse()?), 2); // a leap year
/// assert_eq!(cut.plus_days(42).unwrap().to_string(), "2024-04-10");
/// # Ok::<(), lamella::quantity::DateError>(())
/// ```
///
/// # Source
/// The form is the calendar date of ISO 8601, extended format, from memory.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Date {
    year: u16,
    month: u8,
    day: u8,
}

impl Date {
    /// A day of a month of a year; nothing when the calendar has none, or the year is outside what is read.
    #[must_use]
    pub fn new(year: u16, month: u8, day: u8) -> Option<Self> {
        let real = (FIRST..=LAST).contains(&year) && day >= 1 && day <= days_of(year, month);
        real.then_some(Self { year, month, day })
    }

    /// A day that is known to be one.
    pub(crate) const fn literal(year: u16, month: u8, day: u8) -> Self {
        Self { year, month, day }
    }

    /// Days since a fixed day; only differences mean anything.
    fn number(self) -> i64 {
        let month = (1..self.month).map(|month| i64::from(days_of(self.year, month)));
        let before = i64::from(self.year).saturating_sub(1);
        let leaps = (before / 4).saturating_sub(before / 100).saturating_add(before / 400);
        before
            .saturating_mul(365)
            .saturating_add(leaps)
            .saturating_add(month.fold(0, i64::saturating_add))
            .saturating_add(i64::from(self.day))
    }

    /// Days from this one to another; negative when the other is earlier.
    #[must_use]
    pub fn days_until(self, other: Self) -> i64 {
        other.number().saturating_sub(self.number())
    }

    /// The day so many days later (or earlier); nothing when it is outside the years that are read.
    #[must_use]
    pub fn plus_days(self, days: i64) -> Option<Self> {
        let wanted = self.number().checked_add(days)?;
        let start = |year| Self { year, month: 1, day: 1 }.number();
        let year = (FIRST..=LAST).rev().find(|year| start(*year) <= wanted)?;
        let mut left = wanted.checked_sub(start(year))?;
        for month in 1..=12 {
            let length = i64::from(days_of(year, month));
            if left < length {
                return Self::new(year, month, u8::try_from(left.checked_add(1)?).ok()?);
            }
            left = left.checked_sub(length)?;
        }
        None
    }

    /// How long from this day to another; nothing when the other is earlier.
    #[must_use]
    pub fn until(self, other: Self) -> Option<Duration> {
        let days = self.days_until(other);
        if days < 0 { None } else { Duration::try_from_unit(super::Exact::from(days), "d").ok() }
    }
}

/// Days of a month; none for a month that is not there.
const fn days_of(year: u16, month: u8) -> u8 {
    let leap = year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
    match month {
        1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
        4 | 6 | 9 | 11 => 30,
        2 if leap => 29,
        2 => 28,
        _ => 0,
    }
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

impl Serialize for Date {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

/// A whole number of so many digits, and nothing else.
fn digits(text: &str, length: usize) -> Option<u16> {
    let plain = text.len() == length && text.bytes().all(|byte| byte.is_ascii_digit());
    text.parse().ok().filter(|_| plain)
}

impl FromStr for Date {
    type Err = DateError;

    fn from_str(text: &str) -> Result<Self, DateError> {
        let form = || DateError::Form { found: text.to_owned() };
        let mut parts = text.trim().split('-');
        let mut next = |length| parts.next().and_then(|part| digits(part, length)).ok_or_else(form);
        let (year, month, day) = (next(4)?, next(2)?, next(2)?);
        if parts.next().is_some() {
            return Err(form());
        }
        if !(FIRST..=LAST).contains(&year) {
            return Err(DateError::Range { found: text.to_owned() });
        }
        let small = |part: u16| u8::try_from(part).unwrap_or(0);
        Self::new(year, small(month), small(day)).ok_or_else(|| DateError::Absent { found: text.to_owned() })
    }
}

/// A day, and where it is known the time of day to the minute: `2025-03-04 10:20`. It is the time of the place where the
/// work is done; zones are not kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Moment {
    /// The day.
    pub date: Date,
    minute: Option<u16>,
}

impl Moment {
    /// Minutes since midnight, where the time of day is known.
    #[must_use]
    pub const fn minute(self) -> Option<u16> {
        self.minute
    }
}

impl From<Date> for Moment {
    fn from(date: Date) -> Self {
        Self { date, minute: None }
    }
}

impl fmt::Display for Moment {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.date)?;
        self.minute.map_or(Ok(()), |minute| {
            let (hour, rest) = (minute.checked_div(60), minute.checked_rem(60));
            write!(f, " {:02}:{:02}", hour.unwrap_or(0), rest.unwrap_or(0))
        })
    }
}

impl FromStr for Moment {
    type Err = DateError;

    fn from_str(text: &str) -> Result<Self, DateError> {
        let text = text.trim();
        let Some((date, time)) = text.split_once([' ', 'T']) else {
            return Ok(Self { date: text.parse()?, minute: None });
        };
        let date: Date = date.parse()?;
        let form = || DateError::Form { found: text.to_owned() };
        let (hour, minute) = time.split_once(':').ok_or_else(form)?;
        let (hour, minute) = (digits(hour, 2).ok_or_else(form)?, digits(minute, 2).ok_or_else(form)?);
        let whole = hour.saturating_mul(60).saturating_add(minute);
        if minute >= 60 || whole >= DAY {
            return Err(DateError::Absent { found: text.to_owned() });
        }
        Ok(Self { date, minute: Some(whole) })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_day_follows_the_one_before_it() {
        let mut day = Date::new(FIRST, 1, 1).unwrap();
        let first = day;
        let mut count = 0_i64;
        while let Some(next) = day.plus_days(1) {
            assert_eq!(day.days_until(next), 1);
            assert!(next > day);
            assert_eq!(next.to_string().parse(), Ok(next));
            day = next;
            count = count.checked_add(1).unwrap();
        }
        assert_eq!(day, Date::new(LAST, 12, 31).unwrap());
        // Of the 75 fourth years 1900 and 2100 have no leap day.
        assert_eq!(count, 300 * 365 + 73 - 1);
        assert_eq!(first.days_until(day), count);
        assert_eq!(day.plus_days(-count), Some(first));
    }

    #[test]
    fn the_calendar_is_that_of_the_world() {
        let days = |from: &str, to: &str| from.parse::<Date>().unwrap().days_until(to.parse().unwrap());
        assert_eq!(days("2000-02-28", "2000-03-01"), 2);
        assert_eq!(days("1900-02-28", "1900-03-01"), 1);
        assert_eq!(days("1970-01-01", "2000-01-01"), 10_957);
        assert_eq!(days("2025-03-04", "2025-03-01"), -3);
    }

    #[test]
    fn what_is_no_date_is_told() {
        for text in ["", "2025-3-04", "04.03.2025", "2025-03-04-01", "20250304", "2025-03-0x", "+025-03-04"] {
            assert!(matches!(text.parse::<Date>(), Err(DateError::Form { .. })), "{text}");
        }
        for text in ["2025-02-29", "2025-13-01", "2025-00-10", "2025-04-31", "2025-01-00"] {
            assert!(matches!(text.parse::<Date>(), Err(DateError::Absent { .. })), "{text}");
        }
        assert!(matches!("1899-12-31".parse::<Date>(), Err(DateError::Range { .. })));
        assert!(matches!("2025-03-04 24:00".parse::<Moment>(), Err(DateError::Absent { .. })));
        assert!(matches!("2025-03-04 1:00".parse::<Moment>(), Err(DateError::Form { .. })));
        assert_eq!("2025-03-04T09:05".parse::<Moment>().unwrap().to_string(), "2025-03-04 09:05");
        assert!("2025-03-04".parse::<Moment>().unwrap() < "2025-03-04 00:00".parse().unwrap());
    }
}
