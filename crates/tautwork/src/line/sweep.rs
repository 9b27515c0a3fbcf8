//! A bundle under one load after the other.

use nalgebra::Vector3;
use serde::{Deserialize, Serialize};

use super::LineError;
use super::batch::Columns;
use super::bundle::{Bundle, BundleLine, BundleSolution};
use crate::quantity::check::finite;
use crate::quantity::{Force, Quantity};

/// [`solve_bundle`](super::solve_bundle) for one load after the other, each from the state of the last.
///
/// # Errors
/// As [`solve_bundle`](super::solve_bundle); [`LineError::At`] names the index of a load that has no solution.
///
/// # Example
/// ```
/// # use tautwork::line::{BundleLine, sweep_bundle};
/// # use tautwork::material::Stretch;
/// # use tautwork::quantity::{ReadLength, Words};
/// let line = BundleLine {
///     name: "main".to_owned(),
///     near: [0.0.meters(); 3],
///     far: [100.0.meters(), 0.0.meters(), 0.0.meters()],
///     near_length: 50.0.meters(),
///     far_length: 50.0.meters(),
///     weight: 0.0.newtons_per_meter(),
///     stretch: Stretch::axial_rigidity(1e5.newtons())?,
/// };
/// let down = |n: f64| [0.0.newtons(), 0.0.newtons(), (-n).newtons()];
/// let steps = sweep_bundle(&[line], &[down(1e3), down(2e3)])?;
/// assert!(steps[1].ring[2] < steps[0].ring[2]);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn sweep_bundle(
    lines: &[BundleLine],
    loads: &[[Force; 3]],
) -> Result<Vec<BundleSolution>, LineError> {
    let mut bundle = Bundle::new(lines)?;
    let solve = |(i, load): (usize, &[Force; 3])| bundle.solve(*load).map_err(|e| e.at(i));
    loads.iter().enumerate().map(solve).collect()
}

/// Loads of [`sweep_bundle_batch`]: each slice holds one value for each load, or one for all.
#[derive(Debug, Clone, Copy)]
pub struct BundleLoads<'a> {
    /// Along the span, in N.
    pub load_x_n: &'a [f64],
    /// To the left, in N.
    pub load_y_n: &'a [f64],
    /// Up, in N; a weight is negative.
    pub load_z_n: &'a [f64],
}

/// Results of [`sweep_bundle_batch`], one value for each load.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct BundleArrays {
    /// Place of the ring along the span.
    pub ring_x_m: Vec<f64>,
    /// To the left.
    pub ring_y_m: Vec<f64>,
    /// Up.
    pub ring_z_m: Vec<f64>,
    /// Lines in the order of the input.
    pub lines: Vec<BundleLineArrays>,
    /// Force left at the ring over the largest force about.
    pub residual: Vec<f64>,
}

/// One line of a [`BundleArrays`].
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct BundleLineArrays {
    /// Name.
    pub name: String,
    /// Tension at the near anchor.
    pub tension_near_n: Vec<f64>,
    /// Tension at the far anchor.
    pub tension_far_n: Vec<f64>,
    /// Part of the upward force of all lines on the ring, Eq. (15).
    pub share: Vec<f64>,
}

/// [`sweep_bundle`] in SI, for many loads: the ring, tensions and shares only.
///
/// Steps in one direction cost least: each starts from the parabola through the last three.
///
/// # Errors
/// As [`sweep_bundle`]; [`LineError::Invalid`] if the lengths differ.
///
/// # Example
/// ```
/// # use tautwork::line::{BundleLine, BundleLoads, sweep_bundle_batch};
/// # use tautwork::material::Stretch;
/// # use tautwork::quantity::Words;
/// let line = BundleLine {
///     name: "main".to_owned(),
///     near: [0.0.meters(); 3],
///     far: [100.0.meters(), 0.0.meters(), 0.0.meters()],
///     near_length: 50.0.meters(),
///     far_length: 50.0.meters(),
///     weight: 1.0.newtons_per_meter(),
///     stretch: Stretch::axial_rigidity(1e5.newtons())?,
/// };
/// let loads = BundleLoads { load_x_n: &[0.0], load_y_n: &[0.0], load_z_n: &[-1e3, -2e3] };
/// let swept = sweep_bundle_batch(&[line], &loads)?;
/// assert!(swept.ring_z_m[1] < swept.ring_z_m[0]);
/// assert_eq!(swept.lines[0].share, [1.0, 1.0]);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn sweep_bundle_batch(
    lines: &[BundleLine],
    loads: &BundleLoads<'_>,
) -> Result<BundleArrays, LineError> {
    let columns = Columns::new(&[
        ("load_x_n", loads.load_x_n),
        ("load_y_n", loads.load_y_n),
        ("load_z_n", loads.load_z_n),
    ])?;
    let mut bundle = Bundle::new(lines)?;
    let room = || Vec::with_capacity(columns.len());
    let named = |line: &BundleLine| BundleLineArrays {
        name: line.name.clone(),
        tension_near_n: room(),
        tension_far_n: room(),
        share: room(),
    };
    let mut out = BundleArrays {
        ring_x_m: room(),
        ring_y_m: room(),
        ring_z_m: room(),
        lines: lines.iter().map(named).collect(),
        residual: room(),
    };
    for i in 0..columns.len() {
        let mut load_n = Vector3::zeros();
        for (part, (name, value)) in load_n.iter_mut().zip(columns.row(i)) {
            *part = finite(name, Force::from_si(value)).map_err(|e| LineError::from(e).at(i))?;
        }
        let balance = bundle.settle(load_n).map_err(|e| e.at(i))?;
        let ring = bundle.ring_m();
        out.ring_x_m.push(ring.x);
        out.ring_y_m.push(ring.y);
        out.ring_z_m.push(ring.z);
        out.residual.push(balance.residual);
        let up: f64 = bundle.lifts_n().sum();
        for (k, (line, lift)) in out.lines.iter_mut().zip(bundle.lifts_n()).enumerate() {
            let (near, far) = bundle.anchor_tensions_n(k);
            line.tension_near_n.push(near);
            line.tension_far_n.push(far);
            line.share.push(if up == 0.0 { 0.0 } else { lift / up });
        }
    }
    Ok(out)
}
