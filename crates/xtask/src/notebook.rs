//! Runs the notebooks, whose sources are Python files.

use std::fs;

use crate::count::Count;
use crate::files::{ending, root, target};
use crate::python::tool;

/// Each notebook runs from its first cell to its last and counts as one test.
pub(crate) fn tests() -> Result<Count, String> {
    let folder = target().join("notebooks");
    if folder.exists() {
        fs::remove_dir_all(&folder).map_err(|error| error.to_string())?;
    }
    fs::create_dir_all(&folder).map_err(|error| error.to_string())?;
    for source in ending(&root().join("examples/notebooks"), ".py") {
        let name = source.with_extension("ipynb");
        let notebook = folder.join(name.file_name().unwrap_or_default());
        tool("jupytext")
            .words("--quiet --to ipynb --output")
            .arg(notebook)
            .arg(source)
            .succeed()?;
    }
    let run = tool("python").words("-m pytest -q --nbmake --nbmake-timeout=300 .");
    Ok(Count::pytest(&run.within(&folder).env("MPLBACKEND", "agg").keep()?))
}
