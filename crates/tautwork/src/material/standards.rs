//! Axial rigidity from the figures that the rope standards ask for: Eq. (3) to (6).

use crate::quantity::GRAVITY;

/// Fall factor of the EN 892 drop test.
pub(crate) const EN892_FALL_FACTOR: f64 = 1.77;
/// Mass of the EN 892 single-rope test, in kg.
pub(crate) const EN892_MASS_KG: f64 = 80.0;

/// Eq. (3): EN 892 static elongation is the strain from a 5 kg to an 80 kg load.
pub(crate) fn ea_from_en892_static(strain: f64) -> f64 {
    (80.0 - 5.0) * GRAVITY / strain
}

/// Eq. (4): EN 1891 elongation is the strain from a 50 kg to a 150 kg load.
pub(crate) fn ea_from_en1891(strain: f64) -> f64 {
    (150.0 - 50.0) * GRAVITY / strain
}

/// Eq. (5): axial rigidity of the linear rope that stops a fall with this force.
pub(crate) fn ea_from_impact_force(weight_n: f64, fall_factor: f64, force_n: f64) -> f64 {
    force_n * (force_n / weight_n - 2.0) / (2.0 * fall_factor)
}
