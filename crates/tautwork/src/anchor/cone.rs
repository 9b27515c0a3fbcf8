//! Directions of a cone.

use nalgebra::Vector3;

use super::AnchorError;
use crate::quantity::check::{between, count};
use crate::quantity::{Angle, Words};

/// Most directions that are tried.
const MOST: usize = 10_000;

/// Directions about an axis: the axis, then ring by ring.
pub(super) struct Directions {
    half_rad: f64,
    rings: usize,
    around: usize,
}

impl Directions {
    pub(super) fn new(half_angle: Angle, rings: usize, around: usize) -> Result<Self, AnchorError> {
        let half_rad = between("half_angle", half_angle, 0.0.degrees(), 180.0.degrees())?;
        count("rings", rings, 1, MOST)?;
        count("around", around, 3, MOST)?;
        count("rings times around", rings.saturating_mul(around), 3, MOST)?;
        Ok(Self { half_rad, rings, around })
    }

    /// Angle from the axis, angle about it from the level direction to its left, and the direction.
    pub(super) fn about(&self, axis: &Vector3<f64>) -> Vec<(f64, f64, Vector3<f64>)> {
        let level = Vector3::z().cross(axis);
        let side = if level.norm() > 1e-9 { level.normalize() } else { Vector3::y() };
        let up = axis.cross(&side);
        let rings = (1..=self.rings).flat_map(|r| (0..self.around).map(move |a| (r, a)));
        std::iter::once((0, 0))
            .chain(rings)
            .map(|(ring, a)| {
                let off = self.half_rad * ring as f64 / self.rings as f64;
                let turn = core::f64::consts::TAU * a as f64 / self.around as f64;
                let way = axis * off.cos() + (side * turn.cos() + up * turn.sin()) * off.sin();
                (off, turn, way)
            })
            .collect()
    }
}
