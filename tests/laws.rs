//! The laws.

use lamella::Plan;
use lamella_tests::oracle::{self, compare};

#[test]
fn quick() {
    for entry in std::fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/vectors/valid")).unwrap() {
        let path = entry.unwrap().path();
        if !path.extension().is_some_and(|e| e == "json") { continue }
        let text = std::fs::read_to_string(&path).unwrap();
        let recipe = lamella::recipe::read(&text).unwrap();
        let plan = match Plan::of(&recipe) { Ok(p) => p, Err(e) => { println!("{path:?} {e:?}"); continue } };
        let ideal = oracle::solve(&recipe).unwrap();
        let f = compare::ideals(&recipe, &plan, &ideal);
        println!("{path:?} {} {:#?}", f.len(), compare::differing(&f));
        let f = compare::weighings(&recipe, &plan, &ideal);
        println!("{path:?} {} {:#?}", f.len(), compare::differing(&f));
    }
}
