//! Layers and what is poured for them.

use crate::boundary::boundary;
use crate::handle;
use crate::number::{lamella_length, lamella_mass, lamella_volume, trillionths};
use crate::plan::{item, lamella_plan};
use crate::pointer;
use crate::status::lamella_status;
use crate::text::lamella_str;

/// A layer of the bar. The views live as long as the plan.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
#[expect(clippy::exhaustive_structs, reason = "its layout is part of the ABI; what is new comes at its end")]
pub struct lamella_layer {
    /// What it is called.
    pub name: lamella_str,
    /// How it looks, "#rrggbb", for drawing.
    pub swatch: lamella_str,
    /// Index of the jug that it is poured from.
    pub jug: usize,
    /// In how many moulds it has a height; see lamella_plan_height.
    pub heights: usize,
    /// Volume of its portion.
    pub volume: lamella_volume,
}

/// How many layers a plan has. Nought for NULL and for what is no plan.
#[unsafe(no_mangle)]
pub extern "C" fn lamella_plan_layer_count(plan: *const lamella_plan) -> usize {
    handle::get(plan).map_or(0, |planned| planned.plan.layers.len())
}

/// Writes a layer, counted from nought from the bottom, which is the order of pouring, to `out`; `size` is sizeof *out.
///
/// LAMELLA_INDEX when there is none.
///
/// # Safety
/// `out` is writable for `size` bytes.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_layer(
    plan: *const lamella_plan,
    layer: usize,
    out: *mut lamella_layer,
    size: usize,
) -> lamella_status {
    boundary(|| {
        let planned = handle::get(plan)?;
        let layer = item(&planned.plan.layers, layer)?;
        let value = lamella_layer {
            name: lamella_str::new(&layer.name),
            swatch: lamella_str::new(&layer.swatch),
            jug: layer.jug,
            heights: layer.heights.len(),
            volume: trillionths(layer.volume)?,
        };
        // SAFETY: the caller vouches for `size` bytes.
        unsafe { pointer::fill(out, size, value) }
    })
}

/// What is weighed out of a jug for one layer, by difference: pour until the scale shows `after`.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
#[expect(clippy::exhaustive_structs, reason = "its layout is part of the ABI; what is new comes at its end")]
pub struct lamella_portion {
    /// Index of the jug.
    pub jug: usize,
    /// Index of the scale that the jug stands on.
    pub scale: usize,
    /// What is poured: before - after, a whole number of steps.
    pub mass: lamella_mass,
    /// What the scale shows with the jug on it before the pour. A jug whose own mass is not known counts as nought.
    pub before: lamella_mass,
    /// What it shows after the pour.
    pub after: lamella_mass,
}

/// Writes the portion of a layer, with the readings of its jug, to `out`; `size` is sizeof *out.
///
/// LAMELLA_INDEX when there is no such layer.
///
/// # Safety
/// `out` is writable for `size` bytes.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_portion(
    plan: *const lamella_plan,
    layer: usize,
    out: *mut lamella_portion,
    size: usize,
) -> lamella_status {
    boundary(|| {
        let planned = handle::get(plan)?;
        let layer = item(&planned.plan.layers, layer)?;
        let value = lamella_portion {
            jug: layer.jug,
            scale: item(&planned.plan.jugs, layer.jug)?.portion.scale,
            mass: trillionths(layer.portion)?,
            before: trillionths(layer.reading.before)?,
            after: trillionths(layer.reading.after)?,
        };
        // SAFETY: the caller vouches for `size` bytes.
        unsafe { pointer::fill(out, size, value) }
    })
}

/// Where a layer lies in a mould.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
#[expect(clippy::exhaustive_structs, reason = "its layout is part of the ABI; what is new comes at its end")]
pub struct lamella_height {
    /// Index of the mould.
    pub mould: usize,
    /// Lower face, above the bottom of the mould.
    pub from: lamella_length,
    /// Upper face.
    pub to: lamella_length,
}

/// Writes a height of a layer, counted from nought, to `out`; `size` is sizeof *out. A layer that does not fit into a
/// mould has none there.
///
/// LAMELLA_INDEX when there is no such layer, or no such height.
///
/// # Safety
/// `out` is writable for `size` bytes.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_height(
    plan: *const lamella_plan,
    layer: usize,
    index: usize,
    out: *mut lamella_height,
    size: usize,
) -> lamella_status {
    boundary(|| {
        let planned = handle::get(plan)?;
        let height = item(&item(&planned.plan.layers, layer)?.heights, index)?;
        let value = lamella_height {
            mould: height.mould,
            from: trillionths(height.from)?,
            to: trillionths(height.to)?,
        };
        // SAFETY: the caller vouches for `size` bytes.
        unsafe { pointer::fill(out, size, value) }
    })
}
