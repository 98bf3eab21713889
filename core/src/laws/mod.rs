//! Laws of a plan. (draft)

#[cfg(feature = "proptest")]
pub mod strategy;
