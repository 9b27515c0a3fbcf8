//! Reads how many tests passed and failed from what the test programs of three languages write.

use std::ops::AddAssign;

use crate::run::Ended;

/// Tests that passed and failed.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(crate) struct Count {
    pub passed: u32,
    pub failed: u32,
}

impl Count {
    /// One check without tests of its own.
    pub fn one(ok: bool) -> Self {
        if ok { Self { passed: 1, failed: 0 } } else { Self { passed: 0, failed: 1 } }
    }

    /// A program that failed without naming a failed test still counts, and so does a test program
    /// without any test.
    fn of(ended: &Ended, mut count: Self) -> Self {
        if count.failed == 0 && (!ended.ok || count.passed == 0) {
            count.failed = 1;
        }
        count
    }

    /// `cargo test`: "test result: ok. 12 passed; 0 failed; ...".
    pub fn cargo(ended: &Ended) -> Self {
        let mut sum = Self::default();
        for line in ended.text.lines().filter(|line| line.starts_with("test result:")) {
            sum.passed += before(line, " passed");
            sum.failed += before(line, " failed");
        }
        // Criterion, when it only tries its benches.
        let tried = ended.text.lines().filter(|line| line.starts_with("Testing "));
        sum.passed += u32::try_from(tried.count()).unwrap_or(u32::MAX);
        Self::of(ended, sum)
    }

    /// pytest: "2 failed, 28 passed, 1 error in 0.50s".
    pub fn pytest(ended: &Ended) -> Self {
        let ends = |line: &&str| {
            line.contains(" in ") && line.trim_matches('=').ends_with(['s', ')', ' '])
        };
        let line = ended.text.lines().rev().filter(ends).find(|line| {
            [" passed", " failed", " error"].iter().any(|word| before(line, word) > 0)
        });
        let line = line.unwrap_or_default();
        let failed = before(line, " failed") + before(line, " error");
        Self::of(ended, Self { passed: before(line, " passed"), failed })
    }

    /// Node's test runner, in the TAP format: "# pass 17", "# fail 0".
    pub fn node(ended: &Ended) -> Self {
        let number = |key: &str| {
            let line = ended.text.lines().rev().find_map(|line| line.strip_prefix(key));
            line.and_then(|rest| rest.trim().parse().ok()).unwrap_or(0)
        };
        let failed = number("# fail ") + number("# cancelled ");
        Self::of(ended, Self { passed: number("# pass "), failed })
    }
}

impl AddAssign for Count {
    fn add_assign(&mut self, other: Self) {
        self.passed += other.passed;
        self.failed += other.failed;
    }
}

/// The number that stands before a word.
fn before(line: &str, word: &str) -> u32 {
    let number = line.find(word).and_then(|at| {
        line[..at]
            .rsplit(|c: char| !c.is_ascii_digit())
            .next()
            .and_then(|digits| digits.parse().ok())
    });
    number.unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ended(ok: bool, text: &str) -> Ended {
        Ended { ok, code: None, text: text.to_owned() }
    }

    #[test]
    fn adds_up_what_each_runner_writes() {
        let cargo = "test result: ok. 12 passed; 0 failed; 1 ignored\nx\ntest result: FAILED. 3 passed; 2 failed;";
        assert_eq!(Count::cargo(&ended(false, cargo)), Count { passed: 15, failed: 2 });
        for text in
            ["2 failed, 28 passed, 1 error in 0.50s", "== 2 failed, 28 passed, 1 error in 1.0s =="]
        {
            assert_eq!(
                Count::pytest(&ended(false, text)),
                Count { passed: 28, failed: 3 },
                "{text}"
            );
        }
        assert_eq!(Count::pytest(&ended(true, "..\n30 passed in 70.31s (0:01:10)")).passed, 30);
        let node = "# tests 20\n# pass 17\n# fail 2\n# cancelled 1\n";
        assert_eq!(Count::node(&ended(false, node)), Count { passed: 17, failed: 3 });
    }

    #[test]
    fn a_program_that_dies_or_tests_nothing_fails() {
        assert_eq!(Count::cargo(&ended(false, "error[E0425]")), Count { passed: 0, failed: 1 });
        assert_eq!(
            Count::pytest(&ended(true, "no tests ran in 0.01s")),
            Count { passed: 0, failed: 1 }
        );
        assert_eq!(Count::node(&ended(true, "# pass 0\n# fail 0")), Count { passed: 0, failed: 1 });
    }
}
