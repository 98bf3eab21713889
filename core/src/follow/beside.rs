//! Events beside the plan: what was added, what stays behind, and alkali that is not what it should be.

use super::apply::{Applying, Found, refused};
use super::replan::{LYE, POT};
use crate::batch::JugPlan;
use crate::chemistry::AlkaliSplit;
use crate::material::{Alkali, library};
use crate::problem::Problem;
use crate::quantity::{Mass, Share};
use crate::recipe::{AlkaliChoice, AlkaliGrade, Amount, Dose, Ingredient, Jug, Recipe, Treatment};

impl Applying<'_> {
    pub(super) fn add(
        &mut self,
        item: &str,
        vessel: Option<&str>,
        mass: Mass,
        number: usize,
    ) -> Result<(), Problem> {
        // More of something that is there already is simply more of it.
        match self.find(item, vessel, "added") {
            Ok(found) => {
                self.still_open(&found, item, "added")?;
                if found.jug.is_some() && found.pointer == POT {
                    self.settle_pot();
                }
                if found.jug.is_some() && found.pointer == LYE {
                    self.settle_lye();
                }
                self.fix(found.jug.as_deref(), &found.pointer, found.weighed + mass);
                return Ok(());
            }
            Err(problem) if problem.code != "event.unknown" || problem.pointer == "/in" => {
                return Err(problem);
            }
            Err(_) => {}
        }
        let fresh = || vessel.and_then(|_| fresh_alkali(&self.ledger.truth, item));
        let Some(ingredient) = ingredient(&self.ledger.truth, item).or_else(fresh) else {
            let near = library::similar(item, library::Kind::Fat);
            let advice = near.map_or_else(
                || "use the id of a fat or an additive of the library, or of the recipe".to_owned(),
                |near| format!("write {near:?}"),
            );
            return Err(refused(
                "event.unknown",
                "added",
                format!("no material has the id {item:?}"),
                &advice,
            ));
        };
        let jug = vessel.map(|vessel| self.jug(vessel, "in")).transpose()?;
        let fresh = match &jug {
            Some(jug) => self.fixed(Some(&jug.name), LYE).is_none(),
            None => true,
        };
        // Before the lye is weighed it follows fat that was added.
        let balance = fresh && matches!(ingredient, Ingredient::Fat(_));
        let dose = Dose {
            ingredient,
            amount: Amount::Mass(mass),
            treatment: if balance { Treatment::Balance } else { Treatment::Absorb },
            own: false,
            pointer: format!("/events/{number}"),
        };
        let name = jug.as_ref().map(|jug| jug.name.clone());
        let place = Found { jug: name, pointer: dose.pointer.clone(), weighed: mass };
        match jug {
            None if self.is_divided(POT) => {
                let message = format!("{item:?} goes into the pot, and the pot is divided already");
                return Err(refused(
                    "event.late",
                    "added",
                    message,
                    "say with \"in\" which jug it went into",
                ));
            }
            None => self.ledger.truth.pot.push(dose),
            Some(jug) => {
                self.still_open(&place, item, "added")?;
                self.doses_of(&jug).push(dose);
            }
        }
        self.fix(place.jug.as_deref(), &place.pointer, mass);
        Ok(())
    }

    /// The doses of the recipe that make a jug's mixture.
    fn doses_of(&mut self, jug: &JugPlan) -> &mut Vec<Dose> {
        let truth = &mut self.ledger.truth;
        let of_jug = truth.jugs.iter().position(|known| known.name == jug.name && !known.doses.is_empty());
        let first = jug.layers.first().copied().unwrap_or(0);
        match of_jug {
            Some(index) => truth.jugs.get_mut(index).map(|jug| &mut jug.doses),
            None => truth.layers.get_mut(first).map(|layer| &mut layer.doses),
        }
        .unwrap_or(&mut truth.pot)
    }

    pub(super) fn left(&mut self, vessel: &str, mass: Mass) -> Result<(), Problem> {
        match vessel {
            POT => self.ledger.truth.workshop.pot_residue = mass,
            LYE => self.ledger.truth.workshop.lye_residue = mass,
            name => {
                let jug = self.jug(name, "left")?;
                let truth = &mut self.ledger.truth;
                if let Some(known) = truth.jugs.iter_mut().find(|known| known.name == jug.name) {
                    known.residue = Some(mass);
                } else if let Some(layer) = jug.layers.first().and_then(|layer| truth.layers.get_mut(*layer))
                {
                    layer.jug = Some(truth.jugs.len());
                    truth.jugs.push(Jug {
                        name: jug.name,
                        tare: None,
                        residue: Some(mass),
                        doses: Vec::new(),
                    });
                }
            }
        }
        Ok(())
    }

    pub(super) fn alkali(
        &mut self,
        alkali: Alkali,
        purity: Option<Share>,
        is: Option<Alkali>,
    ) -> Result<(), Problem> {
        let changed = |grade: AlkaliGrade, becomes: Alkali| -> AlkaliGrade {
            let other = becomes != alkali;
            let stated = purity.or_else(|| other.then(|| library::alkali(becomes).purity.typical));
            let grade = stated.map_or(grade, |purity| AlkaliGrade { purity, purity_within: None, ..grade });
            // What is pure leaves no room for as much carbonate.
            let room = Share::literal(1, 0) - grade.purity;
            AlkaliGrade { carbonate: grade.carbonate.min(room), ..grade }
        };
        let becomes = is.unwrap_or(alkali);
        let unknown =
            |message: &str, advice: &str| Err(refused("event.unknown", "found", message.to_owned(), advice));
        let choice = match (self.ledger.truth.alkali, alkali) {
            (AlkaliChoice::Sodium(grade), Alkali::SodiumHydroxide)
            | (AlkaliChoice::Potassium(grade), Alkali::PotassiumHydroxide) => {
                let grade = changed(grade, becomes);
                match becomes {
                    Alkali::SodiumHydroxide => AlkaliChoice::Sodium(grade),
                    Alkali::PotassiumHydroxide => AlkaliChoice::Potassium(grade),
                }
            }
            (AlkaliChoice::Dual { sodium, potassium, share, reading }, _) if becomes == alkali => {
                let (sodium, potassium) = match alkali {
                    Alkali::SodiumHydroxide => (changed(sodium, alkali), potassium),
                    Alkali::PotassiumHydroxide => (sodium, changed(potassium, alkali)),
                };
                AlkaliChoice::Dual { sodium, potassium, share, reading }
            }
            (AlkaliChoice::Dual { .. }, _) => {
                return unknown(
                    "the recipe uses both alkalis, and one of them cannot be the other as well",
                    "report what was weighed of each",
                );
            }
            _ => return unknown("the recipe does not use this alkali", "name the one that it uses"),
        };
        self.ledger.truth.alkali = choice;
        if becomes != alkali {
            self.ledger.is.insert(alkali, becomes);
        }
        Ok(())
    }
}

