//! Surface: cracks, bloom, drops.

use super::Case;
use super::body::{DEEP, SHALLOW};
use super::colour::WEAK;
use super::facts::{Facts, millimetres, percent};
use crate::quantity::Share;
use crate::recipe::Ingredient;

/// Sugars that heat too much. Source: common practice, no source: over 3 % of the fat expect overheating.
const HEATS: Share = Share::literal(3, 2);
/// Alcohol that foams and heats. Source: common practice, no source.
const ALCOHOL: Share = Share::literal(3, 3);
/// Clay that dries the batter. Source: common practice, no source: 1-3 % of the fat.
const CLAY: Share = Share::literal(3, 2);
/// Lye above which a block is brittle early. Source: common practice, no source.
const STRONG: Share = Share::literal(38, 2);
/// Glycerol, polyols and sugars above which a bar draws water from damp air. A bar of fat and lye alone has 6-8 % of
/// glycerol by its own arithmetic; more is what was added. Source: common practice, no source.
const DRAWS: Share = Share::literal(9, 2);
/// Salt above which it does. Source: common practice, no source.
const SALT: Share = Share::literal(5, 2);
/// Superfat above which fat may sweat out. Source: common practice, no source: over 8-10 %.
const GREASY: Share = Share::literal(1, 1);
/// Scent above which it may part. Source: common practice, no source: 3-5 % of the fat.
const MUCH_SCENT: Share = Share::literal(4, 2);
/// Superfat below which a weighing error makes a bar lye-heavy. Source: arithmetic: 1 g on 100 g of alkali is a point.
pub(super) const THIN: Share = Share::literal(2, 2);

pub(super) fn crack(facts: &Facts<'_>) -> Vec<Case> {
    let sugars = facts.sugars();
    let heat = Case::new(
        "after.overheated",
        "it got too hot inside and burst",
        "the crack runs along the middle and is domed; the core is darker than the rim",
        "less insulation, a cooler room, shallower blocks, less sugar; a fresh crack can be pressed shut with gloves",
    )
    .weigh(
        sugars > HEATS,
        percent("sugars of the fat", sugars),
        "heat strongly",
        "heat little",
    );
    let heat = match facts.depth() {
        Some(depth) => heat.weigh(
            depth > DEEP,
            millimetres("depth of the block", depth),
            "keeps its heat",
            "sheds its heat well enough",
        ),
        None => heat,
    };
    let alcohol = facts.alcohol();
    let heat = heat.if_so(alcohol > ALCOHOL, percent("alcohol", alcohol), "heats, and boils off");
    let lye = facts.lye();
    let clay = facts.clays();
    let dry = Case::new(
        "after.dry-top",
        "a stiff, dry top that shrinks",
        "the cracks are fine, many and shallow, as in mud; the core is no darker",
        "cover the top, use a little more water, pre-wet clay with three parts of water",
    )
    .weigh(lye > STRONG, percent("lye", lye), "leaves little water", "leaves water enough")
    .weigh(
        clay > CLAY,
        percent("clay of the fat", clay),
        "draws the water out of the batter",
        "draws little water",
    );
    let apart = facts.water_apart();
    let uneven = Case::new(
        "after.uneven-layers",
        "layers that shrink by different amounts",
        "the crack follows a seam, or the top layer is cupped",
        "keep the water of the layers within 3-5 points of their fat",
    )
    .weigh(
        apart > Share::literal(5, 2),
        percent("water of the layers, points apart,", apart),
        "is more than layers take",
        "is even",
    );
    let cases = [heat, dry, uneven, lye_heavy(facts)];
    if facts.on_top {
        cases.into()
    } else {
        let below = |case: Case| {
            case.denies("the layer lies below others", "what is seen on top is of the top layer")
        };
        cases.map(below).into()
    }
}

/// More alkali than fat: a hazard in every case.
pub(super) fn lye_heavy(facts: &Facts<'_>) -> Case {
    let low = facts.superfat_low();
    Case::new(
        "after.lye-heavy",
        "more alkali than fat can take up",
        "a fresh cut turns phenolphthalein strongly pink, or pH paper far above 10.5: do not use the bar",
        "keep it from skin and eyes, test it again after two weeks, discard or rework what stays alkaline",
    )
    .weigh(
        low < THIN,
        percent("lowest superfat", low),
        "is within what a scale can be off",
        "leaves room for small errors",
    )
    .if_so(
        facts.plan.cautions.iter().any(|caution| caution.code == "weigh.few-steps"),
        "something is weighed in few steps of its scale",
        "so that its mass is not well known",
    )
}

