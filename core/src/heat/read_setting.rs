//! Reading a `heat/1` document: what surrounds a batch, and a maker's own figures.
#![expect(clippy::float_arithmetic, reason = "units of an approximate model")]

use super::setting::{Layup, Pour, Setting, Surroundings};
use super::{Sheet, Spread};
use crate::limits;
use crate::problem::Problem;
use crate::quantity::{Duration, Length, Share, Temperature};
use crate::recipe::fields::{Kind, Table, Units, Wanted, Words, may, must};
use crate::recipe::read::document;
use crate::recipe::read_value::{Fields, Node, Reader};

const SHEETS: Words<Sheet> = Words {
    names: &["wood", "silicone", "plastic", "cardboard", "foam", "blanket", "steel"],
    values: &Sheet::ALL,
};

const TIME: Wanted =
    Wanted { limit: limits::HEAT_TIME, units: Units::Of(Duration::UNITS), example: "45 min" };
const THICKNESS: Wanted =
    Wanted { limit: limits::HEAT_THICKNESS, units: Units::Of(Length::UNITS), example: "12 mm" };
const AIR: Wanted =
    Wanted { limit: limits::HEAT_AIR, units: Units::Of(Temperature::UNITS), example: "21 °C" };
const BATTER: Wanted =
    Wanted { limit: limits::RECIPE_TEMPERATURE, units: Units::Of(Temperature::UNITS), example: "36 °C" };
const FACTOR: Wanted =
    Wanted { limit: limits::HEAT_FACTOR, units: Units::Of(Share::UNITS), example: "120 %" };
const WITHIN: Wanted = Wanted { limit: limits::HEAT_WITHIN, units: Units::Of(Share::UNITS), example: "15 %" };

static SHEET: Table = Table::new(
    "sheet",
    "a sheet",
    &[
        must("sheet", Kind::Word(SHEETS.names), "What it is of."),
        must("thickness", Kind::Quantity(&[THICKNESS]), "How thick it is."),
    ],
    &[],
);
static ITEM: Kind = Kind::Object(&SHEET);
const LAYUP: Kind = Kind::List(&ITEM, 0);

static SURROUNDINGS: Table = Table::new(
    "surroundings",
    "surroundings",
    &[
        must("from", Kind::Quantity(&[TIME]), "From when, after the first pour; the first from 0 h."),
        must("air", Kind::Quantity(&[AIR]), "Temperature of the room, the fridge or the oven."),
        may("cover", LAYUP, "What lies on top; nothing by default."),
        may("around", LAYUP, "What is wrapped around walls and cover; nothing by default."),
    ],
    &[],
);

static POUR: Table = Table::new(
    "pour",
    "a pour",
    &[
        must("at", Kind::Quantity(&[TIME]), "When, after the first pour, which is at 0 min."),
        may("temperature", Kind::Quantity(&[BATTER]), "Temperature of the batter, where it was measured."),
    ],
    &[],
);

static OWN: Table = Table::new(
    "own",
    "the own figures",
    &[
        may("rate", Kind::Quantity(&[FACTOR]), "Rate of the reaction, of the usual one."),
        may("rate_within", Kind::Quantity(&[WITHIN]), "Within how much of itself it is known."),
        may("insulation", Kind::Quantity(&[FACTOR]), "Resistances, of those reckoned from the sheets."),
        may("insulation_within", Kind::Quantity(&[WITHIN]), "Within how much of itself it is known."),
        may("heat", Kind::Quantity(&[FACTOR]), "Heat of reaction, of the usual one."),
        may("heat_within", Kind::Quantity(&[WITHIN]), "Within how much of itself it is known."),
    ],
    &[],
);

/// The format that is read.
const FORMAT: &str = "heat/1";

static HEAT: Table = Table::new(
    "heat",
    "a setting",
    &[
        must("lamella", Kind::Tag(FORMAT), "The format: heat/1."),
        may(
            "mould",
            Kind::Count(limits::RECIPE_COUNT),
            "Which mould of the recipe, from 1; the first by default.",
        ),
        may("walls", LAYUP, "The side walls, from the soap outwards."),
        may("base", LAYUP, "What lies under the soap; the table is reckoned with."),
        may(
            "surroundings",
            Kind::List(&Kind::Object(&SURROUNDINGS), 1),
            "What surrounds the block, by time.",
        ),
        may("pours", Kind::List(&Kind::Object(&POUR), 0), "Pours in the order of the layers."),
        may("until", Kind::Quantity(&[TIME]), "How long to look ahead; 48 h by default."),
        may("own", Kind::Object(&OWN), "A maker's own figures, from a fit to a thermometer log."),
    ],
    &[],
);

/// Reads a `heat/1` document. What it leaves out is as in [`Setting::default`].
///
/// ```
/// let setting = lamella::heat::read_setting(r#"{
///   "lamella": "heat/1",
///   "walls": [{"sheet": "wood", "thickness": "18 mm"}],
///   "surroundings": [
///     {"from": "0 h", "air": "21 °C", "cover": [{"sheet": "cardboard", "thickness": "5 mm"}],
///      "around": [{"sheet": "blanket", "thickness": "20 mm"}]},
///     {"from": "3 h", "air": "21 °C"}
///   ],
///   "pours": [{"at": "0 min", "temperature": "36 °C"}, {"at": "20 min"}],
///   "until": "30 h"
/// }"#).unwrap();
/// assert_eq!(setting.until, 108_000.0);
///
/// let problems = lamella::heat::read_setting(r#"{"lamella": "heat/1", "until": "2"}"#).unwrap_err();
/// assert_eq!((problems[0].code, problems[0].pointer.as_str()), ("quantity.unit.missing", "/until"));
/// ```
///
/// # Errors
/// Everything that is wrong with the document, in the order of its text; never an empty list.
pub fn read_setting(text: &str) -> Result<Setting, Vec<Problem>> {
    document(text, FORMAT, setting)
}

