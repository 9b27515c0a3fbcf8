//! Signs, and inputs that are wrong.

use proptest::prelude::*;

use super::*;

/// A small rig that is quick to fly.
fn small() -> Jump {
    let mut jump = demo();
    jump.walls.clear();
    jump.lines.truncate(2);
    jump.follow.horizon = 5.0.seconds();
    jump
}

#[test]
fn a_mirrored_rig_flies_the_mirrored_jump() {
    let one = fly_full(&small(), &mesh(8)).unwrap();
    let mut other = small();
    let flip = |p: &mut Place| p.x = 130.0.meters() - p.x;
    flip(&mut other.exit);
    other.exit_speed_x = -other.exit_speed_x;
    for line in &mut other.lines {
        flip(&mut line.near);
        flip(&mut line.far);
    }
    let two = fly_full(&other, &mesh(8)).unwrap();
    assert!((one.resultant.value.si() / two.resultant.value.si() - 1.0).abs() < 1e-4);
    for (a, b) in one.series.x_m.iter().zip(&two.series.x_m) {
        assert!((a + b - 130.0).abs() < 1e-3);
    }
}

#[test]
fn a_floor_ends_the_run_and_is_told() {
    // Slack longer than the drop: the floor comes first.
    let mut jump = plain(at(0.0, 0.0), 50.0, 20e3);
    jump.ropes = vec![rope("rope", 50.0, 0.07, lossless(2e4))];
    jump.exit = at(1.0, 0.0);
    jump.walls.push(Wall::profile("floor", vec![at(-5.0, -20.0), at(5.0, -20.0)]));
    let flight = fly_full(&jump, &mesh(20)).unwrap();
    assert_eq!(flight.ending, Ending::Contact);
    let [FullNote::NeverTaut, FullNote::Contact { wall, speed }, FullNote::RopeCrossedWall { .. }] =
        flight.notes.as_slice()
    else {
        panic!("{:?}", flight.notes)
    };
    assert_eq!(wall, "floor");
    // From rest over 20 m less the radius of 0.9 m, a little faster for the fold.
    let free = (2.0 * 9.81 * 19.1_f64).sqrt();
    assert!(speed.si() > free && speed.si() < 1.02 * free, "{speed:?} {free}");
    assert!(flight.clearances[0].least.value.si() < 1e-9);
}

#[test]
fn a_straight_curve_is_the_linear_line() {
    let mut jump = small();
    let (kn, percent) = (|x: f64| x.kilonewtons(), |x: f64| x.percent());
    jump.lines[0].stretch = crate::material::Stretch::table(vec![
        (kn(2.5), percent(1.0)),
        (kn(5.0), percent(2.0)),
        (kn(10.0), percent(4.0)),
    ])
    .unwrap();
    // A straight table is the linear line.
    let (table, linear) =
        (fly_full(&jump, &mesh(8)).unwrap(), fly_full(&small(), &mesh(8)).unwrap());
    let (a, b) = (table.resultant.value.si(), linear.resultant.value.si());
    assert!((a / b - 1.0).abs() < 1e-3, "{a} {b}");
    assert!(!table.notes.iter().any(|n| matches!(n, FullNote::PastTable { .. })));
    jump.lines[0].stretch =
        crate::material::Stretch::table(vec![(kn(2.5), percent(1.0)), (kn(5.0), percent(2.0))])
            .unwrap();
    let past = fly_full(&jump, &mesh(8)).unwrap();
    assert!(past.notes.contains(&FullNote::PastTable { line: "main".into() }));
}

#[test]
fn wrong_jumps_and_meshes_say_why() {
    let says = |change: &dyn Fn(&mut Jump, &mut Mesh), part: &str| {
        let (mut jump, mut mesh) = (small(), mesh(8));
        change(&mut jump, &mut mesh);
        let error = fly_full(&jump, &mesh).unwrap_err().to_string();
        assert!(error.contains(part), "{part} not in {error}");
    };
    says(&|j, _| j.mass = 0.0.kilograms(), "mass is 0 kg; it must be above zero");
    says(&|j, _| j.exit.z = f64::NAN.meters(), "exit.z is NaN m");
    says(&|_, m| m.step_share = 0.0.ratio(), "mesh.step_share is 0; it must be from");
    says(&|_, m| m.drift = f64::NAN.ratio(), "mesh.drift is NaN");
    says(&|_, m| m.most_steps = 100, "and mesh.most_steps is 100");
    says(&|_, m| m.nodes_per_line = usize::MAX, "moving masses in all");
    says(&|_, m| m.rope_drag_width = Some((-1.0).meters()), "mesh.rope_drag_width is -1 m");
    let loss = |line: &str| LineLoss {
        line: line.into(),
        arm: 1.0.kilonewtons(),
        relaxation: 1.0.seconds(),
    };
    says(
        &|_, m| m.line_losses = vec![loss("no")],
        "mesh.line_losses[0].line: no line has this name",
    );
    says(
        &|j, m| {
            j.ring_mass = 0.0.kilograms();
            for line in &mut j.lines {
                line.linear_density = 0.0.kilograms_per_meter();
            }
            j.ropes.truncate(1);
            j.ropes[0].linear_density = 0.0.kilograms_per_meter();
            m.nodes_per_rope = 0;
        },
        "ring_mass",
    );
}

#[test]
fn few_steps_leave_a_note_on_the_books() {
    let mut jump = small();
    jump.follow.horizon = 20.0.seconds();
    let mesh = Mesh { step_share: 0.5.ratio(), drift: 1e-9.ratio(), ..mesh(8) };
    let first = fly_full(&jump, &Mesh { most_steps: 20_000, ..mesh.clone() }).unwrap();
    assert!(first.notes.contains(&FullNote::CoarseStep));
    assert_eq!(first.mesh.all_steps, first.mesh.steps);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]
    #[test]
    fn any_jump_gives_an_answer_or_an_error(
        mass in prop_oneof![1.0..200.0_f64, any::<f64>()], rest in prop_oneof![1.0..150.0_f64, any::<f64>()],
        x in prop_oneof![-5.0..60.0_f64, any::<f64>()], z in prop_oneof![-30.0..5.0_f64, any::<f64>()],
        speed in prop_oneof![-5.0..5.0_f64, any::<f64>()], ea in prop_oneof![1e3..1e5_f64, any::<f64>()],
        density in prop_oneof![0.0..0.2_f64, any::<f64>()], width in prop_oneof![0.0..0.1_f64, any::<f64>()],
        nodes in 0..6_usize,
    ) {
        let mut jump = small();
        jump.mass = mass.kilograms();
        jump.exit = at(x, z);
        jump.exit_speed_x = speed.meters_per_second();
        jump.ropes[0].rest_length = rest.meters();
        jump.ropes[0].response = lossless(ea);
        jump.ropes[0].linear_density = density.kilograms_per_meter();
        jump.follow.horizon = 2.0.seconds();
        let mesh = Mesh { most_steps: 20_000, rope_drag_width: Some(width.meters()), ..mesh(nodes) };
        if let Ok(flight) = fly_full(&jump, &mesh) {
            prop_assert!(flight.resultant.value.si().is_finite());
            prop_assert!(flight.series.z_m.iter().all(|z| z.is_finite()));
            prop_assert!(flight.energy.drift.si().is_finite());
        }
    }
}
