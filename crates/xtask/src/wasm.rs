//! Builds `bindings/wasm/pkg`: the module and the JavaScript that loads it.

use std::fs;
use std::path::{Path, PathBuf};

use wasm_bindgen_cli_support::Bindgen;

use crate::files::{target, which};
use crate::run::Run;
use crate::stage::Report;
use crate::{apt, npm};

const TRIPLE: &str = "wasm32-unknown-unknown";

/// Features that every browser since 2021 and Node since 16 has; output that uses more does not
/// load in Node 20.
const FEATURES: &str = "-O3 --enable-bulk-memory --enable-reference-types \
    --enable-nontrapping-float-to-int --enable-sign-ext --enable-mutable-globals --enable-multivalue";

/// `cargo xtask wasm`.
pub(crate) fn command() -> Result<(), String> {
    npm::install()?;
    build()?;
    let mut report = Report::default();
    report.one("JavaScript types", npm::types());
    report.stage("JavaScript tests", npm::tests);
    report.finish()
}

/// Compiles, binds and optimises.
pub(crate) fn build() -> Result<(), String> {
    let module = compile()?;
    let pkg = npm::folder().join("pkg");
    let wrong = |error: &dyn std::fmt::Display| format!("{}: {error}", pkg.display());
    if pkg.exists() {
        fs::remove_dir_all(&pkg).map_err(|error| wrong(&error))?;
    }
    let mut bindgen = Bindgen::new();
    bindgen.input_path(&module).out_name("tautwork").typescript(false);
    // Without the default path `init()` has nothing to load in a browser.
    bindgen.web(true).map_err(|error| wrong(&error))?.omit_default_module_path(false);
    bindgen.generate(&pkg).map_err(|error| wrong(&error))?;
    optimise(&pkg.join("tautwork_bg.wasm"))
}

fn optimise(module: &Path) -> Result<(), String> {
    let opt = Run::new("node").words("node_modules/binaryen/bin/wasm-opt").words(FEATURES);
    opt.within(npm::folder()).arg(module).arg("-o").arg(module).succeed()?;
    Ok(())
}

/// The compiled module, by the compiler at hand if it has the target, else by Debian's.
fn compile() -> Result<PathBuf, String> {
    let folder = target().join("wasm");
    let words = format!("build --locked --release -p tautwork-wasm --target {TRIPLE} --target-dir");
    if has_target() {
        Run::cargo(&words).arg(&folder).succeed()?;
    } else {
        if !has_debian() {
            apt::install("rustc-web cargo-web rust-web-src lld").map_err(|why| {
                format!(
                    "{why}, or add the target {TRIPLE} to the Rust compiler (with rustup: \
                     rustup target add {TRIPLE})"
                )
            })?;
        }
        // Debian's compiler has no built standard library for this target: it builds its own.
        let debian = Run::new("/usr/bin/cargo").words(&words).arg(&folder);
        debian
            .words("-Z build-std=std,panic_abort")
            .env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER", "wasm-ld")
            .env("RUSTC", "/usr/bin/rustc")
            .env("RUSTDOC", "/usr/bin/rustdoc")
            .env("RUSTC_BOOTSTRAP", "1")
            .succeed()?;
    }
    Ok(folder.join(TRIPLE).join("release/tautwork_wasm.wasm"))
}

fn has_target() -> bool {
    let libraries = Run::new("rustc").words("--print target-libdir --target").arg(TRIPLE).ask();
    libraries.is_some_and(|folder| {
        fs::read_dir(folder).is_ok_and(|mut entries| entries.next().is_some())
    })
}

fn has_debian() -> bool {
    let installed = |package: &str| {
        let status = Run::new("dpkg-query").words("-W -f ${Status}").arg(package).ask();
        status.is_some_and(|status| status.ends_with("ok installed"))
    };
    ["rustc-web", "cargo-web", "rust-web-src"].iter().all(|package| installed(package))
        && which("wasm-ld").is_some()
}
