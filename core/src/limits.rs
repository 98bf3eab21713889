//! The one table of ranges: what a number may be, in the words a message uses.
//!
//! Every quantity type carries a [`Limit`] that bounds what it can hold, and the reader of documents carries narrower
//! ones for what a recipe may say. Parser, messages, schema and strategies all read this table.

use rust_decimal::Decimal;

use crate::quantity::Exact;

/// A closed range of a number, with the words for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Limit {
    /// What is bounded, as a maker would say it: "mass", "superfat".
    pub what: &'static str,
    /// The unit both ends are stated in.
    pub unit: &'static str,
    /// Smallest value allowed, in `unit`.
    pub min: Decimal,
    /// Largest value allowed, in `unit`.
    pub max: Decimal,
    /// Both once more, to compare quickly.
    ends: [Exact; 2],
}

/// Decimals that a quantity keeps after the point of its base unit: one picogram for a mass.
pub const DECIMALS: u32 = 12;

/// Most bytes that a recipe document may have (1 MiB). Larger ones are refused before they are parsed.
pub const DOCUMENT_BYTES: usize = 1 << 20;
/// Most fats, layers, jugs, doses of one layer, colours, scents, scales or moulds of a document.
pub const ITEMS: usize = 200;
/// Longest name or note in a document, in characters.
pub const TEXT: usize = 200;
/// Most materials that a document may name: fats, liquids, doses, colours and scents together. Sums over so many figures
/// stay within 28 digits.
pub const MATERIALS: usize = 10_000;

const fn limit(what: &'static str, unit: &'static str, min: i64, max: i64) -> Limit {
    Limit {
        what,
        unit,
        min: whole(min),
        max: whole(max),
        ends: [Exact::literal(min, 0), Exact::literal(max, 0)],
    }
}

/// A whole number as a decimal, at compile time.
const fn whole(value: i64) -> Decimal {
    let size = value.unsigned_abs();
    Decimal::from_parts((size & 0xffff_ffff) as u32, (size >> 32) as u32, 0, value < 0, 0)
}

