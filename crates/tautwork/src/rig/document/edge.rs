//! Edges of rock and the pads on them.

use crate::quantity::{Energy, Length, Mass, Ratio};
use crate::rig::read::{Node, Read, Reader, Rule, table};

table! {
    /// An edge of rock, level across the span, that lines and ropes may lie on.
    pub struct EdgeEntry {
        /// Name, such as "near lip".
        name: String,
        /// Where it crosses the plane of the span.
        position: [Length; 3],
        /// Friction coefficient of cordage on the bare rock.
        friction: Ratio => NonNegative,
        /// Radius of the bare rock; sharp unless given.
        radius: Option<Length> => Positive,
        /// Pads on it.
        pad: Vec<PadEntry>,
    }
}

table! {
    /// A pad, a roller or a tube on an edge.
    pub struct PadEntry {
        /// Name.
        name: String,
        /// What lies on it: names of lines and jump ropes, or "haul rope".
        under: Vec<String>,
        /// Friction coefficient of that cordage on the pad.
        friction: Ratio => NonNegative,
        /// Radius over which the pad bends it; that of the rock unless given.
        radius: Option<Length> => Positive,
        /// Force times travel that the cordage has borne there before.
        done: Option<Energy> => NonNegative,
        /// Mass of the pad, to bring.
        mass: Option<Mass> => NonNegative,
        /// Side where it is needed; the near one unless given.
        side: Option<super::Side>,
    }
}
