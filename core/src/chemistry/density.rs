//! How much room things take.
//!
//! Volumes are added as if mixing changed none; for a batter that is right within about a per cent, less than its air.

use crate::material::{Fat, FatKind};
use crate::quantity::Exact;

/// Density of a fat at a temperature in °C, g/mL: the published figure less 0.000 68 g/mL for each degree above the one
/// it holds at; without a published figure 0.915 (waxes 0.955, fatty acids 0.89) at 20 °C.
///
/// # Source
/// Figures: the fat's own row. Change with temperature 0.00065 to 0.0007 per kelvin, and the stand-ins: from memory.
#[must_use]
pub fn fat_density(fat: &Fat, temperature: Exact) -> Exact {
    let (density, at) = match (&fat.density, fat.kind) {
        (Some(known), _) => (known.typical.exact(), known.at.exact()),
        (None, FatKind::Triglyceride) => (Exact::literal(915, 3), TWENTY),
        (None, FatKind::WaxEster) => (Exact::literal(955, 3), TWENTY),
        (None, FatKind::FreeFattyAcid) => (Exact::literal(890, 3), TWENTY),
    };
    density - Exact::literal(68, 5) * (temperature - at)
}

const TWENTY: Exact = Exact::literal(20, 0);

/// Temperatures of the columns of [`SODIUM`], °C.
const COLUMNS: [i64; 5] = [20, 25, 40, 60, 80];

/// Density of sodium hydroxide solutions in kg/m3, by mass per cent (hundredths) and temperature.
///
/// Source: J. Olsson, A. Jernqvist, G. Aly, Int. J. Thermophys. 18 (1997) 779, as tabulated from a public transcription
/// of its coefficients; within 0.2 % of the CRC Handbook (102nd ed.) to 40 %. Row nought is water: CRC Handbook, from
/// memory.
const SODIUM: [(i64, [i64; 5]); 8] = [
    (0, [9_982, 9_970, 9_922, 9_832, 9_718]),
    (1_000, [11_082, 11_060, 10_990, 10_885, 10_767]),
    (2_000, [12_178, 12_153, 12_074, 11_962, 11_840]),
    (2_500, [12_719, 12_693, 12_611, 12_495, 12_371]),
    (3_000, [13_253, 13_226, 13_140, 13_020, 12_893]),
    (3_333, [13_604, 13_575, 13_486, 13_363, 13_233]),
    (4_000, [14_285, 14_254, 14_158, 14_028, 13_893]),
    (5_000, [15_229, 15_195, 15_094, 14_957, 14_818]),
];

/// Density of potassium hydroxide solutions at 20 °C in kg/m3, by mass per cent (hundredths).
///
/// Source: M. Laliberte, J. Chem. Eng. Data 54 (2009) 1725, fitted to 237 points; a Polish table agrees within 0.1 %.
/// Row nought as for sodium hydroxide.
const POTASSIUM: [(i64, i64); 6] =
    [(0, 9_982), (1_000, 10_904), (2_000, 11_872), (3_000, 12_892), (4_000, 13_972), (5_000, 15_123)];

/// Density of lye in g/mL, from the mass shares of its pure alkalis and its temperature in °C.
///
/// Linear between the rows and columns of the tables, held at their ends (50 %, 20 and 80 °C). With both alkalis, each
/// table is read at their joint share and the two are weighted by mass. Potassium hydroxide is tabulated at 20 °C; its
/// change with temperature is taken from sodium hydroxide of the same share.
///
/// ```
/// use lamella::{chemistry::lye_density, quantity::Exact};
/// let lye = lye_density(Exact::literal(30, 2), Exact::ZERO, Exact::from(40));
/// assert_eq!(lye.rounded(4).unwrap().to_string(), "1.314");
/// ```
#[must_use]
pub fn lye_density(sodium: Exact, potassium: Exact, temperature: Exact) -> Exact {
    let share = sodium + potassium;
    let hundredths = share * Exact::from(10_000);
    let sodium_density = sodium_at(hundredths, temperature);
    if potassium.is_zero() {
        return sodium_density;
    }
    let at_twenty = interpolate(
        POTASSIUM.iter().map(|(x, y)| (Exact::from(*x), Exact::from(*y) / TEN_THOUSAND)),
        hundredths,
    );
    let potassium_density = at_twenty + sodium_density - sodium_at(hundredths, TWENTY);
    (sodium_density * sodium + potassium_density * potassium) / share
}

