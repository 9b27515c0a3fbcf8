//! How elastic legs and guys share a load: the kernel of Eqs. (F1) to (F5).

use nalgebra::Vector3;

use super::stand::{STANDS, left_over};
use super::stiffness::Factors;
use crate::anchor::AnchorError;

/// A leg or a guy in SI units.
#[derive(Debug, Clone)]
pub(super) struct Member {
    /// Unit vector of its force on the head.
    pub(super) toward: Vector3<f64>,
    pub(super) length_m: f64,
    pub(super) k_n_per_m: f64,
    pub(super) pretension_n: f64,
}

impl Member {
    /// Force at a displacement of the head if it could both push and pull, Eq. (F1) without its limit.
    fn signed(&self, u_m: &Vector3<f64>) -> f64 {
        self.pretension_n - self.k_n_per_m * self.toward.dot(u_m)
    }

    /// Force at a displacement of the head, Eq. (F1).
    pub(super) fn force_at(&self, u_m: &Vector3<f64>) -> f64 {
        self.signed(u_m).max(0.0)
    }

    /// How far a member that does not act is from it, Eq. (F6).
    pub(super) fn gap_m(&self, u_m: &Vector3<f64>) -> f64 {
        (self.toward.dot(u_m) - self.pretension_n / self.k_n_per_m).max(0.0)
    }
}

/// A frame at rest.
#[derive(Debug, Clone)]
pub(super) struct Rest {
    pub(super) force_n: Vec<f64>,
    pub(super) u_m: Vector3<f64>,
    /// Unbalanced force over the size of the load.
    pub(super) residual: f64,
    pub(super) iterations: usize,
    /// Whether the members that carry leave a direction without stiffness.
    pub(super) balanced: bool,
}

/// Rest, or the force that starts to move the head of a frame that falls.
#[derive(Debug, Clone)]
pub(super) enum Outcome {
    Stands(Rest),
    Falls(Vector3<f64>),
}

/// Forces of the wrong sign below this part of the load are rounding.
const SIGN: f64 = 1e-10;
/// What a result may miss at most, as part of the load; more means stiffness too uneven to solve.
const ACCEPT: f64 = 1e-8;
/// Sets of acting members tried. Frames take one to five.
const BUDGET: usize = 200;

/// Rest under a load.
pub(super) fn share(members: &[Member], load_n: &Vector3<f64>) -> Result<Outcome, AnchorError> {
    let load_size = load_n.norm();
    let size_n = members.iter().fold(load_size, |s, m| s.max(m.pretension_n));
    let stiffest = members.iter().fold(0.0_f64, |s, m| s.max(m.k_n_per_m));
    let softest = members.iter().fold(f64::INFINITY, |s, m| s.min(m.k_n_per_m));
    let scale_m = size_n / stiffest;
    if !stiffest.is_finite() || softest <= 0.0 || !(size_n / softest).is_finite() || scale_m <= 0.0
    {
        return Err(AnchorError::Overflow { result: "stiffness of a member" });
    }
    // Sizes near one: forces over the load, displacement over what the stiffest gives under it.
    let scaled: Vec<_> = members
        .iter()
        .map(|m| Member {
            k_n_per_m: m.k_n_per_m / stiffest,
            pretension_n: m.pretension_n / size_n,
            ..m.clone()
        })
        .collect();
    let mut load = load_n / size_n;
    if load_size > 0.0 {
        let towards: Vec<_> = members.iter().map(|m| m.toward).collect();
        let left = left_over(&towards, &(load_n / load_size));
        if left.norm() > STANDS {
            return Ok(Outcome::Falls(left * load_size));
        }
        // What rounding leaves would drive the head away without end.
        load -= left * (load_size / size_n);
    }
    let found = newton(&scaled, &load);
    let residual = (load_n / size_n + sum(members, &found.force)).norm();
    let u_m = found.u * scale_m;
    if residual <= ACCEPT && u_m.iter().all(|u| u.is_finite()) {
        let carrying = |i: usize| found.force[i] > 0.0;
        Ok(Outcome::Stands(Rest {
            balanced: !factors(&scaled, carrying).full(),
            force_n: found.force.iter().map(|f| f * size_n).collect(),
            u_m,
            residual,
            iterations: found.iterations,
        }))
    } else {
        let (what, iterations) = ("the frame", found.iterations);
        Err(AnchorError::NotConverged { what, iterations, residual })
    }
}

struct Found {
    force: Vec<f64>,
    u: Vector3<f64>,
    iterations: usize,
}

