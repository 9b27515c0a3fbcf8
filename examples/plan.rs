//! Plans a rig document and prints the plan.
//!
//! `cargo run --release --example plan -- [DOCUMENT] [--json] [--html FILE] [--markdown FILE]
//! [--store CSV]`: the demo rig unless a document is given; a store is held against the kit. Writes the pictures beside the document as SVG, and the report to the
//! files named. Exit code: 0 solved and within the limits, 1 a check falls short, 2 the document is wrong
//! or cannot be solved.
#![allow(clippy::print_stdout)]

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use tautwork::rig;

fn main() -> ExitCode {
    match run() {
        Ok(0) => ExitCode::SUCCESS,
        Ok(_) => ExitCode::from(1),
        Err(message) => {
            eprintln!("{message}");
            ExitCode::from(2)
        }
    }
}

const OPTIONS: &str = "[DOCUMENT] [--json] [--html FILE] [--markdown FILE] [--store CSV]";

/// Prints the plan; the number of checks that fall short.
fn run() -> Result<usize, String> {
    let (mut document, mut json, mut files) = (None, false, Vec::new());
    let mut arguments = std::env::args().skip(1);
    while let Some(argument) = arguments.next() {
        match argument.as_str() {
            "--json" => json = true,
            "--html" | "--markdown" | "--store" => {
                let file =
                    arguments.next().ok_or(format!("{argument} needs the name of a file"))?;
                files.push((argument, file));
            }
            "--help" | "-h" => return Err(format!("usage: plan {OPTIONS}")),
            flag if flag.starts_with('-') => {
                return Err(format!("{flag} is not an option; plan {OPTIONS}"));
            }
            path if document.is_none() => document = Some(PathBuf::from(path)),
            extra => return Err(format!("one document at a time; {extra} is a second one")),
        }
    }
    let demo = || Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/kestrel-gap.toml");
    let path = document.unwrap_or_else(demo);
    let text = std::fs::read_to_string(&path).map_err(|e| format!("{}: {e}", path.display()))?;
    let rig = rig::parse(&text).map_err(|e| format!("{}: {e}", path.display()))?;
    let plan = rig::plan(&rig).map_err(|e| format!("{}: {e}", path.display()))?;
    let mut report = rig::Report::from(&plan);
    for (_, file) in files.iter().filter(|(format, _)| format == "--store") {
        let text = std::fs::read_to_string(file).map_err(|e| format!("{file}: {e}"))?;
        let check = rig::kit_check(&plan.kit, &text).map_err(|e| format!("{file}: {e}"))?;
        let after = report.tables.iter().position(|table| table.key == "bags").map_or(0, |i| i + 1);
        report.tables.splice(after..after, check.tables);
    }
    for (format, file) in files.iter().filter(|(format, _)| format != "--store") {
        let html = format == "--html";
        let format = if html { rig::ReportFormat::Html } else { rig::ReportFormat::Markdown };
        let text = rig::report_text(&report, format);
        std::fs::write(file, text).map_err(|e| format!("{file}: {e}"))?;
    }
    if json {
        let text = serde_json::to_string_pretty(&plan).map_err(|e| e.to_string())?;
        println!("{text}");
        return Ok(plan.checks.short());
    }
    println!("{}", rig::report_text(&report, rig::ReportFormat::Text));
    let pictures = [("side-view", &plan.pictures.side_view), ("force", &plan.pictures.force)];
    for (name, svg) in pictures.into_iter().chain(plan.pictures.haul.as_ref().map(|h| ("haul", h)))
    {
        let file = path.with_extension(format!("{name}.svg"));
        match std::fs::write(&file, svg) {
            Ok(()) => println!("picture: {}", file.display()),
            // A plan on a read-only disk is still a plan.
            Err(e) => println!("picture not written: {}: {e}", file.display()),
        }
    }
    Ok(plan.checks.short())
}
