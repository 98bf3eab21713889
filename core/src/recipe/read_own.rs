//! Materials: by id from the library, with a certificate's or a maker's own figures in place of the library's.

use std::borrow::Cow;
use std::collections::BTreeSet;

use super::Certificate;
use super::json::Value;
use super::read_value::{Fields, Node, Reader, echo};
use super::tables::{self, SHARE};
use super::tables_dose;
use crate::material::{
    AcidShare, Additive, Basis, BasisKind, Composition, Fat, FatDensity, FattyAcid, Form, InLye, Inci,
    Ranged, library,
};
use crate::quantity::{Share, Temperature};

/// Least and most that the fatty acids of a certificate may sum to: rounding and traces that are not listed.
const PROFILE_SUM: (Share, Share) = (Share::literal(95, 2), Share::literal(101, 2));

/// The temperature at which a certificate states a density.
const CERTIFICATE_AT: Temperature = Temperature::literal(20, 0);

/// The parts of a composition by their field.
pub(crate) const PARTS: [&str; 9] =
    ["water", "fat", "sugars", "protein", "fibre", "minerals", "alcohol", "polyols", "acid"];

/// The part of a composition that a field names.
pub(crate) fn part<'c>(of: &'c mut Composition, name: &str) -> Option<&'c mut Share> {
    Some(match name {
        "water" => &mut of.water,
        "fat" => &mut of.fat,
        "sugars" => &mut of.sugars,
        "protein" => &mut of.protein,
        "fibre" => &mut of.fibre,
        "minerals" => &mut of.minerals,
        "alcohol" => &mut of.alcohol,
        "polyols" => &mut of.polyols,
        "acid" => &mut of.acid,
        _ => return None,
    })
}

/// The basis of a figure that the document states.
pub(crate) fn stated(what: impl Into<Cow<'static, str>>, cite: &'static str) -> Basis {
    Basis { what: what.into(), kind: BasisKind::Supplier, cite: cite.into(), seen: true }
}

impl Reader {
    /// Reports an id that is in no table of its kind.
    pub(crate) fn unknown(
        &mut self,
        at: &Node<'_>,
        id: &str,
        what: &str,
        kind: library::Kind,
        else_do: &str,
    ) {
        let elsewhere = [
            (library::Kind::Fat, "is a fat: dose it with \"fat\""),
            (library::Kind::Additive, "is an additive, for \"doses\""),
            (library::Kind::Colourant, "is a colour, for \"colours\""),
            (library::Kind::Fragrance, "is a scent, for \"scents\""),
        ];
        let mut others = elsewhere.into_iter().filter(|(other, _)| *other != kind);
        let other = others.find(|(other, _)| library::ids(*other).contains(&id));
        let advice = match (other, library::similar(id, kind)) {
            (Some((_, where_to)), _) => format!("{id:?} {where_to}"),
            (None, Some(near)) => format!("write {near:?}"),
            (None, None) => else_do.to_owned(),
        };
        self.report(at, "material.unknown", format!("there is no {what} {}", echo(id)), advice);
    }

    /// A fat of the library with the figures of its certificate.
    pub(crate) fn fat(&mut self, fields: &Fields<'_>) -> Option<(Fat, Certificate)> {
        let known = self.needed(fields, "fat", |reader, at| {
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
        });
        let certificate =
            self.maybe(fields, "certificate", Certificate::default(), |reader, at| reader.certificate(at));
        let (fat, certificate) = known.zip(certificate)?;
        Some((certified(fat.clone(), &certificate), certificate))
    }

