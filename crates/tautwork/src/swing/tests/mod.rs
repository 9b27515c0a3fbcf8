use super::*;
use crate::material::Stretch;
use crate::quantity::*;

mod bad;
mod exact;
mod faults;
mod limits;
mod reference;
mod seek;
mod space;
mod speed;
mod stops;

pub(super) fn at(x: f64, z: f64) -> Place {
    Place { x: x.meters(), y: 0.0.meters(), z: z.meters() }
}

pub(super) fn rope(name: &str, rest: f64, density: f64, response: Response) -> Rope {
    Rope {
        name: name.into(),
        rest_length: rest.meters(),
        linear_density: density.kilograms_per_meter(),
        response,
    }
}

pub(super) fn lossless(ea: f64) -> Response {
    Response::Pair { stiff: ea.newtons(), soft: (0.5 * ea).newtons(), relaxation: None }
}

/// A body on one massless lossless rope from a fixed ring at the origin, without drag.
pub(super) fn plain(exit: Place, rest: f64, ea: f64) -> Jump {
    Jump {
        mass: 80.0.kilograms(),
        drag_area: 0.0.square_meters(),
        exit,
        exit_speed_x: 0.0.meters_per_second(),
        exit_speed_y: 0.0.meters_per_second(),
        exit_speed_z: 0.0.meters_per_second(),
        ropes: vec![rope("rope", rest, 0.0, lossless(ea))],
        lines: vec![],
        stops: vec![],
        ring_mass: 0.0.kilograms(),
        fixed_ring: Some(at(0.0, 0.0)),
        ring_at_exit: None,
        ring_damping: None,
        line_mass_share: None,
        rope_drag_area: None,
        air_density: None,
        wind: None,
        wind_y: None,
        fold: Fold::Neglected,
        faults: vec![],
        walls: vec![],
        body_radius: 0.9.meters(),
        body_length: None,
        launch_zone: None,
        timed_forces: vec![],
        run: Run::Stiff,
        follow: Follow { horizon: 10.0.seconds(), ..Follow::default() },
    }
}

/// The demo rig: lines over 130 m, two jump ropes of 72 m, walls.
pub(super) fn demo() -> Jump {
    let line = |name: &str, rest: f64, density: f64, ea: f64| Line {
        name: name.into(),
        near: at(0.0, 0.0),
        far: at(130.0, -3.0),
        near_length: (0.5 * rest).meters(),
        far_length: (0.5 * rest).meters(),
        linear_density: density.kilograms_per_meter(),
        stretch: Stretch::axial_rigidity(ea.newtons()).unwrap(),
    };
    let pair = Response::Pair {
        stiff: 22.0.kilonewtons(),
        soft: 9.2.kilonewtons(),
        relaxation: Some(0.02.seconds()),
    };
    let wall = |name: &str, points: &[(f64, f64)]| {
        Wall::profile(name, points.iter().map(|p| at(p.0, p.1)).collect())
    };
    Jump {
        mass: 82.0.kilograms(),
        drag_area: 0.55.square_meters(),
        exit: at(2.0, -1.0),
        exit_speed_x: 1.5.meters_per_second(),
        exit_speed_z: 0.3.meters_per_second(),
        ropes: vec![rope("left", 72.0, 0.066, pair.clone()), rope("right", 72.0, 0.066, pair)],
        lines: vec![
            line("main", 127.74, 0.068, 2.5e5),
            line("backup", 132.4, 0.060, 1e4 / 0.071),
            line("rope 1", 133.2, 0.072, 981.0 / 0.033),
            line("rope 2", 133.8, 0.072, 981.0 / 0.033),
        ],
        ring_mass: 2.5.kilograms(),
        fixed_ring: None,
        walls: vec![
            wall(
                "near wall",
                &[
                    (-15.0, 1.0),
                    (1.2, -2.0),
                    (-0.5, -6.0),
                    (-1.0, -30.0),
                    (0.5, -55.0),
                    (4.0, -70.0),
                    (14.0, -88.0),
                ],
            ),
            wall("floor", &[(14.0, -88.0), (30.0, -97.0), (100.0, -98.5), (116.0, -84.0)]),
            wall(
                "far wall",
                &[
                    (116.0, -84.0),
                    (122.0, -70.0),
                    (126.0, -55.0),
                    (127.5, -30.0),
                    (127.0, -6.0),
                    (129.0, -3.6),
                    (140.0, -3.0),
                ],
            ),
        ],
        launch_zone: Some(6.0.meters()),
        timed_forces: vec![2.0.kilonewtons(), 3.0.kilonewtons()],
        follow: Follow::default(),
        ..plain(at(2.0, -1.0), 1.0, 1.0)
    }
}

/// The invented demo rig, solved by an independent planar script: within 10 %, but for the clearances at
/// the far wall, which are a small difference of large numbers: within 25 %.
#[test]
fn the_demo_jump_matches_its_target() {
    let both = outlook(&demo()).unwrap();
    let near = |got: f64, want: f64, part: f64, what: &str| {
        println!("{what}: {got:.3}, target {want}");
        assert!((got / want - 1.0).abs() < part, "{what}: {got}, target {want}");
    };
    near(both.stiff.resultant.value.si(), 3.4e3, 0.1, "stiff peak");
    near(both.soft.resultant.value.si(), 2.9e3, 0.1, "soft peak");
    near(both.stiff.lines[0].near.value.si(), 8.9e3, 0.1, "main, stiff");
    near(both.soft.lines[0].near.value.si(), 8.6e3, 0.1, "main, soft");
    let catch = both.stiff.catch.as_ref().unwrap();
    near(catch.time.si(), 3.1, 0.05, "taut");
    near(catch.drop.si(), 44.0, 0.05, "drop");
    near(catch.speed.si(), 27.0, 0.05, "speed");
    near(both.stiff.top_speed.value.si(), 30.5, 0.05, "top speed");
    near(both.stiff.lowest.value.si(), -86.0, 0.03, "lowest, stiff");
    near(both.soft.lowest.value.si(), -87.6, 0.03, "lowest, soft");
    let far =
        |f: &Flight| f.clearances.iter().find(|c| c.wall == "far wall").unwrap().least.value.si();
    near(far(&both.stiff), 4.6, 0.25, "far wall, stiff");
    near(far(&both.soft), 3.3, 0.25, "far wall, soft");
    let rest = both.soft.rest.as_ref().unwrap();
    near(rest.ring.z.si(), -7.65, 0.05, "ring at rest");
    near(rest.body.z.si(), -81.0, 0.03, "body at rest");
    // The slack lines do not answer in time; the main does in the soft run, and is on the border in the
    // stiff one.
    let slow = |f: &Flight| -> Vec<String> {
        let named = |n: &Note| match n {
            Note::QuasiStaticNotValid { line, .. } => Some(line.clone()),
            _ => None,
        };
        f.notes.iter().filter_map(named).collect()
    };
    assert_eq!(slow(&both.soft), ["backup", "rope 1", "rope 2"]);
    assert!(slow(&both.stiff).ends_with(&slow(&both.soft)));
    assert!(both.stiff.energy.drift.si() < 1e-6, "{:?}", both.stiff.energy.drift);
    println!("steps {} attempts {}", both.stiff.work.steps, both.stiff.work.attempts);
    // A later swing is lower than the first.
    assert!(both.stiff.lowest.value < both.stiff.first_lowest.as_ref().unwrap().value);
    assert_eq!(both.body_force.run, Run::Stiff);
}
