//! What a document says a material is made of, and how it behaves in lye.

use super::read_own::{PARTS, part, stated};
use super::read_value::{Node, Reader};
use super::tables::{self, FORM, IN_LYE, SHARE};
use super::tables_dose;
use crate::material::{Additive, Form, InLye, library};
use crate::quantity::Share;

/// How an additive whose composition is stated behaves in lye where the document does not say: as its row of the library
/// says, if that asks for more care than water and still fits what it is made of.
pub(crate) fn usual_in_lye(additive: &Additive) -> InLye {
    let fits = |kind: InLye| !kind.comes_after() || (additive.form != Form::Liquid && !is_harsh(additive));
    let known = library::additive(&additive.id).map(|known| known.in_lye);
    known
        .filter(|kind| *kind != InLye::Water && fits(*kind))
        .unwrap_or_else(|| InLye::of(additive.form, &additive.composition))
}

/// Whether finished lye boils up on it.
fn is_harsh(additive: &Additive) -> bool {
    let parts = &additive.composition;
    [parts.acid, parts.sugars, parts.alcohol].into_iter().any(|part| !part.is_zero())
}

impl Reader {
    pub(crate) fn composition(&mut self, at: &Node<'_>, mut additive: Additive) -> Option<Additive> {
        let before = self.count();
        let fields = self.object(at, &tables_dose::COMPOSITION)?;
        for name in PARTS {
            let share = self.needed(&fields, name, |reader, at| reader.quantity::<Share>(at, &SHARE));
            if let Some((part, share)) = part(&mut additive.composition, name).zip(share) {
                *part = share;
            }
        }
        if let Some(form) = self.needed(&fields, "form", |reader, at| reader.word(at, &FORM)) {
            additive.form = form;
        }
        if let Some(fat) = self.needed(&fields, "fat_like", |reader, at| {
            let id = reader.name(at, 1)?;
            let fat = library::fat(id);
            if fat.is_none() {
                reader.unknown(
                    at,
                    id,
                    "fat",
                    library::Kind::Fat,
                    "use an id of the library, such as \"olive-oil\"",
                );
            }
            fat
        }) {
            additive.fat_like = Some(fat.id.clone());
            additive.fat_saponification_value = Some(fat.saponification_value.typical);
        }
        if let Some(acid) = self.needed(&fields, "acid_is", |reader, at| {
            let id = reader.name(at, 1)?;
            let acid = library::acid(id);
            if acid.is_none() {
                reader.unknown(
                    at,
                    id,
                    "acid",
                    library::Kind::Acid,
                    "use an id of the library, such as \"citric\"",
                );
            }
            acid
        }) {
            additive.acid = Some(acid.id.clone());
        }
        let value = self.needed(&fields, "fat_saponification_value", |reader, at| {
            reader.quantity(at, &tables::SAPONIFICATION)
        });
        additive.fat_saponification_value = value.or(additive.fat_saponification_value);
        let stated_in_lye = self.needed(&fields, "in_lye", |reader, at| reader.word(at, &IN_LYE));
        additive.in_lye = stated_in_lye.unwrap_or_else(|| usual_in_lye(&additive));
        if self.count() > before {
            return None;
        }
        additive.bases.to_mut().push(stated("composition", "composition stated in the recipe"));
        self.fits_together(at, &additive).then_some(additive)
    }

    fn fits_together(&mut self, at: &Node<'_>, additive: &Additive) -> bool {
        let before = self.count();
        let parts = &additive.composition;
        let code = "material.composition";
        if parts.named() > Share::literal(1, 0) {
            let with =
                if library::additive(&additive.id).is_some() { ", with those of the library," } else { "" };
            let message = format!("the parts{with} sum to {}, more than the whole", parts.named());
            self.report(
                at,
                code,
                message,
                "bring them to 100 % or less; what they leave over is other matter",
            );
        }
        if !parts.fat.is_zero() && additive.fat_like.is_none() && additive.fat_saponification_value.is_none()
        {
            let message = format!("nothing says what alkali its fat of {} takes up", parts.fat);
            self.report(
                at,
                code,
                message,
                "add \"fat_like\" with the id of a fat, or \"fat_saponification_value\"",
            );
        }
        if !parts.acid.is_zero() && additive.acid.is_none() {
            let message = format!("nothing says which acid the {} are", parts.acid);
            self.report(at, code, message, "add \"acid_is\" with the id of an acid, such as \"citric\"");
        }
        if additive.in_lye.comes_after() && is_harsh(additive) {
            let message = format!("acid, sugar or spirit in {:?} makes finished lye boil up", additive.id);
            let advice = "write \"in_lye\": \"water\", or \"frozen\" for what scorches";
            self.report(at, code, message, advice);
        }
        self.count() == before
    }
}
