//! Speed of the reduced jump. `benches/python/swing.py` does the same work with SciPy, under the same
//! name.

#![expect(clippy::unwrap_used, reason = "a bench that cannot run should stop")]

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use tautwork::material::Stretch;
use tautwork::quantity::{Quantity, Words};
use tautwork::swing::{Fold, Follow, Jump, Jumps, Line, Place, Response, Rope, Run};

/// Body and ring after 20 s as SciPy finds them at a tolerance of 1e-10: x, z, ring x, ring z.
const END_M: [f64; 4] = [19.372_076_71, -65.727_428_81, 64.791_203_95, -7.719_512_09];

fn at(x: f64, z: f64) -> Place {
    Place { x: x.meters(), y: 0.0.meters(), z: z.meters() }
}

/// Four lines over 130 m, two jump ropes of 72 m, no walls.
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
    let rope = |name: &str| Rope {
        name: name.to_owned(),
        rest_length: 72.0.meters(),
        linear_density: 66.0.grams_per_meter(),
        response: Response::Pair {
            stiff: 22.0.kilonewtons(),
            soft: 9.2.kilonewtons(),
            relaxation: Some(0.02.seconds()),
        },
    };
    Jump {
        mass: 82.0.kilograms(),
        drag_area: 0.55.square_meters(),
        exit: at(2.0, -1.0),
        exit_speed_x: 1.5.meters_per_second(),
        exit_speed_y: 0.0.meters_per_second(),
        exit_speed_z: 0.3.meters_per_second(),
        ropes: vec![rope("left"), rope("right")],
        lines: vec![
            line("main", 127.74, 68.0, 2.5e5),
            line("backup", 132.4, 60.0, 1.4e5),
            line("rope 1", 133.2, 72.0, 3e4),
            line("rope 2", 133.8, 72.0, 3e4),
        ],
        stops: vec![],
        ring_mass: 2.5.kilograms(),
        fixed_ring: None,
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
        follow: Follow { horizon: 20.0.seconds(), ..Follow::default() },
    }
}

/// A jump of 20 s at a tolerance of 1e-8 on a table made before, with extremes, energy books and a sample
/// each 50 ms; and the table alone.
fn reduced_jump(c: &mut Criterion) {
    let jump = jump();
    let jumps = Jumps::new(&jump.lines).unwrap();
    let flight = jumps.fly(&jump).unwrap();
    let s = &flight.series;
    for (series, end) in [&s.x_m, &s.z_m, &s.ring_x_m, &s.ring_z_m].into_iter().zip(END_M) {
        let got = series.last().copied().unwrap();
        assert!((got - end).abs() < 1e-4, "the twin ends at {end} m, this at {got} m");
    }
    c.bench_function("reduced_jump_20s", |b| {
        b.iter(|| jumps.fly(black_box(&jump)).unwrap().lowest.value.si());
    });
    c.bench_function("field_table", |b| {
        b.iter(|| Jumps::new(black_box(&jump.lines)).unwrap().report().cells);
    });
}

criterion_group!(benches, reduced_jump);
criterion_main!(benches);
