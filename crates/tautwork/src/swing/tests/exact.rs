//! Against exact solutions.

use super::*;

/// Complete elliptic integral of the first kind by the arithmetic-geometric mean.
fn complete_k(k: f64) -> f64 {
    let (mut a, mut b) = (1.0, (1.0 - k * k).sqrt());
    for _ in 0..40 {
        (a, b) = (0.5 * (a + b), f64::sqrt(a * b));
    }
    core::f64::consts::PI / (2.0 * a)
}

// Period over the small-angle one, (2/π) K(sin θ/2): 1.017409 at 30°, 1.073182 at 60°, 1.180341 at 90°
// (tabulated; Abramowitz and Stegun). Tension at the bottom over weight, 3 − 2 cos θ.
#[test]
fn a_stiff_pendulum_keeps_its_period_and_bottom_tension() {
    for (degrees, published) in [(30.0_f64, 1.017_409), (60.0, 1.073_182), (90.0, 1.180_341)] {
        let a = degrees.to_radians();
        assert!(
            (complete_k((0.5 * a).sin()) * 2.0 / core::f64::consts::PI - published).abs() < 6e-7
        );
        // So stiff that it hardly stretches: 100 m on 1e8 N.
        // Stretched as by its pull at the start, so that it does not bounce.
        let r = 100.0 * (1.0 + 80.0 * 9.81 * a.cos() / 1e8);
        let mut jump = plain(at(r * a.sin(), -r * a.cos()), 100.0, 1e8);
        jump.follow.horizon = 120.0.seconds();
        jump.follow.tolerance = 1e-9.ratio();
        let flight = fly(&jump).unwrap();
        let period = flight.swing_period.unwrap().si();
        let exact = published * 2.0 * core::f64::consts::PI * (100.0_f64 / 9.81).sqrt();
        assert!((period / exact - 1.0).abs() < 1e-4, "{degrees}: {period} {exact}");
        // The first pass only: at 90° the rope is slack for an instant at the far end and then bounces.
        jump.follow.horizon = 8.0.seconds();
        let flight = fly(&jump).unwrap();
        let bottom = 3.0 - 2.0 * a.cos();
        assert!(
            (flight.tension_over_weight.si() / bottom - 1.0).abs() < 1e-4,
            "{degrees}: {:?}",
            flight.tension_over_weight
        );
    }
}

// Fall with quadratic drag: distance (v²/g) ln cosh(g t / v), speed v tanh(g t / v) (closed form).
#[test]
fn a_fall_with_drag() {
    let (m, v_t): (f64, f64) = (80.0, 44.35);
    let mut jump = plain(at(0.0, 0.0), 1e6, 1e4);
    jump.drag_area = (2.0 * m * 9.81 / (1.2 * v_t * v_t)).square_meters();
    jump.follow.horizon = 5.0.seconds();
    let flight = fly(&jump).unwrap();
    let distance = v_t * v_t / 9.81 * (9.81 * 5.0 / v_t).cosh().ln();
    assert!((distance - 103.604).abs() < 5e-4);
    assert!((-flight.lowest.value.si() / distance - 1.0).abs() < 1e-8);
    assert!((flight.top_speed.value.si() / 35.5969 - 1.0).abs() < 1e-6);
    assert!(flight.notes.contains(&Note::NeverTaut));
}

// F = W + sqrt(W² + 2 W EA f): 6.44235 kN for EA 20 kN, 80 kg, f 1 (Wexler 1950, from memory;
// recomputed by integration elsewhere), and 8.28012 kN for f 1.77.
#[test]
fn a_drop_on_a_rope() {
    for (height, want) in [(0.0, 6442.35), (3.85, 8280.12)] {
        let mut jump = plain(at(0.0, height), 5.0, 20e3);
        // The rope pays out from a ring above which the body may start.
        jump.exit = at(1e-9, height);
        let flight = fly(&jump).unwrap();
        assert!(
            (flight.resultant.value.si() / want - 1.0).abs() < 1e-5,
            "{height}: {:?}",
            flight.resultant
        );
    }
}

// Elastic pendulum, k 200 N/m, 2 kg, 1 m, from (0.3, −1.1981) at rest: x 0.14372, z −1.22482 m after
// 10 s (reference integration at tight tolerance, derived).
#[test]
fn an_elastic_pendulum() {
    let mut jump = plain(at(0.3, -1.1981), 1.0, 200.0);
    jump.mass = 2.0.kilograms();
    jump.follow.tolerance = 1e-11.ratio();
    jump.follow.sample_every = 10.0.seconds();
    let flight = fly(&jump).unwrap();
    let series = &flight.series;
    assert_eq!(series.t_s.last(), Some(&10.0));
    assert!((series.x_m[1] - 0.143_72).abs() < 1e-5, "{}", series.x_m[1]);
    assert!((series.z_m[1] + 1.224_82).abs() < 1e-5, "{}", series.z_m[1]);
    assert!(flight.energy.drift.si() < 1e-9);
}

