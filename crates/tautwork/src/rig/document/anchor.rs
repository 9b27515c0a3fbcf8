//! Anchors: what holds, the knots between, and the legs that join them.

use super::FactorEntry;
use crate::quantity::{Angle, Force, Length, Mass, Pressure, Quantity, Ratio, Stiffness};
use crate::rig::read::{Node, Read, Reader, Rule, choice, table};

table! {
    /// A place where lines end, with the legs that hold it.
    pub struct AnchorEntry {
        /// Name that lines use.
        name: String,
        /// Master point.
        position: [Length; 3],
        /// Strength of the anchor as a whole, where it has no legs.
        strength: Option<Force> => Positive,
        /// Legs from fixings and knots to the master point and to knots.
        leg: Vec<LegEntry>,
        /// Knots between, at which an anchor in the anchor ends.
        knot: Vec<KnotEntry>,
        /// Fixings with a name, at which several legs may begin.
        fixing: Vec<FixingEntry>,
        /// Side of the gap; far where lines only end, unless given.
        side: Option<super::Side>,
    }
}

table! {
    /// A knot or ring between the fixings and the master point.
    pub struct KnotEntry {
        /// Name of the knot.
        name: String,
        /// Where it is without load, roughly.
        position: [Length; 3],
    }
}

table! {
    /// A bolt, a tree, a boulder: what does not move.
    pub struct FixingEntry {
        /// Name of the fixing.
        name: String,
        /// Where it is.
        position: [Length; 3],
        /// What it holds in the direction in which it is pulled, where that is not in the strength of its legs.
        strength: Option<Force> => Positive,
        /// Reductions of that strength.
        factor: Vec<FactorEntry>,
        /// What it is, if a bolt.
        bolt: Option<BoltEntry>,
        /// What it is, if a tree or a post.
        tree: Option<TreeEntry>,
        /// What it is, if a boulder or a block.
        block: Option<BlockEntry>,
    }
}

table! {
    /// A bolt in rock.
    pub struct BoltEntry {
        /// Resistance in tension alone, by the code of the rule.
        tension: Force => Positive,
        /// Resistance in shear alone, by the code of the rule.
        shear: Force => Positive,
        /// Rule for tension and shear at once.
        rule: BoltRule,
        /// Direction out of the rock along the bolt: three numbers, of any length.
        out_of_rock: [Ratio; 3],
        /// Edge distance, spacing and the like.
        reduction: Vec<BoltReductionEntry>,
    }
}

choice! {
    /// How tension and shear use up a bolt together; n and v are tension and shear over their resistances.
    pub enum BoltRule {
        /// n + v up to 1: exponent 1.
        Linear = "linear",
        /// Exponent 3/2.
        ThreeHalves = "three halves",
        /// Exponent 5/3.
        FiveThirds = "five thirds",
        /// Exponent 2.
        Quadratic = "quadratic",
        /// n and v up to 1, n + v up to 1.2.
        TriLinear = "tri-linear",
    }
}

table! {
    /// What takes from the resistance of a bolt: the rigger's own factors.
    pub struct BoltReductionEntry {
        /// Such as "edge distance".
        name: String,
        /// Part of the resistance in tension that is left.
        tension: Ratio => Fraction,
        /// Part of the resistance in shear that is left.
        shear: Ratio => Fraction,
    }
}

table! {
    /// A round trunk or post, of sound wood. Roots and soil, which mostly go first, are not looked at.
    pub struct TreeEntry {
        /// Diameter at the foot.
        diameter: Length => Positive,
        /// Height of the sling above the foot.
        sling_height: Length => NonNegative,
        /// Strength of the wood in bending.
        strength: Pressure => Positive,
    }
}

table! {
    /// A boulder or block that holds by its weight.
    pub struct BlockEntry {
        /// Mass.
        mass: Mass => Positive,
        /// Friction between block and ground.
        friction: Ratio => NonNegative,
        /// Slope of the ground: positive where it falls away toward the pull; level unless given.
        slope: Option<Angle>,
        /// Centre of gravity behind the edge over which it would tip, along the ground.
        center_behind_edge: Length => Positive,
        /// Centre of gravity above the ground, square to it.
        center_height: Length => NonNegative,
        /// Height of the sling above the ground, square to it.
        pull_height: Length => NonNegative,
        /// Sling behind the tipping edge, along the ground; at the edge unless given.
        pull_behind_edge: Option<Length> => NonNegative,
    }
}

