"""How hard a rope stops a fall: on any stretch, damped, over edges, with slip, on a leash from a line."""

from ._damped import *  # noqa: F403
from ._dropped import *  # noqa: F403
from ._leash import *  # noqa: F403
from ._redirect import *  # noqa: F403
from ._slip import *  # noqa: F403
from ._stop import *  # noqa: F403

# Written out, since type checkers read no sums of lists.
__all__ = [  # noqa: F405
    "arrest",
    "arrest_damped",
    "arrest_over_edge",
    "arrest_over_edges",
    "arrest_repeated",
    "arrest_shared",
    "arrest_with_slip",
    "dropped",
    "en892_checks",
    "fall_factor",
    "impact_force",
    "implied_axial_rigidity",
    "leash_fall",
    "series_stiffness",
]
