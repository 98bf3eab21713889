use lamella::quantity::{Mass, Volume};

fn main() {
    let (oil, milk) = (Mass::literal(500, 0), Volume::literal(120, 0));
    let _ = oil + milk;
}
