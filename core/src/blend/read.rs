//! Reading: a `blend/1` document becomes a request, or all that is wrong with it at once.

use std::collections::BTreeSet;

use super::request::{Aim, Candidate, Demand, Measure, Request};
use super::tables::{self, AIM, CLASS, FIGURE, FORMAT, Figure};
use crate::material::FattyAcid;
use crate::problem::Problem;
use crate::quantity::{
    Currency, Decimal, Exact, IodineValue, Mass, Money, Price, SaponificationValue, Share,
};
use crate::recipe::json::Value;
use crate::recipe::read::document;
use crate::recipe::read_value::{Fields, Node, Reader, echo, listed};
use crate::recipe::tables::{LARGE_MASS, MASS, SHARE};

const WHOLE: Share = Share::literal(1, 0);

/// Reads a `blend/1` document.
///
/// ```
/// let text = r#"{
///   "lamella": "blend/1", "name": "Two",
///   "fats": [{"fat": "olive-oil", "usual": "60 %"}, {"fat": "lard", "usual": "40 %", "groups": ["local"]}],
///   "demands": [{"group": "local", "at_least": "50 %"}],
///   "aims": ["nearest usual"]
/// }"#;
/// let request = lamella::blend::read(text).unwrap();
/// assert_eq!(request.fats.len(), 2);
///
/// let problems = lamella::blend::read(&text.replace("50 %", "50")).unwrap_err();
/// assert_eq!(problems[0].code, "quantity.unit.missing");
/// assert_eq!(problems[0].pointer, "/demands/0/at_least");
/// ```
///
/// # Errors
/// Everything that is wrong with the document, in the order of its text; never an empty list.
pub fn read(text: &str) -> Result<Request, Vec<Problem>> {
    document(text, FORMAT, Reader::blend)
}

impl Reader {
    fn blend(&mut self, at: &Node<'_>) -> Option<Request> {
        let top = self.top(at, &tables::BLEND)?;
        let name = self.needed(&top, "name", |reader, at| reader.name(at, 1).map(str::to_owned));
        let note =
            self.maybe(&top, "note", String::new(), |reader, at| reader.name(at, 0).map(str::to_owned));
        let size = self.maybe(&top, "size", None, |reader, at| reader.positive(at, &LARGE_MASS).map(Some));
        let step = self.maybe(&top, "step", None, |reader, at| reader.blend_step(at).map(Some));
        let fats_at_most = self.maybe(&top, "fats_at_most", None, |reader, at| {
            reader.number(at, &crate::limits::BLEND_FATS).map(Some)
        });
        let mut seen = BTreeSet::new();
        let sized = top.has("size");
        let fats = self.items(&top, "fats", 1, |reader, at| reader.blend_fat(at, sized, &mut seen));
        let demands = self.items(&top, "demands", 0, Self::blend_demand);
        let aims = self.items(&top, "aims", 1, |reader, at| reader.blend_aim(at, fats.as_deref()));
        if let (Some(fats), Some(at)) = (&fats, top.get("fats")) {
            self.fats_fit(&at, fats);
            self.one_currency(&at, fats);
            if let Some(demands) = &demands {
                self.demands_fit(&top, fats, demands);
            }
            if let (Some(demands), Some(aims)) = (&demands, &aims) {
                self.aims_fit(&top, fats, demands, aims);
            }
        }
        Some(Request {
            name: name?,
            note: note?,
            size: size?,
            step: step?,
            fats_at_most: fats_at_most?,
            fats: fats.filter(|fats| !fats.is_empty())?,
            demands: demands?,
            aims: aims?,
        })
    }

    fn blend_step(&mut self, at: &Node<'_>) -> Option<Share> {
        let step: Share = self.positive(at, &tables::STEP)?;
        let steps = (Exact::ONE / step.exact()).steps(Exact::ONE)?;
        if !(Exact::from(steps) * step.exact() - Exact::ONE).is_zero() {
            let message = format!("steps of {step} do not make up 100 %");
            self.report(at, "blend.step", message, "write for example \"1 %\", \"0.5 %\" or \"5 %\"");
            return None;
        }
        Some(step)
    }

