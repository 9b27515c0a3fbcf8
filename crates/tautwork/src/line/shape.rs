//! Where a solved uniform line is lowest, and how far it hangs below its chord.

use nalgebra::Vector3;

use super::planar::{Chord, Planar};
use super::segment::Uniform;

/// Depths of a line whose load is straight down, in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
#[expect(clippy::struct_field_names, reason = "the unit is part of each name")]
pub(crate) struct Sags {
    pub below_chord_m: f64,
    /// Depth of the lowest point below the near end; never negative.
    pub below_near_m: f64,
    /// Horizontal distance of the lowest point from the near end.
    pub lowest_x_m: f64,
}

impl Uniform<'_> {
    /// Position at rest arc length s: across and along the load.
    pub fn place(&self, state: &Planar, s_m: f64) -> (f64, f64) {
        if s_m <= 0.0 {
            return (0.0, 0.0);
        }
        Uniform { rest_m: s_m, ..*self }.reach(state.h_n, state.v0_n)
    }

    pub fn sags(&self, state: &Planar, chord: Chord) -> Sags {
        let (q, l) = (self.q_n_per_m, self.rest_m);
        let mut sags = Sags { below_chord_m: 0.0, below_near_m: 0.0, lowest_x_m: 0.0 };
        if chord.along_m > 0.0 {
            (sags.lowest_x_m, sags.below_near_m) = (chord.across_m, chord.along_m);
        }
        if q == 0.0 {
            return sags;
        }
        if state.v0_n > 0.0 && state.piece.v1_n < 0.0 {
            (sags.lowest_x_m, sags.below_near_m) = self.place(state, state.v0_n / q);
        }
        sags.below_chord_m = if chord.across_m > 0.0 {
            // The line runs parallel to its chord where it is farthest below it.
            let slope = chord.along_m / chord.across_m;
            let s = ((state.v0_n - state.h_n * slope) / q).clamp(0.0, l);
            let (x, depth) = self.place(state, s);
            (depth - slope * x).max(0.0)
        } else if state.v0_n > 0.0 && state.piece.v1_n < 0.0 {
            // Limit of a vanishing span: the lowest point is below the middle of the chord.
            (sags.below_near_m - 0.5 * chord.along_m).max(0.0)
        } else {
            0.0
        };
        sags
    }
}

/// Depth below a chord in space, from its start.
#[derive(Debug, Clone, Copy)]
pub(super) struct BelowChord {
    chord_m: Vector3<f64>,
    level2: f64,
}

impl BelowChord {
    pub fn new(chord_m: Vector3<f64>) -> Self {
        Self { chord_m, level2: chord_m.x * chord_m.x + chord_m.y * chord_m.y }
    }

    /// Vertical distance of a place below the chord; below the middle of one that stands upright.
    pub fn depth_m(&self, place_m: &Vector3<f64>) -> f64 {
        let c = &self.chord_m;
        let share =
            if self.level2 > 0.0 { (place_m.x * c.x + place_m.y * c.y) / self.level2 } else { 0.5 };
        share * c.z - place_m.z
    }

    /// A line is farthest below its chord where it runs across this vector, or at an end.
    pub fn normal(&self) -> Vector3<f64> {
        if self.level2 > 0.0 {
            let c = &self.chord_m;
            Vector3::new(c.x, c.y, 0.0) * (c.z / self.level2) - Vector3::z()
        } else {
            -Vector3::z()
        }
    }
}
