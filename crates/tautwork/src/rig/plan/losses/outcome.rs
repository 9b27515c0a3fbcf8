//! From numbers to an outcome in plain words.

use crate::quantity::{Force, Length, Quantity, Ratio, show};
use crate::rig::plan::result::{LossOutcome, LossResult};

/// What is left after a loss.
#[derive(Debug, Default)]
pub(super) struct Left {
    /// Least factor, and where.
    pub weakest: Option<(f64, String)>,
    pub body_force: Option<Force>,
    /// Wall, clearance less the survey error, and what is left of it beyond the requirement, m.
    pub tightest: Option<(String, f64, f64)>,
    pub contact: Option<String>,
    /// What is left of the clearance at that wall without the loss, m.
    pub whole_spare: Option<f64>,
}

/// A difference of clearance that nobody can rig, m.
const SAME_M: f64 = 0.05;

/// The rigger's limits.
#[derive(Debug, Clone, Copy)]
pub(super) struct Limits {
    pub factor: Ratio,
    pub body_force: Force,
}

impl Left {
    pub fn weaker(&mut self, factor: f64, at: String) {
        if self.weakest.as_ref().is_none_or(|(least, _)| factor < *least) {
            self.weakest = Some((factor, at));
        }
    }

    /// The outcome, the worst of all that is missed, and the verdict, which names everything that is.
    pub fn judge(&self, limits: Limits) -> (LossOutcome, String) {
        let required = limits.factor.si();
        let mut outcome = LossOutcome::Held;
        let mut words = Vec::new();
        let mut say = |what: LossOutcome, text: String| {
            outcome = outcome.max(what);
            words.push(text);
        };
        if let Some(contact) = &self.contact {
            say(LossOutcome::Hits, contact.clone());
        } else if let Some((wall, _, spare)) = &self.tightest
            && *spare < 0.0
        {
            let missing = show(Length::from_si(-spare), "m", 2);
            let anyway = self.whole_spare.is_some_and(|whole| (spare - whole).abs() < SAME_M);
            let anyway = if anyway { ", as without the loss" } else { "" };
            say(
                LossOutcome::Short,
                format!("short by {missing} of clearance at the {wall}{anyway}"),
            );
        }
        match &self.weakest {
            Some((factor, at)) if *factor < 1.0 => say(
                LossOutcome::Breaks,
                format!(
                    "{at} is loaded past its derated strength, factor {factor:.2}: what follows is not solved"
                ),
            ),
            Some((factor, at)) if *factor < required => {
                let by = required - factor;
                say(
                    LossOutcome::Short,
                    format!(
                        "short by {by:.2}: factor {factor:.2} of the required {required:.2} at {at}"
                    ),
                );
            }
            _ => {}
        }
        if let Some(body) = self.body_force
            && body > limits.body_force
        {
            let over = show(body - limits.body_force, "kN", 2);
            say(LossOutcome::Short, format!("short by {over}: force on the body over the limit"));
        }
        if words.is_empty() {
            words.push(match &self.weakest {
                Some((factor, _)) if *factor >= 1e6 => {
                    "held: nothing that is left carries anything".to_owned()
                }
                Some((factor, _)) => {
                    format!("held with factor {factor:.2} of the required {required:.2}")
                }
                None => "held; nothing that is left has a rating".to_owned(),
            });
        }
        (outcome, words.join("; "))
    }

    /// Puts all of it into a result.
    pub fn into_result(self, result: &mut LossResult, limits: Limits) {
        (result.outcome, result.verdict) = self.judge(limits);
        result.body_force = self.body_force;
        if let Some((factor, at)) = self.weakest {
            (result.factor, result.weakest) = (Some(Ratio::from_si(factor)), Some(at));
        }
        if let Some((wall, left, _)) = self.tightest {
            (result.clearance, result.wall) = (Some(Length::from_si(left)), Some(wall));
        }
    }
}

/// A result of which nothing but its words is known.
pub(super) fn bare(state: &str, outcome: LossOutcome, verdict: impl Into<String>) -> LossResult {
    LossResult {
        state: state.to_owned(),
        carries: None,
        takes_load: None,
        extension: None,
        body_lower: None,
        body_force: None,
        factor: None,
        weakest: None,
        clearance: None,
        wall: None,
        outcome,
        verdict: verdict.into(),
        slow_lines: Vec::new(),
        notes: Vec::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Words;

    #[test]
    fn words_match_the_numbers() {
        let limits = Limits { factor: 3.0.ratio(), body_force: 5.0.kilonewtons() };
        let left = |factor: f64, spare: f64, body: f64| Left {
            weakest: Some((factor, "main, near end".to_owned())),
            body_force: Some(body.kilonewtons()),
            tightest: Some(("floor".to_owned(), spare + 4.0, spare)),
            contact: None,
            whole_spare: None,
        };
        let (outcome, words) = left(3.2, 0.5, 4.0).judge(limits);
        assert_eq!(
            (outcome, words.as_str()),
            (LossOutcome::Held, "held with factor 3.20 of the required 3.00")
        );
        let (outcome, words) = left(2.6, -1.4, 5.5).judge(limits);
        assert_eq!(outcome, LossOutcome::Short);
        for part in [
            "short by 1.40 m of clearance at the floor",
            "short by 0.40: factor 2.60",
            "short by 0.50 kN",
        ] {
            assert!(words.contains(part), "{words}");
        }
        let same = Left { whole_spare: Some(-1.41), ..left(3.2, -1.4, 4.0) };
        assert!(same.judge(limits).1.ends_with("floor, as without the loss"));
        assert_eq!(left(0.9, 1.0, 1.0).judge(limits).0, LossOutcome::Breaks);
        let hits =
            Left { contact: Some("hits the floor at 9 m/s".to_owned()), ..left(0.9, -1.0, 1.0) };
        let (outcome, words) = hits.judge(limits);
        assert!(
            outcome == LossOutcome::Hits
                && words.contains("hits the floor")
                && words.contains("past its")
        );
        assert!(!LossOutcome::Held.falls_short() && LossOutcome::NoAnswer.falls_short());
    }
}
