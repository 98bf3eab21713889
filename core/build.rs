//! Turns the tables of `data/*.toml` into static Rust tables, so that nothing is parsed when the library starts.
//!
//! Every number stands in the tables as text and comes out as `literal(mantissa, scale)`: no float is ever made of it. A
//! row that is wrong fails the build with the file, the row and what is wrong about it.

#[path = "build/emit.rs"]
mod emit;
#[path = "build/label.rs"]
mod label;
#[path = "build/rows.rs"]
mod rows;

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::Path;
use std::process::ExitCode;

use emit::{Decimal, Field};
use label::{Allergen, Label, Substance};
use rows::{Acid, Additive, Alkali, Colourant, Fat, Fragrance, Row, read};

fn main() -> ExitCode {
    println!("cargo::rerun-if-changed=data");
    println!("cargo::rerun-if-changed=build");
    match build() {
        Ok(()) => ExitCode::SUCCESS,
        Err(message) => {
            println!("cargo::error={message}");
            ExitCode::FAILURE
        }
    }
}

fn build() -> Result<(), String> {
    let variable = |name| std::env::var(name).map_err(|_| format!("{name} is not set"));
    let home = variable("CARGO_MANIFEST_DIR")?;
    let data = Path::new(&home).join("data");

    let fats: BTreeMap<String, Fat> = read(&data, "fats.toml", "fat")?;
    let acids: BTreeMap<String, Acid> = read(&data, "acids.toml", "acid")?;
    let mut additives: BTreeMap<String, Additive> = read(&data, "additives.toml", "additive")?;
    for (id, liquid) in read::<Additive>(&data, "liquids.toml", "additive")? {
        if additives.insert(id.clone(), liquid).is_some() {
            return Err(format!("data/liquids.toml, row {id:?}: additives.toml has a row of this id"));
        }
    }
    let alkalis: BTreeMap<String, Alkali> = read(&data, "alkalis.toml", "alkali")?;
    if alkalis.keys().ne(["koh", "naoh"]) {
        return Err("data/alkalis.toml: the rows must be koh and naoh".to_owned());
    }
    for (id, additive) in &mut additives {
        let file = if additive.form == "liquid" { "liquids.toml" } else { "additives.toml" };
        resolve(additive, &fats, &acids).map_err(|wrong| format!("data/{file}, row {id:?}: {wrong}"))?;
    }

    let mut out = String::new();
    table(&mut out, "fats.toml", "Fat", &fats)?;
    table(&mut out, "acids.toml", "Acid", &acids)?;
    table(&mut out, "additives.toml or liquids.toml", "Additive", &additives)?;
    table(&mut out, "alkalis.toml", "AlkaliData", &alkalis)?;
    table(
        &mut out,
        "colourants.toml",
        "Colourant",
        &read::<Colourant>(&data, "colourants.toml", "colourant")?,
    )?;
    table(
        &mut out,
        "fragrances.toml",
        "Fragrance",
        &read::<Fragrance>(&data, "fragrances.toml", "fragrance")?,
    )?;
    deviations(&mut out, &fats);

    let labels = read::<Label>(&data, "label_additives.toml", "label")?;
    if let Some(id) = labels.keys().find(|id| !additives.contains_key(*id)) {
        return Err(format!("data/label_additives.toml, row {id:?}: no additive of this id"));
    }
    table(&mut out, "label_additives.toml", "Label", &labels)?;
    let labels: BTreeMap<String, label::ColourLabel> = read(&data, "label_colourants.toml", "label")?;
    table(&mut out, "label_colourants.toml", "Label", &labels)?;
    let substances: BTreeMap<String, Substance> = read(&data, "substances.toml", "substance")?;
    table(&mut out, "substances.toml", "Substance", &substances)?;
    let allergens: BTreeMap<String, Allergen> = read(&data, "allergens.toml", "allergen")?;
    table(&mut out, "allergens.toml", "Allergen", &allergens)?;

    let path = Path::new(&variable("OUT_DIR")?).join("library.rs");
    std::fs::write(&path, out).map_err(|error| format!("{}: {error}", path.display()))
}

/// Checks what an additive says of other tables, and gives its fat the saponification value of the fat it is like.
fn resolve(
    additive: &mut Additive,
    fats: &BTreeMap<String, Fat>,
    acids: &BTreeMap<String, Acid>,
) -> Result<(), String> {
    if let Some(like) = &additive.fat_like {
        let fat = fats.get(like).ok_or_else(|| format!("fat_like: no fat {like:?}"))?;
        if additive.fat_saponification_value.is_none() {
            additive.fat_saponification_value = Some(fat.saponification_value.typical.clone());
        }
    }
    if let Some(acid) = &additive.acid
        && !acids.contains_key(acid)
    {
        return Err(format!("acid: no acid {acid:?}"));
    }
    let parts = &additive.composition;
    if parts.acid.is_some() != additive.acid.is_some() {
        return Err("an acid needs both its name and its share".to_owned());
    }
    if parts.fat.is_some() != additive.fat_saponification_value.is_some() {
        return Err("fat needs a saponification value, and the other way round".to_owned());
    }
    let mut sum = Decimal::ZERO;
    for part in parts.all().into_iter().flatten() {
        sum = sum.plus(&Decimal::parse(part)?)?;
    }
    if sum.exceeds(&Decimal::HUNDRED) {
        return Err(format!("composition: the parts sum to {sum} g of 100 g"));
    }
    Ok(())
}

/// One static array, and before it the statics of every list that its rows hold.
fn table<T: Row>(out: &mut String, file: &str, kind: &str, rows: &BTreeMap<String, T>) -> Result<(), String> {
    let mut array = String::new();
    for (number, (id, row)) in rows.iter().enumerate() {
        let name = format!("{}_{number}", T::TABLE);
        let fields: Vec<Field> =
            row.fields(id).map_err(|wrong| format!("data/{file}, row {id:?}: {wrong}"))?;
        let _ = writeln!(array, "    {kind} {{");
        for field in fields {
            if let Some((item, length, list)) = field.list {
                let _ = writeln!(
                    out,
                    "static {name}_{}: [{item}; {length}] = [{list}];",
                    field.name.to_uppercase()
                );
                let _ = writeln!(
                    array,
                    "        {}: Cow::Borrowed(&{name}_{}),",
                    field.name,
                    field.name.to_uppercase()
                );
            } else {
                let _ = writeln!(array, "        {}: {},", field.name, field.value);
            }
        }
        let _ = writeln!(array, "    }},");
    }
    let _ = writeln!(out, "static {}: [{kind}; {}] = [\n{array}];\n", T::TABLE, rows.len());
    Ok(())
}

/// Why the profile of a fat does not compute to its stated values, for the few where it does not.
fn deviations(out: &mut String, fats: &BTreeMap<String, Fat>) {
    let why: Vec<_> = fats.iter().filter_map(|(id, fat)| Some((id, fat.deviation.as_ref()?))).collect();
    let _ = writeln!(out, "static DEVIATIONS: [(&str, &str); {}] = {why:?};", why.len());
}