table! {
    /// One leg of an anchor. Give exactly one of `fixing` and `from`.
    pub struct LegEntry {
        /// Name of the leg.
        name: String,
        /// Where the leg is fixed.
        fixing: Option<[Length; 3]>,
        /// Knot or named fixing at which the leg begins.
        from: Option<String>,
        /// Knot at which it ends; the master point unless given.
        to: Option<String>,
        /// Rest length; the distance between its ends unless given.
        rest_length: Option<Length> => Positive,
        /// How much longer than that distance it is: a backup with slack. Give this or the rest length.
        slack: Option<Length> => NonNegative,
        /// Stiffness of its cord or sling. Give this or the cordage.
        stiffness: Option<Stiffness> => Positive,
        /// Cordage of the leg.
        cordage: Option<String>,
        /// Strands of that cordage side by side; one unless given.
        strands: Option<u32>,
        /// Strength of the leg, with its fixing if that has no strength of its own.
        strength: Force => Positive,
        /// Reductions of that strength.
        factor: Vec<FactorEntry>,
        /// What else is in the leg, one behind the other: connectors, hanger, a further sling.
        part: Vec<LegPartEntry>,
        /// Cordage wound around the fixing, to bring.
        wraps: Option<Length> => NonNegative,
        /// Cordage of knots and tails, to bring.
        tails: Option<Length> => NonNegative,
    }
}

table! {
    /// A connector, a hanger or a further sling of a leg.
    pub struct LegPartEntry {
        /// Name of the part.
        name: String,
        /// Strength in the direction of load.
        strength: Force => Positive,
        /// Reductions of that strength.
        factor: Vec<FactorEntry>,
        /// How much of the leg it takes up; nothing unless given.
        length: Option<Length> => Positive,
        /// Stiffness; it does not give unless this or a cordage is given.
        stiffness: Option<Stiffness> => Positive,
        /// Cordage of the part, which needs a length.
        cordage: Option<String>,
        /// Strands of that cordage side by side; one unless given.
        strands: Option<u32>,
        /// Kind, by which spares are counted and the inventory is searched; the name unless given.
        kind: Option<String>,
        /// Mass, where it is not cut from a cordage.
        mass: Option<Mass> => NonNegative,
    }
}

/// To what a leg leads.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::rig) enum LegEnd {
    /// What does not move.
    Fixed,
    /// A knot, by its number.
    Knot(usize),
    /// The master point.
    Master,
}

impl AnchorEntry {
    /// What a leg begins at and what it leads to; none where the document names what is not there.
    pub(in crate::rig) fn way(&self, leg: &LegEntry) -> Option<[LegEnd; 2]> {
        let knot = |name: &String| self.knot.iter().position(|knot| knot.name == *name);
        let fixed = |name: &String| self.fixing.iter().any(|fixing| fixing.name == *name);
        let from = match &leg.from {
            None => LegEnd::Fixed,
            Some(name) if fixed(name) => LegEnd::Fixed,
            Some(name) => LegEnd::Knot(knot(name)?),
        };
        let to = match &leg.to {
            None => LegEnd::Master,
            Some(name) => LegEnd::Knot(knot(name)?),
        };
        Some([from, to])
    }

    /// Place of a knot or a named fixing.
    fn place(&self, name: &str) -> Option<[Length; 3]> {
        let knots = self.knot.iter().map(|knot| (&knot.name, knot.position));
        let fixings = self.fixing.iter().map(|fixing| (&fixing.name, fixing.position));
        knots.chain(fixings).find(|(known, _)| *known == name).map(|(_, place)| place)
    }

    /// Where a leg begins and where it ends; none where the document does not say.
    pub(in crate::rig) fn ends(&self, leg: &LegEntry) -> Option<[[Length; 3]; 2]> {
        let begin = leg.fixing.or_else(|| self.place(leg.from.as_ref()?))?;
        let end = leg.to.as_ref().map_or(Some(self.position), |to| self.place(to))?;
        Some([begin, end])
    }

    /// Rest length of a leg; none where the document does not say where it leads.
    pub(in crate::rig) fn rest_length(&self, leg: &LegEntry) -> Option<Length> {
        if leg.rest_length.is_some() {
            return leg.rest_length;
        }
        let [begin, end] = self.ends(leg)?;
        let [x, y, z] = [0, 1, 2].map(|i| end[i].si() - begin[i].si());
        let slack_m = leg.slack.map_or(0.0, Quantity::si);
        Some(Length::from_si(x.hypot(y).hypot(z) + slack_m))
    }
}
