//! The Python package in an environment of its own, `target/venv`.

use std::fs;
use std::path::PathBuf;

use crate::count::Count;
use crate::files::{ending, is_marked, mark, root, target, which};
use crate::run::Run;
use crate::stage::Report;
use crate::{apt, notebook};

fn folder() -> PathBuf {
    root().join("bindings/python")
}

/// A program of the environment.
pub(crate) fn tool(name: &str) -> Run {
    Run::new(target().join("venv/bin").join(name))
}

/// `cargo xtask python`.
pub(crate) fn command() -> Result<(), String> {
    let mut report = Report::default();
    if prepare(&mut report) {
        report.stage("Python tests", tests);
    }
    report.finish()
}

/// Every stage of Python.
pub(crate) fn stages(report: &mut Report) {
    let later = ["Python tests", "Python types", "Python stubs", "notebooks"];
    if !prepare(report) {
        report.cannot(&later, "the Python package");
        return;
    }
    report.stage(later[0], tests);
    let mypy = tool("python").words("-m mypy --config-file pyproject.toml python/tautwork");
    report.one(later[1], mypy.within(folder()));
    let stubs = tool("python").words("-m mypy.stubtest tautwork --mypy-config-file pyproject.toml");
    report.one(later[2], stubs.within(folder()));
    report.stage(later[3], notebook::tests);
}

fn prepare(report: &mut Report) -> bool {
    report.stage("Python environment", || environment().map(|()| Count::one(true)))
        && report.stage("Python wheel", || wheel().map(|()| Count::one(true)))
}

/// The environment with what the requirements file names, unless that is done.
fn environment() -> Result<(), String> {
    let venv = target().join("venv");
    let (stamp, pins) = (venv.join(".stamp"), folder().join("requirements.txt"));
    if is_marked(&stamp, &pins) {
        return Ok(());
    }
    // Debian has the module that makes environments in a package of its own.
    if which("python3").is_none()
        || Run::new("python3").words("-c").arg("import ensurepip").ask().is_none()
    {
        apt::install("python3 python3-venv")?;
    }
    Run::new("python3").words("-m venv --clear").arg(&venv).succeed()?;
    let pip = tool("python").words("-m pip install -q --disable-pip-version-check --no-input -r");
    pip.arg(&pins).succeed()?;
    mark(&stamp, &pins)
}

/// Builds the wheel and puts it into the environment.
fn wheel() -> Result<(), String> {
    let wheels = target().join("wheels");
    if wheels.exists() {
        fs::remove_dir_all(&wheels).map_err(|error| format!("{}: {error}", wheels.display()))?;
    }
    let build = tool("maturin").words("build --release --locked --out").arg(&wheels);
    build.env("VIRTUAL_ENV", target().join("venv")).within(folder()).succeed()?;
    let [wheel] = ending(&wheels, ".whl").try_into().map_err(|_| "no single wheel".to_owned())?;
    let pip = tool("python").words("-m pip install -q --disable-pip-version-check --no-input");
    pip.words("--no-deps --force-reinstall").arg(wheel).succeed()?;
    Ok(())
}

fn tests() -> Result<Count, String> {
    Ok(Count::pytest(&tool("python").words("-m pytest").within(folder()).keep()?))
}
