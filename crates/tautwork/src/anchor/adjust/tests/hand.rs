//! Self-adjusting anchors by hand.

use super::*;

/// Two points at the ends of legs of 1 m.
fn vee(angle_deg: f64) -> SelfAdjusting {
    let half = (0.5 * angle_deg).to_radians().sin();
    looped(&[[-half, 0.0, 0.0], [half, 0.0, 0.0]], &[0.0, 0.0], 4.0, 1e10)
}

/// 1 / (2 cos(θ/2)), rope-rescue angle tables (from memory).
#[test]
fn two_points_follow_the_angle_table() {
    let table = [
        (0.1, 0.5),
        (30.0, 0.518),
        (45.0, 0.541),
        (60.0, 0.577),
        (90.0, 0.707),
        (120.0, 1.0),
        (150.0, 1.932),
        (160.0, 2.879),
    ];
    for (angle_deg, factor) in table {
        let rest = adjusted_rest(&vee(angle_deg)).unwrap();
        for p in &rest.points {
            assert!((p.force.si() / 3000.0 - factor).abs() < 1e-3, "{angle_deg}");
            assert!((p.share.si() - 0.5).abs() < 1e-7);
        }
    }
}

// Directly below each other: the legs are parallel, and each strand takes a quarter.
#[test]
fn points_in_line_with_the_pull_share_evenly() {
    let rest = adjusted_rest(&looped(&[[0.0; 3], [0.0, 0.0, -0.2]], &[0.0; 2], 3.0, 5e4)).unwrap();
    assert!((rest.tension.si() - 750.0).abs() < 1e-6);
    // 2 (d + d − 0.2) = 3 (1 + 750 / 50 000).
    let depth = (3.0 * (1.0 + 750.0 / 5e4) + 0.4) / 4.0;
    assert!((rest.master_point[2].si() + depth).abs() < 1e-9);
}

#[test]
fn three_points_round_a_circle_share_evenly() {
    let at: Vec<[f64; 3]> = [0.0_f64, 120.0, 240.0]
        .iter()
        .map(|a| [0.6 * a.to_radians().cos(), 0.6 * a.to_radians().sin(), 0.0])
        .collect();
    // Legs of 1 m, 0.8 m below the circle.
    let mut anchor = looped(&at, &[0.0; 3], 6.0, 1e10);
    let rest = adjusted_rest(&anchor).unwrap();
    for p in &rest.points {
        assert!((p.share.si() - 1.0 / 3.0).abs() < 1e-9);
        assert!((p.force.si() - 1000.0 / 0.8).abs() < 1e-2);
    }
    // Friction leaves as much to each as to the others.
    anchor.friction_at_points = Some(rub(0.1));
    anchor.friction_at_master = Some(rub(0.1));
    let rest = adjusted_rest(&anchor).unwrap();
    assert!(rest.patterns > 0);
    for p in &rest.points {
        assert!((p.share_low.si() - rest.points[0].share_low.si()).abs() < 1e-7);
        assert!((p.share_high.si() - rest.points[0].share_high.si()).abs() < 1e-7);
        assert!(p.share_low.si() < 0.32 && p.share_high.si() > 0.35);
    }
}

