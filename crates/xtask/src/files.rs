//! Where things are, and small jobs on files.

use std::fs;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::path::{Path, PathBuf};

/// The root of the workspace.
pub(crate) fn root() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.ancestors().nth(2).unwrap_or(here).to_path_buf()
}

/// The target folder.
pub(crate) fn target() -> PathBuf {
    std::env::var_os("CARGO_TARGET_DIR").map_or_else(|| root().join("target"), PathBuf::from)
}

/// Files of a folder with this ending, in order of their names.
pub(crate) fn ending(folder: &Path, ending: &str) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).into_iter().flatten().flatten();
    let mut paths: Vec<_> = entries
        .map(|entry| entry.path())
        .filter(|path| path.to_string_lossy().ends_with(ending))
        .collect();
    paths.sort();
    paths
}

/// Where a program of the search path is.
pub(crate) fn which(program: &str) -> Option<PathBuf> {
    let paths = std::env::var_os("PATH")?;
    std::env::split_paths(&paths).map(|folder| folder.join(program)).find(|path| path.is_file())
}

/// Whether `stamp` says that this source was worked on last; [`mark`] makes it say so.
pub(crate) fn is_marked(stamp: &Path, source: &Path) -> bool {
    fs::read_to_string(stamp).is_ok_and(|text| Some(text) == digest(source))
}

/// Notes that this source has been worked on.
pub(crate) fn mark(stamp: &Path, source: &Path) -> Result<(), String> {
    let text = digest(source).ok_or_else(|| format!("{}: cannot be read", source.display()))?;
    fs::write(stamp, text).map_err(|error| format!("{}: {error}", stamp.display()))
}

fn digest(source: &Path) -> Option<String> {
    let mut hasher = DefaultHasher::new();
    fs::read(source).ok()?.hash(&mut hasher);
    Some(format!("{:016x}", hasher.finish()))
}

/// Copies the files of a folder and of its folders.
pub(crate) fn copy_folder(from: &Path, to: &Path) -> Result<(), String> {
    let wrong = |error: std::io::Error| format!("{}: {error}", from.display());
    fs::create_dir_all(to).map_err(wrong)?;
    for entry in fs::read_dir(from).map_err(wrong)? {
        let path = entry.map_err(wrong)?.path();
        let copy = to.join(path.file_name().unwrap_or_default());
        if path.is_dir() {
            copy_folder(&path, &copy)?;
        } else {
            fs::copy(&path, &copy).map_err(wrong)?;
        }
    }
    Ok(())
}
