//! Types of what comes out, from the Rust types as serde writes them.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};
use syn::{Attribute, Expr, Fields, GenericArgument, Item, Lit, Meta, PathArguments, Type};

use crate::{comment, key};

/// Types of one number with its unit, written as text; a macro makes them.
const QUANTITIES: &[&str] = &[
    "Mass",
    "Volume",
    "Length",
    "Temperature",
    "Share",
    "SaponificationValue",
    "IodineValue",
    "Density",
    "Energy",
    "SpecificHeat",
    "Conductivity",
    "Decimal",
    "Duration",
    "Date",
    "Moment",
    "Money",
];

enum Shape {
    Struct(syn::ItemStruct),
    Enum(syn::ItemEnum),
    /// Writes itself, as a text.
    Text(String),
}

/// The folder of a type below core/src, and its name.
type Id = (String, String);

struct Library {
    types: BTreeMap<Id, Shape>,
    /// Where the files of a folder say that a name comes from: (folder, name) to folder.
    uses: BTreeMap<Id, String>,
}

/// The types of `roots`, each `folder::Name`, and of all they are made of. `taken` are names that are not free.
pub(crate) fn types(src: &Path, roots: &[&str], taken: Vec<String>) -> Result<String> {
    let mut library = Library { types: BTreeMap::new(), uses: BTreeMap::new() };
    let mut files = Vec::new();
    walk(src, &mut files)?;
    for file in files {
        library.read(src, &file).with_context(|| file.display().to_string())?;
    }
    // Everything that can be reached, in the order of the roots.
    let mut order: Vec<Id> = Vec::new();
    let mut waiting: Vec<Id> = Vec::new();
    for root in roots.iter().rev() {
        let (folder, name) = root.split_once("::").context("a root is folder::Name")?;
        waiting.push((folder.to_owned(), name.to_owned()));
    }
    while let Some(id) = waiting.pop() {
        if order.contains(&id) {
            continue;
        }
        let shape = library.types.get(&id).with_context(|| format!("no type {}::{}", id.0, id.1))?;
        let mut needed = Vec::new();
        library.needs(&id.0, shape, &mut needed);
        order.push(id);
        waiting.extend(needed.into_iter().rev());
    }
    let names = names(&order, roots, &taken);
    let mut out = String::new();
    for name in QUANTITIES {
        let used = order.iter().any(|id| library.mentions(id, name));
        if used {
            out.push_str(&format!(
                "\n/** A number with its unit, written as text. */\nexport type {name} = string;\n"
            ));
        }
    }
    let writer = Writer { library: &library, names: &names };
    for id in &order {
        out.push_str(&writer.written(id)?);
    }
    Ok(out)
}

fn walk(folder: &Path, files: &mut Vec<PathBuf>) -> Result<()> {
    let mut entries: Vec<PathBuf> =
        std::fs::read_dir(folder)?.map(|entry| Ok(entry?.path())).collect::<Result<_>>()?;
    entries.sort();
    for path in entries {
        if path.is_dir() {
            walk(&path, files)?;
        } else if path.extension().is_some_and(|is| is == "rs") {
            files.push(path);
        }
    }
    Ok(())
}

/// Two types of one name are told apart by their folders; what is handed out has its own.
fn names(order: &[Id], roots: &[&str], taken: &[String]) -> BTreeMap<Id, String> {
    let mut names = BTreeMap::new();
    let is_root = |id: &&Id| roots.contains(&format!("{}::{}", id.0, id.1).as_str());
    let (first, then): (Vec<&Id>, Vec<&Id>) = order.iter().partition(is_root);
    let mut used: BTreeSet<String> = taken.iter().cloned().collect();
    used.extend(QUANTITIES.iter().map(|name| (*name).to_owned()));
    for id in first.into_iter().chain(then) {
        let (folder, name) = id;
        let mut free = name.clone();
        if used.contains(&free) {
            let mut letters = folder.chars();
            let first: String = letters.next().into_iter().flat_map(char::to_uppercase).collect();
            free = format!("{first}{}{name}", letters.as_str());
        }
        used.insert(free.clone());
        names.insert(id.clone(), free);
    }
    names
}

