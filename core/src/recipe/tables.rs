//! The fields of a `recipe/1` document: the one place where they are listed.

use super::dose::{DoseBasis, Treatment};
use super::fields::{Field, Kind, Table, Units, Wanted, Words, may, must};
use super::tables_dose::{
    CERTIFICATE, COLOURS, COMPOSITION_FIELD, DOSES, INCI_FIELD, OWN_NAME_FIELD, SCENTS, TREATMENT_FIELD,
};
use super::{AdditiveWater, FatStage, Process, Purpose};
use crate::limits;
use crate::material::{Form, FragranceKind, InLye};
use crate::quantity::{Density, IodineValue, Length, Mass, SaponificationValue, Share, Temperature, Volume};

/// The format that is read and written.
pub(crate) const FORMAT: &str = "recipe/1";

pub(crate) const PURPOSE: Words<Purpose> =
    Words { names: &["household", "sale"], values: &[Purpose::Household, Purpose::Sale] };
pub(crate) const PROCESS: Words<Process> =
    Words { names: &["cold", "hot"], values: &[Process::Cold, Process::Hot] };
pub(crate) const STAGE: Words<FatStage> =
    Words { names: &["pot", "after cook"], values: &[FatStage::Pot, FatStage::AfterCook] };
pub(crate) const ADDITIVE_WATER: Words<AdditiveWater> =
    Words { names: &["extra", "counts"], values: &[AdditiveWater::Extra, AdditiveWater::Counts] };
pub(crate) const TREATMENT: Words<Treatment> =
    Words { names: &["absorb", "balance"], values: &[Treatment::Absorb, Treatment::Balance] };
pub(crate) const BASIS: Words<DoseBasis> = Words {
    names: &["layer fat", "layer", "batch fat", "batch"],
    values: &[DoseBasis::LayerFat, DoseBasis::Layer, DoseBasis::BatchFat, DoseBasis::Batch],
};
pub(crate) const FORM: Words<Form> = Words {
    names: &["liquid", "paste", "soluble", "insoluble"],
    values: &[Form::Liquid, Form::Paste, Form::Soluble, Form::Insoluble],
};
pub(crate) const IN_LYE: Words<InLye> = Words {
    names: &["water", "salt", "frozen", "boiled", "hot", "cooled", "fats"],
    values: &[
        InLye::Water,
        InLye::Salt,
        InLye::Frozen,
        InLye::Boiled,
        InLye::Hot,
        InLye::Cooled,
        InLye::Fats,
    ],
};
pub(crate) const SCENT_KIND: Words<FragranceKind> = Words {
    names: &["essential oil", "compound"],
    values: &[FragranceKind::EssentialOil, FragranceKind::Compound],
};
pub(crate) const FILLED: Words<()> = Words { names: &["filled"], values: &[()] };

macro_rules! wanted {
    ($($name:ident = $limit:ident, $units:expr, $example:literal;)*) => {
        $(pub(crate) const $name: Wanted =
            Wanted { limit: limits::$limit, units: $units, example: $example };)*
    };
}

