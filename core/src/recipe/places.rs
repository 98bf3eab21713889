//! Where each dose stands in its document.

use super::{Dose, Ingredient, Recipe};

impl Recipe {
    /// The recipe with every dose given the place that it has when the recipe is written: what readers of a plan tell doses
    /// apart by. For a recipe that was made or changed in a program.
    ///
    /// ```
    /// let mut recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
    /// let copied = recipe.layers[2].clone();
    /// recipe.layers[0].doses.extend(copied.doses);
    /// assert_eq!(lamella::Plan::of(&recipe).unwrap_err()[0].code, "plan.dose-identity");
    /// assert!(lamella::Plan::of(&recipe.with_places()).is_ok());
    /// ```
    #[must_use]
    pub fn with_places(mut self) -> Self {
        place(&mut self.pot, "");
        for (index, line) in self.lye.liquids.iter_mut().enumerate() {
            line.dose.pointer = format!("/lye/liquids/{index}");
        }
        place(&mut self.lye.doses, "/lye");
        for (index, jug) in self.jugs.iter_mut().enumerate() {
            place(&mut jug.doses, &format!("/jugs/{index}"));
        }
        for (index, layer) in self.layers.iter_mut().enumerate() {
            place(&mut layer.doses, &format!("/layers/{index}"));
        }
        self
    }

    /// Every dose: of the pot, of the lye with its liquids, of the jugs and of the layers.
    pub(crate) fn all_doses(&self) -> impl Iterator<Item = &Dose> {
        let lye = self.lye.liquids.iter().map(|line| &line.dose).chain(&self.lye.doses);
        let jugs = self.jugs.iter().flat_map(|jug| &jug.doses);
        let layers = self.layers.iter().flat_map(|layer| &layer.doses);
        self.pot.iter().chain(lye).chain(jugs).chain(layers)
    }
}

/// Additives, colours and scents stand in three lists.
fn place(doses: &mut [Dose], below: &str) {
    let mut counts = [0_usize; 3];
    let lists = ["doses", "colours", "scents"];
    for dose in doses {
        let list = match dose.ingredient {
            Ingredient::Colourant(_) => 1,
            Ingredient::Fragrance(_) => 2,
            Ingredient::Additive(_) | Ingredient::Fat(_) | Ingredient::Alkali(..) => 0,
        };
        if let Some((count, name)) = counts.get_mut(list).zip(lists.get(list)) {
            dose.pointer = format!("{below}/{name}/{count}");
            *count = count.saturating_add(1);
        }
    }
}
