//! What to bring: pieces by side, spares and bags.

mod bags;
mod check;
mod cuts;
mod inventory;
mod pieces;

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

pub use bags::{BagThing, KitBag};
pub(super) use check::word;
pub use check::{KitCheck, NeedCheck, kit_check};
pub use cuts::{CutFrom, CutPiece};

use super::result::Plan;
use crate::quantity::{Force, Length, Mass, MaybeText, Quantity};
use crate::rig::{Rig, RigError, Side};

/// What to bring.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct KitList {
    /// Things to cut and to bring; spares are things of their own.
    pub pieces: Vec<KitPiece>,
    /// The same in bags.
    pub bags: Vec<KitBag>,
    /// The rule by which spares were added.
    pub spares_rule: String,
    /// What is not known.
    pub notes: Vec<String>,
}

/// A thing to bring, or several equal ones.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct KitPiece {
    /// Name.
    pub name: String,
    /// Name of the cordage that it is cut from, or kind of gear.
    pub kind: String,
    /// Whether it is cut from cordage.
    pub cut: bool,
    /// Side where it is needed.
    pub side: Side,
    /// How many.
    pub count: u32,
    /// Length of one.
    #[serde(with = "MaybeText::<Length>", default)]
    pub length: Option<Length>,
    /// What the length is made up of.
    pub made_of: String,
    /// Mass of one.
    #[serde(with = "MaybeText::<Mass>", default)]
    pub mass: Option<Mass>,
    /// Strength that one must have.
    #[serde(with = "MaybeText::<Force>", default)]
    pub strength: Option<Force>,
    /// Key of the document that it comes from.
    pub from: String,
}

impl KitList {
    /// Mass of what goes to a side.
    #[must_use]
    pub fn mass(&self, side: Side) -> Mass {
        let here = self.pieces.iter().filter(|piece| piece.side == side);
        let each = here.map(|p| f64::from(p.count) * p.mass.map_or(0.0, Quantity::si));
        Mass::from_si(each.sum())
    }
}

/// What to cut, bring and send to the far side, Eq. (K1) to (K7): it is `plan.kit`.
///
/// # Errors
/// [`RigError::Unsolved`] if a side needs more than 1000 bags.
///
/// # Example
/// ```
/// use tautwork::quantity::ReadLength;
/// let rig = tautwork::rig::parse(include_str!("../../../../../../examples/kestrel-gap.toml"))?;
/// let plan = tautwork::rig::plan(&rig)?;
/// let kit = tautwork::rig::kit_list(&rig, &plan)?;
/// let rope = kit.pieces.iter().find(|piece| piece.name == "left jump rope").unwrap();
/// // 72 m with 2.4 m in knots, 1 m in tails and 0.3 m for the error of marking.
/// assert!((rope.length.unwrap().in_meters() - 75.7).abs() < 1e-9);
/// # Ok::<(), tautwork::rig::RigError>(())
/// ```
pub fn kit_list(rig: &Rig, plan: &Plan) -> Result<KitList, RigError> {
    let mut pieces = pieces::pieces(rig, plan)?;
    let spares = spares(rig, &pieces);
    pieces.extend(spares);
    let limit = rig.kit.as_ref().and_then(|kit| kit.bag_mass);
    let mut bags = Vec::new();
    for side in [Side::Near, Side::Far] {
        bags.extend(bags::pack(side, &pieces, limit)?);
    }
    let mut notes = Vec::new();
    let unknown: Vec<_> =
        pieces.iter().filter(|p| p.mass.is_none()).map(|p| p.name.as_str()).collect();
    if !unknown.is_empty() {
        notes.push(format!("No mass is given for {}: bags are heavier.", unknown.join(", ")));
    }
    if plan.haul.is_some() {
        notes.push(
            "Rope grabs, progress captures and slings of the haul are not in the list unless the \
             document names them as items of the kit."
                .to_owned(),
        );
    }
    Ok(KitList { pieces, bags, spares_rule: rule(rig), notes })
}

/// The spares rule in words.
fn rule(rig: &Rig) -> String {
    let kit = rig.kit.as_ref();
    let gear = kit.and_then(|k| k.spare_gear_every);
    let rope = kit.and_then(|k| k.spare_rope_every);
    let one = |n: Option<u32>, what: &str, of: &str| match n {
        Some(1) => format!("one spare for each {what}"),
        Some(n) => format!("one spare {what} for every {n} of {of}, or part of {n}"),
        None => format!("no spare {what}"),
    };
    format!(
        "Spares: {}; {}. The numbers are the rigger's: common practice, no source.",
        one(gear, "piece of gear", "its kind"),
        one(rope, "jump rope", "its cordage")
    )
}

/// Spares by kind, Eq. (K6).
fn spares(rig: &Rig, pieces: &[KitPiece]) -> Vec<KitPiece> {
    let Some(kit) = &rig.kit else { return Vec::new() };
    let mut kinds: BTreeMap<(&str, bool), Vec<&KitPiece>> = BTreeMap::new();
    // Poles and guys are not things of which one brings one more.
    let counts = |p: &&KitPiece| {
        if p.cut { p.from.starts_with("jump.rope") } else { !p.from.starts_with("frame") }
    };
    for piece in pieces.iter().filter(counts) {
        kinds.entry((&piece.kind, piece.cut)).or_default().push(piece);
    }
    let mut spares = Vec::new();
    for ((kind, cut), list) in kinds {
        let every = if cut { kit.spare_rope_every } else { kit.spare_gear_every };
        let Some(every) = every else { continue };
        let count: u32 = list.iter().map(|p| p.count).fold(0, u32::saturating_add);
        let all_far = list.iter().all(|p| p.side == Side::Far);
        let length = greatest(&list, |p| p.length);
        spares.push(KitPiece {
            name: format!("spare {kind}"),
            kind: kind.to_owned(),
            cut,
            side: if all_far { Side::Far } else { Side::Near },
            count: count.div_ceil(every.max(1)),
            length,
            made_of: length.map_or("", |_| "the longest of its kind").to_owned(),
            mass: greatest(&list, |p| p.mass),
            strength: greatest(&list, |p| p.strength),
            from: if cut { "kit.spare_rope_every" } else { "kit.spare_gear_every" }.to_owned(),
        });
    }
    spares
}

fn greatest<Q: Quantity>(list: &[&KitPiece], of: impl Fn(&KitPiece) -> Option<Q>) -> Option<Q> {
    list.iter().filter_map(|p| of(p)).max_by(|a, b| a.si().total_cmp(&b.si()))
}

/// A mass or nothing, as a text of two decimals.
pub(super) fn show_mass(mass: Option<Mass>) -> String {
    mass.map_or("–".to_owned(), |m| crate::quantity::show(m, "kg", 2))
}

#[cfg(test)]
mod tests;
