//! The body as a ball or as a capsule, Eq. (T4).

use super::super::Jump;
use super::super::space::{from, size};
use super::wall::Wall;
use crate::quantity::check::non_negative;
use crate::quantity::{Invalid, Length, print};

/// A ball about the tie-in, or a capsule that hangs from it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in super::super) struct Body {
    pub radius_m: f64,
    /// Length of the axis; zero for a ball.
    axis_m: f64,
}

impl Body {
    /// From the figures of a jump or a path, with the names that they have there.
    pub fn new(
        [radius_key, length_key]: [&str; 2],
        radius: Length,
        length: Option<Length>,
    ) -> Result<Self, Invalid> {
        let radius_m = non_negative(radius_key, radius)?;
        let Some(length) = length else { return Ok(Self { radius_m, axis_m: 0.0 }) };
        let axis_m = non_negative(length_key, length)? - 2.0 * radius_m;
        if axis_m >= 0.0 {
            return Ok(Self { radius_m, axis_m });
        }
        let allowed = format!("at least twice the {radius_key}");
        Err(Invalid::new(length_key, print(length), allowed))
    }

    /// The body of a jump.
    pub fn of(jump: &Jump) -> Result<Self, Invalid> {
        Self::new(["body_radius", "body_length"], jump.body_radius, jump.body_length)
    }

    pub fn is_ball(&self) -> bool {
        self.axis_m == 0.0
    }

    /// Ends of the axis: the tie-in, and where it hangs to: away from the ring on a taut rope, else down.
    pub fn axis(&self, tie_m: [f64; 3], ring_m: [f64; 3], taut: bool) -> [[f64; 3]; 2] {
        if self.is_ball() {
            return [tie_m; 2];
        }
        let r = from(tie_m, ring_m);
        let far_m = size(r);
        let up = if taut && far_m > 0.0 { r.map(|r| r / far_m) } else { [0.0, 0.0, 1.0] };
        [tie_m, [0, 1, 2].map(|i| tie_m[i] - self.axis_m * up[i])]
    }

    /// Distance of a wall from the axis, m.
    pub fn away_m(&self, wall: &Wall, [p, q]: [[f64; 3]; 2]) -> f64 {
        if self.is_ball() {
            return wall.away_m(p);
        }
        wall.near_segment(p, q, f64::MAX).map_or(f64::INFINITY, |near| near.away_m)
    }

    /// Whether the body, whose ends came here from `before`, touches a wall.
    pub fn touches(&self, wall: &Wall, before: [[f64; 3]; 2], now: [[f64; 3]; 2]) -> bool {
        let ends = if self.is_ball() { 1 } else { 2 };
        self.away_m(wall, now) <= self.radius_m
            || (0..ends).any(|k| wall.crossed(before[k], now[k]))
    }

    /// Greatest speed of a point of the axis, m/s, at most.
    pub fn speed_m_per_s(&self, [tie, ring]: [f64; 2], distance_m: f64, taut: bool) -> f64 {
        // The direction to the ring turns by no more than both speeds over the distance.
        let turns = taut && !self.is_ball();
        tie + if turns { self.axis_m * (tie + ring) / distance_m } else { 0.0 }
    }

    /// Free height below the lower side of the body, m; none without a wall below.
    pub fn height_m(&self, walls: &[Wall], axis: [[f64; 3]; 2]) -> Option<f64> {
        let below = axis.iter().flat_map(|p| walls.iter().filter_map(|wall| wall.below_m(*p)));
        below.min_by(f64::total_cmp).map(|height_m| (height_m - self.radius_m).max(0.0))
    }
}
