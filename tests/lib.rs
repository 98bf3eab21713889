//! Conformance tests of Lamella.

pub mod oracle;
