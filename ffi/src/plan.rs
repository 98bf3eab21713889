//! Plans.

use std::ffi::c_char;
use std::sync::{Arc, OnceLock};

use lamella::batch::WeighPlace;
use lamella::certainty::Certainty;
use lamella::recipe::Recipe;
use lamella::{Failure, Plan};

use crate::boundary::{boundary, reported, told};
use crate::handle::{self, Handle};
use crate::number::{lamella_mass, lamella_share, lamella_volume, trillionths};
use crate::pointer;
use crate::recipe::lamella_recipe;
use crate::report::lamella_report;
use crate::status::lamella_status;
use crate::text::{self, lamella_text};

/// A batch, planned. It does not change: any number of threads may use it. Free it with lamella_plan_free.
#[derive(Debug)]
pub struct lamella_plan;

/// A plan with the recipe that it was made of, and the places of its weigh list.
#[derive(Debug)]
pub(crate) struct Planned {
    pub(crate) recipe: Arc<Recipe>,
    pub(crate) plan: Plan,
    pub(crate) weigh: Vec<WeighPlace>,
    /// How sure its superfats are, once somebody asked.
    pub(crate) certainty: OnceLock<Option<Certainty>>,
}

impl Planned {
    pub(crate) fn new(recipe: Arc<Recipe>, plan: Plan) -> Self {
        Self { weigh: plan.weigh_places(), recipe, plan, certainty: OnceLock::new() }
    }
}

impl Handle for lamella_plan {
    type Inner = Planned;
}

/// The item of an index.
pub(crate) fn item<T>(items: &[T], index: usize) -> Result<&T, lamella_status> {
    items.get(index).ok_or(lamella_status::LAMELLA_INDEX)
}

/// An index, or LAMELLA_NONE.
pub(crate) fn index_or_none(index: Option<usize>) -> usize {
    index.unwrap_or(usize::MAX)
}

/// Plans a batch of a recipe and sets `*out` to the plan; free it with lamella_plan_free. The recipe may be freed before
/// it.
///
/// LAMELLA_PROBLEMS when the recipe cannot be planned: then `*report`, unless `report` is NULL, is set to what keeps it
/// from that; free it with lamella_report_free.
///
/// # Safety
/// `out` and `report` are writable unless NULL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_of(
    recipe: *const lamella_recipe,
    out: *mut *mut lamella_plan,
    report: *mut *mut lamella_report,
) -> lamella_status {
    // SAFETY: the caller hands over NULL or somewhere to write.
    let report = unsafe { pointer::wanted(report) };
    reported(report, || {
        // SAFETY: the caller hands over NULL or somewhere to write.
        let out = unsafe { pointer::needed(out) }?;
        let recipe = Arc::clone(&*handle::get(recipe)?);
        let plan = Plan::of(&recipe)?;
        out.put(handle::new(Planned::new(recipe, plan))?);
        Ok(())
    })
}

/// Sets `*out` to the plan/1 document of a plan; free it with lamella_text_free. The same recipe gives the same bytes on
/// every machine.
///
/// # Safety
/// `out` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_document(
    plan: *const lamella_plan,
    out: *mut *mut lamella_text,
) -> lamella_status {
    boundary(|| {
        // SAFETY: the caller hands over NULL or somewhere to write.
        let out = unsafe { pointer::needed(out) }?;
        let document = handle::get(plan)?.plan.to_json().map_err(|_| lamella_status::LAMELLA_INTERNAL)?;
        text::put(out, document)
    })
}

/// Frees a plan. NULL is nothing; a plan that was freed already is LAMELLA_HANDLE, and no harm is done.
#[unsafe(no_mangle)]
pub extern "C" fn lamella_plan_free(plan: *mut lamella_plan) -> lamella_status {
    handle::free(plan)
}