    fn certificate(&mut self, at: &Node<'_>) -> Option<Certificate> {
        let fields = self.object(at, &tables_dose::CERTIFICATE)?;
        let saponification_value = self.maybe(&fields, "saponification_value", None, |reader, at| {
            reader.quantity(at, &tables::SAPONIFICATION).map(Some)
        });
        let iodine_value = self.maybe(&fields, "iodine_value", None, |reader, at| {
            reader.quantity(at, &tables::IODINE).map(Some)
        });
        let unsaponifiable =
            self.maybe(&fields, "unsaponifiable", None, |reader, at| reader.quantity(at, &SHARE).map(Some));
        let density = self
            .maybe(&fields, "density", None, |reader, at| reader.quantity(at, &tables::DENSITY).map(Some));
        let profile = self.maybe(&fields, "profile", None, |reader, at| reader.profile(at).map(Some));
        let inci = self.label_name(&fields, "inci");
        let sodium_soap = self.label_name(&fields, "sodium_soap_inci");
        let potassium_soap = self.label_name(&fields, "potassium_soap_inci");
        Some(Certificate {
            saponification_value: saponification_value?,
            iodine_value: iodine_value?,
            unsaponifiable: unsaponifiable?,
            density: density?,
            profile: profile?,
            inci: Inci {
                fat: inci?.map(Cow::Owned),
                sodium_soap: sodium_soap?.map(Cow::Owned),
                potassium_soap: potassium_soap?.map(Cow::Owned),
            },
        })
    }

    /// Fatty acids as keys, shares as values; in the order of the acids.
    fn profile(&mut self, at: &Node<'_>) -> Option<Vec<(FattyAcid, Share)>> {
        let before = self.count();
        let Value::Object(entries) = &at.json.value else {
            self.wrong_type(
                at,
                "an object",
                "write for example { \"C16:0\": \"12 %\", \"C18:1\": \"86 %\" }",
            );
            return None;
        };
        let mut seen = BTreeSet::new();
        let mut profile = Vec::new();
        for (key, json) in entries {
            let child = at.child(key, json);
            if !seen.insert(key) {
                let message = format!("{} stands twice in a profile", echo(key));
                self.report(&child, "document.duplicate", message, "keep one of the two");
                continue;
            }
            let acid = key.parse::<FattyAcid>().ok().filter(|acid| acid.to_string() == *key);
            if acid.is_none() {
                let message = format!("{} is no fatty acid", echo(key));
                let advice =
                    "write carbons and double bonds, such as \"C18:1\", \"C18:1-OH\" or \"C18:3-gamma\"";
                self.report(&child, "field.unknown", message, advice);
            }
            profile.extend(acid.zip(self.quantity::<Share>(&child, &SHARE)));
        }
        if self.count() > before {
            return None;
        }
        let sum: Share = profile.iter().map(|(_, share)| *share).sum();
        if sum < PROFILE_SUM.0 || sum > PROFILE_SUM.1 {
            let message =
                format!("the fatty acids sum to {sum}, outside {} to {}", PROFILE_SUM.0, PROFILE_SUM.1);
            self.report(at, "fat.profile.sum", message, "state every acid of the certificate, by mass");
            return None;
        }
        profile.sort_by_key(|(acid, _)| *acid);
        Some(profile)
    }

    /// The additive under the key `key`, and whether the document describes it.
    pub(crate) fn additive(
        &mut self,
        fields: &Fields<'_>,
        key: &str,
        liquid: bool,
    ) -> Option<(Additive, bool)> {
        let at = fields.get(key);
        let id = at.as_ref().and_then(|at| self.name(at, 1));
        let known = id.and_then(library::additive);
        let own = fields.has("composition");
        if let (Some(at), Some(id), None, false) = (&at, id, known, own) {
            let (what, kind) = if liquid {
                ("liquid", library::Kind::Liquid)
            } else {
                ("additive", library::Kind::Additive)
            };
            self.unknown(at, id, what, kind, "add a \"composition\" to describe one of your own");
        }
        let name = self.own_name(fields, own, "composition");
        let start = known.cloned().unwrap_or_else(|| blank(id.unwrap_or("")));
        let additive =
            self.maybe(fields, "composition", start.clone(), |reader, at| reader.composition(at, start));
        let mut additive = additive.filter(|_| id.is_some() && (known.is_some() || own))?;
        if let Some(name) = name? {
            additive.name = name.into();
        }
        if let Some(inci) = self.label_name(fields, "inci")? {
            additive.inci = Some(inci.into());
        }
        Some((additive, own))
    }

    /// The name of a material of one's own; one of the library has its name.
    pub(crate) fn own_name(&mut self, fields: &Fields<'_>, own: bool, with: &str) -> Option<Option<String>> {
        self.maybe(fields, "name", None, |reader, at| {
            if own {
                return reader.name(at, 1).map(|name| Some(name.to_owned()));
            }
            let message = "a material of the library has its name already";
            reader.report(
                at,
                "field.unknown",
                message,
                format!("leave out \"name\", or describe your own with {with:?}"),
            );
            None
        })
    }
}

