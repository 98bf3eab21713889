//! Cautions about making the lye: water enough for the alkali at each step, salt that falls out, and what does not belong
//! in it.

use crate::material::{BasisKind, InLye};
use crate::quantity::{Decimal, Exact, Mass, fixed, told_apart};
use crate::recipe::{Dose, Ingredient, Recipe};

use super::super::lye_order::{Dissolving, LyeWork, place};
use super::super::plan::Plan;
use super::super::weigh::WeighItem;
use super::{Caution, percent};

const PRACTICE: &str = "common practice, no source";

/// How little water an alkali may meet, g to a gram: the least that keeps it dissolved, and the least without a caution.
struct Least {
    dissolves: Exact,
    easy: Exact,
}

/// Sodium hydroxide: 47.6 and 43.5 %.
/// Source: 109 g dissolve in 100 g of water at 20 °C (0.92 g to a gram), encyclopedia entry "sodium hydroxide"; lye of 50 %
/// freezes near 14 °C (Dow data sheet). How much more is enough in a cool room is judgement.
const SODIUM: Least = Least { dissolves: Exact::literal(11, 1), easy: Exact::literal(13, 1) };
/// Potassium hydroxide: 100/112 and 100/97.
/// Source: 112 g dissolve in 100 g of water at 20 °C and 97 g at 0 °C, encyclopedia entry.
const POTASSIUM: Least =
    Least { dissolves: Exact::literal(892_857_142_857, 12), easy: Exact::literal(1_030_927_835_052, 12) };

/// Sodium chloride that stays dissolved, in per cent of a lye of so many per cent of alkali, at 20-25 °C; the lower end
/// where a range is given. Between two rows a straight line; no row lies below the line through its neighbours, so that the
/// highest of all the lines is the one between them.
/// Source: from memory; the fall is that of ACS Omega 2020, 5, 4875, table 8, at 90 °C. Taken for potassium too.
const SALT: [(Exact, Exact); 8] = [
    (Exact::ZERO, Exact::literal(264, 1)),
    (Exact::literal(865, 2), Exact::literal(175, 1)),
    (Exact::literal(1642, 2), Exact::literal(11, 0)),
    (Exact::literal(2467, 2), Exact::literal(7, 0)),
    (Exact::literal(3011, 2), Exact::literal(45, 1)),
    (Exact::literal(3421, 2), Exact::literal(3, 0)),
    (Exact::literal(3651, 2), Exact::literal(25, 1)),
    (Exact::literal(51, 0), Exact::literal(1, 0)),
];

impl Dissolving {
    /// The figure as cautions show it; scale steps move what lies beyond its last digit.
    pub(crate) fn figure(&self) -> String {
        let ratio = fixed(self.water_to_alkali.value(), 2);
        format!("{ratio} of water to one of alkali ({})", percent(self.concentration))
    }

    /// Water to a gram of alkali to two digits, the least that keeps it dissolved, and the least without a caution: each
    /// alkali by its own figure, in proportion.
    pub(crate) fn against(&self) -> Option<[Decimal; 3]> {
        let (sodium, potassium) = (self.sodium_hydroxide.exact(), self.potassium_hydroxide.exact());
        let least = |of: fn(&Least) -> Exact| {
            ((of(&SODIUM) * sodium + of(&POTASSIUM) * potassium) / (sodium + potassium)).rounded(2)
        };
        Some([
            self.water_to_alkali.exact().rounded(2)?,
            least(|least| least.dissolves)?,
            least(|least| least.easy)?,
        ])
    }
}

pub(super) fn cautions(recipe: &Recipe, plan: &Plan, out: &mut Vec<Caution>) {
    dissolving(plan, out);
    frozen(recipe, plan, out);
    salt(recipe, plan, out);
    for (dose, item) in brought(recipe, plan) {
        let belongs_in_fats = match &dose.ingredient {
            Ingredient::Additive(additive) => additive.in_lye == InLye::Fats,
            _ => true,
        };
        if belongs_in_fats && !item.weighed.is_zero() {
            out.push(Caution {
                code: "lye.misplaced",
                pointer: item.pointer.clone(),
                place: "lye".to_owned(),
                message: format!("{} does not belong in lye: it clumps, gels or scorches there", item.name),
                figure: format!("{} g in the lye", shown(item.weighed)),
                limit: "none".to_owned(),
                basis: BasisKind::CommonPractice,
                source: PRACTICE,
                advice: "dose it in a layer or in the pot, so that it goes into the fats".to_owned(),
            });
        }
    }
}

/// What goes into the lye beside alkali and plain water.
fn brought<'p>(recipe: &'p Recipe, plan: &'p Plan) -> impl Iterator<Item = (&'p Dose, &'p WeighItem)> {
    let liquids = recipe.lye.liquids.iter().map(|line| &line.dose).zip(&plan.lye.liquids);
    liquids.chain(recipe.lye.doses.iter().zip(&plan.lye.doses))
}

fn shown(mass: Mass) -> String {
    fixed(mass.value(), 1)
}

