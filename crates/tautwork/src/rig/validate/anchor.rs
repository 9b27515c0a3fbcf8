//! Checks of anchors: where their legs lead, and what their knots hang on.

use super::{cordage_reference, named, reference, unique};
use crate::quantity::Quantity;
use crate::rig::document::LegEnd;
use crate::rig::read::Reader;
use crate::rig::{AnchorEntry, FixingEntry, LegEntry, Rig};

/// Most legs, knots or fixings of one anchor, as the model takes them.
const MOST: usize = 200;

pub(super) fn check_anchor(rig: &Rig, anchor: &AnchorEntry, path: &str, reader: &mut Reader) {
    if anchor.strength.is_some() != anchor.leg.is_empty() {
        reader.mistake_at(path, "give either strength or legs");
    }
    let counts =
        [("leg", anchor.leg.len()), ("knot", anchor.knot.len()), ("fixing", anchor.fixing.len())];
    for (key, count) in counts {
        if count > MOST {
            let message = format!("the list has {count} items; an anchor takes at most {MOST}");
            reader.mistake_at(&format!("{path}.{key}"), message);
        }
    }
    if counts.iter().any(|(_, count)| *count > MOST) {
        return;
    }
    check_names(anchor, path, reader);
    for (i, leg) in anchor.leg.iter().enumerate() {
        let at = format!("{path}.leg[{i}]");
        check_way(anchor, leg, &at, reader);
        check_chain(rig, anchor, leg, &at, reader);
    }
    check_net(anchor, path, reader);
    for (i, fixing) in anchor.fixing.iter().enumerate() {
        check_fixing(fixing, &format!("{path}.fixing[{i}]"), reader);
    }
}

/// What a fixing is.
fn check_fixing(fixing: &FixingEntry, at: &str, reader: &mut Reader) {
    let kinds = [fixing.bolt.is_some(), fixing.tree.is_some(), fixing.block.is_some()];
    if kinds.iter().filter(|given| **given).count() > 1 {
        reader.mistake_at(at, "a fixing is one of bolt, tree and block: leave the others out");
    }
    if let Some(bolt) = &fixing.bolt
        && bolt.out_of_rock.iter().all(|c| c.si() == 0.0)
    {
        let message = "all three numbers are zero: this is no direction";
        reader.mistake_at(&format!("{at}.bolt.out_of_rock"), message);
    }
    if let Some(slope) = fixing.block.as_ref().and_then(|block| block.slope)
        && slope.si().abs() >= core::f64::consts::FRAC_PI_2
    {
        let message = "the ground must be flatter than upright: between -90 deg and 90 deg";
        reader.mistake_at(&format!("{at}.block.slope"), message);
    }
}

/// Legs, knots and fixings share one set of names: losses and legs refer to any of them.
fn check_names(anchor: &AnchorEntry, path: &str, reader: &mut Reader) {
    let mut names = named(&format!("{path}.leg"), &anchor.leg, |l| &l.name);
    names.extend(named(&format!("{path}.knot"), &anchor.knot, |k| &k.name));
    names.extend(named(&format!("{path}.fixing"), &anchor.fixing, |f| &f.name));
    unique(reader, &names, &[]);
    for (i, leg) in anchor.leg.iter().enumerate() {
        unique(reader, &named(&format!("{path}.leg[{i}].part"), &leg.part, |p| &p.name), &[]);
    }
}

/// Where a leg begins and ends.
fn check_way(anchor: &AnchorEntry, leg: &LegEntry, at: &str, reader: &mut Reader) {
    if leg.fixing.is_some() == leg.from.is_some() {
        let message = "give either fixing, the place where the leg is fixed, or from, the knot or the \
                       named fixing at which it begins";
        reader.mistake_at(at, message);
    }
    let knots: Vec<&str> = anchor.knot.iter().map(|knot| knot.name.as_str()).collect();
    let mut begins = knots.clone();
    begins.extend(anchor.fixing.iter().map(|fixing| fixing.name.as_str()));
    let known = |reader: &mut Reader, key: &str, name: &Option<String>, known: &[&str]| {
        let Some(name) = name.as_ref().filter(|name| !name.is_empty()) else { return };
        let path = format!("{at}.{key}");
        if known.is_empty() {
            reader.mistake_at(&path, format!("the anchor has no knot \"{name}\": add it"));
        } else {
            reference(reader, &path, name, known);
        }
    };
    known(reader, "from", &leg.from, &begins);
    known(reader, "to", &leg.to, &knots);
    if let Some([begin, end]) = anchor.ends(leg)
        && begin == end
    {
        let (key, message) = match (&leg.from, &leg.to) {
            (None, None) => ("fixing", "the fixing is at the master point itself"),
            (Some(from), Some(to)) if from == to => ("to", "the leg leads from a knot to itself"),
            _ => ("", "the leg ends where it begins: both ends are at one place"),
        };
        reader.mistake_at(format!("{at}.{key}").trim_end_matches('.'), message);
    }
}

