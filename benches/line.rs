//! Speed of lines. `benches/python/line.py` does the same work with SciPy, under the same names.

#![expect(clippy::unwrap_used, reason = "a bench that cannot run should stop")]

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use tautwork::line::{BundleLine, ElasticLine, solve_elastic, sweep_bundle};
use tautwork::material::Stretch;
use tautwork::quantity::{GRAVITY, Quantity, Words};

/// One line from a cold start.
fn elastic_cold(c: &mut Criterion) {
    let line = ElasticLine {
        span: 130.0.meters(),
        rise: (-3.0).meters(),
        rest_length: 127.74.meters(),
        weight: (0.068 * GRAVITY).newtons_per_meter(),
        stretch: Stretch::axial_rigidity(250.0.kilonewtons()).unwrap(),
    };
    c.bench_function("line/elastic_cold", |b| {
        b.iter(|| solve_elastic(black_box(&line)).unwrap().tension_near.si());
    });
}

/// Four lines at a ring, 24 loads from 0.25 to 6 kN, each solved from the state of the last.
fn bundle_sweep(c: &mut Criterion) {
    let line = |name: &str, rest_m: f64, mass: f64, ea_n: f64| BundleLine {
        name: name.to_owned(),
        near: [0.0.meters(); 3],
        far: [130.0.meters(), 0.0.meters(), (-3.0).meters()],
        near_length: (0.5 * rest_m).meters(),
        far_length: (0.5 * rest_m).meters(),
        weight: (mass * GRAVITY).newtons_per_meter(),
        stretch: Stretch::axial_rigidity(ea_n.newtons()).unwrap(),
    };
    let lines = [
        line("main", 127.74, 0.068, 2.5e5),
        line("backup", 132.4, 0.060, 1.4e5),
        line("rope 1", 133.2, 0.072, 3e4),
        line("rope 2", 133.8, 0.072, 3e4),
    ];
    let none = 0.0.newtons();
    let loads: Vec<_> = (1..=24).map(|i| [none, none, (-250.0 * f64::from(i)).newtons()]).collect();
    c.bench_function("line/bundle_sweep_24_loads", |b| {
        b.iter(|| sweep_bundle(black_box(&lines), &loads).unwrap()[23].ring[2].si());
    });
}

criterion_group!(benches, elastic_cold, bundle_sweep);
criterion_main!(benches);