wanted! {
    FAT_SHARE = RECIPE_SHARE, Units::Of(Share::UNITS), "45 %";
    SHARE = RECIPE_SHARE, Units::Of(Share::UNITS), "5 %";
    MASS = RECIPE_MASS, Units::Of(Mass::UNITS), "250 g";
    BAR_MASS = RECIPE_MASS, Units::Of(Mass::UNITS), "115 g";
    LARGE_MASS = RECIPE_MASS, Units::Of(Mass::UNITS), "1.5 kg";
    LENGTH = RECIPE_LENGTH, Units::Of(Length::UNITS), "75 mm";
    VOLUME = RECIPE_VOLUME, Units::Of(Volume::UNITS), "150 mL";
    TEMPERATURE = RECIPE_TEMPERATURE, Units::Of(Temperature::UNITS), "38 °C";
    FLASH_POINT = RECIPE_FLASH_POINT, Units::Of(Temperature::UNITS), "75 °C";
    PARTS = RECIPE_PARTS, Units::Parts, "3 parts";
    DOSE = RECIPE_DOSE, Units::Of(Share::UNITS), "3 %";
    SUPERFAT = RECIPE_SUPERFAT, Units::Of(Share::UNITS), "5 %";
    PURITY = RECIPE_PURITY, Units::Of(Share::UNITS), "98 %";
    PURITY_WITHIN = RECIPE_PURITY_WITHIN, Units::Of(Share::UNITS), "0.5 %";
    LYE_CONCENTRATION = RECIPE_LYE_CONCENTRATION, Units::Of(Share::UNITS), "33 %";
    WATER_TO_ALKALI = RECIPE_WATER_TO_ALKALI, Units::Bare, "2";
    WATER_OF_FAT = RECIPE_WATER_OF_FAT, Units::Of(Share::UNITS), "30 %";
    CURED_WATER = RECIPE_CURED_WATER, Units::Of(Share::UNITS), "12 %";
    STEP = RECIPE_SCALE_STEP, Units::Of(Mass::UNITS), "0.1 g";
    SAPONIFICATION = SAPONIFICATION_VALUE, Units::Of(SaponificationValue::UNITS), "181 mg KOH/g";
    IODINE = IODINE_VALUE, Units::Of(IodineValue::UNITS), "60";
    DENSITY = DENSITY, Units::Of(Density::UNITS), "0.91 g/mL";
}

pub(crate) static FAT: Table = Table::new(
    "fat",
    "a fat",
    &[
        must("fat", Kind::Name, "Id of a fat of the library."),
        may(
            "share",
            Kind::Quantity(&[FAT_SHARE]),
            "Share of all the fat; the shares of all fats sum to exactly 100 %.",
        ),
        may(
            "mass",
            Kind::Quantity(&[MASS]),
            "Mass, in place of a share; then all fats have one, and the batch is that large.",
        ),
        may(
            "stage",
            Kind::Word(STAGE.names),
            "When it goes in: into the pot (default), or held back until after the cook.",
        ),
        may(
            "certificate",
            Kind::Object(&CERTIFICATE),
            "What the supplier's certificate states in place of the library.",
        ),
    ],
    &[&["share"], &["mass"]],
);

const PURITY_WITHIN_FIELD: Field = may(
    "purity_within",
    Kind::Quantity(&[PURITY_WITHIN]),
    "How far the purity may be from what is stated, either way; only the certainty of the superfat asks.",
);

pub(crate) static SODIUM: Table = Table::new(
    "sodium-hydroxide",
    "a sodium hydroxide",
    &[
        may("purity", Kind::Quantity(&[PURITY]), "Pure alkali as a mass share of what is weighed."),
        may("carbonate", Kind::Quantity(&[SHARE]), "Carbonate as a mass share; 0 % by default."),
        PURITY_WITHIN_FIELD,
    ],
    &[],
);

pub(crate) static KOH_SHARE: Table = Table::new(
    "alkali-share",
    "a share of potassium hydroxide",
    &[
        may("pure_mass", Kind::Quantity(&[SHARE]), "Of the mass of both alkalis as pure substance."),
        may("weighed_mass", Kind::Quantity(&[SHARE]), "Of the mass of both alkalis as weighed."),
    ],
    &[&["pure_mass"], &["weighed_mass"]],
);

pub(crate) static POTASSIUM: Table = Table::new(
    "potassium-hydroxide",
    "a potassium hydroxide",
    &[
        may("purity", Kind::Quantity(&[PURITY]), "Pure alkali as a mass share of what is weighed."),
        may("carbonate", Kind::Quantity(&[SHARE]), "Carbonate as a mass share; 0 % by default."),
        PURITY_WITHIN_FIELD,
        may(
            "share",
            Kind::Either(&[Kind::Quantity(&[SHARE]), Kind::Object(&KOH_SHARE)]),
            "Share of potassium hydroxide beside sodium hydroxide; as a text, of the alkali demand in moles.",
        ),
    ],
    &[],
);

