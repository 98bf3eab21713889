//! A plan on paper: so far the drawing of a bar in its mould.

pub mod section;
