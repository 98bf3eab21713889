//! What every paper says first of a batch with layers on hold.

use super::document::Block;
use crate::batch::{HOLD_ADVICE, Hold};

/// Which layers are on hold, why, and what to do; nothing when none is.
pub(crate) fn notice(holds: &[Hold], blocks: &mut Vec<Block>) {
    if holds.is_empty() {
        return;
    }
    blocks.push(Block::Heading("On hold: not to be used, sold or given away"));
    blocks.push(Block::List(holds.iter().map(|hold| format!("“{}”: {}", hold.layer, hold.why())).collect()));
    blocks.push(Block::Paragraph(format!("To do: {HOLD_ADVICE}.")));
}