/// What the batch is as a whole.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
#[expect(clippy::exhaustive_structs, reason = "its layout is part of the ABI; what is new comes at its end")]
pub struct lamella_totals {
    /// Fat of the recipe's fat lines, as weighed.
    pub fat: lamella_mass,
    /// The same at full precision.
    pub fat_ideal: lamella_mass,
    /// Everything that is weighed in: poured and left together, exactly.
    pub weighed_in: lamella_mass,
    /// Everything that is poured.
    pub poured: lamella_mass,
    /// Everything that stays behind, in the pot, in the vessel of the lye and in the jugs.
    pub left: lamella_mass,
    /// All of the lye.
    pub lye: lamella_mass,
    /// What stays of it in its vessel.
    pub lye_left: lamella_mass,
    /// Volume of what is poured.
    pub volume: lamella_volume,
    /// Pure alkali / (pure alkali + water) of the lye as weighed.
    pub lye_concentration: lamella_share,
    /// Superfat that the recipe asks for.
    pub superfat_aimed: lamella_share,
    /// Superfat of all that is mixed, at full precision.
    pub superfat_ideal: lamella_share,
    /// Superfat of all that is mixed, from what is weighed.
    pub superfat: lamella_share,
    /// How many bars the recipe asks for; nought when it does not say.
    pub bars: usize,
    /// One of them, fresh; nought without bars.
    pub bar_fresh: lamella_mass,
    /// One of them, cured; nought without bars.
    pub bar_cured: lamella_mass,
}

/// Writes what the batch is as a whole to `out`; `size` is sizeof *out.
///
/// # Safety
/// `out` is writable for `size` bytes.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_totals(
    plan: *const lamella_plan,
    out: *mut lamella_totals,
    size: usize,
) -> lamella_status {
    boundary(|| {
        let planned = handle::get(plan)?;
        let (batch, lye) = (&planned.plan.batch, &planned.plan.lye);
        let (mut bars, mut bar_fresh, mut bar_cured) = (0, 0, 0);
        if let Some(asked) = &batch.bars {
            bars = usize::try_from(asked.count).map_err(|_| lamella_status::LAMELLA_RANGE)?;
            (bar_fresh, bar_cured) = (trillionths(asked.fresh)?, trillionths(asked.cured)?);
        }
        let value = lamella_totals {
            fat: trillionths(batch.fat)?,
            fat_ideal: trillionths(batch.fat_ideal)?,
            weighed_in: trillionths(batch.weighed_in)?,
            poured: trillionths(batch.poured)?,
            left: trillionths(batch.left)?,
            lye: trillionths(lye.total)?,
            lye_left: trillionths(lye.left)?,
            volume: trillionths(batch.volume)?,
            lye_concentration: trillionths(lye.figures.concentration)?,
            superfat_aimed: trillionths(batch.superfat_aimed)?,
            superfat_ideal: trillionths(batch.superfat_ideal)?,
            superfat: trillionths(batch.superfat)?,
            bars,
            bar_fresh,
            bar_cured,
        };
        // SAFETY: the caller vouches for `size` bytes.
        unsafe { pointer::fill(out, size, value) }
    })
}

/// Plans a batch in one call: reads the recipe/1 document of `len` bytes at `text`, which need not end in NUL, and writes
/// its plan/1 document.
///
/// `text` may be NULL only when `len` is nought. `out_plan` must not be NULL; `*out_plan` is set only on LAMELLA_OK.
/// `out_problems` may be NULL; `*out_problems` is set only on LAMELLA_PROBLEMS and LAMELLA_INTERNAL, to a problems/1
/// document that names every problem with its place in the recipe and what to do about it. Free what was set with
/// lamella_text_free.
///
/// The same bytes give the same bytes on every machine. Any number of threads may call it at once.
///
/// # Safety
/// `text` is readable for `len` bytes; `out_plan` and `out_problems` are writable unless NULL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_json(
    text: *const c_char,
    len: usize,
    out_plan: *mut *mut lamella_text,
    out_problems: *mut *mut lamella_text,
) -> lamella_status {
    // SAFETY: the caller hands over NULL or somewhere to write.
    let problems = unsafe { pointer::wanted(out_problems) };
    let (status, failure) = told(|| {
        // SAFETY: the caller hands over NULL or somewhere to write.
        let plan = unsafe { pointer::needed(out_plan) }?;
        // SAFETY: the caller hands over NULL or `len` bytes to read.
        let document = unsafe { pointer::bytes(text, len) }?;
        Ok(text::put(plan, lamella::plan_json(document)?)?)
    });
    let document = failure.as_ref().map(Failure::to_json);
    match (problems, document) {
        (Some(problems), Some(Ok(document))) => {
            let put = boundary(|| text::put(problems, document));
            if put == lamella_status::LAMELLA_OK { status } else { put }
        }
        (Some(_), Some(Err(_))) => lamella_status::LAMELLA_INTERNAL,
        _ => status,
    }
}