/// Alkali that goes into a jug beside the lye: of the grade of the recipe's, else as it usually is.
fn fresh_alkali(recipe: &Recipe, id: &str) -> Option<Ingredient> {
    let alkali = Alkali::ALL.into_iter().find(|alkali| alkali.id() == id)?;
    let usual = || AlkaliGrade::new(library::alkali(alkali).purity.typical, Share::ZERO);
    let grade = AlkaliSplit::of(&recipe.alkali).grade(alkali).unwrap_or_else(usual);
    Some(Ingredient::Alkali(alkali, grade))
}

/// A material by its id: as the recipe has it, else as the library has it.
fn ingredient(recipe: &Recipe, id: &str) -> Option<Ingredient> {
    let of_fats = recipe.fats.iter().map(|line| &line.fat).find(|fat| fat.id == id);
    let layers = recipe.layers.iter().flat_map(|layer| &layer.doses);
    let doses = layers.chain(recipe.jugs.iter().flat_map(|jug| &jug.doses)).chain(&recipe.pot);
    let of_doses = || doses.map(|dose| &dose.ingredient).find(|ingredient| ingredient.id() == id).cloned();
    of_fats
        .map(|fat| Ingredient::Fat(fat.clone()))
        .or_else(of_doses)
        .or_else(|| library::fat(id).map(|fat| Ingredient::Fat(fat.clone())))
        .or_else(|| library::additive(id).map(|additive| Ingredient::Additive(additive.clone())))
        .or_else(|| library::colourant(id).map(|colour| Ingredient::Colourant(colour.clone())))
        .or_else(|| library::fragrance(id).map(|scent| Ingredient::Fragrance(scent.clone())))
}