pub(crate) static ALKALI: Table = Table::new(
    "alkali",
    "the alkali",
    &[
        may("naoh", Kind::Object(&SODIUM), "Sodium hydroxide."),
        may("koh", Kind::Object(&POTASSIUM), "Potassium hydroxide; with its share when both are there."),
    ],
    &[],
);

pub(crate) static FAT_EXCESS: Table = Table::new(
    "fat-excess",
    "a superfat",
    &[must(
        "fat_excess",
        Kind::Quantity(&[SUPERFAT]),
        "Fat beyond what the alkali meets, as a share of the fat it meets.",
    )],
    &[],
);

pub(crate) static WATER: Table = Table::new(
    "water",
    "the water",
    &[
        may(
            "lye_concentration",
            Kind::Quantity(&[LYE_CONCENTRATION]),
            "Pure alkali / (pure alkali + water), by mass.",
        ),
        may(
            "water_to_alkali",
            Kind::Quantity(&[WATER_TO_ALKALI]),
            "Grams of water to a gram of pure alkali.",
        ),
        may("share_of_fat", Kind::Quantity(&[WATER_OF_FAT]), "Water as a share of the fat."),
    ],
    &[&["lye_concentration"], &["water_to_alkali"], &["share_of_fat"]],
);

pub(crate) static LIQUID: Table = Table::new(
    "liquid",
    "a liquid",
    &[
        must("liquid", Kind::Name, "Id of a liquid of the library, or of one's own with a composition."),
        OWN_NAME_FIELD,
        INCI_FIELD,
        must("share", Kind::Quantity(&[SHARE]), "Share of the lye's water that is water of this liquid."),
        TREATMENT_FIELD,
        COMPOSITION_FIELD,
    ],
    &[],
);

pub(crate) static LYE: Table = Table::new(
    "lye",
    "the lye",
    &[
        may("liquids", Kind::List(&Kind::Object(&LIQUID), 0), "Liquids in place of water."),
        may("doses", DOSES, "What is dissolved in it; in grams or of the batch fat."),
    ],
    &[],
);

pub(crate) static SIZE: Table = Table::new(
    "size",
    "the size",
    &[
        may("fat", Kind::Quantity(&[LARGE_MASS]), "So much fat."),
        may("batter", Kind::Quantity(&[LARGE_MASS]), "So much poured, everything together."),
        may("bars", Kind::Count(limits::RECIPE_COUNT), "So many bars of each so much."),
        may("each", Kind::Quantity(&[BAR_MASS]), "Mass of one bar, fresh."),
        may("moulds", Kind::Word(FILLED.names), "As much as fills the moulds."),
    ],
    &[&["fat"], &["batter"], &["bars", "each"], &["moulds"]],
);

pub(crate) static JUG: Table = Table::new(
    "jug",
    "a jug",
    &[
        must("jug", Kind::Name, "Its name."),
        may(
            "tare",
            Kind::Quantity(&[MASS]),
            "Its own mass; none when the scale is set to nought with the jug on it.",
        ),
        may("residue", Kind::Quantity(&[MASS]), "What stays on its walls; the workshop's by default."),
        may("doses", DOSES, "What is stirred into the mixture."),
        may("colours", COLOURS, "Colours of the mixture."),
        may("scents", SCENTS, "Scents of the mixture."),
    ],
    &[],
);

pub(crate) static LAYER: Table = Table::new(
    "layer",
    "a layer",
    &[
        must("layer", Kind::Name, "Its name."),
        must(
            "share",
            Kind::Quantity(&[PARTS, LENGTH, MASS, VOLUME]),
            "How much of the bar it is; all layers say it the same way.",
        ),
        may("jug", Kind::Name, "Name of the jug it is poured from; one of its own by default."),
        may("doses", DOSES, "What is stirred into it."),
        may("colours", COLOURS, "Its colours."),
        may("scents", SCENTS, "Its scents."),
    ],
    &[],
);

