//! The WebAssembly face of Lamella.
