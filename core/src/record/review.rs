//! What is missing from a record, and where it differs from the plan.

use std::collections::BTreeMap;

use serde::Serialize;

use super::{Actual, Decision, Lot, Outcome, Record};
use crate::batch::{HOLD_ADVICE, Hold, Plan, WeighItem, held};
use crate::material::BasisKind;
use crate::quantity::{Date, Mass};

/// The lot that ends first.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Expiry {
    /// Its last day; the batch's is no later.
    pub date: Date,
    /// The lot.
    pub lot: String,
    /// Id of its material.
    pub material: String,
}

/// Something that a batch record should hold and this one does not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Gap {
    /// The field of the document.
    pub field: &'static str,
    /// What is missing.
    pub what: &'static str,
    /// What the wish rests on.
    pub basis: BasisKind,
    /// The source.
    pub source: &'static str,
}

/// Something in the record that deserves a second look.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Finding {
    /// Stable code.
    pub code: &'static str,
    /// What is found.
    pub message: String,
    /// What to do.
    pub advice: &'static str,
}

/// A material as planned and as weighed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReviewLine {
    /// Id of the material.
    pub id: String,
    /// Its name; the id when the plan does not have it.
    pub name: String,
    /// What the plan asks for; nothing when it does not.
    pub planned: Option<Mass>,
    /// What was weighed; nothing when nothing was.
    pub weighed: Option<Mass>,
    /// How far the two may differ: a scale step for each weighing that the plan asks for.
    pub allowed: Mass,
    /// The lots it came from.
    pub lots: Vec<String>,
}

impl ReviewLine {
    /// How much more was weighed than planned; nothing unless both are there.
    #[must_use]
    pub fn difference(&self) -> Option<Mass> {
        Some(self.weighed? - self.planned?)
    }
}

/// A record, looked through.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Review {
    /// Each material; in the order of the plan's weigh list, then what it does not have.
    pub lines: Vec<ReviewLine>,
    /// The lot that ends first; nothing when no lot says when it ends.
    pub expiry: Option<Expiry>,
    /// Layers that are on hold; the batch is not released while there is one.
    pub holds: Vec<Hold>,
    /// What is decided, holds taken into account.
    pub decision: Option<Decision>,
    /// What is still to be written down.
    pub gaps: Vec<Gap>,
    /// What deserves a second look.
    pub findings: Vec<Finding>,
}

/// The source of most of the list.
const GMP: &str = "ISO 22716, content of a batch record; from memory, the standard was not read";
const TRACED: &str = "ISO 22716, paragraphs 6.4.4 and 7.2.1.2, after a secondary source: each batch of raw material and its \
                      supplier are documented";
const CODES: &str =
    "ISO 22716 as listed in public: raw materials used, production process, testing and sampling, code marks";

impl Review {
    /// Looks a record through; with the plan of the batch, against that too.
    #[must_use]
    pub fn of(record: &Record, plan: Option<&Plan>) -> Self {
        let lines = lines(record, plan);
        let mut findings = Vec::new();
        if plan.is_some() {
            against_plan(&lines, &mut findings);
        }
        lots(record, &mut findings);
        let holds = record.standing(plan);
        decision(record, &holds, &mut findings);
        if let Some(plan) = plan {
            order(record, plan, &mut findings);
        }
        let decision = record.decision(plan);
        Self { lines, expiry: record.expiry(), holds, decision, gaps: gaps(record), findings }
    }
}

/// Every weighing of a plan, water included.
fn items(plan: &Plan) -> impl Iterator<Item = &WeighItem> {
    let lye = &plan.lye;
    let of_jugs = plan.jugs.iter().flat_map(|jug| jug.held.iter().chain(&jug.doses).chain(&jug.late_doses));
    plan.pot
        .fats
        .iter()
        .chain(&plan.pot.doses)
        .chain([&lye.water])
        .chain(&lye.liquids)
        .chain(&lye.alkalis)
        .chain(&lye.doses)
        .chain(of_jugs)
        .filter(|item| !item.weighed.is_zero())
}

