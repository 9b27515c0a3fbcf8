//! Speed of raised frames. `benches/python/frame.py` does the same work with SciPy, under the same names.

#![expect(clippy::unwrap_used, reason = "a bench that cannot run should stop")]

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use tautwork::anchor::{Frame, FrameGuy, FrameLeg, HeadRope, frame_forces, frame_window};
use tautwork::quantity::{Force, Length, Quantity, Words};

/// Forces in N as SciPy finds them, legs first.
const FORCES_N: [f64; 7] =
    [2_582.723_484, 1_638.961_572, 1_064.369_489, 1_071.236_455, 0.0, 0.0, 1_168.132_105];
/// Margin of the rope without the two guys in front, rad.
const MARGIN_RAD: f64 = 0.601_338_563_7;

fn point([x, y, z]: [f64; 3]) -> [Length; 3] {
    [x.meters(), y.meters(), z.meters()]
}

/// Two legs, five guys with pretension, a rope that pulls out and aside.
fn frame() -> Frame {
    let legs = [[-0.5, 1.2, 0.0], [-0.5, -1.2, 0.0]];
    let guys =
        [[-5.0, 2.0, 0.0], [-5.0, -2.0, 0.0], [4.0, 3.0, 0.0], [4.0, -3.0, 0.0], [-6.0, 0.0, 0.5]];
    let leg = |(i, &foot)| FrameLeg::new(format!("leg {i}"), point(foot), 20.0.meganewtons());
    let guy = |(i, &foot)| FrameGuy {
        pretension: Some(300.0.newtons()),
        ..FrameGuy::new(format!("guy {i}"), point(foot), 300.0.kilonewtons())
    };
    Frame {
        head: point([0.3, 0.0, 3.2]),
        legs: legs.iter().enumerate().map(leg).collect(),
        guys: guys.iter().enumerate().map(guy).collect(),
        ropes: vec![HeadRope {
            name: "load".to_owned(),
            towards: point([6.0, 1.0, -4.0]),
            tension: 3.0.kilonewtons(),
        }],
        pulleys: vec![],
        force: [Force::from_si(0.0); 3],
        hobble: None,
    }
}

/// Forces of all members; and the window of directions of the rope with the guys behind alone.
fn frames(c: &mut Criterion) {
    let all = frame();
    let found = frame_forces(&all).unwrap();
    for (m, expected) in found.legs.iter().chain(&found.guys).zip(FORCES_N) {
        assert!((m.force.si() - expected).abs() < 1e-4, "{}: {}", m.name, m.force.si());
    }
    let mut behind = all.clone();
    behind.guys.drain(2..4);
    let margin = frame_window(&behind, "load").unwrap().margin.unwrap().si();
    assert!((margin - MARGIN_RAD).abs() < 1e-6, "{margin}");
    c.bench_function("frame_forces", |b| {
        b.iter(|| frame_forces(black_box(&all)).unwrap().residual);
    });
    c.bench_function("frame_window", |b| {
        b.iter(|| frame_window(black_box(&behind), "load").unwrap().stands);
    });
}

criterion_group!(benches, frames);
criterion_main!(benches);
