//! A person who bounces or sways on a line, Eq. (V10) to (V13).

use core::f64::consts::PI;

use nalgebra::Vector3;
use serde::{Deserialize, Serialize};

use super::discrete::{Lumped, Mode};
use crate::line::chain_state::Hung;
use crate::line::error::all_finite;
use crate::line::links::Links;
use crate::line::{Chain, ChainLoad, ElasticLine, LineError, LineNote};
use crate::quantity::check::{between, finite, non_negative, positive};
use crate::quantity::{
    Force, GRAVITY, Invalid, Length, LineLoad, Mass, Quantity, Ratio, Stiffness, Text, Time, print,
};

/// Pieces of the line in the discrete answer.
const SEGMENTS: usize = 48;

/// How a person moves on a line.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Bounce {
    /// Tension at the near anchor with the person at rest.
    #[serde(with = "Text::<Force>")]
    pub tension_near: Force,
    /// Tension at the far anchor.
    #[serde(with = "Text::<Force>")]
    pub tension_far: Force,
    /// How far the person hangs below the chord.
    #[serde(with = "Text::<Length>")]
    pub below_chord: Length,
    /// Force for a unit of depth, the person being free to give way along the span, Eq. (V10).
    #[serde(with = "Text::<LineLoad>")]
    pub vertical_stiffness: Stiffness,
    /// Force for a unit of way to the side.
    #[serde(with = "Text::<LineLoad>")]
    pub sway_stiffness: Stiffness,
    /// Mass of the line.
    #[serde(with = "Text::<Mass>")]
    pub line_mass: Mass,
    /// Period of the bounce with the mass of the person alone, Eq. (V11).
    #[serde(with = "Text::<Time>")]
    pub bounce_period: Time,
    /// The same with a third of the mass of the line added, Eq. (V12).
    #[serde(with = "Text::<Time>")]
    pub bounce_period_with_third: Time,
    /// Period of the mode of the whole line that takes most of a vertical kick, Eq. (V13).
    #[serde(with = "Text::<Time>")]
    pub bounce_period_exact: Time,
    /// Share of the energy of the kick that this mode takes.
    #[serde(with = "Text::<Ratio>")]
    pub bounce_share: Ratio,
    /// Period of the sway with the mass of the person alone.
    #[serde(with = "Text::<Time>")]
    pub sway_period: Time,
    /// The same with a third of the mass of the line.
    #[serde(with = "Text::<Time>")]
    pub sway_period_with_third: Time,
    /// Period of the mode of the whole line that takes most of a kick to the side.
    #[serde(with = "Text::<Time>")]
    pub sway_period_exact: Time,
    /// Share of the energy of the kick that this mode takes.
    #[serde(with = "Text::<Ratio>")]
    pub sway_share: Ratio,
    /// What is left of the equations of the two modes, over ω².
    #[serde(with = "Text::<Ratio>")]
    pub residual: Ratio,
    /// Remarks on the inputs.
    pub notes: Vec<LineNote>,
}

