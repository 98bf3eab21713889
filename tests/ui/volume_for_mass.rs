use lamella::quantity::{Mass, Volume};

fn weigh(_: Mass) {}

fn main() {
    weigh(Volume::literal(120, 0));
}