/// The JSON Schema of a `heat/1` document; the same as `core/schema/heat-1.json`.
#[cfg(feature = "schema")]
#[must_use]
pub fn schema() -> String {
    crate::recipe::schema::of(&HEAT, "What surrounds a block of soap, and a maker's own figures")
}

fn setting(reader: &mut Reader, at: &Node<'_>) -> Option<Setting> {
    let top = &reader.top(at, &HEAT)?;
    let usual = Setting::default();
    let mould = reader.maybe(top, "mould", 1, |reader, at| reader.number(at, &limits::RECIPE_COUNT));
    let walls = layup(reader, top, "walls", usual.walls);
    let base = layup(reader, top, "base", usual.base);
    let surroundings = reader.items(top, "surroundings", 1, surroundings);
    let pours = reader.items(top, "pours", 0, pour);
    let until = reader.maybe(top, "until", usual.until, seconds);
    let own = reader.maybe(top, "own", Own::default(), own);
    rising(
        reader,
        top,
        "surroundings",
        surroundings.as_deref().map(|list| list.iter().map(|item| item.from).collect()),
        true,
    );
    rising(
        reader,
        top,
        "pours",
        pours.as_deref().map(|list| list.iter().map(|item| item.at).collect()),
        false,
    );
    let (surroundings, own) = (surroundings?, own?);
    let given = top.has("surroundings");
    let mut kinetics = usual.kinetics;
    kinetics.rate *= own.rate;
    Some(Setting {
        mould: usize::try_from(mould?).ok()?.saturating_sub(1),
        walls: walls?,
        base: base?,
        surroundings: if given { surroundings } else { usual.surroundings },
        pours: pours?,
        until: until?,
        kinetics,
        heat: usual.heat * own.heat,
        insulation: own.insulation,
        spread: own.spread,
    })
}

/// Times of a list that begin at nought and rise; pours may share a time.
fn rising(reader: &mut Reader, top: &Fields<'_>, name: &str, times: Option<Vec<f64>>, strictly: bool) {
    let Some((times, at)) = times.zip(top.get(name)) else { return };
    let mut last = None;
    for time in times {
        let wrong = last.map_or(time > 0.0, |last| time < last || (strictly && time <= last));
        if wrong {
            let message = format!("the times of {name:?} do not begin at 0 and rise");
            reader.report(&at, "heat.order", message, "order them by time, and count from the first pour");
            return;
        }
        last = Some(time);
    }
}

fn seconds(reader: &mut Reader, at: &Node<'_>) -> Option<f64> {
    Some(reader.quantity::<Duration>(at, &TIME)?.exact().approximate())
}

fn layup(reader: &mut Reader, top: &Fields<'_>, name: &str, usual: Layup) -> Option<Layup> {
    let list = reader.items(top, name, 0, |reader, at| {
        let fields = reader.object(at, &SHEET)?;
        let sheet = reader.needed(&fields, "sheet", |reader, at| reader.word(at, &SHEETS));
        let thickness =
            reader.needed(&fields, "thickness", |reader, at| reader.quantity::<Length>(at, &THICKNESS));
        Some((sheet?, thickness?.exact().approximate() / 1000.0))
    });
    if top.has(name) { list } else { Some(usual) }
}

fn surroundings(reader: &mut Reader, at: &Node<'_>) -> Option<Surroundings> {
    let fields = reader.object(at, &SURROUNDINGS)?;
    let from = reader.needed(&fields, "from", seconds);
    let air = reader.needed(&fields, "air", |reader, at| reader.quantity::<Temperature>(at, &AIR));
    let cover = layup(reader, &fields, "cover", Vec::new());
    let around = layup(reader, &fields, "around", Vec::new());
    Some(Surroundings { from: from?, air: celsius(air?), cover: cover?, around: around? })
}

fn pour(reader: &mut Reader, at: &Node<'_>) -> Option<Pour> {
    let fields = reader.object(at, &POUR)?;
    let at = reader.needed(&fields, "at", seconds);
    let temperature = reader.maybe(&fields, "temperature", None, |reader, at| {
        reader.quantity::<Temperature>(at, &BATTER).map(|temperature| Some(celsius(temperature)))
    });
    Some(Pour { at: at?, temperature: temperature? })
}

fn celsius(temperature: Temperature) -> f64 {
    temperature.exact().approximate()
}

/// Factors of what is usual.
struct Own {
    rate: f64,
    insulation: f64,
    heat: f64,
    spread: Spread,
}

impl Default for Own {
    fn default() -> Self {
        Self { rate: 1.0, insulation: 1.0, heat: 1.0, spread: Spread::default() }
    }
}

fn own(reader: &mut Reader, at: &Node<'_>) -> Option<Own> {
    let fields = reader.object(at, &OWN)?;
    let usual = Spread::default();
    let mut share = |name: &str, usual: f64, wanted: &Wanted| {
        reader.maybe(&fields, name, usual, |reader, at| {
            Some(reader.quantity::<Share>(at, wanted)?.exact().approximate())
        })
    };
    let rate = share("rate", 1.0, &FACTOR);
    let rate_within = share("rate_within", usual.rate, &WITHIN);
    let insulation = share("insulation", 1.0, &FACTOR);
    let insulation_within = share("insulation_within", usual.resistance, &WITHIN);
    let heat = share("heat", 1.0, &FACTOR);
    let heat_within = share("heat_within", usual.heat, &WITHIN);
    let spread = Spread { rate: rate_within?, resistance: insulation_within?, heat: heat_within?, ..usual };
    Some(Own { rate: rate?, insulation: insulation?, heat: heat?, spread })
}
