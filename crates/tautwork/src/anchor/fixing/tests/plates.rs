//! Groups of bolts against textbooks and closed forms.

use super::*;

fn bolt(name: &str, at: [f64; 3]) -> PlateBolt {
    PlateBolt {
        name: name.to_owned(),
        position: point(at),
        axial_stiffness: 100.0.kilonewtons_per_meter(),
        shear_stiffness: 100.0.kilonewtons_per_meter(),
        limits: None,
    }
}

fn wall(at: &[[f64; 3]], pull: [f64; 3], pull_at: [f64; 3]) -> BoltGroup {
    BoltGroup {
        bolts: at.iter().enumerate().map(|(i, at)| bolt(&format!("{i}"), *at)).collect(),
        normal: [0.0, 1.0, 0.0],
        bearing: vec![],
        pull: newtons(pull),
        pull_at: point(pull_at),
    }
}

/// Shigley, *Mechanical Engineering Design*, example 8-7, from memory: four M16 bolts at ±75 mm and
/// ±60 mm, 16 kN down at 425 mm from their middle: 21.0 kN on the near two, 14.8 kN on the far two.
#[test]
fn an_eccentric_group_in_shear_as_in_shigley() {
    let places =
        [[0.075, 0.0, 0.06], [0.075, 0.0, -0.06], [-0.075, 0.0, -0.06], [-0.075, 0.0, 0.06]];
    let group = wall(&places, [0.0, 0.0, -16e3], [0.425, 0.0, 0.0]);
    let held = bolt_group(&group).unwrap();
    for (bolt, kn) in held.bolts.iter().zip([21.0, 21.0, 14.8, 14.8]) {
        near(bolt.shear.si() / 1e3, kn, 0.05);
        near(bolt.tension.si(), 0.0, 1e-6);
    }
    // Direct shear and the moment over the polar sum, in full digits.
    let (r2, moment) = (0.075_f64.powi(2) + 0.06_f64.powi(2), 16e3 * 0.425);
    let along = 4e3 + moment * 0.075 / (4.0 * r2);
    near(held.bolts[0].shear.si(), along.hypot(moment * 0.06 / (4.0 * r2)), 1e-6);
}

/// A plate that turns about its toe, textbooks of machine design, from memory: T_i = M y_i / Σ y².
#[test]
fn a_bracket_that_turns_about_its_toe() {
    let mut group = wall(
        &[[-0.05, 0.0, 0.05], [0.05, 0.0, 0.05], [-0.05, 0.0, 0.3], [0.05, 0.0, 0.3]],
        [0.0, 0.0, -12e3],
        [0.0, 0.4, 0.1],
    );
    let toe = |x: f64| BearingPoint {
        position: point([x, 0.0, 0.0]),
        stiffness: 1e9.kilonewtons_per_meter(),
    };
    group.bearing = vec![toe(-0.05), toe(0.05)];
    let held = bolt_group(&group).unwrap();
    assert_eq!(held.pressed, PressedRule::AtPoints);
    let (moment, squares) = (12e3 * 0.4, 2.0 * (0.05_f64.powi(2) + 0.3_f64.powi(2)));
    for (bolt, y) in held.bolts.iter().zip([0.05, 0.05, 0.3, 0.3]) {
        near(bolt.tension.si(), moment * y / squares, 1.0);
        near(bolt.shear.si(), 3e3, 1e-3);
        assert_eq!(bolt.pressed.si(), 0.0);
    }
    // What the bolts pull, the toe presses.
    let pulled: f64 = held.bolts.iter().map(|b| b.tension.si()).sum();
    let pressed: f64 = held.bearing.iter().map(|b| b.si()).sum();
    near(pressed, pulled, 1e-3);
}

/// The neutral axis through the middle, AISC Manual part 7, from memory: T = M c / Σ y².
#[test]
fn without_bearing_points_the_plate_turns_about_the_middle_of_its_bolts() {
    let group = wall(
        &[[0.0, 0.0, 0.1], [0.0, 0.0, 0.0], [0.0, 0.0, -0.1]],
        [0.0, 0.0, -6e3],
        [0.0, 0.05, 0.0],
    );
    let held = bolt_group(&group).unwrap();
    assert_eq!(held.pressed, PressedRule::AtBolts);
    near(held.bolts[0].tension.si(), 6e3 * 0.05 * 0.1 / 0.02, 1e-6);
    near(held.bolts[1].tension.si(), 0.0, 1e-6);
    assert_eq!(held.bolts[2].tension.si(), 0.0);
    near(held.bolts[2].pressed.si(), 1500.0, 1e-6);
}

