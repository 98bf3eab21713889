//! The laws, from a recipe.

use crate::batch::Plan;
use crate::quantity::Exact;
use crate::recipe::{self, Recipe};

use super::{Broken, change, check, ensure};

/// A law: nothing comes back when it holds.
pub type Law = fn(&Recipe) -> Result<(), Broken>;

/// Every law with its name.
pub const ALL: &[(&str, Law)] = &[
    ("mass", mass),
    ("parts", parts),
    ("steps", steps),
    ("readings", readings),
    ("fats-order", fats_order),
    ("units", units),
    ("superfat", superfat),
    ("halves", halves),
    ("bound", bound),
    ("document", document),
    ("again", again),
    ("lye", lye_order),
    ("scaling", scaling),
];

/// The plan of the recipe itself; no law holds for one that has none.
fn plan(recipe: &Recipe, law: &'static str) -> Result<Plan, Broken> {
    Plan::of(recipe).map_err(|problems| {
        let first = problems.first().map(ToString::to_string).unwrap_or_default();
        Broken { law, message: format!("the recipe cannot be planned: {first}") }
    })
}

/// Mass in is mass out: see [`check::mass`].
///
/// # Errors
/// Where a figure is not as the law says, or the recipe cannot be planned; so for every law.
pub fn mass(recipe: &Recipe) -> Result<(), Broken> {
    check::mass(recipe, &plan(recipe, "mass")?)
}

/// The parts of every split sum to the whole: see [`check::parts`].
///
/// # Errors
/// As [`mass`].
pub fn parts(recipe: &Recipe) -> Result<(), Broken> {
    check::parts(recipe, &plan(recipe, "parts")?)
}

/// Weighed amounts are whole steps, the nearest: see [`check::steps`].
///
/// # Errors
/// As [`mass`].
pub fn steps(recipe: &Recipe) -> Result<(), Broken> {
    check::steps(&plan(recipe, "steps")?)
}

/// Readings go down by the portions: see [`check::readings`].
///
/// # Errors
/// As [`mass`].
pub fn readings(recipe: &Recipe) -> Result<(), Broken> {
    check::readings(recipe, &plan(recipe, "readings")?)
}

/// The lye is made in an order that burns no one: see [`check::lye_order`].
///
/// # Errors
/// As [`mass`].
pub fn lye_order(recipe: &Recipe) -> Result<(), Broken> {
    check::lye_order(recipe, &plan(recipe, "lye")?)
}

/// The order of the fats decides nothing but ties: see [`check::fats_order`].
///
/// # Errors
/// As [`mass`].
pub fn fats_order(recipe: &Recipe) -> Result<(), Broken> {
    let one = plan(recipe, "fats-order")?;
    check::fats_order(&one, &plan(&change::fats_reversed(recipe), "fats-order")?)
}

/// Units decide nothing: the document with its masses in kilograms is the same recipe; and with every mass moved to the
/// nearest thousandth of an ounce, the document in ounces and the one in grams are the same recipe and the same plan.
///
/// # Errors
/// As [`mass`].
pub fn units(recipe: &Recipe) -> Result<(), Broken> {
    let law = "units";
    let read = |text: &str| recipe::read(text).map_err(|problems| unread(law, &problems));
    let kilograms = read(&change::in_unit(recipe, "kg"))?;
    ensure(law, kilograms == *recipe, || "in kilograms it is another recipe".to_owned())?;
    let whole = change::whole_ounces(recipe);
    let grams = read(&recipe::write(&whole))?;
    let ounces = read(&change::in_unit(&whole, "oz"))?;
    ensure(law, grams == ounces, || "in ounces it is another recipe".to_owned())?;
    check::same(law, Plan::of(&grams).as_ref(), Plan::of(&ounces).as_ref())
}

/// More superfat takes less alkali: the recipe with a hundredth of the demand more left unmet (or less, from 49 % on), see
/// [`check::superfat`].
///
/// # Errors
/// As [`mass`].
pub fn superfat(recipe: &Recipe) -> Result<(), Broken> {
    let law = "superfat";
    let plan = plan(recipe, law)?;
    let step = Exact::literal(1, 2);
    let discount = recipe.superfat.discount();
    let rises = (Exact::literal(49, 2) - discount).is_positive();
    let moved = change::superfat(recipe, if rises { discount + step } else { discount - step });
    // Less alkali is dissolved in less water, which may be too little for the additives: then there is nothing to compare.
    match moved.map(|moved| Plan::of(&moved)) {
        Some(Ok(moved)) if rises => check::superfat(&plan, &moved),
        Some(Ok(moved)) => check::superfat(&moved, &plan),
        Some(Err(_)) | None => Ok(()),
    }
}

/// A layer split into two halves is the layer: every layer in turn, see [`check::halves`]. Layers by height are left
/// alone, since halves of a height are no halves of a volume in most moulds.
///
/// # Errors
/// As [`mass`].
pub fn halves(recipe: &Recipe) -> Result<(), Broken> {
    let whole = plan(recipe, "halves")?;
    for layer in 0..recipe.layers.len() {
        if let Some(halved) = change::halved(recipe, layer) {
            // A half may be less than a scale step, or than what can be poured.
            if let Ok(halved) = Plan::of(&halved) {
                check::halves(&whole, &halved, layer)?;
            }
        }
    }
    Ok(())
}

/// No jug's superfat leaves its ideal by more than the scale steps explain: see [`check::bound`].
///
/// # Errors
/// As [`mass`].
pub fn bound(recipe: &Recipe) -> Result<(), Broken> {
    check::bound(recipe, &plan(recipe, "bound")?)
}

/// A written recipe is read back as itself, and written again as the same text.
///
/// # Errors
/// As [`mass`].
pub fn document(recipe: &Recipe) -> Result<(), Broken> {
    let law = "document";
    let text = recipe::write(recipe);
    let back = recipe::read(&text).map_err(|problems| unread(law, &problems))?;
    check::document(recipe, &back)?;
    ensure(law, recipe::write(&back) == text, || "written again it is another text".to_owned())
}

/// Planning twice gives the same bytes.
///
/// # Errors
/// As [`mass`].
pub fn again(recipe: &Recipe) -> Result<(), Broken> {
    let law = "again";
    check::same(law, Ok(&plan(recipe, law)?), Ok(&plan(&recipe.clone(), law)?))
}

/// Three times everything is three times every ideal amount: see [`check::scaling`].
///
/// # Errors
/// As [`mass`].
pub fn scaling(recipe: &Recipe) -> Result<(), Broken> {
    let plan = plan(recipe, "scaling")?;
    let tripled = change::times(recipe, 3).map(|tripled| Plan::of(&tripled));
    // A batch three times as large may pass what a recipe can hold.
    match tripled {
        Some(Ok(tripled)) => check::scaling(&plan, &tripled, 3),
        Some(Err(_)) | None => Ok(()),
    }
}

fn unread(law: &'static str, problems: &[crate::problem::Problem]) -> Broken {
    let first = problems.first().map(ToString::to_string).unwrap_or_default();
    Broken { law, message: format!("what was written is not read: {first}") }
}
