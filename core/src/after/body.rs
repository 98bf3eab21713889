//! Body: soft in the middle, or crumbling.

use super::Case;
use super::facts::{Facts, millimetres, percent};
use super::surface::lye_heavy;
use crate::quantity::{Length, Share};

/// A block that rarely gels. Source: common practice, no source: slabs below 4 cm.
pub(super) const SHALLOW: Length = Length::literal(40, 0);
/// A block that keeps its heat. Source: common practice, no source: deeper than 8 cm.
pub(super) const DEEP: Length = Length::literal(80, 0);
/// Water of the fat above which a bar stays soft for long. Source: common practice, no source: 38 % is the old habit.
const WET: Share = Share::literal(38, 2);
/// Saturated acids from C12 on below which a bar is soft for weeks. Source: common practice, no source: 40-60 % of hard fats.
const SOFT: Share = Share::literal(35, 2);
/// Superfat above which a bar stays soft. Source: common practice, no source: over 8-10 %.
const HIGH_SUPERFAT: Share = Share::literal(1, 1);
/// Lye above which a block is brittle early. Source: common practice, no source.
const STRONG: Share = Share::literal(38, 2);
/// Salt that makes a block brittle within hours. Source: common practice, no source: salt bars have 50-100 % of the fat.
const SALT_BAR: Share = Share::literal(2, 1);
/// Clay that dries the batter. Source: common practice, no source: 1-3 % of the fat.
const CLAY: Share = Share::literal(4, 2);
/// Sodium lactate that makes a bar brittle. Source: common practice, no source: over 3-4 % of the fat.
const LACTATE: Share = Share::literal(3, 2);
/// Palmitic and stearic acid of a bar that breaks when it is cut late. Source: common practice, no source.
const BRITTLE: Share = Share::literal(55, 2);

pub(super) fn soft_centre(facts: &Facts<'_>) -> Vec<Case> {
    let water = facts.water();
    let wet = Case::new(
        "after.wet",
        "more water than has left yet",
        "it firms from the rim inwards week by week, and the bar loses mass evenly",
        "wait; next time use stronger lye, or count the water of purees and milk",
    )
    .weigh(
        water > WET,
        percent("water of the fat", water),
        "takes long to leave",
        "is no more than usual",
    );
    let late = facts.late_wet();
    let wet = wet.if_so(!late.is_empty(), late.join("; "), "went in late and wet, on top of the lye's water");
    let unsaturated = Case::new(
        "after.soft-fats",
        "fats that make a soft bar for the first weeks",
        "it is as soft at the rim as in the middle, and firms with the cure",
        "wait; next time more hard fat, sodium lactate, or less superfat",
    )
    .weigh(
        facts.firm() < SOFT,
        percent("saturated acids from C12 on", facts.firm()),
        "make a bar that is slow to harden",
        "make a firm bar",
    )
    .weigh(
        facts.superfat_high() > HIGH_SUPERFAT,
        percent("highest superfat", facts.superfat_high()),
        "keeps a bar soft",
        "is usual",
    );
    let partial = Case::new(
        "after.partial-gel",
        "the middle gelled and the rim did not",
        "a darker, glassy disc with a sharp edge; cured, the bar is fine and the disc as hard as the rest",
        "insulate it so that all of it gels, or keep it cool so that none does",
    );
    let partial = match facts.depth() {
        _ if facts.cooked() => partial.denies("hot process", "it was all cooked through"),
        Some(depth) => partial.weigh(
            depth > SHALLOW,
            millimetres("depth of the block", depth),
            "is hot enough to gel inside and cool at the rim",
            "is too shallow to gel in the middle alone",
        ),
        None => partial,
    };
    let unmixed = Case::new(
        "after.false-trace",
        "batter that was not emulsified and parted again",
        "the middle is oily or wet, and some of it turns phenolphthalein pink: do not use the bar",
        "blend until no streak of oil shows, warm enough that hard fat stays melted",
    );
    let low = facts.superfat_low();
    let unmixed = unmixed.weigh(
        facts.plan.jugs.len() > 1 && !facts.cooked(),
        format!("{} jugs", facts.plan.jugs.len()),
        "were divided from one pot; what is divided before it is emulsified parts",
        "leave nothing to part by dividing",
    );
    let unmixed =
        unmixed.if_so(low < super::surface::THIN, percent("lowest superfat", low), "hides no stray lye");
    vec![wet, partial, unsaturated, unmixed]
}

pub(super) fn crumbling(facts: &Facts<'_>) -> Vec<Case> {
    let (lye, clay, salt) = (facts.lye(), facts.clays(), facts.salts());
    let heavy = lye_heavy(facts);
    let dry = Case::new(
        "after.dry",
        "too little water to bind it",
        "it crumbles all through, does not sting, and a warmed piece kneads together",
        "more water in the lye; pre-wet clay with three parts of water",
    )
    .weigh(lye > STRONG, percent("lye", lye), "leaves little water", "leaves water enough")
    .weigh(
        clay > CLAY,
        percent("clay of the fat", clay),
        "draws the water out of the batter",
        "draws little water",
    );
    let salted = Case::new(
        "after.salt-bar",
        "salt that sets within hours: it was cut too late",
        "it breaks along the blade in large clean pieces",
        "cut a salt bar after 4-12 hours, or use cavity moulds",
    )
    .weigh(
        salt > SALT_BAR,
        percent("salt of the fat", salt),
        "makes a block brittle within hours",
        "does not make a block brittle",
    );
    let lactate = facts.dosed(|dosed| dosed.ingredient.id() == "sodium-lactate-60");
    let hard = facts.class(crate::material::Class::PalmiticStearic);
    let late = Case::new(
        "after.cut-late",
        "a hard bar that was cut too late or too cold",
        "it snaps at the end of the cut and the face is smooth; warmed to 30 °C it cuts well",
        "cut when it is as firm as cold cheese; warm the block before",
    )
    .weigh(
        hard > BRITTLE,
        percent("palmitic and stearic acid", hard),
        "make a hard, brittle bar",
        "do not make a brittle bar",
    )
    .weigh(
        lactate > LACTATE,
        percent("sodium lactate of the fat", lactate),
        "makes it brittle",
        "is no more than usual",
    );
    let grains = facts.grains();
    let coarse = Case::new(
        "after.coarse",
        "coarse matter that the blade tears out",
        "the crumbs sit around grains or shreds",
        "grind it finer, or dose it lower",
    )
    .names(&grains, "no meal or plant matter in it", "are coarse", "there is nothing coarse in it");
    vec![heavy, dry, salted, late, coarse]
}
