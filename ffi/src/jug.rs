//! Jugs.

use lamella::quantity::Mass;

use crate::boundary::boundary;
use crate::handle;
use crate::number::{lamella_mass, lamella_share, trillionths};
use crate::plan::{item, lamella_plan};
use crate::pointer;
use crate::status::lamella_status;
use crate::text::lamella_str;

/// A jug: the vessel of the mixture of one layer or more. The view lives as long as the plan.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
#[expect(clippy::exhaustive_structs, reason = "its layout is part of the ABI; what is new comes at its end")]
pub struct lamella_jug {
    /// What it is called.
    pub name: lamella_str,
    /// How many layers are poured from it; see lamella_plan_jug_layer.
    pub layers: usize,
    /// Index of the scale that it stands on.
    pub scale: usize,
    /// 1 when its own mass is known, else 0.
    pub has_tare: u64,
    /// Its own mass; nought when it is not known.
    pub tare: lamella_mass,
    /// What it gets from the pot, in whole steps.
    pub portion: lamella_mass,
    /// The same at full precision.
    pub portion_ideal: lamella_mass,
    /// What it gets of the lye, in whole steps.
    pub lye: lamella_mass,
    /// The same at full precision.
    pub lye_ideal: lamella_mass,
    /// Pure alkali dissolved in that lye.
    pub alkali: lamella_mass,
    /// Water in that lye.
    pub lye_water: lamella_mass,
    /// All that is in it before the first pour.
    pub net: lamella_mass,
    /// What the scale then shows with it.
    pub gross: lamella_mass,
    /// What stays in it after the last pour.
    pub left: lamella_mass,
    /// Superfat of what is weighed; below nought it is lye-heavy.
    pub superfat: lamella_share,
    /// Superfat at full precision.
    pub superfat_ideal: lamella_share,
}

/// How many jugs a plan has. Nought for NULL and for what is no plan.
#[unsafe(no_mangle)]
pub extern "C" fn lamella_plan_jug_count(plan: *const lamella_plan) -> usize {
    handle::get(plan).map_or(0, |planned| planned.plan.jugs.len())
}

/// Writes a jug, counted from nought in the order of their first pour, to `out`; `size` is sizeof *out.
///
/// LAMELLA_INDEX when there is none.
///
/// # Safety
/// `out` is writable for `size` bytes.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_jug(
    plan: *const lamella_plan,
    jug: usize,
    out: *mut lamella_jug,
    size: usize,
) -> lamella_status {
    boundary(|| {
        let planned = handle::get(plan)?;
        let jug = item(&planned.plan.jugs, jug)?;
        let value = lamella_jug {
            name: lamella_str::new(&jug.name),
            layers: jug.layers.len(),
            scale: jug.portion.scale,
            has_tare: u64::from(jug.tare.is_some()),
            tare: trillionths(jug.tare.unwrap_or(Mass::ZERO))?,
            portion: trillionths(jug.portion.weighed)?,
            portion_ideal: trillionths(jug.portion.ideal)?,
            lye: trillionths(jug.lye.weighed)?,
            lye_ideal: trillionths(jug.lye.ideal)?,
            alkali: trillionths(jug.alkali)?,
            lye_water: trillionths(jug.lye_water)?,
            net: trillionths(jug.net)?,
            gross: trillionths(jug.gross)?,
            left: trillionths(jug.left)?,
            superfat: trillionths(jug.superfat)?,
            superfat_ideal: trillionths(jug.superfat_ideal)?,
        };
        // SAFETY: the caller vouches for `size` bytes.
        unsafe { pointer::fill(out, size, value) }
    })
}

/// Sets `*out` to the index of a layer that is poured from a jug: the `index`th of them, counted from nought in pour
/// order.
///
/// LAMELLA_INDEX when there is no such jug, or it has fewer layers.
///
/// # Safety
/// `out` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_jug_layer(
    plan: *const lamella_plan,
    jug: usize,
    index: usize,
    out: *mut usize,
) -> lamella_status {
    boundary(|| {
        // SAFETY: the caller hands over NULL or somewhere to write.
        let out = unsafe { pointer::needed(out) }?;
        let planned = handle::get(plan)?;
        out.put(*item(&item(&planned.plan.jugs, jug)?.layers, index)?);
        Ok(())
    })
}
