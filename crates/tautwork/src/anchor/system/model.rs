//! A checked system in SI units.

use std::collections::BTreeMap;

use nalgebra::{DVector, Vector3};

use super::super::AnchorError;
use super::super::knots::{self, End, Link, Rest, place};
use super::super::legs::{unique, vector};
use super::input::{AnchorSystem, PullLine, SystemLeg};
use crate::quantity::check::positive;
use crate::quantity::{Invalid, print};

/// Most legs: the solve is dense.
const MOST_LEGS: usize = 200;

/// A leg: its link, and what governs its strength.
#[derive(Debug, Clone)]
pub(super) struct Leg {
    pub(super) link: Link,
    /// Strength in N and the index of the part.
    pub(super) strength: Option<(f64, usize)>,
    /// Fixed points at its ends, by index.
    pub(super) fixed: [Option<usize>; 2],
}

impl Leg {
    /// Part of the pull that the leg hands to its fixed point, Eq. (S3); none between junctions.
    pub(super) fn share(
        &self,
        tension_n: f64,
        pull_n: &Vector3<f64>,
        x: &DVector<f64>,
    ) -> Option<f64> {
        let toward = self.link.pulled(x).toward;
        let to_fixed = match self.fixed {
            [Some(_), None] => -toward,
            [None, Some(_)] => toward,
            _ => return None,
        };
        let size_n = pull_n.norm();
        if size_n == 0.0 {
            return None;
        }
        // From the junction to the fixed point, against the pull.
        Some(-tension_n / size_n * to_fixed.dot(&(pull_n / size_n)))
    }
}

#[derive(Debug, Clone)]
pub(super) struct Model {
    pub(super) legs: Vec<Leg>,
    /// Strength of each fixed point, N.
    pub(super) fixed_n: Vec<Option<f64>>,
    pub(super) start: DVector<f64>,
    pub(super) pulled: usize,
    pub(super) pull_n: Vector3<f64>,
    /// Stiffness of the line that pulls, N/m, and its length, m.
    line: Option<(f64, f64)>,
    /// That line as one more link, which stands in for the pull; none while the pull is what it is.
    behind: Option<Link>,
}

/// What of a model is left.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Left {
    pub(super) legs: Vec<bool>,
    pub(super) fixed: Vec<bool>,
}

impl Model {
    pub(super) fn new(system: &AnchorSystem) -> Result<Self, AnchorError> {
        let mut ends = BTreeMap::new();
        let names = system.fixed.iter().map(|f| &f.name);
        let names = names.chain(system.junctions.iter().map(|j| &j.name));
        unique(names.chain(system.legs.iter().map(|l| &l.name)))?;
        check_count(system)?;
        let mut fixed_n = Vec::new();
        for (i, point) in system.fixed.iter().enumerate() {
            let at = vector(&format!("{}.position", point.name), point.position)?;
            ends.insert(point.name.as_str(), (End::Fixed(at), Some(i)));
            let strength = point.strength.map(|s| positive("strength", s));
            fixed_n.push(strength.transpose().map_err(|e| e.within(&point.name))?);
        }
        let mut start = DVector::zeros(3 * system.junctions.len());
        for (i, junction) in system.junctions.iter().enumerate() {
            let at = vector(&format!("{}.near", junction.name), junction.near)?;
            start.fixed_rows_mut::<3>(3 * i).copy_from(&at);
            ends.insert(&junction.name, (End::Knot(i), None));
        }
        let legs = system.legs.iter().map(|l| leg(l, &ends)).collect::<Result<_, _>>()?;
        let at = system.junctions.iter().position(|j| j.name == system.pull_at);
        let pulled = at.ok_or_else(|| AnchorError::UnknownPoint {
            leg: "pull_at".to_owned(),
            name: system.pull_at.clone(),
        })?;
        let pull_n = vector("pull", system.pull)?;
        if pull_n.amax() == 0.0 {
            return Err(AnchorError::NoPull);
        }
        if !pull_n.norm().is_normal() {
            return Err(AnchorError::Overflow { result: "the size of the pull" });
        }
        let line =
            system.line.as_ref().map(|line| checked_line(line, pull_n.norm())).transpose()?;
        Ok(Self { legs, fixed_n, start, pulled, pull_n, line, behind: None })
    }

