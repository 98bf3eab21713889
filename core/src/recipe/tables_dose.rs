//! The fields of doses and of what a document says of their materials.

use super::fields::{Field, Kind, Table, may, must};
use super::tables::{
    BASIS, DENSITY, DOSE, FLASH_POINT, FORM, IN_LYE, IODINE, MASS, SAPONIFICATION, SCENT_KIND, SHARE,
    TREATMENT,
};

pub(crate) static CERTIFICATE: Table = Table::new(
    "certificate",
    "a certificate",
    &[
        may(
            "saponification_value",
            Kind::Quantity(&[SAPONIFICATION]),
            "Saponification value in place of the library's.",
        ),
        may("iodine_value", Kind::Quantity(&[IODINE]), "Iodine value in place of the library's."),
        may("unsaponifiable", Kind::Quantity(&[SHARE]), "Unsaponifiable matter by mass."),
        may("density", Kind::Quantity(&[DENSITY]), "Density at 20 °C."),
        may("profile", Kind::Profile, "Fatty acids by mass share; together 95 to 101 %."),
        INCI_FIELD,
        may("sodium_soap_inci", Kind::Name, "Label name (INCI) of its sodium soap."),
        may("potassium_soap_inci", Kind::Name, "Label name (INCI) of its potassium soap."),
    ],
    &[],
);

pub(crate) static COMPOSITION: Table = Table::new(
    "composition",
    "a composition",
    &[
        may("water", Kind::Quantity(&[SHARE]), "Free water."),
        may(
            "fat",
            Kind::Quantity(&[SHARE]),
            "Fat that alkali can reach; needs fat_like or fat_saponification_value.",
        ),
        may("sugars", Kind::Quantity(&[SHARE]), "Sugars."),
        may("protein", Kind::Quantity(&[SHARE]), "Protein."),
        may("fibre", Kind::Quantity(&[SHARE]), "Fibre."),
        may("minerals", Kind::Quantity(&[SHARE]), "Ash, salts, clay."),
        may("alcohol", Kind::Quantity(&[SHARE]), "Ethanol."),
        may("polyols", Kind::Quantity(&[SHARE]), "Glycerol and sugar alcohols."),
        may("acid", Kind::Quantity(&[SHARE]), "Acid that takes up alkali; needs acid_is."),
        may("fat_like", Kind::Name, "Id of the fat whose fatty acids its own fat has."),
        may("acid_is", Kind::Name, "Id of the acid."),
        may(
            "form",
            Kind::Word(FORM.names),
            "In what shape it comes; paste by default for a material of one's own.",
        ),
        may(
            "fat_saponification_value",
            Kind::Quantity(&[SAPONIFICATION]),
            "Saponification value of its own fat.",
        ),
        may(
            "in_lye",
            Kind::Word(IN_LYE.names),
            "How it behaves in lye: water and salt dissolve in the water before the alkali, frozen scorches and is \
             frozen with it, boiled foams and is boiled flat first, hot dissolves in hot lye, cooled goes into clear cool \
             lye, fats does not belong in lye. By default as the library says, or by what it is made of.",
        ),
    ],
    &[],
);

pub(crate) const TREATMENT_FIELD: Field = may(
    "treatment",
    Kind::Word(TREATMENT.names),
    "Whether the superfat moves (absorb, default) or the lye follows (balance).",
);
pub(crate) const COMPOSITION_FIELD: Field = may(
    "composition",
    Kind::Object(&COMPOSITION),
    "What it is made of: in full for a material of one's own, in part to override the library.",
);
pub(crate) const OWN_NAME_FIELD: Field =
    may("name", Kind::Name, "Name of a material of one's own; its id by default.");
pub(crate) const INCI_FIELD: Field =
    may("inci", Kind::Name, "Its label name (INCI), where the library has none or another.");
pub(crate) const DOSE_FIELD: Field =
    must("dose", Kind::Quantity(&[DOSE, MASS]), "How much: a share of a basis, or a mass.");
pub(crate) const OF_FIELD: Field = may(
    "of",
    Kind::Word(BASIS.names),
    "What the share is a share of; layer fat by default, in the pot and in the lye batch fat, which is all they can have.",
);

