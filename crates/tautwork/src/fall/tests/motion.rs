//! The motion integrated in time, as a check outside the energy balance.

use super::*;

/// Peak tension and time from first tension to the peak of m x″ = W − T(x), by the classical
/// Runge–Kutta method from the speed of the free fall; `extension` gives x of a tension.
fn integrated(fall: &Fall, extension: impl Fn(f64) -> f64) -> (f64, f64) {
    let m = fall.mass.si();
    let tension = |x: f64| {
        let (mut low, mut high) = (0.0, 1e6);
        for _ in 0..60 {
            let mid = 0.5 * (low + high);
            if extension(mid) < x { low = mid } else { high = mid }
        }
        0.5 * (low + high)
    };
    let slope = |[x, v]: [f64; 2]| [v, GRAVITY - tension(x) / m];
    let step = |s: [f64; 2], k: [f64; 2], h: f64| [s[0] + h * k[0], s[1] + h * k[1]];
    let mut state = [0.0, (2.0 * GRAVITY * fall.height.si()).sqrt()];
    // A thousandth of a rough time to stop.
    let h = 1e-3 * (m * fall.rope.si() / 20e3).sqrt();
    let (mut peak, mut time) = (0.0_f64, 0.0);
    while state[1] >= 0.0 {
        let a = slope(state);
        let b = slope(step(state, a, h / 2.0));
        let c = slope(step(state, b, h / 2.0));
        let d = slope(step(state, c, h));
        for i in 0..2 {
            state[i] += h / 6.0 * (a[i] + 2.0 * b[i] + 2.0 * c[i] + d[i]);
        }
        peak = peak.max(tension(state[0]));
        time += h;
    }
    (peak, time)
}

/// 80 kg on 20 kN, factor 1 and 1.77: 6.44235 and 8.28012 kN in closed form and by integration.
#[test]
fn linear_rope() {
    for (f, force_kn) in [(1.0, 6.44235), (1.77, 8.28012)] {
        let case = fall(80.0, 5.0 * f, 5.0, linear(20e3));
        let closed = impact_force(80.0.kilograms(), f64::ratio(f), 20.0.kilonewtons()).unwrap();
        let stopped = arrest(&case).unwrap().impact_force;
        let (peak, _) = integrated(&case, |t| 5.0 * t / 20e3);
        assert!((closed.in_kilonewtons() - force_kn).abs() < 1e-5);
        assert!((stopped.si() / closed.si() - 1.0).abs() < 1e-9);
        assert!((peak / closed.si() - 1.0).abs() < 1e-5);
    }
}

/// The force depends on the factor only; the time grows with the root of the length.
#[test]
fn length_changes_the_time_not_the_force() {
    let (short, long) = (fall(80.0, 2.5, 2.5, linear(20e3)), fall(80.0, 40.0, 40.0, linear(20e3)));
    let a = arrest(&short).unwrap().impact_force.si();
    let b = arrest(&long).unwrap().impact_force.si();
    assert!((a / b - 1.0).abs() < 1e-9);
    let (_, t_short) = integrated(&short, |t| 2.5 * t / 20e3);
    let (_, t_long) = integrated(&long, |t| 40.0 * t / 20e3);
    assert!((t_long / t_short - 4.0).abs() < 0.01);
    // To the peak: a quarter period and what the weight adds; half a period is 0.314 159 s.
    assert!(t_short > 0.5 * 0.314_159 && t_short < 0.314_159);
}

#[test]
fn curved_rope() {
    let case = fall(80.0, 1.5, 10.0, stiffening());
    let law = stiffening();
    let (peak, _) =
        integrated(&case, |t| 10.0 * law.strain(t.newtons()).map_or(f64::NAN, Quantity::si));
    let stopped = arrest(&case).unwrap();
    assert!((peak / stopped.impact_force.si() - 1.0).abs() < 1e-5);
    assert!(stopped.notes.is_empty());
}

#[test]
fn curved_rope_on_a_span() {
    let mut case = fall(80.0, 3.0, 10.0, stiffening());
    case.span_stiffness = Some(3.0.kilonewtons_per_meter());
    let law = stiffening();
    let (peak, _) = integrated(&case, |t| {
        10.0 * law.strain(t.newtons()).map_or(f64::NAN, Quantity::si) + t / 3000.0
    });
    let stopped = arrest(&case).unwrap();
    assert!((peak / stopped.impact_force.si() - 1.0).abs() < 1e-5);
    assert!((stopped.span_deflection.si() * 3000.0 / peak - 1.0).abs() < 1e-5);
}

#[test]
fn curved_rope_over_an_edge() {
    let case = fall(80.0, 1.5, 4.0, stiffening());
    let edge = Edge { belay_rope: 9.0.meters(), wrap: 150.0.degrees(), mu: 0.25.ratio() };
    let r = (0.25 * 150.0_f64.to_radians()).exp();
    let law = stiffening();
    let strain = |t: f64| law.strain(t.newtons()).map_or(f64::NAN, Quantity::si);
    let ends = arrest_over_edge(&case, &edge).unwrap();
    for (end, r) in [(&ends.frictionless, 1.0), (&ends.full_friction, r)] {
        let (peak, _) = integrated(&case, |t| 4.0 * strain(t) + 9.0 * strain(t / r));
        assert!((peak / end.arrest.impact_force.si() - 1.0).abs() < 1e-5);
        assert!((end.belay_force.si() * r / peak - 1.0).abs() < 1e-5);
    }
}
