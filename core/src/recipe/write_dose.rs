//! Doses and what a document says of their materials, as text of the document.

use super::Certificate;
use super::dose::{Amount, Dose, Ingredient, Treatment};
use super::json::{Json, Value, object, text};
use super::read_composition::usual_in_lye;
use super::read_dose::Vessel;
use super::read_own::{PARTS, certificate_of, part};
use super::tables::{BASIS, FORM, IN_LYE, SCENT_KIND, TREATMENT};
use super::write::Entries;
use crate::material::{Additive, Composition, Form, Inci, ScentCertificate, library};
use crate::quantity::Share;

/// The fields `doses`, `colours` and `scents`; empty ones are left out.
pub(crate) fn lists(doses: &[Dose], vessel: Vessel) -> Entries {
    let mut entries = Entries::default();
    let of = |wanted: fn(&Ingredient) -> bool| {
        doses.iter().filter(move |dose| wanted(&dose.ingredient)).map(move |item| dose(item, vessel))
    };
    entries.list("doses", of(|item| matches!(item, Ingredient::Additive(_) | Ingredient::Fat(_))));
    entries.list("colours", of(|item| matches!(item, Ingredient::Colourant(_))));
    entries.list("scents", of(|item| matches!(item, Ingredient::Fragrance(_))));
    entries
}

fn dose(dose: &Dose, vessel: Vessel) -> Json {
    let mut entries = Entries::default();
    match &dose.ingredient {
        Ingredient::Additive(additive) => of_additive(&mut entries, "additive", additive, dose.own),
        Ingredient::Fat(fat) => entries.put("fat", text(&*fat.id)),
        Ingredient::Colourant(colour) => {
            entries.put("colour", text(&*colour.id));
            let usual = library::colourant(&colour.id).map_or(&colour.id, |known| &known.name);
            entries.unless(!dose.own || colour.name == *usual, "name", || text(&*colour.name));
            entries.unless(!dose.own, "swatch", || text(&*colour.swatch));
            let usual = library::colourant(&colour.id).and_then(|known| known.colour_index.as_deref());
            label(&mut entries, "colour_index", colour.colour_index.as_deref(), usual);
        }
        Ingredient::Fragrance(scent) => {
            entries.put("scent", text(&*scent.id));
            let usual = library::fragrance(&scent.id).map_or(&scent.id, |known| &known.name);
            entries.unless(!dose.own || scent.name == *usual, "name", || text(&*scent.name));
            entries.unless(!dose.own, "kind", || text(SCENT_KIND.name(scent.kind)));
            let usual = library::fragrance(&scent.id).and_then(|known| known.inci.as_deref());
            label(&mut entries, "inci", scent.inci.as_deref(), usual);
        }
        // Only the log of a batch has one.
        Ingredient::Alkali(..) => {}
    }
    match dose.amount {
        Amount::Mass(mass) => entries.quantity("dose", mass),
        Amount::Share(share, basis) => {
            entries.quantity("dose", share);
            entries.unless(basis == vessel.default_basis(), "of", || text(BASIS.name(basis)));
        }
    }
    treatment(&mut entries, dose.treatment);
    match &dose.ingredient {
        Ingredient::Additive(additive) if dose.own => entries.put("composition", composition(additive)),
        Ingredient::Fat(fat) if dose.own => entries.put("certificate", certificate(&certificate_of(fat))),
        Ingredient::Fragrance(scent) => {
            if let Some(certificate) = &scent.certificate {
                entries.put("certificate", scent_certificate(certificate));
            }
        }
        _ => {}
    }
    entries.object()
}

/// A label name where it is not the library's.
fn label(entries: &mut Entries, field: &str, stated: Option<&str>, usual: Option<&str>) {
    if let Some(name) = stated.filter(|name| usual != Some(*name)) {
        entries.put(field, text(name));
    }
}

