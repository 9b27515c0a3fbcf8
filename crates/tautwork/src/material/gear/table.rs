//! The rows of [`gear_limits`](super::gear_limits).

use super::limits::Bound::{self, AtLeast, AtMost};
use super::limits::Certainty::{self, Memory, MemoryLow, PartlySeen, Seen};
use super::limits::GearKind;

/// A limit in its unit.
#[derive(Debug, Clone, Copy)]
pub(super) enum Value {
    Kilonewtons(f64),
    Ratio(f64),
    Meters(f64),
    Count(u32),
}

/// One limit as it is recorded.
#[derive(Debug)]
pub(super) struct Row {
    pub(super) key: &'static str,
    pub(super) standard: &'static str,
    /// Empty where the record has none.
    pub(super) edition: &'static str,
    pub(super) kind: GearKind,
    pub(super) what: &'static str,
    pub(super) bound: Bound,
    pub(super) value: Value,
    pub(super) certainty: Certainty,
    /// Whether it is what people call the strength of the piece.
    pub(super) rated: bool,
}

/// A row whose limit is the strength of the piece, on one line.
const fn strength(
    key: &'static str,
    (standard, edition): (&'static str, &'static str),
    kind: GearKind,
    what: &'static str,
    kilonewtons: f64,
    certainty: Certainty,
) -> Row {
    let (bound, value) = (AtLeast, Value::Kilonewtons(kilonewtons));
    Row { key, standard, edition, kind, what, bound, value, certainty, rated: true }
}

/// Any other row.
const fn other(
    key: &'static str,
    (standard, edition): (&'static str, &'static str),
    kind: GearKind,
    what: &'static str,
    (bound, value): (Bound, Value),
    certainty: Certainty,
) -> Row {
    Row { key, standard, edition, kind, what, bound, value, certainty, rated: false }
}

const EN564: (&str, &str) = ("EN 564", "2006, 2014");
const EN565: (&str, &str) = ("EN 565", "2017");
const EN565_OLDER: (&str, &str) = ("EN 565", "before 2017");
const EN566: (&str, &str) = ("EN 566", "");
const EN892_UIAA: (&str, &str) = ("EN 892, UIAA 101", "");
const EN892: (&str, &str) = ("EN 892", "");
const EN1891: (&str, &str) = ("EN 1891", "1998");
const NFPA: (&str, &str) = ("NFPA 1983, NFPA 2500", "2012, 2017; 2022");
const EN12275: (&str, &str) = ("EN 12275", "2013");
const EN362: (&str, &str) = ("EN 362", "");
const EN12277: (&str, &str) = ("EN 12277", "");
const EN361: (&str, &str) = ("EN 361", "");
const EN567: (&str, &str) = ("EN 567", "");
const EN959_UIAA: (&str, &str) = ("EN 959, UIAA 123", "");
const UIAA_123: (&str, &str) = ("UIAA 123", "2020");
const EN568: (&str, &str) = ("EN 568", "");
const EN569: (&str, &str) = ("EN 569", "");
const EN12276: (&str, &str) = ("EN 12276", "");
const EN12270: (&str, &str) = ("EN 12270", "");
const EN12278: (&str, &str) = ("EN 12278", "");
const UIAA_127: (&str, &str) = ("UIAA 127", "");
const EN354: (&str, &str) = ("EN 354", "");
const EN795: (&str, &str) = ("EN 795", "2012");
const CEN_TS_16415: (&str, &str) = ("CEN/TS 16415", "");
const EN958: (&str, &str) = ("EN 958", "2017");
const EN355_AND: (&str, &str) = ("EN 355, EN 353-2, EN 360", "");
const EN355: (&str, &str) = ("EN 355", "");
const EN13414_1: (&str, &str) = ("EN 13414-1", "2003");
const EN1492: (&str, &str) = ("EN 1492-1, EN 1492-2", "");

