//! Against exact solutions.

use super::*;

// Fall with quadratic drag: distance (v²/g) ln cosh(g t / v), 103.604 m after 5 s at a terminal speed of
// 44.35 m/s, where the speed is 35.5969 m/s (closed form).
#[test]
fn a_fall_with_drag() {
    let v_t: f64 = 44.35;
    let mut jump = plain(at(0.0, 0.0), 1e6, 1e4);
    jump.drag_area = (2.0 * 80.0 * 9.81 / (1.2 * v_t * v_t)).square_meters();
    jump.follow.horizon = 5.0.seconds();
    let flight = fly_full(&jump, &Mesh::default()).unwrap();
    assert!((-flight.lowest.value.si() / 103.604 - 1.0).abs() < 1e-5, "{:?}", flight.lowest);
    assert!((flight.top_speed.value.si() / 35.5969 - 1.0).abs() < 1e-5);
    assert!(flight.notes.contains(&FullNote::NeverTaut));
}

// F = W + sqrt(W² + 2 W EA f): 6.44235 kN for EA 20 kN, 80 kg, f 1 (Wexler 1950, from memory).
#[test]
fn a_drop_on_a_light_rope() {
    let flight = fly_full(&plain(at(1e-9, 0.0), 5.0, 20e3), &Mesh::default()).unwrap();
    assert!((flight.resultant.value.si() / 6442.35 - 1.0).abs() < 1e-4, "{:?}", flight.resultant);
}

// Elastic pendulum, k 200 N/m, 2 kg, 1 m, from (0.3, −1.1981) at rest: x 0.14372, z −1.22482 m after
// 10 s (reference integration at tight tolerance, derived). The error falls as the square of the step.
#[test]
fn an_elastic_pendulum() {
    let mut jump = plain(at(0.3, -1.1981), 1.0, 200.0);
    jump.mass = 2.0.kilograms();
    jump.follow.sample_every = 10.0.seconds();
    let off = |share: f64| {
        let flight =
            fly_full(&jump, &Mesh { step_share: share.ratio(), ..Mesh::default() }).unwrap();
        let series = &flight.series;
        assert_eq!(series.t_s.last(), Some(&10.0));
        (series.x_m[1] - 0.143_72).hypot(series.z_m[1] + 1.224_82)
    };
    // Below a thousandth of a second the bound of Eq. (F12) no longer sets the step.
    assert!(off(0.25) < 5e-5, "{}", off(0.25));
}

// Slack rope that falls in a fold makes the body faster than free fall (Calkin and March 1989; Kagan and
// Kott 1996): M 80, m 20 kg, L 10, y 6 m give v² = 121.924 m²/s² (published equation, seen), against
// 117.72 without. It takes no loss in the fold; the rope here has some motion of its own.
#[test]
fn a_fold_falls_faster_than_free_fall() {
    let mut jump = plain(at(0.2, 0.0), 10.0, 1e6);
    jump.ropes = vec![rope("rope", 10.0, 2.0, lossless(2e5))];
    jump.follow.horizon = 1.2.seconds();
    jump.follow.sample_every = 1e-3.seconds();
    let square = |nodes: usize| {
        let flight = fly_full(&jump, &mesh(nodes)).unwrap();
        let s = &flight.series;
        let k = s.z_m.iter().position(|z| *z <= -6.0).unwrap();
        let v = (s.z_m[k - 5] - s.z_m[k + 5]) / (s.t_s[k + 5] - s.t_s[k - 5]);
        v * v + 2.0 * 9.81 * (6.0 + s.z_m[k])
    };
    let (coarse, fine) = (square(60), square(240));
    println!("v² at 6 m: {coarse:.3} and {fine:.3}, 121.924 without loss, 117.72 in free fall");
    assert!(fine > 117.72 + 0.5 * (121.924 - 117.72) && fine < 121.924 + 0.2, "{fine}");
    assert!((fine - 121.924).abs() < (coarse - 121.924).abs() + 0.5);
}
