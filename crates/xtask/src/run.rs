//! Runs a program, shows its output and keeps it.

use std::ffi::OsStr;
use std::io::{BufRead, BufReader, Read};
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::{Arc, Mutex};
use std::thread;

use crate::files::root;

/// A program to run, in the root of the workspace unless told otherwise.
#[derive(Debug)]
pub(crate) struct Run(Command);

/// How it ended and all it wrote.
#[derive(Debug)]
pub(crate) struct Ended {
    pub ok: bool,
    /// None if a signal ended it.
    pub code: Option<i32>,
    pub text: String,
}

impl Run {
    pub fn new(program: impl AsRef<OsStr>) -> Self {
        let mut command = Command::new(program);
        command.current_dir(root()).stdin(Stdio::null());
        // Cargo points this at the libraries of its own compiler, which may not be the one we run.
        command.env_remove("LD_LIBRARY_PATH");
        Self(command)
    }

    /// Cargo as it runs this program, with the lock file as it is.
    pub fn cargo(words: &str) -> Self {
        Self::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into())).words(words)
    }

    /// Arguments without blanks in them, in one text.
    pub fn words(mut self, words: &str) -> Self {
        self.0.args(words.split_whitespace());
        self
    }

    pub fn arg(mut self, arg: impl AsRef<OsStr>) -> Self {
        self.0.arg(arg);
        self
    }

    pub fn env(mut self, key: &str, value: impl AsRef<OsStr>) -> Self {
        self.0.env(key, value);
        self
    }

    pub fn within(mut self, folder: impl AsRef<Path>) -> Self {
        self.0.current_dir(folder);
        self
    }

    /// Runs it; its output is shown as it comes, and kept.
    pub fn keep(mut self) -> Result<Ended, String> {
        println!("$ {}", shown(&self.0));
        let mut child = self
            .0
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .map_err(|error| format!("{}: {error}", shown(&self.0)))?;
        let text = Arc::new(Mutex::new(String::new()));
        let out = child.stdout.take().map(|stream| follow(stream, &text));
        let err = child.stderr.take().map(|stream| follow(stream, &text));
        for reader in out.into_iter().chain(err) {
            let _ = reader.join();
        }
        let code = child.wait().ok().and_then(|status| status.code());
        let text = text.lock().map(|text| text.clone()).unwrap_or_default();
        Ok(Ended { ok: code == Some(0), code, text })
    }

    /// Runs it; anything but success is an error.
    pub fn succeed(self) -> Result<String, String> {
        let name = shown(&self.0);
        let ended = self.keep()?;
        if ended.ok { Ok(ended.text) } else { Err(format!("failed: {name}")) }
    }

    /// What it writes to its standard output, without showing anything; none if it fails.
    pub fn ask(mut self) -> Option<String> {
        let output = self.0.output().ok()?;
        output.status.success().then(|| String::from_utf8_lossy(&output.stdout).trim().to_owned())
    }

    /// Hands the terminal over until it ends.
    pub fn hand_over(mut self) -> Result<(), String> {
        let status = self.0.status().map_err(|error| format!("{}: {error}", shown(&self.0)))?;
        if status.success() { Ok(()) } else { Err(format!("failed: {}", shown(&self.0))) }
    }
}

fn follow(stream: impl Read + Send + 'static, text: &Arc<Mutex<String>>) -> thread::JoinHandle<()> {
    let text = Arc::clone(text);
    thread::spawn(move || {
        // Lines that are not UTF-8 are shown as well as they can be.
        for line in BufReader::new(stream).split(b'\n').map_while(Result::ok) {
            let line = String::from_utf8_lossy(&line).into_owned();
            println!("{line}");
            if let Ok(mut text) = text.lock() {
                text.push_str(&line);
                text.push('\n');
            }
        }
    })
}

fn shown(command: &Command) -> String {
    let program = Path::new(command.get_program()).file_name().unwrap_or_default();
    let words = std::iter::once(program).chain(command.get_args());
    words.map(OsStr::to_string_lossy).collect::<Vec<_>>().join(" ")
}
