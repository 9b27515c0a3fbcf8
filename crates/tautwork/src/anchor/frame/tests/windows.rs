//! Windows of directions.

use super::*;

/// A tripod turns over about the lines between its feet, 0.6 m from its middle, 2.4 m below its head.
#[test]
fn a_tripod_turns_over_about_two_feet() {
    let mut f = frame([0.0, 0.0, 2.4], &tripod_feet(1.2), &[], [0.0; 3]);
    f.ropes = vec![rope("load", [0.0, 0.0, 0.0], 1000.0)];
    let found = frame_window(&f, "load").unwrap();
    assert!(found.stands && found.sides.len() == 3 && found.notes.is_empty());
    let angle = (0.6_f64 / 2.4).atan();
    for side in &found.sides {
        assert!(near(side.margin.si(), angle, 1e-12));
        assert!(side.carried_by.len() == 2);
        assert!(near(-side.rope_there[2], angle.cos(), 1e-12));
    }
    // A rope with the tension but along the other way lifts it off.
    f.ropes = vec![rope("load", [0.0, 0.0, 9.0], 1000.0)];
    let found = frame_window(&f, "load").unwrap();
    assert!(!found.stands && found.margin.unwrap().si() < 0.0);
}

/// Other loads on the head open or close the window: at half a right angle from straight down, a tripod of
/// 45° legs is on its edge with the rope alone and well inside with a weight beside it.
#[test]
fn a_weight_at_the_head_widens_the_window() {
    let margin = |weight: f64| {
        let mut f = frame([0.0, 0.0, 2.4], &tripod_feet(1.2), &[], [0.0, 0.0, -weight]);
        f.ropes = vec![rope("load", [1.0, 0.0, 0.0], 1000.0)];
        frame_window(&f, "load").unwrap()
    };
    assert!(margin(0.0).margin.unwrap() < margin(100.0).margin.unwrap());
    assert!(margin(100.0).margin.unwrap() < margin(900.0).margin.unwrap());
    // tan(edge) = 1/4: 1 kN level is held by more than 4 kN, and beyond √17 kN any way of pulling is.
    let any = margin(4124.0);
    assert!(any.stands && any.margin.is_none() && any.notes == [WindowNote::AnyDirection]);
    assert!(margin(4123.0).notes.is_empty());
}

#[test]
fn guys_all_round_let_the_rope_pull_any_way() {
    let mut f = frame([0.0, 0.0, 3.0], &[[0.0; 3]], &tripod_feet(4.0), [0.0; 3]);
    f.ropes = vec![rope("load", [5.0, 1.0, 20.0], 1000.0)];
    let found = frame_window(&f, "load").unwrap();
    assert!(found.stands && found.notes == [WindowNote::AnyDirection] && found.sides.is_empty());
}

#[test]
fn members_in_one_plane_leave_no_room() {
    let mut f = frame([0.0, 0.0, 3.0], &[[0.0, 1.0, 0.0], [0.0, -1.0, 0.0]], &[], [0.0; 3]);
    f.ropes = vec![rope("load", [0.0, 0.2, 0.0], 1000.0)];
    let found = frame_window(&f, "load").unwrap();
    assert!(found.stands && found.notes == [WindowNote::NoRoom] && found.margin.is_none());
    // A leg that a force of 9 kN pulls over: a rope of 1 kN cannot help.
    let mut f = frame([0.0, 0.0, 2.4], &tripod_feet(1.2), &[], [9000.0, 0.0, 0.0]);
    f.ropes = vec![rope("load", [0.0, 0.0, 0.0], 1000.0)];
    let found = frame_window(&f, "load").unwrap();
    assert!(!found.stands && found.notes == [WindowNote::NoDirection]);
}

/// For a pulley the load's part turns, the other stays.
#[test]
fn the_window_of_a_pulley_is_that_of_its_load_part() {
    let mut f = frame([0.0, 0.0, 2.4], &tripod_feet(1.2), &[], [0.0; 3]);
    f.ropes = vec![rope("load", [0.1, 0.0, 0.0], 1000.0), rope("other", [0.0, 0.3, 0.0], 800.0)];
    let ropes = frame_window(&f, "load").unwrap();
    f.ropes.clear();
    f.pulleys = vec![HeadPulley {
        name: "load".to_owned(),
        load: point([0.1, 0.0, 0.0]),
        haul: point([0.0, 0.3, 0.0]),
        tension: 1000.0.newtons(),
        behind: 0.8.ratio(),
    }];
    assert_eq!(frame_window(&f, "load").unwrap(), ropes);
    assert!(matches!(frame_window(&f, "other"), Err(AnchorError::Unknown { what: "rope", .. })));
    f.pulleys[0].tension = 0.0.newtons();
    assert!(matches!(frame_window(&f, "load"), Err(AnchorError::Invalid(_))));
}

fn led(f: &Frame, way: Vector3<f64>) -> Frame {
    let mut f = f.clone();
    f.ropes[0].towards = point((si(f.head) + way * 5.0).into());
    f
}

fn stands(f: &Frame) -> bool {
    frame_forces(f) != Err(AnchorError::CannotStand)
}

proptest! {
    /// Whether the frame stands with the rope anywhere is whether the rope is inside all sides.
    #[test]
    fn inside_all_sides_is_standing(
        f in some_frame(), way in [-1.0..1.0_f64, -1.0..1.0_f64, -1.0..1.0_f64],
    ) {
        let way = Vector3::from(way);
        prop_assume!(way.norm() > 0.1);
        let f = led(&f, way.normalize());
        let found = frame_window(&f, "load").unwrap();
        prop_assert_eq!(found.stands, stands(&f));
        match found.margin {
            Some(m) if m.si().abs() > 1e-7 => prop_assert_eq!(m.si() > 0.0, found.stands),
            None if found.notes == [WindowNote::AnyDirection] => prop_assert!(found.stands),
            None if found.notes == [WindowNote::NoDirection] => prop_assert!(!found.stands),
            _ => {}
        }
    }

    /// The rope may turn by the margin in any way, and at the nearest side by no more.
    #[test]
    fn the_margin_is_how_far_the_rope_may_turn(f in some_frame(), about in 0.0..TAU) {
        let found = frame_window(&f, "load").unwrap();
        let Some(margin) = found.margin.map(Quantity::si).filter(|m| *m > 1e-4) else {
            return Ok(())
        };
        let rope = (si(f.ropes[0].towards) - si(f.head)).normalize();
        let aside = rope.cross(&Vector3::ith(rope.iamin(), 1.0)).normalize();
        let other = rope.cross(&aside);
        let turn = |by: f64, away: Vector3<f64>| rope * by.cos() + away * by.sin();
        let anywhere = aside * about.cos() + other * about.sin();
        prop_assert!(stands(&led(&f, turn(0.999_99 * margin, anywhere))));
        let there = Vector3::from(found.sides[0].rope_there);
        let away = (there - rope * rope.dot(&there)).normalize();
        prop_assert!((turn(margin, away) - there).norm() < 1e-9);
        prop_assert!(stands(&led(&f, turn(0.999_99 * margin, away))));
        prop_assert!(!stands(&led(&f, turn(margin + 1e-5, away))));
    }
}
