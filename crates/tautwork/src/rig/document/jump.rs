//! Bodies, the jump and its terrain.

use super::FactorEntry;
use crate::quantity::{Angle, Area, Force, Length, Mass, Speed, Time};
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
        /// Length from head to foot, as a capsule of that radius that hangs from its ropes; a ball unless given.
        length: Option<Length> => Positive,
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
        /// Side where it is needed; the near one unless given.
        side: Option<super::Side>,
    }
}

table! {
    /// A wall or the ground: a polyline of [x, z] points, or a mesh.
    pub struct TerrainEntry {
        /// Name, such as "far wall".
        name: String,
        /// Corners of the polyline. Give these or the mesh.
        points: Vec<[Length; 2]>,
        /// Triangles of a survey.
        mesh: Option<MeshEntry>,
        /// Least clearance wanted here; that of the requirements unless given.
        clearance: Option<Length> => NonNegative,
    }
}

table! {
    /// A mesh of triangles as the text of a file: exactly one of `obj` and `stl`.
    pub struct MeshEntry {
        /// Text of a Wavefront OBJ file.
        obj: Option<String>,
        /// Text of an STL file.
        stl: Option<String>,
        /// Length of one unit of the file; 1 m unless given.
        scale: Option<Length> => Positive,
        /// Axis of the file that points up: the third unless given.
        up: Option<UpWord>,
        /// Where the origin of the file lies; that of the rig unless given.
        origin: Option<[Length; 3]>,
        /// Turn of the file about the vertical, to the left as seen from above; none unless given.
        turn: Option<Angle>,
    }
}

choice! {
    /// Which axis of a mesh file points up.
    pub enum UpWord {
        /// The third.
        Z = "z",
        /// The second.
        Y = "y",
    }
}
