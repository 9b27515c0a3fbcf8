//! The loop without friction in numbers: lengths over the loop, forces over the pull.

use nalgebra::{Matrix3, Vector3};

use crate::anchor::bracket::bracket;

/// A loop through points, scaled.
#[derive(Debug, Clone)]
pub(super) struct Cord {
    pub(super) at: Vec<Vector3<f64>>,
    /// Length of a strand to its limiter knot, zero without.
    pub(super) knot: Vec<f64>,
    /// Length of the loop that is there for these points.
    pub(super) length: f64,
    pub(super) ea: f64,
}

/// The loop stretched to a master point.
pub(super) struct Pulled {
    /// Tension of the cordage that runs through the master.
    pub(super) tension: f64,
    /// What reaches each point in a strand, Eq. (A2).
    pub(super) strand: Vec<f64>,
    pub(super) knot_at_master: Vec<bool>,
    pub(super) energy: f64,
}

/// Steps of one stage.
const BUDGET: usize = 200;
/// Aim of the unbalanced force.
const AIM: f64 = 1e-13;
/// Springs to where the master is, over the unbalanced force; they fade as rest comes near.
const FADING: f64 = 1e-2;
/// Steps without a third less force after which rounding is all that is left.
const IDLE: usize = 20;

impl Cord {
    pub(super) fn distances(&self, p: &Vector3<f64>) -> Vec<f64> {
        self.at.iter().map(|a| (a - p).norm()).collect()
    }

    /// Unit vectors from the master to the points.
    pub(super) fn toward(&self, p: &Vector3<f64>) -> Vec<Vector3<f64>> {
        let way = |a: &Vector3<f64>| (a - p).try_normalize(0.0).unwrap_or_else(Vector3::zeros);
        self.at.iter().map(way).collect()
    }

    /// What the loop lacks to reach `p` without tension.
    pub(super) fn missing(&self, p: &Vector3<f64>) -> f64 {
        let reach = self.distances(p).into_iter().zip(&self.knot).map(|(d, b)| 2.0 * d.max(*b));
        reach.sum::<f64>() - self.length
    }

    /// Tensions of the loop at `p` without friction, Eqs. (A1) and (A2).
    pub(super) fn pulled(&self, p: &Vector3<f64>) -> Pulled {
        let d = self.distances(p);
        let mut pulled = Pulled {
            tension: 0.0,
            strand: vec![0.0; d.len()],
            knot_at_master: d.iter().zip(&self.knot).map(|(d, b)| d < b).collect(),
            energy: 0.0,
        };
        if self.missing(p) <= 0.0 {
            return pulled;
        }
        // A knot that comes to the master leaves less cordage for the others, so knots only come, and never all.
        let mut free;
        loop {
            let (mut reach, mut held) = (0.0, 0.0);
            for (i, at_master) in pulled.knot_at_master.iter().enumerate() {
                if *at_master { held += 2.0 * self.knot[i] } else { reach += 2.0 * d[i] }
            }
            free = self.length - held;
            let strain = ((reach - free) / free).max(0.0);
            pulled.tension = self.ea * strain;
            let mut more = false;
            for (i, at_master) in pulled.knot_at_master.iter_mut().enumerate() {
                let comes = !*at_master && d[i] < self.knot[i] * (1.0 + strain);
                more |= comes;
                *at_master |= comes;
            }
            if !more {
                break;
            }
        }
        pulled.energy = 0.5 * pulled.tension * pulled.tension / self.ea * free;
        for (i, at_master) in pulled.knot_at_master.iter().enumerate() {
            let b = self.knot[i];
            pulled.strand[i] = if *at_master {
                // Two strands of length b each.
                let strain = ((d[i] - b) / b).max(0.0);
                pulled.energy += self.ea * strain * strain * b;
                self.ea * strain
            } else {
                pulled.tension
            };
        }
        pulled
    }

    /// Force of the loop on the master.
    pub(super) fn force(&self, p: &Vector3<f64>) -> Vector3<f64> {
        let strands = self.pulled(p).strand;
        self.toward(p).iter().zip(strands).map(|(u, t)| u * (2.0 * t)).sum()
    }

    fn curvature(&self, p: &Vector3<f64>) -> Matrix3<f64> {
        let (d, u, pulled) = (self.distances(p), self.toward(p), self.pulled(p));
        let (mut h, mut slope, mut free) = (Matrix3::zeros(), Vector3::zeros(), self.length);
        for i in 0..d.len() {
            let along = u[i] * u[i].transpose();
            if pulled.knot_at_master[i] {
                free -= 2.0 * self.knot[i];
                if pulled.strand[i] > 0.0 {
                    h += along * (2.0 * self.ea / self.knot[i]);
                }
            } else if pulled.tension > 0.0 {
                slope += u[i] * 2.0;
            }
            if pulled.strand[i] > 0.0 {
                h += (Matrix3::identity() - along) * (2.0 * pulled.strand[i] / d[i]);
            }
        }
        h + slope * slope.transpose() * (self.ea / free)
    }

    /// Rest under a pull of one, Eq. (A5): the place, the unbalanced force and the steps taken.
    pub(super) fn rest(&self, pull: &Vector3<f64>) -> (Vector3<f64>, f64, usize) {
        let middle = self.at.iter().sum::<Vector3<f64>>() / self.at.len() as f64;
        let mut p = middle + pull * 0.5;
        let mut steps = 0;
        // From cordage so soft that it gives a tenth of its length.
        let mut ea = 10.0;
        while ea < 0.5 * self.ea {
            steps += Self { ea, ..self.clone() }.newton(pull, &mut p, 1e-3);
            ea *= 10.0;
        }
        steps += self.newton(pull, &mut p, AIM);
        (p, (self.force(&p) + pull).norm(), steps)
    }

    fn newton(&self, pull: &Vector3<f64>, p: &mut Vector3<f64>, aim: f64) -> usize {
        let (mut best, mut idle, mut taken) = ((f64::INFINITY, *p), 0, 0);
        for step in 0..BUDGET {
            let force = self.force(p) + pull;
            let size = force.norm();
            if size <= aim {
                return step;
            }
            taken = step;
            idle += 1;
            if size < 0.7 * best.0 {
                idle = 0;
                best = (size, *p);
            }
            let h = self.curvature(p);
            let held = h.trace() * 1e-15 + FADING * size.min(1.0);
            let solved = (h + Matrix3::identity() * held).cholesky().map(|c| c.solve(&force));
            let Some(mut way) = solved.filter(|w| idle < IDLE && w.iter().all(|c| c.is_finite()))
            else {
                break;
            };
            if way.norm() > 0.5 {
                way *= 0.5 / way.norm();
            }
            *p += way * self.along(pull, p, &way, -force.dot(&way));
            taken = step + 1;
        }
        if best.0 < (self.force(p) + pull).norm() {
            *p = best.1;
        }
        taken
    }

    /// How much of a step to take: about to where the slope of the energy, which grows along it, is zero.
    fn along(&self, pull: &Vector3<f64>, p: &Vector3<f64>, way: &Vector3<f64>, start: f64) -> f64 {
        bracket(|part| {
            let slope = -(self.force(&(p + way * part)) + pull).dot(way);
            (slope, (0.5 * start..=0.1 * start.abs()).contains(&slope))
        })
    }
}
