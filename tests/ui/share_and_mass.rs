use lamella::quantity::{Mass, Share};

fn main() {
    let (superfat, oil) = (Share::literal(5, 2), Mass::literal(500, 0));
    let _ = superfat + oil;
}
