//! Turns and hands on the rope from a load that is lowered.

use serde::{Deserialize, Serialize};

use super::super::loss::loss;
use super::super::{Friction, PulleyError};
use crate::quantity::check::{count, non_negative, positive};
use crate::quantity::{Angle, Force, Invalid, Quantity, Ratio, Text};

/// A load on a rope that hands let run.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Lowering {
    /// Pull of the load.
    #[serde(with = "Text::<Force>")]
    pub load: Force,
    /// What is on the rope, from the load to its tail.
    pub steps: Vec<LowerStep>,
}

/// One thing on the rope.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "step", rename_all = "snake_case", deny_unknown_fields)]
pub enum LowerStep {
    /// An edge, a pulley, a friction device.
    Turn {
        /// Name.
        name: String,
        /// What it takes.
        friction: Friction,
        /// Wrap, whole turns included.
        #[serde(with = "Text::<Angle>")]
        wrap: Angle,
    },
    /// A person's hands.
    Hand {
        /// Name.
        name: String,
        /// What they can hold.
        #[serde(with = "Text::<Force>")]
        grip: Force,
    },
}

/// Whether it holds, and with what.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LoweringHolds {
    /// Whether the hands hold the load.
    pub holds: bool,
    /// Tension that runs through behind the last hand; zero if it holds.
    #[serde(with = "Text::<Force>")]
    pub left: Force,
    /// Greatest load that they hold, Eq. (D3).
    #[serde(with = "Text::<Force>")]
    pub holds_up_to: Force,
    /// Greatest load over the load.
    #[serde(with = "Text::<Ratio>")]
    pub factor: Ratio,
    /// Each step.
    pub steps: Vec<StepForce>,
    /// The same without each of the hands.
    pub without: Vec<Without>,
}

/// One step.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StepForce {
    /// Name.
    pub name: String,
    /// Tension that arrives; at a hand, what it is asked for.
    #[serde(with = "Text::<Force>")]
    pub arrives: Force,
    /// Tension behind it.
    #[serde(with = "Text::<Force>")]
    pub behind: Force,
    /// Heat for each metre lowered, in J/m.
    pub heat_j_per_m: f64,
}

/// What one hand that lets go leaves.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Without {
    /// The hand.
    pub name: String,
    /// Whether the rest holds the load.
    pub holds: bool,
    /// Greatest load that the rest holds.
    #[serde(with = "Text::<Force>")]
    pub holds_up_to: Force,
}

/// A step in numbers.
#[derive(Clone, Copy)]
enum Number {
    Eta(f64),
    GripN(f64),
}

