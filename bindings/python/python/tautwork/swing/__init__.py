"""The jump: from the waiting loop of rope to rest, reduced and full; what comes near what."""

from ._apart import *  # noqa: F403
from ._before import *  # noqa: F403
from ._edge import *  # noqa: F403
from ._full import *  # noqa: F403
from ._jump import *  # noqa: F403
from ._seek import *  # noqa: F403
from ._terrain import *  # noqa: F403

# Written out, since type checkers read no sums of lists.
__all__ = [  # noqa: F405
    "apart_in_flight",
    "clearance_history",
    "envelope",
    "exits_that_clear",
    "fly",
    "fly_full",
    "highest_exit_for_peak",
    "least_apart",
    "mesh_edges",
    "outlook",
    "rope_clearance_history",
    "rope_length_for_lowest",
    "rope_on_edge",
    "rope_on_mesh",
    "step_off",
    "terrain_facts",
    "waiting",
    "wind_sweep",
]
