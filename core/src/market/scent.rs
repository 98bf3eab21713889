//! Scents: how much of them is in the bar, how much may be, and what of them a label names.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::batch::Plan;
use crate::chemistry::{Makeup, Stage};
use crate::material::{AllergenList, FragranceKind, ScentCertificate, library};
use crate::quantity::{Exact, Mass, Share, Temperature};
use crate::recipe::{Ingredient, Recipe};

use super::charge::{Source, charges, tally};
use super::rules::{LEAVE_ON, RINSE_OFF};

/// Whether a scent keeps to its certificate.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Limit {
    /// It is at or below the limit, in the cured bar too.
    Kept,
    /// It is above the limit, at pour or cured.
    Passed,
    /// No certificate states a limit: nothing is known.
    Unknown,
}

/// One scent of the bars.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ScentLine {
    /// Id of the scent.
    pub id: String,
    /// Its name.
    pub name: String,
    /// How much of it is in the bars.
    pub mass: Mass,
    /// Its share when the bar is poured.
    pub at_pour: Share,
    /// Its share of the cured bar: it rises as water leaves.
    pub cured: Share,
    /// Largest share that the certificate allows.
    pub limit: Option<Share>,
    /// Whether it keeps to it.
    pub verdict: Limit,
    /// Most of it that could be in the bars, all else being equal, rounded down; nothing without a limit. Leave room for the
    /// step of the scale.
    pub largest: Option<Mass>,
    /// What its doses are multiplied with for that, rounded down.
    pub factor: Option<Share>,
    /// Vanillin in the cured bar.
    pub vanillin: Option<Share>,
    /// Flash point.
    pub flash_point: Option<Temperature>,
}

/// One fragrance allergen of the bars.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct AllergenLine {
    /// Id of the allergen.
    pub id: String,
    /// Its name on a label.
    pub name: String,
    /// Which list it is on.
    pub list: AllergenList,
    /// Its share of the cured bar, summed over all scents.
    pub share: Share,
    /// Whether that is above the threshold, so that it must be named where its list holds.
    pub above: bool,
    /// Whether it is not allowed at all.
    pub prohibited: bool,
    /// Scents that bring it.
    pub scents: Vec<String>,
}

/// The scents of the bars.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ScentReport {
    /// Scent by scent, in the order of the recipe.
    pub scents: Vec<ScentLine>,
    /// All of them, at pour.
    pub at_pour: Share,
    /// All of them, cured.
    pub cured: Share,
    /// The sum of each scent's share over its limit. Above 100 % the scents together may pass a limit that each keeps
    /// alone, where the same constituent is what limits them; a careful reading, from memory. Scents without a limit are
    /// not in it.
    pub of_limits: Share,
    /// Allergens by falling share.
    pub allergens: Vec<AllergenLine>,
    /// What else is worth knowing, in sentences.
    pub notes: Vec<String>,
}

/// The amendment of the fragrance standards that is current. Source: the 51st, of 30 June 2023; from memory.
const CURRENT_AMENDMENT: u32 = 51;

/// The scents of the bars, or with `layer` of one layer, which matters where layers are sold apart. Law and certificates
/// speak of the finished product: the whole bar.
///
/// Scents are reckoned not to evaporate, so the share of the cured bar is the largest that it can be. A certificate may stand
/// at any dose of its scent: the first holds for doses without their own.
///
/// Nothing when there is no such layer or the plan is not one of the recipe.
///
/// ```
/// let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
/// let plan = lamella::Plan::of(&recipe).unwrap();
/// let report = lamella::market::scents(&plan, &recipe, None, false).unwrap();
/// assert!(report.cured > report.at_pour);
/// ```
#[must_use]
pub fn scents(plan: &Plan, recipe: &Recipe, layer: Option<usize>, leave_on: bool) -> Option<ScentReport> {
    let scope = Scope::of(plan, recipe, layer, recipe.cured_water)?;
    let threshold = if leave_on { LEAVE_ON } else { RINSE_OFF };
    let lines: Vec<ScentLine> = scope.scents.iter().map(|scent| scope.line(scent)).collect::<Option<_>>()?;
    let of_limits =
        lines.iter().filter_map(|line| Some(line.cured.exact() / line.limit?.exact())).sum::<Exact>();
    let total = |of: fn(&ScentLine) -> Share| lines.iter().map(of).sum();
    let allergens = scope.allergens(threshold)?;
    let notes = notes(recipe, &scope, &lines, &allergens);
    Some(ScentReport {
        at_pour: total(|line| line.at_pour),
        cured: total(|line| line.cured),
        of_limits: Share::try_new(of_limits).ok()?,
        scents: lines,
        allergens,
        notes,
    })
}

