//! The JavaScript half of the npm package.

use std::path::PathBuf;

use crate::count::Count;
use crate::files::{ending, is_marked, mark, root, which};
use crate::run::Run;

/// The folder of the npm package.
pub(crate) fn folder() -> PathBuf {
    root().join("bindings/wasm")
}

/// Installs what the lock file names, unless that is done.
pub(crate) fn install() -> Result<(), String> {
    if which("node").is_none() || which("npm").is_none() {
        return Err("missing: Node 20 or later, with npm".to_owned());
    }
    let stamp = folder().join("node_modules/.stamp");
    let lock = folder().join("package-lock.json");
    if !is_marked(&stamp, &lock) {
        Run::new("npm").words("ci --no-progress").within(folder()).succeed()?;
        mark(&stamp, &lock)?;
    }
    Ok(())
}

/// Checks the hand-written types.
pub(crate) fn types() -> Run {
    Run::new("node").words("node_modules/typescript/bin/tsc --noEmit --project .").within(folder())
}

/// Runs the tests in Node.
pub(crate) fn tests() -> Result<Count, String> {
    let files = ending(&folder().join("tests"), ".test.js");
    let run = Run::new("node").words("--test --test-reporter=tap").within(folder());
    Ok(Count::node(&files.into_iter().fold(run, Run::arg).keep()?))
}
