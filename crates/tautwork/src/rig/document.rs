//! The entries of a rig document. Each is read, checked and described by one declaration.

use std::collections::BTreeMap;

use super::reader::{Range, Read, Reader, Rule, choice, table};
use super::tree::Node;
use crate::quantity::{
    Angle, Area, AxialRigidity, Damping, Density, Force, Length, LinearDensity, Mass, Ratio, Speed,
    Stiffness, Time,
};

table! {
    /// A whole rig: gear, geometry, people and the rigger's own limits.
    /// x runs along the span from the near anchor, y to the left of it, z up.
    pub struct Rig {
        /// Name of the rig.
        name: String,
        /// Remark printed with the plan.
        note: Option<String>,
        /// What the rigger requires.
        requirements: Requirements,
        /// The air; still and 1.2 kg/m³ unless given.
        air: Option<Air>,
        /// Kinds of webbing and rope by name.
        cordage: BTreeMap<String, CordageEntry>,
        /// Places where lines end.
        anchor: Vec<AnchorEntry>,
        /// Lines across the gap, all tied to the ring.
        line: Vec<LineEntry>,
        /// The ring set that joins the lines and the jump ropes.
        ring: RingEntry,
        /// Standing states to solve, by name. Unless given: each line alone, and everything on.
        state: Vec<StateEntry>,
        /// The person.
        jumper: BodyEntry,
        /// The test bag.
        bag: Option<BodyEntry>,
        /// The jump.
        jump: JumpEntry,
        /// Walls and ground in the plane of the jump.
        terrain: Vec<TerrainEntry>,
        /// The way back up.
        haul: Option<HaulEntry>,
        /// The raised frame that leads the haul rope over the edge.
        frame: Option<FrameEntry>,
        /// Rings, links, connectors and harness points with a rating of their own.
        gear: Vec<GearEntry>,
    }
}

table! {
    /// The rigger's own limits.
    pub struct Requirements {
        /// Least allowed ratio of derated strength to demand.
        factor: Ratio => Positive,
        /// Most force allowed on the body.
        body_force: Force => Positive,
        /// Least distance from the body to any wall or ground in flight; a terrain may set its own.
        clearance: Length => NonNegative,
        /// Least distance from the body to the ledge on the way out.
        exit_clearance: Option<Length> => NonNegative,
        /// Error of the survey, taken off every clearance.
        survey_error: Option<Length> => NonNegative,
    }
}

table! {
    /// The air.
    pub struct Air {
        /// Density of the air.
        density: Option<Density> => NonNegative,
    }
}

table! {
    /// A kind of webbing or rope.
    pub struct CordageEntry {
        /// Mass per rest length.
        linear_density: LinearDensity => Positive,
        /// How it stretches.
        stretch: StretchEntry,
        /// Minimum breaking strength, new and without knots.
        breaking_strength: Force => Positive,
        /// Relaxation time of the rope's internal loss: one value, or a low and a high one.
        relaxation: Option<Range<Time>> => Positive,
    }
}

table! {
    /// How cordage stretches: exactly one of a rigidity, an elongation at a force, a table or a
    /// figure of a standard; a dynamic rope gives both EN 892 figures.
    pub struct StretchEntry {
        /// Axial rigidity EA.
        axial_rigidity: Option<AxialRigidity> => Positive,
        /// Elongation at the force given by `at`.
        elongation: Option<Ratio> => Positive,
        /// Force of the elongation.
        at: Option<Force> => Positive,
        /// Points of a measured curve, each [tension, strain], both rising from zero.
        table: Option<Vec<PointEntry>>,
        /// EN 892 static elongation, from 5 kg to 80 kg.
        en892_static_elongation: Option<Ratio> => Positive,
        /// EN 892 rated impact force.
        en892_impact_force: Option<Force> => Positive,
        /// EN 1891 elongation, from 50 kg to 150 kg.
        en1891_elongation: Option<Ratio> => Positive,
    }
}