fn lines(record: &Record, plan: Option<&Plan>) -> Vec<ReviewLine> {
    let mut lines: Vec<ReviewLine> = Vec::new();
    let mut places: BTreeMap<String, usize> = BTreeMap::new();
    let mut line = |lines: &mut Vec<ReviewLine>, id: &str, name: &str| -> usize {
        *places.entry(id.to_owned()).or_insert_with(|| {
            lines.push(ReviewLine {
                id: id.to_owned(),
                name: name.to_owned(),
                planned: None,
                weighed: None,
                allowed: Mass::ZERO,
                lots: Vec::new(),
            });
            lines.len().saturating_sub(1)
        })
    };
    for (item, plan) in plan.into_iter().flat_map(|plan| items(plan).map(move |item| (item, plan))) {
        let at = line(&mut lines, &item.id, &item.name);
        if let Some(known) = lines.get_mut(at) {
            known.planned = Some(known.planned.unwrap_or_default() + item.weighed);
            known.allowed += plan.scales.get(item.scale).map_or(Mass::ZERO, |scale| scale.step);
        }
    }
    for actual in &record.weighings {
        let Some(lot) = record.lot(&actual.lot) else { continue };
        let at = line(&mut lines, &lot.material, &lot.material);
        if let Some(known) = lines.get_mut(at) {
            known.weighed = Some(known.weighed.unwrap_or_default() + actual.mass);
            if !known.lots.contains(&lot.lot) {
                known.lots.push(lot.lot.clone());
            }
        }
    }
    lines
}

fn against_plan(lines: &[ReviewLine], findings: &mut Vec<Finding>) {
    for line in lines {
        match (line.planned, line.weighed) {
            (Some(planned), None) => findings.push(Finding {
                code: "record.unweighed",
                message: format!("{}: {planned} are planned, and no weighing is written down", line.name),
                advice: "write down what was weighed, and from which lot",
            }),
            (None, Some(weighed)) => findings.push(Finding {
                code: "record.unplanned",
                message: format!("{}: {weighed} were weighed, and the plan has none", line.name),
                advice: "check the material of the lot; if it really went in, it is a deviation",
            }),
            (Some(planned), Some(weighed)) => {
                let gap = if weighed > planned { weighed - planned } else { planned - weighed };
                if gap > line.allowed {
                    findings.push(Finding {
                        code: "record.off",
                        message: format!(
                            "{}: {weighed} weighed for {planned} planned; scale steps explain {}",
                            line.name, line.allowed
                        ),
                        advice: "plan the batch again with what really went in, before it is poured",
                    });
                }
            }
            (None, None) => {}
        }
    }
}

/// The day of a weighing: its own, or that on which the work began.
fn day(record: &Record, actual: &Actual) -> Option<Date> {
    actual.at.or(record.started).map(|moment| moment.date)
}

fn lots(record: &Record, findings: &mut Vec<Finding>) {
    for (lot, _) in record.used() {
        let of_lot = record.weighings.iter().filter(|actual| actual.lot == lot.lot);
        let days: Vec<Date> = of_lot.filter_map(|actual| day(record, actual)).collect();
        if let (Some(last), Some(expires)) = (days.iter().max(), lot.expires)
            && expires < *last
        {
            findings.push(Finding {
                code: "record.expired",
                message: format!(
                    "lot {} of {} ended on {expires} and was used on {last}",
                    lot.lot, lot.material
                ),
                advice: "hold the batch until it is decided what that means",
            });
        }
        if let (Some(first), Some(received)) = (days.iter().min(), lot.received)
            && received > *first
        {
            findings.push(Finding {
                code: "record.early",
                message: format!(
                    "lot {} of {} came on {received} and was used on {first}",
                    lot.lot, lot.material
                ),
                advice: "check the lot and both dates",
            });
        }
        if untraced(lot) {
            findings.push(Finding {
                code: "record.untraced",
                message: format!("lot {} of {} names no supplier with its lot", lot.lot, lot.material),
                advice: "write down the supplier and the number on the pack: a recall goes by it",
            });
        }
    }
}

/// Water from the tap has no lot of a supplier; soap that is worked in again has its batch.
fn untraced(lot: &Lot) -> bool {
    let named = !lot.supplier.is_empty() && !lot.supplier_lot.is_empty();
    !named && lot.batch.is_empty() && lot.material != "water"
}

