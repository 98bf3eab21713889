use lamella::quantity::Temperature;

fn main() {
    let (fats, lye) = (Temperature::literal(38, 0), Temperature::literal(34, 0));
    let _ = fats + lye;
}