pub(super) fn ash(facts: &Facts<'_>) -> Vec<Case> {
    let lye = facts.lye();
    let carbonate = Case::new(
        "after.carbonate",
        "carbonate of lye that met the air before it had reacted",
        "the bloom sits on faces that lay open, wipes off wet, and comes back no more after steam or planing",
        "cover the top at once, use stronger lye, warm the block so that it gels",
    )
    .weigh(
        lye < WEAK,
        percent("lye", lye),
        "is weak: it reacts slowly and carries alkali to the surface as it dries",
        "is strong enough to react soon",
    );
    let carbonate = match facts.depth() {
        _ if facts.cooked() => carbonate.denies("hot process", "no lye is left when it is filled"),
        Some(depth) => carbonate.weigh(
            depth < SHALLOW,
            millimetres("depth of the block", depth),
            "stays cool and rarely gels",
            "warms itself",
        ),
        None => carbonate,
    };
    let salt = facts.salts();
    let bloom = Case::new(
        "after.salt-bloom",
        "salt that crystallises as the bar dries",
        "the bloom is gritty under a gloved finger, comes in the cure and on all faces",
        "less salt, or plane the bars when they are dry",
    )
    .weigh(
        salt > Share::literal(2, 2),
        percent("salt of the fat", salt),
        "is more than the soap holds",
        "is little",
    );
    let clay = facts.named(|dosed| {
        matches!(dosed.ingredient, Ingredient::Additive(additive) if additive.id == "cornstarch" || additive.id == "rice-flour")
            || matches!(dosed.ingredient, Ingredient::Colourant(colour) if colour.id.starts_with("mica"))
    });
    let dust = Case::new(
        "after.dust",
        "powder from a line or the lining, not bloom",
        "it lies only along a mica line or where the mould was dusted, and shines or smears",
        "sieve a thinner line; wipe the mould",
    )
    .names(
        &clay,
        "no mica or starch in it",
        "leave a powder where they lie",
        "there is no powder to be left",
    );
    vec![carbonate, bloom, dust]
}

pub(super) fn weeping(facts: &Facts<'_>) -> Vec<Case> {
    let (draws, salt) = (facts.draws_water(), facts.salts());
    let damp = Case::new(
        "after.damp",
        "water that glycerol, sugar or salt draws from damp air",
        "clear drops that come on damp days and go on dry ones; they do not turn pH paper far above 10",
        "keep the bars below 55-60 % of relative humidity, wrapped once they are dry",
    )
    .weigh(
        draws > DRAWS,
        percent("glycerol, polyols and sugars of the cured bar", draws),
        "draw water",
        "are no more than any bar has",
    )
    .if_so(salt > SALT, percent("salt of the fat", salt), "draws water");
    let pockets = Case::new(
        "after.pockets",
        "lye that was not stirred in and seeps out",
        "the liquid turns phenolphthalein or pH paper at once, often out of white soft spots: do not touch it bare",
        "blend to a stable emulsion, beyond false trace; discard or rework the bars",
    );
    let low = facts.superfat_low();
    let pockets = pockets.weigh(
        low < THIN,
        percent("lowest superfat", low),
        "leaves little fat to take up stray lye",
        "takes up what is stirred in; only lye that was never mixed would seep",
    );
    let sugars = facts.sugars();
    let parted = Case::new(
        "after.parted",
        "oil that parted when it overheated or seized",
        "the liquid is oily, does not turn pH paper, and sits in holes or along a crack",
        "keep it cooler; a warm, parted block can be stirred together again",
    )
    .weigh(sugars > HEATS, percent("sugars of the fat", sugars), "heat strongly", "heat little");
    let fast = facts.named(|dosed| {
        matches!(dosed.ingredient, Ingredient::Fragrance(scent) if scent.pace == crate::material::fragrance::Pace::Seizing)
    });
    let parted = parted.if_so(!fast.is_empty(), fast.join("; "), "may seize the batter, and then it parts");
    let superfat = facts.superfat_high();
    let scent = facts.dosed(|dosed| matches!(dosed.ingredient, Ingredient::Fragrance(_)));
    let fat = Case::new(
        "after.free-fat",
        "fat or scent beyond what the soap holds",
        "the film is greasy, smells of oil or of the scent, and shows on paper",
        "lower the superfat or the scent",
    )
    .weigh(
        superfat > GREASY,
        percent("highest superfat", superfat),
        "is more than a bar holds well",
        "is held by the soap",
    )
    .weigh(scent > MUCH_SCENT, percent("scent of the fat", scent), "is much", "is no more than usual");
    vec![damp, pockets, parted, fat]
}
