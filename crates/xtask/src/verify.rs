//! Everything, as a fresh machine sees it.

use std::fs;

use crate::count::Count;
use crate::files::{ending, root, target};
use crate::run::Run;
use crate::stage::Report;
use crate::{browser, npm, python, wasm};

/// Runs every stage; one that fails does not stop the others.
pub(crate) fn verify() -> Result<(), String> {
    let mut report = Report::default();
    rust(&mut report);
    python::stages(&mut report);
    wasm_stages(&mut report);
    report.finish()
}

fn rust(report: &mut Report) {
    report.one("format", Run::cargo("fmt --all --check"));
    report.one("lints", Run::cargo("clippy --locked --workspace --all-targets -- -D warnings"));
    report.stage("Rust tests and benches", || {
        Ok(Count::cargo(&Run::cargo("test --locked --no-fail-fast --all-targets").keep()?))
    });
    report.stage("Rust examples in the docs", || {
        Ok(Count::cargo(&Run::cargo("test --locked --no-fail-fast --doc").keep()?))
    });
    report.stage("Rust example programs", examples);
    let docs = Run::cargo("doc --locked --workspace --no-deps");
    report.one("docs", docs.env("RUSTDOCFLAGS", "-D warnings"));
}

/// Each program in `examples` runs once. `plan` gets a copy of the demo, beside which it draws; its
/// exit code 1 says that a check falls short, as in the demo on purpose.
fn examples() -> Result<Count, String> {
    let document = target().join("kestrel-gap.toml");
    fs::copy(root().join("examples/kestrel-gap.toml"), &document)
        .map_err(|error| format!("{}: {error}", document.display()))?;
    let mut count = Count::default();
    for path in ending(&root().join("examples"), ".rs") {
        let name = path.file_stem().unwrap_or_default();
        let run = Run::cargo("run --locked --quiet --example").arg(name);
        let run = if name == "plan" { run.arg("--").arg(&document) } else { run };
        let code = run.keep()?.code;
        count += Count::one(code == Some(0) || (name == "plan" && code == Some(1)));
    }
    Ok(count)
}

fn wasm_stages(report: &mut Report) {
    let npm = report.stage("npm packages", || npm::install().map(|()| Count::one(true)));
    let later = ["JavaScript types", "JavaScript tests", "browser tests"];
    let built = report.stage("WebAssembly package", || wasm::build().map(|()| Count::one(true)));
    if !npm || !built {
        report.cannot(&later, if npm { "WebAssembly package" } else { "npm packages" });
        return;
    }
    report.one(later[0], npm::types());
    report.stage(later[1], npm::tests);
    report.stage(later[2], browser::tests);
}
