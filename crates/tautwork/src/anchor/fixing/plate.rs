//! A rigid plate on one-sided springs: the kernel of Eqs. (F7) to (F10).

use nalgebra::{Matrix3, Matrix3x6, Matrix6, SymmetricEigen, Vector3, Vector6};

use crate::anchor::AnchorError;

/// A place where a bolt holds the plate or the rock bears it, in SI units.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spot {
    pub(super) at: Vector3<f64>,
    /// Stiffness against lifting, against pressing, across the normal.
    pub(super) lift: f64,
    pub(super) press: f64,
    pub(super) across: f64,
}

/// Forces of the plate on each spot, and what finding them took.
pub(super) struct Held {
    pub(super) force_n: Vec<Vector3<f64>>,
    pub(super) residual: f64,
    pub(super) iterations: usize,
}

/// Newton steps; each ends at the exact least of its line, so that a few sets of acting spots are seen.
const BUDGET: usize = 200;
/// Stiffness below this part of the largest counts as none.
const RANK: f64 = 1e-12;
/// What the balance may miss, as part of the pull.
const ACCEPT: f64 = 1e-9;
/// What it may miss at most, where stiffness is so uneven that rounding leaves no more digits.
const WORST: f64 = 1e-6;

/// The plate in its own scales: lengths in `size`, forces in the pull, stiffness in the stiffest.
struct Plate {
    normal: Vector3<f64>,
    spots: Vec<Spot>,
    moves: Vec<Matrix3x6<f64>>,
    load: Vector6<f64>,
}

impl Plate {
    /// Force of the plate on spot i for a displacement of the plate, Eqs. (F7) to (F9).
    fn force(&self, i: usize, q: &Vector6<f64>) -> Vector3<f64> {
        let (spot, d) = (&self.spots[i], self.moves[i] * q);
        let lifted = self.normal.dot(&d);
        let stiffness = if lifted > 0.0 { spot.lift } else { spot.press };
        (d - self.normal * lifted) * spot.across + self.normal * (stiffness * lifted)
    }

    /// What is missing in Eq. (F10): pull and moment less those of the spots.
    fn missing(&self, q: &Vector6<f64>) -> Vector6<f64> {
        let held = |sum, i: usize| sum - self.moves[i].transpose() * self.force(i, q);
        (0..self.spots.len()).fold(self.load, held)
    }

    /// What the balance may miss: rounding of displacements, felt by the stiffest spot.
    fn may_miss(q: &Vector6<f64>) -> f64 {
        (16.0 * f64::EPSILON * q.norm()).clamp(ACCEPT, WORST)
    }

    /// Stiffness where each spot's own along the normal is chosen by `of`.
    fn stiffness(&self, of: impl Fn(usize, &Spot) -> f64) -> Matrix6<f64> {
        let along = self.normal * self.normal.transpose();
        let across = Matrix3::identity() - along;
        self.spots.iter().enumerate().fold(Matrix6::zeros(), |sum, (i, spot)| {
            let own = across * spot.across + along * of(i, spot);
            sum + self.moves[i].transpose() * own * self.moves[i]
        })
    }

    fn lifted(&self, i: usize, q: &Vector6<f64>) -> f64 {
        self.normal.dot(&(self.moves[i] * q))
    }

    /// How far to go along a step for the least energy; none if it falls for ever.
    fn reach(&self, q: &Vector6<f64>, step: &Vector6<f64>) -> Option<f64> {
        // Minus the slope of the energy: falls with t, straight between the places where a spot
        // changes from lifting to pressing.
        let drive = |t: f64| step.dot(&self.missing(&(q + step * t)));
        let mut turns: Vec<f64> = (0..self.spots.len())
            .map(|i| -self.lifted(i, q) / self.lifted(i, step))
            .filter(|t| t.is_finite() && *t > 0.0)
            .collect();
        turns.sort_by(f64::total_cmp);
        let (mut t, mut here) = (0.0, drive(0.0));
        for turn in turns {
            let there = drive(turn);
            if there <= 0.0 {
                return Some(if here > there { t + (turn - t) * here / (here - there) } else { t });
            }
            (t, here) = (turn, there);
        }
        // The last piece goes on for ever; its slope is taken over a length like that behind it.
        let ahead = if t > 0.0 { t } else { 1.0 };
        let fall = (here - drive(t + ahead)) / ahead;
        (fall > 1e-14 * step.norm_squared()).then(|| t + here / fall)
    }
}

