//! Alkali, superfat, water and what else the lye is made with.

use super::dose::{Amount, Dose, Ingredient};
use super::json::Value;
use super::read_dose::Vessel;
use super::read_value::{Fields, Node, Reader};
use super::tables::{
    self, LYE_CONCENTRATION, PURITY, PURITY_WITHIN, SHARE, SUPERFAT, WATER_OF_FAT, WATER_TO_ALKALI,
};
use super::{AlkaliChoice, AlkaliGrade, LiquidLine, LyeExtras, ShareReading, Superfat, Water};
use crate::material::{Additive, Alkali, Form, library};
use crate::quantity::{Mass, Share};

/// Least water in a liquid that stands in for water: with less, hundreds of grams of it would stand in for ten.
const LEAST_WATER: Share = Share::literal(10, 2);

impl Reader {
    pub(crate) fn alkali(&mut self, at: &Node<'_>) -> Option<AlkaliChoice> {
        let fields = self.object(at, &tables::ALKALI)?;
        let both = fields.has("naoh") && fields.has("koh");
        let sodium = self.needed(&fields, "naoh", |reader, at| {
            let fields = reader.object(at, &tables::SODIUM)?;
            reader.grade(at, &fields, Alkali::SodiumHydroxide)
        });
        let potassium = self.needed(&fields, "koh", |reader, at| {
            let fields = reader.object(at, &tables::POTASSIUM)?;
            let grade = reader.grade(at, &fields, Alkali::PotassiumHydroxide);
            let share = reader.needed(&fields, "share", Self::alkali_share);
            if fields.has("share") && !both {
                let at = fields.get("share")?;
                let message = "a share of potassium hydroxide needs sodium hydroxide beside it";
                reader.report(&at, "alkali.share", message, "leave out \"share\", or add \"naoh\"");
                return None;
            }
            if both && !fields.tried("share") {
                let message = "nothing says how the two alkalis are shared";
                reader.report(at, "alkali.share", message, "add \"share\", for example \"share\": \"5 %\"");
                return None;
            }
            grade.map(|grade| (grade, share))
        });
        match (fields.has("naoh"), fields.has("koh")) {
            (true, false) => sodium.map(AlkaliChoice::Sodium),
            (false, true) => potassium.map(|(grade, _)| AlkaliChoice::Potassium(grade)),
            (true, true) => {
                let (sodium, (potassium, share)) = (sodium?, potassium?);
                let (share, reading) = share?;
                Some(AlkaliChoice::Dual { sodium, potassium, share, reading })
            }
            (false, false) if fields.tried("naoh") || fields.tried("koh") => None,
            (false, false) => {
                let message = "the alkali has none of \"naoh\", \"koh\"";
                self.report(
                    at,
                    "field.choice",
                    message,
                    "write for example { \"naoh\": { \"purity\": \"98 %\" } }",
                );
                None
            }
        }
    }

    fn grade(&mut self, at: &Node<'_>, fields: &Fields<'_>, alkali: Alkali) -> Option<AlkaliGrade> {
        let purity = library::alkali(alkali).purity.typical;
        let purity = self.maybe(fields, "purity", purity, |reader, at| reader.quantity(at, &PURITY));
        let carbonate =
            self.maybe(fields, "carbonate", Share::ZERO, |reader, at| reader.quantity(at, &SHARE));
        let within = self
            .maybe(fields, "purity_within", None, |reader, at| reader.quantity(at, &PURITY_WITHIN).map(Some));
        let grade = AlkaliGrade { purity: purity?, carbonate: carbonate?, purity_within: within? };
        let sum = grade.purity + grade.carbonate;
        if sum > Share::literal(1, 0) {
            let message = format!(
                "purity {} and carbonate {} sum to {sum}, more than the whole",
                grade.purity, grade.carbonate
            );
            self.report(at, "alkali.purity", message, "state a purity that leaves room for the carbonate");
            return None;
        }
        Some(grade)
    }

