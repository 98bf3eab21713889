//! Conformance tests of Lamella.

pub mod published;
pub mod substance;
