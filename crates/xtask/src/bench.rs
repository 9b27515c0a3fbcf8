//! Times the core and, where there is one, its twin in Python.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use crate::files::{ending, root, target};
use crate::python::tool;
use crate::run::Run;

/// `cargo xtask bench`: names of benches and twins that agree make a ratio.
pub(crate) fn command() -> Result<(), String> {
    Run::cargo("bench --locked").succeed()?;
    let mut rust = BTreeMap::new();
    estimates(&target().join("criterion"), &mut rust);
    let twins = root().join("benches/python");
    tool("python").words("-m pip install -q -r").arg(twins.join("requirements.txt")).succeed()?;
    let mut python = BTreeMap::new();
    for twin in ending(&twins, ".py") {
        let text = tool("python").arg(twin).succeed()?;
        python.extend(text.lines().filter_map(seconds));
    }
    let width = rust.keys().chain(python.keys()).map(String::len).max().unwrap_or(0);
    println!("\n{:width$}  {:>10}  {:>10}  {:>7}", "bench", "Rust", "Python", "ratio");
    for (name, time) in &rust {
        let twin = python.remove(name);
        let shown = twin.map_or_else(String::new, human);
        let ratio = twin.map_or_else(String::new, |twin| format!("{:.1}", twin / time));
        println!("{name:width$}  {:>10}  {shown:>10}  {ratio:>7}", human(*time));
    }
    if python.is_empty() {
        return Ok(());
    }
    let names: Vec<_> = python.into_keys().collect();
    Err(format!("no bench in Rust for {}; run `cargo xtask python` first?", names.join(", ")))
}

/// A line `name seconds` of a twin.
fn seconds(line: &str) -> Option<(String, f64)> {
    let (name, seconds) = line.trim().rsplit_once(' ')?;
    Some((name.to_owned(), seconds.parse().ok()?))
}

/// The mean times that criterion left in this folder and its folders.
fn estimates(folder: &Path, times: &mut BTreeMap<String, f64>) {
    let read = |name: &str| -> Option<serde_json::Value> {
        serde_json::from_str(&fs::read_to_string(folder.join("new").join(name)).ok()?).ok()
    };
    if let (Some(bench), Some(estimates)) = (read("benchmark.json"), read("estimates.json")) {
        let nanoseconds = estimates["mean"]["point_estimate"].as_f64().unwrap_or(f64::NAN);
        times.insert(bench["full_id"].as_str().unwrap_or_default().to_owned(), nanoseconds * 1e-9);
    }
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        if entry.path().is_dir() {
            estimates(&entry.path(), times);
        }
    }
}

fn human(seconds: f64) -> String {
    match seconds {
        1.0.. => format!("{seconds:.2} s"),
        1e-3.. => format!("{:.2} ms", seconds * 1e3),
        1e-6.. => format!("{:.2} us", seconds * 1e6),
        _ => format!("{:.1} ns", seconds * 1e9),
    }
}