// Efficiency η at the master, none lost at the points: strands of a leg are alike, so forces stand at most as 1 to η. With
// points in line with the pull nothing turns, and the shares are 1 / (1 + η) and η / (1 + η).
#[test]
fn two_parallel_legs_share_as_the_efficiency_at_the_master() {
    let mut anchor = looped(&[[0.0; 3], [0.0, 0.0, -0.2]], &[0.0; 2], 3.0, 5e4);
    for eta in [0.9, 0.66, 0.5] {
        anchor.friction_at_master = Some(Friction::Fixed { efficiency: eta.ratio() });
        let rest = adjusted_rest(&anchor).unwrap();
        for p in &rest.points {
            assert!((p.share_high.si() - 1.0 / (1.0 + eta)).abs() < 1e-9, "{eta}");
            assert!((p.share_low.si() - eta / (1.0 + eta)).abs() < 1e-9, "{eta}");
        }
        assert!((rest.greatest_tension.si() - 1500.0 / (1.0 + eta)).abs() < 1e-5);
    }
    // Friction at the points alone divides each leg otherwise, but not the legs: 1 + η + √…, by the ratio of both turns.
    anchor.friction_at_master = None;
    anchor.friction_at_points = Some(Friction::Fixed { efficiency: 0.5.ratio() });
    let rest = adjusted_rest(&anchor).unwrap();
    // One strand of a leg stands at 1, the other at ½, and the master hands both on: ½ and 1.
    for p in &rest.points {
        assert!((p.share_high.si() - 0.5).abs() < 1e-9);
    }
    assert!((rest.greatest_tension.si() - 1000.0).abs() < 1e-5);
}

#[test]
fn little_friction_is_none_and_much_is_fixed_legs() {
    let mut anchor = looped(&[[-0.4, 0.0, 0.0], [0.5, 0.1, 0.2]], &[0.0; 2], 3.0, 1e6);
    let none = adjusted_rest(&anchor).unwrap();
    let mut last = 0.0;
    for mu in [1e-9, 0.1, 0.3, 1.0, 2.0, 4.0] {
        anchor.friction_at_points = Some(rub(mu));
        anchor.friction_at_master = Some(rub(mu));
        let rest = adjusted_rest(&anchor).unwrap();
        let wide = rest.points[0].share_high.si() - rest.points[0].share_low.si();
        assert!(wide > last, "{mu}");
        last = wide;
        if mu < 1e-8 {
            assert!((rest.points[0].share_high.si() - none.points[0].share.si()).abs() < 1e-7);
        }
    }
    // Fixed legs of any length: from nothing to all.
    assert!(last > 0.999 && last <= 1.0 + 1e-9);
}

// In line with the pull, a falling weight: ½ k x² = P (h + x), k of two strands of half a loop.
#[test]
fn a_loss_in_line_is_a_falling_weight() {
    let (p, ea) = (3000.0_f64, 5e4);
    for knot_m in [0.0, 0.5] {
        let mut anchor = looped(&[[0.0; 3], [0.0, 0.0, -0.2]], &[0.0, knot_m], 3.0, ea);
        anchor.strength = Some(20.0.kilonewtons());
        let depth = (3.0 * (1.0 + 750.0 / ea) + 0.4) / 4.0;
        let loss = adjusted_loss(&anchor, "p1", 5.0.kilograms()).unwrap();
        let drop = loss.with_knots.as_ref().unwrap_or(&loss.without_knots).drop.clone().unwrap();
        assert_eq!(loss.with_knots.is_some(), knot_m > 0.0);
        let left_m = 3.0 - 2.0 * knot_m;
        let (k, h) = (4.0 * ea / left_m, 0.5 * left_m - depth);
        assert!((drop.free_drop.si() - h).abs() < 1e-9);
        assert!((drop.extension.si() - (h + p / k)).abs() < 1e-9);
        let peak = p + (p * p + 2.0 * p * k * h).sqrt();
        assert!((drop.points[0].peak.si() / peak - 1.0).abs() < 1e-9);
        assert!((drop.factor.unwrap().si() - 40e3 / peak).abs() < 1e-6);
        let released = p * (h + p / k) - 0.5 * p * p / k;
        assert!((drop.energy_released.si() / released - 1.0).abs() < 1e-9);
        assert!((drop.speed.si() / (2.0 * released / 5.0).sqrt() - 1.0).abs() < 1e-9);
    }
}

