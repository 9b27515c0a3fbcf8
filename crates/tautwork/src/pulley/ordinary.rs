//! Ordinary systems with parallel ropes, built from stages of block and tackle.

use serde::{Deserialize, Serialize};

use super::{Body, BodyKind, Friction, PulleyError, Rope, Sheave, System};
use crate::quantity::{Invalid, Length, Words};

/// Ordinary systems, by what they are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Ordinary {
    /// 1:1, one sheave at the anchor: it only turns the rope.
    Redirect,
    /// 2:1, one sheave on the load.
    TwoToOne,
    /// 3:1 in the shape of a Z: a sheave at the anchor, one on the load.
    ThreeToOne,
    /// 4:1, a 2:1 that hauls on a 2:1.
    FourToOne,
    /// 5:1, a block and tackle with two sheaves at the anchor and two on the load.
    FiveToOne,
    /// 6:1, a 2:1 that hauls on a 3:1.
    SixToOne,
    /// 9:1, a 3:1 that hauls on a 3:1.
    NineToOne,
}

/// An ordinary system with parallel ropes and one kind of sheave.
///
/// # Example
/// ```
/// use tautwork::pulley::{Friction, Ordinary, ordinary, solve};
/// use tautwork::quantity::{ReadRatio, Words};
///
/// let friction = Friction::Fixed { efficiency: 0.83.ratio() };
/// let result = solve(&ordinary(Ordinary::ThreeToOne, friction), 1.0.kilonewtons())?;
/// // 1 + 0.83 + 0.83²
/// assert!((result.actual_advantage.in_ratio() - 2.5189).abs() < 1e-9);
/// # Ok::<(), tautwork::pulley::PulleyError>(())
/// ```
pub fn ordinary(system: Ordinary, friction: Friction) -> System {
    match system {
        Ordinary::Redirect => stages(&[1], true, friction),
        Ordinary::TwoToOne => stages(&[2], false, friction),
        Ordinary::ThreeToOne => stages(&[3], false, friction),
        Ordinary::FourToOne => stages(&[2, 2], false, friction),
        Ordinary::FiveToOne => stages(&[5], false, friction),
        Ordinary::SixToOne => stages(&[3, 2], false, friction),
        Ordinary::NineToOne => stages(&[3, 3], false, friction),
    }
}

/// Greatest number of rope parts of one stage, and of stages: far past any rig.
const LIMIT: usize = 64;

/// Block-and-tackle stages that haul on one another, with parallel ropes.
///
/// `parts` gives, from the load to the hand, the number of rope parts that pull on the body that the
/// stage hauls: `[3]` is a Z-shaped 3:1, `[3, 2]` a 2:1 that hauls on it. With `redirect` the rope to
/// the hand leaves from one more sheave at the anchor.
///
/// # Errors
/// [`PulleyError::Invalid`] unless there are 1 to 64 stages of 1 to 64 parts.
///
/// # Example
/// ```
/// use tautwork::pulley::{Friction, solve, tackle};
/// use tautwork::quantity::{ReadForce, Words};
///
/// // Four parts and a lead line, each sheave losing 9 % of what it holds: 0.309 of the load.
/// let friction = Friction::Fixed { efficiency: (1.0 / 1.09).ratio() };
/// let result = solve(&tackle(&[4], true, friction)?, 1000.0.newtons())?;
/// assert!((result.raising.hand.in_newtons() - 308.7).abs() < 0.1);
/// assert!(tackle(&[0], true, friction).is_err());
/// # Ok::<(), tautwork::pulley::PulleyError>(())
/// ```
pub fn tackle(parts: &[usize], redirect: bool, friction: Friction) -> Result<System, PulleyError> {
    let fits = |n: usize| (1..=LIMIT).contains(&n);
    if !fits(parts.len()) || !parts.iter().all(|&n| fits(n)) {
        return Err(PulleyError::Invalid(Invalid::new(
            "parts",
            format!("{parts:?}"),
            format!("1 to {LIMIT} stages of 1 to {LIMIT} parts"),
        )));
    }
    Ok(stages(parts, redirect, friction))
}

fn stages(parts: &[usize], redirect: bool, friction: Friction) -> System {
    let mut bodies = vec![
        body("anchor", BodyKind::Anchor, 0.0),
        body("load", BodyKind::Load, -100.0),
        body("hand", BodyKind::Hand, if redirect { -1.0 } else { 1.0 }),
    ];
    let mut ropes = Vec::new();
    let mut hauled = "load".to_owned();
    for (i, &n) in parts.iter().enumerate() {
        let last = i + 1 == parts.len();
        let to = if last { "hand".to_owned() } else { format!("block {}", i + 1) };
        // n parts pull on the hauled body: its own end counts when n is odd.
        let places = ["anchor", hauled.as_str()];
        let start = n % 2;
        let sheaves = (1..n + usize::from(last && redirect)).map(|k| Sheave {
            on: places[(start + k) % 2].to_owned(),
            friction,
            wrap: None,
        });
        ropes.push(Rope {
            name: format!("rope {}", i + 1),
            from: places[start].to_owned(),
            over: sheaves.collect(),
            to: to.clone(),
        });
        if !last {
            bodies.push(body(&to, BodyKind::Moving, -99.0 + i as f64));
        }
        hauled = to;
    }
    System { bodies, ropes, haul: None }
}

fn body(name: &str, kind: BodyKind, z_m: f64) -> Body {
    let position: [Length; 3] = [0.0.meters(), 0.0.meters(), z_m.meters()];
    Body { name: name.to_owned(), kind, position, travel: None }
}
