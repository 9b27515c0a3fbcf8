//! The invented demo rig, against an independent full solution of one mesh, within 10 %.

use super::*;

fn near(got: f64, want: f64, part: f64, what: &str) {
    println!("{what}: {got:.3}, target {want}");
    assert!((got / want - 1.0).abs() < part, "{what}: {got}, target {want}");
}

#[test]
fn the_demo_jump_matches_its_target() {
    for (run, peak, main) in [(Run::Stiff, 3.4e3, 9.3e3), (Run::Soft, 3.0e3, 8.8e3)] {
        let mut jump = demo();
        jump.run = run;
        jump.follow.horizon = 10.0.seconds();
        let flight = fly_full(&jump, &mesh(66)).unwrap();
        let line = |i: usize| flight.lines[i].far.value.si();
        near(flight.resultant.value.si(), peak, 0.1, "peak");
        near(line(0), main, 0.1, "main");
        assert!(flight.rope_clearances.iter().all(|c| c.least.si() > 0.0));
        if run == Run::Stiff {
            // Lines without loss flap without order, so their snaps have a size but no digits.
            near(line(1), 1.05e3, 0.3, "backup");
            near(line(2), 0.63e3, 0.3, "backup rope 1");
            near(line(3), 0.63e3, 0.3, "backup rope 2");
        }
    }
}

// Peaks and lowest point settle with the mesh, and with the step.
#[test]
fn finer_meshes_and_steps_agree() {
    let run = |nodes: usize, share: f64| {
        let mut jump = demo();
        jump.walls.clear();
        jump.follow.horizon = 6.0.seconds();
        let mesh = Mesh { step_share: share.ratio(), ..mesh(nodes) };
        let f = fly_full(&jump, &mesh).unwrap();
        println!(
            "{nodes} nodes, share {share}: peak {:.2} N, main {:.1} N, lowest {:.4} m, drift {:.1e}",
            f.resultant.value.si(),
            f.lines[0].far.value.si(),
            f.lowest.value.si(),
            f.energy.drift.si()
        );
        [f.resultant.value.si(), f.lines[0].far.value.si(), f.lowest.value.si()]
    };
    let off = |a: [f64; 3], b: [f64; 3]| [0, 1, 2].map(|i| (a[i] / b[i] - 1.0).abs());
    let fine = run(120, 0.25);
    let (coarse, middle) = (off(run(10, 0.25), fine), off(run(60, 0.25), fine));
    assert!(middle[0] < 2e-3 && middle[1] < 3e-3 && middle[2] < 1e-4, "{middle:?}");
    assert!(coarse[0] < 0.06 && coarse[2] < 5e-3, "{coarse:?}");
    assert!(middle[2] < coarse[2]);
    let step = off(run(30, 0.4), run(30, 0.1));
    assert!(step[0] < 1e-3 && step[1] < 2e-3 && step[2] < 1e-5, "{step:?}");
}
