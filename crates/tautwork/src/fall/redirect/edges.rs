//! A rope that runs over several edges to its belay.

use serde::{Deserialize, Serialize};

use super::super::arrest::Stop;
use super::super::edge::{apart_from_span, resultant};
use super::super::{Arrest, Edge, Fall, FallError, Slip};
use crate::quantity::check::{non_negative, positive};
use crate::quantity::{Force, Invalid, Length, Text};

/// A fall over edges.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EdgesFall {
    /// The fall; its rope is the part from the mass to the first edge.
    pub fall: Fall,
    /// The edges from the mass to the belay; the belay rope of each runs to the next one, or to the belay.
    pub edges: Vec<Edge>,
    /// How the belay slips; fixed if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub belay: Option<Slip>,
}

/// A fall over edges: the truth lies between the two ends.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EdgesArrest {
    /// The rope slides without loss.
    pub frictionless: EdgesEnd,
    /// Friction in full at every edge.
    pub full_friction: EdgesEnd,
}

/// One end of the interval.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EdgesEnd {
    /// The fall.
    pub arrest: Arrest,
    /// Tension at the belay at the peak.
    #[serde(with = "Text::<Force>")]
    pub belay_force: Force,
    /// Force on each edge at the peak, Eq. (E3).
    #[serde(with = "crate::quantity::Texts::<Force>")]
    pub edge_loads: Vec<Force>,
    /// How far the belay slipped.
    #[serde(with = "Text::<Length>")]
    pub belay_slip: Length,
}

/// Stops a fall over any number of edges, Eqs. (E1) to (E4).
///
/// # Errors
/// Those of [`arrest_over_edge`](super::super::arrest_over_edge) and
/// [`arrest_with_slip`](super::super::arrest_with_slip).
///
/// # Example
/// ```
/// use tautwork::fall::{Edge, EdgesFall, Fall, arrest_over_edges};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadForce, Words};
///
/// let edge = |belay: f64| Edge { belay_rope: belay.meters(), wrap: 90.0.degrees(), mu: 0.2.ratio() };
/// let mut case = EdgesFall {
///     fall: Fall {
///         mass: 80.0.kilograms(),
///         height: 4.0.meters(),
///         rope: 2.0.meters(),
///         stretch: Stretch::axial_rigidity(20.0.kilonewtons())?,
///         span_stiffness: None,
///     },
///     edges: vec![edge(3.0), edge(5.0)],
///     belay: None,
/// };
/// let ends = arrest_over_edges(&case)?;
/// // Without friction a fall of 4 m on 10 m: 784.8 N + √(784.8² + 2 · 784.8 · 8000) N.
/// assert!((ends.frictionless.arrest.impact_force.in_kilonewtons() - 4.414).abs() < 0.001);
/// case.edges[0].mu = (-0.2).ratio();
/// assert!(arrest_over_edges(&case).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn arrest_over_edges(case: &EdgesFall) -> Result<EdgesArrest, FallError> {
    apart_from_span(&case.fall)?;
    let mut edges = Vec::with_capacity(case.edges.len());
    for (i, edge) in case.edges.iter().enumerate() {
        let within = |invalid: Invalid| invalid.within(&format!("edges[{i}]"));
        let length_m = positive("belay_rope", edge.belay_rope).map_err(within)?;
        let wrap_rad = non_negative("wrap", edge.wrap).map_err(within)?;
        let mu = non_negative("mu", edge.mu).map_err(within)?;
        edges.push((length_m, wrap_rad, mu * wrap_rad));
    }
    let belay = match &case.belay {
        Some(slip) => {
            let within = |invalid: Invalid| invalid.within("belay");
            let force_n = positive("force", slip.force).map_err(within)?;
            Some((force_n, non_negative("travel", slip.travel).map_err(within)?))
        }
        None => None,
    };
    let end = |friction: f64| -> Result<EdgesEnd, FallError> {
        let mut stop = Stop::new(&case.fall)?;
        let mut ratios = vec![1.0];
        let mut exponent = 0.0;
        for (length_m, _, bend) in &edges {
            exponent += friction * bend;
            let ratio = exponent.exp();
            if !ratio.is_finite() {
                return Err(FallError::Overflow { result: "tension ratio over the edges" });
            }
            stop = stop.beyond(*length_m, ratio);
            ratios.push(ratio);
        }
        let last = ratios[ratios.len() - 1];
        let (mut slipped_m, mut held_at_n) = (0.0, None);
        if let Some((force_n, travel_m)) = belay {
            let at_mass_n = force_n * last;
            let (slip_m, at_end) = stop.slip(at_mass_n, travel_m);
            slipped_m = slip_m;
            held_at_n = (slip_m > 0.0 && !at_end).then_some(at_mass_n);
        }
        let arrest = match held_at_n {
            Some(force_n) => stop.report(force_n)?,
            None => stop.arrest()?,
        };
        let peak_n = crate::quantity::Quantity::si(arrest.impact_force);
        let edge_loads = edges
            .iter()
            .zip(ratios.windows(2))
            .map(|((_, wrap_rad, _), r)| {
                let load_n = peak_n / r[0] * resultant(r[0] / r[1], *wrap_rad);
                FallError::finite("edge_loads", load_n)
            })
            .collect::<Result<_, _>>()?;
        Ok(EdgesEnd {
            arrest,
            belay_force: FallError::finite("belay_force", peak_n / last)?,
            edge_loads,
            belay_slip: FallError::finite("belay_slip", slipped_m)?,
        })
    };
    Ok(EdgesArrest { frictionless: end(0.0)?, full_friction: end(1.0)? })
}