impl Library {
    fn read(&mut self, src: &Path, file: &Path) -> Result<()> {
        let below = file.strip_prefix(src)?;
        let first = below.components().next().context("no path")?.as_os_str().to_string_lossy().into_owned();
        let folder = first.trim_end_matches(".rs").to_owned();
        for item in syn::parse_file(&std::fs::read_to_string(file)?)?.items {
            match item {
                Item::Struct(item) if derives(&item.attrs) => {
                    self.types.insert((folder.clone(), item.ident.to_string()), Shape::Struct(item));
                }
                Item::Enum(item) if derives(&item.attrs) => {
                    self.types.insert((folder.clone(), item.ident.to_string()), Shape::Enum(item));
                }
                Item::Use(item) => self.uses(&folder, &item.tree, None),
                Item::Struct(item) => self.text(&folder, item.ident.to_string(), &item.attrs),
                Item::Enum(item) => self.text(&folder, item.ident.to_string(), &item.attrs),
                _ => {}
            }
        }
        Ok(())
    }

    fn text(&mut self, folder: &str, name: String, attrs: &[Attribute]) {
        self.types.entry((folder.to_owned(), name)).or_insert_with(|| Shape::Text(doc(attrs)));
    }

    /// Notes what a file takes from another folder: `use crate::material::{Basis, ..}`.
    fn uses(&mut self, folder: &str, tree: &syn::UseTree, from: Option<&str>) {
        match tree {
            syn::UseTree::Path(path) => {
                let name = path.ident.to_string();
                let from = match from {
                    None if name == "crate" => Some(""),
                    None => return,
                    Some("") => Some(name.as_str()),
                    Some(from) => Some(from),
                };
                self.uses(folder, &path.tree, from);
            }
            syn::UseTree::Group(group) => group.items.iter().for_each(|tree| self.uses(folder, tree, from)),
            syn::UseTree::Name(name) => {
                if let Some(from) = from {
                    self.uses.insert((folder.to_owned(), name.ident.to_string()), from.to_owned());
                }
            }
            syn::UseTree::Rename(_) | syn::UseTree::Glob(_) => {}
        }
    }

    /// The type that a name means inside a folder.
    fn find(&self, folder: &str, name: &str) -> Option<Id> {
        let own = (folder.to_owned(), name.to_owned());
        if self.types.contains_key(&own) {
            return Some(own);
        }
        if let Some(from) = self.uses.get(&own) {
            let there = (from.clone(), name.to_owned());
            if self.types.contains_key(&there) {
                return Some(there);
            }
        }
        let written = |id: &&Id| !matches!(self.types.get(*id), Some(Shape::Text(_)) | None);
        let all: Vec<&Id> = self.types.keys().filter(|id| id.1 == name).collect();
        all.iter().copied().find(written).or(all.first().copied()).cloned()
    }

    fn needs(&self, folder: &str, shape: &Shape, out: &mut Vec<Id>) {
        let mut add = |fields: &Fields| {
            for field in fields.iter().filter(|field| !serde(&field.attrs).contains_key("skip")) {
                self.named(folder, &field.ty, out);
            }
        };
        match shape {
            Shape::Struct(item) => add(&item.fields),
            Shape::Enum(item) => item.variants.iter().for_each(|variant| add(&variant.fields)),
            Shape::Text(_) => {}
        }
    }