/// Whether hands hold a load that is lowered through turns, Eq. (D1) to (D3), (D5).
///
/// # Errors
/// [`PulleyError::Invalid`] for values out of range; [`PulleyError::Overflow`].
///
/// # Example
/// ```
/// use tautwork::pulley::{Friction, LowerStep, Lowering, lowering};
/// use tautwork::quantity::{ReadForce, Words};
/// // Two turns on a bollard hold 7500 N with 150 N.
/// let friction = Friction::Capstan { mu: 0.311_309.ratio() };
/// let bollard = LowerStep::Turn { name: "bollard".to_owned(), friction, wrap: 2.0.turns() };
/// let hand = |grip: f64| LowerStep::Hand { name: "hand".to_owned(), grip: grip.newtons() };
/// let mut plan = Lowering { load: 7500.0.newtons(), steps: vec![bollard, hand(200.0)] };
/// let answer = lowering(&plan)?;
/// assert!(answer.holds);
/// assert!((answer.steps[1].arrives.in_newtons() - 150.0).abs() < 0.1);
/// assert!((answer.holds_up_to.in_newtons() - 10_000.0).abs() < 1.0);
/// plan.steps[1] = hand(-1.0);
/// assert!(lowering(&plan).is_err());
/// # Ok::<(), tautwork::pulley::PulleyError>(())
/// ```
///
/// # Source
/// Beer & Johnston, *Statics*, Sample Problem 8.7, from memory.
pub fn lowering(plan: &Lowering) -> Result<LoweringHolds, PulleyError> {
    let load_n = positive("load", plan.load)?;
    count("steps", plan.steps.len(), 1, 1000)?;
    let mut numbers = Vec::with_capacity(plan.steps.len());
    for (i, step) in plan.steps.iter().enumerate() {
        let within = |e: Invalid| e.within(&format!("steps[{i}]"));
        numbers.push(match step {
            LowerStep::Turn { friction, wrap, .. } => {
                let wrap_rad = non_negative("wrap", *wrap).map_err(within)?;
                Number::Eta(loss(*friction, wrap_rad).map_err(within)?)
            }
            LowerStep::Hand { grip, .. } => {
                Number::GripN(non_negative("grip", *grip).map_err(within)?)
            }
        });
    }
    let mut t = load_n;
    let mut steps = Vec::with_capacity(numbers.len());
    for (step, &number) in plan.steps.iter().zip(&numbers) {
        let behind = match number {
            Number::Eta(eta) => t * eta,
            Number::GripN(grip) => (t - grip).max(0.0),
        };
        steps.push(StepForce {
            name: name(step).clone(),
            arrives: Force::from_si(t),
            behind: Force::from_si(behind),
            heat_j_per_m: t - behind,
        });
        t = behind;
    }
    // A turn behind the last hand brakes only rope that runs.
    let last_hand = numbers.iter().rposition(|n| matches!(n, Number::GripN(_)));
    let left = last_hand.map_or(load_n, |i| steps[i].behind.si());
    let most_n = greatest(&numbers)?;
    let mut without = Vec::new();
    for i in (0..numbers.len()).filter(|&i| matches!(numbers[i], Number::GripN(_))) {
        let mut rest = numbers.clone();
        rest[i] = Number::GripN(0.0);
        let rest_n = greatest(&rest)?;
        without.push(Without {
            name: name(&plan.steps[i]).clone(),
            holds: rest_n >= load_n,
            holds_up_to: Force::from_si(rest_n),
        });
    }
    let factor = most_n / load_n;
    if !factor.is_finite() {
        return Err(PulleyError::Overflow { result: "factor" });
    }
    Ok(LoweringHolds {
        holds: left == 0.0,
        left: Force::from_si(left),
        holds_up_to: Force::from_si(most_n),
        factor: Ratio::from_si(factor),
        steps,
        without,
    })
}

fn name(step: &LowerStep) -> &String {
    match step {
        LowerStep::Turn { name, .. } | LowerStep::Hand { name, .. } => name,
    }
}

/// Eq. (D3).
fn greatest(numbers: &[Number]) -> Result<f64, PulleyError> {
    let most_n = numbers.iter().rev().fold(0.0, |t, number| match number {
        Number::Eta(eta) => t / eta,
        Number::GripN(grip) => t + grip,
    });
    if most_n.is_finite() {
        Ok(most_n)
    } else {
        Err(PulleyError::Overflow { result: "holds_up_to" })
    }
}

/// Wrap on a device with which a hand holds a load, Eq. (D4); zero for a load that it holds alone.
///
/// # Errors
/// [`PulleyError::Invalid`] unless `load`, `hand` and `mu` are above zero; [`PulleyError::Overflow`].
///
/// # Example
/// ```
/// use tautwork::pulley::wrap_to_hold;
/// use tautwork::quantity::{ReadAngle, Words};
/// // 80 kg with 100 N on a bar of 0.25: one turn and a third.
/// let wrap = wrap_to_hold(784.8.newtons(), 100.0.newtons(), 0.25.ratio())?;
/// assert!((wrap.in_turns() - 1.3116).abs() < 1e-3);
/// assert!(wrap_to_hold(784.8.newtons(), 100.0.newtons(), 0.0.ratio()).is_err());
/// # Ok::<(), tautwork::pulley::PulleyError>(())
/// ```
pub fn wrap_to_hold(load: Force, hand: Force, mu: Ratio) -> Result<Angle, PulleyError> {
    let (load_n, hand_n) = (positive("load", load)?, positive("hand", hand)?);
    let wrap_rad = (load_n.ln() - hand_n.ln()).max(0.0) / positive("mu", mu)?;
    if wrap_rad.is_finite() {
        Ok(Angle::from_si(wrap_rad))
    } else {
        Err(PulleyError::Overflow { result: "wrap_to_hold" })
    }
}
