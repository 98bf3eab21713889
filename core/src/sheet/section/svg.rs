//! Text and places of a drawing: escaping, how broad words are, labels that keep apart.

use crate::quantity::{Exact, fixed};

pub(crate) const TITLE_SIZE: i64 = 18;
pub(crate) const NAME_SIZE: i64 = 14;
pub(crate) const NOTE_SIZE: i64 = 11;

pub(crate) const SERIF: &str = "Georgia, 'Iowan Old Style', 'Times New Roman', serif";
pub(crate) const SANS: &str = "'Helvetica Neue', Helvetica, Arial, sans-serif";

pub(crate) fn text(x: Exact, y: Exact, size: i64, family: &str, words: &str) -> String {
    let faint = if size == NOTE_SIZE { r#" fill-opacity="0.75""# } else { "" };
    format!(
        r#"<text x="{}" y="{}" font-family="{family}" font-size="{size}" fill="currentColor"{faint}>{}</text>"#,
        n(x),
        n(y),
        escape(words)
    )
}

/// About how broad a text is set: a little over half its size a letter, and its whole size for what is not Latin.
pub(crate) fn breadth(words: &str, size: i64) -> Exact {
    let letters = words.chars().map(|letter| if u32::from(letter) < 0x250 { 56 } else { 100 });
    Exact::from(letters.fold(0_i64, i64::saturating_add)) * Exact::from(size) / Exact::HUNDRED
}

/// At most `length` characters, with an ellipsis where some were left off.
pub(crate) fn cut(words: &str, length: usize) -> String {
    if words.chars().count() <= length {
        return words.to_owned();
    }
    let kept: String = words.chars().take(length.saturating_sub(1)).collect();
    format!("{}…", kept.trim_end())
}

/// Places at least `apart` from each other, between `top` and `bottom`, in the order of `wanted` and as near to it as
/// can be: labels that would overlap form a block, and a block stands where its members on average want to be.
pub(crate) fn spread(wanted: &[Exact], apart: Exact, top: Exact, bottom: Exact) -> Vec<Exact> {
    // A member's wish for the first place of its block; blocks merge while a later one would stand above an earlier.
    let mut blocks: Vec<(Exact, usize)> = Vec::new();
    for (index, place) in wanted.iter().enumerate() {
        let mut block = (*place - apart * Exact::count(index), 1_usize);
        while let Some((sum, members)) = blocks.last().copied() {
            if (block.0 * Exact::count(members) - sum * Exact::count(block.1)).is_positive() {
                break;
            }
            block = (block.0 + sum, block.1.saturating_add(members));
            blocks.pop();
        }
        blocks.push(block);
    }
    let last = bottom - apart * Exact::count(wanted.len().saturating_sub(1));
    let starts = blocks.into_iter().flat_map(|(sum, members)| {
        let start = (sum / Exact::count(members)).min(last).max(top);
        std::iter::repeat_n(start, members)
    });
    starts.enumerate().map(|(index, start)| start + apart * Exact::count(index)).collect()
}

/// Text as XML carries it. What XML has no place for becomes a replacement character.
pub(crate) fn escape(words: &str) -> String {
    let mut out = String::with_capacity(words.len());
    for letter in words.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            '\t' | '\n' | '\r' => out.push(' '),
            '\u{fffe}' | '\u{ffff}' => out.push('\u{fffd}'),
            control if control.is_control() => out.push('\u{fffd}'),
            other => out.push(other),
        }
    }
    out
}

/// A coordinate.
pub(crate) fn n(value: Exact) -> String {
    fixed(value.decimal().unwrap_or_default(), 2)
}