    fn named(&self, folder: &str, ty: &Type, out: &mut Vec<Id>) {
        match ty {
            Type::Path(path) => {
                let Some(segment) = path.path.segments.last() else { return };
                let name = segment.ident.to_string();
                if !QUANTITIES.contains(&name.as_str()) {
                    out.extend(self.find(folder, &name));
                }
                if let PathArguments::AngleBracketed(arguments) = &segment.arguments {
                    for argument in &arguments.args {
                        if let GenericArgument::Type(ty) = argument {
                            self.named(folder, ty, out);
                        }
                    }
                }
            }
            Type::Reference(reference) => self.named(folder, &reference.elem, out),
            Type::Slice(slice) => self.named(folder, &slice.elem, out),
            Type::Array(array) => self.named(folder, &array.elem, out),
            Type::Tuple(tuple) => tuple.elems.iter().for_each(|ty| self.named(folder, ty, out)),
            _ => {}
        }
    }

    fn mentions(&self, id: &Id, name: &str) -> bool {
        fn in_type(ty: &Type, name: &str) -> bool {
            match ty {
                Type::Path(path) => path.path.segments.iter().any(|segment| {
                    segment.ident == name
                        || matches!(&segment.arguments, PathArguments::AngleBracketed(arguments)
                            if arguments.args.iter().any(|argument| matches!(argument, GenericArgument::Type(ty) if in_type(ty, name))))
                }),
                Type::Reference(reference) => in_type(&reference.elem, name),
                Type::Slice(slice) => in_type(&slice.elem, name),
                Type::Array(array) => in_type(&array.elem, name),
                Type::Tuple(tuple) => tuple.elems.iter().any(|ty| in_type(ty, name)),
                _ => false,
            }
        }
        let of = |fields: &Fields| fields.iter().any(|field| in_type(&field.ty, name));
        match self.types.get(id) {
            Some(Shape::Struct(item)) => of(&item.fields),
            Some(Shape::Enum(item)) => item.variants.iter().any(|variant| of(&variant.fields)),
            _ => false,
        }
    }
}

struct Writer<'l> {
    library: &'l Library,
    names: &'l BTreeMap<Id, String>,
}

