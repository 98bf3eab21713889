//! Layers and the jugs they are poured from.

use std::collections::{BTreeMap, BTreeSet};

use super::layer::{Jug, Layer, LayerShare};
use super::read_dose::Vessel;
use super::read_quantity::parts_number;
use super::read_value::{Fields, Node, Reader, echo, listed};
use super::tables::{self, LENGTH, MASS, PARTS, VOLUME};
use crate::quantity::{Length, Mass, QuantityError, Volume};

/// How layers say how large they are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum LayersSay {
    /// Parts of the batch.
    Parts,
    /// Heights in a mould.
    Heights,
    /// Masses or volumes.
    Amounts,
    /// That cannot be told.
    Unclear,
}

/// Jugs and the layers that are poured from them.
type JugsAndLayers = (Vec<Jug>, Vec<Layer>);

/// A layer as it is read: the name of its jug still to be looked up.
#[derive(Clone, Debug)]
struct Draft<'d> {
    layer: Option<Layer>,
    share: Option<LayerShare>,
    fields: Option<Fields<'d>>,
    jug: Option<String>,
}

impl Reader {
    /// Jugs and layers.
    pub(crate) fn jugs_and_layers(&mut self, top: &Fields<'_>) -> (Option<JugsAndLayers>, LayersSay) {
        let mut seen = BTreeSet::new();
        let mut names: Vec<Option<(Node<'_>, String)>> = Vec::new();
        let mut filled = Vec::new();
        let jugs = self.items(top, "jugs", 0, |reader, at| {
            let (jug, name, has_doses) = reader.jug(at, &mut seen);
            names.push(name);
            filled.push(has_doses);
            jug
        });
        let mut seen = BTreeSet::new();
        let mut drafts = Vec::new();
        let layers = self.items(top, "layers", 1, |reader, at| {
            drafts.push(reader.layer(at, &mut seen));
            Some(())
        });
        let links = self.link(&names, &filled, &drafts, top.tried("jugs") && !top.has("jugs"));
        let says = self.shares_together(&drafts);
        let says = if layers.is_none() { LayersSay::Unclear } else { says };
        let layers: Option<Vec<Layer>> = drafts
            .into_iter()
            .zip(links)
            .map(|(draft, jug)| draft.layer.map(|layer| Layer { jug, ..layer }))
            .collect();
        (jugs.zip(layers.filter(|_| top.has("layers"))), says)
    }

    /// A jug; its name and where it stands, when it has one; whether it has doses.
    fn jug<'d>(
        &mut self,
        at: &Node<'d>,
        seen: &mut BTreeSet<String>,
    ) -> (Option<Jug>, Option<(Node<'d>, String)>, bool) {
        let Some(fields) = self.object(at, &tables::JUG) else { return (None, None, false) };
        let name = self.needed(&fields, "jug", |reader, at| {
            let name = reader.name(at, 1)?;
            reader.unique(at, seen, name, "jugs");
            Some(name.to_owned())
        });
        let tare = self.maybe(&fields, "tare", None, |reader, at| reader.quantity(at, &MASS).map(Some));
        let residue = self.maybe(&fields, "residue", None, |reader, at| reader.quantity(at, &MASS).map(Some));
        let doses = self.all_doses(&fields, Vessel::Jug);
        let known = name.clone().map(|name| (at.clone(), name));
        let jug = name.zip(tare).zip(residue).zip(doses);
        let jug = jug.map(|(((name, tare), residue), doses)| Jug { name, tare, residue, doses });
        (jug, known, first_dose(&fields).is_some())
    }

    fn layer<'d>(&mut self, at: &Node<'d>, seen: &mut BTreeSet<String>) -> Draft<'d> {
        let Some(fields) = self.object(at, &tables::LAYER) else {
            return Draft { layer: None, share: None, fields: None, jug: None };
        };
        let name = self.needed(&fields, "layer", |reader, at| {
            let name = reader.name(at, 1)?;
            reader.unique(at, seen, name, "layers");
            Some(name.to_owned())
        });
        let share = self.needed(&fields, "share", Self::layer_share);
        let jug = self
            .maybe(&fields, "jug", None, |reader, at| reader.name(at, 1).map(|name| Some(name.to_owned())));
        let doses = self.all_doses(&fields, Vessel::Jug);
        let layer = name.zip(share).zip(doses);
        let layer = layer.map(|((name, share), doses)| Layer { name, share, jug: None, doses });
        Draft { layer: layer.filter(|_| jug.is_some()), share, fields: Some(fields), jug: jug.flatten() }
    }

    fn layer_share(&mut self, at: &Node<'_>) -> Option<LayerShare> {
        let text = self.quantity_text(at, &PARTS)?;
        let share = match self.first_that_fits(at, text, &[PARTS, LENGTH, MASS, VOLUME])? {
            0 => LayerShare::Parts(self.parts(at, text)?),
            1 => LayerShare::Height(self.parsed::<Length>(at, text, &LENGTH)?),
            2 => LayerShare::Mass(self.parsed::<Mass>(at, text, &MASS)?),
            _ => LayerShare::Volume(self.parsed::<Volume>(at, text, &VOLUME)?),
        };
        let nought = match share {
            LayerShare::Parts(parts) => parts.is_zero(),
            LayerShare::Height(height) => height.is_zero(),
            LayerShare::Mass(mass) => mass.is_zero(),
            LayerShare::Volume(volume) => volume.is_zero(),
        };
        if nought {
            let message = format!("a layer of {} has nothing in it", echo(text));
            self.report(at, "layer.share", message, "give it a share above nought, or leave the layer out");
            return None;
        }
        Some(share)
    }

    fn parts(&mut self, at: &Node<'_>, text: &str) -> Option<crate::quantity::Decimal> {
        if let Some(number) = parts_number(text) {
            return self.bare(at, number, text, &PARTS);
        }
        let (found, example) = (text.to_owned(), PARTS.example.to_owned());
        let error = if text.trim().starts_with(|first: char| first.is_ascii_digit()) {
            QuantityError::NoUnit { found, example }
        } else {
            QuantityError::Form { found, what: PARTS.limit.what, example }
        };
        self.not_a_quantity(at, text, &error, &PARTS);
        None
    }

    /// The index of each layer's jug. Reports unknown and unused jugs and doses in the wrong place.
    fn link(
        &mut self,
        jugs: &[Option<(Node<'_>, String)>],
        filled: &[bool],
        drafts: &[Draft<'_>],
        misnamed: bool,
    ) -> Vec<Option<usize>> {
        let known =
            jugs.iter().enumerate().filter_map(|(index, jug)| Some((jug.as_ref()?.1.as_str(), index)));
        // The first of two with one name wins; the second was reported.
        let known: BTreeMap<&str, usize> = known.rev().collect();
        let find = |draft: &Draft<'_>| known.get(draft.jug.as_deref()?).copied();
        let links: Vec<Option<usize>> = drafts.iter().map(find).collect();
        let mut pours: BTreeMap<usize, usize> = BTreeMap::new();
        for link in links.iter().flatten() {
            let count = pours.entry(*link).or_default();
            *count = count.saturating_add(1);
        }
        let mut astray = jugs.iter().any(Option::is_none);
        for (draft, link) in drafts.iter().zip(&links) {
            let Some(fields) = &draft.fields else {
                astray = true;
                continue;
            };
            let Some(at) = fields.get("jug") else { continue };
            match (link, &draft.jug) {
                (Some(index), Some(name)) => {
                    let shared = pours.get(index).is_some_and(|pours| *pours > 1);
                    let has_doses = filled.get(*index).copied().unwrap_or(false);
                    if let (Some(doses), true) = (first_dose(fields), shared || has_doses) {
                        let why = if has_doses { "has doses of its own" } else { "also fills another layer" };
                        let message =
                            format!("this layer is poured from the jug {}, which {why}", echo(name));
                        let advice = "one jug, one mixture: put the doses on the jug";
                        self.report(&doses, "layer.jug", message, advice);
                    }
                }
                (None, Some(name)) if !misnamed => {
                    astray = true;
                    self.no_such_jug(&at, name, &known.keys().copied().collect::<Vec<_>>());
                }
                _ => astray = true,
            }
        }
        if !astray && !drafts.is_empty() {
            for (index, (at, name)) in jugs.iter().enumerate().filter_map(|(i, jug)| Some((i, jug.as_ref()?)))
            {
                if known.get(name.as_str()) == Some(&index) && !pours.contains_key(&index) {
                    let message = format!("no layer is poured from the jug {}", echo(name));
                    let advice = "name it in the \"jug\" of a layer, or leave it out";
                    self.report(at, "jug.unused", message, advice);
                }
            }
        }
        links
    }

    fn no_such_jug(&mut self, at: &Node<'_>, name: &str, known: &[&str]) {
        let advice = match known {
            [] => "add it to \"jugs\", or leave \"jug\" out: then the layer has one of its own".to_owned(),
            known if known.len() <= 8 => format!("use {}", listed(known)),
            known => super::read_value::meant(name, known.get(..8).unwrap_or(known)),
        };
        self.report(at, "layer.jug", format!("there is no jug {}", echo(name)), advice);
    }

    /// Reports shares of different kinds.
    fn shares_together(&mut self, drafts: &[Draft<'_>]) -> LayersSay {
        let mut first: Option<LayerShare> = None;
        for draft in drafts {
            let Some(share) = draft.share else { continue };
            let same = std::mem::discriminant(first.get_or_insert(share)) == std::mem::discriminant(&share);
            let at = draft.fields.as_ref().and_then(|fields| fields.get("share"));
            if let (Some(at), false) = (at, same) {
                let message = "the shares of the layers are of different kinds";
                let advice = "state all of them in parts, or all as heights, as masses or as volumes";
                self.report(&at, "layer.share", message, advice);
                return LayersSay::Unclear;
            }
        }
        match first {
            None => LayersSay::Unclear,
            Some(LayerShare::Parts(_)) => LayersSay::Parts,
            Some(LayerShare::Height(_)) => LayersSay::Heights,
            Some(LayerShare::Mass(_) | LayerShare::Volume(_)) => LayersSay::Amounts,
        }
    }
}

/// The first list of doses that is there and not empty.
fn first_dose<'d>(fields: &Fields<'d>) -> Option<Node<'d>> {
    let filled =
        |node: &Node<'_>| matches!(&node.json.value, super::json::Value::List(items) if !items.is_empty());
    ["doses", "colours", "scents"].into_iter().filter_map(|name| fields.get(name)).find(filled)
}
