//! The C header: generated from the crate, compared byte for byte, and compiled by C and C++ alike.

use std::process::Command;

use lamella_tests::{compare, root, run, scratch};

#[test]
fn the_header_is_that_of_the_crate() {
    let folder = root().join("ffi");
    let mut config = cbindgen::Config::from_file(folder.join("cbindgen.toml")).unwrap();
    let more = config.after_includes.take().unwrap_or_default();
    config.after_includes = Some(format!(
        "\n/* Version of the library that this header belongs to. */\n#define LAMELLA_VERSION \"{}\"\n{more}",
        lamella::VERSION
    ));
    let bindings = cbindgen::generate_with_config(&folder, config).unwrap();
    let mut header = Vec::new();
    bindings.write(&mut header);
    // A heading of rustdoc is no heading in C.
    let header =
        String::from_utf8(header).unwrap().replace(" * # Safety\n", " * What the caller vouches for:\n");
    compare(&folder.join("include/lamella.h"), &header);
}

/// As the strictest caller would compile it.
#[test]
fn every_standard_compiles_it() {
    let folder = scratch("header");
    let include = root().join("ffi/include");
    let compilers = [
        ("cc", "c", "c99", "header.c"),
        ("cc", "c", "c11", "header.c"),
        ("c++", "c++", "c++17", "header.cpp"),
    ];
    for (compiler, language, standard, file) in compilers {
        let source = folder.join(file);
        std::fs::write(&source, "#include <lamella.h>\n#include <lamella.h>\nint main(void) { return 0; }\n")
            .unwrap();
        run(Command::new(compiler)
            .args(["-x", language, &format!("-std={standard}")])
            .args(["-Wall", "-Wextra", "-pedantic", "-Werror", "-fsyntax-only", "-I"])
            .arg(&include)
            .arg(&source));
    }
}
