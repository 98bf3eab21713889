//! Bars out of a block.

use serde::Serialize;

use crate::quantity::{Exact, Length};

/// A block, or one direction of it, and how it is cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Block {
    /// How long it is.
    pub length: Length,
    /// How long a bar is along it.
    pub bar: Length,
    /// What a cut takes away: nought for a wire or a blade.
    pub kerf: Length,
    /// What is trimmed off at each end; nought for none.
    pub end: Length,
}

/// What a block gives.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Bars {
    /// How many bars.
    pub count: i64,
    /// How many cuts, those of the ends included.
    pub cuts: i64,
    /// What is left over beside bars, cuts and ends.
    pub rest: Length,
}

/// Counts the bars of a block: between the trimmed ends, n bars and the n - 1 cuts between them. Each trimmed end takes a
/// cut of its own; what is left over is one more piece and, where it is longer than a cut, one more cut. Nothing when a
/// length is negative or the bar has none.
///
/// ```
/// use lamella::market::net::{bars, Block};
/// let length = |text: &str| text.parse().unwrap();
/// let block = Block { length: length("250 mm"), bar: length("25 mm"), kerf: length("1 mm"), end: length("3 mm") };
/// let found = bars(&block).unwrap();
/// // 250 - 2 x (3 + 1) = 242 mm; 9 bars and 8 cuts take 233 mm, ten would take 259 mm.
/// assert_eq!((found.count, found.rest.to_string()), (9, "9 mm".to_owned()));
/// ```
#[must_use]
pub fn bars(block: &Block) -> Option<Bars> {
    let Block { length, bar, kerf, end } = *block;
    if !bar.exact().is_positive() || [length, kerf, end].iter().any(|part| part.exact().is_negative()) {
        return None;
    }
    let trims: i64 = if end.is_zero() { 0 } else { 2 };
    let ends = Exact::from(trims) * (end.exact() + kerf.exact());
    let room = length.exact() - ends;
    let count = if room.is_negative() {
        0
    } else {
        ((room + kerf.exact()) / (bar.exact() + kerf.exact())).whole_steps(Exact::ONE)?
    };
    let between = count.saturating_sub(1).max(0);
    let used = Exact::from(count) * bar.exact() + Exact::from(between) * kerf.exact();
    let rest = (room - used).max(Exact::ZERO);
    let last = i64::from(count > 0 && (rest - kerf.exact()).is_positive());
    let cuts = between.saturating_add(trims).saturating_add(last);
    Some(Bars { count, cuts, rest: Length::try_new(rest).ok()? })
}