    /// The model and its rest before anything is lost; from then on the line, if there is one, pulls, Eq. (S9).
    pub(super) fn at_rest(system: &AnchorSystem) -> Result<(Self, Rest), AnchorError> {
        let mut model = Self::new(system)?;
        let rest = model.rest(&model.whole())?;
        let from = place(&rest.x, model.pulled);
        model.behind = model.line.map(|(k_n_per_m, length_m)| Link {
            from: End::Knot(model.pulled),
            to: End::Fixed(from + model.pull_n.normalize() * length_m),
            rest_m: length_m - model.pull_n.norm() / k_n_per_m,
            k_n_per_m,
        });
        Ok((model, rest))
    }

    /// What pulls with all junctions at `x`, N: it may be nothing where the line has gone slack.
    pub(super) fn pull_at_n(&self, x: &DVector<f64>) -> Vector3<f64> {
        let drawn = |line: &Link| line.pulled(x).toward * line.tension_n(x);
        self.behind.as_ref().map_or(self.pull_n, drawn)
    }

    /// The part of the pull that does not fall: all of it without a line.
    pub(super) fn steady_n(&self) -> Vector3<f64> {
        if self.behind.is_some() { Vector3::zeros() } else { self.pull_n }
    }

    pub(super) fn whole(&self) -> Left {
        Left { legs: vec![true; self.legs.len()], fixed: vec![true; self.fixed_n.len()] }
    }

    /// Links of the legs that are left, with their indices; behind them that of the line, if it pulls.
    pub(super) fn links(&self, left: &Left) -> (Vec<usize>, Vec<Link>) {
        let which = self.left(left);
        let mut links: Vec<Link> = which.iter().map(|i| self.legs[*i].link).collect();
        links.extend(self.behind);
        (which, links)
    }

    /// Legs that are left, with both ends.
    fn left(&self, left: &Left) -> Vec<usize> {
        let holds = |leg: &Leg| leg.fixed.iter().flatten().all(|f| left.fixed[*f]);
        let held = self.legs.iter().enumerate().filter(|(i, leg)| left.legs[*i] && holds(leg));
        held.map(|(i, _)| i).collect()
    }

    /// Whether a path of legs leads from the pull to a fixed point.
    pub(super) fn holds(&self, left: &Left) -> bool {
        let links: Vec<Link> = self.left(left).into_iter().map(|i| self.legs[i].link).collect();
        let mut seen = vec![false; self.start.len() / 3];
        let mut next = vec![self.pulled];
        while let Some(knot) = next.pop() {
            if std::mem::replace(&mut seen[knot], true) {
                continue;
            }
            for link in &links {
                let other = match (link.from, link.to) {
                    (End::Knot(a), end) | (end, End::Knot(a)) if a == knot => end,
                    (end, End::Knot(b)) if b == knot => end,
                    _ => continue,
                };
                match other {
                    End::Fixed(_) => return true,
                    End::Knot(i) => next.push(i),
                }
            }
        }
        false
    }

    pub(super) fn loads_n(&self) -> DVector<f64> {
        let mut loads = DVector::zeros(self.start.len());
        loads.fixed_rows_mut::<3>(3 * self.pulled).copy_from(&self.steady_n());
        loads
    }

    /// Rest of what is left, Eq. (S2).
    pub(super) fn rest(&self, left: &Left) -> Result<Rest, AnchorError> {
        if !self.holds(left) {
            return Err(AnchorError::NoPath);
        }
        let (_, links) = self.links(left);
        knots::rest(&links, &self.loads_n(), Some(&self.start), self.pull_n.norm())
    }

    /// Tension of each leg, N; zero for those that are lost.
    pub(super) fn tensions_n(&self, left: &Left, x: &DVector<f64>) -> Vec<f64> {
        let mut tensions = vec![0.0; self.legs.len()];
        let (which, links) = self.links(left);
        for (i, link) in which.into_iter().zip(links) {
            tensions[i] = link.tension_n(x);
        }
        tensions
    }