/// Bounce and sway of a person at a place on a line, Eq. (V10) to (V13).
///
/// The person is a point mass tied to the line at rest length `at` from the near end, for small motion
/// that never unloads the line. Legs that bend and a body above the line are not part of it.
///
/// # Errors
/// As [`solve_chain`](crate::line::solve_chain); [`LineError::Invalid`] unless span and mass are above
/// zero and the person is between the anchors.
///
/// # Example
/// ```
/// use tautwork::line::{ElasticLine, bounce};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadTime, Words};
/// let line = ElasticLine {
///     span: 6.0.meters(),
///     rise: 0.0.meters(),
///     rest_length: 10.0.meters(),
///     weight: 0.0.newtons_per_meter(),
///     stretch: Stretch::axial_rigidity(1e9.newtons())?,
/// };
/// // Hangs 4 m below two stiff legs: sways as a pendulum of 4 m, 2 π sqrt(4 / 9.81) = 4.012 s.
/// let person = bounce(&line, 5.0.meters(), 80.0.kilograms())?;
/// assert!((person.sway_period.in_seconds() - 4.012).abs() < 1e-3);
/// assert!(bounce(&line, 10.0.meters(), 80.0.kilograms()).is_err());
/// # Ok::<(), tautwork::line::LineError>(())
/// ```
pub fn bounce(line: &ElasticLine, at: Length, mass: Mass) -> Result<Bounce, LineError> {
    let rest_m = positive("rest_length", line.rest_length)?;
    let zero = Length::from_si(0.0);
    let at_m = between("at", at, zero, line.rest_length)?;
    if at_m == 0.0 || at_m >= rest_m {
        return Err(LineError::Invalid(Invalid::new(
            "at",
            print(at),
            format!("above 0 m and below {}", print(line.rest_length)),
        )));
    }
    let mass_kg = positive("mass", mass)?;
    let loaded = Loaded::new(line, at_m, mass_kg)?;
    let lumped = Lumped::new(&loaded.links, loaded.pull_n, &[(at_m, mass_kg)], SEGMENTS)?;
    let modes = lumped.modes()?;
    let node = lumped.node(at_m, 1e-9 * rest_m).ok_or(LineError::Overflow { result: "bounce" })?;
    let kicked = |axis: usize| {
        let share = |m: &Mode| lumped.mass_kg[node] * m.shape[node][axis].powi(2);
        let most = modes.iter().max_by(|a, b| share(a).total_cmp(&share(b)));
        most.map(|m| (2.0 * PI / m.omega2.sqrt(), share(m), m.residual))
            .ok_or(LineError::Overflow { result: "bounce" })
    };
    let (bounce_exact, sway_exact) = (kicked(2)?, kicked(1)?);
    let line_kg = line.weight.si() * rest_m / GRAVITY;
    let with_third = mass_kg + line_kg / 3.0;
    let (bounce_s, bounce_third_s) =
        (period(mass_kg, loaded.vertical), period(with_third, loaded.vertical));
    let (sway_s, sway_third_s) = (period(mass_kg, loaded.sway), period(with_third, loaded.sway));
    let residual = bounce_exact.2.max(sway_exact.2);
    all_finite(
        &[
            [loaded.near_n, loaded.far_n, loaded.below_m, loaded.vertical, loaded.sway],
            [line_kg, bounce_s, bounce_third_s, bounce_exact.0, bounce_exact.1],
            [sway_s, sway_third_s, sway_exact.0, sway_exact.1, residual],
        ]
        .concat(),
        "bounce",
    )?;
    Ok(Bounce {
        tension_near: Force::from_si(loaded.near_n),
        tension_far: Force::from_si(loaded.far_n),
        below_chord: Length::from_si(loaded.below_m),
        vertical_stiffness: Stiffness::from_si(loaded.vertical),
        sway_stiffness: Stiffness::from_si(loaded.sway),
        line_mass: Mass::from_si(line_kg),
        bounce_period: Time::from_si(bounce_s),
        bounce_period_with_third: Time::from_si(bounce_third_s),
        bounce_period_exact: Time::from_si(bounce_exact.0),
        bounce_share: Ratio::from_si(bounce_exact.1),
        sway_period: Time::from_si(sway_s),
        sway_period_with_third: Time::from_si(sway_third_s),
        sway_period_exact: Time::from_si(sway_exact.0),
        sway_share: Ratio::from_si(sway_exact.1),
        residual: Ratio::from_si(residual),
        notes: LineNote::past_table(line.stretch.law(), loaded.near_n.max(loaded.far_n))
            .into_iter()
            .collect(),
    })
}

pub(super) fn period(mass_kg: f64, stiffness_n_per_m: f64) -> f64 {
    2.0 * PI * (mass_kg / stiffness_n_per_m).sqrt()
}

/// A line with a person at rest on it.
pub(super) struct Loaded {
    pub links: Links,
    pub pull_n: Vector3<f64>,
    pub near_n: f64,
    pub far_n: f64,
    pub below_m: f64,
    /// Tangent stiffness at the person, in N/m.
    pub vertical: f64,
    pub sway: f64,
}

impl Loaded {
    pub fn new(line: &ElasticLine, at_m: f64, mass_kg: f64) -> Result<Self, LineError> {
        let (span_m, rise_m) = (positive("span", line.span)?, finite("rise", line.rise)?);
        non_negative("weight", line.weight)?;
        let person = ChainLoad::weight(at_m, mass_kg * GRAVITY);
        let Hung { links, state, .. } = Hung::new(&Chain::of(line, vec![person]))?;
        let pull_n = state.pull_n;
        let (mut run, mut stiffness) = (Links::start(pull_n), nalgebra::Matrix3::zeros());
        let mut place = Vector3::zeros();
        for (i, link) in links.0.iter().enumerate() {
            stiffness += link.stiffness_n_per_m(&run.pull_n);
            link.extend(&mut run);
            run.pull_n -= link.load_n;
            if i == 0 {
                place = run.end_m;
            }
        }
        let (xx, xz, zz) = (stiffness[(0, 0)], stiffness[(0, 2)], stiffness[(2, 2)]);
        Ok(Self {
            near_n: pull_n.norm(),
            far_n: run.pull_n.norm(),
            below_m: rise_m * place.x / span_m - place.z,
            vertical: zz - xz * (xz / xx),
            sway: stiffness[(1, 1)],
            links,
            pull_n,
        })
    }
}