macro_rules! table {
    ($($(#[$doc:meta])* $name:ident = $what:literal, $unit:literal, $min:literal ..= $max:literal;)*) => {
        $($(#[$doc])* pub const $name: Limit = limit($what, $unit, $min, $max);)*
    };
}

table! {
    /// What a `Mass` can hold; a difference may be negative.
    MASS = "mass", "g", -1_000_000_000 ..= 1_000_000_000;
    /// What a `Volume` can hold.
    VOLUME = "volume", "mL", -1_000_000_000 ..= 1_000_000_000;
    /// What a `Length` can hold.
    LENGTH = "length", "mm", -1_000_000 ..= 1_000_000;
    /// What a `Temperature` can hold.
    TEMPERATURE = "temperature", "°C", -273 ..= 1_000;
    /// What a `Share` can hold, as a fraction (1 is 100 %).
    SHARE = "share", "", -1_000_000 ..= 1_000_000;
    /// What a `SaponificationValue` can hold. Tributyrin, the lightest food triglyceride, has 557.
    SAPONIFICATION_VALUE = "saponification value", "mg KOH/g", 0 ..= 1_000;
    /// What an `IodineValue` can hold.
    IODINE_VALUE = "iodine value", "g I2/100 g", 0 ..= 500;
    /// What a `Density` can hold.
    DENSITY = "density", "g/mL", 0 ..= 30;
    /// What an `Energy` can hold.
    ENERGY = "energy", "J", -1_000_000_000 ..= 1_000_000_000;
    /// What a `SpecificHeat` can hold.
    SPECIFIC_HEAT = "specific heat", "J/(g K)", 0 ..= 1_000;
    /// What a `Conductivity` can hold.
    CONDUCTIVITY = "thermal conductivity", "W/(m K)", 0 ..= 10_000;
    /// What a `Duration` can hold: 100 years of 365 days.
    DURATION = "span of time", "s", -3_153_600_000 ..= 3_153_600_000;
    /// What a `Price` can hold, per gram.
    PRICE = "price", "per g", 0 ..= 1_000_000_000;
    /// Amount of a `Money`.
    MONEY = "amount of money", "", -1_000_000_000 ..= 1_000_000_000;

    /// A mass in a recipe.
    RECIPE_MASS = "mass", "g", 0 ..= 1_000_000;
    /// A volume in a recipe.
    RECIPE_VOLUME = "volume", "mL", 0 ..= 1_000_000;
    /// A length in a recipe.
    RECIPE_LENGTH = "length", "mm", 0 ..= 10_000;
    /// A temperature in a recipe.
    RECIPE_TEMPERATURE = "temperature", "°C", -30 ..= 150;
    /// A share of a whole in a recipe, in per cent.
    RECIPE_SHARE = "share", "%", 0 ..= 100;
    /// A dose in a recipe, in per cent of its basis. A salt bar takes 100 % of its fat in salt.
    RECIPE_DOSE = "dose", "%", 0 ..= 300;
    /// The superfat a recipe may ask for, in per cent. A negative one would be lye-heavy by intent.
    RECIPE_SUPERFAT = "superfat", "%", 0 ..= 50;
    /// Purity of an alkali, in per cent. Ready-made solutions are stated by their strength.
    RECIPE_PURITY = "purity", "%", 10 ..= 100;
    /// How far a purity may be off, either way, in per cent of what is weighed.
    RECIPE_PURITY_WITHIN = "distance from the stated purity", "%", 0 ..= 20;
    /// A superfat that came out, in per cent: all fat left over, or far more alkali than fat. As wide as a plan can have it.
    FOUND_SUPERFAT = "superfat", "%", -100_000_000 ..= 100;
    /// Free caustic alkali of a bar, in per cent of sodium hydroxide. More is raw lye.
    FREE_ALKALI = "free alkali", "%", 0 ..= 20;
    /// Lye concentration, in per cent.
    RECIPE_LYE_CONCENTRATION = "lye concentration", "%", 5 ..= 60;
    /// Grams of water to a gram of pure alkali.
    RECIPE_WATER_TO_ALKALI = "ratio of water to alkali", "", 0 ..= 20;
    /// Water as a share of the fat, in per cent.
    RECIPE_WATER_OF_FAT = "water as a share of fat", "%", 1 ..= 200;
    /// Parts that a layer takes of the batch.
    RECIPE_PARTS = "share of a layer", "parts", 0 ..= 1_000_000;
    /// A count of bars, moulds, cavities.
    RECIPE_COUNT = "count", "", 1 ..= 10_000;
    /// Water in the cured bar, in per cent.
    RECIPE_CURED_WATER = "water in the cured bar", "%", 0 ..= 30;
    /// Flash point of a scent.
    RECIPE_FLASH_POINT = "flash point", "°C", 0 ..= 300;
    /// Amendment of the fragrance standards that a certificate is drawn up to.
    RECIPE_AMENDMENT = "amendment", "", 1 ..= 999;
    /// Age of a bar that is weighed, in days: ten years.
    CURE_AGE = "age", "d", 0 ..= 3_650;
    /// Loss of a week below which a bar counts as dry, in per cent.
    CURE_SETTLED = "loss of a week", "%", 0 ..= 20;
    /// An amount of money in a list of prices.
    PRICES_AMOUNT = "amount of money", "", 0 ..= 1_000_000_000;
    /// Decimals of the smallest coin of a currency.
    PRICES_DECIMALS = "decimals of the smallest coin", "", 0 ..= 4;
    /// Time that a batch takes, in hours.
    PRICES_TIME = "time", "h", 0 ..= 10_000;
    /// What is to be earned, in per cent of the price.
    PRICES_MARGIN = "margin", "%", 0 ..= 95;
    /// What is to be earned, in per cent of the cost.
    PRICES_MARKUP = "margin", "%", 0 ..= 2_000;
    /// A count of bars in a record.
    RECORD_COUNT = "count", "", 0 ..= 10_000;
    /// Time after which foam is looked at again, in minutes.
    TRIAL_AFTER = "time", "min", 0 ..= 1_440;
    /// Water in which a bar is tried.
    TRIAL_WATER = "temperature of the water", "°C", 0 ..= 60;
    /// pH of a solution.
    TRIAL_PH = "pH", "", 0 ..= 14;
    /// A time in a run of heat, in hours: fourteen days.
    HEAT_TIME = "time", "h", 0 ..= 336;
    /// A thickness of a wall or a wrapping.
    HEAT_THICKNESS = "thickness", "mm", 0 ..= 1_000;
    /// A temperature of the air around a block.
    HEAT_AIR = "temperature", "°C", -40 ..= 150;
    /// What a maker's own figure is of the usual one, in per cent.
    HEAT_FACTOR = "factor", "%", 1 ..= 1_000;
    /// Within how much of itself a maker's own figure is known, in per cent.
    HEAT_WITHIN = "spread", "%", 0 ..= 100;
    /// Smallest difference that a scale shows.
    RECIPE_SCALE_STEP = "scale step", "g", 0 ..= 1_000;
    /// Most fats that a blend may be limited to.
    BLEND_FATS = "number of fats", "", 1 ..= 200;
    /// The step in which shares of a blend are chosen, in per cent.
    BLEND_STEP = "step", "%", 0 ..= 50;
}

impl Limit {
    /// Whether the range holds `value`.
    #[must_use]
    pub fn holds(&self, value: Decimal) -> bool {
        self.min <= value && value <= self.max
    }

    /// Whether the range holds a value that is not rounded yet.
    pub(crate) const fn holds_exact(&self, value: Exact) -> bool {
        let [least, most] = self.ends;
        value.is_between(least, most)
    }

    /// The range in words: `0 % to 100 %`.
    #[must_use]
    pub fn phrase(&self) -> String {
        let unit = if self.unit.is_empty() { String::new() } else { format!(" {}", self.unit) };
        format!("{}{unit} to {}{unit}", self.min, self.max)
    }
}