    fn blend_fat(&mut self, at: &Node<'_>, sized: bool, seen: &mut BTreeSet<String>) -> Option<Candidate> {
        let fields = self.object(at, &tables::FAT)?;
        let fat = self.fat(&fields);
        if let (Some((fat, _)), Some(at)) = (&fat, fields.get("fat"))
            && !seen.insert(fat.id.to_string())
        {
            let message = format!("the fat {:?} stands twice", fat.id);
            self.report(&at, "name.duplicate", message, "leave one of the two out");
        }
        let price = self.maybe(&fields, "price", None, |reader, at| reader.price(at).map(Some));
        let stock = self.maybe(&fields, "stock", None, |reader, at| {
            if !sized {
                let message = "nothing says how much fat is to be blended, so a stock limits nothing";
                reader.report(
                    at,
                    "blend.stock",
                    message,
                    "add \"size\", or write \"max\" in place of \"stock\"",
                );
            }
            reader.quantity(at, &MASS).map(Some)
        });
        let share = |reader: &mut Self, name: &str, default: Share| {
            reader.maybe(&fields, name, default, |reader, at| reader.quantity(at, &SHARE))
        };
        let min = share(self, "min", Share::ZERO);
        let max = share(self, "max", WHOLE);
        let usual = share(self, "usual", Share::ZERO);
        let groups = self.items(&fields, "groups", 1, |reader, at| reader.name(at, 1).map(str::to_owned));
        if let (Some(min), Some(max)) = (min, max)
            && min > max
        {
            let message = format!("the least share {min} is above the largest {max}");
            self.report(at, "blend.fat.range", message, "make \"max\" larger or \"min\" smaller");
        }
        let (fat, certificate) = fat?;
        let mut candidate = Candidate::new(fat, certificate);
        candidate.price = price?;
        candidate.stock = stock?;
        candidate.min = min?;
        candidate.max = max?;
        candidate.usual = usual?;
        candidate.groups = groups?;
        Some(candidate)
    }

    /// `7.50 EUR/kg` or `38 EUR/5 kg`.
    fn price(&mut self, at: &Node<'_>) -> Option<Price> {
        let wanted = &tables::PRICE;
        let text = self.quantity_text(at, wanted)?;
        let parts = text.split_once('/').and_then(|(pay, pack)| {
            let (amount, currency) = pay.trim().rsplit_once(' ')?;
            Some((amount, Currency::try_new(currency).ok()?, pack.trim()))
        });
        let Some((amount, currency, pack)) = parts else {
            let message = format!("{} is no price", echo(text));
            let advice = format!(
                "write an amount, a currency of three capital letters, and a mass: {:?} or \"38 EUR/5 kg\"",
                wanted.example
            );
            self.report(at, "quantity.form", message, advice);
            return None;
        };
        let amount = self.bare(at, amount, text, wanted)?;
        if Exact::from(amount).is_negative() {
            self.report(
                at,
                "quantity.range",
                format!("the price {} is below nought", echo(text)),
                "write 0 or more",
            );
            return None;
        }
        let numbered = if pack.starts_with(|c: char| c.is_ascii_digit()) {
            pack.to_owned()
        } else {
            format!("1 {pack}")
        };
        let pack: Mass = self.parsed(at, &numbered, &tables::PACK)?;
        let price = Money::try_new(amount, currency).and_then(|money| Price::try_new(money, pack));
        let price = price.and_then(|price| price.of(Mass::literal(1_000, 0)).map(|_| price));
        price.map_err(|error| self.not_a_quantity(at, text, &error, &tables::PACK)).ok()
    }