/// The allergens of all scents in a cured bar, by falling share.
pub(super) fn allergens(
    plan: &Plan,
    recipe: &Recipe,
    layer: Option<usize>,
    cured_water: Share,
    threshold: Share,
) -> Option<Vec<AllergenLine>> {
    Scope::of(plan, recipe, layer, cured_water)?.allergens(threshold)
}

/// One scent, its doses together.
struct Scent<'r> {
    id: &'r str,
    name: &'r str,
    mass: Exact,
    /// The mass under each certificate.
    doses: Vec<(Option<&'r ScentCertificate>, Exact)>,
}

struct Scope<'r> {
    scents: Vec<Scent<'r>>,
    at_pour: Exact,
    cured: Exact,
    /// Share of the cured bar that is not water.
    dry: Exact,
}

impl<'r> Scope<'r> {
    fn of(plan: &Plan, recipe: &'r Recipe, layer: Option<usize>, cured_water: Share) -> Option<Self> {
        let tally = tally(plan, layer)?;
        let mut scents: Vec<Scent<'r>> = Vec::new();
        for charge in charges(plan, recipe, layer)? {
            let Source::Scent(scent) = charge.source else { continue };
            let certificate = scent.certificate.as_deref().or_else(|| first_certificate(recipe, &scent.id));
            let dose = (certificate, charge.mass);
            match scents.iter_mut().find(|known| known.id == scent.id) {
                Some(known) => {
                    known.mass = known.mass + charge.mass;
                    known.doses.push(dose);
                }
                None => scents.push(Scent {
                    id: &scent.id,
                    name: &scent.name,
                    mass: charge.mass,
                    doses: vec![dose],
                }),
            }
        }
        Some(Self {
            scents,
            at_pour: tally.mass(),
            cured: Makeup::of(&tally, Stage::Cured, cured_water)?.total.exact(),
            dry: Exact::ONE - cured_water.exact(),
        })
    }

    fn line(&self, scent: &Scent<'_>) -> Option<ScentLine> {
        let certificates = || scent.doses.iter().filter_map(|(certificate, _)| *certificate);
        // Of several certificates the strictest holds; where one dose has none, nothing is known of it.
        let covered =
            scent.doses.iter().all(|(certificate, _)| certificate.is_some_and(|one| one.limit.is_some()));
        let limit = certificates().filter_map(|one| one.limit).min().filter(|_| covered);
        let at_pour = Share::try_new(scent.mass / self.at_pour).ok()?;
        let cured = Share::try_new(scent.mass / self.cured).ok()?;
        let verdict = match limit {
            None => Limit::Unknown,
            Some(limit) if at_pour.max(cured) > limit => Limit::Passed,
            Some(_) => Limit::Kept,
        };
        let largest = limit.and_then(|limit| self.largest(scent.mass, limit.exact()));
        let factor = largest.map(|largest| floor(largest.exact() / scent.mass, 6));
        let vanillin: Exact =
            scent.doses.iter().filter_map(|(one, mass)| Some(one.as_ref()?.vanillin?.exact() * *mass)).sum();
        Some(ScentLine {
            id: scent.id.to_owned(),
            name: scent.name.to_owned(),
            mass: Mass::try_new(scent.mass).ok()?,
            at_pour,
            cured,
            limit,
            verdict,
            largest,
            factor: factor.and_then(|factor| Share::try_new(factor).ok()),
            vanillin: certificates()
                .any(|one| one.vanillin.is_some())
                .then(|| Share::try_new(vanillin / self.cured).ok())
                .flatten(),
            flash_point: certificates().filter_map(|one| one.flash_point).min(),
        })
    }

    /// Most of a scent of which `now` is in the bars that keeps to a limit: limit x rest / (1 - limit). The cured water of
    /// a bar follows its dry matter unless all its water is less; the smaller of the two readings holds in both.
    fn largest(&self, now: Exact, limit: Exact) -> Option<Mass> {
        let dry_bar = limit * (self.cured - now) / (Exact::ONE - limit);
        let moist = limit * (self.cured - now / self.dry) / (Exact::ONE - limit / self.dry);
        let most = if moist.is_positive() { dry_bar.min(moist) } else { dry_bar };
        let poured = limit * (self.at_pour - now) / (Exact::ONE - limit);
        let most = most.min(poured).max(Exact::ZERO);
        Mass::try_new(floor(most, 9)).ok()
    }

