//! The C ABI of Lamella: `include/lamella.h` is generated from this crate, and its comments are the manual of the C user.
//!
//! In: bytes of documents. Out: a status, and texts that the caller frees. Nothing is computed here; `handle` holds the
//! casts and the boundary that no panic crosses, the other files one function after the other.
#![expect(
    unsafe_code,
    reason = "a C caller hands over raw pointers; each block names the duty of the caller"
)]
#![expect(non_camel_case_types, reason = "a type is called here as it is called in the header")]

mod handle;
mod plan;
mod status;
mod text;
mod version;

pub use plan::lamella_plan_json;
pub use status::{lamella_status, lamella_status_text};
pub use text::{lamella_text, lamella_text_data, lamella_text_free, lamella_text_len};
pub use version::{LAMELLA_ABI_VERSION, lamella_abi_version, lamella_version};
