//! Blocks and trunks against textbooks, limits and statics.

use super::*;

fn block() -> Block {
    Block {
        mass: 2000.0.kilograms(),
        friction: 0.5.ratio(),
        slope: 0.0.degrees(),
        center_behind_edge: 0.5.meters(),
        center_height: 0.6.meters(),
        pull: 4.0.kilonewtons(),
        pull_angle: 0.0.degrees(),
        pull_height: 0.3.meters(),
        pull_behind_edge: 0.2.meters(),
    }
}

/// Hibbeler, *Statics*, example 8.1, from memory: a crate of 20 kg, 0.8 m wide, pushed at 0.2 m by 80 N
/// that point 30° down: the ground gives 236 N, 9.08 mm from the middle, friction 69.3 N.
#[test]
fn a_crate_as_in_hibbeler() {
    let crate_ = Block {
        mass: 20.0.kilograms(),
        friction: 0.3.ratio(),
        center_behind_edge: 0.4.meters(),
        center_height: 0.4.meters(),
        pull: 80.0.newtons(),
        pull_angle: (-30.0).degrees(),
        pull_height: 0.2.meters(),
        pull_behind_edge: 0.8.meters(),
        ..block()
    };
    let hold = block_hold(&crate_).unwrap();
    near(hold.normal_force.si(), 236.2, 0.05);
    near(hold.ground_force_behind_edge.unwrap().si() - 0.4, 0.009_08, 1e-5);
    near(hold.friction_needed.unwrap().si() * hold.normal_force.si(), 69.3, 0.05);
    // The friction there, 70.9 N, holds it.
    assert!(hold.factor.unwrap().si() > 1.0);
}

/// At the pull of Eq. (F11) the friction needed is the friction there is; at that of Eq. (F12) the
/// ground's force is at the edge.
#[test]
fn the_pulls_found_are_at_their_limits() {
    for slope in [-20.0, 0.0, 15.0] {
        for angle in [-25.0, 0.0, 40.0] {
            let mut case = block();
            (case.slope, case.pull_angle) = (slope.degrees(), angle.degrees());
            let hold = block_hold(&case).unwrap();
            case.pull = hold.sliding.unwrap();
            let at = block_hold(&case).unwrap();
            near(at.friction_needed.unwrap().si(), 0.5, 1e-9);
            case.pull = hold.tipping.unwrap();
            let at = block_hold(&case).unwrap();
            if let Some(behind) = at.ground_force_behind_edge {
                near(behind.si(), 0.0, 1e-9);
            }
        }
    }
}

#[test]
fn level_ground_and_level_pull() {
    let hold = block_hold(&block()).unwrap();
    let weight = 2000.0 * 9.81;
    near(hold.sliding.unwrap().si(), 0.5 * weight, 1e-9);
    near(hold.tipping.unwrap().si(), weight * 0.5 / 0.3, 1e-9);
    near(hold.factor.unwrap().si(), 0.5 * weight / 4e3, 1e-12);
    assert_eq!(hold.first, Some(FirstToGo::Sliding));
    // High slings tip.
    let high = Block { pull_height: 1.2.meters(), ..block() };
    assert_eq!(block_hold(&high).unwrap().first, Some(FirstToGo::Tipping));
}

/// Any textbook: a block slides by itself where the slope is steeper than the angle of friction.
#[test]
fn slopes_without_pull() {
    let steep = Block { slope: 26.6.degrees(), ..block() };
    let hold = block_hold(&steep).unwrap();
    assert_eq!(hold.sliding.unwrap().si(), 0.0);
    assert_eq!(hold.notes, [BlockNote::SlidesAlone]);
    assert_eq!(hold.factor.unwrap().si(), 0.0);
    let less = Block { slope: 26.5.degrees(), ..block() };
    assert!(block_hold(&less).unwrap().notes.is_empty());
    // It tips where the centre is beyond the edge: tan 40° > 0.5 / 0.6; rough ground holds its foot.
    let tips = Block { slope: 40.0.degrees(), friction: 2.0.ratio(), ..block() };
    let hold = block_hold(&tips).unwrap();
    assert_eq!((hold.tipping.unwrap().si(), hold.notes), (0.0, vec![BlockNote::TipsAlone]));
    assert_eq!(hold.first, Some(FirstToGo::Tipping));
}

#[test]
fn pulls_that_never_move_it() {
    // 70° down with friction 0.5: tan 20° < 0.5, the block jams; and it presses behind the edge.
    let pressed =
        Block { pull_angle: (-70.0).degrees(), pull_behind_edge: 0.5.meters(), ..block() };
    let hold = block_hold(&pressed).unwrap();
    assert_eq!((hold.sliding, hold.tipping, hold.first, hold.factor), (None, None, None, None));
    assert_eq!(hold.notes, [BlockNote::PressedFast]);
}

#[test]
fn a_pull_straight_up_lifts_at_the_weight() {
    let up = Block { pull_angle: 90.0.degrees(), pull_behind_edge: 0.5.meters(), ..block() };
    let hold = block_hold(&up).unwrap();
    near(hold.sliding.unwrap().si(), 2000.0 * 9.81, 1e-6);
    near(hold.tipping.unwrap().si(), 2000.0 * 9.81, 1e-6);
    let beyond = Block { pull: 30.0.kilonewtons(), ..up };
    let hold = block_hold(&beyond).unwrap();
    assert!(hold.normal_force.si() < 0.0 && hold.friction_needed.is_none());
}

#[test]
fn errors_of_blocks_name_the_range() {
    let over = Block { slope: 30.0.degrees(), pull_angle: 70.0.degrees(), ..block() };
    let error = block_hold(&over).unwrap_err().to_string();
    assert!(error.contains("pull_angle + slope"), "{error}");
    let wall = Block { slope: 90.0.degrees(), ..block() };
    let error = block_hold(&wall).unwrap_err().to_string();
    assert!(error.ends_with("it must be between -90 deg and 90 deg"), "{error}");
}

/// Section modulus of a round bar π d³ / 32, area π d² / 4: any textbook.
#[test]
fn stress_at_the_foot_of_a_trunk() {
    let trunk = Trunk {
        diameter: 0.3.meters(),
        sling_height: 1.5.meters(),
        pull: 20.0.kilonewtons(),
        pull_angle: (-30.0).degrees(),
        strength: 30.0.megapascals(),
    };
    let stress = tree_stress(&trunk).unwrap();
    let modulus = std::f64::consts::PI * 0.3_f64.powi(3) / 32.0;
    near(stress.bending.si(), 20e3 * 30.0_f64.to_radians().cos() * 1.5 / modulus, 1e-3);
    let area = std::f64::consts::PI * 0.09 / 4.0;
    near(stress.axial.si(), -20e3 * 0.5 / area, 1e-6);
    near(stress.factor.si(), 30e6 / (stress.bending.si() - stress.axial.si()), 1e-12);
    // Twice the height twice the bending, twice the diameter an eighth.
    let twice = tree_stress(&Trunk { sling_height: 3.0.meters(), ..trunk }).unwrap();
    near(twice.bending.si() / stress.bending.si(), 2.0, 1e-12);
    let thick = tree_stress(&Trunk { diameter: 0.6.meters(), ..trunk }).unwrap();
    near(stress.bending.si() / thick.bending.si(), 8.0, 1e-12);
    // At the foot, straight up: no bending.
    let up = Trunk { pull_angle: 90.0.degrees(), ..trunk };
    let up = tree_stress(&up).unwrap();
    assert!(up.bending.si() < 1e-9 * up.axial.si());
}
