//! A sheet as plain text: columns that line up, no line wider than [`WIDTH`].

use super::document::{Align, Block, Cell, Row, Table, clean};

/// Most columns of a line.
pub(crate) const WIDTH: usize = 96;
/// Before a table, a list item's words, a numbered line's words.
const INDENT: usize = 2;
/// Between two columns of a table.
const GAP: usize = 2;
/// Narrowest that a column of words is made.
const NARROWEST: usize = 6;

pub(crate) fn render(blocks: &[Block]) -> String {
    let mut lines: Vec<String> = Vec::new();
    for block in blocks {
        if !lines.is_empty() {
            lines.push(String::new());
        }
        match block {
            Block::Title(text) => headed(&mut lines, text, '='),
            Block::Heading(text) => {
                lines.push(String::new());
                headed(&mut lines, text, '-');
            }
            Block::Subheading(text) | Block::Paragraph(text) => lines.extend(wrap(&clean(text), WIDTH)),
            Block::List(items) => {
                for item in items {
                    hang(&mut lines, "- ", item);
                }
            }
            Block::Numbered(items) => {
                let widest = items.len().to_string().len();
                for (index, item) in items.iter().enumerate() {
                    hang(&mut lines, &format!("{:>widest$}  ", index.saturating_add(1)), item);
                }
            }
            Block::Table(table) => lines.extend(self::table(table)),
        }
    }
    let mut text = String::new();
    for line in lines {
        text.push_str(line.trim_end());
        text.push('\n');
    }
    text
}

fn headed(lines: &mut Vec<String>, text: &str, under: char) {
    let wrapped = wrap(&clean(text), WIDTH);
    let widest = wrapped.iter().map(|line| width(line)).max().unwrap_or(0);
    lines.extend(wrapped);
    lines.push(under.to_string().repeat(widest));
}

/// A mark, and words that hang beside it.
fn hang(lines: &mut Vec<String>, mark: &str, text: &str) {
    let beside = width(mark).saturating_add(INDENT);
    for (index, line) in wrap(&clean(text), WIDTH.saturating_sub(beside)).into_iter().enumerate() {
        let start = if index == 0 { pad(mark, beside, Align::Figures) } else { " ".repeat(beside) };
        lines.push(start + &line);
    }
}

fn table(table: &Table) -> Vec<String> {
    let widths = widths(table);
    let mut lines = Vec::new();
    if table.columns.iter().any(|column| !column.title.is_empty()) {
        let cells: Vec<Vec<String>> =
            table.columns.iter().map(|column| vec![column.title.to_string()]).collect();
        lines.extend(set(table, &widths, &cells));
    }
    let mut summed = false;
    for row in &table.rows {
        if row.sum && !summed {
            lines.push(rule(table, &widths, row));
        }
        summed = row.sum;
        let cells: Vec<Vec<String>> =
            row.cells.iter().zip(&widths).map(|(cell, width)| wrap(&shown(cell), *width)).collect();
        lines.extend(set(table, &widths, &cells));
    }
    lines
}

/// A line under the figures that a row sums up.
fn rule(table: &Table, widths: &[usize], row: &Row) -> String {
    let under = |((cell, column), width): ((&Cell, &super::document::Column), &usize)| {
        let summed = column.align == Align::Figures && !shown(cell).is_empty();
        vec![if summed { "-".repeat(*width) } else { String::new() }]
    };
    let cells: Vec<Vec<String>> = row.cells.iter().zip(&table.columns).zip(widths).map(under).collect();
    set(table, widths, &cells).concat()
}

/// The lines of a row whose cells are wrapped.
fn set(table: &Table, widths: &[usize], cells: &[Vec<String>]) -> Vec<String> {
    let height = cells.iter().map(Vec::len).max().unwrap_or(0);
    let line = |number: usize| {
        let mut line = " ".repeat(INDENT);
        for (index, ((cell, column), width)) in cells.iter().zip(&table.columns).zip(widths).enumerate() {
            if index > 0 {
                line.push_str(&" ".repeat(GAP));
            }
            line.push_str(&pad(cell.get(number).map_or("", String::as_str), *width, column.align));
        }
        line
    };
    (0..height).map(line).collect()
}

/// How wide each column is: as wide as its widest cell, and columns of words narrower where the line is too short.
fn widths(table: &Table) -> Vec<usize> {
    let mut widths: Vec<usize> = table.columns.iter().map(|column| width(&column.title)).collect();
    for row in &table.rows {
        for (widest, cell) in widths.iter_mut().zip(&row.cells) {
            *widest = (*widest).max(width(&shown(cell)));
        }
    }
    let gaps = widths.len().saturating_sub(1).saturating_mul(GAP).saturating_add(INDENT);
    let room = WIDTH.saturating_sub(gaps);
    loop {
        let total = widths.iter().fold(0_usize, |sum, width| sum.saturating_add(*width));
        let over = total.saturating_sub(room);
        let words = widths.iter_mut().zip(&table.columns).filter(|(_, column)| column.align == Align::Words);
        let widest = words.map(|(width, _)| width).max();
        match widest {
            Some(width) if over > 0 && *width > NARROWEST => *width = width.saturating_sub(1),
            _ => return widths,
        }
    }
}

