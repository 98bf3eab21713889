//! How sure the superfats of a plan are.

use lamella::certainty::{Advice, Certainty, Figures, Verdict};

use crate::boundary::boundary;
use crate::form::json;
use crate::handle;
use crate::number::{lamella_share, trillionths};
use crate::plan::{Planned, item, lamella_plan};
use crate::pointer;
use crate::recipe::lamella_recipe;
use crate::report::lamella_report;
use crate::status::lamella_status;
use crate::text::{self, lamella_text};

/// Whether alkali can be left over. New ones may come.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(clippy::exhaustive_enums, reason = "it is only ever returned to C, which takes it for a number")]
pub enum lamella_verdict {
    /// Fat is left over, whatever the inputs are.
    LAMELLA_VERDICT_FAT_LEFT = 1,
    /// Alkali may be left over.
    LAMELLA_VERDICT_MAY_BE_LYE_HEAVY = 2,
    /// Alkali is left over, whatever the inputs are.
    LAMELLA_VERDICT_LYE_HEAVY = 3,
}

/// How sure a superfat is.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
#[expect(clippy::exhaustive_structs, reason = "its layout is part of the ABI; what is new comes at its end")]
pub struct lamella_interval {
    /// As the plan has it.
    pub superfat: lamella_share,
    /// Lower end of the guaranteed interval: it cannot be lower while saponification values, purities, scales and residues
    /// are within their ranges. Rounded down.
    pub low: lamella_share,
    /// Upper end. Rounded up.
    pub high: lamella_share,
    /// With every input in the middle of its range.
    pub expected: lamella_share,
    /// Standard uncertainty (JCGM 100), as an absolute share.
    pub uncertainty: lamella_share,
    /// Lower end of the 95 % coverage interval, within the guaranteed one.
    pub covered_low: lamella_share,
    /// Its upper end.
    pub covered_high: lamella_share,
    /// Whether alkali can be left over.
    pub verdict: lamella_verdict,
}

impl Planned {
    /// How sure the superfats are; reckoned when it is asked for, and once.
    fn sure(&self) -> Result<&Certainty, lamella_status> {
        let sure = self.certainty.get_or_init(|| Certainty::of(&self.recipe, &self.plan));
        sure.as_ref().ok_or(lamella_status::LAMELLA_RANGE)
    }
}

/// Writes how sure the superfat of a jug is, and so that of every layer poured from it, to `out`; `size` is sizeof *out.
/// LAMELLA_NONE for `jug` stands for all jugs together. The first call for a plan reckons, which takes as long as planning
/// or longer; the others look it up.
///
/// LAMELLA_INDEX when there is no such jug; LAMELLA_RANGE when a figure passes what can be held.
///
/// # Safety
/// `out` is writable for `size` bytes.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_interval(
    plan: *const lamella_plan,
    jug: usize,
    out: *mut lamella_interval,
    size: usize,
) -> lamella_status {
    boundary(|| {
        let planned = handle::get(plan)?;
        let sure = planned.sure()?;
        let figures = if jug == usize::MAX { &sure.batch } else { &item(&sure.jugs, jug)?.figures };
        let value = interval(figures)?;
        // SAFETY: the caller vouches for `size` bytes.
        unsafe { pointer::fill(out, size, value) }
    })
}

fn interval(figures: &Figures) -> Result<lamella_interval, lamella_status> {
    let verdict = match figures.verdict {
        Verdict::FatLeft => lamella_verdict::LAMELLA_VERDICT_FAT_LEFT,
        Verdict::MayBeLyeHeavy => lamella_verdict::LAMELLA_VERDICT_MAY_BE_LYE_HEAVY,
        Verdict::LyeHeavy => lamella_verdict::LAMELLA_VERDICT_LYE_HEAVY,
    };
    Ok(lamella_interval {
        superfat: trillionths(figures.superfat)?,
        low: trillionths(figures.guaranteed.low)?,
        high: trillionths(figures.guaranteed.high)?,
        expected: trillionths(figures.expected)?,
        uncertainty: trillionths(figures.uncertainty)?,
        covered_low: trillionths(figures.covered.0)?,
        covered_high: trillionths(figures.covered.1)?,
        verdict,
    })
}

/// Sets `*out` to the certainty/1 document of a plan: the intervals, what is uncertain, and what contributes how much; free
/// it with lamella_text_free.
///
/// # Safety
/// `out` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_plan_certainty(
    plan: *const lamella_plan,
    out: *mut *mut lamella_text,
) -> lamella_status {
    boundary(|| {
        // SAFETY: the caller hands over NULL or somewhere to write.
        let out = unsafe { pointer::needed(out) }?;
        let document = handle::get(plan)?.sure()?.to_json().map_err(|_| lamella_status::LAMELLA_INTERNAL)?;
        text::put(out, document)
    })
}

/// Sets `*out` to what would make a recipe safe, as JSON: the smallest superfat, and the coarsest scale, with which no layer
/// can be lye-heavy. It plans the recipe many times over. Free it with lamella_text_free. `report` is set on
/// LAMELLA_INTERNAL only.
///
/// # Safety
/// `out` and `report` are writable unless NULL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lamella_recipe_advice(
    recipe: *const lamella_recipe,
    out: *mut *mut lamella_text,
    report: *mut *mut lamella_report,
) -> lamella_status {
    // SAFETY: the caller hands over NULL or somewhere to write.
    unsafe { crate::form::answer(out, report, || json(&Advice::of(&*handle::get(recipe)?))) }
}
