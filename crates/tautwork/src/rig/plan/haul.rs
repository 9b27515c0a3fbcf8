//! The way back up: from hanging free under the ring to the lip.

use super::edges::haul_ratio;
use super::flight::Site;
use super::frame::frame_plan;
use super::gear::stretch;
use super::haul_system::{LEAD_PULLEY, every, redirect, system};
use super::lines::{bundle, distance_m};
use super::result::{HaulPlan, HaulStep};
use crate::material::Stretch;
use crate::pulley::{
    Friction, Haul, HaulWith, Hauls, PulleyError, Shown, WayBack, WayRope, capstan_ratio,
    compare_hauls, diagram, haul_work, ordinary, solve, way_back,
};
use crate::quantity::{
    Angle, AxialRigidity, Energy, Force, GRAVITY, Length, LineLoad, Quantity, Words,
};
use crate::rig::{BodyWord, CordageEntry, HaulEntry, Rig, RigError};

/// Positions shown on the way.
const STEPS: usize = 15;

/// Solves the haul of the document from where the jumper comes to rest.
pub(super) fn haul(
    site: &Site<'_>,
    ring: [Length; 3],
    rest: [Length; 3],
) -> Result<Option<HaulPlan>, RigError> {
    let rig = site.rig;
    let Some(haul) = &rig.haul else { return Ok(None) };
    let pulley = match (&rig.frame, haul.pulley) {
        (Some(frame), _) => frame.head,
        (None, Some(pulley)) => pulley,
        (None, None) => return Err(RigError::unsolved("haul", &"no pulley is given")),
    };
    let way = way(site, haul, pulley, ring, rest)?;
    let worst = way.iter().enumerate().max_by(|a, b| a.1.pull.si().total_cmp(&b.1.pull.si()));
    let Some((worst_at, worst)) = worst else { return Ok(None) };
    // Edge, then the sheave at the pulley, then the system.
    let edge = match haul.edge_wrap {
        Some(wrap) => {
            let friction = haul.edge_friction.unwrap_or_else(|| 0.0.ratio());
            capstan_ratio(friction, wrap).map_err(|e| fail(&e))?
        }
        None => haul_ratio(rig, &way, worst_at)?,
    };
    let over_edge = Force::from_si(worst.pull.si() * edge.si());
    let friction = Friction::Axle { efficiency_180: haul.sheave_efficiency };
    let redirect = redirect(worst.body, pulley, haul.anchor, friction);
    let turn = solve(&redirect, over_edge).map_err(|e| fail(&e))?;
    let behind = turn.raising.hand;
    let turn = turn.raising;
    let lift_m =
        way.first().map_or(0.0, |s| s.rope_out.si()) - way.last().map_or(0.0, |s| s.rope_out.si());
    let strokes = strokes(rig, haul, pulley, behind, [worst.rope_out.si(), lift_m])?;
    let most = haul_work(&strokes).map_err(|e| fail(&e))?;
    let compared = compare(&strokes)?;
    let ideal = most.ideal_advantage.si();
    let hand_per_pull = most.hand_force.si() / worst.pull.si().max(f64::MIN_POSITIVE);
    let work_j: f64 = way
        .windows(2)
        .map(|w| {
            0.5 * (w[0].pull.si() + w[1].pull.si()) * (w[0].rope_out.si() - w[1].rope_out.si())
        })
        .sum::<f64>()
        * hand_per_pull
        * ideal;
    let fixed = |name: &str| match &haul.network {
        Some(network) => network.body.iter().any(|b| b.name == name && b.kind == BodyWord::Anchor),
        None => name == "anchor",
    };
    let anchors = most.bodies.iter().filter(|b| fixed(&b.name));
    let anchor = anchors.max_by(|a, b| a.resultant.si().total_cmp(&b.resultant.si()));
    Ok(Some(HaulPlan {
        pull: worst.pull,
        pull_over_edge: over_edge,
        pull_behind_pulley: behind,
        ideal_advantage: most.ideal_advantage,
        actual_advantage: most.actual_advantage,
        hand_force: most.hand_force,
        holding_force: most.holding_force,
        people_needed: most.people_needed,
        people: haul.people,
        haul_rope: way.first().map_or(worst.rope_out, |s| s.rope_out),
        rope_through_hands: most.rope_through_hands,
        resets: most.resets,
        work: Energy::from_si(work_j),
        system_anchor: anchor.map_or(Force::from_si(0.0), |b| b.resultant),
        lead_pulley: turn
            .bodies
            .iter()
            .find(|b| b.name == LEAD_PULLEY)
            .map_or(Force::from_si(0.0), |b| b.resultant),
        frame: rig
            .frame
            .as_ref()
            .map(|frame| frame_plan(frame, haul, &way, behind.si() / worst.pull.si().max(1e-9))),
        steps: way,
        at_most: most,
        compared,
    }))
}

