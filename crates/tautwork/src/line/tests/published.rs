//! Values of textbooks and papers. "From memory" means that the number was recalled and has been
//! recomputed from the stated inputs, but not looked up again in the source.

use crate::line::*;
use crate::material::Stretch;
use crate::quantity::*;

fn close(got: f64, want: f64, half_unit: f64, what: &str) {
    assert!((got - want).abs() <= half_unit, "{what}: {got}, published {want}");
}

fn rigid() -> Stretch {
    Stretch::axial_rigidity(1e15.newtons()).unwrap()
}

fn elastic(span: f64, rise: f64, rest: f64, w: f64, ea: f64) -> ElasticSolution {
    solve_elastic(&ElasticLine {
        span: span.meters(),
        rise: rise.meters(),
        rest_length: rest.meters(),
        weight: w.newtons_per_meter(),
        stretch: Stretch::axial_rigidity(ea.newtons()).unwrap(),
    })
    .unwrap()
}

// Hibbeler, Statics, example 7.13 (from memory): 5 N/m, 20 m, 6 m of sag.
#[test]
fn hibbeler_cable() {
    let c = catenary_from_sag(20.0.meters(), 0.0.meters(), 6.0.meters(), 5.0.newtons_per_meter())
        .unwrap();
    close(c.h.si(), 45.9, 0.05, "H");
    close(c.rest_length.si(), 24.2, 0.05, "length");
    close(c.tension_near.si(), 75.9, 0.05, "T max");
    close((c.h.si() / c.tension_near.si()).acos().to_degrees(), 52.8, 0.05, "angle");
}

// Beer & Johnston, Statics, sample problem 7.10 (from memory): 3 lb/ft, 500 ft, 100 ft of sag.
#[test]
fn beer_johnston_catenary() {
    let w = 3.0.pounds_force_per_foot();
    let c = catenary_from_sag(500.0.feet(), 0.0.feet(), 100.0.feet(), w).unwrap();
    close(c.parameter.in_feet(), 328.0, 0.5, "c");
    close(c.h.in_pounds_force(), 984.0, 0.5, "T min");
    close(c.tension_far.in_pounds_force(), 1284.0, 0.5, "T max");
}

// Meriam & Kraige, Statics, sample problem 5/16 (from memory): 12 kg/m, 300 m, 60 m of sag.
#[test]
fn meriam_kraige_catenary() {
    let w = (12.0 * 9.81).newtons_per_meter();
    let c = catenary_from_sag(300.0.meters(), 0.0.meters(), 60.0.meters(), w).unwrap();
    close(c.h.in_kilonewtons(), 23.2, 0.05, "T0");
    close(c.tension_far.in_kilonewtons(), 30.2, 0.05, "T max");
    close(c.rest_length.si(), 330.0, 0.5, "length");
}

// Least support tension of a level catenary (Irvine 1981, chapter 1, from memory): sag / span 0.3377,
// T / (w L) 0.7544, length / span 1.2577.
#[test]
fn the_least_support_tension() {
    let (span, w) = (100.0.meters(), 1.0.newtons_per_meter());
    let tension = |sag: f64| {
        let c = catenary_from_sag(span, 0.0.meters(), sag.meters(), w).unwrap();
        (c.tension_near.si(), c.rest_length.si())
    };
    let (least, length) = tension(33.7662);
    close(least / 100.0, 0.7544, 5e-5, "T / w L");
    close(length / 100.0, 1.2577, 1e-4, "length");
    assert!(tension(33.0).0 > least && tension(34.5).0 > least);
}

// Drake conductor, 600 ft, H = 6300 lb at 1.094 lb/ft (conductor manual, from memory): 7.82 ft, and
// 600.27 ft of length.
#[test]
fn conductor_sag() {
    let stretch = rigid();
    let line = ElasticLine {
        span: 600.0.feet(),
        rise: 0.0.feet(),
        rest_length: 600.27.feet(),
        weight: 1.094.pounds_force_per_foot(),
        stretch,
    };
    let sag = 7.81605.feet();
    let length = rest_length_for_sag(&line, sag).unwrap();
    close(length.in_feet(), 600.27, 5e-3, "length");
    let solved = solve_elastic(&ElasticLine { rest_length: length, ..line }).unwrap();
    close(solved.h.in_pounds_force(), 6300.0, 0.5, "H");
    close(solved.sag_below_chord.in_feet(), 7.82, 5e-3, "sag");
}

