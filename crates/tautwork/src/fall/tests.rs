use proptest::prelude::*;

use super::*;
use crate::material::Stretch;
use crate::quantity::*;

mod motion;
mod properties;
mod published;

fn linear(ea_n: f64) -> Stretch {
    Stretch::axial_rigidity(ea_n.newtons()).unwrap()
}

/// A webbing that stiffens, up to 10 kN.
fn stiffening() -> Stretch {
    let rows = [(0.5, 2.0), (2.0, 5.0), (5.0, 8.0), (10.0, 11.0)];
    Stretch::table(rows.map(|(t, e)| (f64::kilonewtons(t), f64::percent(e))).to_vec()).unwrap()
}

fn fall(mass_kg: f64, height_m: f64, rope_m: f64, stretch: Stretch) -> Fall {
    Fall {
        mass: mass_kg.kilograms(),
        height: height_m.meters(),
        rope: rope_m.meters(),
        stretch,
        span_stiffness: None,
    }
}