pub(crate) static ADDITIVE_DOSE: Table = Table::new(
    "additive-dose",
    "a dose of an additive",
    &[
        must("additive", Kind::Name, "Id of an additive of the library, or of one's own with a composition."),
        OWN_NAME_FIELD,
        INCI_FIELD,
        DOSE_FIELD,
        OF_FIELD,
        TREATMENT_FIELD,
        COMPOSITION_FIELD,
    ],
    &[],
);

pub(crate) static FAT_DOSE: Table = Table::new(
    "fat-dose",
    "a dose of a fat",
    &[
        must("fat", Kind::Name, "Id of a fat of the library."),
        DOSE_FIELD,
        OF_FIELD,
        TREATMENT_FIELD,
        may(
            "certificate",
            Kind::Object(&CERTIFICATE),
            "What the supplier's certificate states in place of the library.",
        ),
    ],
    &[],
);

/// For a dose of which it is not clear what it is a dose of.
pub(crate) static ANY_DOSE: Table = Table::new(
    "dose",
    "a dose",
    &[
        may("additive", Kind::Name, ""),
        may("fat", Kind::Name, ""),
        OWN_NAME_FIELD,
        INCI_FIELD,
        DOSE_FIELD,
        OF_FIELD,
        TREATMENT_FIELD,
        COMPOSITION_FIELD,
        may("certificate", Kind::Object(&CERTIFICATE), ""),
    ],
    &[&["additive"], &["fat"]],
);

pub(crate) static COLOUR: Table = Table::new(
    "colour",
    "a colour",
    &[
        must("colour", Kind::Name, "Id of a colour of the library, or of one's own with a swatch."),
        OWN_NAME_FIELD,
        may("swatch", Kind::Swatch, "How it looks in a bar, #rrggbb."),
        may(
            "colour_index",
            Kind::Name,
            "Its number of the Colour Index, where the library has none or another.",
        ),
        DOSE_FIELD,
        OF_FIELD,
    ],
    &[],
);

pub(crate) static SCENT_ALLERGEN: Table = Table::new(
    "scent-allergen",
    "an allergen of a scent",
    &[
        must(
            "allergen",
            Kind::Name,
            "Its name on the label, its id, an isomer or an oil that is summed under it, or its CAS number.",
        ),
        must("share", Kind::Quantity(&[SHARE]), "Its share of the scent by mass."),
    ],
    &[],
);

pub(crate) static SCENT_CERTIFICATE: Table = Table::new(
    "scent-certificate",
    "a certificate of a scent",
    &[
        may("reference", Kind::Name, "The supplier's name or number for it."),
        may(
            "amendment",
            Kind::Count(crate::limits::RECIPE_AMENDMENT),
            "Amendment of the fragrance standards.",
        ),
        may(
            "limit",
            Kind::Quantity(&[SHARE]),
            "Largest share of the finished bar in the category of bar soap (category 9); above nought.",
        ),
        may(
            "allergens",
            Kind::List(&Kind::Object(&SCENT_ALLERGEN), 0),
            "Fragrance allergens in it; together at most 100 %.",
        ),
        may("vanillin", Kind::Quantity(&[SHARE]), "Vanillin, which browns soap."),
        may("flash_point", Kind::Quantity(&[FLASH_POINT]), "Flash point."),
    ],
    &[],
);

pub(crate) static SCENT: Table = Table::new(
    "scent",
    "a scent",
    &[
        must("scent", Kind::Name, "Id of a scent of the library, or of one's own with a kind."),
        OWN_NAME_FIELD,
        may("kind", Kind::Word(SCENT_KIND.names), "What a scent of one's own is."),
        INCI_FIELD,
        DOSE_FIELD,
        OF_FIELD,
        may("certificate", Kind::Object(&SCENT_CERTIFICATE), "What the supplier's certificate states."),
    ],
    &[],
);

// Each inner kind is named: the oldest compiler lets no constant borrow from the middle of an expression.
const A_DOSE: Kind = Kind::Either(DOSE_KINDS);
const DOSE_KINDS: &[Kind] = &[Kind::Object(&ADDITIVE_DOSE), Kind::Object(&FAT_DOSE)];
const A_COLOUR: Kind = Kind::Object(&COLOUR);
const A_SCENT: Kind = Kind::Object(&SCENT);
pub(crate) const DOSES: Kind = Kind::List(&A_DOSE, 0);
pub(crate) const COLOURS: Kind = Kind::List(&A_COLOUR, 0);
pub(crate) const SCENTS: Kind = Kind::List(&A_SCENT, 0);