// Irvine 1981, equations 1.20 to 1.24; the numbers are roots of the printed equations, computed
// elsewhere: rho g / E = 1e-6 1/m, half length 150 m, half span 149 m: a = 706.094 m, sag 15.7682 m.
#[test]
fn symmetric_elastic_catenary() {
    let s = elastic(298.0, 0.0, 300.0, 1.0, 1e6);
    close(s.h.si(), 706.094, 5e-4, "a");
    close(s.sag_below_chord.si(), 15.7682, 5e-5, "sag");
}

// Own stretch of a hanging wire, w L² / (2 EA) (Timoshenko, from memory): 1000 m of steel, 0.1925 m.
#[test]
fn a_hanging_wire_stretches_by_its_weight() {
    let w = 7850.0 * 9.81 * 1e-4;
    let ea = 200e9 * 1e-4;
    // Hung on one end: the lower end carries nothing, so the rest length is chord less the stretch.
    let stretch = w * 1000.0 * 1000.0 / (2.0 * ea);
    let s = elastic(0.0, -(1000.0 + stretch), 1000.0, w, ea);
    close(stretch, 0.192_521, 5e-7, "stretch");
    close(s.tension_near.si(), w * 1000.0, 1e-5 * w * 1000.0, "upper end");
    assert!(s.tension_far.si() < 1e-4 * w * 1000.0, "{:?}", s.tension_far);
}

fn benchmark(load_n: f64, lengths: (f64, f64)) -> ChainSolution {
    let at = |x: f64| [x.meters(), 0.0.meters(), 0.0.meters()];
    solve_chain(&Chain {
        near: at(0.0),
        far: at(304.8),
        pieces: vec![ChainPiece::new(
            (lengths.0 + lengths.1).meters(),
            46.12.newtons_per_meter(),
            Stretch::axial_rigidity((131e9 * 548.4e-6).newtons()).unwrap(),
        )],
        loads: vec![ChainLoad {
            at: lengths.0.meters(),
            force: [0.0.newtons(), 0.0.newtons(), (-load_n).newtons()],
        }],
        samples: 101,
    })
    .unwrap()
}

// The isolated cable of Michalos & Birnstiel 1962: node at (121.92, -29.276) m under its own weight,
// then 35.586 kN on it. Displacements -5.626 and -0.859 m (Jayaraman & Knudson 1981; Tibert 1999;
// Thai & Kim 2011; all from memory).
#[test]
fn isolated_cable_with_a_point_load() {
    // Rest lengths for which the node starts at the stated place, by Newton with differences.
    let (mut a, mut b) = (125.88, 186.85);
    let node = |a: f64, b: f64| {
        let p = benchmark(0.0, (a, b)).loads[0].position;
        (p[0].si(), p[2].si())
    };
    for _ in 0..8 {
        let (x, z) = node(a, b);
        let d = 1e-4;
        let ((xa, za), (xb, zb)) = (node(a + d, b), node(a, b + d));
        let (j11, j12) = ((xa - x) / d, (xb - x) / d);
        let (j21, j22) = ((za - z) / d, (zb - z) / d);
        let det = j11 * j22 - j12 * j21;
        let (rx, rz) = (121.92 - x, -29.276 - z);
        a += (rx * j22 - rz * j12) / det;
        b += (rz * j11 - rx * j21) / det;
    }
    close(a, 125.847, 5e-4, "rest length 1-2, recomputed elsewhere");
    close(b, 186.855, 5e-4, "rest length 2-3, recomputed elsewhere");
    let loaded = benchmark(35_586.0, (a, b));
    let p = loaded.loads[0].position;
    close(p[2].si() + 29.276, -5.626, 5e-4, "vertical displacement");
    close(p[0].si() - 121.92, -0.859, 5e-4, "horizontal displacement");
    assert!(loaded.residual.si() < 1e-12);
    close(loaded.tension_near.in_kilonewtons(), 93.9333, 5e-4, "tension, recomputed elsewhere");
}

