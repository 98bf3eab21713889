//! Doses: additives, fats, colours and scents, and how much of each.

use std::borrow::Cow;

use super::dose::{Amount, Dose, DoseBasis, Ingredient, Treatment};
use super::read_own::stated;
use super::read_value::{Fields, Node, Reader, echo};
use super::tables::{BASIS, DOSE, MASS, SCENT_KIND, TREATMENT};
use super::tables_dose;
use crate::material::fragrance::Pace;
use crate::material::{Basis, BasisKind, Colourant, ColourantKind, Fragrance, FragranceKind, library};
use crate::quantity::Share;

/// Largest usual dose of a colour or scent that the document describes: nothing is known of it.
///
/// # Source
/// Common practice, no source: 3 % of the fat.
const USUAL_MAX: Share = Share::literal(3, 2);

/// What the doses go into.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Vessel {
    /// The jug of one or more layers.
    Jug,
    /// The pot of fats, or the lye: before there are layers.
    Batch,
}

impl Vessel {
    /// What a share is a share of when the dose does not say.
    pub(crate) const fn default_basis(self) -> DoseBasis {
        match self {
            Self::Jug => DoseBasis::LayerFat,
            Self::Batch => DoseBasis::BatchFat,
        }
    }
}

impl Reader {
    /// What the fields `doses`, `colours` and `scents` hold, in this order.
    pub(crate) fn all_doses(&mut self, fields: &Fields<'_>, vessel: Vessel) -> Option<Vec<Dose>> {
        let doses = self.items(fields, "doses", 0, |reader, at| reader.dose(at, vessel));
        let colours = self.items(fields, "colours", 0, |reader, at| reader.colour(at, vessel));
        let scents = self.items(fields, "scents", 0, |reader, at| reader.scent(at, vessel));
        let mut all = doses?;
        all.append(&mut colours?);
        all.append(&mut scents?);
        Some(all)
    }

    /// A dose of an additive or a fat.
    pub(crate) fn dose(&mut self, at: &Node<'_>, vessel: Vessel) -> Option<Dose> {
        let table = match (at.has("additive"), at.has("fat")) {
            (true, false) => &tables_dose::ADDITIVE_DOSE,
            (false, true) => &tables_dose::FAT_DOSE,
            _ => &tables_dose::ANY_DOSE,
        };
        let fields = self.object(at, table)?;
        let ingredient = if fields.has("fat") && fields.has("additive") {
            None
        } else if fields.has("fat") {
            let fat = self.fat(&fields);
            fat.map(|(fat, certificate)| (Ingredient::Fat(fat), certificate != super::Certificate::default()))
        } else {
            self.additive(&fields, "additive", false)
                .map(|(additive, own)| (Ingredient::Additive(additive), own))
        };
        let amount = self.amount(&fields, vessel);
        let treatment = self.treatment(&fields);
        let ((ingredient, own), amount, treatment) = (ingredient?, amount?, treatment?);
        let dose = Dose { ingredient, amount, treatment, own, pointer: at.pointer.clone() };
        if let (Some(at), Treatment::Balance, true) = (fields.get("treatment"), treatment, dose.is_late()) {
            let message =
                "a dose that is reckoned on the mixture comes after the lye, which cannot follow it";
            let advice = "dose it \"of\": \"layer fat\" or in grams, or leave out \"treatment\"";
            self.report(&at, "dose.balance", message, advice);
        }
        Some(dose)
    }

    /// What the lye does about it.
    pub(crate) fn treatment(&mut self, fields: &Fields<'_>) -> Option<Treatment> {
        self.maybe(fields, "treatment", Treatment::Absorb, |reader, at| reader.word(at, &TREATMENT))
    }

    fn colour(&mut self, at: &Node<'_>, vessel: Vessel) -> Option<Dose> {
        let fields = self.object(at, &tables_dose::COLOUR)?;
        let own = fields.has("swatch");
        let swatch = self.maybe(&fields, "swatch", None, |reader, at| reader.swatch(at).map(Some));
        let name = self.own_name(&fields, own, "swatch");
        let colour = self.needed(&fields, "colour", |reader, at| {
            let id = reader.name(at, 1)?;
            let known = library::colourant(id);
            if known.is_none() && !own {
                let advice = "add a \"swatch\" such as \"#2a52be\" to describe one of your own";
                reader.unknown(at, id, "colour", library::Kind::Colourant, advice);
                return None;
            }
            Some(known.cloned().unwrap_or_else(|| own_colour(id)))
        });
        let amount = self.amount(&fields, vessel);
        let number = self.label_name(&fields, "colour_index");
        let (mut colour, swatch, name) = (colour?, swatch?, name?);
        if let Some(number) = number? {
            colour.colour_index = Some(number.into());
        }
        if let Some(swatch) = swatch {
            colour.swatch = swatch.into();
            colour.bases.to_mut().push(stated("swatch", "stated in the recipe"));
        }
        if let Some(name) = name {
            colour.name = name.into();
        }
        Some(Dose {
            ingredient: Ingredient::Colourant(colour),
            amount: amount?,
            treatment: Treatment::Absorb,
            own,
            pointer: at.pointer.clone(),
        })
    }

