//! Rest length of one line of a bundle from its tension while all lines are on.

use nalgebra::Vector3;

use super::LineError;
use super::bundle::{Bundle, BundleLine};
use super::inverse::{LineEnd, bracket, missed, root};
use super::net::vector;
use crate::quantity::check::positive;
use crate::quantity::{Force, Invalid, Length, Quantity, print};

/// Rest length from anchor to anchor at which a line of a bundle has a wanted tension at one end, with
/// every line tied to the ring and a load on it.
///
/// The ring keeps its place along the line: both halves change in the same ratio. The lengths given for
/// that line are where the search starts.
///
/// # Errors
/// [`LineError::Invalid`] for a line that is not there and values out of range;
/// [`LineError::Unreachable`] where no length gives the tension; else as
/// [`solve_bundle`](super::solve_bundle).
///
/// # Example
/// ```
/// use tautwork::line::{BundleLine, LineEnd, bundle_rest_length_for_tension};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadLength, Words};
/// let line = BundleLine {
///     name: "main".to_owned(),
///     near: [0.0.meters(); 3],
///     far: [101.0.meters(), 0.0.meters(), 0.0.meters()],
///     near_length: 50.2.meters(),
///     far_length: 50.2.meters(),
///     weight: 0.0.newtons_per_meter(),
///     stretch: Stretch::axial_rigidity(100.0.kilonewtons())?,
/// };
/// let none = [0.0.newtons(); 3];
/// // Without load, 1 kN is 1 % of strain.
/// let l = bundle_rest_length_for_tension(&[line], "main", 1.0.kilonewtons(), LineEnd::Near, none)?;
/// assert!((l.in_meters() - 100.0).abs() < 1e-6);
/// assert!(bundle_rest_length_for_tension(&[], "main", 1.0.kilonewtons(), LineEnd::Near, none).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn bundle_rest_length_for_tension(
    lines: &[BundleLine],
    line: &str,
    tension: Force,
    end: LineEnd,
    load: [Force; 3],
) -> Result<Length, LineError> {
    let want_n = positive("tension", tension)?;
    let load: Vector3<f64> = vector("load", &load)?;
    let Some(index) = lines.iter().position(|l| l.name == line) else {
        return Err(LineError::Invalid(Invalid::new(
            "line",
            format!("\"{line}\""),
            "the name of a line of the bundle",
        )));
    };
    let halves = (lines[index].near_length.si(), lines[index].far_length.si());
    let at = |ln_share: f64| -> Result<f64, LineError> {
        let share = ln_share.exp();
        let mut changed = lines.to_vec();
        changed[index].near_length = Length::from_si(halves.0 * share);
        changed[index].far_length = Length::from_si(halves.1 * share);
        let mut bundle = Bundle::new(&changed)?;
        bundle.settle(load)?;
        let (near_n, far_n) = bundle.anchor_tensions_n(index);
        Ok(if end == LineEnd::Near { near_n } else { far_n })
    };
    // Fails early and with the right words for lengths that are wrong.
    at(0.0)?;
    let f = |ln_share: f64| at(ln_share).map_or(f64::NAN, |t| (t / want_n).ln().max(-1e3));
    let shown = print(tension);
    let (low, high) = bracket(0.0, f, "tension", &shown)?;
    let ln_share = root(low, high, f).ok_or_else(|| missed("tension", &shown))?;
    if (at(ln_share)? / want_n - 1.0).abs() > 1e-7 {
        return Err(missed("tension", &shown));
    }
    Ok(Length::from_si((halves.0 + halves.1) * ln_share.exp()))
}
