//! What is known of lye: density, enthalpy, heat capacity, heat of dissolving, boiling point.
#![expect(clippy::float_arithmetic, reason = "physical properties are fits to measurements")]

use crate::material::Alkali;

/// Strongest lye that is computed with, mass share of pure alkali; stronger is reckoned as this.
pub const STRONGEST: f64 = 0.55;

/// Heat that melts a gram of ice at 0 °C, J. Source: CRC Handbook, 333.6 J/g.
pub const ICE_MELTING: f64 = 333.6;
/// Heat capacity of ice near -10 °C, J/(g K). Source: from memory, 2.0 to 2.1.
pub const ICE_CAPACITY: f64 = 2.05;
/// Heat that a mole of sodium hydroxide and water give off as they form the solid monohydrate, kJ.
/// Source: NBS tables of chemical thermodynamic properties 1982: -734.543 + 425.609 + 285.830.
pub const SODIUM_MONOHYDRATE: f64 = 23.104;
/// The same of potassium hydroxide, kJ. Source: as before, -748.9 + 424.764 + 285.830.
pub const POTASSIUM_MONOHYDRATE: f64 = 38.306;

/// Grams in a mole of sodium hydroxide, potassium hydroxide and water.
/// Source: CIAAW abridged atomic weights.
pub(super) const MOLAR: [f64; 3] = [39.997, 56.105, 18.015];

/// A polynomial, lowest power first.
fn polynomial(coefficients: &[f64], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, coefficient| sum * x + coefficient)
}

/// Density of a sodium hydroxide solution, kg/m³, from its mass share and temperature in °C.
///
/// # Source
/// J. Olsson, A. Jernqvist, G. Aly, Int. J. Thermophys. 18 (1997) 779, coefficients from a public transcription.
/// Within 0.2 % of the International Critical Tables and the CRC Handbook from 20 to 80 °C and up to 50 %.
///
/// ```
/// let density = lamella::heat::lye::sodium_density(0.30, 40.0);
/// assert!((density - 1314.0).abs() < 0.1);
/// ```
#[must_use]
pub fn sodium_density(share: f64, temperature: f64) -> f64 {
    const CONSTANT: [f64; 6] =
        [5_007.227_963_6, -25_131.164_248, 74_107.692_582, -104_657.486_84, 69_821.773_186, -18_145.911_810];
    const LINEAR: [f64; 6] =
        [-64.786_269_079, 525.343_605_64, -1_608.447_190_3, 2_350.975_323_5, -1_660.903_510_8, 457.643_743_5];
    const SQUARE: [f64; 6] = [
        0.244_367_769_78,
        -1.973_772_234_4,
        6.046_014_971_38,
        -8.909_061_494_7,
        6.371_467_693_97,
        -1.781_608_311_1,
    ];
    let root = (1.0 - held(share)).sqrt();
    polynomial(&CONSTANT, root)
        + temperature * (polynomial(&LINEAR, root) + temperature * polynomial(&SQUARE, root))
}

fn held(share: f64) -> f64 {
    share.clamp(0.0, STRONGEST)
}

/// Factors of temperature in the enthalpy of a sodium hydroxide solution: h = c1 + c2 t + c3 t² + c4 t³, kJ/kg.
fn enthalpy_factors(share: f64) -> [f64; 4] {
    const ABOVE: [f64; 4] = [1_288.448_5, -4_387.890_8, 4_938.229_8, -1_841.189_0];
    const BELOW: [f64; 5] = [1.0, -0.496_491_31, -4.091_514_4, 7.288_729_2, -3.020_265_1];
    const LINEAR: [f64; 9] = [
        2.308_791_9,
        -9.000_425_2,
        167.599_14,
        -1_051.636_8,
        3_394.337_8,
        -6_115.098_6,
        6_220.824_9,
        -3_348.809_8,
        743.874_32,
    ];
    const SQUARE: [f64; 8] = [
        0.023_028_60,
        -0.378_660_56,
        2.452_959_3,
        -8.269_354_2,
        15.728_833,
        -16.944_427,
        9.625_419_2,
        -2.241_062_8,
    ];
    const CUBE: [f64; 8] = [
        -8.513_131_3e-5,
        136.528_23e-5,
        -875.687_41e-5,
        2_920.039_8e-5,
        -5_488.298_3e-5,
        5_841.803_4e-5,
        -3_278.748_3e-5,
        754.459_93e-5,
    ];
    let water = 1.0 - held(share);
    [
        polynomial(&ABOVE, water) / polynomial(&BELOW, water),
        polynomial(&LINEAR, water),
        polynomial(&SQUARE, water),
        polynomial(&CUBE, water),
    ]
}