impl Writer<'_> {
    fn written(&self, id: &Id) -> Result<String> {
        let name = self.names.get(id).context("no name")?;
        let shape = self.library.types.get(id).context("no type")?;
        Ok(match shape {
            Shape::Text(doc) => format!("\n{}export type {name} = string;\n", comment(doc, "")),
            Shape::Struct(item) => {
                let generics: Vec<String> =
                    item.generics.type_params().map(|param| param.ident.to_string()).collect();
                let generics =
                    if generics.is_empty() { String::new() } else { format!("<{}>", generics.join(", ")) };
                let rules = serde(&item.attrs);
                let head = comment(&doc(&item.attrs), "");
                match &item.fields {
                    Fields::Named(_) => {
                        let body = self.fields(
                            &id.0,
                            &item.fields,
                            rules.get("rename_all").map(String::as_str),
                            "  ",
                        )?;
                        format!("\n{head}export interface {name}{generics} {{\n{body}}}\n")
                    }
                    Fields::Unnamed(fields) => {
                        let kinds: Vec<String> = fields
                            .unnamed
                            .iter()
                            .map(|field| self.kind(&id.0, &field.ty))
                            .collect::<Result<_>>()?;
                        let kind =
                            if kinds.len() == 1 { kinds.concat() } else { format!("[{}]", kinds.join(", ")) };
                        format!("\n{head}export type {name}{generics} = {kind};\n")
                    }
                    Fields::Unit => format!("\n{head}export type {name} = null;\n"),
                }
            }
            Shape::Enum(item) => self.enumeration(id, name, item)?,
        })
    }

    fn enumeration(&self, id: &Id, name: &str, item: &syn::ItemEnum) -> Result<String> {
        let rules = serde(&item.attrs);
        let generics: Vec<String> =
            item.generics.type_params().map(|param| param.ident.to_string()).collect();
        let generics = if generics.is_empty() { String::new() } else { format!("<{}>", generics.join(", ")) };
        let mut out = format!("\n{}export type {name}{generics} =", comment(&doc(&item.attrs), ""));
        for variant in &item.variants {
            let own = serde(&variant.attrs);
            let word = own.get("rename").cloned().unwrap_or_else(|| {
                cased(&variant.ident.to_string(), rules.get("rename_all").map(String::as_str))
            });
            let word = format!("{word:?}");
            let fields = || {
                self.fields(&id.0, &variant.fields, rules.get("rename_all_fields").map(String::as_str), "")
            };
            let content = match &variant.fields {
                Fields::Unit => None,
                Fields::Named(_) => Some(format!("{{ {} }}", inline(&fields()?))),
                Fields::Unnamed(list) => {
                    let kinds: Vec<String> = list
                        .unnamed
                        .iter()
                        .map(|field| self.kind(&id.0, &field.ty))
                        .collect::<Result<_>>()?;
                    Some(if kinds.len() == 1 { kinds.concat() } else { format!("[{}]", kinds.join(", ")) })
                }
            };
            let kind = match (rules.get("tag"), rules.get("content"), content) {
                (None, _, None) => word,
                (None, _, Some(content)) => format!("{{ {}: {content} }}", word),
                (Some(tag), _, None) => format!("{{ {}: {word} }}", key(tag)),
                (Some(tag), None, Some(content)) => format!("{{ {}: {word} }} & {content}", key(tag)),
                (Some(tag), Some(inside), Some(content)) => {
                    format!("{{ {}: {word}; {}: {content} }}", key(tag), key(inside))
                }
            };
            out.push_str(&format!("\n{}  | {kind}", comment(&doc(&variant.attrs), "  ")));
        }
        out.push_str(";\n");
        Ok(out)
    }

    fn fields(&self, folder: &str, fields: &Fields, case: Option<&str>, indent: &str) -> Result<String> {
        let mut out = String::new();
        for field in fields {
            let rules = serde(&field.attrs);
            if rules.contains_key("skip") {
                continue;
            }
            let ident = field.ident.as_ref().context("no name")?.to_string();
            let name = rules.get("rename").cloned().unwrap_or_else(|| cased(&ident, case));
            let may = if rules.contains_key("skip_serializing_if") { "?" } else { "" };
            let kind = self.kind(folder, &field.ty)?;
            out.push_str(&format!(
                "{}{indent}{}{may}: {kind};\n",
                comment(&doc(&field.attrs), indent),
                key(&name)
            ));
        }
        Ok(out)
    }

    fn kind(&self, folder: &str, ty: &Type) -> Result<String> {
        Ok(match ty {
            Type::Reference(reference) => self.kind(folder, &reference.elem)?,
            Type::Slice(slice) => list(&self.kind(folder, &slice.elem)?),
            Type::Array(array) => list(&self.kind(folder, &array.elem)?),
            Type::Tuple(tuple) => {
                let kinds: Vec<String> =
                    tuple.elems.iter().map(|ty| self.kind(folder, ty)).collect::<Result<_>>()?;
                format!("[{}]", kinds.join(", "))
            }
            Type::Path(path) => {
                let segment = path.path.segments.last().context("an empty path")?;
                let mut of = Vec::new();
                if let PathArguments::AngleBracketed(arguments) = &segment.arguments {
                    for argument in &arguments.args {
                        if let GenericArgument::Type(ty) = argument {
                            of.push(self.kind(folder, ty)?);
                        }
                    }
                }
                self.path(folder, &segment.ident.to_string(), &of)
            }
            _ => bail!("a type that is not known here"),
        })
    }

    fn path(&self, folder: &str, name: &str, of: &[String]) -> String {
        let first = || of.first().cloned().unwrap_or_else(|| "unknown".to_owned());
        match name {
            "String" | "str" | "char" => "string".to_owned(),
            "u8" | "u16" | "u32" | "u64" | "usize" | "i8" | "i16" | "i32" | "i64" | "isize" | "f32"
            | "f64" => "number".to_owned(),
            "bool" => "boolean".to_owned(),
            "Cow" | "Box" => first(),
            "Vec" => list(&first()),
            "Option" => format!("{} | null", first()),
            "BTreeMap" => format!("Record<string, {}>", of.get(1).cloned().unwrap_or_else(first)),
            _ => {
                let found = self.library.find(folder, name).and_then(|id| self.names.get(&id));
                let name = found.map_or(name, String::as_str);
                if of.is_empty() { name.to_owned() } else { format!("{name}<{}>", of.join(", ")) }
            }
        }
    }
}

