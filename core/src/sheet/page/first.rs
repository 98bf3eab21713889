//! What is read first: safety, the batch at a glance, cautions.

use super::super::Sheet;
use super::super::document::{Block, Table};
use super::print::{capital, degrees, exact, length, millilitres, named, percent, rounded, step, with_unit};
use crate::batch::{Caution, Plan};
use crate::material::BasisKind;
use crate::quantity::{Share, Volume, fixed};
use crate::recipe::{Process, Purpose};

pub(super) fn title(plan: &Plan, blocks: &mut Vec<Block>) {
    blocks.push(Block::Title(plan.name.clone()));
    if !plan.note.is_empty() {
        blocks.push(Block::Paragraph(plan.note.clone()));
    }
    let process = match plan.process {
        Process::Cold => "Cold process: poured raw, it saponifies in the mould.",
        Process::Hot => "Hot process: cooked until saponified, then filled.",
    };
    let purpose = match plan.purpose {
        Purpose::Household => "For the household.",
        Purpose::Sale => "For sale.",
    };
    blocks.push(Block::Paragraph(format!("{purpose} {process}")));
}

/// The safety block. Source: precautionary statements for substances that burn skin and eyes (H314: P260, P264, P280,
/// P301+P330+P331, P303+P361+P353, P305+P351+P338, P310) and common practice, both from memory.
pub(super) fn safety(plan: &Plan, blocks: &mut Vec<Block>) {
    blocks.push(Block::Heading("Safety"));
    blocks.push(Block::List(safety_lines(plan).into_iter().map(str::to_owned).collect()));
}

/// What stands on every sheet, a line each.
pub(in crate::sheet) fn safety_lines(plan: &Plan) -> Vec<&'static str> {
    let mut lines = vec![
        "Lye burns, and raw batter is still lye. Goggles, gloves, long sleeves and closed shoes from the first \
         grain of alkali until the last vessel is washed.",
        "Lye into water, never water into lye: stir the alkali into the water a little at a time. Water poured on \
         alkali boils and spits.",
        "It grows very hot and gives off a biting mist. Work by an open window or under an extractor, and keep \
         your face away.",
        "No aluminium: lye eats it and sets free a gas that burns. Stainless steel and heat-proof polypropylene hold.",
        "Children and animals stay out of the room until everything is washed and put away. Never leave lye \
         unlabelled or alone.",
        "On skin: take off what is soaked, rinse at once with much running water. In eyes: rinse at once with much \
         running water, lids held open, and call for help while rinsing. Swallowed: rinse the mouth, do not bring \
         it up again, call for help at once.",
        "No vinegar on skin or eyes: water, much of it, is the first aid.",
        "Never taste lye, batter or soap to see whether it is done.",
    ];
    if plan.process == Process::Hot {
        lines.push("Cooking batter can rise and spit: use a pot with twice the room, and stay with it.");
    }
    lines.push(match plan.purpose {
        Purpose::Sale => {
            "This batch is to be sold. The report of a qualified assessor on this very formula, and the law of the \
             place of sale, decide whether it may be; this sheet does not."
        }
        Purpose::Household => {
            "Before any of it is sold or given away, the report of a qualified assessor on this formula and the \
             local law decide; this sheet does not."
        }
    });
    lines
}

