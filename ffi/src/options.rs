//! What a caller may decide about documents.

use std::mem::size_of;

use lamella::recipe::Limits;

use crate::boundary::boundary;
use crate::pointer;
use crate::status::lamella_status;

/// Limits on the documents that are read. A caller who takes documents of strangers may ask for less than the defaults,
/// which are the most that the format allows; more is LAMELLA_OPTION. Fill one with lamella_options_init, then change
/// what is to differ. Where options are asked for, NULL stands for the defaults.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
#[expect(clippy::exhaustive_structs, reason = "its layout is part of the ABI; what is new comes at its end")]
pub struct lamella_options {
    /// sizeof of this struct, as the caller's header has it.
    pub size: usize,
    /// Most bytes of a document: 1 048 576. A longer one is refused before it is read.
    pub document_bytes: usize,
    /// Most layers: 200.
    pub layers: usize,
    /// Most fats, liquids, doses, colours and scents together: 10 000.
    pub materials: usize,
}

impl Default for lamella_options {
    fn default() -> Self {
        let Limits { document_bytes, layers, materials } = Limits::default();
        Self { size: size_of::<Self>(), document_bytes, layers, materials }
    }
}

/// Writes the defaults to `options`; `size` is sizeof *options.
///
/// # Safety
/// `options` is writable for `size` bytes.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_options_init(options: *mut lamella_options, size: usize) -> lamella_status {
    boundary(|| {
        let value = lamella_options { size, ..lamella_options::default() };
        // SAFETY: the caller vouches for `size` bytes.
        unsafe { pointer::fill(options, size, value) }
    })
}

/// The limits that a caller asks for.
///
/// # Safety
/// Unless NULL, `options` must be readable for as many bytes as it says.
pub(crate) unsafe fn limits(options: *const lamella_options) -> Result<Limits, lamella_status> {
    let most = lamella_options::default();
    // SAFETY: the caller vouches for as many bytes as it says.
    let asked = unsafe { pointer::sized(options, most) }?;
    let lamella_options { size: _, document_bytes, layers, materials } = asked;
    if document_bytes > most.document_bytes || layers > most.layers || materials > most.materials {
        return Err(lamella_status::LAMELLA_OPTION);
    }
    Ok(Limits { document_bytes, layers, materials })
}