/// Enthalpy of a sodium hydroxide solution, J/g, from its mass share and temperature in °C; only differences mean
/// anything.
///
/// # Source
/// As [`sodium_density`]. Its range narrows in the cold: 46 % below 26 °C, 60 % from 37 °C.
#[must_use]
pub fn sodium_enthalpy(share: f64, temperature: f64) -> f64 {
    polynomial(&enthalpy_factors(share), temperature)
}

/// Heat capacity of a sodium hydroxide solution, J/(g K): the slope of [`sodium_enthalpy`] over temperature.
///
/// # Source
/// As [`sodium_density`]; handbook values from memory differ by up to 7 % and are lower.
#[must_use]
pub fn sodium_capacity(share: f64, temperature: f64) -> f64 {
    let [_, linear, square, cube] = enthalpy_factors(share);
    linear + temperature * (2.0 * square + 3.0 * cube * temperature)
}

/// Density of water, kg/m³, at a temperature in °C.
///
/// # Source
/// G. S. Kell, J. Chem. Eng. Data 20 (1975) 97.
#[must_use]
pub fn water_density(temperature: f64) -> f64 {
    const ABOVE: [f64; 6] =
        [999.839_52, 16.945_176, -7.987_040_1e-3, -4.617_046_1e-5, 1.055_630_2e-7, -2.805_425_3e-10];
    polynomial(&ABOVE, temperature) / (1.0 + 0.016_879_85 * temperature)
}

/// Heat capacity of water, J/(kg K), at every fifth degree from 0 to 100 °C.
///
/// Source: the scheme of M. Laliberte, J. Chem. Eng. Data 54 (2009) 1725, which rests on the IAPWS formulation, as
/// evaluated by the Python package thermo 0.6.1.
const WATER: [f64; 21] = [
    4_219.439_903,
    4_204.972_664,
    4_195.445_93,
    4_189.092_679,
    4_184.811_852,
    4_181.886_804,
    4_180.028_529,
    4_178.948_07,
    4_178.857_259,
    4_178.773_493,
    4_179.557_829,
    4_180.890_9,
    4_182.769_789,
    4_185.169_822,
    4_188.100_553,
    4_191.548_92,
    4_195.521_841,
    4_200.007_145,
    4_205.024_007,
    4_210.208_902,
    4_215.673_617,
];

/// Heat capacity of water, J/(g K), at a temperature in °C: a cubic through the four nearest of a table at every fifth
/// degree from 0 to 100 °C, held at its ends.
///
/// # Source
/// The scheme of M. Laliberte, J. Chem. Eng. Data 54 (2009) 1725, resting on the IAPWS formulation, as evaluated by the
/// Python package thermo 0.6.1.
#[must_use]
pub fn water_capacity(temperature: f64) -> f64 {
    let temperature = temperature.clamp(0.0, 100.0);
    let place = temperature / 5.0;
    let mut best = [(0.0, 0.0); 4];
    // The window of four whose middle holds the place.
    let first = (place.floor() - 1.0).clamp(0.0, 17.0);
    for (slot, (node, value)) in best.iter_mut().zip(nodes().skip_while(|(node, _)| *node < first)) {
        *slot = (node, value);
    }
    let mut sum = 0.0;
    for (node, value) in best {
        let weight = best
            .iter()
            .filter(|(other, _)| (*other - node).abs() > 0.5)
            .fold(1.0, |weight, (other, _)| weight * (place - other) / (node - other));
        sum += weight * value;
    }
    sum / 1000.0
}

