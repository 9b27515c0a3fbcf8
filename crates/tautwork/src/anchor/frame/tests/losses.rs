//! Loss of a guy.

use super::*;

fn standing(loss: &GuyLoss) -> &StandsAfter {
    match &loss.after {
        AfterLoss::Stands(after) => after,
        AfterLoss::Falls(force) => panic!("falls: {force:?}"),
    }
}

/// Four guys around a mast with a pretension of 400 N each; 500 N pull level along x.
fn mast() -> Frame {
    let guys = [[4.0, 0.0, 0.0], [0.0, 4.0, 0.0], [-4.0, 0.0, 0.0], [0.0, -4.0, 0.0]];
    let mut f = frame([0.0, 0.0, 3.0], &[[0.0; 3]], &guys, [500.0, 0.0, -100.0]);
    for guy in &mut f.guys {
        guy.pretension = Some(400.0.newtons());
    }
    f
}

#[test]
fn a_frame_that_falls_says_which_way() {
    let loss = lose_guy(&mast(), "guy 2").unwrap();
    let AfterLoss::Falls(force) = loss.after else { panic!("stands") };
    let force = si(force);
    // Nothing holds it back: it falls along the pull. The mast below takes what is down.
    assert!(force.x > 0.0 && force.y.abs() < 1e-9 && force.x <= 500.0 * (1.0 + 1e-9));
}

/// One of three guys in a row is cut: stiffness falls to two thirds, so each goes from a third to a half,
/// and by as much again beyond it.
#[test]
fn a_guy_of_three_in_one_place() {
    let guys = [[-4.0, 0.0, 0.0]; 3];
    let feet = [[0.0, 1.0, 0.0], [0.0, -1.0, 0.0]];
    let f = frame([0.0, 0.0, 3.0], &feet, &guys, [960.0, 0.0, -500.0]);
    let loss = lose_guy(&f, "guy 1").unwrap();
    let after = standing(&loss);
    // 3-4-5: 1200 N in all.
    assert!(near(loss.before.guys[0].force.si(), 400.0, 1e-9));
    assert!(near(after.rest.guys[0].force.si(), 600.0, 1e-9));
    assert!(near(after.peaks[2].force.si(), 800.0, 1e-9) && after.peaks[2].name == "guy 0");
    assert!(near(after.peaks[2].dynamic_factor.unwrap().si(), 4.0 / 3.0, 1e-9));
    assert!(si(after.travel).x > 0.0 && after.energy_released.si() > 0.0);
    // The balance at either rest is the same for the legs, and the way between them squeezes none.
    let legs = 0.5 * (500.0 + 1200.0 * 0.6) * 10.0_f64.sqrt() / 3.0;
    assert!(near(after.peaks[0].force.si(), legs, 1e-9));
}

#[test]
fn losing_a_slack_guy_changes_nothing() {
    let mut f = mast();
    for guy in &mut f.guys {
        guy.pretension = None;
    }
    let loss = lose_guy(&f, "guy 0").unwrap();
    let after = standing(&loss);
    assert!(after.energy_released.si() == 0.0 && si(after.travel).norm() < 1e-12);
    assert!(near(after.peaks[0].force.si(), loss.before.legs[0].force.si(), 1e-12));
}

/// A strength below the peak has a factor below one.
#[test]
fn peaks_have_factors() {
    let mut f = mast();
    f.guys.push(FrameGuy::new("second", point([-4.0, 0.0, 0.0]), 300.0.kilonewtons()));
    f.guys[4].strength = Some(1000.0.newtons());
    let loss = lose_guy(&f, "guy 2").unwrap();
    let peak = &standing(&loss).peaks[4];
    assert!(near(peak.factor.unwrap().low.si(), 1000.0 / peak.force.si(), 1e-12));
    assert!(matches!(lose_guy(&f, "leg 0"), Err(AnchorError::Unknown { what: "guy", .. })));
    f.guys.drain(1..);
    assert_eq!(lose_guy(&f, "guy 0"), Err(AnchorError::CannotStand));
}

proptest! {
    #[test]
    fn a_loss_frees_energy_and_peaks_are_above_both_rests(f in some_frame(), which in 0..6_usize) {
        prop_assume!(which < f.guys.len());
        let Ok(loss) = lose_guy(&f, &f.guys[which].name) else { return Ok(()) };
        let AfterLoss::Stands(after) = &loss.after else { return Ok(()) };
        prop_assert!(after.energy_released.si() >= 0.0 && after.residual <= 1e-6);
        let mut before = all(&loss.before);
        before.remove(f.legs.len() + which);
        let size = before.iter().fold(1.0_f64, |m, &f| m.max(f));
        for (peak, (old, new)) in after.peaks.iter().zip(before.iter().zip(all(&after.rest))) {
            prop_assert!(peak.force.si() >= old.max(new) - 1e-8 * size);
        }
        // Where nothing goes slack or taut on the way, the peak is as far beyond as the start was before.
        let linear = |(old, new): (&f64, f64)| *old > 0.0 && new > 0.0 && 2.0 * new > *old;
        if before.iter().zip(all(&after.rest)).all(linear) && after.energy_released.si() > 1e-6 {
            for (peak, (old, new)) in after.peaks.iter().zip(before.iter().zip(all(&after.rest))) {
                prop_assert!((peak.force.si() - old.max(2.0 * new - old)).abs() < 1e-6 * size);
            }
        }
    }
}