fn scent_certificate(certificate: &ScentCertificate) -> Json {
    let mut entries = Entries::default();
    entries.unless(certificate.reference.is_empty(), "reference", || text(&certificate.reference));
    if let Some(amendment) = certificate.amendment {
        entries.put("amendment", Value::Whole(amendment.into()).json());
    }
    if let Some(limit) = certificate.limit {
        entries.quantity("limit", limit);
    }
    let allergen = |(id, share): &(String, Share)| {
        let mut entries = Entries::default();
        let name = library::allergens().iter().find(|row| row.id == *id).map_or(id.as_str(), |row| &row.name);
        entries.put("allergen", text(name));
        entries.quantity("share", share);
        entries.object()
    };
    entries.list("allergens", certificate.allergens.iter().map(allergen));
    if let Some(vanillin) = certificate.vanillin {
        entries.quantity("vanillin", vanillin);
    }
    if let Some(flash_point) = certificate.flash_point {
        entries.quantity("flash_point", flash_point);
    }
    entries.object()
}

/// What the lye does, where it does something.
pub(crate) fn treatment(entries: &mut Entries, treatment: Treatment) {
    entries.unless(treatment == Treatment::default(), "treatment", || text(TREATMENT.name(treatment)));
}

/// Id and, where the document gave it one, name of an additive.
pub(crate) fn of_additive(entries: &mut Entries, key: &str, additive: &Additive, own: bool) {
    entries.put(key, text(&*additive.id));
    let usual = library::additive(&additive.id).map_or(&additive.id, |known| &known.name);
    entries.unless(!own || additive.name == *usual, "name", || text(&*additive.name));
    let usual = library::additive(&additive.id).and_then(|known| known.inci.as_deref());
    label(entries, "inci", additive.inci.as_deref(), usual);
}

/// What the composition of an additive says beyond the library.
pub(crate) fn composition(additive: &Additive) -> Json {
    let known = library::additive(&additive.id);
    let mut entries = Entries::default();
    let (mut stated, mut usual) =
        (additive.composition, known.map_or(Composition::default(), |known| known.composition));
    for name in PARTS {
        if let Some((share, usual)) = part(&mut stated, name).zip(part(&mut usual, name)) {
            entries.unless(share == usual, name, || text(share.to_string()));
        }
    }
    let mut implied = known.and_then(|known| known.fat_saponification_value);
    if let Some(like) = additive
        .fat_like
        .as_deref()
        .filter(|like| known.is_none_or(|known| known.fat_like.as_deref() != Some(*like)))
    {
        entries.put("fat_like", text(like));
        implied = library::fat(like).map(|fat| fat.saponification_value.typical);
    }
    if let Some(acid) = additive.acid.as_deref() {
        let usual = known.and_then(|known| known.acid.as_deref());
        entries.unless(usual == Some(acid), "acid_is", || text(acid));
    }
    let usual = known.map_or(Form::Paste, |known| known.form);
    entries.unless(additive.form == usual, "form", || text(FORM.name(additive.form)));
    if let Some(value) = additive.fat_saponification_value {
        entries.unless(implied == Some(value), "fat_saponification_value", || text(value.to_string()));
    }
    let kind = additive.in_lye;
    entries.unless(kind == usual_in_lye(additive), "in_lye", || text(IN_LYE.name(kind)));
    entries.object()
}

/// A certificate.
pub(crate) fn certificate(certificate: &Certificate) -> Json {
    let mut entries = Entries::default();
    if let Some(value) = certificate.saponification_value {
        entries.quantity("saponification_value", value);
    }
    if let Some(value) = certificate.iodine_value {
        entries.quantity("iodine_value", value);
    }
    if let Some(value) = certificate.unsaponifiable {
        entries.quantity("unsaponifiable", value);
    }
    if let Some(value) = certificate.density {
        entries.quantity("density", value);
    }
    if let Some(profile) = &certificate.profile {
        let share = |(acid, share): &(_, Share)| (ToString::to_string(acid), text(share.to_string()));
        entries.put("profile", object(profile.iter().map(share).collect::<Vec<(String, Json)>>()));
    }
    let Inci { fat, sodium_soap, potassium_soap } = &certificate.inci;
    label(&mut entries, "inci", fat.as_deref(), None);
    label(&mut entries, "sodium_soap_inci", sodium_soap.as_deref(), None);
    label(&mut entries, "potassium_soap_inci", potassium_soap.as_deref(), None);
    entries.object()
}