pub(super) fn glance(sheet: &Sheet<'_>, blocks: &mut Vec<Block>) {
    let plan = sheet.plan;
    blocks.push(Block::Heading("At a glance"));
    let (batch, lye) = (&plan.batch, &plan.lye.figures);
    let temperatures = plan.temperatures;
    let mut pairs = vec![
        ("Fat", with_unit(sheet, exact(sheet, batch.fat, 0))),
        (
            "Lye",
            format!(
                "{} pure alkali; {} of water to one of alkali; water {} of the fat",
                percent(lye.concentration, 2),
                fixed(lye.water_to_alkali.value(), 3),
                percent(lye.water_of_fat, 2)
            ),
        ),
        ("Superfat", superfat(plan)),
        (
            "Poured",
            format!(
                "{}, {} at {} g/mL",
                with_unit(sheet, exact(sheet, batch.poured, 0)),
                millilitres(batch.volume),
                fixed(batch.density.value(), 3)
            ),
        ),
    ];
    if !plan.moulds.is_empty() {
        pairs.push((if plan.moulds.len() == 1 { "Mould" } else { "Moulds" }, moulds(sheet)));
    }
    if let Some(bars) = batch.bars {
        pairs.push((
            "Bars",
            format!(
                "{} of {} fresh, {} cured",
                bars.count,
                rounded(sheet, bars.fresh, 1),
                rounded(sheet, bars.cured, 1)
            ),
        ));
    }
    pairs.push(("Cured, all", rounded(sheet, batch.cured.total, 0)));
    pairs.push((
        "Mix at",
        format!("fats {}, lye {}", degrees(sheet, temperatures.fats), degrees(sheet, temperatures.lye)),
    ));
    let scales = plan.scales.iter().map(|line| {
        format!("{} ({}, up to {})", named(&line.name), step(line.step), rounded(sheet, line.capacity, 0))
    });
    pairs.push(("Scales", scales.collect::<Vec<_>>().join("; ")));
    blocks.push(Block::Table(Table::pairs(pairs)));
}

/// What is asked for, what is weighed, and between what the jugs lie when they differ.
fn superfat(plan: &Plan) -> String {
    let batch = &plan.batch;
    let mut text =
        format!("{} asked for; {} as weighed", percent(batch.superfat_aimed, 2), percent(batch.superfat, 2));
    let of_jugs = || plan.jugs.iter().map(|jug| jug.superfat);
    let (low, high) = (of_jugs().min().unwrap_or(Share::ZERO), of_jugs().max().unwrap_or(Share::ZERO));
    if plan.jugs.len() > 1 {
        text.push_str(&format!(", jugs {} to {}", percent(low, 2), percent(high, 2)));
    }
    if low < Share::ZERO {
        text.push_str(". LYE-HEAVY: do not make it so");
    }
    text
}

fn moulds(sheet: &Sheet<'_>) -> String {
    let plan = sheet.plan;
    let capacity: Volume = plan.moulds.iter().map(|mould| mould.capacity).sum();
    let one = |mould: &crate::batch::MouldLine| {
        let count = if mould.count > 1 { format!("{} of ", mould.count) } else { String::new() };
        format!("{count}{}, filled to {}", named(&mould.name), length(sheet, mould.fill))
    };
    format!(
        "{}; room for {} up to there",
        plan.moulds.iter().map(one).collect::<Vec<_>>().join("; "),
        millilitres(capacity)
    )
}

pub(super) fn cautions(plan: &Plan, blocks: &mut Vec<Block>) {
    blocks.push(Block::Heading("Cautions"));
    if plan.cautions.is_empty() {
        blocks.push(Block::Paragraph("None.".to_owned()));
        return;
    }
    // What burns stands first.
    let (burns, other): (Vec<_>, Vec<_>) = plan
        .cautions
        .iter()
        .partition(|caution| ["superfat.lye-heavy", "lye.undissolved"].contains(&caution.code));
    let all = burns.into_iter().chain(other);
    blocks.push(Block::List(all.map(|caution| said(plan, caution)).collect()));
}

fn said(plan: &Plan, caution: &Caution) -> String {
    let kind = match caution.basis {
        BasisKind::Standard => "standard",
        BasisKind::Regulation => "regulation",
        BasisKind::Handbook => "handbook",
        BasisKind::Dataset => "dataset",
        BasisKind::Supplier => "supplier",
        BasisKind::Derived => "derived",
        BasisKind::CommonPractice => "common practice",
        BasisKind::Memory => "from memory",
    };
    // A source that begins with its kind need not say it twice.
    let source = if caution.source.to_lowercase().starts_with(kind) {
        caution.source.to_owned()
    } else {
        format!("{kind}: {}", caution.source)
    };
    // What is about the batch needs no place.
    let message = if caution.place == plan.name {
        capital(&caution.message)
    } else {
        format!("{}: {}", named(&caution.place), caution.message)
    };
    format!(
        "{message}. Found: {}. Held against: {} ({source}). To do: {}.",
        caution.figure, caution.limit, caution.advice
    )
}
