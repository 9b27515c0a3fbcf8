//! At rest: the static solver of `line`, and staying there.

use super::*;
use crate::line::{Net, NetLine, Node, solve_net};
use crate::material::Stretch;

/// The demo rig waiting for the jump, as a net of exact catenaries.
fn net(jump: &Jump) -> Net {
    let zero = 0.0.newtons();
    let node = |name: &str, p: Place, fixed: bool, down: f64| Node {
        name: name.into(),
        position: [p.x, 0.0.meters(), p.z],
        fixed,
        load: [zero, zero, (-down).newtons()],
    };
    let mut nodes =
        vec![node("ring", at(65.0, -4.0), false, 2.5 * 9.81), node("body", jump.exit, true, 0.0)];
    let mut lines = Vec::new();
    let mut add = |name: &str, to: &str, rest: Length, density: LinearDensity, ea: Stretch| {
        lines.push(NetLine {
            name: name.into(),
            from: "ring".into(),
            to: to.into(),
            rest_length: rest,
            weight: LineLoad::from_si(density.si() * GRAVITY),
            stretch: ea,
        });
    };
    for (i, line) in jump.lines.iter().enumerate() {
        for (side, p, rest) in
            [("near", line.near, line.near_length), ("far", line.far, line.far_length)]
        {
            let name = format!("{side} {i}");
            nodes.push(node(&name, p, true, 0.0));
            add(&name, &name, rest, line.linear_density, line.stretch.clone());
        }
    }
    for rope in &jump.ropes {
        let ea = Stretch::axial_rigidity(22.0.kilonewtons()).unwrap();
        add(&rope.name, "body", rope.rest_length, rope.linear_density, ea);
    }
    Net { nodes, lines }
}

#[test]
fn waiting_is_the_rest_of_the_static_solver() {
    let mut jump = demo();
    jump.follow.horizon = 1e-3.seconds();
    let solved = solve_net(&net(&jump)).unwrap();
    let ring = solved.nodes[0].position;
    let mut off = Vec::new();
    for nodes in [20, 40, 80, 160] {
        let flight = fly_full(&jump, &mesh(nodes)).unwrap();
        let start = flight.ring.start;
        let away = (start.x - ring[0]).si().hypot((start.z - ring[2]).si());
        let main = flight.lines[0].near_standing.si() / solved.lines[0].tension_to.si() - 1.0;
        let slack = flight.lines[1].near_standing.si() / solved.lines[2].tension_to.si() - 1.0;
        println!("{nodes} nodes: ring off by {away:.2e} m, main {main:.1e}, backup {slack:.1e}");
        off.push((away, main.abs(), slack.abs()));
    }
    // The tension at an anchor lacks half a segment's weight: first order; the place is second order.
    assert!(off[3].0 < 1e-4 && off[3].1 < 1e-4 && off[3].2 < 0.01);
    assert!(off[1].0 < 0.35 * off[0].0 && off[3].2 < 0.6 * off[2].2);
}

#[test]
fn what_hangs_at_rest_stays() {
    let mut jump = demo();
    jump.walls.clear();
    jump.follow.horizon = 1e-3.seconds();
    let rest = fly_full(&jump, &mesh(12)).unwrap().rest.unwrap();
    jump.exit = rest.body;
    jump.exit_speed_x = 0.0.meters_per_second();
    jump.exit_speed_z = 0.0.meters_per_second();
    jump.follow.horizon = 5.0.seconds();
    let flight = fly_full(&jump, &mesh(12)).unwrap();
    println!("top speed {:?}", flight.top_speed.value);
    assert!(flight.top_speed.value.si() < 1e-5);
    assert!((flight.resultant.value.si() / (82.0 * 9.81) - 1.0).abs() < 0.01);
    assert!((flight.ring.lowest.value - rest.ring.z).si().abs() < 1e-5);
}

// Reduced and full hang alike: half of the rope mass at each end makes no difference to the ring.
#[test]
fn both_models_come_to_rest_alike() {
    let mut jump = demo();
    jump.follow.horizon = 1e-3.seconds();
    let reduced = fly(&jump).unwrap().rest.unwrap();
    let full = fly_full(&jump, &mesh(60)).unwrap().rest.unwrap();
    assert!((reduced.ring.z - full.ring.z).si().abs() < 1e-3);
    assert!((reduced.body.z - full.body.z).si().abs() < 1e-2);
}
