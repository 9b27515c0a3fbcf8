//! Checks of the stops of the ring.

use super::{cordage_reference, reference};
use crate::rig::Rig;
use crate::rig::read::Reader;

pub(super) fn check_stops(rig: &Rig, reader: &mut Reader) {
    let lines: Vec<_> = rig.line.iter().map(|l| l.name.as_str()).collect();
    for (i, stop) in rig.stop.iter().enumerate() {
        let path = format!("stop[{i}]");
        reference(reader, &format!("{path}.line"), &stop.line, &lines);
        cordage_reference(rig, reader, &format!("{path}.cordage"), &stop.cordage);
        let Some(cordage) = rig.cordage.get(&stop.cordage) else { continue };
        let s = &cordage.stretch;
        if s.table.is_some()
            || s.en892_static_elongation.is_some() != s.en892_impact_force.is_some()
        {
            let message = "a stop needs a cordage of one rigidity, or with both figures of EN 892";
            reader.mistake_at(&format!("{path}.cordage"), message);
        }
    }
}
