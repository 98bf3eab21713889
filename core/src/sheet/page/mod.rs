//! What stands on a sheet, from top to bottom.

mod bar;
mod bench;
mod first;
mod lye;
mod pour;
mod print;
mod work;

pub(super) use first::safety_lines;
pub(crate) use lye::LyeWords;
pub(super) use lye::words as lye_words;
pub(super) use print::{grams, length, percent};
pub(super) use work::said;

use super::{Sheet, document::Block};

/// The whole sheet. Safety comes first, and always.
pub(super) fn blocks(sheet: &Sheet<'_>) -> Vec<Block> {
    let plan = sheet.plan;
    let mut blocks = Vec::new();
    first::title(plan, &mut blocks);
    super::held::notice(&plan.holds, &mut blocks);
    first::safety(plan, &mut blocks);
    first::glance(sheet, &mut blocks);
    first::cautions(plan, &mut blocks);
    bench::pot(sheet, &mut blocks);
    bench::lye(sheet, &mut blocks);
    bench::jugs(sheet, &mut blocks);
    pour::pours(sheet, &mut blocks);
    work::order(sheet, &mut blocks);
    bar::makeup(sheet, &mut blocks);
    bar::fats(plan, &mut blocks);
    bar::check(plan, &mut blocks);
    blocks
}
