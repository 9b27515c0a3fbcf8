//! Bodies, the jump and its terrain.

use super::FactorEntry;
use crate::quantity::{Area, Force, Length, Mass, Speed, Time};
use crate::rig::read::{Node, Read, Reader, Rule, choice, table};

table! {
    /// A person or a bag.
    pub struct BodyEntry {
        /// Mass with gear.
        mass: Mass => Positive,
        /// Drag area: drag coefficient times frontal area; zero unless given.
        drag_area: Option<Area> => NonNegative,
        /// Radius around the centre that must stay clear; 1 m unless given.
        radius: Option<Length> => NonNegative,
    }
}

table! {
    /// The jump.
    pub struct JumpEntry {
        /// Centre of the body at the exit.
        exit: [Length; 3],
        /// Velocity at the exit.
        velocity: [Speed; 3],
        /// Jump ropes from the ring to the jumper.
        rope: Vec<JumpRopeEntry>,
        /// How the jump ropes answer.
        response: Response,
        /// Radius around the exit within which the ledge counts as exit clearance; 5 m unless given.
        launch_radius: Option<Length> => Positive,
        /// Longest time that is followed; 120 s unless given.
        horizon: Option<Time> => Positive,
        /// Extra drag area of the jump ropes, acting at the body; zero unless given.
        rope_drag_area: Option<Area> => NonNegative,
        /// Forces whose duration on the body is reported; 2, 3 and 4 kN unless given.
        force_levels: Vec<Force> => Positive,
    }
}

choice! {
    /// How jump ropes are modelled.
    pub enum Response {
        /// Two linear ropes: forces from the stiff one, clearances from the soft one.
        StiffAndSoft = "stiff and soft",
        /// A standard linear solid, run at both ends of its relaxation time.
        StandardLinearSolid = "standard linear solid",
    }
}

table! {
    /// A jump rope.
    pub struct JumpRopeEntry {
        /// Name of the rope.
        name: String,
        /// Its cordage.
        cordage: String,
        /// Rest length from tie-in to tie-in.
        rest_length: Length => Positive,
        /// Rope that the two knots take; nothing unless given.
        knots: Option<Length> => NonNegative,
        /// Tails beyond the knots; nothing unless given.
        tails: Option<Length> => NonNegative,
        /// Error of marking and bedding-in.
        length_error: Option<Length> => NonNegative,
        /// Reductions of strength.
        factor: Vec<FactorEntry>,
    }
}

table! {
    /// A wall or the ground as a polyline of [x, z] points.
    pub struct TerrainEntry {
        /// Name, such as "far wall".
        name: String,
        /// Corners of the polyline.
        points: Vec<[Length; 2]>,
        /// Least clearance wanted here; that of the requirements unless given.
        clearance: Option<Length> => NonNegative,
    }
}