    fn alkali_share(&mut self, at: &Node<'_>) -> Option<(Share, ShareReading)> {
        if !matches!(at.json.value, Value::Object(_)) {
            return Some((self.quantity(at, &SHARE)?, ShareReading::Moles));
        }
        let fields = self.object(at, &tables::KOH_SHARE)?;
        let mut read = |name| self.needed(&fields, name, |reader, at| reader.quantity(at, &SHARE));
        let (pure, weighed) = (read("pure_mass"), read("weighed_mass"));
        pure.map(|share| (share, ShareReading::PureMass))
            .or(weighed.map(|share| (share, ShareReading::WeighedMass)))
    }

    pub(crate) fn superfat(&mut self, at: &Node<'_>) -> Option<Superfat> {
        if !matches!(at.json.value, Value::Object(_)) {
            return self.quantity(at, &SUPERFAT).map(Superfat::OfDemand);
        }
        let fields = self.object(at, &tables::FAT_EXCESS)?;
        self.needed(&fields, "fat_excess", |reader, at| {
            reader.quantity(at, &SUPERFAT).map(Superfat::FatExcess)
        })
    }

    pub(crate) fn water(&mut self, at: &Node<'_>) -> Option<Water> {
        let fields = self.object(at, &tables::WATER)?;
        let lye = self.needed(&fields, "lye_concentration", |reader, at| {
            reader.quantity(at, &LYE_CONCENTRATION).map(Water::LyeConcentration)
        });
        let ratio = self.needed(&fields, "water_to_alkali", |reader, at| {
            let text = reader.quantity_text(at, &WATER_TO_ALKALI)?;
            reader.bare(at, text, text, &WATER_TO_ALKALI).map(Water::WaterToAlkali)
        });
        let of_fat = self.needed(&fields, "share_of_fat", |reader, at| {
            reader.quantity(at, &WATER_OF_FAT).map(Water::ShareOfFat)
        });
        lye.or(ratio).or(of_fat)
    }

    pub(crate) fn lye(&mut self, at: &Node<'_>) -> Option<LyeExtras> {
        let fields = self.object(at, &tables::LYE)?;
        let liquids = self.items(&fields, "liquids", 0, Self::liquid);
        let doses = self.items(&fields, "doses", 0, |reader, at| reader.dose(at, Vessel::Batch));
        if let (Some(liquids), Some(at)) = (&liquids, fields.get("liquids")) {
            let sum: Share = liquids.iter().map(|line| line.share).sum();
            if sum > Share::literal(1, 0) {
                let message = format!("the liquids replace {sum} of the lye's water, more than there is");
                self.report(&at, "water.liquids", message, "bring their shares to 100 % or less");
            }
        }
        Some(LyeExtras { liquids: liquids?, doses: doses? })
    }

    fn liquid(&mut self, at: &Node<'_>) -> Option<LiquidLine> {
        let fields = self.object(at, &tables::LIQUID)?;
        let liquid = self.additive(&fields, "liquid", true);
        let share = self.needed(&fields, "share", |reader, at| reader.quantity(at, &SHARE));
        let treatment = self.treatment(&fields);
        let (additive, own) = liquid?;
        self.can_replace_water(&fields.get("liquid")?, &additive, own);
        let dose = Dose {
            ingredient: Ingredient::Additive(additive),
            amount: Amount::Mass(Mass::ZERO),
            treatment: treatment?,
            own,
            pointer: at.pointer.clone(),
        };
        Some(LiquidLine { dose, share: share? })
    }

    fn can_replace_water(&mut self, at: &Node<'_>, additive: &Additive, own: bool) {
        if additive.form != Form::Liquid {
            let message = format!("{:?} does not pour, so it cannot stand in for water", additive.id);
            let advice = if own {
                "add \"form\": \"liquid\" to its composition if it does"
            } else {
                "put it into the \"doses\" of the lye or of a layer"
            };
            self.report(at, "water.liquid", message, advice);
        } else if additive.in_lye.comes_after() {
            let message =
                format!("{:?} goes into finished lye, so it cannot stand in for water", additive.id);
            self.report(
                at,
                "water.liquid",
                message,
                "leave out its \"in_lye\", or put it into the \"doses\" of the lye",
            );
        } else if additive.composition.water < LEAST_WATER {
            let message = format!(
                "{:?} is {} water, and a liquid that stands in for water must be at least {LEAST_WATER}",
                additive.id, additive.composition.water
            );
            self.report(at, "water.liquid", message, "put it into the \"doses\" of the lye or of a layer");
        }
    }
}
