//! The taut string and the shallow cable of Irvine and Caughey, Eq. (V1) to (V6).

use core::f64::consts::PI;

use serde::{Deserialize, Serialize};

use crate::line::error::all_finite;
use crate::line::inverse::root;
use crate::line::{ElasticLine, LineError, LineNote, solve_elastic};
use crate::material::Law;
use crate::quantity::check::{self, non_negative, positive};
use crate::quantity::{Force, GRAVITY, Length, LinearDensity, Quantity, Ratio, Text};

/// Modes that one call gives at most.
const MOST_MODES: usize = 100;
/// Sag over chord above which a cable is no longer shallow.
pub(super) const SHALLOW: f64 = 0.125;

/// Frequencies of a taut string.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct StringModes {
    /// Natural frequencies, the lowest first.
    pub frequency_hz: Vec<f64>,
}

/// Natural frequencies of a taut string, Eq. (V1): the same in every plane.
///
/// Valid for a string without sag; the mass per length is that under tension.
///
/// # Errors
/// [`LineError::Invalid`] unless length, tension and linear density are above zero and 1 to 100 modes
/// are wanted; [`LineError::Overflow`] at the edge of the range of numbers.
///
/// # Example
/// ```
/// use tautwork::line::string_modes;
/// use tautwork::quantity::Words;
/// // Waves run at sqrt(1000 N / 0.1 kg/m) = 100 m/s: 50 m there and 50 m back take a second.
/// let (length, density) = (50.0.meters(), 100.0.grams_per_meter());
/// let modes = string_modes(length, 1000.0.newtons(), density, 2)?;
/// assert!((modes.frequency_hz[0] - 1.0).abs() < 1e-12);
/// assert!((modes.frequency_hz[1] - 2.0).abs() < 1e-12);
/// assert!(string_modes(length, 0.0.newtons(), density, 2).is_err());
/// # Ok::<(), tautwork::line::LineError>(())
/// ```
///
/// # Source
/// Timoshenko, *Vibration Problems in Engineering*, article 64 (from memory).
pub fn string_modes(
    length: Length,
    tension: Force,
    linear_density: LinearDensity,
    count: usize,
) -> Result<StringModes, LineError> {
    let length_m = positive("length", length)?;
    let tension_n = positive("tension", tension)?;
    let density = positive("linear_density", linear_density)?;
    let first_hz = (tension_n / density).sqrt() / length_m / 2.0;
    let frequency_hz: Vec<_> = (1..=counted(count)?).map(|n| n as f64 * first_hz).collect();
    all_finite(&frequency_hz, "frequency")?;
    Ok(StringModes { frequency_hz })
}

/// Dimensionless frequencies of a shallow cable.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct IrvineCaughey {
    /// Symmetric modes in the plane of the sag: ω c sqrt(m / N) / π.
    pub symmetric_over_pi: Vec<f64>,
    /// Antisymmetric modes in the plane: 2, 4, 6, ...
    pub antisymmetric_over_pi: Vec<f64>,
    /// Modes out of the plane: 1, 2, 3, ...
    pub out_of_plane_over_pi: Vec<f64>,
}

/// Dimensionless frequencies ω c sqrt(m / N) / π of a shallow cable with a sag parameter λ², Eq. (V4)
/// and (V5).
///
/// Valid for a sag below an eighth of the chord. The lowest mode in the plane is symmetric up to
/// λ² = 4 π², antisymmetric above.
///
/// # Errors
/// [`LineError::Invalid`] unless λ² is zero or more and 1 to 100 modes are wanted.
///
/// # Example
/// ```
/// use tautwork::line::irvine_caughey;
/// use tautwork::quantity::Words;
/// // Without sag a string: 1, 3, 5.
/// let string = irvine_caughey(0.0.ratio(), 3)?;
/// assert_eq!(string.symmetric_over_pi, [1.0, 3.0, 5.0]);
/// // At the crossover both kinds have the same frequency.
/// let cross = irvine_caughey((4.0 * std::f64::consts::PI.powi(2)).ratio(), 1)?;
/// assert!((cross.symmetric_over_pi[0] - cross.antisymmetric_over_pi[0]).abs() < 1e-12);
/// assert!(irvine_caughey((-1.0).ratio(), 1).is_err());
/// # Ok::<(), tautwork::line::LineError>(())
/// ```
///
/// # Source
/// Irvine and Caughey (1974), Proc. R. Soc. A 341, 299-315 (from memory).
pub fn irvine_caughey(lambda_squared: Ratio, count: usize) -> Result<IrvineCaughey, LineError> {
    let lambda2 = non_negative("lambda_squared", lambda_squared)?;
    let count = counted(count)?;
    let symmetric = (1..=count).map(|j| Ok(symmetric_root(lambda2, j)? / PI));
    Ok(IrvineCaughey {
        symmetric_over_pi: symmetric.collect::<Result<_, LineError>>()?,
        antisymmetric_over_pi: (1..=count).map(|j| 2.0 * j as f64).collect(),
        out_of_plane_over_pi: (1..=count).map(|j| j as f64).collect(),
    })
}

