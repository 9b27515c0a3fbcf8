//! Winds as conditions beside still air.

use crate::quantity::Speed;
use crate::rig::read::{Node, Read, Reader, Rule, table};

table! {
    /// A steady wind as a condition beside still air, such as a breeze or a gust that lasts.
    pub struct WindEntry {
        /// Name of the condition.
        name: String,
        /// Velocity of the air: along the span, to the left.
        velocity: [Speed; 2],
        /// Greatest wind of this direction in which the clearances are looked at; twice this one unless given.
        most: Option<Speed> => Positive,
    }
}
