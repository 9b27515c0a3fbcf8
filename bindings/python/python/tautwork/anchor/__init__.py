"""Legs to a master point, self-adjusting anchors, anchors of anchors, bolts, natural anchors and hitches, raised frames."""

from ._adjust import *  # noqa: F403
from ._fixing import *  # noqa: F403
from ._frame import *  # noqa: F403
from ._legs import *  # noqa: F403
from ._system import *  # noqa: F403

# Written out, since type checkers read no sums of lists.
__all__ = [  # noqa: F405
    "adjusted_cone",
    "adjusted_loss",
    "adjusted_rest",
    "block_hold",
    "bolt_group",
    "bolt_use",
    "break_in_time",
    "buckling",
    "choke_angle_factor",
    "equilibrium",
    "frame_forces",
    "frame_lift",
    "frame_window",
    "hitch_strength",
    "interaction_rules",
    "lose_guy",
    "lose_leg",
    "pull_cone",
    "sling_factor",
    "sling_mode_factor",
    "system_losses",
    "system_rest",
    "tree_stress",
    "v_angle_factor",
    "wire_rope_sling_limit",
]