fn list(kind: &str) -> String {
    if kind.contains([' ', '|']) && !kind.starts_with('[') {
        format!("({kind})[]")
    } else {
        format!("{kind}[]")
    }
}

/// Fields of a variant on one line, without their documentation.
fn inline(fields: &str) -> String {
    let lines = fields.lines().filter(|line| !line.trim_start().starts_with(['/', '*']));
    lines.collect::<Vec<_>>().join(" ")
}

fn derives(attrs: &[Attribute]) -> bool {
    let mut found = false;
    for attr in attrs.iter().filter(|attr| attr.path().is_ident("derive")) {
        let _ = attr.parse_nested_meta(|meta| {
            found |= meta.path.is_ident("Serialize");
            Ok(())
        });
    }
    found
}

/// The rules of serde on an item: `rename = "for"`; a bare word stands for itself.
fn serde(attrs: &[Attribute]) -> BTreeMap<String, String> {
    let mut rules = BTreeMap::new();
    for attr in attrs.iter().filter(|attr| attr.path().is_ident("serde")) {
        let _ = attr.parse_nested_meta(|meta| {
            let name = meta.path.get_ident().map(ToString::to_string).unwrap_or_default();
            let value = meta.value().and_then(syn::parse::ParseBuffer::parse::<syn::LitStr>);
            rules.insert(name, value.map(|value| value.value()).unwrap_or_default());
            Ok(())
        });
    }
    rules
}

/// The documentation, without its examples and its headings of Rust.
fn doc(attrs: &[Attribute]) -> String {
    let mut lines = Vec::new();
    for attr in attrs.iter().filter(|attr| attr.path().is_ident("doc")) {
        if let Meta::NameValue(pair) = &attr.meta
            && let Expr::Lit(literal) = &pair.value
            && let Lit::Str(text) = &literal.lit
        {
            lines.push(text.value().trim().to_owned());
        }
    }
    let end = lines.iter().position(|line| line.starts_with("```") || line.starts_with("# "));
    lines.truncate(end.unwrap_or(lines.len()));
    let text = lines.join("\n");
    // Links of rustdoc: only their words.
    let mut out = String::with_capacity(text.len());
    let mut rest = text.as_str();
    while let Some((before, after)) = rest.split_once('[') {
        out.push_str(before);
        match after.split_once(']') {
            Some((words, after)) if words.starts_with('`') || after.starts_with('(') => {
                out.push_str(words);
                rest = match after.strip_prefix('(').and_then(|inside| inside.split_once(')')) {
                    Some((_, after)) => after,
                    None => after,
                };
            }
            _ => {
                out.push('[');
                rest = after;
            }
        }
    }
    out.push_str(rest);
    out.trim().to_owned()
}

/// A name of Rust in the case that serde writes it in.
fn cased(name: &str, case: Option<&str>) -> String {
    let separator = match case {
        Some("kebab-case") => '-',
        Some("snake_case") => '_',
        Some("lowercase") => return name.to_lowercase(),
        _ => return name.to_owned(),
    };
    let mut out = String::new();
    for (index, letter) in name.chars().enumerate() {
        if letter == '_' {
            out.push(separator);
        } else {
            if letter.is_uppercase() && index > 0 {
                out.push(separator);
            }
            out.extend(letter.to_lowercase());
        }
    }
    out
}
