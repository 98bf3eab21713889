use lamella::quantity::Money;

fn sum(rent: Money, oil: Money) -> Money {
    rent + oil
}

fn main() {}
