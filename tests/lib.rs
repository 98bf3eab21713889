//! Conformance tests of Lamella.

pub mod draw;
pub mod published;
pub mod substance;