#[test]
fn stiffer_bolts_take_more() {
    let mut group = wall(&[[0.1, 0.0, 0.0], [-0.1, 0.0, 0.0]], [0.0, 3e3, 0.0], [0.0; 3]);
    // Twice as stiff, and the pull where both stretch alike: a third nearer to the stiffer.
    group.bolts[0].axial_stiffness = 200.0.kilonewtons_per_meter();
    group.pull_at = point([0.1 / 3.0, 0.0, 0.0]);
    let held = bolt_group(&group).unwrap();
    near(held.bolts[0].tension.si(), 2e3, 1e-6);
    near(held.bolts[1].tension.si(), 1e3, 1e-6);
}

#[test]
fn the_scale_is_that_of_the_first_bolt() {
    let mut group = wall(&[[0.1, 0.0, 0.0], [-0.1, 0.0, 0.0]], [0.0, 4e3, 0.0], [0.05, 0.0, 0.0]);
    for bolt in &mut group.bolts {
        bolt.limits = Some(limits(12.0, 20.0, InteractionRule::FiveThirds));
    }
    let held = bolt_group(&group).unwrap();
    assert_eq!(held.first.as_deref(), Some("0"));
    let scale = held.scale.unwrap().si();
    near(scale, 4.0, 1e-9);
    group.pull = newtons([0.0, 4e3 * scale, 0.0]);
    near(bolt_group(&group).unwrap().scale.unwrap().si(), 1.0, 1e-9);
}

#[test]
fn what_nothing_holds_is_refused() {
    // One bolt under a pull beside it, and two that may turn about their line.
    let one = wall(&[[0.0; 3]], [0.0, 1e3, 0.0], [0.1, 0.0, 0.0]);
    assert_eq!(bolt_group(&one), Err(AnchorError::NotHeld));
    let two = wall(&[[0.1, 0.0, 0.0], [-0.1, 0.0, 0.0]], [0.0, 1e3, 0.0], [0.0, 0.0, 0.1]);
    assert_eq!(bolt_group(&two), Err(AnchorError::NotHeld));
    // A slot along the pull: no shear stiffness at all.
    let mut slots = wall(&[[0.1, 0.0, 0.0], [-0.1, 0.0, 0.0]], [1e3, 0.0, 0.0], [0.0; 3]);
    for bolt in &mut slots.bolts {
        bolt.shear_stiffness = 0.0.newtons_per_meter();
    }
    assert_eq!(bolt_group(&slots), Err(AnchorError::NotHeld));
    // Straight through the one bolt it holds.
    let through = wall(&[[0.0; 3]], [0.0, 1e3, 0.0], [0.0, 0.5, 0.0]);
    near(bolt_group(&through).unwrap().bolts[0].tension.si(), 1e3, 1e-6);
}

#[test]
fn errors_name_the_bolt() {
    let mut group = wall(&[[0.1, 0.0, 0.0], [-0.1, 0.0, 0.0]], [0.0, 4e3, 0.0], [0.0; 3]);
    group.bolts[1].name = "0".to_owned();
    let error = bolt_group(&group).unwrap_err().to_string();
    assert_eq!(error, "bolts[1].name is 0; it must be different for each bolt");
    group.bolts[1].name = "1".to_owned();
    group.bolts[1].axial_stiffness = 0.0.newtons_per_meter();
    let error = bolt_group(&group).unwrap_err().to_string();
    assert_eq!(error, "bolts[1].axial_stiffness is 0 N/m; it must be above zero");
    group.bolts.clear();
    let error = bolt_group(&group).unwrap_err().to_string();
    assert_eq!(error, "bolts is 0; it must be from 1 to 100");
    let still = wall(&[[0.0; 3]], [0.0; 3], [0.0; 3]);
    assert_eq!(bolt_group(&still), Err(AnchorError::NoPull));
}