#[test]
fn knots_shorten_the_drop_and_the_peak() {
    let mut last = (f64::INFINITY, f64::INFINITY);
    for knot_m in [0.05, 0.2, 0.4] {
        let anchor = looped(&[[-0.3, 0.0, 0.0], [0.3, 0.0, 0.1]], &[knot_m; 2], 2.2, 4e4);
        let loss = adjusted_loss(&anchor, "p0", 5.0.kilograms()).unwrap();
        let of = |d: &AdjustedDrop| {
            let d = d.drop.as_ref().unwrap();
            (d.extension.si(), d.peak_tension.si())
        };
        let (with, without) = (of(loss.with_knots.as_ref().unwrap()), of(&loss.without_knots));
        assert!(with.0 < without.0 && with.1 < without.1);
        assert!(with.0 < last.0 && with.1 < last.1);
        last = with;
    }
}

#[test]
fn a_loop_that_is_not_captive_runs_through() {
    let mut anchor = looped(&[[-0.3, 0.0, 0.0], [0.3, 0.0, 0.0]], &[0.4, 0.0], 2.2, 4e4);
    anchor.captive = false;
    let loss = adjusted_loss(&anchor, "p0", 5.0.kilograms()).unwrap();
    assert!(!loss.without_knots.held && loss.without_knots.drop.is_none());
    assert!(loss.with_knots.unwrap().held);
    // The point that is lost has none.
    assert!(!adjusted_loss(&anchor, "p1", 5.0.kilograms()).unwrap().with_knots.unwrap().held);
    // Of three points two are left, which keep it.
    let three = looped(&[[-0.3, 0.0, 0.0], [0.3, 0.0, 0.0], [0.0, 0.2, 0.1]], &[0.0; 3], 2.6, 4e4);
    assert!(adjusted_loss(&three, "p0", 5.0.kilograms()).unwrap().without_knots.held);
}

// Pulled far to one side the knots of the near leg come to the master: no more cordage runs to the other leg.
#[test]
fn knots_stop_the_swing() {
    let mut anchor = looped(&[[-0.3, 0.0, 0.0], [0.3, 0.0, 0.0]], &[0.45; 2], 2.2, 1e8);
    anchor.pull = newtons([3000.0, 0.0, -300.0]);
    let rest = adjusted_rest(&anchor).unwrap();
    assert!(rest.points[1].knot_at_master && !rest.points[0].knot_at_master);
    assert!((rest.points[0].length.si() - 0.65).abs() < 1e-4);
    let shares: f64 = rest.points.iter().map(|p| p.share.si()).sum();
    assert!((shares - 1.0).abs() < 1e-9);
    // Without knots it would go farther.
    for p in &mut anchor.points {
        p.limiter = None;
    }
    assert!(adjusted_rest(&anchor).unwrap().points[0].length.si() > 0.7);
}

// Without friction the master moves on an ellipse about two points; the shares in the legs stay 1 : 1 in force.
#[test]
fn a_swing_keeps_the_sum_of_the_legs() {
    let mut anchor = looped(&[[-0.3, 0.0, 0.0], [0.3, 0.0, 0.1]], &[0.0; 2], 2.2, 1e8);
    anchor.friction_at_master = Some(rub(0.15));
    let cone = AdjustingCone { anchor, half_angle: 40.0.degrees(), rings: 2, around: 8 };
    let map = adjusted_cone(&cone).unwrap();
    assert_eq!((map.x_m.len(), map.points.len()), (17, 2));
    for i in 0..17 {
        let d = |x: f64, z: f64| (map.x_m[i] - x).hypot(map.y_m[i]).hypot(map.z_m[i] - z);
        assert!((d(-0.3, 0.0) + d(0.3, 0.1) - 1.1).abs() < 1e-4);
        let sum: f64 = map.points.iter().map(|p| p.share[i]).sum();
        assert!((sum - 1.0).abs() < 1e-9);
        for p in &map.points {
            assert!(p.share_low[i] < p.share[i] && p.share[i] < p.share_high[i]);
        }
        // What one has more the other has less.
        assert!((map.points[0].share_high[i] + map.points[1].share_low[i] - 1.0).abs() < 1e-7);
    }
    assert!(map.farthest.si() > 0.1);
    let worst = map.points.iter().find(|p| p.name == map.worst_point).unwrap();
    assert_eq!(worst.share_high[map.worst_at], map.worst_share);
}
