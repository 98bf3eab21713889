//! The fats of a document.

use std::collections::BTreeSet;

use super::read_value::{Fields, Node, Reader};
use super::tables::{self, FAT_SHARE, MASS, STAGE};
use super::{FatAmount, FatLine, FatStage, Process};
use crate::quantity::{Exact, Mass, Share};

/// Whether the fats say how large the batch is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum FatsSay {
    /// They have masses.
    Masses,
    /// They have shares.
    Shares,
    /// That cannot be told.
    Unclear,
}

impl Reader {
    /// The fats, and whether they have masses.
    pub(crate) fn fats(
        &mut self,
        top: &Fields<'_>,
        process: Option<Process>,
    ) -> (Option<Vec<FatLine>>, FatsSay) {
        let mut seen = BTreeSet::new();
        let fats = self.items(top, "fats", 1, |reader, at| reader.fat_line(at, process, &mut seen));
        let Some(at) = top.get("fats") else { return (None, FatsSay::Unclear) };
        let says = self.one_kind(&at);
        if let (Some(fats), true) = (&fats, says != FatsSay::Unclear) {
            self.fats_together(&at, fats);
        }
        (fats.filter(|_| top.has("fats")), says)
    }

    fn fat_line(
        &mut self,
        at: &Node<'_>,
        process: Option<Process>,
        seen: &mut BTreeSet<String>,
    ) -> Option<FatLine> {
        let fields = self.object(at, &tables::FAT)?;
        let fat = self.fat(&fields);
        if let (Some((fat, _)), Some(at)) = (&fat, fields.get("fat"))
            && !seen.insert(fat.id.to_string())
        {
            let message = format!("the fat {:?} stands twice", fat.id);
            self.report(&at, "name.duplicate", message, "add up the two lines");
        }
        let share = self.needed(&fields, "share", |reader, at| reader.quantity::<Share>(at, &FAT_SHARE));
        let mass = self.needed(&fields, "mass", |reader, at| reader.quantity::<Mass>(at, &MASS));
        let amount = match (fields.has("share"), fields.has("mass")) {
            (true, false) => share.map(FatAmount::Share),
            (false, true) => mass.map(FatAmount::Mass),
            _ => None,
        };
        let stage = self.maybe(&fields, "stage", FatStage::Pot, |reader, at| {
            let stage = reader.word(at, &STAGE)?;
            if stage == FatStage::AfterCook && process == Some(Process::Cold) {
                let message = "a fat can be held back until after the cook only when there is one";
                let advice = "write \"process\": \"hot\", or put the fat into the pot";
                reader.report(at, "fat.held-back", message, advice);
            }
            Some(stage)
        });
        let (fat, certificate) = fat?;
        Some(FatLine { fat, amount: amount?, stage: stage?, certificate })
    }

    /// Whether all lines have shares or all have masses.
    fn one_kind(&mut self, at: &Node<'_>) -> FatsSay {
        let super::json::Value::List(items) = &at.json.value else { return FatsSay::Unclear };
        let mut first = None;
        for (index, item) in items.iter().enumerate() {
            let line = at.child(&index.to_string(), item);
            let says = match (line.has("share"), line.has("mass")) {
                (true, false) => FatsSay::Shares,
                (false, true) => FatsSay::Masses,
                _ => return FatsSay::Unclear,
            };
            if *first.get_or_insert(says) != says {
                let message = "some fats have a share and some a mass";
                self.report(
                    &line,
                    "fat.amounts.mixed",
                    message,
                    "give every fat a \"share\", or every fat a \"mass\"",
                );
                return FatsSay::Unclear;
            }
        }
        first.unwrap_or(FatsSay::Unclear)
    }

    fn fats_together(&mut self, at: &Node<'_>, fats: &[FatLine]) {
        if fats.is_empty() {
            return;
        }
        let whole = Share::literal(1, 0);
        let share = |line: &FatLine| match line.amount {
            FatAmount::Share(share) => share,
            FatAmount::Mass(_) => Share::ZERO,
        };
        let sum: Share = fats.iter().map(share).sum();
        let by_share = fats.iter().any(|line| matches!(line.amount, FatAmount::Share(_)));
        if by_share && sum != whole {
            let message = format!("the shares of the fats sum to {sum}, not 100 %");
            let advice = if sum < whole {
                format!("add {}", whole - sum)
            } else {
                format!("take off {}", sum - whole)
            };
            self.report(at, "fat.shares.sum", message, advice);
            return;
        }
        let amount = |line: &FatLine| match line.amount {
            FatAmount::Share(share) => share.exact(),
            FatAmount::Mass(mass) => mass.exact(),
        };
        let stage = |wanted| fats.iter().filter(move |line| line.stage == wanted);
        let held: Exact = stage(FatStage::AfterCook).map(amount).sum();
        let in_pot: Exact = stage(FatStage::Pot).map(amount).sum();
        let reactive = stage(FatStage::Pot)
            .any(|line| amount(line).is_positive() && !line.fat.saponification_value.typical.is_zero());
        if held.is_positive() && !in_pot.is_positive() {
            let message = "all the fat is held back until after the cook, so there is none to cook";
            self.report(at, "fat.held-back", message, "put at least one fat into the pot");
        } else if !reactive {
            let message = "there is no fat above nought that alkali could saponify";
            self.report(at, "fat.total", message, "give at least one fat an amount");
        }
    }
}