/// W of the j-th symmetric mode, Eq. (V4).
///
/// With W/2 = (j - 1/2) π + δ the equation loses its poles: λ² (cos δ + v sin δ) = 4 v³ sin δ with
/// v = W/2, and has one root δ from 0 (λ² = 0) to π.
pub(super) fn symmetric_root(lambda2: f64, j: usize) -> Result<f64, LineError> {
    let from = (j as f64 - 0.5) * PI;
    let value_and_slope = |delta: f64| {
        let v = from + delta;
        let share = lambda2 / (lambda2 + 4.0 * v * v * v);
        let (sin, cos) = delta.sin_cos();
        let share_by_v = -share * (1.0 - share) * 3.0 / v;
        let value = share * (cos + v * sin) - (1.0 - share) * sin;
        (value, (share * v - (1.0 - share)) * cos + share_by_v * (cos + v * sin + sin))
    };
    let (at_zero, _) = value_and_slope(0.0);
    // To first order δ is the value at zero; both ends of the range pass for roots when that is small.
    let delta = if at_zero < 1e-6 {
        at_zero
    } else {
        root(0.0, PI, |delta| value_and_slope(delta).0)
            .ok_or(LineError::Overflow { result: "symmetric mode" })?
    };
    // A step of Newton's brings either to its last digits.
    let (value, slope) = value_and_slope(delta);
    Ok(2.0 * (from + delta - value / slope))
}

fn counted(count: usize) -> Result<usize, LineError> {
    Ok(check::count("count", count, 1, MOST_MODES)?)
}

/// A shallow line along its chord, whatever its tension.
#[derive(Debug, Clone, Copy)]
pub(super) struct Shallow<'a> {
    pub chord_m: f64,
    /// Cosine of the inclination of the chord.
    pub cos: f64,
    pub w_n_per_m: f64,
    pub law: &'a Law,
}

/// What the tension along the chord makes of it.
#[derive(Debug, Clone, Copy)]
pub(super) struct ShallowState {
    /// sqrt(N / m) / c, in 1/s: the frequency ω is W times this.
    pub pace_per_s: f64,
    pub lambda2: f64,
    /// Sag of the parabola, square to the chord, over the chord.
    pub sag_ratio: f64,
}

impl Shallow<'_> {
    /// Eq. (V2) and (V3) at a tension N along the chord.
    pub fn at(&self, n_n: f64) -> ShallowState {
        let (e, slope) = self.law.strain_and_slope(n_n);
        let stretched = 1.0 + e;
        let m = self.w_n_per_m / (GRAVITY * stretched);
        let bow = self.w_n_per_m / stretched * self.chord_m * self.cos / n_n;
        let give = slope / stretched * (1.0 + bow * bow / 8.0);
        ShallowState {
            pace_per_s: (n_n / m).sqrt() / self.chord_m,
            lambda2: bow * bow / (n_n * give),
            sag_ratio: bow / 8.0,
        }
    }
}

/// Which mode in the plane of the sag is lowest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FirstInPlane {
    /// Symmetric: λ² up to 4 π².
    Symmetric,
    /// Antisymmetric: λ² above 4 π².
    Antisymmetric,
}

/// Frequencies and shapes of an empty line.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct CableModes {
    /// Sag parameter λ², Eq. (V3).
    #[serde(with = "Text::<Ratio>")]
    pub lambda_squared: Ratio,
    /// Sag of the parabola square to the chord, over the chord.
    #[serde(with = "Text::<Ratio>")]
    pub sag_ratio: Ratio,
    /// Tension along the chord N, where the line runs parallel to it.
    #[serde(with = "Text::<Force>")]
    pub chord_tension: Force,
    /// Symmetric modes in the plane of the sag.
    pub symmetric_hz: Vec<f64>,
    /// Antisymmetric modes in the plane.
    pub antisymmetric_hz: Vec<f64>,
    /// Modes out of the plane; those of a taut string.
    pub out_of_plane_hz: Vec<f64>,
    /// The lowest mode in the plane.
    pub first_in_plane: FirstInPlane,
    /// Places along the chord at which the shapes are given, over the chord.
    pub along: Vec<f64>,
    /// Shapes of the symmetric modes, one list for each, the largest displacement being 1.
    pub symmetric_shape: Vec<Vec<f64>>,
    /// Shapes of the antisymmetric modes.
    pub antisymmetric_shape: Vec<Vec<f64>>,
    /// Shapes of the modes out of the plane.
    pub out_of_plane_shape: Vec<Vec<f64>>,
    /// Remarks on the inputs.
    pub notes: Vec<LineNote>,
}

