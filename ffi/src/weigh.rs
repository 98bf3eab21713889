//! The weigh list, and the scales that it is weighed on.

use lamella::batch::{Vessel, WeighKind};

use crate::boundary::boundary;
use crate::handle;
use crate::number::{lamella_mass, trillionths};
use crate::plan::{index_or_none, item, lamella_plan};
use crate::pointer;
use crate::status::lamella_status;
use crate::text::lamella_str;

/// What something is weighed into. New ones may come.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(clippy::exhaustive_enums, reason = "it is only ever returned to C, which takes it for a number")]
pub enum lamella_vessel {
    /// Something that this header does not know.
    LAMELLA_VESSEL_OTHER = 0,
    /// The pot of fats.
    LAMELLA_VESSEL_POT = 1,
    /// The vessel of the lye.
    LAMELLA_VESSEL_LYE = 2,
    /// A jug.
    LAMELLA_VESSEL_JUG = 3,
}

/// What a line of the weigh list is. New ones may come.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(clippy::exhaustive_enums, reason = "it is only ever returned to C, which takes it for a number")]
pub enum lamella_weigh_kind {
    /// Something that this header does not know.
    LAMELLA_WEIGH_OTHER = 0,
    /// A fat of the pot.
    LAMELLA_WEIGH_FAT = 1,
    /// A dose that goes in before the lye: into the pot, the lye or a jug.
    LAMELLA_WEIGH_DOSE = 2,
    /// An alkali.
    LAMELLA_WEIGH_ALKALI = 3,
    /// Plain water.
    LAMELLA_WEIGH_WATER = 4,
    /// A liquid in place of water.
    LAMELLA_WEIGH_LIQUID = 5,
    /// What a jug gets from the pot.
    LAMELLA_WEIGH_FROM_POT = 6,
    /// What a jug gets of the lye.
    LAMELLA_WEIGH_FROM_LYE = 7,
    /// A fat that goes in after the cook.
    LAMELLA_WEIGH_HELD = 8,
    /// A dose that goes in last.
    LAMELLA_WEIGH_LATE_DOSE = 9,
}

/// A line of the weigh list. The views live as long as the plan.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
#[expect(clippy::exhaustive_structs, reason = "its layout is part of the ABI; what is new comes at its end")]
pub struct lamella_weigh {
    /// Id of the material, such as "olive-oil"; "pot" and "lye" for what a jug gets of these.
    pub id: lamella_str,
    /// Its name.
    pub name: lamella_str,
    /// JSON Pointer to the line of the recipe that asks for it; empty for what a jug gets of pot and lye.
    pub pointer: lamella_str,
    /// In whole steps of its scale: what to weigh.
    pub weighed: lamella_mass,
    /// At full precision.
    pub ideal: lamella_mass,
    /// Index of its scale.
    pub scale: usize,
    /// Index of its jug; LAMELLA_NONE when it is not weighed into a jug.
    pub jug: usize,
    /// What it is weighed into.
    pub vessel: lamella_vessel,
    /// What it is.
    pub kind: lamella_weigh_kind,
}

/// How many lines the weigh list of a plan has. Nought for NULL and for what is no plan.
#[unsafe(no_mangle)]
pub extern "C" fn lamella_plan_weigh_count(plan: *const lamella_plan) -> usize {
    handle::get(plan).map_or(0, |planned| planned.weigh.len())
}

/// Writes a line of the weigh list, counted from nought, to `out`; `size` is sizeof *out. First comes the lye, then the
/// pot, then jug by jug what goes into it, each in the order of the work.
///
/// LAMELLA_INDEX when there is none.
///
/// # Safety
/// `out` is writable for `size` bytes.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_weigh(
    plan: *const lamella_plan,
    index: usize,
    out: *mut lamella_weigh,
    size: usize,
) -> lamella_status {
    boundary(|| {
        let planned = handle::get(plan)?;
        let place = *item(&planned.weigh, index)?;
        let line = planned.plan.weigh_line(place).ok_or(lamella_status::LAMELLA_INTERNAL)?;
        let (vessel, jug) = vessel(place.vessel);
        let value = lamella_weigh {
            id: lamella_str::new(line.id),
            name: lamella_str::new(line.name),
            pointer: lamella_str::new(line.pointer),
            weighed: trillionths(line.weighed)?,
            ideal: trillionths(line.ideal)?,
            scale: line.scale,
            jug: index_or_none(jug),
            vessel,
            kind: kind(place.kind),
        };
        // SAFETY: the caller vouches for `size` bytes.
        unsafe { pointer::fill(out, size, value) }
    })
}

fn vessel(vessel: Vessel) -> (lamella_vessel, Option<usize>) {
    match vessel {
        Vessel::Pot => (lamella_vessel::LAMELLA_VESSEL_POT, None),
        Vessel::Lye => (lamella_vessel::LAMELLA_VESSEL_LYE, None),
        Vessel::Jug(jug) => (lamella_vessel::LAMELLA_VESSEL_JUG, Some(jug)),
        _ => (lamella_vessel::LAMELLA_VESSEL_OTHER, None),
    }
}

fn kind(kind: WeighKind) -> lamella_weigh_kind {
    match kind {
        WeighKind::Fat => lamella_weigh_kind::LAMELLA_WEIGH_FAT,
        WeighKind::Dose => lamella_weigh_kind::LAMELLA_WEIGH_DOSE,
        WeighKind::Alkali => lamella_weigh_kind::LAMELLA_WEIGH_ALKALI,
        WeighKind::Water => lamella_weigh_kind::LAMELLA_WEIGH_WATER,
        WeighKind::Liquid => lamella_weigh_kind::LAMELLA_WEIGH_LIQUID,
        WeighKind::FromPot => lamella_weigh_kind::LAMELLA_WEIGH_FROM_POT,
        WeighKind::FromLye => lamella_weigh_kind::LAMELLA_WEIGH_FROM_LYE,
        WeighKind::Held => lamella_weigh_kind::LAMELLA_WEIGH_HELD,
        WeighKind::LateDose => lamella_weigh_kind::LAMELLA_WEIGH_LATE_DOSE,
        _ => lamella_weigh_kind::LAMELLA_WEIGH_OTHER,
    }
}

/// A scale of the workshop. The view lives as long as the plan.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
#[expect(clippy::exhaustive_structs, reason = "its layout is part of the ABI; what is new comes at its end")]
pub struct lamella_scale {
    /// What the maker calls it.
    pub name: lamella_str,
    /// Smallest difference that it shows.
    pub step: lamella_mass,
    /// Most that it carries.
    pub capacity: lamella_mass,
}

/// How many scales a plan has. Nought for NULL and for what is no plan.
#[unsafe(no_mangle)]
pub extern "C" fn lamella_plan_scale_count(plan: *const lamella_plan) -> usize {
    handle::get(plan).map_or(0, |planned| planned.plan.scales.len())
}

/// Writes a scale, counted from nought, the finest first, to `out`; `size` is sizeof *out.
///
/// LAMELLA_INDEX when there is none.
///
/// # Safety
/// `out` is writable for `size` bytes.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_scale(
    plan: *const lamella_plan,
    index: usize,
    out: *mut lamella_scale,
    size: usize,
) -> lamella_status {
    boundary(|| {
        let planned = handle::get(plan)?;
        let scale = item(&planned.plan.scales, index)?;
        let value = lamella_scale {
            name: lamella_str::new(&scale.name),
            step: trillionths(scale.step)?,
            capacity: trillionths(scale.capacity)?,
        };
        // SAFETY: the caller vouches for `size` bytes.
        unsafe { pointer::fill(out, size, value) }
    })
}
