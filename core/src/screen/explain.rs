//! Where a figure of a plan comes from: how it is reckoned, from what, and by whose numbers.

use serde::Serialize;

use crate::batch::{JugPlan, LayerPlan, Plan};
use crate::chemistry::Part;
use crate::material::{Alkali, Basis, library};
use crate::quantity::{Mass, Share, fixed};
use crate::recipe::Recipe;

/// A figure, and what stands behind it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Explanation {
    /// What the figure is.
    pub title: String,
    /// How it is reckoned, in words.
    pub how: String,
    /// What it is reckoned from.
    pub from: Vec<Input>,
    /// Whose numbers those are.
    pub sources: Vec<Basis>,
}

/// A figure that another is reckoned from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Input {
    /// What it is.
    pub name: String,
    /// Its value, with its unit.
    pub value: String,
}

/// Explains a figure: `fat/0` (by its line in the recipe), `alkali`, `water`, `concentration`, `superfat`, `poured`,
/// `cured`, `indices`, or of a jug or a layer by its index in the plan: `superfat/2`, `portion/2`, `height/2`, `density/2`. Nothing for a figure
/// that is not there.
///
/// ```
/// let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
/// let plan = lamella::Plan::of(&recipe).unwrap();
/// let superfat = lamella::screen::explain(&recipe, &plan, "superfat/0").unwrap();
/// assert!(superfat.sources.iter().any(|basis| basis.what.contains("saponification value")));
/// ```
#[must_use]
pub fn explain(recipe: &Recipe, plan: &Plan, figure: &str) -> Option<Explanation> {
    plan.is_of(recipe).then_some(())?;
    let (figure, index) = match figure.split_once('/') {
        Some((figure, index)) => (figure, index.parse::<usize>().ok()),
        None => (figure, None),
    };
    let jug = index.and_then(|index| plan.jugs.get(index));
    let layer = index.and_then(|index| plan.layers.get(index));
    match (figure, index) {
        ("fat", Some(index)) => fat(recipe, plan, index),
        ("alkali", None) => Some(alkali(recipe, plan)),
        ("water" | "concentration", None) => Some(water(plan)),
        ("superfat", None) => Some(batch_superfat(recipe, plan)),
        ("superfat", Some(_)) => jug.map(|jug| superfat(recipe, plan, jug)),
        ("portion", Some(_)) => layer.and_then(|layer| portion(plan, layer)),
        ("height", Some(_)) => layer.and_then(|layer| height(plan, layer)),
        ("density", Some(_)) => jug.map(|jug| density(recipe, jug)),
        ("poured", None) => Some(poured(plan)),
        ("cured", None) => Some(cured(recipe, plan)),
        ("indices", None) => Some(indices(recipe, plan)),
        _ => None,
    }
}

fn input(name: impl Into<String>, value: impl Into<String>) -> Input {
    Input { name: name.into(), value: value.into() }
}

fn grams(mass: Mass) -> String {
    format!("{} g", fixed(mass.value(), 2))
}

fn percent(share: Share) -> String {
    format!("{} %", fixed(share.in_unit("%").unwrap_or_default(), 2))
}

/// Sources of the fats' figures whose name has one of these words.
fn of_fats(recipe: &Recipe, words: &[&str]) -> Vec<Basis> {
    let mut sources: Vec<Basis> = Vec::new();
    for line in &recipe.fats {
        for basis in line.fat.bases.iter() {
            let wanted = words.iter().any(|word| basis.what.contains(word));
            if wanted && !sources.contains(basis) {
                sources.push(basis.clone());
            }
        }
    }
    sources
}

fn of_alkalis(plan: &Plan) -> Vec<Basis> {
    let used =
        Alkali::ALL.into_iter().filter(|alkali| plan.lye.alkalis.iter().any(|item| item.id == alkali.id()));
    used.flat_map(|alkali| library::alkali(alkali).bases.iter().cloned()).collect()
}

fn fat(recipe: &Recipe, plan: &Plan, index: usize) -> Option<Explanation> {
    let line = recipe.fats.get(index)?;
    let pointer = format!("/fats/{index}");
    let held = plan.jugs.iter().flat_map(|jug| &jug.held);
    let item = plan.pot.fats.iter().chain(held).find(|item| item.pointer == pointer)?;
    let sv = line.fat.saponification_value;
    let range = match (sv.min, sv.max) {
        (Some(min), Some(max)) => format!("{} (published {min} to {max})", sv.typical),
        _ => sv.typical.to_string(),
    };
    Some(Explanation {
        title: line.fat.name.to_string(),
        how: "All the fat of the recipe, times the share of this line. What is weighed is that in whole scale steps; the \
              fats of the pot are rounded together, so that their sum is kept."
            .to_owned(),
        from: vec![
            input("fat of the recipe", grams(plan.batch.fat_ideal)),
            input("exact", format!("{} g", fixed(item.ideal.value(), 4))),
            input("in steps of the scale", item.weighed.to_string()),
            input("saponification value", range),
        ],
        sources: line.fat.bases.to_vec(),
    })
}

