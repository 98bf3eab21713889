//! Colour: all through, at the border, in spots, in specks.

use super::Case;
use super::facts::{Facts, percent};
use crate::material::{Class, FragranceKind};
use crate::quantity::{Exact, Share, Temperature};
use crate::recipe::Ingredient;

/// Sugars that brown visibly, as a share of the fat. Source: common practice, no source: a teaspoon of honey to 500 g.
const BROWNS: Share = Share::literal(8, 3);
/// Water that lets white pigment and soap part into veins. Source: common practice, no source: lye below 36 %.
const VEINS: Share = Share::literal(36, 2);
/// Lye below which bloom is usual. Source: common practice, no source.
pub(super) const WEAK: Share = Share::literal(33, 2);
/// Poly-unsaturated fatty acids from which rancidity is to be watched. Source: common practice, no source: 15-20 %.
const RANCID: Share = Share::literal(15, 2);
/// Superfat from which it comes sooner. Source: common practice, no source: 8-10 %.
const HIGH_SUPERFAT: Share = Share::literal(8, 2);
/// Palmitic and stearic acid from which fat grains when it is mixed cool. Source: common practice, no source.
const GRAINY: Share = Share::literal(25, 2);
/// Fats below this set before they are mixed. Source: common practice, no source: mix at 30-45 °C, hard fats to 50 °C.
const COOL: Temperature = Temperature::literal(38, 0);
/// Lye that holds crystals easily. Source: common practice, no source: 40 % is for those who know it.
const STRONG: Share = Share::literal(40, 2);

fn compounds(facts: &Facts<'_>) -> Vec<String> {
    facts.named(|dosed| {
        matches!(dosed.ingredient, Ingredient::Fragrance(scent) if scent.kind == FragranceKind::Compound)
    })
}

pub(super) fn throughout(facts: &Facts<'_>) -> Vec<Case> {
    let unstable = Case::new(
        "after.colour-alkali",
        "a colour that alkali changes",
        "a smear of the colour in a drop of weak lye turns the same within a day",
        "use a pigment that holds in alkali: an oxide, an ultramarine, carbon",
    )
    .names(
        &facts.unstable_colours(),
        "no colour that alkali changes",
        "do not keep their hue at the pH of soap",
        "all colours keep their hue at the pH of soap",
    );
    let sugars = facts.sugars();
    let browning = Case::new(
        "after.browning",
        "sugars, milk or fruit that brown in the heat of the lye",
        "the brown is as deep in the middle as at the rim, and deepest where it was hottest; it came within two days",
        "keep it cool, put the sugar in late, dose it lower, or plan the colour with it",
    )
    .weigh(
        sugars > BROWNS,
        percent("sugars of the fat", sugars),
        "is enough to brown in lye",
        "is too little to brown much",
    );
    let brings = facts.brown();
    let browning =
        browning.if_so(!brings.is_empty(), brings.join("; "), "bring sugars or protein that brown");
    let compounds = compounds(facts);
    let scents = facts.scents();
    let vanillin = Case::new(
        "after.scent-browns",
        "a scent that browns by its vanillin",
        "it grew over days to weeks, also in a piece that was kept cool and in the dark; the certificate states vanillin",
        "look up vanillin on the certificate; keep such a scent in a layer that may be brown",
    );
    let vanillin = if scents.is_empty() {
        vanillin.denies("no scent in it", "there is no vanillin without a scent")
    } else if compounds.is_empty() {
        vanillin.denies(scents.join("; "), "are essential oils, of which these bring little or no vanillin")
    } else {
        vanillin.speaks(compounds.join("; "), "are compounded, and may hold vanillin")
    };
    let pale = Case::new(
        "after.no-gel",
        "it stayed cool and never gelled, so that colours look milky",
        "the bar is as hard as it should be and the colour even, only paler; a wet cut face shows the colour that was meant",
        "insulate the block, or colour a little stronger",
    )
    .weigh(
        facts.lye() > WEAK,
        percent("lye", facts.lye()),
        "gels only when it gets hotter than weaker lye needs",
        "gels readily",
    );
    let pale = match facts.depth() {
        _ if facts.cooked() => pale.denies("hot process", "it was all cooked through"),
        Some(depth) => pale.weigh(
            depth < super::body::SHALLOW,
            super::facts::millimetres("depth of the block", depth),
            "sheds its heat before it gels",
            "keeps its heat",
        ),
        None => pale,
    };
    let border = Case::new(
        "after.air",
        "air, or the scent of a neighbour",
        "cut the bar in two: only a rim of a few millimetres would be changed",
        "see the dull border",
    )
    .denies("the colour is the same all through", "what comes from outside gets a few millimetres in");
    vec![browning, unstable, vanillin, pale, border]
}

