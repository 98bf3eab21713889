//! A plan held against the oracle, figure by figure.

use super::{Batch, Ideal, Portions, RBig, half_even, published, shares, steps};
use lamella::Plan;
use lamella::batch::WeighItem;
use lamella::quantity::{Decimal, Mass};
use lamella::recipe::{Amount, DoseBasis, FatStage, Ingredient, Recipe};

/// One figure twice: what it is, the plan's, the oracle's.
pub type Figure = (String, Decimal, Decimal);

/// Doses that go in before the lye, then those that come after it, as a plan lists them.
fn early_then_late<'a>(batch: &Batch<'_>, jug: usize, amounts: &'a [RBig]) -> [Vec<&'a RBig>; 2] {
    let mut lists = [Vec::new(), Vec::new()];
    for (dose, amount) in batch.doses(jug).iter().zip(amounts) {
        let of_mixture = matches!(dose.amount, Amount::Share(_, DoseBasis::Layer | DoseBasis::Batch));
        let late = of_mixture || matches!(dose.ingredient, Ingredient::Fragrance(_));
        lists[usize::from(late)].push(amount);
    }
    lists
}

/// Every ideal figure of a plan beside the correctly rounded value of the oracle's.
#[must_use]
pub fn ideals(recipe: &Recipe, plan: &Plan, ideal: &Ideal) -> Vec<Figure> {
    let batch = Batch::of(recipe);
    let mut all = Vec::new();
    let mut put = |what: String, ours: Decimal, theirs: &RBig| all.push((what, ours, published(theirs)));
    for (item, amount) in items(recipe, plan, ideal) {
        put(format!("{} at {}", item.id, item.pointer), item.ideal.value(), &amount);
    }
    put("fat".to_owned(), plan.batch.fat_ideal.value(), &ideal.fat);
    put("superfat aimed at".to_owned(), plan.batch.superfat_aimed.value(), &batch.unmet);
    let all_jugs = ideal.jugs.iter().fold(super::Matter::NONE, |sum, jug| sum.and(&jug.contents));
    put("superfat of the batch".to_owned(), plan.batch.superfat_ideal.value(), &all_jugs.superfat());
    for (line, jug) in plan.jugs.iter().zip(&ideal.jugs) {
        put(format!("portion of {}", line.name), line.portion.ideal.value(), &jug.portion);
        put(format!("lye of {}", line.name), line.lye.ideal.value(), &jug.lye);
        put(format!("superfat of {}", line.name), line.superfat_ideal.value(), &jug.contents.superfat());
    }
    all
}

/// Every item that is weighed, with the oracle's amount of it. Both lists must be equally long everywhere.
fn items<'p>(recipe: &Recipe, plan: &'p Plan, ideal: &Ideal) -> Vec<(&'p WeighItem, RBig)> {
    let batch = Batch::of(recipe);
    let mut all: Vec<(&WeighItem, RBig)> = Vec::new();
    let mut pairs = |items: &'p [WeighItem], amounts: Vec<&RBig>| {
        assert_eq!(items.len(), amounts.len(), "as many lines as amounts");
        all.extend(items.iter().zip(amounts.into_iter().cloned()));
    };
    let in_pot = recipe.fats.iter().zip(&ideal.fats).filter(|(line, _)| line.stage == FatStage::Pot);
    pairs(&plan.pot.fats, in_pot.map(|(_, amount)| amount).collect());
    pairs(&plan.pot.doses, ideal.pot_doses.iter().collect());
    pairs(&plan.lye.alkalis, ideal.alkalis.iter().map(|(_, mass)| mass).collect());
    pairs(std::slice::from_ref(&plan.lye.water), vec![&ideal.water]);
    pairs(&plan.lye.liquids, ideal.liquids.iter().collect());
    pairs(&plan.lye.doses, ideal.lye_doses.iter().collect());
    assert_eq!(plan.jugs.len(), ideal.jugs.len(), "as many jugs");
    for (index, (line, jug)) in plan.jugs.iter().zip(&ideal.jugs).enumerate() {
        pairs(&line.held, jug.held.iter().collect());
        let [early, late] = early_then_late(&batch, index, &jug.doses);
        pairs(&line.doses, early);
        pairs(&line.late_doses, late);
    }
    all
}

/// Every weighed figure of a plan beside the whole steps that follow from the oracle's amounts.
#[must_use]
pub fn weighings(recipe: &Recipe, plan: &Plan, ideal: &Ideal) -> Vec<Figure> {
    let batch = Batch::of(recipe);
    let step = |scale: usize| plan.scales[scale].step;
    let mut all = Vec::new();
    let fats = plan.pot.fats.len();
    for (item, amount) in items(recipe, plan, ideal).into_iter().skip(fats) {
        let theirs = steps::weighed(&amount, step(item.scale));
        all.push((format!("{} at {}", item.id, item.pointer), item.weighed.value(), theirs));
    }
    let mut list = |what: &str, ours: Vec<Mass>, theirs: Vec<Decimal>| {
        assert_eq!(ours.len(), theirs.len(), "as many parts of {what}");
        for (index, (ours, theirs)) in ours.into_iter().zip(theirs).enumerate() {
            all.push((format!("{what} {index}"), ours.value(), theirs));
        }
    };
    let first = |scale: Option<usize>| scale.map_or(Mass::ZERO, step);
    let fats_step = first(plan.pot.fats.first().map(|item| item.scale));
    list(
        "fat",
        plan.pot.fats.iter().map(|item| item.weighed).collect(),
        steps::fats(recipe, ideal, fats_step),
    );
    let jug_steps: Vec<Mass> = plan.jugs.iter().map(|jug| step(jug.portion.scale)).collect();
    list(
        "portion",
        plan.jugs.iter().map(|jug| jug.portion.weighed).collect(),
        steps::portions(recipe, ideal, plan.pot.total.value(), &jug_steps),
    );
    let lye_steps: Vec<Mass> = plan.jugs.iter().map(|jug| step(jug.lye.scale)).collect();
    list(
        "lye",
        plan.jugs.iter().map(|jug| jug.lye.weighed).collect(),
        steps::lyes(recipe, ideal, plan.lye.total.value(), &lye_steps),
    );
    let shares = shares(recipe);
    for (index, jug) in plan.jugs.iter().enumerate() {
        let weights: Vec<RBig> = batch.jugs[index].iter().map(|layer| shares[*layer].clone()).collect();
        let residue = Decimal::from_i128_with_scale(half_even(&(batch.residue(index) * picograms())), 12);
        let residue = Mass::try_new(residue).expect("a mass");
        let tare = jug.tare.unwrap_or(Mass::ZERO);
        let theirs = Portions::of(tare, jug.net, residue, jug_steps[index], &weights);
        list(&format!("gross of {}", jug.name), vec![jug.gross], vec![theirs.gross]);
        let ours = jug.layers.iter().map(|layer| plan.layers[*layer].portion).collect();
        list(&format!("pour of {}", jug.name), ours, theirs.portions);
    }
    all
}

fn picograms() -> RBig {
    super::ratio(1_000_000_000_000, 1)
}

/// The figures that are not the same twice, each in a line.
#[must_use]
pub fn differing(figures: &[Figure]) -> Vec<String> {
    let apart = figures.iter().filter(|(_, ours, theirs)| ours.normalize() != theirs.normalize());
    apart.map(|(what, ours, theirs)| format!("{what}: planned {ours}, exactly {theirs}")).collect()
}