    fn blend_demand(&mut self, at: &Node<'_>) -> Option<Demand> {
        let fields = self.object(at, &tables::DEMAND)?;
        let class = self.needed(&fields, "class", |reader, at| reader.word(at, &CLASS).map(Measure::Class));
        let acid = self.needed(&fields, "acid", Self::blend_acid);
        let group =
            self.needed(&fields, "group", |reader, at| Some(Measure::Group(reader.name(at, 1)?.to_owned())));
        let figure = self.needed(&fields, "figure", |reader, at| {
            Some(match reader.word(at, &FIGURE)? {
                Figure::Iodine => Measure::IodineValue,
                Figure::Saponification => Measure::SaponificationValue,
                Figure::Cost => Measure::Cost,
            })
        });
        let measure = class.or(acid).or(group).or(figure)?;
        let level = |reader: &mut Self, name: &str| {
            reader.maybe(&fields, name, None, |reader, at| reader.blend_level(at, &measure).map(Some))
        };
        let (at_least, at_most) = (level(self, "at_least"), level(self, "at_most"));
        let (exactly, target) = (level(self, "exactly"), level(self, "target"));
        if ["at_least", "at_most", "exactly", "target"].iter().all(|name| !fields.has(name)) {
            let message = "a demand says nothing of how much";
            self.report(
                at,
                "blend.demand",
                message,
                "add \"at_least\", \"at_most\", \"exactly\" or \"target\"",
            );
        }
        if fields.has("exactly") && (fields.has("at_least") || fields.has("at_most")) {
            let message = "a demand says \"exactly\", and a bound beside it";
            self.report(at, "field.choice", message, "keep \"exactly\", or the bounds");
        }
        let (at_least, at_most, exactly, target) = (at_least?, at_most?, exactly?, target?);
        if let (Some(low), Some(high)) = (at_least, at_most)
            && low > high
        {
            let message = "a demand asks for more at least than at most";
            self.report(at, "blend.demand", message, "exchange the two, or leave one out");
        }
        Some(Demand { measure, at_least: at_least.or(exactly), at_most: at_most.or(exactly), target })
    }

    fn blend_acid(&mut self, at: &Node<'_>) -> Option<Measure> {
        let text = self.name(at, 1)?;
        let acid = text.parse::<FattyAcid>().ok().filter(|acid| acid.to_string() == text);
        if acid.is_none() {
            let message = format!("{} is no fatty acid", echo(text));
            self.report(at, "field.word", message, "write carbons and double bonds, such as \"C18:2\"");
        }
        acid.map(Measure::Acid)
    }

    fn blend_level(&mut self, at: &Node<'_>, measure: &Measure) -> Option<Decimal> {
        Some(match measure {
            Measure::IodineValue => self.quantity::<IodineValue>(at, &tables::IODINE)?.value(),
            Measure::SaponificationValue => {
                self.quantity::<SaponificationValue>(at, &tables::SAPONIFICATION)?.value()
            }
            Measure::Cost => {
                let price = self.price(at)?;
                price.of(Mass::literal(1_000, 0)).ok()?.amount()
            }
            Measure::Class(_) | Measure::Acid(_) | Measure::Group(_) => {
                self.quantity::<Share>(at, &tables::LEVEL)?.value()
            }
        })
    }

    fn blend_aim(&mut self, at: &Node<'_>, fats: Option<&[Candidate]>) -> Option<Aim> {
        if !matches!(at.json.value, Value::Object(_)) {
            return self.word(at, &AIM);
        }
        let fields = self.object(at, &tables::MOST_OF)?;
        self.needed(&fields, "most_of", |reader, at| {
            let id = reader.name(at, 1)?;
            let fats = fats?;
            let found = fats.iter().position(|candidate| candidate.fat.id == id);
            if found.is_none() {
                let ids: Vec<&str> = fats.iter().map(|candidate| &*candidate.fat.id).collect();
                let message = format!("{} is not among the fats to choose from", echo(id));
                reader.report(at, "material.unknown", message, format!("use {}", listed(&ids)));
            }
            found.map(Aim::MostOf)
        })
    }

    /// Whether the limits of the fats leave room for 100 %, and the usual shares make it up.
    fn fats_fit(&mut self, at: &Node<'_>, fats: &[Candidate]) {
        let least: Share = fats.iter().map(|fat| fat.min).sum();
        if least > WHOLE {
            let message = format!("the least shares sum to {least}, more than the whole");
            self.report(at, "blend.fat.range", message, "make some of them smaller");
        }
        let usual: Share = fats.iter().map(|fat| fat.usual).sum();
        if !usual.is_zero() && usual != WHOLE {
            let message = format!("the usual shares sum to {usual}, not 100 %");
            self.report(at, "blend.usual", message, "bring them to 100 %; a fat that is not usual has none");
        }
    }

    fn one_currency(&mut self, at: &Node<'_>, fats: &[Candidate]) {
        let mut priced = fats.iter().filter_map(|fat| Some((&fat.fat.id, fat.price?.currency())));
        let Some((_, first)) = priced.next() else { return };
        if let Some((id, other)) = priced.find(|(_, other)| *other != first) {
            let message = format!("prices are in {first} and, of {id:?}, in {other}");
            self.report(at, "blend.price", message, "state every price in one currency");
        }
    }

