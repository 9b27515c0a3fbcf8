//! A jumper who cannot be hauled: a second person, and the way down.

use crate::quantity::{Angle, Force, Length, Mass, Ratio, Time};
use crate::rig::read::{Node, Read, Reader, Rule, table};

table! {
    /// A second person who goes out to a stuck jumper, and lowering instead of hauling.
    pub struct RescueEntry {
        /// Mass of the second person with gear.
        mass: Mass => Positive,
        /// By how much the pull of a climb goes up and down about the weight; 200 N unless given.
        climb_pull: Option<Force> => NonNegative,
        /// Time between two pulls of the climb; 1.5 s unless given.
        climb_period: Option<Time> => Positive,
        /// Damping of the jump ropes over the critical one; 5 % unless given.
        damping_ratio: Option<Ratio> => NonNegative,
        /// Lowering from the ring to the ground.
        lowering: Option<LoweringEntry>,
    }
}

table! {
    /// A rope from the jumper up to a pulley at the ring and along the lines to a friction device at the edge.
    pub struct LoweringEntry {
        /// Cordage of the rope.
        cordage: String,
        /// Where the device is anchored.
        device: [Length; 3],
        /// Length of rope that is there.
        rope_length: Length => Positive,
        /// Efficiency of the pulley at the ring at a turn of 180 degrees.
        sheave_efficiency: Ratio => Fraction,
        /// Friction coefficient of the rope in the device.
        device_friction: Ratio => Positive,
        /// Angle of the rope around the device, whole turns included.
        device_wrap: Angle => Positive,
        /// What the hand at the device can hold.
        grip: Force => Positive,
    }
}
