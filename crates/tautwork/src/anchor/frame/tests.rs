use std::f64::consts::TAU;

use nalgebra::Vector3;
use proptest::prelude::*;

use crate::anchor::*;
use crate::quantity::*;

mod bad;
mod footings;
mod forces;
mod lifts;
mod losses;
mod poles;
mod random;
mod reference;
mod windows;

fn point([x, y, z]: [f64; 3]) -> [Length; 3] {
    [x.meters(), y.meters(), z.meters()]
}

fn newtons([x, y, z]: [f64; 3]) -> [Force; 3] {
    [x.newtons(), y.newtons(), z.newtons()]
}

fn si<Q: Quantity>(v: [Q; 3]) -> Vector3<f64> {
    Vector3::from(v.map(Quantity::si))
}

fn rope(name: &str, towards: [f64; 3], tension_n: f64) -> HeadRope {
    HeadRope { name: name.to_owned(), towards: point(towards), tension: tension_n.newtons() }
}

fn frame(head: [f64; 3], legs: &[[f64; 3]], guys: &[[f64; 3]], force: [f64; 3]) -> Frame {
    let leg = |(i, &foot)| FrameLeg::new(format!("leg {i}"), point(foot), 20.0.meganewtons());
    let guy = |(i, &foot)| FrameGuy::new(format!("guy {i}"), point(foot), 300.0.kilonewtons());
    Frame {
        head: point(head),
        legs: legs.iter().enumerate().map(leg).collect(),
        guys: guys.iter().enumerate().map(guy).collect(),
        ropes: vec![],
        pulleys: vec![],
        force: newtons(force),
        hobble: None,
    }
}

/// Feet of a tripod on a circle.
fn tripod_feet(radius_m: f64) -> [[f64; 3]; 3] {
    [0.0_f64, 120.0, 240.0].map(|deg| {
        let (s, c) = deg.to_radians().sin_cos();
        [radius_m * c, radius_m * s, 0.0]
    })
}

fn all(forces: &FrameForces) -> Vec<f64> {
    forces.legs.iter().chain(&forces.guys).map(|m| m.force.si()).collect()
}

fn near(a: f64, b: f64, part: f64) -> bool {
    (a - b).abs() <= part * b.abs()
}

prop_compose! {
    /// Legs up, guys out, a rope and a force, with or without weight and pretension.
    fn some_frame()(
        height in 2.0..6.0_f64,
        legs in prop::collection::vec((0.4..2.5_f64, 0.0..TAU, -0.4..0.4_f64), 1..5),
        guys in prop::collection::vec((3.0..9.0_f64, 0.0..TAU, -0.4..0.4_f64), 0..7),
        ea in (6.0..7.5_f64, 4.5..6.0_f64),
        pretension in prop_oneof![Just(0.0), 1.0..800.0_f64],
        mass in prop_oneof![Just(0.0), 1.0..60.0_f64],
        towards in [-4.0..4.0_f64, -4.0..4.0_f64, -9.0..0.0_f64],
        tension in 100.0..5000.0_f64,
    ) -> Frame {
        let place = |&(r, a, z): &(f64, f64, f64)| [r * a.cos(), r * a.sin(), z];
        let legs: Vec<_> = legs.iter().map(place).collect();
        let guys: Vec<_> = guys.iter().map(place).collect();
        let mut f = frame([0.0, 0.0, height], &legs, &guys, [0.0; 3]);
        for leg in &mut f.legs {
            leg.axial_rigidity = 10.0_f64.powf(ea.0).newtons();
            leg.mass = (mass > 0.0).then(|| mass.kilograms());
        }
        for guy in &mut f.guys {
            guy.axial_rigidity = 10.0_f64.powf(ea.1).newtons();
            guy.pretension = (pretension > 0.0).then(|| pretension.newtons());
        }
        f.ropes = vec![rope("load", towards, tension)];
        f
    }
}