/// Where the plate rests under a pull, which is not zero, through a point.
pub(super) fn hold(
    normal: Vector3<f64>,
    spots: &[Spot],
    pull_n: &Vector3<f64>,
    at: &Vector3<f64>,
) -> Result<Held, AnchorError> {
    let overflow = AnchorError::Overflow { result: "the scale of the plate" };
    let most = pull_n.amax();
    let pull = most * (pull_n / most).norm();
    let middle = spots.iter().fold(Vector3::zeros(), |sum, s| sum + s.at / spots.len() as f64);
    let furthest = spots.iter().fold(0.0_f64, |m, s| m.max((s.at - middle).amax()));
    let size = furthest.max((at - middle).amax());
    let size = if size > 0.0 { size } else { 1.0 };
    let stiffest = spots.iter().fold(0.0_f64, |m, s| m.max(s.lift).max(s.press).max(s.across));
    let scaled: Vec<Spot> = spots
        .iter()
        .map(|s| Spot {
            at: (s.at - middle) / size,
            lift: s.lift / stiffest,
            press: s.press / stiffest,
            across: s.across / stiffest,
        })
        .collect();
    let (direction, arm) = (pull_n / pull, (at - middle) / size);
    let turn = arm.cross(&direction);
    let plate = Plate {
        normal,
        moves: scaled.iter().map(|s| moves(&s.at)).collect(),
        spots: scaled,
        load: Vector6::new(direction.x, direction.y, direction.z, turn.x, turn.y, turn.z),
    };
    let numbers = plate.load.iter().chain(plate.moves.iter().flatten()).all(|x| x.is_finite());
    if !numbers || !pull.is_finite() {
        return Err(overflow);
    }
    let (q, iterations) = rest(&plate)?;
    let residual = plate.missing(&q).norm();
    // Written so that NaN fails too.
    if residual <= Plate::may_miss(&q) {
        let force_n = (0..spots.len()).map(|i| plate.force(i, &q) * pull).collect();
        Ok(Held { force_n, residual, iterations })
    } else {
        Err(AnchorError::NotConverged { what: "the plate", iterations, residual })
    }
}

fn rest(plate: &Plate) -> Result<(Vector6<f64>, usize), AnchorError> {
    // Every spot acts both ways first: exact where the rule for pressed bolts is that.
    let first = plate.stiffness(|_, spot| spot.lift.max(spot.press));
    let mut q = step(&first, &plate.load)?;
    for iteration in 1..BUDGET {
        let missing = plate.missing(&q);
        if missing.norm() <= 1e-14 {
            return Ok((q, iteration));
        }
        let acts = |i: usize, s: &Spot| if plate.lifted(i, &q) > 0.0 { s.lift } else { s.press };
        let step = step(&plate.stiffness(acts), &missing)?;
        let Some(part) = plate.reach(&q, &step) else {
            // Where nothing resists, rounding alone may still ask for a step.
            return if missing.norm() <= Plate::may_miss(&q) {
                Ok((q, iteration))
            } else {
                Err(AnchorError::NotHeld)
            };
        };
        let next = q + step * part;
        // At the end of the digits no step betters the balance.
        if missing.norm() <= Plate::may_miss(&q) && plate.missing(&next).norm() >= missing.norm() {
            return Ok((q, iteration));
        }
        q = next;
    }
    Ok((q, BUDGET))
}

/// Newton's step; where nothing resists it is long, and the search along it finds what comes to bear.
fn step(stiffness: &Matrix6<f64>, missing: &Vector6<f64>) -> Result<Vector6<f64>, AnchorError> {
    let what = AnchorError::NotConverged { what: "the plate", iterations: 0, residual: 1.0 };
    let eigen = SymmetricEigen::try_new(*stiffness, f64::EPSILON, 1000).ok_or(what)?;
    let floor = RANK * eigen.eigenvalues.amax().max(f64::MIN_POSITIVE);
    let pairs = eigen.eigenvalues.iter().zip(eigen.eigenvectors.column_iter());
    Ok(pairs.fold(Vector6::zeros(), |sum, (value, axis)| {
        sum + axis * (axis.dot(missing) / value.max(floor))
    }))
}

/// Displacement of a place for displacement and turn of the plate, Eq. (F7).
fn moves(r: &Vector3<f64>) -> Matrix3x6<f64> {
    Matrix3x6::new(
        1.0, 0.0, 0.0, 0.0, r.z, -r.y, //
        0.0, 1.0, 0.0, -r.z, 0.0, r.x, //
        0.0, 0.0, 1.0, r.y, -r.x, 0.0,
    )
}
