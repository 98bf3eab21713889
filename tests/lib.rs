//! Conformance tests of Lamella: its own laws, published values, documents good and bad, and its faces in C and JS.

pub mod oracle;

/// The README's Rust blocks run as documentation tests of this package.
#[cfg(doctest)]
#[doc = include_str!("../README.md")]
pub struct Readme;
