//! Speed of lines. `benches/python/line.py` does the same work with SciPy, under the same names.

#![expect(clippy::unwrap_used, reason = "a bench that cannot run should stop")]

use std::hint::black_box;

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use tautwork::line::{
    BundleLine, BundleLoads, Chain, ChainLoad, ChainPiece, ElasticBatch, ElasticLine, solve_chain,
    solve_elastic, solve_elastic_batch, sweep_bundle, sweep_bundle_batch,
};
use tautwork::material::Stretch;
use tautwork::quantity::{Force, GRAVITY, Quantity, Words};

fn main_line(rest_m: f64) -> ElasticLine {
    ElasticLine {
        span: 130.0.meters(),
        rise: (-3.0).meters(),
        rest_length: rest_m.meters(),
        weight: (0.068 * GRAVITY).newtons_per_meter(),
        stretch: Stretch::axial_rigidity(250.0.kilonewtons()).unwrap(),
    }
}

/// One line from a cold start: beside SciPy, and beside the same iteration compiled by numba, which
/// gives H and V only.
fn elastic_cold(c: &mut Criterion) {
    let line = main_line(127.74);
    for twin in ["line/elastic_cold", "line/elastic_cold_compiled"] {
        c.bench_function(twin, |b| {
            b.iter(|| solve_elastic(black_box(&line)).unwrap().tension_near.si());
        });
    }
}

/// A million lines: as one batch (its twin is the same call from Python), as a batch on one core, and as
/// a loop of calls with units. The last two do the same work but for the units.
fn elastic_many(c: &mut Criterion) {
    let rest_m: Vec<f64> = (0..1_000_000).map(|i| 126.0 + 3e-6 * f64::from(i)).collect();
    let weight = [0.068 * GRAVITY];
    let batch = ElasticBatch {
        span_m: &[130.0],
        rise_m: &[-3.0],
        rest_length_m: &rest_m,
        weight_n_per_m: &weight,
        axial_rigidity_n: &[2.5e5],
    };
    let mut group = c.benchmark_group("line");
    group.sample_size(10);
    group.bench_function("elastic_batch_1e6", |b| {
        b.iter(|| solve_elastic_batch(black_box(&batch)).unwrap().h_n[7]);
    });
    let alone = rayon::ThreadPoolBuilder::new().num_threads(1).build().unwrap();
    group.bench_function("elastic_batch_1e6_on_one_core", |b| {
        alone.install(|| b.iter(|| solve_elastic_batch(black_box(&batch)).unwrap().h_n[7]));
    });
    let mut line = main_line(1.0);
    group.bench_function("elastic_loop_1e6_with_units", |b| {
        b.iter(|| {
            let mut most = 0.0_f64;
            for &rest_m in black_box(&rest_m) {
                line.rest_length = rest_m.meters();
                most = most.max(solve_elastic(&line).unwrap().tension_near.si());
            }
            most
        });
    });
    group.finish();
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
    let z: Vec<f64> = (1..=24).map(|i| -250.0 * f64::from(i)).collect();
    let loads = BundleLoads { load_x_n: &[0.0], load_y_n: &[0.0], load_z_n: &z };
    c.bench_function("line/bundle_sweep_24_loads_as_arrays", |b| {
        b.iter(|| sweep_bundle_batch(black_box(&lines), &loads).unwrap().ring_z_m[23]);
    });
}

/// A line with a load, cut into 1 to 1000 pieces: the time grows with their number.
fn chain_pieces(c: &mut Criterion) {
    let mut group = c.benchmark_group("line/chain");
    for count in [1_u32, 10, 100, 1000] {
        let rest = (127.74 / f64::from(count)).meters();
        let weight = (0.068 * GRAVITY).newtons_per_meter();
        let stretch = Stretch::axial_rigidity(250.0.kilonewtons()).unwrap();
        let down = [0.0, 0.0, -800.0].map(Force::from_si);
        let chain = Chain {
            near: [0.0.meters(); 3],
            far: [130.0.meters(), 0.0.meters(), (-3.0).meters()],
            pieces: (0..count).map(|_| ChainPiece::new(rest, weight, stretch.clone())).collect(),
            loads: vec![ChainLoad { at: 60.0.meters(), force: down }],
            samples: 2,
        };
        group.throughput(Throughput::Elements(u64::from(count)));
        group.bench_function(format!("{count}_pieces"), |b| {
            b.iter(|| solve_chain(black_box(&chain)).unwrap().tension_near.si());
        });
    }
    group.finish();
}

criterion_group!(benches, elastic_cold, elastic_many, bundle_sweep, chain_pieces);
criterion_main!(benches);
