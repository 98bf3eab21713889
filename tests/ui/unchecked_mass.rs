use lamella::quantity::{Exact, Mass};

fn main() {
    let third = Exact::from(100) / Exact::from(3);
    let _: Mass = third.into();
}
