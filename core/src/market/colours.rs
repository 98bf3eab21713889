//! Which colours a cosmetic may hold in the European Union and in Great Britain.
//!
//! # Source
//! Regulation (EC) No 1223/2009, article 14(1)(c) and annex IV, official export of 9 September 2026, read as data. Great
//! Britain's own annex IV was not read and is taken to be the same.

use crate::quantity::Share;

/// Numbers of the Colour Index that may stand in a bar for hands and body, whether it is rinsed off or not. Those that may
/// not come near eyes or mucous membranes are among them: such a bar is no product for either. CI 77820, silver, is not: it
/// is for lips and eye shadow alone. CI 77268 is CI 77268:1 of the annex.
const ANY: [u32; 109] = [
    10_020, 10_316, 11_680, 11_710, 11_920, 12_010, 12_085, 12_490, 13_015, 14_270, 14_700, 14_720, 14_815,
    15_510, 15_525, 15_580, 15_630, 15_800, 15_850, 15_865, 15_880, 15_980, 15_985, 16_035, 16_185, 16_230,
    16_255, 16_290, 17_200, 18_050, 18_965, 19_140, 21_230, 26_100, 27_755, 28_440, 40_800, 40_820, 40_825,
    40_850, 42_045, 42_051, 42_053, 42_090, 42_510, 42_735, 44_045, 44_090, 45_350, 45_370, 45_380, 45_396,
    45_405, 45_410, 45_430, 47_000, 47_005, 50_420, 58_000, 59_040, 60_725, 60_730, 61_565, 61_570, 69_800,
    69_825, 71_105, 73_000, 73_015, 73_360, 73_385, 74_160, 74_260, 75_100, 75_120, 75_125, 75_130, 75_135,
    75_170, 75_300, 75_470, 75_810, 77_000, 77_002, 77_004, 77_007, 77_015, 77_120, 77_163, 77_220, 77_231,
    77_266, 77_267, 77_268, 77_288, 77_289, 77_346, 77_400, 77_480, 77_489, 77_491, 77_492, 77_499, 77_510,
    77_713, 77_742, 77_745, 77_891, 77_947,
];

/// Numbers for products that are rinsed off, and for no others.
const RINSE_OFF: [u32; 34] = [
    10_006, 11_725, 12_120, 12_370, 12_420, 12_480, 12_700, 15_620, 18_130, 18_690, 18_736, 18_820, 20_040,
    20_470, 21_100, 21_108, 24_790, 40_215, 42_080, 42_100, 42_170, 42_520, 45_100, 45_190, 45_220, 50_325,
    51_319, 60_724, 61_585, 62_045, 73_900, 73_915, 74_100, 74_180,
];

/// Names of the annex that have no number, and the names as ordinary ingredients that its export gives entry 119, CI 77004.
const NAMED: [&str; 12] = [
    "acid red 195",
    "aluminum silicate",
    "anthocyanins",
    "beetroot red",
    "bentonite",
    "bromocresol green",
    "bromothymol blue",
    "capsanthin/capsorubin",
    "caramel",
    "kaolin",
    "lactoflavin",
    "riboflavin",
];

/// The most there may be of a number in the product.
const MOST: [(u32, Share); 4] = [
    (12_085, Share::literal(3, 2)),
    (15_630, Share::literal(3, 2)),
    (42_520, Share::literal(5, 6)),
    (45_350, Share::literal(6, 2)),
];

/// How a colour stands in annex IV.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Standing {
    /// Allowed, up to a share where one is set.
    Allowed(Option<Share>),
    /// Allowed in what is rinsed off.
    RinseOff(Option<Share>),
    /// Not listed, or not for such a product.
    Absent,
}

/// How a name on a label, `CI 77491` or `Beetroot Red`, stands in the annex.
pub(super) fn standing(name: &str) -> Standing {
    let Some(number) = name.strip_prefix("CI ") else {
        let known = NAMED.contains(&name.to_lowercase().as_str());
        return if known { Standing::Allowed(None) } else { Standing::Absent };
    };
    // A lake or a salt has the number of its dye and a figure after a colon: the entries that are not of one form alone
    // cover them.
    let dye = number.split_once(':').map_or(number, |(dye, _)| dye);
    let Ok(dye) = dye.parse() else { return Standing::Absent };
    let most = MOST.iter().find(|(known, _)| *known == dye).map(|(_, most)| *most);
    if ANY.binary_search(&dye).is_ok() {
        Standing::Allowed(most)
    } else if RINSE_OFF.binary_search(&dye).is_ok() {
        Standing::RinseOff(most)
    } else {
        Standing::Absent
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_numbers_of_annex_iv_are_sorted_and_stand_once() {
        assert!(ANY.is_sorted_by(|a, b| a < b) && RINSE_OFF.is_sorted_by(|a, b| a < b));
        assert!(NAMED.is_sorted_by(|a, b| a < b));
        assert!(RINSE_OFF.iter().all(|number| ANY.binary_search(number).is_err()));
        for (number, _) in MOST {
            assert_ne!(standing(&format!("CI {number}")), Standing::Absent);
        }
    }

    #[test]
    fn colours_stand_in_annex_iv_or_do_not() {
        for name in ["CI 77891", "CI 77007", "CI 77947", "CI 73000", "CI 77268:1", "Kaolin", "BEETROOT RED"] {
            assert_eq!(standing(name), Standing::Allowed(None), "{name}");
        }
        assert_eq!(standing("CI 45100"), Standing::RinseOff(None));
        assert_eq!(standing("CI 45350"), Standing::Allowed(Some(Share::literal(6, 2))));
        for name in ["CI 75330", "CI 75815", "CI 77019", "CI 77820", "CI 99999", "CI 7", "CI x", "Mica", ""] {
            assert_eq!(standing(name), Standing::Absent, "{name}");
        }
    }
}
