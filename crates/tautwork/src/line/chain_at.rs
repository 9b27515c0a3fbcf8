//! What is at any place along a chain.

use nalgebra::Vector3;

use super::LineError;
use super::chain::Chain;
use super::chain_state::{ChainProfile, Hung};
use crate::quantity::Invalid;

/// Position, tension, strain and slope of a chain at rest lengths from its near end.
///
/// At a load or joint, what is on its side towards the near end; both sides of a load are in
/// [`solve_chain`](super::solve_chain).
///
/// # Errors
/// As [`solve_chain`](super::solve_chain); [`LineError::Invalid`] for a place off the line.
///
/// # Example
/// ```
/// # use tautwork::line::{Chain, ChainPiece, chain_at};
/// # use tautwork::material::Stretch;
/// # use tautwork::quantity::Words;
/// // Hung on one end only: at half its length a weight of 5 m · 2 N/m is below.
/// let stretch = Stretch::axial_rigidity(1e9.newtons())?;
/// let chain = Chain {
///     near: [0.0.meters(); 3],
///     far: [0.0.meters(), 0.0.meters(), (-10.0 - 1e-7).meters()],
///     pieces: vec![ChainPiece::new(10.0.meters(), 2.0.newtons_per_meter(), stretch)],
///     loads: vec![],
///     samples: 2,
/// };
/// let middle = chain_at(&chain, &[5.0])?;
/// assert!((middle.tension_n[0] - 10.0).abs() < 1e-3 && (middle.z_m[0] + 5.0).abs() < 1e-6);
/// assert!((middle.slope_rad[0].to_degrees() + 90.0).abs() < 1e-9);
/// assert!(chain_at(&chain, &[11.0]).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn chain_at(chain: &Chain, s_m: &[f64]) -> Result<ChainProfile, LineError> {
    let hung = Hung::new(chain)?;
    let total = hung.links.length_m();
    let course = hung.course();
    let mut profile = ChainProfile::default();
    for (i, &s) in s_m.iter().enumerate() {
        if !(0.0..=total).contains(&s) {
            let allowed = format!("from 0 to {total} m");
            return Err(Invalid::new(format!("s_m[{i}]"), s.to_string(), allowed).into());
        }
        profile.push(s, &hung.near_m, &course.before(s));
    }
    finite(profile)
}

/// The same at horizontal positions, given as x: for each, every point of the chain there, from the near
/// end to the far end; none beside the chain.
///
/// A slack line may pass the same x three times. Where a link hangs straight down at x, its ends stand
/// for it.
///
/// # Errors
/// As [`solve_chain`](super::solve_chain); [`LineError::Invalid`] for a position that is no number.
///
/// # Example
/// ```
/// # use tautwork::line::{Chain, ChainPiece, chain_at_x};
/// # use tautwork::material::Stretch;
/// # use tautwork::quantity::Words;
/// let chain = Chain {
///     near: [0.0.meters(); 3],
///     far: [10.0.meters(), 0.0.meters(), 0.0.meters()],
///     pieces: vec![ChainPiece::new(
///         12.0.meters(),
///         2.0.newtons_per_meter(),
///         Stretch::axial_rigidity(1e9.newtons())?,
///     )],
///     loads: vec![],
///     samples: 2,
/// };
/// let [middle, beside] = &chain_at_x(&chain, &[5.0, 11.0])?[..] else { panic!() };
/// assert!((middle.s_m[0] - 6.0).abs() < 1e-9 && middle.slope_rad[0].abs() < 1e-9);
/// assert!(beside.s_m.is_empty());
/// assert!(chain_at_x(&chain, &[f64::NAN]).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn chain_at_x(chain: &Chain, x_m: &[f64]) -> Result<Vec<ChainProfile>, LineError> {
    let hung = Hung::new(chain)?;
    let course = hung.course();
    let mut found = Vec::with_capacity(x_m.len());
    for (i, &x) in x_m.iter().enumerate() {
        if !x.is_finite() {
            return Err(Invalid::new(format!("x_m[{i}]"), x.to_string(), "a finite number").into());
        }
        let mut profile = ChainProfile::default();
        let level_m = x - hung.near_m.x;
        for s in course.crossings_m(&Vector3::x(), level_m, hung.state.scale_m) {
            profile.push(s, &hung.near_m, &course.before(s));
        }
        found.push(finite(profile)?);
    }
    Ok(found)
}

fn finite(profile: ChainProfile) -> Result<ChainProfile, LineError> {
    if profile.is_finite() {
        Ok(profile)
    } else {
        Err(LineError::Overflow { result: "points of the chain" })
    }
}
