//! A sheet before it is text or Markdown: headings, paragraphs, lists and tables.

use std::borrow::Cow;

use serde::Serialize;

/// One thing on a sheet, from top to bottom.
#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case", tag = "is", content = "of")]
pub(crate) enum Block {
    /// The name of the batch.
    Title(String),
    Heading(&'static str),
    Subheading(String),
    Paragraph(String),
    List(Vec<String>),
    Numbered(Vec<String>),
    Table(Table),
}

/// Rows under common columns.
#[derive(Debug, Serialize)]
pub(crate) struct Table {
    pub(crate) columns: Vec<Column>,
    pub(crate) rows: Vec<Row>,
}

/// A column; one without a title is understood without.
#[derive(Debug, Serialize)]
pub(crate) struct Column {
    pub(crate) title: Cow<'static, str>,
    pub(crate) align: Align,
}

/// Words stand left and may be wrapped, figures stand right and are kept whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Align {
    Words,
    Figures,
}

#[derive(Debug, Serialize)]
pub(crate) struct Row {
    pub(crate) cells: Vec<Cell>,
    /// Whether it sums up the rows above.
    pub(crate) sum: bool,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Cell {
    Empty,
    /// A box to tick when it is done.
    Tick,
    Text(String),
}

impl Cell {
    pub(crate) fn of(text: impl Into<String>) -> Self {
        Self::Text(text.into())
    }
}

pub(crate) fn words(title: impl Into<Cow<'static, str>>) -> Column {
    Column { title: title.into(), align: Align::Words }
}

pub(crate) fn figures(title: impl Into<Cow<'static, str>>) -> Column {
    Column { title: title.into(), align: Align::Figures }
}

impl Table {
    pub(crate) const fn new(columns: Vec<Column>) -> Self {
        Self { columns, rows: Vec::new() }
    }

    pub(crate) fn row(&mut self, cells: Vec<Cell>) {
        self.rows.push(Row { cells, sum: false });
    }

    pub(crate) fn sum(&mut self, cells: Vec<Cell>) {
        self.rows.push(Row { cells, sum: true });
    }

    /// Names with what they stand for.
    pub(crate) fn pairs(pairs: Vec<(&str, String)>) -> Self {
        let mut table = Self::new(vec![words(""), words("")]);
        for (name, value) in pairs {
            table.row(vec![Cell::of(name), Cell::of(value)]);
        }
        table
    }
}

/// A sheet in its parts, for a screen that sets them itself. Written with serde it is a `page/1` document.
#[derive(Debug, Serialize)]
pub struct Page {
    /// Which document this is: `page/1`.
    lamella: &'static str,
    /// Its parts, from top to bottom.
    blocks: Vec<Block>,
}

impl Page {
    pub(crate) const fn of(blocks: Vec<Block>) -> Self {
        Self { lamella: "page/1", blocks }
    }

    /// As its `page/1` document, ending in a newline.
    ///
    /// # Errors
    /// None that a page can bring about; the signature is that of the writer.
    pub fn to_json(&self) -> Result<String, serde_json::Error> {
        crate::json::document(self)
    }
}

/// Text as a sheet can carry it: a control character, or one that turns the direction of what follows and so could
/// make figures read otherwise than they stand, becomes a replacement character.
pub(crate) fn clean(text: &str) -> String {
    let harmless = |letter: char| match letter {
        '\t' | '\n' | '\r' => ' ',
        '\u{2028}' | '\u{2029}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' => '\u{fffd}',
        control if control.is_control() => '\u{fffd}',
        other => other,
    };
    text.chars().map(harmless).collect()
}
