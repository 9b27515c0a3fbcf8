//! Tries the web page in a real browser.

use std::path::PathBuf;

use crate::count::Count;
use crate::files::which;
use crate::run::Run;
use crate::{apt, npm, page};

/// Runs the browser tests on the built page.
pub(crate) fn tests() -> Result<Count, String> {
    if find().is_none() {
        apt::install("chromium")?;
    }
    let browser = find().ok_or("missing: Chromium")?;
    let folder = page::assemble()?;
    let run = Run::new("node").words("--test --test-reporter=tap tests/browser.js");
    let run = run.env("BROWSER", browser).env("PAGE", folder).within(npm::folder());
    Ok(Count::node(&run.keep()?))
}

fn find() -> Option<PathBuf> {
    ["chromium", "chromium-browser"].iter().find_map(|name| which(name))
}
