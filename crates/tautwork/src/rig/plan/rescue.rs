//! A jumper who cannot be hauled: a second person, and lowering to the ground.

use super::flight::Site;
use super::gear::rigidities;
use super::lines::{Span, bundle, distance_m, down, size};
use super::result::{LoweringPlan, RescuePlan};
use super::states::loaded;
use crate::pulley::{Climb, Friction, LowerStep, Lowering, climb_bounce, lowering};
use crate::quantity::{Angle, Force, GRAVITY, Length, Mass, Quantity, Stiffness};
use crate::rig::{LoweringEntry, Rig, RigError};
use crate::swing::ready_walls;

/// What a stuck jumper asks of the rig; `ring` and `body` are where they hang at rest.
pub(super) fn rescue(
    site: &Site<'_>,
    ring: [Length; 3],
    body: [Length; 3],
) -> Result<Option<RescuePlan>, RigError> {
    let (rig, spans) = (site.rig, site.spans);
    let Some(entry) = &rig.rescue else { return Ok(None) };
    let (one_n, ring_n) = (rig.jumper.mass.si() * GRAVITY, rig.ring.mass.si() * GRAVITY);
    let two_n = one_n + entry.mass.si() * GRAVITY;
    let at = |load_n: f64, name: &str| loaded(name, spans, down(load_n), ring_n);
    let one = at(one_n, "the jumper at the ring")?;
    let two = at(two_n, "two people at the ring")?;
    let stiffness = under_climber(rig, spans, two_n + ring_n)?;
    let climb = climb_bounce(&Climb {
        mass: Mass::from_si(two_n / GRAVITY),
        stiffness,
        damping_ratio: entry.damping_ratio_or_default(),
        period: entry.climb_period_or_default(),
        amplitude: entry.climb_pull_or_default(),
    })
    .map_err(|e| RigError::unsolved("rescue", &e))?;
    let lowering = entry.lowering.as_ref();
    Ok(Some(RescuePlan {
        lower_by: one.ring[2] - two.ring[2],
        two,
        stiffness,
        climb,
        lowering: lowering
            .map(|entry| down_to_ground(site, entry, [ring, body], [one_n, two_n]))
            .transpose()?,
    }))
}

/// Jump ropes side by side, then the ring on its lines.
fn under_climber(rig: &Rig, spans: &[Span<'_>], load_n: f64) -> Result<Stiffness, RigError> {
    let mut ropes = 0.0;
    for rope in &rig.jump.rope {
        let (_, sudden) = rigidities(rig.cordage_named(&rope.cordage)?)?;
        ropes += sudden.si() / rope.rest_length.si();
    }
    let solved = crate::line::solve_bundle(&bundle(spans.iter()), down(load_n))
        .map_err(|e| RigError::unsolved("rescue", &e))?;
    let ring = solved.stiffness[2].0[2].si();
    Ok(Stiffness::from_si(1.0 / (1.0 / ropes + 1.0 / ring)))
}

/// Over a pulley at the ring: the rope runs along the lines to the device at the edge.
fn down_to_ground(
    site: &Site<'_>,
    entry: &LoweringEntry,
    [ring, body]: [[Length; 3]; 2],
    loads_n: [f64; 2],
) -> Result<LoweringPlan, RigError> {
    let (rig, spans) = (site.rig, site.spans);
    let along = [0, 1, 2].map(|i| entry.device[i] - ring[i]);
    let far_m = distance_m(&entry.device, &ring);
    // The rope turns from straight down, seen from the load, to the device.
    let turn = std::f64::consts::PI - (-along[2].si() / far_m).clamp(-1.0, 1.0).acos();
    let steps = [
        ("pulley at the ring", Friction::Axle { efficiency_180: entry.sheave_efficiency }, turn),
        ("device", Friction::Capstan { mu: entry.device_friction }, entry.device_wrap.si()),
    ];
    let plan = |load_n: f64| {
        let turns = steps.iter().map(|(name, friction, wrap)| LowerStep::Turn {
            name: (*name).to_owned(),
            friction: *friction,
            wrap: Angle::from_si(*wrap),
        });
        let hand = LowerStep::Hand { name: "hand".to_owned(), grip: entry.grip };
        let steps = turns.chain([hand]).collect();
        lowering(&Lowering { load: Force::from_si(load_n), steps })
            .map_err(|e| RigError::unsolved("rescue.lowering", &e))
    };
    let walls = ready_walls(site.walls()).map_err(|e| RigError::unsolved("rescue.lowering", &e))?;
    let p = body.map(Quantity::si);
    let height = walls.iter().filter_map(|w| w.below_m(p)).min_by(f64::total_cmp);
    let down_m = height.map(|h| h + ring[2].si() - p[2]);
    let needed = down_m.map(|down_m| Length::from_si(far_m + down_m));
    let left = needed.map(|needed| entry.rope_length - needed);
    let both_n = loads_n[1];
    // Held still, a pulley without friction has the load's tension on both sides.
    let pull = [0, 1, 2].map(|i| {
        let down_n = if i == 2 { -both_n } else { 0.0 };
        Force::from_si(down_n + both_n * along[i].si() / far_m)
    });
    let ring_n = rig.ring.mass.si() * GRAVITY;
    Ok(LoweringPlan {
        height: height.map(Length::from_si),
        rope_needed: needed,
        rope_left: left,
        reaches: left.is_some_and(|left| left.si() >= 0.0),
        one: plan(loads_n[0])?,
        both: plan(both_n)?,
        on_pulley: Force::from_si(size(&pull)),
        state: loaded("lowering two people", spans, pull, ring_n)?,
    })
}