/// Points of a mode shape.
const SHAPE_POINTS: usize = 41;

/// Frequencies and shapes of an empty line between two anchors, Eq. (V1) to (V6).
///
/// Valid for a sag below an eighth of the chord; a note says when it is more. [`chain_modes`] has no
/// such limit.
///
/// [`chain_modes`]: super::chain_modes
///
/// # Errors
/// As [`solve_elastic`]; [`LineError::Invalid`] unless weight and span are above zero and 1 to 100 modes
/// are wanted.
///
/// # Example
/// ```
/// use tautwork::line::{ElasticLine, cable_modes};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::Words;
/// // Stretched by 1 %: waves run at sqrt(1000 N · 1.01 · 9.81 / (0.00981 N/m)) = 1005 m/s.
/// let line = ElasticLine {
///     span: 50.5.meters(),
///     rise: 0.0.meters(),
///     rest_length: 50.0.meters(),
///     weight: 0.00981.newtons_per_meter(),
///     stretch: Stretch::axial_rigidity(100.0.kilonewtons())?,
/// };
/// let modes = cable_modes(&line, 1)?;
/// assert!((modes.out_of_plane_hz[0] - 9.95).abs() < 0.01);
/// let weightless = ElasticLine { weight: 0.0.newtons_per_meter(), ..line };
/// assert!(cable_modes(&weightless, 1).is_err());
/// # Ok::<(), tautwork::line::LineError>(())
/// ```
///
/// # Source
/// Irvine and Caughey (1974); Irvine (1981), *Cable Structures*, for the inclined line; from memory.
pub fn cable_modes(line: &ElasticLine, count: usize) -> Result<CableModes, LineError> {
    let count = counted(count)?;
    positive("span", line.span)?;
    positive("weight", line.weight)?;
    let solved = solve_elastic(line)?;
    let cable = Shallow::of(line);
    let n_n = solved.h.si() / cable.cos;
    let state = cable.at(n_n);
    let hz = |w: f64| w * state.pace_per_s / (2.0 * PI);
    let along: Vec<f64> = (0..SHAPE_POINTS).map(|i| i as f64 / (SHAPE_POINTS - 1) as f64).collect();
    let sine = |n: usize| along.iter().map(|x| (n as f64 * PI * x).sin()).collect::<Vec<_>>();
    let (mut symmetric_hz, mut symmetric_shape) = (Vec::new(), Vec::new());
    for j in 1..=count {
        let w = symmetric_root(state.lambda2, j)?;
        symmetric_hz.push(hz(w));
        // Eq. (V6), times cos(W/2): no pole in the limit of a string.
        symmetric_shape
            .push(unit(along.iter().map(|x| (0.5 * w).cos() - (w * (x - 0.5)).cos()).collect()));
    }
    let modes = CableModes {
        lambda_squared: Ratio::from_si(state.lambda2),
        sag_ratio: Ratio::from_si(state.sag_ratio),
        chord_tension: Force::from_si(n_n),
        symmetric_hz,
        antisymmetric_hz: (1..=count).map(|n| hz(2.0 * n as f64 * PI)).collect(),
        out_of_plane_hz: (1..=count).map(|n| hz(n as f64 * PI)).collect(),
        first_in_plane: if state.lambda2 > 4.0 * PI * PI {
            FirstInPlane::Antisymmetric
        } else {
            FirstInPlane::Symmetric
        },
        symmetric_shape,
        antisymmetric_shape: (1..=count).map(|n| unit(sine(2 * n))).collect(),
        out_of_plane_shape: (1..=count).map(|n| unit(sine(n))).collect(),
        along,
        notes: solved.notes.into_iter().chain(LineNote::deep(state.sag_ratio)).collect(),
    };
    all_finite(&[state.lambda2, state.sag_ratio, n_n], "sag parameter")?;
    all_finite(&modes.symmetric_hz, "frequency")?;
    all_finite(&modes.out_of_plane_hz, "frequency")?;
    Ok(modes)
}

impl<'a> Shallow<'a> {
    pub fn of(line: &'a ElasticLine) -> Self {
        let chord_m = line.span.si().hypot(line.rise.si());
        Self {
            chord_m,
            cos: line.span.si() / chord_m,
            w_n_per_m: line.weight.si(),
            law: line.stretch.law(),
        }
    }
}

/// Scales a shape so that its largest displacement is 1.
fn unit(shape: Vec<f64>) -> Vec<f64> {
    let most = shape.iter().copied().fold(0.0, |a: f64, b| if b.abs() > a.abs() { b } else { a });
    shape.into_iter().map(|x| x / most).collect()
}
