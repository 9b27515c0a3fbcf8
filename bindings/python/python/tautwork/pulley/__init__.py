"""Rope paths over pulleys: forces to raise, hold and lower, with losses; travel, hauls, the way back."""

from ._capstan import *  # noqa: F403
from ._diagram import *  # noqa: F403
from ._haul import *  # noqa: F403
from ._lift import *  # noqa: F403
from ._loss import *  # noqa: F403
from ._lower import *  # noqa: F403
from ._network import *  # noqa: F403
from ._way import *  # noqa: F403

# Written out, since type checkers read no sums of lists.
__all__ = [  # noqa: F405
    "capstan_hold",
    "capstan_ratio",
    "climb_bounce",
    "compare_hauls",
    "diagram",
    "haul_fails",
    "haul_jerk",
    "haul_work",
    "implied_mu",
    "lifted_pendulum",
    "lowering",
    "ordinary",
    "ordinary_systems",
    "over_edges",
    "pull_over_lip",
    "sheave_loss",
    "solve",
    "tackle",
    "way_back",
    "wrap_to_hold",
]
