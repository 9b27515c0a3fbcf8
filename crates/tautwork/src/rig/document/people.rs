//! Wear of ropes, and what may fall or fly.

use crate::quantity::{Area, Energy, Force, Length, Mass, Ratio, Speed, Time};
use crate::rig::read::{Node, Read, Reader, Rule, table};

table! {
    /// Rubbing, rest and the rigger's rules to retire and to wait.
    pub struct WearEntry {
        /// Radius of the section of the ring on which the jump ropes turn, if they do not roll there.
        ring_section: Option<Length> => Positive,
        /// Friction coefficient where parts rub, to know the work of friction.
        friction: Option<Ratio> => NonNegative,
        /// Force times travel at which the rigger retires what has rubbed.
        retire_at: Option<Energy> => Positive,
        /// Force times travel that the jump ropes and the haul rope have borne before.
        done: Option<Energy> => NonNegative,
        /// Stretch that may be left in a jump rope at the next jump.
        stretch_left: Option<Ratio> => Positive,
        /// Least wait between jumps, the rigger's own.
        least_wait: Option<Time> => NonNegative,
        /// Other places that rub in each jump, such as the stabiliser of the ring.
        place: Vec<RubEntry>,
    }
}

table! {
    /// A place that rubs in each jump by a force and a travel that the rigger gives.
    pub struct RubEntry {
        /// Name of the place.
        name: String,
        /// What rubs there.
        part: String,
        /// Contact force.
        contact: Force => NonNegative,
        /// Travel in one jump.
        travel: Length => NonNegative,
        /// Force times travel borne before.
        done: Option<Energy> => NonNegative,
    }
}

table! {
    /// What may fall from the rig or fly off a broken line.
    pub struct ExclusionEntry {
        /// Speed with which a thing may be thrown or kicked off; 3 m/s unless given.
        throw: Option<Speed> => NonNegative,
        /// Wind that carries what has a drag area; still air unless given.
        wind: Option<Speed> => NonNegative,
        /// Mass that hangs at the end of a line and may come off with it.
        end_mass: Option<Mass> => Positive,
        /// Things that may be dropped.
        thing: Vec<DroppedEntry>,
    }
}

table! {
    /// A thing that may be dropped.
    pub struct DroppedEntry {
        /// Name.
        name: String,
        /// Mass.
        mass: Mass => Positive,
        /// Drag area; without it the air does nothing.
        drag_area: Option<Area> => NonNegative,
    }
}