    /// Force of the legs on each fixed point, N.
    pub(super) fn on_fixed_n(&self, tensions_n: &[f64], x: &DVector<f64>) -> Vec<Vector3<f64>> {
        let mut sums = vec![Vector3::zeros(); self.fixed_n.len()];
        for (leg, tension_n) in self.legs.iter().zip(tensions_n) {
            let toward = leg.link.pulled(x).toward;
            // Away from the fixed point, along the leg.
            for (fixed, away) in leg.fixed.iter().zip([toward, -toward]) {
                if let Some(i) = *fixed {
                    sums[i] += away * *tension_n;
                }
            }
        }
        sums
    }

    /// Loads over strengths: of legs, then of fixed points; zero where no strength is given.
    pub(super) fn uses(&self, left: &Left, x: &DVector<f64>) -> (Vec<f64>, Vec<f64>) {
        let tensions = self.tensions_n(left, x);
        let on_fixed = self.on_fixed_n(&tensions, x);
        let legs = self.legs.iter().zip(&tensions);
        let legs = legs.map(|(leg, t)| leg.strength.map_or(0.0, |(s, _)| t / s));
        let fixed = self.fixed_n.iter().zip(&on_fixed);
        let fixed = fixed.map(|(s, f)| s.map_or(0.0, |s| f.norm() / s));
        (legs.collect(), fixed.collect())
    }
}

/// Stiffness and length of the line that pulls.
fn checked_line(line: &PullLine, pull_n: f64) -> Result<(f64, f64), AnchorError> {
    let within = |e: Invalid| e.within("line");
    let k_n_per_m = positive("stiffness", line.stiffness).map_err(within)?;
    let length_m = positive("length", line.length).map_err(within)?;
    let stretch_m = pull_n / k_n_per_m;
    // Written so that NaN fails too.
    if length_m > stretch_m {
        return Ok((k_n_per_m, length_m));
    }
    let allowed = format!("longer than pull over stiffness, {stretch_m:e} m");
    Err(Invalid::new("line.length", print(line.length), allowed).into())
}

fn check_count(system: &AnchorSystem) -> Result<(), AnchorError> {
    let few = |what| AnchorError::TooFew { what, found: 0, least: 1 };
    if system.fixed.is_empty() {
        return Err(few("fixed points"));
    }
    if system.legs.is_empty() {
        return Err(few("legs"));
    }
    let found = system.legs.len().max(system.junctions.len()).max(system.fixed.len());
    if found > MOST_LEGS {
        return Err(AnchorError::TooMany { found, most: MOST_LEGS });
    }
    Ok(())
}

fn leg(leg: &SystemLeg, ends: &BTreeMap<&str, (End, Option<usize>)>) -> Result<Leg, AnchorError> {
    let within = |e: Invalid| e.within(&leg.name);
    let end = |name: &String| {
        ends.get(name.as_str())
            .copied()
            .ok_or_else(|| AnchorError::UnknownPoint { leg: leg.name.clone(), name: name.clone() })
    };
    let (from, from_fixed) = end(&leg.from)?;
    let (to, to_fixed) = end(&leg.to)?;
    if leg.from == leg.to || (from_fixed.is_some() && to_fixed.is_some()) {
        return Err(AnchorError::NoWay { leg: leg.name.clone() });
    }
    let rest_m = positive("rest_length", leg.rest_length).map_err(within)?;
    let (mut give, mut strength) = (0.0, None::<(f64, usize)>);
    for (i, part) in leg.parts.iter().enumerate() {
        let within = |e: Invalid| e.within(&format!("{}.{}", leg.name, part.name));
        if let Some(k) = part.stiffness {
            give += 1.0 / positive("stiffness", k).map_err(within)?;
        }
        if let Some(s) = part.strength {
            let s = positive("strength", s).map_err(within)?;
            if strength.is_none_or(|(least, _)| s < least) {
                strength = Some((s, i));
            }
        }
    }
    if give == 0.0 {
        return Err(AnchorError::NoStiffness { leg: leg.name.clone() });
    }
    let link = Link { from, to, rest_m, k_n_per_m: 1.0 / give };
    Ok(Leg { link, strength, fixed: [from_fixed, to_fixed] })
}
