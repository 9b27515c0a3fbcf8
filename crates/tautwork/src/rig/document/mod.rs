//! The entries of a rig document. Each is read, checked and described by one declaration.

mod anchor;
mod edge;
mod haul;
mod jump;
mod kit;
mod lines;
mod people;
mod rescue;
mod stop;
mod wind;

use std::collections::BTreeMap;

pub use anchor::*;
pub use edge::*;
pub use haul::*;
pub use jump::*;
pub use kit::*;
pub use lines::*;
pub use people::*;
pub use rescue::*;
pub use stop::*;
pub use wind::*;

use super::read::{Node, Range, Read, Reader, Rule, table};
use crate::quantity::{AxialRigidity, Density, Force, Length, LinearDensity, Mass, Ratio, Time};

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
        /// Winds that the plan looks at besides still air.
        wind: Vec<WindEntry>,
        /// Kinds of webbing and rope by name.
        cordage: BTreeMap<String, CordageEntry>,
        /// Places where lines end.
        anchor: Vec<AnchorEntry>,
        /// Lines across the gap, all tied to the ring.
        line: Vec<LineEntry>,
        /// The ring set that joins the lines and the jump ropes.
        ring: RingEntry,
        /// Ropes that stop the ring; two of them, one from each side, are a stabiliser.
        stop: Vec<StopEntry>,
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
        /// Edges of rock that lines and ropes may lie on.
        edge: Vec<EdgeEntry>,
        /// The way back up.
        haul: Option<HaulEntry>,
        /// The raised frame that leads the haul rope over the edge.
        frame: Option<FrameEntry>,
        /// A second person out to a stuck jumper, and lowering.
        rescue: Option<RescueEntry>,
        /// Rings, links, connectors and harness points with a rating of their own.
        gear: Vec<GearEntry>,
        /// What to bring.
        kit: Option<KitEntry>,
        /// Wear and rest of ropes.
        wear: Option<WearEntry>,
        /// What may fall or fly.
        exclusion: Option<ExclusionEntry>,
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
        /// Diameter, or the width that a webbing turns to the wind; without it the wind does nothing to a line of it.
        width: Option<Length> => Positive,
        /// Drag coefficient across the wind; 1.2 unless given, that of a round rope.
        drag_coefficient: Option<Ratio> => Positive,
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
        table: Option<Vec<(Force, Ratio)>>,
        /// EN 892 static elongation, from 5 kg to 80 kg.
        en892_static_elongation: Option<Ratio> => Positive,
        /// EN 892 rated impact force.
        en892_impact_force: Option<Force> => Positive,
        /// EN 1891 elongation, from 50 kg to 150 kg.
        en1891_elongation: Option<Ratio> => Positive,
    }
}

table! {
    /// A piece of gear with a rating of its own.
    pub struct GearEntry {
        /// Name.
        name: String,
        /// Where it takes load: "ring", "jumper", or the name of an anchor, a line or a jump rope.
        at: String,
        /// End of the line at which it is; where the line meets the ring unless given.
        end: Option<End>,
        /// Strength in the direction of load.
        strength: Force => Positive,
        /// Reductions of that strength.
        factor: Vec<FactorEntry>,
        /// Kind, by which spares are counted and the inventory is searched; the name unless given.
        kind: Option<String>,
        /// How many; one unless given.
        count: Option<u32>,
        /// Mass of one.
        mass: Option<Mass> => NonNegative,
        /// Side where it is needed; the near one unless given, that of the anchor at an anchor.
        side: Option<Side>,
    }
}