pub(super) fn border(facts: &Facts<'_>) -> Vec<Case> {
    let air = Case::new(
        "after.air",
        "air at the surface: bloom, or a skin that dried first",
        "shave 3 mm off: the colour below is as it was meant, and stays so if the bar is wrapped at once",
        "cover the block until it is cut, and plane the bars after the cure",
    )
    .speaks("only the border has changed", "air comes from outside and gets a few millimetres in")
    .if_so(
        facts.lye() < WEAK,
        percent("lye", facts.lye()),
        "leaves much water, and with it carbonate at the surface",
    );
    let migrating = Case::new(
        "after.scent-migrates",
        "the scent of a neighbour that creeps in",
        "the rim is widest along the seam to the scented layer and missing at the outer faces",
        "put the scent into both layers, or a white line between them; look up vanillin on its certificate",
    )
    .names(
        &facts.beside,
        "no scent in a layer beside it, or no layer chosen",
        "are in the layers beside it; vanillin creeps 1-5 mm",
        "there is nothing beside it that could creep in",
    );
    let own = facts.scents();
    let scent = Case::new(
        "after.scent-light",
        "its own scent that darkens in light and air",
        "a piece kept in the dark and wrapped keeps its colour to the edge",
        "keep the bars in the dark, or choose a scent without vanillin",
    )
    .names(
        &own,
        "no scent in it",
        "are in it, and darken first where light and air reach them",
        "there is no scent that light could darken",
    );
    let seam = facts.water_apart();
    let shrinks = Case::new(
        "after.rim-dries",
        "layers that dry at different speed, the rim first",
        "the dull rim is hollow or raised against its neighbour",
        "keep the water of the layers within 3-5 points of their fat",
    )
    .weigh(
        seam > Share::literal(5, 2),
        percent("water of the layers, points apart,", seam),
        "is more than layers take without parting",
        "is as even as it should be",
    );
    let ingredients = Case::new(
        "after.ingredients",
        "what is in the layer itself",
        "cut the bar in two: the middle would have the same colour as the rim",
        "see the dull colour all through",
    )
    .denies("the middle is as it should be", "what is in the layer would change it all through");
    vec![air, migrating, scent, shrinks, ingredients]
}

pub(super) fn spots(facts: &Facts<'_>) -> Vec<Case> {
    let (poly, superfat) = (facts.class(Class::PolyUnsaturated), facts.superfat_high());
    let rancid = Case::new(
        "after.rancid",
        "fat that turns rancid",
        "the spots are orange, come after weeks and smell of old oil or putty",
        "lower the superfat or the share of poly-unsaturated oils, buy fresh oil, add an antioxidant and what binds metals",
    )
    .weigh(
        poly > RANCID,
        percent("poly-unsaturated acids", poly),
        "turn rancid early",
        "are few enough to keep",
    )
    .weigh(
        superfat > HIGH_SUPERFAT,
        percent("superfat", superfat),
        "leaves much fat that can turn",
        "leaves little fat that can turn",
    );
    let keepers = facts.keepers();
    let rancid = if keepers.is_empty() {
        rancid.speaks("no antioxidant and nothing that binds metals", "so nothing slows it")
    } else {
        rancid.denies(keepers.join("; "), "slow it")
    };
    let fresh = Case::new(
        "after.fresh",
        "fresh plant or animal matter that decays",
        "the spot sits on a shred or a lump, is wet or furry, and does not smell of oil",
        "discard bars with mould; next time strain it finely, dose it lower, or use it dried",
    )
    .names(
        &facts.fresh(),
        "nothing fresh in it",
        "are fresh and wet",
        "there is nothing in it that could decay",
    );
    let scents = facts.scents();
    let drops = Case::new(
        "after.scent-drops",
        "drops of scent or of colour in oil that were not stirred in",
        "the spots were there in the first days, do not grow, and smell of the scent",
        "stir the scent in at light trace, warmed to the batter",
    )
    .names(&scents, "no scent in it", "went in last", "there is no scent to gather in drops");
    let metal = Case::new(
        "after.metal",
        "traces of metal: from tools, tap water, or a clay",
        "spots sit along the cut, at the stamp, or where the bar lay on metal",
        "use stainless steel and distilled water; let bars lie on wood or paper",
    );
    let metal = if keepers.is_empty() {
        metal.speaks("nothing that binds metals", "so traces of metal are free")
    } else {
        metal.denies(keepers.join("; "), "bind metals, or slow what they start")
    };
    vec![rancid, fresh, drops, metal]
}

