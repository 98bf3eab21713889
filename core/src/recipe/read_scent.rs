//! What a document says of labels and of what a scent's supplier certifies.

use std::collections::BTreeSet;

use super::nearest::nearest;
use super::read_value::{Fields, Node, Reader, echo};
use super::tables::{FLASH_POINT, SHARE};
use super::tables_dose;
use crate::limits;
use crate::material::{ScentCertificate, library};
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
            allergens: summed(allergens),
            vanillin: vanillin?,
            flash_point: flash_point?,
        })
    }

    fn scent_allergen(&mut self, at: &Node<'_>, seen: &mut BTreeSet<String>) -> Option<(String, Share)> {
        let fields = self.object(at, &tables_dose::SCENT_ALLERGEN)?;
        let allergen = self.needed(&fields, "allergen", |reader, at| {
            let name = reader.name(at, 1)?;
            let known = library::allergen(name);
            match known {
                Some(_) if !seen.insert(library::allergen_key(name)) => {
                    let message = format!("{} stands twice among the allergens", echo(name));
                    reader.report(at, "name.duplicate", message, "add the two up, or leave one out");
                }
                Some(_) => {}
                None => {
                    // What sounds alike may be another substance: the number tells.
                    let names = library::allergens().iter().map(|row| &*row.name);
                    let near = nearest(name, names).and_then(library::allergen);
                    let advice = near.map_or_else(
                        || "leave it out: a label need not name it".to_owned(),
                        |near| {
                            let cas = near.cas.join(" or ");
                            format!(
                                "look at its CAS number: only if that is {cas}, write {:?}; else leave it out",
                                near.name
                            )
                        },
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

/// Isomers and members of a group are one allergen: the law sums them.
fn summed(stated: Vec<(String, Share)>) -> Vec<(String, Share)> {
    let mut sums: Vec<(String, Share)> = Vec::with_capacity(stated.len());
    for (id, share) in stated {
        match sums.iter_mut().find(|(known, _)| *known == id) {
            Some((_, sum)) => *sum += share,
            None => sums.push((id, share)),
        }
    }
    sums
}