// The same as a net: two elastic lines and a free node between them.
#[test]
fn the_net_solver_agrees_with_the_chain() {
    let none = [0.0.newtons(); 3];
    let at = |x: f64, z: f64| [x.meters(), 0.0.meters(), z.meters()];
    let node =
        |name: &str, position, fixed, load| Node { name: name.into(), position, fixed, load };
    let line = |name: &str, from: &str, to: &str, l: f64| NetLine {
        name: name.into(),
        from: from.into(),
        to: to.into(),
        rest_length: l.meters(),
        weight: 46.12.newtons_per_meter(),
        stretch: Stretch::axial_rigidity((131e9 * 548.4e-6).newtons()).unwrap(),
    };
    let down = [0.0.newtons(), 0.0.newtons(), (-35_586.0).newtons()];
    let net = Net {
        nodes: vec![
            node("1", at(0.0, 0.0), true, none),
            node("2", at(100.0, -5.0), false, down),
            node("3", at(304.8, 0.0), true, none),
        ],
        lines: vec![line("a", "1", "2", 125.847), line("b", "2", "3", 186.855)],
    };
    let solved = solve_net(&net).unwrap();
    let chain = benchmark(35_586.0, (125.847, 186.855));
    for axis in 0..3 {
        let gap = solved.nodes[1].position[axis].si() - chain.loads[0].position[axis].si();
        assert!(gap.abs() < 1e-7, "{gap}");
    }
    assert!(solved.residual.si() < 1e-9);
}

// A chain of straight elastic links with lumped weight converges to the same displacement: -5.48737 m
// with 10 links, -5.62423 with 100 (recomputed elsewhere); here the links are weightless pieces.
#[test]
fn straight_links_converge_to_the_curve() {
    let (a, b) = (125.847, 186.855);
    let none = 0.0.newtons_per_meter();
    let lumped = |n: usize, load_n: f64| {
        let mut loads = Vec::new();
        for (from, length) in [(0.0, a), (a, b)] {
            let link = length / n as f64;
            for i in 0..=n {
                let share = if i == 0 || i == n { 0.5 } else { 1.0 };
                let force = -46.12 * link * share;
                loads.push(ChainLoad {
                    at: (from + i as f64 * link).min(a + b).meters(),
                    force: [0.0, 0.0, force].map(Force::from_si),
                });
            }
        }
        loads.push(ChainLoad { at: a.meters(), force: [0.0, 0.0, -load_n].map(Force::from_si) });
        let at = |x: f64| [x.meters(), 0.0.meters(), 0.0.meters()];
        let solved = solve_chain(&Chain {
            near: at(0.0),
            far: at(304.8),
            pieces: vec![ChainPiece::new(
                (a + b).meters(),
                none,
                Stretch::axial_rigidity((131e9 * 548.4e-6).newtons()).unwrap(),
            )],
            loads,
            samples: 2,
        })
        .unwrap();
        solved.loads.last().unwrap().position[2].si()
    };
    let displacement = |n: usize| lumped(n, 35_586.0) - lumped(n, 0.0);
    let (coarse, fine) = (displacement(5), displacement(50));
    assert!((fine + 5.6256).abs() < (coarse + 5.6256).abs() / 20.0, "{coarse} {fine}");
    assert!((fine + 5.6256).abs() < 0.01);
}

