//! Which members of a frame act, and with what forces: the kernel.

use nalgebra::{Matrix3, SymmetricEigen, Vector3};

use super::AnchorError;

/// A leg or a guy in SI units.
pub(super) struct Member {
    /// Unit vector of its force on the head.
    pub(super) force_on_head: Vector3<f64>,
    pub(super) length_m: f64,
    pub(super) k_n_per_m: f64,
}

/// Forces of the acting members.
pub(super) struct Acting {
    pub(super) force_n: Vec<f64>,
    pub(super) displacement_m: Vector3<f64>,
    pub(super) residual: f64,
    /// Whether the members that carry load leave a direction without stiffness.
    pub(super) balanced: bool,
}

/// Eigenvalues below this part of the largest count as no stiffness: members whose stiffness differs
/// a millionfold still count.
const RANK: f64 = 1e-11;
/// Forces of the wrong sign below this part of the load are rounding.
const SIGN: f64 = 1e-9;
/// What a result may miss at most, as part of the load; more means stiffness too uneven to solve.
const ACCEPT: f64 = 1e-8;

/// Solves Eqs. (11) and (12) by trying every set of acting members. Sets that hold the head in every
/// direction go first; a set that only balances the load is taken when none does.
pub(super) fn acting(members: &[Member], load_n: &Vector3<f64>) -> Result<Acting, AnchorError> {
    let size_n = load_n.norm();
    let stiffest = members.iter().fold(0.0_f64, |m, s| m.max(s.k_n_per_m));
    let softest = members.iter().fold(f64::INFINITY, |m, s| m.min(s.k_n_per_m));
    if !stiffest.is_finite() || softest <= 0.0 || !(size_n / softest).is_finite() {
        return Err(AnchorError::Overflow { result: "stiffness of a member" });
    }
    let stiffness: Vec<f64> = members.iter().map(|m| m.k_n_per_m / stiffest).collect();
    let direction = load_n / size_n;
    let mut balanced = None;
    for set in 1..1_u32 << members.len() {
        let Some((force, u, full)) = try_set(members, &stiffness, set, &direction) else {
            continue;
        };
        let sum =
            members.iter().zip(&force).fold(direction, |sum, (m, &f)| sum + m.force_on_head * f);
        let found = Acting {
            force_n: force.iter().map(|f| f * size_n).collect(),
            displacement_m: u * (size_n / stiffest),
            residual: sum.norm(),
            balanced: !holds_every_way(members, &stiffness, &force),
        };
        if found.residual > ACCEPT {
            return Err(AnchorError::NotConverged {
                what: "the frame",
                iterations: 1,
                residual: found.residual,
            });
        }
        if full {
            return Ok(found);
        }
        balanced.get_or_insert(found);
    }
    balanced.ok_or(AnchorError::CannotStand)
}

/// Forces, displacement and whether every direction is held, if the members of `set` and no others
/// act under a unit load.
fn try_set(
    members: &[Member],
    stiffness: &[f64],
    set: u32,
    load: &Vector3<f64>,
) -> Option<(Vec<f64>, Vector3<f64>, bool)> {
    let acts = |i: usize| set >> i & 1 == 1;
    let eigen = SymmetricEigen::try_new(sum(members, stiffness, acts), f64::EPSILON, 1000)?;
    let floor = RANK * eigen.eigenvalues.amax();
    let full = eigen.eigenvalues.iter().all(|&v| v > floor);
    let mut u = Vector3::zeros();
    for (value, axis) in eigen.eigenvalues.iter().zip(eigen.eigenvectors.column_iter()) {
        let part = axis.dot(load);
        if *value > floor {
            u += axis * (part / value);
        } else if part.abs() > SIGN {
            return None;
        }
    }
    let mut force = Vec::new();
    for (i, m) in members.iter().enumerate() {
        let f = -stiffness[i] * m.force_on_head.dot(&u);
        let right_sign = if acts(i) { f >= -SIGN } else { f <= SIGN };
        if !right_sign {
            return None;
        }
        force.push(if acts(i) && f > SIGN { f } else { 0.0 });
    }
    Some((force, u, full))
}

/// Stiffness of the head by the members that act.
fn sum(members: &[Member], stiffness: &[f64], acts: impl Fn(usize) -> bool) -> Matrix3<f64> {
    members.iter().enumerate().filter(|(i, _)| acts(*i)).fold(Matrix3::zeros(), |k, (i, m)| {
        k + m.force_on_head * m.force_on_head.transpose() * stiffness[i]
    })
}

fn holds_every_way(members: &[Member], stiffness: &[f64], force: &[f64]) -> bool {
    let k = sum(members, stiffness, |i| force[i] > 0.0);
    SymmetricEigen::try_new(k, f64::EPSILON, 1000)
        .is_some_and(|eigen| eigen.eigenvalues.iter().all(|&v| v > RANK * eigen.eigenvalues.amax()))
}
