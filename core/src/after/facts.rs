//! The figures of a recipe that causes are held against.

use std::collections::BTreeMap;

use crate::batch::{JugPlan, Plan, WeighItem};
use crate::chemistry::Part;
use crate::material::{Class, ColourantKind, Form};
use crate::quantity::{Exact, Length, Share, fixed};
use crate::recipe::{Dose, Ingredient, Process, Recipe};

/// Additives that keep fat from turning rancid: antioxidants, and what binds metals. By id.
const KEEPERS: [&str; 6] = [
    "rosemary-extract",
    "vitamin-e-mixed",
    "edta-4na",
    "sodium-citrate",
    "citric-acid-mono",
    "citric-acid-anhyd",
];

/// Something that was dosed.
pub(super) struct Dosed<'r> {
    pub(super) ingredient: &'r Ingredient,
    /// As a share of the fat it goes with.
    pub(super) of_fat: Exact,
    /// Whether it goes in after the lye.
    pub(super) late: bool,
}

/// What is known about the layer that is looked at, or about the whole bar.
pub(super) struct Facts<'p> {
    pub(super) plan: &'p Plan,
    /// The jugs of what is looked at.
    pub(super) jugs: Vec<&'p JugPlan>,
    /// What is dosed into it: jugs, pot and lye.
    pub(super) doses: Vec<Dosed<'p>>,
    /// Scents of the layers beside it.
    pub(super) beside: Vec<String>,
    /// Whether it is the layer on top, or the whole bar.
    pub(super) on_top: bool,
}

impl<'p> Facts<'p> {
    pub(super) fn of(plan: &'p Plan, recipe: &'p Recipe, layer: Option<usize>) -> Self {
        let by_pointer = doses(recipe);
        let layer = layer.filter(|layer| *layer < plan.layers.len());
        let looked_at = |index: usize| {
            layer.is_none_or(|layer| plan.layers.get(layer).is_some_and(|layer| layer.jug == index))
        };
        let chosen = plan.jugs.iter().enumerate().filter(|(index, _)| looked_at(*index));
        let jugs: Vec<&JugPlan> = chosen.map(|(_, jug)| jug).collect();
        let mut all = Vec::new();
        let mut add = |item: &WeighItem, fat: Exact, late: bool| {
            if let Some(dose) = by_pointer.get(item.pointer.as_str()) {
                let of_fat = item.weighed.exact() / fat;
                all.push(Dosed { ingredient: &dose.ingredient, of_fat, late });
            }
        };
        let batch = plan.batch.fat.exact();
        for item in plan.pot.doses.iter().chain(&plan.lye.doses).chain(&plan.lye.liquids) {
            add(item, batch, false);
        }
        for jug in &jugs {
            let fat = jug.net.exact() * jug.fat_share.exact();
            jug.doses.iter().for_each(|item| add(item, fat, false));
            jug.late_doses.iter().for_each(|item| add(item, fat, true));
        }
        Self {
            plan,
            jugs,
            doses: all,
            beside: beside(plan, &by_pointer, layer),
            on_top: layer.is_none_or(|layer| layer.saturating_add(1) == plan.layers.len()),
        }
    }

