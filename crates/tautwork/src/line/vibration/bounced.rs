//! Tension from the measured period of a bouncing person, Eq. (V15) and (V16).

use serde::{Deserialize, Serialize};

use super::bounce::{Bounce, Loaded, bounce, period};
use super::cable::Shallow;
use super::reading::{no_tension, timed};
use super::scan::{roots, slope};
use crate::line::error::all_finite;
use crate::line::{ElasticLine, LineError, solve_elastic};
use crate::material::Stretch;
use crate::quantity::check::{finite, fraction, non_negative, positive};
use crate::quantity::{
    Force, GRAVITY, Invalid, Length, LineLoad, Mass, Quantity, Ratio, Text, Time, print,
};

/// A line on which a person was bounced and timed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BouncedLine {
    /// Horizontal distance of the anchors.
    #[serde(with = "Text::<Length>")]
    pub span: Length,
    /// Height of the far anchor above the near one.
    #[serde(with = "Text::<Length>")]
    pub rise: Length,
    /// Weight per rest length.
    #[serde(with = "Text::<LineLoad>")]
    pub weight: LineLoad,
    /// Stretch.
    pub stretch: Stretch,
    /// Share of the rest length between the near anchor and the person.
    #[serde(with = "Text::<Ratio>")]
    pub at_share: Ratio,
    /// Mass of the person.
    #[serde(with = "Text::<Mass>")]
    pub mass: Mass,
    /// Standard error of the mass.
    #[serde(with = "Text::<Mass>")]
    pub mass_error: Mass,
    /// Time of all the periods together.
    #[serde(with = "Text::<Time>")]
    pub time: Time,
    /// Number of periods in that time.
    pub periods: u32,
    /// Standard error of the time.
    #[serde(with = "Text::<Time>")]
    pub time_error: Time,
}

/// A line on which the person has the measured period.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct BounceTension {
    /// Tension at the near anchor without the person.
    #[serde(with = "Text::<Force>")]
    pub standing_tension: Force,
    /// Its standard error, Eq. (V16).
    #[serde(with = "Text::<Force>")]
    pub standing_error: Force,
    /// Tension at the near anchor with the person at rest.
    #[serde(with = "Text::<Force>")]
    pub loaded_tension: Force,
    /// Its standard error.
    #[serde(with = "Text::<Force>")]
    pub loaded_error: Force,
    /// Part of the standing error that is from the time.
    #[serde(with = "Text::<Force>")]
    pub standing_error_from_time: Force,
    /// Part of the standing error that is from the mass.
    #[serde(with = "Text::<Force>")]
    pub standing_error_from_mass: Force,
    /// Rest length.
    #[serde(with = "Text::<Length>")]
    pub rest_length: Length,
    /// How far the person hangs below the chord.
    #[serde(with = "Text::<Length>")]
    pub below_chord: Length,
    /// Sag parameter λ² of the empty line.
    #[serde(with = "Text::<Ratio>")]
    pub lambda_squared: Ratio,
    /// By how much the formula of a weightless string under constant tension reads above
    /// `loaded_tension`.
    #[serde(with = "Text::<Force>")]
    pub string_bias: Force,
    /// Period of the whole line with the person on it, to be compared with the measured one.
    #[serde(with = "Text::<Time>")]
    pub period_exact: Time,
}

/// What a bounced person tells.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct BounceReading {
    /// One period.
    #[serde(with = "Text::<Time>")]
    pub period: Time,
    /// Tension by the formula of a weightless string under constant tension, Eq. (V15) without stretch.
    #[serde(with = "Text::<Force>")]
    pub string_tension: Force,
    /// Every tension that fits, the least first. More than one: the depth of the person tells which.
    pub tensions: Vec<BounceTension>,
}

