//! Named rules for tension and shear at once.

use serde::{Deserialize, Serialize};

/// How tension and shear use up a bolt together.
///
/// n and v are tension and shear over their resistances.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum InteractionRule {
    /// n + v ≤ 1.
    Linear,
    /// n^(3/2) + v^(3/2) ≤ 1.
    ThreeHalves,
    /// n^(5/3) + v^(5/3) ≤ 1.
    FiveThirds,
    /// n² + v² ≤ 1.
    Quadratic,
    /// n ≤ 1, v ≤ 1, n + v ≤ 1.2.
    TriLinear,
    /// n ≤ 1, v + n / 1.4 ≤ 1.
    #[serde(rename = "en1993_1_8")]
    En199318,
    /// n ≤ 1, v ≤ 1, n + v ≤ 1.3.
    #[serde(rename = "aisc_j3_7")]
    AiscJ37,
}

/// A rule with its formula and its source.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RuleSource {
    /// Name of the rule.
    pub rule: InteractionRule,
    /// What it asks for.
    pub formula: &'static str,
    /// Where it is written.
    pub source: &'static str,
}

const RULES: &[RuleSource] = &[
    RuleSource {
        rule: InteractionRule::Linear,
        formula: "n + v <= 1",
        source: "common practice, no source",
    },
    RuleSource {
        rule: InteractionRule::ThreeHalves,
        formula: "n^(3/2) + v^(3/2) <= 1",
        source: "EN 1992-4, 7.2.3, failures other than of steel (once ETAG 001, annex C)",
    },
    RuleSource {
        rule: InteractionRule::FiveThirds,
        formula: "n^(5/3) + v^(5/3) <= 1",
        source: "ACI 318-19, R17.8",
    },
    RuleSource {
        rule: InteractionRule::Quadratic,
        formula: "n^2 + v^2 <= 1",
        source: "EN 1992-4, 7.2.3, steel governs tension and shear (once ETAG 001, annex C)",
    },
    RuleSource {
        rule: InteractionRule::TriLinear,
        formula: "n <= 1, v <= 1, n + v <= 1.2",
        source: "ACI 318-19, 17.8; EN 1992-4 has the same sum",
    },
    RuleSource {
        rule: InteractionRule::En199318,
        formula: "n <= 1, v + n / 1.4 <= 1",
        source: "EN 1993-1-8, table 3.4 (from memory)",
    },
    RuleSource {
        rule: InteractionRule::AiscJ37,
        formula: "n <= 1, v <= 1, n + v <= 1.3",
        source: "AISC 360, J3.7: F'nt = 1.3 Fnt - frv Fnt / (phi Fnv) <= Fnt",
    },
];

/// Every rule for tension and shear at once, with its formula and its source.
///
/// # Example
/// ```
/// use tautwork::anchor::{InteractionRule, interaction_rules};
/// let rules = interaction_rules();
/// assert_eq!(rules[2].source, "ACI 318-19, R17.8");
/// // A name that no rule has is refused.
/// assert!(serde_json::from_str::<InteractionRule>("\"cubic\"").is_err());
/// ```
pub fn interaction_rules() -> Vec<RuleSource> {
    RULES.to_vec()
}

impl InteractionRule {
    /// Utilisation of Eqs. (F3) to (F5). Both ratios are zero or more; grows with each, and in
    /// proportion to both.
    pub(super) fn utilisation(self, n: f64, v: f64) -> f64 {
        match self {
            Self::Linear => n + v,
            Self::ThreeHalves => power(n, v, 1.5),
            Self::FiveThirds => power(n, v, 5.0 / 3.0),
            Self::Quadratic => n.hypot(v),
            Self::TriLinear => n.max(v).max((n + v) / 1.2),
            Self::En199318 => n.max(v + n / 1.4),
            Self::AiscJ37 => n.max(v).max((n + v) / 1.3),
        }
    }

    /// Where the rule is written.
    pub(super) fn source(self) -> &'static str {
        RULES.iter().find(|known| known.rule == self).map_or("", |known| known.source)
    }
}

/// The larger ratio is taken out, so that no power leaves the number range.
fn power(n: f64, v: f64, p: f64) -> f64 {
    let (least, most) = (n.min(v), n.max(v));
    if most == 0.0 {
        return 0.0;
    }
    most * (1.0 + (least / most).powf(p)).powf(1.0 / p)
}
