//! What a foot does to the ground: Eq. (F7).

use nalgebra::Vector3;

use super::checked::CheckedLeg;

/// Force of a foot on the ground, split at the ground's surface.
#[derive(Debug, Clone, Copy)]
pub(super) struct Footing {
    /// The whole of it.
    pub(super) on_ground_n: Vector3<f64>,
    /// Out of the ground.
    pub(super) normal: Vector3<f64>,
    /// Its part into the ground.
    pub(super) bearing_n: f64,
    /// Its part along the ground: the thrust.
    pub(super) along_n: Vector3<f64>,
}

impl Footing {
    /// A foot of a leg that pushes the head along `toward`.
    pub(super) fn of(leg: &CheckedLeg, toward: &Vector3<f64>, force_n: f64) -> Self {
        let on_ground_n = toward * -force_n - Vector3::z() * leg.half_weight_n;
        let bearing_n = -on_ground_n.dot(&leg.normal);
        let along_n = on_ground_n + leg.normal * bearing_n;
        Self { on_ground_n, normal: leg.normal, bearing_n, along_n }
    }

    /// Coefficient of friction needed; none where the ground is not pressed.
    pub(super) fn friction(&self) -> Option<f64> {
        let friction = self.along_n.norm() / self.bearing_n;
        (self.bearing_n > 0.0 && friction.is_finite()).then_some(friction)
    }
}
