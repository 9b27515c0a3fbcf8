//! Anchors under their greatest pull.

use serde::{Deserialize, Serialize};

use crate::quantity::{Force, Length, MaybeText, Ratio, Stiffness, Text, Triple};

/// An anchor under its greatest pull.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct AnchorPlan {
    /// Name.
    pub name: String,
    /// Greatest pull of all lines together: along the span, to the left, up.
    #[serde(with = "Triple::<Force>")]
    pub pull: [Force; 3],
    /// Size of that pull.
    #[serde(with = "Text::<Force>")]
    pub pull_size: Force,
    /// Which part of the plan gave it.
    pub from: String,
    /// Legs, if the anchor has any.
    pub legs: Vec<LegPlan>,
    /// Knots between the fixings and the master point.
    pub knots: Vec<KnotPlan>,
    /// Fixings with a name.
    pub fixings: Vec<FixingPlan>,
    /// Least ratio of derated strength to load of its legs and fixings.
    #[serde(with = "MaybeText::<Ratio>")]
    pub factor: Option<Ratio>,
    /// Where that is.
    pub weakest: Option<String>,
    /// Which losses, of one part and of two, leave a path that holds the pull, in words.
    pub redundancy: String,
    /// The same pull with each part lost; parts in series, whose loss has one and the same effect, share an entry.
    pub lost: Vec<AnchorLossPlan>,
    /// The same with two parts lost at one instant.
    pub pairs: Vec<AnchorLossPlan>,
}

/// One leg under the pull.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LegPlan {
    /// Name.
    pub name: String,
    /// Tension.
    #[serde(with = "Text::<Force>")]
    pub tension: Force,
    /// Share of the pull that it hands to its fixing; none for a leg that begins at a knot.
    #[serde(with = "MaybeText::<Ratio>")]
    pub share: Option<Ratio>,
    /// Derated strength of the part that governs over tension; none where the leg is slack.
    #[serde(with = "MaybeText::<Ratio>")]
    pub factor: Option<Ratio>,
    /// That part: the cordage of the leg, or a connector, hanger or further sling in it.
    pub governed_by: Option<String>,
}

/// One knot under the pull.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct KnotPlan {
    /// Name.
    pub name: String,
    /// Where it is then.
    #[serde(with = "Triple::<Length>")]
    pub position: [Length; 3],
    /// Whether all of its legs are slack.
    pub loose: bool,
}

/// One fixing under the pull.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct FixingPlan {
    /// Name.
    pub name: String,
    /// Force of its legs on it: along the span, to the left, up.
    #[serde(with = "Triple::<Force>")]
    pub force: [Force; 3],
    /// Size of that force.
    #[serde(with = "Text::<Force>")]
    pub size: Force,
    /// What the model of losses takes as its strength over that: the derated strength, where one is given, and what
    /// it holds as bolt, tree or block along its legs, where it says that it is one.
    #[serde(with = "MaybeText::<Ratio>")]
    pub factor: Option<Ratio>,
    /// How it holds that force, where the document says what it is and anything pulls.
    pub hold: Option<FixingHold>,
}

/// What a fixing is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FixingKind {
    /// A bolt in tension and shear.
    Bolt,
    /// A tree or post that bends.
    Tree,
    /// A boulder or block that slides or tips.
    Block,
}

impl FixingKind {
    /// The word for it.
    pub(in crate::rig::plan) fn word(self) -> &'static str {
        match self {
            Self::Bolt => "bolt",
            Self::Tree => "tree",
            Self::Block => "block",
        }
    }
}

/// How a bolt, a tree or a block holds a force.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct FixingHold {
    /// What it is.
    pub kind: FixingKind,
    /// Of a bolt: force along it, out of the rock.
    #[serde(with = "MaybeText::<Force>")]
    pub tension: Option<Force>,
    /// Of a bolt: force across it.
    #[serde(with = "MaybeText::<Force>")]
    pub shear: Option<Force>,
    /// By how much the force may grow to the limit; none if it may grow without one.
    #[serde(with = "MaybeText::<Ratio>")]
    pub factor: Option<Ratio>,
    /// Force in this direction at which the limit is reached.
    #[serde(with = "MaybeText::<Force>")]
    pub limit: Option<Force>,
    /// Forces, limits and the rule, in words; or why there is no answer.
    pub how: String,
    /// Whether the model has an answer.
    pub answered: bool,
}

/// An anchor after the loss of one part, or of two, under the greatest pull.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct AnchorLossPlan {
    /// Parts whose loss has this effect; of a pair, one name for each of the two.
    pub parts: Vec<String>,
    /// Way of the master point along the pull; none if nothing holds.
    #[serde(with = "MaybeText::<Length>")]
    pub extension: Option<Length>,
    /// Greatest tension of a remaining leg at rest.
    #[serde(with = "MaybeText::<Force>")]
    pub worst_tension: Option<Force>,
    /// Greatest tension of a remaining leg while the master point swings to its new place, by energy.
    #[serde(with = "MaybeText::<Force>")]
    pub peak_tension: Option<Force>,
    /// The same if the pull stayed what it is: the upper bound. None where that was taken, since the lines have no
    /// answer.
    #[serde(with = "MaybeText::<Force>")]
    pub peak_if_pull_stays: Option<Force>,
    /// How the pull falls with the way of the master point: stiffness of the lines over all of it.
    #[serde(with = "MaybeText::<Stiffness>")]
    pub line_stiffness: Option<Stiffness>,
    /// Leg with the greatest tension at rest.
    pub worst_leg: Option<String>,
    /// Least ratio of derated strength to load on that swing.
    #[serde(with = "MaybeText::<Ratio>")]
    pub factor: Option<Ratio>,
    /// Where that is.
    pub weakest: Option<String>,
    /// Whether a path of legs holds the pull then, the jerk of the loss included.
    pub holds: bool,
    /// In plain words.
    pub verdict: String,
}
