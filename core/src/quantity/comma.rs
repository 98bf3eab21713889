//! Commas, and what else sets off thousands: which sign is the decimal one, and when only the maker knows.
//!
//! A point is always the decimal sign. A comma is it in half of the world and sets off thousands in the other half; `1,500`
//! is either, and a thousandfold error is never guessed at. A space or an apostrophe only ever sets off thousands.

/// What a number with such signs can be; written as the grammar of quantities wants it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Reading {
    /// Only this.
    One(String),
    /// Thousands are set off, or decimals.
    Either {
        /// With the comma as a sign of thousands.
        thousands: String,
        /// With the comma as the decimal sign.
        decimal: String,
    },
    /// No number.
    No,
}

/// How the numbers of a text, which has no others than its quantity's, can be read: all of them together.
pub(super) fn read(text: &str) -> Reading {
    let (mut thousands, mut decimal) = (String::new(), String::new());
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        let (piece, after) = rest.split_at_checked(run(rest).max(first.len_utf8())).unwrap_or((rest, ""));
        match of_number(piece) {
            Reading::One(one) => {
                thousands.push_str(&one);
                decimal.push_str(&one);
            }
            Reading::Either { thousands: one, decimal: other } => {
                thousands.push_str(&one);
                decimal.push_str(&other);
            }
            Reading::No => return Reading::No,
        }
        rest = after;
    }
    if thousands == decimal { Reading::One(decimal) } else { Reading::Either { thousands, decimal } }
}

/// What to do about a text that has a comma in a document, or a number that cannot be read.
pub(crate) fn advice(text: &str) -> String {
    match read(text) {
        Reading::One(number) if number.contains('.') => format!("write the decimal point: {number:?}"),
        Reading::One(number) => format!("write it without signs between thousands: {number:?}"),
        Reading::Either { thousands, decimal } => {
            format!("write {thousands:?} or {decimal:?}, whichever is meant: a comma may be read as either")
        }
        Reading::No => {
            "write it without signs between thousands, and a point before its decimals: for example \"1234.5\"".to_owned()
        }
    }
}

/// How many bytes of a text are a number with its signs.
fn run(text: &str) -> usize {
    let mut end = 0;
    let mut before = None;
    let mut letters = text.char_indices().peekable();
    while let Some((index, letter)) = letters.next() {
        let digit = |letter: Option<char>| letter.is_some_and(|letter| letter.is_ascii_digit());
        let joins = digit(before) && digit(letters.peek().map(|(_, next)| *next));
        if !(letter.is_ascii_digit() || matches!(letter, '.' | ',') || (is_gap(letter) && joins)) {
            break;
        }
        before = Some(letter);
        end = index.saturating_add(letter.len_utf8());
    }
    end
}

/// A sign that only ever sets off thousands.
const fn is_gap(letter: char) -> bool {
    matches!(letter, ' ' | '\'' | '\u{2019}')
}

/// A number, or a letter that is none.
fn of_number(text: &str) -> Reading {
    let gap = text.chars().find(|letter| is_gap(*letter)).filter(|_| text.chars().count() > 1);
    let commas = text.matches(',').count();
    if gap.is_none() && commas == 0 {
        return Reading::One(text.to_owned());
    }
    let is_number = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    // What sets off thousands, and the decimals behind another sign.
    let with = |sign: char, (whole, decimals): (&str, &str)| match ungrouped(whole, sign) {
        Some(whole) if is_number(decimals) => Reading::One(format!("{whole}.{decimals}")),
        _ => Reading::No,
    };
    let alone = |sign: char| ungrouped(text, sign).map_or(Reading::No, Reading::One);
    match (gap, text.split_once('.'), text.split_once(',')) {
        (Some(sign), Some(parts), _) | (Some(sign), None, Some(parts)) => with(sign, parts),
        (Some(sign), None, None) => alone(sign),
        (None, Some(parts), _) => with(',', parts),
        (None, None, Some((whole, decimals))) if commas == 1 => {
            if !is_number(whole) || !is_number(decimals) {
                return Reading::No;
            }
            let decimal = format!("{whole}.{decimals}");
            match ungrouped(text, ',') {
                Some(thousands) => Reading::Either { thousands, decimal },
                None => Reading::One(decimal),
            }
        }
        _ => alone(','),
    }
}

/// The digits of a whole number whose thousands are set off by a sign: groups of three behind one of at most three that does
/// not begin with a nought.
fn ungrouped(text: &str, sign: char) -> Option<String> {
    let mut groups = text.split(sign);
    let first = groups.next()?;
    let digits = |group: &str| group.bytes().all(|byte| byte.is_ascii_digit());
    let begins = matches!(first.len(), 1..=3) && digits(first) && !first.starts_with('0');
    let mut more = groups.clone().peekable();
    let sets_off = more.peek().is_some() && more.all(|group| group.len() == 3 && digits(group));
    (begins && sets_off).then(|| groups.fold(first.to_owned(), |whole, group| whole + group))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn one(text: &str) -> Reading {
        Reading::One(text.to_owned())
    }

    #[test]
    fn a_comma_before_three_digits_is_either() {
        for (text, thousands, decimal) in [
            ("1,500", "1500", "1.500"),
            ("-1,500 g", "-1500 g", "-1.500 g"),
            ("999,999 g", "999999 g", "999.999 g"),
            ("1,000 lb 4,5 oz", "1000 lb 4.5 oz", "1.000 lb 4.5 oz"),
        ] {
            let (thousands, decimal) = (thousands.to_owned(), decimal.to_owned());
            assert_eq!(read(text), Reading::Either { thousands, decimal }, "{text}");
        }
    }

    #[test]
    fn what_settles_a_comma() {
        for (text, number) in [
            ("1,5", "1.5"),
            ("1,50", "1.50"),
            ("1,5000", "1.5000"),
            ("0,500", "0.500"),
            ("00,500", "00.500"),
            ("012,500", "012.500"),
            ("1500,500", "1500.500"),
            ("1,500.0", "1500.0"),
            ("1,500,000", "1500000"),
            ("12,345,678 g", "12345678 g"),
            ("1,234,567.5", "1234567.5"),
            ("1 500 g", "1500 g"),
            ("1'500 g", "1500 g"),
            ("1\u{2019}500,250 g", "1500.250 g"),
            ("1 500,5", "1500.5"),
            ("1 500.125", "1500.125"),
            ("0.500", "0.500"),
            ("1.500", "1.500"),
            ("30 g I2/100 g", "30 g I2/100 g"),
            ("1 lb 4 oz", "1 lb 4 oz"),
        ] {
            assert_eq!(read(text), one(number), "{text}");
        }
    }

    #[test]
    fn other_groupings_are_no_numbers() {
        for text in [
            "1,50,000",
            "1,5,5",
            "0,500,000",
            "1234,567,890",
            "1.234,5",
            "1,500,0",
            "1,",
            ",5",
            "1 2",
            "1 50",
            "1500 000",
            "1 500'000",
            "1'500 000",
            "0 500",
            "1 500,",
            "1 500 5,5",
            "1,500.000,5",
            "1,500 000",
        ] {
            assert_eq!(read(text), Reading::No, "{text}");
        }
    }
}
