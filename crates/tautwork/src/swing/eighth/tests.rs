use super::super::dop853::BETWEEN;
use super::super::step::{share, weights};
use super::*;

/// y'' = -y as a system; exact solution cos t.
struct Circle;
impl Rates for Circle {
    fn rates(&mut self, y: &[f64], dy: &mut [f64]) {
        dy[0] = y[1];
        dy[1] = -y[0];
    }
}
impl Bouncing for Circle {
    fn beat(&mut self, _: &[f64]) -> Option<Beat> {
        None
    }
}

fn control(rtol: f64) -> Control {
    Control { rtol, atol: vec![rtol; 2], longest_s: 2.0, budget: 100_000 }
}

#[test]
fn order_conditions_hold() {
    let sum = |terms: &[Term]| terms.iter().map(|(_, w)| w).sum::<f64>();
    let mut nodes = vec![0.0];
    nodes.extend(STAGES.iter().map(|terms| sum(terms)));
    nodes.push(1.0);
    // Weights integrate powers up to the seventh exactly; the estimates vanish on lower ones.
    for (terms, order, exact) in [(STEP, 8, true), (FIFTH, 5, false), (THIRD, 3, false)] {
        for p in 0..order {
            let moment: f64 = terms.iter().map(|(i, w)| w * f64::powi(nodes[*i], p)).sum();
            let want = if exact { 1.0 / f64::from(p + 1) } else { 0.0 };
            assert!((moment - want).abs() < 1e-13, "{order} {p}: {moment}");
        }
    }
}

/// Between the ends, at sixth order: powers up to the fifth are integrated exactly; and nothing of the stages
/// 3 and 4, which are themselves of lower order than the others, comes in.
#[test]
fn the_continuous_extension_meets_the_conditions_of_sixth_order() {
    let sum = |terms: &[Term]| terms.iter().map(|(_, w)| w).sum::<f64>();
    let rows = || STAGES.iter().chain([&STEP]);
    let nodes: Vec<f64> = core::iter::once(0.0).chain(rows().map(|terms| sum(terms))).collect();
    // What a stage takes of another.
    let takes = |stage: usize, of: usize| {
        let row = rows().nth(stage.wrapping_sub(1));
        let term = row.and_then(|terms| terms.iter().find(|(i, _)| *i == of));
        term.map_or(0.0, |(_, weight)| *weight)
    };
    for n in 0..=20 {
        let theta = f64::from(n) / 20.0;
        let mut all = [0.0; NODES + 1];
        for ((stage, _), weight) in BETWEEN.iter().zip(weights(theta, 1.0)) {
            all[*stage] += weight;
        }
        for (stage, weight) in STEP {
            all[*stage] += share(theta) * weight;
        }
        let moment = |f: &dyn Fn(usize) -> f64| {
            all.iter().enumerate().map(|(stage, weight)| weight * f(stage)).sum::<f64>()
        };
        for p in 0..6 {
            let got = moment(&|stage| nodes[stage].powi(p));
            let want = theta.powi(p + 1) / f64::from(p + 1);
            assert!((got - want).abs() < 1e-12, "{theta} {p}: {got} {want}");
        }
        for of in [3, 4] {
            let got = moment(&|stage| takes(stage, of));
            assert!(got.abs() < 1e-12, "{theta} {of}: {got}");
        }
    }
}

#[test]
fn dense_output_is_sixth_order_and_steps_are_eighth() {
    let errors = |h: f64| {
        let mut ode = Eighth::new(&mut Circle, &[1.0, 0.0], 2, control(1e6));
        ode.h_s = h;
        ode.advance(&mut Circle, h).unwrap();
        let mut y = [0.0; 2];
        let mut dense = 0.0_f64;
        for n in 1..10 {
            let theta = f64::from(n) / 10.0;
            ode.step.read(theta, &mut y);
            dense = dense.max((y[0] - (theta * h).cos()).abs());
        }
        (dense, (ode.step.end()[0] - h.cos()).abs() + (ode.step.end()[1] + h.sin()).abs())
    };
    let ((dense_a, end_a), (dense_b, end_b)) = (errors(1.6), errors(0.8));
    assert!((dense_a / dense_b).log2() > 6.5, "{dense_a:e} {dense_b:e}");
    // No further from the truth between the ends than some steps at their ends.
    assert!(dense_a < 10.0 * end_a, "{dense_a:e} {end_a:e}");
    assert!((end_a / end_b).log2() > 8.5, "{end_a:e} {end_b:e}");
}