pub(crate) static SCALE: Table = Table::new(
    "scale",
    "a scale",
    &[
        must("scale", Kind::Name, "Its name."),
        must("step", Kind::Quantity(&[STEP]), "Smallest difference it shows; above nought."),
        must(
            "capacity",
            Kind::Quantity(&[LARGE_MASS]),
            "Most it carries, vessel included; at least ten steps.",
        ),
    ],
    &[],
);

pub(crate) static WORKSHOP: Table = Table::new(
    "workshop",
    "the workshop",
    &[
        may("scales", Kind::List(&Kind::Object(&SCALE), 1), "Its scales."),
        may("jug_residue", Kind::Quantity(&[MASS]), "What stays in a jug that says nothing of its own."),
        may("pot_residue", Kind::Quantity(&[MASS]), "What stays in the pot that the fats were melted in."),
        may("lye_residue", Kind::Quantity(&[MASS]), "What stays in the vessel of the lye."),
    ],
    &[],
);

pub(crate) static TEMPERATURES: Table = Table::new(
    "temperatures",
    "the temperatures",
    &[
        may("fats", Kind::Quantity(&[TEMPERATURE]), "Of the fats at mixing."),
        may("lye", Kind::Quantity(&[TEMPERATURE]), "Of the lye at mixing."),
    ],
    &[],
);

pub(crate) static RECIPE: Table = Table::new(
    "recipe",
    "a recipe",
    &[
        must("lamella", Kind::Tag(FORMAT), "The format: recipe/1."),
        must("name", Kind::Name, "What the maker calls it."),
        may("note", Kind::Note, "Free text."),
        may("for", Kind::Word(PURPOSE.names), "For the household (default) or for sale."),
        may("process", Kind::Word(PROCESS.names), "Poured raw (cold, default) or cooked first (hot)."),
        must("fats", Kind::List(&Kind::Object(&FAT), 1), "The fats."),
        must("alkali", Kind::Object(&ALKALI), "The alkali, or both."),
        must(
            "superfat",
            Kind::Either(&[Kind::Quantity(&[SUPERFAT]), Kind::Object(&FAT_EXCESS)]),
            "Share of the alkali demand left unmet; or an excess of fat.",
        ),
        must("water", Kind::Object(&WATER), "The water that the alkali is dissolved in."),
        may(
            "additive_water",
            Kind::Word(ADDITIVE_WATER.names),
            "Whether water of additives comes on top (extra, default) or counts.",
        ),
        may("lye", Kind::Object(&LYE), "What else the lye is made with."),
        may(
            "doses",
            DOSES,
            "What is stirred into the fats before they are divided; in grams or of the batch fat.",
        ),
        may("colours", COLOURS, "Colours of the whole batch."),
        may("scents", SCENTS, "Scents of the whole batch."),
        may("size", Kind::Object(&SIZE), "How large the batch is; left out when fats or layers say it."),
        may("moulds", Kind::List(&super::read_mould::MOULD, 0), "Moulds that are filled."),
        may(
            "jugs",
            Kind::List(&Kind::Object(&JUG), 0),
            "Jugs that several layers are poured from, or whose tare is known.",
        ),
        must(
            "layers",
            Kind::List(&Kind::Object(&LAYER), 1),
            "Layers in pour order: the first lies at the bottom.",
        ),
        may("workshop", Kind::Object(&WORKSHOP), "Scales, and what stays behind."),
        may("temperatures", Kind::Object(&TEMPERATURES), "Temperatures at mixing."),
        may(
            "cured_water",
            Kind::Quantity(&[CURED_WATER]),
            "Water in the cured bar by mass; 12 % by default.",
        ),
    ],
    &[],
);
