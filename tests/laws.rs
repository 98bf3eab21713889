//! The laws.

use lamella::Plan;
use lamella::laws::strategy;
use lamella_tests::oracle::{self, compare};
use proptest::prelude::*;

proptest! {
    #[test]
    fn plans(text in strategy::documents()) {
        let recipe = lamella::recipe::read(&text).unwrap();
        let plan = Plan::of(&recipe);
        prop_assert!(plan.is_ok(), "{:?}\n{}", plan.err(), lamella::recipe::write(&recipe));
    }
    #[test]
    fn ideals(text in strategy::documents()) {
        let recipe = lamella::recipe::read(&text).unwrap();
        let plan = Plan::of(&recipe).unwrap();
        let ideal = oracle::solve(&recipe).unwrap();
        let d = compare::differing(&compare::ideals(&recipe, &plan, &ideal));
        prop_assert!(d.is_empty(), "{d:#?}\n{}", lamella::recipe::write(&recipe));
        let d = compare::differing(&compare::weighings(&recipe, &plan, &ideal));
        prop_assert!(d.is_empty(), "{d:#?}\n{}", lamella::recipe::write(&recipe));
    }
}
