//! What a document says of labels and of what a scent's supplier certifies.

use std::collections::BTreeSet;

use super::nearest::nearest;
use super::read_value::{Fields, Node, Reader, echo};
use super::tables::{FLASH_POINT, SHARE};
use super::tables_dose;
use crate::limits;
use crate::material::{Allergen, ScentCertificate, library};
use crate::quantity::Share;

impl Reader {
    /// A label name that the document states.
    pub(crate) fn label_name(&mut self, fields: &Fields<'_>, field: &str) -> Option<Option<String>> {
        self.maybe(fields, field, None, |reader, at| reader.name(at, 1).map(|name| Some(name.to_owned())))
    }

    pub(crate) fn scent_certificate(&mut self, at: &Node<'_>) -> Option<ScentCertificate> {
        let fields = self.object(at, &tables_dose::SCENT_CERTIFICATE)?;
        let reference = self
            .maybe(&fields, "reference", String::new(), |reader, at| reader.name(at, 1).map(str::to_owned));
        let amendment = self.maybe(&fields, "amendment", None, |reader, at| {
            reader.number(at, &limits::RECIPE_AMENDMENT).map(Some)
        });
        let limit = self.maybe(&fields, "limit", None, |reader, at| reader.positive(at, &SHARE).map(Some));
        let mut seen = BTreeSet::new();
        let allergens =
            self.items(&fields, "allergens", 0, |reader, at| reader.scent_allergen(at, &mut seen));
        let vanillin =
            self.maybe(&fields, "vanillin", None, |reader, at| reader.quantity(at, &SHARE).map(Some));
        let flash_point = self
            .maybe(&fields, "flash_point", None, |reader, at| reader.quantity(at, &FLASH_POINT).map(Some));
        let allergens = allergens?;
        let sum: Share = allergens.iter().map(|(_, share)| *share).sum();
        if let Some(at) = fields.get("allergens").filter(|_| sum > Share::literal(1, 0)) {
            let message = format!("the allergens sum to {sum}, more than the whole scent");
            self.report(&at, "material.composition", message, "state each as a share of the scent by mass");
            return None;
        }
        Some(ScentCertificate {
            reference: reference?,
            amendment: amendment?,
            limit: limit?,
            allergens,
            vanillin: vanillin?,
            flash_point: flash_point?,
        })
    }

    fn scent_allergen(&mut self, at: &Node<'_>, seen: &mut BTreeSet<String>) -> Option<(String, Share)> {
        let fields = self.object(at, &tables_dose::SCENT_ALLERGEN)?;
        let allergen = self.needed(&fields, "allergen", |reader, at| {
            let name = reader.name(at, 1)?;
            let known = allergen(name);
            match known {
                Some(known) => reader.unique(at, seen, &known.id, "allergens"),
                None => {
                    let names = library::allergens().iter().map(|row| &*row.name);
                    let advice = nearest(name, names).map_or_else(
                        || "leave it out: only substances that a label must name count".to_owned(),
                        |near| format!("write {near:?}"),
                    );
                    let message = format!("{} is on no list of fragrance allergens", echo(name));
                    reader.report(at, "material.unknown", message, advice);
                }
            }
            known
        });
        let share = self.needed(&fields, "share", |reader, at| reader.quantity(at, &SHARE));
        Some((allergen?.id.to_string(), share?))
    }
}

/// The allergen of an id or a name, whatever its capitals.
fn allergen(name: &str) -> Option<&'static Allergen> {
    library::allergens().iter().find(|row| row.id == name || row.name.eq_ignore_ascii_case(name))
}
