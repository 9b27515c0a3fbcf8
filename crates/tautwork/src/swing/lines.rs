//! The lines of the document as what holds the ring.

use super::SwingError;
use super::jump::Line;
use super::support::Support;
use crate::line::{HalfLine, RingField};
use crate::quantity::check::{finite, non_negative, positive};
use crate::quantity::{GRAVITY, Invalid, Quantity};

/// Lines from anchors to the ring, in the plane of the jump; line i has halves 2 i and 2 i + 1.
#[derive(Debug, Clone)]
pub(super) struct Lines {
    field: RingField,
    /// Ring position of the present state of the field, so that figures of the lines cost nothing
    /// where the force has just been computed.
    at_m: Option<[f64; 2]>,
    force_n: [f64; 2],
    halves: Vec<Half>,
}

/// What tells whether a half is taut, and its mass.
#[derive(Debug, Clone)]
struct Half {
    anchor_m: [f64; 2],
    rest_m: f64,
    mass_kg: f64,
}

impl Lines {
    pub fn new(lines: &[Line]) -> Result<Self, SwingError> {
        let mut field = Vec::with_capacity(2 * lines.len());
        let mut halves = Vec::with_capacity(2 * lines.len());
        for (i, line) in lines.iter().enumerate() {
            let within = |e: Invalid| e.within(&format!("lines[{i}]"));
            let density = non_negative("linear_density", line.linear_density).map_err(within)?;
            for (key, anchor, length_key, length) in [
                ("near", line.near, "near_length", line.near_length),
                ("far", line.far, "far_length", line.far_length),
            ] {
                let (x, z) = (finite(key, anchor.x), finite(key, anchor.z));
                let (x, z) = (x.map_err(within)?, z.map_err(within)?);
                let rest_m = positive(length_key, length).map_err(within)?;
                halves.push(Half { anchor_m: [x, z], rest_m, mass_kg: density * rest_m });
                field.push(HalfLine {
                    anchor_m: [x, 0.0, z],
                    rest_m,
                    load_n_per_m: [0.0, 0.0, -density * GRAVITY],
                    law: line.stretch.law().clone(),
                });
            }
        }
        Ok(Self { field: RingField::new(field), at_m: None, force_n: [0.0; 2], halves })
    }

    fn solve(&mut self, ring_m: [f64; 2]) -> Result<(), String> {
        if self.at_m == Some(ring_m) {
            return Ok(());
        }
        self.at_m = None;
        let force = self.field.force([ring_m[0], 0.0, ring_m[1]]).map_err(|e| e.to_string())?;
        self.at_m = Some(ring_m);
        self.force_n = [force[0], force[2]];
        Ok(())
    }
}

impl Support for Lines {
    fn force_n(&mut self, ring_m: [f64; 2]) -> Result<[f64; 2], String> {
        self.solve(ring_m)?;
        Ok(self.force_n)
    }

    fn anchors_n(&mut self, ring_m: [f64; 2], line: usize) -> Result<[f64; 2], String> {
        self.solve(ring_m)?;
        let mut halves = self.field.tensions_n().skip(2 * line).map(|(anchor, _)| anchor);
        Ok([halves.next().unwrap_or(0.0), halves.next().unwrap_or(0.0)])
    }

    fn stiffness_n_per_m(&mut self, ring_m: [f64; 2]) -> Result<[f64; 3], String> {
        self.solve(ring_m)?;
        let k = self.field.stiffness_n_per_m();
        Ok([k[0][0], k[0][2], k[2][2]])
    }

    fn taut_kg(&self, ring_m: [f64; 2]) -> f64 {
        let taut =
            |h: &&Half| (ring_m[0] - h.anchor_m[0]).hypot(ring_m[1] - h.anchor_m[1]) >= h.rest_m;
        self.halves.iter().filter(taut).map(|h| h.mass_kg).sum()
    }
}

/// Where the ring of some lines hangs under its weight: a start for the search with ropes.
pub(super) fn hangs_at_m(lines: &[Line], weight_n: f64) -> Result<[f64; 2], SwingError> {
    use crate::line::{BundleLine, solve_bundle};
    use crate::quantity::{Force, Length, LineLoad};
    let zero = Length::from_si(0.0);
    let bundle: Vec<BundleLine> = lines
        .iter()
        .map(|line| BundleLine {
            name: line.name.clone(),
            near: [line.near.x, zero, line.near.z],
            far: [line.far.x, zero, line.far.z],
            near_length: line.near_length,
            far_length: line.far_length,
            weight: LineLoad::from_si(line.linear_density.si() * GRAVITY),
            stretch: line.stretch.clone(),
        })
        .collect();
    let load = [0.0, 0.0, -weight_n].map(Force::from_si);
    let solved = solve_bundle(&bundle, load)
        .map_err(|e| SwingError::contradiction("lines", &e.to_string()))?;
    Ok([solved.ring[0].si(), solved.ring[2].si()])
}