    fn allergens(&self, threshold: Share) -> Option<Vec<AllergenLine>> {
        let mut found: BTreeMap<&str, (Exact, Vec<String>)> = BTreeMap::new();
        for scent in &self.scents {
            let mut add = |id: &'static str, mass: Exact| {
                if mass.is_zero() {
                    return;
                }
                let (sum, scents) = found.entry(id).or_insert((Exact::ZERO, Vec::new()));
                *sum = *sum + mass;
                if !scents.iter().any(|known| known == scent.id) {
                    scents.push(scent.id.to_owned());
                }
            };
            for row in library::allergens() {
                if row.scents.iter().any(|oil| oil == scent.id) {
                    add(&row.id, scent.mass);
                    continue;
                }
                let stated = scent.doses.iter().filter_map(|(certificate, mass)| {
                    let (_, share) = certificate.as_ref()?.allergens.iter().find(|(id, _)| *id == row.id)?;
                    Some(share.exact() * *mass)
                });
                add(&row.id, stated.sum());
            }
        }
        let mut lines = Vec::with_capacity(found.len());
        for row in library::allergens() {
            let Some((mass, scents)) = found.remove(&*row.id) else { continue };
            let exact = mass / self.cured;
            lines.push(AllergenLine {
                id: row.id.to_string(),
                name: row.name.to_string(),
                list: row.list,
                share: Share::try_new(exact).ok()?,
                above: (exact - threshold.exact()).is_positive(),
                prohibited: row.prohibited,
                scents,
            });
        }
        lines.sort_by(|a, b| b.share.cmp(&a.share).then_with(|| a.name.cmp(&b.name)));
        Some(lines)
    }
}

/// Rounded down at so many decimals.
fn floor(value: Exact, decimals: u32) -> Exact {
    let step = Exact::literal(1, decimals);
    value.whole_steps(step).map_or(Exact::ZERO, |steps| step.times(steps))
}

fn first_certificate<'r>(recipe: &'r Recipe, id: &str) -> Option<&'r ScentCertificate> {
    recipe.all_doses().find_map(|dose| match &dose.ingredient {
        Ingredient::Fragrance(scent) if scent.id == id => scent.certificate.as_deref(),
        _ => None,
    })
}

fn notes(recipe: &Recipe, scope: &Scope<'_>, lines: &[ScentLine], allergens: &[AllergenLine]) -> Vec<String> {
    let mut notes = Vec::new();
    for (line, scent) in lines.iter().zip(&scope.scents) {
        let name = &line.name;
        if line.verdict == Limit::Unknown {
            notes.push(format!("{name}: no certificate states how much a bar may hold"));
        }
        let amendments = scent.doses.iter().filter_map(|(one, _)| one.as_ref()?.amendment);
        if let Some(old) = amendments.min().filter(|number| *number < CURRENT_AMENDMENT) {
            notes.push(format!(
                "{name}: the certificate is of amendment {old}; the {CURRENT_AMENDMENT}st is current (from memory)"
            ));
        }
        if scent.doses.iter().any(|(one, _)| one.is_none_or(|one| one.allergens.is_empty())) {
            notes.push(format!("{name}: no allergens are stated, so none of them can be named"));
        }
    }
    if lines.len() > 1 && allergens.len() > 1 {
        notes.push("allergens are summed over all scents of the bar".to_owned());
    }
    let spice = |dose: &crate::recipe::Dose| matches!(dose.ingredient.id(), "cinnamon" | "clove");
    if recipe.all_doses().any(spice) {
        notes.push(
            "cinnamon and clove powders bring cinnamal and eugenol of their own, which are not counted"
                .to_owned(),
        );
    }
    let essential = recipe.all_doses().any(|dose| {
        matches!(&dose.ingredient, Ingredient::Fragrance(scent) if scent.kind == FragranceKind::EssentialOil)
    });
    if essential {
        notes.push("essential oils differ from lot to lot: take the allergens of the lot in hand".to_owned());
    }
    for line in allergens.iter().filter(|line| line.prohibited) {
        notes.push(format!("{} is not allowed in cosmetics at all", line.name));
    }
    notes
}
