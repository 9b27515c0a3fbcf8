//! A boulder or block that holds by its weight: does it slide or tip first?

use serde::{Deserialize, Serialize};

use crate::anchor::AnchorError;
use crate::quantity::check::{finite, non_negative, positive};
use crate::quantity::{
    Angle, Force, GRAVITY, Invalid, Length, Mass, MaybeText, Ratio, Text, print,
};

/// A block on the ground and the pull on it, both in one upright plane.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Block {
    /// Mass.
    #[serde(with = "Text::<Mass>")]
    pub mass: Mass,
    /// Friction between block and ground.
    #[serde(with = "Text::<Ratio>")]
    pub friction: Ratio,
    /// Slope of the ground: positive where it falls away toward the pull.
    #[serde(with = "Text::<Angle>")]
    pub slope: Angle,
    /// Centre of gravity behind the edge over which it would tip, along the ground.
    #[serde(with = "Text::<Length>")]
    pub center_behind_edge: Length,
    /// Centre of gravity above the ground, square to it.
    #[serde(with = "Text::<Length>")]
    pub center_height: Length,
    /// Pull.
    #[serde(with = "Text::<Force>")]
    pub pull: Force,
    /// Angle of the pull above the horizontal; negative where it pulls down.
    #[serde(with = "Text::<Angle>")]
    pub pull_angle: Angle,
    /// Height of the pull above the ground, square to it.
    #[serde(with = "Text::<Length>")]
    pub pull_height: Length,
    /// Point of the pull behind the tipping edge, along the ground.
    #[serde(with = "Text::<Length>")]
    pub pull_behind_edge: Length,
}

/// What the block does first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum FirstToGo {
    /// It slides.
    Sliding,
    /// It tips.
    Tipping,
}

/// What to know about a block.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum BlockNote {
    /// It slides on this slope without any pull.
    SlidesAlone,
    /// It tips over the edge without any pull.
    TipsAlone,
    /// The pull presses so steeply into the ground that it never slides.
    PressedFast,
}

/// How a block holds a pull.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BlockHold {
    /// Pull at which it slides; none if it never does.
    #[serde(with = "MaybeText::<Force>", skip_serializing_if = "Option::is_none")]
    pub sliding: Option<Force>,
    /// Pull at which it tips; none if it never does.
    #[serde(with = "MaybeText::<Force>", skip_serializing_if = "Option::is_none")]
    pub tipping: Option<Force>,
    /// Which comes first; sliding if both come at once.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub first: Option<FirstToGo>,
    /// The pull at which that comes over the pull given.
    #[serde(with = "MaybeText::<Ratio>", skip_serializing_if = "Option::is_none")]
    pub factor: Option<Ratio>,
    /// Force of block on ground, square to it, under the pull given; negative if the pull lifts it.
    #[serde(with = "Text::<Force>")]
    pub normal_force: Force,
    /// Friction that the pull given asks for; none if the pull lifts the block.
    #[serde(with = "MaybeText::<Ratio>", skip_serializing_if = "Option::is_none")]
    pub friction_needed: Option<Ratio>,
    /// Where the ground's force acts, behind the tipping edge, under the pull given; none if the pull
    /// lifts the block.
    #[serde(with = "MaybeText::<Length>", skip_serializing_if = "Option::is_none")]
    pub ground_force_behind_edge: Option<Length>,
    /// What to know.
    pub notes: Vec<BlockNote>,
}

