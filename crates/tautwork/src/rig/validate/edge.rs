//! Checks of edges and pads.

use super::reference;
use crate::rig::read::Reader;
use crate::rig::{HAUL_ROPE, Rig};

pub(super) fn check_edges(rig: &Rig, reader: &mut Reader) {
    let mut known = vec![HAUL_ROPE];
    known.extend(rig.line.iter().map(|l| l.name.as_str()));
    known.extend(rig.jump.rope.iter().map(|r| r.name.as_str()));
    for (i, edge) in rig.edge.iter().enumerate() {
        let mut padded: Vec<&str> = Vec::new();
        for (j, pad) in edge.pad.iter().enumerate() {
            let path = format!("edge[{i}].pad[{j}].under");
            if pad.under.is_empty() {
                reader.mistake_at(&path, "name at least one line or rope that lies on the pad");
            }
            for (k, name) in pad.under.iter().enumerate() {
                let path = format!("{path}[{k}]");
                reference(reader, &path, name, &known);
                if name == HAUL_ROPE && rig.haul.is_none() {
                    reader.mistake_at(&path, "there is no [haul]");
                }
                if padded.contains(&name.as_str()) {
                    let message = format!("\"{name}\" lies on another pad of this edge already");
                    reader.mistake_at(&path, message);
                }
                padded.push(name);
            }
        }
    }
}