table! {
    /// A point of a stretch curve.
    pub struct PointEntry {
        /// Tension.
        tension: Force => NonNegative,
        /// Strain on the rest length.
        strain: Ratio => NonNegative,
    }
}

table! {
    /// A place where lines end, with the legs that hold it.
    pub struct AnchorEntry {
        /// Name that lines use.
        name: String,
        /// Master point.
        position: [Length; 3],
        /// Strength of the anchor as a whole, where it has no legs.
        strength: Option<Force> => Positive,
        /// Legs from fixings to the master point.
        leg: Vec<LegEntry>,
    }
}

table! {
    /// One leg of an anchor.
    pub struct LegEntry {
        /// Name of the leg.
        name: String,
        /// Where the leg is fixed.
        fixing: [Length; 3],
        /// Rest length; the distance from the fixing to the master point unless given.
        rest_length: Option<Length> => Positive,
        /// Stiffness of the leg. Give this or the cordage.
        stiffness: Option<Stiffness> => Positive,
        /// Cordage of the leg.
        cordage: Option<String>,
        /// Strands of that cordage side by side; one unless given.
        strands: Option<u32>,
        /// Strength of the leg with its fixing.
        strength: Force => Positive,
        /// Reductions of that strength.
        factor: Vec<FactorEntry>,
    }
}

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
    }
}

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

table! {
    /// The way back up: a haul rope from the jumper over a pulley to the haulers.
    pub struct HaulEntry {
        /// Cordage of the haul rope.
        cordage: String,
        /// The edge over which the jumper is brought in.
        lip: [Length; 3],
        /// Pulley that leads the rope; the head of the frame unless given.
        pulley: Option<[Length; 3]>,
        /// Haul system.
        system: HaulSystem,
        /// Efficiency of each sheave at a turn of 180 degrees.
        sheave_efficiency: Ratio => Fraction,
        /// Where the system is anchored, behind the edge.
        anchor: [Length; 3],
        /// Haulers.
        people: u32,
        /// Pull that each sustains.
        pull_each: Force => Positive,
        /// Travel of the haul system before it must be reset.
        throw: Length => Positive,
        /// Friction coefficient of the edge, where the rope touches it.
        edge_friction: Option<Ratio> => NonNegative,
        /// Angle over which the rope bears on the edge; nothing unless given.
        edge_wrap: Option<Angle> => NonNegative,
        /// Reductions of strength of the haul rope.
        factor: Vec<FactorEntry>,
    }
}

choice! {
    /// An ordinary haul system.
    pub enum HaulSystem {
        /// The rope led straight to the haulers.
        Redirect = "1:1",
        /// One travelling block on the load side.
        TwoToOne = "2:1",
        /// One rope folded back on itself by a rope grab.
        ThreeToOne = "3:1",
        /// Two blocks, four parts.
        FourToOne = "4:1",
        /// Two blocks, five parts.
        FiveToOne = "5:1",
        /// A two to one on a three to one.
        SixToOne = "6:1",
        /// A three to one on a three to one.
        NineToOne = "9:1",
    }
}

table! {
    /// A raised frame: legs that push, guys that pull, joined at the head.
    pub struct FrameEntry {
        /// Head, where the pulley hangs.
        head: [Length; 3],
        /// Legs.
        leg: Vec<MemberEntry>,
        /// Guys.
        guy: Vec<MemberEntry>,
    }
}

table! {
    /// A leg or a guy of a frame.
    pub struct MemberEntry {
        /// Name.
        name: String,
        /// Where it stands or is anchored.
        foot: [Length; 3],
        /// Axial rigidity.
        axial_rigidity: Option<AxialRigidity> => Positive,
        /// Strength: of a leg in compression, of a guy in tension.
        strength: Force => Positive,
    }
}

table! {
    /// A piece of gear with a rating of its own.
    pub struct GearEntry {
        /// Name.
        name: String,
        /// Where it takes load: "ring", "jumper", or the name of an anchor, a line or a jump rope.
        at: String,
        /// Strength in the direction of load.
        strength: Force => Positive,
        /// Reductions of that strength.
        factor: Vec<FactorEntry>,
    }
}
