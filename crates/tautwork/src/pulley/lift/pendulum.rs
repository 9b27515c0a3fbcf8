//! A jumper who hangs free and swings while they are drawn up.

use serde::{Deserialize, Serialize};

use super::super::PulleyError;
use crate::ode::{Control, DormandPrince, Rates};
use crate::quantity::check::{between, positive};
use crate::quantity::{
    Angle, GRAVITY, Invalid, Length, Quantity, Ratio, Speed, Text, Time, Words, print,
};

/// Most attempts of the integrator.
const BUDGET: usize = 1_000_000;
/// Relative error in a step.
const TOLERANCE: f64 = 1e-10;
/// Most swings that are followed.
const MOST_SWINGS: f64 = 1e4;

/// A pendulum that gets shorter.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LiftedPendulum {
    /// Length at first, from the pulley to the body.
    #[serde(with = "Text::<Length>")]
    pub from: Length,
    /// Length at the end.
    #[serde(with = "Text::<Length>")]
    pub to: Length,
    /// Speed of the haul.
    #[serde(with = "Text::<Speed>")]
    pub speed: Speed,
    /// Angle from the vertical at which it is at rest at first, to 90 degrees.
    #[serde(with = "Text::<Angle>")]
    pub angle: Angle,
}

/// The swing on the way up.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LiftedSwing {
    /// Time of the haul.
    #[serde(with = "Text::<Time>")]
    pub time: Time,
    /// Greatest angle from the first turn on.
    #[serde(with = "Text::<Angle>")]
    pub greatest_angle: Angle,
    /// Angle of the last whole swing.
    #[serde(with = "Text::<Angle>")]
    pub last_angle: Angle,
    /// The same for small angles and a slow haul, Eq. (K4).
    #[serde(with = "Text::<Angle>")]
    pub slow_angle: Angle,
    /// Greatest distance to the side on the whole way, to one in a thousand.
    #[serde(with = "Text::<Length>")]
    pub widest: Length,
    /// Greatest tension over the weight, Eq. (K5), to one in a thousand.
    #[serde(with = "Text::<Ratio>")]
    pub load_factor: Ratio,
    /// Times at which it turned.
    pub turn_s: Vec<f64>,
    /// Angle there, with its sign.
    pub turn_rad: Vec<f64>,
    /// Length there.
    pub turn_length_m: Vec<f64>,
}

struct Motion {
    speed: f64,
}

impl Rates for Motion {
    /// Eq. (K3): angle, its rate, length.
    fn rates(&mut self, y: &[f64], dy: &mut [f64]) {
        let [angle, rate, length] = [y[0], y[1], y[2]];
        dy[0] = rate;
        dy[1] = (2.0 * self.speed * rate - GRAVITY * angle.sin()) / length;
        dy[2] = -self.speed;
    }
}

/// The swing of a load that hangs free on a rope that gets shorter, Eq. (K3) and (K4).
///
/// # Errors
/// [`PulleyError::Invalid`] for values out of range, and where the haul is so slow that it takes more than ten
/// thousand swings; [`PulleyError::Overflow`] where the motion leaves the number range.
///
/// # Example
/// ```
/// use tautwork::pulley::{LiftedPendulum, lifted_pendulum};
/// use tautwork::quantity::{ReadAngle, Words};
/// // From 40 m to 10 m at 0.1 m/s: small angles grow by 4 to the 3/4, 2.83 times.
/// let swing = LiftedPendulum {
///     from: 40.0.meters(),
///     to: 10.0.meters(),
///     speed: 0.1.meters_per_second(),
///     angle: 2.0.degrees(),
/// };
/// let up = lifted_pendulum(&swing)?;
/// assert!((up.last_angle.in_degrees() / 5.657 - 1.0).abs() < 0.03);
/// assert!(lifted_pendulum(&LiftedPendulum { to: 0.0.meters(), ..swing }).is_err());
/// # Ok::<(), tautwork::pulley::PulleyError>(())
/// ```
pub fn lifted_pendulum(swing: &LiftedPendulum) -> Result<LiftedSwing, PulleyError> {
    let from_m = positive("from", swing.from)?;
    let to_m = positive("to", swing.to)?;
    let speed = positive("speed", swing.speed)?;
    let angle = between("angle", swing.angle, 0.0.degrees(), 90.0.degrees())?;
    if to_m >= from_m {
        let allowed = format!("below from, {}", print(swing.from));
        return Err(Invalid::new("to", print(swing.to), allowed).into());
    }
    let time_s = (from_m - to_m) / speed;
    let swings = time_s / (2.0 * core::f64::consts::PI * (to_m / GRAVITY).sqrt());
    if !(swings < MOST_SWINGS && time_s.is_finite()) {
        let allowed = format!("fast enough for at most {MOST_SWINGS} swings");
        return Err(Invalid::new("speed", print(swing.speed), allowed).into());
    }
    let fail = || PulleyError::Overflow { result: "lifted_pendulum" };
    let control = Control {
        rtol: TOLERANCE,
        atol: vec![TOLERANCE, TOLERANCE * (GRAVITY / from_m).sqrt(), TOLERANCE * from_m],
        longest_s: 0.05 * (to_m / GRAVITY).sqrt() * core::f64::consts::PI,
        budget: BUDGET,
    };
    let mut motion = Motion { speed };
    let mut ode = DormandPrince::new(&mut motion, vec![angle, 0.0, from_m], control);
    let (mut turn_s, mut turn_rad, mut turn_length_m) = (Vec::new(), Vec::new(), Vec::new());
    let (mut greatest, mut widest_m) = (0.0_f64, from_m * angle.sin());
    let mut factor = angle.cos();
    let mut state = [0.0; 3];
    while ode.t_s < time_s * (1.0 - 1e-13) {
        ode.advance(&mut motion, time_s - ode.t_s).map_err(|_| fail())?;
        let (before, after) = (ode.step.start()[1], ode.step.end[1]);
        if before != 0.0 && before * after <= 0.0 {
            let (mut low, mut high) = (0.0, 1.0);
            for _ in 0..60 {
                let middle = 0.5 * (low + high);
                ode.step.read(middle, &mut state);
                if state[1] * before > 0.0 { low = middle } else { high = middle }
            }
            ode.step.read(high, &mut state);
            turn_s.push(ode.step.t_s + high * ode.step.h_s);
            turn_rad.push(state[0]);
            turn_length_m.push(state[2]);
            greatest = greatest.max(state[0].abs());
        }
        for share in [0.25, 0.5, 0.75, 1.0] {
            ode.step.read(share, &mut state);
            widest_m = widest_m.max(state[2] * state[0].sin().abs());
            factor = factor.max(state[0].cos() + state[2] * state[1] * state[1] / GRAVITY);
        }
        ode.commit();
    }
    let last = turn_rad.last().copied().unwrap_or(angle).abs();
    if !(greatest + widest_m + last + factor).is_finite() {
        return Err(fail());
    }
    Ok(LiftedSwing {
        time: Time::from_si(time_s),
        greatest_angle: Angle::from_si(greatest.max(if turn_rad.is_empty() { angle } else { 0.0 })),
        last_angle: Angle::from_si(last),
        slow_angle: Angle::from_si(angle * (from_m / to_m).powf(0.75)),
        widest: Length::from_si(widest_m),
        load_factor: Ratio::from_si(factor),
        turn_s,
        turn_rad,
        turn_length_m,
    })
}
