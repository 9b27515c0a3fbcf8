//! The stages of a run, with their times and counts.

use std::time::Instant;

use crate::count::Count;
use crate::run::Run;

/// What has been run so far.
#[derive(Debug, Default)]
pub(crate) struct Report {
    stages: Vec<(String, f64, Count)>,
    missing: Vec<String>,
}

impl Report {
    /// Runs one stage. An error is a failure of the stage, and the run goes on.
    pub fn stage(&mut self, name: &str, work: impl FnOnce() -> Result<Count, String>) -> bool {
        println!("\n== {name}");
        let start = Instant::now();
        let count = work().unwrap_or_else(|why| {
            println!("{name}: {why}");
            self.missing.push(format!("{name}: {why}"));
            Count::one(false)
        });
        self.stages.push((name.to_owned(), start.elapsed().as_secs_f64(), count));
        count.failed == 0
    }

    /// A stage that is one check: it passes or fails as a whole.
    pub fn one(&mut self, name: &str, run: Run) -> bool {
        self.stage(name, || Ok(Count::one(run.keep()?.ok)))
    }

    /// A stage that cannot run because an earlier one failed.
    pub fn cannot(&mut self, names: &[&str], because: &str) {
        for name in names {
            self.stage(name, || Err(format!("cannot run: {because} failed")));
        }
    }

    /// Prints the table, what went wrong outside of tests, and the totals as the very last line.
    pub fn finish(self) -> Result<(), String> {
        let mut total = Count::default();
        let width = self.stages.iter().map(|(name, ..)| name.len()).max().unwrap_or(0);
        println!("\n{:width$}  {:>8}  {:>7}  {:>7}", "stage", "seconds", "passed", "failed");
        for (name, seconds, count) in &self.stages {
            println!("{name:width$}  {seconds:>8.1}  {:>7}  {:>7}", count.passed, count.failed);
            total += *count;
        }
        let seconds: f64 = self.stages.iter().map(|(_, seconds, _)| seconds).sum();
        println!("{:width$}  {seconds:>8.1}", "all");
        for why in &self.missing {
            println!("! {why}");
        }
        println!("\n{} passed, {} failed", total.passed, total.failed);
        if total.failed == 0 { Ok(()) } else { std::process::exit(1) }
    }
}
