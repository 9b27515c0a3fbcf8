//! Jumps past meshes.

use super::*;

/// The same jump with each wall drawn out along y as a mesh.
fn with_meshes(jump: &Jump, ys: &[f64]) -> Jump {
    let mut other = jump.clone();
    for wall in &mut other.walls {
        let points: Vec<_> = wall.points.iter().map(|p| (p.x.si(), p.z.si())).collect();
        *wall = Wall::mesh(wall.name.clone(), drawn_out(&points, ys));
    }
    other
}

fn same(a: &Extreme<Length>, b: &Extreme<Length>, close: f64) {
    assert!((a.value.si() - b.value.si()).abs() < close, "{a:?} {b:?}");
    assert!((a.time.si() - b.time.si()).abs() < close.sqrt(), "{a:?} {b:?}");
}

#[test]
fn a_jump_past_a_drawn_out_profile_is_the_jump_past_the_profile() {
    let mut jump = demo();
    jump.follow.horizon = 25.0.seconds();
    jump.exit_speed_y = 0.4.meters_per_second();
    // The borders of the strips are where the body is not, and where it starts.
    for ys in [&[-300.0, 300.0][..], &[-300.0, -7.3, 0.0, 0.9, 300.0]] {
        let (one, two) = (fly(&jump).unwrap(), fly(&with_meshes(&jump, ys)).unwrap());
        assert_eq!(one.work, two.work);
        assert_eq!(one.series, two.series);
        assert_eq!(one.ending, two.ending);
        assert_eq!(one.clearances.len(), 3);
        for (a, b) in one.clearances.iter().zip(&two.clearances) {
            assert_eq!(a.wall, b.wall);
            same(&a.least, &b.least, 1e-9);
        }
        let (a, b) = (one.exit_clearance.unwrap(), two.exit_clearance.unwrap());
        assert_eq!(a.wall, b.wall);
        same(&a.least, &b.least, 1e-9);
        let below = [one.height_left, two.height_left].map(|h| h.unwrap().si());
        assert!((below[0] - below[1]).abs() < 1e-9, "{below:?}");
    }
}

#[test]
fn the_full_jump_too() {
    let mut jump = demo();
    jump.lines.truncate(2);
    jump.follow.horizon = 9.0.seconds();
    let coarse = Mesh { nodes_per_line: 8, nodes_per_rope: 8, ..Mesh::default() };
    let (one, two) = (
        fly_full(&jump, &coarse).unwrap(),
        fly_full(&with_meshes(&jump, &[-300.0, 0.0, 300.0]), &coarse).unwrap(),
    );
    assert_eq!(one.series, two.series);
    for (a, b) in one.clearances.iter().zip(&two.clearances) {
        same(&a.least, &b.least, 1e-9);
    }
    assert_eq!(one.rope_clearances.len(), 3);
    for (a, b) in one.rope_clearances.iter().zip(&two.rope_clearances) {
        assert_eq!((&a.wall, &a.rope), (&b.wall, &b.rope));
        assert!((a.least.si() - b.least.si()).abs() < 1e-9, "{a:?} {b:?}");
    }
}

#[test]
fn contact_is_found_inside_the_steps() {
    // A post of 0.2 m in the way of a fall from rest over 20 m, beside the plane of the span.
    let mut jump = plain(at(0.0, 0.0), 50.0, 20e3);
    let top = "v -0.1 1.4 -20\nv 0.1 1.4 -20\nv 0.1 1.6 -20\nv -0.1 1.6 -20\nf 1 2 3 4";
    jump.exit.y = 1.5.meters();
    jump.walls.push(Wall::mesh("post", mesh(top)));
    let flight = fly(&jump).unwrap();
    let Some(Event { what: Happening::Contact { wall, speed }, .. }) = flight.events.last() else {
        panic!("{:?}", flight.events.last())
    };
    assert_eq!(wall, "post");
    // From rest over 20 m less the radius of 0.9 m.
    assert!((speed.si() - (2.0 * 9.81 * 19.1_f64).sqrt()).abs() < 1e-6);
    assert!(flight.clearances[0].least.value.si() < 1e-9);
    // Beside it the same fall goes by, at its distance from the near border less the radius.
    jump.exit.y = 3.0.meters();
    let past = fly(&jump).unwrap();
    assert_ne!(past.ending, Ending::Contact);
    assert!((past.clearances[0].least.value.si() - 0.5).abs() < 1e-6);
    let full = fly_full(&jump, &Mesh { nodes_per_rope: 10, ..Default::default() }).unwrap();
    assert!((full.clearances[0].least.value.si() - 0.5).abs() < 1e-3);
}

#[test]
fn starts_in_contact_and_contradictions_are_told() {
    let mut jump = plain(at(0.0, 0.0), 50.0, 20e3);
    let ledge = || mesh("v -1 -1 -0.5\nv 1 -1 -0.5\nv 0 1 -0.5\nf 1 2 3");
    jump.walls = vec![Wall::mesh("ledge", ledge())];
    let error = fly(&jump).unwrap_err().to_string();
    assert!(error.contains("the body starts 0.5 m from wall \"ledge\""), "{error}");
    jump.walls[0].points = vec![at(-1.0, -0.5), at(1.0, -0.5)];
    let error = fly(&jump).unwrap_err().to_string();
    assert_eq!(error, "walls[0]: a wall is a profile or a mesh, not both");
    jump.walls[0].mesh = None;
    jump.walls[0].points.clear();
    let error = fly(&jump).unwrap_err().to_string();
    assert_eq!(error, "walls[0].points: a wall needs at least two points");
}
