//! The way back up: from hanging free under the ring to the lip.

use super::hang::{BODY, RING, net, position};
use super::lines::{Span, distance_m, size};
use super::result::{FramePlan, HaulPlan, HaulStep, MemberPlan};
use crate::anchor::{Frame, FrameMember, HeadRope, frame_forces};
use crate::line::{LineError, NetLine, NetSolution, Node, solve_net};
use crate::pulley::{
    Body, BodyKind, Friction, Ordinary, Rope, Sheave, System, capstan_ratio, ordinary, solve,
};
use crate::quantity::{
    Angle, AxialRigidity, Energy, Force, GRAVITY, Length, LineLoad, Quantity, Words,
};
use crate::rig::{FrameEntry, HaulEntry, HaulSystem, Rig, RigError};
use crate::swing::Polyline;

/// Positions shown on the way.
const STEPS: usize = 15;
/// Shortest rope from the pulley to the jumper, m: a body does not fit closer.
const CLOSEST_M: f64 = 0.5;
const HAUL: &str = "haul rope\n";
const PULLEY: &str = "pulley\n";

/// Solves the haul of the document from where the jumper comes to rest.
pub(super) fn haul(
    rig: &Rig,
    spans: &[Span<'_>],
    ring: [Length; 3],
    rest: [Length; 3],
) -> Result<Option<HaulPlan>, RigError> {
    let Some(haul) = &rig.haul else { return Ok(None) };
    let pulley = match (&rig.frame, haul.pulley) {
        (Some(frame), _) => frame.head,
        (None, Some(pulley)) => pulley,
        (None, None) => return Err(RigError::unsolved("haul", &"no pulley is given")),
    };
    let way = way(rig, spans, haul, pulley, ring, rest)?;
    let worst = way.iter().max_by(|a, b| a.pull.si().total_cmp(&b.pull.si()));
    let Some(worst) = worst else { return Ok(None) };
    let fail = |e: crate::pulley::PulleyError| RigError::unsolved("haul", &e);
    // Edge, then the sheave at the pulley, then the system.
    let edge = capstan_ratio(
        haul.edge_friction.unwrap_or_else(|| 0.0.ratio()),
        haul.edge_wrap.unwrap_or_else(|| 0.0.degrees()),
    )
    .map_err(fail)?;
    let over_edge = Force::from_si(worst.pull.si() * edge.si());
    let friction = Friction::Axle { efficiency_180: haul.sheave_efficiency };
    let redirect = redirect(worst.body, pulley, haul.anchor, friction);
    let behind = solve(&redirect, over_edge).map_err(fail)?.raising.hand;
    let system = solve(&ordinary(system(haul.system), friction), behind).map_err(fail)?;
    let lift_m =
        way.first().map_or(0.0, |s| s.rope_out.si()) - way.last().map_or(0.0, |s| s.rope_out.si());
    let ideal = system.ideal_advantage.si();
    let hand_per_pull = system.raising.hand.si() / worst.pull.si().max(f64::MIN_POSITIVE);
    let work_j: f64 = way
        .windows(2)
        .map(|w| {
            0.5 * (w[0].pull.si() + w[1].pull.si()) * (w[0].rope_out.si() - w[1].rope_out.si())
        })
        .sum::<f64>()
        * hand_per_pull
        * ideal;
    let anchor = system.raising.bodies.iter().find(|b| b.name == "anchor");
    Ok(Some(HaulPlan {
        pull: worst.pull,
        pull_over_edge: over_edge,
        pull_behind_pulley: behind,
        ideal_advantage: system.ideal_advantage,
        actual_advantage: system.actual_advantage,
        hand_force: system.raising.hand,
        holding_force: system.hold.low,
        people_needed: whole(system.raising.hand.si() / haul.pull_each.si()),
        people: haul.people,
        haul_rope: way.first().map_or(worst.rope_out, |s| s.rope_out),
        rope_through_hands: Length::from_si(lift_m * ideal),
        resets: whole(lift_m / haul.throw.si()).saturating_sub(1),
        work: Energy::from_si(work_j),
        system_anchor: anchor.map_or(Force::from_si(0.0), |b| b.resultant),
        frame: rig
            .frame
            .as_ref()
            .map(|frame| frame_plan(frame, haul, &way, behind.si() / worst.pull.si().max(1e-9))),
        steps: way,
    }))
}

/// The next whole number, for people and strokes.
fn whole(x: f64) -> u32 {
    // Small and positive: checked inputs divided by checked inputs.
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    {
        x.ceil().clamp(0.0, 1e6) as u32
    }
}

fn system(system: HaulSystem) -> Ordinary {
    match system {
        HaulSystem::Redirect => Ordinary::Redirect,
        HaulSystem::TwoToOne => Ordinary::TwoToOne,
        HaulSystem::ThreeToOne => Ordinary::ThreeToOne,
        HaulSystem::FourToOne => Ordinary::FourToOne,
        HaulSystem::FiveToOne => Ordinary::FiveToOne,
        HaulSystem::SixToOne => Ordinary::SixToOne,
        HaulSystem::NineToOne => Ordinary::NineToOne,
    }
}

/// Statics of lines, ring, jump ropes and haul rope for a shorter and shorter haul rope, each position
/// sought from the last.
fn way(
    rig: &Rig,
    spans: &[Span<'_>],
    haul: &HaulEntry,
    pulley: [Length; 3],
    ring: [Length; 3],
    rest: [Length; 3],
) -> Result<Vec<HaulStep>, RigError> {
    let cordage = rig.cordage_named(&haul.cordage)?;
    let mut net = net(rig, spans, ring, rest, false)?;
    net.nodes.push(Node {
        name: PULLEY.to_owned(),
        position: pulley,
        fixed: true,
        load: [Force::from_si(0.0); 3],
    });
    net.lines.push(NetLine {
        name: HAUL.to_owned(),
        from: PULLEY.to_owned(),
        to: BODY.to_owned(),
        rest_length: Length::from_si(1.0),
        weight: LineLoad::from_si(cordage.linear_density.si() * GRAVITY),
        stretch: super::gear::stretch(&cordage.stretch)?,
    });
    // From a rope that hangs loose to one that ends with the body level with the lip.
    let from_m = 1.03 * distance_m(&pulley, &rest);
    let to_m = (pulley[2].si() - haul.lip[2].si()).max(CLOSEST_M).min(0.5 * from_m);
    let walls = walls(rig);
    let mut steps = Vec::with_capacity(STEPS);
    for i in 0..STEPS {
        let share = i as f64 / (STEPS - 1) as f64;
        let rope_m = from_m + (to_m - from_m) * share;
        if let Some(line) = net.lines.last_mut() {
            line.rest_length = Length::from_si(rope_m);
        }
        let what = format!("haul with {rope_m:.1} m of rope out");
        let solved = solve_net(&net).map_err(|e: LineError| RigError::unsolved(&what, &e))?;
        for node in &mut net.nodes {
            if let Some(place) = position(&solved, &node.name).filter(|_| !node.fixed) {
                node.position = place;
            }
        }
        steps.push(step(rig, &solved, rope_m, &walls)?);
    }
    Ok(steps)
}

fn step(
    rig: &Rig,
    solved: &NetSolution,
    rope_m: f64,
    walls: &[Polyline],
) -> Result<HaulStep, RigError> {
    let missing = || RigError::unsolved("haul", &"a part is not in the result");
    let rope = solved.lines.iter().find(|l| l.name == HAUL).ok_or_else(missing)?;
    let body = position(solved, BODY).ok_or_else(missing)?;
    let ring = position(solved, RING).ok_or_else(missing)?;
    let jump_ropes = solved.lines.iter().filter(|l| rig.jump.rope.iter().any(|r| r.name == l.name));
    let mut left = [Force::from_si(0.0); 3];
    for line in jump_ropes {
        for (sum, force) in left.iter_mut().zip(line.pull_to) {
            *sum += force;
        }
    }
    let [x, y, z] = rope.pull_from.map(Quantity::si);
    let at = [body[0].si(), body[2].si()];
    let nearest = walls.iter().map(|w| w.distance_m(at)).reduce(f64::min);
    let radius = rig.jumper.radius_or_default().si();
    Ok(HaulStep {
        rope_out: Length::from_si(rope_m),
        pull: rope.tension_from,
        body,
        ring,
        jump_ropes: Force::from_si(size(&left)),
        below_level: Angle::from_si((-z).atan2(x.hypot(y))),
        clearance: nearest.map(|d| Length::from_si(d - radius)),
    })
}

fn walls(rig: &Rig) -> Vec<Polyline> {
    let wall = |t: &crate::rig::TerrainEntry| Polyline {
        name: t.name.clone(),
        corners_m: t.points.iter().map(|p| [p[0].si(), p[1].si()]).collect(),
    };
    rig.terrain.iter().map(wall).collect()
}

/// The sheave that turns the haul rope from the jumper to the system.
fn redirect(
    body: [Length; 3],
    pulley: [Length; 3],
    anchor: [Length; 3],
    friction: Friction,
) -> System {
    let travel = [0, 1, 2].map(|i| pulley[i].si() - body[i].si());
    let at =
        |name: &str, kind, position, travel| Body { name: name.to_owned(), kind, position, travel };
    System {
        bodies: vec![
            at("jumper", BodyKind::Load, body, Some(travel)),
            at("pulley", BodyKind::Anchor, pulley, None),
            at("system", BodyKind::Hand, anchor, None),
        ],
        ropes: vec![Rope {
            name: "haul rope".to_owned(),
            from: "jumper".to_owned(),
            over: vec![Sheave { on: "pulley".to_owned(), friction, wrap: None }],
            to: "system".to_owned(),
        }],
        haul: None,
    }
}

/// Greatest force of each member of the frame over the way. `behind` is the tension behind the pulley
/// over the pull.
fn frame_plan(frame: &FrameEntry, haul: &HaulEntry, way: &[HaulStep], behind: f64) -> FramePlan {
    let rigid = AxialRigidity::from_si(1e7);
    let member = |m: &crate::rig::MemberEntry| FrameMember {
        name: m.name.clone(),
        foot: m.foot,
        axial_rigidity: m.axial_rigidity.unwrap_or(rigid),
    };
    let mut worst: Vec<MemberPlan> = Vec::new();
    let mut load = [Force::from_si(0.0); 3];
    let mut problem = None;
    for step in way {
        let rope = |name: &str, towards, tension_n: f64| HeadRope {
            name: name.to_owned(),
            towards,
            tension: Force::from_si(tension_n),
        };
        let model = Frame {
            head: frame.head,
            legs: frame.leg.iter().map(member).collect(),
            guys: frame.guy.iter().map(member).collect(),
            ropes: vec![
                rope("to the jumper", step.body, step.pull.si()),
                rope("to the system", haul.anchor, behind * step.pull.si()),
            ],
            force: [Force::from_si(0.0); 3],
        };
        let forces = match frame_forces(&model) {
            Ok(forces) => forces,
            // A frame that falls over is a result, not the end of the plan.
            Err(error) => {
                let out = crate::quantity::show(step.rope_out, "m", 1);
                problem.get_or_insert(format!("with {out} of haul rope out: {error}"));
                continue;
            }
        };
        if size(&forces.load) > size(&load) {
            load = forces.load;
        }
        let kinds = [("leg", &forces.legs), ("guy", &forces.guys)];
        for (kind, members) in kinds {
            for m in members {
                match worst.iter_mut().find(|w| w.name == m.name) {
                    Some(w) if m.force > w.force => w.force = m.force,
                    Some(_) => {}
                    None => worst.push(MemberPlan {
                        name: m.name.clone(),
                        kind: kind.to_owned(),
                        force: m.force,
                    }),
                }
            }
        }
    }
    FramePlan { load, members: worst, problem }
}