const TEN_THOUSAND: Exact = Exact::literal(10_000, 0);

/// Density of water in g/mL at a temperature in °C, from the same table.
#[must_use]
pub fn water_density(temperature: Exact) -> Exact {
    sodium_at(Exact::ZERO, temperature)
}

fn sodium_at(hundredths: Exact, temperature: Exact) -> Exact {
    let rows = SODIUM.iter().map(|(share, row)| {
        let columns = COLUMNS.iter().zip(row).map(|(x, y)| (Exact::from(*x), Exact::from(*y)));
        (Exact::from(*share), columns)
    });
    // Only the two rows about the share are worth reading across.
    let mut below = None;
    let mut above = None;
    for (share, columns) in rows {
        if above.is_none() {
            let reached = !(share - hundredths).is_negative();
            let slot = if reached { &mut above } else { &mut below };
            *slot = Some((share, columns));
        }
    }
    let ends = [below, above];
    let points =
        ends.into_iter().flatten().map(|(share, columns)| (share, interpolate(columns, temperature)));
    interpolate(points, hundredths) / TEN_THOUSAND
}

/// Linear between points in rising order of x, held at the ends.
fn interpolate(points: impl Iterator<Item = (Exact, Exact)>, x: Exact) -> Exact {
    let mut last: Option<(Exact, Exact)> = None;
    for (next_x, next_y) in points {
        if !(next_x - x).is_negative() {
            return match last {
                Some((last_x, last_y)) => last_y + (next_y - last_y) * (x - last_x) / (next_x - last_x),
                None => next_y,
            };
        }
        last = Some((next_x, next_y));
    }
    last.map_or(Exact::ZERO, |(_, y)| y)
}

/// Volume of a gram of a colour, mL. Source: from memory, mica and most oxides 2.7 to 4.2 g/mL, 2.8 taken.
pub(crate) const COLOUR_VOLUME: Exact = Exact::literal(357, 3);
/// Volume of a gram of scent, mL. Source: from memory, essential oils 0.85 to 1.05 g/mL, 0.95 taken.
pub(crate) const SCENT_VOLUME: Exact = Exact::literal(1_053, 3);

/// Volume of a gram of an additive, mL, from what it is made of, in the order of [`Composition::exact`].
///
/// # Source
/// Densities of water, fat, protein, carbohydrate, fibre and ash at 40 °C: Y. Choi and M. R. Okos, Effects of
/// temperature and composition on the thermal properties of foods, 1986, from memory. Ethanol, glycerol, citric acid:
/// handbook values from memory.
///
/// [`Composition::exact`]: crate::material::Composition
pub(crate) fn additive_volume(parts: &[Exact; 10]) -> Exact {
    const fn millilitres(density: i64, decimals: u32) -> Exact {
        Exact::ONE.over(Exact::literal(density, decimals))
    }
    const CARBOHYDRATE: Exact = millilitres(15_867, 4);
    const ROOM: [Exact; 10] = [
        millilitres(9_922, 4),  // water
        millilitres(9_089, 4),  // fat
        CARBOHYDRATE,           // sugars
        millilitres(13_092, 4), // protein
        millilitres(12_969, 4), // fibre
        millilitres(24_126, 4), // ash
        millilitres(772, 3),    // ethanol
        millilitres(1_249, 3),  // glycerol
        millilitres(1_665, 3),  // citric acid
        CARBOHYDRATE,           // what is not named
    ];
    parts.iter().zip(ROOM).map(|(share, room)| *share * room).sum()
}
