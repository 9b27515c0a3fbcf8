//! Anchors under their greatest pull: shares of the legs, and the loss of each.

use super::gear::stretch;
use super::lines::{Span, distance_m, size};
use super::ratings::from_limit;
use super::result::{AnchorPlan, LegLossPlan, LegPlan, WavePlan};
use crate::anchor::{Anchor, Leg, equilibrium, lose_leg};
use crate::line::{HalfLine, RingField};
use crate::quantity::{AxialRigidity, Force, Length, Mass, Quantity, show};
use crate::rig::{AnchorEntry, Rig, RigError};

/// Places of the ring to look at, with where they come from.
pub(super) struct Moment {
    pub ring_m: [f64; 3],
    pub from: String,
}

/// Greatest pull of all lines on each anchor over the moments, and what its legs make of it.
pub(super) fn anchors(
    rig: &Rig,
    spans: &[Span<'_>],
    moments: &[Moment],
    waves: Option<&WavePlan>,
) -> Result<Vec<AnchorPlan>, RigError> {
    let mut field = RingField::new(spans.iter().flat_map(halves).collect());
    let nothing = ([Force::from_si(0.0); 3], "no load");
    let mut worst = vec![nothing; rig.anchor.len()];
    for moment in moments {
        field.force(moment.ring_m).map_err(|e| RigError::unsolved("pull on the anchors", &e))?;
        for (anchor, best) in rig.anchor.iter().zip(&mut worst) {
            let pull = pull_on(&field, spans, &anchor.name);
            if size(&pull) > size(&best.0) {
                *best = (pull, &moment.from);
            }
        }
    }
    let each = rig.anchor.iter().zip(worst);
    each.map(|(anchor, (pull, from))| {
        let peaks = waves.iter().flat_map(|waves| &waves.anchors);
        let snap = peaks.filter(|peak| peak.anchor == anchor.name).map(|peak| &peak.peak);
        match snap.max_by(|a, b| a.extreme.value.si().total_cmp(&b.extreme.value.si())) {
            // As hard as the lines snap, in the direction in which they pull hardest otherwise.
            Some(snap) if snap.extreme.value.si() > size(&pull) && size(&pull) > 0.0 => {
                let more = snap.extreme.value.si() / size(&pull);
                plan(
                    rig,
                    spans,
                    anchor,
                    pull.map(|p| p * more),
                    &from_limit("jump with waves", snap),
                )
            }
            _ => plan(rig, spans, anchor, pull, from),
        }
    })
    .collect()
}

/// Both halves of a line as the ring feels them.
pub(super) fn halves(span: &Span<'_>) -> [HalfLine; 2] {
    let half = |anchor: [Length; 3], length: Length| HalfLine {
        anchor_m: anchor.map(Quantity::si),
        rest_m: length.si(),
        load_n_per_m: [0.0, 0.0, -span.weight().si()],
        law: span.stretch.law().clone(),
    };
    [half(span.near, span.near_length()), half(span.far, span.far_length())]
}

/// Sum of the pulls of the lines that end at an anchor.
fn pull_on(field: &RingField, spans: &[Span<'_>], name: &str) -> [Force; 3] {
    let mut sum = [Force::from_si(0.0); 3];
    for (i, span) in spans.iter().enumerate() {
        for (side, end) in [&span.entry.from, &span.entry.to].into_iter().enumerate() {
            let pull = field.anchor_pull_n(2 * i + side).filter(|_| end == name);
            for (s, p) in sum.iter_mut().zip(pull.unwrap_or_default()) {
                *s += Force::from_si(p);
            }
        }
    }
    sum
}

fn plan(
    rig: &Rig,
    spans: &[Span<'_>],
    anchor: &AnchorEntry,
    pull: [Force; 3],
    from: &str,
) -> Result<AnchorPlan, RigError> {
    let mut plan = AnchorPlan {
        name: anchor.name.clone(),
        pull,
        pull_size: Force::from_si(size(&pull)),
        from: from.to_owned(),
        legs: Vec::new(),
        lost: Vec::new(),
    };
    if anchor.leg.is_empty() || size(&pull) == 0.0 {
        return Ok(plan);
    }
    let model = Anchor { legs: legs(rig, anchor)?, pull };
    let fail = |e| RigError::unsolved(&format!("anchor {}", anchor.name), &e);
    let rest = equilibrium(&model).map_err(fail)?;
    plan.legs = rest
        .legs
        .iter()
        .map(|leg| LegPlan { name: leg.name.clone(), tension: leg.tension, share: leg.share })
        .collect();
    let mass = moving_mass(spans, &anchor.name);
    plan.lost = anchor.leg.iter().map(|leg| loss(&model, &leg.name, mass)).collect();
    Ok(plan)
}

/// What moves with a master point: a third of the lines that end there, as for the ring.
pub(super) fn moving_mass(spans: &[Span<'_>], anchor: &str) -> Mass {
    let ends = spans.iter().filter(|s| s.entry.from == anchor || s.entry.to == anchor);
    Mass::from_si(ends.map(Span::mass_kg).sum::<f64>() / 3.0)
}

fn loss(model: &Anchor, leg: &str, mass: Mass) -> LegLossPlan {
    let mut plan = LegLossPlan {
        leg: leg.to_owned(),
        extension: None,
        worst_tension: None,
        peak_tension: None,
        worst_leg: None,
        verdict: String::new(),
    };
    match lose_leg(model, leg, mass) {
        Ok(lost) => {
            let rest =
                lost.after.legs.iter().max_by(|a, b| a.tension.si().total_cmp(&b.tension.si()));
            let peak = lost.peaks.iter().map(|p| p.tension.si()).fold(0.0, f64::max);
            plan.extension = Some(lost.extension);
            plan.worst_tension = rest.map(|l| l.tension);
            plan.peak_tension = Some(Force::from_si(peak));
            plan.worst_leg = rest.map(|l| l.name.clone());
            plan.verdict = format!(
                "held: extends {}, worst leg {} at rest, {} at the peak",
                show(lost.extension, "m", 2),
                rest.map_or_else(String::new, |l| show(l.tension, "kN", 1)),
                show(Force::from_si(peak), "kN", 1),
            );
        }
        Err(error) => plan.verdict = format!("not held: {error}"),
    }
    plan
}

/// Legs of an anchor as the model takes them.
pub(super) fn legs(rig: &Rig, anchor: &AnchorEntry) -> Result<Vec<Leg>, RigError> {
    let mut legs = Vec::new();
    for leg in &anchor.leg {
        let distance = Length::from_si(distance_m(&leg.fixing, &anchor.position));
        let rigidity = match &leg.cordage {
            Some(name) => {
                let strands = f64::from(leg.strands.unwrap_or(1));
                let law = stretch(&rig.cordage_named(name)?.stretch)?;
                // A curve is taken at its secant to a quarter of the strength: legs are linear.
                let at = Force::from_si(0.25 * leg.strength.si());
                let strain = law.strain(at).map_err(|e| RigError::unsolved("anchor leg", &e))?;
                Some(AxialRigidity::from_si(strands * at.si() / strain.si()))
            }
            None => None,
        };
        legs.push(Leg {
            name: leg.name.clone(),
            fixing: leg.fixing,
            rest_length: leg.rest_length.unwrap_or(distance),
            stiffness: leg.stiffness,
            axial_rigidity: rigidity,
            strength: Some(leg.strength),
        });
    }
    Ok(legs)
}