// Thrown up past the ring on ropes that hardly pull: they are taut while the body is higher than they are long,
// around the top of its way, for far less than a step. A rope that the body does not reach stays slack.
#[test]
fn ropes_that_are_taut_for_less_than_a_step() {
    let (speed, top_s) = (6.0_f64, 6.0 / GRAVITY);
    let top_m = 1.0 + 0.5 * speed * top_s;
    for short_m in [1e-2, 1e-4, 1e-6] {
        let rest_m = top_m - short_m;
        let mut jump = plain(at(0.0, 1.0), rest_m, 2e-3);
        let short = rope("as long", rest_m, 0.0, lossless(2e-3));
        jump.ropes.extend([short, rope("longer", top_m + 1e-7, 0.0, lossless(2e-3))]);
        jump.exit_speed_z = speed.meters_per_second();
        jump.follow.horizon = (1.5 * top_s).seconds();
        let flight = fly(&jump).unwrap();
        let changes = flight.events.iter().filter_map(|event| match &event.what {
            Happening::Taut { rope } => Some((event.time.si(), rope.as_str(), true)),
            Happening::Slack { rope } => Some((event.time.si(), rope.as_str(), false)),
            _ => None,
        });
        let changes: Vec<_> = changes.collect();
        let half_s = (2.0 * short_m / GRAVITY).sqrt();
        let want = [
            (top_s - half_s, "rope", true),
            (top_s - half_s, "as long", true),
            (top_s + half_s, "rope", false),
            (top_s + half_s, "as long", false),
        ];
        assert_eq!(changes.len(), want.len(), "{short_m}: {changes:?}");
        for (got, want) in changes.iter().zip(want) {
            assert!((got.0 - want.0).abs() < 1e-6 && (got.1, got.2) == (want.1, want.2), "{got:?}");
        }
    }
}

// Kagan and Kott (1996): M 80, m 20, L 10, y 6 give v² = 121.924 m²/s², and a/g at y = L is 1.28125 for
// m/M = 0.5 (published equations, seen).
#[test]
fn the_bound_of_the_fold() {
    let mut jump = plain(at(1e-9, 0.0), 10.0, 1e6);
    jump.ropes[0].linear_density = 4.0.kilograms_per_meter();
    jump.follow.horizon = 3.0.seconds();
    let flight = fly(&jump).unwrap();
    assert!((flight.fold.acceleration_over_g.si() - 1.28125).abs() < 2e-3, "{:?}", flight.fold);
    let at_six: f64 = (4.0 * 800.0 + 2.0 * 200.0 - 120.0) / (2.0 * (200.0 - 120.0 + 1600.0));
    assert!((at_six * 2.0 * 9.81 * 6.0 - 121.924).abs() < 0.01);
}

#[test]
fn energy_keeps_for_a_minute_without_loss() {
    let mut jump = demo();
    jump.walls.clear();
    jump.drag_area = 0.0.square_meters();
    for rope in &mut jump.ropes {
        rope.response = lossless(22e3);
    }
    jump.follow.horizon = 60.0.seconds();
    let jumps = Jumps::new(&jump.lines).unwrap();
    let mut worst = 0.0_f64;
    // Several, since what a step may miss, a line taut or a rope slack for a part of it, is a matter of luck.
    for k in 0..20 {
        let k = f64::from(k);
        jump.exit.x = (2.0 + 0.2 * k).meters();
        jump.exit.y = (0.1 * k).meters();
        jump.ropes[1].rest_length = (72.0 + 0.02 * k).meters();
        let flight = jumps.fly(&jump).unwrap();
        worst = worst.max(flight.energy.drift.si());
        assert_eq!(flight.energy.lost_in_ropes.si(), 0.0);
    }
    println!("drift over 60 s without loss, worst of 20 jumps: {worst:.1e}");
    assert!(worst < 1e-7);
}

#[test]
fn a_tighter_tolerance_converges() {
    let peak = |tolerance: f64| {
        let mut jump = demo();
        jump.follow.tolerance = tolerance.ratio();
        jump.follow.horizon = 12.0.seconds();
        let flight = fly(&jump).unwrap();
        (flight.resultant.value.si(), flight.lowest.value.si())
    };
    let (coarse, middle, fine) = (peak(1e-6), peak(1e-8), peak(1e-10));
    assert!((middle.0 / fine.0 - 1.0).abs() < 1e-6 && (middle.1 - fine.1).abs() < 1e-5);
    assert!((coarse.0 / fine.0 - 1.0).abs() < 1e-4);
}
