//! Ordinary systems with parallel ropes, built from stages of block and tackle.

use serde::{Deserialize, Serialize};

use super::super::{Friction, PulleyError};
use super::{Body, BodyKind, Rope, Sheave, System};
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
    /// 4:1 of one rope, a block and tackle with two sheaves on the load and one at the anchor.
    SimpleFour,
    /// 6:1 the other way round, a 3:1 that hauls on a 2:1.
    SixTurned,
    /// 8:1, a 2:1 that hauls on a 2:1 that hauls on a 2:1.
    EightToOne,
    /// 3:1 whose block comes to meet the load: the load's rope turns at the anchor and ends at a block, and the
    /// second rope runs from the load over that block to the hand, which pulls down.
    ComplexThree,
    /// 5:1, the same with one more sheave on the load, so that the hand pulls up.
    ComplexFive,
}

impl Ordinary {
    /// Its name as it is written, such as `three_to_one`.
    ///
    /// # Example
    /// ```
    /// assert_eq!(tautwork::pulley::Ordinary::SixTurned.name(), "six_turned");
    /// ```
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Redirect => "redirect",
            Self::TwoToOne => "two_to_one",
            Self::ThreeToOne => "three_to_one",
            Self::FourToOne => "four_to_one",
            Self::FiveToOne => "five_to_one",
            Self::SixToOne => "six_to_one",
            Self::NineToOne => "nine_to_one",
            Self::SimpleFour => "simple_four",
            Self::SixTurned => "six_turned",
            Self::EightToOne => "eight_to_one",
            Self::ComplexThree => "complex_three",
            Self::ComplexFive => "complex_five",
        }
    }
}

/// How a system is put together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Sort {
    /// One rope; every block that moves goes with the load.
    Simple,
    /// Simple systems that haul on one another.
    Compound,
    /// A block moves against the load.
    Complex,
}

/// An ordinary system in words.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OrdinaryAbout {
    /// Which one.
    pub system: Ordinary,
    /// How it is put together.
    pub sort: Sort,
    /// Ideal advantage.
    pub ideal: u32,
    /// Sheaves it takes.
    pub sheaves: u32,
    /// What it is.
    pub about: String,
}

/// Every ordinary system, what it is and what it takes.
///
/// # Example
/// ```
/// use tautwork::pulley::{Sort, ordinary_systems};
/// let five = ordinary_systems().into_iter().filter(|s| s.ideal == 5);
/// assert_eq!(five.map(|s| s.sort).collect::<Vec<_>>(), [Sort::Simple, Sort::Complex]);
/// ```
#[must_use]
pub fn ordinary_systems() -> Vec<OrdinaryAbout> {
    use Ordinary as O;
    use Sort::{Complex, Compound, Simple};
    [
        (O::Redirect, Simple, 1, 1, "one sheave at the anchor that only turns the rope"),
        (O::TwoToOne, Simple, 2, 1, "one sheave on the load"),
        (O::ThreeToOne, Simple, 3, 2, "a Z: one sheave at the anchor, one on the load"),
        (O::FourToOne, Compound, 4, 2, "a 2:1 that hauls on a 2:1"),
        (O::SimpleFour, Simple, 4, 3, "two sheaves on the load, one at the anchor"),
        (O::FiveToOne, Simple, 5, 4, "two sheaves at the anchor, two on the load"),
        (O::SixToOne, Compound, 6, 3, "a 2:1 that hauls on a 3:1"),
        (O::SixTurned, Compound, 6, 3, "a 3:1 that hauls on a 2:1"),
        (O::EightToOne, Compound, 8, 3, "a 2:1 on a 2:1 on a 2:1"),
        (O::NineToOne, Compound, 9, 4, "a 3:1 that hauls on a 3:1"),
        (
            O::ComplexThree,
            Complex,
            3,
            2,
            "a block on the turned rope of the load comes to meet the load; the hand pulls down",
        ),
        (O::ComplexFive, Complex, 5, 3, "the same with a sheave on the load; the hand pulls up"),
    ]
    .into_iter()
    .map(|(system, sort, ideal, sheaves, about)| OrdinaryAbout {
        system,
        sort,
        ideal,
        sheaves,
        about: about.to_owned(),
    })
    .collect()
}

/// An ordinary system with parallel ropes and one kind of sheave, its load 10 m below its anchor and its blocks
/// between them.
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
        Ordinary::SimpleFour => stages(&[4], false, friction),
        Ordinary::SixTurned => stages(&[2, 3], false, friction),
        Ordinary::EightToOne => stages(&[2, 2, 2], false, friction),
        Ordinary::ComplexThree => meeting(false, friction),
        Ordinary::ComplexFive => meeting(true, friction),
    }
}

/// A block that comes to meet the load.
fn meeting(more: bool, friction: Friction) -> System {
    let at = |z_m: f64| [0.0.meters(), 0.0.meters(), z_m.meters()];
    let mut second = Rope::new("rope 2", "load", "hand").over("block 1", friction);
    if more {
        second = second.over("load", friction);
    }
    System::new()
        .anchor("anchor", at(0.0))
        .load("load", at(-10.0))
        .hand("hand", at(if more { 1.0 } else { -11.0 }))
        .block("block 1", at(-1.0))
        .rope(Rope::new("rope 1", "load", "block 1").over("anchor", friction))
        .rope(second)
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
        body("load", BodyKind::Load, -10.0),
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
            grab: None,
        });
        ropes.push(Rope {
            name: format!("rope {}", i + 1),
            from: places[start].to_owned(),
            over: sheaves.collect(),
            to: to.clone(),
        });
        if !last {
            // Above what it hauls, below the anchor.
            let z_m = -10.0 + 9.0 * (i + 1) as f64 / parts.len() as f64;
            bodies.push(body(&to, BodyKind::Moving, z_m));
        }
        hauled = to;
    }
    System { bodies, ropes, haul: None }
}

fn body(name: &str, kind: BodyKind, z_m: f64) -> Body {
    let position: [Length; 3] = [0.0.meters(), 0.0.meters(), z_m.meters()];
    Body { name: name.to_owned(), kind, position, travel: None }
}
