//! What stands on a sheet, from top to bottom.

mod bar;
mod bench;
mod first;
mod pour;
mod print;
mod work;

pub(super) use first::safety_lines;
pub(super) use print::{grams, millimetres, percent};
pub(super) use work::said;

use super::document::Block;
use crate::batch::Plan;

/// The whole sheet. Safety comes first, and always.
pub(super) fn blocks(plan: &Plan) -> Vec<Block> {
    let mut blocks = Vec::new();
    first::title(plan, &mut blocks);
    first::safety(plan, &mut blocks);
    first::glance(plan, &mut blocks);
    first::cautions(plan, &mut blocks);
    bench::pot(plan, &mut blocks);
    bench::lye(plan, &mut blocks);
    bench::jugs(plan, &mut blocks);
    pour::pours(plan, &mut blocks);
    work::order(plan, &mut blocks);
    bar::makeup(plan, &mut blocks);
    bar::fats(plan, &mut blocks);
    bar::check(plan, &mut blocks);
    blocks
}
