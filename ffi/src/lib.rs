//! The C ABI of Lamella.