#[test]
fn tolerance_governs_the_error_and_a_short_budget_halts() {
    let mut last = 1.0;
    for rtol in [1e-6, 1e-8, 1e-10] {
        let mut ode = Eighth::new(&mut Circle, &[1.0, 0.0], 2, control(rtol));
        while ode.t_s < 20.0 {
            ode.advance(&mut Circle, 20.0 - ode.t_s).unwrap();
            ode.commit();
        }
        let error = (ode.y()[0] - 20.0_f64.cos()).abs();
        assert!(error < 40.0 * rtol && error < last / 10.0, "{rtol}: {error}");
        last = error;
    }
    let mut ode = Eighth::new(&mut Circle, &[1.0, 0.0], 2, Control { budget: 1, ..control(1e-8) });
    ode.advance(&mut Circle, 1.0).unwrap();
    ode.commit();
    assert_eq!(ode.advance(&mut Circle, 1.0), Err(Halt::Budget));
}

/// A hard spring, y'' = -9 y - y³ / 2 + t / 4 (its time is the third component), of which the beat may be told.
struct Hard(Option<f64>);
impl Rates for Hard {
    fn rates(&mut self, y: &[f64], dy: &mut [f64]) {
        dy[0] = y[1];
        dy[1] = -9.0 * y[0] - 0.5 * y[0].powi(3) + 0.25 * y[2];
        dy[2] = 1.0;
    }
}
impl Bouncing for Hard {
    fn beat(&mut self, _: &[f64]) -> Option<Beat> {
        self.0.map(|per_s| Beat { place: 0, speed: 1, per_s })
    }
}

/// State at 10 s, dense states on the way, and the steps it took.
fn hard(beat: Option<f64>, rtol: f64) -> (Vec<f64>, Vec<[f64; 3]>, usize) {
    let mut rates = Hard(beat);
    let control = Control { rtol, atol: vec![rtol; 3], longest_s: 1.0, budget: 100_000 };
    let mut ode = Eighth::new(&mut rates, &[0.3, 0.1, 0.0], 3, control);
    let (mut seen, mut steps) = (Vec::new(), 0);
    while ode.t_s < 10.0 {
        ode.advance(&mut rates, 10.0 - ode.t_s).unwrap();
        while seen.len() < 100 && 0.1 * seen.len() as f64 <= ode.step.t_s + ode.step.h_s {
            let theta = (0.1 * seen.len() as f64 - ode.step.t_s) / ode.step.h_s;
            let mut y = [0.0; 3];
            ode.step.read(theta, &mut y);
            for (i, y) in y.iter().enumerate() {
                assert!((ode.step.component(i, theta) - y).abs() < 1e-14);
            }
            seen.push(y);
        }
        ode.commit();
        steps += 1;
    }
    (ode.y().to_vec(), seen, steps)
}

#[test]
fn a_beat_changes_the_steps_and_not_the_answer() {
    let (want, path, plain) = hard(None, 1e-12);
    // A spring as stiff as it is, too soft, too stiff.
    let mut steps = Vec::new();
    for per_s in [3.0, 2.0, 5.0] {
        let (got, dense, n) = hard(Some(per_s), 1e-12);
        let ends = got.iter().zip(&want).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
        let off = dense.iter().zip(&path).flat_map(|(a, b)| [a[0] - b[0], a[1] - b[1]]);
        let off = off.map(f64::abs).fold(0.0, f64::max);
        let (_, wide, _) = hard(Some(per_s), 1e-8);
        let far = wide.iter().zip(&path).flat_map(|(a, b)| [a[0] - b[0], a[1] - b[1]]);
        let far = far.map(f64::abs).fold(0.0, f64::max);
        println!("{per_s}: {n} steps, ends {ends:.1e}, between {off:.1e}, {far:.1e} at 1e-8");
        // A hundred steps, each within the tolerance; between their ends the order is lower.
        assert!(ends < 1e-10 && off < 1e-9 && far < 1e-6);
        steps.push(n);
    }
    assert!(steps[0] < plain && steps[0] < steps[1] && steps[1] < steps[2], "{steps:?} {plain}");
}

#[test]
fn a_bounce_and_no_more_takes_the_longest_steps() {
    struct Spring;
    impl Rates for Spring {
        fn rates(&mut self, y: &[f64], dy: &mut [f64]) {
            (dy[0], dy[1]) = (y[1], 1.0 - 400.0 * y[0]);
        }
    }
    impl Bouncing for Spring {
        fn beat(&mut self, _: &[f64]) -> Option<Beat> {
            Some(Beat { place: 0, speed: 1, per_s: 20.0 })
        }
    }
    let mut ode = Eighth::new(&mut Spring, &[0.1, 0.0], 2, control(1e-8));
    let mut steps = 0;
    while ode.t_s < 10.0 {
        ode.advance(&mut Spring, 10.0 - ode.t_s).unwrap();
        ode.commit();
        steps += 1;
    }
    let rest = 1.0 / 400.0;
    let want = rest + (0.1 - rest) * 200.0_f64.cos();
    assert!((ode.y()[0] - want).abs() < 1e-13, "{}", ode.y()[0] - want);
    // Two radians each, after the first few.
    assert!(steps < 115, "{steps}");
}