// Beer & Johnston, Statics, sample problem 7.8 (from memory): loads of 6, 12 and 4 kips on a weightless
// cable; sags of B and D 5.56 and -5.83 ft about the level of A, T max 24.8 kips.
#[test]
fn cable_with_hanging_loads() {
    // Rest lengths of the pieces from the published shape: A (0, 0), B (20, -5.56), C (30, -5),
    // D (45, 5.83), E (60, 20) ft.
    let points: [(f64, f64); 5] =
        [(0.0, 0.0), (20.0, -50.0 / 9.0), (30.0, -5.0), (45.0, 35.0 / 6.0), (60.0, 20.0)];
    let lengths: Vec<f64> =
        points.windows(2).map(|w| (w[1].0 - w[0].0).hypot(w[1].1 - w[0].1)).collect();
    let none = 0.0.newtons_per_meter();
    let mut at = 0.0;
    let mut loads = Vec::new();
    for (length, kips) in lengths.iter().zip([6.0, 12.0, 4.0]) {
        at += length;
        let force = [0.0.kips(), 0.0.kips(), (-kips).kips()];
        loads.push(ChainLoad { at: at.feet(), force });
    }
    let solved = solve_chain(&Chain {
        near: [0.0.feet(); 3],
        far: [60.0.feet(), 0.0.feet(), 20.0.feet()],
        pieces: vec![ChainPiece::new(
            lengths.iter().sum::<f64>().feet(),
            none,
            Stretch::axial_rigidity(1e12.newtons()).unwrap(),
        )],
        loads,
        samples: 2,
    })
    .unwrap();
    close(solved.loads[0].position[2].in_feet(), -5.56, 5e-3, "B");
    // The published reaction at E is the tension after the last load, and A's before the first.
    close(solved.loads[2].tension_after.in_kips(), 24.8, 0.05, "T max");
    close(solved.loads[0].tension_before.in_kips(), 18.68, 5e-3, "T at A, recomputed elsewhere");
    close(solved.loads[2].position[2].in_feet(), 5.83, 5e-3, "D");
    close(solved.tension_far.in_kips(), 24.8, 0.05, "T max");
    close(solved.pull_near[0].in_kips(), 18.0, 5e-3, "horizontal");
    close(-solved.pull_near[2].in_kips(), 5.0, 5e-3, "vertical at A");
}

// T / W of a weightless line with a load in the middle (the rule T = W L / 4 d, from memory).
#[test]
fn mid_load_tension() {
    for (percent, want, half) in
        [(1.0, 25.0, 0.05), (2.0, 12.5, 0.05), (5.0, 5.02, 5e-3), (10.0, 2.55, 5e-3)]
    {
        let line = ElasticLine {
            span: 100.0.meters(),
            rise: 0.0.meters(),
            rest_length: 100.0.meters(),
            weight: 0.0.newtons_per_meter(),
            stretch: Stretch::axial_rigidity(1e9.newtons()).unwrap(),
        };
        let length =
            rest_length_for_mid_load_sag(&line, 1000.0.newtons(), percent.meters()).unwrap();
        let leg = f64::hypot(50.0, percent);
        // The published factor is that of a stiff line: sag and force decide it, not the stretch.
        let tension = 1e9 * (2.0 * leg / length.si() - 1.0);
        close(tension / 1000.0, want, half, "T / W");
    }
}

// A weightless line with a load at a quarter and at the half of its span, sag 5 % of it:
// H / W = a (L - a) / (L y) = 3.75 and 5 (statics; no publication needed).
#[test]
fn a_load_off_the_middle() {
    for (a, want) in [(25.0, 3.75), (50.0, 5.0)] {
        let (near, far) = (f64::hypot(a, 5.0), f64::hypot(100.0 - a, 5.0));
        let none = 0.0.newtons_per_meter();
        let solved = solve_chain(&Chain {
            near: [0.0.meters(); 3],
            far: [100.0.meters(), 0.0.meters(), 0.0.meters()],
            pieces: vec![ChainPiece::new(
                (near + far).meters(),
                none,
                Stretch::axial_rigidity(1e13.newtons()).unwrap(),
            )],
            loads: vec![ChainLoad {
                at: near.meters(),
                force: [0.0.newtons(), 0.0.newtons(), (-1000.0).newtons()],
            }],
            samples: 2,
        })
        .unwrap();
        close(solved.pull_near[0].si() / 1000.0, want, 1e-6, "H / W");
        let load = &solved.loads[0];
        close(load.tension_before.si() / 1000.0, want * near / a, 1e-6, "near leg");
        close(load.tension_after.si() / 1000.0, want * far / (100.0 - a), 1e-6, "far leg");
    }
}
