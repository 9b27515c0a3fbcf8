//! Stops of the ring.

use super::{End, FactorEntry};
use crate::quantity::Length;
use crate::rig::read::{Node, Read, Reader, Rule, table};

table! {
    /// A rope from an anchor to the ring that goes taut when the ring has moved so far away from it. Two of them, one
    /// from each side, are a stabiliser.
    pub struct StopEntry {
        /// Name.
        name: String,
        /// Line beside which it runs.
        line: String,
        /// End of that line at whose anchor it is tied.
        end: End,
        /// Slack in it while the jumper waits.
        travel: Length => NonNegative,
        /// Its cordage: of one rigidity, or with both figures of EN 892.
        cordage: String,
        /// Rope that its two knots take; nothing unless given.
        knots: Option<Length> => NonNegative,
        /// Reductions of strength.
        factor: Vec<FactorEntry>,
    }
}