fn alkali(recipe: &Recipe, plan: &Plan) -> Explanation {
    let figures = &plan.lye.figures;
    let mut from = vec![
        input("demand of all the fat", format!("{} of KOH", grams(plan.batch.demand_koh))),
        input("taken up by acids", format!("{} of KOH", grams(plan.batch.acid_koh))),
        input("superfat asked for", percent(plan.batch.superfat_aimed)),
        input("pure sodium hydroxide", grams(figures.sodium_hydroxide)),
        input("pure potassium hydroxide", grams(figures.potassium_hydroxide)),
    ];
    for (item, purity) in plan.lye.alkalis.iter().zip(&plan.lye.purities) {
        from.push(input(format!("{}, as pure as", item.name), percent(*purity)));
    }
    let mut sources = of_fats(recipe, &["saponification"]);
    sources.extend(of_alkalis(plan));
    Explanation {
        title: "Alkali".to_owned(),
        how: "Each fat's mass times its saponification value is what it demands, as KOH. The superfat is left off, what \
              balanced additives and acids need is added, the sum is turned into the recipe's alkali by molar mass, and \
              divided by its purity."
            .to_owned(),
        from,
        sources,
    }
}

fn water(plan: &Plan) -> Explanation {
    let figures = &plan.lye.figures;
    Explanation {
        title: "Water of the lye".to_owned(),
        how: "From the pure alkali by the way of stating water that the recipe uses; the other ways are worked out from \
              what is weighed."
            .to_owned(),
        from: vec![
            input("water, all of it", grams(figures.water)),
            input("lye concentration, pure alkali / (alkali + water)", percent(figures.concentration)),
            input("water to one of alkali", fixed(figures.water_to_alkali.value(), 3)),
            input("water of the fat", percent(figures.water_of_fat)),
        ],
        sources: of_alkalis(plan),
    }
}

const SUPERFAT: &str = "The share of the alkali demand that is left unmet: what the fat in it could take up, less the \
                        alkali that is in it, over what the fat could take up. It is reckoned from what is weighed, after \
                        rounding to scale steps; additives bring fat and acid of their own.";

fn superfat(recipe: &Recipe, plan: &Plan, jug: &JugPlan) -> Explanation {
    let tally = &jug.tally;
    let koh = |value: crate::quantity::Exact| {
        Mass::try_new(value).map_or_else(|_| String::new(), |mass| format!("{} of KOH", grams(mass)))
    };
    let mut from = vec![
        input("its fat demands", koh(tally.fat_demand())),
        input("its acids take up", koh(tally.acid_demand)),
        input("its lye holds", koh(tally.alkali().as_koh())),
        input("asked for", percent(plan.batch.superfat_aimed)),
        input("before rounding to scale steps", percent(jug.superfat_ideal)),
        input("as weighed", percent(jug.superfat)),
    ];
    from.extend(
        jug.doses
            .iter()
            .chain(&jug.late_doses)
            .map(|item| input(item.name.clone(), item.weighed.to_string())),
    );
    Explanation {
        title: format!("Superfat of {}", jug.name),
        how: SUPERFAT.to_owned(),
        from,
        sources: of_fats(recipe, &["saponification"]),
    }
}

fn batch_superfat(recipe: &Recipe, plan: &Plan) -> Explanation {
    let mut from = vec![input("asked for", percent(plan.batch.superfat_aimed))];
    from.extend(plan.jugs.iter().map(|jug| input(jug.name.clone(), percent(jug.superfat))));
    from.push(input("all that is mixed", percent(plan.batch.superfat)));
    Explanation {
        title: "Superfat of the batch".to_owned(),
        how: SUPERFAT.to_owned(),
        from,
        sources: of_fats(recipe, &["saponification"]),
    }
}

fn portion(plan: &Plan, layer: &LayerPlan) -> Option<Explanation> {
    let jug = plan.jugs.get(layer.jug)?;
    Some(Explanation {
        title: format!("What is poured of {}", layer.name),
        how: "What is in its jug, less what stays on the walls, divided over the layers of the jug in the proportions of \
              the recipe and in whole scale steps."
            .to_owned(),
        from: vec![
            input(format!("in the jug {}", jug.name), grams(jug.net)),
            input("stays in it", grams(jug.left)),
            input("the scale shows before", layer.reading.before.to_string()),
            input("and after", layer.reading.after.to_string()),
        ],
        sources: Vec::new(),
    })
}

