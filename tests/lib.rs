//! Conformance tests of Lamella.
