//! Each rule for one line and one load.

use serde::{Deserialize, Serialize};

use crate::line::elastic::solve;
use crate::line::inverse::root;
use crate::line::segment::Uniform;
use crate::line::{Chain, ChainLoad, ElasticLine, LineError, solve_chain};
use crate::material::Law;
use crate::quantity::check::{finite, positive};
use crate::quantity::{Force, Quantity, Ratio, Text};

/// What a rule says, and what is so.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RuleOfThumb {
    /// Name, as in the equations of the page.
    pub name: String,
    /// The rule.
    pub formula: String,
    /// Where it comes from.
    pub source: String,
    /// Unit of both values: N or m.
    pub unit: String,
    /// What the rule says.
    pub rule: f64,
    /// What the exact solution says.
    pub exact: f64,
    /// (rule − exact) / exact.
    #[serde(with = "Text::<Ratio>")]
    pub error: Ratio,
}

const PARABOLA: &str = "parabola: Irvine (1981), Cable Structures, chapter 1, from memory";
const PRACTICE: &str = "common practice, no source";
const HALVES: &str = "statics of two straight elastic halves, derived in the page";

/// The rules of thumb for a line with a load tied to its middle, Eq. (U1) to (U8), beside the exact values.
///
/// # Errors
/// [`LineError::Invalid`] unless span, weight and load are above zero; else as [`solve_chain`].
///
/// # Example
/// ```
/// use tautwork::line::{ElasticLine, rules_of_thumb};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadRatio, Words};
/// let line = ElasticLine {
///     span: 130.0.meters(),
///     rise: 0.0.meters(),
///     rest_length: 127.7.meters(),
///     weight: 0.667.newtons_per_meter(),
///     stretch: Stretch::axial_rigidity(250.0.kilonewtons())?,
/// };
/// let rules = rules_of_thumb(&line, 800.0.newtons())?;
/// let error = |name: &str| rules.iter().find(|r| r.name == name).unwrap().error.in_percent();
/// // The load stretches the line: with the tension of the empty line one expects too much sag.
/// assert!(error("sag_from_standing_tension") > 10.0);
/// // The weight of the line is forgotten.
/// assert!((-6.0..-4.0).contains(&error("tension_from_angle")));
/// assert!(rules_of_thumb(&line, 0.0.newtons()).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn rules_of_thumb(line: &ElasticLine, load: Force) -> Result<Vec<RuleOfThumb>, LineError> {
    let known = Known::new(line, load)?;
    let rules = known.rules()?;
    if rules.iter().all(|r| r.rule.is_finite() && r.error.si().is_finite()) {
        Ok(rules)
    } else {
        Err(LineError::Overflow { result: "rules of thumb" })
    }
}

/// What is exact.
struct Known<'a> {
    law: &'a Law,
    span_m: f64,
    chord_m: f64,
    rest_m: f64,
    q_n_per_m: f64,
    load_n: f64,
    empty_h_n: f64,
    empty_t_n: f64,
    empty_sag_m: f64,
    empty_length_m: f64,
    t_n: f64,
    h_n: f64,
    sag_m: f64,
}

impl<'a> Known<'a> {
    fn new(line: &'a ElasticLine, load: Force) -> Result<Self, LineError> {
        let span_m = positive("span", line.span)?;
        let rise_m = finite("rise", line.rise)?;
        let rest_m = positive("rest_length", line.rest_length)?;
        let q_n_per_m = positive("weight", line.weight)?;
        let load_n = positive("load", load)?;
        let law = line.stretch.law();
        let empty = solve(Uniform { q_n_per_m, rest_m, law }, span_m, rise_m)?;
        let middle = ChainLoad::weight(0.5 * rest_m, load_n);
        let loaded = solve_chain(&Chain::of(line, vec![middle]))?;
        Ok(Self {
            law,
            span_m,
            chord_m: span_m.hypot(rise_m),
            rest_m,
            q_n_per_m,
            load_n,
            empty_h_n: empty.state.h_n,
            empty_t_n: empty.state.piece.t0_n.max(empty.state.piece.t1_n),
            empty_sag_m: empty.below_chord_m,
            empty_length_m: empty.stretched_m,
            t_n: loaded.tension_near.si().max(loaded.tension_far.si()),
            h_n: loaded.pull_near[0].si(),
            sag_m: loaded.loads[0].below_chord.si(),
        })
    }