pub(super) fn specks(facts: &Facts<'_>) -> Vec<Case> {
    let pigment = Case::new(
        "after.clumps",
        "pigment that was not dispersed",
        "the speck smears into a streak of pure colour under a finger",
        "stir the pigment with a little oil or glycerol to a smooth paste first, and sieve it in",
    )
    .names(
        &facts.powders(),
        "no pigment in it",
        "are powders that must be dispersed",
        "there is no pigment that could clump",
    );
    let grains = Case::new(
        "after.grains",
        "grains that belong there",
        "the speck is a grain or a shred, and stays one in water",
        "grind it finer, or sieve it",
    )
    .names(
        &facts.grains(),
        "no meal or plant matter in it",
        "do not dissolve",
        "everything in it dissolves or disperses",
    );
    let (hard, fats) = (facts.class(Class::PalmiticStearic), facts.plan.temperatures.fats);
    let stearin = Case::new(
        "after.stearin",
        "hard fat that set before it was mixed",
        "the specks are white, waxy, do not sting and melt between fingers",
        "melt the fats until they are clear, and mix warmer",
    )
    .weigh(
        hard > GRAINY,
        percent("palmitic and stearic acid", hard),
        "set early when the batter cools",
        "are few",
    )
    .weigh(fats < COOL, format!("fats at {fats}"), "is cool for hard fats", "is warm enough");
    let crystals = Case::new(
        "after.alkali-specks",
        "alkali that did not dissolve, or lye that was not stirred in",
        "the speck is white and hard or wet, and turns phenolphthalein or pH paper at once: do not use the bar",
        "strain the lye, let it clear, blend to a stable emulsion before dividing; discard what tests alkaline",
    )
    .weigh(
        facts.lye() > STRONG,
        percent("lye", facts.lye()),
        "is near what dissolves, and cools to crystals",
        "dissolves clear",
    );
    let low = facts.superfat_low();
    let crystals = crystals.if_so(
        (Exact::literal(2, 2) - low.exact()).is_positive(),
        percent("superfat", low),
        "leaves little fat to take up stray lye",
    );
    let milk = facts.brown();
    let curds = Case::new(
        "after.curds",
        "milk, egg or sugar that curdled or scorched in the lye",
        "the specks are tan, soft, and came with the smell of caramel or egg",
        "freeze the milk, add lye slowly, or stir it into the fats at trace",
    )
    .names(
        &milk,
        "no sugar or protein to speak of",
        "bring sugars or protein",
        "there is nothing in it that could scorch",
    );
    vec![pigment, grains, stearin, crystals, curds, veins(facts)]
}

/// Lighter veins rather than specks, often mistaken for them.
fn veins(facts: &Facts<'_>) -> Case {
    let white = facts.named(|dosed| dosed.ingredient.id() == "titanium-dioxide");
    Case::new(
        "after.veins",
        "translucent veins around white pigment: soap and water that parted in the heat",
        "what looks like specks are cut veins, glassy in the light; the bar is sound",
        "use stronger lye, less white, and keep it cooler",
    )
    .names(&white, "no white pigment in it", "show every vein", "veins are hardly seen without white pigment")
    .weigh(
        facts.lye() < VEINS,
        percent("lye", facts.lye()),
        "leaves water enough to part",
        "leaves too little water to part",
    )
}
