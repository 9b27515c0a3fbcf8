//! The way back up and the raised frame.

use super::FactorEntry;
use crate::quantity::{Angle, AxialRigidity, Force, Length, Mass, Ratio, Speed, Time};
use crate::rig::read::{Node, Read, Reader, Rule, choice, table};

/// What a document and a plan call the haul rope.
pub(in crate::rig) const HAUL_ROPE: &str = "haul rope";

table! {
    /// The way back up: a haul rope from the jumper over a pulley to the haulers.
    pub struct HaulEntry {
        /// Cordage of the haul rope.
        cordage: String,
        /// The edge over which the jumper is brought in.
        lip: [Length; 3],
        /// Pulley that leads the rope; the head of the frame unless given.
        pulley: Option<[Length; 3]>,
        /// Haul system, one of the ordinary ones; or give a network.
        system: Option<HaulSystem>,
        /// Haul system of one's own: bodies and ropes. Its load is what the haul rope behind the pulley pulls.
        network: Option<NetworkEntry>,
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
        /// What the progress capture gives back at a reset; nothing unless given.
        back_slip: Option<Length> => NonNegative,
        /// Speed of the rope through the hands; 0.3 m/s unless given.
        hand_speed: Option<Speed> => Positive,
        /// Time for a reset; 20 s unless given.
        reset_time: Option<Time> => NonNegative,
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
        /// Two sheaves on the load, one at the anchor, one rope.
        SimpleFour = "4:1 of one rope",
        /// A three to one on a two to one.
        SixTurned = "6:1 turned",
        /// A two to one on a two to one on a two to one.
        EightToOne = "8:1",
        /// A block comes to meet the load.
        ComplexThree = "3:1 complex",
        /// The same with one more sheave on the load.
        ComplexFive = "5:1 complex",
    }
}

table! {
    /// A network of ropes over sheaves and grabs on named bodies.
    pub struct NetworkEntry {
        /// Bodies.
        body: Vec<NetworkBodyEntry>,
        /// Ropes.
        rope: Vec<RopeEntry>,
    }
}

table! {
    /// An anchor, a block, the load or the hand.
    pub struct NetworkBodyEntry {
        /// Name.
        name: String,
        /// What it is.
        kind: BodyWord,
        /// Where it is.
        position: [Length; 3],
        /// A way in the direction in which a block or the load moves; up unless given.
        travel: Option<[Length; 3]>,
    }
}

choice! {
    /// What a body is.
    pub enum BodyWord {
        /// Does not move.
        Anchor = "anchor",
        /// Moves with the ropes on it.
        Block = "block",
        /// What is hauled: exactly one.
        Load = "load",
        /// What pulls: exactly one.
        Hand = "hand",
    }
}

table! {
    /// A rope of a network.
    pub struct RopeEntry {
        /// Name.
        name: String,
        /// Body where it begins.
        from: String,
        /// What it runs over, in order.
        over: Vec<SheaveEntry>,
        /// Body where it ends.
        to: String,
    }
}

table! {
    /// A sheave or a grab on a body.
    pub struct SheaveEntry {
        /// Body.
        on: String,
        /// Efficiency at a turn of 180 degrees; that of the haul unless given.
        efficiency: Option<Ratio> => Fraction,
        /// Which end's way it holds the rope against, for a rope grab or a progress capture.
        grab: Option<GrabWord>,
    }
}

choice! {
    /// An end of a rope.
    pub enum GrabWord {
        /// Where it begins.
        Start = "start",
        /// Where it ends.
        End = "end",
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
        /// A rope that ties the feet of legs.
        hobble: Option<HobbleEntry>,
    }
}

table! {
    /// A rope that ties feet so that they do not spread.
    pub struct HobbleEntry {
        /// Legs whose feet it passes, from end to end; the first again at the end for a loop.
        round: Vec<String>,
        /// Friction coefficient of the feet on the ground, for the tensions with which they hold.
        friction: Option<Ratio> => NonNegative,
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
        /// Mass of a leg.
        mass: Option<Mass> => NonNegative,
        /// The pole that a leg is made of, to know when it buckles.
        pole: Option<PoleEntry>,
        /// A way out of the ground under the foot of a leg, of any length; straight up unless given.
        ground_normal: Option<[Length; 3]>,
        /// Tension of a guy before the ropes pull.
        pretension: Option<Force> => NonNegative,
    }
}

table! {
    /// A round pole, solid unless it has a wall.
    pub struct PoleEntry {
        /// Outer diameter, at the thick end.
        diameter: Length => Positive,
        /// Diameter at the thin end of a trunk.
        thin_end: Option<Length> => Positive,
        /// Thickness of the wall of a tube.
        wall: Option<Length> => Positive,
        /// Material.
        material: MaterialEntry,
    }
}

choice! {
    /// Material of a pole.
    pub enum MaterialEntry {
        /// Dry, sound round softwood of unknown grade.
        Softwood = "softwood",
        /// Aluminium alloy tube.
        Aluminium = "aluminium",
        /// Structural steel tube.
        Steel = "steel",
    }
}
