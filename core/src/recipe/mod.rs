//! What a maker writes down: so far the moulds.

pub mod mould;