fn dissolving(plan: &Plan, out: &mut Vec<Caution>) {
    let dissolving = &plan.lye.dissolving;
    let Some([ratio, dissolves, easy]) = dissolving.against() else { return };
    let potassium = dissolving.potassium_hydroxide > dissolving.sodium_hydroxide;
    let caution = |code, message: &str, limit, basis, source, advice: &str| Caution {
        code,
        pointer: "/lye".to_owned(),
        place: "lye".to_owned(),
        message: message.to_owned(),
        figure: dissolving.figure(),
        limit: format!("{} of water to one of alkali", fixed(limit, 2)),
        basis,
        source,
        advice: advice.to_owned(),
    };
    if ratio < dissolves {
        out.push(caution(
            "lye.undissolved",
            "where the alkali goes in there is too little water: it does not stay dissolved",
            dissolves,
            BasisKind::Handbook,
            if potassium {
                "solubility of KOH at 20 °C: 112 g in 100 g of water, encyclopedia entry"
            } else {
                "solubility of NaOH at 20 °C: 109 g in 100 g of water, encyclopedia entry; the rest is for a cool room"
            },
            "do not make it so: ask for more water; solid alkali in the lye ends up in the bar and burns skin",
        ));
    } else if ratio < easy {
        let (basis, source) = if potassium {
            (BasisKind::Handbook, "solubility of KOH at 0 °C: 97 g in 100 g of water, encyclopedia entry")
        } else {
            (BasisKind::CommonPractice, PRACTICE)
        };
        out.push(caution(
            "lye.little-water",
            "where the alkali goes in there is little water: it dissolves slowly, very hot, and may fall out in a cool room",
            easy,
            basis,
            source,
            "ask for more water, or keep the lye above 20 °C and stir it until it is clear before each use",
        ));
    }
}

/// Less plain water than alkali, beside what is frozen.
fn frozen(recipe: &Recipe, plan: &Plan, out: &mut Vec<Caution>) {
    let alkali = plan.lye.dissolving.sodium_hydroxide + plan.lye.dissolving.potassium_hydroxide;
    let mut plain = plan.lye.water.weighed.exact();
    let mut slush = false;
    for (dose, item) in brought(recipe, plan) {
        match (place(&dose.ingredient), &dose.ingredient) {
            (LyeWork::Water | LyeWork::Dissolve, Ingredient::Additive(additive)) => {
                plain = plain + item.weighed.exact() * additive.composition.water.exact();
            }
            (LyeWork::Boil | LyeWork::Freeze, _) => slush = slush || !item.weighed.is_zero(),
            _ => {}
        }
    }
    if slush && (alkali.exact() - plain).is_positive() {
        let (water, most) = told_apart(plain.decimal().unwrap_or_default(), alkali.value(), 1);
        out.push(Caution {
            code: "lye.plain-water",
            pointer: "/lye/liquids".to_owned(),
            place: "lye".to_owned(),
            message: "there is less plain water than alkali: part of it has to dissolve in what is frozen".to_owned(),
            figure: format!("{water} g of water"),
            limit: format!("{most} g of alkali"),
            basis: BasisKind::CommonPractice,
            source: PRACTICE,
            advice: "easier: make the lye with its own mass of plain water at least, and give milk or juice to the fats"
                .to_owned(),
        });
    }
}

fn salt(recipe: &Recipe, plan: &Plan, out: &mut Vec<Caution>) {
    let mut salt = Exact::ZERO;
    let mut pointer = None;
    for (dose, item) in brought(recipe, plan) {
        if let Ingredient::Additive(additive) = &dose.ingredient
            && additive.in_lye == InLye::Salt
            && !item.weighed.is_zero()
        {
            salt = salt + item.weighed.exact() * additive.composition.minerals.exact();
            pointer = pointer.or(Some(&item.pointer));
        }
    }
    let figures = &plan.lye.figures;
    let alkali = figures.sodium_hydroxide + figures.potassium_hydroxide;
    let stays = salt_that_stays(alkali.exact(), figures.water.exact());
    let tenths = |mass: Exact| mass.rounded(1).unwrap_or_default();
    let Some(pointer) = pointer.filter(|_| tenths(salt) > tenths(stays)) else { return };
    out.push(Caution {
        code: "lye.salt",
        pointer: pointer.clone(),
        place: "lye".to_owned(),
        message: "more salt than stays dissolved in lye of this strength: the rest falls out as fine grains, and layers \
                  get it unevenly"
            .to_owned(),
        figure: format!("{} g of salt", fixed(tenths(salt), 1)),
        limit: format!("{} g of salt", fixed(tenths(stays), 1)),
        basis: BasisKind::Memory,
        source: "solubility of NaCl in lye at 20-25 °C",
        advice: "dose it finely ground in the layers, \"of\": \"layer\", to go in at light trace; if it stays in the lye, \
                 dissolve it before the alkali, stir the lye each time it is poured, and do not strain it"
            .to_owned(),
    });
}

/// Salt that stays dissolved in so much alkali and water. On each line `salt / (all) = a - b alkali / (all)`, which is solved
/// for the salt; it rises with the line, so that the highest line gives the most.
fn salt_that_stays(alkali: Exact, water: Exact) -> Exact {
    let mut most = Exact::ZERO;
    for pair in SALT.windows(2) {
        let [(from, high), (to, low)] = pair else { continue };
        let slope = (*high - *low) / (*to - *from);
        let at_none = (*high + slope * *from) / Exact::HUNDRED;
        let stays = (at_none * (alkali + water) - slope * alkali) / (Exact::ONE - at_none);
        most = most.max(stays);
    }
    most
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The highest line is the one between two rows only if the rows bend one way.
    #[test]
    fn the_table_of_salt_bends_one_way_and_each_row_is_met() {
        let slopes: Vec<Exact> =
            SALT.windows(2).map(|pair| (pair[0].1 - pair[1].1) / (pair[1].0 - pair[0].0)).collect();
        assert!(slopes.windows(2).all(|pair| (pair[0] - pair[1]).is_positive()));
        for (alkali, salt) in SALT {
            let water = Exact::HUNDRED - alkali - salt;
            assert_eq!(salt_that_stays(alkali, water).rounded(9), salt.rounded(9));
        }
    }

    #[test]
    fn salt_in_lye_stronger_than_the_table_is_never_less_than_none() {
        assert_eq!(salt_that_stays(Exact::from(70), Exact::from(30)), Exact::ZERO);
    }
}