    fn rules(&self) -> Result<Vec<RuleOfThumb>, LineError> {
        let (l, w, p, d) = (self.span_m, self.q_n_per_m, self.load_n, self.sag_m);
        let d0 = self.empty_sag_m;
        let ea_n = self.t_n / self.law.strain(self.t_n);
        let angle = (2.0 * d / l).atan();
        let line_n = w * self.rest_m;
        Ok(vec![
            rule(
                ("sag_of_the_empty_line", "d0 = w l^2 / (8 H)", PARABOLA, "m"),
                w * l * l / (8.0 * self.empty_h_n),
                d0,
            ),
            rule(
                ("length_from_sag", "length = l + 8 d0^2 / (3 l)", PARABOLA, "m"),
                l + 8.0 * d0 * d0 / (3.0 * l),
                self.empty_length_m,
            ),
            rule(
                ("tension_from_sag", "T = P l / (4 d)", PRACTICE, "N"),
                p * l / (4.0 * d),
                self.t_n,
            ),
            rule(
                ("tension_from_sag_and_weight", "H = (P / 4 + W / 8) l / d", PRACTICE, "N"),
                (0.25 * p + 0.125 * line_n) * l / d,
                self.h_n,
            ),
            rule(
                ("tension_from_angle", "T = P / (2 sin a), tan a = 2 d / l", PRACTICE, "N"),
                p / (2.0 * angle.sin()),
                self.t_n,
            ),
            rule(
                ("sag_from_standing_tension", "d = P l / (4 T0)", PRACTICE, "m"),
                p * l / (4.0 * self.empty_t_n),
                d,
            ),
            rule(
                ("two_straight_halves", "T of two straight elastic halves", HALVES, "N"),
                self.straight_halves_n()?,
                self.t_n,
            ),
            rule(
                ("no_standing_tension", "d = (l / 2) (P / EA)^(1/3)", HALVES, "m"),
                0.5 * l * (p / ea_n).cbrt(),
                d,
            ),
        ])
    }

    /// T at which two halves stretched by e(T), over the chord, carry the load: T sin a = P / 2.
    fn straight_halves_n(&self) -> Result<f64, LineError> {
        // The vertical part rises with T, from nothing at the strain that closes the chord.
        let lift = |t_n: f64| {
            let half_m = 0.5 * self.rest_m * (1.0 + self.law.strain(t_n));
            let cos = 0.5 * self.chord_m / half_m;
            2.0 * t_n * ((1.0 - cos) * (1.0 + cos)).max(0.0).sqrt()
        };
        let least = self.law.tension(self.chord_m / self.rest_m - 1.0);
        let mut most = least.max(self.load_n);
        for _ in 0..1100 {
            if lift(most) > self.load_n {
                break;
            }
            most *= 2.0;
        }
        let f = |share: f64| lift(least + share * (most - least)) / self.load_n - 1.0;
        let share = root(0.0, 1.0, f).ok_or(LineError::NotConverged {
            residual: f(1.0),
            unit: "of the load",
            iterations: 200,
        })?;
        Ok(least + share * (most - least))
    }
}

fn rule(text: (&str, &str, &str, &str), rule: f64, exact: f64) -> RuleOfThumb {
    let (name, formula, source, unit) = text;
    RuleOfThumb {
        name: name.to_owned(),
        formula: formula.to_owned(),
        source: source.to_owned(),
        unit: unit.to_owned(),
        rule,
        exact,
        error: Ratio::from_si(rule / exact - 1.0),
    }
}
