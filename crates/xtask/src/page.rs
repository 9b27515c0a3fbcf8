//! The web page, in one folder that any web server can serve.

use std::fs;
use std::path::PathBuf;

use crate::files::{copy_folder, root, target};
use crate::run::Run;
use crate::{npm, wasm};

/// `cargo xtask page`.
pub(crate) fn command() -> Result<(), String> {
    npm::install()?;
    wasm::build()?;
    let folder = assemble()?;
    println!("the page is in {}", folder.display());
    Run::new("node").words("tests/serve.js").arg(folder).within(npm::folder()).hand_over()
}

/// Puts the page, the package and the example document into one folder.
pub(crate) fn assemble() -> Result<PathBuf, String> {
    let folder = target().join("page");
    let wrong = |error: std::io::Error| format!("{}: {error}", folder.display());
    if folder.exists() {
        fs::remove_dir_all(&folder).map_err(wrong)?;
    }
    copy_folder(&root().join("examples/web"), &folder)?;
    for part in ["js", "pkg"] {
        copy_folder(&npm::folder().join(part), &folder.join("tautwork").join(part))?;
    }
    let document = root().join("examples/kestrel-gap.toml");
    fs::copy(document, folder.join("kestrel-gap.toml")).map_err(wrong)?;
    Ok(folder)
}
