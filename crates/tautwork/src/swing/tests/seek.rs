//! Questions turned round.

use super::*;

// F = W + sqrt(W² + 2 W EA f) solved for the fall (Wexler 1950, from memory).
#[test]
fn the_highest_exit_for_a_peak_is_that_of_the_closed_form() {
    let jump = plain(at(1e-9, 0.0), 10.0, 20e3);
    for peak in [4e3, 8e3] {
        let found = highest_exit_for_peak(&jump, peak.newtons()).unwrap();
        let (w, ea) = (80.0 * 9.81, 20e3);
        let factor = ((peak - w) * (peak - w) - w * w) / (2.0 * w * ea);
        let z = 10.0 * factor - 10.0;
        assert!((found.exit.z.si() - z).abs() < 0.02, "{found:?} {z}");
        assert!(found.peak.si() <= peak && found.peak.si() > 0.99 * peak);
    }
    assert!(highest_exit_for_peak(&jump, 1e9.newtons()).is_err());
    assert!(highest_exit_for_peak(&jump, f64::NAN.newtons()).is_err());
}

#[test]
fn the_demo_ropes_for_a_lowest_point() {
    let mut jump = demo();
    jump.run = Run::Soft;
    jump.follow.horizon = 20.0.seconds();
    let found = rope_length_for_lowest(&jump, (-84.0).meters()).unwrap();
    println!("{} jumps for {:?}", found.flown, found.longer);
    assert!((found.lowest.si() + 84.0).abs() < 0.01);
    assert!(found.rest_lengths.iter().all(|l| ((*l - found.longer).si() - 72.0).abs() < 1e-9));
    assert!(rope_length_for_lowest(&jump, (-500.0).meters()).is_err());
}

/// A body that falls free beside a wall at x = 0.
fn beside_a_wall() -> Jump {
    let mut jump = plain(at(-5.0, 0.0), 500.0, 20e3);
    jump.walls = vec![Wall::profile("wall", vec![at(0.0, 50.0), at(0.0, -100.0)])];
    jump.drag_area = 0.8.square_meters();
    jump.follow.horizon = 2.0.seconds();
    jump
}

#[test]
fn exits_that_keep_away_from_a_wall() {
    let found = exits_that_clear(&beside_a_wall(), at(5.0, 0.0), 2.0.meters(), 11).unwrap();
    assert_eq!(found.holds.len(), 2);
    // The radius is 0.9 m: 2.9 m from the wall on either side.
    assert_eq!(found.holds[0].from, at(-5.0, 0.0));
    assert!((found.holds[0].to.x.si() + 2.9).abs() < 0.011, "{:?}", found.holds);
    assert!((found.holds[1].from.x.si() - 2.9).abs() < 0.011);
    assert_eq!((found.clearance_m[5], found.peak_n[5]), (0.0, 0.0));
    assert!(exits_that_clear(&beside_a_wall(), at(5.0, 0.0), 2.0.meters(), 1).is_err());
}

#[test]
fn the_largest_wind_that_keeps_the_clearance() {
    let winds = Winds {
        most: 20.0.meters_per_second(),
        count: 6,
        along: 1.0.ratio(),
        left: 0.5.ratio(),
        required: 3.5.meters(),
    };
    let jump = beside_a_wall();
    let found = wind_sweep(&jump, &winds).unwrap();
    let largest = found.walls[0].largest.unwrap().si();
    let least = |speed: f64| {
        let part = |share: f64| Some((speed * share / 1.25_f64.sqrt()).meters_per_second());
        let flight = fly(&Jump { wind: part(1.0), wind_y: part(0.5), ..jump.clone() }).unwrap();
        flight.clearances[0].least.value.si()
    };
    assert!(least(largest) >= 3.5 && least(largest + 0.02) < 3.5, "{largest}");
    assert!(found.leftmost_m.windows(2).all(|w| w[1] > w[0]), "{:?}", found.leftmost_m);
    let none = Winds { required: 4.5.meters(), ..winds.clone() };
    assert_eq!(wind_sweep(&jump, &none).unwrap().walls[0].largest, None);
    assert!(wind_sweep(&jump, &Winds { along: 0.0.ratio(), left: 0.0.ratio(), ..winds }).is_err());
}