/// What a leg is made of.
fn check_chain(rig: &Rig, anchor: &AnchorEntry, leg: &LegEntry, at: &str, reader: &mut Reader) {
    if leg.stiffness.is_some() == leg.cordage.is_some() {
        reader.mistake_at(at, "give either stiffness or cordage");
    }
    if let Some(name) = &leg.cordage {
        cordage_reference(rig, reader, &format!("{at}.cordage"), name);
    }
    if leg.rest_length.is_some() && leg.slack.is_some() {
        let message = "the rest length is given too: leave one of them out";
        reader.mistake_at(&format!("{at}.slack"), message);
    }
    for (j, part) in leg.part.iter().enumerate() {
        let at = format!("{at}.part[{j}]");
        if let Some(name) = &part.cordage {
            cordage_reference(rig, reader, &format!("{at}.cordage"), name);
            if part.stiffness.is_some() {
                reader.mistake_at(&at, "give either stiffness or cordage");
            }
            if part.length.is_none() {
                reader.mistake_at(&at, "what is cut from a cordage needs a length");
            }
        }
        for (key, given) in [("mass", part.mass.is_some()), ("kind", part.kind.is_some())] {
            if given && part.cordage.is_some() {
                let message = format!("the cordage gives the {key}: leave this key out");
                reader.mistake_at(&format!("{at}.{key}"), message);
            }
        }
    }
    let parts_m: f64 = leg.part.iter().filter_map(|p| p.length).map(Quantity::si).sum();
    if let Some(rest) = anchor.rest_length(leg)
        && parts_m >= rest.si()
        && parts_m > 0.0
    {
        let message = "its parts are as long as the leg: nothing is left for its cord";
        reader.mistake_at(&format!("{at}.part"), message);
    }
}

/// What each knot is held by, where it leads, and loops.
fn check_net(anchor: &AnchorEntry, path: &str, reader: &mut Reader) {
    let ways: Vec<_> = anchor.leg.iter().filter_map(|leg| anchor.way(leg)).collect();
    let back: Vec<_> = ways.iter().map(|[from, to]| [*to, *from]).collect();
    let knots = anchor.knot.len();
    let held = reached(&ways, LegEnd::Fixed, knots);
    let leads_on = reached(&back, LegEnd::Master, knots);
    for (i, entry) in anchor.knot.iter().enumerate() {
        let at = format!("{path}.knot[{i}]");
        let name = &entry.name;
        // Legs lead to the first of two with one name.
        if anchor.knot[..i].iter().any(|knot| knot.name == *name) {
            continue;
        }
        if reached(&ways, LegEnd::Knot(i), knots)[i] {
            let message = format!(
                "legs lead in a loop from \"{name}\" back to it: a knot must not hang on itself"
            );
            reader.mistake_at(&at, message);
        } else if !held[i] {
            let message =
                format!("nothing holds \"{name}\": no way of legs leads to it from a fixing");
            reader.mistake_at(&at, message);
        } else if !leads_on[i] {
            let message = format!(
                "\"{name}\" is not reached: no way of legs leads from it to the master point"
            );
            reader.mistake_at(&at, message);
        }
    }
    for (i, fixing) in anchor.fixing.iter().enumerate() {
        if anchor.leg.iter().all(|leg| leg.from.as_ref() != Some(&fixing.name)) {
            let message = format!("no leg begins at \"{}\"", fixing.name);
            reader.mistake_at(&format!("{path}.fixing[{i}]"), message);
        }
    }
}

/// Knots to which ways lead on from a start.
fn reached(ways: &[[LegEnd; 2]], start: LegEnd, knots: usize) -> Vec<bool> {
    let mut seen = vec![false; knots];
    let mut next = vec![start];
    while let Some(at) = next.pop() {
        for [_, to] in ways.iter().filter(|[from, to]| *from == at && from != to) {
            if let LegEnd::Knot(knot) = *to
                && !std::mem::replace(&mut seen[knot], true)
            {
                next.push(*to);
            }
        }
    }
    seen
}
