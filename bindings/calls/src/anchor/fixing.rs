//! Bolts, natural anchors and hitches.

use tautwork::anchor::{Block, BoltGroup, BoltLimits, Hitch, SlingMode, Trunk};

use crate::Call;

pub(crate) const CALLS: &[Call] = &[
    call!(anchor::block_hold { &Block }),
    call!(anchor::bolt_group { &BoltGroup }),
    call!(anchor::bolt_use(&limits: BoltLimits, axis: [f64; 3], [force])),
    call!(anchor::choke_angle_factor(choke_angle) => Text),
    call!(anchor::hitch_strength { &Hitch }),
    call!(anchor::interaction_rules() => Always),
    call!(anchor::sling_mode_factor(mode: SlingMode, angle_from_vertical)),
    call!(anchor::tree_stress { &Trunk }),
    call!(anchor::wire_rope_sling_limit(
        diameter, rope_grade, termination, mode_factor,
    ) => Text),
];
