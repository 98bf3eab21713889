//! Programs in C and C++, compiled against the library that a test was built with.

use std::collections::BTreeMap;
use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::{Mutex, PoisonError};

use crate::{binaries, root, run, scratch};

/// How a program gets the library.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[expect(clippy::exhaustive_enums, reason = "the tests name each of them")]
pub enum Link {
    /// Shared.
    Shared,
    /// Static.
    Static,
    /// Shared, with the address and undefined-behaviour sanitizers in the C code.
    Sanitized,
}

/// What is compiled already.
static PROGRAMS: Mutex<BTreeMap<(PathBuf, Link), PathBuf>> = Mutex::new(BTreeMap::new());

/// Compiles a file of the project as strictly as its users may: `.c` as C99, `.cpp` as C++17.
///
/// # Panics
/// When it does not compile without a warning.
#[must_use]
pub fn compile(source: &Path, link: Link) -> PathBuf {
    let mut programs = PROGRAMS.lock().unwrap_or_else(PoisonError::into_inner);
    programs.entry((source.to_owned(), link)).or_insert_with(|| compiled(source, link)).clone()
}

fn compiled(source: &Path, link: Link) -> PathBuf {
    let stem = source.file_stem().unwrap_or_default().to_string_lossy();
    let plus = source.extension().is_some_and(|extension| extension == "cpp");
    let program = scratch("c").join(format!(
        "{stem}-{}-{link:?}-{}",
        if plus { "cpp" } else { "c" },
        std::process::id()
    ));
    let libraries = binaries();
    let (compiler, standard) = if plus { ("c++", "-std=c++17") } else { ("cc", "-std=c99") };
    let mut command = Command::new(compiler);
    command
        .args([standard, "-Wall", "-Wextra", "-pedantic", "-Werror", "-g", "-D_POSIX_C_SOURCE=200809L", "-I"])
        .arg(root().join("ffi/include"))
        .arg(source)
        .arg("-o")
        .arg(&program);
    match link {
        Link::Static => {
            command.arg(libraries.join("liblamella_ffi.a")).args(["-lpthread", "-ldl", "-lm"]);
        }
        Link::Shared | Link::Sanitized => {
            // Before LD_LIBRARY_PATH, which cargo sets to a folder that may have the library of another build.
            let mut search = OsString::from("-Wl,--disable-new-dtags,-rpath,");
            search.push(&libraries);
            command.arg("-L").arg(&libraries).args(["-llamella_ffi", "-lpthread"]).arg(search);
        }
    }
    if link == Link::Sanitized {
        command.args(["-fsanitize=address,undefined", "-fno-sanitize-recover=all"]);
    }
    run(&mut command);
    program
}

/// A program under valgrind, which must find no error and no leak.
#[must_use]
pub fn valgrind(program: &Path) -> Command {
    let mut command = Command::new("valgrind");
    command
        .args(["-q", "--error-exitcode=9", "--leak-check=full"])
        .arg("--errors-for-leak-kinds=definite,indirect,possible")
        .arg(program);
    command
}
