//! Speed of loss tables: the demo rig, its pairs, its whole plan, and a rig of 200 components.

#![expect(clippy::unwrap_used, reason = "a bench that cannot run should stop")]

use std::fmt::Write as _;
use std::hint::black_box;
use std::ops::ControlFlow;

use criterion::{Criterion, criterion_group, criterion_main};
use tautwork::rig::{LossOptions, LossTable, Rig, loss_table, parse, plan};

const DEMO: &str = include_str!("../examples/kestrel-gap.toml");

/// Lines besides the main one, and jump ropes besides the two.
const LINES: usize = 10;
const ROPES: usize = 2;
/// Anchors on each side of the gap, and the legs of each.
const SIDES: usize = 3;
const LEGS: usize = 19;

/// The demo rig with more lines, ropes, anchors, legs, gear and guys: 200 components that can fail.
fn large() -> Rig {
    let (head, rest) = DEMO.split_once("[[anchor]]").unwrap();
    let (_, rest) = rest.split_once("[[state]]").unwrap();
    let mut text = head.to_owned();
    for (side, x, z) in [("near", 0.0, 0.0), ("far", 130.0, -3.0)] {
        let out = if side == "near" { -1.0 } else { 1.0 };
        for i in 0..SIDES {
            let (x, z) = (x + out * 0.4 * i as f64, z + 0.2 * i as f64);
            let _ = writeln!(
                text,
                "[[anchor]]\nname = \"{side} {i}\"\nposition = [\"{x} m\", \"0 m\", \"{z} m\"]"
            );
            for leg in 0..LEGS {
                let y = 0.3 * (leg as f64 - 0.5 * (LEGS - 1) as f64);
                let _ = writeln!(
                    text,
                    "[[anchor.leg]]\nname = \"{side} {i} bolt {leg}\"\nfixing = [\"{} m\", \"{y} m\", \"{} m\"]\n\
                     cordage = \"anchor sling\"\nstrength = \"22 kN\"",
                    x + 2.0 * out,
                    z + 0.2
                );
            }
        }
    }
    for i in 0..=LINES {
        let length = if i == 0 {
            "tension = \"4.5 kN\"".to_owned()
        } else {
            format!("rest_length = \"{} m\"", 132.0 + 0.25 * i as f64)
        };
        let cordage = if i == 0 { "main webbing" } else { "backup webbing" };
        let _ = writeln!(
            text,
            "[[line]]\nname = \"line {i}\"\ncordage = \"{cordage}\"\nfrom = \"near {0}\"\nto = \"far {0}\"\n{length}",
            i % SIDES
        );
        for end in ["near", "far"] {
            for what in ["shackle", "lock"] {
                let _ = writeln!(
                    text,
                    "[[gear]]\nname = \"{what} {i} {end}\"\nat = \"line {i}\"\nend = \"{end}\"\nstrength = \"30 kN\""
                );
            }
        }
    }
    for i in 0..ROPES {
        let _ = writeln!(
            text,
            "[[jump.rope]]\nname = \"rope {i}\"\ncordage = \"10 mm dynamic\"\nrest_length = \"{} m\"",
            72.5 + i as f64
        );
    }
    let (_, states) = rest.split_once("[ring]").unwrap();
    let rest = format!("[ring]{states}");
    // One [jump] with its table before its ropes.
    let (before, ropes) = rest.split_once("[[jump.rope]]").unwrap();
    let at = text.find("[[jump.rope]]").unwrap();
    let more = text.split_off(at);
    text.push_str(before);
    text.push_str(&more);
    text.push_str("[[jump.rope]]");
    text.push_str(ropes);
    parse(&text).unwrap()
}

fn table(rig: &Rig, pairs: bool) -> LossTable {
    loss_table(rig, LossOptions { pairs }, &mut |_| ControlFlow::Continue(())).unwrap()
}

fn losses(c: &mut Criterion) {
    let demo = parse(DEMO).unwrap();
    let large = large();
    let known = table(&large, false);
    assert!(known.components.len() >= 200, "{} components", known.components.len());
    let mut group = c.benchmark_group("losses");
    group.sample_size(10);
    group.bench_function("kestrel_gap", |b| b.iter(|| table(black_box(&demo), false)));
    group.bench_function("kestrel_gap_plan", |b| b.iter(|| plan(black_box(&demo)).unwrap()));
    group.bench_function("kestrel_gap_pairs", |b| b.iter(|| table(black_box(&demo), true)));
    group.bench_function("200_components", |b| b.iter(|| table(black_box(&large), false)));
    group.finish();
}

criterion_group!(benches, losses);
criterion_main!(benches);
