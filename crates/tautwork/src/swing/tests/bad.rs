//! Any numbers in: an answer of finite numbers or an error, within the budget.

use proptest::prelude::*;

use super::*;

/// Sets one number of a jump.
type Set = fn(&mut Jump, f64);

fn of_pair(response: &mut Response, at: usize, v: f64) {
    if let Response::Pair { stiff, soft, relaxation } = response {
        match at {
            0 => *stiff = v.newtons(),
            1 => *soft = v.newtons(),
            _ => *relaxation = Some(v.seconds()),
        }
    }
}

fn of_solid(response: &mut Response, at: usize, v: f64) {
    *response = Response::Solid {
        long_term: if at == 0 { v } else { 9e3 }.newtons(),
        arm: if at == 1 { v } else { 5e3 }.newtons(),
        relaxation_low: if at == 2 { v } else { 0.02 }.seconds(),
        relaxation_high: if at == 3 { v } else { 0.05 }.seconds(),
    };
}

const SETS: &[Set] = &[
    |j, v| j.mass = v.kilograms(),
    |j, v| j.drag_area = v.square_meters(),
    |j, v| j.exit.x = v.meters(),
    |j, v| j.exit.y = v.meters(),
    |j, v| j.exit.z = v.meters(),
    |j, v| j.exit_speed_x = v.meters_per_second(),
    |j, v| j.exit_speed_y = v.meters_per_second(),
    |j, v| j.exit_speed_z = v.meters_per_second(),
    |j, v| j.ropes[0].rest_length = v.meters(),
    |j, v| j.ropes[0].linear_density = v.kilograms_per_meter(),
    |j, v| of_pair(&mut j.ropes[0].response, 0, v),
    |j, v| of_pair(&mut j.ropes[0].response, 1, v),
    |j, v| of_pair(&mut j.ropes[0].response, 2, v),
    |j, v| of_solid(&mut j.ropes[1].response, 0, v),
    |j, v| of_solid(&mut j.ropes[1].response, 1, v),
    |j, v| of_solid(&mut j.ropes[1].response, 2, v),
    |j, v| of_solid(&mut j.ropes[1].response, 3, v),
    |j, v| j.lines[0].near.x = v.meters(),
    |j, v| j.lines[0].near.y = v.meters(),
    |j, v| j.lines[0].far.z = v.meters(),
    |j, v| j.lines[0].near_length = v.meters(),
    |j, v| j.lines[0].far_length = v.meters(),
    |j, v| j.lines[0].linear_density = v.kilograms_per_meter(),
    |j, v| j.stops[0].anchor.x = v.meters(),
    |j, v| j.stops[0].anchor.y = v.meters(),
    |j, v| j.stops[1].anchor.z = v.meters(),
    |j, v| j.stops[0].travel = v.meters(),
    |j, v| of_pair(&mut j.stops[0].response, 0, v),
    |j, v| of_pair(&mut j.stops[0].response, 2, v),
    |j, v| j.ring_mass = v.kilograms(),
    |j, v| j.ring_at_exit = Some(place(v, 0.5, -4.0)),
    |j, v| j.ring_at_exit = Some(place(64.0, v, -4.0)),
    |j, v| j.ring_at_exit = Some(place(64.0, 0.5, v)),
    |j, v| j.ring_damping = Some(v.newton_seconds_per_meter()),
    |j, v| j.line_mass_share = Some(v.ratio()),
    |j, v| j.rope_drag_area = Some(v.square_meters()),
    |j, v| j.air_density = Some(v.kilograms_per_cubic_meter()),
    |j, v| j.wind = Some(v.meters_per_second()),
    |j, v| j.wind_y = Some(v.meters_per_second()),
    |j, v| j.faults[0].when = When::Time { at: v.seconds() },
    |j, v| j.walls[0].points[0].x = v.meters(),
    |j, v| j.walls[0].points[1].y = v.meters(),
    |j, v| j.walls[0].points[1].z = v.meters(),
    |j, v| j.body_radius = v.meters(),
    |j, v| j.body_length = Some(v.meters()),
    |j, v| j.launch_zone = Some(v.meters()),
    |j, v| j.timed_forces[0] = v.newtons(),
    |j, v| j.follow.horizon = v.seconds(),
    |j, v| j.follow.tolerance = v.ratio(),
    |j, v| j.follow.sample_every = v.seconds(),
    |j, v| j.follow.settled_speed = v.meters_per_second(),
    |j, v| j.follow.settled_force = v.ratio(),
    |j, v| j.follow.settled_for = v.seconds(),
    |j, v| j.fixed_ring = Some(place(v, 0.0, -4.0)),
    |j, v| j.fixed_ring = Some(place(64.0, v, -4.0)),
];

fn place(x: f64, y: f64, z: f64) -> Place {
    Place { x: x.meters(), y: y.meters(), z: z.meters() }
}