/// At what pull a block on sloping ground slides or tips, Eqs. (F11) and (F12).
///
/// Weight and friction only. Not covered: what the block stands on, whether it is one sound piece, and
/// sliding or tipping away from the pull or sideways.
///
/// # Errors
/// [`AnchorError::Invalid`] for mass, distance of the centre or pull that is not above zero, negative
/// friction or heights, a slope outside ±90° or a pull outside ±90° of the ground;
/// [`AnchorError::Overflow`].
///
/// # Example
/// ```
/// use tautwork::anchor::{Block, FirstToGo, block_hold};
/// use tautwork::quantity::{ReadForce, Words};
///
/// // A cube of 2 t and 1 m edge on flat ground, pulled level, friction 0.5.
/// let mut block = Block {
///     mass: 2000.0.kilograms(),
///     friction: 0.5.ratio(),
///     slope: 0.0.degrees(),
///     center_behind_edge: 0.5.meters(),
///     center_height: 0.5.meters(),
///     pull: 4.0.kilonewtons(),
///     pull_angle: 0.0.degrees(),
///     pull_height: 0.2.meters(),
///     pull_behind_edge: 0.0.meters(),
/// };
/// let hold = block_hold(&block)?;
/// // It slides at half its weight, and would tip at 2.5 times its weight.
/// assert_eq!(hold.first, Some(FirstToGo::Sliding));
/// assert!((hold.sliding.unwrap().in_kilonewtons() - 9.81).abs() < 1e-9);
/// assert!((hold.tipping.unwrap().in_kilonewtons() - 49.05).abs() < 1e-9);
/// block.mass = 0.0.kilograms();
/// assert!(block_hold(&block).is_err());
/// # Ok::<(), tautwork::anchor::AnchorError>(())
/// ```
///
/// # Source
/// Any textbook of statics.
pub fn block_hold(block: &Block) -> Result<BlockHold, AnchorError> {
    let weight_n = positive("mass", block.mass)? * GRAVITY;
    let pull_n = positive("pull", block.pull)?;
    let mu = non_negative("friction", block.friction)?;
    let b = positive("center_behind_edge", block.center_behind_edge)?;
    let c = non_negative("center_height", block.center_height)?;
    let h = non_negative("pull_height", block.pull_height)?;
    let x = non_negative("pull_behind_edge", block.pull_behind_edge)?;
    let slope = within_right_angle("slope", block.slope)?;
    let from_ground = finite("pull_angle", block.pull_angle)? + slope;
    if from_ground.abs() > std::f64::consts::FRAC_PI_2 {
        let allowed =
            "such that pull_angle + slope, its angle from the ground, is from -90 to 90 deg";
        return Err(Invalid::new("pull_angle", print(block.pull_angle), allowed).into());
    }
    let ((down, square), (up, along)) = (slope.sin_cos(), from_ground.sin_cos());
    let mut notes = Vec::new();
    // Up the slope it may slide away from the pull: there the pull would hold it.
    let resists = mu * square - down;
    if mu * square < down.abs() {
        notes.push(BlockNote::SlidesAlone);
    }
    let drives = along + mu * up;
    if drives <= 0.0 && resists > 0.0 {
        notes.push(BlockNote::PressedFast);
    }
    let stands = b * square - c * down;
    if stands < 0.0 {
        notes.push(BlockNote::TipsAlone);
    }
    let sliding_n = limit(weight_n, resists, drives);
    let tipping_n = limit(weight_n, stands, h * along + x * up);
    let first = match (sliding_n, tipping_n) {
        (Some(s), Some(t)) if t < s => Some((FirstToGo::Tipping, t)),
        (Some(s), _) => Some((FirstToGo::Sliding, s)),
        (None, Some(t)) => Some((FirstToGo::Tipping, t)),
        (None, None) => None,
    };
    let normal_n = weight_n * square - pull_n * up;
    let moment = weight_n * stands - pull_n * (h * along + x * up);
    let lies = normal_n > 0.0;
    let needed = (weight_n * down + pull_n * along).abs() / normal_n;
    let quantity = |what, si: Option<f64>| si.map(|si| AnchorError::finite(what, si)).transpose();
    Ok(BlockHold {
        sliding: quantity("sliding", sliding_n)?,
        tipping: quantity("tipping", tipping_n)?,
        first: first.map(|(first, _)| first),
        factor: first.map(|(_, at)| AnchorError::finite("factor", at / pull_n)).transpose()?,
        normal_force: AnchorError::finite("normal_force", normal_n)?,
        friction_needed: lies
            .then(|| AnchorError::finite("friction_needed", needed))
            .transpose()?,
        ground_force_behind_edge: lies
            .then(|| AnchorError::finite("ground_force_behind_edge", moment / normal_n))
            .transpose()?,
        notes,
    })
}

/// The pull at which what drives reaches what resists; zero if it goes by itself, none if never.
fn limit(weight_n: f64, resists: f64, drives: f64) -> Option<f64> {
    match (resists > 0.0, drives > 0.0) {
        (false, _) => Some(0.0),
        (true, true) => Some(weight_n * (resists / drives)),
        (true, false) => None,
    }
}

/// An angle strictly between −90° and 90°, in rad.
fn within_right_angle(parameter: &str, angle: Angle) -> Result<f64, AnchorError> {
    let rad = finite(parameter, angle)?;
    if rad.abs() < std::f64::consts::FRAC_PI_2 {
        Ok(rad)
    } else {
        Err(Invalid::new(parameter, print(angle), "between -90 deg and 90 deg").into())
    }
}
