//! The order in which a lye is made.

use crate::batch::{LyeWork, Plan};
use crate::chemistry::{AlkaliSplit, carbonate_and_water};
use crate::material::{Alkali, Form};
use crate::quantity::Exact;
use crate::recipe::{Ingredient, Recipe};

use super::{Broken, ensure};

/// Every item of the lye is named once in its order of work, with all that is watery, acid or sweet before the alkali; and
/// where the alkali meets less water than is good for it, a caution says so with that figure.
///
/// # Errors
/// Where the plan does not do so.
pub fn lye_order(recipe: &Recipe, plan: &Plan) -> Result<(), Broken> {
    let law = "lye";
    let lye = &plan.lye;
    let mut named: Vec<&str> = lye.order.iter().flat_map(|step| &step.items).map(String::as_str).collect();
    let there = lye.items().filter(|item| !(item.ideal.is_zero() && item.weighed.is_zero()));
    let mut items: Vec<&str> = there.map(|item| item.pointer.as_str()).collect();
    named.sort_unstable();
    items.sort_unstable();
    ensure(law, named == items, || {
        format!("the order of work names {named:?}, and the lye holds {items:?}")
    })?;

    let alkali = |pointer: &str| lye.alkalis.iter().any(|item| item.pointer == pointer);
    let first = lye.order.iter().position(|step| step.items.iter().any(|pointer| alkali(pointer)));
    let last = lye.order.iter().rposition(|step| step.items.iter().any(|pointer| alkali(pointer)));
    let before = |pointer: &str| {
        let at = lye.order.iter().position(|step| step.items.iter().any(|item| item == pointer));
        at < first
    };
    let mut water = lye.water.weighed.exact();
    let liquids = recipe.lye.liquids.iter().map(|line| (&line.dose, true)).zip(&lye.liquids);
    let doses = recipe.lye.doses.iter().map(|dose| (dose, false)).zip(&lye.doses);
    for ((dose, in_place_of_water), item) in liquids.chain(doses) {
        let Ingredient::Additive(additive) = &dose.ingredient else { continue };
        let parts = &additive.composition;
        if item.weighed.is_zero() || before(&item.pointer) {
            water = water + item.weighed.exact() * parts.water.exact();
            continue;
        }
        let sharp = !(parts.acid.is_zero() && parts.sugars.is_zero() && parts.alcohol.is_zero());
        let pours = in_place_of_water || additive.form == Form::Liquid;
        let wrong = pours || (sharp && additive.form != Form::Insoluble);
        ensure(law, !wrong, || format!("{} comes after the alkali", item.name))?;
    }
    let plain = lye.order.iter().position(|step| step.items.contains(&lye.water.pointer));
    ensure(law, plain.is_none() || plain < first, || "water comes after the alkali".to_owned())?;
    let early = [LyeWork::Hot, LyeWork::Cool, LyeWork::Last];
    let early = lye.order.iter().position(|step| early.contains(&step.work));
    ensure(law, early > last, || "finished lye is worked on before there is any".to_owned())?;

    let split = AlkaliSplit::of(&recipe.alkali);
    let mut pure = Exact::ZERO;
    for kind in Alkali::ALL {
        let item = lye.alkalis.iter().find(|item| item.id == kind.id());
        if let Some((item, grade)) = item.zip(split.grade(kind)) {
            pure = pure + item.weighed.exact() * grade.purity.exact();
            water = water + carbonate_and_water(item.weighed.exact(), grade).1;
        }
    }
    let met = lye.dissolving.water_to_alkali;
    let should = (water / pure).published();
    ensure(law, should == Some(met.value()), || {
        format!("the alkali meets {met} of water, and should meet {should:?}")
    })?;
    let Some([ratio, dissolves, easy]) = lye.dissolving.against() else { return Ok(()) };
    let figure = lye.dissolving.figure();
    let said = |code| plan.cautions.iter().filter(|one| one.code == code && one.figure == figure).count();
    let (undissolved, little) = (ratio < dissolves, ratio >= dissolves && ratio < easy);
    for (code, wanted) in [("lye.undissolved", undissolved), ("lye.little-water", little)] {
        ensure(law, said(code) == usize::from(wanted), || {
            format!("{code} is said {} times of {figure}", said(code))
        })?;
    }
    Ok(())
}
