//! Units, temperatures, mixed pounds and ounces, and chains of conversions against `vectors/published/b_units.json`.
//!
//! Source: the legal definitions that each record names (pound 0.453 592 37 kg, inch 25.4 mm, US gallon 231 in3, imperial
//! gallon 4.546 09 L, thermochemical calorie 4.184 J), in exact fractions. Where a conversion is computed in
//! [`Exact`] it agrees to 24 digits; where it passes through a published quantity, at the twelfth decimal.
#![expect(clippy::unwrap_used, clippy::panic, reason = "a test stops where a record is not as it should be")]

use lamella::quantity::{
    Conductivity, Currency, Decimal, Density, Energy, Exact, Length, Mass, Money, Price, SpecificHeat,
    Temperature, Unit, Volume, pounds_and_ounces,
};
use lamella_tests::published::{covered, exact, id, number, records, text, within};

const FILE: &str = "b_units";

#[test]
fn every_record_has_a_test() {
    let prefixes =
        ["b.factor.", "b.degF_degC.", "b.degC_degF.", "b.mixed.", "b.back.", "b.chain.", "b.pint."];
    covered(FILE, &prefixes);
}

fn unit<'u>(units: &'u [Unit], name: &str) -> &'u Unit {
    units.iter().find(|unit| unit.is_named(name)).unwrap_or_else(|| panic!("no unit {name}"))
}

/// One of a unit, in another of its kind.
fn one(units: &[Unit], from: &str, to: &str) -> Exact {
    unit(units, to).from_base(unit(units, from).to_base(Exact::ONE))
}

/// One unit of money for a pack, for another mass.
fn price(pack: &str, mass: &str) -> Exact {
    let pay = Money::try_new(Exact::ONE, Currency::try_new("GBP").unwrap()).unwrap();
    let price = Price::try_new(pay, pack.parse().unwrap()).unwrap();
    Exact::from(price.of(mass.parse().unwrap()).unwrap().amount())
}

fn factor(name: &str) -> Exact {
    let (mass, volume) = (Mass::UNITS, Volume::UNITS);
    match name {
        "lb_g" => one(mass, "lb", "g"),
        "oz_g" => one(mass, "oz", "g"),
        "dr_g" => one(mass, "dr", "g"),
        "gr_mg" => one(mass, "gr", "mg"),
        "stone_kg" => one(mass, "st", "kg"),
        "cwt_us_kg" => one(mass, "US cwt", "kg"),
        "floz_us_ml" => one(volume, "US fl oz", "mL"),
        "floz_uk_ml" => one(volume, "UK fl oz", "mL"),
        "gal_us_l" => one(volume, "US gal", "L"),
        "gal_uk_l" => one(volume, "UK gal", "L"),
        "qt_us_ml" => one(volume, "US qt", "mL"),
        "pt_us_ml" => one(volume, "US pt", "mL"),
        "pt_uk_ml" => one(volume, "UK pt", "mL"),
        "cup_us_ml" => one(volume, "US cup", "mL"),
        "tbsp_us_ml" => one(volume, "US tbsp", "mL"),
        "tsp_us_ml" => one(volume, "US tsp", "mL"),
        "in_mm" => one(Length::UNITS, "in", "mm"),
        "ft_mm" => one(Length::UNITS, "ft", "mm"),
        "in3_ml" => one(volume, "in3", "mL"),
        "ft3_l" => one(volume, "ft3", "L"),
        "cal_j" => one(Energy::UNITS, "cal", "J"),
        "btuit_j" => one(Energy::UNITS, "BtuIT", "J"),
        "btuth_j" => one(Energy::UNITS, "Btuth", "J"),
        // A difference of temperatures is not a quantity of its own: two points a degree Fahrenheit apart.
        "ddegf_k" => {
            let fahrenheit = unit(Temperature::UNITS, "°F");
            fahrenheit.to_base(Exact::from(33)) - fahrenheit.to_base(Exact::from(32))
        }
        "cp_cal" => one(SpecificHeat::UNITS, "cal/(g K)", "J/(g K)") * Exact::THOUSAND,
        "cp_btu" => one(SpecificHeat::UNITS, "Btu/(lb °F)", "J/(g K)") * Exact::THOUSAND,
        "k_btu" => one(Conductivity::UNITS, "Btu/(h ft °F)", "W/(m K)"),
        "rho_lbgal" => one(Density::UNITS, "lb/US gal", "kg/m3"),
        "rho_lbft3" => one(Density::UNITS, "lb/ft3", "kg/m3"),
        "rho_ozfloz" => one(Density::UNITS, "oz/US fl oz", "g/mL"),
        "price_lb" => price("1 lb", "1 kg"),
        "price_oz" => price("1 oz", "100 g"),
        // A dose by mass is a share and has no unit: ounces per pound are two masses.
        "ppo" => one(mass, "oz", "g") / one(mass, "lb", "kg"),
        "tsp_per_lb" => one(volume, "US tsp", "mL") / one(mass, "lb", "kg"),
        other => panic!("no factor {other}"),
    }
}

#[test]
fn factors() {
    for record in records(FILE, "b.factor.") {
        let (id, published) = (id(&record), number(&record["expected"]));
        let ours = factor(id.strip_prefix("b.factor.").unwrap());
        if id.contains("price") {
            assert_eq!(ours.rounded(12), published.rounded(12), "{id}");
        } else {
            exact(ours, published, id);
        }
    }
}