// One row a line, as in the printed tables.
#[rustfmt::skip]
pub(super) const ROWS: &[Row] = &[
    strength("en564_4mm", EN564, GearKind::AccessoryCord, "strength at 4 mm", 3.2, Seen),
    strength("en564_5mm", EN564, GearKind::AccessoryCord, "strength at 5 mm", 5.0, Seen),
    strength("en564_6mm", EN564, GearKind::AccessoryCord, "strength at 6 mm", 7.2, Seen),
    strength("en564_7mm", EN564, GearKind::AccessoryCord, "strength at 7 mm", 9.8, Seen),
    strength("en564_8mm", EN564, GearKind::AccessoryCord, "strength at 8 mm", 12.8, Seen),
    strength("en565", EN565, GearKind::Tape, "strength", 10.0, Seen),
    strength("en565_older", EN565_OLDER, GearKind::Tape, "strength for one marker thread", 5.0, Memory),
    strength("en566", EN566, GearKind::SewnSling, "strength", 22.0, Memory),
    other("en892_single_falls", EN892_UIAA, GearKind::DynamicRope, "single: falls held with 80 kg, one strand", (AtLeast, Value::Count(5)), Seen),
    other("en892_single_peak", EN892_UIAA, GearKind::DynamicRope, "single: force of the first fall with 80 kg, one strand", (AtMost, Value::Kilonewtons(12.0)), Seen),
    other("en892_single_static", EN892_UIAA, GearKind::DynamicRope, "single: static elongation", (AtMost, Value::Ratio(0.1)), Seen),
    other("en892_single_dynamic", EN892_UIAA, GearKind::DynamicRope, "single: dynamic elongation", (AtMost, Value::Ratio(0.4)), Seen),
    other("en892_half_falls", EN892_UIAA, GearKind::DynamicRope, "half: falls held with 55 kg, one strand", (AtLeast, Value::Count(5)), Seen),
    other("en892_half_peak", EN892_UIAA, GearKind::DynamicRope, "half: force of the first fall with 55 kg, one strand", (AtMost, Value::Kilonewtons(8.0)), Seen),
    other("en892_half_static", EN892_UIAA, GearKind::DynamicRope, "half: static elongation", (AtMost, Value::Ratio(0.12)), Seen),
    other("en892_half_dynamic", EN892_UIAA, GearKind::DynamicRope, "half: dynamic elongation", (AtMost, Value::Ratio(0.4)), Seen),
    other("en892_twin_falls", EN892_UIAA, GearKind::DynamicRope, "twin: falls held with 80 kg, two strands", (AtLeast, Value::Count(12)), Seen),
    other("en892_twin_peak", EN892_UIAA, GearKind::DynamicRope, "twin: force of the first fall with 80 kg, two strands", (AtMost, Value::Kilonewtons(12.0)), Seen),
    other("en892_twin_static", EN892_UIAA, GearKind::DynamicRope, "twin: static elongation", (AtMost, Value::Ratio(0.1)), Seen),
    other("en892_twin_dynamic", EN892_UIAA, GearKind::DynamicRope, "twin: dynamic elongation", (AtMost, Value::Ratio(0.4)), Seen),
    other("en892_single_slip", EN892_UIAA, GearKind::DynamicRope, "single: slip of the sheath", (AtMost, Value::Meters(0.02)), Seen),
    other("en892_knotability", EN892, GearKind::DynamicRope, "knotability", (AtMost, Value::Ratio(1.1)), Memory),
    strength("en1891_a", EN1891, GearKind::LowStretchRope, "type A: static strength", 22.0, Seen),
    other("en1891_a_ends", EN1891, GearKind::LowStretchRope, "type A: strength with terminations, 3 min", (AtLeast, Value::Kilonewtons(15.0)), Seen),
    other("en1891_a_peak", EN1891, GearKind::LowStretchRope, "type A: force of 100 kg at fall factor 0.3", (AtMost, Value::Kilonewtons(6.0)), Seen),
    other("en1891_a_falls", EN1891, GearKind::LowStretchRope, "type A: falls of 100 kg at fall factor 1", (AtLeast, Value::Count(5)), Seen),
    other("en1891_a_elongation", EN1891, GearKind::LowStretchRope, "type A: elongation from 50 kg to 150 kg", (AtMost, Value::Ratio(0.05)), Seen),
    strength("en1891_b", EN1891, GearKind::LowStretchRope, "type B: static strength", 18.0, Seen),
    other("en1891_b_ends", EN1891, GearKind::LowStretchRope, "type B: strength with terminations, 3 min", (AtLeast, Value::Kilonewtons(12.0)), Seen),
    other("en1891_b_peak", EN1891, GearKind::LowStretchRope, "type B: force of 80 kg at fall factor 0.3", (AtMost, Value::Kilonewtons(6.0)), Seen),
    other("en1891_b_falls", EN1891, GearKind::LowStretchRope, "type B: falls of 80 kg at fall factor 1", (AtLeast, Value::Count(5)), Seen),
    other("en1891_b_elongation", EN1891, GearKind::LowStretchRope, "type B: elongation from 50 kg to 150 kg", (AtMost, Value::Ratio(0.05)), Seen),
    other("en1891_b_slip", EN1891, GearKind::LowStretchRope, "type B: slip of the sheath", (AtMost, Value::Meters(0.015)), Seen),
    other("en1891_a_knotability", EN1891, GearKind::LowStretchRope, "type A: knotability", (AtMost, Value::Ratio(1.2)), Seen),
    strength("nfpa_rope_g", NFPA, GearKind::LowStretchRope, "general use: strength", 40.0, PartlySeen),
    strength("nfpa_rope_t", NFPA, GearKind::LowStretchRope, "technical use: strength", 20.0, PartlySeen),
    strength("nfpa_rope_escape", NFPA, GearKind::LowStretchRope, "escape: strength", 13.5, PartlySeen),
    other("nfpa_rope_elongation_least", NFPA, GearKind::LowStretchRope, "elongation at a tenth of the strength", (AtLeast, Value::Ratio(0.01)), Seen),
    other("nfpa_rope_elongation_most", NFPA, GearKind::LowStretchRope, "elongation at a tenth of the strength", (AtMost, Value::Ratio(0.1)), Seen),
    strength("en12275_b_closed", EN12275, GearKind::Connector, "type B: major axis, gate closed", 20.0, Seen),
    other("en12275_b_open", EN12275, GearKind::Connector, "type B: major axis, gate open", (AtLeast, Value::Kilonewtons(7.0)), Seen),
    other("en12275_b_minor", EN12275, GearKind::Connector, "type B: minor axis", (AtLeast, Value::Kilonewtons(7.0)), Seen),
    strength("en12275_h_closed", EN12275, GearKind::Connector, "type H: major axis, gate closed", 20.0, Seen),
    other("en12275_h_open", EN12275, GearKind::Connector, "type H: major axis, gate open", (AtLeast, Value::Kilonewtons(6.0)), Seen),
    other("en12275_h_minor", EN12275, GearKind::Connector, "type H: minor axis", (AtLeast, Value::Kilonewtons(7.0)), Seen),
    strength("en12275_k_closed", EN12275, GearKind::Connector, "type K: major axis, gate closed", 25.0, Seen),
    other("en12275_k_open", EN12275, GearKind::Connector, "type K: major axis, gate open", (AtLeast, Value::Kilonewtons(8.0)), Seen),
    other("en12275_k_minor", EN12275, GearKind::Connector, "type K: minor axis", (AtLeast, Value::Kilonewtons(7.0)), Seen),
    strength("en12275_a_closed", EN12275, GearKind::Connector, "type A: major axis, gate closed", 20.0, Seen),
    other("en12275_a_open", EN12275, GearKind::Connector, "type A: major axis, gate open", (AtLeast, Value::Kilonewtons(7.0)), Seen),
    strength("en12275_t_closed", EN12275, GearKind::Connector, "type T: major axis, gate closed", 20.0, Seen),
    other("en12275_t_open", EN12275, GearKind::Connector, "type T: major axis, gate open", (AtLeast, Value::Kilonewtons(7.0)), Seen),
    strength("en12275_q_closed", EN12275, GearKind::Connector, "type Q: major axis, gate closed", 25.0, Seen),
    other("en12275_q_minor", EN12275, GearKind::Connector, "type Q: minor axis", (AtLeast, Value::Kilonewtons(10.0)), Seen),
    strength("en12275_x_closed", EN12275, GearKind::Connector, "type X: major axis, gate closed", 18.0, Seen),
    other("en12275_x_open", EN12275, GearKind::Connector, "type X: major axis, gate open", (AtLeast, Value::Kilonewtons(5.0)), Seen),
    other("en12275_x_minor", EN12275, GearKind::Connector, "type X: minor axis", (AtLeast, Value::Kilonewtons(7.0)), Seen),
    strength("en362_b", EN362, GearKind::Connector, "class B: major axis", 20.0, Memory),
    other("en362_side", EN362, GearKind::Connector, "side", (AtLeast, Value::Kilonewtons(15.0)), Memory),
    strength("nfpa_connector_t_closed", NFPA, GearKind::Connector, "technical use: major axis, gate closed", 27.0, PartlySeen),
    other("nfpa_connector_t_open", NFPA, GearKind::Connector, "technical use: major axis, gate open", (AtLeast, Value::Kilonewtons(7.0)), PartlySeen),
    other("nfpa_connector_t_minor", NFPA, GearKind::Connector, "technical use: minor axis", (AtLeast, Value::Kilonewtons(7.0)), PartlySeen),
    strength("nfpa_connector_g_closed", NFPA, GearKind::Connector, "general use: major axis, gate closed", 40.0, PartlySeen),
    other("nfpa_connector_g_open", NFPA, GearKind::Connector, "general use: major axis, gate open", (AtLeast, Value::Kilonewtons(11.0)), PartlySeen),
    other("nfpa_connector_g_minor", NFPA, GearKind::Connector, "general use: minor axis", (AtLeast, Value::Kilonewtons(11.0)), PartlySeen),
    strength("en12277_c", EN12277, GearKind::Harness, "type C, sit harness", 15.0, Memory),
    strength("en12277_a_up", EN12277, GearKind::Harness, "type A, full body: up", 15.0, Memory),
    other("en12277_a_down", EN12277, GearKind::Harness, "type A, full body: down", (AtLeast, Value::Kilonewtons(10.0)), Memory),
    strength("en12277_b_up", EN12277, GearKind::Harness, "type B, small full body: up", 10.0, Memory),
    other("en12277_b_down", EN12277, GearKind::Harness, "type B, small full body: down", (AtLeast, Value::Kilonewtons(7.0)), Memory),
    strength("en12277_d", EN12277, GearKind::Harness, "type D, chest harness", 10.0, Memory),
    strength("en361_up", EN361, GearKind::Harness, "full body: up", 15.0, Memory),
    other("en361_down", EN361, GearKind::Harness, "full body: down", (AtLeast, Value::Kilonewtons(10.0)), Memory),
    strength("en567", EN567, GearKind::RopeClamp, "force without damage to the rope", 4.0, Memory),
    strength("en959_radial", EN959_UIAA, GearKind::RockAnchor, "radial", 25.0, Memory),
    strength("en959_axial", EN959_UIAA, GearKind::RockAnchor, "axial", 15.0, Memory),
    strength("uiaa123_radial", UIAA_123, GearKind::RockAnchor, "class 1: radial", 25.0, Memory),
    strength("uiaa123_axial", UIAA_123, GearKind::RockAnchor, "class 1: axial", 20.0, Memory),
    strength("en568", EN568, GearKind::IceScrew, "strength", 10.0, MemoryLow),
    strength("en569_safety_normal", EN569, GearKind::Piton, "safety piton: normal", 25.0, MemoryLow),
    other("en569_safety_reverse", EN569, GearKind::Piton, "safety piton: reverse", (AtLeast, Value::Kilonewtons(10.0)), MemoryLow),
    other("en569_safety_transverse", EN569, GearKind::Piton, "safety piton: transverse", (AtLeast, Value::Kilonewtons(15.0)), MemoryLow),
    strength("en569_progression_normal", EN569, GearKind::Piton, "progression piton: normal", 12.5, MemoryLow),
    other("en569_progression_reverse", EN569, GearKind::Piton, "progression piton: reverse", (AtLeast, Value::Kilonewtons(5.0)), MemoryLow),
    other("en569_progression_transverse", EN569, GearKind::Piton, "progression piton: transverse", (AtLeast, Value::Kilonewtons(7.5)), MemoryLow),
    strength("en12276", EN12276, GearKind::FrictionAnchor, "strength", 5.0, Memory),
    strength("en12270", EN12270, GearKind::Chock, "strength", 2.0, Memory),
    strength("en12278", EN12278, GearKind::Pulley, "strength", 12.0, MemoryLow),
    strength("uiaa127", UIAA_127, GearKind::Pulley, "strength", 12.0, MemoryLow),
    strength("nfpa_pulley_t", NFPA, GearKind::Pulley, "technical use: strength", 22.0, PartlySeen),
    strength("nfpa_pulley_g", NFPA, GearKind::Pulley, "general use: strength", 36.0, PartlySeen),
    strength("en354_textile", EN354, GearKind::Lanyard, "textile: strength", 22.0, Memory),
    strength("en354_metal", EN354, GearKind::Lanyard, "metal: strength", 15.0, Memory),
    strength("en795_metal", EN795, GearKind::AnchorDevice, "metal: static strength, 3 min", 12.0, Seen),
    strength("en795_textile", EN795, GearKind::AnchorDevice, "any part not of metal: static strength, 3 min", 18.0, Seen),
    other("cents16415_user", CEN_TS_16415, GearKind::AnchorDevice, "added for each further user", (AtLeast, Value::Kilonewtons(1.0)), Memory),
    other("en958_adult", EN958, GearKind::EnergyAbsorber, "via ferrata set: force of 120 kg", (AtMost, Value::Kilonewtons(6.0)), Memory),
    other("en958_child", EN958, GearKind::EnergyAbsorber, "via ferrata set: force of 40 kg", (AtMost, Value::Kilonewtons(3.5)), Memory),
    other("en958_braking", EN958, GearKind::EnergyAbsorber, "via ferrata set: braking length", (AtMost, Value::Meters(2.2)), Memory),
    other("en355_force", EN355_AND, GearKind::EnergyAbsorber, "force of the arrest", (AtMost, Value::Kilonewtons(6.0)), Memory),
    other("en355_extension", EN355, GearKind::EnergyAbsorber, "extension", (AtMost, Value::Meters(1.75)), Memory),
    other("en13414_factor", EN13414_1, GearKind::WireRopeSling, "breaking force over load limit", (AtLeast, Value::Ratio(5.0)), Seen),
    other("en13414_ferrule", EN13414_1, GearKind::WireRopeSling, "part of the rope's strength that a ferrule keeps", (AtLeast, Value::Ratio(0.9)), Seen),
    other("en1492_factor", EN1492, GearKind::TextileSling, "breaking force over load limit", (AtLeast, Value::Ratio(7.0)), Memory),
];
