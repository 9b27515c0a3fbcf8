"""Webbing and rope between points: alone, under loads, in wind, or tied to others at a ring.

x runs along the span from the near anchor, y to the left, z up. Lengths and weights count per rest
length. The stretch of a line is a mapping as in `material`.
"""

from ._building import *  # noqa: F403
from ._chain import *  # noqa: F403
from ._derivatives import *  # noqa: F403
from ._recoil import *  # noqa: F403
from ._rings import *  # noqa: F403
from ._rules import *  # noqa: F403
from ._solve import *  # noqa: F403
from ._tables import *  # noqa: F403
from ._tensioning import *  # noqa: F403
from ._vibration import *  # noqa: F403
from ._walk import *  # noqa: F403

# Written out, since type checkers read no sums of lists.
__all__ = [  # noqa: F405
    "angle_table",
    "bounce",
    "building_states",
    "bundle_engagement",
    "bundle_rest_length_for_tension",
    "cable_modes",
    "catenary",
    "catenary_from_sag",
    "chain_at",
    "chain_at_x",
    "chain_derivatives",
    "chain_modes",
    "change_line",
    "elastic_derivatives",
    "hardware_gives",
    "irvine_caughey",
    "lengths_to_bring",
    "load_cell_reading",
    "mid_load_table",
    "pull_in",
    "recoil",
    "rest_length_for_mid_load_sag",
    "rest_length_for_sag",
    "rest_length_for_tension",
    "ring_losses",
    "roll",
    "roll_rests",
    "rules_chart",
    "rules_of_thumb",
    "sag_table",
    "soft_release",
    "solve_bundle",
    "solve_chain",
    "solve_elastic",
    "solve_elastic_batch",
    "solve_net",
    "solve_rings",
    "stand",
    "string_modes",
    "sweep_bundle",
    "sweep_bundle_batch",
    "sweep_rings",
    "table_text",
    "tension_by_strokes",
    "tension_from_bounce",
    "tension_from_pluck",
    "walk_envelope",
    "wind_load",
]
