//! Speed of the full jump, and its cost against the number of masses. `benches/python/swing_full.py` flies
//! the single ropes with MuJoCo, under the same names.

#![expect(clippy::unwrap_used, reason = "a bench that cannot run should stop")]

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use tautwork::material::Stretch;
use tautwork::quantity::{Quantity, Words};
use tautwork::swing::{Fold, Follow, Jump, Line, Mesh, Place, Response, Rope, Run, fly_full};

/// Body after 4 s on the single rope of 100 and of 400 masses, m: from steps eight times shorter.
const END_M: [(usize, [f64; 2]); 2] =
    [(100, [48.095_780, -69.118_584]), (400, [48.095_902, -69.118_755])];
/// Distance from it that both this and the twin stay within, m.
const NEAR_M: f64 = 5e-4;

fn at(x: f64, z: f64) -> Place {
    Place { x: x.meters(), y: 0.0.meters(), z: z.meters() }
}

fn rope(name: &str, relaxation: Option<f64>) -> Rope {
    Rope {
        name: name.to_owned(),
        rest_length: 72.0.meters(),
        linear_density: 66.0.grams_per_meter(),
        response: Response::Pair {
            stiff: 22.0.kilonewtons(),
            soft: 9.2.kilonewtons(),
            relaxation: relaxation.map(Words::seconds),
        },
    }
}

/// From a fixed ring on one lossless rope, without drag, for 4 s.
fn single() -> Jump {
    Jump {
        mass: 82.0.kilograms(),
        drag_area: 0.0.square_meters(),
        exit: at(60.0, 0.0),
        exit_speed_x: 0.0.meters_per_second(),
        exit_speed_y: 0.0.meters_per_second(),
        exit_speed_z: 0.0.meters_per_second(),
        ropes: vec![rope("rope", None)],
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
        follow: Follow { horizon: 4.0.seconds(), ..Follow::default() },
    }
}

/// Four lines over 130 m, two jump ropes of 72 m, no walls, for 20 s.
fn jump() -> Jump {
    let line = |name: &str, rest_m: f64, grams: f64, ea_n: f64| Line {
        name: name.to_owned(),
        near: at(0.0, 0.0),
        far: at(130.0, -3.0),
        near_length: (0.5 * rest_m).meters(),
        far_length: (0.5 * rest_m).meters(),
        linear_density: grams.grams_per_meter(),
        stretch: Stretch::axial_rigidity(ea_n.newtons()).unwrap(),
    };
    Jump {
        drag_area: 0.55.square_meters(),
        exit: at(2.0, -1.0),
        exit_speed_x: 1.5.meters_per_second(),
        exit_speed_z: 0.3.meters_per_second(),
        ropes: vec![rope("left", Some(0.02)), rope("right", Some(0.02))],
        lines: vec![
            line("main", 127.74, 68.0, 2.5e5),
            line("backup", 132.4, 60.0, 1.4e5),
            line("rope 1", 133.2, 72.0, 3e4),
            line("rope 2", 133.8, 72.0, 3e4),
        ],
        ring_mass: 2.5.kilograms(),
        fixed_ring: None,
        follow: Follow { horizon: 20.0.seconds(), ..Follow::default() },
        ..single()
    }
}

/// 20 s of the whole rig, with all extremes, energy books and samples.
fn whole_rig(c: &mut Criterion) {
    let jump = jump();
    for (nodes, each) in [(25, 4), (100, 16), (400, 66), (1600, 266)] {
        let mesh = Mesh { nodes_per_line: each, nodes_per_rope: each, ..Mesh::default() };
        let flight = fly_full(&jump, &mesh).unwrap();
        assert!(flight.energy.drift.si() < 1e-3, "{:?}", flight.energy.drift);
        let mut group = c.benchmark_group("full_jump_20s");
        group.sample_size(10);
        group.bench_function(nodes.to_string(), |b| {
            b.iter(|| fly_full(black_box(&jump), &mesh).unwrap().lowest.value.si());
        });
        group.finish();
    }
}

/// 4 s on one rope, as its twin does it.
fn single_rope(c: &mut Criterion) {
    let jump = single();
    for (nodes, end_m) in END_M {
        let mesh = Mesh { nodes_per_rope: nodes, ..Mesh::default() };
        let flight = fly_full(&jump, &mesh).unwrap();
        let (x, z) = (flight.series.x_m.last().unwrap(), flight.series.z_m.last().unwrap());
        let off = (x - end_m[0]).hypot(z - end_m[1]);
        assert!(off < NEAR_M, "{nodes} masses end at {x:.6}, {z:.6}, off by {off:.1e} m");
        let mut group = c.benchmark_group("full_rope_4s");
        group.sample_size(10);
        group.bench_function(nodes.to_string(), |b| {
            b.iter(|| fly_full(black_box(&jump), &mesh).unwrap().lowest.value.si());
        });
        group.finish();
    }
}

criterion_group!(benches, single_rope, whole_rig);
criterion_main!(benches);