    fn demands_fit(&mut self, top: &Fields<'_>, fats: &[Candidate], demands: &[Demand]) {
        let Some(list) = top.get("demands") else { return };
        let Value::List(items) = &list.json.value else { return };
        for (index, (demand, item)) in demands.iter().zip(items).enumerate() {
            let at = list.child(&index.to_string(), item);
            match &demand.measure {
                Measure::Group(group) if !fats.iter().any(|fat| fat.groups.contains(group)) => {
                    let message = format!("no fat is in the group {}", echo(group));
                    self.report(
                        &at,
                        "blend.group",
                        message,
                        "add it to the \"groups\" of a fat, or mend its name",
                    );
                }
                Measure::IodineValue => {
                    if let Some(fat) = fats.iter().find(|fat| fat.iodine_value.is_none()) {
                        let message = format!("no iodine value is known of {:?}", fat.fat.id);
                        let advice = "state it in a \"certificate\", or leave the demand or the fat out";
                        self.report(&at, "blend.figure", message, advice);
                    }
                }
                Measure::Class(_) | Measure::Acid(_) => {
                    if let Some(fat) = fats.iter().find(|fat| fat.fat.profile.is_empty()) {
                        let message = format!("no fatty acids are known of {:?}", fat.fat.id);
                        let advice =
                            "state its \"profile\" in a \"certificate\", or leave the demand or the fat out";
                        self.report(&at, "blend.figure", message, advice);
                    }
                }
                Measure::Cost => {
                    self.all_priced(&at, fats);
                    let currency = fats.iter().find_map(|fat| Some(fat.price?.currency().to_string()));
                    let stated = ["at_least", "at_most", "exactly", "target"].into_iter();
                    let texts = stated.filter_map(|name| match &item.value {
                        Value::Object(entries) => entries.iter().find(|(key, _)| key == name),
                        _ => None,
                    });
                    for (key, json) in texts {
                        let Value::Text(text) = &json.value else { continue };
                        if currency.as_ref().is_some_and(|currency| !text.contains(currency.as_str())) {
                            let message = format!("{} is not in the currency of the prices", echo(text));
                            self.report(
                                &at.child(key, json),
                                "blend.price",
                                message,
                                "state it in their currency",
                            );
                        }
                    }
                }
                Measure::Group(_) | Measure::SaponificationValue => {}
            }
        }
    }

    fn all_priced(&mut self, at: &Node<'_>, fats: &[Candidate]) {
        if let Some(fat) = fats.iter().find(|fat| fat.price.is_none()) {
            let message = format!("{:?} has no price", fat.fat.id);
            self.report(at, "blend.price", message, "add the \"price\" of every fat");
        }
    }

    fn aims_fit(&mut self, top: &Fields<'_>, fats: &[Candidate], demands: &[Demand], aims: &[Aim]) {
        let Some(list) = top.get("aims") else { return };
        let Value::List(items) = &list.json.value else { return };
        for (index, (aim, item)) in aims.iter().zip(items).enumerate() {
            let at = list.child(&index.to_string(), item);
            if aims.iter().take(index).any(|earlier| earlier == aim) {
                self.report(&at, "name.duplicate", "an aim stands twice", "keep the first");
            }
            match aim {
                Aim::Cheapest => self.all_priced(&at, fats),
                Aim::NearestUsual if fats.iter().all(|fat| fat.usual.is_zero()) => {
                    let message = "no fat has a usual share";
                    self.report(&at, "blend.aim", message, "add \"usual\" to the fats of the usual blend");
                }
                Aim::NearestTargets | Aim::LeastWorstMiss
                    if demands.iter().all(|demand| demand.target.is_none()) =>
                {
                    self.report(&at, "blend.aim", "no demand has a target", "add \"target\" to a demand");
                }
                _ => {}
            }
        }
    }
}

/// The JSON Schema of a `blend/1` document; the same as `core/schema/blend-1.json`.
#[cfg(feature = "schema")]
#[must_use]
pub fn schema() -> String {
    crate::recipe::schema::of(&tables::BLEND, "What a blend of fats is to be")
}
