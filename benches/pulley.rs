//! Speed of pulley networks. `benches/python/pulley.py` does the same work with NumPy, under the same name.

#![expect(clippy::unwrap_used, reason = "a bench that cannot run should stop")]

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use tautwork::pulley::{Friction, solve, tackle};
use tautwork::quantity::{Quantity, Words};

/// A 6:1 that hauls on a 5:1, with a redirect: ten sheaves. From the description to the forces in every part
/// and on every body without loss, raising and lowering, and travel.
fn ten_sheaves(c: &mut Criterion) {
    let friction = Friction::Axle { efficiency_180: 0.9.ratio() };
    let system = tackle(&[5, 6], true, friction).unwrap();
    assert_eq!(system.ropes.iter().map(|r| r.over.len()).sum::<usize>(), 10);
    c.bench_function("pulley/ten_sheaves", |b| {
        b.iter(|| solve(black_box(&system), 1000.0.newtons()).unwrap().raising.hand.si());
    });
}

criterion_group!(benches, ten_sheaves);
criterion_main!(benches);