/// The haul system as drawn: what hangs on which rope, at the greatest pull.
pub(super) fn picture(rig: &Rig, plan: &HaulPlan) -> Result<String, RigError> {
    let Some(haul) = &rig.haul else { return Ok(String::new()) };
    let friction = Friction::Axle { efficiency_180: haul.sheave_efficiency };
    let system = match system(haul)? {
        HaulWith::Ordinary(one) => {
            let mut drawn = ordinary(one, friction);
            let solved = solve(&drawn, plan.pull_behind_pulley).map_err(|e| fail(&e))?;
            // An ordinary system stands anywhere: as far apart as its throw asks.
            if let Some(throw) = solved.throw {
                let scale = haul.throw.si() / throw.load.si();
                for body in &mut drawn.bodies {
                    body.position = body.position.map(|p| Length::from_si(scale * p.si()));
                }
            }
            drawn
        }
        HaulWith::Own(own) => own.system,
    };
    diagram(&system, plan.pull_behind_pulley, Shown::Raising).map_err(|e| fail(&e))
}

fn fail(error: &PulleyError) -> RigError {
    RigError::unsolved("haul", error)
}

/// The haul stroke by stroke, as if its greatest pull lasted all the way. Ropes stretch as they do at that pull.
fn strokes(
    rig: &Rig,
    haul: &HaulEntry,
    pulley: [Length; 3],
    load: Force,
    [out_m, lift_m]: [f64; 2],
) -> Result<Haul, RigError> {
    let stretch = stretch(&rig.cordage_named(&haul.cordage)?.stretch)?;
    let to_system_m = distance_m(&pulley, &haul.anchor);
    let system = system(haul)?;
    let friction = Friction::Axle { efficiency_180: haul.sheave_efficiency };
    Ok(Haul {
        friction: matches!(system, HaulWith::Ordinary(_)).then_some(friction),
        system,
        load,
        lift: Length::from_si(lift_m),
        throw: haul.throw,
        back_slip: haul.back_slip.unwrap_or(Length::from_si(0.0)),
        line_length: Length::from_si(out_m + to_system_m),
        line_rigidity: Some(secant(&stretch, load)?),
        system_rigidity: Some(secant(&stretch, load)?),
        people: haul.people,
        pull_each: haul.pull_each,
        hand_speed: haul.hand_speed_or_default(),
        reset_time: haul.reset_time_or_default(),
    })
}

/// Tension over strain.
fn secant(stretch: &Stretch, tension: Force) -> Result<AxialRigidity, RigError> {
    let strain = stretch.strain(tension).map_err(|e| RigError::unsolved("haul", &e))?;
    Ok(AxialRigidity::from_si(tension.si() / strain.si()))
}

/// The same lift with every ordinary system and the one of the document.
fn compare(haul: &Haul) -> Result<Hauls, RigError> {
    let mut systems: Vec<HaulWith> = every();
    if !systems.contains(&haul.system) {
        systems.push(haul.system.clone());
    }
    let friction = haul.friction.or(Some(Friction::Axle { efficiency_180: 1.0.ratio() }));
    compare_hauls(&Haul { friction, ..haul.clone() }, &systems).map_err(|e| fail(&e))
}

/// The way of the jumper who hangs at rest.
fn way(
    site: &Site<'_>,
    haul: &HaulEntry,
    pulley: [Length; 3],
    ring: [Length; 3],
    rest: [Length; 3],
) -> Result<Vec<HaulStep>, RigError> {
    let rig = site.rig;
    let weight = |cordage: &CordageEntry| LineLoad::from_si(cordage.linear_density.si() * GRAVITY);
    let cordage = rig.cordage_named(&haul.cordage)?;
    let mut ropes = Vec::with_capacity(rig.jump.rope.len());
    for rope in &rig.jump.rope {
        let cordage = rig.cordage_named(&rope.cordage)?;
        ropes.push(WayRope {
            name: rope.name.clone(),
            rest_length: rope.rest_length,
            weight: weight(cordage),
            stretch: stretch(&cordage.stretch)?,
        });
    }
    let way = WayBack {
        lines: bundle(site.spans),
        ring_mass: rig.ring.mass,
        ropes,
        mass: rig.jumper.mass,
        ring,
        body: rest,
        pulley,
        lip: haul.lip,
        // The document gives the turn at the edge itself.
        lip_friction: 0.0.ratio(),
        haul_weight: weight(cordage),
        haul_stretch: stretch(&cordage.stretch)?,
        walls: site.walls().to_vec(),
        body_radius: rig.jumper.radius_or_default(),
        steps: STEPS,
    };
    let places = way_back(&way).map_err(|e| RigError::unsolved("haul", &e))?;
    let m = |column: &[f64], i: usize| Length::from_si(column[i]);
    let step = |i: usize| HaulStep {
        rope_out: m(&places.rope_out_m, i),
        pull: Force::from_si(places.pull_n[i]),
        body: [m(&places.x_m, i), m(&places.y_m, i), m(&places.z_m, i)],
        ring: [m(&places.ring_x_m, i), m(&places.ring_y_m, i), m(&places.ring_z_m, i)],
        jump_ropes: Force::from_si(places.jump_ropes_n[i]),
        below_level: Angle::from_si(places.below_level_rad[i]),
        clearance: places.clearance_m.get(i).copied().map(Length::from_si),
    };
    Ok((0..STEPS).map(step).collect())
}