/// An additive of which nothing but the id is known.
fn blank(id: &str) -> Additive {
    Additive {
        id: Cow::Owned(id.to_owned()),
        name: Cow::Owned(id.to_owned()),
        form: Form::Paste,
        in_lye: InLye::Fats,
        composition: Composition::default(),
        fat_like: None,
        fat_saponification_value: None,
        acid: None,
        fresh: false,
        allergen: None,
        inci: None,
        bases: Cow::Owned(Vec::new()),
        note: Cow::Borrowed(""),
    }
}

/// The fat with the certificate's figures in place of its own.
fn certified(mut fat: Fat, certificate: &Certificate) -> Fat {
    if *certificate == Certificate::default() {
        return fat;
    }
    if let Some(value) = certificate.saponification_value {
        fat.saponification_value = Ranged::exactly(value);
    }
    if let Some(value) = certificate.iodine_value {
        fat.iodine_value = Some(Ranged::exactly(value));
    }
    if let Some(value) = certificate.unsaponifiable {
        fat.unsaponifiable_stated = Some(value);
    }
    if let Some(typical) = certificate.density {
        fat.density = Some(FatDensity { typical, at: CERTIFICATE_AT });
    }
    if let Some(profile) = &certificate.profile {
        let exact =
            |(acid, share): &(FattyAcid, Share)| AcidShare { acid: *acid, share: Ranged::exactly(*share) };
        fat.profile = profile.iter().map(exact).collect();
    }
    for (name, stated) in inci_names(&mut fat.inci).into_iter().zip(inci_names(&mut certificate.inci.clone()))
    {
        if stated.is_some() {
            name.clone_from(stated);
        }
    }
    fat.bases.to_mut().push(stated("figures of the certificate", "certificate stated in the recipe"));
    fat
}

/// The label names of a fat and of its soaps.
fn inci_names(inci: &mut Inci) -> [&mut Option<Cow<'static, str>>; 3] {
    [&mut inci.fat, &mut inci.sodium_soap, &mut inci.potassium_soap]
}

/// The certificate that makes `fat` of the library's fat of its id; the reverse of [`certified`].
pub(crate) fn certificate_of(fat: &Fat) -> Certificate {
    let Some(known) = library::fat(&fat.id) else { return Certificate::default() };
    let exact = fat.profile.iter().all(|line| line.share == Ranged::exactly(line.share.typical));
    let profile: Vec<_> = fat.profile.iter().map(|line| (line.acid, line.share.typical)).collect();
    let sum: Share = profile.iter().map(|(_, share)| *share).sum();
    let fits = exact && profile.is_sorted() && (PROFILE_SUM.0..=PROFILE_SUM.1).contains(&sum);
    let value = fat.saponification_value;
    let all = Certificate {
        saponification_value: (value == Ranged::exactly(value.typical)).then_some(value.typical),
        iodine_value: fat
            .iodine_value
            .filter(|value| *value == Ranged::exactly(value.typical))
            .map(|v| v.typical),
        unsaponifiable: fat.unsaponifiable_stated,
        density: fat.density.filter(|density| density.at == CERTIFICATE_AT).map(|density| density.typical),
        profile: fits.then_some(profile),
        inci: fat.inci.clone(),
    };
    let mut inci = fat.inci.clone();
    for (name, usual) in inci_names(&mut inci).into_iter().zip(inci_names(&mut known.inci.clone())) {
        if name == usual {
            *name = None;
        }
    }
    let differing = Certificate {
        saponification_value: all.saponification_value.filter(|_| value != known.saponification_value),
        iodine_value: all.iodine_value.filter(|_| fat.iodine_value != known.iodine_value),
        unsaponifiable: all.unsaponifiable,
        density: all.density.filter(|_| fat.density != known.density),
        profile: all.profile.clone().filter(|_| fat.profile != known.profile),
        inci,
    };
    // A certificate that says what the library says changes nothing, but it was stated.
    if differing == Certificate::default() { all } else { differing }
}