fn sum(members: &[Member], force: &[f64]) -> Vector3<f64> {
    members.iter().zip(force).fold(Vector3::zeros(), |sum, (m, f)| sum + m.toward * *f)
}

fn factors(members: &[Member], acts: impl Fn(usize) -> bool) -> Factors {
    Factors::of(
        members
            .iter()
            .enumerate()
            .filter(|(i, _)| acts(*i))
            .map(|(_, m)| m.toward * m.k_n_per_m.sqrt()),
    )
}

/// From set to set of acting members. The energy falls at every step and each set has one least energy, so
/// none comes twice but by rounding; what is found then shows in its residual.
fn newton(members: &[Member], load: &Vector3<f64>) -> Found {
    // All of them, as if they could both push and pull: a place to start from.
    let all = factors(members, |_| true);
    let mut u = all.displacement(&unstretched(members, load, |_| true));
    let mut acts = acting(members, &u);
    for iterations in 1..=BUDGET {
        let stiff = factors(members, |i| acts[i]);
        let rest = unstretched(members, load, |i| acts[i]);
        let mut step = stiff.loose(&rest);
        if step.norm() <= SIGN {
            let target = stiff.displacement(&rest) + stiff.loose(&u);
            if let Some(force) = right(members, &acts, &stiff, &rest, &target) {
                return Found { force, u: target, iterations };
            }
            step = target - u;
        }
        let Some(part) = least(members, load, &u, &step) else { break };
        u += step * part;
        acts = acting(members, &u);
    }
    Found { force: members.iter().map(|m| m.force_at(&u)).collect(), u, iterations: BUDGET }
}

/// What acting members must take up by the displacement: the load and their own pretension.
fn unstretched(
    members: &[Member],
    load: &Vector3<f64>,
    acts: impl Fn(usize) -> bool,
) -> Vector3<f64> {
    let acting = members.iter().enumerate().filter(|(i, _)| acts(*i));
    acting.fold(*load, |sum, (_, m)| sum + m.toward * m.pretension_n)
}

fn acting(members: &[Member], u: &Vector3<f64>) -> Vec<bool> {
    members.iter().map(|m| m.signed(u) > 0.0).collect()
}

/// Forces of the acting set at its own rest, if all have the right sign and the others would not act.
fn right(
    members: &[Member],
    acts: &[bool],
    stiff: &Factors,
    rest: &Vector3<f64>,
    u: &Vector3<f64>,
) -> Option<Vec<f64>> {
    let mut taken = stiff.taken(rest);
    let mut force = Vec::with_capacity(members.len());
    for (m, act) in members.iter().zip(acts) {
        let f = if *act {
            // By factors, not by u: soft members move u so far that stiff ones would lose their digits.
            m.pretension_n - m.k_n_per_m.sqrt() * taken.next()?
        } else {
            m.signed(u)
        };
        if if *act { f < -SIGN } else { f > SIGN } {
            return None;
        }
        force.push(if *act && f > SIGN { f } else { 0.0 });
    }
    Some(force)
}

/// Part of a step at which the energy is least; `None` if it falls without end.
fn least(
    members: &[Member],
    load: &Vector3<f64>,
    u: &Vector3<f64>,
    step: &Vector3<f64>,
) -> Option<f64> {
    // Force and its change along the step.
    let ways: Vec<_> = members
        .iter()
        .map(|m| (m.signed(u), -m.k_n_per_m * m.toward.dot(step), m.k_n_per_m))
        .collect();
    let work = load.dot(step);
    let slope =
        |t: f64| ways.iter().map(|(f, by, k)| (f + by * t).max(0.0) * by / k).sum::<f64>() - work;
    let mut turns: Vec<f64> =
        ways.iter().map(|(f, by, _)| -f / by).filter(|t| *t > 0.0 && t.is_finite()).collect();
    turns.sort_by(f64::total_cmp);
    let (mut from, mut at_from) = (0.0, slope(0.0));
    for turn in turns {
        let at = slope(turn);
        if at >= 0.0 {
            let part = from - at_from * (turn - from) / (at - at_from);
            return part.is_finite().then_some(part);
        }
        (from, at_from) = (turn, at);
    }
    // Beyond the last turn the slope rises evenly, by what acts there.
    let rise: f64 = ways
        .iter()
        .filter(|(f, by, _)| f + by * (from + 1.0).max(2.0 * from) > 0.0)
        .map(|(_, by, k)| by * by / k)
        .sum();
    let part = from - at_from / rise;
    // Where nothing acts any more the energy is level: pretension alone that no leg takes up.
    let level = rise == 0.0 && from > 0.0;
    if level { Some(from) } else { part.is_finite().then_some(part) }
}