fn height(plan: &Plan, layer: &LayerPlan) -> Option<Explanation> {
    let jug = plan.jugs.get(layer.jug)?;
    let mut from = vec![
        input("poured", grams(layer.portion)),
        input("density of its batter", format!("{} g/mL", fixed(jug.density.value(), 3))),
        input("volume", format!("{} mL", fixed(layer.volume.value(), 1))),
    ];
    from.extend(layer.heights.iter().filter_map(|height| {
        let mould = plan.moulds.get(height.mould)?;
        let [low, high] = [height.from, height.to].map(|length| fixed(length.value(), 1));
        Some(input(mould.name.clone(), format!("{low} to {high} mm")))
    }));
    Some(Explanation {
        title: format!("Height of {}", layer.name),
        how: "Mass over density is volume; the mould's own geometry turns the volume into a height. Batter shrinks a little \
              as it cools, which is left out."
            .to_owned(),
        from,
        sources: Vec::new(),
    })
}

fn density(recipe: &Recipe, jug: &JugPlan) -> Explanation {
    Explanation {
        title: format!("Density of {}", jug.name),
        how: "The masses of what is in it, over their volumes: fats by their own densities, lye by its concentration and \
              temperature."
            .to_owned(),
        from: vec![
            input("in the jug", grams(jug.net)),
            input("density", format!("{} g/mL", fixed(jug.density.value(), 3))),
        ],
        sources: of_fats(recipe, &["density"]),
    }
}

fn poured(plan: &Plan) -> Explanation {
    let batch = &plan.batch;
    Explanation {
        title: "Poured".to_owned(),
        how: "All that is weighed in, less what stays in the pot, the vessel of the lye and the jugs."
            .to_owned(),
        from: vec![
            input("weighed in", grams(batch.weighed_in)),
            input("left behind", grams(batch.left)),
            input("poured", grams(batch.poured)),
            input("volume", format!("{} mL", fixed(batch.volume.value(), 0))),
            input("density", format!("{} g/mL", fixed(batch.density.value(), 3))),
        ],
        sources: Vec::new(),
    }
}

fn cured(recipe: &Recipe, plan: &Plan) -> Explanation {
    let batch = &plan.batch;
    let of = |part: Part| grams(batch.cured.mass(part));
    Explanation {
        title: "Cured".to_owned(),
        how: "What is poured, after the reaction, dried until water is the share that the recipe names. Every gram of \
              alkali is followed into soap, glycerol and water."
            .to_owned(),
        from: vec![
            input("poured", grams(batch.poured)),
            input("soap", of(Part::Soap)),
            input("glycerol", of(Part::Glycerol)),
            input("unreacted fat", of(Part::UnreactedFat)),
            input("water left in it", percent(recipe.cured_water)),
        ],
        sources: Vec::new(),
    }
}

fn indices(recipe: &Recipe, plan: &Plan) -> Explanation {
    let mut from: Vec<Input> = Vec::new();
    from.extend(recipe.fats.iter().zip(&plan.pot.fats).map(|(line, item)| {
        let value =
            line.fat.iodine_value.map_or_else(|| "not known".to_owned(), |value| value.typical.to_string());
        input(format!("iodine value of {}", item.name), value)
    }));
    Explanation {
        title: "What the fat is".to_owned(),
        how: "Fatty acids of each fat by its mass, in the classes that their chains make. The iodine value follows from \
              them (AOCS Cd 1c-85); so does the saponification value of their mean."
            .to_owned(),
        from,
        sources: of_fats(recipe, &["profile", "fatty"]),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_figure_is_explained() {
        let recipe = crate::recipe::read(crate::EXAMPLE).unwrap();
        let plan = Plan::of(&recipe).unwrap();
        let figures = [
            "fat/0",
            "fat/5",
            "alkali",
            "water",
            "concentration",
            "superfat",
            "superfat/0",
            "superfat/4",
            "portion/6",
            "height/6",
            "density/0",
            "poured",
            "cured",
            "indices",
        ];
        for figure in figures {
            let explained = explain(&recipe, &plan, figure).unwrap_or_else(|| panic!("{figure}"));
            assert!(!explained.how.is_empty() && !explained.from.is_empty(), "{figure}");
            assert!(explained.from.iter().all(|input| !input.value.is_empty()), "{figure}");
        }
        for figure in ["", "fat", "fat/6", "superfat/9", "height/x", "luck"] {
            assert_eq!(explain(&recipe, &plan, figure), None, "{figure}");
        }
    }
}