    /// Names of what is dosed and passes a test.
    pub(super) fn named(&self, test: impl Fn(&Dosed<'_>) -> bool) -> Vec<String> {
        let mut names: Vec<String> = Vec::new();
        for dosed in self.doses.iter().filter(|dosed| test(dosed)) {
            let name = dosed.ingredient.name();
            if !names.iter().any(|known| known == name) {
                names.push(name.to_owned());
            }
        }
        names
    }

    /// Shares of what is dosed and passes a test, together.
    pub(super) fn dosed(&self, test: impl Fn(&Dosed<'_>) -> bool) -> Share {
        let parts: Vec<Exact> =
            self.doses.iter().filter(|dosed| test(dosed)).map(|dosed| dosed.of_fat).collect();
        Share::try_new(parts.into_iter().sum::<Exact>()).unwrap_or(Share::ZERO)
    }

    pub(super) fn scents(&self) -> Vec<String> {
        self.named(|dosed| matches!(dosed.ingredient, Ingredient::Fragrance(_)))
    }

    pub(super) fn unstable_colours(&self) -> Vec<String> {
        self.named(|dosed| matches!(dosed.ingredient, Ingredient::Colourant(colour) if !colour.alkali_stable))
    }

    /// Colours that do not dissolve and must be dispersed.
    pub(super) fn powders(&self) -> Vec<String> {
        self.named(|dosed| {
            matches!(dosed.ingredient, Ingredient::Colourant(colour) if colour.kind != ColourantKind::Plant)
        })
    }

    pub(super) fn fresh(&self) -> Vec<String> {
        self.named(|dosed| matches!(dosed.ingredient, Ingredient::Additive(additive) if additive.fresh))
    }

    /// Plant matter and meal that stay grains.
    pub(super) fn grains(&self) -> Vec<String> {
        self.named(|dosed| {
            matches!(dosed.ingredient, Ingredient::Additive(additive)
                if additive.form == Form::Insoluble && additive.composition.minerals < Share::literal(5, 1))
        })
    }

    /// Clay and other mineral powders.
    pub(super) fn clays(&self) -> Share {
        self.dosed(|dosed| match dosed.ingredient {
            Ingredient::Additive(additive) => {
                additive.form == Form::Insoluble && additive.composition.minerals >= Share::literal(5, 1)
            }
            Ingredient::Colourant(colour) => colour.kind == ColourantKind::Clay,
            Ingredient::Fat(_) | Ingredient::Fragrance(_) | Ingredient::Alkali(..) => false,
        })
    }

    /// Salt, by mass of what brings it.
    pub(super) fn salts(&self) -> Share {
        self.dosed(|dosed| {
            matches!(dosed.ingredient, Ingredient::Additive(additive)
                if additive.form != Form::Insoluble && additive.composition.minerals > Share::literal(2, 1)
                    && !KEEPERS.contains(&additive.id.as_ref()))
        })
    }

    /// What speaks against rancidity.
    pub(super) fn keepers(&self) -> Vec<String> {
        self.named(|dosed| KEEPERS.contains(&dosed.ingredient.id()))
    }

    /// What sugars, milk and starch there is that browns: names of what brings sugar or protein.
    pub(super) fn brown(&self) -> Vec<String> {
        self.named(|dosed| {
            let brings = |additive: &crate::material::Additive| {
                let parts = &additive.composition;
                (parts.sugars + parts.protein).exact() * dosed.of_fat
            };
            matches!(dosed.ingredient, Ingredient::Additive(additive)
                if (brings(additive) - Exact::literal(5, 4)).is_positive())
        })
    }

    /// Wet additives that go in after the lye.
    pub(super) fn late_wet(&self) -> Vec<String> {
        self.named(|dosed| {
            dosed.late
                && matches!(dosed.ingredient, Ingredient::Additive(additive)
                    if additive.composition.water > Share::literal(3, 1))
        })
    }

    fn most(&self, of: impl Fn(&JugPlan) -> Share) -> Share {
        self.jugs.iter().map(|jug| of(jug)).max().unwrap_or(Share::ZERO)
    }

    pub(super) fn superfat_low(&self) -> Share {
        self.jugs.iter().map(|jug| jug.superfat).min().unwrap_or(Share::ZERO)
    }

    pub(super) fn superfat_high(&self) -> Share {
        self.most(|jug| jug.superfat)
    }

    pub(super) fn sugars(&self) -> Share {
        self.most(|jug| jug.sugars_of_fat)
    }

    pub(super) fn water(&self) -> Share {
        self.most(|jug| jug.water_of_fat)
    }

    /// Water of the wettest and the driest jug of the whole bar, in points of its fat.
    pub(super) fn water_apart(&self) -> Share {
        let all = || self.plan.jugs.iter().map(|jug| jug.water_of_fat);
        all().max().unwrap_or(Share::ZERO) - all().min().unwrap_or(Share::ZERO)
    }

    pub(super) fn lye(&self) -> Share {
        self.plan.lye.figures.concentration
    }

    /// Alcohol as a share of what is in the jugs.
    pub(super) fn alcohol(&self) -> Share {
        self.most(|jug| jug.at_pour.share(Part::Alcohol))
    }

    /// What draws water from damp air: glycerol, polyols and sugars of the cured bar.
    pub(super) fn draws_water(&self) -> Share {
        self.most(|jug| {
            jug.cured.share(Part::Glycerol) + jug.cured.share(Part::Polyols) + jug.cured.share(Part::Sugars)
        })
    }

    pub(super) fn class(&self, class: Class) -> Share {
        let classes = &self.plan.batch.indices.classes;
        classes.iter().find(|line| line.class == class).map_or(Share::ZERO, |line| line.share)
    }

    /// Saturated fatty acids from C12 on: what makes a bar firm.
    pub(super) fn firm(&self) -> Share {
        self.class(Class::LauricMyristic) + self.class(Class::PalmiticStearic)
    }

    /// The deepest mould, as it is filled.
    pub(super) fn depth(&self) -> Option<Length> {
        self.plan.moulds.iter().map(|mould| mould.fill).max()
    }

    pub(super) fn cooked(&self) -> bool {
        self.plan.process == Process::Hot
    }
}

/// Scents of the layers above and below a layer; of the whole bar, none.
fn beside(plan: &Plan, doses: &BTreeMap<&str, &Dose>, layer: Option<usize>) -> Vec<String> {
    let Some(layer) = layer else { return Vec::new() };
    let own = plan.layers.get(layer).map(|layer| layer.jug);
    let mut names: Vec<String> = Vec::new();
    for next in [layer.checked_sub(1), layer.checked_add(1)].into_iter().flatten() {
        let jug = plan.layers.get(next).map(|layer| layer.jug).filter(|jug| Some(*jug) != own);
        let Some(jug) = jug.and_then(|jug| plan.jugs.get(jug)) else { continue };
        for item in jug.doses.iter().chain(&jug.late_doses) {
            let scent = doses
                .get(item.pointer.as_str())
                .is_some_and(|dose| matches!(dose.ingredient, Ingredient::Fragrance(_)));
            if scent && !names.iter().any(|name| *name == item.name) {
                names.push(item.name.to_string());
            }
        }
    }
    names
}

/// Every dose of a recipe by its pointer.
fn doses(recipe: &Recipe) -> BTreeMap<&str, &Dose> {
    let liquids = recipe.lye.liquids.iter().map(|line| &line.dose);
    let of_jugs = recipe.jugs.iter().flat_map(|jug| &jug.doses);
    let of_layers = recipe.layers.iter().flat_map(|layer| &layer.doses);
    let all = recipe.pot.iter().chain(&recipe.lye.doses).chain(liquids).chain(of_jugs).chain(of_layers);
    all.map(|dose| (dose.pointer.as_str(), dose)).collect()
}

/// A figure with its name: `lye 33.0 %`.
pub(super) fn percent(what: &str, share: Share) -> String {
    format!("{what} {} %", fixed(share.in_unit("%").unwrap_or_default(), 1))
}

pub(super) fn millimetres(what: &str, length: Length) -> String {
    format!("{what} {} mm", fixed(length.value(), 0))
}
