//! Bad documents.
