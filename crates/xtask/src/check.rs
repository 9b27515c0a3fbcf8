//! The fast loop.

use crate::count::Count;
use crate::run::Run;
use crate::stage::Report;

/// Format, lints and tests of the core and of the workspace, without the packages.
pub(crate) fn check() -> Result<(), String> {
    let mut report = Report::default();
    report.one("format", Run::cargo("fmt --all --check"));
    report.one("lints", Run::cargo("clippy --all-targets -- -D warnings"));
    report.stage("tests", || {
        Ok(Count::cargo(&Run::cargo("test --no-fail-fast --lib --tests").keep()?))
    });
    report.finish()
}
