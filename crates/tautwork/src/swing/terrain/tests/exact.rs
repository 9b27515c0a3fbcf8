//! Closed forms, convergence and symmetry.

use super::*;

/// The box from −1 to 1.
fn cube() -> TerrainMesh {
    let corners: Vec<[f64; 3]> = (0..8)
        .map(|k: u32| [0, 1, 2].map(|axis| if k >> axis & 1 == 0 { -1.0 } else { 1.0 }))
        .collect();
    let faces =
        [[0, 2, 3, 1], [4, 5, 7, 6], [0, 1, 5, 4], [2, 6, 7, 3], [0, 4, 6, 2], [1, 3, 7, 5]];
    mesh(&obj(&corners, &faces.map(|f| f.to_vec())))
}

// A point over the inside of a plane is as far as it is high; beside it, as far as its border or corner.
#[test]
fn a_plane() {
    let plane = mesh("v -5 -4 2\nv 5 -4 2\nv 5 4 2\nv -5 4 2\nf 1 2 3 4");
    let surface = plane.surface();
    let away = |p: [f64; 3]| surface.nearest_point(p).away_m;
    assert_eq!(away([1.0, 1.0, 9.0]), 7.0);
    assert_eq!(away([1.0, 1.0, -9.0]), 11.0);
    assert_eq!(away([8.0, 0.0, 6.0]), 5.0);
    assert_eq!(away([7.0, 6.0, 3.0]), 3.0);
    let segment = |p, q| surface.near_segment(p, q).away_m;
    // Level above, through, ending above, past the border.
    assert_eq!(segment([-9.0, 0.0, 3.5], [9.0, 1.0, 3.5]), 1.5);
    assert_eq!(segment([1.0, 0.0, 9.0], [2.0, 1.0, -9.0]), 0.0);
    assert_eq!(segment([1.0, 0.0, 9.0], [2.0, 1.0, 4.0]), 2.0);
    assert_eq!(segment([8.0, -30.0, 6.0], [8.0, 30.0, 6.0]), 5.0);
    assert_eq!(surface.below_m([1.0, 1.0, 9.0]), Some(7.0));
    assert_eq!(surface.below_m([1.0, 1.0, 1.0]), None);
    assert_eq!(surface.below_m([6.0, 1.0, 9.0]), None);
}

#[test]
fn a_box() {
    let cube = cube();
    let surface = cube.surface();
    let mut seed = 7;
    for _ in 0..200 {
        let p = [0; 3].map(|_| 4.0 * draw(&mut seed));
        let out = p.map(|c: f64| (c.abs() - 1.0).max(0.0));
        let within = p.iter().map(|c| 1.0 - c.abs()).fold(f64::INFINITY, f64::min);
        let want = if within > 0.0 { within } else { size(out) };
        assert!((surface.nearest_point(p).away_m - want).abs() < 1e-14);
    }
    // From the middle of an edge upright on the diagonal, and a segment that runs past an edge.
    let (p, q) = ([3.0, 0.0, 0.0], [0.0, 3.0, 0.0]);
    assert!((surface.near_segment(p, q).away_m - 0.5_f64.sqrt()).abs() < 1e-14);
    let inside = surface.near_segment([-0.5, 0.0, 0.0], [0.75, 0.0, 0.0]);
    assert_eq!((inside.away_m, inside.wall_m), (0.25, [1.0, 0.0, 0.0]));
    assert_eq!(terrain_facts(&cube).area.si(), 24.0);
}

// Corners of the mesh lie on the sphere, so the mesh is nearer to a point inside and farther from one outside; the
// gap falls with the square of the spacing.
#[test]
fn the_mesh_of_a_sphere_converges() {
    let ball = |n: usize| {
        let corner = |i: usize, j: usize| {
            let (a, b) = (i as f64 / n as f64, j as f64 / (2 * n) as f64);
            let (sin, cos) = (a * core::f64::consts::PI).sin_cos();
            let (s, c) = (b * core::f64::consts::TAU).sin_cos();
            [2.0 * sin * c, 2.0 * sin * s, 2.0 * cos]
        };
        let corners: Vec<[f64; 3]> =
            (0..=n).flat_map(|i| (0..2 * n).map(move |j| corner(i, j))).collect();
        let at = |i: usize, j: usize| i * 2 * n + j % (2 * n);
        let mut faces = Vec::new();
        for i in 0..n {
            for j in 0..2 * n {
                if i > 0 {
                    faces.push(vec![at(i, j), at(i + 1, j), at(i, j + 1)]);
                }
                if i + 1 < n {
                    faces.push(vec![at(i, j + 1), at(i + 1, j), at(i + 1, j + 1)]);
                }
            }
        }
        mesh(&obj(&corners, &faces))
    };
    let off = |n: usize| {
        let (ball, mut seed) = (ball(n), 11);
        let mut worst = 0.0_f64;
        for _ in 0..300 {
            let p = [0; 3].map(|_| 5.0 * draw(&mut seed));
            let exact = (size(p) - 2.0).abs();
            let got = ball.surface().nearest_point(p).away_m;
            let gap = if size(p) > 2.0 { got - exact } else { exact - got };
            // Between mesh and sphere neither need be nearer.
            let between = (1.9..2.0).contains(&size(p));
            assert!(between || gap > -1e-12, "{gap:e}");
            worst = worst.max(gap.abs());
        }
        // A line past the ball at distance 3 from its middle.
        let line = ball.surface().near_segment([-9.0, 3.0, 0.3], [9.0, 3.0, 0.3]).away_m;
        let exact = 3.0_f64.hypot(0.3) - 2.0;
        assert!(line >= exact - 1e-12);
        worst.max(line - exact)
    };
    let (coarse, middle, fine) = (off(12), off(24), off(48));
    println!("{coarse:.2e} {middle:.2e} {fine:.2e}");
    assert!((3.0..5.5).contains(&(coarse / middle)), "{}", coarse / middle);
    assert!((3.0..5.5).contains(&(middle / fine)), "{}", middle / fine);
}

