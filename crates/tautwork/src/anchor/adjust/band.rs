//! What friction allows: the band of shares.

use nalgebra::{Vector3, Vector4};

use super::model::Model;
use super::slip::{Pattern, Slip, near, rest};
use crate::anchor::AnchorError;

/// What a turn that holds may be beyond its limit, as a logarithm: two patterns meet there.
const EDGE: f64 = 1e-7;
/// Rounds in which one turn after the other slips less.
const ROUNDS: usize = 6;
/// Gain of a share below which a round is the last.
const LITTLE: f64 = 1e-9;

/// Least and greatest share of each point, with what the strands carry.
pub(super) struct Band {
    pub(super) low: Vec<f64>,
    pub(super) high: Vec<f64>,
    pub(super) greatest_force: Vec<f64>,
    pub(super) greatest_strand: f64,
    pub(super) strays: f64,
    pub(super) patterns: usize,
}

impl Band {
    fn take(&mut self, model: &Model, p: &Vector3<f64>, slip: &Slip) {
        for (i, share) in model.shares(&slip.x.xyz(), &slip.strand).into_iter().enumerate() {
            self.low[i] = self.low[i].min(share);
            self.high[i] = self.high[i].max(share);
            let force = slip.strand[2 * i] + slip.strand[2 * i + 1];
            self.greatest_force[i] = self.greatest_force[i].max(force);
        }
        self.greatest_strand = slip.strand.iter().fold(self.greatest_strand, |m, t| m.max(*t));
        self.strays = self.strays.max((slip.x.xyz() - p).norm());
    }
}

/// The band of Eq. (A7) about the rest `p` without friction.
pub(super) fn band(model: &Model, p: &Vector3<f64>) -> Result<Band, AnchorError> {
    let pulled = model.cord.pulled(p);
    let even: Vec<f64> = pulled.strand.iter().flat_map(|t| [*t, *t]).collect();
    let shares = model.shares(p, &even);
    let mut band = Band {
        low: shares.clone(),
        high: shares,
        greatest_force: pulled.strand.iter().map(|t| 2.0 * t).collect(),
        greatest_strand: pulled.tension,
        strays: 0.0,
        patterns: 0,
    };
    if !model.rubs() {
        return Ok(band);
    }
    let start = Vector4::new(p.x, p.y, p.z, pulled.tension.ln());
    let slips = slips(model, &start)?;
    band.patterns = slips.len();
    for (_, slip) in &slips {
        band.take(model, p, slip);
    }
    for i in 0..model.cord.at.len() {
        for sign in [-1.0, 1.0] {
            let value = |slip: &Slip| sign * model.shares(&slip.x.xyz(), &slip.strand)[i];
            let best = slips.iter().map(|s| value(&s.1)).fold(f64::NEG_INFINITY, f64::max);
            // Patterns that differ in the turn that holds alone may be one state; which way leads on differs.
            for (pattern, slip) in slips.iter().filter(|s| value(&s.1) >= best - LITTLE) {
                let slip = climb(model, pattern.clone(), slip.clone(), &value)?;
                band.take(model, p, &slip);
            }
        }
    }
    Ok(band)
}

/// Every pattern of full slip that Eq. (A6) allows, at rest, from the rest without friction.
fn slips(model: &Model, start: &Vector4<f64>) -> Result<Vec<(Pattern, Slip)>, AnchorError> {
    let limits = model.limits(&start.xyz())?;
    let turns = limits.len();
    let mut found = Vec::new();
    for holds in 0..turns {
        for up in (0..1_usize << turns).filter(|up| up >> holds & 1 == 0) {
            let part = (0..turns).map(|t| if up >> t & 1 == 1 { 1.0 } else { -1.0 }).collect();
            let pattern = Pattern { holds, part };
            let over = pattern.logs(&limits).1.abs() - limits[holds];
            // The wraps at the master change as it moves; far beyond the limit they do not change enough.
            if over > 0.2 * limits.iter().sum::<f64>() {
                continue;
            }
            match rest(model, &pattern, start) {
                Ok(slip) if slip.over <= EDGE => found.push((pattern, slip)),
                Ok(_) => {}
                Err(AnchorError::NotConverged { .. }) if over > -EDGE => {}
                Err(error) => return Err(error),
            }
        }
    }
    Ok(found)
}

/// Lets one turn after the other slip less, or hold, as far as that makes `value` greater.
fn climb(
    model: &Model,
    mut pattern: Pattern,
    mut slip: Slip,
    value: &dyn Fn(&Slip) -> f64,
) -> Result<Slip, AnchorError> {
    // Of the golden section.
    const LESS: f64 = 0.381_966_011_250_105_1;
    let turns: Vec<usize> = (0..pattern.part.len()).filter(|t| *t != pattern.holds).collect();
    for _ in 0..ROUNDS {
        let before = value(&slip);
        for &t in &turns {
            let at = |part: f64, from: &Slip| -> Result<Option<Slip>, AnchorError> {
                let mut pattern = pattern.clone();
                pattern.part[t] = part;
                Ok(near(model, &pattern, &from.x)?.filter(|s| s.over <= EDGE))
            };
            let now = pattern.part[t];
            let better =
                |s: &Option<Slip>, than: &Slip| s.as_ref().is_some_and(|s| value(s) > value(than));
            // A little to either side says whether to look at all.
            let side = [now - 1e-4, now + 1e-4].into_iter().filter(|part| part.abs() <= 1.0);
            let mut gains = false;
            for part in side {
                gains |= better(&at(part, &slip)?, &slip);
            }
            if !gains {
                continue;
            }
            let (mut low, mut high) = (-1.0_f64, 1.0_f64);
            let mut best = (now, slip.clone());
            for _ in 0..40 {
                let (a, b) = (low + LESS * (high - low), high - LESS * (high - low));
                let (at_a, at_b) = (at(a, &best.1)?, at(b, &best.1)?);
                let of = |s: &Option<Slip>| s.as_ref().map_or(f64::NEG_INFINITY, value);
                let to_a = match (of(&at_a), of(&at_b)) {
                    // Beyond what is allowed on both sides: towards where it is allowed.
                    (f64::NEG_INFINITY, f64::NEG_INFINITY) => best.0 < 0.5 * (a + b),
                    (a, b) => a > b,
                };
                for (part, found) in [(a, at_a), (b, at_b)] {
                    if let Some(found) = found.filter(|f| value(f) > value(&best.1)) {
                        best = (part, found);
                    }
                }
                if to_a { high = b } else { low = a }
            }
            pattern.part[t] = best.0;
            slip = best.1;
        }
        if value(&slip) - before < LITTLE {
            break;
        }
    }
    Ok(slip)
}