fn nodes() -> impl Iterator<Item = (f64, f64)> {
    let mut node = -1.0;
    WATER.iter().map(move |value| {
        node += 1.0;
        (node, *value)
    })
}

/// Coefficients of Laliberte's equations for the density and heat capacity of a solution.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Laliberte {
    /// c0 to c4 of the density.
    pub density: [f64; 5],
    /// a1 to a6 of the heat capacity.
    pub capacity: [f64; 6],
}

/// Potassium hydroxide; density fitted up to 51.9 %, heat capacity up to 46.5 %.
///
/// # Source
/// M. Laliberte, J. Chem. Eng. Data 54 (2009) 1725, doi 10.1021/je8008123, from the Python package chemicals 1.5.2.
pub const POTASSIUM: Laliberte = Laliberte {
    density: [
        821.119_043_254_761,
        1_043.201_733_743_81,
        0.112_873_330_222_752,
        0.001_240_236_364_073_86,
        539.630_388_368_877,
    ],
    capacity: [
        -0.612_709_529_812_129,
        -0.045_422_531_692_039_1,
        1.875_980_059_779_99,
        -5.627_310_168_097_35,
        2.425_470_355_495_34,
        1.245_008_225_691_76,
    ],
};

impl Laliberte {
    /// Density, kg/m³, from mass share and temperature in °C.
    #[must_use]
    pub fn density(&self, share: f64, temperature: f64) -> f64 {
        let [c0, c1, c2, c3, c4] = self.density;
        let shifted = temperature + c4;
        let apparent =
            (c0 * share + c1) * libm::exp(1e-6 * shifted * shifted) / (share + c2 + c3 * temperature);
        1.0 / ((1.0 - share) / water_density(temperature) + share / apparent)
    }

    /// Heat capacity, J/(g K), from mass share and temperature in °C.
    #[must_use]
    pub fn capacity(&self, share: f64, temperature: f64) -> f64 {
        let [a1, a2, a3, a4, a5, a6] = self.capacity;
        let exponent = a2 * temperature + a3 * libm::exp(0.01 * temperature) + a4 * share;
        let own = a1 * libm::exp(exponent) + a5 * libm::pow(share, a6);
        (1.0 - share) * water_capacity(temperature) + share * own
    }
}

/// Moles of water to a mole of hydroxide, and the heat given off, kJ/mol, at 25 °C.
///
/// Source: D. D. Wagman et al., NBS tables of chemical thermodynamic properties, J. Phys. Chem. Ref. Data 11 (1982)
/// suppl. 2.
const SODIUM_HEAT: [(f64, f64); 12] = [
    (2.5, 26.681),
    (3.0, 30.669),
    (4.0, 36.326),
    (4.5, 38.175),
    (5.0, 39.576),
    (6.0, 41.463),
    (8.0, 43.296),
    (10.0, 44.037),
    (15.0, 44.547),
    (20.0, 44.589),
    (50.0, 44.225),
    (100.0, 44.037),
];
const SODIUM_INFINITE: f64 = 44.505;
const POTASSIUM_HEAT: [(f64, f64); 11] = [
    (3.0, 44.698),
    (4.0, 48.191),
    (4.5, 49.739),
    (5.0, 50.948),
    (6.0, 52.329),
    (8.0, 54.011),
    (10.0, 54.961),
    (15.0, 56.061),
    (20.0, 56.425),
    (50.0, 56.756),
    (100.0, 56.873),
];
const POTASSIUM_INFINITE: f64 = 57.606;

