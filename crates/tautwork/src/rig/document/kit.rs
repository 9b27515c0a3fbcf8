//! What to bring.

use crate::quantity::{Force, Length, Mass};
use crate::rig::read::{Node, Read, Reader, Rule, choice, table};

choice! {
    /// A side of the gap.
    pub enum Side {
        /// Where the lines begin.
        Near = "near",
        /// Where they end.
        Far = "far",
    }
}

table! {
    /// What to bring, in which bags, with which spares. Lines, legs, jump ropes, the haul, the frame and gear
    /// of the document are in the kit by themselves.
    pub struct KitEntry {
        /// Greatest mass of one bag; one bag for each side unless given.
        bag_mass: Option<Mass> => Positive,
        /// One spare piece of gear for so many of its kind; none unless given.
        spare_gear_every: Option<u32>,
        /// One spare jump rope for so many of a cordage; none unless given.
        spare_rope_every: Option<u32>,
        /// Tail at each end of a line that gives none.
        line_tail: Option<Length> => NonNegative,
        /// Length of the haul rope; what the way back and the haul system take unless given.
        haul_rope: Option<Length> => Positive,
        /// What else to bring.
        item: Vec<KitItemEntry>,
    }
}

table! {
    /// A thing to bring.
    pub struct KitItemEntry {
        /// Name.
        name: String,
        /// Kind, by which spares are counted and the inventory is searched; the name unless given.
        kind: Option<String>,
        /// Cordage to cut it from; its kind is then the name of the cordage.
        cordage: Option<String>,
        /// Length; needed with a cordage.
        length: Option<Length> => Positive,
        /// How many; one unless given.
        count: Option<u32>,
        /// Mass of one; from the linear density with a cordage.
        mass: Option<Mass> => NonNegative,
        /// Strength that one must have.
        strength: Option<Force> => Positive,
        /// Side where it is needed; the near one unless given.
        side: Option<Side>,
    }
}