/// A jump in space with something of everything, quick to fly.
fn everything() -> Jump {
    let mut jump = demo();
    jump.lines.truncate(1);
    jump.exit.y = 1.0.meters();
    jump.exit_speed_y = 0.4.meters_per_second();
    jump.fold = Fold::Conservative;
    let stop = |name: &str, x: f64| Stop {
        name: name.into(),
        anchor: at(x, -2.0),
        travel: 0.2.meters(),
        response: Response::Pair {
            stiff: 20.0.kilonewtons(),
            soft: 10.0.kilonewtons(),
            relaxation: Some(0.05.seconds()),
        },
    };
    jump.stops = vec![stop("near", 0.0), stop("far", 130.0)];
    let part = Part::Rope { name: "left".into() };
    jump.faults = vec![Fault { part, when: When::Time { at: 1.5.seconds() } }];
    jump.follow.horizon = 3.0.seconds();
    jump.follow.most_steps = 2_000;
    jump
}

fn number() -> impl Strategy<Value = f64> {
    prop_oneof![
        3 => prop::sample::select(vec![
            f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -0.0, -1.0, 1e300, -1e300, 1e-300, 5e-324,
            f64::MAX, f64::MIN, 1e150, 1e15, 1e8, -1e8, 1e-12,
        ]),
        1 => any::<f64>(),
        2 => -100.0..100.0_f64,
    ]
}

/// Nothing in an answer is NaN or infinite.
fn finite(answer: &impl core::fmt::Debug) -> Result<(), TestCaseError> {
    let text = format!("{answer:?}");
    let at = ["NaN", "inf"].iter().find_map(|bad| text.find(bad));
    let around = at.map(|at| &text[at.saturating_sub(200)..at + 3]);
    prop_assert!(around.is_none(), "{around:?}");
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]
    #[test]
    fn any_numbers_give_an_answer_or_an_error(
        changes in prop::collection::vec((0..SETS.len(), number()), 1..3),
        fixed in any::<bool>(),
    ) {
        let mut jump = everything();
        for (set, value) in changes {
            SETS[set](&mut jump, value);
        }
        if fixed {
            jump.lines.clear();
            jump.stops.clear();
            jump.fixed_ring.get_or_insert(at(65.0, -4.0));
        }
        if let Ok(flight) = fly(&jump) {
            finite(&flight)?;
            prop_assert!(flight.energy.lost_in_ropes.si() >= 0.0);
            prop_assert!(flight.series.rope_tension_n.iter().flatten().all(|t| *t >= 0.0));
            prop_assert!(flight.work.attempts <= 2_000);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]
    #[test]
    fn any_question_gives_an_answer_or_an_error(
        which in 0..5_usize, a in number(), b in number(), c in number(),
        changes in prop::collection::vec((0..SETS.len(), number()), 0..2),
    ) {
        let mut jump = everything();
        jump.follow.horizon = 1.5.seconds();
        for (set, value) in changes {
            SETS[set](&mut jump, value);
        }
        jump.lines.clear();
        jump.stops.clear();
        jump.fixed_ring.get_or_insert(at(65.0, -4.0));
        match which {
            0 => rope_length_for_lowest(&jump, a.meters()).map_or(Ok(()), |found| finite(&found))?,
            1 => highest_exit_for_peak(&jump, a.newtons()).map_or(Ok(()), |found| finite(&found))?,
            2 => exits_that_clear(&jump, place(a, b, -1.0), c.meters(), 4)
                .map_or(Ok(()), |found| finite(&found))?,
            3 => {
                let winds = Winds {
                    most: a.meters_per_second(),
                    count: 3,
                    along: b.ratio(),
                    left: c.ratio(),
                    required: 1.0.meters(),
                };
                wind_sweep(&jump, &winds).map_or(Ok(()), |found| finite(&found))?;
            }
            _ => {
                let spread = Spread {
                    count: 3,
                    seed: 5,
                    mass: a.ratio(),
                    rope_stiffness: b.ratio(),
                    drag_area: 0.1.ratio(),
                    exit_speed: c.meters_per_second(),
                    wind: b.meters_per_second(),
                    exit_y: a.meters(),
                };
                envelope(&jump, &spread).map_or(Ok(()), |found| finite(&found))?;
            }
        }
    }
}

// Slack rope longer than the drop: the floor ends the fall, and nothing is computed after it.
#[test]
fn a_rope_longer_than_the_drop_ends_at_the_floor() {
    let mut jump = demo();
    for rope in &mut jump.ropes {
        rope.rest_length = 150.0.meters();
    }
    let flight = fly(&jump).unwrap();
    assert_eq!(flight.ending, Ending::Contact);
    let Some(Event { what: Happening::Contact { wall, speed }, time, .. }) = flight.events.last()
    else {
        panic!("{:?}", flight.events.last())
    };
    assert!((wall == "floor" || wall == "near wall") && speed.si() > 30.0, "{wall} {speed:?}");
    assert_eq!(*time, flight.duration);
    assert!(flight.notes.contains(&Note::NeverTaut));
    // Walls that cross, and one through the path of the body: the first one met ends the run.
    jump.walls.push(Wall::profile("cross", vec![at(-10.0, -90.0), at(60.0, -20.0)]));
    let flight = fly(&jump).unwrap();
    assert!(matches!(&flight.events.last().unwrap().what,
        Happening::Contact { wall, .. } if wall == "cross" || wall == "near wall"));
}
