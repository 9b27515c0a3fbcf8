//! What published standards ask for.

use serde::{Deserialize, Serialize};

use super::table::{ROWS, Row, Value};
use crate::quantity::{Force, Length, MaybeText, Quantity, Ratio};

/// Kinds of gear.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum GearKind {
    /// Accessory cord.
    AccessoryCord,
    /// Tape by the metre.
    Tape,
    /// Sewn sling for climbing.
    SewnSling,
    /// Dynamic rope.
    DynamicRope,
    /// Low-stretch or static rope.
    LowStretchRope,
    /// Connector, carabiner, screw link.
    Connector,
    /// Harness.
    Harness,
    /// Rope clamp.
    RopeClamp,
    /// Rock anchor, bolt with hanger.
    RockAnchor,
    /// Ice screw.
    IceScrew,
    /// Piton.
    Piton,
    /// Spring-loaded friction anchor.
    FrictionAnchor,
    /// Chock.
    Chock,
    /// Pulley.
    Pulley,
    /// Lanyard.
    Lanyard,
    /// Anchor device at work.
    AnchorDevice,
    /// Energy absorber, also of a via ferrata set.
    EnergyAbsorber,
    /// Wire rope sling for lifting.
    WireRopeSling,
    /// Textile sling for lifting.
    TextileSling,
}

/// On which side of the limit a piece must be.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Bound {
    /// At least the limit.
    AtLeast,
    /// At most the limit.
    AtMost,
}

/// How sure the record of a limit is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Certainty {
    /// Read in a printed source.
    Seen,
    /// Read in part, the rest from memory.
    PartlySeen,
    /// From memory.
    Memory,
    /// From memory, and unsure.
    MemoryLow,
}

/// One limit of a standard: a force, a ratio, a length or a count.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StandardLimit {
    /// Name of the row, by which [`rating_check`](super::rating_check) finds it.
    pub key: &'static str,
    /// Standard.
    pub standard: &'static str,
    /// Edition, where the record has it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub edition: Option<&'static str>,
    /// Kind of gear.
    pub kind: GearKind,
    /// What is limited.
    pub what: &'static str,
    /// Which side.
    pub bound: Bound,
    /// The limit, if it is a force.
    #[serde(with = "MaybeText::<Force>", skip_serializing_if = "Option::is_none")]
    pub force: Option<Force>,
    /// The limit, if it is a ratio.
    #[serde(with = "MaybeText::<Ratio>", skip_serializing_if = "Option::is_none")]
    pub ratio: Option<Ratio>,
    /// The limit, if it is a length.
    #[serde(with = "MaybeText::<Length>", skip_serializing_if = "Option::is_none")]
    pub length: Option<Length>,
    /// The limit, if it is a count.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub count: Option<u32>,
    /// How sure the record is.
    pub certainty: Certainty,
}

/// Limits of published standards, each with its edition and how sure the record is.
///
/// For comparison; only the standard itself, in the edition that is due, says what it asks for.
///
/// # Example
/// ```
/// use tautwork::material::{Certainty, gear_limits};
/// use tautwork::quantity::ReadForce;
/// let limits = gear_limits();
/// let sling = limits.iter().find(|l| l.key == "en566").unwrap();
/// assert_eq!(sling.force.unwrap().in_kilonewtons(), 22.0);
/// assert_eq!(sling.certainty, Certainty::Memory);
/// assert!(!limits.iter().any(|l| l.standard == "EN 0"));
/// ```
pub fn gear_limits() -> Vec<StandardLimit> {
    ROWS.iter().map(StandardLimit::from).collect()
}

impl From<&Row> for StandardLimit {
    fn from(row: &Row) -> Self {
        let mut limit = Self {
            key: row.key,
            standard: row.standard,
            edition: (!row.edition.is_empty()).then_some(row.edition),
            kind: row.kind,
            what: row.what,
            bound: row.bound,
            force: None,
            ratio: None,
            length: None,
            count: None,
            certainty: row.certainty,
        };
        match row.value {
            Value::Kilonewtons(kn) => limit.force = Some(Force::from_si(kn * 1e3)),
            Value::Ratio(ratio) => limit.ratio = Some(Ratio::from_si(ratio)),
            Value::Meters(m) => limit.length = Some(Length::from_si(m)),
            Value::Count(n) => limit.count = Some(n),
        }
        limit
    }
}