/// Heat that a mole of solid hydroxide gives off at 25 °C as it dissolves in so many moles of water, kJ.
///
/// Linear in moles of hydroxide to a mole of water between the rows of the table, and beyond its strong end along the
/// last two rows. The figure of infinite dilution, which is often quoted, is 14 % too large for a lye of 33 %.
///
/// # Source
/// D. D. Wagman et al., NBS tables of chemical thermodynamic properties, J. Phys. Chem. Ref. Data 11 (1982) suppl. 2.
///
/// ```
/// use lamella::{heat::lye::heat_of_dissolving, material::Alkali};
/// assert!((heat_of_dissolving(Alkali::SodiumHydroxide, 4.5) - 38.175).abs() < 1e-9);
/// ```
#[must_use]
pub fn heat_of_dissolving(alkali: Alkali, moles_of_water: f64) -> f64 {
    let (table, infinite): (&[(f64, f64)], f64) = match alkali {
        Alkali::SodiumHydroxide => (&SODIUM_HEAT, SODIUM_INFINITE),
        Alkali::PotassiumHydroxide => (&POTASSIUM_HEAT, POTASSIUM_INFINITE),
    };
    // Weaker than two moles of water there is no solution to speak of.
    let x = 1.0 / moles_of_water.max(1.5);
    let mut points = table.iter().map(|(moles, heat)| (1.0 / moles, *heat)).chain([(0.0, infinite)]);
    let (mut stronger, mut weaker) = (points.next(), points.next());
    for next in points {
        if weaker.is_some_and(|(at, _)| at <= x) {
            break;
        }
        stronger = weaker;
        weaker = Some(next);
    }
    match (stronger, weaker) {
        (Some((x0, y0)), Some((x1, y1))) => y0 + (y1 - y0) * (x - x0) / (x1 - x0),
        _ => infinite,
    }
}

/// Temperature at which a sodium hydroxide solution boils at 101.325 kPa, °C; for potassium hydroxide it stands in.
///
/// # Source
/// Vapour pressures of J. Olsson, A. Jernqvist, G. Aly, Int. J. Thermophys. 18 (1997) 779, tabulated; linear between.
#[must_use]
pub fn boiling_point(share: f64) -> f64 {
    const TABLE: [(f64, f64); 12] = [
        (0.0, 100.0),
        (0.05, 101.3),
        (0.10, 102.8),
        (0.20, 107.9),
        (0.25, 112.0),
        (0.28, 114.9),
        (0.30, 117.0),
        (0.3333, 120.9),
        (0.35, 123.1),
        (0.40, 130.1),
        (0.45, 138.0),
        (0.50, 146.4),
    ];
    super::between(&TABLE, share)
}

/// Density of a lye of either or both alkalis, kg/m³, from their mass shares and its temperature in °C; each is read at
/// their joint share and the two are weighted by mass.
#[must_use]
pub fn density(sodium: f64, potassium: f64, temperature: f64) -> f64 {
    weighted(sodium, potassium, water_density(temperature), |share| {
        [sodium_density(share, temperature), POTASSIUM.density(share, temperature)]
    })
}

/// Heat capacity of a lye of either or both alkalis, J/(g K), as [`density`] takes them.
#[must_use]
pub fn capacity(sodium: f64, potassium: f64, temperature: f64) -> f64 {
    weighted(sodium, potassium, water_capacity(temperature), |share| {
        [sodium_capacity(share, temperature), POTASSIUM.capacity(share, temperature)]
    })
}

fn weighted(sodium: f64, potassium: f64, water: f64, of: impl Fn(f64) -> [f64; 2]) -> f64 {
    let share = sodium + potassium;
    if share <= 0.0 {
        return water;
    }
    let [with_sodium, with_potassium] = of(held(share));
    (with_sodium * sodium + with_potassium * potassium) / share
}