fn decision(record: &Record, holds: &[Hold], findings: &mut Vec<Finding>) {
    let Some(release) = record.release.as_ref().filter(|release| release.decision == Decision::Released)
    else {
        return;
    };
    if !holds.is_empty() {
        findings.push(Finding {
            code: "record.held",
            message: format!("the release does not stand, because layers are on hold: {}", held(holds)),
            advice: HOLD_ADVICE,
        });
    }
    let failed = record.checks.iter().filter(|check| check.outcome == Outcome::Fail);
    for check in failed {
        findings.push(Finding {
            code: "record.failed",
            message: format!("the batch is released, and {:?} failed: {}", check.check, check.result),
            advice: "hold it, or write down as a deviation why it may go",
        });
    }
    let late = record.checks.iter().filter_map(|check| check.at).find(|at| at.date > release.on);
    if let Some(late) = late {
        findings.push(Finding {
            code: "record.late",
            message: format!("the batch is released on {}, and a test is of {late}", release.on),
            advice: "check both dates",
        });
    }
}

/// Layers in another order than planned, or not those that are planned.
fn order(record: &Record, plan: &Plan, findings: &mut Vec<Finding>) {
    let poured: Vec<&str> = record.layers.iter().map(|layer| layer.layer.as_str()).collect();
    let planned: Vec<&str> = plan.layers.iter().map(|layer| layer.name.as_str()).collect();
    if poured.is_empty() || poured == planned {
        return;
    }
    findings.push(Finding {
        code: "record.layers",
        message: format!("poured were {}; planned were {}", poured.join(", "), planned.join(", ")),
        advice: "check the names; if it was really poured so, it is a deviation",
    });
}

fn gaps(record: &Record) -> Vec<Gap> {
    let mut gaps = Vec::new();
    let mut wants = |there: bool, field, what, source| {
        if !there {
            gaps.push(Gap { field, what, basis: BasisKind::Memory, source });
        }
    };
    let all = |test: &dyn Fn(&Actual) -> bool| record.weighings.iter().all(test);
    wants(!record.formula.is_empty(), "formula", "the version of the formula", GMP);
    wants(record.started.is_some(), "started", "when the work began", GMP);
    wants(record.finished.is_some(), "finished", "when it ended", GMP);
    wants(!record.operators.is_empty(), "operators", "who did it", GMP);
    wants(!record.equipment.is_empty(), "equipment", "what it was done with", GMP);
    let cleaned = record.equipment.iter().all(|item| item.cleaned.is_some());
    wants(cleaned, "equipment", "when each piece of equipment was cleaned", GMP);
    wants(!record.scale_checks.is_empty(), "scale_checks", "a scale held against a known weight", GMP);
    wants(!record.lots.is_empty(), "lots", "the lots of the materials", TRACED);
    let dated = record.lots.iter().all(|lot| lot.expires.is_some() || lot.material == "water");
    wants(dated, "lots", "until when each lot keeps", TRACED);
    wants(!record.weighings.is_empty(), "weighings", "what was really weighed", GMP);
    wants(all(&|actual| !actual.by.is_empty()), "weighings", "who weighed each material", GMP);
    wants(all(&|actual| actual.at.is_some()), "weighings", "when each material was weighed", GMP);
    wants(!record.temperatures.is_empty(), "temperatures", "temperatures of lye, fats and room", GMP);
    wants(!record.layers.is_empty(), "layers", "the layers in the order in which they were poured", GMP);
    wants(!record.checks.is_empty(), "checks", "what was tested: weight, free alkali, pH, look", CODES);
    wants(record.output.is_some(), "output", "what came out: good bars, and those that were not", GMP);
    wants(record.cure_from.is_some(), "cure_from", "from when the cure counts", GMP);
    wants(!record.code.is_empty(), "code", "the mark by which a bar is known", CODES);
    wants(!record.label.is_empty(), "label", "which label went on it", GMP);
    wants(record.samples.is_some(), "samples", "how many bars are kept, and where", CODES);
    wants(record.release.is_some(), "release", "who let it go, and when", GMP);
    gaps
}