fn shown(cell: &Cell) -> String {
    match cell {
        Cell::Empty => String::new(),
        Cell::Tick => "[ ]".to_owned(),
        Cell::Text(text) => clean(text),
    }
}

fn pad(text: &str, to: usize, align: Align) -> String {
    let blank = " ".repeat(to.saturating_sub(width(text)));
    match align {
        Align::Words => format!("{text}{blank}"),
        Align::Figures => format!("{blank}{text}"),
    }
}

/// Text in lines of at most `most` columns, broken between words, and within a word that is longer than a line.
fn wrap(text: &str, most: usize) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = String::new();
    for word in words(text) {
        let needed = width(&line).saturating_add(usize::from(!line.is_empty())).saturating_add(width(&word));
        if needed > most && !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        if !line.is_empty() {
            line.push(' ');
        }
        for letter in word.chars() {
            if width(&line).saturating_add(columns(letter)) > most && !line.is_empty() {
                lines.push(std::mem::take(&mut line));
            }
            line.push(letter);
        }
    }
    if !line.is_empty() || lines.is_empty() {
        lines.push(line);
    }
    lines
}

/// The words of a text; a figure and its unit are one.
fn words(text: &str) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for word in text.split(' ').filter(|word| !word.is_empty()) {
        let unit = matches!(
            word.trim_end_matches(['.', ',', ';', ':', ')']),
            "g" | "%" | "mm" | "mL" | "°C" | "g/mL"
        );
        match words.last_mut().filter(|last| unit && last.ends_with(|letter: char| letter.is_ascii_digit())) {
            Some(figure) => {
                figure.push(' ');
                figure.push_str(word);
            }
            None => words.push(word.to_owned()),
        }
    }
    words
}

/// How many columns a text takes.
pub(crate) fn width(text: &str) -> usize {
    text.chars().map(columns).fold(0, usize::saturating_add)
}

/// Columns of a character: none for one that is set over another, two for East Asian script and pictures.
///
/// Source: the ranges of Unicode Standard Annex 11 (East Asian Width), roughly, from memory.
const fn columns(letter: char) -> usize {
    match letter {
        '\u{300}'..='\u{36f}'
        | '\u{483}'..='\u{489}'
        | '\u{591}'..='\u{5bd}'
        | '\u{610}'..='\u{61a}'
        | '\u{64b}'..='\u{65f}'
        | '\u{1ab0}'..='\u{1aff}'
        | '\u{1dc0}'..='\u{1dff}'
        | '\u{200b}'..='\u{200f}'
        | '\u{2060}'..='\u{2064}'
        | '\u{20d0}'..='\u{20ff}'
        | '\u{fe00}'..='\u{fe0f}'
        | '\u{fe20}'..='\u{fe2f}'
        | '\u{feff}' => 0,
        '\u{1100}'..='\u{115f}'
        | '\u{2e80}'..='\u{303e}'
        | '\u{3041}'..='\u{a4cf}'
        | '\u{a960}'..='\u{a97f}'
        | '\u{ac00}'..='\u{d7a3}'
        | '\u{f900}'..='\u{faff}'
        | '\u{fe30}'..='\u{fe6f}'
        | '\u{ff00}'..='\u{ff60}'
        | '\u{ffe0}'..='\u{ffe6}'
        | '\u{1f300}'..='\u{1f64f}'
        | '\u{1f680}'..='\u{1f6ff}'
        | '\u{1f900}'..='\u{1faff}'
        | '\u{20000}'..='\u{3fffd}' => 2,
        _ => 1,
    }
}

#[cfg(test)]
mod tests {
    use super::super::document::{figures, words};
    use super::*;

    #[test]
    fn columns_line_up_by_what_is_seen() {
        let mut table = Table::new(vec![words("name"), figures("g")]);
        table.row(vec![Cell::of("はちみつ"), Cell::of("1.25")]);
        table.row(vec![Cell::of("cre\u{300}me"), Cell::of("12.50")]);
        table.sum(vec![Cell::Empty, Cell::of("13.75")]);
        assert_eq!(
            render(&[Block::Table(table)]),
            "  name          g\n  はちみつ   1.25\n  cre\u{300}me     12.50\n            -----\n            13.75\n"
        );
    }

    #[test]
    fn nothing_passes_the_width() {
        let long = format!("{} {}", "word ".repeat(60), "x".repeat(300));
        let mut table = Table::new(vec![words("name"), words("also"), figures("g")]);
        table.row(vec![Cell::of(long.as_str()), Cell::of("y".repeat(200)), Cell::of("1.25")]);
        let item = || vec![long.clone()];
        let blocks = [
            Block::Title(long.clone()),
            Block::Subheading(long.clone()),
            Block::List(item()),
            Block::Numbered(item()),
            Block::Table(table),
        ];
        let text = render(&blocks);
        assert!(text.lines().all(|line| width(line) <= WIDTH), "{text}");
        assert_eq!(text.matches('x').count(), 4 * 300 + 300);
    }
}
