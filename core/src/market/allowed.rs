//! What the annexes do not allow in the bars of a list, and what it leaves to be seen to.

use crate::material::{Additive, Fat};
use crate::problem::Problem;
use crate::quantity::{Share, fixed};

use super::charge::{Charge, Source};
use super::colours::{self, Standing};
use super::composition::{Composition, Line, Role, Style};
use super::ingredients::ListOptions;
use super::names;
use super::rules::Market;

/// Most protein that peanut oil, or what is made from peanut, may hold: 0.5 ppm.
///
/// # Source
/// Regulation (EC) No 1223/2009, annex III, entry 306, official export of 9 September 2026; the same in Great Britain, where
/// Regulation (EU) 2017/2228 is retained.
const PEANUT_PROTEIN: Share = Share::literal(5, 7);

/// What keeps the bars from being sold: `label.colour`, `label.peanut`.
pub(super) fn refused(
    charges: &[Charge<'_>],
    composition: &Composition,
    options: &ListOptions,
) -> Vec<Problem> {
    if options.market == Market::UnitedStates {
        return Vec::new();
    }
    let mut problems = Vec::new();
    for line in composition.lines.iter().filter(|line| line.role == Role::Colour) {
        let name = line.inci.as_deref().unwrap_or_default();
        if !names::is_colour(name) {
            continue;
        }
        let share = composition.share(line);
        let why = match colours::standing(name) {
            Standing::Absent => "is not a permitted colour here".to_owned(),
            Standing::RinseOff(_) if options.leave_on => "is allowed only in what is rinsed off".to_owned(),
            Standing::Allowed(Some(most)) | Standing::RinseOff(Some(most)) if share > most => {
                let share = fixed(share.in_unit("%").unwrap_or_default(), 4);
                format!("is {share} % of the bar, and at most {most} is allowed")
            }
            Standing::Allowed(_) | Standing::RinseOff(_) => continue,
        };
        problems.push(Problem {
            code: "label.colour",
            pointer: line.pointers.first().cloned().unwrap_or_default(),
            message: format!("{name} of {} {why} (annex IV)", line.name),
            advice: "use a colour of annex IV within its conditions; where the material is there for another reason than \
                     its colour, dose it as an additive under its own name"
                .to_owned(),
        });
    }
    for charge in charges {
        if let Source::Additive(additive, _) = charge.source
            && of_peanut(additive)
            && additive.composition.protein > PEANUT_PROTEIN
        {
            problems.push(Problem {
                code: "label.peanut",
                pointer: charge.pointer.clone(),
                message: format!(
                    "{} holds {} of protein: what is made from peanut may hold 0.5 ppm (annex III, entry 306)",
                    additive.name, additive.composition.protein
                ),
                advice: "leave it out of bars that are sold, whatever its dose".to_owned(),
            });
        }
    }
    problems
}

/// What the list prints that somebody still has to look at: `label.soap`, and in the Union and in Great Britain
/// `label.purpose` and `label.statement`.
pub(super) fn cautions(
    charges: &[Charge<'_>],
    composition: &Composition,
    options: &ListOptions,
) -> Vec<Problem> {
    let europe = options.market != Market::UnitedStates;
    let mut all: Vec<Problem> = Vec::new();
    for charge in charges {
        let mut add = |code, message: String, advice: &str| {
            if !all.iter().any(|known| known.code == code && known.message == message) {
                all.push(Problem {
                    code,
                    pointer: charge.pointer.clone(),
                    message,
                    advice: advice.to_owned(),
                });
            }
        };
        match charge.source {
            Source::Fat(fat, _) => {
                if composition.style == Style::AsFormed && soap_without_name(fat, charge, composition) {
                    let message = format!(
                        "the soap of {} has no name in the inventory, and stands under the name of the fat",
                        fat.name
                    );
                    add(
                        "label.soap",
                        message,
                        "ask the assessor, or list the bars as charged; a name that the assessor gives goes into the fat's \
                         certificate as \"sodium_soap_inci\" or \"potassium_soap_inci\"",
                    );
                }
                if europe && fat.inci.fat.as_deref().is_some_and(names_peanut) {
                    let message = format!(
                        "{} may hold at most 0.5 ppm of peanut protein (annex III, entry 306)",
                        fat.name
                    );
                    add("label.statement", message, "ask its supplier for a certificate that says so");
                }
            }
            Source::Colour(colour) if europe => {
                let parts = names::charged(charge.source);
                let listed = |name: &str| colours::standing(name) != Standing::Absent;
                let names = parts.iter().filter_map(|(name, _)| name.as_deref());
                if !names.clone().any(|name| names::is_colour(name) || listed(name)) {
                    let message = format!(
                        "{} is in the recipe as a colour, and is not a permitted colour here (annex IV)",
                        colour.name
                    );
                    add(
                        "label.purpose",
                        message,
                        "colour with what annex IV lists, or let the assessor confirm that it is there mainly for another \
                         reason; it stands among the ordinary ingredients",
                    );
                }
            }
            _ => {}
        }
    }
    all
}

/// Whether soap of this fat stands under the fat's own name: the one rule for a soap that no inventory names. Nothing is
/// made up from the pattern of other names.
fn soap_without_name(fat: &Fat, charge: &Charge<'_>, composition: &Composition) -> bool {
    let own = |line: &Line| line.pointers.contains(&charge.pointer) && is_soap_of(fat, line);
    composition.lines.iter().any(own)
}

fn is_soap_of(fat: &Fat, line: &Line) -> bool {
    line.role == Role::Soap && line.inci.is_some() && line.inci.as_deref() == fat.inci.fat.as_deref()
}

/// Whether a line is soap under the name of its fat.
pub(super) fn soap_under_its_fat(charges: &[Charge<'_>], line: &Line) -> bool {
    charges.iter().any(|charge| matches!(charge.source, Source::Fat(fat, _) if is_soap_of(fat, line)))
}

/// Whether a label name is one of the peanut.
fn names_peanut(name: &str) -> bool {
    names::key(name).starts_with("arachis hypogaea")
}

fn of_peanut(additive: &Additive) -> bool {
    additive.allergen.as_deref() == Some("peanut") || additive.inci.as_deref().is_some_and(names_peanut)
}