/// Tension of a line from the period of a person who bounces on it, Eq. (V15) and (V16).
///
/// The person is a point mass with a third of the mass of the line, on the exact tangent stiffness, which
/// holds the sag and the stretch. A slack line is stiffened by its sag under the person, so a period may
/// belong to two tensions: all with an empty sag below an eighth of the chord are given. The legs of the
/// person must be stiff: a bounce from the knees is another spring.
///
/// # Errors
/// [`LineError::Invalid`] unless span, mass, time and the count of periods are above zero, the share of
/// the length is between 0 and 1 and the errors are zero or more; [`LineError::Unreachable`] if no
/// tension has the period.
///
/// # Example
/// ```
/// use tautwork::line::{BouncedLine, tension_from_bounce};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadForce, Words};
/// let person = BouncedLine {
///     span: 50.0.meters(),
///     rise: 0.0.meters(),
///     weight: 0.5.newtons_per_meter(),
///     stretch: Stretch::axial_rigidity(60.0.kilonewtons())?,
///     at_share: 50.0.percent(),
///     mass: 80.0.kilograms(),
///     mass_error: 1.0.kilograms(),
///     time: 20.0.seconds(),
///     periods: 10,
///     time_error: 0.2.seconds(),
/// };
/// let read = tension_from_bounce(&person)?;
/// // The string alone: (80 kg + a third of 2.5 kg) (2 π / 2 s)² · 12.5 m = 9.97 kN, too high.
/// assert!((read.string_tension.in_kilonewtons() - 9.97).abs() < 0.02);
/// assert!(read.tensions.iter().all(|t| t.loaded_tension < read.string_tension));
/// assert!(tension_from_bounce(&BouncedLine { time: 0.0.seconds(), ..person }).is_err());
/// # Ok::<(), tautwork::line::LineError>(())
/// ```
pub fn tension_from_bounce(person: &BouncedLine) -> Result<BounceReading, LineError> {
    positive("span", person.span)?;
    finite("rise", person.rise)?;
    let weight = non_negative("weight", person.weight)?;
    let share = fraction("at_share", person.at_share)?;
    if share == 1.0 {
        return Err(LineError::Invalid(Invalid::new(
            "at_share",
            print(person.at_share),
            "above 0 and below 1",
        )));
    }
    let mass_kg = positive("mass", person.mass)?;
    let mass_share = non_negative("mass_error", person.mass_error)? / mass_kg;
    let (period_s, time_share) = timed(person.time, person.periods, person.time_error)?;
    let bounced = Bounced { person, share, weight };
    let cable = bounced.cable();
    let line_kg = weight * cable.chord_m / GRAVITY;
    let omega = 2.0 * core::f64::consts::PI / period_s;
    let string_n = (mass_kg + line_kg / 3.0)
        * omega.powi(2)
        * (share * (1.0 - share) * cable.chord_m)
        * cable.cos.powi(2);
    all_finite(&[string_n.ln()], "tension")?;
    // Standing tensions: the string's is the highest, an eighth of sag or nearly none the least.
    let low = (weight * cable.chord_m * cable.cos).max(1e-4 * string_n).ln();
    let high = string_n.ln() + 0.05;
    let ln_period = |x: f64, ln_mass: f64| {
        bounced.state(x, mass_kg * ln_mass.exp()).map_or(f64::NAN, |s| s.period_s.ln())
    };
    let found = if low < high {
        roots(low, high, |x| ln_period(x, 0.0) - period_s.ln())
    } else {
        Vec::new()
    };
    let mut tensions = Vec::new();
    for x in found {
        let at = bounced.state(x, mass_kg)?;
        let exact: Bounce = bounce(&at.line, Length::from_si(at.at_m), person.mass)?;
        let standing_n = |x: f64| bounced.standing_n(x).unwrap_or(f64::NAN);
        let loaded_n = |x: f64, ln_mass: f64| {
            bounced.state(x, mass_kg * ln_mass.exp()).map_or(f64::NAN, |s| s.loaded.near_n)
        };
        let by_x = slope(x, |x| ln_period(x, 0.0));
        // A heavier person has another tension at the same period: Eq. (V16).
        let x_by_time = 1.0 / by_x;
        let x_by_mass = -slope(0.0, |m| ln_period(x, m)) / by_x;
        let (standing_by_x, loaded_by_x) = (slope(x, standing_n), slope(x, |x| loaded_n(x, 0.0)));
        let loaded_by_mass = slope(0.0, |m| loaded_n(x, m)) + loaded_by_x * x_by_mass;
        let from_time = (standing_by_x * x_by_time * time_share).abs();
        let from_mass = (standing_by_x * x_by_mass * mass_share).abs();
        let loaded_error =
            (loaded_by_x * x_by_time * time_share).hypot(loaded_by_mass * mass_share);
        let (standing, loaded) = (bounced.standing_n(x)?, at.loaded.near_n);
        let lambda2 = cable.at(x.exp()).lambda2;
        all_finite(&[from_time, from_mass, loaded_error, standing, lambda2], "tension")?;
        tensions.push(BounceTension {
            standing_tension: Force::from_si(standing),
            standing_error: Force::from_si(from_time.hypot(from_mass)),
            loaded_tension: Force::from_si(loaded),
            loaded_error: Force::from_si(loaded_error),
            standing_error_from_time: Force::from_si(from_time),
            standing_error_from_mass: Force::from_si(from_mass),
            rest_length: at.line.rest_length,
            below_chord: Length::from_si(at.loaded.below_m),
            lambda_squared: Ratio::from_si(lambda2),
            string_bias: Force::from_si(string_n - loaded),
            period_exact: exact.bounce_period_exact,
        });
    }
    if tensions.is_empty() {
        return Err(no_tension(period_s));
    }
    Ok(BounceReading {
        period: Time::from_si(period_s),
        string_tension: Force::from_si(string_n),
        tensions,
    })
}

struct Bounced<'a> {
    person: &'a BouncedLine,
    share: f64,
    weight: f64,
}

struct BouncedState {
    line: ElasticLine,
    at_m: f64,
    loaded: Loaded,
    period_s: f64,
}

impl Bounced<'_> {
    fn cable(&self) -> Shallow<'_> {
        let (span_m, rise_m) = (self.person.span.si(), self.person.rise.si());
        let chord_m = span_m.hypot(rise_m);
        let law = self.person.stretch.law();
        Shallow { chord_m, cos: span_m / chord_m, w_n_per_m: self.weight, law }
    }

    /// The line whose parabola has the tension exp(x) along its chord: x only orders the lines.
    fn line(&self, x: f64) -> ElasticLine {
        let cable = self.cable();
        let e = cable.law.strain(x.exp());
        let bow = 8.0 * cable.at(x.exp()).sag_ratio;
        ElasticLine {
            span: self.person.span,
            rise: self.person.rise,
            rest_length: Length::from_si(cable.chord_m * (1.0 + bow * bow / 24.0) / (1.0 + e)),
            weight: self.person.weight,
            stretch: self.person.stretch.clone(),
        }
    }

    fn standing_n(&self, x: f64) -> Result<f64, LineError> {
        Ok(solve_elastic(&self.line(x))?.tension_near.si())
    }

    fn state(&self, x: f64, mass_kg: f64) -> Result<BouncedState, LineError> {
        let line = self.line(x);
        let rest_m = positive("rest_length", line.rest_length)?;
        let at_m = self.share * rest_m;
        let loaded = Loaded::new(&line, at_m, mass_kg)?;
        let period_s = period(mass_kg + self.weight * rest_m / GRAVITY / 3.0, loaded.vertical);
        Ok(BouncedState { line, at_m, loaded, period_s })
    }
}