    fn scent(&mut self, at: &Node<'_>, vessel: Vessel) -> Option<Dose> {
        let fields = self.object(at, &tables_dose::SCENT)?;
        let own = fields.has("kind");
        let kind = self.maybe(&fields, "kind", None, |reader, at| reader.word(at, &SCENT_KIND).map(Some));
        let name = self.own_name(&fields, own, "kind");
        let scent = self.needed(&fields, "scent", |reader, at| {
            let id = reader.name(at, 1)?;
            let known = library::fragrance(id);
            if known.is_none() && !own {
                let advice = "add a \"kind\", \"essential oil\" or \"compound\", to describe one of your own";
                reader.unknown(at, id, "scent", library::Kind::Fragrance, advice);
                return None;
            }
            Some(known.cloned().unwrap_or_else(|| own_scent(id)))
        });
        let amount = self.amount(&fields, vessel);
        let inci = self.label_name(&fields, "inci");
        let certificate = self.maybe(&fields, "certificate", None, |reader, at| {
            reader.scent_certificate(at).map(Box::new).map(Some)
        });
        let (mut scent, kind, name) = (scent?, kind?, name?);
        if let Some(inci) = inci? {
            scent.inci = Some(inci.into());
        }
        scent.certificate = certificate?;
        if let Some(kind) = kind {
            scent.kind = kind;
            scent.bases.to_mut().push(stated("kind", "stated in the recipe"));
        }
        if let Some(name) = name {
            scent.name = name.into();
        }
        Some(Dose {
            ingredient: Ingredient::Fragrance(scent),
            amount: amount?,
            treatment: Treatment::Absorb,
            own,
            pointer: at.pointer.clone(),
        })
    }

    /// `#rrggbb`, as small letters.
    fn swatch(&mut self, at: &Node<'_>) -> Option<String> {
        let text = self.text(at, "write for example \"#2a52be\"")?;
        let digits = text.strip_prefix('#').unwrap_or("");
        if digits.len() == 6 && digits.chars().all(|digit| digit.is_ascii_hexdigit()) {
            return Some(text.to_ascii_lowercase());
        }
        let message = format!("{} is no colour", echo(text));
        self.report(at, "field.word", message, "write # and six digits of 0-9 and a-f: \"#2a52be\"");
        None
    }

    /// The fields `dose` and `of`.
    fn amount(&mut self, fields: &Fields<'_>, vessel: Vessel) -> Option<Amount> {
        let basis = self.maybe(fields, "of", vessel.default_basis(), |reader, at| reader.word(at, &BASIS));
        let amount = self.needed(fields, "dose", |reader, at| {
            let text = reader.quantity_text(at, &DOSE)?;
            Some(match reader.first_that_fits(at, text, &[DOSE, MASS])? {
                0 => Amount::Share(reader.parsed(at, text, &DOSE)?, basis.unwrap_or(vessel.default_basis())),
                _ => Amount::Mass(reader.parsed(at, text, &MASS)?),
            })
        });
        let of = fields.get("of");
        match (amount, of) {
            (Some(Amount::Mass(_)), Some(at)) => {
                let advice = "leave out \"of\", or write the dose in per cent";
                self.report(&at, "dose.basis", "a dose in units of mass is a share of nothing", advice);
            }
            (_, Some(at))
                if vessel == Vessel::Batch && basis.is_some_and(|basis| basis != DoseBasis::BatchFat) =>
            {
                let message =
                    "before the batch is divided there is no layer and no mixture to take a share of";
                self.report(&at, "dose.basis", message, "write \"batch fat\", or the dose in grams");
            }
            _ => {}
        }
        basis.and(amount)
    }
}

fn own_basis() -> Basis {
    Basis {
        what: "largest usual dose".into(),
        kind: BasisKind::CommonPractice,
        cite: "3 % of the fat, for want of a figure".into(),
        seen: false,
    }
}

fn own_colour(id: &str) -> Colourant {
    Colourant {
        id: Cow::Owned(id.to_owned()),
        name: Cow::Owned(id.to_owned()),
        kind: ColourantKind::Pigment,
        colour_index: None,
        swatch: Cow::Borrowed(""),
        usual_max: USUAL_MAX,
        alkali_stable: true,
        bases: Cow::Owned(vec![own_basis()]),
        note: Cow::Borrowed("Described in the recipe; nothing is known of how it keeps in alkali."),
    }
}

fn own_scent(id: &str) -> Fragrance {
    Fragrance {
        id: Cow::Owned(id.to_owned()),
        name: Cow::Owned(id.to_owned()),
        kind: FragranceKind::Compound,
        inci: None,
        pace: Pace::Unknown,
        usual_max: USUAL_MAX,
        certificate: None,
        bases: Cow::Owned(vec![own_basis()]),
        note: Cow::Borrowed(
            "Described in the recipe; its supplier's certificate says how much a bar may hold.",
        ),
    }
}
