//! Fixings under the force of their legs, as `anchor` knows bolts, trees and blocks.

use crate::anchor::{
    Block, BoltLimits, BoltReduction, FirstToGo, InteractionRule, Trunk, block_hold, bolt_use,
    tree_stress,
};
use crate::quantity::{Angle, Force, Length, Quantity, Ratio, Words, show};
use crate::rig::plan::lines::size;
use crate::rig::plan::result::{FixingHold, FixingKind};
use crate::rig::{AnchorEntry, BlockEntry, BoltEntry, BoltRule, FixingEntry, LegEntry, TreeEntry};

/// How a fixing holds a force, which is not zero; none where the document does not say what it is.
pub(super) fn hold(fixing: &FixingEntry, force: [Force; 3]) -> Option<FixingHold> {
    let size = Force::from_si(size(&force));
    let (kind, answer) = if let Some(bolt) = &fixing.bolt {
        (FixingKind::Bolt, of_bolt(bolt, force))
    } else if let Some(tree) = &fixing.tree {
        (FixingKind::Tree, of_tree(tree, size, above_level(force)))
    } else if let Some(block) = &fixing.block {
        (FixingKind::Block, of_block(block, size, above_level(force)))
    } else {
        return None;
    };
    let hold = FixingHold {
        kind,
        tension: None,
        shear: None,
        factor: None,
        limit: None,
        how: String::new(),
        answered: false,
    };
    Some(match answer {
        Ok(known) => FixingHold {
            tension: known.tension,
            shear: known.shear,
            factor: known.factor,
            limit: known.factor.map(|factor| size * factor.si()),
            how: known.how,
            answered: true,
            ..hold
        },
        Err(problem) => FixingHold { how: format!("no answer: {problem}"), ..hold },
    })
}

/// What a model says of a fixing.
#[derive(Default)]
struct Known {
    tension: Option<Force>,
    shear: Option<Force>,
    factor: Option<Ratio>,
    how: String,
}

/// What a fixing holds along its legs as they lie without load, for losses: there its force may come from anywhere
/// between them.
pub(super) fn limit(anchor: &AnchorEntry, fixing: &FixingEntry) -> Option<Force> {
    let legs = anchor.leg.iter().filter(|leg| leg.from.as_ref() == Some(&fixing.name));
    let mut sum = [0.0; 3];
    for unit in legs.filter_map(|leg| along(anchor, leg)) {
        sum = [0, 1, 2].map(|i| sum[i] + unit[i]);
    }
    let length = sum[0].hypot(sum[1]).hypot(sum[2]);
    let one = sum.map(|c| Force::from_si(1e3 * c / length));
    hold(fixing, one).and_then(|hold| hold.limit).filter(|limit| limit.si() > 0.0)
}

fn along(anchor: &AnchorEntry, leg: &LegEntry) -> Option<[f64; 3]> {
    let [begin, end] = anchor.ends(leg)?;
    let way = [0, 1, 2].map(|i| end[i].si() - begin[i].si());
    let length = way[0].hypot(way[1]).hypot(way[2]);
    Some(way.map(|c| c / length))
}

/// Angle of a force above the level.
fn above_level(force: [Force; 3]) -> Angle {
    let [x, y, z] = force.map(Quantity::si);
    Angle::from_si(z.atan2(x.hypot(y)))
}

fn of_bolt(bolt: &BoltEntry, force: [Force; 3]) -> Result<Known, String> {
    let reduction = |entry: &crate::rig::BoltReductionEntry| BoltReduction {
        name: entry.name.clone(),
        tension: entry.tension,
        shear: entry.shear,
    };
    let limits = BoltLimits {
        tension: bolt.tension,
        shear: bolt.shear,
        rule: match bolt.rule {
            BoltRule::Linear => InteractionRule::Linear,
            BoltRule::ThreeHalves => InteractionRule::ThreeHalves,
            BoltRule::FiveThirds => InteractionRule::FiveThirds,
            BoltRule::Quadratic => InteractionRule::Quadratic,
            BoltRule::TriLinear => InteractionRule::TriLinear,
        },
        reductions: bolt.reduction.iter().map(reduction).collect(),
    };
    let axis = bolt.out_of_rock.map(Quantity::si);
    let used = bolt_use(&limits, axis, force).map_err(|e| e.to_string())?;
    let pressed = if used.compression.si() > 0.0 { ", pressed into the rock" } else { "" };
    let how = format!(
        "tension {} of {}, shear {} of {}{pressed}; rule: {}",
        show(used.tension, "kN", 1),
        show(used.tension_resistance, "kN", 1),
        show(used.shear, "kN", 1),
        show(used.shear_resistance, "kN", 1),
        used.source,
    );
    let (tension, shear) = (Some(used.tension), Some(used.shear));
    Ok(Known { tension, shear, factor: used.scale, how })
}

fn of_tree(tree: &TreeEntry, pull: Force, pull_angle: Angle) -> Result<Known, String> {
    let trunk = Trunk {
        diameter: tree.diameter,
        sling_height: tree.sling_height,
        pull,
        pull_angle,
        strength: tree.strength,
    };
    let stress = tree_stress(&trunk).map_err(|e| e.to_string())?;
    let how = format!(
        "{} at the foot of {}; roots and soil are not looked at",
        show(stress.greatest, "MPa", 1),
        show(tree.strength, "MPa", 1)
    );
    Ok(Known { factor: Some(stress.factor), how, ..Known::default() })
}

fn of_block(block: &BlockEntry, pull: Force, pull_angle: Angle) -> Result<Known, String> {
    let model = Block {
        mass: block.mass,
        friction: block.friction,
        slope: block.slope.unwrap_or(0.0.degrees()),
        center_behind_edge: block.center_behind_edge,
        center_height: block.center_height,
        pull,
        pull_angle,
        pull_height: block.pull_height,
        pull_behind_edge: block.pull_behind_edge.unwrap_or(Length::from_si(0.0)),
    };
    let hold = block_hold(&model).map_err(|e| e.to_string())?;
    let at = |force: Option<Force>, verb: &str| match force {
        Some(force) => format!("{verb} at {}", show(force, "kN", 1)),
        None => format!("never {verb}"),
    };
    let first = match hold.first {
        Some(FirstToGo::Sliding) => ", slides first",
        Some(FirstToGo::Tipping) => ", tips first",
        None => "",
    };
    let how = format!("{}, {}{first}", at(hold.sliding, "slides"), at(hold.tipping, "tips"));
    Ok(Known { factor: hold.factor, how, ..Known::default() })
}