#[test]
fn temperatures() {
    for record in records(FILE, "b.degF_degC.") {
        let (id, published) = (id(&record), number(&record["expected"]));
        let typed = text(&record["inputs"]["degF"]);
        exact(unit(Temperature::UNITS, "°F").to_base(number(&record["inputs"]["degF"])), published, id);
        let read: Temperature = format!("{typed} °F").parse().unwrap();
        assert_eq!(Some(read.value()), published.rounded(12), "{id}");
    }
    for record in records(FILE, "b.degC_degF.") {
        let (id, published) = (id(&record), number(&record["expected"]));
        let read: Temperature = format!("{} °C", text(&record["inputs"]["degC"])).parse().unwrap();
        assert_eq!(read.in_unit("°F"), published.decimal(), "{id}");
    }
}

/// Ounces with a fraction, `3 1/8`, as a number.
fn ounces(text: &str) -> Exact {
    let fraction = |part: &str| {
        let (above, below) = part.split_once('/').unwrap_or((part, "1"));
        Exact::from(above.parse::<Decimal>().unwrap()) / Exact::from(below.parse::<Decimal>().unwrap())
    };
    text.split(' ').map(fraction).sum()
}

#[test]
fn pounds_with_ounces() {
    for record in records(FILE, "b.mixed.") {
        let (id, published, inputs) = (id(&record), number(&record["expected"]), &record["inputs"]);
        let (pounds, typed) = (text(&inputs["lb"]), text(&inputs["oz"]));
        let by_unit = Mass::try_from_unit(number(&inputs["lb"]), "lb").unwrap()
            + Mass::try_from_unit(ounces(typed), "oz").unwrap();
        assert_eq!(Some(by_unit.value()), published.rounded(12), "{id}");
        let read = format!("{pounds} lb {typed} oz").parse::<Mass>();
        if typed.contains('/') {
            assert!(read.is_err(), "{id}: fractions are not read");
        } else {
            assert_eq!(read, Ok(by_unit), "{id}");
        }
    }
}

#[test]
fn back_to_pounds_and_ounces() {
    for record in records(FILE, "b.back.") {
        let (id, inputs, expected) = (id(&record), &record["inputs"], &record["expected"]);
        let mass = Mass::try_new(number(&inputs["g"])).unwrap();
        exact(Exact::from(mass.in_unit("oz")), number(&expected["exact_oz"]), id);
        let (pounds, ounces) = pounds_and_ounces(mass, number(&inputs["oz_resolution"])).unwrap();
        assert_eq!(pounds.to_string(), text(&expected["lb"]), "{id}");
        assert_eq!(lamella::quantity::fixed(ounces, 2), text(&expected["oz"]), "{id}");
    }
}

#[test]
fn chains() {
    let digit = Exact::literal(1, 12);
    for record in records(FILE, "b.chain.") {
        let (id, inputs, expected) = (id(&record), &record["inputs"], &record["expected"]);
        let mass = Mass::try_from_unit(number(&inputs["lb"]), "lb").unwrap();
        assert_eq!(mass.exact().rounded(12), number(&expected["g"]).rounded(12), "{id}");
        let density = Density::try_new(number(&inputs["density_g_per_mL"])).unwrap();
        let volume = mass.volume_at(density).unwrap();
        assert_eq!(Some(volume.value()), number(&expected["mL"]).rounded(12), "{id}");
        // From the volume as it is published, at most half a digit of its twelfth decimal off.
        within(Exact::from(volume.in_unit("US fl oz")), number(&expected["US_fl_oz"]), digit, id);
        within(volume.mass_at(density).unwrap().exact(), mass.exact(), digit, id);
        let pay = Money::try_new(number(&inputs["price_per_lb"]), Currency::try_new("USD").unwrap()).unwrap();
        let price = Price::try_new(pay, "1 lb".parse().unwrap()).unwrap();
        assert_eq!(Some(price.of(mass).unwrap().amount()), number(&expected["cost"]).rounded(12), "{id}");
        let kilogram = price.of("1 kg".parse().unwrap()).unwrap().amount();
        assert_eq!(Some(kilogram), number(&expected["price_per_kg"]).rounded(12), "{id}");
    }
}

/// Where a bare name is not the same unit everywhere: what ours is, or that it is not read.
#[test]
fn names_that_mislead() {
    let notes = &records(FILE, "b.pint.")[0]["expected"];
    assert!(text(&notes["Btu"]).contains("not the IT value 1055.05585262"));
    assert_eq!("1 Btu".parse::<Energy>().unwrap().to_string(), "1055.05585262 J");
    assert!(text(&notes["calorie"]).contains("4.184 J"));
    assert_eq!("1 cal".parse::<Energy>().unwrap().to_string(), "4.184 J");
    assert!(text(&notes["cup"]).contains("236.5882365 mL"));
    assert_eq!("1 US cup".parse::<Volume>().unwrap().to_string(), "236.5882365 mL");
    assert!(text(&notes["ounce"]).contains("mass"));
    for name in ["oz", "fl oz", "cup", "gal", "pt", "tsp"] {
        assert!(format!("1 {name}").parse::<Volume>().is_err(), "{name} is read");
    }
}
