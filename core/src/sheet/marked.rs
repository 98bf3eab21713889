//! A sheet as Markdown: CommonMark with tables.

use super::document::{Align, Block, Cell, Row, Table, clean};

pub(crate) fn render(blocks: &[Block]) -> String {
    let mut parts: Vec<String> = Vec::with_capacity(blocks.len());
    for block in blocks {
        parts.push(match block {
            Block::Title(text) => format!("# {}", escape(text)),
            Block::Heading(text) => format!("## {}", escape(text)),
            Block::Subheading(text) => format!("### {}", escape(text)),
            Block::Paragraph(text) => start(&escape(text)),
            Block::List(items) => {
                let lines: Vec<String> =
                    items.iter().map(|item| format!("- {}", start(&escape(item)))).collect();
                lines.join("\n")
            }
            Block::Numbered(items) => {
                let line = |(index, item): (usize, &String)| {
                    format!("{}. {}", index.saturating_add(1), start(&escape(item)))
                };
                items.iter().enumerate().map(line).collect::<Vec<_>>().join("\n")
            }
            Block::Table(table) => self::table(table),
        });
    }
    parts.join("\n\n") + "\n"
}

fn table(table: &Table) -> String {
    let line = |cells: Vec<String>| format!("| {} |", cells.join(" | "));
    let titles = table.columns.iter().map(|column| escape(&column.title)).collect();
    let marks = table.columns.iter().map(|column| match column.align {
        Align::Words => "---".to_owned(),
        Align::Figures => "---:".to_owned(),
    });
    let mut lines = vec![line(titles), line(marks.collect())];
    lines.extend(table.rows.iter().map(|row| line(cells(row))));
    lines.join("\n")
}

fn cells(row: &Row) -> Vec<String> {
    let shown = |cell: &Cell| match cell {
        Cell::Empty => String::new(),
        Cell::Tick => "☐".to_owned(),
        Cell::Text(text) if text.is_empty() => String::new(),
        Cell::Text(text) if row.sum => format!("**{}**", escape(text)),
        Cell::Text(text) => escape(text),
    };
    row.cells.iter().map(shown).collect()
}

/// Text that stands for itself in Markdown and in the HTML that is made of it.
fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in clean(text).trim().chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '\\' | '`' | '*' | '_' | '[' | ']' | '|' | '#' | '~' | '!' | '$' | '{' | '}' => {
                out.push('\\');
                out.push(letter);
            }
            other => out.push(other),
        }
    }
    out
}

/// A line that does not begin like a list, whatever its first word is.
fn start(line: &str) -> String {
    let digits = line.chars().take_while(char::is_ascii_digit).count();
    let (number, rest) = line.split_at_checked(digits).unwrap_or(("", line));
    // A number and a full stop or bracket, or a hyphen, plus or equals sign.
    let marks: &[char] = if number.is_empty() { &['-', '+', '='] } else { &['.', ')'] };
    if rest.starts_with(marks) { format!("{number}\\{rest}") } else { line.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::super::document::words;
    use super::*;

    #[test]
    fn names_stand_for_themselves() {
        let name = "<b>*Honey* | [oats](x) & `rye`_1_";
        let mut table = Table::new(vec![words("name")]);
        table.row(vec![Cell::of(name)]);
        let text = render(&[Block::Table(table)]);
        assert_eq!(
            text,
            "| name |\n| --- |\n| &lt;b&gt;\\*Honey\\* \\| \\[oats\\](x) &amp; \\`rye\\`\\_1\\_ |\n"
        );
    }

    #[test]
    fn a_paragraph_is_no_list() {
        for (given, wanted) in [
            ("1. rest", "1\\. rest"),
            ("- rest", "\\- rest"),
            ("10) rest", "10\\) rest"),
            ("1.5 g", "1\\.5 g"),
        ] {
            assert_eq!(render(&[Block::Paragraph(given.to_owned())]), format!("{wanted}\n"));
        }
    }

    #[test]
    fn nothing_turns_the_direction() {
        assert_eq!(render(&[Block::Paragraph("12\u{202e}34\u{7}".to_owned())]), "12\u{fffd}34\u{fffd}\n");
    }
}
