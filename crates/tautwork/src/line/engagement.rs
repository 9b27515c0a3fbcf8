//! The load at which each line of a bundle begins to carry.

use nalgebra::Vector3;
use serde::{Deserialize, Serialize};

use super::LineError;
use super::bundle::{Bundle, BundleLine};
use super::inverse::root;
use crate::quantity::check::positive;
use crate::quantity::{Force, MaybeText, Quantity};

/// When a line begins to carry.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct BundleEngagement {
    /// Name of the line.
    pub line: String,
    /// Downward load on the ring at which one half of the line is drawn as long as its rest length:
    /// from there on it stretches and carries. Zero if that is so without load, none if it is not so
    /// at the largest load asked for.
    #[serde(with = "MaybeText::<Force>")]
    pub load: Option<Force>,
}

/// The downward load at which each line of a bundle begins to carry, Eq. (16).
///
/// A line hangs loose while the straight distance from each anchor to the ring is below the rest length
/// of that half; then it carries little but its own weight.
///
/// # Errors
/// As [`solve_bundle`](super::solve_bundle); [`LineError::Invalid`] unless `up_to` is above zero.
///
/// # Example
/// ```
/// # use tautwork::line::{BundleLine, bundle_engagement};
/// # use tautwork::material::Stretch;
/// # use tautwork::quantity::{ReadForce, Words};
/// let line = |name: &str, half: f64| -> Result<_, tautwork::material::MaterialError> {
///     Ok(BundleLine {
///         name: name.to_owned(),
///         near: [0.0.meters(); 3],
///         far: [100.0.meters(), 0.0.meters(), 0.0.meters()],
///         near_length: half.meters(),
///         far_length: half.meters(),
///         weight: 0.0.newtons_per_meter(),
///         stretch: Stretch::axial_rigidity(1e5.newtons())?,
///     })
/// };
/// // The backup begins when the main's halves are 51 m long: 2 % of strain, 2 kN, over 10.05 m of sag.
/// let lines = [line("main", 50.0)?, line("backup", 51.0)?];
/// let begins = bundle_engagement(&lines, 10.0.kilonewtons())?;
/// let sag = (51.0_f64 * 51.0 - 50.0 * 50.0).sqrt();
/// assert!((begins[1].load.unwrap().in_newtons() - 2.0 * 2000.0 * sag / 51.0).abs() < 1e-3);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn bundle_engagement(
    lines: &[BundleLine],
    up_to: Force,
) -> Result<Vec<BundleEngagement>, LineError> {
    let most_n = positive("up_to", up_to)?;
    let mut bundle = Bundle::new(lines)?;
    let mut excess = |load_n: f64, line: usize| -> Result<f64, LineError> {
        bundle.settle(Vector3::new(0.0, 0.0, -load_n))?;
        Ok(bundle.slack_taken_up(line))
    };
    let mut begins = Vec::with_capacity(lines.len());
    for (i, line) in lines.iter().enumerate() {
        let load_n = if excess(0.0, i)? >= 0.0 {
            Some(0.0)
        } else if excess(most_n, i)? < 0.0 {
            None
        } else {
            // Rises with the load: one change of sign in the range.
            let f = |share: f64| excess(share * most_n, i).unwrap_or(f64::NAN);
            let found = root(0.0, 1.0, f).map(|share| share * most_n);
            if found.is_none() {
                return Err(LineError::Unreachable {
                    wanted: format!("engagement of {}", line.name),
                    reason: "the ring finds no rest on the way to the largest load".to_owned(),
                });
            }
            found
        };
        begins.push(BundleEngagement { line: line.name.clone(), load: load_n.map(Force::from_si) });
    }
    Ok(begins)
}
