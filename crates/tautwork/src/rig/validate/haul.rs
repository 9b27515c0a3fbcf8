//! Checks of the way back up, the frame and the rescue.

use super::{cordage_reference, reference};
use crate::rig::read::Reader;
use crate::rig::{PoleEntry, Rig};

pub(super) fn check_haul(rig: &Rig, reader: &mut Reader) {
    let Some(haul) = &rig.haul else { return };
    cordage_reference(rig, reader, "haul.cordage", &haul.cordage);
    if haul.pulley.is_some() && rig.frame.is_some() {
        reader.mistake_at("haul.pulley", "the frame gives the pulley: leave this key out");
    }
    match (&haul.system, &haul.network) {
        (Some(_), Some(_)) => {
            reader.mistake_at("haul.network", "the system is given too: leave one of them out");
        }
        (None, None) => {
            let message = "give the system of the haul, such as \"3:1\", or a [haul.network]";
            reader.mistake_at("haul.system", message);
        }
        _ => {}
    }
    if haul.pulley.is_none() && rig.frame.is_none() {
        reader.mistake_at("haul", "give the pulley of the haul rope, or a [frame]");
    }
    if let Some(frame) = &rig.frame
        && frame.leg.is_empty()
    {
        reader.mistake_at("frame.leg", "the frame has no leg: add a [[frame.leg]]");
    }
    for (i, leg) in rig.frame.iter().flat_map(|f| f.leg.iter().enumerate()) {
        let path = format!("frame.leg[{i}]");
        if leg.pretension.is_some() {
            reader.mistake_at(&format!("{path}.pretension"), "only guys have a pretension");
        }
        if let Some(pole) = &leg.pole {
            check_pole(pole, &format!("{path}.pole"), reader);
        }
    }
    for (i, guy) in rig.frame.iter().flat_map(|f| f.guy.iter().enumerate()) {
        let legs_only = [
            ("pole", guy.pole.is_some()),
            ("mass", guy.mass.is_some()),
            ("ground_normal", guy.ground_normal.is_some()),
        ];
        for (key, given) in legs_only {
            if given {
                let message = format!("only legs have a {key}");
                reader.mistake_at(&format!("frame.guy[{i}].{key}"), message);
            }
        }
    }
}

/// The feet that a hobble passes.
pub(super) fn check_hobble(rig: &Rig, reader: &mut Reader) {
    let Some(frame) = &rig.frame else { return };
    let Some(hobble) = &frame.hobble else { return };
    let legs: Vec<&str> = frame.leg.iter().map(|leg| leg.name.as_str()).collect();
    for (i, name) in hobble.round.iter().enumerate() {
        reference(reader, &format!("frame.hobble.round[{i}]"), name, &legs);
    }
    if hobble.round.len() < 2 {
        reader.mistake_at("frame.hobble.round", "a hobble ties at least two feet");
    }
}

pub(super) fn check_rescue(rig: &Rig, reader: &mut Reader) {
    let Some(lowering) = rig.rescue.as_ref().and_then(|r| r.lowering.as_ref()) else { return };
    cordage_reference(rig, reader, "rescue.lowering.cordage", &lowering.cordage);
}

fn check_pole(pole: &PoleEntry, path: &str, reader: &mut Reader) {
    if pole.wall.is_some() && pole.thin_end.is_some() {
        reader.mistake_at(path, "give a thin end or a wall, not both");
    }
    if pole.thin_end.is_some_and(|thin| thin > pole.diameter) {
        reader.mistake_at(&format!("{path}.thin_end"), "the thin end is thicker than the pole");
    }
    if pole.wall.is_some_and(|wall| wall + wall > pole.diameter) {
        let message = "the wall is thicker than half of the diameter";
        reader.mistake_at(&format!("{path}.wall"), message);
    }
}
