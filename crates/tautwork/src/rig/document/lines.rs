//! Lines, the ring and standing states.

use crate::quantity::{Damping, Force, Length, Mass, Ratio};
use crate::rig::read::{Node, Range, Read, Reader, Rule, choice, table};

table! {
    /// A reduction of strength at one place, as a factor or a range of factors.
    pub struct FactorEntry {
        /// What reduces it, such as "figure of eight".
        name: String,
        /// The factor: one value, or a low and a high one.
        factor: Range<Ratio> => Fraction,
        /// Where it acts: at the near end, the far end, the ring, or everywhere.
        at: Option<Place>,
        /// Where the value comes from.
        source: Option<String>,
    }
}

choice! {
    /// A place along a line or a rope.
    pub enum Place {
        /// The near end; of a jump rope, the end at the ring.
        Near = "near",
        /// The far end; of a jump rope, the end at the jumper.
        Far = "far",
        /// At the ring.
        Ring = "ring",
        /// The whole length.
        All = "everywhere",
    }
}

table! {
    /// A line across the gap. Give exactly one of `rest_length`, `tension` and `sag`.
    pub struct LineEntry {
        /// Name of the line.
        name: String,
        /// Its cordage.
        cordage: String,
        /// Anchor at the near end.
        from: String,
        /// Anchor at the far end.
        to: String,
        /// Rest length from anchor to anchor.
        rest_length: Option<Length> => Positive,
        /// Standing tension wanted.
        tension: Option<Force> => Positive,
        /// End at which the tension is wanted: the near one unless given.
        tension_end: Option<End>,
        /// State in which the tension is wanted: the line alone unless given.
        tension_state: Option<TensionState>,
        /// Sag wanted below the chord, the line alone.
        sag: Option<Length> => Positive,
        /// Where the ring is tied in, as a fraction of the rest length from the near end; the middle
        /// unless given.
        ring_at: Option<Ratio> => Fraction,
        /// Reductions of strength along the line.
        factor: Vec<FactorEntry>,
        /// Tails behind the near and the far end, to bring.
        tails: Option<[Length; 2]> => NonNegative,
        /// Cordage wound around what holds the near and the far end, to bring.
        wraps: Option<[Length; 2]> => NonNegative,
        /// Side from which it is brought across; the near one unless given.
        side: Option<super::Side>,
    }
}

choice! {
    /// An end of a line.
    pub enum End {
        /// The near end.
        Near = "near",
        /// The far end.
        Far = "far",
    }
}

choice! {
    /// A state in which a standing tension is wanted.
    pub enum TensionState {
        /// The line alone across the gap.
        Alone = "alone",
        /// With every line and the ring on.
        Rigged = "rigged",
    }
}

table! {
    /// The ring set.
    pub struct RingEntry {
        /// Mass of ring, links and knots.
        mass: Mass => Positive,
        /// Damping of the ring against the ground; zero unless given.
        damping: Option<Damping> => NonNegative,
        /// Part of the mass of the lines that moves with the ring; one third unless given.
        line_mass_fraction: Option<Ratio> => NonNegative,
    }
}

table! {
    /// A standing state: which lines are on, and whether the ring is.
    pub struct StateEntry {
        /// Name of the state.
        name: String,
        /// Lines that are on.
        lines: Vec<String>,
        /// Whether the ring set is on: with several lines it is, unless this says otherwise.
        ring: Option<bool>,
    }
}
