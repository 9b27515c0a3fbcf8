//! Builds and verifies the workspace: `cargo xtask <command>`.
#![allow(clippy::print_stdout)]

mod apt;
mod bench;
mod browser;
mod check;
mod count;
mod files;
mod notebook;
mod npm;
mod page;
mod python;
mod run;
mod stage;
mod verify;
mod wasm;

use std::process::ExitCode;

const HELP: &str = "cargo xtask <command>

  check    the fast loop: format, lints, tests of the core
  verify   everything, in Rust, Python, Node and a browser; the last line gives the counts
  python   build the wheel into target/venv and test it
  wasm     build the npm package in bindings/wasm/pkg and test it
  page     build the web page in target/page and serve it on 127.0.0.1
  bench    time the core and its Python twins, with their ratios
";

fn main() -> ExitCode {
    let result = match std::env::args().nth(1).as_deref() {
        Some("check") => check::check(),
        Some("verify") => verify::verify(),
        Some("python") => python::command(),
        Some("wasm") => wasm::command(),
        Some("page") => page::command(),
        Some("bench") => bench::command(),
        _ => Err(HELP.to_owned()),
    };
    match result {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("{why}");
            ExitCode::FAILURE
        }
    }
}