// Placing is a motion: what moves with the file is as far as before.
#[test]
fn a_turned_and_moved_mesh_is_as_far() {
    let text = "v 0 0 0\nv 4 1 0.5\nv 3 5 -1\nv -1 4 2\nv 1 1 4\nf 1 2 3\nf 1 3 4\nf 2 3 5";
    let place = |scale: f64, up, origin: [f64; 3], turn: f64| {
        let turn = turn.radians();
        let placing = Placing { scale: scale.meters(), up, origin: Place::of_m(origin), turn };
        TerrainMesh::new(MeshFile::Obj(text.to_owned()), placing).unwrap()
    };
    let base = mesh(text);
    let moved = place(1.0, Up::Z, [30.0, -7.0, 2.0], 0.7);
    let upright = place(1.0, Up::Y, [0.0; 3], 0.0);
    let large = place(2.5, Up::Z, [0.0; 3], 0.0);
    let mut seed = 5;
    for _ in 0..100 {
        let p = [0; 3].map(|_| 8.0 * draw(&mut seed));
        let q = [0; 3].map(|_| 8.0 * draw(&mut seed));
        let (sin, cos) = 0.7_f64.sin_cos();
        let to = |p: [f64; 3]| {
            [30.0 + cos * p[0] - sin * p[1], -7.0 + sin * p[0] + cos * p[1], 2.0 + p[2]]
        };
        let (point, segment) = (base.surface().nearest_point(p), base.surface().near_segment(p, q));
        let crossing = base.surface().first_crossing(p, q);
        let turned = moved.surface();
        assert!((turned.nearest_point(to(p)).away_m - point.away_m).abs() < 1e-13);
        assert!(size(from(turned.nearest_point(to(p)).wall_m, to(point.wall_m))) < 1e-12);
        let other = turned.near_segment(to(p), to(q));
        assert!((other.away_m - segment.away_m).abs() < 1e-13);
        let met = turned.first_crossing(to(p), to(q));
        assert_eq!(met.is_some(), crossing.is_some());
        assert!((met.unwrap_or(0.0) - crossing.unwrap_or(0.0)).abs() < 1e-12);
        let stood = |p: [f64; 3]| [p[0], -p[2], p[1]];
        let other = upright.surface().near_segment(stood(p), stood(q));
        assert!((other.away_m - segment.away_m).abs() < 1e-14);
        let grown = large.surface().nearest_point(p.map(|c| 2.5 * c)).away_m;
        assert!((grown - 2.5 * point.away_m).abs() < 1e-13);
    }
}

// A path through a side or a corner that triangles share meets at least one of them, whatever its slope.
#[test]
fn no_path_slips_between_triangles() {
    let mut seed = 9;
    for _ in 0..200 {
        let mut corners: Vec<[f64; 3]> = vec![[0.1 * draw(&mut seed), 0.1 * draw(&mut seed), 0.3]];
        for k in 0..6 {
            let (sin, cos) = f64::from(k).sin_cos();
            corners.push([cos, sin, 0.5 * draw(&mut seed)]);
        }
        let faces: Vec<Vec<usize>> = (1..7).map(|k| vec![0, k, k % 6 + 1]).collect();
        let fan = mesh(&obj(&corners, &faces));
        for k in 1..6 {
            let target = along(corners[0], corners[k], 0.45 + 0.45 * draw(&mut seed));
            let over = [0.3 * draw(&mut seed), 0.3 * draw(&mut seed), 4.0];
            let p = [0, 1, 2].map(|i| target[i] + over[i]);
            let q = [0, 1, 2].map(|i| target[i] - over[i]);
            assert!(fan.surface().first_crossing(p, q).is_some());
            assert_eq!(fan.surface().near_segment(p, q).away_m, 0.0);
        }
    }
}
