//! `lamella-bindgen module.wasm folder`: writes the module and its JavaScript and TypeScript into the folder.

use std::env::args_os;

use anyhow::{Context, Result};
use wasm_bindgen_cli_support::Bindgen;

fn main() -> Result<()> {
    let (Some(module), Some(folder)) = (args_os().nth(1), args_os().nth(2)) else {
        anyhow::bail!("usage: lamella-bindgen module.wasm folder");
    };
    let mut bindgen = Bindgen::new();
    bindgen.input_path(module).web(true)?.typescript(true);
    bindgen.generate(folder).context("the bindings cannot be written")
}
